#include "core/body/skin.h"
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

using Directed = std::pair<int, int>;

/// Where a directed edge starts in its face's loop.
struct Use {
    int face = 0, loop = 0, at = 0;
};

/// Angle through the inside, from the exact planes: π less the turn from the left normal to the right one.
double dihedralOf(const Vec3& left, const Vec3& right, const Vec3& along) {
    const double turn = std::atan2(left.cross(right).dot(along.normalized()), left.dot(right));
    return std::numbers::pi - turn;
}

Expected<std::map<Directed, Use>> edgeUses(const Polyhedron& solid) {
    std::map<Directed, Use> uses;
    const int count = static_cast<int>(solid.vertices.size());
    for (int f = 0; f < static_cast<int>(solid.faces.size()); ++f) {
        const PolyFace& face = solid.faces[static_cast<std::size_t>(f)];
        if (face.loops.empty()) return fail("not-closed", "A face has no outline.", face.name);
        for (int l = 0; l < static_cast<int>(face.loops.size()); ++l) {
            const auto& loop = face.loops[static_cast<std::size_t>(l)];
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const int a = loop[i], b = loop[(i + 1) % loop.size()];
                if (a < 0 || a >= count || a == b || loop.size() < 3)
                    return fail("not-closed", "A face names a wrong corner.", face.name);
                if (!uses.emplace(Directed{a, b}, Use{f, l, static_cast<int>(i)}).second)
                    return fail("edge-contact", "An edge has more than two faces.", face.name,
                                "Overlap the forms by at least one thickness, or separate them.");
            }
        }
    }
    for (const auto& [edge, use] : uses)
        if (!uses.contains({edge.second, edge.first}))
            return fail("not-closed", "An edge has only one face.",
                        solid.faces[static_cast<std::size_t>(use.face)].name);
    return uses;
}

/// Faces around every vertex must follow each other in one round; two rounds are two bodies that touch in a
/// point.
Expected<void> checkRounds(const Polyhedron& solid, const std::map<Directed, Use>& uses) {
    std::vector<int> corners(solid.vertices.size(), 0);
    for (const auto& [edge, use] : uses) ++corners[static_cast<std::size_t>(edge.first)];
    std::vector<bool> done(solid.vertices.size(), false);
    for (const auto& [edge, use] : uses) {
        const auto v = static_cast<std::size_t>(edge.first);
        if (done[v]) continue;
        done[v] = true;
        int round = 0;
        Directed out = edge;
        do { // from v along `out`; its twin comes back to v and leaves along the next corner's edge
            const Use& back = uses.at({out.second, out.first});
            const auto& loop =
                solid.faces[static_cast<std::size_t>(back.face)].loops[static_cast<std::size_t>(back.loop)];
            const auto i = static_cast<std::size_t>(back.at);
            out = {loop[(i + 1) % loop.size()], loop[(i + 2) % loop.size()]};
            ++round;
        } while (out != edge && round <= corners[v]);
        if (round != corners[v])
            return fail("edge-contact", "Two parts of the body touch in a single point.",
                        solid.faces[static_cast<std::size_t>(use.face)].name,
                        "Overlap the forms by at least one thickness, or separate them.");
    }
    return {};
}

} // namespace

Expected<Skin> makeSkin(const Polyhedron& solid) {
    if (solid.faces.empty()) return fail("not-closed", "The solid has no faces.");
    const auto uses = edgeUses(solid);
    if (!uses) return Unexpected(uses.error());
    if (auto rounds = checkRounds(solid, *uses); !rounds) return Unexpected(rounds.error());
    Skin skin;
    skin.bodies = 1;
    skin.vertices = solid.vertices;
    for (const PolyFace& face : solid.faces) {
        const std::string form = face.name.substr(0, face.name.find('/'));
        skin.faces.push_back({face.name, form, {}, 0, face.plane, face.loops});
    }
    for (const auto& [edge, use] : *uses) {
        if (edge.first > edge.second) continue;
        const int right = uses->at({edge.second, edge.first}).face;
        const auto point = [&](int i) { return solid.vertices[static_cast<std::size_t>(i)]; };
        const auto normal = [&](int f) { return solid.faces[static_cast<std::size_t>(f)].plane.normal; };
        skin.edges.push_back(
            {edge.first, edge.second, use.face, right,
             dihedralOf(normal(use.face), normal(right), point(edge.second) - point(edge.first))});
    }
    return skin;
}

Polyhedron toPolyhedron(const Skin& skin, int body) {
    Polyhedron solid;
    std::vector<int> renumbered(skin.vertices.size(), -1);
    for (const SkinFace& face : skin.faces) {
        if (body >= 0 && face.body != body) continue;
        PolyFace copy{face.plane, face.loops, face.name};
        for (auto& loop : copy.loops)
            for (int& v : loop) {
                int& to = renumbered[static_cast<std::size_t>(v)];
                if (to < 0) {
                    to = static_cast<int>(solid.vertices.size());
                    solid.vertices.push_back(skin.vertices[static_cast<std::size_t>(v)]);
                }
                v = to;
            }
        solid.faces.push_back(std::move(copy));
    }
    return solid;
}

} // namespace slab
