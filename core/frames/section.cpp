#include "core/frames/section.h"
#include "core/geometry/convex_hull.h"
#include "core/geometry/round_offset.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace slab {

namespace {

using EdgeKey = std::pair<int, int>;

/// One straight piece of a section, between two edges of the solid; the inside lies on its left.
struct Cut {
    EdgeKey from, to;
    Vec2 at;
};

std::vector<double> heightsOver(const Polyhedron& solid, const Frame& frame) {
    std::vector<double> heights;
    double size = 0;
    for (const Vec3& v : solid.vertices) {
        heights.push_back(frame.toLocal(v).z());
        size = std::max(size, (v - solid.vertices.front()).norm());
    }
    const double step = 1e-7 * std::max(size, 1.0);
    double shift = 0;
    const auto touches = [&] {
        return std::any_of(heights.begin(), heights.end(),
                           [&](double h) { return std::abs(h - shift) < step / 4; });
    };
    while (touches()) shift += step;
    for (double& h : heights) h -= shift;
    return heights;
}

/// Where a face crosses the plane, sorted along the line in which it does, so that the inside lies on its
/// left.
void cutFace(const Polyhedron& solid, const PolyFace& face, const Frame& frame,
             const std::vector<double>& heights, std::vector<Cut>& cuts) {
    struct Hit {
        EdgeKey edge;
        Vec2 at;
        double along;
    };
    const Vec3 n = frame.axes.transpose() * face.plane.normal;
    const Vec2 direction(-n.y(), n.x()); // the face's outside is on its right
    std::vector<Hit> hits;
    for (const auto& loop : face.loops)
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const int a = std::min(loop[i], loop[(i + 1) % loop.size()]),
                      b = std::max(loop[i], loop[(i + 1) % loop.size()]);
            const double ha = heights[static_cast<std::size_t>(a)], hb = heights[static_cast<std::size_t>(b)];
            if ((ha > 0) == (hb > 0)) continue;
            const Vec3 &p = solid.vertices[static_cast<std::size_t>(a)],
                       q = solid.vertices[static_cast<std::size_t>(b)];
            const Vec2 at = frame.toPlane(p + (q - p) * (ha / (ha - hb)));
            hits.push_back({{a, b}, at, at.dot(direction)});
        }
    std::sort(hits.begin(), hits.end(), [](const Hit& l, const Hit& r) { return l.along < r.along; });
    for (std::size_t i = 0; i + 1 < hits.size(); i += 2)
        cuts.push_back({hits[i].edge, hits[i + 1].edge, hits[i].at});
}

std::vector<Polygon> chained(const std::vector<Cut>& cuts) {
    std::map<EdgeKey, const Cut*> by;
    for (const Cut& c : cuts) by[c.from] = &c;
    std::vector<Polygon> outers;
    std::vector<Ring> holes;
    std::set<const Cut*> used;
    for (const Cut& start : cuts) {
        Ring ring;
        for (const Cut* c = &start; c && used.insert(c).second;) {
            ring.push_back(c->at);
            const auto next = by.find(c->to);
            c = next == by.end() ? nullptr : next->second;
        }
        if (ring.size() < 3) continue;
        if (signedArea(ring) > 0)
            outers.push_back({std::move(ring), {}});
        else
            holes.push_back(std::move(ring));
    }
    for (Ring& hole : holes) {
        Polygon* host = nullptr; // the smallest that holds it
        for (Polygon& p : outers)
            if (contains(p.outer, hole.front()) && (!host || signedArea(p.outer) < signedArea(host->outer)))
                host = &p;
        if (host) host->holes.push_back(std::move(hole));
    }
    return outers;
}

std::vector<EdgeKey> edgesOf(const Polyhedron& solid) {
    std::set<EdgeKey> edges;
    for (const PolyFace& f : solid.faces)
        for (const auto& loop : f.loops)
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const int a = loop[i], b = loop[(i + 1) % loop.size()];
                edges.emplace(std::min(a, b), std::max(a, b));
            }
    return {edges.begin(), edges.end()};
}

void addShadow(std::vector<Polygon>& shadows, const Polyhedron& convex, const BoardSlab& slab) {
    Ring ring = shadowOf(convex.vertices, edgesOf(convex), slab);
    if (!ring.empty()) shadows.push_back({std::move(ring), {}});
}

