// Mechanisms dragged by their handles and deleted, as edits.
#include "core/board/mechanism_edits.h"
#include "core/board/mechanism_moves.h"
#include "tests/board/crate.h"
#include <numbers>

using namespace slab;
using namespace slab::test;

namespace {

constexpr double oneDegree = std::numbers::pi / 180;

/// A crate with a turntable on its lid, a trunnion on that, a hinge, a pin and a belt.
Project moving(double scale = 0.5) {
    Project p = crate("4 m", "0", scale);
    p.dimensions.push_back({"ahead", "2.4 m", Space::subject, "", {}});
    Turntable t;
    t.name = "base";
    t.at = {"ahead", "0", "1.2 m", {}, {}, {}, {}};
    t.diameter = "150 mm";
    t.depth = "-40 mm";
    t.lip = "15 mm";
    t.lip_thickness = "4 mm";
    t.ring_stock = "foam";
    t.from = "-100 deg";
    t.to = "90 deg";
    t.angle = "90 deg";
    p.mechanisms.turntables = {t};
    Trunnion u;
    u.name = "monitor";
    u.at = {"ahead", "", "1.2 m + 300 mm", {}, {}, {}, {}};
    u.diameter = "60 mm";
    u.front = "ahead / 3";
    u.rear = "0.2 m";
    u.lowest = "0 deg";
    u.highest = "60 deg";
    u.angle = "30 deg";
    p.mechanisms.trunnions = {u};
    Linkage hinge, pin;
    hinge.name = "hinge";
    hinge.at = {"500 mm", "0", "200 mm", {}, {}, {}, {}};
    hinge.pitch_up = "4 deg";
    hinge.pitch_down = "5 deg";
    pin.name = "pin";
    pin.joint = "pin_slot";
    pin.at = {"100 mm", "0", "200 mm", {}, {}, {}, {}};
    pin.up = "20 mm";
    pin.down = "30 mm";
    p.mechanisms.linkages = {hinge, pin};
    Belt b;
    b.name = "belt";
    b.at = {"0", "wide / 2 + 0.2 m", "0", {}, {}, {}, {}};
    b.wheels = {{"rear", "0.5 m", "0.3 m", "0.4 m", {}},
                {"front", "ahead", "0.3 m", "0.4 m", {}},
                {"idler", "1.5 m", "0.5 m", "0.2 m", {}}};
    b.width = "0.2 m";
    b.moves = "idler";
    p.mechanisms.belts = {b};
    return p;
}

const BoardGrip* gripIn(const BoardScene& scene, BoardView view, const GripRef& ref) {
    for (const BoardGrip& grip : scene.of(view).grips)
        if (grip.ref == ref) return &grip;
    return nullptr;
}

const GripRef table{"/mechanisms/turntables/0", "at"}, pivot{"/mechanisms/trunnions/0", "at"};
GripRef tube(const char* key) {
    return {"/mechanisms/trunnions/0", key};
}
GripRef linkage(int i, const char* key) {
    return {"/mechanisms/linkages/" + std::to_string(i), key};
}

Project moved(const Project& p, BoardView view, const GripRef& ref, const Vec2& by, MoveOptions how = {}) {
    return applied(p, moveGrip(p, scopeIn(p), nullptr, view, ref, by, how));
}

} // namespace

// Whatever is dragged goes exactly as far as the hand, at every scale, as long as its way lies in the view.
TEST(MechanismMoves, AGripFollowsTheHand) {
    for (const double scale : {1.0, 0.4}) {
        Project p = moving(scale);
        p.mechanisms.trunnions[0].on = "base";
        p.mechanisms.turntables[0].angle = "25 deg";
        const BoardScene before = sceneOf(p);
        int seen = 0;
        for (const BoardView view : boardViews)
            for (const BoardGrip& grip : before.of(view).grips) {
                if (grip.kind != BoardGrip::Kind::place) continue;
                const bool wheel = grip.ref.pointer.find("wheels") != std::string::npos;
                const Vec2 by = wheel && view == BoardView::plan    ? Vec2(37, 0)
                                : wheel && view == BoardView::front ? Vec2(0, -11)
                                                                    : Vec2(37, -11);
                const BoardScene after = sceneOf(moved(p, view, grip.ref, by));
                const BoardGrip* now = gripIn(after, view, grip.ref);
                ASSERT_TRUE(now);
                EXPECT_LT((now->at - grip.at - by).norm(), 1e-6) << grip.name << " " << viewName(view);
                ++seen;
            }
        EXPECT_EQ(seen, 3 * (2 + 2 + 1 + 3));
    }
}

