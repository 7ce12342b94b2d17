// How it stands on its wheels: slopes, turns, wind, and what a change would do.
#include "core/geometry/convex.h"
#include "core/trial/outline.h"
#include "core/trial/stuff.h"
#include "core/trial/words.h"
#include <cmath>
#include <numbers>

namespace slab::trial {

namespace {

constexpr double quarter = std::numbers::pi / 2;

/// A caster touches the ground behind its pivot when it rolls forward.
Vec2 touchOf(const Wheel& wheel, const Vec3& forward) {
    return wheel.at.head<2>() - wheel.trail * forward.head<2>();
}

double tightestRadius(const Stuff& stuff) {
    const Chassis& c = stuff.donor.chassis;
    if (c.drive != DriveKind::steered || !(c.lock > 0)) return 0;
    return c.wheelbase / std::tan(c.lock);
}

void addStandings(Balance& b, const RideFigures& ride, double ahead) {
    const double along = std::atan(ride.slope), across = std::atan(ride.crossSlope);
    std::vector<Standing> asked{{"level", {}, false, {}}};
    const std::string up = slopeWords(ride.slope), side = slopeWords(ride.crossSlope);
    if (along > 0) {
        asked.push_back({"uphill " + up, {along, ahead}, false, {}});
        asked.push_back({"downhill " + up, {along, ahead + 2 * quarter}, false, {}});
    }
    if (across > 0) {
        asked.push_back({"port side up " + side, {across, ahead + quarter}, false, {}});
        asked.push_back({"starboard side up " + side, {across, ahead - quarter}, false, {}});
    }
    for (Standing& s : asked) {
        const auto pull = ride::pullOn(s.slope);
        if (!pull) continue;
        if (const auto loads = ride::wheelLoads(b.stance, *pull)) {
            s.stands = loads->stands;
            s.loads = loads->loads;
        }
        b.standings.push_back(std::move(s));
    }
}

/// Over the two sides, the worse on the cross slope.
void addTurn(Balance& b, const Stuff& stuff) {
    b.speed = stuff.ride.speed;
    b.radius = stuff.ride.radius > 0 ? stuff.ride.radius : tightestRadius(stuff);
    if (!(b.radius > 0)) b.radius = defaultTurn;
    const double across = std::atan(stuff.ride.crossSlope), ahead = headingOf(stuff.donor.chassis);
    for (const double side : {quarter, -quarter})
        if (const auto limits = ride::turnLimits(b.stance, b.radius, {across, ahead + side}, ahead)) {
            const bool first = b.turn.port.speed == 0 && b.turn.starboard.speed == 0;
            if (first || limits->port.speed < b.turn.port.speed) b.turn.port = limits->port;
            if (first || limits->starboard.speed < b.turn.starboard.speed)
                b.turn.starboard = limits->starboard;
        }
}

void addWind(Balance& b, const Stuff& stuff) {
    b.wind = stuff.ride.wind;
    struct From {
        const char* words;
        double towards;
    };
    const Silhouette side = silhouetteOf(stuff, true), end = silhouetteOf(stuff, false);
    for (const From& from : {From{"from port", -quarter}, From{"from starboard", quarter},
                             From{"from ahead", 2 * quarter}, From{"from astern", 0.0}}) {
        const Silhouette& seen = std::abs(std::abs(from.towards) - quarter) < 1e-9 ? side : end;
        if (!(seen.area > 0)) continue;
        const auto limits =
            ride::windLimits(b.stance, {seen.area, seen.centre}, from.towards, stuff.ride.friction);
        if (limits) b.winds.push_back({from.words, from.towards, seen.area, *limits});
    }
}

void addChanges(Balance& b, const Stuff& stuff) {
    const auto least = [](const Expected<ride::Stance>& stance) -> std::optional<double> {
        if (!stance) return std::nullopt;
        const auto tip = ride::leastTipAngle(*stance);
        return tip ? std::optional<double>(tip->angle) : std::nullopt;
    };
    constexpr double ballast = 10; // kg
    double floor = 1e9;
    for (const FitSolid& s : stuff.donor.solids)
        if (s.group == "donor" && bounds(s.shape).min.z() > 1)
            floor = std::min(floor, bounds(s.shape).min.z());
    if (floor > 1e8) floor = 100;
    const Vec2 inward = -b.least.line.outward;
    const Vec3 low(b.stance.centre.x(), b.stance.centre.y(), floor);
    if (const auto angle = least(ride::withBallast(b.stance, ballast, low)))
        b.changes.push_back({printMass(ballast, stuff.units) + " of ballast low under the middle", *angle});
    constexpr double arm = 300; // mm
    const auto aside =
        least(ride::withBallast(b.stance, ballast, low + arm * Vec3(inward.x(), inward.y(), 0)));
    if (aside && *aside > b.least.angle) // a body that is even to both sides gains nothing by it
        b.changes.push_back({printMass(ballast, stuff.units) + " of ballast low, " +
                                 printLength(arm, stuff.units) + " away from the line that it tips over",
                             *aside});
    const Chassis& c = stuff.donor.chassis;
    if (!(c.mass > 0)) return;
    const auto chassis = ride::pointMass(c.mass, c.centre);
    if (!chassis) return;
    std::vector<ride::MassProperties> along{*chassis}; // who sits on it goes along
    for (const Person& who : stuff.donor.people)
        if (const auto person = ride::pointMass(who.mass, who.centre)) along.push_back(*person);
    const ride::MassProperties donor = ride::combined(along);
    constexpr double by = 50; // mm
    for (const double sign : {1.0, -1.0})
        if (const auto angle = least(ride::withDonorMoved(b.stance, donor, {sign * by, 0})))
            b.changes.push_back({"the donor moved " + printLength(by, stuff.units) +
                                     (sign > 0 ? " forward" : " back") + " under the shell",
                                 *angle});
}

} // namespace

std::optional<Balance> balanceOf(const Stuff& stuff) {
    const Chassis& chassis = stuff.donor.chassis;
    Balance b;
    b.load = stuff.load;
    for (const Wheel& wheel : chassis.wheels) {
        b.stance.wheels.push_back(touchOf(wheel, chassis.forward));
        b.wheels.push_back(wheel.name);
    }
    b.stance.mass = b.load.all.mass;
    b.stance.centre = b.load.all.centre;
    const auto lines = ride::tipLines(b.stance);
    const auto least = ride::leastTipAngle(b.stance);
    if (!lines || !least) return std::nullopt;
    b.lines = *lines;
    b.least = *least;
    addStandings(b, stuff.ride, headingOf(chassis));
    b.rated = chassis.rated;
    if (chassis.rated > 0)
        if (const auto rating =
                ride::ratedLoad(b.load.all.mass - chassis.mass, chassis.rated * stuff.ride.loadShare))
            b.rating = *rating;
    addTurn(b, stuff);
    if (stuff.depth >= Depth::windy) addWind(b, stuff);
    if (stuff.depth == Depth::full) addChanges(b, stuff);
    return b;
}

} // namespace slab::trial
