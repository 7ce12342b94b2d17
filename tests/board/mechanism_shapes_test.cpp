// Moving parts in the elevations.
#include "core/board/mechanism_shapes.h"
#include "tests/board/make.h"
#include <algorithm>
#include <numbers>

using namespace slab;
using namespace slab::test;

namespace {

const BoardShape* shapeNamed(const BoardElevation& e, const std::string& name) {
    for (const BoardShape& s : e.shapes)
        if (s.name == name) return &s;
    return nullptr;
}

double areaOf(const BoardShape& shape) {
    double sum = 0;
    for (const Ring& ring : shape.rings) sum += signedArea(ring);
    return sum;
}

Box2 boxOf(const BoardShape& shape) {
    Box2 box = bounds(shape.rings.at(0));
    for (const Ring& ring : shape.rings) box = united(box, bounds(ring));
    return box;
}

} // namespace

// A cylinder seen along its axis is its disc, seen across a rectangle of its length and diameter.
TEST(MechanismShapes, aTubeIsItsRectangleAndItsDisc) {
    Evaluation e;
    auto set = std::make_shared<MechanismSet>();
    set->solids.push_back({"monitor", "monitor/tube", makeCylinder({100, 0, 50}, {500, 0, 50}, 30)});
    set->solids.push_back({"monitor", "monitor/hidden", makeCylinder({0, 0, 0}, {9, 0, 0}, 3)});
    set->solids.back().drawn = false;
    e.mechanisms = set;
    BoardElevation side, front;
    side.view = BoardView::side;
    front.view = BoardView::front;
    detail::addMechanisms(side, {}, {}, e);
    detail::addMechanisms(front, {}, {}, e);
    ASSERT_EQ(side.shapes.size(), 1u) << "what others are drawn for is not drawn";
    EXPECT_EQ(side.shapes[0].kind, "mechanism");
    EXPECT_NEAR(areaOf(side.shapes[0]), 400 * 60, 1e-6);
    EXPECT_EQ(boxOf(side.shapes[0]).min, Vec2(100, 20));
    const double disc = std::numbers::pi * 900;
    EXPECT_LT(areaOf(front.shapes.at(0)), disc);
    EXPECT_GT(areaOf(front.shapes.at(0)), disc * 0.99) << "32 points on the circle: 0.64 % less";
}

TEST(MechanismShapes, piecesOfOneNameAreOneRegionAsTheyAreShown) {
    Evaluation e;
    auto set = std::make_shared<MechanismSet>();
    Move raised;
    raised.slides = true;
    raised.axis = Vec3::UnitZ();
    raised.to = 300;
    raised.shown = 200;
    set->motions.push_back({"lift", {raised}});
    set->solids.push_back({"lift", "lift/arm", makeBoxSolid({0, 0, 0}, {100, 10, 10}), 0});
    set->solids.push_back({"lift", "lift/arm", makeBoxSolid({50, 0, 0}, {150, 10, 10}), 0});
    e.mechanisms = set;
    BoardElevation side;
    detail::addMechanisms(side, {}, {}, e);
    ASSERT_EQ(side.shapes.size(), 1u);
    ASSERT_EQ(side.shapes[0].rings.size(), 1u);
    EXPECT_NEAR(areaOf(side.shapes[0]), 150 * 10, 1e-3);
    EXPECT_NEAR(boxOf(side.shapes[0]).min.y(), 200, 1e-6);
}

/// The crawler's strips are bent round their wheels: nothing of them lies beyond their belt.
TEST(MechanismShapes, bentStripsLieWhereTheyAreBuilt) {
    const Project crawler = sample("moon-crawler");
    const Evaluation e = evaluated(crawler);
    const BoardScene scene = boardScene(crawler, e);
    int strips = 0;
    for (const BoardElevation& view : scene.views)
        for (const Plate& part : e.mechanisms->parts) {
            const BoardShape* shape = shapeNamed(view, part.name);
            ASSERT_NE(shape, nullptr) << part.name;
            ++strips;
            Box2 built{seen(part.solid.vertices.front(), view.view),
                       seen(part.solid.vertices.front(), view.view)};
            for (const Vec3& p : part.solid.vertices) {
                const Vec2 q = seen(p, view.view);
                built = united(built, {q, q});
            }
            const Box2 drawn = boxOf(*shape);
            EXPECT_LT((drawn.min - built.min).norm() + (drawn.max - built.max).norm(), 0.1) << part.name;
            double area = 0;
            for (const Ring& ring : shape->rings) area += signedArea(ring);
            if (view.view == BoardView::side) { // a thin band, not the hull of what it goes round
                EXPECT_LT(area, 0.5 * built.size().prod()) << part.name;
            }
        }
    EXPECT_GT(strips, 0);
}

TEST(MechanismShapes, theFireBoatsMonitorStandsInEveryElevation) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat);
    ASSERT_TRUE(e.mechanisms);
    ASSERT_FALSE(e.mechanisms->parts.empty());
    const BoardScene scene = boardScene(boat, e);
    for (const BoardElevation& view : scene.views) {
        for (const MovingSolid& s : e.mechanisms->solids)
            EXPECT_TRUE(!s.drawn || shapeNamed(view, s.name)) << s.name;
        for (const Plate& part : e.mechanisms->parts) {
            const BoardShape* shape = shapeNamed(view, part.name);
            ASSERT_NE(shape, nullptr) << part.name;
            EXPECT_EQ(shape->kind, "mechanism plate");
            EXPECT_GE(shape->rings.at(0).size(), 3u) << part.name;
            EXPECT_GE(view.bounds.max.y(), boxOf(*shape).max.y() - 1e-9) << "the sheet has room for it";
        }
    }
}
