#include "core/fit/service.h"
#include "core/fit/pieces.h"
#include "core/geometry/polygon.h"
#include "core/mechanisms/rounds.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace slab {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double mostAside = pi / 3;      ///< between the way and the side that the hand comes from
constexpr int evenly = 2000;              ///< directions all round
constexpr double fingertip = 10;          ///< mm; what is narrower is no opening
constexpr double chords = 0.5;            ///< mm: a round hole is cut in chords, which lie within its circle
constexpr double outside = 1500;          ///< mm that a way goes on after the shell
constexpr double touching = 5;            ///< mm; a solid this near to the point is what the point is on
constexpr double armOfStature = 0.4;      ///< shoulder to grip, from memory
constexpr double shoulderOfSitting = 0.6; ///< shoulder height above the seat, from memory

/// Directions spread evenly over a sphere: a spiral of equal areas.
std::vector<Vec3> allRound(int count) {
    const double golden = pi * (3 - std::sqrt(5.0));
    std::vector<Vec3> out;
    for (int i = 0; i < count; ++i) {
        const double z = 1 - (2 * i + 1.0) / count, r = std::sqrt(1 - z * z), a = golden * i;
        out.emplace_back(r * std::cos(a), r * std::sin(a), z);
    }
    return out;
}

/// How far a ray goes until it has left a box that it begins in or beside; 0 when it never is inside.
double leaves(const Box3& box, const Vec3& from, const Vec3& way) {
    double in = 0, out = 1e300;
    for (int k = 0; k < 3; ++k) {
        if (std::abs(way[k]) < 1e-12) {
            if (from[k] < box.min[k] || from[k] > box.max[k]) return 0;
            continue;
        }
        const double a = (box.min[k] - from[k]) / way[k], b = (box.max[k] - from[k]) / way[k];
        in = std::max(in, std::min(a, b));
        out = std::min(out, std::max(a, b));
    }
    return out > in ? out : 0;
}

std::set<std::string> lidsOf(const PlateSet& plates) {
    std::set<std::string> lids;
    for (const Plate& host : plates.plates)
        for (const PanelLoop& hole : host.holes)
            if (!hole.opening.empty())
                for (const Plate& p : plates.plates)
                    if (p.name.starts_with(host.name + "/" + hole.opening + " lid")) lids.insert(p.name);
    return lids;
}

struct Obstacle {
    ConvexSolid shape;
    Box3 box;
    std::string name;
    bool plate = true;
};

class Finder {
public:
    Finder(const DonorSet& donor, const PlateSet& plates, const PlateSet& outlines)
        : m_donor(donor), m_outlines(outlines) {
        const std::set<std::string> lids = lidsOf(outlines);
        const auto add = [&](const ConvexSolid& shape, const std::string& name, bool plate) {
            if (!shape.points.empty()) m_all.push_back({shape, bounds(shape), name, plate});
        };
        for (const Plate& p : plates.plates) {
            if (lids.contains(p.name)) continue;
            for (const ConvexSolid& cell : p.cells) add(cell, p.name, true);
            if (p.cells.empty()) add({ConvexSolid::Kind::hull, p.solid.vertices, 0}, p.name, true);
        }
        m_shell = boundsOf(plates).value_or(Box3{});
        // What is swept is empty while it stands still, but for wheels.
        for (const FitSolid& s : donor.solids)
            if (s.group == "donor" && (!s.moving || s.name.ends_with(" wheel"))) add(s.shape, s.name, false);
        m_directions = allRound(evenly);
        for (const Plate& p : outlines.plates)
            for (const PanelLoop& hole : p.holes)
                if (!hole.outer.empty()) m_openings.push_back(p.frame.toBody(middleOf(hole.outer)));
    }

    ServiceWay find(const ReachPoint& point) {
        ServiceWay best;
        best.name = point.name;
        best.at = point.at;
        best.hand = point.hand;
        m_point = &point;
        sortObstacles();
        if (point.from.norm() > 0.5) tryWay(point.from.normalized(), best);
        std::vector<Vec3> ways = m_directions;
        for (const Vec3& opening : m_openings)
            if ((opening - point.at).norm() > 1) ways.push_back((opening - point.at).normalized());
        for (const Vec3& way : ways)
            if (allowed(way)) tryWay(way, best);
        if (best.width > 0 && best.width < 4 * best.hand) refine(best);
        best.reached = best.width >= best.hand - chords;
        if (!best.reached) fromSeat(best);
        if (!best.reached && best.width < fingertip) bar(best);
        best.through = openingOn(best);
        return best;
    }

private:
    static Vec2 middleOf(const Ring& ring) {
        Vec2 low = ring.front(), high = ring.front();
        for (const Vec2& p : ring) {
            low = low.cwiseMin(p);
            high = high.cwiseMax(p);
        }
        return (low + high) / 2;
    }

