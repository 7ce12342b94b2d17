#include "core/body/contact.h"
#include "core/base/disjoint_sets.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

namespace slab {

namespace {

/// One directed edge of a face's loop.
struct Use {
    std::size_t face = 0;
    int from = 0, to = 0;
    std::size_t next = 0; ///< in the same loop
    std::size_t twin = 0; ///< the same edge in the face across the material
};

class Parting {
public:
    explicit Parting(const Polyhedron& solid) : m_solid(solid) {
        for (std::size_t f = 0; f < solid.faces.size(); ++f)
            for (const auto& loop : solid.faces[f].loops) {
                const std::size_t first = m_uses.size();
                for (std::size_t i = 0; i < loop.size(); ++i)
                    m_uses.push_back(
                        {f, loop[i], loop[(i + 1) % loop.size()], first + (i + 1) % loop.size(), 0});
            }
    }

    Expected<std::vector<ContactPiece>> run() {
        if (auto paired = pair(); !paired) return Unexpected(paired.error());
        numberCorners();
        partDoubledEdges();
        return pieces();
    }

private:
    const Polyhedron& m_solid;
    std::vector<Use> m_uses;
    std::vector<Vec3> m_points;          ///< after parting
    std::vector<int> m_corner;           ///< by use: where it starts, in m_points
    std::map<std::size_t, int> m_middle; ///< corner put in the middle of a use

    [[nodiscard]] const Vec3& point(int i) const { return m_solid.vertices[at(i)]; }

    /// Around the edge, seen along it: where the face lies.
    [[nodiscard]] double turn(const Use& use, const Vec3& along, const Vec3& zero) const {
        const Vec3 own = (point(use.to) - point(use.from)).normalized();
        const Vec3 into = m_solid.faces[use.face].plane.normal.cross(own);
        const double angle = std::atan2(along.dot(zero.cross(into)), zero.dot(into));
        return angle < -1e-9 ? angle + 2 * std::acos(-1.0) : angle;
    }

    /// Turning on from a face that runs against the edge there is material, up to the next that runs along
    /// it.
    Expected<void> pairAround(const std::vector<std::size_t>& around) {
        const Use& first = m_uses[around.front()];
        const Vec3 along =
            (point(std::max(first.from, first.to)) - point(std::min(first.from, first.to))).normalized();
        const Vec3 own = first.from < first.to ? along : Vec3(-along);
        const Vec3 zero = m_solid.faces[first.face].plane.normal.cross(own);
        std::vector<std::pair<double, std::size_t>> sorted;
        for (const std::size_t u : around) sorted.emplace_back(turn(m_uses[u], along, zero), u);
        std::sort(sorted.begin(), sorted.end());
        for (std::size_t i = 0; i < sorted.size(); ++i) {
            const std::size_t u = sorted[i].second, w = sorted[(i + 1) % sorted.size()].second;
            const bool against = m_uses[u].from > m_uses[u].to, nextAgainst = m_uses[w].from > m_uses[w].to;
            if (against == nextAgainst)
                return fail("not-closed", "Faces lie on each other.", m_solid.faces[m_uses[u].face].name);
            if (!against) continue;
            m_uses[u].twin = w;
            m_uses[w].twin = u;
        }
        return {};
    }

    Expected<void> pair() {
        std::map<std::pair<int, int>, std::vector<std::size_t>> around;
        for (std::size_t u = 0; u < m_uses.size(); ++u)
            around[std::minmax(m_uses[u].from, m_uses[u].to)].push_back(u);
        for (const auto& [edge, uses] : around) {
            if (uses.size() % 2 != 0 || edge.first == edge.second)
                return fail("not-closed", "An edge has only one face.",
                            m_solid.faces[m_uses[uses.front()].face].name);
            if (auto paired = pairAround(uses); !paired) return paired;
        }
        return {};
    }

    /// Corners of faces that follow each other around a point are one corner.
    void numberCorners() {
        DisjointSets groups(m_uses.size()); // each use stands for the corner where it starts
        for (std::size_t u = 0; u < m_uses.size(); ++u) {
            groups.join(u, m_uses[m_uses[u].twin].next);
            groups.join(m_uses[u].next, m_uses[u].twin);
        }
        m_corner.assign(m_uses.size(), -1);
        std::map<std::size_t, int> number;
        for (std::size_t u = 0; u < m_uses.size(); ++u) {
            const auto [known, fresh] = number.emplace(groups.find(u), static_cast<int>(m_points.size()));
            if (fresh) m_points.push_back(point(m_uses[u].from));
            m_corner[u] = known->second;
        }
    }

    /// Wedges that hang together at both ends of the edge: a corner in the middle tells their edges apart.
    void partDoubledEdges() {
        std::set<std::pair<int, int>> seen;
        for (std::size_t u = 0; u < m_uses.size(); ++u) {
            const std::size_t twin = m_uses[u].twin;
            if (u > twin) continue;
            const int a = m_corner[u], b = m_corner[twin];
            if (seen.insert(std::minmax(a, b)).second) continue;
            m_middle[u] = m_middle[twin] = static_cast<int>(m_points.size());
            m_points.push_back((m_points[at(a)] + m_points[at(b)]) / 2);
        }
    }

    std::vector<ContactPiece> pieces() {
        DisjointSets groups(m_solid.faces.size());
        for (const Use& u : m_uses) groups.join(u.face, m_uses[u.twin].face);
        std::map<std::size_t, ContactPiece> byGroup;
        std::size_t use = 0;
        for (std::size_t f = 0; f < m_solid.faces.size(); ++f) {
            PolyFace face = m_solid.faces[f];
            for (auto& loop : face.loops) {
                std::vector<int> parted;
                for (std::size_t i = 0; i < loop.size(); ++i, ++use) {
                    parted.push_back(m_corner[use]);
                    if (const auto middle = m_middle.find(use); middle != m_middle.end())
                        parted.push_back(middle->second);
                }
                loop = std::move(parted);
            }
            ContactPiece& piece = byGroup[groups.find(f)];
            piece.solid.faces.push_back(std::move(face));
            piece.faces.push_back(f);
        }
        std::vector<ContactPiece> all;
        for (auto& [first, piece] : byGroup) {
            takeCorners(piece.solid);
            all.push_back(std::move(piece));
        }
        return all;
    }

    void takeCorners(Polyhedron& solid) const {
        std::map<int, int> number;
        for (PolyFace& face : solid.faces)
            for (auto& loop : face.loops)
                for (int& v : loop) {
                    const auto [known, fresh] = number.emplace(v, static_cast<int>(solid.vertices.size()));
                    if (fresh) solid.vertices.push_back(m_points[at(v)]);
                    v = known->second;
                }
    }
};

} // namespace

Expected<std::vector<ContactPiece>> partedAtContacts(const Polyhedron& solid) {
    return Parting(solid).run();
}

} // namespace slab
