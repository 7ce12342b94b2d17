// A click in the 3D view chooses the plate everywhere.
#include "tests/ui_window/bench.h"
#include "ui/fit/fit_view.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_list.h"
#include "ui/sheets/sheet_board.h"
#include "ui/tables/plates_model.h"
#include "ui/tables/plates_table.h"
#include <QApplication>
#include <QListView>
#include <QScreen>
#include <QTest>
#include <QWindow>
#include <set>

namespace slab::ui::test {
namespace {

class Pick : public WindowTest {
protected:
    /// A click as the display server would send it: to the 3D window, through the application.
    static void click(const QPointF& at) {
        QObject* surface = part<FitView>().surface();
        const QPoint px(static_cast<int>(at.x()), static_cast<int>(at.y()));
        if (auto* native = qobject_cast<QWindow*>(surface))
            QTest::mouseClick(native, Qt::LeftButton, {}, px);
        else
            QTest::mouseClick(qobject_cast<QWidget*>(surface), Qt::LeftButton, {}, px);
        QCoreApplication::processEvents();
    }
    static QImage sheetsOnScreen() { return part<SheetBoard>().grab().toImage(); }
    /// What stands on the display where the 3D view is.
    static QImage fitOnScreen() {
        auto& view = part<FitView>();
        const QPoint corner = view.mapToGlobal(QPoint(0, 0));
        return view.screen()
            ->grabWindow(0, corner.x(), corner.y(), view.width(), view.height())
            .toImage()
            .convertToFormat(QImage::Format_RGB32);
    }
};

/// Colours in the middle of a picture, a few hundred samples.
std::size_t coloursOf(const QImage& image) {
    std::set<QRgb> colours;
    for (int y = image.height() / 5; y < image.height() * 3 / 5; y += 5)
        for (int x = image.width() / 5; x < image.width() * 4 / 5; x += 5) colours.insert(image.pixel(x, y));
    return colours.size();
}

TEST_F(Pick, AClickOnAPlateChoosesItInPanelsSheetsAndTables) {
    session().select({});
    QCoreApplication::processEvents();
    auto& fit = part<FitView>();
    int clicked = 0;
    for (const char* name :
         {"hull/deck", "wheelhouse/starboard", "hull/starboard#1", "wheelhouse/top", "pump house/top"}) {
        const auto at = fit.pixelOf(name);
        if (!at) continue; // turned away from the eye
        const QImage before = sheetsOnScreen();
        click(*at);
        ++clicked;
        EXPECT_EQ(session().selection().plate, name);
        // Panels: the row of the list, and the drawing.
        auto& list = part<PanelList>();
        const int row = list.list()->currentIndex().row();
        EXPECT_TRUE(list.model().row(row).plates.contains(name)) << name;
        const Json report = reportOf(session());
        for (const Json& panel : report.at("panels"))
            for (const Json& plate : panel.at("plates"))
                if (plate == name) {
                    EXPECT_EQ(static_cast<std::size_t>(part<PanelCanvas>().outlineOnScreen().size()),
                              panel.at("outer_mm").size());
                }
        // Tables: the row of the plate.
        auto& table = part<PlatesTable>();
        EXPECT_EQ(table.plates()->nameAt(table.currentIndex().row()), name);
        EXPECT_TRUE(table.selectionModel()->isRowSelected(table.currentIndex().row(), {}));
        // Sheets: the middle of its own place changes colour, other plates' places do not.
        const QImage after = sheetsOnScreen();
        auto& board = part<SheetBoard>();
        int mine = 0, changedElsewhere = 0;
        for (int s = 0; s < static_cast<int>(board.sheets().size()); ++s)
            for (const LaidPanel& piece : board.sheets()[static_cast<std::size_t>(s)].panels) {
                int changed = 0, looked = 0;
                const Box2 box = bounds(piece.outer);
                for (int i = 1; i < 12; ++i)
                    for (int k = 1; k < 12; ++k) {
                        const Vec2 p = box.min + Vec2(box.size().x() * i / 12, box.size().y() * k / 12);
                        if (!contains(piece.footprint, p)) continue;
                        const QPoint px = board.viewOf(s).toScreen(p).toPoint();
                        if (!after.rect().contains(px)) continue;
                        ++looked;
                        changed += before.pixel(px) != after.pixel(px);
                    }
                if (piece.plate == name) {
                    mine += changed;
                    EXPECT_GT(changed, looked / 2) << name << " is not marked on sheet " << s + 1;
                } else if (changed > looked / 2 && piece.panel != name) {
                    ++changedElsewhere;
                }
            }
        EXPECT_GT(mine, 0) << name;
        EXPECT_LE(changedElsewhere, 2) << "only the plate chosen before, and copies, change too";
    }
    EXPECT_GE(clicked, 3);
    click({3, 3});
    EXPECT_TRUE(session().selection().plate.isEmpty()) << "bare ground chooses nothing";
}

TEST_F(Pick, AClickOnASheetChoosesThePlateInTheOtherViews) {
    session().select({});
    auto& board = part<SheetBoard>();
    const LaidPanel* piece = nullptr;
    int sheet = 0;
    for (int s = 0; s < static_cast<int>(board.sheets().size()); ++s)
        for (const LaidPanel& p : board.sheets()[static_cast<std::size_t>(s)].panels)
            if (p.panel == "hull/transom") piece = &p, sheet = s;
    ASSERT_TRUE(piece);
    const Box2 box = bounds(piece->outer);
    const QPointF at = board.viewOf(sheet).toScreen(Vec2((box.min + box.max) / 2));
    QTest::mouseClick(&board, Qt::LeftButton, {}, at.toPoint());
    EXPECT_EQ(session().selection().plate, "hull/transom");
    auto& list = part<PanelList>();
    EXPECT_EQ(list.model().row(list.list()->currentIndex().row()).name, "hull/transom");
}

TEST_F(Pick, TheBodyIsDrawnOnTheDisplay) {
    if (!part<FitView>().usesOpenGl())
        GTEST_SKIP() << "no display with OpenGL here: run under xvfb-run to see Qt3D draw";
    session().select({});
    window().raise();
    QImage seen;
    EXPECT_TRUE(waitFor([&] { return coloursOf(seen = fitOnScreen()) > 8; }, 20000))
        << "the 3D window stays empty";
    session().selectPlate("hull/deck");
    EXPECT_TRUE(waitFor([&] { return fitOnScreen() != seen; }, 20000)) << "choosing a plate does not show";
}

} // namespace
} // namespace slab::ui::test
