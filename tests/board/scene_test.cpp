// What stands where on the board.
#include "core/board/sheet.h"
#include "core/board/silhouette.h"
#include "core/document/file.h"
#include "tests/board/make.h"
#include <algorithm>
#include <filesystem>
#include <numbers>

using namespace slab;
using namespace slab::test;

TEST(Board, eachElevationHasItsAxes) {
    const Vec3 p(1, 2, 3);
    EXPECT_EQ(seen(p, BoardView::side), Vec2(1, 3));
    EXPECT_EQ(seen(p, BoardView::front), Vec2(2, 3))
        << "port (y > 0) is on the right when the boat is seen from ahead";
    EXPECT_EQ(seen(p, BoardView::plan), Vec2(1, 2));
    EXPECT_STREQ(axisOf(BoardView::front, 0), "y");
    EXPECT_STREQ(axisOf(BoardView::plan, 1), "y");
    for (const BoardView v : boardViews) EXPECT_EQ(*parseView(viewName(v)), v);
    EXPECT_FALSE(parseView("top"));
}

TEST(Board, profileFormsShowOutlineAndHalfWidths) {
    const BoardScene scene = sceneOf(boat("0.5"));
    const BoardPoint& stem = pointIn(scene, BoardView::side, {"/forms/0/outline/2", Handle::corner});
    EXPECT_EQ(stem.name, "hull/stem head");
    EXPECT_LT((stem.at - Vec2(2000, 750)).norm(), 1e-9);
    EXPECT_TRUE(stem.freeRight && stem.freeUp);
    EXPECT_EQ(find(scene, BoardView::side, {"/forms/0/outline/2", Handle::halfWidth}), nullptr);
    const BoardPoint& half = pointIn(scene, BoardView::front, {"/forms/0/outline/2", Handle::halfWidth});
    EXPECT_LT((half.at - Vec2(450, 750)).norm(), 1e-9);
    const auto& front = scene.of(BoardView::front).points;
    EXPECT_EQ(std::count_if(front.begin(), front.end(), [](const BoardPoint& p) { return p.mirrored; }), 5)
        << "starboard, drawn only";
    for (const BoardPoint& p : front) EXPECT_TRUE(!p.mirrored || (p.knobs.empty() && p.at.x() < 0));
}

TEST(Board, edgesRunBetweenTheirPoints) {
    Project p = boat();
    Curve c;
    c.from = "forefoot";
    c.to = "stem head";
    c.bulge = "100 mm";
    c.facets = "3";
    std::get<ProfileShape>(p.forms[0].shape).curves = {c};
    const BoardScene scene = sceneOf(p);
    const BoardElevation& side = scene.of(BoardView::side);
    const auto edge = std::find_if(side.edges.begin(), side.edges.end(),
                                   [](const BoardEdge& e) { return e.pointer == "/forms/0/outline/1"; });
    ASSERT_NE(edge, side.edges.end());
    EXPECT_EQ(side.points[static_cast<std::size_t>(edge->from)].name, "hull/forefoot");
    EXPECT_EQ(side.points[static_cast<std::size_t>(edge->to)].name, "hull/stem head");
    // The drawn line lies on the circle through the ends with that sagitta (textbook circle geometry).
    const Vec2 a = edge->line.front(), b = edge->line.back(), chord = b - a;
    const double radius = chord.squaredNorm() / 800 + 50;
    const Vec2 out = Vec2(chord.y(), -chord.x()).normalized(), centre = (a + b) / 2 + out * (100 - radius);
    for (const Vec2& q : edge->line) EXPECT_NEAR((q - centre).norm(), radius, 1e-9);
    const BoardPoint& bulge = pointIn(scene, BoardView::side, {"/forms/0/curves/0", Handle::curve});
    EXPECT_NEAR((bulge.at - centre).norm(), radius, 1e-9);
}

