#include "core/formula/parser.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab::detail {
namespace {

constexpr std::array<std::string_view, 14> kFunctions{"min",   "max",   "abs",   "sqrt", "sin",
                                                      "cos",   "tan",   "asin",  "acos", "atan",
                                                      "atan2", "round", "floor", "ceil"};

Unexpected bad(std::string message, std::string remedy = {}) {
    return fail("unit-mismatch", std::move(message), {}, std::move(remedy));
}

/// All arguments of one kind; a bare 0 takes the kind of the others.
Expected<Value> alike(std::string_view name, const std::vector<Value>& in) {
    Value kind = in.front();
    for (const Value& v : in)
        if (kind.zero && !v.zero) kind = v;
    Value out = kind;
    for (const Value& v : in) {
        if (!v.zero && !sameKind(v, kind))
            return bad(std::string(name) + "() compares " + kindName(kind.length, kind.angle) + " with " +
                           kindName(v.length, v.angle) + ".",
                       "give all of its values the same kind");
        out = joined(out, v);
    }
    out.zero = false;
    return out;
}

Expected<Value> leastOrGreatest(std::string_view name, const std::vector<Value>& in) {
    auto out = alike(name, in);
    if (!out) return out;
    out->value = in.front().value;
    for (const Value& v : in)
        out->value = name == "min" ? std::min(out->value, v.value) : std::max(out->value, v.value);
    return out;
}

Expected<Value> root(const Value& v) {
    if (v.length % 2 != 0 || v.angle % 2 != 0)
        return bad("sqrt() of " + kindName(v.length, v.angle) + " has no unit.",
                   "take the root of a plain number or of "
                   "a length times a length");
    Value out = v;
    out.value = std::sqrt(v.value);
    out.length /= 2;
    out.angle /= 2;
    return out;
}

Expected<Value> ofAngle(std::string_view name, const Value& v) {
    if (v.length != 0 || (v.angle != 1 && !v.zero))
        return bad(std::string(name) + "() needs an angle, not " + kindName(v.length, v.angle) + ".",
                   "write " + std::string(name) + "(30°)");
    Value out = v;
    out.angle = 0;
    out.zero = false;
    out.value = name == "sin" ? std::sin(v.value) : name == "cos" ? std::cos(v.value) : std::tan(v.value);
    return out;
}

Expected<Value> toAngle(std::string_view name, const Value& v) {
    if (v.length != 0 || v.angle != 0)
        return bad(std::string(name) + "() needs a plain number, not " + kindName(v.length, v.angle) + ".",
                   "divide by another length first");
    Value out = v;
    out.angle = 1;
    out.zero = false;
    out.value = name == "asin"   ? std::asin(v.value)
                : name == "acos" ? std::acos(v.value)
                                 : std::atan(v.value);
    return out;
}

Expected<Value> rounding(std::string_view name, const Value& v) {
    if (v.length != 0 || v.angle != 0)
        return bad(std::string(name) + "() needs a plain number, not " + kindName(v.length, v.angle) + ".",
                   "write " + std::string(name) + "(x / 1 in) * 1 in");
    Value out = v;
    out.value = name == "round"   ? std::round(v.value)
                : name == "floor" ? std::floor(v.value)
                                  : std::ceil(v.value);
    return out;
}

std::size_t slips(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t corner = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, corner + (a[i - 1] == b[j - 1] ? 0U : 1U)});
            corner = above;
        }
    }
    return row[b.size()];
}

} // namespace

bool isFunction(std::string_view name) {
    return std::find(kFunctions.begin(), kFunctions.end(), name) != kFunctions.end();
}

Value joined(const Value& a, const Value& b) {
    Value out = a;
    out.usesScale = a.usesScale || b.usesScale;
    out.usesBuild = a.usesBuild || b.usesBuild;
    out.bareSubject = a.bareSubject || b.bareSubject;
    out.bareBuild = a.bareBuild || b.bareBuild;
    out.named = a.named || b.named;
    out.zero = false;
    return out;
}

std::string kindName(int length, int angle) {
    if (length == 0 && angle == 0) return "a plain number";
    if (length == 1 && angle == 0) return "a length";
    if (length == 0 && angle == 1) return "an angle";
    if (length == 2 && angle == 0) return "an area (a length times a length)";
    if (length == 3 && angle == 0) return "a volume";
    return "a length to the power " + std::to_string(length) +
           (angle != 0 ? " times an angle to the power " + std::to_string(angle) : "");
}

Expected<Value> applyFunction(std::string_view name, const std::vector<Value>& in) {
    const bool many = name == "min" || name == "max";
    const std::size_t wanted = name == "atan2" ? 2 : 1;
    if (in.empty() || (!many && in.size() != wanted))
        return fail("syntax", std::string(name) + "() takes " +
                                  (many          ? "at least one value"
                                   : wanted == 2 ? "two values"
                                                 : "one value") +
                                  ".");
    if (many) return leastOrGreatest(name, in);
    if (name == "abs") {
        Value out = in[0];
        out.value = std::abs(out.value);
        return out;
    }
    if (name == "sqrt") return root(in[0]);
    if (name == "sin" || name == "cos" || name == "tan") return ofAngle(name, in[0]);
    if (name == "asin" || name == "acos" || name == "atan") return toAngle(name, in[0]);
    if (name == "round" || name == "floor" || name == "ceil") return rounding(name, in[0]);
    auto out = alike(name, in); // atan2
    if (!out) return out;
    out->value = std::atan2(in[0].value, in[1].value);
    out->length = 0;
    out->angle = 1;
    return out;
}

std::string nearestName(std::string_view name, const Scope& scope) {
    std::string best;
    std::size_t least = 3;
    if (name.size() > 64) return best;
    for (const auto& [known, quantity] : scope.values) {
        if (known.size() > 64) continue;
        const std::size_t count = slips(name, known);
        if (count < least && count < name.size()) {
            least = count;
            best = known;
        }
    }
    return best;
}

} // namespace slab::detail
