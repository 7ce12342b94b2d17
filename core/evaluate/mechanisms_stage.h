#pragma once
// Mechanisms in the pipeline: made before the plates, joined to them, swept once all is there.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/remembered.h"

namespace slab {

/// Remembers what it made; everything is a pure function of what it is given.
class MechanismStage {
public:
    /// Parts, hardware and openings. @param rules  without the openings that they ask for
    std::shared_ptr<const MechanismSet> made(const Project& project, const Evaluation& e,
                                             const PlateRules& rules);
    /// The shell's plates and the mechanisms' parts as cut: nothing is turned. The very same set where there
    /// are none.
    std::shared_ptr<const PlateSet> joined(const std::shared_ptr<const PlateSet>& shell,
                                           const std::shared_ptr<const MechanismSet>& made);
    /// The same plates as they are shown.
    std::shared_ptr<const PlateSet> shown(const std::shared_ptr<const PlateSet>& plates,
                                          const std::shared_ptr<const MechanismSet>& made);
    /// With every sweep done, or while something is dragged (below Effort::verdict) those of the same
    /// mechanisms, plates and people only. @param plates  as cut
    std::shared_ptr<const MechanismSet> swept(const std::shared_ptr<const MechanismSet>& made,
                                              const std::shared_ptr<const PlateSet>& plates,
                                              const Evaluation& e, Effort effort, const Job& job);
    /// What comes too near of all that is swept, donor and rider left out. @param plates  as cut
    [[nodiscard]] static WorstSwept worst(const Evaluation& e, const PlateSet& plates, const Job& job);

private:
    struct MadeKey {
        Mechanisms mechanisms;
        std::string fallback;
        std::shared_ptr<const Scope> scope;
        std::shared_ptr<const StockSet> stock;
        std::shared_ptr<const Body> body;
        PlateRules rules;
        bool operator==(const MadeKey& other) const;
    };
    struct PairKey {
        std::shared_ptr<const PlateSet> plates;
        std::shared_ptr<const MechanismSet> made;
        bool operator==(const PairKey&) const = default;
    };
    struct SweptKey {
        PairKey pair;
        std::shared_ptr<const DonorSet> donor;
        bool operator==(const SweptKey&) const = default;
    };
    Remembered<MadeKey, MechanismSet> m_made;
    Remembered<PairKey, PlateSet> m_joined, m_shown;
    Remembered<SweptKey, MechanismSet> m_swept;
};

} // namespace slab
