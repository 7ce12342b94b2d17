#include "core/body/flank.h"
#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <numeric>

namespace slab {

namespace {

/// half = a + g · (x, z)
struct Slope {
    double a = 0;
    Vec2 g = Vec2::Zero();
    [[nodiscard]] double at(const Vec2& p) const { return a + g.dot(p); }
};

struct Cost {
    double pieces = 0, volume = 0, lean = 0; ///< volume: the more the better; lean of breaks from upright
    [[nodiscard]] Cost operator+(const Cost& o) const {
        return {pieces + o.pieces, volume + o.volume, lean + o.lean};
    }
};

class Splitter {
public:
    Splitter(const Corners& corners, double tolerance)
        : m_corners(corners), m_n(static_cast<int>(corners.size())), m_tolerance(tolerance),
          m_best(corners.size() * corners.size()) {
        const Box2 box = bounds(ringOf(corners));
        for (const Corner& c : corners) m_widest = std::max(m_widest, std::abs(c.half));
        m_volumeStep = 1e-9 * (box.size().prod() * m_widest) + 1e-12;
        m_diagonal.assign(m_best.size(), false);
        for (int i = 0; i < m_n; ++i)
            for (int j = i + 1; j < m_n; ++j) m_diagonal[at(i, j)] = isDiagonal(i, j);
    }

    std::vector<std::vector<int>> pieces() {
        solve();
        std::vector<std::vector<int>> result;
        std::deque<std::pair<int, int>> open{{0, m_n - 1}};
        while (!open.empty()) {
            const auto [i, j] = open.front();
            open.pop_front();
            const std::vector<int>& piece = m_best[at(i, j)].piece;
            if (piece.empty()) return {};
            for (std::size_t k = 0; k + 1 < piece.size(); ++k)
                if (piece[k + 1] > piece[k] + 1) open.emplace_back(piece[k], piece[k + 1]);
            result.push_back(piece);
        }
        return result;
    }

private:
    struct Best {
        Cost cost{std::numeric_limits<double>::infinity(), 0, 0};
        std::vector<int> piece; ///< corners of the piece at this diagonal, first and last its ends
    };

    const Corners& m_corners;
    int m_n;
    double m_tolerance, m_widest = 0, m_volumeStep = 0;
    std::vector<Best> m_best;
    std::vector<bool> m_diagonal;

    [[nodiscard]] std::size_t at(int i, int j) const {
        return static_cast<std::size_t>(i) * static_cast<std::size_t>(m_n) + static_cast<std::size_t>(j);
    }
    [[nodiscard]] const Corner& corner(int i) const { return m_corners[static_cast<std::size_t>(i)]; }

    [[nodiscard]] double turn(int a, int b, int c) const {
        return cross2(corner(b).at - corner(a).at, corner(c).at - corner(a).at);
    }
    [[nodiscard]] double flatness(int a, int b, int c) const {
        const double l = std::max((corner(b).at - corner(a).at).norm(), (corner(c).at - corner(a).at).norm());
        return l > 0 ? turn(a, b, c) / (l * l) : 0;
    }

    /// Runs inside the outline and meets no other corner or edge.
    [[nodiscard]] bool isDiagonal(int i, int j) const {
        if (j == i + 1 || (i == 0 && j == m_n - 1)) return true;
        const Vec2 &p = corner(i).at, &q = corner(j).at;
        const double length = (q - p).norm();
        const auto side = [&](int k) {
            const double s = cross2(q - p, corner(k).at - p) / length;
            return s > 1e-9 * length ? 1 : s < -1e-9 * length ? -1 : 0;
        };
        for (int k = 0; k < m_n; ++k) {
            const int l = (k + 1) % m_n;
            if (k != i && k != j && side(k) == 0 && (corner(k).at - p).dot(corner(k).at - q) < 0)
                return false;
            if (k == i || k == j || l == i || l == j) continue;
            const Vec2 &a = corner(k).at, &b = corner(l).at;
            const double ip = cross2(b - a, p - a), iq = cross2(b - a, q - a);
            if (side(k) * side(l) < 0 && (ip > 0) != (iq > 0)) return false;
        }
        return contains(ringOf(m_corners), (p + q) / 2);
    }

    [[nodiscard]] bool better(const Cost& a, const Cost& b) const {
        if (a.pieces != b.pieces) return a.pieces < b.pieces;
        if (std::abs(a.volume - b.volume) > m_volumeStep) return a.volume > b.volume;
        return a.lean < b.lean - 1e-9;
    }

    [[nodiscard]] Slope slopeOf(int i, int k, int j) const {
        const Vec2 u = corner(k).at - corner(i).at, v = corner(j).at - corner(i).at;
        const double hu = corner(k).half - corner(i).half, hv = corner(j).half - corner(i).half;
        const double det = cross2(u, v);
        Slope s;
        s.g = Vec2(hu * v.y() - hv * u.y(), hv * u.x() - hu * v.x()) / det;
        s.a = corner(i).half - s.g.dot(corner(i).at);
        return s;
    }

