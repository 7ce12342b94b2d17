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

/// A face of the later form and the plane that it should take.
struct Target {
    std::size_t face = 0;
    Plane plane;
    std::string there; ///< whose plane it is
    double apart = 0;
};

/// Gives faces of `solid` their new planes, if the corners can follow.
/// @return greatest move of a corner, or negative
double adopt(Polyhedron& solid, const std::vector<Target>& targets) {
    Polyhedron trial = solid;
    for (const Target& t : targets) trial.faces[t.face].plane = t.plane;
    const double size = bounds(solid).size().norm();
    if (settleVertices(trial) > 1e-11 * size || volume(trial) <= 0 || !checkClosed(trial, 1e-6)) return -1;
    double move = 0;
    for (std::size_t v = 0; v < solid.vertices.size(); ++v)
        move = std::max(move, (trial.vertices[v] - solid.vertices[v]).norm());
    if (move > 20 * nearDistance) return -1; // a flat corner would run away along its edge
    solid = std::move(trial);
    return move;
}

/// Planes of earlier forms that faces of `form` nearly lie in, one for each face at most.
std::vector<Target> targetsOf(const FormSolid& form, const std::vector<FormSolid>& solids,
                              std::size_t before) {
    std::vector<Target> targets;
    std::vector<bool> taken(form.solid.faces.size(), false);
    for (std::size_t a = 0; a < before; ++a) {
        if (!boxesMeet(bounds(solids[a].solid), bounds(form.solid), nearDistance)) continue;
        for (const PolyFace& other : solids[a].solid.faces)
            for (std::size_t f = 0; f < form.solid.faces.size(); ++f) {
                if (taken[f]) continue;
                const PolyFace& face = form.solid.faces[f];
                const double apart = separation(solids[a].solid, other, form.solid, face);
                if (apart < 0 || apart > nearDistance) continue;
                taken[f] = true;
                const double hand = other.plane.normal.dot(face.plane.normal) > 0 ? 1 : -1;
                const Plane plane{hand * other.plane.normal, hand * other.plane.offset};
                if (plane != face.plane)
                    targets.push_back({f, plane, solids[a].form + "/" + other.name, apart});
            }
    }
    return targets;
}

Finding findingFor(const FormSolid& form, const Target& t, double move, const UnitStyle& units) {
    const std::string here = form.form + "/" + form.solid.faces[t.face].name;
    const std::string text = printFine(t.apart, units);
    Finding f{Severity::note,
              "planes-snapped",
              {},
              {},
              "Give both the same dimension, or move them clearly apart.",
              {}};
    f.about = {"form:" + form.form, "plate:" + t.there, "plate:" + here};
    if (move >= 0) {
        f.message =
            here + " lay within " + text + " of the plane of " + t.there + " and was made one with it.";
    } else {
        f.severity = Severity::look;
        f.code = "planes-near";
        f.message = here + " lies only " + text + " off the plane of " + t.there + ".";
    }
    return f;
}

} // namespace

void snapPlanes(std::vector<FormSolid>& solids, std::vector<Finding>& findings, const UnitStyle& units) {
    constexpr double seen = 1e-6; // mm; less than this is rounding and worth no note
    for (std::size_t b = 1; b < solids.size(); ++b) {
        FormSolid& form = solids[b];
        const std::vector<Target> targets = targetsOf(form, solids, b);
        if (targets.empty()) continue;
        // All at once keeps corners of many sides together where the form as a whole is a little off.
        const double all = adopt(form.solid, targets);
        for (const Target& t : targets) {
            const double move = all >= 0 ? all : adopt(form.solid, {t});
            if (t.apart > seen && (move > seen || move < 0))
                findings.push_back(findingFor(form, t, move, units));
        }
    }
}

} // namespace slab
