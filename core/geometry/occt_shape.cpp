#include "core/geometry/occt_shape.h"
#include "core/geometry/polygon.h"
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Sewing.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <BRepOffsetAPI_MakeOffsetShape.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GProp_GProps.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Plane.hxx>
#include <Geom_SphericalSurface.hxx>
#include <Geom_TrimmedCurve.hxx>
#include <Precision.hxx>
#include <ShapeFix_Solid.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <algorithm>
#include <cmath>
#include <gp_Ax3.hxx>
#include <gp_Pln.hxx>
#include <map>
#include <numbers>
#include <optional>

namespace slab::occt {

namespace {

gp_Pln planeOf(const Plane& plane) {
    const Vec3 o = plane.normal * plane.offset;
    return {pointOf(o), gp_Dir(plane.normal.x(), plane.normal.y(), plane.normal.z())};
}

/// Vertices and edges of one solid, each made once.
class Skeleton {
public:
    explicit Skeleton(const Polyhedron& solid) {
        for (const Vec3& p : solid.vertices) {
            TopoDS_Vertex v;
            m_builder.MakeVertex(v, pointOf(p), Precision::Confusion());
            m_vertices.push_back(v);
        }
    }
    TopoDS_Edge edge(int a, int b) {
        const std::pair key(std::min(a, b), std::max(a, b));
        auto known = m_edges.find(key);
        if (known == m_edges.end())
            known =
                m_edges.emplace(key, BRepBuilderAPI_MakeEdge(vertex(key.first), vertex(key.second)).Edge())
                    .first;
        return TopoDS::Edge(a < b ? known->second : known->second.Reversed());
    }
    TopoDS_Face face(const PolyFace& face) {
        TopoDS_Face result;
        m_builder.MakeFace(result, new Geom_Plane(planeOf(face.plane)), Precision::Confusion());
        for (const auto& loop : face.loops) {
            TopoDS_Wire wire;
            m_builder.MakeWire(wire);
            for (std::size_t i = 0; i < loop.size(); ++i)
                m_builder.Add(wire, edge(loop[i], loop[(i + 1) % loop.size()]));
            wire.Closed(true);
            m_builder.Add(result, wire);
        }
        return result;
    }

private:
    BRep_Builder m_builder;
    std::vector<TopoDS_Vertex> m_vertices;
    std::map<std::pair<int, int>, TopoDS_Edge> m_edges;

    const TopoDS_Vertex& vertex(int i) const { return m_vertices[static_cast<std::size_t>(i)]; }
};

/// The shape, unless its volume is not what it must be: joining round shapes loses pieces now and then.
Expected<TopoDS_Shape> ofVolume(double volume, const TopoDS_Shape& shape) {
    constexpr double alike = 1e-6; // of the volume
    GProp_GProps properties;
    BRepGProp::VolumeProperties(shape, properties, true);
    if (std::abs(properties.Mass() - volume) > alike * volume)
        return fail("invalid-solid", "A rounded solid could not be made.");
    return shape;
}

/// A half outline, turned about its axis: nothing is joined.
Expected<TopoDS_Shape> capsule(const ConvexSolid& solid) {
    constexpr double pi = std::numbers::pi;
    const Vec3 a = solid.points.front(), b = solid.points.back();
    const double length = (b - a).norm(), r = solid.radius;
    if (length < 1e-9) return BRepPrimAPI_MakeSphere(pointOf(a), r).Shape();
    const Vec3 z = (b - a) / length, x = z.unitOrthogonal();
    const gp_Pnt low = pointOf(a - r * z), side = pointOf(a + r * x), up = pointOf(b + r * x),
                 high = pointOf(b + r * z);
    const double slant = r / std::numbers::sqrt2;
    BRepBuilderAPI_MakeWire wire;
    wire.Add(BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(low, pointOf(a + slant * (x - z)), side).Value()));
    wire.Add(BRepBuilderAPI_MakeEdge(side, up));
    wire.Add(BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(up, pointOf(b + slant * (x + z)), high).Value()));
    wire.Add(BRepBuilderAPI_MakeEdge(high, low));
    const gp_Ax1 axis(pointOf(a), gp_Dir(z.x(), z.y(), z.z()));
    return ofVolume(pi * r * r * (length + 4 * r / 3),
                    BRepPrimAPI_MakeRevol(BRepBuilderAPI_MakeFace(wire.Wire()), axis).Shape());
}

