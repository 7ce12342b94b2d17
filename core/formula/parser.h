#pragma once
// Reads one formula by recursive descent and works it out on the way. Private to the room.
#include "core/formula/formula.h"
#include "core/units/number.h"
#include <cstddef>
#include <optional>

namespace slab::detail {

inline constexpr std::size_t kLongest = 4096; ///< bytes of one formula
inline constexpr int kDeepest = 64;           ///< nested brackets, functions, signs and powers

/// An intermediate value with its dimension: length^`length` * angle^`angle`.
struct Value {
    double value = 0;
    int length = 0, angle = 0;
    bool usesScale = false, usesBuild = false;
    bool zero = false; ///< a literal 0 without unit fits any kind
    /// Made of numbers without a unit only: takes the field's unit if the whole formula is like that.
    bool bareSubject = false, bareBuild = false, named = false;
};

[[nodiscard]] inline bool sameKind(const Value& a, const Value& b) {
    return a.length == b.length && a.angle == b.angle;
}

class Parser {
public:
    Parser(std::string_view text, const Scope& scope, Space space)
        : m_text(text), m_scope(scope), m_space(space) {}
    [[nodiscard]] Expected<Value> run();

private:
    std::string_view m_text;
    const Scope& m_scope;
    Space m_space;
    std::size_t m_at = 0;
    int m_depth = 0;
    bool m_literal = false; ///< the operand before m_at ends in a literal

    Expected<Value> sum();
    Expected<Value> product();
    Expected<Value> signedValue();
    Expected<Value> power();
    Expected<Value> operand();
    Expected<Value> literal();
    std::optional<double> plainUnit();
    Expected<Value> word();
    Expected<Value> name(std::string_view word, std::size_t at);
    Expected<Value> call(std::string_view word, std::size_t at);
    Expected<Value> spaced(Space space);
    Expected<std::vector<Value>> arguments();

    bool take(std::string_view sign); ///< skips blanks, then the sign if it is there
    [[nodiscard]] bool minusIsTight() const;
    [[nodiscard]] Unexpected syntax(std::size_t at, std::string message, std::string remedy = {}) const;
    [[nodiscard]] Unexpected mismatch(std::size_t at, std::string message, std::string remedy = {}) const;
    [[nodiscard]] Unexpected tooDeep() const;
    [[nodiscard]] Expected<Value> finite(Value v, std::size_t at) const;
};

/// "a length", "a plain number", "a length times a length", …
[[nodiscard]] std::string kindName(int length, int angle);
/// Result of a function on its arguments; `names` of functions are in functionNames().
[[nodiscard]] Expected<Value> applyFunction(std::string_view name, const std::vector<Value>& in);
[[nodiscard]] bool isFunction(std::string_view name);
/// The nearest of some names within two typing slips; empty if there is none.
[[nodiscard]] std::string nearestName(std::string_view name, const Scope& scope);
/// Flags of both, for the result of an operation.
[[nodiscard]] Value joined(const Value& a, const Value& b);
[[nodiscard]] bool letterOrDigit(char c);
[[nodiscard]] bool letterOnly(char c);

} // namespace slab::detail
