// What can be done about what meets, in figures that were tried: stops, another place, a smaller reach.
#include "core/mechanisms/sweep_told.h"
#include "core/mechanisms/sweep_tried.h"
#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <map>

namespace slab::mechanisms {

namespace {

constexpr double none = std::numeric_limits<double>::infinity();
constexpr std::size_t mostWays = 3; ///< told in one remedy

/// How far what turns about a carrier's upright axis may reach; 0 where that does not clear the pairs.
double reachFor(const std::vector<const MetPair*>& pairs, const SweepField& field, const Move& turn) {
    double reach = none, now = 0;
    for (const MetPair* p : pairs) {
        if (p->other->motion >= 0) return 0;
        if (p->moving->kind == Thing::Kind::part && p->moving->motion < 0)
            return 0; // a ring: it does not turn
        const double gap = std::max(p->check.wanted, 0.0);
        std::vector<Ringed> ours;
        for (const ConvexSolid& piece : p->moving->pieces)
            ours.push_back(p->moving->motion < 0 ? ringedBy(piece, turn.at, turn.axis)
                                                 : sweptRing(field.motionOf(*p->moving), piece));
        for (const ConvexSolid& piece : p->other->pieces) {
            const Ringed b = ringedBy(piece, turn.at, turn.axis);
            for (const Ringed& a : ours) {
                now = std::max(now, a.outer);
                if (a.low > b.high + gap || b.low > a.high + gap || a.outer < b.inner - gap) continue;
                reach = std::min(reach, b.inner - gap);
            }
        }
    }
    if (reach == none || reach < now / 2) return 0; // half the reach is another design
    return std::floor(reach * 10) / 10;
}

const char* wayWords(const Vec3& way) {
    static constexpr std::array<const char*, 6> words = {"forward",      "back", "to port",
                                                         "to starboard", "up",   "down"};
    int axis = 0;
    way.cwiseAbs().maxCoeff(&axis);
    return words[static_cast<std::size_t>(2 * axis + (way[axis] < 0 ? 1 : 0))];
}

} // namespace

/// What is known of one carrier.
struct CarrierTrial {
    Trial trial;
    std::vector<Way> all; ///< that clear everything that it comes too near to
};

struct Remedies::Kept {
    const std::vector<MetPair>& met;
    const SweepField& field;
    UnitStyle units;
    std::map<std::string, CarrierTrial> carriers;

    [[nodiscard]] PairOfThings pairOf(const MetPair& p) const {
        return {static_cast<std::size_t>(p.moving - field.things.data()),
                static_cast<std::size_t>(p.other - field.things.data())};
    }
    [[nodiscard]] bool concerns(const MetPair& p, const std::string& carrier) const {
        return field.carrierOf(*p.moving) == carrier ||
               (p.other->kind != Thing::Kind::donor && field.carrierOf(*p.other) == carrier);
    }
    /// What a rule is read to.
    [[nodiscard]] double step() const { return isInch(units) ? 25.4 / units.denominator : 1; }
    [[nodiscard]] std::string inSteps(double mm) const {
        UnitStyle whole = units;
        whole.decimals = 0;
        return printLength(mm, whole);
    }
    CarrierTrial& trialOf(const std::string& carrier) {
        const auto known = carriers.find(carrier);
        if (known != carriers.end()) return known->second;
        std::vector<PairOfThings> bad;
        for (const MetPair& p : met)
            if (concerns(p, carrier)) bad.push_back(pairOf(p));
        CarrierTrial made{Trial(field, carrier, std::move(bad), step()), {}};
        made.all = made.trial.ways(made.trial.bad());
        return carriers.emplace(carrier, std::move(made)).first->second;
    }

    [[nodiscard]] std::string whole(const std::string& carrier) const {
        const bool alone = std::none_of(field.things.begin(), field.things.end(), [&](const Thing& t) {
            return t.kind != Thing::Kind::donor && field.carrierOf(t) == carrier &&
                   (t.kind == Thing::Kind::plate || t.mechanism != carrier);
        });
        return carrier + (alone ? "" : " and what stands on it");
    }
    [[nodiscard]] std::string words(const Way& way, const std::string& carrier) const {
        if (way.move) {
            const std::string ends = printAngle(way.from, 0) + " and " + printAngle(way.to, 0);
            if (way.move->words != "raised") return "give " + way.mechanism + " stops at " + ends;
            return "keep " + way.mechanism + "'s elevation between " + ends;
        }
        const std::string by = (way.least ? "at least " : "") + inSteps(way.by);
        switch (way.change->kind) {
        case Change::Kind::pivot:
            return "raise " + way.mechanism + "'s pivot by " + by;
        case Change::Kind::front:
            return "make " + way.mechanism + " " + by + " shorter ahead of its pivot";
        case Change::Kind::rear:
            return "make " + way.mechanism + " " + by + " shorter behind its pivot";
        case Change::Kind::stand:
            return "set what stands on " + way.mechanism + " " + by + " higher";
        case Change::Kind::depth:
            return "make " + way.mechanism + "'s drum " + by + " shallower";
        case Change::Kind::aside:
            return "move " + carrier + " on both sides " + (way.change->way.y() > 0 ? "outward" : "inward") +
                   " by " + by;
        case Change::Kind::shift:
            break;
        }
        const bool deck = std::abs(way.change->way.z()) > 0 && uprightTurn(field, carrier) &&
                          std::any_of(field.things.begin(), field.things.end(),
                                      [&](const Thing& t) { return openedFor(field, t, carrier); });
        return "move " + whole(carrier) + (deck ? ", with its deck," : "") + " " + wayWords(way.change->way) +
               " by " + by;
    }

