#include "core/mechanisms/sweep_told.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace slab::mechanisms {

namespace {

constexpr double fullTurn = 2 * std::numbers::pi;
constexpr double oneDegree = std::numbers::pi / 180;

/// Who is met, for grouping: what belongs to one party is told as one.
struct Party {
    enum class Kind { shell, person, chassis, mechanism };
    Kind kind = Kind::shell;
    std::string name; ///< of the mechanism
    auto operator<=>(const Party&) const = default;
};

Party partyOf(const Thing& other, const SweepField& field) {
    if (other.kind == Thing::Kind::donor)
        return {other.group == "rider" ? Party::Kind::person : Party::Kind::chassis, {}};
    const std::string carrier = field.carrierOf(other);
    return carrier.empty() ? Party{} : Party{Party::Kind::mechanism, carrier};
}

std::string partyWords(const Party& party) {
    switch (party.kind) {
    case Party::Kind::shell:
        return "the shell";
    case Party::Kind::person:
        return "the rider";
    case Party::Kind::chassis:
        return "the donor";
    case Party::Kind::mechanism:
        break;
    }
    return party.name;
}

/// One met thing of a party with all that meets it, the worst first.
struct MetThing {
    const Thing* other = nullptr;
    std::vector<const MetPair*> pairs;
    [[nodiscard]] const MetPair& worst() const { return *pairs.front(); }
    /// Those that meet it where the worst does, else all.
    [[nodiscard]] std::vector<const MetPair*> alike() const {
        std::vector<const MetPair*> out;
        for (const MetPair* p : pairs)
            if (p->meets() == worst().meets()) out.push_back(p);
        return out;
    }
};

bool worseThan(const MetPair& a, const MetPair& b) {
    if (a.meets() != b.meets()) return a.meets();
    return a.check.clearance - a.check.wanted < b.check.clearance - b.check.wanted;
}

std::vector<MetThing> byThing(const std::vector<const MetPair*>& group) {
    std::vector<MetThing> out;
    for (const MetPair* p : group) {
        const auto at = std::find_if(out.begin(), out.end(), [&](const MetThing& t) {
            // What stands still is not told within the range of what moves.
            return t.other == p->other && t.worst().motion.moves.empty() == p->motion.moves.empty();
        });
        MetThing& thing = at == out.end() ? out.emplace_back() : *at;
        thing.other = p->other;
        thing.pairs.push_back(p);
    }
    for (MetThing& t : out)
        std::stable_sort(t.pairs.begin(), t.pairs.end(),
                         [](const MetPair* a, const MetPair* b) { return worseThan(*a, *b); });
    std::stable_sort(out.begin(), out.end(),
                     [](const MetThing& a, const MetThing& b) { return worseThan(a.worst(), b.worst()); });
    return out;
}

std::string andMore(std::size_t count) {
    return count == 0 ? std::string() : " and " + std::to_string(count) + " more";
}

/// "from 40.3° to 139.7°, from 220.3° to 319.7°" of the pairs' only move; their pose where they have several.
std::string whereWords(const std::vector<const MetPair*>& pairs) {
    const MetPair& worst = *pairs.front();
    if (worst.motion.moves.empty()) return {};
    MoveRanges all;
    for (const MetPair* p : pairs) {
        if (p->motion.moves.size() != 1) continue; // what stands still, or moves in several ways
        const MoveRanges& own = worst.meets() ? p->check.meetsIn : p->check.nearIn;
        all.insert(all.end(), own.begin(), own.end());
    }
    if (worst.motion.moves.size() != 1 || all.empty()) return worst.check.pose;
    const Move& move = worst.motion.moves.front();
    all = joinedRanges(std::move(all), move.endless);
    const double whole = move.endless ? fullTurn : move.to - move.from;
    if (all.size() == 1 && all[0].second - all[0].first > whole - oneDegree)
        return move.endless ? "all the way round" : "in every position";
    constexpr std::size_t most = 2;
    std::string words;
    for (std::size_t i = 0; i < std::min(all.size(), most); ++i)
        words += (words.empty() ? "from " : ", from ") + printAngle(all[i].first) + " to " +
                 printAngle(all[i].second);
    if (all.size() > most) words += ", in " + std::to_string(all.size() - most) + " more places";
    return words;
}

class Teller {
public:
    Teller(const SweepField& field, const UnitStyle& units) : m_field(field), m_units(units) {}

    [[nodiscard]] Finding tell(const std::vector<const MetPair*>& group) const {
        const std::vector<MetThing> things = byThing(group);
        const MetPair& worst = things.front().worst();
        const bool person = worst.other->group == "rider";
        Finding f;
        f.severity = worst.meets() || person ? Severity::stop : Severity::look;
        f.code = worst.meets() ? "sweep-meets" : "sweep-tight";
        f.message = group.size() == 1 ? one(worst) : many(things, group);
        f.about = about(things);
        f.at = {worst.check.onFixed.x(), worst.check.onFixed.y(), worst.check.onFixed.z()};
        return f;
    }

private:
    [[nodiscard]] std::string one(const MetPair& p) const {
        const SweptCheck& c = p.check;
        std::string words = c.mechanism.empty() ? std::string() : c.mechanism + ": ";
        words += c.moving + " " + verb(p, false) + c.fixed;
        if (!p.motion.moves.empty()) words += ", " + c.pose;
        words += p.meets() ? ", " + printFine(-c.clearance, m_units) + " deep"
                           : "; wanted: " + printFine(c.wanted, m_units);
        if (p.motion.moves.size() == 1)
            if (const std::string where = whereWords({&p}); !where.empty()) words += " (" + where + ")";
        return words + ".";
    }

