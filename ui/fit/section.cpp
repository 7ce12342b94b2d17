#include "ui/fit/section.h"
#include "core/geometry/polygon.h"
#include <algorithm>
#include <map>

namespace slab::ui {

namespace {

using Loop = std::vector<int>;

/// Flat axes on a plane, turned so that counter-clockwise in them is counter-clockwise seen along -normal.
struct Flat {
    Vec3 u, v;
    explicit Flat(const Vec3& normal) {
        const Vec3 any = std::abs(normal.z()) < 0.9 ? Vec3::UnitZ() : Vec3::UnitX();
        u = any.cross(normal).normalized();
        v = normal.cross(u);
    }
    [[nodiscard]] Vec2 operator()(const Vec3& p) const { return {u.dot(p), v.dot(p)}; }
};

class Cutter {
public:
    Cutter(const Polyhedron& solid, const Plane& plane) : m_solid(solid), m_plane(plane) {
        for (const auto& v : solid.vertices) {
            m_kept.push_back(plane.distance(v) <= 1e-9);
            m_new.push_back(-1);
        }
    }

    Polyhedron run() {
        const auto kept = std::count(m_kept.begin(), m_kept.end(), true);
        if (kept == 0) return {};
        if (kept == static_cast<std::ptrdiff_t>(m_kept.size())) return m_solid;
        for (const auto& face : m_solid.faces) cutFace(face);
        cap();
        return std::move(m_out);
    }

private:
    /// A place where a face's border crosses the plane.
    struct Crossing {
        int vertex = 0;      ///< in m_out
        double along = 0;    ///< on the cut line
        bool leaves = false; ///< the border goes from kept to cut here
    };

    int keep(int vertex) {
        auto& index = m_new[static_cast<std::size_t>(vertex)];
        if (index < 0) {
            index = static_cast<int>(m_out.vertices.size());
            m_out.vertices.push_back(m_solid.vertices[static_cast<std::size_t>(vertex)]);
        }
        return index;
    }

    /// One point for each cut edge, shared by its two faces.
    int cross(int a, int b) {
        const auto key = std::minmax(a, b);
        const auto [it, fresh] = m_cross.try_emplace({key.first, key.second}, 0);
        if (fresh) {
            const Vec3& p = m_solid.vertices[static_cast<std::size_t>(key.first)];
            const Vec3& q = m_solid.vertices[static_cast<std::size_t>(key.second)];
            const double dp = m_plane.distance(p), dq = m_plane.distance(q);
            it->second = static_cast<int>(m_out.vertices.size());
            m_out.vertices.push_back(p + (q - p) * std::clamp(dp / (dp - dq), 0.0, 1.0));
        }
        return it->second;
    }

    void cutFace(const PolyFace& face) {
        std::vector<Loop> loops;
        std::map<int, Loop> chains; // entering crossing -> kept border up to the leaving crossing
        std::vector<Crossing> crossings;
        const Vec3 direction = face.plane.normal.cross(m_plane.normal);
        for (const auto& loop : face.loops) walk(loop, direction, loops, chains, crossings);
        // Along the cut line the face is inside between the first and second crossing, the third and fourth,
        // …
        std::stable_sort(crossings.begin(), crossings.end(),
                         [](const auto& a, const auto& b) { return a.along < b.along; });
        std::map<int, int> link; // leaving -> entering
        for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) pair(crossings, i, link);
        for (const auto& [leaving, entering] : link) m_capNext.emplace(entering, leaving);
        while (!chains.empty()) {
            Loop out;
            const int first = chains.begin()->first;
            for (int at = first;;) {
                const auto chain = chains.find(at);
                if (chain == chains.end()) break;
                out.insert(out.end(), chain->second.begin(), chain->second.end());
                const int end = chain->second.back();
                chains.erase(chain);
                const auto next = link.find(end);
                if (next == link.end() || next->second == first) break;
                at = next->second;
            }
            if (out.size() >= 3) loops.push_back(std::move(out));
        }
        addFaces(std::move(loops), face.plane, face.name);
    }

