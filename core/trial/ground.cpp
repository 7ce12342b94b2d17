// Ramps, kerbs, thresholds, steps, humps and ground of the builder's own: driven along step by step.
#include "core/ride/resistance.h"
#include "core/route/hung.h"
#include "core/trial/passing.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>

namespace slab::trial {

namespace {

constexpr double tolerance = 0.1;     ///< mm, of the crossing
constexpr double sprung = 25;         ///< mm that springs and tyres make up for (from memory)
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

/// The push that there is: of driven wheels by their friction, or of somebody who walks where none drives.
/// @param loads  of each wheel, N
double pushOf(const Stuff& stuff, const std::vector<double>& loads) {
    double load = 0;
    const auto& wheels = stuff.donor.chassis.wheels;
    const bool driven =
        std::any_of(wheels.begin(), wheels.end(), [](const Wheel& w) { return w.role == WheelRole::drive; });
    if (stuff.donor.chassis.drive == DriveKind::pushed || !driven) return helperPush;
    for (std::size_t i = 0; i < wheels.size() && i < loads.size(); ++i)
        if (wheels[i].role == WheelRole::drive) load += loads[i];
    return stuff.ride.friction * load;
}

/// Wheels against steps, at rest before them. @return words of what stops the worst; empty if nothing does
std::string climbOf(const Stuff& stuff, const OwnedSide& side, const route::Crossing& crossing,
                    const std::optional<Balance>& balance, RouteResult& out) {
    std::string words;
    double worst = 1; // push that it takes over the push that there is
    const double has = balance && !balance->standings.empty()
                           ? pushOf(stuff, balance->standings.front().loads)
                           : 0; // on the level
    // A wheel of radius r gets up r (1 − cos θ) with its load times tan θ of push: what the step is too high.
    const auto radiusOf = [&](std::size_t a) {
        return stuff.donor.chassis.wheels[side.wheels[a].front()].radius;
    };
    const auto tooHigh = [&](std::size_t a, double load, double lean) {
        const double climbs = load > 0 ? std::atan(has / load) : 0;
        const Wheel& wheel = stuff.donor.chassis.wheels[side.wheels[a].front()];
        out.binds = side.axles[a];
        const double can = std::max(stuff.donor.chassis.climb, wheel.radius * (1 - std::cos(climbs)));
        out.margin = std::min(out.margin, can - wheel.radius * (1 - std::cos(lean)));
        out.at = wheel.at + wheel.radius * (stuff.donor.chassis.forward + Vec3::UnitZ());
    };
    for (std::size_t a = 0; a < crossing.climbs.size(); ++a) {
        const route::Climb& climb = crossing.climbs[a];
        const bool one = side.wheels[a].size() == 1;
        if (climb.blocked) {
            tooHigh(a, balance ? loadOn(side, a, *balance) : 0, std::acos(-1.0) / 2);
            return "the step is as high as the middle of the " + side.axles[a];
        }
        if (!balance || !(climb.lean > std::atan(0.2))) continue;     // a slope, not a step
        const double step = radiusOf(a) * (1 - std::cos(climb.lean)); // that would be as hard
        if (step < stuff.donor.chassis.climb + tolerance) continue;
        const double needs = loadOn(side, a, *balance) * std::tan(climb.lean);
        if (needs <= worst * has) continue;
        worst = has > 0 ? needs / has : 1e9;
        tooHigh(a, loadOn(side, a, *balance), climb.lean);
        words = "to get up, the " + side.axles[a] + (one ? " needs " : " need ") +
                forceWords(needs, stuff.units) + " of push, and " + forceWords(has, stuff.units) +
                " are there";
        if (stuff.donor.chassis.climb > 0)
            words += "; its maker lets it climb " + printFine(stuff.donor.chassis.climb, stuff.units);
    }
    return words;
}

void keepPoses(const route::Crossing& crossing, RouteResult& out) {
    out.poses.clear();
    const std::size_t step = std::max<std::size_t>(1, crossing.poses.size() / mostPoses);
    double best = 1e18;
    for (std::size_t i = 0; i < crossing.poses.size(); i += step) {
        out.poses.push_back(crossing.poses[i]);
        const double off = std::abs(crossing.poses[i].at.x() - crossing.clearance.x);
        if (off < best) best = off, out.worst = static_cast<int>(out.poses.size()) - 1;
    }
}

/// Does it stand as steep as this ground pitches it? It is driven there and back, nose first.
void tipOn(const Stuff& stuff, const route::Crossing& crossing, const Balance& balance, RouteResult& out) {
    const double up = crossing.noseUp.value, down = -crossing.noseDown.value, angle = std::max(up, down);
    const double ahead = headingOf(stuff.donor.chassis);
    for (const bool forward : {true, false}) {
        const auto tip = ride::tipAngleTowards(balance.stance, forward ? ahead : ahead + std::acos(-1.0));
        if (!tip || tip->angle > angle) continue;
        out.outcome = Outcome::fails;
        constexpr double most = 80 * degree; // where it stands on no ground at all
        out.margin = -balance.stance.centre.z() * (std::tan(angle) - std::tan(std::max(tip->angle, -most)));
        out.measure = forward ? "it tips forward on it" : "it tips back on it";
        if ((forward ? down : up) < tip->angle) out.measure += " on the way back";
        out.at.reset();
        out.binds.clear();
    }
}

/// Enough push for the whole weight on the steepest that this ground pitches it, there or back?
/// @source  W sin θ against friction times what the driven wheels carry on that slope; rolling left out
void gripOn(const Stuff& stuff, const route::Crossing& crossing, const Balance& balance, RouteResult& out) {
    const double angle = std::max(crossing.noseUp.value, -crossing.noseDown.value);
    if (!(angle > 0)) return;
    const auto pull = ride::pullOn({angle, headingOf(stuff.donor.chassis)});
    if (!pull) return;
    const auto loads = ride::wheelLoads(balance.stance, *pull);
    if (!loads || !loads->stands) return; // told as tipping
    const double weight = balance.stance.mass * ride::gravity / 1000;
    const double needs = weight * std::sin(angle), has = pushOf(stuff, loads->loads);
    if (needs <= has) return;
    const OwnedSide& side = stuff.side;
    const double wheelbase =
        side.view.axles.empty() ? 1000 : side.view.axles.back().x - side.view.axles.front().x;
    out.outcome = Outcome::fails;
    out.margin = -std::abs(wheelbase) * (std::sin(angle) - has / weight);
    out.measure = "to get up, it needs " + forceWords(needs, stuff.units) + " of push, and " +
                  forceWords(has, stuff.units) + " are there";
    out.at.reset();
    out.binds.clear();
}

/// Driven from before the ground's beginning until past its end.
struct Way {
    double from = 0, to = 0;
};
Way wayOver(const route::GroundProfile& ground, std::initializer_list<const route::SideView*> views) {
    double ahead = -1e18, behind = 1e18;
    const auto meet = [&](double x) {
        ahead = std::max(ahead, x);
        behind = std::min(behind, x);
    };
    for (const route::SideView* view : views) {
        for (const route::Axle& axle : view->axles) meet(axle.x);
        for (const Ring& chain : view->undersides)
            for (const Vec2& p : chain) meet(p.x());
    }
    return {ground.points.front().x() - ahead, ground.points.back().x() - behind};
}

Expected<route::Crossing> driven(const Stuff& stuff, const RouteFigure& part, const route::SideView& view,
                                 const Way& way) {
    if (stuff.depth < Depth::full) return route::quickDrive(part.ground, view, way.from, way.to);
    return route::drive(part.ground, view, way.from, way.to, tolerance, false);
}

/// The least clearance of one crossing, with the place of what comes nearest.
void takeClearance(const Stuff& stuff, const OwnedSide& side, const route::Crossing& crossing,
                   RouteResult& out) {
    out.margin = crossing.clearance.height;
    out.measure = "over the ground";
    out.outcome = out.margin < 0            ? Outcome::fails
                  : out.margin < groundRoom ? Outcome::tight
                                            : Outcome::passes;
    out.side = side.view;
    keepPoses(crossing, out);
    if (crossing.clearance.chain < 0) return;
    const Bulk& bulk = stuff.bulks[side.owner[static_cast<std::size_t>(crossing.clearance.chain)]];
    out.binds = bulk.name;
    const Vec2& at = crossing.clearance.at;
    double y = 0, best = 1e18;
    for (const Vec3& p : bulk.points)
        if (const double d = (Vec2(p.x(), p.z()) - at).squaredNorm(); d < best) best = d, y = p.y();
    out.at = wayOf(stuff).toBody(Vec3(at.x(), y, at.y()));
}

void addLifts(const Stuff& stuff, const OwnedSide& side, const route::Crossing& crossing, RouteResult& out) {
    constexpr double least = 1; // mm
    const auto& wheels = stuff.donor.chassis.wheels;
    for (std::size_t a = 0; a < crossing.lifts.size() && a < side.wheels.size(); ++a) {
        if (crossing.lifts[a].value < least) continue;
        const bool drives = std::any_of(side.wheels[a].begin(), side.wheels[a].end(),
                                        [&](std::size_t w) { return wheels[w].role == WheelRole::drive; });
        out.lifts.push_back({side.axles[a], drives, crossing.lifts[a].value});
        if (!drives || crossing.lifts[a].value < sprung) continue;
        if (out.outcome == Outcome::passes) out.outcome = Outcome::tight; // it may stop there
        if (out.outcome == Outcome::tight) out.measure = "over the ground, its drive wheels in the air";
    }
}

/// How far a floating shell moves on its donor, against how far it may.
/// @param lever  mm that a pitch of 1 is worth, where its wheels are
void holdAgainst(const Stuff& stuff, const RouteResult::Afloat& needs, double lever, RouteResult& out) {
    out.afloat = needs;
    const FloatRange& may = stuff.floating;
    struct Over {
        double by, lever;
        std::string needs;
    };
    const auto lengths = [&](const char* way1, double of, double has) {
        return std::string(way1) + printFine(of, stuff.units) + ", and its slot lets it " +
               printFine(std::max(has, 0.0), stuff.units);
    };
    const auto angles = [&](const char* way1, double of, double has) {
        return std::string(way1) + printAngle(of) + ", and may " + printAngle(std::max(has, 0.0));
    };
    for (const Over& over :
         {Over{needs.up - may.highest, 1,
               lengths("the shell has to rise on its pin by ", needs.up, may.highest)},
          Over{may.lowest - needs.down, 1,
               lengths("the shell has to sink on its pin by ", -needs.down, -may.lowest)},
          Over{needs.noseUp - may.noseUp, lever,
               angles("the shell has to pitch nose up by ", needs.noseUp, may.noseUp)},
          Over{may.noseDown - needs.noseDown, lever,
               angles("the shell has to pitch nose down by ", -needs.noseDown, -may.noseDown)}}) {
        const double short1 = over.by * over.lever; // mm, of a pitch at the wheelbase's end
        if (short1 <= tolerance || -short1 > out.margin) continue;
        out.margin = -short1;
        out.outcome = Outcome::fails;
        out.measure = over.needs;
        out.binds = stuff.link->name;
        out.at = stuff.link->at;
    }
}

/// A shell that rolls on one axle and hangs on its pin, which neither rises nor sinks then.
void passHung(const Stuff& stuff, const RouteFigure& part, const OwnedSide& shell,
              const route::Linked& linked, const Way& way, RouteResult& out) {
    const auto hung = stuff.depth < Depth::full
                          ? route::quickHung(part.ground, linked, way.from, way.to)
                          : route::driveHung(part.ground, linked, way.from, way.to, tolerance);
    if (!hung) return;
    route::Crossing crossing;
    crossing.clearance = hung->clearance;
    crossing.poses = hung->poses;
    if (crossing.clearance.height < out.margin) takeClearance(stuff, shell, crossing, out);
    holdAgainst(stuff, {0, 0, hung->noseDown.value, hung->noseUp.value},
                std::abs(linked.body.axles.front().x - linked.link.x()), out);
}

/// A shell on wheels of its own: its plates over the ground, and how far it moves on the donor against how
/// far it may.
void passAfloat(const Stuff& stuff, const RouteFigure& part, const SideParts& donorParts,
                const OwnedSide& donor, RouteResult& out) {
    Vec3 centre = Vec3::Zero(); // of the wheels: what they carry of the shell is not known
    for (const Wheel& w : stuff.ride.shellWheels)
        centre += w.at / static_cast<double>(stuff.ride.shellWheels.size());
    SideParts parts = donorParts;
    parts.shell = true;
    parts.donor = false;
    parts.wheels = stuff.ride.shellWheels;
    parts.centre = centre;
    const OwnedSide shell = sideOf(stuff, parts);
    const Vec3 link = wayOf(stuff).toLocal(stuff.link->at);
    const route::Linked linked{donor.view, shell.view, {link.x(), link.z()}};
    const Way way = wayOver(part.ground, {&donor.view, &shell.view});
    if (shell.view.axles.size() == 1) return passHung(stuff, part, shell, linked, way, out);
    if (shell.view.axles.empty()) return;
    if (const auto crossing = driven(stuff, part, shell.view, way);
        crossing && crossing->clearance.height < out.margin)
        takeClearance(stuff, shell, *crossing, out);
    const auto travel = stuff.depth < Depth::full
                            ? route::quickLinkTravel(part.ground, linked, way.from, way.to)
                            : route::linkTravel(part.ground, linked, way.from, way.to, tolerance);
    if (!travel) return;
    holdAgainst(stuff, {travel->down.value, travel->up.value, travel->noseDown.value, travel->noseUp.value},
                shell.view.axles.back().x - shell.view.axles.front().x, out);
}

} // namespace

std::optional<Ramps> rampsOf(const Stuff& stuff) {
    if (stuff.link && !stuff.ride.shellWheels.empty()) return std::nullopt;
    const OwnedSide& side = stuff.side;
    if (side.view.axles.size() < 2) return std::nullopt;
    const auto angles = route::rampAngles(side.view);
    if (!angles) return std::nullopt;
    Ramps out;
    out.angles = *angles;
    const auto nameAt = [&](const Vec2& at) -> std::string {
        double best = 1e18;
        std::size_t owner = 0;
        for (std::size_t c = 0; c < side.view.undersides.size(); ++c) {
            const Ring& chain = side.view.undersides[c];
            for (std::size_t i = 0; i < chain.size(); ++i) {
                const Vec2 &a = chain[i], &b = chain[std::min(i + 1, chain.size() - 1)];
                const double along = (b - a).squaredNorm();
                const double t = along > 0 ? std::clamp((at - a).dot(b - a) / along, 0.0, 1.0) : 0;
                if (const double d = (a + t * (b - a) - at).squaredNorm(); d < best)
                    best = d, owner = side.owner[c];
            }
        }
        return best < 1 ? stuff.bulks[owner].name : std::string();
    };
    out.approach = nameAt(angles->approachAt);
    out.departure = nameAt(angles->departureAt);
    out.breakover = nameAt(angles->breakoverAt);
    return out;
}

RouteResult passGround(const Stuff& stuff, const RouteFigure& part, const std::optional<Balance>& balance) {
    RouteResult out;
    out.name = part.name;
    out.kind = part.kind;
    out.ground = part.ground;
    const bool afloat = stuff.link && !stuff.ride.shellWheels.empty();
    SideParts parts;
    parts.shell = !afloat;
    parts.wheels = stuff.donor.chassis.wheels;
    parts.centre = balance ? balance->stance.centre : stuff.donor.chassis.centre;
    parts.reach = heightSpan(part.ground) + 100;
    const OwnedSide side = afloat ? sideOf(stuff, parts) : stuff.side;
    out.side = side.view;
    if (side.view.axles.size() < 2) return out;
    const Way way = wayOver(part.ground, {&side.view});
    const auto crossing = driven(stuff, part, side.view, way);
    if (!crossing) {
        if (crossing.error().code != "no-stance") return out;
        out.outcome = Outcome::fails;
        out.margin = -heightSpan(part.ground);
        out.measure = "it stands nowhere on it: too steep, or an edge deeper than its wheels reach down";
        return out;
    }
    takeClearance(stuff, side, *crossing, out);
    addLifts(stuff, side, *crossing, out);
    if (afloat) passAfloat(stuff, part, parts, side, out);
    if (const std::string stops = climbOf(stuff, side, *crossing, balance, out); !stops.empty()) {
        out.outcome = Outcome::fails;
        out.measure = stops;
        out.margin = std::min(out.margin, 0.0);
    } else if (crossing->tips) {
        out.outcome = Outcome::fails;
        out.measure = "its middle comes beyond its wheels";
        out.margin = std::min(out.margin, 0.0);
    }
    if (balance && out.outcome != Outcome::fails) gripOn(stuff, *crossing, *balance, out);
    if (balance) tipOn(stuff, *crossing, *balance, out);
    return out;
}

} // namespace slab::trial