    [[nodiscard]] std::string many(const std::vector<MetThing>& things,
                                   const std::vector<const MetPair*>& group) const {
        const MetPair& worst = things.front().worst();
        const std::string carrier = m_field.carrierOf(*worst.moving);
        const bool inPlace = std::any_of(group.begin(), group.end(), [](const MetPair* p) {
            return p->meets() && (p->check.inPlace || p->motion.moves.empty());
        });
        std::string words = carrier.empty() ? worst.check.moving : carrier;
        const Party party = partyOf(*worst.other, m_field);
        if (party.name == carrier && !carrier.empty())
            words += ", among its own parts: ";
        else
            words += (inPlace         ? " stands in "
                      : worst.meets() ? " turns into "
                                      : " comes too near to ") +
                     partyWords(party) + ": ";
        constexpr std::size_t most = 3;
        std::string mover;
        for (std::size_t i = 0; i < std::min(things.size(), most); ++i) {
            const MetThing& thing = things[i];
            const std::size_t count = thing.alike().size();
            std::string next = thing.worst().check.moving + andMore(count - 1);
            words += i > 0 ? "; " : "";
            // The same parts meet the next thing too: they need no second naming.
            if (next != mover || !thing.worst().meets()) words += next + " " + verb(thing.worst(), count > 1);
            mover = std::move(next);
            words += entry(thing);
        }
        if (things.size() > most) words += ";" + andMore(things.size() - most);
        return words + ".";
    }
    /// "meets ", "touches ", "comes within 4.3 mm of "
    [[nodiscard]] std::string verb(const MetPair& p, bool several) const {
        constexpr double touch = 0.05; // mm: no more than rounding of a drawing
        if (p.meets()) return several ? "meet " : "meets ";
        if (p.check.clearance < touch) return several ? "touch " : "touches ";
        return std::string(several ? "come" : "comes") + " within " + printFine(p.check.clearance, m_units) +
               " of ";
    }
    /// "hull/top, 243.1 mm deep, all the way round"; "tt/seat ring (wanted: 5.0 mm), all the way round"
    [[nodiscard]] std::string entry(const MetThing& thing) const {
        const SweptCheck& c = thing.worst().check;
        const std::string words =
            c.fixed + (thing.worst().meets() ? ", " + printFine(-c.clearance, m_units) + " deep"
                                             : " (wanted: " + printFine(c.wanted, m_units) + ")");
        const std::string where = whereWords(thing.alike());
        return where.empty() ? words : words + ", " + where;
    }

    static std::string aboutOf(const Thing& t) {
        const bool solid = t.kind == Thing::Kind::donor || t.kind == Thing::Kind::solid;
        return (solid ? "solid:" : t.round ? "form:" : "plate:") + t.name;
    }
    /// The mechanism first, then every pair's two, the worst pair's first; of a mechanism's solid both names.
    [[nodiscard]] static std::vector<std::string> about(const std::vector<MetThing>& things) {
        std::vector<std::string> out{"mechanism:" + things.front().worst().check.mechanism};
        const auto add = [&](std::string name) {
            if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(std::move(name));
        };
        for (const MetThing& thing : things)
            for (const MetPair* p : thing.pairs) {
                add("mechanism:" + p->check.mechanism);
                for (const Thing* t : {p->moving, p->other}) {
                    if (t->kind == Thing::Kind::solid) add("mechanism:" + t->mechanism);
                    add(aboutOf(*t));
                }
            }
        return out;
    }

    const SweepField& m_field;
    UnitStyle m_units;
};

} // namespace

bool MetPair::meets() const {
    return check.clearance < -1e-6; // mm: less is touching, as in fit
}

MoveRanges joinedRanges(MoveRanges ranges, bool endless) {
    if (endless) {
        MoveRanges split;
        for (auto [from, to] : ranges) {
            if (to - from >= fullTurn - 1e-9) return {{0, fullTurn}};
            const double back = std::floor(from / fullTurn) * fullTurn;
            from -= back;
            to -= back;
            split.emplace_back(from, std::min(to, fullTurn));
            if (to > fullTurn) split.emplace_back(0, to - fullTurn);
        }
        ranges = std::move(split);
    }
    std::sort(ranges.begin(), ranges.end());
    MoveRanges out;
    for (const auto& [from, to] : ranges) {
        if (!out.empty() && from <= out.back().second + 1e-9)
            out.back().second = std::max(out.back().second, to);
        else
            out.emplace_back(from, to);
    }
    if (endless && out.size() > 1 && out.front().first <= 1e-9 && out.back().second >= fullTurn - 1e-9) {
        out.front().first = out.back().first - fullTurn;
        out.pop_back();
    }
    return out;
}

std::vector<Finding> tellMet(const std::vector<MetPair>& met, const SweepField& field,
                             const UnitStyle& units) {
    using Key = std::pair<std::string, Party>;
    std::vector<std::pair<Key, std::vector<const MetPair*>>> groups;
    for (const MetPair& p : met) {
        const Key key(field.carrierOf(*p.moving), partyOf(*p.other, field));
        const auto find = [&](const Key& k) {
            return std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return g.first == k; });
        };
        auto at = find(key);
        if (at == groups.end() && key.second.kind == Party::Kind::mechanism)
            at = find({key.second.name, {Party::Kind::mechanism, key.first}});
        auto& group = at == groups.end() ? groups.emplace_back(key, std::vector<const MetPair*>{}) : *at;
        group.second.push_back(&p);
    }
    std::vector<Finding> out;
    const Teller teller(field, units);
    Remedies remedies(met, field, units);
    for (const auto& [key, group] : groups) {
        out.push_back(teller.tell(group));
        out.back().remedy = remedies.wordsFor(group, key.first);
    }
    return out;
}

} // namespace slab::mechanisms
