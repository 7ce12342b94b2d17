#pragma once
#include "core/base/error.h"
#include <string>
#include <string_view>

namespace slab {

enum class Unit { mm, cm, m, in, ft, deg, rad, none };

/// How lengths are printed for the builder.
struct UnitStyle {
    Unit unit = Unit::mm;    ///< mm, cm, m, in (inches only) or ft (feet and inches)
    int denominator = 16;    ///< nearest 1/denominator inch
    int decimals = 0;        ///< metric: digits behind the point of mm (cm: +1, m: +3)
    bool typographic = true; ///< 7′ 5-1/4″ (to eighths 7′ 5¼″) instead of 7' 5-1/4"
    bool operator==(const UnitStyle&) const = default;
};

/// Inches, or feet and inches.
[[nodiscard]] constexpr bool isInch(const UnitStyle& style) {
    return style.unit == Unit::in || style.unit == Unit::ft;
}

/// Millimetres (lengths), radians (angles) or 1 (none) of one unit. 1 in = 25.4 mm exactly (international
/// inch, 1959).
[[nodiscard]] double unitFactor(Unit unit);
[[nodiscard]] std::string_view unitName(Unit unit);
[[nodiscard]] Expected<Unit> parseUnit(std::string_view name);

/// A single length literal, no formula: "2.4 m", "610mm", "3/4 in", "10-1/2 in" (= 10.5 in), "7' 10-1/2\"",
/// "7 ft 10 1/2 in", "7′ 5¼″", "-3 mm"; a bare number takes `bare`.
/// @return mm
/// @error "bad-length", with the column in `where`
[[nodiscard]] Expected<double> parseLength(std::string_view text, Unit bare);
/// "32°", "32 deg", "0.5 rad"; bare number = degrees. @return radians
[[nodiscard]] Expected<double> parseAngle(std::string_view text);
/// "0.4", "2/5", "2:5", "1:2.5", "40 %". @return plain number @error "bad-ratio"
[[nodiscard]] Expected<double> parseRatio(std::string_view text);

/// Printed to the style's rounding; ties away from zero; fractions reduced.
[[nodiscard]] std::string printLength(double mm, const UnitStyle& style);
[[nodiscard]] std::string printAngle(double radians, int decimals = 1); ///< "14.5°"
/// The least that printLength() shows and that is not under `mm`: what is cut or moved by it is enough.
[[nodiscard]] std::string printLengthUp(double mm, const UnitStyle& style);
/// Thickness as measured with a caliper, whatever the style's rounding: "6.5 mm", "12.7 mm"; inch styles 1/64
/// in where that is meant ("1/2″"), else thousandths ("0.451″").
[[nodiscard]] std::string printThickness(double mm, const UnitStyle& style);
/// A small length that the style's rounding would lose ("0.4 mm", "0.016″"); others like printLength.
[[nodiscard]] std::string printFine(double mm, const UnitStyle& style);
/// A length that is marked off many times in a row: "79.57 mm", "3.133″".
[[nodiscard]] std::string printHundredths(double mm, const UnitStyle& style);
/// Smallest number of so many decimals that is not less than `value`, without needless zeros: a least scale
/// that is printed and typed in again still fits.
[[nodiscard]] std::string printRatioUp(double value, int decimals = 4);
[[nodiscard]] std::string printArea(double mm2, const UnitStyle& style);
/// "12.3 cm³", small ones in mm³; inch styles "0.75 in³".
[[nodiscard]] std::string printVolume(double mm3, const UnitStyle& style);
/// "24 kg", below ten "4.5 kg"; inch styles in lb (1 lb = 0.45359237 kg, international pound of 1959).
[[nodiscard]] std::string printMass(double kilograms, const UnitStyle& style);
/// The same, rounded up: what carries so much is enough.
[[nodiscard]] std::string printMassUp(double kilograms, const UnitStyle& style);
/// Shortest text that parses back to the very same double, in the given unit ("609.6 mm").
[[nodiscard]] std::string printExact(double value, Unit unit);

} // namespace slab
