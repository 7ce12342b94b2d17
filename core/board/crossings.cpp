#include "core/board/crossings.h"
#include <algorithm>
#include <map>
#include <optional>

namespace slab {

namespace {

Box2 boxOf(const std::vector<Vec2>& line) {
    Box2 box{line.front(), line.front()};
    for (const Vec2& p : line) box = united(box, {p, p});
    return box;
}

bool apart(const Box2& a, const Box2& b) {
    return (a.max.array() < b.min.array()).any() || (b.max.array() < a.min.array()).any();
}

/// @param neighbours  their common end is no crossing
std::optional<Vec2> crossing(const std::vector<Vec2>& a, const std::vector<Vec2>& b, bool neighbours) {
    const double least = neighbours ? 1e-9 : -1e-12;
    const auto inside = [&](double t) { return t > least && t < 1 - least; };
    for (std::size_t i = 0; i + 1 < a.size(); ++i)
        for (std::size_t k = 0; k + 1 < b.size(); ++k) {
            const Vec2 u = a[i + 1] - a[i], v = b[k + 1] - b[k], between = b[k] - a[i];
            const double turn = cross2(u, v);
            if (std::abs(turn) <= 1e-12 * u.norm() * v.norm()) continue;
            if (inside(cross2(between, v) / turn) && inside(cross2(between, u) / turn))
                return a[i] + u * (cross2(between, v) / turn);
        }
    return std::nullopt;
}

} // namespace

std::vector<BoardCrossing> crossingsOf(const BoardScene& scene) {
    std::vector<BoardCrossing> all;
    for (const BoardElevation& e : scene.views) {
        std::map<std::string, std::vector<const BoardEdge*>> outlines;
        for (const BoardEdge& edge : e.edges)
            if (!edge.pointer.empty() && !edge.mirrored && edge.from >= 0 && edge.line.size() > 1 &&
                e.points[static_cast<std::size_t>(edge.from)].ref.handle == Handle::corner)
                outlines[edge.pointer.substr(0, edge.pointer.rfind('/'))].push_back(&edge);
        for (const auto& [list, edges] : outlines) {
            std::vector<Box2> boxes;
            for (const BoardEdge* edge : edges) boxes.push_back(boxOf(edge->line));
            for (std::size_t i = 0; i < edges.size(); ++i)
                for (std::size_t k = i + 1; k < edges.size(); ++k) {
                    if (apart(boxes[i], boxes[k])) continue;
                    const bool neighbours = k == i + 1 || (i == 0 && k + 1 == edges.size());
                    const auto at = crossing(edges[i]->line, edges[k]->line, neighbours);
                    const double near = 1e-6 * (boxes[i].size().norm() + boxes[k].size().norm());
                    if (at && std::none_of(all.begin(), all.end(), [&](const BoardCrossing& c) {
                            return c.view == e.view && (c.at - *at).norm() <= near;
                        }))
                        all.push_back({e.view, edges[i]->form, *at, edges[i]->name, edges[k]->name});
                }
        }
    }
    return all;
}

} // namespace slab
