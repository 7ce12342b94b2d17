#include "core/body/moved_skin.h"
#include "core/geometry/patchwork.h"
#include "core/geometry/polygon.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

constexpr std::size_t mostUnions = 8;

bool sameStructure(const std::vector<Polyhedron>& a, const std::vector<Polyhedron>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Polyhedron& s, const Polyhedron& t) {
        return s.vertices.size() == t.vertices.size() &&
               std::equal(s.faces.begin(), s.faces.end(), t.faces.begin(), t.faces.end(),
                          [](const PolyFace& f, const PolyFace& g) {
                              return f.name == g.name && f.loops == g.loops;
                          });
    });
}

/// The event at each corner, or an empty list if a corner is none of them.
std::vector<int> eventsAt(const Polyhedron& solid, const JoinEvents& events, double reach) {
    std::vector<int> found;
    for (const Vec3& p : solid.vertices) {
        const auto event = std::find_if(events.list.begin(), events.list.end(),
                                        [&](const JoinEvent& e) { return (e.at - p).norm() < reach; });
        if (event == events.list.end()) return {};
        found.push_back(static_cast<int>(event - events.list.begin()));
    }
    return found;
}

/// For each border edge its length along the line in which its two faces' planes meet, with sign; where they
/// lie in one plane, its length.
std::vector<double> turnsOf(const Polyhedron& solid) {
    std::map<std::pair<int, int>, const Plane*> left;
    const auto each = [&](auto&& act) {
        for (const PolyFace& f : solid.faces)
            for (const auto& loop : f.loops)
                for (std::size_t i = 0; i < loop.size(); ++i) act(f, loop[i], loop[(i + 1) % loop.size()]);
    };
    each([&](const PolyFace& f, int a, int b) { left[{a, b}] = &f.plane; });
    std::vector<double> turns;
    each([&](const PolyFace& f, int a, int b) {
        const Vec3 edge =
            solid.vertices[static_cast<std::size_t>(b)] - solid.vertices[static_cast<std::size_t>(a)];
        const auto twin = left.find({b, a});
        const Vec3 along = twin == left.end() ? Vec3::Zero() : f.plane.normal.cross(twin->second->normal);
        turns.push_back(along.norm() < 1e-7 ? edge.norm() : edge.dot(along.normalized()));
    });
    return turns;
}

/// Every edge still runs the same way and is no shorter than can be told apart.
bool runAlike(const std::vector<double>& before, const std::vector<double>& now) {
    constexpr double least = 1e-3; // mm
    return std::equal(before.begin(), before.end(), now.begin(), now.end(),
                      [](double a, double b) { return a * b > 0 && std::abs(b) > least; });
}

Ring flattened(const Polyhedron& solid, const PolyFace& face, const std::vector<int>& loop) {
    const Vec3 u = face.plane.normal.unitOrthogonal(), v = face.plane.normal.cross(u);
    Ring ring;
    for (int i : loop) {
        const Vec3& p = solid.vertices[static_cast<std::size_t>(i)];
        ring.emplace_back(u.dot(p), v.dot(p));
    }
    return ring;
}

/// Outer loops turn left and hold their holes, which turn right; no border crosses itself.
bool facesAreSound(const Polyhedron& solid) {
    for (const PolyFace& face : solid.faces) {
        const Ring outer = flattened(solid, face, face.loops.front());
        if (signedArea(outer) <= 0 || !isSimple(outer)) return false;
        for (std::size_t l = 1; l < face.loops.size(); ++l) {
            const Ring hole = flattened(solid, face, face.loops[l]);
            if (signedArea(hole) >= 0 || !isSimple(hole)) return false;
            if (!std::all_of(hole.begin(), hole.end(),
                             [&](const Vec2& p) { return contains(outer, p, 1e-6); }))
                return false;
        }
    }
    return true;
}

