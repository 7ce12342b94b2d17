#pragma once
// What makes one layout better than another.
#include "core/nesting/construct.h"

namespace slab::nesting {

/// Compared in this order: unplaced copies, money, sheets (strip: length), then how large the offcuts are.
struct Merit {
    int unplaced = 0;
    double cost = 0;
    double count = 0; ///< sheets, or strip length, mm
    double rest = 0;  ///< mm²; less means larger offcuts, and a sheet nearer to being saved
    auto operator<=>(const Merit&) const = default;
};
[[nodiscard]] Merit meritOf(const Task& task, const Build& build);

/// What a straight cut across a sheet leaves to its parts; beyond it lies one useful offcut.
struct Taken {
    double reach = 0;    ///< where the cut is, mm
    bool across = false; ///< the cut is at a y, not at an x
    double area = 0;     ///< mm²
};
[[nodiscard]] Taken takenOf(const Task& task, const Filled& filled);

/// The build as plain values, places in the order they were put down.
[[nodiscard]] NestResult resultOf(const Task& task, const Build& build);

} // namespace slab::nesting