TEST(Board, tiltedPlatesAreDrawnInTheirPlane) {
    Project p = boat();
    PlateShape fin;
    fin.outline = {planPoint("a", 0, 0), planPoint("b", 400, 0), planPoint("c", 0, 300)};
    p.forms.push_back(named("fin", fin));
    p.forms[2].at.roll = "90 deg";
    p.forms[2].at.z = "1.5 m";
    const BoardScene scene = sceneOf(p);
    const BoardPoint& peak = pointIn(scene, BoardView::side, {"/forms/2/outline/2", Handle::corner});
    EXPECT_LT((peak.at - Vec2(0, 1800)).norm(), 1e-9);
    EXPECT_TRUE(peak.freeRight && peak.freeUp);
    const BoardPoint& edgeOn = pointIn(scene, BoardView::plan, {"/forms/2/outline/2", Handle::corner});
    EXPECT_TRUE(edgeOn.freeRight);
    EXPECT_FALSE(edgeOn.freeUp);
}

TEST(Board, roundFormsHaveEndsAndRadii) {
    Project p = boat();
    RoundShape pipe;
    pipe.diameter = "200 mm";
    pipe.length = "1 m";
    p.forms.push_back(named("pipe", pipe));
    p.forms[2].at = {"1 m", "0", "1.5 m", "", "90 deg", "", {}}; // lies ahead
    const BoardScene scene = sceneOf(p);
    const PointRef end{"/forms/2", Handle::roundEnd}, radius{"/forms/2", Handle::radius},
        cone{"/forms/2", Handle::topRadius};
    EXPECT_LT((pointIn(scene, BoardView::side, end).at - Vec2(2000, 1500)).norm(), 1e-9);
    EXPECT_NEAR(std::abs(pointIn(scene, BoardView::side, radius).at.y() - 1500), 100, 1e-9);
    const Vec2 out = pointIn(scene, BoardView::side, radius).at - Vec2(1000, 1500);
    const Project wide = applied(p, movePoints(p, scopeIn(p), BoardView::side, {radius}, out * 0.5));
    EXPECT_EQ(std::get<RoundShape>(wide.forms[2].shape).diameter, "300 mm");
    const Project tapered = applied(p, movePoints(p, scopeIn(p), BoardView::side, {cone}, -out * 0.5));
    EXPECT_EQ(std::get<RoundShape>(tapered.forms[2].shape).diameter, "200 mm");
    EXPECT_EQ(std::get<RoundShape>(tapered.forms[2].shape).top_diameter, "100 mm");
    const Project longer = applied(p, movePoints(p, scopeIn(p), BoardView::side, {end}, {250, 40}));
    EXPECT_EQ(std::get<RoundShape>(longer.forms[2].shape).length, "1250 mm");
}

TEST(Board, samplesAreDrawnWhole) {
    const Project p = sample("harbour-fire-boat");
    const Evaluation e = evaluated(p, Effort::fitOnly);
    const BoardScene scene = boardScene(p, e);
    for (const BoardElevation& v : scene.views) {
        EXPECT_EQ(v.skin.size(), e.body->skin.edges.size());
        EXPECT_TRUE(std::any_of(v.shapes.begin(), v.shapes.end(),
                                [](const BoardShape& s) { return s.kind == "rider"; }));
        EXPECT_TRUE(std::any_of(v.shapes.begin(), v.shapes.end(),
                                [](const BoardShape& s) { return s.kind == "opening"; }));
        // The skin lies within what the board calls its bounds.
        EXPECT_LE(v.bounds.min.x(), seen(e.body->bounds.min, v.view).x() + 1e-6);
        EXPECT_GE(v.bounds.max.y(), seen(e.body->bounds.max, v.view).y() - 1e-6);
    }
}

TEST(Board, aFrameIsDrawnAsLongAsItsBoards) {
    const auto read = loadProject(std::filesystem::path(SLABSIDE_SOURCE_DIR) /
                                  "tests/evaluate/documents/marsh-crawler.slabside.json");
    ASSERT_TRUE(read);
    const Evaluation e = Evaluator().evaluate(*read, Effort::live);
    ASSERT_TRUE(e.plates);
    int told = 0;
    for (const bool made : {true, false}) {
        Evaluation shown = e;
        if (!made) shown.plates = nullptr; // the boards are still being cut
        const BoardScene scene = boardScene(*read, shown);
        for (const BoardElevation& view : scene.views)
            for (const BoardShape& shape : view.shapes) {
                if (shape.kind != "frame") continue;
                for (const Ring& line : shape.rings) {
                    ASSERT_EQ(line.size(), 2U);
                    const Vec2 way = (line[1] - line[0]).normalized();
                    // The boards' own solids along the line: they have a thickness besides.
                    double low = 1e9, high = -1e9;
                    for (const Plate& plate : e.plates->plates)
                        if (plate.form == "frames/" + shape.name)
                            for (const Vec3& p : plate.solid.vertices) {
                                low = std::min(low, (seen(p, view.view) - line[0]).dot(way));
                                high = std::max(high, (seen(p, view.view) - line[0]).dot(way));
                            }
                    ASSERT_LT(low, high) << shape.name;
                    // Of the skin a line runs to the outside: past the plates and the gap.
                    const double off = made ? 10 : 60;
                    EXPECT_NEAR(low, 0, off) << shape.name << " in view " << viewName(view.view);
                    EXPECT_NEAR(high, (line[1] - line[0]).norm(), off) << shape.name;
                    ++told;
                }
            }
    }
    EXPECT_GE(told, 8);
}

