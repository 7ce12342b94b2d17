// What the trial tells in the punch list: balance and route.
#include "core/route/accessibility.h"
#include "core/trial/passing.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::trial {

namespace {

/// A ride-on toy must stand on 10°: ASTM F963, as quoted; less is told.
constexpr double steadyAngle = 10 * degree;

std::array<double, 3> placeOf(const Vec3& p) {
    return {p.x(), p.y(), p.z()};
}

void tell(std::vector<Finding>& findings, Severity severity, const char* code, std::string message,
          std::vector<std::string> about, std::string remedy, std::optional<Vec3> at = {}) {
    Finding f{severity, code, std::move(message), std::move(about), std::move(remedy), {}};
    if (at) f.at = placeOf(*at);
    findings.push_back(std::move(f));
}

const char* sideWords(ride::Side side) {
    switch (side) {
    case ride::Side::front:
        return "forward";
    case ride::Side::rear:
        return "back";
    case ride::Side::port:
        return "to port";
    default:
        return "to starboard";
    }
}

std::string lineWords(const Balance& b, const ride::TipLine& line) {
    return b.wheels[static_cast<std::size_t>(line.from)] + " and " +
           b.wheels[static_cast<std::size_t>(line.to)];
}

/// Lighter where the shell can be; else a donor that carries what there is with the share left.
std::string lighterWords(const Stuff& stuff, const Balance& b) {
    double shell = 0;
    for (const LoadPart& p : b.load.parts)
        if (p.name == "shell") shell = p.mass;
    const double by = -b.rating->spare(), share = b.rating->rated / b.rated;
    const std::string larger =
        "ake a donor that is rated for " + printMassUp(b.rating->carried / share, stuff.units) + " or more";
    if (by < shell / 3) return "Build lighter by " + printMassUp(by, stuff.units) + ", or t" + larger + ".";
    return "T" + larger + ", or let somebody lighter ride.";
}

void tellLoad(const Stuff& stuff, const Balance& b, std::vector<Finding>& findings) {
    if (!b.rating) {
        tell(findings, Severity::note, "load-unrated",
             "How much the donor may carry is not known, so its load is not checked.", {"document:/donor"},
             "Type its rated load; it stands on the plate with its number.");
        return;
    }
    const double share = b.rating->rated / b.rated;
    const std::string carries = "The donor carries " + printMass(b.rating->carried, stuff.units) + " (";
    const std::string percent = std::to_string(static_cast<int>(std::lround(share * 100))) + " %";
    if (b.rating->carried > b.rated)
        tell(findings, Severity::stop, "load-over-rated",
             carries + "shell, people and what is stowed), more than the " + printMass(b.rated, stuff.units) +
                 " that it is rated for.",
             {"document:/donor/changes/rated_load"}, lighterWords(stuff, b), b.load.all.centre);
    else if (!b.rating->holds())
        tell(findings, Severity::look, "load-share",
             carries + "shell, people and what is stowed), more than " + percent + " of the " +
                 printMass(b.rated, stuff.units) + " that it is rated for.",
             {"document:/donor/changes/rated_load"}, lighterWords(stuff, b), b.load.all.centre);
}

void tellSlopes(const Stuff& stuff, const Balance& b, std::vector<Finding>& findings) {
    for (const Standing& s : b.standings) {
        if (!s.stands) {
            const bool along = s.words.find("hill") != std::string::npos;
            tell(findings, Severity::stop, "tips-on-slope", "It tips over, standing " + s.words + ".",
                 {along ? "document:/ride/slope" : "document:/ride/cross_slope"},
                 "Build lower or lighter above, put weight low, or keep off such ground.", b.load.all.centre);
            continue;
        }
        for (std::size_t i = 0; i < s.loads.size(); ++i) {
            const Wheel& wheel = stuff.donor.chassis.wheels[i];
            if (s.loads[i] > 1 || wheel.role == WheelRole::caster) continue;
            tell(findings, Severity::look, "wheel-lifts",
                 "Standing " + s.words + ", the " + wheel.name + " carries nothing.", {"document:/donor/at"},
                 "Move the donor under the shell, or put weight over that wheel.", wheel.at);
        }
    }
    if (b.least.angle > 0 && b.least.angle < steadyAngle)
        tell(findings, Severity::look, "tips-easily",
             "It tips " + std::string(sideWords(b.least.line.side)) + " at " + printAngle(b.least.angle) +
                 ", over the line of " + lineWords(b, b.least.line) + "; ride-on toys must stand on 10°.",
             {"document:/ride"}, "Build lower or lighter above, or put weight low on the other side.",
             b.load.all.centre);
}

void tellTurnAndWind(const Stuff& stuff, const Balance& b, std::vector<Finding>& findings) {
    const double limit = b.turn.least();
    if (b.speed > 0 && limit < b.speed)
        tell(findings, limit > 0 ? Severity::look : Severity::stop, "turn-tips",
             "In a turn of " + printLength(b.radius, stuff.units) + " it tips at " +
                 speedWords(limit, stuff.units) + "; it goes " + speedWords(b.speed, stuff.units) + ".",
             {"document:/ride/speed"},
             "Set the donor to " + speedWords(0.8 * limit, stuff.units) +
                 " at most, take turns wider, or put weight low.",
             b.load.all.centre);
    const WindCase* worst = nullptr;
    for (const WindCase& w : b.winds)
        if (!worst || w.limits.least() < worst->limits.least()) worst = &w;
    if (worst && worst->limits.least() < b.wind)
        tell(findings, Severity::look, "wind-tips",
             "Wind " + worst->words + " " +
                 (worst->limits.tips < worst->limits.slides ? "tips it at " : "pushes it along at ") +
                 speedWords(worst->limits.least(), stuff.units) + ", less than the " +
                 speedWords(b.wind, stuff.units) + " asked for.",
             {"document:/ride/wind"}, "Keep it in on such days, or build smaller or heavier below.",
             b.load.all.centre);
}

/// What to do about one part of the route.
std::string remedyOf(const Stuff& stuff, const RouteResult& r) {
    const std::string by = std::abs(r.margin) < 1 ? printFine(std::abs(r.margin), stuff.units)
                                                  : printLengthUp(std::abs(r.margin), stuff.units);
    if (isGround(r.kind)) {
        if (stuff.link && r.binds == stuff.link->name)
            return r.measure.find(" pitch ") == std::string::npos
                       ? "Let linkage " + r.binds + " move by " + by + " more, or lay a longer, flatter ramp."
                       : "Let linkage " + r.binds + " pitch further, or lay a longer, flatter ramp.";
        if (r.measure != "over the ground") return "Take another way, or lay a longer, flatter ramp.";
        return "Raise or cut back " + (r.binds.empty() ? std::string("what is lowest") : r.binds) +
               " by more than " + by + ", or lay a longer, flatter ramp.";
    }
    if (r.measure == "above")
        return "Build lower by " + by + " (" + r.binds + " is highest), or fold or take off what stands up.";
    if (r.measure == "across")
        return "Build narrower by " + by + " (" + r.binds + " is widest), or take it off the chassis there.";
    if (r.measure == "along the floor" || r.measure == "along the arms of the T")
        return "Build shorter by " + by + ", or take a module off.";
    return "Build shorter or narrower; " + r.binds + " comes first.";
}

/// Slopes against what ramps are built to: 1:12, and up to 6 in and 3 in of height 1:10 and 1:8 where there
/// is no room (ADA 2010 405.2).
/// Below the drive axle.
Vec3 onTheGround(const Chassis& chassis) {
    return {chassis.axle.x(), chassis.axle.y(), 0};
}

void tellSteep(const Stuff& stuff, const RouteFigure& part, std::vector<Finding>& findings) {
    if (part.kind != "ramp" && part.kind != "kerb_ramp" && part.kind != "ground") return;
    double low = 1e18, high = -1e18;
    for (const Vec2& p : part.ground.points) {
        low = std::min(low, p.y());
        high = std::max(high, p.y());
    }
    const double rise = high - low;
    constexpr double enough = 1e-6;
    const double built = route::accessFigure("ramp-slope")->value, most = route::mostRampSlope(rise);
    if (part.slope <= most + enough) return;
    std::string words = part.name + " is as steep as " + slopeWords(part.slope) + " (" +
                        printAngle(std::atan(part.slope)) + "); for " + printLength(rise, stuff.units) +
                        " of height ramps are built to " + slopeWords(built);
    if (most > built) words += ", and to " + slopeWords(most) + " where an existing site has no room";
    tell(findings, Severity::look, "ramp-steep", words + " (ADA 2010 405.2).",
         {"document:/route/" + std::to_string(part.index) + "/slope"},
         "Lay a ramp " + printLength(rise / built, stuff.units) +
             " long, or bring it up without its rider and with two helpers; see what slope the donor is made "
             "for.",
         onTheGround(stuff.donor.chassis));
}

void tellPart(const Stuff& stuff, const RouteResult& r, const RouteFigure& part,
              std::vector<Finding>& findings) {
    const std::string about = "document:/route/" + std::to_string(part.index);
    std::vector<std::string> abouts{about};
    if (stuff.link && r.binds == stuff.link->name)
        abouts.push_back("mechanism:" + r.binds);
    else if (!r.binds.empty())
        abouts.push_back(aboutOf(r.binds, std::any_of(stuff.plates.plates.begin(), stuff.plates.plates.end(),
                                                      [&](const Plate& p) { return p.name == r.binds; })));
    if (r.outcome == Outcome::unknown) {
        tell(findings, Severity::note, "route-unknown",
             r.name + ": cannot be tried, for the donor has no wheels or no size there.", abouts,
             "Choose a donor, or give its wheels.");
        return;
    }
    if (r.outcome == Outcome::fails)
        tell(findings, Severity::stop, "route-blocked", r.words, abouts, remedyOf(stuff, r), r.at);
    else if (r.outcome == Outcome::tight)
        tell(findings, Severity::look, "route-tight", r.words, abouts,
             "It passes with care; measure the real place before you build.", r.at);
    tellSteep(stuff, part, findings);
    for (const RouteResult::Lift& lift : r.lifts)
        if (lift.drives && r.outcome != Outcome::fails)
            tell(findings, Severity::note, "drive-lifts",
                 r.name + ": the " + lift.wheels + " lose the ground by " + printFine(lift.gap, stuff.units) +
                     " there, unless the donor's springs give way by as much.",
                 abouts, "Try it with the bare donor first, and have somebody push.", r.at);
    if (part.load > 0 && stuff.donor.chassis.mass > 0) {
        const double mass = (part.empty ? stuff.load.empty : stuff.load.all).mass;
        if (mass > part.load)
            tell(findings, Severity::stop, "route-load",
                 r.name + " bears " + printMass(part.load, stuff.units) + ", and what comes weighs " +
                     printMass(mass - part.load, stuff.units) + " more than that.",
                 {about + "/load"},
                 "Use a stronger one, or bring shell, rider and donor over it one by one.");
    }
}

} // namespace

void tellBalance(const Stuff& stuff, const Balance& balance, std::vector<Finding>& findings) {
    tellLoad(stuff, balance, findings);
    tellSlopes(stuff, balance, findings);
    tellTurnAndWind(stuff, balance, findings);
}

std::string routeWords(const Stuff& stuff, const RouteResult& r) {
    const std::string by = printFine(std::abs(r.margin), stuff.units);
    const std::string owner = r.binds.empty() ? std::string() : " (" + r.binds + ")";
    if (isGround(r.kind) && r.outcome == Outcome::fails && r.measure != "over the ground")
        return r.name + ": does not pass, " + r.measure;
    if (r.outcome == Outcome::unknown) return r.name + ": not known";
    if (r.outcome == Outcome::fails) return r.name + ": does not pass, " + by + " short " + r.measure + owner;
    if (!std::isfinite(r.margin)) return r.name + ": passes; nothing of it is in the way";
    return r.name + ": passes with " + by + " to spare " + r.measure + owner;
}

void tellRoute(const Stuff& stuff, const std::vector<RouteResult>& route, std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < route.size() && i < stuff.route.size(); ++i)
        tellPart(stuff, route[i], stuff.route[i], findings);
}

} // namespace slab::trial
