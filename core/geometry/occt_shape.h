#pragma once
// Between our polyhedra and OpenCASCADE shapes; only for this room's .cpp files.
#include "core/base/job.h"
#include "core/geometry/convex.h"
#include "core/geometry/polyhedron.h"
#include <Message_ProgressIndicator.hxx>
#include <Standard_Failure.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Solid.hxx>
#include <gp_Pnt.hxx>
#include <utility>

namespace slab::occt {

[[nodiscard]] inline gp_Pnt pointOf(const Vec3& p) {
    return {p.x(), p.y(), p.z()};
}
[[nodiscard]] inline Vec3 vecOf(const gp_Pnt& p) {
    return {p.X(), p.Y(), p.Z()};
}

/// A solid with, for each of our faces, its OpenCASCADE face.
struct BuiltSolid {
    TopoDS_Solid solid;
    std::vector<TopoDS_Face> faces;
};
/// Planar faces that share their edges and vertices.
/// @error "invalid-solid" if the polyhedron is not closed or OpenCASCADE finds the shape unsound
[[nodiscard]] Expected<BuiltSolid> build(const Polyhedron& solid);
/// The same for a solid whose faces share positions but not vertex numbers: faces are sewn and fixed.
[[nodiscard]] Expected<TopoDS_Shape> buildSewn(const Polyhedron& solid);
/// Box, sphere, cylinder, capsule or grown hull as an exact shape.
[[nodiscard]] Expected<TopoDS_Shape> build(const ConvexSolid& solid);

/// Lets a Job's stop token break off OpenCASCADE's algorithms; progress is passed on at most 100 times.
class JobIndicator : public Message_ProgressIndicator {
    DEFINE_STANDARD_RTTI_INLINE(JobIndicator, Message_ProgressIndicator)
public:
    explicit JobIndicator(const Job& job) : m_job(job) {}
    Standard_Boolean UserBreak() override { return m_job.stopped(); }

protected:
    void Show(const Message_ProgressScope&, Standard_Boolean) override {
        const double now = GetPosition();
        if (now < m_shown + 0.01) return;
        m_shown = now;
        m_job.report(now);
    }

private:
    const Job& m_job;
    double m_shown = 0;
};

/// Runs `work` and turns an OpenCASCADE exception, which is no std::exception, into an Error.
template <class Work>
auto guarded(const char* code, Work&& work) -> decltype(work()) {
    try {
        return std::forward<Work>(work)();
    } catch (const Standard_Failure& failure) {
        const char* said = failure.GetMessageString();
        return fail(code, std::string("The solid modeller gave up: ") +
                              (said && *said ? said : failure.DynamicType()->Name()) + ".");
    }
}

} // namespace slab::occt
