#include "core/geometry/occt.h"
#include "core/geometry/occt_shape.h"
#include <BRepAlgoAPI_Common.hxx>
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

Expected<double> commonVolume(const Polyhedron& a, const Polyhedron& b, const Job& job) {
    if (apart(bounds(a), bounds(b))) return 0.0;
    const auto left = buildSewn(a), right = buildSewn(b);
    if (!left) return Unexpected(left.error());
    if (!right) return Unexpected(right.error());
    return common(*left, *right, job);
}

Expected<double> commonVolume(const Polyhedron& a, const ConvexSolid& b, const Job& job) {
    if (apart(bounds(a), bounds(b))) return 0.0;
    const auto left = buildSewn(a);
    const auto right = build(b);
    if (!left) return Unexpected(left.error());
    if (!right) return Unexpected(right.error());
    return common(*left, *right, job);
}

Expected<Nearest> nearest(const Polyhedron& a, const ConvexSolid& b) {
    const auto left = buildSewn(a);
    const auto right = build(b);
    if (!left) return Unexpected(left.error());
    if (!right) return Unexpected(right.error());
    return nearestOf(*left, *right);
}

Expected<Nearest> nearest(const Polyhedron& a, const Polyhedron& b) {
    const auto left = buildSewn(a), right = buildSewn(b);
    if (!left) return Unexpected(left.error());
    if (!right) return Unexpected(right.error());
    return nearestOf(*left, *right);
}

} // namespace slab::occt
