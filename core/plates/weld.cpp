#include "core/plates/weld.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::plates {

namespace {
/// Angle from `from` clockwise to `to`, seen against the normal, in (0, 2π].
double clockwise(const Vec3& from, const Vec3& to, const Vec3& normal) {
    const double a = -std::atan2(normal.dot(from.cross(to)), from.dot(to));
    return a > 1e-12 ? a : a + 2 * std::numbers::pi;
}

/// A loop that comes back to a point before its end is several loops that touch there.
void splitAtTouches(const std::vector<int>& loop, std::vector<std::vector<int>>& out) {
    std::vector<int> open;
    for (const int v : loop) {
        const auto before = std::find(open.begin(), open.end(), v);
        if (before != open.end()) {
            if (open.end() - before >= 3) out.emplace_back(before, open.end());
            open.erase(before, open.end());
        }
        open.push_back(v);
    }
    if (open.size() >= 3) out.push_back(std::move(open));
}

} // namespace

Welded weld(const Cells& cells, double tolerance) {
    Welded welded;
    std::vector<std::pair<double, std::pair<int, int>>> sweep; // x, cell, vertex
    for (std::size_t c = 0; c < cells.size(); ++c) {
        welded.ofCell.emplace_back(cells[c].vertices.size(), -1);
        for (std::size_t v = 0; v < cells[c].vertices.size(); ++v)
            sweep.push_back({cells[c].vertices[v].x(), {static_cast<int>(c), static_cast<int>(v)}});
    }
    std::sort(sweep.begin(), sweep.end());
    std::size_t oldest = 0; // first point whose x can still be equal
    for (const auto& [x, who] : sweep) {
        const Vec3& p = cells[at(who.first)].vertices[at(who.second)];
        while (oldest < welded.points.size() && welded.points[oldest].x() < x - tolerance) ++oldest;
        std::size_t same = oldest;
        while (same < welded.points.size() && (welded.points[same] - p).cwiseAbs().maxCoeff() > tolerance)
            ++same;
        if (same == welded.points.size()) welded.points.push_back(p);
        welded.ofCell[at(who.first)][at(who.second)] = static_cast<int>(same);
    }
    return welded;
}

SortedPoints::SortedPoints(const Welded& welded, const std::vector<int>& points) {
    Vec3 low = Vec3::Constant(1e300), high = -low;
    for (const int k : points) {
        low = low.cwiseMin(welded.points[at(k)]);
        high = high.cwiseMax(welded.points[at(k)]);
    }
    if (!points.empty()) {
        Vec3 size = high - low;
        size.maxCoeff(&m_axis);
        size[m_axis] = -1;
        size.maxCoeff(&m_across);
    }
    m_sorted.reserve(points.size());
    for (const int k : points)
        m_sorted.push_back({welded.points[at(k)][m_axis], k, welded.points[at(k)][m_across]});
    std::sort(m_sorted.begin(), m_sorted.end());
}

void addLoop(EdgeChain& chain, std::span<const int> loop) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const int a = loop[i], b = loop[(i + 1) % loop.size()];
        if (a != b) chain.push_back({std::min(a, b), std::max(a, b), a < b ? 1 : -1});
    }
}

EdgeChain cutAtPoints(const EdgeChain& chain, const Welded& welded, const SortedPoints& candidates,
                      double tolerance) {
    EdgeChain out;
    std::vector<std::pair<double, int>> on;
    for (const ChainEdge& edge : chain) {
        const Vec3& pa = welded.points[at(edge.a)];
        const Vec3 along = welded.points[at(edge.b)] - pa;
        const double length2 = along.squaredNorm();
        on.clear();
        candidates.between(pa, welded.points[at(edge.b)], 2 * tolerance, [&](int k) {
            const Vec3 to = welded.points[at(k)] - pa;
            const double s = to.dot(along);
            if (!(s > 0 && s < length2) || k == edge.a || k == edge.b) return;
            if ((to - s / length2 * along).squaredNorm() <= tolerance * tolerance) on.emplace_back(s, k);
        });
        std::sort(on.begin(), on.end());
        on.emplace_back(length2, edge.b);
        int from = edge.a;
        for (const auto& [s, to] : on) {
            out.push_back({std::min(from, to), std::max(from, to), from < to ? edge.times : -edge.times});
            from = to;
        }
    }
    return out;
}

void cancelOpposite(EdgeChain& chain) {
    std::sort(chain.begin(), chain.end(), [](const ChainEdge& l, const ChainEdge& r) {
        return std::pair(l.a, l.b) < std::pair(r.a, r.b);
    });
    std::size_t to = 0;
    for (std::size_t i = 0; i < chain.size();) {
        ChainEdge sum = chain[i++];
        while (i < chain.size() && chain[i].a == sum.a && chain[i].b == sum.b) sum.times += chain[i++].times;
        if (sum.times != 0) chain[to++] = sum;
    }
    chain.resize(to);
}

std::vector<std::vector<int>> traceLoops(const EdgeChain& chain, const std::vector<Vec3>& points,
                                         const Vec3& normal) {
    struct Step {
        int from = 0, to = 0;
        bool taken = false;
    };
    std::vector<Step> steps; // by where they start, then as in the chain
    for (const ChainEdge& e : chain)
        for (int i = std::abs(e.times); i > 0; --i)
            steps.push_back(e.times > 0 ? Step{e.a, e.b} : Step{e.b, e.a});
    std::stable_sort(steps.begin(), steps.end(),
                     [](const Step& l, const Step& r) { return l.from < r.from; });
    const auto leaving = [&](int from) {
        const auto first = std::lower_bound(steps.begin(), steps.end(), from,
                                            [](const Step& s, int v) { return s.from < v; });
        const auto last = std::find_if(first, steps.end(), [&](const Step& s) { return s.from != from; });
        return std::pair(first, last);
    };
    std::vector<std::vector<int>> loops;
    std::vector<int> loop;
    for (std::size_t begun = 0; begun < steps.size(); ++begun) {
        if (steps[begun].taken) continue;
        loop.clear();
        const int start = steps[begun].from;
        int before = -1, now = start;
        do {
            const auto [first, last] = leaving(now);
            auto best = last;
            double least = 0;
            for (auto step = first; step != last; ++step) {
                if (step->taken) continue;
                if (best != last && before < 0) break; // any will do to begin with
                const double turn = before < 0 || last - first == 1
                                        ? 0
                                        : clockwise(points[at(before)] - points[at(now)],
                                                    points[at(step->to)] - points[at(now)], normal);
                if (best != last && !(turn < least)) continue;
                best = step;
                least = turn;
            }
            if (best == last) break;
            best->taken = true;
            loop.push_back(now);
            before = now;
            now = best->to;
        } while (now != start);
        splitAtTouches(loop, loops);
    }
    return loops;
}

double loopArea(const std::vector<int>& loop, const std::vector<Vec3>& points, const Vec3& normal) {
    Vec3 sum = Vec3::Zero();
    const Vec3 base = points[at(loop.front())];
    for (std::size_t i = 1; i + 1 < loop.size(); ++i)
        sum += (points[at(loop[i])] - base).cross(points[at(loop[i + 1])] - base);
    return sum.dot(normal) / 2;
}

} // namespace slab::plates
