// Boolean operations and offsets by Clipper (A. Johnson, libpolyclipping 6.4), which works on an integer
// grid.
#include "core/geometry/polygon.h"
#include <algorithm>
#include <cmath>
#include <polyclipping/clipper.hpp>

namespace slab {

namespace {

using ClipperLib::IntPoint;
constexpr double grid = 1e-6; ///< mm

bool before(const IntPoint& a, const IntPoint& b) {
    return a.X != b.X ? a.X < b.X : a.Y < b.Y;
}

/// To the grid and back; results that land within one cell of an input point take that point's exact
/// coordinates.
class Grid {
public:
    ClipperLib::Path enter(const Ring& ring, bool counterClockwise) {
        ClipperLib::Path path;
        path.reserve(ring.size());
        for (const Vec2& p : ring) {
            const IntPoint q(std::llround(p.x() / grid), std::llround(p.y() / grid));
            path.push_back(q);
            m_known.emplace_back(q, p);
        }
        if (ClipperLib::Orientation(path) != counterClockwise) std::reverse(path.begin(), path.end());
        return path;
    }
    void enter(ClipperLib::Paths& paths, const Polygon& polygon) {
        if (polygon.outer.size() < 3) return;
        paths.push_back(enter(polygon.outer, true));
        for (const Ring& hole : polygon.holes)
            if (hole.size() >= 3) paths.push_back(enter(hole, false));
    }
    void seal() {
        std::stable_sort(m_known.begin(), m_known.end(),
                         [](const Known& a, const Known& b) { return before(a.first, b.first); });
    }
    [[nodiscard]] Vec2 leave(const IntPoint& q) const {
        const Known* best = nullptr;
        long long distance = 4;
        auto k = std::lower_bound(m_known.begin(), m_known.end(), IntPoint(q.X - 1, q.Y - 1),
                                  [](const Known& a, const IntPoint& b) { return before(a.first, b); });
        for (; k != m_known.end() && k->first.X <= q.X + 1; ++k) {
            const long long dx = k->first.X - q.X, dy = k->first.Y - q.Y;
            if (dy < -1 || dy > 1 || dx * dx + dy * dy >= distance) continue;
            distance = dx * dx + dy * dy;
            best = &*k;
        }
        return best ? best->second : Vec2(static_cast<double>(q.X) * grid, static_cast<double>(q.Y) * grid);
    }
    [[nodiscard]] Ring leave(const ClipperLib::Path& path, bool counterClockwise) const {
        Ring ring;
        ring.reserve(path.size());
        for (const IntPoint& q : path) {
            const Vec2 p = leave(q);
            if (ring.empty() || ring.back() != p) ring.push_back(p);
        }
        while (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
        if ((signedArea(ring) > 0) != counterClockwise) std::reverse(ring.begin(), ring.end());
        return ring;
    }

private:
    using Known = std::pair<IntPoint, Vec2>;
    std::vector<Known> m_known;
};

std::vector<Polygon> polygonsOf(const ClipperLib::PolyTree& tree, const Grid& points) {
    std::vector<Polygon> result;
    for (const ClipperLib::PolyNode* node = tree.GetFirst(); node; node = node->GetNext()) {
        if (node->IsHole()) continue;
        Polygon polygon{points.leave(node->Contour, true), {}};
        if (polygon.outer.size() < 3) continue;
        for (const ClipperLib::PolyNode* hole : node->Childs) {
            Ring ring = points.leave(hole->Contour, false);
            if (ring.size() >= 3) polygon.holes.push_back(std::move(ring));
        }
        result.push_back(std::move(polygon));
    }
    return result;
}

/// Clipper throws beyond about 4.6e12 mm; nothing that is built comes near, so such input has no result.
constexpr double reach = 4e12;
bool inReach(const std::vector<Polygon>& polygons) {
    const auto fine = [](const Ring& ring) {
        return std::all_of(ring.begin(), ring.end(),
                           [](const Vec2& p) { return p.allFinite() && p.cwiseAbs().maxCoeff() < reach; });
    };
    return std::all_of(polygons.begin(), polygons.end(), [&](const Polygon& p) {
        return fine(p.outer) && std::all_of(p.holes.begin(), p.holes.end(), fine);
    });
}

/// Which polygons can meet one of the others: those whose boxes do.
std::vector<const Polygon*> nearOthers(const std::vector<Polygon>& polygons,
                                       const std::vector<Polygon>& others) {
    constexpr double room = 4 * grid; // rounding moves a corner by half a cell
    std::vector<Box2> boxes;
    for (const Polygon& p : others)
        if (p.outer.size() >= 3) boxes.push_back(bounds(p.outer));
    std::vector<const Polygon*> out;
    for (const Polygon& p : polygons) {
        if (p.outer.size() < 3) continue;
        const Box2 box = bounds(p.outer);
        if (std::any_of(boxes.begin(), boxes.end(), [&](const Box2& b) {
                return (box.min.array() <= b.max.array() + room).all() &&
                       (b.min.array() <= box.max.array() + room).all();
            }))
            out.push_back(&p);
    }
    return out;
}

std::vector<Polygon> clip(ClipperLib::ClipType kind, const std::vector<Polygon>& a,
                          const std::vector<Polygon>& b) {
    if (!inReach(a) || !inReach(b)) return {};
    const auto tools = nearOthers(b, a);
    std::vector<const Polygon*> subjects;
    if (kind == ClipperLib::ctIntersection)
        subjects = nearOthers(a, b);
    else
        for (const Polygon& p : a) subjects.push_back(&p);
    if (subjects.empty()) return {};
    Grid points;
    ClipperLib::Paths subject, tool;
    for (const Polygon* p : subjects) points.enter(subject, *p);
    for (const Polygon* p : tools) points.enter(tool, *p);
    points.seal();
    ClipperLib::Clipper clipper;
    clipper.AddPaths(subject, ClipperLib::ptSubject, true);
    clipper.AddPaths(tool, ClipperLib::ptClip, true);
    ClipperLib::PolyTree tree;
    clipper.Execute(kind, tree, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    return polygonsOf(tree, points);
}

} // namespace

std::vector<Polygon> unite(const std::vector<Polygon>& polygons) {
    return clip(ClipperLib::ctUnion, polygons, {});
}

std::vector<Polygon> intersect(const std::vector<Polygon>& a, const std::vector<Polygon>& b) {
    return clip(ClipperLib::ctIntersection, a, b);
}

std::vector<Polygon> subtract(const std::vector<Polygon>& a, const std::vector<Polygon>& b) {
    return clip(ClipperLib::ctDifference, a, b);
}

std::vector<Polygon> offset(const Polygon& polygon, double distance, double mitreLimit) {
    if (!inReach({polygon}) || !(std::abs(distance) < reach)) return {};
    Grid points;
    ClipperLib::Paths paths;
    points.enter(paths, polygon);
    points.seal();
    ClipperLib::ClipperOffset offsetter(mitreLimit);
    offsetter.AddPaths(paths, ClipperLib::jtMiter, ClipperLib::etClosedPolygon);
    ClipperLib::PolyTree tree;
    offsetter.Execute(tree, distance / grid);
    return polygonsOf(tree, points);
}

} // namespace slab
