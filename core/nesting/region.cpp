#include "core/nesting/region.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

/// Clips to the window grown by eps, then pulls the ends onto it. False if nothing is left.
bool clip(Segment& s, const Window& w, double eps) {
    double t0 = 0, t1 = 1;
    const double dx = s.b.x - s.a.x, dy = s.b.y - s.a.y;
    const auto cut = [&](double from, double step, double low, double high) {
        if (step == 0) return from >= low && from <= high;
        double enter = (low - from) / step, leave = (high - from) / step;
        if (enter > leave) std::swap(enter, leave);
        t0 = std::max(t0, enter);
        t1 = std::min(t1, leave);
        return t0 <= t1;
    };
    if (!cut(s.a.x, dx, w.x0 - eps, w.x1 + eps) || !cut(s.a.y, dy, w.y0 - eps, w.y1 + eps)) return false;
    const auto at = [&](double t) {
        return Pt{std::clamp(s.a.x + t * dx, w.x0, w.x1), std::clamp(s.a.y + t * dy, w.y0, w.y1)};
    };
    const Pt a = t0 > 0 ? at(t0) : at(0), b = t1 < 1 ? at(t1) : at(1);
    s = {a, b};
    return true;
}

class Search {
public:
    Search(const std::vector<Obstacle>& obstacles, const SpotQuery& query, RegionScratch& scratch)
        : m_obstacles(obstacles), m_query(query), m_scratch(scratch) {}

    std::optional<Pt> run() {
        gather();
        auto& segments = m_scratch.segments;
        std::sort(segments.begin(), segments.end(),
                  [](const auto& a, const auto& b) { return a.key < b.key; });
        for (const auto& [segment, key] : segments) {
            if (m_found && key > m_bestKey + m_query.eps) break;
            offer(segment);
        }
        return m_found ? std::optional<Pt>(m_best) : std::nullopt;
    }

private:
    void add(Segment s) {
        if (!clip(s, m_query.window, m_query.eps)) return;
        const double ka = m_query.pull.key(s.a), kb = m_query.pull.key(s.b);
        if (std::max(ka, kb) < m_query.atLeast - m_query.eps || std::min(ka, kb) > m_query.atMost) return;
        m_scratch.segments.push_back({s, std::max(std::min(ka, kb), m_query.atLeast)});
    }

    void gather() {
        m_scratch.segments.clear();
        const Window& w = m_query.window;
        const Pt p{w.x0, w.y0}, q{w.x1, w.y0}, r{w.x1, w.y1}, s{w.x0, w.y1};
        for (const Segment& side : {Segment{p, q}, Segment{q, r}, Segment{r, s}, Segment{s, p}}) add(side);
        for (const Obstacle& o : m_obstacles) {
            const Extent& box = o.nofit->box;
            if (box.minX + o.at.x > w.x1 || box.maxX + o.at.x < w.x0 || box.minY + o.at.y > w.y1 ||
                box.maxY + o.at.y < w.y0)
                continue;
            for (const Segment& b : o.nofit->border)
                add({{b.a.x + o.at.x, b.a.y + o.at.y}, {b.b.x + o.at.x, b.b.y + o.at.y}});
        }
    }

    /// Cuts one obstacle out of the stretch [low, high] still open. False when nothing is left.
    bool cutBy(const Obstacle& o, const Segment& s, const Extent& box) {
        const NoFit& nofit = *o.nofit;
        const Extent moved{box.minX - o.at.x, box.minY - o.at.y, box.maxX - o.at.x, box.maxY - o.at.y};
        const auto apart = [&](const Extent& e) {
            return e.minX >= moved.maxX || e.maxX <= moved.minX || e.minY >= moved.maxY ||
                   e.maxY <= moved.minY;
        };
        if (apart(nofit.box)) return true;
        for (const NoFit::Piece& piece : nofit.pieces) {
            double t0 = 0, t1 = 0;
            if (apart(piece.box) || !insideStretch(nofit, piece, o.at, s, m_query.eps, t0, t1)) continue;
            if (t0 <= m_low)
                m_low = std::max(m_low, t1);
            else if (t1 >= m_high)
                m_high = std::min(m_high, t0);
            else
                m_scratch.stretches.emplace_back(t0, t1);
            if (m_low >= m_high) return false;
        }
        return true;
    }

    void offer(const Segment& s) {
        m_low = 0;
        m_high = 1;
        m_scratch.stretches.clear();
        Extent box;
        box.add(s.a);
        box.add(s.b);
        const bool point = s.a == s.b;
        if (m_last < m_obstacles.size() && !cutBy(m_obstacles[m_last], s, box)) return;
        for (std::size_t i = 0; i < m_obstacles.size(); ++i)
            if (i != m_last && !cutBy(m_obstacles[i], s, box)) {
                m_last = i;
                return;
            }
        if (point) return m_scratch.stretches.empty() ? take(s.a) : void();
        takeEnds(s);
    }

    void takeEnds(const Segment& s) {
        auto& stretches = m_scratch.stretches;
        std::sort(stretches.begin(), stretches.end());
        double free = m_low;
        const auto at = [&](double t) {
            if (t <= 0) return s.a;
            if (t >= 1) return s.b;
            return Pt{s.a.x + t * (s.b.x - s.a.x), s.a.y + t * (s.b.y - s.a.y)};
        };
        for (const auto& [t0, t1] : stretches) {
            if (t0 > free) {
                take(at(free));
                take(at(std::min(t0, m_high)));
            }
            free = std::max(free, t1);
            if (free >= m_high) return;
        }
        take(at(free));
        take(at(m_high));
    }

    void take(Pt p) {
        const double key = m_query.pull.key(p), tie = m_query.pull.tie(p);
        if (key > m_query.atMost) return;
        const bool better = !m_found || key < m_bestKey - m_query.eps ||
                            (key <= m_bestKey + m_query.eps && tie < m_bestTie - m_query.eps);
        if (!better) return;
        m_found = true;
        m_best = p;
        m_bestKey = key;
        m_bestTie = tie;
    }

    const std::vector<Obstacle>& m_obstacles;
    const SpotQuery& m_query;
    RegionScratch& m_scratch;
    double m_low = 0, m_high = 1;
    bool m_found = false;
    Pt m_best;
    double m_bestKey = 0, m_bestTie = 0;
    std::size_t m_last = std::numeric_limits<std::size_t>::max();
};

} // namespace

std::optional<Pt> bestSpot(const std::vector<Obstacle>& obstacles, const SpotQuery& query,
                           RegionScratch& scratch) {
    return Search(obstacles, query, scratch).run();
}

} // namespace slab::nesting
