#include "core/geometry/occt.h"
#include "core/geometry/occt_shape.h"
#include <BRepAlgoAPI_Common.hxx>
#include <BRepClass3d_SolidClassifier.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <TopTools_ListOfShape.hxx>

namespace slab::occt {

namespace {

double volumeOf(const TopoDS_Shape& shape) {
    GProp_GProps properties;
    BRepGProp::VolumeProperties(shape, properties, true);
    return properties.Mass();
}

bool apart(const Box3& a, const Box3& b) {
    return (a.min.array() > b.max.array()).any() || (b.min.array() > a.max.array()).any();
}

Expected<double> common(const TopoDS_Shape& a, const TopoDS_Shape& b, const Job& job) {
    return guarded("invalid-solid", [&]() -> Expected<double> {
        TopTools_ListOfShape left, right;
        left.Append(a);
        right.Append(b);
        BRepAlgoAPI_Common meet;
        meet.SetArguments(left);
        meet.SetTools(right);
        meet.SetNonDestructive(true);
        Handle(JobIndicator) indicator = new JobIndicator(job);
        meet.Build(indicator->Start());
        if (job.stopped()) return fail("stopped", "The comparison was stopped.");
        if (meet.HasErrors()) return fail("invalid-solid", "Two solids could not be compared.");
        return meet.Shape().IsNull() ? 0.0 : volumeOf(meet.Shape());
    });
}

Expected<Nearest> nearestOf(const TopoDS_Shape& a, const TopoDS_Shape& b) {
    return guarded("invalid-solid", [&]() -> Expected<Nearest> {
        BRepExtrema_DistShapeShape extrema(a, b);
        if (!extrema.IsDone())
            return fail("invalid-solid", "The distance between two solids could not be found.");
        Nearest result;
        result.meets = extrema.InnerSolution() || extrema.Value() <= 0;
        result.distance = result.meets ? 0 : extrema.Value();
        if (extrema.NbSolution() > 0) {
            result.onA = vecOf(extrema.PointOnShape1(1));
            result.onB = vecOf(extrema.PointOnShape2(1));
        }
        return result;
    });
}

} // namespace

Expected<double> volume(const Polyhedron& solid) {
    const auto shape = buildSewn(solid);
    if (!shape) return Unexpected(shape.error());
    return guarded("invalid-solid", [&]() -> Expected<double> { return volumeOf(*shape); });
}

struct Built::Shape {
    Box3 box;
    Expected<TopoDS_Shape> shape;
};

Built::Built(const Polyhedron& solid) : m_shape(new Shape{bounds(solid), buildSewn(solid)}) {}
Built::Built(const ConvexSolid& solid) : m_shape(new Shape{bounds(solid), build(solid)}) {}
Built::Built(Built&&) noexcept = default;
Built::~Built() = default;

Expected<double> commonVolume(const Built& a, const Built& b, const Job& job) {
    const Built::Shape &left = *a.m_shape, &right = *b.m_shape;
    if (apart(left.box, right.box)) return 0.0;
    if (!left.shape) return Unexpected(left.shape.error());
    if (!right.shape) return Unexpected(right.shape.error());
    return common(*left.shape, *right.shape, job);
}

Expected<Nearest> nearest(const Built& a, const Built& b) {
    const Built::Shape &left = *a.m_shape, &right = *b.m_shape;
    if (!left.shape) return Unexpected(left.shape.error());
    if (!right.shape) return Unexpected(right.shape.error());
    return nearestOf(*left.shape, *right.shape);
}

Expected<bool> holds(const Built& solid, const Vec3& point, double within) {
    const Built::Shape& shape = *solid.m_shape;
    if (!shape.shape) return Unexpected(shape.shape.error());
    return guarded("invalid-solid", [&]() -> Expected<bool> {
        const BRepClass3d_SolidClassifier at(*shape.shape, gp_Pnt(point.x(), point.y(), point.z()), within);
        return at.State() == TopAbs_IN || at.State() == TopAbs_ON;
    });
}

Expected<double> commonVolume(const Polyhedron& a, const Polyhedron& b, const Job& job) {
    if (apart(bounds(a), bounds(b))) return 0.0;
    return commonVolume(Built(a), Built(b), job);
}

Expected<double> commonVolume(const Polyhedron& a, const ConvexSolid& b, const Job& job) {
    if (apart(bounds(a), bounds(b))) return 0.0;
    return commonVolume(Built(a), Built(b), job);
}

Expected<Nearest> nearest(const Polyhedron& a, const ConvexSolid& b) {
    return nearest(Built(a), Built(b));
}

Expected<Nearest> nearest(const Polyhedron& a, const Polyhedron& b) {
    return nearest(Built(a), Built(b));
}

} // namespace slab::occt
