#include "core/mechanisms/sweep_things.h"
#include "core/mechanisms/rounds.h"
#include "core/mechanisms/shown.h"
#include <algorithm>

namespace slab::mechanisms {

std::vector<Thing> thingsOf(const MechanismSet& set, const PlateSet& plates,
                            const std::vector<FitSolid>& solids) {
    std::vector<Thing> out;
    for (const Plate& p : plates.plates) {
        Thing t;
        t.name = p.name;
        t.form = p.form;
        t.pieces = p.cells;
        t.round = standsForRound(p);
        const auto own = std::find_if(set.parts.begin(), set.parts.end(),
                                      [&](const Plate& q) { return q.name == p.name; });
        if (own != set.parts.end()) {
            const auto i = static_cast<std::size_t>(own - set.parts.begin());
            t.kind = Thing::Kind::part;
            t.mechanism = p.form;
            if (i < set.roles.size()) t.role = set.roles[i];
        }
        if (const CarriedPlates* c = carriedWith(set, p.name)) {
            t.motion = c->motion;
            t.wanted = c->wanted;
            t.mechanism = c->mechanism;
        }
        out.push_back(std::move(t));
    }
    for (const MovingSolid& s : set.solids) {
        if (!s.swept) continue;
        const auto same = std::find_if(out.begin(), out.end(), [&](const Thing& t) {
            return t.kind == Thing::Kind::solid && t.name == s.name && t.motion == s.motion &&
                   t.meets == s.meets;
        });
        if (same != out.end()) {
            same->pieces.push_back(s.shape);
            continue;
        }
        out.push_back({Thing::Kind::solid, s.mechanism, s.name, {}, {s.shape}, s.motion, s.wanted, s.meets});
        out.back().role = s.role;
    }
    for (const FitSolid& s : solids)
        out.push_back(
            {Thing::Kind::donor, {}, s.name, s.group, {s.shape}, -1, s.clearance, MovingSolid::Meets::all});
    return out;
}

Motion relativeMotion(const Motion& a, const Motion& b) {
    std::vector<Move> own = a.moves, other = b.moves;
    while (!own.empty() && !other.empty() && own.back() == other.back()) {
        own.pop_back();
        other.pop_back();
    }
    Motion out{a.mechanism, std::move(own)};
    for (; !other.empty(); other.pop_back()) {
        Move back = other.back(); // x = M1⁻¹ … Mn⁻¹ y: the outermost is undone first
        std::swap(back.from, back.to);
        back.from = -back.from;
        back.to = -back.to;
        back.shown = -back.shown;
        back.inverse = true;
        back.words = "against " + b.mechanism + " " + back.words;
        out.moves.push_back(std::move(back));
    }
    return out;
}

double wantedBetween(const Thing& a, const Thing& b) {
    if (a.kind == Thing::Kind::donor) return a.wanted;
    if (b.kind == Thing::Kind::donor) return b.wanted;
    return std::max(a.wanted, b.wanted);
}

} // namespace slab::mechanisms
