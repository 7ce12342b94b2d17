// Mirrored copies and the offset of dimension lines, by real events.
#include "tests/ui_board/board_bench.h"
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

/// A plate on the port side, mirrored to starboard.
Project wings() {
    Project project;
    project.title = "wings";
    project.scale = "1";
    Form form;
    form.name = "wing";
    form.mirror = true;
    PlateShape plate;
    for (const auto& [name, x, y] : {std::tuple("a", "0", "300 mm"), std::tuple("b", "1 m", "300 mm"),
                                     std::tuple("c", "1 m", "700 mm"), std::tuple("d", "0", "700 mm")}) {
        OutlinePoint p;
        p.name = name;
        p.x = x;
        p.y = y;
        plate.outline.push_back(p);
    }
    form.shape = plate;
    project.forms.push_back(form);
    return project;
}

const OutlinePoint& cornerOf(const Project& project, std::size_t index) {
    return std::get<PlateShape>(project.forms.at(0).shape).outline.at(index);
}

TEST(Copies, AClickOnACopyChoosesItsOriginalAndSaysWhy) {
    BoardBench b(wings());
    b.click(BoardView::plan, {1000, -700});
    ASSERT_EQ(b.desk().choice().points.size(), 1U);
    EXPECT_EQ(b.desk().choice().points.front().pointer, "/forms/0/outline/2");
    EXPECT_TRUE(b.view->helpWords().contains("mirrored copy")) << b.view->helpWords().toStdString();
    b.key(Qt::Key_Escape);
    b.click(BoardView::plan, {500, -700});
    ASSERT_EQ(b.desk().choice().edges.size(), 1U);
    EXPECT_EQ(b.desk().choice().edges.front(), "/forms/0/outline/2");
    EXPECT_FALSE(b.session->history().canUndo()) << "choosing changes nothing";
}

TEST(Copies, ADraggedCopyTakesItsOriginalTheOtherWayAcross) {
    BoardBench b(wings());
    const Project before = b.project();
    b.drag(b.px(BoardView::plan, {1000, -700}), b.px(BoardView::plan, {1200, -900}), Qt::AltModifier);
    const double px = 2 / b.canvas().view().scale + b.canvas().step();
    const Vec2 moved = b.at(BoardView::plan, "wing/c");
    EXPECT_NEAR(moved.x(), 1200, px);
    EXPECT_NEAR(moved.y(), 900, px) << "port goes out as starboard does";
    b.session->undo();
    EXPECT_EQ(b.project(), before) << "one step";
    // An edge, seen from ahead: to the right is port there.
    b.drag(b.px(BoardView::plan, {500, -700}), b.px(BoardView::plan, {500, -800}), Qt::AltModifier);
    EXPECT_NEAR(b.at(BoardView::plan, "wing/c").y(), 800, px);
    EXPECT_NEAR(b.at(BoardView::plan, "wing/d").y(), 800, px);
    EXPECT_EQ(cornerOf(b.project(), 0), cornerOf(before, 0));
}

TEST(Copies, AnOriginalInTheSamePlaceComesFirst) {
    Project project = wings();
    std::get<PlateShape>(project.forms[0].shape).outline[0].y = "0";
    BoardBench b(project);
    b.click(BoardView::plan, {0, 0});
    EXPECT_FALSE(b.view->helpWords().contains("mirrored copy"));
}

TEST(Copies, ADimensionLineIsDraggedOffItsPoints) {
    Project project = test::hull();
    project.lines.push_back({"line 1", "side", "hull/stern", "hull/deck", "x", {}, {}, {}});
    BoardBench b(project);
    const auto line = [&] { return b.desk().scene().of(BoardView::side).dimensions.at(0); };
    EXPECT_NEAR(line().lineFrom.y(), 1150, 1e-9) << "the usual offset";
    const auto middle = [&] { return Vec2((line().lineFrom + line().lineTo) / 2); };
    const double px = 2 / b.canvas().view().scale + b.canvas().step();
    b.drag(b.px(BoardView::side, middle()), b.px(BoardView::side, middle() + Vec2(0, 250)));
    EXPECT_NEAR(line().lineFrom.y(), 1400, px);
    EXPECT_EQ(b.desk().choice().dimension, 0);
    b.drag(b.px(BoardView::side, middle()), b.px(BoardView::side, {middle().x(), 600}));
    EXPECT_NEAR(line().lineFrom.y(), 600, px) << "below both points";
    EXPECT_NEAR(line().value, 1000, 1e-9) << "it measures what it did";
    b.session->undo();
    b.session->undo();
    EXPECT_EQ(b.project(), project);
}

} // namespace
} // namespace slab::ui
