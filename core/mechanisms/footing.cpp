#include "core/mechanisms/footing.h"
#include "core/geometry/polygon.h"
#include <algorithm>

namespace slab::mechanisms {

namespace {

constexpr double steepest = 0.5; ///< least cosine of a face's lean: 60°
constexpr double border = 1e-6;  ///< mm

} // namespace

std::optional<Footing> plateBelow(const MechanismInput& in, const Vec3& point, const Vec3& up, double clear,
                                  const std::function<bool(const std::string&)>& may) {
    std::optional<Footing> best;
    const auto look = [&](const Plane& face, const std::string& plate, const auto& holds) {
        const double rise = face.normal.dot(up);
        if (rise < steepest || !may(plate)) return;
        const double down = face.distance(point) / rise;
        if (down > clear && (!best || down < best->below) && holds(point - down * up))
            best = Footing{down, plate, face.normal};
    };
    const Skin& skin = in.body.skin;
    Polyhedron faces;
    faces.vertices = skin.vertices;
    for (std::size_t i = 0; i < skin.faces.size() && i < in.rules.faces.size(); ++i)
        if (in.rules.faces[i].thickness > 0)
            look(skin.faces[i].plane, skin.faces[i].name, [&](const Vec3& p) {
                return faceContains(faces, {skin.faces[i].plane, skin.faces[i].loops, {}}, p, border);
            });
    for (std::size_t i = 0; i < in.body.plates.size() && i < in.rules.freePlates.size(); ++i) {
        const double thickness = in.rules.freePlates[i].thickness;
        if (!(thickness > 0)) continue;
        const FreePlate& p = in.body.plates[i];
        const auto holds = [&](const Vec3& at) { return contains(p.outline, p.frame.toPlane(at), border); };
        const Vec3 w = p.frame.axes.col(2);
        const double offset = w.dot(p.frame.origin);
        look({w, offset}, p.name, holds);
        look({-w, thickness - offset}, p.name, holds);
    }
    return best;
}

bool standsBesideMouth(const std::vector<Vec2>& foot, double mouth) {
    return std::all_of(foot.begin(), foot.end(),
                       [&](const Vec2& corner) { return corner.norm() >= mouth - border; });
}

} // namespace slab::mechanisms
