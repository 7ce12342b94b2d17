#pragma once
// The box by hand on four wheels, tried out: balance by the real rules, route, sight and exits by hand.
#include "core/trial/examples.h"
#include "tests/ui_views/hand_body.h"

namespace slab::test {

/// Wheels at ±300, ±250 mm, all mass 500 mm above their middle: tips aside at atan(250 / 500).
inline trial::Balance handBalance() {
    trial::Balance b;
    b.stance = {{{300, 250}, {-300, 250}, {-300, -250}, {300, -250}}, 200, {0, 0, 500}};
    b.wheels = {"front left wheel", "rear left wheel", "rear right wheel", "front right wheel"};
    b.lines = ride::tipLines(b.stance).value();
    b.least = ride::leastTipAngle(b.stance).value();
    for (const double angle : {0.0, std::atan(1.0 / 12)}) {
        const ride::Slope slope{angle, 0};
        const auto loads = ride::wheelLoads(b.stance, ride::pullOn(slope).value()).value();
        b.standings.push_back({angle == 0 ? "level" : "uphill 1:12", slope, loads.stands, loads.loads});
    }
    b.rating = ride::ratedLoad(118, 0.8 * 136).value();
    b.rated = 136;
    b.speed = 1500;
    b.radius = 1500;
    b.turn = ride::turnLimits(b.stance, b.radius).value();
    b.wind = 11000;
    b.winds.push_back({"from port", -1.5707963267948966, 1e6,
                       ride::windLimits(b.stance, {1e6, {0, 0, 600}}, -1.5707963267948966, 0.6).value()});
    b.changes = {{"10 kg of ballast low under the middle", b.least.angle + 0.02},
                 {"the donor moved 50 mm back under the shell", b.least.angle - 0.01}};
    b.load.parts = {{"shell", 20, {0, 0, 350}}, {"donor", 100, {0, 0, 250}}, {"rider", 80, {0, 0, 800}}};
    b.load.all.mass = 200;
    b.load.all.centre = b.stance.centre;
    return b;
}

inline Project rideProject() {
    Project p = handProject();
    RoutePart door;
    door.name = "shed door";
    door.width = "600 mm";
    RoutePart ramp;
    ramp.name = "ramp";
    ramp.kind = "ramp";
    ramp.slope = "1/8";
    ramp.rise = "200 mm";
    RoutePart away;
    away.name = "old gate";
    away.width = "900 mm";
    away.off = true;
    p.route = {door, ramp, away};
    return p;
}

inline trial::RouteResult handRamp() {
    trial::RouteResult r;
    r.name = "ramp";
    r.kind = "ramp";
    r.outcome = trial::Outcome::passes;
    r.ground = route::profileOf({{1600, 200}, {1500, 0}}).value();
    r.side.axles = {{-300, 150}, {300, 150}};
    r.side.centre = {0, 500};
    r.side.undersides = {{{-700, 90}, {700, 90}}};
    const auto crossing = route::drive(r.ground, r.side, -1800, 4200, 0.1).value();
    r.margin = crossing.clearance.height;
    r.measure = "over the ground";
    r.words = "ramp: passes with room to spare over the ground";
    r.poses = crossing.poses;
    double best = 1e9;
    for (std::size_t i = 0; i < r.poses.size(); ++i)
        if (const double off = std::abs(r.poses[i].at.x() - crossing.clearance.x); off < best) {
            best = off;
            r.worst = static_cast<int>(i);
        }
    return r;
}

inline trial::Trial handTrial() {
    using trial::Outcome;
    trial::Trial t;
    t.balance = handBalance();
    trial::RouteResult door;
    door.name = "shed door";
    door.kind = "door";
    door.outcome = Outcome::fails;
    door.margin = -40;
    door.measure = "across";
    door.binds = "hull/port";
    door.words = "shed door: does not pass, 40 mm short across (hull/port)";
    door.at = Vec3(0, 320, 300);
    door.walls = {{{850, 300}, {970, 300}, {970, 900}, {850, 900}},
                  {{850, -900}, {970, -900}, {970, -300}, {850, -300}}};
    t.route = {door, handRamp()};
    trial::Turning turning;
    turning.path.outer = 770;
    turning.path.inner = 200;
    turning.outer = "hull/front";
    t.turning = turning;
    trial::View view;
    view.who = "rider";
    view.eye = {-130, 0, 1100};
    view.beyondNose = 2400;
    view.wanted = view.stops = 1900;
    view.field = {1.2, 0.7, 0.5};
    view.wantedField = 0.6;
    view.map.directions = 36;
    view.map.rings = 10;
    view.map.reach = 5000;
    for (int i = 0; i < 36; ++i)
        for (int k = 0; k < 10; ++k) view.map.blind.push_back(k < 6 || i > 9);
    view.map.nearest.assign(36, 3000);
    view.openings = {{"sight", "hull/front", true, -13, 137, 0.4, {700, 0, 500}}};
    t.views = {view};
    t.waysOut = {{"exit",
                  560,
                  500,
                  620,
                  609.6,
                  "rider",
                  2,
                  58.8,
                  false,
                  {},
                  {"donor/seat"},
                  Outcome::fails,
                  {0, 320, 400}}};
    t.gaps = {{"opening hand", 178, false, "holds a child's head", {0, -320, 300}}};
    t.gaps.push_back({"crane/tube and crane base/drum", 6, true, "pinches a finger", {0, 0, 500}});
    t.air = {2e4, 5e3};
    t.cautions = {"Local rules govern where and how it may be driven."};
    return t;
}

/// What the core tells of that trial.
inline std::vector<Finding> handFindings() {
    const auto told = [](Severity severity, const char* code, const char* message, const char* about) {
        return Finding{severity, code, message, {about}, "", {}};
    };
    return {
        told(Severity::stop, "route-blocked", "shed door: does not pass, 40 mm short across (hull/port)",
             "document:/route/0"),
        told(Severity::look, "ramp-steep", "ramp rises 1:8 (7.1°).", "document:/route/1/slope"),
        told(Severity::look, "load-share", "The donor carries 118 kg.", "document:/donor/changes/rated_load"),
        told(Severity::look, "sight-ground", "Ahead, the rider sees the ground only from 2400 mm on.",
             "opening:sight"),
        told(Severity::look, "sight-field", "The rider sees 0.5 to starboard.", "document:/ride/field"),
        told(Severity::look, "exit-small", "Opening exit, the way out, is small.", "opening:exit"),
        told(Severity::note, "exit-way", "On the straight way stands donor/seat.", "opening:exit"),
        told(Severity::note, "gap-catches", "A gap of 178 mm in opening hand holds a child's head.",
             "opening:hand"),
        told(Severity::note, "trunnion-pinch", "Trunnion crane: fingers can be caught.", "mechanism:crane"),
        told(Severity::look, "air-little", "Too little is open high up.", "document:/openings")};
}

inline Evaluation rideEvaluation(const Project& project, std::uint64_t revision = 1) {
    Evaluation e = handEvaluation(project, revision);
    auto donor = std::make_shared<DonorSet>(*e.donor);
    for (std::size_t i = 0; i < 4; ++i) {
        const trial::Balance b = handBalance();
        Wheel wheel;
        wheel.name = b.wheels[i];
        wheel.at = {b.stance.wheels[i].x(), b.stance.wheels[i].y(), 0};
        wheel.radius = 150;
        wheel.width = 40;
        donor->chassis.wheels.push_back(wheel);
    }
    Person rider;
    rider.name = "rider";
    rider.seat = {-100, 0, 430};
    donor->people = {rider};
    e.donor = donor;
    trial::Trial t = handTrial();
    if (project.route.empty()) t.route.clear();
    if (project.donor.kind == "none") t = {};
    if (!project.route.empty() && project.donor.kind != "none")
        for (Finding& f : handFindings()) e.findings.push_back(std::move(f));
    e.trial = std::make_shared<const trial::Trial>(std::move(t));
    return e;
}

inline ui::Engine rideEngine() {
    ui::Engine engine = handEngine();
    engine.evaluate = [](const Project& project, Effort, std::uint64_t revision, const Job&) {
        return rideEvaluation(project, revision);
    };
    return engine;
}

} // namespace slab::test
