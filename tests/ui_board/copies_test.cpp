// Mirrored copies and the offset of dimension lines, by real events.
#include "tests/ui_board/board_bench.h"
#include <algorithm>
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

/// A house of eight corners; its faces are joined by all four walls.
Project house() {
    Project project;
    project.title = "house";
    project.scale = "1";
    FacetShape facets;
    for (int i = 0; i < 8; ++i) {
        OutlinePoint p;
        p.name = "c" + std::to_string(i);
        p.x = i == 1 || i == 2 || i == 5 || i == 6 ? "1 m" : "0";
        p.y = i == 2 || i == 3 || i == 6 || i == 7 ? "400 mm" : "-400 mm";
        p.z = i >= 4 ? "700 mm" : "0";
        facets.corners.push_back(p);
    }
    const auto face = [&](const char* name, std::initializer_list<int> corners) {
        FacetFace f;
        f.name = name;
        for (const int c : corners) f.corners.push_back("c" + std::to_string(c));
        facets.faces.push_back(f);
    };
    face("floor", {0, 3, 2, 1});
    face("roof", {4, 5, 6, 7});
    face("starboard", {0, 1, 5, 4});
    face("front", {1, 2, 6, 5});
    face("port", {2, 3, 7, 6});
    face("rear", {3, 0, 4, 7});
    Form form;
    form.name = "house";
    form.shape = facets;
    project.forms.push_back(form);
    return project;
}

TEST(Facets, ADoubleClickOnAnEdgePutsACornerIntoBothFaces) {
    BoardBench b(house());
    const Project before = b.project();
    const QPoint at = b.px(BoardView::plan, {300, 400});
    QTest::mouseMove(&b.canvas(), at);
    QTest::mouseClick(&b.canvas(), Qt::LeftButton, {}, at);
    EXPECT_EQ(b.desk().choice().points.size(), 2U) << "an edge of a facet form is its two corners";
    QTest::mouseDClick(&b.canvas(), Qt::LeftButton, {}, at);
    const auto& facets = std::get<FacetShape>(b.project().forms[0].shape);
    ASSERT_EQ(facets.corners.size(), 9U);
    const std::string name = facets.corners.back().name;
    int faces = 0;
    for (const FacetFace& f : facets.faces)
        faces += static_cast<int>(std::count(f.corners.begin(), f.corners.end(), name));
    EXPECT_EQ(faces, 2) << "every edge of a closed form has two faces";
    ASSERT_EQ(b.desk().choice().points.size(), 1U);
    EXPECT_EQ(b.desk().choice().points.front().pointer, "/forms/0/corners/8");
    EXPECT_NEAR(b.at(BoardView::plan, "house/" + name).x(), 300, 2 / b.canvas().view().scale);
    EXPECT_EQ(facets.corners.back().y, "400 mm") << "what both ends say the new one says too";
    b.session->undo();
    EXPECT_EQ(b.project(), before) << "one step";
}

TEST(Facets, InsertSplitsTheEdgeBetweenTwoChosenCornersOnlyWhereThereIsOne) {
    BoardBench b(house());
    b.desk().choose({BoardView::side,
                     {{"/forms/0/corners/0", Handle::corner}, {"/forms/0/corners/2", Handle::corner}},
                     {},
                     -1,
                     -1});
    b.key(Qt::Key_Insert);
    EXPECT_EQ(std::get<FacetShape>(b.project().forms[0].shape).corners.size(), 8U) << "no face joins these";
    EXPECT_TRUE(b.view->helpWords().contains("no edge")) << b.view->helpWords().toStdString();
    b.desk().choose({BoardView::side,
                     {{"/forms/0/corners/0", Handle::corner}, {"/forms/0/corners/1", Handle::corner}},
                     {},
                     -1,
                     -1});
    b.key(Qt::Key_Insert);
    const auto& facets = std::get<FacetShape>(b.project().forms[0].shape);
    ASSERT_EQ(facets.corners.size(), 9U);
    EXPECT_NEAR(b.at(BoardView::side, "house/" + facets.corners.back().name).x(), 500, 1e-6);
}

TEST(Facets, ADraggedEdgeTakesBothItsCornersAlong) {
    BoardBench b(house());
    b.drag(b.px(BoardView::plan, {500, 400}), b.px(BoardView::plan, {500, 500}), Qt::AltModifier);
    const double px = 2 / b.canvas().view().scale + b.canvas().step();
    int moved = 0;
    for (const BoardPoint& p : b.desk().scene().of(BoardView::plan).points)
        moved += p.ref.handle == Handle::corner && std::abs(p.at.y() - 500) < px ? 1 : 0;
    EXPECT_EQ(moved, 2);
    b.session->undo();
    EXPECT_EQ(b.project(), house());
}

} // namespace
} // namespace slab::ui
