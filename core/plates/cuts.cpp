#include "core/plates/cuts.h"
#include "core/geometry/triangulate.h"
#include "core/plates/facets.h"
#include "core/plates/groups.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

bool isConvexRing(const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[(i + 1) % ring.size()];
        const Vec2& c = ring[(i + 2) % ring.size()];
        if (cross2(b - a, c - b) < -1e-12 * (b - a).norm() * (c - b).norm()) return false;
    }
    return true;
}

/// Corner points of the plate's outer face.
std::vector<Vec3> outerPoints(const Cells& cells, const Half& outer) {
    std::vector<Vec3> points;
    for (const Cell& c : cells)
        for (const auto& f : c.facets)
            if (f.half == outer)
                for (int i = 0; i < f.count; ++i)
                    points.push_back(c.vertices[at(c.corners[at(f.begin + i)])]);
    return points;
}

/// The opening's outline seen along its direction, laid on a plane: corners move along the direction.
std::vector<Vec3> projected(const ResolvedOpening& o, const Plane& plane) {
    const Frame view = panelFrame(o.direction, {});
    std::vector<Vec3> points;
    for (const Vec2& p : o.outline) {
        const Vec3 start = o.origin + view.axes.col(0) * p.x() + view.axes.col(1) * p.y();
        points.push_back(start - o.direction * (plane.distance(start) / plane.normal.dot(o.direction)));
    }
    return points;
}

Plane outerPlane(const CutTarget& target) {
    const Vec3 n = target.planes.outward(target.outer);
    return {n, -target.planes.outside(target.outer, Vec3::Zero())};
}

double cutBy(const CutTarget& target, const std::string& name, const Cutter& cutter) {
    const double taken = cut(target.planes, target.cells, cutter);
    if (target.told && taken > 1e-6) target.told(name, cutter);
    return taken;
}

/// Whether a prism can meet any cell: its outline's box and theirs, seen along it.
bool canMeet(const Cells& cells, const Ring& outline, const Frame& at) {
    constexpr double room = 1e-3; // mm
    const Box2 box = slab::bounds(outline);
    Vec2 low = Vec2::Constant(1e300), high = -low;
    for (const Cell& c : cells)
        for (const Vec3& v : c.vertices) {
            const Vec2 p = at.toPlane(v);
            low = low.cwiseMin(p), high = high.cwiseMax(p);
        }
    return (low.array() <= box.max.array() + room).all() && (box.min.array() <= high.array() + room).all();
}

double cutHosted(const CutTarget& target, const ResolvedOpening& o) {
    const auto points = outerPoints(target.cells, target.outer);
    if (points.empty()) return 0;
    Frame frame = panelFrame(target.planes.outward(target.outer), points);
    Vec2 high = Vec2::Zero();
    for (const Vec3& p : points) high = high.cwiseMax(frame.toPlane(p));
    frame.origin = frame.toBody(Vec2(high / 2 + o.at));
    const Vec3 w = frame.axes.col(2);
    return cutBy(target, o.name, prismCutter(target.planes, o.outline, frame, w, o.name, target.walls));
}

double cutDirected(const CutTarget& target, const ResolvedOpening& o) {
    if (!o.plates.empty() && std::none_of(o.plates.begin(), o.plates.end(),
                                          [&](const auto& pattern) { return target.is(pattern); }))
        return 0;
    const Plane plane = outerPlane(target);
    Frame frame = panelFrame(o.direction, {});
    frame.origin = o.origin;
    PlaneTable& planes = target.planes;
    constexpr double grazing = 0.17; // within 10° of the plate: a square wall would run far off
    if (o.parallelWalls || std::abs(plane.normal.dot(o.direction)) < grazing) {
        if (!canMeet(target.cells, o.outline, frame)) return 0;
        return cutBy(target, o.name,
                     prismCutter(planes, o.outline, frame, o.direction, o.name, target.walls));
    }
    Frame flat = panelFrame(plane.normal, {});
    flat.origin = o.origin - o.direction * (plane.distance(o.origin) / plane.normal.dot(o.direction));
    Ring ring;
    for (const Vec3& p : projected(o, plane)) ring.push_back(flat.toPlane(p));
    if (signedArea(ring) < 0) std::reverse(ring.begin(), ring.end());
    if (!canMeet(target.cells, ring, flat)) return 0;
    return cutBy(target, o.name, prismCutter(planes, ring, flat, plane.normal, o.name, target.walls));
}

