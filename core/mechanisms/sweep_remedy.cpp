// What can be done about what meets, in figures: stops, a shift of the whole, a smaller reach.
#include "core/mechanisms/sweep_told.h"
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <numbers>

namespace slab::mechanisms {

namespace {

constexpr double upright = 0.7; ///< of an axis' z: it stands more than it lies
constexpr double none = std::numeric_limits<double>::infinity();

/// Least shifts that clear two boxes of each other by `gap`, along +x, −x, +y, −y, +z, −z.
std::array<double, 6> shiftsPast(const Box3& own, const Box3& other, double gap) {
    std::array<double, 6> out{};
    for (int k = 0; k < 3; ++k) {
        out[static_cast<std::size_t>(2 * k)] = other.max[k] + gap - own.min[k];
        out[static_cast<std::size_t>(2 * k + 1)] = own.max[k] + gap - other.min[k];
    }
    return out;
}

class Remedy {
public:
    Remedy(const std::vector<const MetPair*>& group, const MechanismSet& set, const UnitStyle& units)
        : m_group(group), m_set(set), m_units(units), m_carrier(carrierOf(*group.front()->moving, set)) {
        for (const Motion& m : set.motions)
            if (m.mechanism == m_carrier && !m.moves.empty() && !m.moves.back().slides)
                m_turn = &m.moves.back();
        m_own = std::all_of(group.begin(), group.end(), [&](const MetPair* p) {
            return p->other->kind != Thing::Kind::donor && carrierOf(*p->other, set) == m_carrier;
        });
    }

    [[nodiscard]] std::string words() const {
        std::vector<std::string> ways;
        const bool moves = std::any_of(m_group.begin(), m_group.end(),
                                       [](const MetPair* p) { return !p->motion.moves.empty(); });
        if (const std::string stops = stopWords(); !stops.empty()) ways.push_back(stops);
        if (const std::string shift = m_turn ? turningAside() : aside(); !shift.empty())
            ways.push_back(shift);
        if (const std::string reach = m_turn ? reachWords() : std::string(); !reach.empty())
            ways.push_back(reach);
        if (ways.empty())
            return moves
                       ? "Give it stops that leave this place out, move its axis, or make what turns smaller."
                       : "Move one of the two, or make it smaller.";
        std::string text = ways.front();
        for (std::size_t i = 1; i < ways.size(); ++i)
            text += (i + 1 < ways.size() ? ", " : ways.size() > 2 ? ", or " : " or ") + ways[i];
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
        return text + ".";
    }

private:
    /// Whole degrees within the free range, so that they can be marked.
    [[nodiscard]] std::string stopWords() const {
        if (!m_turn) return {};
        MoveRanges blocked;
        for (const MetPair* p : m_group) {
            if (p->motion.moves.size() != 1 || p->motion.moves.front().slides || p->check.nearIn.empty() ||
                !(p->motion.moves.front() == *m_turn))
                return {};
            blocked.insert(blocked.end(), p->check.nearIn.begin(), p->check.nearIn.end());
        }
        const auto free = freeAbout(*m_turn, joinedRanges(std::move(blocked), m_turn->endless));
        if (!free) return {};
        constexpr double degree = std::numbers::pi / 180;
        const double from = std::ceil(free->first / degree - 1e-6),
                     to = std::floor(free->second / degree + 1e-6);
        constexpr double least = 5; // degrees: less is no use
        if (to - from < least) return {};
        return std::string(m_turn->words == "raised" ? "keep its elevation between " : "give it stops at ") +
               printAngle(from * degree, 0) + " and " + printAngle(to * degree, 0);
    }

    /// What each piece keeps within, wherever the thing turns.
    [[nodiscard]] std::vector<Ringed> rings(const Thing& thing) const {
        std::vector<Ringed> out;
        for (const ConvexSolid& piece : thing.pieces)
            out.push_back(thing.motion >= 0
                              ? sweptRing(m_set.motions[static_cast<std::size_t>(thing.motion)], piece)
                              : ringedBy(piece, m_turn->at, m_turn->axis));
        return out;
    }

