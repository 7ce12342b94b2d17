#include "core/frames/assembly.h"
#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <set>

namespace slab::frames {

namespace {

constexpr double flattest = 10;         ///< degrees between two boards: below, no half lap holds
constexpr double parallelWithin = 1e-4; ///< sine

} // namespace

std::optional<Meeting> meetingOf(const FrameChoice& a, const FrameChoice& b) {
    const Vec3 na = a.place.axes.col(2), nb = b.place.axes.col(2);
    Vec3 along = na.cross(nb);
    const double sine = along.norm();
    if (sine < std::sin(flattest * std::numbers::pi / 180)) return {};
    along /= sine;
    if (along.z() < -1e-9 || (std::abs(along.z()) <= 1e-9 && along.x() + along.y() < 0)) along = -along;
    Mat3 m;
    m << na.transpose(), nb.transpose(), along.transpose();
    const Vec3 at = m.partialPivLu().solve(Vec3(na.dot(a.place.origin), nb.dot(b.place.origin), 0));
    return Meeting{at, along, sine};
}

bool oneWay(const Vec3& a, const Vec3& b) {
    return a.dot(b) > 0 && a.cross(b).norm() <= parallelWithin;
}

Ways::Ways(const std::vector<Piece>& pieces)
    : m_pieces(&pieces), m_ways(pieces.size()), m_ranks(pieces.size()) {
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].regions.empty()) {
            m_first.push_back(m_known.size());
            continue;
        }
        const Mat3& axes = pieces[i].choice->place.axes;
        const bool lies = std::abs(axes.col(2).z()) > 0.9;
        const Vec3 up = lies ? Vec3(std::copysign(1, axes.col(2).z()) * axes.col(2)) : Vec3(axes.col(1));
        add(i, up, 0);
        std::vector<Vec3> lines;
        for (const Piece& other : pieces)
            if (!other.regions.empty())
                if (const auto m = meetingOf(*pieces[i].choice, *other.choice)) lines.push_back(m->along);
        for (const Vec3& line : lines) add(i, line, 0);
        for (const Vec3& line : lines) add(i, -line, 1);
        for (const int k : {1, 0, 2})
            for (const double sign : {1.0, -1.0}) add(i, sign * axes.col(k), 2);
        m_first.push_back(m_known.size());
        m_known.resize(m_known.size() + m_ways[i].size(), std::vector<signed char>(pieces.size(), -1));
    }
}

void Ways::add(std::size_t piece, const Vec3& from, int rank) {
    for (const Vec3& known : m_ways[piece])
        if (oneWay(known, from)) return;
    m_ways[piece].push_back(from);
    m_ranks[piece].push_back(rank);
}

bool Ways::barred(std::size_t piece, std::size_t way, std::size_t by) {
    if (piece == by) return false;
    signed char& known = m_known[m_first[piece] + way][by];
    if (known < 0) {
        const Piece &moves = (*m_pieces)[piece], &stands = (*m_pieces)[by];
        const bool bars = !stands.regions.empty() && barsWay(stands, moves, m_ways[piece][way]);
        const bool told = bars && !meetingOf(*moves.choice, *stands.choice) && standsIn(moves, stands);
        known = bars && !told ? 1 : 0;
    }
    return known == 1;
}

namespace {

/// The way on which a piece comes out of the rest.
std::optional<std::size_t> wayOut(Ways& ways, std::size_t piece, const std::set<std::size_t>& rest) {
    for (std::size_t way = 0; way < ways.of(piece).size(); ++way)
        if (std::none_of(rest.begin(), rest.end(),
                         [&](std::size_t other) { return ways.barred(piece, way, other); }))
            return way;
    return {};
}

/// In the order of the list as far as no piece bars the way of one that follows.
std::vector<Way> sorted(Ways& ways, const std::vector<std::optional<std::size_t>>& chosen) {
    std::vector<Way> order;
    std::set<std::size_t> waiting;
    for (std::size_t i = 0; i < chosen.size(); ++i)
        if (chosen[i]) waiting.insert(i);
    while (!waiting.empty()) {
        const auto next = std::find_if(waiting.begin(), waiting.end(), [&](std::size_t i) {
            return std::none_of(waiting.begin(), waiting.end(),
                                [&](std::size_t k) { return ways.barred(k, *chosen[k], i); });
        });
        assert(next != waiting.end()); // what came out later stands when the others come
        order.push_back({*next, ways.of(*next)[*chosen[*next]]});
        waiting.erase(next);
    }
    return order;
}

} // namespace

Assembly assemblyOf(const std::vector<Piece>& pieces) {
    Ways ways(pieces);
    std::set<std::size_t> rest;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (!pieces[i].regions.empty()) rest.insert(i);
    std::vector<std::optional<std::size_t>> chosen(pieces.size());
    while (!rest.empty()) {
        std::optional<std::size_t> out;
        int best = 0;
        for (auto it = rest.rbegin(); it != rest.rend(); ++it) { // the last of the list come out first
            const auto way = wayOut(ways, *it, rest);
            if (!way) continue;
            const int rank = ways.rank(*it, *way);
            if (out && rank >= best) continue;
            out = *it;
            best = rank;
            chosen[*it] = way;
            if (rank == 0) break;
        }
        if (!out) break;
        rest.erase(*out);
    }
    for (const std::size_t i : rest) chosen[i].reset();
    return {sorted(ways, chosen), {rest.begin(), rest.end()}};
}

} // namespace slab::frames