/// A round form through a plate: a prism along the axis, as wide as the part is widest within the thickness.
/// Where the axis itself does not go through the slab the prism ends with the part.
double cutRound(const CutTarget& target, const RoundPart& part) {
    const Vec3 axis = part.top - part.base;
    const double length = axis.norm();
    if (!part.cuts || length < 1e-9) return 0;
    const Plane plane = outerPlane(target);
    double from = 0, to = 1;
    const double d0 = plane.depth(part.base), d1 = plane.depth(part.top), t = target.thickness;
    for (const auto& [a, b] : {std::pair(d0, d1), std::pair(t - d0, t - d1)}) {
        if (a < 0 && b < 0)
            from = 2;
        else if (a < 0)
            from = std::max(from, a / (a - b));
        else if (b < 0)
            to = std::min(to, a / (a - b));
    }
    const bool through = to - from > 1e-9;
    const auto radiusAt = [&](double s) { return part.radius + s * (part.topRadius - part.radius); };
    const double radius =
        (through ? std::max(radiusAt(from), radiusAt(to)) : std::max(part.radius, part.topRadius)) + part.gap;
    if (!(radius > 0)) return 0;
    const Vec3 direction = axis / length;
    Frame frame = panelFrame(direction, {});
    frame.origin = part.base;
    PlaneTable& planes = target.planes;
    const Ring circle = circleRing(radius);
    if (!canMeet(target.cells, circle, frame)) return 0;
    Cutter cutter = prismCutter(planes, circle, frame, direction, part.name, target.walls);
    if (!through)
        for (auto& piece : cutter.pieces) {
            piece.ends = {planes.add({-direction, -direction.dot(part.base)}),
                          planes.add({direction, direction.dot(part.top)})};
        }
    return cutBy(target, part.name, cutter);
}

/// Length of a segment inside a cutter, mm.
double inside(const PlaneTable& planes, const Cutter& cutter, const Vec3& a, const Vec3& b) {
    double share = 0;
    for (const auto& piece : cutter.pieces) {
        double from = 0, to = 1;
        for (const Half& half : piece.halves()) {
            const double da = planes.outside(half, a), db = planes.outside(half, b);
            if (da > 0 && db > 0)
                to = -1;
            else if (da > 0)
                from = std::max(from, da / (da - db));
            else if (db > 0)
                to = std::min(to, da / (da - db));
        }
        share += std::max(0.0, to - from);
    }
    return share * (b - a).norm();
}

/// How much of each joint the openings take.
class JointLosses {
public:
    explicit JointLosses(const Shell& shell) : m_shell(shell) {}

    void look(int f, const std::string& opening, const Cutter& cutter) {
        for (const int b : m_shell.bondsOfFace[at(f)]) {
            const Bond& bond = m_shell.bonds[at(b)];
            if (bond.open || !m_shell.present(bond.f) || !m_shell.present(bond.g)) continue;
            double sum = 0;
            for (const int e : bond.edges) {
                const SkinEdge& edge = m_shell.body.skin.edges[at(e)];
                const auto& v = m_shell.body.skin.vertices;
                const double here = inside(m_shell.planes, cutter, v[at(edge.a)], v[at(edge.b)]);
                if (here > 0) m_at[{opening, b}] = (v[at(edge.a)] + v[at(edge.b)]) / 2;
                sum += here;
            }
            double& lost = m_lost[{opening, b}]; // told by both plates
            lost = std::max(lost, sum);
        }
    }

