// The window on a low, narrow screen: everything that is needed to choose a joint, see a stop, or print is
// there.
#include "tests/ui_window/bench.h"
#include "ui/findings/findings_card.h"
#include "ui/findings/findings_model.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_view.h"
#include "ui/tables/plates_table.h"
#include "ui/tables/table_section.h"
#include "ui/theme/theme.h"
#include "ui/window/left_column.h"
#include "ui/window/notice.h"
#include "ui/window/print_dialog.h"
#include "ui/window/side_column.h"
#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScrollBar>
#include <QTest>
#include <QToolButton>
#include <QWheelEvent>
#include <algorithm>

namespace slab::ui::test {
namespace {

class SmallScreen : public WindowTest {
protected:
    void SetUp() override {
        open(boat);
        window().notice()->hide();
        size(1366, 768);
    }
    void TearDown() override {
        window().notice()->hide();
        size(1580, 980);
    }
    static void size(int width, int height) {
        window().resize(width, height);
        EXPECT_TRUE(waitFor([&] { return window().size() == QSize(width, height); }, 5000));
        for (int i = 0; i < 5; ++i) QCoreApplication::processEvents();
    }
    static QRect placeIn(const QWidget& of, const QWidget& in) {
        return {of.mapTo(&in, QPoint()), of.size()};
    }
    /// The whole bar is inside the view, nothing in it lies over anything else or is squeezed.
    static void expectWhole(const std::string& when) {
        auto& bar = part<JointBar>();
        auto& view = part<PanelView>();
        ASSERT_TRUE(bar.isVisible()) << when;
        std::vector<std::pair<QRect, std::string>> places;
        for (const QWidget* w : bar.findChildren<QWidget*>()) {
            if (!w->isVisible() || !w->findChildren<QWidget*>().isEmpty()) continue;
            const QRect place = placeIn(*w, view);
            const std::string name =
                w->accessibleName().toStdString() + " " + w->metaObject()->className() + " " + when;
            EXPECT_TRUE(view.rect().contains(place))
                << name << " ends at " << place.bottom() << " of " << view.height();
            if (const auto* label = qobject_cast<const QLabel*>(w)) {
                EXPECT_GE(w->height(), label->heightForWidth(w->width())) << name;
            } else {
                EXPECT_GE(w->height(), w->minimumSizeHint().height()) << name;
                EXPECT_GE(w->width(), w->minimumSizeHint().width()) << name;
            }
            for (const auto& [other, what] : places)
                EXPECT_FALSE(place.intersects(other)) << name << " over " << what;
            places.emplace_back(place, name);
        }
        for (const EdgeChoice choice : {EdgeChoice::thisCovers, EdgeChoice::neighbourCovers,
                                        EdgeChoice::mitre, EdgeChoice::fold, EdgeChoice::open})
            EXPECT_TRUE(bar.button(choice)->isVisible()) << when;
        EXPECT_TRUE(bar.ruleButton()->isVisible()) << when;
        const auto& canvas = part<PanelCanvas>();
        EXPECT_GE(canvas.height(), 100) << when;
        for (const QRectF& words : canvas.wordsOnScreen())
            EXPECT_TRUE(QRectF(canvas.rect()).adjusted(-1, -1, 1, 1).contains(words))
                << when << ": words at " << words.top() << "…" << words.bottom() << " of " << canvas.height();
    }
    static int jointEdge(const std::string& plate) {
        for (const Plate& p : shown().plates->plates)
            for (std::size_t i = 0; p.name == plate && i < p.boundary.edges.size(); ++i)
                if (p.boundary.edges[i].role == EdgeRole::covers ||
                    p.boundary.edges[i].role == EdgeRole::butts)
                    return static_cast<int>(i);
        return -1;
    }
};

TEST_F(SmallScreen, EveryJointCanBeChosen) {
    for (const char* plate : {"hull/port#1", "hull/deck", "wheelhouse/starboard"}) {
        const int edge = jointEdge(plate);
        ASSERT_GE(edge, 0) << plate;
        session().selectPlate(plate, edge);
        for (int i = 0; i < 5; ++i) QCoreApplication::processEvents();
        expectWhole(plate);
        window().notice()->tell(Notice::Kind::running, "A line that takes some of the height.");
        for (int i = 0; i < 5; ++i) QCoreApplication::processEvents();
        expectWhole(std::string(plate) + " under a banner");
        window().notice()->hide();
    }
    const QString words = part<JointBar>().button(EdgeChoice::mitre)->text();
    QTest::mouseClick(part<JointBar>().button(EdgeChoice::mitre), Qt::LeftButton);
    rest();
    EXPECT_TRUE(session().history().undoLabel().starts_with(words.toStdString()));
    expectWhole("mitred");
}

TEST_F(SmallScreen, ThePanelIsDrawnAtAUsefulSize) {
    session().selectPlate("hull/port#1");
    for (int i = 0; i < 5; ++i) QCoreApplication::processEvents();
    const QRectF drawn = part<PanelCanvas>().outlineOnScreen().boundingRect();
    EXPECT_GT(drawn.width(), 105);
    EXPECT_GT(drawn.height(), 42);
}

TEST_F(SmallScreen, AStopIsSeenAtOnce) {
    auto& findings = part<FindingsCard>();
    SideColumn* right = nullptr;
    for (auto* column : window().findChildren<SideColumn*>())
        if (column->button(&findings)) right = column;
    ASSERT_TRUE(right && right->folded());
    ASSERT_EQ(findings.count(Severity::stop), 0);
    EXPECT_FALSE(findings.isVisible()) << "the totals are in front while nothing stops";
    // A formula that names what is not there stops the build.
    ASSERT_TRUE(session().apply(setValue("/forms/0/outline/0/x", "\"no_such_size\"")));
    rest();
    const int stops = findings.count(Severity::stop);
    ASSERT_GT(stops, 0);
    const QString tab = right->button(&findings)->text();
    EXPECT_TRUE(tab.contains(countWords(Severity::stop, stops))) << tab.toStdString();
    EXPECT_FALSE(right->button(&findings)->icon().isNull()) << "a shape, not colour alone";
    EXPECT_TRUE(findings.isVisible()) << "the punch list comes to the front";
    session().undo();
    rest();
    EXPECT_FALSE(right->button(&findings)->text().contains("stop"));
}

TEST_F(SmallScreen, TheListOfTheDialogKeepsOffTheRest) {
    for (const bool dark : {false, true}) {
        Theme::setDark(dark);
        session().select({});
        PrintDialog dialog(&session(), &window());
        dialog.resize(dialog.width(), dialog.minimumHeight());
        dialog.show();
        for (int i = 0; i < 5; ++i) QCoreApplication::processEvents();
        EXPECT_LT(dialog.height(), 700);
        const QRect list = placeIn(*dialog.list(), dialog);
        EXPECT_GT(list.height(), 60);
        for (const QWidget* w : dialog.findChildren<QWidget*>()) {
            if (w->parentWidget() != &dialog || w == dialog.list() || !w->isVisible()) continue;
            EXPECT_FALSE(placeIn(*w, dialog).intersects(list)) << w->metaObject()->className();
        }
        // An empty box is as light (or dark) as the card that it stands on; a ticked one is not.
        QListWidget& rows = *dialog.list();
        rows.item(1)->setCheckState(Qt::Checked);
        QCoreApplication::processEvents();
        const auto boxOf = [&](int row) {
            const QRect line = rows.visualItemRect(rows.item(row));
            return rows.viewport()->grab(QRect(line.left() + 6, line.center().y() - 2, 9, 5)).toImage();
        };
        const auto away = [&](const QImage& box) {
            double sum = 0;
            for (int x = 0; x < box.width(); ++x)
                for (int y = 0; y < box.height(); ++y)
                    sum += std::abs(qGray(box.pixel(x, y)) - qGray(Theme::colours().card.rgb()));
            return sum / (box.width() * box.height());
        };
        EXPECT_LT(away(boxOf(0)), 20) << (dark ? "dark" : "light");
        EXPECT_GT(away(boxOf(1)), 40) << (dark ? "dark" : "light");
    }
    Theme::setDark(false);
}

TEST_F(SmallScreen, EveryPlateCanBeReachedByTheWheel) {
    auto& left = part<LeftColumn>();
    const auto section =
        std::find_if(left.sections().begin(), left.sections().end(),
                     [](const TableSection* s) { return s->findChild<PlatesTable*>() != nullptr; });
    ASSERT_NE(section, left.sections().end());
    auto& plates = part<PlatesTable>();
    left.findChild<SideColumn*>()->reveal(*section);
    ASSERT_TRUE(waitFor([&] { return plates.isVisible(); }, 5000));
    for (int i = 0; i < 5; ++i) QCoreApplication::processEvents();
    const QRect place = placeIn(plates, left);
    EXPECT_TRUE(left.rect().contains(place)) << place.bottom() << " of " << left.height();
    QScrollBar* bar = plates.verticalScrollBar();
    ASSERT_GT(bar->maximum(), 0);
    for (int i = 0; i < 100; ++i) {
        const QPointF middle = plates.viewport()->rect().center();
        QWheelEvent wheel(middle, plates.viewport()->mapToGlobal(middle), {}, {0, -120}, Qt::NoButton,
                          Qt::NoModifier, Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(plates.viewport(), &wheel);
    }
    EXPECT_EQ(bar->value(), bar->maximum());
    const QModelIndex last = plates.model()->index(plates.model()->rowCount() - 1, 0);
    EXPECT_TRUE(plates.viewport()->rect().contains(plates.visualRect(last).center()));
}

} // namespace
} // namespace slab::ui::test
