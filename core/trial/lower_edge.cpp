#include "core/trial/lower_edge.h"
#include <algorithm>
#include <span>

namespace slab::trial {

namespace {

constexpr double upright = 1e-9; ///< mm: a stretch shorter than this along the way has no length

/// A straight piece of one chain; pieces of a list lie beside each other, from rear to front.
struct Piece {
    Vec2 from, to;
    std::size_t owner = 0, line = 0; ///< `line` tells which straight line it was cut from
    [[nodiscard]] double at(double x) const {
        return from.y() + (x - from.x()) / (to.x() - from.x()) * (to.y() - from.y());
    }
};
using Pieces = std::vector<Piece>;

void put(Pieces& out, const Piece& of, double from, double to) {
    if (to - from < upright) return;
    if (!out.empty() && out.back().line == of.line && out.back().to.x() >= from - upright) {
        out.back().to = {to, of.at(to)};
        return;
    }
    out.push_back({{from, of.at(from)}, {to, of.at(to)}, of.owner, of.line});
}

/// The lower of two over one stretch that both cover.
void putLower(Pieces& out, const Piece& a, const Piece& b, double from, double to) {
    const double first = a.at(from) - b.at(from), last = a.at(to) - b.at(to);
    if ((first <= 0) == (last <= 0)) return put(out, first <= 0 ? a : b, from, to);
    const double middle = from + first / (first - last) * (to - from);
    put(out, first <= 0 ? a : b, from, middle);
    put(out, first <= 0 ? b : a, middle, to);
}

Pieces merged(const Pieces& a, const Pieces& b) {
    std::vector<double> places;
    for (const Pieces* list : {&a, &b})
        for (const Piece& p : *list) {
            places.push_back(p.from.x());
            places.push_back(p.to.x());
        }
    std::sort(places.begin(), places.end());
    Pieces out;
    std::size_t i = 0, k = 0;
    for (std::size_t n = 0; n + 1 < places.size(); ++n) {
        const double from = places[n], to = places[n + 1];
        if (to - from < upright) continue;
        const double middle = (from + to) / 2;
        while (i < a.size() && a[i].to.x() < middle) ++i;
        while (k < b.size() && b[k].to.x() < middle) ++k;
        const bool inA = i < a.size() && a[i].from.x() < middle, inB = k < b.size() && b[k].from.x() < middle;
        if (inA && inB)
            putLower(out, a[i], b[k], from, to);
        else if (inA || inB)
            put(out, inA ? a[i] : b[k], from, to);
    }
    return out;
}

Pieces edgeOf(std::span<const Pieces> lists) {
    if (lists.empty()) return {};
    if (lists.size() == 1) return lists.front();
    const std::size_t half = lists.size() / 2;
    return merged(edgeOf(lists.first(half)), edgeOf(lists.subspan(half)));
}

} // namespace

std::vector<OwnedChain> lowerEdge(const std::vector<OwnedChain>& chains) {
    std::vector<Pieces> lists;
    std::vector<OwnedChain> out;
    std::size_t line = 0;
    for (const OwnedChain& chain : chains) {
        Pieces list;
        for (std::size_t i = 0; i + 1 < chain.points.size(); ++i, ++line)
            if (chain.points[i + 1].x() - chain.points[i].x() >= upright)
                list.push_back({chain.points[i], chain.points[i + 1], chain.owner, line});
        if (!list.empty())
            lists.push_back(std::move(list));
        else if (!chain.points.empty()) // a point, or upright as a whole
            out.push_back({{*std::min_element(chain.points.begin(), chain.points.end(),
                                              [](const Vec2& a, const Vec2& b) { return a.y() < b.y(); })},
                           chain.owner});
    }
    const std::size_t points = out.size();
    for (const Piece& p : edgeOf(lists)) {
        const bool goesOn = out.size() > points && out.back().owner == p.owner &&
                            (out.back().points.back() - p.from).norm() < 1e-6;
        if (!goesOn) out.push_back({{p.from}, p.owner});
        out.back().points.push_back(p.to);
    }
    return out;
}

} // namespace slab::trial
