// Frames, seams and mechanisms by hand.
#include "core/board/part_edits.h"
#include "core/board/seam_edits.h"
#include "core/board/turn_edits.h"
#include "tests/board/crate.h"
#include <numbers>

using namespace slab;
using namespace slab::test;

namespace {

constexpr double degree = std::numbers::pi / 180;

const BoardShape& frameIn(const BoardScene& scene, BoardView view, const std::string& name) {
    for (const BoardShape& shape : scene.of(view).shapes)
        if (shape.kind == "frame" && shape.name == name) return shape;
    ADD_FAILURE() << "no frame " << name;
    static const BoardShape none;
    return none;
}

const Panel& panelOf(const Evaluation& e, const std::string& plate) {
    for (const Panel& panel : *e.panels)
        if (panel.isOf(plate)) return panel;
    ADD_FAILURE() << plate;
    return e.panels->front();
}

} // namespace

TEST(FrameEdits, TheStretchSaysWhichWayItRuns) {
    const Vec2 none = Vec2::Zero(), level(30, 5), plumb(-4, 30);
    EXPECT_EQ(frameAxis(BoardView::side, none), "x");
    EXPECT_EQ(frameAxis(BoardView::side, plumb), "x");
    EXPECT_EQ(frameAxis(BoardView::side, level), "z");
    EXPECT_EQ(frameAxis(BoardView::plan, none), "y");
    EXPECT_EQ(frameAxis(BoardView::plan, level), "y");
    EXPECT_EQ(frameAxis(BoardView::plan, plumb), "x");
    EXPECT_EQ(frameAxis(BoardView::front, none), "y");
    EXPECT_EQ(frameAxis(BoardView::front, level), "z");
}

TEST(FrameEdits, ANewFrameStandsWhereItWasClicked) {
    for (const double scale : {1.0, 0.5}) {
        const Project p = crate("2 m", "0", scale);
        const Scope scope = scopeOf(p, scale);
        Project q = applied(p, addFrame(p, scope, BoardView::side, "x", Vec2(700, 300), 1));
        q = applied(q, addFrame(q, scope, BoardView::side, "x", Vec2(400, 300), 1));
        q = applied(q, addFrame(q, scope, BoardView::front, "z", Vec2(0, 350), 1));
        ASSERT_EQ(q.frames.size(), 3U);
        EXPECT_EQ(q.frames[0].name, "bulkhead");
        EXPECT_EQ(q.frames[1].name, "bulkhead 2");
        EXPECT_EQ(q.frames[2].name, "shelf");
        EXPECT_EQ(q.frames[0].station, scale == 1 ? "700 mm" : "1400 mm");
        const Evaluation e = evaluated(q);
        const BoardShape shape = frameIn(boardScene(q, e), BoardView::side, "bulkhead");
        EXPECT_EQ(shape.pointer, "/frames/0");
        EXPECT_NEAR(shape.rings[0][0].x(), 700, 1e-6);
        EXPECT_NEAR(frameIn(boardScene(q, e), BoardView::side, "shelf").rings[0][0].y(), 350, 1e-6);
        EXPECT_NO_FATAL_FAILURE((void)plateOf(e, "frames/bulkhead"));
    }
}