    /// Nearest first: what bars most ways is asked first. What the point is on counts by the line alone.
    void sortObstacles() {
        m_order.clear();
        m_hosts.clear();
        const ConvexSolid spot = makeCapsule(m_point->at, m_point->at, 0);
        for (std::size_t i = 0; i < m_all.size(); ++i) {
            if (boxDistance(bounds(spot), m_all[i].box) > touching || m_all[i].plate) {
                m_order.push_back(i);
                continue;
            }
            const Nearest near = nearest(spot, m_all[i].shape);
            if (near.distance > touching)
                m_order.push_back(i);
            else if (!near.meets || near.depth < 1)
                m_hosts.push_back(i); // else the point lies inside: it cannot bar anything
        }
        const auto far = [&](std::size_t i) { return boxDistance({m_point->at, m_point->at}, m_all[i].box); };
        std::stable_sort(m_order.begin(), m_order.end(),
                         [&](std::size_t a, std::size_t b) { return far(a) < far(b); });
    }

    [[nodiscard]] bool allowed(const Vec3& way) const {
        return m_point->from.norm() < 0.5 || m_point->from.normalized().dot(way) > std::cos(mostAside) - 1e-9;
    }
    /// The middle line of the way; nothing where it runs into the ground.
    [[nodiscard]] std::optional<ConvexSolid> lineOf(const Vec3& way) const {
        const double r = m_point->hand / 2;
        const double shell = std::max(leaves(m_shell, m_point->at, way), r) + r;
        const double lowest = std::min(r, m_point->at.z());
        if (m_point->at.z() + shell * way.z() < lowest) return std::nullopt;
        // Some way on: what leans past an edge comes nearest to it outside.
        double length = shell + outside;
        if (way.z() < 0) length = std::min(length, std::max(shell, (lowest - m_point->at.z()) / way.z()));
        const Vec3 end = m_point->at + length * way;
        return makeCapsule(m_point->at + r * way, end, 0);
    }
    /// Whether what the point is on lets the line out.
    [[nodiscard]] bool leavesHosts(const Vec3& way) const {
        const ConvexSolid line = makeCapsule(m_point->at + 2 * touching * way,
                                             m_point->at + (10 * touching + m_point->hand) * way, 0);
        return std::none_of(m_hosts.begin(), m_hosts.end(),
                            [&](std::size_t i) { return nearest(line, m_all[i].shape).meets; });
    }
    /// The widest that passes along a line, and what it comes nearest to; less than `enough` is not worked
    /// out.
    double widthAlong(const ConvexSolid& line, double enough, std::string& binds) const {
        const Box3 box = bounds(line);
        double least = 1e9;
        Prepared path(line);
        for (const std::size_t i : m_order) {
            if (boxDistance(box, m_all[i].box) >= least) continue;
            Prepared other(m_all[i].shape);
            const Nearest near = nearest(path, other, false);
            const double gap = near.meets ? 0 : near.distance;
            if (gap >= least) continue;
            least = gap;
            binds = m_all[i].name;
            if (2 * least <= enough) return 0;
        }
        return 2 * least;
    }
    bool tryWay(const Vec3& way, ServiceWay& best) const {
        constexpr double plenty = 400; // mm; wide enough to stop looking for better
        if (best.width >= plenty || !leavesHosts(way)) return false;
        const auto line = lineOf(way);
        if (!line) return false;
        std::string binds;
        const double width = widthAlong(*line, best.width, binds);
        if (width <= best.width) return false;
        best.width = width;
        best.way = way;
        best.binds = binds;
        return true;
    }
    void refine(ServiceWay& best) const {
        for (double step = 0.04; step > 0.0005;) {
            const Vec3 u = best.way.unitOrthogonal(), v = best.way.cross(u);
            bool better = false;
            for (int k = 0; k < 8 && !better; ++k) {
                const Vec3 way =
                    (best.way + step * (std::cos(k * pi / 4) * u + std::sin(k * pi / 4) * v)).normalized();
                better = allowed(way) && tryWay(way, best);
            }
            if (!better) step /= 2;
        }
    }

