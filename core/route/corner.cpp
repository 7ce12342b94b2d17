#include "core/route/corner.h"
#include "core/geometry/golden_section.h"
#include "core/route/bounded.h"
#include <cmath>
#include <numbers>

namespace slab::route {

namespace {

/// The corner as seen by a vehicle that comes along +x and turns to port: the inner edge is the origin, s and
/// t are the ways to the inner walls of both corridors. Free ground is s ≤ in, t ≤ out, not both below 0.
/// Whatever is clear of the inner edge stays so when it is moved towards larger s and t.
struct Walls {
    double in = 0, out = 0, turn = 0;
    Vec2 first, second; ///< out of the outer walls
    explicit Walls(const Corner& c)
        : in(c.in), out(c.out), turn(std::abs(c.turn)), first(0, -1),
          second(std::sin(turn), -std::cos(turn)) {}
};

struct Clearance {
    double value = std::numeric_limits<double>::infinity();
    Vec2 at = Vec2::Zero();
};

/// Least of max(s, t) over a ring given in (s, t): at a corner, or where an edge crosses s = t.
Clearance clearanceOf(const Ring& ring) {
    Clearance least;
    const auto meet = [&](const Vec2& p) {
        const double value = p.maxCoeff();
        if (value < least.value) least = {value, p};
    };
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        meet(a);
        const double da = a.x() - a.y(), db = b.x() - b.y();
        if ((da < 0) != (db < 0)) meet(a + da / (da - db) * (b - a));
    }
    return least;
}

/// Least clearance alone of the vehicle turned by `heading` about `about` and shifted: clearanceOf() of
/// turnedRing(), without a ring.
double clearanceAt(const Footprint& footprint, const Walls& walls, const Vec2& about, const Vec2& by,
                   double heading) {
    const Eigen::Matrix2d back = Eigen::Rotation2Dd(-heading).toRotationMatrix();
    const Vec2 first = back * walls.first, second = back * walls.second;
    const auto placed = [&](const Vec2& v) {
        return Vec2(first.dot(v - about) + by.x(), second.dot(v - about) + by.y());
    };
    double least = Clearance().value;
    Vec2 a = placed(footprint.outline.back());
    double da = a.x() - a.y();
    for (const Vec2& v : footprint.outline) {
        const Vec2 b = placed(v);
        const double db = b.x() - b.y();
        least = std::min(least, std::max(b.x(), b.y()));
        if ((da < 0) != (db < 0)) least = std::min(least, a.x() + da / (da - db) * (b.x() - a.x()));
        a = b;
        da = db;
    }
    return least;
}

/// The vehicle turned by `heading` about `about`, in (s, t) up to a shift.
Ring turnedRing(const Footprint& footprint, const Walls& walls, const Vec2& about, double heading) {
    const Eigen::Matrix2d turn = Eigen::Rotation2Dd(heading).toRotationMatrix();
    Ring out;
    out.reserve(footprint.outline.size());
    for (const Vec2& v : footprint.outline) {
        const Vec2 p = turn * Vec2(v - about);
        out.emplace_back(walls.first.dot(p), walls.second.dot(p));
    }
    return out;
}

Vec2 greatest(const Ring& ring) {
    Vec2 most = ring.front();
    for (const Vec2& p : ring) most = most.cwiseMax(p);
    return most;
}

void shift(Ring& ring, const Vec2& by) {
    for (Vec2& p : ring) p += by;
}

double acrossOf(const Ring& ring, int axis) {
    const Box2 box = bounds(ring);
    return box.size()[axis];
}

int mostAlong(const Ring& ring, int axis) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < ring.size(); ++i)
        if (ring[i][axis] > ring[best][axis]) best = i;
    return static_cast<int>(best);
}

/// Back from (s, t) of a vehicle that stands at `heading` to its own axes: solved from two of its corners.
Vec2 ownPoint(const Footprint& footprint, const Ring& placed, const Vec2& point) {
    for (std::size_t i = 0; i < placed.size(); ++i) {
        const std::size_t n = (i + 1) % placed.size();
        const Vec2 edge = placed[n] - placed[i];
        const double share = (point - placed[i]).dot(edge) / edge.squaredNorm();
        if (share < -1e-9 || share > 1 + 1e-9) continue;
        if ((placed[i] + share * edge - point).norm() > 1e-6) continue;
        return footprint.outline[i] + share * (footprint.outline[n] - footprint.outline[i]);
    }
    return footprint.outline.front();
}

