#include "core/formula/parser.h"
#include <array>
#include <cmath>
#include <numbers>

namespace slab::detail {
namespace {

/// Counts nesting for as long as it lives.
struct Deeper {
    int& depth;
    explicit Deeper(int& d) : depth(d) { ++depth; }
    ~Deeper() { --depth; }
    Deeper(const Deeper&) = delete;
    Deeper& operator=(const Deeper&) = delete;
};

} // namespace

bool letterOnly(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
bool letterOrDigit(char c) {
    return letterOnly(c) || (c >= '0' && c <= '9');
}

Unexpected Parser::syntax(std::size_t at, std::string message, std::string remedy) const {
    return fail("syntax", std::move(message), columnOf(m_text, at), std::move(remedy));
}

Unexpected Parser::mismatch(std::size_t at, std::string message, std::string remedy) const {
    return fail("unit-mismatch", std::move(message), columnOf(m_text, at), std::move(remedy));
}

Unexpected Parser::tooDeep() const {
    return syntax(m_at, "This formula is nested more than 64 deep.", "split it over named dimensions");
}

Expected<Value> Parser::finite(Value v, std::size_t at) const {
    if (std::isfinite(v.value)) return v;
    return fail("not-finite",
                "This has no finite value (a division by zero, or a root or function outside its range).",
                columnOf(m_text, at), "change the values that go in");
}

bool Parser::take(std::string_view sign) {
    const std::size_t at = skipBlanks(m_text, m_at);
    if (!m_text.substr(at).starts_with(sign)) return false;
    m_at = at + sign.size();
    return true;
}

/// A minus sign, behind a literal, with a digit close behind it: "10-3" or "10 -3".
bool Parser::minusIsTight() const {
    return m_literal && beginsLiteral(m_text, m_at);
}

Expected<Value> Parser::run() {
    if (m_text.size() > kLongest)
        return syntax(0, "This formula is longer than 4096 letters.", "split it over named dimensions");
    if (skipBlanks(m_text, 0) >= m_text.size())
        return syntax(0, "Nothing is written here.", "write a size or a formula");
    auto value = sum();
    if (!value) return value;
    const std::size_t at = skipBlanks(m_text, m_at);
    if (at >= m_text.size()) return value;
    if (m_text[at] == ')') return syntax(at, "There is a closing bracket too many.", "remove it");
    std::size_t end = 0;
    if (letterOnly(m_text[at]) && m_literal && !unitAt(m_text, at, end)) {
        end = at;
        while (end < m_text.size() && letterOrDigit(m_text[end])) ++end;
        return syntax(at, "\"" + shortened(m_text.substr(at, end - at)) + "\" is not a unit.",
                      "use mm, cm, m, in, ft, deg or rad, or put * before a name");
    }
    return syntax(at, "An operator (+ - * /) is missing here.", "put + - * or / between the two values");
}

Expected<Value> Parser::sum() {
    const Deeper deeper(m_depth);
    if (m_depth > kDeepest) return tooDeep();
    auto left = product();
    while (left) {
        const std::size_t at = skipBlanks(m_text, m_at);
        const bool plus = take("+");
        if (!plus && !take("-") && !take("−")) break;
        if (!plus && minusIsTight())
            return syntax(at, "It is not clear whether this minus sign subtracts.",
                          "put spaces around it to subtract, as in 10 - 1/2 in");
        const auto right = product();
        if (!right) return right;
        if (!sameKind(*left, *right) && !left->zero && !right->zero)
            return mismatch(at,
                            std::string(plus ? "This adds " : "This takes ") +
                                kindName(right->length, right->angle) + (plus ? " to " : " from ") +
                                kindName(left->length, left->angle) + ".",
                            "write the unit behind each number, as in 3 in");
        Value out = joined(left->zero ? *right : *left, left->zero ? *left : *right);
        out.value = plus ? left->value + right->value : left->value - right->value;
        left = finite(out, at);
    }
    return left;
}

Expected<Value> Parser::product() {
    auto left = signedValue();
    while (left) {
        const std::size_t at = skipBlanks(m_text, m_at);
        const bool times = take("*") || take("×") || take("·");
        if (!times && !take("/") && !take("÷")) break;
        const auto right = signedValue();
        if (!right) return right;
        Value out = joined(*left, *right);
        out.value = times ? left->value * right->value : left->value / right->value;
        out.length = left->length + (times ? right->length : -right->length);
        out.angle = left->angle + (times ? right->angle : -right->angle);
        if (std::abs(out.length) > 12 || std::abs(out.angle) > 12)
            return mismatch(at, "Too many lengths or angles are multiplied here.",
                            "multiply by plain numbers, or divide by a length");
        left = finite(out, at);
    }
    return left;
}

Expected<Value> Parser::signedValue() {
    const bool minus = take("-") || take("−");
    if (!minus && !take("+")) return power();
    const Deeper deeper(m_depth);
    if (m_depth > kDeepest) return tooDeep();
    auto v = signedValue();
    if (v && minus) v->value = -v->value;
    return v;
}

Expected<Value> Parser::power() {
    auto base = operand();
    if (!base) return base;
    const std::size_t at = skipBlanks(m_text, m_at);
    if (!take("^")) return base;
    const Deeper deeper(m_depth);
    if (m_depth > kDeepest) return tooDeep();
    const auto exponent = signedValue(); // binds to the right: 2^3^2 = 2^9
    if (!exponent) return exponent;
    if (exponent->length != 0 || exponent->angle != 0)
        return mismatch(
            at, "A power must be a plain number, not " + kindName(exponent->length, exponent->angle) + ".",
            "write a number without a unit behind ^");
    Value out = joined(*base, *exponent);
    out.value = std::pow(base->value, exponent->value);
    if (base->length != 0 || base->angle != 0) {
        const double whole = exponent->value;
        if (whole != std::floor(whole) || std::abs(whole) > 6 || exponent->named)
            return mismatch(at, "A length or angle can only be raised to a small whole power.",
                            "use 2 or 3, or sqrt()");
        out.length = base->length * static_cast<int>(whole);
        out.angle = base->angle * static_cast<int>(whole);
        if (std::abs(out.length) > 12 || std::abs(out.angle) > 12)
            return mismatch(at, "Too many lengths or angles are multiplied here.");
    }
    return finite(out, at);
}

Expected<Value> Parser::operand() {
    const std::size_t at = skipBlanks(m_text, m_at);
    if (at >= m_text.size()) return syntax(at, "The formula ends too early.", "write a value here");
    m_at = at;
    if (beginsLiteral(m_text, at)) return literal();
    if (letterOnly(m_text[at])) return word();
    if (!take("(")) {
        std::size_t end = at + 1;
        while (end < m_text.size() && (static_cast<unsigned char>(m_text[end]) & 0xC0U) == 0x80U) ++end;
        return syntax(at, "\"" + shortened(m_text.substr(at, end - at)) + "\" cannot stand here.",
                      "write a number, a name or a bracket");
    }
    auto inner = sum();
    if (!inner) return inner;
    if (!take(")")) return syntax(at, "This bracket is not closed.", "add )");
    m_literal = false;
    inner->zero = false;
    return inner;
}

/// Masses and speeds are plain numbers, kg and km/h; what stands behind one may say it otherwise.
/// @source  NIST SP 811: 1 lb is 0.453 592 37 kg, 1 mi is 1.609 344 km, both exact
std::optional<double> Parser::plainUnit() {
    struct Plain {
        std::string_view name;
        double factor;
    };
    constexpr std::array<Plain, 6> known{
        {{"kg", 1}, {"lbs", 0.45359237}, {"lb", 0.45359237}, {"km/h", 1}, {"kmh", 1}, {"mph", 1.609344}}};
    const std::size_t at = skipBlanks(m_text, m_at);
    for (const Plain& p : known) {
        if (m_text.substr(at, p.name.size()) != p.name) continue;
        const std::size_t end = at + p.name.size();
        if (end < m_text.size() && letterOrDigit(m_text[end])) continue;
        m_at = end;
        return p.factor;
    }
    return std::nullopt;
}

Expected<Value> Parser::literal() {
    const std::size_t at = m_at;
    const auto found = scanLiteral(m_text, at, Unit::none);
    if (!found) return syntax(std::stoul(found.error().where), found.error().message, found.error().remedy);
    m_at = found->end;
    m_literal = true;
    Value v;
    v.value = found->value;
    const bool subject = m_space == Space::subject;
    if (const auto plain = found->unit == Unit::none ? plainUnit() : std::nullopt) {
        v.value *= *plain;
        v.named = true;
        return finite(v, at);
    }
    switch (found->unit) {
    case Unit::none:
        v.zero = v.value == 0;
        v.bareSubject = subject && !v.zero;
        v.bareBuild = !subject && !v.zero;
        break;
    case Unit::deg:
    case Unit::rad:
        v.angle = 1;
        v.named = true;
        break;
    default:
        v.length = 1;
        v.named = true;
        if (v.value == 0) break; // nothing is nothing at any scale
        v.usesScale = subject;
        v.usesBuild = !subject;
        if (subject) v.value *= m_scope.scale;
    }
    return finite(v, at);
}

Expected<Value> Parser::word() {
    const std::size_t at = m_at;
    std::size_t end = at;
    while (end < m_text.size() && letterOrDigit(m_text[end])) ++end;
    const std::string_view text = m_text.substr(at, end - at);
    m_at = end;
    m_literal = false;
    const std::size_t next = skipBlanks(m_text, end);
    const bool bracket = next < m_text.size() && m_text[next] == '(';
    if (text == "pi" && !bracket) {
        Value v;
        v.value = std::numbers::pi;
        return v;
    }
    return bracket ? call(text, at) : name(text, at);
}

Expected<Value> Parser::name(std::string_view text, std::size_t at) {
    const auto known = m_scope.values.find(text);
    if (known == m_scope.values.end()) {
        std::size_t end = 0;
        if (unitAt(text, 0, end))
            return syntax(at, "The unit " + std::string(text) + " has no number before it.",
                          "write 1 " + std::string(text));
        if (isFunction(text) || text == "build" || text == "subject")
            return syntax(at, std::string(text) + " needs brackets.", "write " + std::string(text) + "(…)");
        if (m_scope.broken.contains(text))
            return fail("depends-on-error", "This needs " + std::string(text) + ", which has no value.",
                        columnOf(m_text, at), "correct " + std::string(text) + " first");
        const std::string near = nearestName(text, m_scope);
        return fail(
            "unknown-name", "There is no dimension named " + shortened(text) + ".", columnOf(m_text, at),
            near.empty() ? "add it to the dimensions, or correct the name" : "did you mean " + near + "?");
    }
    Value v;
    v.value = known->second.value;
    v.length = known->second.kind == Kind::length ? 1 : 0;
    v.angle = known->second.kind == Kind::angle ? 1 : 0;
    v.usesScale = known->second.usesScale;
    v.usesBuild = known->second.usesBuild;
    v.named = true;
    return finite(v, at);
}

Expected<std::vector<Value>> Parser::arguments() {
    const std::size_t open = skipBlanks(m_text, m_at);
    take("(");
    std::vector<Value> in;
    if (take(")")) return in;
    do {
        auto v = sum();
        if (!v) return tl::make_unexpected(v.error());
        in.push_back(*v);
    } while (take(","));
    if (!take(")"))
        return syntax(open, "This bracket is not closed.", "add ), and separate values by commas");
    m_literal = false;
    return in;
}

/// build(…) and subject(…): the literals inside take that space; names keep their own.
Expected<Value> Parser::spaced(Space space) {
    const Space before = m_space;
    const std::size_t at = m_at;
    m_space = space;
    auto in = arguments();
    m_space = before;
    if (!in) return tl::make_unexpected(in.error());
    if (in->size() != 1) return syntax(at, "build() and subject() take one value.", "write build(3 in)");
    return in->front();
}

Expected<Value> Parser::call(std::string_view text, std::size_t at) {
    if (text == "build") return spaced(Space::build);
    if (text == "subject") return spaced(Space::subject);
    if (!isFunction(text))
        return syntax(at, "There is no function named " + shortened(text) + ".",
                      "the functions are min max abs sqrt sin cos tan asin acos atan atan2 round floor ceil, "
                      "build and subject");
    const auto in = arguments();
    if (!in) return tl::make_unexpected(in.error());
    auto out = applyFunction(text, *in);
    if (!out) {
        out.error().where = columnOf(m_text, at);
        return out;
    }
    return finite(*out, at);
}

} // namespace slab::detail
