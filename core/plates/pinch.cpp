#include "core/plates/pinch.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace slab::plates {

namespace {

/// An edge as one face runs along it, from corner `here` of the flat corner list to corner `next`.
struct HalfEdge {
    int face = 0, here = 0, next = 0;
    int from = 0, to = 0;
    double angle = 0;   ///< of the face around the edge
    bool ahead = false; ///< the material lies towards greater angles
};
using Users = std::map<std::pair<int, int>, std::vector<HalfEdge>>;

Users usersOf(const Polyhedron& solid) {
    Users users;
    int corner = 0;
    for (std::size_t f = 0; f < solid.faces.size(); ++f)
        for (const auto& l : solid.faces[f].loops) {
            const int n = static_cast<int>(l.size());
            for (int i = 0; i < n; ++i) {
                const int k = (i + 1) % n;
                users[std::minmax(l[at(i)], l[at(k)])].push_back(
                    {static_cast<int>(f), corner + i, corner + k, l[at(i)], l[at(k)]});
            }
            corner += n;
        }
    return users;
}

/// Pairs of half-edges with material between them.
std::vector<std::pair<HalfEdge, HalfEdge>> pairs(const Polyhedron& solid, const std::pair<int, int>& edge,
                                                 std::vector<HalfEdge> list) {
    if (list.size() == 2) return {{list[0], list[1]}};
    const Vec3 d = (solid.vertices[at(edge.second)] - solid.vertices[at(edge.first)]).normalized();
    const Vec3 u = d.unitOrthogonal(), v = d.cross(u);
    for (HalfEdge& h : list) {
        const Vec3& n = solid.faces[at(h.face)].plane.normal;
        const Vec3 in = n.cross(h.from == edge.first ? d : Vec3(-d));
        h.angle = std::atan2(v.dot(in), u.dot(in));
        h.ahead = d.cross(in).dot(n) < 0;
    }
    std::stable_sort(list.begin(), list.end(),
                     [](const HalfEdge& a, const HalfEdge& b) { return a.angle < b.angle; });
    std::vector<std::pair<HalfEdge, HalfEdge>> out;
    for (std::size_t i = 0; i < list.size(); ++i)
        if (list[i].ahead) out.emplace_back(list[i], list[(i + 1) % list.size()]);
    return out;
}

int rootOf(std::vector<int>& parent, int i) {
    while (parent[at(i)] != i) i = parent[at(i)] = parent[at(parent[at(i)])];
    return i;
}

/// Corners that hang together through paired edges share a vertex; others get their own.
void splitVertices(Polyhedron& solid, const Users& users) {
    int corners = 0;
    for (const auto& f : solid.faces)
        for (const auto& l : f.loops) corners += static_cast<int>(l.size());
    std::vector<int> parent(at(corners));
    std::iota(parent.begin(), parent.end(), 0);
    for (const auto& [edge, list] : users)
        for (const auto& [a, b] : pairs(solid, edge, list))
            for (const int x : {a.here, a.next})
                for (const int y : {b.here, b.next})
                    if ((x == a.here ? a.from : a.to) == (y == b.here ? b.from : b.to))
                        parent[at(rootOf(parent, x))] = rootOf(parent, y);
    std::map<std::pair<int, int>, int> copy; // vertex, group of corners -> new vertex
    std::vector<char> used(solid.vertices.size(), 0);
    int corner = 0;
    for (auto& f : solid.faces)
        for (auto& l : f.loops)
            for (int& v : l) {
                const auto [where, isNew] = copy.try_emplace({v, rootOf(parent, corner++)}, v);
                if (isNew && used[at(v)]) {
                    where->second = static_cast<int>(solid.vertices.size());
                    const Vec3 p = solid.vertices[at(v)];
                    solid.vertices.push_back(p);
                }
                used[at(v)] = 1;
                v = where->second;
            }
}

/// Puts a new vertex behind each listed corner (numbered as in HalfEdge::here).
void insertBehind(Polyhedron& solid, const std::map<int, int>& vertexBehind) {
    int corner = 0;
    for (auto& f : solid.faces)
        for (auto& l : f.loops) {
            std::vector<int> grown;
            for (const int v : l) {
                grown.push_back(v);
                const auto found = vertexBehind.find(corner++);
                if (found != vertexBehind.end()) grown.push_back(found->second);
            }
            l = std::move(grown);
        }
}

/// Whether any edge has more than two faces, without saying which faces those are.
bool mayBePinched(const Polyhedron& solid) {
    std::vector<std::pair<int, int>> edges;
    for (const PolyFace& face : solid.faces)
        for (const auto& l : face.loops)
            for (std::size_t i = 0; i < l.size(); ++i) {
                const int a = l[i], b = l[(i + 1) % l.size()];
                edges.emplace_back(std::min(a, b), std::max(a, b));
            }
    std::sort(edges.begin(), edges.end());
    for (std::size_t i = 2; i < edges.size(); ++i)
        if (edges[i] == edges[i - 2]) return true;
    return false;
}

bool isPinched(const Users& users) {
    return std::any_of(users.begin(), users.end(), [](const auto& u) { return u.second.size() > 2; });
}

} // namespace

void partPinches(Polyhedron& solid) {
    if (!mayBePinched(solid)) return;
    Users users = usersOf(solid);
    if (!isPinched(users)) return;
    splitVertices(solid, users);
    users = usersOf(solid);
    std::map<int, int> vertexBehind;
    for (const auto& [edge, list] : users) {
        if (list.size() <= 2) continue;
        const auto sides = pairs(solid, edge, list);
        for (std::size_t i = 1; i < sides.size(); ++i) {
            const Vec3 p = (solid.vertices[at(edge.first)] + solid.vertices[at(edge.second)]) / 2;
            const int middle = static_cast<int>(solid.vertices.size());
            solid.vertices.push_back(p);
            vertexBehind[sides[i].first.here] = vertexBehind[sides[i].second.here] = middle;
        }
    }
    if (!vertexBehind.empty()) insertBehind(solid, vertexBehind);
}

} // namespace slab::plates
