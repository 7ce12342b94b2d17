// Doors, paths, hatches, beds, corners and turning room: the plan of the whole thing moved through.
#include "core/trial/passing.h"
#include "core/route/tee.h"
#include "core/trial/outline.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::trial {

namespace {

constexpr double open = 1e5; ///< mm: as high as it likes
constexpr double quarterTurn = std::numbers::pi / 2;

/// What is looked at, of one part of the route.
struct Seen {
    const Stuff& stuff;
    const std::vector<Bulk>& bulks;
    const OwnedFootprint& plan;
    route::DriveGeometry drive;
};

Vec3 cornerAt(const Seen& seen, std::size_t corner) {
    const Vec2& p = seen.plan.footprint.outline[corner];
    const Bulk& bulk = seen.bulks[seen.plan.owner[corner]];
    double z = 0, best = 1e18;
    for (const Vec3& q : bulk.points)
        if (const double d = (q.head<2>() - p).squaredNorm(); d < best) best = d, z = q.z();
    return wayOf(seen.stuff).toBody(Vec3(p.x(), p.y(), z));
}

void bind(const Seen& seen, RouteResult& out, std::size_t corner) {
    out.binds = seen.bulks[seen.plan.owner[corner]].name;
    out.at = cornerAt(seen, corner);
}

void settle(RouteResult& out, double wanted) {
    out.outcome = out.margin < 0 ? Outcome::fails : out.margin < wanted ? Outcome::tight : Outcome::passes;
}

Ring boxRing(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

/// Two jambs beside a way of that width, about the middle that it runs through.
std::vector<Ring> jambs(const Seen& seen, double width, double thickness, double offset) {
    const Box2 box = bounds(seen.plan.footprint.outline);
    const double x = box.max.x() + 150, deep = std::max(thickness, 60.0), wide = 600;
    const double port = width / 2 - offset, starboard = -width / 2 - offset;
    return {boxRing(x, port, x + deep, port + wide), boxRing(x, starboard - wide, x + deep, starboard)};
}

void through(const Seen& seen, const RouteFigure& part, RouteResult& out) {
    const double height = part.height > 0 ? part.height : open;
    const auto pass = route::passDoor(seen.plan.footprint, std::max(seen.plan.top, 0.0),
                                      {part.width, height, part.thickness}, part.skew);
    if (!pass) return;
    out.walls = jambs(seen, part.width, part.thickness, pass->offset);
    if (pass->above < pass->margin && part.height > 0) {
        out.margin = pass->above;
        out.measure = "above";
        out.binds = seen.bulks[seen.plan.highest].name;
        out.at = wayOf(seen.stuff).toBody(seen.plan.highestAt);
    } else {
        out.margin = pass->margin;
        out.measure = "across";
        bind(seen, out, static_cast<std::size_t>(pass->port));
    }
    settle(out, doorRoom);
}

/// A floor that it stands on whole, walls or rails beside it.
void onto(const Seen& seen, const RouteFigure& part, RouteResult& out) {
    const Box2 box = bounds(seen.plan.footprint.outline);
    const double along = part.length > 0 ? part.length - box.size().x() : open;
    out.walls = {boxRing(box.min.x() - std::max(along, 0.0) / 2, (box.min.y() + box.max.y() - part.width) / 2,
                         box.min.x() - std::max(along, 0.0) / 2 + part.length,
                         (box.min.y() + box.max.y() + part.width) / 2)};
    if (along < out.margin || out.measure.empty()) {
        out.margin = along;
        out.measure = "along the floor";
        std::size_t front = 0;
        for (std::size_t i = 1; i < seen.plan.footprint.outline.size(); ++i)
            if (seen.plan.footprint.outline[i].x() > seen.plan.footprint.outline[front].x()) front = i;
        bind(seen, out, front);
    }
    settle(out, floorRoom);
}

/// The corner's walls in the vehicle's axes where it is tightest.
std::vector<Ring> cornerWalls(const route::Corner& corner, const route::CornerPassage& pass) {
    // Inner edge at `at`; the way in runs along x turned back by the heading.
    const double turned = corner.turn >= 0 ? -pass.heading : pass.heading;
    const double side = corner.turn >= 0 ? 1 : -1, long1 = 4000;
    const Eigen::Rotation2Dd way(turned), out(turned + corner.turn);
    const Vec2 in = way * Vec2::UnitX(), on = out * Vec2::UnitX();
    const auto left = [&](const Vec2& v) { return Vec2(side * Vec2(-v.y(), v.x())); };
    const Vec2& at = pass.at;
    // Outer walls, each its corridor's width from the inner edge.
    const Vec2 a = at - corner.in * left(in), b = at - corner.out * left(on);
    const double t = cross2(b - a, on) / cross2(in, on);
    const Vec2 meet = a + t * in;
    return {{at - long1 * in, at, at + long1 * on}, {a - long1 * in, meet, b + long1 * on}};
}

/// How it comes round one corner, one way.
struct Rounded {
    route::Corner corner;
    route::CornerPassage pass;
    bool shunted = false; ///< it does not in one steady turn, and does when it is shunted
};
std::optional<Rounded> roundOne(const Seen& seen, const route::Corner& corner) {
    const double near = seen.stuff.depth == Depth::full ? 0.1 : 2; // mm that the true margin may be less
    const auto driven = route::driveRound(seen.plan.footprint, corner, seen.drive, near);
    if (!driven) return std::nullopt;
    Rounded out{corner, *driven, false};
    if (out.pass.passes()) return out;
    const auto carried = route::carryRound(seen.plan.footprint, corner, near);
    if (carried && carried->margin > out.pass.margin) out.pass = *carried, out.shunted = carried->passes();
    return out;
}

bool worse(const Rounded& a, const Rounded& b) {
    if (a.pass.passes() != b.pass.passes()) return !a.pass.passes();
    if (a.shunted != b.shunted) return a.shunted;
    return a.pass.margin < b.pass.margin;
}

/// Is it as wide to port as to starboard all along?
bool evenToBothSides(const route::Footprint& footprint) {
    const Ring other = route::mirrored(footprint).outline;
    return std::all_of(footprint.outline.begin(), footprint.outline.end(), [&](const Vec2& p) {
        return std::any_of(other.begin(), other.end(), [&](const Vec2& q) { return (p - q).norm() < 1e-6; });
    });
}

void tellRound(const Seen& seen, const Rounded& rounded, RouteResult& out) {
    const route::CornerPassage& pass = rounded.pass;
    out.measure = "round the corner";
    if (rounded.shunted) out.measure += " when it is shunted to and fro, not in one steady turn";
    out.margin = pass.margin;
    out.walls = cornerWalls(rounded.corner, pass);
    const auto nearest = [&](const Vec2& at) {
        std::size_t best = 0;
        const Ring& ring = seen.plan.footprint.outline;
        for (std::size_t i = 1; i < ring.size(); ++i)
            if ((ring[i] - at).squaredNorm() < (ring[best] - at).squaredNorm()) best = i;
        return best;
    };
    bind(seen, out,
         pass.limit == route::CornerLimit::innerEdge ? static_cast<std::size_t>(pass.firstWall)
                                                     : nearest(pass.at));
    settle(out, doorRoom);
    if (rounded.shunted && out.outcome == Outcome::passes) out.outcome = Outcome::tight;
}

/// There and back: the same corner is met the other way round then.
void round(const Seen& seen, const RouteFigure& part, RouteResult& out) {
    const auto there = roundOne(seen, {part.width, part.wayOut, part.turn});
    if (!there) return;
    Rounded worst = *there;
    if (part.width != part.wayOut || !evenToBothSides(seen.plan.footprint))
        if (const auto back = roundOne(seen, {part.wayOut, part.width, -part.turn});
            back && worse(*back, worst))
            worst = *back;
    tellRound(seen, worst, out);
}

void turnIn(const Seen& seen, const RouteFigure& part, RouteResult& out) {
    const auto path = route::tightestTurn(seen.plan.footprint, seen.drive);
    if (!path) return;
    out.margin = part.diameter - path->diameter();
    out.measure = "across the turning circle";
    bind(seen, out, static_cast<std::size_t>(path->outerCorner));
    settle(out, doorRoom);
}

/// The same seen by what comes stern first.
route::Footprint sternFirst(const route::Footprint& footprint) {
    route::Footprint out;
    for (const Vec2& p : footprint.outline) out.outline.emplace_back(-p.x(), p.y());
    std::reverse(out.outline.begin(), out.outline.end());
    return out;
}

/// The T's walls in the vehicle's axes: the stem, both arms and the far wall, about the inner edge.
std::vector<Ring> teeWalls(const route::Tee& tee, const route::CornerPassage& pass) {
    constexpr double long1 = 4000;
    const Eigen::Rotation2Dd way(-pass.heading);
    const Vec2 ahead = way * Vec2::UnitX(), port = way * Vec2::UnitY();
    const Vec2 &a = pass.at, b = a - tee.stem * port, far = a - tee.stem / 2 * port + tee.arms * ahead;
    return {{a - long1 * ahead, a, a + long1 * port},
            {b - long1 * ahead, b, b - long1 * port},
            {far - long1 * port, far + long1 * port}};
}

/// A passage of the footprint as seen in a mirror, told of the vehicle itself.
struct Carried {
    route::CornerPassage pass;
    std::vector<Ring> walls;
};
Carried carriedIn(const Seen& seen, const route::Tee& tee, const Vec2& mirror) {
    route::Footprint own = seen.plan.footprint;
    if (mirror.y() < 0) own = route::mirrored(own);
    if (mirror.x() < 0) own = sternFirst(own);
    const auto pass = route::carryIntoArm(own, tee, seen.stuff.depth == Depth::full ? 0.1 : 2);
    if (!pass) return {};
    Carried out{*pass, teeWalls(tee, *pass)};
    for (Ring& wall : out.walls)
        for (Vec2& p : wall) p = p.cwiseProduct(mirror);
    out.pass.at = out.pass.at.cwiseProduct(mirror);
    if (mirror.x() * mirror.y() < 0) // each mirror turns the order round
        out.pass.firstWall = static_cast<int>(own.outline.size()) - 1 - out.pass.firstWall;
    return out;
}

/// A T-turn to one side: in steady turns as round two corners or, its far end free to swing into the other
/// arm, shunted.
struct TeeTurn {
    std::optional<Rounded> driven;
    std::optional<Carried> carried; ///< where it does not pass in steady turns
    [[nodiscard]] bool steady() const { return driven && driven->pass.passes() && !driven->shunted; }
};

/// Forward into the arm on that side, straight back into the other, forward out again: as it came in, seen
/// stern first and backwards.
TeeTurn teeOn(const Seen& seen, const RouteFigure& part, double side) {
    TeeTurn out;
    out.driven = roundOne(seen, {part.width, part.wayOut, side * quarterTurn});
    if (const auto on = roundOne(seen, {part.wayOut, part.width, side * quarterTurn});
        on && out.driven && worse(*on, *out.driven))
        out.driven = on;
    if (out.steady()) return out;
    const route::Tee tee{part.width, part.wayOut};
    Carried in = carriedIn(seen, tee, {1, side}), back = carriedIn(seen, tee, {-1, side});
    if (in.walls.empty() || back.walls.empty()) return out;
    out.carried = std::move(in.pass.margin <= back.pass.margin ? in : back);
    return out;
}

bool better(const TeeTurn& a, const TeeTurn& b) {
    if (a.steady() != b.steady()) return a.steady();
    if (a.steady()) return a.driven->pass.margin > b.driven->pass.margin;
    return a.carried && (!b.carried || a.carried->pass.margin > b.carried->pass.margin);
}

/// To the better side, with arms that hold its length.
void turnInT(const Seen& seen, const RouteFigure& part, RouteResult& out) {
    TeeTurn best = teeOn(seen, part, 1);
    if (!evenToBothSides(seen.plan.footprint))
        if (TeeTurn other = teeOn(seen, part, -1); better(other, best)) best = std::move(other);
    if (!best.carried && !best.driven) return;
    if (best.carried) {
        const route::CornerPassage& pass = best.carried->pass;
        tellRound(seen, {{part.width, part.wayOut, quarterTurn}, pass, pass.passes()}, out);
        out.walls = best.carried->walls;
        out.measure = pass.passes() ? "in the T when it is shunted to and fro, not in one steady turn"
                                    : "in the T, however it is shunted";
    } else {
        tellRound(seen, *best.driven, out);
    }
    const double along = part.length - bounds(seen.plan.footprint.outline).size().x();
    if (along >= out.margin) return;
    out.margin = along;
    out.measure = "along the arms of the T";
    settle(out, doorRoom);
    if (best.carried && out.outcome == Outcome::passes) out.outcome = Outcome::tight;
}

} // namespace

route::DriveGeometry driveOf(const Chassis& chassis) {
    route::DriveGeometry drive;
    drive.axle = chassis.forward.dot(chassis.axle);
    if (chassis.drive == DriveKind::steered && chassis.lock > 0)
        drive.leastRadius = chassis.wheelbase / std::tan(chassis.lock);
    return drive;
}

RouteResult passPlan(const Stuff& stuff, const RouteFigure& part) {
    RouteResult out;
    out.name = part.name;
    out.kind = part.kind;
    const auto& plan = part.empty ? stuff.emptyPlan : stuff.plan;
    if (!plan) return out;
    const Seen seen{stuff, stuff.bulks, *plan, driveOf(stuff.donor.chassis)};
    if (part.kind == "corner")
        round(seen, part, out);
    else if (part.kind == "turning_circle")
        turnIn(seen, part, out);
    else if (part.kind == "t_turn")
        turnInT(seen, part, out);
    else {
        through(seen, part, out);
        if (part.kind == "bed" || (part.kind == "hatch" && part.length > 0)) onto(seen, part, out);
    }
    return out;
}

std::optional<Turning> turningOf(const Stuff& stuff) {
    if (stuff.donor.chassis.drive == DriveKind::none) return std::nullopt;
    const auto& plan = stuff.plan;
    if (!plan) return std::nullopt;
    const route::DriveGeometry drive = driveOf(stuff.donor.chassis);
    const auto path = route::tightestTurn(plan->footprint, drive);
    if (!path) return std::nullopt;
    // The same path to port or, where the mirrored one is the wider, to starboard.
    const auto port = route::sweptPath(plan->footprint, drive.axle, path->radius);
    const bool toPort = port && std::abs(port->outer - path->outer) < 1e-6;
    Turning out;
    out.path = *path;
    out.centre = wayOf(stuff).toBody(Vec3(drive.axle, (toPort ? 1 : -1) * path->radius, 0)).head<2>();
    const std::size_t count = plan->owner.size();
    const auto name = [&](int corner) {
        return corner >= 0 && static_cast<std::size_t>(corner) < count
                   ? stuff.bulks[plan->owner[static_cast<std::size_t>(corner)]].name
                   : std::string();
    };
    out.inner = name(path->innerCorner);
    out.outer = name(path->outerCorner);
    return out;
}

} // namespace slab::trial
