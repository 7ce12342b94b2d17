#pragma once
// Changes of a mechanism tried on everything that is swept: the least that clears what is too near, and
// brings nothing else too near.
#include "core/mechanisms/sweep_changes.h"

namespace slab::mechanisms {

/// Indices of two compared things, as SweepField::compared() has them.
using PairOfThings = std::pair<std::size_t, std::size_t>;

/// A change that does.
struct Way {
    std::optional<Change> change; ///< nothing = other ends for `move`
    double by = 0;                ///< of the change, mm, whole steps
    bool least = true;            ///< less does not do; false where the search was given up for being long
    std::optional<Move> move;
    std::string mechanism;   ///< that moves so
    double from = 0, to = 0; ///< radians, whole degrees
};

class Trial {
public:
    /// @param bad  pairs of the carrier that are too near
    /// @param step  that changes are told in, mm
    Trial(const SweepField& field, std::string carrier, std::vector<PairOfThings> bad, double step);

    /// The least of each kind of change, of all shifts the shortest only; in the order in which a builder
    /// would like them.
    /// @param pairs  what must be clear after it, some of the bad ones; what else is too near may stay so
    [[nodiscard]] std::vector<Way> ways(const std::vector<PairOfThings>& pairs);
    [[nodiscard]] const std::vector<PairOfThings>& bad() const { return m_bad; }

private:
    [[nodiscard]] bool clear(const Changed& c, const std::vector<PairOfThings>& pairs);
    [[nodiscard]] bool pairClear(const SweepField& field, const PairOfThings& pair);
    [[nodiscard]] bool clearBy(const Change& change, double x, const std::vector<PairOfThings>& pairs);
    [[nodiscard]] std::optional<Way> least(const Change& change, const std::vector<PairOfThings>& pairs,
                                           double most);
    [[nodiscard]] std::optional<Way> range(const Move& move, const std::string& mechanism,
                                           const std::vector<PairOfThings>& pairs);

    const SweepField& m_field;
    std::string m_carrier;
    std::vector<PairOfThings> m_bad;  ///< too near now
    std::vector<PairOfThings> m_good; ///< the carrier's others; what failed last comes first
    double m_step;
    bool m_proving = false;
    int m_left; ///< distances that may still be worked out for the kind of change
};

} // namespace slab::mechanisms
