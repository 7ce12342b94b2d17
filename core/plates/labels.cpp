#include "core/plates/labels.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab::plates {

namespace {

/// Direction along face f, square to the edge, into the face.
Vec3 inwardOf(const Shell& shell, const SkinEdge& e, int f) {
    const auto& v = shell.body.skin.vertices;
    const Vec3 along = (v[at(e.b)] - v[at(e.a)]).normalized();
    const Vec3 in = shell.face(f).plane.normal.cross(along);
    return f == e.left ? in : Vec3(-in);
}

EdgeRole roleOf(const Bond& bond, int f) {
    if (bond.open) return EdgeRole::open;
    if (bond.covers >= 0) return bond.covers == f ? EdgeRole::covers : EdgeRole::butts;
    return bond.kind == JointKind::fold ? EdgeRole::fold : EdgeRole::mitre;
}

bool touches(const Shell& shell, const Bond& bond, int g, const Half& half) {
    return half.plane == shell.skin[at(g)].plane || half.plane == shell.inner[at(g)].plane ||
           (bond.hasPlane && half.plane == bond.plane.plane);
}

/// A face that shares only a corner, or comes near.
SideLabel cornerLabel(const Shell& shell, int f, const Half& half, const Vec3& point) {
    SideLabel label;
    const auto pair = shell.pairOfPlane.find(half.plane);
    int g = -1;
    label.role = EdgeRole::butts;
    if (pair != shell.pairOfPlane.end() && (pair->second.first == f || pair->second.second == f)) {
        g = pair->second.first == f ? pair->second.second : pair->second.first;
        label.role = EdgeRole::mitre;
    }
    double best = std::numeric_limits<double>::max();
    for (const int k : shell.faces) {
        if (g >= 0 || k == f) continue;
        if (half.plane != shell.skin[at(k)].plane && half.plane != shell.inner[at(k)].plane) continue;
        for (const int v : shell.face(k).loops.front())
            best = std::min(best, (shell.body.skin.vertices[at(v)] - point).norm());
    }
    for (const int k : shell.faces) {
        if (g >= 0 || k == f) continue;
        const bool onSkin = half.plane == shell.skin[at(k)].plane;
        if (!onSkin && half.plane != shell.inner[at(k)].plane) continue;
        for (const int v : shell.face(k).loops.front())
            if ((shell.body.skin.vertices[at(v)] - point).norm() <= best + 1e-9) {
                g = k;
                label.role =
                    onSkin ? (shell.present(k) ? EdgeRole::covers : EdgeRole::open) : EdgeRole::butts;
            }
    }
    if (g < 0) return {};
    label.neighbour = shell.face(g).name;
    const Vec3& nf = shell.face(f).plane.normal;
    const Vec3& ng = shell.face(g).plane.normal;
    const Vec3 down = nf * nf.dot(ng) - ng; // along face f, towards greater depth of g
    if (down.norm() < 1e-9) return label;
    label.hasEdge = true;
    label.inward = down.normalized();
    label.onEdge = point - label.inward * (shell.face(g).plane.depth(point) / -ng.dot(label.inward));
    label.dihedral = std::acos(std::clamp(-nf.dot(ng), -1.0, 1.0));
    return label;
}

} // namespace

SideLabel sideLabel(const Shell& shell, int f, const std::vector<int>& marks, const Half& half,
                    const Vec3& point) {
    SideLabel label;
    if (const std::string* opening = openingAt(shell.walls, half.plane, point)) {
        label.opening = *opening;
        return label;
    }
    const auto& skin = shell.body.skin;
    const Bond* best = nullptr;
    int bestEdge = -1;
    double nearest = std::numeric_limits<double>::max();
    for (const int b : shell.bondsOfFace[at(f)]) {
        const Bond& bond = shell.bonds[at(b)];
        if (!touches(shell, bond, bond.f == f ? bond.g : bond.f, half)) continue;
        for (const int e : bond.edges) {
            const SkinEdge& edge = skin.edges[at(e)];
            const double d = toSegment(point, skin.vertices[at(edge.a)], skin.vertices[at(edge.b)]);
            if (d >= nearest - 1e-9) continue;
            nearest = d;
            best = &bond;
            bestEdge = e;
        }
    }
    if (!best) return cornerLabel(shell, f, half, point);
    const SkinEdge& edge = skin.edges[at(bestEdge)];
    label.neighbour = shell.face(best->f == f ? best->g : best->f).name;
    label.role = roleOf(*best, f);
    label.dihedral = edge.dihedral;
    label.mark = marks[at(bestEdge)];
    label.hasEdge = true;
    label.onEdge = skin.vertices[at(edge.a)];
    label.inward = inwardOf(shell, edge, f);
    return label;
}

std::vector<int> numberMarks(const Shell& shell, int& next) {
    std::vector<int> marks(shell.body.skin.edges.size(), 0);
    std::vector<std::pair<int, const Bond*>> edges;
    for (const Bond& bond : shell.bonds)
        if (shell.present(bond.f) && shell.present(bond.g))
            for (const int e : bond.edges) edges.emplace_back(e, &bond);
    std::sort(edges.begin(), edges.end());
    for (const auto& [e, bond] : edges) marks[at(e)] = next++;
    return marks;
}

void describeJoints(const Shell& shell, const std::vector<int>& marks, std::vector<JointInfo>& out) {
    const auto& skin = shell.body.skin;
    for (const Bond& bond : shell.bonds)
        for (const int e : bond.edges) {
            const SkinEdge& edge = skin.edges[at(e)];
            JointInfo info;
            const bool turned = bond.covers == bond.g;
            info.a = shell.face(turned ? bond.g : bond.f).name;
            info.b = shell.face(turned ? bond.f : bond.g).name;
            info.kind = bond.kind;
            info.forced = bond.forced;
            info.dihedral = edge.dihedral;
            info.from = skin.vertices[at(edge.a)];
            info.to = skin.vertices[at(edge.b)];
            info.step = bond.step;
            info.mark = marks[at(e)];
            info.why = bond.why;
            out.push_back(std::move(info));
        }
}

} // namespace slab::plates
