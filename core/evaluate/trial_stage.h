#pragma once
// The finished thing tried out in the pipeline.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/remembered.h"
#include "core/trial/figures.h"

namespace slab {

/// Remembers what it made; everything is a pure function of what it is given.
class TrialStage {
public:
    /// @param e  shaped, with donor, plates as shown, mechanisms and stock
    /// @param effort  the map of blind ground and what each opening shows from Effort::verdict on
    std::shared_ptr<const trial::Trial> tried(const Project& project, const Evaluation& e, Effort effort);

private:
    struct Key {
        std::shared_ptr<const Body> body;
        std::shared_ptr<const PlateSet> plates;
        std::shared_ptr<const StockSet> stock;
        std::shared_ptr<const DonorSet> donor;
        std::shared_ptr<const MechanismSet> mechanisms;
        std::vector<RoutePart> route;
        Ride ride;
        std::vector<Opening> openings;
        Scope scope;
        UnitStyle units;
        int depth = 0; ///< trial::Depth
        bool operator==(const Key&) const = default;
    };
    Remembered<Key, trial::Trial> m_tried;
};

} // namespace slab
