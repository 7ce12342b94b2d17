#include "core/body/snap.h"
#include "core/geometry/patchwork.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double nearAngle = 0.05 * 3.14159265358979323846 / 180; ///< rad
constexpr double nearDistance = 0.2;                              ///< mm

bool boxesMeet(const Box3& a, const Box3& b, double reach) {
    return (a.min.array() <= b.max.array() + reach).all() && (b.min.array() <= a.max.array() + reach).all();
}

Box3 faceBox(const Polyhedron& solid, const PolyFace& face) {
    Polyhedron corners;
    for (int v : face.loops.front()) corners.vertices.push_back(solid.vertices[static_cast<std::size_t>(v)]);
    return bounds(corners);
}

Polygon inPlane(const Polyhedron& solid, const PolyFace& face, const Vec3& u, const Vec3& v) {
    Polygon polygon;
    for (std::size_t l = 0; l < face.loops.size(); ++l) {
        Ring& ring = l == 0 ? polygon.outer : polygon.holes.emplace_back();
        for (int i : face.loops[l]) {
            const Vec3& p = solid.vertices[static_cast<std::size_t>(i)];
            ring.emplace_back(u.dot(p), v.dot(p));
        }
    }
    return polygon;
}

/// Greatest distance between the planes over the faces' common extent; negative if they have none or lean too
/// much.
double separation(const Polyhedron& a, const PolyFace& fa, const Polyhedron& b, const PolyFace& fb) {
    if (fa.plane.normal.cross(fb.plane.normal).norm() > std::sin(nearAngle)) return -1;
    if (!boxesMeet(faceBox(a, fa), faceBox(b, fb), nearDistance)) return -1;
    const Vec3 n = fa.plane.normal, u = n.unitOrthogonal(), v = n.cross(u);
    const auto grown = offset(inPlane(a, fa, u, v), nearDistance);
    double worst = -1;
    for (const Polygon& piece : intersect(grown, {inPlane(b, fb, u, v)}))
        for (const Vec2& p : piece.outer) {
            const Vec3 onA = n * fa.plane.offset + u * p.x() + v * p.y();
            worst = std::max(worst, std::abs(fb.plane.distance(onA)));
        }
    return worst;
}

/// Gives face `f` of `solid` the plane, if the corners can follow. @return greatest move of a corner, or
/// negative
double adopt(Polyhedron& solid, std::size_t f, const Plane& plane) {
    Polyhedron trial = solid;
    trial.faces[f].plane = plane;
    const double size = bounds(solid).size().norm();
    if (settleVertices(trial) > 1e-11 * size || volume(trial) <= 0 || !checkClosed(trial, 1e-6)) return -1;
    double move = 0;
    for (std::size_t v = 0; v < solid.vertices.size(); ++v)
        move = std::max(move, (trial.vertices[v] - solid.vertices[v]).norm());
    if (move > 20 * nearDistance) return -1; // a flat corner would run away along its edge
    solid = std::move(trial);
    return move;
}

struct Pair {
    const FormSolid& first;
    const PolyFace& face;
};

void snapFace(const Pair& to, FormSolid& form, std::size_t f, double apart, std::vector<Finding>& findings) {
    const PolyFace& face = form.solid.faces[f];
    const bool same = to.face.plane.normal.dot(face.plane.normal) > 0;
    const Plane plane{same ? to.face.plane.normal : Vec3(-to.face.plane.normal),
                      same ? to.face.plane.offset : -to.face.plane.offset};
    if (plane == face.plane) return;
    const std::string there = to.first.form + "/" + to.face.name, here = form.form + "/" + face.name;
    const double move = adopt(form.solid, f, plane);
    const std::vector<std::string> about{"form:" + form.form, "plate:" + there, "plate:" + here};
    char text[32];
    std::snprintf(text, sizeof text, "%.2g mm", std::max(move, apart));
    if (move > 1e-6)
        findings.push_back(
            {Severity::note,
             "planes-snapped",
             here + " lay within " + text + " of the plane of " + there + " and was made one with it.",
             about,
             "Give both the same dimension, or move them clearly apart.",
             {}});
    if (move < 0 && apart > 1e-6)
        findings.push_back({Severity::look,
                            "planes-near",
                            here + " lies only " + text + " off the plane of " + there + ".",
                            about,
                            "Give both the same dimension, or move them clearly apart.",
                            {}});
}

} // namespace

void snapPlanes(std::vector<FormSolid>& solids, std::vector<Finding>& findings) {
    std::vector<std::vector<bool>> settled;
    for (const FormSolid& s : solids) settled.emplace_back(s.solid.faces.size(), false);
    for (std::size_t b = 1; b < solids.size(); ++b)
        for (std::size_t a = 0; a < b; ++a) {
            if (!boxesMeet(bounds(solids[a].solid), bounds(solids[b].solid), nearDistance)) continue;
            for (const PolyFace& fa : solids[a].solid.faces)
                for (std::size_t f = 0; f < solids[b].solid.faces.size(); ++f) {
                    if (settled[b][f]) continue;
                    const double apart =
                        separation(solids[a].solid, fa, solids[b].solid, solids[b].solid.faces[f]);
                    if (apart < 0 || apart > nearDistance) continue;
                    settled[b][f] = true;
                    snapFace({solids[a], fa}, solids[b], f, apart, findings);
                }
        }
}

} // namespace slab
