#pragma once
// Frames and cleats in the pipeline: cut from the finished plates round donor and rider, then joined to them.
#include "core/evaluate/evaluate.h"
#include "core/evaluate/remembered.h"
#include "core/frames/cleats.h"

namespace slab {

/// Remembers what it made; everything is a pure function of what it is given.
class FrameStage {
public:
    /// Frames inside the plates of `e`, clear of its donor and of what moves. Findings are left in the set.
    std::shared_ptr<const FrameSet> made(const Project& project, const Evaluation& e,
                                         const std::vector<ResolvedOpening>& openings);
    /// The mechanisms with the boards that stand in what they carry; the very same set where there are none.
    std::shared_ptr<const MechanismSet> carried(const std::shared_ptr<const MechanismSet>& mechanisms,
                                                const std::shared_ptr<const FrameSet>& made);
    /// Where the boards of `e` are so narrow that they break.
    std::vector<Finding> narrow(const Evaluation& e);
    /// The plates with the frames' boards; the very same set where there are none.
    std::shared_ptr<const PlateSet> joined(const std::shared_ptr<const PlateSet>& plates,
                                           const std::shared_ptr<const FrameSet>& made);
    /// Cleats along the joints of the plates of `e`, clear of its frames, its donor and of what moves.
    std::shared_ptr<const CleatSet> cleats(const Project& project, const Evaluation& e);
    /// The plates with the cleats; the very same set where there are none.
    std::shared_ptr<const PlateSet> joined(const std::shared_ptr<const PlateSet>& plates,
                                           const std::shared_ptr<const CleatSet>& cleats);

private:
    struct Key {
        std::vector<FrameChoice> choices;
        std::vector<Finding> findings; ///< of what could not be read
        std::shared_ptr<const Body> body;
        std::shared_ptr<const PlateSet> plates;
        std::shared_ptr<const DonorSet> donor;
        std::shared_ptr<const MechanismSet> mechanisms;
        UnitStyle units = {};
        bool operator==(const Key&) const = default;
    };
    struct Pair {
        std::shared_ptr<const PlateSet> plates;
        std::shared_ptr<const FrameSet> made;
        bool operator==(const Pair&) const = default;
    };
    struct CarriedKey {
        std::shared_ptr<const MechanismSet> mechanisms;
        std::shared_ptr<const FrameSet> made;
        bool operator==(const CarriedKey&) const = default;
    };
    struct NarrowKey {
        std::shared_ptr<const FrameSet> frames;
        std::shared_ptr<const StockSet> stock;
        UnitStyle units = {};
        bool operator==(const NarrowKey&) const = default;
    };
    struct CleatKey {
        std::vector<CleatChoice> choices;
        std::vector<Finding> findings; ///< of what could not be read
        std::shared_ptr<const PlateSet> plates;
        std::shared_ptr<const DonorSet> donor;
        std::shared_ptr<const MechanismSet> mechanisms;
        UnitStyle units = {};
        bool operator==(const CleatKey&) const = default;
    };
    struct CleatPair {
        std::shared_ptr<const PlateSet> plates;
        std::shared_ptr<const CleatSet> cleats;
        bool operator==(const CleatPair&) const = default;
    };
    Remembered<Key, FrameSet> m_made;
    Remembered<CarriedKey, MechanismSet> m_carried;
    Remembered<NarrowKey, std::vector<Finding>> m_narrow;
    Remembered<Pair, PlateSet> m_joined;
    Remembered<CleatKey, CleatSet> m_cleats;
    Remembered<CleatPair, PlateSet> m_withCleats;
};

} // namespace slab
