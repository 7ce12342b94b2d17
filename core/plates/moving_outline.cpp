#include "core/plates/moving_outline.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr double parallelSlack = 1e-4; ///< sine of the angle below which two sides count as parallel

/// Half-space of the zone of `face` along its edge with the face behind `bond`.
Half sideHalf(const Shell& shell, const Bond& bond, int face, bool full) {
    const int g = bond.f == face ? bond.g : bond.f;
    if (!shell.present(g)) return bond.valley ? shell.skin[at(g)].other() : shell.skin[at(g)];
    if (bond.apart && !full) return bond.f == face ? bond.plane : bond.plane.other();
    return bond.valley ? shell.inner[at(g)].other() : shell.skin[at(g)];
}

Side makeSide(const Shell& shell, const Half& half, const Frame& frame, const Vec2& from, const Vec2& to) {
    Side side;
    side.half = half;
    const Vec3 n = shell.planes.outward(half);
    side.normal = Vec2(n.dot(frame.axes.col(0)), n.dot(frame.axes.col(1)));
    side.offset = -shell.planes.outside(half, frame.origin);
    side.slope = n.dot(frame.axes.col(2));
    side.along = (to - from).normalized();
    side.start = side.normal.dot(from);
    return side;
}

double sine(const Side& a, const Side& b) {
    return std::abs(cross2(a.normal, b.normal)) / (a.normal.norm() * b.normal.norm());
}

Vec2 meet(const Side& a, double ca, const Side& b, double cb) {
    const double det = cross2(a.normal, b.normal);
    return {(ca * b.normal.y() - cb * a.normal.y()) / det, (cb * a.normal.x() - ca * b.normal.x()) / det};
}

/// Sides of one loop: runs on the same plane are one side, parallel neighbours get a connector between them.
std::vector<Side> sidesOf(Shell& shell, int face, const std::vector<int>& loop, const Frame& frame,
                          bool full) {
    const auto& skin = shell.body.skin;
    std::vector<std::pair<Side, Vec2>> raw; // side and the corner where it starts
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const int a = loop[i], b = loop[(i + 1) % loop.size()];
        const auto found = shell.edgeAt.find({a, b});
        if (found == shell.edgeAt.end()) continue;
        const Bond* bond = &shell.bonds[at(shell.bondOfEdge[at(found->second)])];
        const Vec2 from = frame.toPlane(skin.vertices[at(a)]), to = frame.toPlane(skin.vertices[at(b)]);
        Side side = makeSide(shell, sideHalf(shell, *bond, face, full), frame, from, to);
        if (!raw.empty() && raw.back().first.half == side.half &&
            sine(raw.back().first, side) < parallelSlack)
            continue;
        raw.emplace_back(side, from);
    }
    if (raw.size() > 1 && raw.front().first.half == raw.back().first.half &&
        sine(raw.front().first, raw.back().first) < parallelSlack)
        raw.erase(raw.begin());
    std::vector<Side> sides;
    for (std::size_t i = 0; i < raw.size(); ++i) {
        sides.push_back(raw[i].first);
        const auto& [next, corner] = raw[(i + 1) % raw.size()];
        if (sine(raw[i].first, next) >= parallelSlack) continue;
        const Vec3 n = frame.axes.col(0) * next.along.x() + frame.axes.col(1) * next.along.y();
        const Half half = shell.planes.add({n, n.dot(frame.toBody(corner))});
        Side link = makeSide(shell, half, frame, corner, corner + Vec2(-next.along.y(), next.along.x()));
        link.connector = true;
        link.along = Vec2::Zero();
        sides.push_back(link);
    }
    return sides;
}

/// Length of edge i between its corners, along its own direction; offsets given.
double edgeLength(const std::vector<Side>& s, const std::vector<double>& c, std::size_t i) {
    const std::size_t n = s.size(), before = (i + n - 1) % n, after = (i + 1) % n;
    return (meet(s[i], c[i], s[after], c[after]) - meet(s[before], c[before], s[i], c[i])).dot(s[i].along);
}

