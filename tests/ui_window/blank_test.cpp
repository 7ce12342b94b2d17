// A fold chosen in the window: two plates become one blank in every view.
#include "tests/ui_window/bench.h"
#include "ui/panels/blank_edges.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/panel_canvas.h"
#include "ui/sheets/sheet_board.h"
#include <QTest>
#include <QToolButton>
#include <algorithm>

namespace slab::ui::test {
namespace {

const std::string tail = "tub/tail", rim = "tub/rim"; ///< together they still fit on a sheet

class Blanks : public WindowTest {
protected:
    void SetUp() override { open(crawler); }
    /// The blank that has this plate; null if it is a panel of its own.
    static const Panel* blankOf(const std::string& plate) {
        for (const Panel& panel : *shown().panels)
            if (!panel.folds.empty() &&
                std::find(panel.plates.begin(), panel.plates.end(), plate) != panel.plates.end())
                return &panel;
        return nullptr;
    }
    static int edgeTo(const std::string& plate, const std::string& neighbour) {
        for (const Plate& p : shown().plates->plates)
            for (std::size_t i = 0; p.name == plate && i < p.boundary.edges.size(); ++i)
                if (p.boundary.edges[i].neighbour == neighbour) return static_cast<int>(i);
        return -1;
    }
    static void choose(EdgeChoice choice) {
        QToolButton* button = part<JointBar>().button(choice);
        ASSERT_TRUE(button->isVisible());
        QTest::mouseClick(button, Qt::LeftButton);
        rest();
    }
    /// Clicks the middle of a line of the panel's drawing.
    static void click(const Panel& panel, std::size_t drawn) {
        auto& canvas = part<PanelCanvas>();
        const auto [from, to] = drawnEnds(panel, drawn);
        const Vec2 middle = (from + to) / 2;
        QTest::mouseClick(&canvas, Qt::LeftButton, {}, canvas.view().toScreen(middle).toPoint());
    }
};

TEST_F(Blanks, AFoldMakesOnePieceInEveryView) {
    const std::size_t before = shown().panels->size();
    session().selectPlate(QString::fromStdString(tail), edgeTo(tail, rim));
    choose(EdgeChoice::fold);
    ASSERT_TRUE(blankOf(tail));
    EXPECT_EQ(blankOf(tail), blankOf(rim));
    EXPECT_EQ(shown().panels->size(), before - 1);
    int pieces = 0;
    for (const LaidSheet& sheet : part<SheetBoard>().sheets())
        for (const LaidPanel& piece : sheet.panels) {
            const auto has = [&](const std::string& plate) {
                return std::find(piece.plates.begin(), piece.plates.end(), plate) != piece.plates.end();
            };
            EXPECT_EQ(has(tail), has(rim));
            pieces += has(tail);
        }
    EXPECT_EQ(pieces, 1);
    // Either plate, chosen anywhere, shows the blank; its fold line can be clicked like an edge.
    for (const std::string& plate : {rim, tail}) {
        session().selectPlate(QString::fromStdString(plate));
        const Panel& blank = *blankOf(plate);
        EXPECT_EQ(part<PanelCanvas>().outlineOnScreen().size(),
                  static_cast<qsizetype>(blank.boundary.outer.size()));
        click(blank, blank.boundary.outer.size());
        EXPECT_EQ(session().selection().plate.toStdString(), plate);
        EXPECT_EQ(session().selection().edge, edgeTo(plate, plate == tail ? rim : tail));
        EXPECT_TRUE(part<JointBar>().button(EdgeChoice::fold)->isChecked());
    }
    choose(EdgeChoice::mitre);
    EXPECT_FALSE(blankOf(tail));
    press("Undo");
    rest();
    EXPECT_TRUE(blankOf(tail));
    press("Undo");
    rest();
    EXPECT_FALSE(blankOf(tail));
    EXPECT_EQ(shown().panels->size(), before);
}

TEST_F(Blanks, AnEdgeOfTheOutlineIsThatOfItsPlate) {
    session().selectPlate(QString::fromStdString(tail), edgeTo(tail, rim));
    choose(EdgeChoice::fold);
    ASSERT_TRUE(blankOf(tail));
    const Panel blank = *blankOf(tail);
    for (std::size_t i = 0; i < blank.boundary.edges.size(); ++i) {
        const PanelEdge& edge = blank.boundary.edges[i];
        if (edge.own < 0 || edge.length < 60) continue;
        click(blank, i);
        EXPECT_EQ(session().selection().plate.toStdString(), blank.plateOf(edge)) << i;
        EXPECT_EQ(session().selection().edge, edge.own) << i;
    }
}

} // namespace
} // namespace slab::ui::test