/// Figures of the tightest place, where the vehicle stands as `placed`.
void tell(CornerPassage& out, const Footprint& footprint, const Ring& placed) {
    out.at = ownPoint(footprint, placed, clearanceOf(placed).at);
    out.firstWall = mostAlong(placed, 0);
    out.secondWall = mostAlong(placed, 1);
}

double reachOf(const Footprint& footprint, const Vec2& from) {
    double most = 0;
    for (const Vec2& v : footprint.outline) most = std::max(most, (v - from).norm());
    return most;
}

double diameterOf(const Footprint& footprint) {
    double most = 0;
    for (const Vec2& v : footprint.outline) most = std::max(most, reachOf(footprint, v));
    return most;
}

Expected<void> checkCorner(const Footprint& footprint, const Corner& c, double tolerance) {
    if (footprint.outline.size() < 3 || !(c.in > 0) || !(c.out > 0) || !std::isfinite(c.in + c.out) ||
        !(c.turn != 0) || !(std::abs(c.turn) < std::numbers::pi) || !(tolerance > 0))
        return fail("out-of-range", "A corner needs two widths above 0 and a turn under 180°.", {},
                    "Check the corridors' sizes.");
    return {};
}

/// To starboard everything is seen in a mirror; corners and points are told of the vehicle itself.
CornerPassage unmirrored(CornerPassage out, const Footprint& footprint) {
    const int last = static_cast<int>(footprint.outline.size()) - 1;
    out.at.y() = -out.at.y();
    out.firstWall = last - out.firstWall;
    out.secondWall = last - out.secondWall;
    return out;
}

CornerPassage carriedToPort(const Footprint& footprint, const Walls& walls, double tolerance) {
    const Vec2 room(walls.in, walls.out);
    const auto pushed = [&](double heading) {
        Ring ring = turnedRing(footprint, walls, Vec2::Zero(), heading);
        shift(ring, room - greatest(ring));
        return ring;
    };
    const auto clear = [&](double heading) { return clearanceOf(pushed(heading)).value; };
    const ProvedLeast least = provedLeast(clear, 0, walls.turn, diameterOf(footprint), tolerance);
    CornerPassage out{least.value, least.slack, CornerLimit::innerEdge, least.at, 0, {}, 0, 0};
    const double before = walls.in - acrossOf(pushed(0), 0),
                 behind = walls.out - acrossOf(pushed(walls.turn), 1);
    if (before < out.margin)
        out.margin = before, out.slack = 0, out.limit = CornerLimit::wayIn, out.heading = 0;
    if (behind < out.margin)
        out.margin = behind, out.slack = 0, out.limit = CornerLimit::wayOut, out.heading = walls.turn;
    tell(out, footprint, pushed(out.heading));
    return out;
}

/// Greatest of n · (q turned by an angle from 0 to `most`, which is under half a turn).
double greatestTurned(const Vec2& n, const Vec2& q, double most, const Eigen::Matrix2d& byMost) {
    const double along = n.dot(q), length = q.norm();
    if (cross2(n, q) <= 0 && along >= length * std::cos(most)) return length; // it passes n on its way
    return std::max(along, n.dot(byMost * q));
}

/// When a margin is of no matter: once it is known to be no greater than `than`. A heading at which it may
/// well be is looked at first.
struct Enough {
    double than = -std::numeric_limits<double>::infinity(), heading = 0;
};

