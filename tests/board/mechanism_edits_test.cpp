// Mechanisms by hand: what a click puts in works at once, and goes again without a trace.
#include "core/board/mechanism_edits.h"
#include "core/board/starts.h"
#include "tests/board/crate.h"

using namespace slab;
using namespace slab::test;

namespace {

Project startOf(const std::string& kind, const std::string& units, const std::string& donor) {
    const auto p = startProject(kind, units, donor);
    EXPECT_TRUE(p) << (p ? "" : p.error().message);
    return p.value_or(Project{});
}

/// Middle of a plate's outside, moved by a share of its box.
MechanismSpot onPlate(const Evaluation& e, const std::string& name, double along = 0) {
    const Plate& plate = slab::test::plateOf(e, name);
    const Box2 box = bounds(plate.boundary.outer);
    Vec2 at = (box.min + box.max) / 2;
    at.x() += along * box.size().x();
    return {plate.frame.toBody(at), name};
}

std::vector<std::string> stopsOf(const Evaluation& e) {
    std::vector<std::string> out;
    for (const Finding& f : e.findings)
        if (f.severity == Severity::stop) out.push_back(f.code + ": " + f.message);
    return out;
}

/// The document with the mechanism, which stops nothing that was not stopped before, and is one step.
Project put(const Project& p, const Evaluation& e, const MechanismStart& start) {
    const auto edit = addMechanism(p, scopeIn(p), e, start);
    if (!edit) {
        ADD_FAILURE() << edit.error().code << ": " << edit.error().message;
        return p;
    }
    History history(p);
    EXPECT_TRUE(history.push(*edit));
    const Project made = history.current();
    EXPECT_NE(made, p);
    EXPECT_TRUE(history.undo());
    EXPECT_EQ(history.current(), p) << "undo returns the document exactly";
    return made;
}

bool movesSomething(const Evaluation& e, const std::string& name) {
    for (const Motion& m : e.mechanisms->motions)
        if (m.mechanism == name && !m.moves.empty()) return true;
    return false;
}

/// And nothing that moves meets anything, or comes nearer than is wanted.
void expectNoNewStop(const Evaluation& before, const Evaluation& after) {
    EXPECT_EQ(stopsOf(after), stopsOf(before));
    for (const Finding& f : after.findings) EXPECT_FALSE(f.code.starts_with("sweep-")) << f.code << f.message;
}

struct StartCase {
    const char *kind, *units, *donor;
};
class MechanismOn : public testing::TestWithParam<StartCase> {
protected:
    Project p = startOf(GetParam().kind, GetParam().units, GetParam().donor);
    Evaluation e = evaluated(p, Effort::verdict);
    /// The highest level plate at the middle of the body.
    [[nodiscard]] std::string roof() const {
        const Vec3 middle = (e.body->bounds.min + e.body->bounds.max) / 2;
        return spotSeen(e, BoardView::plan, middle.head<2>()).on;
    }
};

} // namespace

TEST_P(MechanismOn, ATurntableTurnsOnItsDeck) {
    const Project q = put(p, e, {MechanismKind::turntable, onPlate(e, roof())});
    ASSERT_EQ(q.mechanisms.turntables.size(), 1U);
    const Turntable& t = q.mechanisms.turntables[0];
    EXPECT_EQ(t.name, "turntable");
    const Evaluation after = evaluated(q, Effort::verdict);
    expectNoNewStop(e, after);
    EXPECT_TRUE(movesSomething(after, "turntable"));
    const auto& parts = after.mechanisms->parts;
    EXPECT_GE(parts.size(), 3U) << "seat, spacer and cap";
    // Its opening is cut in the deck, and the rings lie flat on it.
    EXPECT_EQ(plateOf(after, roof()).holes.size(), plateOf(e, roof()).holes.size() + 1);
    EXPECT_NEAR(parts[0].frame.origin.z() - parts[0].thickness, plateOf(e, roof()).frame.origin.z(), 1e-9);
}

