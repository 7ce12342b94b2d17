#include "core/plates/flat_part.h"
#include "core/geometry/segment.h"
#include "core/plates/outline.h"
#include "core/plates/prisms.h"
#include "core/plates/solid.h"
#include <algorithm>

namespace slab {

namespace {

double distanceToRing(const Ring& ring, const Vec2& p) {
    double least = 1e300;
    for (std::size_t i = 0; i < ring.size(); ++i)
        least = std::min(least, toSegment(p, ring[i], ring[(i + 1) % ring.size()]));
    return least;
}

/// The hole whose edge a point lies on; -1 = the outline's own.
int holeAt(const FlatPart& part, const Vec2& point) {
    int hole = -1;
    double least = distanceToRing(part.outline.outer, point);
    for (std::size_t i = 0; i < part.outline.holes.size(); ++i)
        if (const double d = distanceToRing(part.outline.holes[i], point); d < least) {
            least = d;
            hole = static_cast<int>(i);
        }
    return hole;
}

bool sound(const FlatPart& part) {
    const auto ring = [](const Ring& r) { return r.size() >= 3 && isSimple(r); };
    return part.thickness > 0 && ring(part.outline.outer) && signedArea(part.outline.outer) > 1e-6 &&
           std::all_of(part.outline.holes.begin(), part.outline.holes.end(), ring) &&
           area(part.outline) > 1e-6;
}

/// Without points where the outline goes straight on. Each is judged from the last corner kept: of a corner
/// that is cut off by less than the tolerance, one point goes and the other stays.
Ring cornersOf(const Ring& ring, double tolerance) {
    if (ring.empty()) return {};
    const std::size_t n = ring.size();
    const Box2 box = slab::bounds(ring);
    const Vec2 middle = (box.min + box.max) / 2;
    const auto farthest = std::max_element(ring.begin(), ring.end(), [&](const Vec2& a, const Vec2& b) {
        return (a - middle).squaredNorm() < (b - middle).squaredNorm();
    });
    std::size_t last = static_cast<std::size_t>(farthest - ring.begin()); // a corner of its hull
    std::vector<bool> kept(n);
    kept[last] = true;
    for (std::size_t k = 1, i = last + 1; k < n; ++k, ++i) {
        const Vec2 a = ring[last] - ring[i % n], b = ring[(i + 1) % n] - ring[i % n];
        kept[i % n] = std::abs(cross2(a, b)) > tolerance * (a - b).norm() || a.dot(b) >= 0;
        if (kept[i % n]) last = i % n;
    }
    Ring out;
    for (std::size_t i = 0; i < n; ++i)
        if (kept[i]) out.push_back(ring[i]);
    return out;
}

/// Do two outlines of the part come within the tolerance of each other?
bool ringsTouch(const std::vector<Ring>& rings, double tolerance) {
    const auto near = [&](const Ring& points, const Ring& ring) {
        const Box2 box = slab::bounds(ring);
        return std::any_of(points.begin(), points.end(), [&](const Vec2& p) {
            const bool far =
                ((box.min - p).array() > tolerance).any() || ((p - box.max).array() > tolerance).any();
            return !far && distanceToRing(ring, p) <= tolerance;
        });
    };
    for (std::size_t i = 0; i < rings.size(); ++i)
        for (std::size_t k = 0; k < i; ++k)
            if (near(rings[i], rings[k]) || near(rings[k], rings[i])) return true;
    return false;
}

/// Both faces and the sides of a board whose rings (outline first) are apart.
Polyhedron boardOf(const std::vector<Ring>& rings, const Frame& frame, double thickness) {
    Polyhedron solid;
    const Vec3 w = frame.axes.col(2);
    PolyFace outside, inside;
    outside.plane = {w, w.dot(frame.origin)};
    inside.plane = {-w, thickness - w.dot(frame.origin)};
    for (const Ring& ring : rings) {
        const int n = static_cast<int>(ring.size()), first = static_cast<int>(solid.vertices.size());
        std::vector<int> up, down;
        for (int i = 0; i < n; ++i) {
            const Vec2& p = ring[static_cast<std::size_t>(i)];
            solid.vertices.push_back(frame.toBody(Vec3(p.x(), p.y(), 0)));
            solid.vertices.push_back(frame.toBody(Vec3(p.x(), p.y(), -thickness)));
            up.push_back(first + 2 * i);
            down.push_back(first + 2 * (n - 1 - i) + 1);
        }
        outside.loops.push_back(std::move(up));
        inside.loops.push_back(std::move(down));
    }
    solid.faces = {std::move(outside), std::move(inside)};
    int first = 0;
    for (const Ring& ring : rings) {
        const int n = static_cast<int>(ring.size());
        for (int i = 0; i < n; ++i) {
            const int a = first + 2 * i, b = first + 2 * ((i + 1) % n);
            const Vec3& from = solid.vertices[static_cast<std::size_t>(a)];
            PolyFace side;
            side.plane.normal = (solid.vertices[static_cast<std::size_t>(b)] - from).cross(w).normalized();
            side.plane.offset = side.plane.normal.dot(from);
            side.loops = {{a, a + 1, b + 1, b}};
            solid.faces.push_back(std::move(side));
        }
        first += 2 * n;
    }
    return solid;
}

/// One outline of the part and what it is called.
struct Rim {
    Ring ring; ///< part coordinates; clockwise for a hole
    std::string opening;
};

/// The outline, then its holes, smallest first.
std::vector<Rim> rimsOf(const FlatPart& part, double tolerance) {
    std::vector<Rim> holes;
    for (std::size_t i = 0; i < part.outline.holes.size(); ++i) {
        Rim rim{cornersOf(part.outline.holes[i], tolerance), i < part.holes.size() ? part.holes[i] : ""};
        if (rim.ring.size() < 3) continue;
        if (signedArea(rim.ring) > 0) std::reverse(rim.ring.begin(), rim.ring.end());
        holes.push_back(std::move(rim));
    }
    std::stable_sort(holes.begin(), holes.end(), [](const Rim& a, const Rim& b) {
        return signedArea(a.ring) > signedArea(b.ring) + 1e-9;
    });
    holes.insert(holes.begin(), {cornersOf(part.outline.outer, tolerance), ""});
    return holes;
}

/// The same outline on both faces: every edge is cut square and meets nothing.
PanelLoop squareLoop(const Rim& rim, const Frame& from, const Frame& to) {
    PanelLoop loop;
    loop.opening = rim.opening;
    for (const Vec2& p : rim.ring) loop.outer.push_back(to.toPlane(from.toBody(p)));
    plates::startLow(loop.outer);
    loop.inner = loop.outer;
    for (std::size_t i = 0; i < loop.outer.size(); ++i) {
        PanelEdge edge;
        edge.length = (loop.outer[(i + 1) % loop.outer.size()] - loop.outer[i]).norm();
        edge.inner = static_cast<int>(i);
        loop.edges.push_back(edge);
    }
    return loop;
}

Plate plainPlate(const FlatPart& part) {
    Plate plate;
    plate.name = part.name;
    plate.form = part.form;
    plate.stock = part.stock;
    plate.thickness = part.thickness;
    return plate;
}

/// Outlines that touch: welded from cells, which parts them where they do.
Expected<Plate> weldedPart(const FlatPart& part) {
    using namespace plates;
    PlaneTable planes(part.frame.origin, slab::bounds(part.outline.outer).size().norm() + part.thickness);
    Half outer, inner;
    const Cells cells = prisms(planes, part.frame, part.outline, part.thickness, outer, inner);
    const auto pieces = assemble(planes, cells);
    if (pieces.empty()) return fail("part-outline", "nothing is left of " + part.name);
    Plate plate = plainPlate(part);
    plate.volume = pieces.front().volume;
    const auto label = [&](const Half&, const Vec3& point) {
        SideLabel side;
        const int hole = holeAt(part, part.frame.toPlane(point));
        if (hole >= 0) {
            const auto k = static_cast<std::size_t>(hole);
            if (k < part.holes.size()) side.opening = part.holes[k];
        }
        return side;
    };
    if (!readOutlines(plate, pieces.front(), planes, outer, inner, label))
        return fail("part-outline", "nothing is left of the outside face of " + part.name);
    plate.solid = pieces.front().solid;
    for (const Cell& c : cells) plate.cells.push_back({ConvexSolid::Kind::hull, c.vertices, 0});
    return plate;
}

} // namespace

Expected<Plate> flatPart(const FlatPart& part) {
    if (!sound(part))
        return fail("part-outline", part.name + " has an outline that crosses itself or has no area", {},
                    "Change the sizes that it is made from.");
    const double tolerance = 1e-9 * (slab::bounds(part.outline.outer).size().norm() + part.thickness);
    const std::vector<Rim> rims = rimsOf(part, tolerance);
    std::vector<Ring> rings;
    for (const Rim& rim : rims) rings.push_back(rim.ring);
    if (ringsTouch(rings, tolerance)) return weldedPart(part);
    Plate plate = plainPlate(part);
    plate.volume = area(part.outline) * part.thickness;
    plate.solid = boardOf(rings, part.frame, part.thickness);
    std::vector<Vec3> face;
    for (std::size_t i = 0; i < plate.solid.vertices.size(); i += 2) face.push_back(plate.solid.vertices[i]);
    plate.frame = plates::panelFrame(part.frame.axes.col(2), face);
    plate.boundary = squareLoop(rims.front(), part.frame, plate.frame);
    for (std::size_t i = 1; i < rims.size(); ++i)
        plate.holes.push_back(squareLoop(rims[i], part.frame, plate.frame));
    for (const Ring& ring : plates::convexParts(part.outline)) {
        ConvexSolid cell{ConvexSolid::Kind::hull, {}, 0};
        for (const double level : {0.0, -part.thickness})
            for (const Vec2& p : ring) cell.points.push_back(part.frame.toBody(Vec3(p.x(), p.y(), level)));
        plate.cells.push_back(std::move(cell));
    }
    return plate;
}

} // namespace slab
