// Which plates of the shell a moving part passes through, before the plates are built.
#include "core/geometry/triangulate.h"
#include "core/mechanisms/reading.h"
#include "core/mechanisms/sweep.h"

namespace slab::mechanisms {

namespace {

/// Prisms over the triangles of a face, thickness `t` behind it.
std::vector<ConvexSolid> slabPieces(const std::vector<Vec3>& triangles, const Vec3& inward, double t) {
    std::vector<ConvexSolid> out;
    for (std::size_t i = 0; i + 2 < triangles.size(); i += 3) {
        ConvexSolid piece;
        for (std::size_t k = 0; k < 3; ++k) {
            piece.points.push_back(triangles[i + k]);
            piece.points.push_back(triangles[i + k] + t * inward);
        }
        out.push_back(std::move(piece));
    }
    return out;
}

bool meetsSomewhere(const Motion& motion, const ConvexSolid& solid, const std::vector<ConvexSolid>& pieces) {
    SweepOptions options;
    options.tolerance = 0.01;
    options.enough = -0.01; // less is touching
    options.steps = 4000;
    options.stop = options.enough;
    return !leastOver(motion, {solid}, pieces, options).above;
}

Box3 boxOf(const std::vector<Vec3>& points) {
    Box3 box{points.front(), points.front()};
    for (const Vec3& p : points) box = united(box, {p, p});
    return box;
}

} // namespace

std::vector<CrossedPlate> crossedPlates(const MechanismInput& in, const Motion& motion,
                                        const ConvexSolid& solid) {
    std::vector<CrossedPlate> out;
    const SweepBall ball = sweptBall(motion, solid);
    const auto look = [&](CrossedPlate plate, const std::vector<Vec3>& triangles) {
        if (triangles.empty()) return;
        plate.box = boxOf(triangles);
        const Vec3 nearest = ball.centre.cwiseMax(plate.box.min).cwiseMin(plate.box.max);
        if ((nearest - ball.centre).norm() > ball.radius + plate.thickness) return;
        plate.triangles = triangles;
        if (meetsSomewhere(motion, solid, slabPieces(triangles, -plate.outer.normal, plate.thickness)))
            out.push_back(std::move(plate));
    };
    const Skin& skin = in.body.skin;
    Polyhedron faces;
    faces.vertices = skin.vertices;
    for (std::size_t i = 0; i < skin.faces.size() && i < in.rules.faces.size(); ++i)
        if (in.rules.faces[i].thickness > 0)
            look({skin.faces[i].name,
                  skin.faces[i].plane,
                  in.rules.faces[i].thickness,
                  {},
                  {},
                  in.rules.faces[i].stock},
                 triangulateFace(faces, {skin.faces[i].plane, skin.faces[i].loops, {}}));
    for (std::size_t i = 0; i < in.body.plates.size() && i < in.rules.freePlates.size(); ++i) {
        if (!(in.rules.freePlates[i].thickness > 0)) continue;
        const FreePlate& p = in.body.plates[i];
        const Vec3 normal = p.frame.axes.col(2);
        std::vector<Vec3> points;
        const std::vector<Vec2> corners = [&] {
            std::vector<Vec2> all = p.outline.outer;
            for (const Ring& hole : p.outline.holes) all.insert(all.end(), hole.begin(), hole.end());
            return all;
        }();
        for (const auto& triangle : triangulate(p.outline))
            for (const int k : triangle)
                points.push_back(p.frame.toBody(corners[static_cast<std::size_t>(k)]));
        look({p.name,
              {normal, normal.dot(p.frame.origin)},
              in.rules.freePlates[i].thickness,
              {},
              {},
              in.rules.freePlates[i].stock},
             points);
    }
    return out;
}

} // namespace slab::mechanisms