TEST(MechanismMoves, FormulasStayAndNamesAreDrivenOnDemand) {
    const Project p = moving();
    MoveOptions how;
    how.step = 1;
    Project q = moved(p, BoardView::side, pivot, {50, -25}, how);
    EXPECT_EQ(q.mechanisms.trunnions[0].at.x, "ahead + 100 mm");
    EXPECT_EQ(q.mechanisms.trunnions[0].at.z, "1.2 m + 250 mm");
    EXPECT_EQ(q.mechanisms.trunnions[0].at.y, "");
    q = moved(q, BoardView::side, pivot, {-50, 25}, how);
    EXPECT_EQ(q.mechanisms.trunnions[0].at.x, "ahead");
    how.drive = true;
    q = moved(p, BoardView::side, pivot, {50, 0}, how);
    EXPECT_EQ(q.mechanisms.trunnions[0].at.x, "ahead");
    EXPECT_EQ(q.dimensions.back().value, "2500 mm");
    // Sizes of linkages are build sizes.
    q = moved(p, BoardView::side, linkage(1, "up"), {3, 10}, {});
    EXPECT_EQ(q.mechanisms.linkages[1].up, "30 mm");
    q = moved(p, BoardView::front, linkage(1, "down"), {0, 10}, {});
    EXPECT_EQ(q.mechanisms.linkages[1].down, "20 mm");
}

TEST(MechanismMoves, ATubesEndsGoAlongTheTube) {
    Project p = moving();
    const Vec2 along(std::cos(30 * oneDegree), std::sin(30 * oneDegree));
    Project q = moved(p, BoardView::side, tube("front"), 20 * along);
    EXPECT_EQ(q.mechanisms.trunnions[0].front, "ahead / 3 + 40 mm");
    // Over something that lies beside its way it does not snap to that, and its figure stays round.
    MoveOptions met;
    met.step = 1;
    met.exactRight = met.exactUp = true;
    q = moved(p, BoardView::side, tube("front"), Vec2(17.3, 9.9), met);
    EXPECT_EQ(q.mechanisms.trunnions[0].front, "ahead / 3 + 40 mm");
    EXPECT_EQ(moved(p, BoardView::side, tube("rear"), -20 * along).mechanisms.trunnions[0].rear, "240 mm");
    // On a turntable that is turned by a quarter the tube is seen end on from the side.
    p.mechanisms.trunnions[0].on = "base";
    p.mechanisms.trunnions[0].angle = "0 deg";
    const auto stuck = moveGrip(p, scopeIn(p), nullptr, BoardView::side, tube("front"), {9, 9}, {});
    ASSERT_FALSE(stuck);
    EXPECT_EQ(stuck.error().code, "not-movable");
    EXPECT_NE(stuck.error().message.find("monitor/front end"), std::string::npos) << stuck.error().message;
    EXPECT_FALSE(gripIn(sceneOf(p), BoardView::side, tube("front")));
    q = moved(p, BoardView::front, tube("front"), {20, 0});
    EXPECT_EQ(q.mechanisms.trunnions[0].front, "ahead / 3 + 40 mm");
}

