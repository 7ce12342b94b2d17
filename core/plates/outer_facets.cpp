#include "core/plates/outer_facets.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

struct Numbered {
    Half half;
    int begin = 0, count = 0;
    int next = -1; ///< the facet before this one with the same least corner
    bool gone = false;
};

/// Whether g runs through the corners of f in the other sense; both start at their least corner.
bool opposite(const std::vector<int>& corners, const Numbered& f, const Numbered& g) {
    if (f.count != g.count || !(f.half == g.half.other())) return false;
    for (int i = 1; i < f.count; ++i)
        if (corners[at(f.begin + i)] != corners[at(g.begin + g.count - i)]) return false;
    return true;
}

/// Where segments a-b and c-d of one plane cross well inside both.
bool crossing(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d, const Vec3& normal,
              double tolerance, Vec3& point) {
    const Vec3 along = b - a, other = d - c;
    const double det = normal.dot(along.cross(other));
    if (std::abs(det) < 1e-12 * along.norm() * other.norm()) return false;
    const double s = normal.dot((c - a).cross(other)) / det, t = normal.dot((c - a).cross(along)) / det;
    const double slackS = tolerance / along.norm(), slackT = tolerance / other.norm();
    if (s <= slackS || s >= 1 - slackS || t <= slackT || t >= 1 - slackT) return false;
    point = a + s * along;
    return true;
}

void crossLoops(std::span<const int> f, std::span<const int> g, const Vec3& normal, double tolerance,
                std::vector<Vec3>& points) {
    for (std::size_t i = 0; i < f.size(); ++i)
        for (std::size_t k = 0; k < g.size(); ++k) {
            const int a = f[i], b = f[(i + 1) % f.size()], c = g[k], d = g[(k + 1) % g.size()];
            Vec3 p;
            if (a == b || c == d ||
                !crossing(points[at(a)], points[at(b)], points[at(c)], points[at(d)], normal, tolerance, p))
                continue;
            const bool known = std::any_of(points.begin(), points.end(), [&](const Vec3& q) {
                return (p - q).cwiseAbs().maxCoeff() <= tolerance;
            });
            if (!known) points.push_back(p);
        }
}

} // namespace

Box3 OuterFacets::boxOf(const Facet& facet, const std::vector<Vec3>& points) const {
    const std::span<const int> all = loop(facet);
    Box3 box{points[at(all.front())], points[at(all.front())]};
    for (const int v : all) {
        box.min = box.min.cwiseMin(points[at(v)]);
        box.max = box.max.cwiseMax(points[at(v)]);
    }
    return box;
}

Box3 OuterFacets::boxOf(const std::vector<Facet>& facets, const std::vector<Vec3>& points) const {
    Box3 box = boxOf(facets.front(), points);
    for (const Facet& f : facets) box = united(box, boxOf(f, points));
    return box;
}

OuterFacets outerFacets(const Cells& cells, const Welded& welded) {
    OuterFacets outer;
    std::vector<Numbered> all;
    std::vector<int> last(welded.points.size(), -1); // facet by least corner
    for (std::size_t c = 0; c < cells.size(); ++c)
        for (const Cell::Facet& facet : cells[c].facets) {
            Numbered f{facet.half, static_cast<int>(outer.corners.size()), facet.count};
            for (int i = 0; i < facet.count; ++i)
                outer.corners.push_back(welded.ofCell[c][at(cells[c].corners[at(facet.begin + i)])]);
            const auto begin = outer.corners.begin() + f.begin;
            std::rotate(begin, std::min_element(begin, outer.corners.end()), outer.corners.end());
            int& newest = last[at(*begin)];
            for (int k = newest; k >= 0 && !f.gone; k = all[at(k)].next)
                if (!all[at(k)].gone && opposite(outer.corners, f, all[at(k)]))
                    f.gone = all[at(k)].gone = true;
            f.next = newest;
            newest = static_cast<int>(all.size());
            all.push_back(f);
        }
    std::erase_if(all, [](const Numbered& f) { return f.gone; });
    std::stable_sort(all.begin(), all.end(),
                     [](const Numbered& a, const Numbered& b) { return a.half.plane < b.half.plane; });
    for (const Numbered& f : all) {
        if (outer.planes.empty() || outer.planes.back().plane != f.half.plane)
            outer.planes.push_back({f.half.plane, {}});
        outer.planes.back().facets.push_back({f.half.flip, f.begin, f.count});
    }
    return outer;
}

void addCrossings(const PlaneTable& planes, const OuterFacets& outer, double tolerance, Welded& welded) {
    std::vector<Box3> boxes;
    for (const auto& [plane, facets] : outer.planes) {
        const auto flips = std::count_if(facets.begin(), facets.end(), [](const auto& f) { return f.flip; });
        if (flips == 0 || flips == static_cast<std::ptrdiff_t>(facets.size())) continue;
        boxes.clear();
        for (const auto& f : facets) boxes.push_back(outer.boxOf(f, welded.points));
        for (std::size_t i = 0; i < facets.size(); ++i)
            for (std::size_t k = 0; k < facets.size(); ++k)
                if (!facets[i].flip && facets[k].flip && boxesMeet(boxes[i], boxes[k]))
                    crossLoops(outer.loop(facets[i]), outer.loop(facets[k]), planes[plane].normal, tolerance,
                               welded.points);
    }
}

} // namespace slab::plates