    /// One change for each mechanism of the group that moves into something.
    [[nodiscard]] std::string each(const std::vector<const MetPair*>& group, const std::string& carrier) {
        std::map<std::string, std::vector<PairOfThings>> parts;
        for (const MetPair* p : group) parts[p->moving->mechanism].push_back(pairOf(*p));
        if (parts.size() < 2) return {};
        std::string text;
        for (const auto& [mechanism, pairs] : parts) {
            const auto ways = chosen(trialOf(carrier).trial.ways(pairs), carrier);
            if (ways.empty()) return {};
            text += (text.empty() ? "" : ", and ") + ways.front();
        }
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
        return text + ".";
    }

    /// One range and the smallest changes.
    [[nodiscard]] std::vector<std::string> chosen(std::vector<Way> ways, const std::string& carrier) const {
        std::stable_sort(ways.begin(), ways.end(), [](const Way& a, const Way& b) {
            return a.move.has_value() != b.move.has_value() ? a.move.has_value() : a.by < b.by;
        });
        std::vector<std::string> out;
        for (const Way& way : ways)
            if (out.size() < mostWays) out.push_back(words(way, carrier));
        return out;
    }
    /// @param ways  none gives empty words
    [[nodiscard]] std::string sentence(std::vector<std::string> ways,
                                       const std::vector<const MetPair*>& pairs,
                                       const std::string& carrier) const {
        if (const Move* turn = uprightTurn(field, carrier); turn && ways.size() < mostWays)
            if (const double reach = reachFor(pairs, field, *turn); reach > 0)
                ways.push_back("keep what turns within " + printFine(reach, units) + " of its axis");
        if (ways.empty()) return {};
        std::string text = ways.front();
        for (std::size_t i = 1; i < ways.size(); ++i)
            text += (i + 1 < ways.size() ? ", " : ways.size() > 2 ? ", or " : " or ") + ways[i];
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
        return text + ".";
    }
};

Remedies::Remedies(const std::vector<MetPair>& met, const SweepField& field, const UnitStyle& units)
    : m_kept(new Kept{met, field, units, {}}) {}
Remedies::~Remedies() = default;

std::string Remedies::wordsFor(const std::vector<const MetPair*>& group, const std::string& carrier) {
    std::vector<std::string> carriers{carrier};
    for (const MetPair* p : group)
        for (const Thing* t : {p->moving, p->other})
            if (t->kind != Thing::Kind::donor)
                if (const std::string c = m_kept->field.carrierOf(*t);
                    !c.empty() && std::find(carriers.begin(), carriers.end(), c) == carriers.end())
                    carriers.push_back(c);
    for (const std::string& c : carriers) {
        CarrierTrial& t = m_kept->trialOf(c);
        std::vector<const MetPair*> all;
        for (const MetPair& p : m_kept->met)
            if (m_kept->concerns(p, c)) all.push_back(&p);
        const std::string text = m_kept->sentence(m_kept->chosen(t.all, c), all, c);
        if (!text.empty())
            return text +
                   (t.trial.bad().size() > group.size() ? " That clears all that " + c + " sweeps." : "");
    }
    std::vector<PairOfThings> pairs;
    for (const MetPair* p : group) pairs.push_back(m_kept->pairOf(*p));
    for (const std::string& c : carriers) {
        CarrierTrial& t = m_kept->trialOf(c);
        if (t.trial.bad().size() == pairs.size()) continue; // nothing less was asked above
        const std::string text = m_kept->sentence(m_kept->chosen(t.trial.ways(pairs), c), group, c);
        if (!text.empty()) return text + " That clears this alone.";
    }
    if (const std::string text = m_kept->each(group, carrier); !text.empty()) return text;
    return "No one change that was tried clears it: make room for it, or plan it smaller.";
}

} // namespace slab::mechanisms