    /// How far all that turns must go to pass what it meets: along an upright axis by its rings, forward or
    /// back by the square round them.
    [[nodiscard]] std::string turningAside() const {
        if (m_own || std::abs(m_turn->axis.z()) < upright) return {};
        std::array<double, 6> need{};
        for (const MetPair* p : m_group) {
            if (p->other->motion >= 0) return {};
            const double gap = std::max(p->check.wanted, 0.0);
            const std::vector<Ringed> ours = rings(*p->moving);
            for (const ConvexSolid& piece : p->other->pieces) {
                const Ringed theirs = ringedBy(piece, m_turn->at, m_turn->axis);
                for (const Ringed& ring : ours) {
                    if (ringGap(ring, theirs) >= gap) continue;
                    const auto shifts = shiftsPast(boxRound(ring), bounds(piece), gap);
                    for (std::size_t k = 0; k < need.size(); ++k) need[k] = std::max(need[k], shifts[k]);
                }
            }
        }
        need[2] = need[3] = none; // to one side its load would be off the middle
        return shiftWords(need);
    }
    [[nodiscard]] Box3 boxRound(const Ringed& ring) const {
        const Vec3 low = m_turn->at + ring.low * m_turn->axis, high = m_turn->at + ring.high * m_turn->axis;
        const Vec3 across = ring.outer * (Vec3::Ones() - m_turn->axis.cwiseAbs2()).cwiseMax(0).cwiseSqrt();
        return {low.cwiseMin(high) - across, low.cwiseMax(high) + across};
    }
    [[nodiscard]] std::string reachWords() const {
        double reach = none, now = 0;
        for (const MetPair* p : m_group) {
            if (p->other->motion >= 0) return {};
            const double gap = std::max(p->check.wanted, 0.0);
            const std::vector<Ringed> ours = rings(*p->moving);
            for (const ConvexSolid& piece : p->other->pieces) {
                const Ringed b = ringedBy(piece, m_turn->at, m_turn->axis);
                for (const Ringed& a : ours) {
                    now = std::max(now, a.outer);
                    if (a.low > b.high + gap || b.low > a.high + gap || a.outer < b.inner - gap) continue;
                    reach = std::min(reach, b.inner - gap);
                }
            }
        }
        if (reach == none || reach < now / 2) return {}; // half the reach is another design
        const double tenth = std::floor(reach * 10) / 10;
        return "keep what turns within " + printFine(tenth, m_units) + " of its axis";
    }

    /// Nothing turns: the shortest way that takes one off the other.
    [[nodiscard]] std::string aside() const {
        std::array<double, 6> need{};
        for (const MetPair* p : m_group)
            for (const ConvexSolid& a : p->moving->pieces)
                for (const ConvexSolid& b : p->other->pieces) {
                    const auto shifts = shiftsPast(bounds(a), bounds(b), std::max(p->check.wanted, 0.0));
                    if (*std::min_element(shifts.begin(), shifts.end()) <= 0) continue;
                    for (std::size_t k = 0; k < need.size(); ++k) need[k] = std::max(need[k], shifts[k]);
                }
        return shiftWords(need);
    }
    [[nodiscard]] std::string shiftWords(std::array<double, 6> need) const {
        double low = none; // of what is met: nothing goes below the ground
        for (const MetPair* p : m_group)
            for (const ConvexSolid& piece : p->moving->pieces) low = std::min(low, bounds(piece).min.z());
        if (low - need[5] < 0) need[5] = none;
        const auto least = std::min_element(need.begin(), need.end());
        if (!(*least > 0) || *least == none) return {};
        static constexpr std::array<const char*, 6> ways = {"forward",      "back", "to port",
                                                            "to starboard", "up",   "down"};
        return "move " + whole() + " " + ways[static_cast<std::size_t>(least - need.begin())] +
               " by at least " + atLeast(*least);
    }

    /// The mechanism that carries all, in words.
    [[nodiscard]] std::string whole() const {
        const bool alone = std::all_of(m_group.begin(), m_group.end(), [&](const MetPair* p) {
            return p->check.mechanism == m_carrier && p->moving->kind != Thing::Kind::plate;
        });
        return (m_carrier.empty() ? "it" : m_carrier) + (alone ? "" : " and what stands on it");
    }
    [[nodiscard]] std::string atLeast(double mm) const {
        return printFine(std::ceil(mm * 10 - 1e-6) / 10, m_units); // up, to a tenth
    }

    const std::vector<const MetPair*>& m_group;
    const MechanismSet& m_set;
    UnitStyle m_units;
    std::string m_carrier;
    const Move* m_turn = nullptr;
    bool m_own = false; ///< fixed parts of the same mechanism are met: they go where it goes
};

} // namespace

std::string remedyFor(const std::vector<const MetPair*>& group, const MechanismSet& set,
                      const UnitStyle& units) {
    return Remedy(group, set, units).words();
}

} // namespace slab::mechanisms