TEST(FrameEdits, ADragKeepsTheStationsFormula) {
    Project p = crate("2 m", "0", 0.5);
    Rib rib;
    rib.name = "mid";
    rib.station = "long / 2";
    p.frames = {rib};
    const Scope scope = scopeOf(p, 0.5);
    MoveOptions how;
    how.step = 1;
    Project q = applied(p, movePart(p, scope, BoardView::side, "/frames/0", Vec2(40, 99), nullptr, how));
    EXPECT_EQ(q.frames[0].station, "long / 2 + 80 mm");
    q = applied(q, movePart(q, scope, BoardView::plan, "/frames/0", Vec2(-40, 7), nullptr, how));
    EXPECT_EQ(q.frames[0].station, "long / 2");
    EXPECT_EQ(movePart(p, scope, BoardView::front, "/frames/0", Vec2(40, 0), nullptr, how).error().code,
              "not-movable");
    EXPECT_EQ(movePart(p, scope, BoardView::side, "/frames/7", Vec2(40, 0), nullptr, how).error().code,
              "no-such-place");
    // A turned one follows the hand square to its line: n·D = cos(yaw) · station.
    p.frames[0].yaw = "30 deg";
    q = applied(p, movePart(p, scope, BoardView::plan, "/frames/0", Vec2(40, 0), nullptr, {}));
    const auto was = evaluate(p.frames[0].station, scope, Space::subject, Kind::length);
    const auto now = evaluate(q.frames[0].station, scope, Space::subject, Kind::length);
    EXPECT_NEAR(now->value - was->value, 40, 1e-6);
}

TEST(OpeningOnBoard, MovesAsItIsSeen) {
    Project p = crate();
    Opening o;
    o.name = "light";
    o.shape = OpeningShape::circle;
    o.diameter = "90 mm";
    o.plate = "crate/port";
    o.u = "long / 10";
    p.openings = {o};
    const Evaluation e = evaluated(p);
    const auto seenAt = [&](const Project& q) {
        const Plate plate = plateOf(evaluated(q), "crate/port");
        return seen(plate.frame.toBody(holeAt(plate, "light")), BoardView::side);
    };
    const Project q =
        applied(p, movePart(p, *e.scope, BoardView::side, "/openings/0", Vec2(70, -45), e.plates.get(), {}));
    EXPECT_LT((seenAt(q) - seenAt(p) - Vec2(70, -45)).norm(), 1e-6);
    EXPECT_TRUE(q.openings[0].u.starts_with("long / 10 ")) << q.openings[0].u;
    EXPECT_EQ(
        movePart(p, *e.scope, BoardView::plan, "/openings/0", Vec2(70, 0), e.plates.get(), {}).error().code,
        "not-movable");
}

TEST(SeamEdits, AFoundSeamBecomesTheBuildersOwnAndComesBack) {
    const Project p = crate("3 m");
    const Evaluation e = evaluated(p);
    const Panel& piece = panelOf(e, "crate/port");
    auto seams = seamsOn(p, *e.scope, *e.seams, *e.panels, piece);
    ASSERT_EQ(seams.size(), 1U);
    EXPECT_EQ(seams[0].entry, -1);
    EXPECT_NEAR(wholeBox(*e.panels, piece).size().x(), 3000, 1);
    MoveOptions how;
    how.step = 1;
    const Project q = applied(p, moveSeam(p, *e.scope, seams[0], 120, how));
    ASSERT_EQ(q.seams.size(), 1U);
    const Evaluation after = evaluated(q);
    const Panel& moved = panelOf(after, "crate/port");
    const auto now = seamsOn(q, *after.scope, *after.seams, *after.panels, moved);
    ASSERT_EQ(now.size(), 1U);
    EXPECT_EQ(now[0].entry, 0);
    EXPECT_NEAR(now[0].at, seams[0].at + 120, 0.5);
    ASSERT_FALSE(now[0].lines.empty());
    EXPECT_NEAR(now[0].lines[0].first.x() - seams[0].lines[0].first.x(), 120, 0.5);
    EXPECT_EQ(applied(q, giveBackSeam(q, now[0])).seams.size(), 0U);
    EXPECT_EQ(giveBackSeam(p, seams[0]).error().code, "no-such-place");
}