    /// Two neighbours on the line belong together if one leaves and the other enters; touching corners may
    /// swap order.
    static void pair(std::vector<Crossing>& crossings, std::size_t i, std::map<int, int>& link) {
        if (crossings[i].leaves == crossings[i + 1].leaves) {
            for (std::size_t k = i + 2; k < crossings.size(); ++k) {
                if (crossings[k].leaves == crossings[i].leaves) continue;
                std::swap(crossings[i + 1], crossings[k]);
                break;
            }
        }
        const auto& a = crossings[i];
        const auto& b = crossings[i + 1];
        if (a.leaves != b.leaves)
            link.emplace(a.leaves ? a.vertex : b.vertex, a.leaves ? b.vertex : a.vertex);
    }

    void walk(const Loop& loop, const Vec3& direction, std::vector<Loop>& loops, std::map<int, Loop>& chains,
              std::vector<Crossing>& crossings) {
        const auto n = loop.size();
        const auto isKept = [&](std::size_t i) { return m_kept[static_cast<std::size_t>(loop[i % n])]; };
        std::size_t start = n;
        for (std::size_t i = 0; i < n && start == n; ++i) {
            if (!isKept(i) && isKept(i + 1)) start = i;
        }
        if (start == n) {
            if (!isKept(0)) return;
            Loop whole;
            for (const int v : loop) whole.push_back(keep(v));
            loops.push_back(std::move(whole));
            return;
        }
        Loop chain;
        for (std::size_t k = 0; k < n; ++k) {
            const std::size_t i = start + k;
            const int a = loop[i % n], b = loop[(i + 1) % n];
            if (isKept(i) == isKept(i + 1)) {
                if (isKept(i)) chain.push_back(keep(b));
                continue;
            }
            const int vertex = cross(a, b);
            const double along = direction.dot(m_out.vertices[static_cast<std::size_t>(vertex)]);
            crossings.push_back({vertex, along, isKept(i)});
            chain.push_back(vertex);
            if (isKept(i)) {
                chains.emplace(chain.front(), chain);
                chain.clear();
            } else {
                chain.push_back(keep(b));
            }
        }
    }

    /// Sorts loops into outer borders and the holes inside them.
    void addFaces(std::vector<Loop> loops, const Plane& plane, const std::string& name) {
        const Flat flat(plane.normal);
        std::vector<std::pair<Ring, PolyFace>> outers;
        std::vector<std::pair<Ring, Loop>> holes;
        for (auto& loop : loops) {
            Ring ring;
            for (const int v : loop) ring.push_back(flat(m_out.vertices[static_cast<std::size_t>(v)]));
            double twice = 0;
            for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
                twice += cross2(ring[j], ring[i]);
            if (twice >= 0)
                outers.emplace_back(std::move(ring), PolyFace{plane, {std::move(loop)}, name});
            else
                holes.emplace_back(std::move(ring), std::move(loop));
        }
        for (auto& [ring, loop] : holes) {
            for (auto& [outer, face] : outers) {
                if (outers.size() > 1 && !contains(outer, ring.front(), 1e-6)) continue;
                face.loops.push_back(std::move(loop));
                break;
            }
        }
        for (auto& [ring, face] : outers) m_out.faces.push_back(std::move(face));
    }

    void cap() {
        std::vector<Loop> loops;
        while (!m_capNext.empty()) {
            Loop loop;
            for (auto at = m_capNext.begin(); at != m_capNext.end();) {
                const int next = at->second;
                loop.push_back(at->first);
                m_capNext.erase(at);
                at = m_capNext.find(next);
            }
            if (loop.size() >= 3) loops.push_back(std::move(loop));
        }
        addFaces(std::move(loops), m_plane, "section");
    }

    const Polyhedron& m_solid;
    Plane m_plane;
    std::vector<bool> m_kept;
    std::vector<int> m_new;
    std::map<std::pair<int, int>, int> m_cross;
    std::map<int, int> m_capNext;
    Polyhedron m_out;
};

} // namespace

Polyhedron clipped(const Polyhedron& solid, const Plane& plane) {
    return Cutter(solid, plane).run();
}

} // namespace slab::ui
