#include "core/mechanisms/sweep_near.h"
#include "core/mechanisms/sweep_pairs.h"
#include <algorithm>

namespace slab {

namespace mechanisms {

namespace {

class WorstSearch {
public:
    WorstSearch(const SweepField& field, double ample) : m_field(field), m_ample(ample) {}

    /// A short look at every pair first: what meets is mostly seen soon, and then nothing else need be
    /// proven.
    WorstSwept run(const Job& job) {
        const std::vector<Pair> pairs = near(job);
        for (const int steps : {briefly, SweepOptions{}.steps})
            for (const Pair& p : pairs) {
                if (m_worst.meets || job.stopped()) return m_worst;
                look(p, steps);
            }
        return m_worst;
    }

private:
    static constexpr int briefly = 24; ///< distances

    struct Pair {
        const Thing *moving, *other;
        Motion motion;
        bool overlap = false;
        double wanted = 0, bound = 0; ///< mm; they come nowhere nearer than `bound`
    };

    /// Pairs that may come too near, those that may come nearest first.
    std::vector<Pair> near(const Job& job) const {
        std::vector<Pair> pairs;
        std::vector<std::size_t> seen;
        for (std::size_t i = 0; i < m_field.things.size() && !job.stopped(); ++i) {
            const Thing& t = m_field.things[i];
            if (t.motion < 0 && !ownedByMechanism(t)) continue;
            // One side of a many-sided drum meets what its neighbour met.
            if (std::any_of(seen.begin(), seen.end(), [&](std::size_t k) { return turnFrom(m_field, k, i); }))
                continue;
            seen.push_back(i);
            for (std::size_t j = 0; j < m_field.things.size(); ++j)
                if (m_field.compared(i, j)) add(pairs, t, m_field.things[j]);
        }
        std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
            return a.bound - a.wanted < b.bound - b.wanted;
        });
        return pairs;
    }
    void add(std::vector<Pair>& pairs, const Thing& moving, const Thing& other) const {
        Pair p{&moving, &other, m_field.between(moving, other)};
        if (toldByFit(moving, other, p.motion)) return;
        p.overlap = onlyOverlap(moving, other, p.motion);
        p.wanted = p.overlap ? -touching : m_field.wantedOf(moving, other);
        p.bound = leastBetween(moving, other, p.motion);
        if (p.bound < p.wanted + (p.overlap ? 0 : m_ample)) pairs.push_back(std::move(p));
    }
    /// A plate with an opening is in many pieces: what keeps clear of all that lies between them, keeps clear
    /// of them.
    static bool clearAsAWhole(const Pair& p, const std::vector<ConvexSolid>& ours,
                              const std::vector<ConvexSolid>& theirs, SweepOptions options) {
        constexpr std::size_t few = 4; // pieces
        if (theirs.size() <= few || options.enough <= 0) return false;
        ConvexSolid whole;
        for (const ConvexSolid& piece : theirs) {
            if (piece.kind != ConvexSolid::Kind::hull || piece.radius != 0) return false;
            whole.points.insert(whole.points.end(), piece.points.begin(), piece.points.end());
        }
        const auto before = [](const Vec3& a, const Vec3& b) {
            return std::lexicographical_compare(a.data(), a.data() + 3, b.data(), b.data() + 3);
        };
        std::sort(whole.points.begin(), whole.points.end(), before);
        whole.points.erase(std::unique(whole.points.begin(), whole.points.end()), whole.points.end());
        options.stop = options.enough;
        return leastOver(p.motion, ours, {whole}, options).above;
    }
    void look(const Pair& p, int steps) {
        SweepOptions options;
        options.enough = p.overlap ? p.wanted : p.wanted + std::min(m_ample, m_worst.margin) - enoughShort;
        options.stop = p.overlap ? -touching : -enoughShort;
        options.steps = steps;
        if (p.motion.moves.size() > 1) options.tolerance = 0.01; // mm; the search grows fast with the moves
        if (p.bound >= options.enough) return;
        const auto [ours, theirs] = piecesWithin(
            *p.moving, *p.other, p.motion, p.overlap ? -touching : std::max(options.enough, enoughShort));
        if (ours.empty() || clearAsAWhole(p, ours, theirs, options)) return;
        const SweepResult r = leastOver(p.motion, ours, theirs, options);
        if (r.above || r.clearance >= options.enough) return;
        const bool met = r.clearance < options.stop;
        if (steps <= briefly && !met) return; // not yet the least
        m_worst = {met, r.clearance - p.wanted, p.moving->name, p.other->name};
    }

    const SweepField& m_field;
    double m_ample; ///< beyond what is wanted, mm
    WorstSwept m_worst;
};

} // namespace

} // namespace mechanisms

WorstSwept nearestSwept(const MechanismSet& set, const PlateSet& plates, double ample, const Job& job) {
    if (set.motions.empty() && set.solids.empty() && set.parts.empty()) return {};
    const mechanisms::SweepField field = mechanisms::fieldOf(set, plates, {});
    return mechanisms::WorstSearch(field, ample).run(job);
}

WorstSwept worstSwept(const MechanismSet& set, const PlateSet& plates, const Job& job) {
    return nearestSwept(set, plates, 0, job);
}

} // namespace slab
