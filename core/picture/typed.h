#pragma once
// Figures as texts of a document.
#include "core/document/basics.h"
#include "core/picture/homography.h"

namespace slab {

/// A measured length as it is typed: rounded to the step next below its standard error (1, 2, 5 × 10ⁿ mm;
/// inches to 1/64 up to 1/2), at least 0.1 mm or 1/64 in, at most 10 mm or 1/2 in.
/// @param up  round up (an uncertainty) instead of to the nearest
[[nodiscard]] Text typedLength(double mm, double error, Unit unit, bool up = false);

/// A measured length with its standard error, in words: rounded as typedLength rounds it, so that what is
/// read is what is taken over.
[[nodiscard]] std::string measuredText(const Measured& length, const UnitStyle& units);

/// A length as it is typed where no rounding may show: to 0.001 mm or 0.0001 in, without needless zeros.
[[nodiscard]] Text fineLength(double mm, Unit unit);
/// Decimal digits whatever the computer's language, without needless zeros.
[[nodiscard]] std::string plainNumber(double value, int decimals);
/// A pixel coordinate, to a hundredth.
[[nodiscard]] Text pixelText(double px);
/// A length formula that is `by` mm more: a literal is changed, behind anything else a literal is added or
/// changed.
[[nodiscard]] Text shiftedLength(const Text& text, double by, Unit unit);

/// A name that nothing in `taken` has: `wanted`, or with a number behind it.
[[nodiscard]] std::string freeName(std::string wanted, const std::vector<std::string>& taken);

} // namespace slab