CornerPassage drivenToPort(const Footprint& footprint, const Walls& walls, const Vec2& about,
                           double tolerance, const Enough& enough = {}) {
    Vec2 most = Vec2::Constant(-std::numeric_limits<double>::infinity());
    const Eigen::Matrix2d whole = Eigen::Rotation2Dd(walls.turn).toRotationMatrix();
    for (const Vec2& v : footprint.outline) {
        most.x() = std::max(most.x(), greatestTurned(walls.first, v - about, walls.turn, whole));
        most.y() = std::max(most.y(), greatestTurned(walls.second, v - about, walls.turn, whole));
    }
    const Vec2 by = Vec2(walls.in, walls.out) - most;
    const auto placed = [&](double heading) {
        Ring ring = turnedRing(footprint, walls, about, heading);
        shift(ring, by);
        return ring;
    };
    const auto clear = [&](double heading) { return clearanceAt(footprint, walls, about, by, heading); };
    // on the straights nothing may stand inside of the inner walls, however far from the corner
    const double before = bounds(placed(0)).min.x(), behind = bounds(placed(walls.turn)).min.y();
    CornerPassage out{std::min(before, behind), 0, CornerLimit::wayIn, 0, about.y(), Vec2::Zero(), 0, 0};
    if (out.margin <= enough.than) return out;
    if (const double there = clear(enough.heading); there <= enough.than)
        return {there, 0, CornerLimit::innerEdge, enough.heading, about.y(), Vec2::Zero(), 0, 0};
    const ProvedLeast least =
        provedLeast(clear, 0, walls.turn, reachOf(footprint, about), tolerance, enough.than);
    out = {least.value, least.slack, CornerLimit::innerEdge, least.at, about.y(), Vec2::Zero(), 0, 0};
    if (out.margin <= enough.than) return out;
    if (before < out.margin)
        out.margin = before, out.slack = 0, out.limit = CornerLimit::wayIn, out.heading = 0;
    if (behind < out.margin)
        out.margin = behind, out.slack = 0, out.limit = CornerLimit::wayOut, out.heading = walls.turn;
    tell(out, footprint, placed(out.heading));
    return out;
}

} // namespace

Expected<CornerPassage> carryRound(const Footprint& footprint, const Corner& corner, double tolerance) {
    if (const auto sound = checkCorner(footprint, corner, tolerance); !sound)
        return Unexpected(sound.error());
    const Walls walls(corner);
    if (corner.turn > 0) return carriedToPort(footprint, walls, tolerance);
    return unmirrored(carriedToPort(mirrored(footprint), walls, tolerance), footprint);
}

Expected<CornerPassage> driveRound(const Footprint& footprint, const Corner& corner,
                                   const DriveGeometry& drive, double tolerance) {
    if (const auto sound = checkCorner(footprint, corner, tolerance); !sound)
        return Unexpected(sound.error());
    if (!(drive.leastRadius >= 0) || !std::isfinite(drive.leastRadius) || !std::isfinite(drive.axle))
        return fail("out-of-range", "The drive's axle and least radius must be known.", {}, "Measure both.");
    const Walls walls(corner);
    const Footprint shape = corner.turn > 0 ? footprint : mirrored(footprint);
    const auto at = [&](double radius, double within, const Enough& enough = {}) {
        return drivenToPort(shape, walls, Vec2(drive.axle, radius), within, enough);
    };
    // an arc is R (1 / cos φ/2 − 1) off the crossing of its straights, and free ground reaches no further
    // from there than widths and vehicle over cos φ/2: wider arcs cut the inner edge
    constexpr int steps = 48;
    const double size = corner.in + corner.out + diameterOf(shape);
    const double span = size / (1 - std::cos(walls.turn / 2)), rough = std::max(tolerance, 0.002 * size);
    const auto radiusAt = [&](int i) { return drive.leastRadius + span * (i * i) / (steps * steps); };
    int best = 0;
    const CornerPassage tightest = at(radiusAt(0), rough);
    Enough most{tightest.margin, tightest.heading};
    for (int i = 1; i <= steps; ++i) {
        const CornerPassage passage = at(radiusAt(i), rough, most);
        most.heading = passage.heading;
        if (passage.margin > most.than) most.than = passage.margin, best = i;
    }
    const double fine = std::max(tolerance, 2e-5 * size); // arcs are compared at one tolerance
    CornerPassage chosen = at(radiusAt(best), fine);
    const auto worse = [&](double radius) {
        const CornerPassage passage = at(radius, fine);
        if (passage.margin > chosen.margin) chosen = passage;
        return -passage.margin;
    };
    (void)leastBetween(worse, radiusAt(std::max(best - 1, 0)), radiusAt(best + 1), 1e-5 * size);
    chosen = at(chosen.radius, tolerance);
    return corner.turn > 0 ? chosen : unmirrored(chosen, footprint);
}

} // namespace slab::route