TEST(MechanismMoves, StopsTurnByWholeDegreesAndDoNotPassEachOther) {
    const Project p = moving();
    const BoardScene scene = sceneOf(p);
    MoveOptions how;
    how.step = 1;
    const BoardGrip* high = gripIn(scene, BoardView::side, tube("highest"));
    ASSERT_TRUE(high);
    EXPECT_FALSE(gripIn(scene, BoardView::plan, tube("highest"))) << "seen end on";
    const BoardGrip* at = gripIn(scene, BoardView::side, pivot);
    const auto to = [&](double angle, double far) {
        return Vec2(at->at + far * Vec2(std::cos(angle * oneDegree), std::sin(angle * oneDegree)) - high->at);
    };
    EXPECT_EQ(moved(p, BoardView::side, tube("highest"), to(47.3, 500), how).mechanisms.trunnions[0].highest,
              "47 deg");
    how.step = 0;
    EXPECT_EQ(moved(p, BoardView::side, tube("highest"), to(47.3, 90), how).mechanisms.trunnions[0].highest,
              "47.3 deg");
    how.step = 1;
    EXPECT_EQ(moved(p, BoardView::side, tube("highest"), to(-40, 500), how).mechanisms.trunnions[0].highest,
              "0 deg")
        << "not below the lowest";
    Project named = p;
    named.dimensions.push_back({"steep", "60 deg", Space::subject, "", {}});
    named.mechanisms.trunnions[0].highest = "steep";
    EXPECT_EQ(
        moved(named, BoardView::side, tube("highest"), to(70, 500), how).mechanisms.trunnions[0].highest,
        "steep + 10 deg");
    // A hinge tells both ways as angles of their own.
    const BoardGrip* down = gripIn(scene, BoardView::side, linkage(0, "pitch_down"));
    ASSERT_TRUE(down);
    const Vec2 hinge = gripIn(scene, BoardView::side, linkage(0, "at"))->at;
    const Vec2 lower = hinge + 300 * Vec2(std::cos(9 * oneDegree), -std::sin(9 * oneDegree)) - down->at;
    EXPECT_EQ(
        moved(p, BoardView::side, linkage(0, "pitch_down"), lower, how).mechanisms.linkages[0].pitch_down,
        "9 deg");
    // A turntable's in plan.
    const BoardGrip* last = gripIn(scene, BoardView::plan, {table.pointer, "to"});
    ASSERT_TRUE(last);
    const Vec2 axis = gripIn(scene, BoardView::plan, table)->at;
    const Vec2 round = axis + 80 * Vec2(std::cos(120 * oneDegree), std::sin(120 * oneDegree)) - last->at;
    EXPECT_EQ(moved(p, BoardView::plan, {table.pointer, "to"}, round, how).mechanisms.turntables[0].to,
              "120 deg");
}

TEST(MechanismMoves, WhatStandsOnATurntableGoesWithIt) {
    Project p = moving();
    p.mechanisms.trunnions[0].on = "base";
    MoveOptions how;
    how.step = 1;
    Project q = moved(p, BoardView::plan, table, {50, 20}, how);
    EXPECT_EQ(q.mechanisms.turntables[0].at.x, "ahead + 100 mm");
    EXPECT_EQ(q.mechanisms.trunnions[0].at.x, "ahead + 100 mm");
    EXPECT_EQ(q.mechanisms.turntables[0].at.y, "40 mm");
    EXPECT_EQ(q.mechanisms.trunnions[0].at.y, "40 mm");
    how.drive = true;
    q = moved(p, BoardView::side, table, {50, 0}, how);
    EXPECT_EQ(q.dimensions.back().value, "2500 mm") << "once, not twice";
    EXPECT_EQ(q.mechanisms.trunnions[0].at.x, "ahead");
    p.mechanisms.trunnions[0].on.clear();
    EXPECT_EQ(moved(p, BoardView::plan, table, {50, 20}, {}).mechanisms.trunnions[0].at.x, "ahead");
}

