#include "core/units/units.h"
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <numbers>
#include <numeric>

namespace slab {
namespace {

/// Nearest whole number, ties away from zero. A value within 1e-9 of a tie counts as one: sizes in inches are
/// seldom exact in millimetres.
double nearest(double value) {
    const double size = std::floor(std::abs(value) + 0.5 + 1e-9);
    return value < 0 ? -size : size;
}

/// Fixed decimals, ties away from zero, no "-0".
std::string fixed(double value, int decimals) {
    decimals = std::clamp(decimals, 0, 12);
    const double step = std::pow(10.0, decimals);
    if (std::abs(value) * step < 9e15) value = nearest(value * step) / step;
    if (value == 0) value = 0; // drops the sign of -0
    std::array<char, 400> text{};
    const auto done =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, decimals);
    return {text.data(), done.ptr};
}

/// "6.50" -> "6.5", "13.00" -> "13".
std::string withoutZeros(std::string text) {
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string fractionSign(std::int64_t top, std::int64_t bottom) {
    if (bottom == 2) return "½";
    if (bottom == 4) return top == 1 ? "¼" : "¾";
    if (bottom == 8) return top == 1 ? "⅛" : top == 3 ? "⅜" : top == 5 ? "⅝" : "⅞";
    return {};
}

/// Inches as a whole number and a reduced fraction; `parts` of 1/denominator in, not negative. Behind feet
/// the whole number is written even if it is 0 (4' 0-1/16"), as on drawings (common practice).
std::string inches(double parts, int denominator, bool typographic, bool behindFeet = false) {
    const double whole = std::floor(parts / denominator);
    auto top = static_cast<std::int64_t>(parts - whole * denominator);
    std::int64_t bottom = denominator;
    const std::string mark = typographic ? "″" : "\"";
    if (top == 0) return fixed(whole, 0) + mark;
    const auto common = std::gcd(top, bottom);
    top /= common;
    bottom /= common;
    // Sixteenths have no sign of their own: beside them all fractions are written alike.
    constexpr int finestSign = 8;
    const std::string sign =
        typographic && denominator <= finestSign ? fractionSign(top, bottom) : std::string{};
    const std::string fraction = sign.empty() ? std::to_string(top) + "/" + std::to_string(bottom) : sign;
    if (whole == 0 && !behindFeet) return fraction + mark;
    return fixed(whole, 0) + (sign.empty() ? "-" : "") + fraction + mark;
}

std::string feetOrInches(double mm, const UnitStyle& style) {
    const int denominator = std::clamp(style.denominator, 1, 1024);
    const double parts = nearest(mm / 25.4 * denominator);
    const std::string sign = parts < 0 ? "-" : "";
    const double size = std::abs(parts);
    const double foot = 12.0 * denominator;
    if (style.unit == Unit::in || size < foot) return sign + inches(size, denominator, style.typographic);
    const double feet = std::floor(size / foot);
    return sign + fixed(feet, 0) + (style.typographic ? "′ " : "' ") +
           inches(size - feet * foot, denominator, style.typographic, true);
}

std::string shortest(double value) {
    std::array<char, 64> text{};
    const auto done = std::to_chars(text.data(), text.data() + text.size(), value);
    return {text.data(), done.ptr};
}

/// Digits and exponent as plain decimal text: ("24", 2) -> "2400", ("24", -1) -> "2.4".
std::string plainDecimal(std::string digits, int exponent) {
    while (digits.size() > 1 && digits.back() == '0') {
        digits.pop_back();
        ++exponent;
    }
    if (exponent > 15 || exponent < -30) {
        std::string text = digits.substr(0, 1);
        if (digits.size() > 1) text += "." + digits.substr(1);
        return text + "e" + std::to_string(exponent + static_cast<int>(digits.size()) - 1);
    }
    if (exponent >= 0) return digits + std::string(static_cast<std::size_t>(exponent), '0');
    const auto behind = static_cast<std::size_t>(-exponent);
    if (digits.size() <= behind) digits.insert(0, behind - digits.size() + 1, '0');
    digits.insert(digits.size() - behind, ".");
    return digits;
}

/// `count` leading decimal digits of value / (divisor / 10), rounded, from the 19 leading digits of the
/// value.
std::string quotient(double value, std::uint64_t divisor, int count) {
    std::array<char, 64> text{};
    const auto done =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::scientific, 18);
    std::string digits;
    const char* c = text.data();
    for (; c != done.ptr && *c != 'e'; ++c)
        if (*c != '.') digits += *c;
    int exponent = 0;
    std::from_chars(c + (c[1] == '+' ? 2 : 1), done.ptr, exponent);
    exponent -= 18; // value = digits * 10^exponent
    std::string result;
    std::uint64_t rest = 0;
    for (std::size_t i = 0; static_cast<int>(result.size()) < count + 1; ++i) {
        rest = rest * 10 + (i < digits.size() ? static_cast<std::uint64_t>(digits[i] - '0') : 0);
        if (i >= digits.size()) --exponent;
        const auto next = rest / divisor;
        rest %= divisor;
        if (!result.empty() || next != 0) result += static_cast<char>('0' + next);
        if (static_cast<int>(result.size()) == count + 1 && i < digits.size())
            exponent += static_cast<int>(digits.size() - 1 - i);
    }
    const bool up = result.back() >= '5';
    result.pop_back();
    ++exponent;
    for (auto d = result.rbegin(); up; ++d) {
        if (d == result.rend()) {
            result.insert(0, "1");
            break;
        }
        if (*d != '9') {
            ++*d;
            break;
        }
        *d = '0';
    }
    return plainDecimal(result, exponent + 1); // the divisor is in tenths
}

std::string withName(const std::string& number, Unit unit) {
    if (unit == Unit::none) return number;
    return number + (unit == Unit::deg ? "°" : " " + std::string(unitName(unit)));
}

/// Decimal text in inches or feet: as few digits as read back to the same double.
std::string exactImperial(double value, Unit unit) {
    for (int count = 1; count <= 22; ++count) {
        std::string text = withName(quotient(value, unit == Unit::in ? 254 : 3048, count), unit);
        if (parseLength(text, unit) == value) return text;
    }
    return withName(shortest(value), Unit::mm);
}

std::string exactAngle(double value) {
    const long double degrees = static_cast<long double>(value) / (std::numbers::pi_v<long double> / 180.0L);
    std::array<char, 64> text{};
    for (int count = 0; count <= 21; ++count) {
        const auto done = std::to_chars(text.data(), text.data() + text.size(), degrees,
                                        std::chars_format::scientific, count);
        double read = 0;
        std::string digits(text.data(), done.ptr);
        std::string plain = digits;
        if (const auto e = digits.find('e'); e != std::string::npos) {
            int exponent = 0;
            std::from_chars(digits.data() + e + (digits[e + 1] == '+' ? 2 : 1), digits.data() + digits.size(),
                            exponent);
            std::string mantissa;
            for (char c : digits.substr(0, e))
                if (c != '.') mantissa += c;
            plain = plainDecimal(mantissa, exponent - count);
        }
        if (const auto back = parseAngle(plain + "°")) read = *back;
        if (read == value) return plain + "°";
    }
    return withName(shortest(value), Unit::rad);
}

} // namespace

