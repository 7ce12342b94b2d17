#include "core/mechanisms/part.h"
#include "core/geometry/polyhedron.h"
#include "core/plates/outline.h"
#include <cmath>

namespace slab::mechanisms {

namespace {

/// A panel's frame with the same outside, and what turns the shape's coordinates into its own.
class PartFrame {
public:
    explicit PartFrame(const PartShape& s) : m_shape(s.at) {
        if (s.lies) {
            m_panel = s.at;
            const Vec2 corner = bounds(s.boundary.outer).min;
            m_panel.origin = s.at.toBody(corner);
            return;
        }
        std::vector<Vec3> points;
        for (const Vec2& p : s.boundary.outer) points.push_back(s.at.toBody(p));
        m_panel = plates::panelFrame(s.at.axes.col(2), points);
    }
    [[nodiscard]] const Frame& panel() const { return m_panel; }
    [[nodiscard]] Ring ring(const Ring& ring) const {
        Ring out;
        for (const Vec2& p : ring) out.push_back(m_panel.toPlane(m_shape.toBody(p)));
        return out;
    }

private:
    const Frame& m_shape;
    Frame m_panel;
};

PanelLoop loopOf(const PartLoop& loop, const PartFrame& frame, double thickness) {
    PanelLoop out;
    out.outer = frame.ring(loop.outer);
    out.inner = frame.ring(loop.inner);
    for (std::size_t i = 0; i < out.outer.size(); ++i) {
        PanelEdge e = i < loop.edges.size() ? loop.edges[i] : PanelEdge{};
        const Vec2 &a = out.outer[i], &b = out.outer[(i + 1) % out.outer.size()];
        const Vec2 along = b - a;
        e.length = along.norm();
        e.offsetInner = e.length > 0 ? cross2(along, out.inner[i] - a) / e.length : 0;
        if (std::abs(e.offsetInner) < 1e-9) e.offsetInner = 0;
        e.bevel = std::atan2(e.offsetInner - e.offsetOuter, thickness);
        e.inner = static_cast<int>(i);
        out.edges.push_back(e);
    }
    return out;
}

/// Outer corners at w = 0 and inner ones at w = -thickness, loop after loop, with the faces between.
Polyhedron solidOf(const Plate& p) {
    Polyhedron solid;
    PolyFace top, bottom;
    const Vec3 w = p.frame.axes.col(2);
    top.plane = {w, w.dot(p.frame.origin)};
    bottom.plane = {-w, -w.dot(p.frame.origin) + p.thickness};
    std::vector<PolyFace> sides;
    const auto add = [&](const PanelLoop& loop) {
        const int first = static_cast<int>(solid.vertices.size()), n = static_cast<int>(loop.outer.size());
        for (const Vec2& q : loop.outer) solid.vertices.push_back(p.frame.toBody(q));
        for (const Vec2& q : loop.inner)
            solid.vertices.push_back(p.frame.toBody(Vec3(q.x(), q.y(), -p.thickness)));
        top.loops.emplace_back();
        bottom.loops.emplace_back();
        for (int i = 0; i < n; ++i) {
            top.loops.back().push_back(first + i);
            bottom.loops.back().push_back(first + n + (n - i) % n);
            const int j = (i + 1) % n;
            PolyFace side;
            side.loops = {{first + i, first + n + i, first + n + j, first + j}};
            const Vec3& a = solid.vertices[static_cast<std::size_t>(first + i)];
            const Vec3& b = solid.vertices[static_cast<std::size_t>(first + j)];
            const Vec3& c = solid.vertices[static_cast<std::size_t>(first + n + i)];
            side.plane.normal = (c - a).cross(b - a).normalized();
            side.plane.offset = side.plane.normal.dot(a);
            sides.push_back(std::move(side));
        }
    };
    add(p.boundary);
    for (const PanelLoop& hole : p.holes) add(hole);
    solid.faces.push_back(std::move(top));
    solid.faces.push_back(std::move(bottom));
    solid.faces.insert(solid.faces.end(), sides.begin(), sides.end());
    return solid;
}

} // namespace

Plate makePart(const PartShape& shape) {
    const PartFrame frame(shape);
    Plate p;
    p.name = shape.name;
    p.form = shape.form;
    p.stock = shape.stock;
    p.thickness = shape.thickness;
    p.frame = frame.panel();
    p.boundary = loopOf(shape.boundary, frame, shape.thickness);
    for (const PartLoop& hole : shape.holes) p.holes.push_back(loopOf(hole, frame, shape.thickness));
    p.solid = solidOf(p);
    p.volume = volume(p.solid);
    for (const auto& piece : shape.pieces) {
        ConvexSolid cell;
        for (const Vec2& q : piece)
            for (const double w : {0.0, -shape.thickness})
                cell.points.push_back(shape.at.toBody(Vec3(q.x(), q.y(), w)));
        p.cells.push_back(std::move(cell));
    }
    if (shape.pieces.empty()) p.cells.push_back({ConvexSolid::Kind::hull, p.solid.vertices, 0});
    return p;
}

std::vector<GuideLine> panelGuides(const PartShape& shape, const Plate& plate, std::vector<GuideLine> lines) {
    for (GuideLine& g : lines) {
        g.from = plate.frame.toPlane(shape.at.toBody(g.from));
        g.to = plate.frame.toPlane(shape.at.toBody(g.to));
    }
    return lines;
}

} // namespace slab::mechanisms
