#include "core/units/number.h"
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace slab {
namespace {

using Whole = std::uint64_t;
constexpr Whole kExact = Whole{1} << 53; // whole numbers up to here are doubles

struct Fraction {
    std::string_view sign;
    Whole top, bottom;
};
constexpr std::array<Fraction, 18> kFractions{{{"¼", 1, 4},
                                               {"½", 1, 2},
                                               {"¾", 3, 4},
                                               {"⅛", 1, 8},
                                               {"⅜", 3, 8},
                                               {"⅝", 5, 8},
                                               {"⅞", 7, 8},
                                               {"⅓", 1, 3},
                                               {"⅔", 2, 3},
                                               {"⅕", 1, 5},
                                               {"⅖", 2, 5},
                                               {"⅗", 3, 5},
                                               {"⅘", 4, 5},
                                               {"⅙", 1, 6},
                                               {"⅚", 5, 6},
                                               {"⅐", 1, 7},
                                               {"⅑", 1, 9},
                                               {"⅒", 1, 10}}};

struct Name {
    std::string_view text;
    Unit unit;
};
constexpr std::array<Name, 18> kNames{{{"mm", Unit::mm},
                                       {"cm", Unit::cm},
                                       {"m", Unit::m},
                                       {"in", Unit::in},
                                       {"inch", Unit::in},
                                       {"inches", Unit::in},
                                       {"ft", Unit::ft},
                                       {"foot", Unit::ft},
                                       {"feet", Unit::ft},
                                       {"deg", Unit::deg},
                                       {"degree", Unit::deg},
                                       {"degrees", Unit::deg},
                                       {"rad", Unit::rad},
                                       {"radian", Unit::rad},
                                       {"radians", Unit::rad},
                                       {"millimetres", Unit::mm},
                                       {"metres", Unit::m},
                                       {"centimetres", Unit::cm}}};
// Double marks first: '' is an inch mark, not two foot marks.
constexpr std::array<Name, 9> kMarks{{{"''", Unit::in},
                                      {"\"", Unit::in},
                                      {"″", Unit::in},
                                      {"”", Unit::in},
                                      {"'", Unit::ft},
                                      {"′", Unit::ft},
                                      {"’", Unit::ft},
                                      {"°", Unit::deg},
                                      {"º", Unit::deg}}};
constexpr std::array<std::string_view, 4> kWideBlanks{"\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89",
                                                      "\xE2\x80\x88"};

bool digit(std::string_view t, std::size_t i) {
    return i < t.size() && t[i] >= '0' && t[i] <= '9';
}
bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

const Fraction* fractionAt(std::string_view t, std::size_t i) {
    for (const Fraction& f : kFractions)
        if (t.substr(i).starts_with(f.sign)) return &f;
    return nullptr;
}

/// top / bottom, both whole, or (when they do not fit) the decimal digits as typed.
struct Number {
    Whole top = 0, bottom = 1;
    bool exact = true;
    std::string_view digits; ///< as typed; only read when not exact
    std::size_t end = 0;
    bool plainWhole = false; ///< digits only: a fraction may follow
};

/// Millimetres of a unit as top / bottom; bottom is 1 or 10.
struct Factor {
    Whole top = 1;
    int tenth = 0;
};
Factor factorOf(Unit unit) {
    switch (unit) {
    case Unit::cm:
        return {10, 0};
    case Unit::m:
        return {1000, 0};
    case Unit::in:
        return {254, 1};
    case Unit::ft:
        return {3048, 1};
    default:
        return {1, 0};
    }
}

bool times(Whole& a, Whole b) {
    if (b != 0 && a > kExact / b) return false;
    a *= b;
    return true;
}

/// Decimal text times a small whole number, shifted, rounded once.
double decimalTimes(std::string_view digits, Whole factor, int shift) {
    std::string reversed, mantissa;
    int exponent = -shift;
    bool point = false;
    std::size_t i = 0;
    for (; i < digits.size() && digits[i] != 'e' && digits[i] != 'E'; ++i) {
        if (digits[i] == '.') {
            point = true;
            continue;
        }
        mantissa += digits[i];
        if (point) --exponent;
    }
    if (i < digits.size()) {
        std::size_t from = i + 1 + (digits[i + 1] == '+' ? 1 : 0);
        int typed = 0;
        const auto done = std::from_chars(digits.data() + from, digits.data() + digits.size(), typed);
        if (done.ec != std::errc{}) typed = digits[from] == '-' ? -100000 : 100000;
        exponent += std::min(100000, std::max(-100000, typed));
    }
    Whole carry = 0;
    for (auto d = mantissa.rbegin(); d != mantissa.rend(); ++d) {
        carry += static_cast<Whole>(*d - '0') * factor;
        reversed += static_cast<char>('0' + carry % 10);
        carry /= 10;
    }
    for (; carry != 0; carry /= 10) reversed += static_cast<char>('0' + carry % 10);
    std::string text(reversed.rbegin(), reversed.rend());
    text.erase(0, text.find_first_not_of('0'));
    if (text.empty()) return 0;
    const bool large = static_cast<long>(text.size()) + exponent > 0;
    text += 'e' + std::to_string(exponent);
    double value = 0;
    const auto done = std::from_chars(text.data(), text.data() + text.size(), value);
    if (done.ec == std::errc::result_out_of_range) return large ? HUGE_VAL : 0.0;
    return value;
}

/// Angles have no whole factor; long double keeps the text of every double readable.
double angleOf(const Number& n, Unit unit) {
    long double value = 0;
    if (n.exact)
        value = static_cast<long double>(n.top) / static_cast<long double>(n.bottom);
    else
        std::from_chars(n.digits.data(), n.digits.data() + n.digits.size(), value);
    if (unit == Unit::deg) value = value * std::numbers::pi_v<long double> / 180.0L;
    return static_cast<double>(value);
}

double valueOf(const Number& n, Unit unit) {
    if (unit == Unit::deg || (unit == Unit::rad && !n.exact)) return angleOf(n, unit);
    const Factor f = factorOf(unit);
    Whole top = n.top, bottom = n.bottom;
    if (n.exact && times(top, f.top) && times(bottom, f.tenth ? 10 : 1))
        return static_cast<double>(top) / static_cast<double>(bottom); // both exact: rounded once
    if (n.exact && n.digits.empty())
        return static_cast<double>(n.top) / static_cast<double>(n.bottom) * unitFactor(unit);
    return decimalTimes(n.digits, f.top, f.tenth);
}

Number scanDecimal(std::string_view t, std::size_t at) {
    Number n;
    std::size_t i = at;
    bool fits = true;
    const auto add = [&](char c) {
        fits = fits && times(n.top, 10) && n.top + 9 < kExact;
        if (fits) n.top += static_cast<Whole>(c - '0');
    };
    while (digit(t, i)) add(t[i++]);
    n.plainWhole = true;
    if (i < t.size() && t[i] == '.' && (digit(t, i + 1) || i > at)) {
        n.plainWhole = false;
        for (++i; digit(t, i); ++i) {
            add(t[i]);
            fits = fits && times(n.bottom, 10);
        }
    }
    if (i < t.size() && (t[i] == 'e' || t[i] == 'E')) {
        const std::size_t sign = i + 1 < t.size() && (t[i + 1] == '+' || t[i + 1] == '-') ? 1 : 0;
        if (digit(t, i + 1 + sign)) {
            i += 1 + sign;
            while (digit(t, i)) ++i;
            n.plainWhole = fits = false;
        }
    }
    n.exact = fits;
    n.digits = t.substr(at, i - at);
    n.end = i;
    return n;
}

/// whole + top / bottom.
bool addFraction(Number& n, Whole top, Whole bottom, std::size_t end) {
    Whole whole = n.top;
    if (!n.exact || bottom == 0 || !times(whole, bottom)) return false;
    n = Number{whole + top, bottom, true, {}, end, false};
    return n.top < kExact;
}

/// "1/2" at `at`, digits only and no blanks; whole numbers below 2^53.
std::optional<Number> scanFraction(std::string_view t, std::size_t at) {
    if (!digit(t, at)) return {};
    const Number top = scanDecimal(t, at);
    if (!top.plainWhole || !top.exact || top.end >= t.size() || t[top.end] != '/' || !digit(t, top.end + 1))
        return {};
    const Number bottom = scanDecimal(t, top.end + 1);
    if (!bottom.plainWhole || !bottom.exact || bottom.top == 0) return {};
    // "1/2/3" and "1/2.5" are divisions, not fractions.
    if (bottom.end < t.size() && (t[bottom.end] == '/' || t[bottom.end] == '.')) return {};
    return Number{top.top, bottom.top, true, {}, bottom.end, false};
}

Unexpected noFit(std::size_t at) {
    return fail("syntax", "This number has more digits than a fraction can hold.", std::to_string(at),
                "write it as a decimal number");
}

/// A number with its fraction, no unit yet.
Expected<Number> scanMixed(std::string_view t, std::size_t at) {
    if (const Fraction* f = fractionAt(t, at))
        return Number{f->top, f->bottom, true, {}, at + f->sign.size(), false};
    if (const auto f = scanFraction(t, at)) return *f;
    Number n = scanDecimal(t, at);
    if (!n.plainWhole) return n;
    const std::size_t next = skipBlanks(t, n.end);
    if (const Fraction* f = fractionAt(t, next)) {
        if (!addFraction(n, f->top, f->bottom, next + f->sign.size())) return noFit(at);
        return n;
    }
    std::size_t from = next;
    if (next == n.end) {
        if (n.end >= t.size() || t[n.end] != '-') return n;
        from = n.end + 1;
    }
    if (const auto f = scanFraction(t, from))
        if (!addFraction(n, f->top, f->bottom, f->end)) return noFit(at);
    return n;
}

/// The inches behind a foot mark, if they follow: "10-1/2\"", joined by blanks, by nothing or by a tight
/// dash.
Expected<std::optional<Number>> scanInches(std::string_view t, std::size_t at) {
    std::size_t from = skipBlanks(t, at);
    const bool dash = from == at && at < t.size() && t[at] == '-';
    if (dash) ++from;
    if (!beginsLiteral(t, from)) return std::optional<Number>{};
    auto inches = scanMixed(t, from);
    if (!inches) return tl::make_unexpected(inches.error());
    std::size_t end = 0;
    const std::size_t next = skipBlanks(t, inches->end);
    const auto unit = unitAt(t, next, end);
    // "4' 2": what else than inches could stand there? Behind a dash it could be a subtraction.
    if (!unit && !dash && !(next < t.size() && letter(t[next]))) return std::optional<Number>(*inches);
    if (unit != Unit::in)
        return fail("syntax", "The number behind the feet needs an inch mark.", std::to_string(from),
                    "write 7' 10\" for one length, or put spaces around the minus sign to subtract");
    inches->end = end;
    return std::optional<Number>(*inches);
}

Literal feetAndInches(const Number& feet, const Number& inches) {
    Literal out{0, Unit::ft, inches.end};
    Whole top = feet.top, bottom = feet.bottom, other = inches.top;
    const bool fits = feet.exact && inches.exact && times(top, 12) && times(top, inches.bottom) &&
                      times(other, feet.bottom) && times(bottom, inches.bottom);
    if (fits)
        out.value = valueOf(Number{top + other, bottom, true, {}, 0, false}, Unit::in);
    else
        out.value = valueOf(feet, Unit::ft) + valueOf(inches, Unit::in);
    return out;
}

} // namespace

std::size_t skipBlanks(std::string_view t, std::size_t at) {
    while (at < t.size()) {
        const char c = t[at];
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
            ++at;
            continue;
        }
        std::size_t wide = 0;
        for (std::string_view blank : kWideBlanks)
            if (t.substr(at).starts_with(blank)) wide = blank.size();
        if (wide == 0) break;
        at += wide;
    }
    return at;
}