    /// By somebody aboard, from either shoulder.
    void fromSeat(ServiceWay& best) const {
        for (const Person& who : m_donor.people)
            for (const double side : {0.5, -0.5}) {
                const Vec3 left = Vec3::UnitZ().cross(m_donor.chassis.forward);
                const Vec3 shoulder = who.seat + side * who.shoulders * left +
                                      Vec3(0, 0, shoulderOfSitting * who.sittingHeight);
                const Vec3 way = shoulder - m_point->at;
                const double far = way.norm(), r = m_point->hand / 2;
                if (far > armOfStature * who.stature || far < m_point->hand || !allowed(way / far) ||
                    !leavesHosts(way / far))
                    continue;
                std::string binds;
                const double width = widthAlong(makeCapsule(m_point->at + r * way / far, shoulder, 0),
                                                best.hand - 1e-9, binds);
                if (width < best.hand - chords) continue;
                best.reached = best.fromSeat = true;
                best.width = width;
                best.way = way / far;
                best.binds = binds;
                return;
            }
    }

    /// Nothing passes: the way that the fewest plates bar, and the first of them.
    void bar(ServiceWay& best) const {
        double least = 1e300;
        best.width = 0;
        std::vector<Vec3> ways = m_directions;
        if (m_point->from.norm() > 0.5) ways.insert(ways.begin(), m_point->from.normalized());
        for (const Vec3& way : ways) {
            if (!allowed(way) || !leavesHosts(way)) continue;
            const auto line = lineOf(way);
            if (!line) continue;
            const double aside = m_point->from.norm() < 0.5 ? 0 : 1 - m_point->from.normalized().dot(way);
            const double length = (line->points[1] - line->points[0]).norm();
            std::set<std::string> met;
            std::string first;
            double cost = aside * 2 + length / 1e4; // a plate less is worth any of these
            for (const std::size_t i : m_order) {
                if (cost >= least) break;
                if (boxDistance(bounds(*line), m_all[i].box) > m_point->hand / 2) continue;
                const Nearest near = nearest(*line, m_all[i].shape);
                if (near.distance >= (m_all[i].plate ? fingertip / 2 : m_point->hand / 2) && !near.meets)
                    continue;
                if (!met.insert(m_all[i].name).second) continue;
                if (first.empty()) first = m_all[i].name;
                cost += m_all[i].plate ? 10 : 1000; // the donor's own solids are not cut
            }
            if (cost >= least) continue;
            least = cost;
            best.way = way;
            best.binds = first;
        }
    }

    /// The opening that the way passes through first.
    [[nodiscard]] std::string openingOn(const ServiceWay& way) const {
        if (way.width <= 0 || way.fromSeat) return {};
        std::string name;
        double least = 1e300;
        for (const Plate& p : m_outlines.plates) {
            const Vec3 normal = p.frame.axes.col(2);
            const double along = normal.dot(way.way);
            if (std::abs(along) < 1e-9) continue;
            const double far = normal.dot(p.frame.origin - way.at) / along;
            if (far <= 0 || far >= least) continue;
            const Vec2 spot = p.frame.toPlane(way.at + far * way.way);
            for (const PanelLoop& hole : p.holes)
                if (!hole.opening.empty() && holds(hole.outer, spot)) {
                    least = far;
                    name = hole.opening;
                }
        }
        return name;
    }
    static bool holds(const Ring& ring, const Vec2& p) {
        bool in = false;
        for (std::size_t i = 0, k = ring.size() - 1; i < ring.size(); k = i++)
            if ((ring[i].y() > p.y()) != (ring[k].y() > p.y()) &&
                p.x() < (ring[k].x() - ring[i].x()) * (p.y() - ring[i].y()) / (ring[k].y() - ring[i].y()) +
                            ring[i].x())
                in = !in;
        return in;
    }

    const DonorSet& m_donor;
    const PlateSet& m_outlines;
    std::vector<Obstacle> m_all;
    std::vector<std::size_t> m_order, m_hosts;
    std::vector<Vec3> m_directions, m_openings;
    Box3 m_shell;
    const ReachPoint* m_point = nullptr;
};

} // namespace

std::vector<ServiceWay> serviceWays(const DonorSet& donor, const PlateSet& plates, const PlateSet& outlines,
                                    const UnitStyle& style) {
    std::vector<ServiceWay> ways;
    if (plates.plates.empty() || donor.chassis.service.empty()) return ways;
    Finder finder(donor, plates, outlines);
    for (const ReachPoint& point : donor.chassis.service) {
        ServiceWay way = finder.find(point);
        if (way.fromSeat)
            way.words = "from the seat";
        else if (way.width > 0)
            way.words = fromWords(way.way) + (way.through.empty() ? "" : " through opening " + way.through) +
                        (way.width > 3 * way.hand ? "" : ", " + printLength(way.width, style) + " wide");
        else
            way.words = way.binds.empty() ? "no way" : "barred by " + way.binds;
        ways.push_back(std::move(way));
    }
    return ways;
}

} // namespace slab
