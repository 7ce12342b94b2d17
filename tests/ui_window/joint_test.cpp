// Joints chosen in the window: the document has the choice, the corner changes, undo takes it back, and what
// cannot be says why.
#include "core/document/file.h"
#include "tests/ui_window/bench.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/panel_canvas.h"
#include "ui/sheets/sheet_board.h"
#include <QLabel>
#include <QTest>
#include <QToolButton>
#include <algorithm>
#include <cmath>

namespace slab::ui::test {
namespace {

class Joints : public WindowTest {
protected:
    void SetUp() override { open(crawler); }
    /// Clicks the middle of the drawn edge that meets `neighbour`.
    static void chooseEdge(const QString& panel, const std::string& neighbour) {
        choosePanel(panel);
        auto& canvas = part<PanelCanvas>();
        const int edge = edgeTo(panel.toStdString(), neighbour);
        ASSERT_GE(edge, 0) << neighbour;
        const QPolygonF outline = canvas.outlineOnScreen();
        const QPointF middle = (outline[edge] + outline[(edge + 1) % outline.size()]) / 2;
        QTest::mouseClick(&canvas, Qt::LeftButton, {}, middle.toPoint());
        ASSERT_EQ(session().selection().edge, edge);
        ASSERT_TRUE(part<JointBar>().isVisible());
    }
    static int edgeTo(const std::string& plate, const std::string& neighbour) {
        for (const Plate& p : shown().plates->plates)
            for (std::size_t i = 0; p.name == plate && i < p.boundary.edges.size(); ++i)
                if (p.boundary.edges[i].neighbour == neighbour) return static_cast<int>(i);
        return -1;
    }
    static PanelEdge edgeNow(const std::string& plate, const std::string& neighbour) {
        for (const Plate& p : shown().plates->plates)
            for (const PanelEdge& edge : p.boundary.edges)
                if (p.name == plate && edge.neighbour == neighbour) return edge;
        ADD_FAILURE() << plate << " does not meet " << neighbour;
        return {};
    }
    static void choose(EdgeChoice choice) {
        QToolButton* button = part<JointBar>().button(choice);
        ASSERT_TRUE(button->isVisible());
        QTest::mouseClick(button, Qt::LeftButton);
        rest();
    }
    static QString wordsInBar() {
        QStringList words;
        for (const auto* label : part<JointBar>().findChildren<QLabel*>())
            if (label->isVisible()) words << label->text();
        return words.join(' ');
    }
};

TEST_F(Joints, EveryChoiceIsInTheDocumentChangesTheCornerAndIsUndone) {
    const std::string mine = "tub/tail", other = "tub/port";
    const std::string before = writeProject(session().project());
    chooseEdge("tub/tail", other);
    const PanelEdge edgeBefore = edgeNow(mine, other);
    const std::array<std::pair<EdgeChoice, EdgeRole>, 5> choices{
        {{EdgeChoice::thisCovers, EdgeRole::covers},
         {EdgeChoice::open, EdgeRole::open},
         {EdgeChoice::neighbourCovers, EdgeRole::butts},
         {EdgeChoice::mitre, EdgeRole::mitre},
         {EdgeChoice::fold, EdgeRole::fold}}};
    for (const auto& [choice, role] : choices) {
        const char* word = roleName(role);
        choose(choice);
        ASSERT_FALSE(session().project().joints.edges.empty());
        const EdgeJoint& said = session().project().joints.edges.front();
        const bool turned = choice == EdgeChoice::neighbourCovers;
        EXPECT_EQ(said.a, turned ? other : mine) << word;
        EXPECT_EQ(said.b, turned ? mine : other) << word;
        EXPECT_EQ(edgeNow(mine, other).role, role) << word;
        EXPECT_TRUE(part<JointBar>().button(choice)->isChecked()) << word;
        EXPECT_FALSE(wordsInBar().isEmpty()) << "the bar says why";
        if (choice != EdgeChoice::mitre) continue;
        // The whole body agrees with a pipeline that never saw the document.
        EXPECT_EQ(freshReport(session().project()).at("panels"), reportOf(session()).at("panels"));
        // Equal thickness: both are cut at half the angle (compound mitre tables), 45° at a square corner.
        EXPECT_NEAR(edgeNow(mine, other).bevel, M_PI / 4, 1e-9);
        EXPECT_NEAR(edgeNow(other, mine).bevel, M_PI / 4, 1e-9);
        EXPECT_EQ(edgeBefore.bevel, 0);
    }
    for (std::size_t i = 0; i < choices.size(); ++i) press("Undo");
    rest();
    EXPECT_EQ(writeProject(session().project()), before);
    EXPECT_EQ(edgeNow(mine, other), edgeBefore);
}

TEST_F(Joints, BackToTheRuleTakesTheChoiceAway) {
    const std::string before = writeProject(session().project());
    chooseEdge("tub/tail", "tub/port");
    EXPECT_FALSE(part<JointBar>().ruleButton()->isEnabled());
    choose(EdgeChoice::mitre);
    EXPECT_NE(writeProject(session().project()), before);
    ASSERT_TRUE(part<JointBar>().ruleButton()->isEnabled());
    QTest::mouseClick(part<JointBar>().ruleButton(), Qt::LeftButton);
    rest();
    EXPECT_EQ(writeProject(session().project()), before);
}

TEST_F(Joints, AChoiceThatCannotBeSaysWhy) {
    // Card and hardboard cannot be one folded blank.
    ASSERT_TRUE(
        session().apply(insertValue("/stock/sheets", 1,
                                    R"({"name": "board_3", "kind": "hardboard", "size": ["4 ft", "8 ft"],
                                                "thickness": "3 mm", "turns": "quarter"})")));
    ASSERT_TRUE(session().apply(setValue("/materials/plates/tub~1port", "\"board_3\"")));
    rest();
    chooseEdge("tub/tail", "tub/port");
    const QString before = wordsInBar();
    choose(EdgeChoice::fold);
    const QString after = wordsInBar();
    EXPECT_NE(after, before);
    EXPECT_TRUE(after.contains(QString::fromUtf8("→"))) << "no remedy in: " << after.toStdString();
    bool found = false;
    for (const Finding& f : shown().findings) found = found || f.code == "fold-stock";
    EXPECT_TRUE(found);
    press("Undo");
    rest();
    for (const Finding& f : shown().findings) EXPECT_NE(f.code, "fold-stock");
}

} // namespace
} // namespace slab::ui::test