gp_Dir directionOf(const Vec3& v) {
    return {v.x(), v.y(), v.z()};
}

/// A flat ring, counter-clockwise in the frame's plane, grown all round by r: its face above and below, half
/// a cylinder along each side, a slice of a sphere at each corner, sewn together. Nothing is joined.
Expected<TopoDS_Shape> sewnRound(const Frame& frame, const Ring& ring, double r) {
    constexpr double pi = std::numbers::pi, tolerance = 1e-6;
    const Vec3 w = frame.axes.col(2);
    BRepBuilderAPI_Sewing sewing(10 * tolerance);
    for (const double side : {r, -r}) {
        BRepBuilderAPI_MakePolygon border;
        for (const Vec2& p : ring) border.Add(pointOf(frame.toBody(Vec3(p.x(), p.y(), side))));
        border.Close();
        sewing.Add(BRepBuilderAPI_MakeFace(border.Wire(), true).Face());
    }
    const std::size_t n = ring.size();
    const auto outward = [&](std::size_t i) {
        const Vec2 along = (ring[(i + 1) % n] - ring[i]).normalized();
        return Vec3(frame.axes * Vec3(along.y(), -along.x(), 0));
    };
    for (std::size_t i = 0; i < n; ++i) {
        const Vec3 at = frame.toBody(ring[i]), along = frame.toBody(ring[(i + 1) % n]) - at, out = outward(i),
                   before = outward((i + n - 1) % n);
        const gp_Ax3 lying(pointOf(at), directionOf(along), directionOf(out)),
            standing(pointOf(at), directionOf(w), directionOf(before));
        sewing.Add(BRepBuilderAPI_MakeFace(new Geom_CylindricalSurface(lying, r), -pi / 2, pi / 2, 0,
                                           along.norm(), tolerance)
                       .Face());
        const double turn = std::atan2(before.cross(out).dot(w), before.dot(out));
        sewing.Add(BRepBuilderAPI_MakeFace(new Geom_SphericalSurface(standing, r), 0, turn, -pi / 2, pi / 2,
                                           tolerance)
                       .Face());
    }
    sewing.Perform();
    TopExp_Explorer shells(sewing.SewedShape(), TopAbs_SHELL);
    if (!shells.More() || sewing.NbFreeEdges() > 0)
        return fail("invalid-solid", "A rounded solid could not be made.");
    ShapeFix_Solid fix;
    const TopoDS_Shape solid = fix.SolidFromShell(TopoDS::Shell(shells.Current()));
    if (!BRepCheck_Analyzer(solid).IsValid())
        return fail("invalid-solid", "A rounded solid could not be made.");
    double around = 0; // Steiner's formula
    for (std::size_t i = 0; i < n; ++i) around += (ring[(i + 1) % n] - ring[i]).norm();
    return ofVolume(2 * r * signedArea(ring) + pi * r * r / 2 * around + 4 * pi * r * r * r / 3, solid);
}