TEST_P(MechanismOn, ATrunnionStandsOnThePlate) {
    const Project q = put(p, e, {MechanismKind::trunnion, onPlate(e, roof(), 0.1)});
    ASSERT_EQ(q.mechanisms.trunnions.size(), 1U);
    const Evaluation after = evaluated(q, Effort::verdict);
    expectNoNewStop(e, after);
    EXPECT_TRUE(movesSomething(after, "trunnion"));
    EXPECT_EQ(after.mechanisms->parts.size(), 2U) << "two cheeks";
    for (const Finding& f : after.findings) {
        EXPECT_NE(f.code, "trunnion-no-footing");
        EXPECT_NE(f.code, "trunnion-low");
    }
}

TEST_P(MechanismOn, ATrunnionOnATurntableTurnsWithIt) {
    const Project with = put(p, e, {MechanismKind::turntable, onPlate(e, roof())});
    const Evaluation on = evaluated(with, Effort::verdict);
    MechanismSpot spot = onPlate(e, roof());
    spot.on = "turntable/drum";
    const Project q = put(with, on, {MechanismKind::trunnion, spot});
    ASSERT_EQ(q.mechanisms.trunnions.size(), 1U);
    EXPECT_EQ(q.mechanisms.trunnions[0].on, "turntable");
    EXPECT_EQ(q.mechanisms.trunnions[0].at.x, with.mechanisms.turntables[0].at.x) << "it follows";
    const Evaluation after = evaluated(q, Effort::verdict);
    expectNoNewStop(on, after);
    for (const Motion& m : after.mechanisms->motions)
        if (m.mechanism == "trunnion") {
            EXPECT_EQ(m.moves.size(), 2U);
        }
    for (const Finding& f : after.findings) EXPECT_NE(f.code, "trunnion-no-footing") << f.message;
}

TEST_P(MechanismOn, AHingeLetsTheShellFloatAsFarAsItIsFree) {
    const Vec3 middle = (e.body->bounds.min + e.body->bounds.max) / 2;
    const Vec3 low(middle.x(), middle.y(), 0.3 * e.body->bounds.max.z());
    const Project q = put(p, e, {MechanismKind::linkage, {low, {}}});
    ASSERT_EQ(q.mechanisms.linkages.size(), 1U);
    const Evaluation after = evaluated(q, Effort::verdict);
    expectNoNewStop(e, after);
    ASSERT_TRUE(after.mechanisms);
    EXPECT_FALSE(after.mechanisms->floating.poses.empty());
    EXPECT_GT(after.mechanisms->floating.noseUp, 0);
    for (const Finding& f : after.findings)
        for (const std::string& about : f.about)
            EXPECT_FALSE(about == "mechanism:hinge" && f.severity == Severity::look) << f.code << f.message;
    std::printf("%s %s %s: pitch %s\n", GetParam().kind, GetParam().units, GetParam().donor,
                q.mechanisms.linkages[0].pitch_up.c_str());
    // Beside it a pin in a slot, with the travel that the hinge asks of it: the shell pitches as before.
    const Vec3 far(e.body->bounds.max.x(), 0, low.z());
    const Project two = put(q, after, {MechanismKind::linkage, {far, {}}});
    const Evaluation both = evaluated(two, Effort::verdict);
    expectNoNewStop(after, both);
    EXPECT_EQ(two.mechanisms.linkages[1].joint, "pin_slot");
    EXPECT_NEAR(both.mechanisms->floating.noseUp, after.mechanisms->floating.noseUp, 1e-9);
}

