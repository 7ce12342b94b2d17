#include "core/mechanisms/sweep_tried.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::mechanisms {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double farthest = 400;   ///< mm: a longer way is another design
constexpr int affordable = 100000; ///< distances for one kind of change
constexpr double tolerance = 0.01; ///< of a clearance, mm
constexpr double roughly = 1;      ///< mm, that several moves may be off before the proof
constexpr int perPair = 20000;     ///< … for one pair in one trial
constexpr double wholeTurn = 359;  ///< degrees to either side: what is met lies somewhere
constexpr double leastRange = 5;   ///< degrees: less is no use

bool isShift(const Change& c) {
    return c.kind == Change::Kind::shift || c.kind == Change::Kind::aside;
}

} // namespace

Trial::Trial(const SweepField& field, std::string carrier, std::vector<PairOfThings> bad, double step)
    : m_field(field), m_carrier(std::move(carrier)), m_bad(std::move(bad)), m_step(step), m_left(affordable) {
    std::vector<char> own(field.things.size(), 0);
    for (std::size_t i = 0; i < own.size(); ++i)
        own[i] = field.things[i].kind != Thing::Kind::donor && field.carrierOf(field.things[i]) == m_carrier;
    for (std::size_t i = 0; i < own.size(); ++i)
        for (std::size_t j = 0; j < own.size(); ++j) {
            if (!(own[i] || own[j]) || !field.compared(i, j)) continue;
            const Thing &a = field.things[i], &b = field.things[j];
            const bool still = toldByFit(a, b, field.between(a, b));
            if (still && b.kind != Thing::Kind::donor) continue;
            const PairOfThings pair(i, j);
            if (std::find(m_bad.begin(), m_bad.end(), pair) != m_bad.end()) continue;
            if (!still || pairClear(field, pair)) m_good.push_back(pair); // what fits badly, the fit tells
        }
}

bool Trial::pairClear(const SweepField& field, const PairOfThings& pair) {
    // Staves stand out a little between their edges: what is clear of the whole is clear.
    for (const bool first : {true, false})
        if (const auto whole = field.wholeOf(first ? pair.first : pair.second))
            if (pairClear(field,
                          first ? PairOfThings(*whole, pair.second) : PairOfThings(pair.first, *whole)))
                return true;
    const Thing &a = field.things[pair.first], &b = field.things[pair.second];
    const Motion between = field.between(a, b);
    const double needed = onlyOverlap(a, b, between) ? -touching : field.wantedOf(a, b) - enoughShort;
    auto [ours, theirs] =
        piecesWithin(a, b, between, needed > 0 ? std::max(needed - tolerance, enoughShort) : needed);
    m_left -= 1 + static_cast<int>(a.pieces.size() + b.pieces.size()) / 4;
    if (ours.empty()) return true;
    SweepOptions options;
    options.stop = needed;
    options.tolerance = tolerance;
    options.steps = perPair;
    if (between.moves.size() == 2 && needed > 0) {
        RingsLeft left = leftByRings(between, ours, theirs, needed - tolerance);
        if (left.moving.empty()) return true;
        ours = std::move(left.moving);
        theirs = std::move(left.fixed);
        if (left.suspect) { // most often they do come nearer there, and one move is soon searched
            options.enough = needed;
            Motion there = between;
            there.moves.front().endless = false;
            there.moves.front().from = there.moves.front().to = *left.suspect;
            const SweepResult r = leastOver(there, ours, theirs, options);
            m_left -= r.steps;
            if (r.clearance < needed) return false;
        }
    }
    // The proof of several moves is long where they only just pass: it waits for what was found.
    const bool rough = between.moves.size() > 1 && !m_proving;
    options.enough = needed - (rough ? roughly : 0);
    const SweepResult r = leastOver(between, ours, theirs, options);
    m_left -= r.steps;
    return r.clearance >= needed && r.bound >= options.enough - 2 * tolerance;
}