/// A flat core, grown all round. @return nothing when the core is not flat
std::optional<Expected<TopoDS_Shape>> roundedFlat(const ConvexSolid& solid) {
    const std::vector<Vec3>& points = solid.points;
    Vec3 u = Vec3::Zero(), w = Vec3::Zero();
    for (const Vec3& p : points)
        if ((p - points.front()).norm() > u.norm()) u = p - points.front();
    for (const Vec3& p : points)
        if (u.cross(p - points.front()).norm() > w.norm()) w = u.cross(p - points.front());
    const double flat = 1e-9 * u.norm();
    if (w.norm() <= flat * u.norm()) return std::nullopt;
    u.normalize();
    w.normalize();
    const Frame frame{points.front(), (Mat3() << u, w.cross(u), w).finished()};
    Ring ring;
    for (const Vec3& p : points) {
        if (std::abs(w.dot(p - points.front())) > flat) return std::nullopt;
        ring.push_back(frame.toPlane(p));
    }
    return sewnRound(frame, convexHull(std::move(ring)), solid.radius);
}

} // namespace

Expected<BuiltSolid> build(const Polyhedron& solid) {
    if (auto closed = checkClosed(solid, 1e-4); !closed)
        return fail("invalid-solid", closed.error().message, closed.error().where);
    return guarded("invalid-solid", [&]() -> Expected<BuiltSolid> {
        Skeleton skeleton(solid);
        BRep_Builder builder;
        TopoDS_Shell shell;
        builder.MakeShell(shell);
        BuiltSolid built;
        for (const PolyFace& face : solid.faces) {
            built.faces.push_back(skeleton.face(face));
            builder.Add(shell, built.faces.back());
        }
        shell.Closed(true);
        builder.MakeSolid(built.solid);
        builder.Add(built.solid, shell);
        return built;
    });
}

Expected<TopoDS_Shape> buildSewn(const Polyhedron& solid) {
    return guarded("invalid-solid", [&]() -> Expected<TopoDS_Shape> {
        if (checkClosed(solid, 1e-6)) {
            auto built = build(solid);
            if (built && BRepCheck_Analyzer(built->solid).IsValid()) return TopoDS_Shape(built->solid);
        }
        BRepBuilderAPI_Sewing sewing(1e-5);
        for (const PolyFace& face : solid.faces) sewing.Add(Skeleton(solid).face(face));
        sewing.Perform();
        const TopoDS_Shape sewn = sewing.SewedShape();
        TopExp_Explorer shells(sewn, TopAbs_SHELL);
        if (!shells.More()) return fail("invalid-solid", "The faces do not close around a solid.");
        ShapeFix_Solid fix;
        const TopoDS_Shape result = fix.SolidFromShell(TopoDS::Shell(shells.Current()));
        shells.Next();
        if (shells.More() || !BRepCheck_Analyzer(result).IsValid() || sewing.NbFreeEdges() > 0)
            return fail("invalid-solid", "The faces do not close around one solid.");
        return result;
    });
}

Expected<TopoDS_Shape> build(const ConvexSolid& solid) {
    if (solid.points.empty()) return fail("invalid-solid", "The solid has no points.");
    return guarded("invalid-solid", [&]() -> Expected<TopoDS_Shape> {
        if (solid.kind == ConvexSolid::Kind::cylinder) {
            const Vec3 along = solid.points.back() - solid.points.front();
            if (along.norm() < 1e-9 || solid.radius < 1e-9)
                return fail("invalid-solid", "The cylinder has no size.");
            const gp_Ax2 axis(pointOf(solid.points.front()), gp_Dir(along.x(), along.y(), along.z()));
            return BRepPrimAPI_MakeCylinder(axis, solid.radius, along.norm()).Shape();
        }
        if (solid.points.size() <= 2 && solid.radius > 0) return capsule(solid);
        if (solid.radius > 0)
            if (auto flat = roundedFlat(solid)) return *flat;
        ConvexSolid core = solid;
        core.radius = 0;
        auto hull = buildSewn(toPolyhedron(core));
        if (!hull || solid.radius <= 0) return hull;
        BRepOffsetAPI_MakeOffsetShape grown;
        grown.PerformByJoin(*hull, solid.radius, 1e-6, BRepOffset_Skin, false, false, GeomAbs_Arc);
        if (!grown.IsDone()) return fail("invalid-solid", "A rounded solid could not be made.");
        return grown.Shape();
    });
}

} // namespace slab::occt
