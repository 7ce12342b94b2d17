#include "core/formula/formula.h"
#include "core/formula/parser.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

using detail::Value;

const char* wanted(Kind kind) {
    return kind == Kind::length ? "a length" : kind == Kind::angle ? "an angle" : "a plain number";
}

/// A formula of numbers without units takes the unit of the field.
Expected<Quantity> bareAs(const Value& v, const Scope& scope, Kind expected) {
    Quantity q{v.value, expected, false, false};
    if (expected == Kind::angle) {
        q.value *= unitFactor(Unit::deg);
        return q;
    }
    if (v.bareSubject && v.bareBuild)
        return fail("unit-mismatch", "Numbers inside and outside of build() or subject() have no unit.",
                    "column 1", "write the unit behind them, as in build(3 in)");
    q.value *= unitFactor(scope.unit);
    if (v.bareSubject) q.value *= scope.scale;
    q.usesScale = v.bareSubject && v.value != 0;
    q.usesBuild = v.bareBuild && v.value != 0;
    return q;
}

Expected<Quantity> asKind(const Value& v, const Scope& scope, Kind expected) {
    const Kind kind = v.length == 1 ? Kind::length : v.angle == 1 ? Kind::angle : Kind::number;
    const bool simple =
        (v.length == 0 || v.length == 1) && (v.angle == 0 || v.angle == 1) && v.length + v.angle < 2;
    if (simple && kind == expected) return Quantity{v.value, kind, v.usesScale, v.usesBuild};
    if (simple && kind == Kind::number && !v.named) return bareAs(v, scope, expected);
    return fail("unit-mismatch",
                "This gives " + detail::kindName(v.length, v.angle) + ", but " + wanted(expected) +
                    " is needed.",
                "column 1",
                expected == Kind::length && simple && kind == Kind::number
                    ? "multiply by a length, as in * 1 in"
                    : "correct the formula, or the unit behind its numbers");
}

} // namespace

Expected<Quantity> evaluate(std::string_view text, const Scope& scope, Space literalSpace, Kind expected) {
    const auto value = detail::Parser(text, scope, literalSpace).run();
    if (!value) return tl::make_unexpected(value.error());
    auto quantity = asKind(*value, scope, expected);
    if (quantity && !std::isfinite(quantity->value))
        return fail("not-finite", "This has no finite value.", "column 1", "change the values that go in");
    return quantity;
}

Expected<Quantity> evaluateAny(std::string_view text, const Scope& scope, Space literalSpace) {
    const auto value = detail::Parser(text, scope, literalSpace).run();
    if (!value) return tl::make_unexpected(value.error());
    const bool angle = value->angle == 1 && value->length == 0;
    const Kind kind = angle ? Kind::angle : value->length == 1 ? Kind::length : Kind::number;
    return asKind(*value, scope, kind);
}

} // namespace slab