    /// Cost of the diagonal a-b itself and what lies behind it.
    [[nodiscard]] Cost behind(int a, int b) const {
        if (b == a + 1) return {};
        Cost c = m_best[at(a, b)].cost;
        const Vec2 d = corner(b).at - corner(a).at;
        c.lean += std::abs(d.x()) / d.norm();
        return c;
    }

    [[nodiscard]] double volumeUnder(int i, int a, int b, const Slope& s) const {
        const Vec2 middle = (corner(i).at + corner(a).at + corner(b).at) / 3;
        return turn(i, a, b) / 2 * s.at(middle);
    }

    /// Cheapest piece on the plane through i, k, j with the diagonal i-j as its closing edge.
    void tryPiece(int i, int k, int j) {
        const Slope slope = slopeOf(i, k, j);
        std::vector<int> on;
        for (int v = i; v <= j; ++v)
            if (std::abs(slope.at(corner(v).at) - corner(v).half) <= m_tolerance) {
                if (v > i && v < k && flatness(i, v, j) > 1e-9) return; // this plane was tried with v
                on.push_back(v);
            }
        if (on.empty() || on.front() != i || on.back() != j) return;
        std::vector<Cost> cost(on.size(), Cost{std::numeric_limits<double>::infinity(), 0, 0});
        std::vector<std::size_t> from(on.size(), 0);
        cost[0] = {1, 0, 0};
        for (std::size_t b = 1; b < on.size(); ++b)
            for (std::size_t a = 0; a < b; ++a) {
                if ((a == 0 && b + 1 == on.size()) || !m_diagonal[at(on[a], on[b])]) continue;
                if (std::isinf(cost[a].pieces)) continue;
                Cost c = cost[a] + behind(on[a], on[b]);
                if (a > 0) c.volume += volumeUnder(i, on[a], on[b], slope);
                if (std::isinf(cost[b].pieces) ? !std::isinf(c.pieces) : better(c, cost[b])) {
                    cost[b] = c;
                    from[b] = a;
                }
            }
        Best& best = m_best[at(i, j)];
        if (std::isinf(cost.back().pieces) || (!best.piece.empty() && !better(cost.back(), best.cost)))
            return;
        std::vector<int> piece;
        for (std::size_t b = on.size() - 1;; b = from[b]) {
            piece.push_back(on[b]);
            if (b == 0) break;
        }
        std::reverse(piece.begin(), piece.end());
        best = {cost.back(), std::move(piece)};
    }

    void solve() {
        for (int span = 2; span < m_n; ++span)
            for (int i = 0; i + span < m_n; ++i) {
                const int j = i + span;
                if (!m_diagonal[at(i, j)]) continue;
                for (int k = i + 1; k < j; ++k)
                    if (flatness(i, k, j) > 1e-9) tryPiece(i, k, j);
            }
    }
};

/// Half-widths moved onto the pieces' planes. The pieces come parent before child and each shares two corners
/// with its parent, so one more corner fixes its plane and nothing settled before is moved again.
std::vector<double> settled(const Corners& corners, const std::vector<std::vector<int>>& pieces) {
    std::vector<double> half;
    for (const Corner& c : corners) half.push_back(c.half);
    const auto at = [&](int i) { return corners[static_cast<std::size_t>(i)].at; };
    for (const auto& piece : pieces) {
        const int i = piece.front(), j = piece.back();
        const Vec2 v = at(j) - at(i);
        int k = piece[1];
        for (int candidate : piece)
            if (std::abs(cross2(at(candidate) - at(i), v)) > std::abs(cross2(at(k) - at(i), v)))
                k = candidate;
        const auto h = [&](int c) -> double& { return half[static_cast<std::size_t>(c)]; };
        const Vec2 u = at(k) - at(i);
        const double det = cross2(u, v), hu = h(k) - h(i), hv = h(j) - h(i);
        const Vec2 g = Vec2(hu * v.y() - hv * u.y(), hv * u.x() - hu * v.x()) / det;
        for (int c : piece)
            if (c != i && c != j && c != k) h(c) = h(i) + g.dot(at(c) - at(i));
    }
    return half;
}

} // namespace

FlankSplit splitFlank(const Corners& corners, double tolerance) {
    FlankSplit split;
    std::vector<int> all(corners.size());
    std::iota(all.begin(), all.end(), 0);
    // Most flanks are flat, and the search costs n³ and more.
    const std::vector<double> flat = settled(corners, {all});
    bool whole = true;
    for (std::size_t i = 0; i < corners.size(); ++i)
        whole = whole && std::abs(flat[i] - corners[i].half) <= tolerance;
    if (whole) return {{all}, flat};
    Splitter splitter(corners, tolerance);
    split.pieces = splitter.pieces();
    split.half = settled(corners, split.pieces);
    return split;
}

} // namespace slab