TEST_P(MechanismOn, ABeltRunsAlongTheSideThatWasClicked) {
    for (const double side : {1.0, -1.0}) {
        const Project q = put(p, e, {MechanismKind::belt, {{0, side * e.body->bounds.max.y(), 300}, {}}});
        ASSERT_EQ(q.mechanisms.belts.size(), 1U);
        const Evaluation after = evaluated(q, Effort::verdict);
        expectNoNewStop(e, after);
        int strips = 0;
        for (const Plate& part : after.mechanisms->parts) strips += part.form == "belt";
        EXPECT_GE(strips, 2) << "one on either side";
        double low = 1e300;
        for (const Plate& part : after.mechanisms->parts)
            for (const Vec3& v : part.solid.vertices) low = std::min(low, v.z());
        EXPECT_GE(low, 0) << "above the ground";
        EXPECT_EQ(q.mechanisms.belts[0].at.y.starts_with("-"), side < 0);
    }
}

INSTANTIATE_TEST_SUITE_P(Starts, MechanismOn,
                         testing::Values(StartCase{"box", "mm", "powered_chair"},
                                         StartCase{"box", "in", "scooter"}, StartCase{"box", "ft", "none"},
                                         StartCase{"tower", "mm", "scooter"}),
                         [](const auto& info) {
                             return std::string(info.param.kind) + "_" + info.param.units + "_" +
                                    info.param.donor;
                         });

TEST(MechanismEdits, TheDeckKeepsItsOwnFormula) {
    const Project p = startOf("box", "mm", "powered_chair");
    const Evaluation e = evaluated(p, Effort::live);
    const Project q = put(p, e, {MechanismKind::turntable, onPlate(e, "box/top")});
    EXPECT_EQ(q.mechanisms.turntables[0].at.z, "roof_height");
    // A higher roof takes it along.
    Project high = q;
    for (Dimension& d : high.dimensions)
        if (d.name == "roof_height") d.value = "(" + d.value + ") + 200 mm";
    const Evaluation after = evaluated(high, Effort::live);
    EXPECT_EQ(stopsOf(after), stopsOf(e));
    EXPECT_NEAR(after.mechanisms->parts[0].frame.origin.z() - after.mechanisms->parts[0].thickness,
                plateOf(after, "box/top").frame.origin.z(), 1e-9);
}

TEST(MechanismEdits, ATubeGoesThroughTheUprightPlateThatWasClicked) {
    const Project p = crate();
    const Evaluation e = evaluated(p, Effort::live);
    const Project q = put(p, e, {MechanismKind::trunnion, onPlate(e, "crate/port")});
    EXPECT_EQ(q.mechanisms.trunnions[0].at.yaw, "90 deg");
    const Evaluation after = evaluated(q, Effort::verdict);
    EXPECT_EQ(stopsOf(after), stopsOf(e));
    EXPECT_EQ(plateOf(after, "crate/port").holes.size(), 1U) << "its slot";
    for (const SweptCheck& check : after.mechanisms->checks)
        EXPECT_GE(check.clearance, 0) << check.moving << " meets " << check.fixed;
}

TEST(MechanismEdits, ABeltRunsRoundTheChosenWheels) {
    Project p = crate();
    for (const auto& [name, x] : {std::pair("front wheel", "1.7 m"), std::pair("rear wheel", "long / 6")}) {
        RoundShape wheel;
        wheel.diameter = "2 * 0.15 m";
        wheel.length = "80 mm";
        wheel.cuts = false;
        Form form = named(name, wheel);
        form.at.x = x;
        form.at.y = "wide / 2 + 110 mm";
        form.at.z = "180 mm";
        form.at.roll = "90 deg";
        form.mirror = true;
        p.forms.push_back(form);
    }
    const Evaluation e = evaluated(p, Effort::live);
    MechanismStart start{MechanismKind::belt, {}, {"front wheel", "rear wheel"}};
    const Project q = put(p, e, start);
    const Belt& belt = q.mechanisms.belts[0];
    ASSERT_EQ(belt.wheels.size(), 2U);
    EXPECT_EQ(belt.wheels[1].x, "long / 6") << "as the wheel says it";
    EXPECT_EQ(belt.wheels[0].diameter, "2 * 0.15 m");
    EXPECT_EQ(q.stock.sheets.back().kind, "card") << "foam does not bend round them";
    const Evaluation after = evaluated(q, Effort::verdict);
    EXPECT_EQ(stopsOf(after), stopsOf(e));
    EXPECT_EQ(after.mechanisms->ownForms.size(), 4U) << "both wheels on both sides are its own";
    start.wheels = {"front wheel"};
    EXPECT_EQ(addMechanism(p, scopeIn(p), e, start).error().code, "one-wheel");
    p.forms.back().at.roll = "";
    const Evaluation upright = evaluated(p, Effort::live);
    start.wheels = {"front wheel", "rear wheel"};
    EXPECT_EQ(addMechanism(p, scopeIn(p), upright, start).error().code, "not-a-wheel");
}

