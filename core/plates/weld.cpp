#include "core/plates/weld.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::plates {

namespace {
std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// Angle from `from` clockwise to `to`, seen against the normal, in (0, 2π].
double clockwise(const Vec3& from, const Vec3& to, const Vec3& normal) {
    const double a = -std::atan2(normal.dot(from.cross(to)), from.dot(to));
    return a > 1e-12 ? a : a + 2 * std::numbers::pi;
}
} // namespace

Welded weld(const Cells& cells, double tolerance) {
    Welded welded;
    for (const Cell& cell : cells) {
        auto& numbers = welded.ofCell.emplace_back();
        for (const Vec3& v : cell.vertices) {
            const auto same = std::find_if(welded.points.begin(), welded.points.end(), [&](const Vec3& p) {
                return (p - v).cwiseAbs().maxCoeff() <= tolerance;
            });
            numbers.push_back(static_cast<int>(same - welded.points.begin()));
            if (same == welded.points.end()) welded.points.push_back(v);
        }
    }
    return welded;
}

void addLoop(EdgeChain& chain, const Welded& welded, const std::vector<int>& loop, double tolerance) {
    std::vector<std::pair<double, int>> on;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const int a = loop[i], b = loop[(i + 1) % loop.size()];
        if (a == b) continue;
        const Vec3& pa = welded.points[at(a)];
        const Vec3 along = welded.points[at(b)] - pa;
        const double length2 = along.squaredNorm();
        on.clear();
        for (std::size_t k = 0; k < welded.points.size(); ++k) {
            const Vec3 to = welded.points[k] - pa;
            const double s = to.dot(along) / length2;
            if (!(s > 0 && s < 1) || static_cast<int>(k) == a || static_cast<int>(k) == b) continue;
            if ((to - s * along).squaredNorm() <= tolerance * tolerance)
                on.emplace_back(s, static_cast<int>(k));
        }
        std::sort(on.begin(), on.end());
        on.emplace_back(1.0, b);
        int from = a;
        for (const auto& [s, to] : on) {
            chain[std::minmax(from, to)] += from < to ? 1 : -1;
            from = to;
        }
    }
}

std::vector<std::vector<int>> traceLoops(const EdgeChain& chain, const std::vector<Vec3>& points,
                                         const Vec3& normal) {
    std::multimap<int, int> next;
    for (const auto& [edge, times] : chain) {
        for (int i = 0; i < times; ++i) next.emplace(edge.first, edge.second);
        for (int i = 0; i > times; --i) next.emplace(edge.second, edge.first);
    }
    std::vector<std::vector<int>> loops;
    while (!next.empty()) {
        std::vector<int> loop;
        const int start = next.begin()->first;
        int before = -1, now = start;
        do {
            auto [begin, end] = next.equal_range(now);
            if (begin == end) break;
            auto best = begin;
            if (before >= 0 && std::next(begin) != end) {
                const Vec3 back = points[at(before)] - points[at(now)];
                best = std::min_element(begin, end, [&](const auto& l, const auto& r) {
                    return clockwise(back, points[at(l.second)] - points[at(now)], normal) <
                           clockwise(back, points[at(r.second)] - points[at(now)], normal);
                });
            }
            loop.push_back(now);
            before = now;
            now = best->second;
            next.erase(best);
        } while (now != start);
        if (loop.size() >= 3) loops.push_back(std::move(loop));
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