// A ball is a circle from all sides; a cylinder from its side a rectangle.
TEST(Silhouette, closedForms) {
    const Ring ball = detail::silhouette(makeCapsule({1, 2, 3}, {1, 2, 3}, 10), BoardView::front);
    for (const Vec2& p : ball) EXPECT_NEAR((p - Vec2(2, 3)).norm(), 10, 1e-9);
    const Ring drum = detail::silhouette(makeCylinder({0, 0, 0}, {0, 0, 50}, 10), BoardView::side);
    EXPECT_NEAR(signedArea(drum), 50 * 20, 50 * 20 * 0.01);
    const Ring box = detail::silhouette(makeBoxSolid({0, 0, 0}, {3, 4, 5}), BoardView::plan);
    EXPECT_NEAR(signedArea(box), 12, 1e-12);
}

TEST(Sheet, elevationsInProjection) {
    const BoardScene scene = sceneOf(boat());
    const BoardSheet sheet = layOut(scene, 300);
    EXPECT_EQ(sheet.origin[0], Vec2(0, 0));
    EXPECT_EQ(sheet.origin[1].y(), 0) << "heights are shared";
    EXPECT_EQ(sheet.origin[2].x(), 0) << "lengths are shared";
    EXPECT_GE(sheet.area[1].min.x(), sheet.area[0].max.x() + 300 - 1e-9);
    EXPECT_LE(sheet.area[2].max.y(), sheet.area[0].min.y() - 300 + 1e-9);
    EXPECT_EQ(viewAt(sheet, sheet.toSheet(BoardView::plan, {1000, 0})), BoardView::plan);
    auto random = seeded(2);
    for (int i = 0; i < 100; ++i) {
        const Vec3 p(uniform(random, 0, 4000), uniform(random, -900, 900), uniform(random, 0, 2500));
        for (const ProjectionLine& l : projectionLines(sheet, p))
            EXPECT_LT(std::min(std::abs(l.from.x() - l.to.x()), std::abs(l.from.y() - l.to.y())), 1e-9)
                << "level or plumb";
        // The turn lies on the 45° line.
        const Vec2 turn = projectionLines(sheet, p)[2].to - sheet.corner;
        EXPECT_NEAR(turn.x(), turn.y(), 1e-9);
    }
}

TEST(Picking, pointsBeforeEdgesBeforeShapes) {
    const Project p = boat();
    const BoardScene scene = sceneOf(p);
    const BoardElevation& side = scene.of(BoardView::side);
    const Picked point = nearest(side, {3990, 1495}, 20);
    ASSERT_EQ(point.what, Picked::What::point);
    EXPECT_EQ(side.points[static_cast<std::size_t>(point.index)].name, "hull/stem head");
    const Picked edge = nearest(side, {3000, 1505}, 20);
    ASSERT_EQ(edge.what, Picked::What::edge);
    EXPECT_EQ(side.edges[static_cast<std::size_t>(edge.index)].pointer, "/forms/0/outline/2");
    EXPECT_NEAR(edge.distance, 5, 1e-9);
    EXPECT_EQ(nearest(side, {3000, 1100}, 20).what, Picked::What::nothing);
    // The house's front corners lie behind each other.
    const Picked corner = nearest(side, {1700, 2500}, 20);
    ASSERT_EQ(corner.what, Picked::What::point);
    EXPECT_EQ(together(side, corner.index).size(), 2U);
    EXPECT_EQ(inside(side, {{3000, 0}, {4500, 1600}}).size(), 2U) << "forefoot and stem head";
}
