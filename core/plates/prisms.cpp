#include "core/plates/prisms.h"
#include "core/geometry/triangulate.h"
#include <cmath>

namespace slab::plates {

std::vector<Ring> convexParts(const Polygon& outline) {
    const Ring hull = convexHull(outline.outer);
    if (outline.holes.empty() &&
        std::abs(signedArea(hull) - signedArea(outline.outer)) < 1e-9 * signedArea(hull))
        return {hull};
    std::vector<Vec2> points = outline.outer;
    for (const Ring& hole : outline.holes) points.insert(points.end(), hole.begin(), hole.end());
    std::vector<Ring> parts;
    for (const auto& triangle : triangulate(outline)) {
        Ring ring;
        for (const int i : triangle) ring.push_back(points[static_cast<std::size_t>(i)]);
        parts.push_back(std::move(ring));
    }
    return parts;
}

Cells prisms(PlaneTable& planes, const Frame& frame, const Polygon& outline, double thickness, Half& outer,
             Half& inner) {
    const Vec3 w = frame.axes.col(2);
    outer = planes.add({w, w.dot(frame.origin)});
    inner = planes.add({-w, -w.dot(frame.origin) + thickness});
    Cells cells;
    for (const Ring& ring : convexParts(outline)) {
        Cell cell;
        const int n = static_cast<int>(ring.size());
        for (const double level : {0.0, -thickness})
            for (const Vec2& p : ring) cell.vertices.push_back(frame.toBody(Vec3(p.x(), p.y(), level)));
        cell.facets.push_back({outer, 0, n});
        for (int i = 0; i < n; ++i) cell.corners.push_back(i);
        cell.facets.push_back({inner, n, n});
        for (int i = n; i-- > 0;) cell.corners.push_back(n + i);
        for (int i = 0; i < n; ++i) {
            const int k = (i + 1) % n;
            const Vec3& a = cell.vertices[static_cast<std::size_t>(i)];
            const Vec3 out = (cell.vertices[static_cast<std::size_t>(k)] - a).cross(w).normalized();
            cell.facets.push_back({planes.add({out, out.dot(a)}), static_cast<int>(cell.corners.size()), 4});
            for (const int v : {i, i + n, k + n, k}) cell.corners.push_back(v);
        }
        setBox(cell);
        cells.push_back(std::move(cell));
    }
    return cells;
}

} // namespace slab::plates