bool Trial::clear(const Changed& c, const std::vector<PairOfThings>& pairs) {
    const auto same = [&](const PairOfThings& p) {
        const bool a = c.things[p.first], b = c.things[p.second];
        return (!a && !b) || (c.asOne && a && b);
    };
    for (const PairOfThings& p : pairs)
        if (same(p) || !pairClear(c.field, p)) return false;
    for (std::size_t k = 0; k < m_good.size(); ++k) {
        // What only grew smaller comes no nearer.
        if (same(m_good[k]) || (c.things[m_good[k].first] != 1 && c.things[m_good[k].second] != 1)) continue;
        if (m_left < 0 && !m_proving) return false;
        if (pairClear(c.field, m_good[k])) continue;
        std::rotate(m_good.begin(), m_good.begin() + static_cast<std::ptrdiff_t>(k),
                    m_good.begin() + static_cast<std::ptrdiff_t>(k) + 1);
        return false;
    }
    return true;
}

bool Trial::clearBy(const Change& change, double x, const std::vector<PairOfThings>& pairs) {
    const auto c = changed(m_field, m_carrier, change, x);
    return c && clear(*c, pairs);
}

std::optional<Way> Trial::least(const Change& change, const std::vector<PairOfThings>& pairs, double most) {
    // In whole steps, twice the last at most: 1, 2, 3, 5, 8, …
    const int last = static_cast<int>(std::floor(most / m_step + 1e-9));
    int low = 0, high = 0;
    m_left = affordable;
    for (int x = 1, before = 1; high == 0; std::swap(x, before), x += before) {
        const int tried = std::min(x, last);
        if (tried <= low || m_left < 0) return {};
        (clearBy(change, tried * m_step, pairs) ? high : low) = tried;
    }
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        (clearBy(change, middle * m_step, pairs) ? high : low) = middle;
    }
    const int end = std::min(high + 3, last);
    for (m_proving = true; high <= end; ++high)
        if (clearBy(change, high * m_step, pairs)) break;
    m_proving = false;
    if (high > end) return {};
    Way way;
    way.change = change;
    way.by = high * m_step;
    way.least = m_left >= 0;
    way.mechanism = change.mechanism;
    return way;
}

std::optional<Way> Trial::range(const Move& move, const std::string& mechanism,
                                const std::vector<PairOfThings>& pairs) {
    const auto free = [&](double from, double to) {
        return clear(withRange(m_field, move, from * degree, to * degree), pairs);
    };
    const double shown = move.shown / degree;
    m_left = affordable;
    if (!free(shown, shown)) return {};
    const auto farthestFree = [&](int way) {
        double most = way > 0 ? std::floor((move.endless ? shown + wholeTurn : move.to / degree) + 1e-9)
                              : -std::ceil((move.endless ? shown - wholeTurn : move.from / degree) - 1e-9);
        double least = way > 0 ? std::floor(shown) : -std::ceil(shown);
        const auto ok = [&](double d) { return way > 0 ? free(shown, d) : free(-d, shown); };
        if (most > least && ok(most)) return way * most;
        while (most - least > 1) {
            const double middle = std::floor((least + most) / 2);
            (ok(middle) ? least : most) = middle;
        }
        return way * least;
    };
    const double from = farthestFree(-1), to = farthestFree(1);
    if (to - from < leastRange) return {};
    if (from > shown + 1e-9 || to < shown - 1e-9) return {};
    m_proving = true;
    const bool proven = free(from, to);
    m_proving = false;
    if (!proven) return {};
    Way way;
    way.move = move;
    way.mechanism = mechanism;
    way.from = from * degree;
    way.to = to * degree;
    return way;
}

std::vector<Way> Trial::ways(const std::vector<PairOfThings>& pairs) {
    std::vector<Way> out;
    for (const TrunnionThings& t : trunnionsOn(m_field, m_carrier))
        if (t.name != m_carrier)
            if (auto way =
                    range(m_field.motions[static_cast<std::size_t>(t.motion)].moves.front(), t.name, pairs))
                out.push_back(std::move(*way));
    for (const Motion& m : m_field.motions)
        if (m.mechanism == m_carrier && m.moves.size() == 1 && !m.moves.front().slides)
            if (auto way = range(m.moves.front(), m_carrier, pairs)) out.push_back(std::move(*way));
    std::optional<Way> shift;
    for (const Change& c : changesOf(m_field, m_carrier)) {
        // A longer way than the shortest found is not told: it need not be looked for.
        const double most = isShift(c) && shift ? shift->by - m_step : farthest;
        auto way = least(c, pairs, most);
        if (!way) continue;
        if (isShift(c))
            shift = std::move(way);
        else
            out.push_back(std::move(*way));
    }
    if (shift) out.push_back(std::move(*shift));
    return out;
}

} // namespace slab::mechanisms
