#pragma once
#include "core/base/error.h"
#include "core/units/units.h"
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace slab {

enum class Space { subject, build };
enum class Kind { length, angle, number };

/// A value at build size: mm, radians or plain.
struct Quantity {
    double value = 0;
    Kind kind = Kind::number;
    /// A length that uses the scale and no build length is its value at scale 1 times the scale; a size of
    /// nothing (a literal 0) counts as neither.
    bool usesScale = false; ///< some subject length went into it
    bool usesBuild = false; ///< some build length went into it
    bool operator==(const Quantity&) const = default;
};

struct NamedFormula {
    std::string name;
    std::string text;
    Space space = Space::build; ///< space of bare literals in `text`
    bool operator==(const NamedFormula&) const = default;
};

/// Names to values, at one scale.
struct Scope {
    std::map<std::string, Quantity, std::less<>> values;
    std::set<std::string, std::less<>> broken; ///< names that are there and have no value: theirs is wrong
    double scale = 1;
    Unit unit = Unit::mm; ///< of bare length numbers where a length is expected
    bool operator==(const Scope&) const = default;
};

/// One formula: + - * / ^, parentheses, names, literals with units, build(…), subject(…), and
/// min max abs sqrt sin cos tan asin acos atan atan2 round floor ceil pi.
///
/// Literals of length take `literalSpace` (subject: times the scale) unless build()/subject() says otherwise.
/// Units are checked: adding a length to an angle is an error. A bare number where a length is expected takes
/// the scope's unit, a bare number where an angle is expected is in degrees; a bare 0 fits any kind. A minus
/// sign between two literals needs spaces around it: "10-1/2 in" is 10.5 in. At most 4096 bytes and 64 levels
/// of nesting.
/// @error "syntax", "unknown-name", "unit-mismatch", "not-finite"; `where` = "column N"
[[nodiscard]] Expected<Quantity> evaluate(std::string_view text, const Scope& scope, Space literalSpace,
                                          Kind expected);

/// The same, of whatever kind it gives (a dimension has none declared); a bare number stays a plain number.
[[nodiscard]] Expected<Quantity> evaluateAny(std::string_view text, const Scope& scope, Space literalSpace);

struct ScopeResult {
    Scope scope;                                       ///< every name that could be evaluated
    std::vector<std::pair<std::string, Error>> errors; ///< name, why ("cycle" names the whole loop)
};
/// All named dimensions in order of need; cycles, unknown and doubled names are reported, the rest is
/// evaluated.
[[nodiscard]] ScopeResult evaluateAll(const std::vector<NamedFormula>& named, double scale, Unit unit);

/// Names that `text` uses, in order of appearance.
[[nodiscard]] std::vector<std::string> namesIn(std::string_view text);
/// `text` with a name replaced, everything else kept as typed (renaming a dimension).
[[nodiscard]] std::string renamed(std::string_view text, std::string_view from, std::string_view to);
/// Bare number on entry gets the unit written behind it: "12" -> "12 in"; anything else comes back as it was.
[[nodiscard]] std::string withUnit(std::string_view text, Unit unit);
/// A letter or underscore, then letters, digits, underscores; not a function or unit name.
[[nodiscard]] bool isValidName(std::string_view name);

} // namespace slab