bool meetsSlab(const std::vector<Vec3>& points, const BoardSlab& slab);

/// Of the hull of some points. Between few of them every pair is taken for an edge: what is none lies inside,
/// and the hull in space is not needed.
void addShadow(std::vector<Polygon>& shadows, const std::vector<Vec3>& points, const BoardSlab& slab) {
    constexpr std::size_t few = 40;
    if (points.size() > few) return addShadow(shadows, convexHull3(points), slab);
    std::vector<EdgeKey> pairs;
    for (int a = 0; a < static_cast<int>(points.size()); ++a)
        for (int b = 0; b < a; ++b) pairs.emplace_back(b, a);
    Ring ring = shadowOf(points, pairs, slab);
    if (!ring.empty()) shadows.push_back({std::move(ring), {}});
}

/// A board does not stand up into an opening: it ends where the plate's inside face would be.
void addOpenings(std::vector<Polygon>& shadows, const Plate& plate, const BoardSlab& slab) {
    for (const PanelLoop& hole : plate.holes) {
        if (hole.opening.empty()) continue; // a hole of the skin has an inside of its own
        ConvexSolid filled;
        for (const Vec2& p : hole.outer) filled.points.push_back(plate.frame.toBody(p));
        for (const Vec2& p : hole.inner)
            filled.points.push_back(plate.frame.toBody(Vec3(p.x(), p.y(), -plate.thickness)));
        if (hole.outer.size() >= 3 && hole.inner.size() >= 3 && meetsSlab(filled.points, slab))
            addShadow(shadows, filled.points, slab);
    }
}

bool meetsSlab(const std::vector<Vec3>& points, const BoardSlab& slab) {
    const Vec3 up = slab.frame.axes.col(2);
    bool below = false, above = false; // some point is not above it, some not below
    for (const Vec3& p : points) {
        const double h = up.dot(p - slab.frame.origin);
        below = below || h < slab.half;
        above = above || h > -slab.half;
        if (below && above) return true;
    }
    return false;
}

constexpr int segments = 24; ///< facets round what is round

/// A ball in facets, drawn round it: rings of 24 corners, the poles along the slab's normal.
struct BallRing {
    double height = 0, radius = 0;
};
std::vector<BallRing> ballRings(double radius) {
    constexpr int bands = segments / 2;
    const double outside = radius / std::pow(std::cos(std::numbers::pi / segments), 2);
    std::vector<BallRing> rings;
    for (int b = 0; b <= bands; ++b) {
        const double lat = std::numbers::pi * b / bands;
        rings.push_back({outside * std::cos(lat), outside * std::sin(lat)});
    }
    return rings;
}

/// Radius of the ball's facets at a height; less than 0 above and below them.
double radiusAt(const std::vector<BallRing>& rings, double height) {
    for (std::size_t i = 0; i + 1 < rings.size(); ++i) {
        const BallRing &a = rings[i], &b = rings[i + 1];
        if (height <= a.height && height >= b.height)
            return a.radius + (b.radius - a.radius) * (a.height - height) / (a.height - b.height);
    }
    return -1;
}

void addRing(std::vector<Vec2>& flat, const Vec2& at, double radius) {
    for (int i = 0; i < segments; ++i) {
        const double a = 2 * std::numbers::pi * i / segments;
        flat.push_back(at + radius * Vec2(std::cos(a), std::sin(a)));
    }
}

/// Of core points grown by a ball. An edge of the sum of two convex solids is an edge of one moved to a
/// corner of the other, so what crosses a border of the slab is a corner's own ring there, or a ring of the
/// ball that travels along an edge of the core (of which every pair of corners is taken).
Ring roundShadow(const ConvexSolid& solid, const BoardSlab& slab) {
    const std::vector<BallRing> rings = ballRings(solid.radius);
    std::vector<Vec3> core;
    for (const Vec3& p : solid.points) core.push_back(slab.frame.toLocal(p));
    std::vector<Vec2> flat, centres;
    for (const Vec3& p : core) { // where the corner's ball is widest within the slab
        const double height = std::clamp(0.0, -slab.half - p.z(), slab.half - p.z());
        if (const double radius = radiusAt(rings, height); radius >= 0) addRing(flat, p.head<2>(), radius);
    }
    for (const double border : {-slab.half, slab.half})
        for (const BallRing& ring : rings) {
            centres.clear();
            const double level = border - ring.height;
            for (std::size_t a = 0; a < core.size(); ++a)
                for (std::size_t b = 0; b < a; ++b) {
                    const Vec3 &p = core[a], &q = core[b];
                    if ((p.z() - level) * (q.z() - level) < 0)
                        centres.push_back((p + (q - p) * ((level - p.z()) / (q.z() - p.z()))).head<2>());
                }
            if (centres.size() > 2) centres = convexHull(std::move(centres));
            for (const Vec2& c : centres) addRing(flat, c, ring.radius);
        }
    if (flat.size() < 3) return {};
    Ring hull = convexHull(std::move(flat));
    return hull.size() >= 3 && signedArea(hull) > 1e-6 ? hull : Ring{};
}

