// Everything that moves against everything that it may meet.
#include "core/mechanisms/sweep_deepest.h"
#include "core/mechanisms/sweep_told.h"
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

namespace slab {

namespace mechanisms {

namespace {

constexpr double near = enoughShort;
constexpr int looksForDeepest = 60; ///< for each pose of onceMetOf()

/// Poses looked at for the deepest place of what meets: fewer where each takes long, as of two discs of many
/// facets.
int onceMetOf(const std::vector<ConvexSolid>& ours, const std::vector<ConvexSolid>& theirs) {
    constexpr std::size_t most = 200, least = 20, light = 64 * 8; // product of their corners
    const auto corners = [](const std::vector<ConvexSolid>& pieces) {
        std::size_t n = 1;
        for (const ConvexSolid& s : pieces) n = std::max(n, s.points.size());
        return n;
    };
    return static_cast<int>(std::clamp(most * light / (corners(ours) * corners(theirs)), least, most));
}

/// What stands in the range of one moving thing, by how near it can come at least.
struct Candidate {
    std::size_t other = 0;
    Motion motion;
    double least = 0; ///< lower bound of the clearance, mm
};

/// Where the results of one moving thing begin and end; its pairs that are too near come first.
struct Swept {
    std::size_t thing = 0, firstMet = 0, lastMet = 0, firstCheck = 0, lastCheck = 0;
    Motion nearestMotion;
};

class Sweeper {
public:
    Sweeper(MechanismSet& set, const PlateSet& plates, const std::vector<FitSolid>& solids,
            const UnitStyle& units)
        : m_set(set), m_plates(plates), m_units(units), m_field(fieldOf(set, plates, solids)),
          m_things(m_field.things) {}

    void run(const Job& job) {
        checkCarried();
        for (std::size_t i = 0; i < m_things.size() && !job.stopped(); ++i) {
            const Thing& t = m_things[i];
            // A solid that stands still is compared too: it may stand in a plate, or in the rider's way.
            if (t.motion < 0 && !ownedByMechanism(t)) continue;
            if (takeAlike(i)) continue;
            Swept s{i, m_met.size(), 0, m_set.checks.size(), 0, {}};
            s.nearestMotion = sweep(i, job);
            s.lastMet = m_met.size();
            s.lastCheck = m_set.checks.size();
            m_swept.push_back(std::move(s));
        }
        for (Finding& f : tellMet(m_met, m_field, m_units)) m_set.findings.push_back(std::move(f));
        tellReach();
    }

private:
    [[nodiscard]] std::vector<Candidate> candidates(std::size_t i) const {
        std::vector<Candidate> out;
        for (std::size_t j = 0; j < m_things.size(); ++j) {
            if (!m_field.compared(i, j)) continue;
            Candidate c{j, m_field.between(m_things[i], m_things[j]), 0};
            const Thing &a = m_things[i], &b = m_things[j];
            // What stands still to each other otherwise is for the fit to tell.
            if (toldByFit(a, b, c.motion)) continue;
            c.least = leastBetween(a, b, c.motion);
            out.push_back(std::move(c));
        }
        std::stable_sort(out.begin(), out.end(),
                         [](const Candidate& a, const Candidate& b) { return a.least < b.least; });
        return out;
    }

    /// A quick look at each candidate that may matter, so that what comes nearest is searched first and
    /// bounds the search of all others. @return indices of those, in that order
    [[nodiscard]] std::vector<std::size_t> nearestFirst(const Thing& moving,
                                                        const std::vector<Candidate>& all) const {
        constexpr int looks = 100; // beyond one for each pair of pieces
        double seen = std::numeric_limits<double>::infinity();
        std::vector<std::pair<double, std::size_t>> order;
        for (std::size_t k = 0; k < all.size(); ++k) {
            const Thing& other = m_things[all[k].other];
            const bool overlap = onlyOverlap(moving, other, all[k].motion);
            if (overlap ? all[k].least >= -touching
                        : all[k].least >= std::max(m_field.wantedOf(moving, other) - near, seen))
                continue;
            const auto [ours, theirs] =
                piecesWithin(moving, other, all[k].motion,
                             overlap ? -touching : std::max(m_field.wantedOf(moving, other), seen));
            if (ours.empty()) continue;
            SweepOptions options;
            options.steps = static_cast<int>(ours.size() * theirs.size()) + looks;
            options.stepsOnceMet = 5;
            const double found = leastOver(all[k].motion, ours, theirs, options).clearance;
            if (!overlap) seen = std::min(seen, found);
            order.emplace_back(found, k);
        }
        std::sort(order.begin(), order.end());
        std::vector<std::size_t> out;
        for (const auto& [found, k] : order) out.push_back(k);
        return out;
    }