std::string printLength(double mm, const UnitStyle& style) {
    if (!std::isfinite(mm)) return "?";
    switch (style.unit) {
    case Unit::cm:
        return fixed(mm / 10, style.decimals + 1) + " cm";
    case Unit::m:
        return fixed(mm / 1000, style.decimals + 3) + " m";
    case Unit::in:
    case Unit::ft:
        return feetOrInches(mm, style);
    default:
        return fixed(mm, style.decimals) + " mm";
    }
}

std::string printLengthUp(double mm, const UnitStyle& style) {
    constexpr double noise = 1e-9; // of a step
    const double step = isInch(style) ? 25.4 / std::clamp(style.denominator, 1, 1024)
                                      : std::pow(10.0, -std::max(style.decimals, 0));
    return printLength(std::ceil(mm / step - noise) * step, style);
}

std::string printThickness(double mm, const UnitStyle& style) {
    if (!std::isfinite(mm)) return "?";
    // A caliper reads 0.01 mm or 0.001 in (common practice).
    if (!isInch(style)) return withoutZeros(fixed(mm, 2)) + " mm";
    constexpr double half = 0.0005;
    const double inch = mm / 25.4;
    if (std::abs(inch * 64 - nearest(inch * 64)) / 64 < half) {
        UnitStyle fine = style;
        fine.denominator = 64;
        return printLength(mm, fine);
    }
    return fixed(inch, 3) + (style.typographic ? "″" : "\"");
}

