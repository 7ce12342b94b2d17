#include "core/units/units.h"
#include "core/units/number.h"
#include <cmath>
#include <numbers>
#include <utility>

namespace slab {
namespace {

constexpr const char* kLengthHelp = "write it like 610 mm, 2.4 m, 3/4 in or 7' 10-1/2\"";

/// Takes a leading sign off; the byte behind it and the blanks that follow.
std::pair<double, std::size_t> sign(std::string_view text) {
    const std::size_t at = skipBlanks(text, 0);
    if (at < text.size() && (text[at] == '-' || text[at] == '+'))
        return {text[at] == '-' ? -1.0 : 1.0, skipBlanks(text, at + 1)};
    if (text.substr(at).starts_with("−")) return {-1.0, skipBlanks(text, at + 3)};
    return {1.0, at};
}

/// The whole text as one signed literal.
Expected<Literal> whole(std::string_view text, Unit bare, const std::string& code,
                        const std::string& remedy) {
    const auto [factor, at] = sign(text);
    if (!beginsLiteral(text, at))
        return fail(code, at >= text.size() ? "Nothing is written here." : "A number is expected here.",
                    columnOf(text, at), remedy);
    auto literal = scanLiteral(text, at, bare);
    if (!literal)
        return fail(code, literal.error().message, columnOf(text, std::stoul(literal.error().where)),
                    literal.error().remedy);
    const std::size_t end = skipBlanks(text, literal->end);
    if (end < text.size())
        return fail(code, "This cannot be read as one size: " + shortened(text) + ".", columnOf(text, end),
                    remedy);
    literal->value *= factor;
    return literal;
}

} // namespace

double unitFactor(Unit unit) {
    switch (unit) {
    case Unit::mm:
        return 1;
    case Unit::cm:
        return 10;
    case Unit::m:
        return 1000;
    case Unit::in:
        return 25.4;
    case Unit::ft:
        return 304.8;
    case Unit::deg:
        return std::numbers::pi / 180;
    case Unit::rad:
    case Unit::none:
        break;
    }
    return 1;
}

std::string_view unitName(Unit unit) {
    switch (unit) {
    case Unit::mm:
        return "mm";
    case Unit::cm:
        return "cm";
    case Unit::m:
        return "m";
    case Unit::in:
        return "in";
    case Unit::ft:
        return "ft";
    case Unit::deg:
        return "deg";
    case Unit::rad:
        return "rad";
    case Unit::none:
        break;
    }
    return "";
}

Expected<Unit> parseUnit(std::string_view name) {
    std::size_t end = 0;
    if (const auto unit = unitAt(name, 0, end); unit && end == name.size()) return *unit;
    return fail("bad-unit", "\"" + shortened(name) + "\" is not a unit.", {},
                "use mm, cm, m, in or ft, and deg or rad for angles");
}

Expected<double> parseLength(std::string_view text, Unit bare) {
    const auto literal = whole(text, bare, "bad-length", kLengthHelp);
    if (!literal) return tl::make_unexpected(literal.error());
    if (literal->unit == Unit::deg || literal->unit == Unit::rad)
        return fail("bad-length", "This is an angle, not a length.", columnOf(text, 0), kLengthHelp);
    return literal->value;
}

Expected<double> parseAngle(std::string_view text) {
    const auto literal = whole(text, Unit::deg, "bad-angle", "write it like 32° or 0.5 rad");
    if (!literal) return tl::make_unexpected(literal.error());
    if (literal->unit != Unit::deg && literal->unit != Unit::rad && literal->unit != Unit::none)
        return fail("bad-angle", "This is a length, not an angle.", columnOf(text, 0),
                    "write it like 32° or 0.5 rad");
    return literal->value;
}

Expected<double> parseRatio(std::string_view text) {
    const std::string help = "write it like 0.4, 2/5, 1:2.5 or 40 %";
    const auto [factor, start] = sign(text);
    const auto number = [&](std::size_t at) -> Expected<Literal> {
        if (!beginsLiteral(text, at))
            return fail("bad-ratio",
                        at >= text.size() ? "A number is missing here." : "A number is expected here.",
                        columnOf(text, at), help);
        auto literal = scanLiteral(text, at, Unit::none);
        if (!literal)
            return fail("bad-ratio", literal.error().message,
                        columnOf(text, std::stoul(literal.error().where)), help);
        if (literal->unit != Unit::none)
            return fail("bad-ratio", "A ratio has no unit.", columnOf(text, at), help);
        return literal;
    };
    const auto first = number(start);
    if (!first) return tl::make_unexpected(first.error());
    double value = first->value;
    std::size_t at = skipBlanks(text, first->end);
    if (at < text.size() && (text[at] == ':' || text[at] == '/')) {
        const std::size_t from = skipBlanks(text, at + 1);
        const auto second = number(from);
        if (!second) return tl::make_unexpected(second.error());
        if (second->value == 0)
            return fail("bad-ratio", "A ratio to 0 has no size.", columnOf(text, from), help);
        value /= second->value;
        at = skipBlanks(text, second->end);
    } else if (at < text.size() && text[at] == '%') {
        value /= 100;
        at = skipBlanks(text, at + 1);
    }
    if (at < text.size())
        return fail("bad-ratio", "This cannot be read as a ratio: " + shortened(text) + ".",
                    columnOf(text, at), help);
    if (!std::isfinite(value))
        return fail("bad-ratio", "This ratio is too large.", columnOf(text, start), help);
    return factor * value;
}

} // namespace slab