TEST(MechanismMoves, SizesOfDrumAndWheelGrowUnderTheHand) {
    const Project p = moving();
    Project q = moved(p, BoardView::side, {table.pointer, "diameter"}, {10, 0});
    EXPECT_EQ(q.mechanisms.turntables[0].diameter, "170 mm");
    q = moved(p, BoardView::side, {table.pointer, "depth"}, {0, 10});
    EXPECT_EQ(q.mechanisms.turntables[0].depth, "-50 mm") << "a rising drum";
    const GripRef wheel{"/mechanisms/belts/0/wheels/2", "at"};
    q = moved(p, BoardView::side, wheel, {10, 20});
    EXPECT_EQ(q.mechanisms.belts[0].wheels[2].x, "1520 mm");
    EXPECT_EQ(q.mechanisms.belts[0].wheels[2].z, "540 mm");
    q = moved(p, BoardView::front, {"/mechanisms/belts/0", "width"}, {10, 0});
    EXPECT_EQ(q.mechanisms.belts[0].width, "240 mm");
}

TEST(MechanismMoves, RefusesWhatIsNotThere) {
    Project p = moving();
    const auto code = [&](const GripRef& ref) {
        const auto edit = moveGrip(p, scopeIn(p), nullptr, BoardView::side, ref, {9, 9}, {});
        return edit ? std::string() : edit.error().code;
    };
    EXPECT_EQ(code({"/mechanisms/trunnions/4", "at"}), "no-such-place");
    EXPECT_EQ(code({"/mechanisms/belts/0/wheels/7", "at"}), "no-such-place");
    p.mechanisms.trunnions[0].at.x = "nowhere";
    EXPECT_EQ(code(pivot), "no-such-place") << "a formula without a value";
}

TEST(MechanismDeletes, NothingIsLeftThatNamesIt) {
    Project p = moving();
    p.mechanisms.trunnions[0].on = "base";
    EXPECT_EQ(standingOn(p, "base"), std::vector<std::string>{"monitor"});
    History history(p);
    ASSERT_TRUE(history.push(*deleteMechanism(p, table.pointer)));
    EXPECT_EQ(history.undoLabel(), "Delete base");
    EXPECT_TRUE(history.current().mechanisms.turntables.empty());
    EXPECT_EQ(history.current().mechanisms.trunnions[0].on, "") << "it turns with nothing";
    EXPECT_TRUE(history.undo());
    EXPECT_EQ(history.current(), p);
    for (const char* one : {"/mechanisms/trunnions/0", "/mechanisms/linkages/1", "/mechanisms/belts/0"}) {
        const Project q = applied(p, deleteMechanism(p, one));
        EXPECT_EQ(q.mechanisms.trunnions.size() + q.mechanisms.linkages.size() + q.mechanisms.belts.size(),
                  3U);
        EXPECT_EQ(mechanismAt(q, mechanismName(p, one)), "");
    }
    EXPECT_EQ(deleteMechanism(p, "/mechanisms/belts/3").error().code, "no-such-place");
    EXPECT_EQ(deleteMechanism(p, "/forms/0").error().code, "no-such-place");
}

TEST(MechanismDeletes, AWheelLeavesTwoAtLeast) {
    Project p = moving();
    EXPECT_EQ(mechanismOrWheel(p, "/mechanisms/belts/0/wheels/2/x"), "/mechanisms/belts/0/wheels/2");
    EXPECT_EQ(mechanismOrWheel(p, "/mechanisms/belts/0/wheels/9"), "/mechanisms/belts/0");
    p = applied(p, deleteMechanism(p, "/mechanisms/belts/0/wheels/2"));
    ASSERT_EQ(p.mechanisms.belts[0].wheels.size(), 2U);
    EXPECT_EQ(p.mechanisms.belts[0].moves, "") << "it was the one that is moved";
    EXPECT_EQ(deleteMechanism(p, "/mechanisms/belts/0/wheels/1").error().code, "two-wheels");
}

/// Rules that name a deleted mechanism's plates have findings that say so.
TEST(MechanismDeletes, RulesThatNamedItsPlatesAreTold) {
    Project p = moving();
    p.mechanisms.trunnions[0].on = "base";
    p.modules = {{}};
    p.modules[0].name = "top";
    p.modules[0].plates = {"base/*"};
    Opening o;
    o.name = "drain";
    o.shape = OpeningShape::circle;
    o.diameter = "10 mm";
    o.plate = "base/cap ring";
    p.openings = {o};
    const Evaluation e = evaluated(applied(p, deleteMechanism(p, table.pointer)), Effort::verdict);
    const auto told = [&](const char* code) {
        return std::any_of(e.findings.begin(), e.findings.end(),
                           [&](const Finding& f) { return f.code == code; });
    };
    EXPECT_TRUE(told("module-empty"));
    EXPECT_TRUE(told("opening-misses"));
    EXPECT_FALSE(told("trunnion-on-unknown")) << "it does not name the turntable any more";
}