std::string printFine(double mm, const UnitStyle& style) {
    if (!std::isfinite(mm)) return "?";
    const bool imperial = isInch(style);
    const double least = imperial ? 4 * 25.4 / std::max(style.denominator, 1)
                                  : 10 * std::pow(10.0, -std::max(style.decimals, 0));
    if (std::abs(mm) >= least) return printLength(mm, style);
    const std::string unit = imperial ? style.typographic ? "″" : "\"" : " mm";
    const double value = imperial ? mm / 25.4 : mm;
    if (value != 0 && std::abs(value) < 0.001) return "under 0.001" + unit;
    return (imperial ? fixed(value, 3) : withoutZeros(fixed(value, std::abs(value) < 0.1 ? 3 : 1))) + unit;
}

std::string printHundredths(double mm, const UnitStyle& style) {
    if (!std::isfinite(mm)) return "?";
    if (isInch(style)) return fixed(mm / 25.4, 3) + (style.typographic ? "″" : "\"");
    return withoutZeros(fixed(mm, 2)) + " mm";
}

std::string printRatioUp(double value, int decimals) {
    if (!std::isfinite(value)) return "?";
    decimals = std::clamp(decimals, 0, 9);
    const double step = std::pow(10.0, decimals);
    double parts = std::ceil(value * step);
    if ((parts - 1) / step >= value) --parts; // the product may have been rounded up
    std::string text = fixed(parts / step, decimals);
    if (const auto back = parseRatio(text); back && *back < value) text = fixed((parts + 1) / step, decimals);
    return withoutZeros(text);
}

std::string printAngle(double radians, int decimals) {
    if (!std::isfinite(radians)) return "?";
    return fixed(radians / unitFactor(Unit::deg), decimals) + "°";
}

std::string printArea(double mm2, const UnitStyle& style) {
    if (!std::isfinite(mm2)) return "?";
    const bool imperial = isInch(style);
    const double squareFoot = 304.8 * 304.8;
    if (imperial)
        return std::abs(mm2) < squareFoot / 10 ? fixed(mm2 / (25.4 * 25.4), 1) + " in²"
                                               : fixed(mm2 / squareFoot, 1) + " ft²";
    return std::abs(mm2) < 1e4 ? fixed(mm2 / 100, 1) + " cm²" : fixed(mm2 / 1e6, 2) + " m²";
}

std::string printVolume(double mm3, const UnitStyle& style) {
    if (!std::isfinite(mm3)) return "?";
    if (isInch(style)) return fixed(mm3 / (25.4 * 25.4 * 25.4), 3) + " in³";
    return std::abs(mm3) < 1000 ? fixed(mm3, 0) + " mm³" : fixed(mm3 / 1000, 1) + " cm³";
}

std::string printMass(double kilograms, const UnitStyle& style) {
    if (!std::isfinite(kilograms)) return "?";
    const bool imperial = isInch(style);
    const double shown = imperial ? kilograms / 0.45359237 : kilograms;
    return fixed(shown, shown < 10 ? 1 : 0) + (imperial ? " lb" : " kg");
}

std::string printMassUp(double kilograms, const UnitStyle& style) {
    const double unit = isInch(style) ? 0.45359237 : 1, shown = kilograms / unit;
    const double step = shown < 10 ? 0.1 : 1;
    return printMass(std::ceil(shown / step - 1e-9) * step * unit, style);
}

std::string printExact(double value, Unit unit) {
    if (!std::isfinite(value)) return "?";
    if (value == 0) return withName("0", unit);
    if (value < 0) return "-" + printExact(-value, unit);
    if (unit == Unit::in || unit == Unit::ft) return exactImperial(value, unit);
    if (unit == Unit::deg) return exactAngle(value);
    std::string text = shortest(value); // metric: the same digits, the point moved
    int exponent = 0;
    std::string digits;
    std::size_t i = 0;
    bool point = false;
    for (; i < text.size() && text[i] != 'e'; ++i) {
        if (text[i] == '.')
            point = true;
        else {
            digits += text[i];
            if (point) --exponent;
        }
    }
    if (i < text.size()) {
        int typed = 0;
        std::from_chars(text.data() + i + (text[i + 1] == '+' ? 2 : 1), text.data() + text.size(), typed);
        exponent += typed;
    }
    digits.erase(0, std::min(digits.find_first_not_of('0'), digits.size() - 1));
    exponent -= unit == Unit::m ? 3 : unit == Unit::cm ? 1 : 0;
    return withName(plainDecimal(digits, exponent), unit);
}

} // namespace slab
