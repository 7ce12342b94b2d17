#include "core/plates/lofted.h"
#include "core/base/index.h"
#include "core/geometry/triangulate.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

bool sound(const Ring& ring, bool counterClockwise) {
    return ring.size() >= 3 && isSimple(ring) && (signedArea(ring) > 1e-6) == counterClockwise &&
           std::abs(signedArea(ring)) > 1e-6;
}

bool sound(const Loft& loft) {
    if (!(loft.thickness > 0) || !sound(loft.outer.outer, true) || !sound(loft.inner.outer, true))
        return false;
    if (loft.outer.outer.size() != loft.inner.outer.size()) return false;
    if (loft.outer.holes.size() != loft.inner.holes.size()) return false;
    for (std::size_t h = 0; h < loft.outer.holes.size(); ++h) {
        const Ring &a = loft.outer.holes[h], &b = loft.inner.holes[h];
        if (a.size() != b.size() || !sound(a, false) || !sound(b, false)) return false;
    }
    return true;
}

PanelLoop loftLoop(const Ring& outer, const Ring& inner, double thickness) {
    PanelLoop loop;
    loop.outer = outer;
    loop.inner = inner;
    for (std::size_t i = 0; i < outer.size(); ++i) {
        const Vec2 &a = outer[i], &b = outer[(i + 1) % outer.size()];
        const Vec2 &c = inner[i], &d = inner[(i + 1) % inner.size()];
        PanelEdge e;
        e.length = (b - a).norm();
        e.inner = static_cast<int>(i);
        const Vec2 in = e.length > 0 ? Vec2(-(b - a).y(), (b - a).x()) / e.length : Vec2(Vec2::Zero());
        e.offsetInner = in.dot((c + d) / 2 - (a + b) / 2);
        if (std::abs(e.offsetInner) < 1e-9) e.offsetInner = 0;
        e.bevel = std::atan2(e.offsetInner, thickness);
        loop.edges.push_back(e);
    }
    return loop;
}

/// LoftCorners of both outlines in body axes, ring after ring: outer face first.
struct LoftCorners {
    std::vector<Vec3> points;
    std::vector<std::pair<int, int>> rings; ///< first corner and count, outline first
};

LoftCorners cornersOf(const Loft& loft, double level) {
    LoftCorners out;
    const Polygon& face = level == 0 ? loft.outer : loft.inner;
    const auto add = [&](const Ring& ring) {
        out.rings.emplace_back(static_cast<int>(out.points.size()), static_cast<int>(ring.size()));
        for (const Vec2& p : ring) out.points.push_back(loft.frame.toBody(Vec3(p.x(), p.y(), level)));
    };
    add(face.outer);
    for (const Ring& hole : face.holes) add(hole);
    return out;
}

Polyhedron solidOf(const Loft& loft) {
    const LoftCorners top = cornersOf(loft, 0), low = cornersOf(loft, -loft.thickness);
    const Vec3 w = loft.frame.axes.col(2);
    const int n = static_cast<int>(top.points.size());
    Polyhedron solid;
    solid.vertices = top.points;
    solid.vertices.insert(solid.vertices.end(), low.points.begin(), low.points.end());
    PolyFace outside{{w, w.dot(loft.frame.origin)}, {}, "outside"};
    PolyFace inside{{-w, loft.thickness - w.dot(loft.frame.origin)}, {}, "inside"};
    for (const auto& [first, count] : top.rings) {
        std::vector<int> up, down;
        for (int i = 0; i < count; ++i) {
            up.push_back(first + i);
            down.push_back(n + first + count - 1 - i);
        }
        outside.loops.push_back(std::move(up));
        inside.loops.push_back(std::move(down));
        for (int i = 0; i < count; ++i) {
            const int a = first + i, b = first + (i + 1) % count;
            PolyFace side;
            side.loops = {{a, n + a, n + b, b}};
            const Vec3 &p = solid.vertices[at(a)], &q = solid.vertices[at(b)], &r = solid.vertices[at(n + a)];
            side.plane.normal = (r - p).cross(q - p).normalized();
            side.plane.offset = side.plane.normal.dot(p);
            solid.faces.push_back(std::move(side));
        }
    }
    solid.faces.push_back(std::move(outside));
    solid.faces.push_back(std::move(inside));
    return solid;
}

std::vector<ConvexSolid> cellsOf(const Loft& loft) {
    const LoftCorners top = cornersOf(loft, 0), low = cornersOf(loft, -loft.thickness);
    std::vector<std::vector<int>> parts;
    const double hull = signedArea(convexHull(loft.outer.outer));
    if (loft.outer.holes.empty() && std::abs(hull - signedArea(loft.outer.outer)) < 1e-9 * hull) {
        parts.emplace_back();
        for (int i = 0; i < static_cast<int>(top.points.size()); ++i) parts.back().push_back(i);
    } else {
        for (const auto& triangle : triangulate(loft.outer))
            parts.emplace_back(triangle.begin(), triangle.end());
    }
    std::vector<ConvexSolid> cells;
    for (const auto& part : parts) {
        ConvexSolid cell;
        for (const int i : part) {
            cell.points.push_back(top.points[at(i)]);
            cell.points.push_back(low.points[at(i)]);
        }
        cells.push_back(std::move(cell));
    }
    return cells;
}

} // namespace

std::optional<Plate> loftedPlate(const Loft& given) {
    Loft loft = given;
    if (loft.inner.outer.empty()) loft.inner = loft.outer;
    if (!sound(loft)) return {};
    const Vec2 low = slab::bounds(loft.outer.outer).min;
    const auto move = [&](Polygon& face) {
        for (Vec2& p : face.outer) p -= low;
        for (Ring& hole : face.holes)
            for (Vec2& p : hole) p -= low;
    };
    move(loft.outer);
    move(loft.inner);
    loft.frame.origin = loft.frame.toBody(low);
    Plate plate;
    plate.name = loft.name;
    plate.form = loft.form;
    plate.stock = loft.stock;
    plate.thickness = loft.thickness;
    plate.frame = loft.frame;
    plate.boundary = loftLoop(loft.outer.outer, loft.inner.outer, loft.thickness);
    for (std::size_t h = 0; h < loft.outer.holes.size(); ++h)
        plate.holes.push_back(loftLoop(loft.outer.holes[h], loft.inner.holes[h], loft.thickness));
    plate.solid = solidOf(loft);
    plate.volume = volume(plate.solid);
    plate.cells = cellsOf(loft);
    return plate;
}

} // namespace slab::plates