/// Which neighbours lie in one plane, border by border, and that each face still has one plane only.
std::vector<bool> flushOf(const occt::Fused& fused, const std::vector<int>& planes) {
    const auto plane = [&](int input) { return planes[static_cast<std::size_t>(input)]; };
    std::map<std::pair<int, int>, int> left;
    const auto each = [&](auto&& act) {
        for (std::size_t f = 0; f < fused.solid.faces.size(); ++f)
            for (const auto& loop : fused.solid.faces[f].loops)
                for (std::size_t i = 0; i < loop.size(); ++i)
                    act(plane(fused.faceInputs[f].front()), std::pair(loop[i], loop[(i + 1) % loop.size()]));
    };
    each([&](int p, std::pair<int, int> edge) { left[edge] = p; });
    std::vector<bool> flush;
    each([&](int p, std::pair<int, int> edge) {
        const auto twin = left.find({edge.second, edge.first});
        flush.push_back(twin != left.end() && twin->second == p);
    });
    for (const auto& inputs : fused.faceInputs)
        flush.push_back(std::all_of(inputs.begin(), inputs.end(),
                                    [&](int i) { return plane(i) == plane(inputs.front()); }));
    return flush;
}

std::vector<const PolyFace*> flatFaces(const std::vector<Polyhedron>& solids) {
    std::vector<const PolyFace*> faces;
    for (const Polyhedron& s : solids)
        for (const PolyFace& f : s.faces) faces.push_back(&f);
    return faces;
}

/// Planes and corners of a union read off the solids that it is of, the same way whether it was joined or moved.
/// @return false where that does not give a sound solid
bool readOff(occt::Fused& fused, const std::vector<Polyhedron>& solids, const JoinEvents& events,
             const std::vector<int>& eventOf) {
    const auto inputs = flatFaces(solids);
    for (std::size_t f = 0; f < fused.solid.faces.size(); ++f)
        fused.solid.faces[f].plane = inputs[static_cast<std::size_t>(fused.faceInputs[f].front())]->plane;
    for (std::size_t v = 0; v < fused.solid.vertices.size(); ++v)
        fused.solid.vertices[v] = events.list[static_cast<std::size_t>(eventOf[v])].at;
    return occt::settle(fused.solid, solids) && facesAreSound(fused.solid);
}

} // namespace

void JoinMemory::remember(const std::vector<Polyhedron>& solids, occt::Fused& fused) {
    std::erase_if(m_unions, [&](const Union& u) { return u.solids == solids; });
    if (!fused.contacts.empty()) return;
    Union u{
        solids, fused, flushOf(fused, planeNumbers(solids)), joinEvents(solids), {}, turnsOf(fused.solid)};
    if (!u.events.sure) return;
    u.eventOf = eventsAt(fused.solid, u.events, 1e-5);
    if (u.eventOf.empty()) return;
    // To the bit what moving it would give: a dragged document and a fresh one are then alike.
    if (!readOff(u.fused, solids, u.events, u.eventOf)) return;
    u.turns = turnsOf(u.fused.solid);
    fused = u.fused;
    m_unions.push_front(std::move(u));
    if (m_unions.size() > mostUnions) m_unions.pop_back();
}

std::optional<occt::Fused> JoinMemory::moved(const std::vector<Polyhedron>& solids) {
    if (!follow) return {};
    std::optional<JoinEvents> events;
    std::vector<int> planes;
    for (const Union& u : m_unions) {
        if (!sameStructure(u.solids, solids)) continue;
        if (!events) {
            events = joinEvents(solids);
            planes = planeNumbers(solids);
        }
        if (!events->sure) return {};
        if (flushOf(u.fused, planes) != u.flush ||
            !std::equal(events->list.begin(), events->list.end(), u.events.list.begin(), u.events.list.end(),
                        [](const JoinEvent& a, const JoinEvent& b) { return a.isLike(b); }))
            continue;
        occt::Fused fused = u.fused;
        if (!readOff(fused, solids, *events, u.eventOf) || !runAlike(u.turns, turnsOf(fused.solid))) continue;
        followed = true;
        return fused;
    }
    return {};
}

} // namespace slab
