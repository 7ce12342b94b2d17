// Ramps, kerbs, thresholds, steps, humps and ground of the builder's own: driven along step by step.
#include "core/ride/resistance.h"
#include "core/trial/passing.h"
#include "core/trial/words.h"
#include <cmath>

namespace slab::trial {

namespace {

constexpr double tolerance = 0.1;     ///< mm, of the crossing
constexpr double helperPush = 200;    ///< N that somebody pushes for a moment (from memory)
constexpr std::size_t mostPoses = 41; ///< kept for pictures

double heightSpan(const route::GroundProfile& ground) {
    double low = 1e18, high = -1e18;
    for (const Vec2& p : ground.points) {
        low = std::min(low, p.y());
        high = std::max(high, p.y());
    }
    return high - low;
}

double loadOn(const OwnedSide& side, std::size_t axle, const Balance& balance) {
    double sum = 0;
    if (!balance.standings.empty())
        for (const std::size_t wheel : side.wheels[axle])
            if (wheel < balance.standings.front().loads.size()) sum += balance.standings.front().loads[wheel];
    return sum;
}

/// The push that there is: of driven wheels by their friction, or of somebody who walks.
double pushOf(const Stuff& stuff, const Balance& balance) {
    if (stuff.donor.chassis.drive == DriveKind::pushed) return helperPush;
    double load = 0;
    const auto& wheels = stuff.donor.chassis.wheels;
    if (!balance.standings.empty())
        for (std::size_t i = 0; i < wheels.size() && i < balance.standings.front().loads.size(); ++i)
            if (wheels[i].role == WheelRole::drive) load += balance.standings.front().loads[i];
    return stuff.ride.friction * load;
}

/// Wheels against steps. @return words of what stops it; empty if nothing does
std::string climbOf(const Stuff& stuff, const OwnedSide& side, const route::Crossing& crossing,
                    const std::optional<Balance>& balance, RouteResult& out) {
    for (std::size_t a = 0; a < crossing.climbs.size(); ++a) {
        const route::Climb& climb = crossing.climbs[a];
        if (climb.blocked) {
            out.binds = side.axles[a];
            return "the step is as high as the middle of the " + side.axles[a];
        }
        if (!balance || !(climb.lean > std::atan(0.2))) continue; // a slope, not a step
        const double needs = loadOn(side, a, *balance) * std::tan(climb.lean), has = pushOf(stuff, *balance);
        if (needs <= has) continue;
        out.binds = side.axles[a];
        return "to get up, the " + side.axles[a] + (side.wheels[a].size() > 1 ? " need " : " needs ") +
               forceWords(needs, stuff.units) + " of push, and " + forceWords(has, stuff.units) +
               " are there";
    }
    return {};
}

void keepPoses(const route::Crossing& crossing, RouteResult& out) {
    const std::size_t step = std::max<std::size_t>(1, crossing.poses.size() / mostPoses);
    double best = 1e18;
    for (std::size_t i = 0; i < crossing.poses.size(); i += step) {
        out.poses.push_back(crossing.poses[i]);
        const double off = std::abs(crossing.poses[i].at.x() - crossing.clearance.x);
        if (off < best) best = off, out.worst = static_cast<int>(out.poses.size()) - 1;
    }
}

/// Does it stand on the slopes of this ground?
void tipOn(const RouteFigure& part, const Balance& balance, RouteResult& out) {
    const double angle = std::atan(part.slope);
    for (const double downhill : {0.0, std::acos(-1.0)}) {
        const auto tip = ride::tipAngleTowards(balance.stance, downhill);
        if (!tip || tip->angle > angle) continue;
        out.outcome = Outcome::fails;
        out.margin = -balance.stance.centre.z() * (std::tan(angle) - std::tan(tip->angle));
        out.measure = downhill == 0 ? "it tips forward on it" : "it tips back on it";
        out.at.reset();
        out.binds.clear();
    }
}

} // namespace

RouteResult passGround(const Stuff& stuff, const RouteFigure& part, const std::optional<Balance>& balance) {
    RouteResult out;
    out.name = part.name;
    out.kind = part.kind;
    out.ground = part.ground;
    const Vec3 centre = balance ? balance->stance.centre : stuff.donor.chassis.centre;
    const OwnedSide side = sideOf(stuff, centre, heightSpan(part.ground) + 100);
    out.side = side.view;
    if (side.view.axles.size() < 2) return out;
    const double rear = side.view.axles.front().x, front = side.view.axles.back().x;
    double ahead = front, behind = rear;
    for (const Ring& chain : side.view.undersides)
        for (const Vec2& p : chain) {
            ahead = std::max(ahead, p.x());
            behind = std::min(behind, p.x());
        }
    const double from = part.ground.points.front().x() - ahead, to = part.ground.points.back().x() - behind;
    const auto crossing = route::drive(part.ground, side.view, from, to, tolerance);
    if (!crossing) return out;
    out.margin = crossing->clearance.height;
    out.measure = "over the ground";
    out.outcome = out.margin < 0            ? Outcome::fails
                  : out.margin < groundRoom ? Outcome::tight
                                            : Outcome::passes;
    keepPoses(*crossing, out);
    if (crossing->clearance.chain >= 0) {
        const std::size_t owner = side.owner[static_cast<std::size_t>(crossing->clearance.chain)];
        out.binds = stuff.bulks[owner].name;
        const Vec2& at = crossing->clearance.at;
        double y = 0, best = 1e18;
        for (const Vec3& p : stuff.bulks[owner].points)
            if (const double d = (Vec2(p.x(), p.z()) - at).squaredNorm(); d < best) best = d, y = p.y();
        out.at = wayOf(stuff).toBody(Vec3(at.x(), y, at.y()));
    }
    if (const std::string stops = climbOf(stuff, side, *crossing, balance, out); !stops.empty()) {
        out.outcome = Outcome::fails;
        out.measure = stops;
        out.margin = std::min(out.margin, 0.0);
    } else if (crossing->tips) {
        out.outcome = Outcome::fails;
        out.measure = "its middle comes beyond its wheels";
        out.margin = std::min(out.margin, 0.0);
    }
    if (balance) tipOn(part, *balance, out);
    return out;
}

} // namespace slab::trial