TEST(MechanismEdits, WhatCannotStandThereIsRefused) {
    const Project p = crate();
    const Evaluation e = evaluated(p, Effort::live);
    const Scope scope = scopeIn(p);
    const auto refusal = [&](MechanismKind kind, const MechanismSpot& spot) {
        const auto edit = addMechanism(p, scope, e, {kind, spot});
        return edit ? std::string("none") : edit.error().code;
    };
    EXPECT_EQ(refusal(MechanismKind::turntable, onPlate(e, "crate/port")), "not-level");
    EXPECT_EQ(refusal(MechanismKind::turntable, onPlate(e, "crate/top", 0.48)), "no-room");
    EXPECT_EQ(refusal(MechanismKind::turntable, {Vec3::Zero(), {}}), "not-level");
    EXPECT_EQ(refusal(MechanismKind::trunnion, {Vec3::Zero(), {}}), "no-footing");
    EXPECT_EQ(addMechanism(p, scope, {}, {MechanismKind::belt, {}}).error().code, "no-body");
    Project bare = p; // a body is there, and nothing to cut it from
    bare.materials.fallback.clear();
    const Evaluation skin = evaluated(bare, Effort::live);
    const auto chosen = addMechanism(bare, scope, skin, {MechanismKind::turntable, {}});
    ASSERT_FALSE(chosen);
    EXPECT_EQ(chosen.error().code, "no-sheet");
    EXPECT_NE(chosen.error().remedy.find("Plates and materials"), std::string::npos) << chosen.error().remedy;
    bare.stock.sheets.clear();
    const auto added = addMechanism(bare, scope, skin, {MechanismKind::turntable, {}});
    ASSERT_FALSE(added);
    EXPECT_NE(added.error().remedy.find("Add a sheet"), std::string::npos) << added.error().remedy;
}

TEST(MechanismEdits, APlaceOnTheBoardIsOnTheDeckBehindIt) {
    const Project p = crate();
    const Evaluation e = evaluated(p, Effort::live);
    const MechanismSpot above = spotSeen(e, BoardView::plan, {700, 100});
    EXPECT_EQ(above.on, "crate/top");
    EXPECT_LT((above.at - Vec3(700, 100, 1200)).norm(), 1e-9);
    const MechanismSpot beside = spotSeen(e, BoardView::side, {700, 1250});
    EXPECT_EQ(beside.on, "crate/top");
    EXPECT_LT((beside.at - Vec3(700, 0, 1250)).norm(), 1e-9);
    const MechanismSpot ahead = spotSeen(e, BoardView::front, {100, 1100});
    EXPECT_EQ(ahead.on, "crate/top");
    EXPECT_LT((ahead.at - Vec3(1000, 100, 1100)).norm(), 1e-9);
    EXPECT_TRUE(spotSeen(e, BoardView::plan, {3000, 0}).on.empty());
    for (const BoardView view : boardViews) {
        const Vec2 at = seen(Vec3(700, 100, 1200), view);
        const Project q = put(p, e, {MechanismKind::turntable, spotSeen(e, view, at)});
        EXPECT_EQ(stopsOf(evaluated(q, Effort::live)), stopsOf(e)) << viewName(view);
    }
}