/// No part of the solid can lie within the slab.
bool misses(const ConvexSolid& solid, const BoardSlab& slab) {
    const double reach = slab.half + solid.radius * 1.02; // as drawn round it
    return !meetsSlab(solid.points, {slab.frame, reach});
}

} // namespace

std::vector<Polygon> sectionOf(const Polyhedron& solid, const Frame& frame) {
    const std::vector<double> heights = heightsOver(solid, frame);
    std::vector<Cut> cuts;
    for (const PolyFace& face : solid.faces) cutFace(solid, face, frame, heights, cuts);
    return chained(cuts);
}

Ring shadowOf(const std::vector<Vec3>& points, const std::vector<EdgeKey>& edges, const BoardSlab& slab) {
    std::vector<Vec2> flat;
    std::vector<Vec3> local;
    for (const Vec3& p : points) {
        local.push_back(slab.frame.toLocal(p));
        if (std::abs(local.back().z()) <= slab.half) flat.push_back(local.back().head<2>());
    }
    for (const auto& [a, b] : edges) {
        const Vec3 &p = local[static_cast<std::size_t>(a)], q = local[static_cast<std::size_t>(b)];
        for (const double level : {-slab.half, slab.half})
            if ((p.z() - level) * (q.z() - level) < 0)
                flat.push_back((p + (q - p) * ((level - p.z()) / (q.z() - p.z()))).head<2>());
    }
    if (flat.size() < 3) return {};
    Ring hull = convexHull(std::move(flat));
    return hull.size() >= 3 && signedArea(hull) > 1e-6 ? hull : Ring{};
}

std::vector<Polygon> shadowOf(const ConvexSolid& solid, const BoardSlab& slab, double room) {
    const BoardSlab wide{slab.frame, slab.half + room};
    if (misses(solid, wide)) return {};
    std::vector<Polygon> shadows;
    if (solid.kind == ConvexSolid::Kind::cylinder) {
        ConvexSolid round = solid; // facets outside of what is round
        round.radius /= std::cos(std::numbers::pi / segments);
        addShadow(shadows, toPolyhedron(round, segments), wide);
    } else if (solid.radius > 0) {
        if (Ring ring = roundShadow(solid, wide); !ring.empty()) shadows.push_back({std::move(ring), {}});
    } else {
        addShadow(shadows, solid.points, wide);
    }
    return room > 0 ? roundOffset(shadows, room + roundOffsetError) : shadows;
}

std::vector<Polygon> insideSection(const Polyhedron& skin, const PlateList& plates, const BoardSlab& slab) {
    std::vector<Polygon> room = sectionOf(skin, slab.frame), shadows;
    if (room.empty()) return {};
    for (const Plate& plate : plates)
        if (meetsSlab(plate.solid.vertices, slab))
            for (const ConvexSolid& cell : plate.cells)
                if (meetsSlab(cell.points, slab)) addShadow(shadows, cell.points, slab);
    for (const Plate& plate : plates) addOpenings(shadows, plate, slab);
    for (const PolyFace& face : skin.faces) {
        const auto triangles = triangulateFace(skin, face);
        for (std::size_t i = 0; i + 2 < triangles.size(); i += 3) {
            Ring ring =
                shadowOf({triangles[i], triangles[i + 1], triangles[i + 2]}, {{0, 1}, {1, 2}, {0, 2}}, slab);
            if (!ring.empty()) shadows.push_back({std::move(ring), {}});
        }
    }
    return shadows.empty() ? room : subtract(room, shadows);
}

} // namespace slab
