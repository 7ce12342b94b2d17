#include "core/trial/outline.h"
#include "core/geometry/convex.h"
#include "core/geometry/polygon.h"
#include "core/trial/lower_edge.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace slab::trial {

namespace {

constexpr int facets = 48;
constexpr double standing = 1; ///< mm: what reaches lower stands on the ground
constexpr double alike = 20;   ///< mm: wheels nearer along the way are one axle

/// A circle's facets, from outside.
void addCircle(const Vec3& middle, const Vec3& u, const Vec3& v, double radius, std::vector<Vec3>& out) {
    const double outside = radius / std::cos(std::numbers::pi / facets);
    for (int i = 0; i < facets; ++i) {
        const double a = 2 * std::numbers::pi * i / facets;
        out.push_back(middle + outside * (std::cos(a) * u + std::sin(a) * v));
    }
}

/// Corners of a convex solid that hold it as it is seen along each axis; curved ones in facets from outside.
std::vector<Vec3> cornersOf(const ConvexSolid& s) {
    if (s.radius == 0) return s.points;
    std::vector<Vec3> out;
    if (s.kind == ConvexSolid::Kind::cylinder) {
        const Vec3 axis = (s.points[1] - s.points[0]).normalized(), u = axis.unitOrthogonal();
        for (const Vec3& end : s.points) addCircle(end, u, axis.cross(u), s.radius, out);
        return out;
    }
    for (const Vec3& p : s.points)
        for (int k = 0; k < 3; ++k) addCircle(p, Vec3::Unit(k), Vec3::Unit((k + 1) % 3), s.radius, out);
    return out;
}

void addSolids(const Stuff& stuff, std::vector<Bulk>& out) {
    for (const FitSolid& s : stuff.donor.solids) {
        const bool person = s.group == "rider";
        if (!person && s.keptFree) continue;
        Bulk bulk;
        bulk.name = s.name;
        bulk.person = person;
        bulk.points = cornersOf(s.shape);
        bulk.donor = !person;
        bulk.low = !person && bounds(s.shape).min.z() < standing;
        out.push_back(std::move(bulk));
    }
}

Ring flat(const std::vector<Vec3>& points, const Vec3& u, const Vec3& v) {
    Ring ring;
    for (const Vec3& p : points) ring.push_back({u.dot(p), v.dot(p)});
    return ring;
}

/// The lower edge of a convex piece in side view, from rear to front.
Ring lowerHull(const Ring& points) {
    const Ring hull = convexHull(points);
    if (hull.size() < 3) return hull;
    // Counter-clockwise: the lower edge runs from the rearmost corner to the foremost.
    std::size_t rear = 0, front = 0;
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const auto before = [](const Vec2& a, const Vec2& b) {
            return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y());
        };
        if (before(hull[i], hull[rear])) rear = i;
        if (hull[i].x() > hull[front].x() ||
            (hull[i].x() == hull[front].x() && hull[i].y() < hull[front].y()))
            front = i;
    }
    Ring chain;
    for (std::size_t i = rear;; i = (i + 1) % hull.size()) {
        chain.push_back(hull[i]);
        if (i == front) break;
    }
    return chain;
}

struct AxleWheel {
    double x, radius;
    std::size_t wheel;
};

void addAxles(const Vec3& forward, const std::vector<Wheel>& all, OwnedSide& out) {
    std::vector<AxleWheel> wheels;
    for (std::size_t i = 0; i < all.size(); ++i)
        wheels.push_back({forward.dot(all[i].at) - all[i].trail, all[i].radius, i});
    std::stable_sort(wheels.begin(), wheels.end(),
                     [](const AxleWheel& a, const AxleWheel& b) { return a.x < b.x; });
    for (const AxleWheel& w : wheels) {
        const bool same = !out.view.axles.empty() && w.x - out.view.axles.back().x < alike &&
                          std::abs(w.radius - out.view.axles.back().radius) < alike;
        if (!same) {
            out.view.axles.push_back({w.x, w.radius});
            out.axles.push_back(all[w.wheel].name);
            out.wheels.push_back({w.wheel});
            continue;
        }
        out.axles.back() += " and " + all[w.wheel].name;
        out.wheels.back().push_back(w.wheel);
    }
}

} // namespace