/// The loop moved from the face's own edges (0) to `depth` (1), shrunk edges taken out on the way.
Ring collapsed(std::vector<Side> s, double depth) {
    double now = 0;
    while (s.size() >= 3) {
        const auto offsets = [&](double share) {
            std::vector<double> c;
            for (const Side& side : s)
                c.push_back(side.start + share * (side.offset + side.slope * depth - side.start));
            return c;
        };
        const auto before = offsets(now), after = offsets(1);
        double first = 2;
        std::size_t gone = 0;
        for (std::size_t i = 0; i < s.size(); ++i) {
            if (s[i].connector) continue;
            const double l0 = std::max(0.0, edgeLength(s, before, i)), l1 = edgeLength(s, after, i);
            if (l1 >= -1e-9) continue;
            const double when = now + (1 - now) * l0 / (l0 - l1);
            if (when < first) {
                first = when;
                gone = i;
            }
        }
        if (first > 1) {
            Ring ring;
            for (std::size_t i = 0; i < s.size(); ++i) {
                const std::size_t k = (i + s.size() - 1) % s.size();
                ring.push_back(meet(s[k], after[k], s[i], after[i]));
            }
            return ring;
        }
        now = std::min(first, 1.0);
        const auto n = s.size();
        if (sine(s[(gone + n - 1) % n], s[(gone + 1) % n]) < parallelSlack) {
            s[gone].connector = true; // its neighbours never meet: it stays as the step between them
            if (std::count_if(s.begin(), s.end(), [](const Side& side) { return !side.connector; }) < 3)
                return {};
            continue;
        }
        s.erase(s.begin() + static_cast<std::ptrdiff_t>(gone));
    }
    return {};
}

} // namespace

MovingOutline movingOutline(Shell& shell, int face, bool full) {
    MovingOutline outline;
    std::vector<Vec3> points;
    for (const int v : shell.face(face).loops.front()) points.push_back(shell.body.skin.vertices[at(v)]);
    outline.frame = panelFrame(shell.face(face).plane.normal, points);
    outline.thickness = shell.thickness(face);
    for (const auto& loop : shell.face(face).loops)
        outline.loops.push_back(sidesOf(shell, face, loop, outline.frame, full));
    return outline;
}

std::vector<Vec2> cornersAt(const std::vector<Side>& loop, double depth) {
    std::vector<Vec2> corners;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Side& a = loop[(i + loop.size() - 1) % loop.size()];
        const Side& b = loop[i];
        corners.push_back(meet(a, a.offset + a.slope * depth, b, b.offset + b.slope * depth));
    }
    return corners;
}

bool isRegular(const MovingOutline& outline) {
    for (const auto& loop : outline.loops) {
        if (loop.size() < 3) return false;
        for (const double depth : {0.0, outline.thickness}) {
            const auto corners = cornersAt(loop, depth);
            for (std::size_t i = 0; i < loop.size(); ++i)
                if ((corners[(i + 1) % loop.size()] - corners[i]).dot(loop[i].along) < -1e-9) return false;
        }
    }
    return true;
}

std::vector<Ring> loopsAt(const MovingOutline& outline, double depth) {
    std::vector<Ring> loops;
    for (const auto& loop : outline.loops) {
        Ring ring = collapsed(loop, depth);
        if (!ring.empty()) loops.push_back(std::move(ring));
    }
    return loops;
}

int windingAt(const std::vector<Ring>& loops, const Vec2& p) {
    int turns = 0;
    for (const Ring& ring : loops)
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2& a = ring[i];
            const Vec2& b = ring[(i + 1) % ring.size()];
            if (a.y() <= p.y() && b.y() > p.y() && cross2(b - a, p - a) > 0) ++turns;
            if (a.y() > p.y() && b.y() <= p.y() && cross2(b - a, p - a) < 0) --turns;
        }
    return turns;
}

} // namespace slab::plates