    /// @return the motion of the nearest pair that is not too near, the last of its checks
    Motion sweep(std::size_t i, const Job& job) {
        const Thing& moving = m_things[i];
        const std::vector<Candidate> all = candidates(i);
        double best = std::numeric_limits<double>::infinity();
        std::optional<SweptCheck> nearest;
        Motion nearestMotion;
        std::map<std::size_t, SweptCheck> tight; // told in the candidates' order
        for (const std::size_t k : nearestFirst(moving, all)) {
            if (job.stopped()) return {};
            const Candidate& c = all[k];
            const Thing& other = m_things[c.other];
            const bool overlap = onlyOverlap(moving, other, c.motion);
            const double wanted = overlap ? -touching : m_field.wantedOf(moving, other);
            SweepOptions options;
            options.enough = overlap ? wanted : std::max(wanted - near, best);
            if (!overlap && c.least >= options.enough) continue;
            if (c.motion.moves.size() > 1)
                options.tolerance = 0.01; // mm; the search grows fast with the moves
            const auto [ours, theirs] =
                piecesWithin(moving, other, c.motion, overlap ? -touching : std::max(options.enough, near));
            options.stepsOnceMet = onceMetOf(ours, theirs);
            SweepResult r = leastOver(c.motion, ours, theirs, options);
            if (ours.empty() || r.above) continue;
            if (!overlap)
                r = deepest(c.motion, ours, theirs, std::move(r), options.stepsOnceMet * looksForDeepest);
            SweptCheck check = found(moving, other, r);
            check.wanted = wanted;
            check.pose = poseWords(c.motion, r.at);
            const bool told = r.clearance < wanted - near;
            if (told) tight.emplace(k, check);
            if (r.clearance >= best || overlap) continue;
            best = r.clearance;
            nearest = told ? std::nullopt : std::optional(std::move(check));
            if (nearest) nearestMotion = c.motion;
        }
        for (auto& [k, check] : tight) {
            const Thing& other = m_things[all[k].other];
            describe(check, moving, other, all[k].motion);
            m_met.push_back({check, &moving, &other, all[k].motion});
            m_set.checks.push_back(std::move(check));
        }
        if (nearest) m_set.checks.push_back(std::move(*nearest));
        return nearestMotion;
    }

    static SweptCheck found(const Thing& moving, const Thing& other, const SweepResult& r) {
        SweptCheck c;
        c.mechanism = moving.mechanism;
        c.moving = moving.name;
        c.fixed = other.name;
        c.clearance = r.clearance;
        c.bound = r.bound;
        c.at = r.at;
        c.onMoving = r.onMoving;
        c.onFixed = r.onFixed;
        return c;
    }

    /// Where in its range a pair is too near, and whether it is as drawn.
    static void describe(SweptCheck& c, const Thing& moving, const Thing& other, const Motion& motion) {
        constexpr double degree = std::numbers::pi / 180;
        const bool meets = c.clearance < -near;
        const double wanted = std::max(c.wanted, 0.0);
        if (motion.moves.empty()) return;
        c.inPlace = nearerAsShown(motion, moving.pieces, other.pieces, meets ? 0 : wanted);
        // What meets as drawn stands in the wrong place, whatever the angle: whole degrees will do.
        const double step = c.inPlace ? degree : 0.25 * degree;
        if (meets) c.meetsIn = rangesNearer(motion, moving.pieces, other.pieces, 0, step);
        if (!meets || !c.inPlace) c.nearIn = rangesNearer(motion, moving.pieces, other.pieces, wanted, step);
    }