TEST(SeamEdits, AFormulaStays) {
    Project p = crate("2 m", "0", 0.5);
    Seam seam;
    seam.plate = "crate/port";
    seam.at = "long / 8";
    p.seams = {seam};
    const Evaluation e = evaluated(p);
    const auto seams = seamsOn(p, *e.scope, *e.seams, *e.panels, panelOf(e, "crate/port"));
    ASSERT_EQ(seams.size(), 1U);
    EXPECT_EQ(seams[0].entry, 0);
    const Project q = applied(p, moveSeam(p, *e.scope, seams[0], -30));
    EXPECT_EQ(q.seams[0].at, "long / 8 - 60 mm");
}

TEST(SeamEdits, ANewOneCutsWhereItWasClicked) {
    const Project p = crate();
    const Evaluation e = evaluated(p);
    const Panel& panel = panelOf(e, "crate/port");
    const Box2 box = wholeBox(*e.panels, panel);
    const SeamLine line = seamThrough(box, (box.min + box.max) / 2 + Vec2(333, 80));
    EXPECT_NEAR(line.at, 333, 1e-9);
    const Project q = applied(p, addSeam(p, *e.scope, panel, line.at, 1));
    EXPECT_EQ(q.seams[0].at, "333 mm");
    const Evaluation after = evaluated(q);
    const auto now = seamsOn(q, *after.scope, *after.seams, *after.panels, panelOf(after, "crate/port"));
    ASSERT_EQ(now.size(), 1U);
    EXPECT_NEAR(now[0].at, 333, 1e-6);
    Panel blank = panel;
    blank.folds.emplace_back();
    EXPECT_EQ(addSeam(p, *e.scope, blank, 0, 1).error().code, "no-seam-here");
}

TEST(TurnEdits, AnglesKeepTheirFormulas) {
    Scope scope;
    scope.values["aim"] = {20 * degree, Kind::angle, false, false};
    const auto shifted = [&](const Text& text, double by) {
        return *shiftedAngle(text, by * degree, scope, degree);
    };
    EXPECT_EQ(shifted("", 12.4), "12 deg");
    EXPECT_EQ(shifted("30 deg", -45), "-15 deg");
    EXPECT_EQ(shifted("30", 5), "35 deg");
    EXPECT_EQ(shifted("aim", 7), "aim + 7 deg");
    EXPECT_EQ(shifted("aim + 7 deg", -10), "aim - 3 deg");
    EXPECT_EQ(shifted("aim - 3°", 3), "aim");
    EXPECT_EQ(shiftedAngle("nobody", 1, scope).error().code, "unknown-name");
}

TEST(TurnEdits, AMechanismStopsAtItsStops) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat);
    ASSERT_FALSE(boat.mechanisms.trunnions.empty());
    const std::string name = boat.mechanisms.trunnions[0].name;
    const auto motion = std::find_if(e.mechanisms->motions.begin(), e.mechanisms->motions.end(),
                                     [&](const Motion& m) { return m.mechanism == name; });
    ASSERT_NE(motion, e.mechanisms->motions.end());
    const auto turns = turnsOf(boat, *motion);
    ASSERT_EQ(turns.size(), 2U) << "it rises, and turns with its table";
    EXPECT_EQ(turns[0].mechanism, name);
    EXPECT_EQ(turns[1].mechanism, boat.mechanisms.trunnions[0].on);
    for (const double by : {-7.0, 3.0, 400.0, -400.0}) {
        const Project q = applied(boat, turnMechanism(boat, *e.scope, turns[0], by * degree, degree));
        const auto value = evaluate(q.mechanisms.trunnions[0].angle, *e.scope, Space::build, Kind::angle);
        ASSERT_TRUE(value);
        EXPECT_NEAR(value->value, std::clamp(turns[0].shown + by * degree, turns[0].from, turns[0].to),
                    0.5 * degree + 1e-9);
        EXPECT_LE(value->value, turns[0].to + 1e-9);
        EXPECT_GE(value->value, turns[0].from - 1e-9);
    }
    TurnNow none = turns[0];
    none.mechanism = "nobody";
    EXPECT_EQ(turnMechanism(boat, *e.scope, none, 1, 0).error().code, "no-such-place");
}