// What leaves no part behind is seen all the same, by a sign at its place.
TEST(MechanismMarks, EveryMechanismHasItsSigns) {
    const Project p = moving();
    const BoardScene scene = sceneOf(p);
    const auto has = [&](BoardView view, const char* pointer, BoardMark::Kind kind) {
        const auto& marks = scene.of(view).marks;
        return std::any_of(marks.begin(), marks.end(),
                           [&](const BoardMark& m) { return m.pointer == pointer && m.kind == kind; });
    };
    using Kind = BoardMark::Kind;
    for (const BoardView view : boardViews) {
        EXPECT_TRUE(has(view, "/mechanisms/turntables/0", Kind::axis)) << viewName(view);
        EXPECT_TRUE(has(view, "/mechanisms/trunnions/0", Kind::pivot)) << viewName(view);
        EXPECT_TRUE(has(view, "/mechanisms/linkages/0", Kind::hinge)) << viewName(view);
        EXPECT_TRUE(has(view, "/mechanisms/linkages/1", Kind::pin)) << viewName(view);
        EXPECT_TRUE(has(view, "/mechanisms/belts/0", Kind::outline)) << viewName(view);
    }
    EXPECT_TRUE(has(BoardView::side, "/mechanisms/trunnions/0", Kind::range));
    EXPECT_FALSE(has(BoardView::plan, "/mechanisms/trunnions/0", Kind::range)) << "seen end on";
    EXPECT_TRUE(has(BoardView::plan, "/mechanisms/turntables/0", Kind::range));
    EXPECT_TRUE(has(BoardView::side, "/mechanisms/linkages/1", Kind::travel));
    EXPECT_FALSE(has(BoardView::plan, "/mechanisms/linkages/1", Kind::travel));
    Project off = p;
    off.mechanisms.turntables[0].off = true;
    const BoardScene without = sceneOf(off);
    for (const BoardMark& m : without.of(BoardView::plan).marks) EXPECT_NE(m.pointer, table.pointer);
}

// Round two equal wheels the line is two half circles and two runs.
TEST(MechanismMarks, ABeltsLineIsTaut) {
    Project p = moving();
    p.mechanisms.belts[0].wheels.pop_back();
    double longest = 0;
    for (const BoardMark& m : plannedMarks(p, scopeIn(p), BoardView::side, "/mechanisms/belts/0")) {
        double length = 0;
        for (std::size_t i = 0; i + 1 < m.line.size(); ++i) length += (m.line[i + 1] - m.line[i]).norm();
        longest = std::max(longest, length);
    }
    const double taut = std::numbers::pi * 200 + 2 * (1200 - 250);
    EXPECT_LE(longest, taut);
    EXPECT_GT(longest, taut * 0.998);
}

// What was made is drawn as it is made, and names its mechanism.
TEST(MechanismMarks, PartsNameTheirMechanism) {
    Project p = moving();
    p.mechanisms.belts.clear();
    const BoardScene scene = boardScene(p, evaluated(p));
    int parts = 0;
    for (const BoardShape& shape : scene.of(BoardView::side).shapes)
        if (shape.kind.starts_with("mechanism")) {
            ++parts;
            EXPECT_TRUE(shape.pointer.starts_with("/mechanisms/")) << shape.name;
            EXPECT_TRUE(shape.name.starts_with(mechanismName(p, shape.pointer) + "/")) << shape.name;
        }
    EXPECT_GE(parts, 5);
    for (const BoardMark& m : scene.of(BoardView::side).marks)
        EXPECT_NE(m.kind, BoardMark::Kind::outline) << m.name;
}
