#include "core/mechanisms/sweep_worst.h"
#include "core/mechanisms/sweep_pairs.h"
#include <algorithm>

namespace slab {

namespace mechanisms {

namespace {

class WorstSearch {
public:
    explicit WorstSearch(const SweepField& field) : m_field(field) {}

    WorstSwept run(const Job& job) {
        std::vector<std::size_t> seen;
        for (std::size_t i = 0; i < m_field.things.size() && !m_worst.meets && !job.stopped(); ++i) {
            const Thing& t = m_field.things[i];
            if (t.motion < 0 && !ownedByMechanism(t)) continue;
            // One side of a many-sided drum meets what its neighbour met.
            if (std::any_of(seen.begin(), seen.end(), [&](std::size_t k) { return turnFrom(m_field, k, i); }))
                continue;
            seen.push_back(i);
            for (std::size_t j = 0; j < m_field.things.size() && !m_worst.meets; ++j)
                if (m_field.compared(i, j)) look(t, m_field.things[j]);
        }
        return m_worst;
    }

private:
    void look(const Thing& moving, const Thing& other) {
        const Motion motion = m_field.between(moving, other);
        if (toldByFit(moving, other, motion)) return;
        const bool overlap = onlyOverlap(moving, other, motion);
        const double wanted = overlap ? -touching : m_field.wantedOf(moving, other);
        SweepOptions options;
        options.enough = overlap ? wanted : std::min(wanted, wanted + m_worst.margin) - enoughShort;
        options.stop = overlap ? -touching : -enoughShort;
        if (motion.moves.size() > 1) options.tolerance = 0.01; // mm; the search grows fast with the moves
        if (leastBetween(moving, other, motion) >= options.enough) return;
        const auto [ours, theirs] =
            piecesWithin(moving, other, motion, overlap ? -touching : std::max(options.enough, enoughShort));
        if (ours.empty()) return;
        const SweepResult r = leastOver(motion, ours, theirs, options);
        if (r.above || r.clearance >= options.enough) return;
        m_worst = {r.clearance < options.stop, r.clearance - wanted, moving.name, other.name};
    }

    const SweepField& m_field;
    WorstSwept m_worst;
};

} // namespace

} // namespace mechanisms

WorstSwept worstSwept(const MechanismSet& set, const PlateSet& plates, const Job& job) {
    if (set.motions.empty() && set.solids.empty() && set.parts.empty()) return {};
    const mechanisms::SweepField field = mechanisms::fieldOf(set, plates, {});
    return mechanisms::WorstSearch(field).run(job);
}

} // namespace slab
