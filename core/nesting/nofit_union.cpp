#include "core/nesting/nofit_parts.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

constexpr double beside = 1e-7; // mm; nearer to the border than this counts as on it
constexpr double touch = 1e-5;  // mm; so much of a side lies beside a border that only ends there
constexpr double over = 4;      // eps; how far pieces reach over a cut

/// Stretch [t0, t1] of s beside the border segment b; false if none.
bool besideStretch(const Segment& s, const Segment& b, double& t0, double& t1) {
    const double dx = b.b.x - b.a.x, dy = b.b.y - b.a.y, length = std::hypot(dx, dy);
    if (length == 0) return false;
    t0 = 0;
    t1 = 1;
    const auto cut = [&](double from, double to, double least, double most) {
        const double step = to - from;
        if (std::abs(step) < 1e-300) return from >= least && from <= most;
        double enter = (least - from) / step, leave = (most - from) / step;
        if (enter > leave) std::swap(enter, leave);
        t0 = std::max(t0, enter);
        t1 = std::min(t1, leave);
        return t0 < t1;
    };
    const auto along = [&](Pt p) { return ((p.x - b.a.x) * dx + (p.y - b.a.y) * dy) / length; };
    const auto aside = [&](Pt p) { return ((p.y - b.a.y) * dx - (p.x - b.a.x) * dy) / length; };
    return cut(aside(s.a), aside(s.b), -beside, beside) &&
           cut(along(s.a), along(s.b), -beside, length + beside);
}

double lengthOf(const Segment& s) {
    return std::hypot(s.b.x - s.a.x, s.b.y - s.a.y);
}

/// A thin piece along a cut.
ConvexPiece bridge(const Segment& s, double half) {
    const double length = lengthOf(s);
    const Pt n{-(s.b.y - s.a.y) / length * half, (s.b.x - s.a.x) / length * half};
    return hullPiece({{s.a.x - n.x, s.a.y - n.y},
                      {s.b.x - n.x, s.b.y - n.y},
                      {s.b.x + n.x, s.b.y + n.y},
                      {s.a.x + n.x, s.a.y + n.y}});
}

/// The stretches of a side that lie beside the border.
void bordering(const Segment& side, const std::vector<Segment>& border,
               std::vector<std::pair<double, double>>& near) {
    const double minX = std::min(side.a.x, side.b.x) - beside, maxX = std::max(side.a.x, side.b.x) + beside;
    const double minY = std::min(side.a.y, side.b.y) - beside, maxY = std::max(side.a.y, side.b.y) + beside;
    near.clear();
    double t0 = 0, t1 = 0;
    for (const Segment& b : border)
        if (std::min(b.a.x, b.b.x) <= maxX && std::max(b.a.x, b.b.x) >= minX &&
            std::min(b.a.y, b.b.y) <= maxY && std::max(b.a.y, b.b.y) >= minY &&
            besideStretch(side, b, t0, t1))
            near.emplace_back(t0, t1);
}

/// The last piece of `out` has this outline; its cuts are covered.
///
/// A point on the cut between two pieces is eps deep in neither. So a side that is all cut is moved outward,
/// and one that is partly border gets bridges over the rest. What lies beside the border stays free; the
/// outlines are grown by more than that (gridStep).
void coverCuts(NoFit& out, const ConvexPiece& piece, const std::vector<Segment>& border, double eps) {
    const std::size_t first = static_cast<std::size_t>(out.pieces.back().first), n = piece.points.size();
    std::vector<std::pair<double, double>> near;
    std::vector<Segment> open;
    for (std::size_t i = 0; i < n; ++i) {
        const Segment side{piece.points[i], piece.points[i + 1 == n ? 0 : i + 1]};
        bordering(side, border, near);
        double shared = 0;
        for (const auto& [t0, t1] : near) shared += (t1 - t0) * lengthOf(side);
        if (shared < touch) {
            out.halves[first + i].c += over * eps;
            continue;
        }
        open.clear();
        uncovered(near, side, open);
        for (const Segment& s : open) {
            if (lengthOf(s) < beside) continue;
            const ConvexPiece thin = bridge(s, over * eps);
            if (!thin.points.empty()) addPiece(out, thin);
        }
    }
}

/// Corners that the union has put back to an input's exact place would give cuts of a hair's height.
Polygon onGrid(Polygon region) {
    constexpr double perMm = 1e6; // the grid of slab::unite
    const auto round = [](Ring& ring) {
        for (Vec2& p : ring) p = Vec2(std::round(p.x() * perMm) / perMm, std::round(p.y() * perMm) / perMm);
    };
    round(region.outer);
    for (Ring& hole : region.holes) round(hole);
    return region;
}

void addBorder(const Ring& ring, std::vector<Segment>& border) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &p = ring[i], &q = ring[(i + 1) % ring.size()];
        border.push_back({{p.x(), p.y()}, {q.x(), q.y()}});
    }
}

} // namespace

NoFit unitedNoFit(const std::vector<ConvexPiece>& sums, std::size_t group, double eps) {
    std::vector<Polygon> polygons, few;
    for (std::size_t i = 0; i < sums.size(); ++i) {
        Polygon p;
        for (const Pt& q : sums[i].points) p.outer.emplace_back(q.x, q.y);
        few.push_back(std::move(p));
        if ((i + 1) % group != 0) continue;
        for (Polygon& region : unite(few)) polygons.push_back(std::move(region));
        few.clear();
    }
    NoFit out;
    std::vector<Segment> border;
    for (Polygon& exact : unite(polygons)) {
        const Polygon region = onGrid(std::move(exact));
        border.clear();
        addBorder(region.outer, border);
        for (const Ring& hole : region.holes) addBorder(hole, border);
        for (const ConvexPiece& piece : convexPieces(region)) {
            addPiece(out, piece);
            coverCuts(out, piece, border, eps);
        }
        out.border.insert(out.border.end(), border.begin(), border.end());
    }
    for (NoFit::Piece& p : out.pieces)
        p.box = {p.box.minX - over * eps, p.box.minY - over * eps, p.box.maxX + over * eps,
                 p.box.maxY + over * eps};
    return out;
}

} // namespace slab::nesting
