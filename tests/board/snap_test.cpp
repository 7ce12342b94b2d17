#include "core/board/snap.h"
#include "tests/board/make.h"

using namespace slab;
using namespace slab::test;

namespace {

const PointRef stem{"/forms/0/outline/2", Handle::corner};

SnapOptions moving() {
    SnapOptions o;
    o.moving = {stem};
    return o;
}

} // namespace

TEST(Snap, pointsComeFirst) {
    const BoardScene scene = sceneOf(boat());
    SnapOptions o = moving();
    o.grid = 50;
    const Snap s = snap(scene, BoardView::side, {2008, 1493}, 20, o);
    EXPECT_EQ(s.at, Vec2(2000, 1500));
    EXPECT_EQ(s.words, "hull/deck");
    EXPECT_TRUE(s.exactRight && s.exactUp);
    EXPECT_NE(snap(scene, BoardView::side, {4005, 1495}, 20, moving()).words, "hull/stem head")
        << "not to itself";
}

TEST(Snap, featuresOfPictures) {
    Project p = boat();
    Evaluation e;
    e.scope = std::make_shared<const Scope>(scopeIn(p));
    const BoardScene scene = boardScene(p, e, {{"photo/rail end", BoardView::side, {3333, 777}}});
    const Snap s = snap(scene, BoardView::side, {3330, 780}, 10, moving());
    EXPECT_EQ(s.words, "photo/rail end");
    EXPECT_EQ(s.at, Vec2(3333, 777));
}

TEST(Snap, groundAndMiddleLine) {
    const BoardScene scene = sceneOf(boat());
    SnapOptions o = moving();
    o.alignment = o.projection = false;
    const Snap ground = snap(scene, BoardView::side, {3500, 6}, 10, o);
    EXPECT_EQ(ground.at, Vec2(3500, 0));
    EXPECT_EQ(ground.words, "on the ground");
    EXPECT_TRUE(ground.exactUp);
    EXPECT_FALSE(ground.exactRight);
    EXPECT_EQ(snap(scene, BoardView::plan, {3500, -7}, 10, o).words, "on the middle line");
}

TEST(Snap, levelAndPlumbFromTheOtherEnd) {
    const BoardScene scene = sceneOf(boat());
    SnapOptions o = moving();
    o.anchor = Vec2(3120, 311);
    const Snap plumb = snap(scene, BoardView::side, {3115, 900}, 10, o);
    EXPECT_EQ(plumb.at, Vec2(3120, 900));
    EXPECT_EQ(plumb.words, "plumb");
    ASSERT_EQ(plumb.guides.size(), 1U);
    EXPECT_EQ(plumb.guides[0].from, Vec2(3120, 311));
}

TEST(Snap, twoLinesCross) {
    const BoardScene scene = sceneOf(boat());
    SnapOptions o = moving();
    o.anchor = Vec2(3700, 2600);
    const Snap s = snap(scene, BoardView::side, {3705, 1504}, 10, o);
    EXPECT_EQ(s.at, Vec2(3700, 1500));
    EXPECT_TRUE(s.exactRight && s.exactUp);
    EXPECT_EQ(s.words, "plumb, level with hull/deck");
    EXPECT_EQ(s.guides.size(), 2U);
}

TEST(Snap, projectionFromAnotherElevation) {
    Project p = boat();
    const BoardScene scene = sceneOf(p);
    SnapOptions o;
    o.moving = {{"/forms/1/top/1", Handle::corner}};
    o.alignment = o.points = o.edges = false;
    const Snap s = snap(scene, BoardView::front, {200, 1506}, 10, o);
    EXPECT_NEAR(s.at.y(), 1500, 1e-9);
    EXPECT_NE(s.words.find("projected from hull/"), std::string::npos) << s.words;
    EXPECT_EQ(s.guides.back().view, BoardView::side);
}

TEST(Snap, edgesAndGrid) {
    const BoardScene scene = sceneOf(boat());
    SnapOptions o = moving();
    o.grid = 50;
    o.alignment = o.projection = false;
    const Snap edge = snap(scene, BoardView::side, {3, 812}, 10, o);
    EXPECT_EQ(edge.words, "on hull/transom");
    EXPECT_NEAR(edge.at.x(), 0, 1e-9);
    const Snap grid = snap(scene, BoardView::side, {3503, 2042}, 10, o);
    EXPECT_EQ(grid.at, Vec2(3500, 2050));
    EXPECT_EQ(grid.words, "grid");
    EXPECT_EQ(snap(scene, BoardView::side, {3525, 2025}, 10, o), (Snap{{3525, 2025}, false, false, "", {}}));
}

// Whatever is snapped to is within reach, and a coordinate that is told as exact is one of the scene's.
TEST(Snap, neverJumps) {
    const BoardScene scene = sceneOf(sample("harbour-fire-boat"));
    auto random = seeded(4);
    for (int i = 0; i < 500; ++i) {
        SnapOptions o;
        o.grid = i % 2 ? 25 : 0;
        const BoardView view = boardViews[static_cast<std::size_t>(below(random, 3))];
        const Vec2 at(uniform(random, -500, 2500), uniform(random, -800, 1800));
        const Snap s = snap(scene, view, at, 8, o);
        EXPECT_LE(std::abs(s.at.x() - at.x()), 8 + 1e-9);
        EXPECT_LE(std::abs(s.at.y() - at.y()), 8 + 1e-9);
        EXPECT_TRUE(!s.words.empty() || s.at == at);
    }
}