std::string columnOf(std::string_view text, std::size_t byte) {
    std::size_t column = 1;
    for (std::size_t i = 0; i < byte && i < text.size(); ++i)
        if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U) ++column;
    return "column " + std::to_string(column);
}

std::string shortened(std::string_view text) {
    constexpr std::size_t kMost = 60;
    if (text.size() <= kMost) return std::string(text);
    std::size_t end = kMost;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return std::string(text.substr(0, end)) + "…";
}

bool beginsLiteral(std::string_view t, std::size_t at) {
    if (at >= t.size()) return false;
    return digit(t, at) || (t[at] == '.' && digit(t, at + 1)) || fractionAt(t, at) != nullptr;
}

std::optional<Unit> unitAt(std::string_view t, std::size_t at, std::size_t& end) {
    if (at >= t.size()) return {};
    for (const Name& mark : kMarks)
        if (t.substr(at).starts_with(mark.text)) {
            end = at + mark.text.size();
            return mark.unit;
        }
    std::size_t i = at;
    while (i < t.size() && (letter(t[i]) || (i > at && digit(t, i)))) ++i;
    for (const Name& name : kNames)
        if (t.substr(at, i - at) == name.text) {
            end = i;
            return name.unit;
        }
    return {};
}

Expected<Literal> scanLiteral(std::string_view t, std::size_t start, Unit bare) {
    auto number = scanMixed(t, start);
    if (!number) return tl::make_unexpected(number.error());
    std::size_t end = number->end;
    const auto unit = unitAt(t, skipBlanks(t, number->end), end);
    if (unit == Unit::ft) {
        const auto inches = scanInches(t, end);
        if (!inches) return tl::make_unexpected(inches.error());
        if (*inches) return feetAndInches(*number, **inches);
    }
    Literal out{valueOf(*number, unit.value_or(bare)), unit.value_or(Unit::none), unit ? end : number->end};
    if (!std::isfinite(out.value))
        return fail("syntax", "This number is too large.", std::to_string(start), "write a smaller number");
    return out;
}

} // namespace slab
