// Dragging the rule: everything that is shown follows, agrees with the report, comes back with undo, and the
// window answers all the while.
#include "core/document/file.h"
#include "tests/ui_window/bench.h"
#include "ui/panels/panel_canvas.h"
#include "ui/ruler/rule_strip.h"
#include "ui/ruler/scale_ruler.h"
#include "ui/sheets/sheet_board.h"
#include "ui/totals/totals_card.h"
#include "ui/window/document_file.h"
#include <QAccessible>
#include <QLabel>
#include <QLineEdit>
#include <QProcess>
#include <QTest>
#include <algorithm>
#include <cmath>
#include <set>

namespace slab::ui::test {
namespace {

class Ruler : public WindowTest {
protected:
    static RuleStrip& rule() { return *window().ruler()->rule(); }
    /// On the handle's own line, where the rule's body is.
    static QPoint at(double scale) { return {static_cast<int>(std::lround(rule().xOf(scale))), 48}; }
    /// Grabs the handle, moves it in small steps as a hand does, lets go.
    static void drag(double to) {
        const double from = rule().scale();
        QTest::mousePress(&rule(), Qt::LeftButton, {}, at(from));
        for (int i = 1; i <= 12; ++i) QTest::mouseMove(&rule(), at(from + (to - from) * i / 12));
        QTest::mouseRelease(&rule(), Qt::LeftButton, {}, at(to));
    }
    static QString built() {
        for (const auto* label : window().ruler()->findChildren<QLabel*>())
            if (label->accessibleName() == "Built size") return label->text();
        return {};
    }
};

/// Where the size of the body does not matter.
class SmallRuler : public Ruler {
protected:
    void SetUp() override { open(crawler); }
};

void expectTotals(const Json& report, const std::function<QString(const QString&)>& total,
                  const Session& session) {
    const Json& t = report.at("totals");
    EXPECT_EQ(total("sheets"), QString::number(t.at("sheets").get<int>()));
    EXPECT_EQ(total("panels"), QString::number(t.at("panels").get<int>()));
    EXPECT_EQ(total("shell mass"), QString::fromStdString(printMass(t.at("mass_kg").get<double>(), session.unitStyle())));
    EXPECT_EQ(total("used"), QString("%1 %").arg(t.at("used_percent").get<double>(), 0, 'f', 0));
    const QString cost = QString::number(t.at("cost").get<double>(), 'f', 2);
    EXPECT_TRUE(total("cost").contains(cost.endsWith(".00") ? cost.chopped(3) : cost))
        << total("cost").toStdString() << " is not " << cost.toStdString();
    const bool hits = report.at("fit").at("state") == "hits";
    EXPECT_EQ(total("least gap"),
              hits ? QString("hits")
                   : QString::fromStdString(printLength(
                         report.at("fit").at("least_clearance_mm").get<double>(), session.unitStyle())));
}

/// The layout on the board is the report's, piece by piece.
void expectSheets(const Json& report, const SheetBoard& board) {
    ASSERT_EQ(board.sheets().size(), report.at("sheets").size());
    for (std::size_t i = 0; i < board.sheets().size(); ++i) {
        const LaidSheet& laid = board.sheets()[i];
        const Json& sheet = report.at("sheets").at(i);
        EXPECT_FALSE(laid.provisional);
        EXPECT_EQ(laid.length, sheet.at("size_mm").at(0).get<double>());
        EXPECT_EQ(laid.width, sheet.at("size_mm").at(1).get<double>());
        ASSERT_EQ(laid.panels.size(), sheet.at("panels").size()) << "sheet " << i + 1;
        for (std::size_t k = 0; k < laid.panels.size(); ++k) {
            const Json& place = sheet.at("panels").at(k);
            ASSERT_EQ(laid.panels[k].panel, place.at("panel").get<std::string>());
            const Ring ring = ringOf(panelIn(report, laid.panels[k].panel).at("outer_mm"));
            ASSERT_EQ(ring.size(), laid.panels[k].outer.size());
            // Turned about its origin, then moved: resources/report.md.
            const double turn = place.at("rotation_deg").get<double>() * M_PI / 180;
            const double flip = place.at("flipped").get<bool>() ? -1 : 1;
            for (std::size_t p = 0; p < ring.size(); ++p) {
                const Vec2 own(ring[p].x(), flip * ring[p].y());
                const Vec2 on(
                    place.at("x_mm").get<double>() + std::cos(turn) * own.x() - std::sin(turn) * own.y(),
                    place.at("y_mm").get<double>() + std::sin(turn) * own.x() + std::cos(turn) * own.y());
                ASSERT_LT((on - laid.panels[k].outer[p]).norm(), 1e-9) << laid.panels[k].panel << " " << p;
            }
        }
    }
}

/// Points of the outline as drawn, in mm.
Ring drawnOutline(const PanelCanvas& canvas) {
    Ring ring;
    for (const QPointF& p : canvas.outlineOnScreen()) ring.push_back(canvas.view().toPaper(p));
    return ring;
}

TEST_F(Ruler, ADragIsFollowedByEverythingAndAgreesWithTheReport) {
    choosePanel("hull/deck");
    const Ring before = drawnOutline(part<PanelCanvas>());
    const QStringList totalsBefore = allTotals();
    drag(0.45);
    QElapsedTimer clock;
    clock.start();
    EXPECT_FALSE(session().dragging());
    EXPECT_EQ(session().project().scale, "0.45");
    EXPECT_EQ(window().ruler()->entry()->text(), "0.45");
    ASSERT_TRUE(waitFor([] { return shown().fit && shown().fit->confirmed && shown().scale == 0.45; }));
    std::printf("the verdict was shown %lld ms after the hand let go, the best layout %s\n",
                static_cast<long long>(clock.elapsed()), session().busy() ? "later" : "with it");
    rest();
    const Json report = freshReport(session().project());
    EXPECT_EQ(report.at("scale").get<double>(), 0.45);
    EXPECT_NE(allTotals(), totalsBefore);
    expectTotals(
        report, [](const QString& name) { return total(name); }, session());
    expectSheets(report, part<SheetBoard>());

    const Ring drawn = drawnOutline(part<PanelCanvas>());
    const Ring said = ringOf(panelIn(report, "hull/deck").at("outer_mm"));
    ASSERT_EQ(drawn.size(), said.size());
    for (std::size_t i = 0; i < said.size(); ++i) EXPECT_LT((drawn[i] - said[i]).norm(), 1e-9) << i;
    EXPECT_NE(drawn, before);
    const Json& box = report.at("skin").at("bounds_mm");
    const double length = box.at(1).at(0).get<double>() - box.at(0).at(0).get<double>();
    EXPECT_TRUE(built().contains(QString::fromStdString(printLength(length, session().unitStyle()))))
        << built().toStdString();
}

TEST_F(SmallRuler, TheProgramReportsTheSavedFileAsTheWindowShowsIt) {
    drag(0.53);
    rest();
    ASSERT_TRUE(window().file()->save());
    QProcess program;
    program.start(SLABSIDE_PROGRAM, {"report", path(), "--json"});
    ASSERT_TRUE(waitFor([&] { return program.state() == QProcess::NotRunning; }));
    ASSERT_EQ(program.exitStatus(), QProcess::NormalExit);
    EXPECT_LT(program.exitCode(), 2) << program.readAllStandardError().toStdString();
    const Json report = Json::parse(program.readAllStandardOutput().toStdString());
    // Everything but the seconds it took: the very same figures, to the last digit.
    EXPECT_EQ(report, reportOf(session()));
    expectTotals(
        report, [](const QString& name) { return total(name); }, session());
    expectSheets(report, part<SheetBoard>());
}

TEST_F(SmallRuler, UndoAndRedoBringBackDocumentAndFigures) {
    choosePanel("cabin/port");
    const QByteArray file = bytesOf(path());
    const std::string first = writeProject(session().project());
    const QStringList totals = allTotals();
    const QString size = built();
    const Ring outline = drawnOutline(part<PanelCanvas>());
    const Json sheets = reportOf(session()).at("sheets");
    drag(0.46);
    rest();
    const std::string second = writeProject(session().project());
    const QStringList totalsThen = allTotals();
    const Ring outlineThen = drawnOutline(part<PanelCanvas>());
    EXPECT_NE(second, first);
    EXPECT_NE(totalsThen, totals);

    press("Undo"); // the whole drag is one step
    rest();
    EXPECT_EQ(writeProject(session().project()), first);
    EXPECT_EQ(allTotals(), totals);
    EXPECT_EQ(built(), size);
    EXPECT_EQ(drawnOutline(part<PanelCanvas>()).size(), outline.size());
    for (std::size_t i = 0; i < outline.size(); ++i)
        EXPECT_LT((drawnOutline(part<PanelCanvas>())[i] - outline[i]).norm(), 1e-9);
    EXPECT_EQ(reportOf(session()).at("sheets"), sheets);
    EXPECT_EQ(window().ruler()->entry()->text().toStdString(), session().project().scale);
    EXPECT_TRUE(session().history().isSaved());

    press("Redo");
    rest();
    EXPECT_EQ(writeProject(session().project()), second);
    EXPECT_EQ(allTotals(), totalsThen);
    for (std::size_t i = 0; i < outlineThen.size(); ++i)
        EXPECT_LT((drawnOutline(part<PanelCanvas>())[i] - outlineThen[i]).norm(), 1e-9);
    EXPECT_EQ(bytesOf(path()), file) << "nothing was saved";
}

TEST_F(Ruler, SaysPlainlyWhenAPanelIsLargerThanItsSheet) {
    ASSERT_TRUE(waitFor([] { return session().surveyIsCurrent(); }));
    const auto stateWords = [] {
        for (const auto* label : window().ruler()->findChildren<QLabel*>())
            if (label->accessibleName() == "Scale survey state") return label->text();
        return QString();
    };
    EXPECT_FALSE(stateWords().contains("larger than"));
    const double outgrown = rule().range().second * 0.97;
    drag(outgrown);
    rest();
    const Json report = reportOf(session());
    std::set<std::string> panels;
    for (const Json& u : report.at("unplaced")) panels.insert(u.at("panel").get<std::string>());
    for (const Json& s : report.at("seams")) panels.insert(s.at("panel").get<std::string>());
    ASSERT_FALSE(panels.empty()) << "the deck is longer than the sheet there";
    const QString words = panels.size() == 1
                              ? QString("1 panel larger than its sheet")
                              : QString("%1 panels larger than their sheets").arg(panels.size());
    EXPECT_EQ(stateWords(), words);
    QString row;
    for (const QString& r : allTotals())
        if (r.startsWith("sheets: ")) row = r;
    EXPECT_TRUE(row.contains(words)) << row.toStdString();
    ASSERT_TRUE(waitFor([] { return session().surveyIsCurrent(); }));
    EXPECT_TRUE(rule().wordsAt(outgrown).contains("larger than")) << rule().wordsAt(outgrown).toStdString();
    EXPECT_TRUE(rule().wordsAt(0.4).contains("6 sheets, $")) << rule().wordsAt(0.4).toStdString();
}

TEST_F(SmallRuler, SpeaksItsValueAndIsMovedByAScreenReader) {
    ASSERT_TRUE(waitFor([] { return session().surveyIsCurrent(); }));
    QAccessibleInterface* access = QAccessible::queryAccessibleInterface(&rule());
    ASSERT_TRUE(access && access->valueInterface());
    EXPECT_EQ(access->role(), QAccessible::Slider);
    EXPECT_EQ(access->valueInterface()->currentValue().toDouble(), 0.5);
    EXPECT_LT(access->valueInterface()->minimumValue().toDouble(), 0.5);
    EXPECT_GT(access->valueInterface()->maximumValue().toDouble(), 0.5);
    EXPECT_EQ(access->text(QAccessible::Value), rule().wordsAt(0.5));
    EXPECT_TRUE(access->text(QAccessible::Value).startsWith("scale 0.5: "))
        << access->text(QAccessible::Value).toStdString();
    const Project before = session().project();
    access->valueInterface()->setCurrentValue(0.54);
    EXPECT_EQ(session().project().scale, "0.54");
    EXPECT_FALSE(session().dragging());
    EXPECT_TRUE(access->text(QAccessible::Description).startsWith("scale 0.54"))
        << access->text(QAccessible::Description).toStdString();
    session().undo();
    EXPECT_EQ(session().project(), before);
}

TEST_F(Ruler, TheWindowAnswersWhileEverythingIsWorkedOut) {
    // The handle swings for three seconds with nesting, verdict and survey behind it.
    QElapsedTimer clock;
    std::vector<double> gaps;
    qint64 last = 0;
    QTimer tick;
    tick.setTimerType(Qt::PreciseTimer);
    QObject::connect(&tick, &QTimer::timeout, [&] {
        const qint64 now = clock.nsecsElapsed();
        gaps.push_back(static_cast<double>(now - last) / 1e6);
        last = now;
    });
    const double middle = rule().scale();
    QTest::mousePress(&rule(), Qt::LeftButton, {}, at(middle));
    clock.start();
    tick.start(5);
    int step = 0, shownDuring = 0;
    QTimer hand;
    QObject::connect(&hand, &QTimer::timeout, [&] {
        const double swing = std::sin(2 * M_PI * ++step / 90.0);
        QTest::mouseMove(&rule(), at(middle * (1 + 0.1 * swing)));
    });
    const auto counted = QObject::connect(&session(), &Session::evaluationChanged, [&] { ++shownDuring; });
    hand.start(16);
    ASSERT_TRUE(waitFor([&] { return clock.elapsed() > 3000; }));
    hand.stop();
    QTest::mouseRelease(&rule(), Qt::LeftButton, {}, at(middle * 1.05));
    ASSERT_TRUE(waitFor([&] { return !session().busy(); })) << "the verdict and the layout after the drag";
    tick.stop();
    QObject::disconnect(counted);
    std::sort(gaps.begin(), gaps.end());
    const double p95 = gaps[static_cast<std::size_t>(0.95 * static_cast<double>(gaps.size() - 1))];
    std::printf(
        "gaps between ticks of 5 ms: p50 %.1f ms, p95 %.1f ms, largest %.1f ms; %d evaluations shown\n",
        gaps[gaps.size() / 2], p95, gaps.back(), shownDuring);
    EXPECT_LT(gaps.back(), 1000) << "the window stood still";
    EXPECT_GT(shownDuring, 5) << "nothing was shown during the drag";
}

} // namespace
} // namespace slab::ui::test
