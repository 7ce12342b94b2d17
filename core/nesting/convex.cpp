#include "core/nesting/convex.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

double turn(Pt a, Pt b, Pt c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Outward normals of a counter-clockwise ring.
void setNormals(ConvexPiece& piece) {
    const std::size_t n = piece.points.size();
    piece.normals.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
        const Pt a = piece.points[i], b = piece.points[i + 1 == n ? 0 : i + 1];
        const double dx = b.x - a.x, dy = b.y - a.y, length = std::hypot(dx, dy);
        piece.normals[i] = {dy / length, -dx / length};
    }
}

/// Part of the region between two neighbouring heights, bounded left and right by one edge each.
struct Trapezoid {
    int left = 0, right = 0; ///< edge indices
    double low = 0, high = 0;
    bool open = true; ///< may still grow upward
};
struct Side {
    Pt a, b; ///< a.y < b.y
    [[nodiscard]] double at(double y) const {
        if (y <= a.y) return a.x;
        if (y >= b.y) return b.x;
        return a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y));
    }
};

void addSides(const Ring& ring, bool swapped, std::vector<Side>& sides, std::vector<double>& heights) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& p = ring[i];
        const Vec2& q = ring[(i + 1) % ring.size()];
        Pt a{p.x(), p.y()}, b{q.x(), q.y()};
        if (swapped) {
            std::swap(a.x, a.y);
            std::swap(b.x, b.y);
        }
        heights.push_back(a.y);
        if (a.y == b.y) continue;
        if (a.y > b.y) std::swap(a, b);
        sides.push_back({a, b});
    }
}

/// Trapezoids of the region in one slab, appended or grown from the slab below; none if no number lies
/// between its heights. False if the sides do not pair up.
bool cutSlab(const std::vector<Side>& sides, double low, double high, std::vector<Trapezoid>& out) {
    std::vector<std::pair<double, int>> crossing;
    const double middle = (low + high) / 2;
    if (middle <= low || middle >= high) return true;
    for (std::size_t i = 0; i < sides.size(); ++i)
        if (sides[i].a.y < middle && sides[i].b.y > middle)
            crossing.emplace_back(sides[i].at(middle), static_cast<int>(i));
    if (crossing.size() % 2) return false;
    std::sort(crossing.begin(), crossing.end());
    const std::size_t before = out.size();
    for (std::size_t i = 0; i + 1 < crossing.size(); i += 2) {
        const int left = crossing[i].second, right = crossing[i + 1].second;
        bool grown = false;
        for (std::size_t k = 0; k < before && !grown; ++k)
            if (out[k].open && out[k].high == low && out[k].left == left && out[k].right == right) {
                out[k].high = high;
                grown = true;
            }
        if (!grown) out.push_back({left, right, low, high, true});
    }
    return true;
}

ConvexPiece pieceOf(const Trapezoid& t, const std::vector<Side>& sides, bool swapped) {
    const Side& l = sides[static_cast<std::size_t>(t.left)];
    const Side& r = sides[static_cast<std::size_t>(t.right)];
    std::vector<Pt> points{
        {l.at(t.low), t.low}, {r.at(t.low), t.low}, {r.at(t.high), t.high}, {l.at(t.high), t.high}};
    if (swapped)
        for (Pt& p : points) std::swap(p.x, p.y);
    return hullPiece(std::move(points));
}

bool apart(const Extent& a, const Extent& b) {
    return a.minX > b.maxX || b.minX > a.maxX || a.minY > b.maxY || b.minY > a.maxY;
}

Extent extentOf(const ConvexPiece& piece) {
    Extent box;
    for (const Pt& p : piece.points) box.add(p);
    return box;
}

