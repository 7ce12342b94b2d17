#pragma once
// Exact literals: digits are kept as whole numbers until the last step, so that "0.1 m", "10 cm" and "100 mm"
// are the very same double and every double has a text that reads back to it in every unit.
#include "core/units/units.h"
#include <cstddef>
#include <optional>
#include <string_view>

namespace slab {

/// What a literal measures: Unit::none means that no unit was written.
struct Literal {
    double value = 0;       ///< mm, radians or plain
    Unit unit = Unit::none; ///< the (first) unit as written
    std::size_t end = 0;    ///< byte behind the literal
};

/// Longest literal that begins at `text[start]` (a digit, a point or a fraction sign; no sign, no blank
/// before it): "12", "1.5e3 mm", "3/4 in", "10-1/2 in", "10 1/2 in", "5¼″", "7' 10-1/2\"", "32°".
/// @param bare  unit that a number without one gets; Unit::none leaves it plain
/// @error "syntax"; `where` holds the byte offset as decimal digits (callers turn it into their own place)
[[nodiscard]] Expected<Literal> scanLiteral(std::string_view text, std::size_t start, Unit bare);

/// True where scanLiteral can begin.
[[nodiscard]] bool beginsLiteral(std::string_view text, std::size_t at);
/// Byte behind blanks (space, tab, line ends, no-break and thin spaces) from `at` on.
[[nodiscard]] std::size_t skipBlanks(std::string_view text, std::size_t at);
/// "column N" of a byte offset, counted in letters from 1.
[[nodiscard]] std::string columnOf(std::string_view text, std::size_t byte);
/// Text for a message: at most 60 bytes, cut between letters, with … where it was cut.
[[nodiscard]] std::string shortened(std::string_view text);
/// A unit as a word or a mark (ft, feet, ', ′, °, …) at `at`; the byte behind it goes to `end`.
[[nodiscard]] std::optional<Unit> unitAt(std::string_view text, std::size_t at, std::size_t& end);

} // namespace slab