std::vector<Bulk> bulksOf(const Stuff& stuff) {
    std::vector<Bulk> out;
    for (const Plate& plate : stuff.plates.plates) {
        Bulk bulk;
        bulk.name = plate.name;
        bulk.plate = true;
        bulk.points = plate.solid.vertices;
        for (const ConvexSolid& cell : plate.cells) bulk.pieces.push_back(cornersOf(cell));
        if (bulk.points.empty())
            for (const auto& piece : bulk.pieces)
                bulk.points.insert(bulk.points.end(), piece.begin(), piece.end());
        if (!bulk.points.empty()) out.push_back(std::move(bulk));
    }
    for (const BoughtPart& part : stuff.bought) {
        Bulk bulk;
        bulk.name = part.name;
        bulk.points = cornersRound(part);
        for (const ConvexSolid& piece : part.pieces)
            if (piece.points.size() > 1) bulk.pieces.push_back(cornersOf(piece));
        if (!bulk.points.empty()) out.push_back(std::move(bulk));
    }
    addSolids(stuff, out);
    const Frame way = wayOf(stuff);
    for (Bulk& bulk : out) {
        for (Vec3& p : bulk.points) p = way.toLocal(p);
        for (auto& piece : bulk.pieces)
            for (Vec3& p : piece) p = way.toLocal(p);
    }
    return out;
}

double headingOf(const Chassis& chassis) {
    return std::atan2(chassis.forward.y(), chassis.forward.x());
}

Frame wayOf(const Stuff& stuff) {
    const Chassis& chassis = stuff.donor.chassis;
    Frame way;
    way.axes.col(0) = chassis.forward;
    way.axes.col(1) = Vec3::UnitZ().cross(chassis.forward);
    way.origin = way.axes.col(1) * way.axes.col(1).dot(chassis.axle);
    return way;
}

namespace {

/// Corners of a plan, each with its owner.
struct OwnedPoint {
    Vec2 at;
    std::size_t owner;
};

/// Without those that lie inside of the eight-cornered hull of the utmost ones (Akl and Toussaint, 1978).
void dropInner(std::vector<OwnedPoint>& points) {
    if (points.size() < 16) return;
    std::vector<Vec2> utmost;
    for (const Vec2& way : {Vec2(1, 0), Vec2(1, 1), Vec2(0, 1), Vec2(-1, 1), Vec2(-1, 0), Vec2(-1, -1),
                            Vec2(0, -1), Vec2(1, -1)})
        utmost.push_back(std::max_element(points.begin(), points.end(), [&](const auto& a, const auto& b) {
                             return way.dot(a.at) < way.dot(b.at);
                         })->at);
    const Ring hull = convexHull(utmost);
    if (hull.size() < 3) return;
    const double room = 1e-9 * bounds(hull).size().norm();
    std::erase_if(points, [&](const OwnedPoint& p) {
        for (std::size_t i = 0; i < hull.size(); ++i) {
            const Vec2 side = hull[(i + 1) % hull.size()] - hull[i];
            if (cross2(side, p.at - hull[i]) <= room * side.norm()) return false;
        }
        return true;
    });
}

/// Adds the points of bulks, with people or without; keeps the highest.
void addPoints(const std::vector<Bulk>& bulks, bool people, std::vector<OwnedPoint>& points,
               OwnedFootprint& out) {
    for (std::size_t i = 0; i < bulks.size(); ++i) {
        if (bulks[i].person != people) continue;
        for (const Vec3& p : bulks[i].points) {
            points.push_back({p.head<2>(), i});
            if (p.z() > out.top) out.top = p.z(), out.highest = i, out.highestAt = p;
        }
    }
    dropInner(points);
}

Expected<OwnedFootprint> hullOf(const std::vector<OwnedPoint>& points, OwnedFootprint out) {
    std::vector<Vec2> plan;
    for (const OwnedPoint& p : points) plan.push_back(p.at);
    auto made = route::footprintOf(plan);
    if (!made) return tl::unexpected(made.error());
    out.footprint = std::move(*made);
    // Corners of the hull are some of the points: the first that has the place owns it.
    for (const Vec2& corner : out.footprint.outline)
        out.owner.push_back(std::find_if(points.begin(), points.end(), [&](const OwnedPoint& p) {
                                return p.at == corner;
                            })->owner);
    return out;
}

} // namespace

