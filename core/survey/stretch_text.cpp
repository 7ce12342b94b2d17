// Lengths of a document times a factor, as text.
#include "core/survey/stretch.h"
#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>

namespace slab {

namespace {

/// Does the bracket that opens at a place close at the end?
bool closesAtEnd(const std::string& text, std::size_t open) {
    int depth = 0;
    for (std::size_t i = open; i < text.size(); ++i) {
        if (text[i] == '(') ++depth;
        if (text[i] == ')' && --depth == 0) return i + 1 == text.size();
    }
    return false;
}

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

struct Leading {
    std::optional<double> number;
    std::string_view rest;
};

/// The plain number that a text begins with, and what comes after it.
Leading leadingNumber(std::string_view text) {
    const std::string_view digits = text.starts_with('+') ? text.substr(1) : text;
    double value = 0;
    const auto [end, wrong] =
        std::from_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
    if (wrong != std::errc{}) return {std::nullopt, text};
    return {value, digits.substr(static_cast<std::size_t>(end - digits.data()))};
}

Text shortNumber(double value) {
    return printExact(std::round(value * 1e9) / 1e9, Unit::none);
}

/// One summand with its sign, as it is written.
struct Term {
    bool minus = false;
    std::string text;
};

/// Summands outside of all brackets. A dash between digits ("10-1/2 in") belongs to its number.
std::vector<Term> termsOf(std::string_view text) {
    std::vector<Term> terms(1);
    int depth = 0;
    char before = '\0'; // last that is no space
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        depth += c == '(' ? 1 : c == ')' ? -1 : 0;
        const auto digit = [](char d) { return std::isdigit(static_cast<unsigned char>(d)) != 0; };
        const bool mixed = i > 0 && i + 1 < text.size() && digit(text[i - 1]) && digit(text[i + 1]);
        const bool sign = (c == '+' || c == '-') && depth == 0 && !(c == '-' && mixed);
        const bool first = before == '\0';
        if (sign && (first || std::string_view("*/(+-^").find(before) == std::string_view::npos)) {
            if (!first) terms.emplace_back();
            terms.back().minus = c == '-';
            before = first ? c : '\0';
            continue;
        }
        terms.back().text += c;
        if (c != ' ') before = c;
    }
    for (Term& t : terms) t.text = std::string(trimmed(t.text));
    return terms;
}

/// Does a summand stand for a length of the build alone: build(…), or names that do, times numbers?
bool isBuilt(const std::string& term, const std::vector<std::string>& built) {
    constexpr std::array<std::string_view, 5> units{"mm", "cm", "m", "in", "ft"};
    bool any = false;
    for (std::size_t i = 0; i < term.size();) {
        const auto letter = [&](std::size_t k) {
            return k < term.size() &&
                   (std::isalpha(static_cast<unsigned char>(term[k])) != 0 || term[k] == '_');
        };
        if (!letter(i)) {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (letter(end) || (end < term.size() && std::isdigit(static_cast<unsigned char>(term[end])) != 0))
            ++end;
        const std::string word = term.substr(i, end - i);
        i = end;
        if (word == "build" && i < term.size() && term[i] == '(') {
            any = true;
            for (int depth = 0; i < term.size(); ++i) {
                depth += term[i] == '(' ? 1 : term[i] == ')' ? -1 : 0;
                if (depth == 0) break;
            }
        } else if (std::find(built.begin(), built.end(), word) != built.end()) {
            any = true;
        } else if (std::find(units.begin(), units.end(), word) == units.end()) {
            return false;
        }
    }
    return any;
}

std::string sum(const std::vector<Term>& terms) {
    std::string out;
    for (const Term& t : terms)
        out += out.empty() ? (t.minus ? "-" : "") + t.text : (t.minus ? " - " : " + ") + t.text;
    return out;
}

Text multipliedWhole(const Text& text, double by) {
    constexpr std::array<std::string_view, 6> units{"", "mm", "cm", "m", "in", "ft"};
    if (text.empty() || by == 1) return text;
    const auto [number, rest] = leadingNumber(trimmed(text));
    if (number && std::find(units.begin(), units.end(), trimmed(rest)) != units.end()) {
        const std::string unit(trimmed(rest));
        return shortNumber(*number * by) + (unit.empty() ? "" : " " + unit);
    }
    // What was stretched before: "0.5 * (a + b)".
    if (number && rest.starts_with(" * (") && closesAtEnd(std::string(rest), 3)) {
        const double factor = *number * by;
        if (std::abs(factor - 1) < 1e-9) return std::string(rest.substr(4, rest.size() - 5));
        return shortNumber(factor) + " * " + std::string(rest.substr(3));
    }
    return shortNumber(by) + " * (" + text + ")";
}

} // namespace

Text multiplied(const Text& text, double by, const std::vector<std::string>& built) {
    if (text.empty() || by == 1) return text;
    std::vector<Term> drawn, kept;
    for (Term& t : termsOf(text)) (isBuilt(t.text, built) ? kept : drawn).push_back(std::move(t));
    if (kept.empty()) return multipliedWhole(text, by);
    if (drawn.empty()) return text;
    kept.insert(kept.begin(), {false, multipliedWhole(sum(drawn), by)});
    return sum(kept);
}

} // namespace slab
