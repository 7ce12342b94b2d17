#include "core/board/formula_text.h"
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace slab::detail {

namespace {

bool isBlank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}
bool isDigit(char c) {
    return c >= '0' && c <= '9';
}
bool isLetter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

/// Places of + and - that join two terms outside all brackets.
std::vector<std::size_t> joints(const std::string& text) {
    std::vector<std::size_t> found;
    int depth = 0;
    char before = 0; // last character that is no blank
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (isBlank(c)) continue;
        if (c == '(') ++depth;
        if (c == ')') --depth;
        if (depth == 0 && (c == '+' || c == '-') && before != 0 &&
            std::string_view("+-*/^(,").find(before) == std::string_view::npos) {
            const bool tight = !isBlank(text[i - 1]);
            const bool exponent =
                tight && (text[i - 1] == 'e' || text[i - 1] == 'E') && i >= 2 && isDigit(text[i - 2]);
            // "10-1/2 in" is one literal.
            const bool mixed = tight && c == '-' && isDigit(text[i - 1]);
            if (!exponent && !mixed) found.push_back(i);
        }
        before = c;
    }
    return found;
}

std::string decimals(double value, int digits) {
    std::array<char, 400> text{};
    const auto done =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, digits);
    std::string out(text.data(), done.ptr);
    if (out.find('.') != std::string::npos) {
        out.erase(out.find_last_not_of('0') + 1);
        if (out.back() == '.') out.pop_back();
    }
    return out == "-0" ? "0" : out;
}

bool isNothing(const std::string& text) {
    const std::string t = trimmed(text);
    if (t.empty()) return true;
    const auto value = parseLength(t, Unit::mm);
    return value && *value == 0;
}

} // namespace

std::string trimmed(const std::string& text) {
    const auto from = text.find_first_not_of(" \t\r\n");
    if (from == std::string::npos) return {};
    return text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1);
}

bool isTerm(const std::string& text) {
    const std::string t = trimmed(text);
    return joints(t).empty() && !t.starts_with("-") && !t.starts_with("+");
}

Unit unitOf(const std::string& literal, Unit bare) {
    const std::string t = trimmed(literal);
    if (t.ends_with("\"") || t.ends_with("″"))
        return t.find_first_of("'") != std::string::npos || t.find("′") != std::string::npos ? Unit::ft
                                                                                             : Unit::in;
    if (t.ends_with("'") || t.ends_with("′")) return Unit::ft;
    std::size_t from = t.size();
    while (from > 0 && isLetter(t[from - 1])) --from;
    const auto unit = parseUnit(t.substr(from));
    return unit && from < t.size() ? *unit : bare;
}

std::optional<Tail> tailOf(const std::string& text) {
    const auto at = joints(text);
    if (at.empty()) return {};
    const std::string literal = trimmed(text.substr(at.back() + 1));
    const Unit unit = unitOf(literal, Unit::none);
    if (literal.empty() || literal.front() == '-' || unit == Unit::none || unit == Unit::deg ||
        unit == Unit::rad)
        return {};
    const auto value = parseLength(literal, Unit::mm);
    if (!value) return {};
    return Tail{trimmed(text.substr(0, at.back())), text[at.back()] == '-' ? -*value : *value, unit};
}

double slackOf(double step, double factor) {
    constexpr double seen = 0.005; // mm: half of the last figure that a builder could mark
    return step < 0 ? seen / std::max(1.0, factor) : 0;
}

std::string written(double mm, Unit unit) {
    return writtenWithin(mm, unit, 0);
}

std::string writtenWithin(double mm, Unit unit, double within) {
    const double close = std::max(within, 1e-10 + 1e-14 * std::abs(mm));
    if (std::abs(mm) <= (within > 0 ? within : 0)) return "0";
    if (unit == Unit::in || unit == Unit::ft) {
        UnitStyle style;
        style.unit = unit;
        style.denominator = 64;
        style.typographic = false;
        const std::string text = printLength(mm, style);
        if (const auto back = parseLength(text, unit); back && std::abs(*back - mm) <= close) return text;
    }
    const std::string name(unitName(unit));
    for (int digits = 0; digits <= 13; ++digits) {
        const std::string text = decimals(mm / unitFactor(unit), digits) + " " + name;
        if (const auto back = parseLength(text, unit); back && std::abs(*back - mm) <= close) return text;
    }
    return printExact(mm, unit);
}

std::string sumOf(const std::string& text, double mm, Unit unit, double within) {
    if (std::abs(mm) <= within) return isNothing(text) ? "0" : trimmed(text);
    if (isNothing(text)) return writtenWithin(mm, unit, within);
    return trimmed(text) + (mm < 0 ? " - " : " + ") + writtenWithin(std::abs(mm), unit, within);
}

std::string added(const std::string& a, const std::string& b, bool minus) {
    if (isNothing(b)) return isNothing(a) ? "0" : trimmed(a);
    if (isNothing(a)) return minus ? negated(b) : trimmed(b);
    const std::string t = trimmed(b);
    if (!minus && t.starts_with("-") && isTerm(t.substr(1))) return trimmed(a) + " - " + trimmed(t.substr(1));
    return trimmed(a) + (minus ? " - " : " + ") +
           (isTerm(t) || (!minus && !t.starts_with("-")) ? t : "(" + t + ")");
}

std::string negated(const std::string& text) {
    const std::string t = trimmed(text);
    if (isNothing(t)) return t.empty() ? t : "0";
    if (t.starts_with("-") && isTerm(t.substr(1))) return trimmed(t.substr(1));
    return isTerm(t) ? "-" + t : "-(" + t + ")";
}

} // namespace slab::detail
