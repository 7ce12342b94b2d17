#pragma once
// Formulas as text: their trailing length, and lengths as a builder would write them. Private to the room.
#include "core/formula/formula.h"
#include <optional>

namespace slab::detail {

/// "hull_length - 0.88 m" as "hull_length" and -880.
struct Tail {
    std::string head;
    double value = 0; ///< mm, as written (no scale)
    Unit unit = Unit::mm;
};
/// The literal length at the end of a sum; nothing if it does not end so.
[[nodiscard]] std::optional<Tail> tailOf(const std::string& text);
/// A length as written: "0.85 m", "4' 2-1/2\"" in feet and inches where that is exact, else the shortest
/// decimals within 1e-10 mm.
[[nodiscard]] std::string written(double mm, Unit unit);
/// The same, no longer than it takes to be within so many mm.
[[nodiscard]] std::string writtenWithin(double mm, Unit unit, double within);
/// How far a length may be from what was meant, mm as written: 0.005 mm on the board for the step that is
/// readable, else nothing.
/// @param factor  built size / written size
[[nodiscard]] double slackOf(double step, double factor);
/// The unit that a literal ends in; `bare` where it has none.
[[nodiscard]] Unit unitOf(const std::string& literal, Unit bare);
[[nodiscard]] std::string trimmed(const std::string& text);
/// `text` + a signed length, as a sum; "0" and blanks give way.
[[nodiscard]] std::string sumOf(const std::string& text, double mm, Unit unit, double within = 0);
/// Two formulas added, or the second taken off; blanks and zeros give way, sums that are taken off get
/// brackets.
[[nodiscard]] std::string added(const std::string& a, const std::string& b, bool minus = false);
/// The formula with its sign turned.
[[nodiscard]] std::string negated(const std::string& text);
/// Has no + or - outside brackets, so that it may stand behind a minus or a factor.
[[nodiscard]] bool isTerm(const std::string& text);

} // namespace slab::detail
