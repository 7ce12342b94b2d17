#pragma once
// What to measure on the real donor, and the sizes that follow. More is measured than is needed, so that a
// wrong reading shows.
#include "core/donor/donor.h"
#include <array>
#include <utility>

namespace slab {

/// A sum of named sizes, each times a factor, and a constant, mm.
struct SizeSum {
    std::vector<std::pair<std::string, double>> terms;
    double constant = 0;
    bool operator==(const SizeSum&) const = default;
};
/// A spot on the donor, in donor axes.
struct Mark {
    std::array<SizeSum, 3> at;
    bool operator==(const Mark&) const = default;
};

/// Something to be measured. Its reading equals `from` to `to` along `axis`.
struct Measure {
    std::string letter; ///< on the sheet: "A", "B", …, "AA"; I and O are left out
    std::string name;   ///< in the document: "axle_to_footplate"
    std::string words;  ///< what and where
    Kind kind = Kind::length;
    int axis = 2; ///< 0 along, 1 across, 2 up; -1: of no line on the drawing, `sum` alone counts
    Mark from, to;
    SizeSum sum;       ///< that the reading equals
    double spread = 2; ///< standard deviation of a careful reading, mm, radians or a number (from memory)
    bool operator==(const Measure&) const = default;
};
/// The sheet of a kind, in the order of its letters; empty for "none".
[[nodiscard]] std::vector<Measure> measuringSheet(const std::string& kind);
/// Value of a sum with the sizes given, each as donorSizes() has it where it is absent from `sizes`.
[[nodiscard]] double valueOf(const SizeSum& sum, const std::vector<DonorSize>& sizes);

struct MeasureReading {
    int measure = 0;  ///< of the sheet
    double value = 0; ///< mm, radians or a number
    bool operator==(const MeasureReading&) const = default;
};
/// How one reading goes with the others.
struct ReadingCheck {
    double fitted = 0;     ///< what the sizes found make of it
    double residual = 0;   ///< reading less `fitted`
    double redundancy = 0; ///< 0: nothing checks it, 1: the others know it better than it does itself
    double expected = 0;   ///< what the others alone make of it; `fitted` where nothing checks it
    bool leftOut = false;  ///< most likely wrong: the sizes follow from the others
    bool says = true;      ///< false: it speaks of sizes that no set of readings determines
    bool operator==(const ReadingCheck&) const = default;
};
struct MeasuredDonor {
    std::vector<std::pair<std::string, double>> sizes; ///< that the readings determine
    /// Sizes that the readings speak of and do not determine: changed as little as makes the readings hold,
    /// each in proportion to its generic value.
    std::vector<std::pair<std::string, double>> shared;
    std::vector<std::string> open;    ///< sizes that are not determined
    std::vector<ReadingCheck> checks; ///< one a reading
    /// Readings of which one is wrong and that nothing tells apart; empty = all agree, or `leftOut` says
    /// which.
    std::vector<int> doubtful;
    bool operator==(const MeasuredDonor&) const = default;
};
/// Sizes by weighted least squares; of what only sums are read the sums hold. A reading whose
/// residual lies too far outside its spread is left out, the likeliest first: the one without which the rest
/// agrees best (the square of residual / (spread √redundancy) is what leaving it out takes off the sum of
/// squares).
/// @param readings  `measure` within the sheet, values finite
/// @source  W. Baarda 1968: data snooping, 3.29 for one in a thousand
[[nodiscard]] MeasuredDonor measured(const std::string& kind, const std::vector<MeasureReading>& readings);

} // namespace slab
