#include "core/plates/shell.h"
#include <algorithm>
#include <numbers>

namespace slab::plates {

Shell::Shell(const Body& b, const PlateRules& r, int index) : body(b), rules(r), bodyIndex(index) {
    const Skin& s = b.skin;
    Box3 box;
    bool first = true;
    for (std::size_t f = 0; f < s.faces.size(); ++f) {
        if (s.faces[f].body != index) continue;
        faces.push_back(static_cast<int>(f));
        for (const auto& loop : s.faces[f].loops)
            for (const int v : loop) {
                const Vec3& p = s.vertices[at(v)];
                box.min = first ? p : Vec3(box.min.cwiseMin(p));
                box.max = first ? p : Vec3(box.max.cwiseMax(p));
                first = false;
            }
    }
    limits = box;
    size = std::max(1.0, box.size().norm());
    planes = PlaneTable((box.min + box.max) / 2, size);
    skin.resize(s.faces.size());
    inner.resize(s.faces.size());
    zones.resize(s.faces.size());
    plates.resize(s.faces.size());
    boxOfFace.resize(s.faces.size());
    for (const int f : faces) {
        Box3& b3 = boxOfFace[at(f)];
        b3.min = b3.max = s.vertices[at(face(f).loops.front().front())];
        for (const int v : face(f).loops.front()) {
            b3.min = b3.min.cwiseMin(s.vertices[at(v)]);
            b3.max = b3.max.cwiseMax(s.vertices[at(v)]);
        }
        const Plane& p = face(f).plane;
        skin[at(f)] = planes.add(p);
        inner[at(f)] = present(f) ? planes.add({p.normal, p.offset - thickness(f)}) : skin[at(f)];
    }
}

double Shell::thickness(int f) const {
    const FaceChoice& choice = rules.faces[at(f)];
    return choice.stock.empty() || !(choice.thickness > 0) ? 0 : choice.thickness;
}

const Bond* Shell::bond(int f, int g) const {
    const auto found = bondsOf.find(std::minmax(f, g));
    return found == bondsOf.end() ? nullptr : &bonds[at(found->second.front())];
}

const Bond* Shell::bondNear(int f, int g, const Vec3& point) const {
    const auto found = bondsOf.find(std::minmax(f, g));
    if (found == bondsOf.end()) return nullptr;
    const Bond* best = &bonds[at(found->second.front())];
    if (found->second.size() == 1) return best;
    double least = 1e300;
    for (const int b : found->second)
        for (const int e : bonds[at(b)].edges) {
            const SkinEdge& edge = body.skin.edges[at(e)];
            const Vec3& from = body.skin.vertices[at(edge.a)];
            const Vec3 along = body.skin.vertices[at(edge.b)] - from;
            const double share = std::clamp((point - from).dot(along) / along.squaredNorm(), 0.0, 1.0);
            const double distance = (point - from - share * along).norm();
            if (distance >= least) continue;
            least = distance;
            best = &bonds[at(b)];
        }
    return best;
}

bool Shell::convex() const {
    for (const int f : faces)
        if (face(f).loops.size() != 1) return false;
    for (const SkinEdge& e : body.skin.edges)
        if (body.skin.faces[at(e.left)].body == bodyIndex && e.dihedral > std::numbers::pi + 1e-9)
            return false;
    return true;
}

} // namespace slab::plates
