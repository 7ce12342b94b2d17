#include "ui/ride/body_shapes.h"
#include <algorithm>

namespace slab::ui {

namespace {

Vec3 eyeOf(Look look) {
    return look == Look::plan ? Vec3(0, 0, 1) : look == Look::side ? Vec3(0, -1, 0) : Vec3(-1, 0, 0);
}

struct FarFace {
    double depth = 0;
    std::vector<Ring> loops;
};

void addFaces(const Polyhedron& solid, const Frame& way, Look look, std::vector<FarFace>& out) {
    const Vec3 eye = way.axes * eyeOf(look);
    for (const PolyFace& face : solid.faces) {
        if (face.plane.normal.dot(eye) < 0.01 || face.loops.empty()) continue;
        FarFace seen;
        std::size_t count = 0;
        for (const auto& loop : face.loops) {
            Ring ring;
            for (const int v : loop) {
                const Vec3 p = way.toLocal(solid.vertices[static_cast<std::size_t>(v)]);
                seen.depth += eyeOf(look).dot(p);
                ring.push_back(seenAs(p, look));
                ++count;
            }
            seen.loops.push_back(std::move(ring));
        }
        seen.depth /= static_cast<double>(count);
        out.push_back(std::move(seen));
    }
}

Ring outlineOf(const ConvexSolid& solid, const Frame& way, Look look) {
    std::vector<Vec2> points;
    for (const Vec3& p : toPolyhedron(solid, 32).vertices) points.push_back(seenAs(way.toLocal(p), look));
    return convexHull(std::move(points));
}

SeenBody seenFrom(const Evaluation& e, const Frame& way, Look look) {
    SeenBody out;
    std::vector<FarFace> faces;
    if (e.plates)
        for (const Plate& plate : e.plates->plates) addFaces(plate.solid, way, look, faces);
    std::stable_sort(faces.begin(), faces.end(),
                     [](const FarFace& a, const FarFace& b) { return a.depth < b.depth; });
    for (FarFace& face : faces) out.shell.push_back(std::move(face.loops));
    if (e.donor)
        for (const FitSolid& s : e.donor->solids) {
            if (s.moving) continue; // room that is kept free
            Ring ring = outlineOf(s.shape, way, look);
            if (ring.size() > 2) (s.group == "rider" ? out.rider : out.donor).push_back(std::move(ring));
        }
    bool any = false;
    const auto grow = [&](const Ring& ring) {
        if (ring.empty()) return;
        out.box = any ? united(out.box, bounds(ring)) : bounds(ring);
        any = true;
    };
    for (const auto& face : out.shell) grow(face.front());
    for (const Ring& ring : out.donor) grow(ring);
    for (const Ring& ring : out.rider) grow(ring);
    return out;
}

} // namespace

Vec2 seenAs(const Vec3& place, Look look) {
    return look == Look::plan   ? Vec2(place.x(), place.y())
           : look == Look::side ? Vec2(place.x(), place.z())
                                : Vec2(-place.y(), place.z());
}

Frame wayOf(const Evaluation& evaluation) {
    Frame way;
    if (!evaluation.donor) return way;
    const Chassis& chassis = evaluation.donor->chassis;
    way.axes.col(0) = chassis.forward;
    way.axes.col(1) = Vec3::UnitZ().cross(chassis.forward);
    way.origin = way.axes.col(1) * way.axes.col(1).dot(chassis.axle);
    return way;
}

BodyShapes bodyShapes(const Evaluation& evaluation) {
    BodyShapes out;
    out.way = wayOf(evaluation);
    out.plan = seenFrom(evaluation, out.way, Look::plan);
    out.side = seenFrom(evaluation, out.way, Look::side);
    out.end = seenFrom(evaluation, out.way, Look::end);
    return out;
}

} // namespace slab::ui