    void report(std::vector<Finding>& findings) const {
        constexpr double least = 1; // mm
        for (const auto& [key, lost] : m_lost) {
            if (lost < least) continue;
            const Bond& bond = m_shell.bonds[at(key.second)];
            // Of a plate that is taken wholly that alone is told.
            if (m_shell.openedAway.contains(bond.f) || m_shell.openedAway.contains(bond.g)) continue;
            const std::string f = m_shell.face(bond.f).name, g = m_shell.face(bond.g).name;
            const Vec3& p = m_at.at(key);
            const auto& rounds = m_shell.body.rounds;
            const bool round = std::any_of(rounds.begin(), rounds.end(),
                                           [&](const RoundPart& r) { return r.name == key.first; });
            findings.push_back({Severity::note,
                                "opening-cuts-joint",
                                "Opening " + key.first + " takes " + printLength(lost, m_shell.rules.units) +
                                    " of the joint between " + f + " and " + g,
                                {(round ? "form:" : "opening:") + key.first, "edge:" + f + "|" + g,
                                 "plate:" + f, "plate:" + g},
                                "See that the rest of the joint holds: put a cleat or a frame beside the "
                                "opening, or move it.",
                                std::array<double, 3>{p.x(), p.y(), p.z()}});
        }
    }

private:
    using Key = std::pair<std::string, int>; ///< opening, index in Shell::bonds
    const Shell& m_shell;
    std::map<Key, double> m_lost;
    std::map<Key, Vec3> m_at;
};

} // namespace

Cutter prismCutter(PlaneTable& planes, const Ring& outline, const Frame& at, const Vec3& direction,
                   const std::string& name, Walls& walls) {
    Cutter cutter;
    const auto addPiece = [&](const Ring& ring) {
        Prism prism;
        prism.direction = direction.normalized();
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec3 a = at.toBody(ring[i]), b = at.toBody(ring[(i + 1) % ring.size()]);
            const Vec3 n = (b - a).cross(direction).normalized();
            const std::size_t before = planes.size();
            prism.corners.push_back(a);
            prism.sides.push_back(planes.add({n, n.dot(a)}));
            const int plane = prism.sides.back().plane;
            // A plane that was there before is a face of the skin, unless another opening put it there.
            if (planes.size() > before || walls.contains(plane))
                walls[plane].push_back({name, a, b, prism.direction});
        }
        cutter.pieces.push_back(std::move(prism));
    };
    if (isConvexRing(outline)) {
        addPiece(outline);
        return cutter;
    }
    for (const auto& triangle : triangulate(Polygon{outline, {}})) {
        Ring ring;
        for (const int i : triangle) ring.push_back(outline[static_cast<std::size_t>(i)]);
        addPiece(ring);
    }
    return cutter;
}

bool CutTarget::is(const std::string& pattern) const {
    return matches(pattern, name) ||
           (aliases && std::any_of(aliases->begin(), aliases->end(),
                                   [&](const auto& alias) { return matches(pattern, alias); }));
}

double cut(const PlaneTable& planes, Cells& cells, const Cutter& cutter) {
    double taken = 0;
    for (const auto& piece : cutter.pieces) {
        Cells rest;
        for (Cell& c : cells) taken += subtract(planes, c, piece, rest);
        cells = std::move(rest);
    }
    return taken;
}

void cutPlate(const CutTarget& target, const Body& body, const PlateRules& rules, std::vector<int>& hits,
              std::vector<Finding>& findings) {
    const auto& openings = rules.openings;
    hits.resize(openings.size() + body.rounds.size(), 0);
    if (target.cells.empty() || hits.empty()) return;
    const Cells before = target.cells;
    const std::string* last = nullptr;
    for (std::size_t i = 0; i < hits.size(); ++i) {
        double taken = 0;
        if (i >= openings.size())
            taken = cutRound(target, body.rounds[i - openings.size()]);
        else if (openings[i].plate.empty())
            taken = cutDirected(target, openings[i]);
        else if (target.is(openings[i].plate))
            taken = cutHosted(target, openings[i]);
        if (taken <= 1e-6) continue;
        ++hits[i];
        last = i < openings.size() ? &openings[i].name : &body.rounds[i - openings.size()].name;
    }
    if (!last) return;
    if (target.cells.empty()) {
        findings.push_back(
            {Severity::look,
             "opening-takes-plate",
             "Opening " + *last + " is larger than " + target.name + ": nothing of the plate is left",
             {"opening:" + *last, "plate:" + target.name},
             "Make the opening smaller, move it, or leave out the plate if that is meant.",
             {}});
        return;
    }
    const double slack = target.planes.eps() * 50;
    const auto pieces = connectedGroups(target.planes, target.cells, slack).size();
    if (pieces > connectedGroups(target.planes, before, slack).size())
        findings.push_back({Severity::look,
                            "opening-loosens-piece",
                            "Opening " + *last + " cuts a piece of " + target.name + " loose",
                            {"opening:" + *last, "plate:" + target.name},
                            "Make the opening smaller, move it, or leave a bridge.",
                            {}});
}