/// Corners of the hull, counter-clockwise; nothing if it has no area.
std::vector<Pt> hullOf(std::vector<Pt> points) {
    std::sort(points.begin(), points.end(),
              [](Pt a, Pt b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return {};
    std::vector<Pt> hull(2 * points.size());
    std::size_t k = 0;
    for (const Pt& p : points) {
        while (k >= 2 && turn(hull[k - 2], hull[k - 1], p) <= 0) --k;
        hull[k++] = p;
    }
    const std::size_t lower = k + 1;
    for (std::size_t i = points.size() - 1; i-- > 0;) {
        while (k >= lower && turn(hull[k - 2], hull[k - 1], points[i]) <= 0) --k;
        hull[k++] = points[i];
    }
    hull.resize(k - 1);
    if (hull.size() < 3) hull.clear();
    return hull;
}

double areaOf(const std::vector<Pt>& points) {
    double twice = 0;
    for (std::size_t i = 1; i + 1 < points.size(); ++i) twice += turn(points[0], points[i], points[i + 1]);
    return twice / 2;
}

/// Joins neighbours whose union is convex, until none is left. A pair is looked at again only when one of the
/// two has grown since.
void joinPieces(std::vector<ConvexPiece>& pieces) {
    std::vector<Extent> boxes;
    std::vector<double> areas;
    std::vector<int> grown(pieces.size(), -1); // the last round in which it did
    std::vector<Pt> both;
    for (const auto& p : pieces) {
        boxes.push_back(extentOf(p));
        areas.push_back(pieceArea(p));
    }
    bool again = true;
    for (int round = 0; again; ++round) {
        again = false;
        for (std::size_t i = 0; i < pieces.size(); ++i)
            for (std::size_t j = i + 1; j < pieces.size(); ++j) {
                if (std::max(grown[i], grown[j]) < round - 1 || apart(boxes[i], boxes[j])) continue;
                both = pieces[i].points;
                both.insert(both.end(), pieces[j].points.begin(), pieces[j].points.end());
                std::vector<Pt> hull = hullOf(both);
                const double hullArea = areaOf(hull);
                if (hullArea > (areas[i] + areas[j]) * (1 + 1e-12)) continue;
                pieces[i].points = std::move(hull);
                if (!pieces[i].points.empty()) setNormals(pieces[i]);
                areas[i] = hullArea;
                grown[i] = round;
                boxes[i].add(boxes[j]);
                const auto at = static_cast<std::ptrdiff_t>(j);
                pieces.erase(pieces.begin() + at);
                boxes.erase(boxes.begin() + at);
                areas.erase(areas.begin() + at);
                grown.erase(grown.begin() + at);
                again = true;
                --j;
            }
    }
}

/// Pieces of one direction of cutting; empty if the outline is not sound.
std::vector<ConvexPiece> cutAlong(const Polygon& polygon, bool swapped) {
    std::vector<Side> sides;
    std::vector<double> heights;
    addSides(polygon.outer, swapped, sides, heights);
    for (const Ring& hole : polygon.holes) addSides(hole, swapped, sides, heights);
    std::sort(heights.begin(), heights.end());
    heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
    std::vector<Trapezoid> cut;
    for (std::size_t i = 0; i + 1 < heights.size(); ++i)
        if (!cutSlab(sides, heights[i], heights[i + 1], cut)) return {};
    std::vector<ConvexPiece> pieces;
    for (const Trapezoid& t : cut) {
        ConvexPiece piece = pieceOf(t, sides, swapped);
        if (!piece.points.empty()) pieces.push_back(std::move(piece));
    }
    joinPieces(pieces);
    return pieces;
}

bool covers(const std::vector<ConvexPiece>& pieces, double wanted) {
    double sum = 0;
    for (const auto& p : pieces) sum += pieceArea(p);
    return !pieces.empty() && std::abs(sum - wanted) <= 1e-9 * wanted;
}

double ringArea(const Ring& ring) {
    double twice = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
        twice += cross2(ring[i] - ring[0], ring[i + 1] - ring[0]);
    return twice / 2;
}

} // namespace

void Extent::add(Pt p) {
    minX = std::min(minX, p.x);
    minY = std::min(minY, p.y);
    maxX = std::max(maxX, p.x);
    maxY = std::max(maxY, p.y);
}

void Extent::add(const Extent& other) {
    add(Pt{other.minX, other.minY});
    add(Pt{other.maxX, other.maxY});
}

ConvexPiece hullPiece(std::vector<Pt> points) {
    ConvexPiece piece;
    piece.points = hullOf(std::move(points));
    if (!piece.points.empty()) setNormals(piece);
    return piece;
}

double pieceArea(const ConvexPiece& piece) {
    return areaOf(piece.points);
}

ConvexPiece turned(const ConvexPiece& piece, double cosine, double sine, bool flip) {
    ConvexPiece out;
    const std::size_t n = piece.points.size();
    const auto turnOne = [&](Pt p) {
        const double y = flip ? -p.y : p.y;
        return Pt{cosine * p.x - sine * y, sine * p.x + cosine * y};
    };
    out.points.resize(n);
    out.normals.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
        // Mirroring reverses the direction of travel: read backward; edge i then ends where edge n-2-i began.
        out.points[i] = turnOne(piece.points[flip ? n - 1 - i : i]);
        out.normals[i] = turnOne(piece.normals[flip ? (2 * n - 2 - i) % n : i]);
    }
    return out;
}