    /// A part of a many-sided drum meets what its neighbour met, the angle between them earlier or later.
    /// @return false if no part swept before is alike
    bool takeAlike(std::size_t i) {
        const Thing& t = m_things[i];
        for (const Swept& s : m_swept) {
            const auto turn = turnFrom(m_field, s.thing, i);
            if (!turn) continue;
            const std::size_t met = m_met.size();
            for (std::size_t k = s.firstMet; k < s.lastMet; ++k) {
                MetPair copy = m_met[k];
                copy.moving = &t;
                copy.check = turned(std::move(copy.check), t, copy.motion, *turn);
                copy.check.inPlace = nearerAsShown(copy.motion, t.pieces, copy.other->pieces,
                                                   copy.meets() ? 0 : copy.check.wanted);
                m_met.push_back(std::move(copy));
            }
            for (std::size_t k = s.firstCheck, n = met; k < s.lastCheck; ++k) {
                const bool told = k - s.firstCheck < s.lastMet - s.firstMet;
                m_set.checks.push_back(told ? m_met[n++].check
                                            : turned(m_set.checks[k], t, s.nearestMotion, *turn));
            }
            return true;
        }
        return false;
    }
    static SweptCheck turned(SweptCheck c, const Thing& t, const Motion& motion, double by) {
        constexpr double round = 2 * std::numbers::pi;
        c.moving = t.name;
        c.at.front() = std::remainder(c.at.front() - by, round);
        c.pose = poseWords(motion, c.at);
        for (auto* ranges : {&c.meetsIn, &c.nearIn}) {
            for (auto& [from, to] : *ranges)
                if (to - from < round - 1e-9) {
                    from -= by;
                    to -= by;
                }
            *ranges = joinedRanges(std::move(*ranges), true);
        }
        return c;
    }
    /// Patterns that match nothing, and plates that are joined to what stays.
    void checkCarried() {
        for (const CarriedPlates& c : m_set.carried)
            for (const std::string& pattern : c.patterns)
                if (std::none_of(m_plates.plates.begin(), m_plates.plates.end(),
                                 [&](const Plate& p) { return matches(pattern, p.name); }))
                    m_set.findings.push_back({Severity::look,
                                              "carries-no-plate",
                                              c.mechanism + " is to carry \"" + pattern +
                                                  "\", which matches no plate or round form.",
                                              {"mechanism:" + c.mechanism, "plate:" + pattern},
                                              "Correct the name, or take the entry out.",
                                              {}});
        std::map<std::string, const Thing*> byName;
        for (const Thing& t : m_things) byName[t.name] = &t;
        for (const auto& [a, b] : m_field.joined) {
            const auto ta = byName.find(a), tb = byName.find(b);
            if (ta == byName.end() || tb == byName.end() || ta->second->motion == tb->second->motion)
                continue;
            const Thing& carried = ta->second->motion >= 0 ? *ta->second : *tb->second;
            const std::string& other = &carried == ta->second ? b : a;
            m_set.findings.push_back(
                {Severity::stop,
                 "carried-joined",
                 carried.name + " is to turn with " + carried.mechanism + ", but it is joined to " + other +
                     ", which does not.",
                 {"mechanism:" + carried.mechanism, "plate:" + carried.name, "plate:" + other},
                 "Let the form that turns be standing, or let the turntable carry both.",
                 {}});
        }
    }

    /// Greatest distance from each axis of all that turns about it, a tube on a turntable in every elevation
    /// included. A drum keeps within its rings and is told with them.
    void tellReach() {
        for (const Motion& m : m_set.motions) {
            if (m.moves.size() != 1 || m.moves.back().slides) continue;
            double radius = 0;
            for (const Thing& t : m_things) {
                if (t.motion < 0 || m_field.motionOf(t).moves.empty() ||
                    m_field.motionOf(t).moves.back() != m.moves.back())
                    continue;
                for (const ConvexSolid& piece : t.pieces)
                    radius = std::max(radius, sweptRing(m_field.motionOf(t), piece).outer);
            }
            if (radius > 0)
                m_set.facts.push_back({m.mechanism, "swept_radius", "Swept radius of all that it moves",
                                       radius, MechanismFact::Unit::length});
        }
    }

    MechanismSet& m_set;
    const PlateSet& m_plates;
    UnitStyle m_units;
    SweepField m_field;
    const std::vector<Thing>& m_things;
    std::vector<MetPair> m_met;
    std::vector<Swept> m_swept;
};

} // namespace

} // namespace mechanisms

MechanismSet sweepMechanisms(MechanismSet set, const PlateSet& plates, const std::vector<FitSolid>& solids,
                             const UnitStyle& units, const Job& job) {
    set.checks.clear();
    if (set.motions.empty() && set.solids.empty() && set.parts.empty()) return set;
    mechanisms::Sweeper(set, plates, solids, units).run(job);
    return set;
}

} // namespace slab