void cutOpenings(Shell& shell, std::vector<int>& hits) {
    JointLosses losses(shell);
    for (const int f : shell.faces) {
        const bool there = !shell.plates[at(f)].empty();
        cutPlate({shell.planes, shell.plates[at(f)], shell.walls, shell.face(f).name, shell.skin[at(f)],
                  shell.thickness(f), &shell.face(f).aliases,
                  [&](const std::string& name, const Cutter& cutter) { losses.look(f, name, cutter); }},
                 shell.body, shell.rules, hits, shell.findings);
        if (there && shell.plates[at(f)].empty()) shell.openedAway.insert(f);
    }
    losses.report(shell.findings);
}

double ringDistance(const Ring& a, const Ring& b) {
    double least2 = 1e300;
    const auto toEdges = [&](const Ring& points, const Ring& edges) {
        for (std::size_t i = 0; i < edges.size(); ++i) {
            const Vec2& s = edges[i];
            const Vec2 along = edges[(i + 1) % edges.size()] - s;
            const double length2 = along.squaredNorm();
            for (const Vec2& p : points) {
                const double share = std::clamp((p - s).dot(along) / length2, 0.0, 1.0);
                least2 = std::min(least2, (p - s - share * along).squaredNorm());
            }
        }
    };
    toEdges(a, b);
    toEdges(b, a);
    return std::sqrt(least2);
}

namespace {

/// A side of the body that the opening is meant for and that no plate is made of; empty if there is none.
std::string leftOutHost(const Body& body, const PlateRules& rules, const ResolvedOpening& opening) {
    const auto meant = [&](const std::string& name) {
        if (!opening.plate.empty()) return matches(opening.plate, name);
        return std::any_of(opening.plates.begin(), opening.plates.end(),
                           [&](const std::string& pattern) { return matches(pattern, name); });
    };
    for (std::size_t i = 0; i < rules.faces.size(); ++i)
        if (rules.faces[i].stock.empty() && meant(body.skin.faces[i].name)) return body.skin.faces[i].name;
    for (std::size_t i = 0; i < rules.freePlates.size(); ++i)
        if (rules.freePlates[i].stock.empty() && meant(body.plates[i].name)) return body.plates[i].name;
    return {};
}

} // namespace

void checkOpenings(const Body& body, const PlateRules& rules, const std::vector<int>& hits, PlateSet& set) {
    for (std::size_t i = 0; i < rules.openings.size() && i < hits.size(); ++i) {
        const ResolvedOpening& opening = rules.openings[i];
        if (hits[i] != 0 || isForFrames(opening))
            continue; // what is meant for frames is cut and told with them
        const std::string host = leftOutHost(body, rules, opening);
        set.findings.push_back({Severity::look,
                                "opening-misses",
                                "Opening " + opening.name + " cuts no plate" +
                                    (host.empty() ? "" : ": " + host + " has no sheet"),
                                {"opening:" + opening.name},
                                host.empty() ? "Move it onto a plate, or correct the plate's name."
                                             : "Choose a sheet for that plate, or take the opening out.",
                                {}});
    }
}

} // namespace slab::plates

namespace slab {

bool isForFrames(const ResolvedOpening& opening) {
    const auto named = [](const std::string& pattern) { return pattern.starts_with("frames/"); };
    if (!opening.plate.empty()) return named(opening.plate);
    return !opening.plates.empty() && std::all_of(opening.plates.begin(), opening.plates.end(), named);
}

} // namespace slab