std::vector<ConvexPiece> convexPieces(const Polygon& polygon) {
    double wanted = ringArea(polygon.outer);
    bool convex = polygon.holes.empty() && wanted > 0;
    std::vector<Pt> points;
    for (const Vec2& p : polygon.outer) points.push_back({p.x(), p.y()});
    ConvexPiece hull = hullPiece(std::move(points));
    if (hull.points.empty()) return {};
    if (convex && pieceArea(hull) <= wanted * (1 + 1e-12)) return {std::move(hull)};
    wanted = std::abs(wanted);
    for (const Ring& hole : polygon.holes) wanted -= std::abs(ringArea(hole));
    std::vector<ConvexPiece> flat = cutAlong(polygon, false), upright = cutAlong(polygon, true);
    if (!covers(flat, wanted)) flat.clear();
    if (!covers(upright, wanted)) upright.clear();
    if (flat.empty() && upright.empty()) return {std::move(hull)};
    if (flat.empty() || (!upright.empty() && upright.size() < flat.size())) return upright;
    return flat;
}

ConvexPiece noFitPiece(const ConvexPiece& a, const ConvexPiece& b) {
    const std::size_t n = a.points.size(), m = b.points.size();
    if (n == 0 || m == 0) return {};
    const auto before = [](Pt p, Pt q) { return p.y < q.y || (p.y == q.y && p.x < q.x); };
    std::size_t i0 = 0, j0 = 0; // lowest of a, highest of b (= lowest of -b)
    for (std::size_t i = 1; i < n; ++i)
        if (before(a.points[i], a.points[i0])) i0 = i;
    for (std::size_t j = 1; j < m; ++j)
        if (before(b.points[j0], b.points[j])) j0 = j;
    ConvexPiece sum;
    sum.points.reserve(n + m);
    sum.normals.reserve(n + m);
    for (std::size_t i = 0, j = 0; i < n || j < m;) {
        const std::size_t ia = (i0 + i) % n, jb = (j0 + j) % m;
        const Pt p = a.points[ia], q = b.points[jb];
        const Pt na = a.normals[ia], nb{-b.normals[jb].x, -b.normals[jb].y};
        sum.points.push_back({p.x - q.x, p.y - q.y});
        const double side = na.x * nb.y - na.y * nb.x;
        const bool parallel = std::abs(side) < 1e-14 && na.x * nb.x + na.y * nb.y > 0;
        if (i < n && j < m && parallel) {
            sum.normals.push_back(na);
            ++i;
            ++j;
        } else if (j >= m || (i < n && side > 0)) {
            sum.normals.push_back(na);
            ++i;
        } else {
            sum.normals.push_back(nb);
            ++j;
        }
    }
    return sum;
}

} // namespace slab::nesting