Plans plansOf(const std::vector<Bulk>& bulks) {
    std::vector<OwnedPoint> points;
    OwnedFootprint plan;
    plan.top = -1e9;
    addPoints(bulks, false, points, plan);
    Plans out{{}, hullOf(points, plan)};
    addPoints(bulks, true, points, plan);
    out.aboard = hullOf(points, plan);
    return out;
}

namespace {

/// Convex outlines that lie within a larger one change nothing; most of donor and rider do.
void dropCovered(std::vector<Polygon>& convex) {
    struct Shade {
        Polygon polygon;
        double size;
        Box2 box;
    };
    std::vector<Shade> all;
    for (Polygon& p : convex) {
        const double size = signedArea(p.outer);
        const Box2 box = bounds(p.outer);
        all.push_back({std::move(p), size, box});
    }
    std::stable_sort(all.begin(), all.end(), [](const Shade& a, const Shade& b) { return a.size > b.size; });
    const auto within = [](const Shade& a, const Shade& b) {
        if ((a.box.min - b.box.min).minCoeff() < 0 || (b.box.max - a.box.max).minCoeff() < 0) return false;
        const Ring& edges = b.polygon.outer;
        for (std::size_t i = 0; i < edges.size(); ++i) {
            const Vec2 along = edges[(i + 1) % edges.size()] - edges[i];
            for (const Vec2& p : a.polygon.outer)
                if (cross2(along, p - edges[i]) < 0) return false;
        }
        return true;
    };
    convex.clear();
    std::vector<const Shade*> kept;
    for (Shade& one : all) {
        if (std::any_of(kept.begin(), kept.end(), [&](const Shade* k) { return within(one, *k); })) continue;
        kept.push_back(&one);
        convex.push_back(one.polygon);
    }
}

} // namespace

Silhouette silhouetteOf(const Stuff& stuff, bool fromSide) {
    const Vec3 u = fromSide ? Vec3::UnitX() : Vec3::UnitY();
    std::vector<Polygon> shades;
    const auto add = [&](const std::vector<Vec3>& points) {
        Ring hull = convexHull(flat(points, u, Vec3::UnitZ()));
        if (hull.size() > 2 && signedArea(hull) > 1) shades.push_back({std::move(hull), {}});
    };
    for (const Bulk& bulk : stuff.bulks) {
        if (bulk.pieces.empty()) add(bulk.points);
        for (const auto& piece : bulk.pieces) add(piece);
    }
    dropCovered(shades);
    Silhouette out;
    Vec2 moment = Vec2::Zero();
    for (const Polygon& part : unite(shades)) {
        const double size = area(part);
        out.area += size;
        moment += size * centroid(part);
    }
    if (out.area > 0) out.centre = moment.x() / out.area * u + moment.y() / out.area * Vec3::UnitZ();
    return out;
}

OwnedSide sideOf(const Stuff& stuff, const SideParts& parts) {
    const std::vector<Bulk>& bulks = stuff.bulks;
    OwnedSide out;
    addAxles(stuff.donor.chassis.forward, parts.wheels, out);
    out.view.centre = {stuff.donor.chassis.forward.dot(parts.centre), parts.centre.z()};
    double rear = 0, front = 0;
    if (!out.view.axles.empty()) {
        rear = out.view.axles.front().x;
        front = out.view.axles.back().x;
    }
    std::vector<OwnedChain> chains;
    const auto add = [&](std::size_t owner, const std::vector<Vec3>& points) {
        // Beyond the wheels the ground comes nearer by the steepest that it stands on. (What is near has a
        // corner of its hull near, as that reach bends upward.)
        const bool near = std::any_of(points.begin(), points.end(), [&](const Vec3& p) {
            return p.z() < parts.reach + 0.5 * std::max({0.0, rear - p.x(), p.x() - front});
        });
        if (near) chains.push_back({lowerHull(flat(points, Vec3::UnitX(), Vec3::UnitZ())), owner});
    };
    for (std::size_t i = 0; i < bulks.size(); ++i) {
        if (bulks[i].low || bulks[i].person) continue;
        if (!(bulks[i].donor ? parts.donor : parts.shell)) continue;
        if (bulks[i].pieces.empty()) add(i, bulks[i].points);
        for (const auto& piece : bulks[i].pieces) add(i, piece);
    }
    for (OwnedChain& chain : lowerEdge(chains)) {
        out.view.undersides.push_back(std::move(chain.points));
        out.owner.push_back(chain.owner);
    }
    return out;
}

} // namespace slab::trial
