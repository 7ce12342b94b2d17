#include "core/picture/typed.h"
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace slab {

namespace {

double rounded(double value, double step, bool up) {
    const double steps = value / step;
    return step * (up ? std::ceil(steps - 1e-9) : std::round(steps));
}

/// The step next below a standard error, mm; the style is made to print it.
double roundTo(double error, UnitStyle& style) {
    if (isInch(style)) {
        style.denominator = 64;
        while (style.denominator > 2 && 25.4 / (style.denominator / 2) <= error) style.denominator /= 2;
        return 25.4 / style.denominator;
    }
    double step = 0.1;
    for (double s : {0.2, 0.5, 1.0, 2.0, 5.0, 10.0})
        if (s <= error) step = s;
    style.decimals = step < 1 ? 1 : 0;
    return step;
}

} // namespace

std::string plainNumber(double value, int decimals) {
    std::array<char, 400> text{};
    const auto done =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, decimals);
    std::string out(text.data(), done.ptr);
    if (out.find('.') != std::string::npos) {
        out.erase(out.find_last_not_of('0') + 1);
        if (out.back() == '.') out.pop_back();
    }
    return out == "-0" ? "0" : out;
}

Text typedLength(double mm, double error, Unit unit, bool up) {
    UnitStyle style;
    style.unit = unit;
    style.typographic = false;
    return printLength(rounded(mm, roundTo(error, style), up), style);
}

std::string measuredText(const Measured& length, const UnitStyle& units) {
    UnitStyle style = units;
    const double value = rounded(length.value, roundTo(length.error, style), false);
    // A coarse step does not change how fractions are written: beside it they are in the builder's own.
    style.denominator = std::max(style.denominator, units.denominator);
    return printLength(value, style) + " ± " + printFine(length.error, units);
}

Text fineLength(double mm, Unit unit) {
    const bool inch = unit == Unit::in || unit == Unit::ft;
    const int decimals = unit == Unit::cm || unit == Unit::in ? 4
                         : unit == Unit::m                    ? 6
                         : unit == Unit::ft                   ? 5
                                                              : 3;
    if (!inch && unit != Unit::cm && unit != Unit::m) unit = Unit::mm;
    return plainNumber(mm / unitFactor(unit), decimals) + " " + std::string(unitName(unit));
}

Text pixelText(double px) {
    return plainNumber(px, 2);
}

Text shiftedLength(const Text& text, double by, Unit unit) {
    if (text.find_first_not_of(" \t\r\n") == std::string::npos) return fineLength(by, unit);
    if (const auto literal = parseLength(text, unit)) return fineLength(*literal + by, unit);
    int depth = 0;
    for (std::size_t i = text.size(); i-- > 2;) {
        depth += text[i] == ')' ? 1 : text[i] == '(' ? -1 : 0;
        if (depth != 0 || text[i] != ' ' || text[i - 2] != ' ' || (text[i - 1] != '+' && text[i - 1] != '-'))
            continue;
        const auto last = parseLength(text.substr(i + 1), unit);
        if (!last) break;
        const double more = (text[i - 1] == '+' ? *last : -*last) + by;
        const std::string size = fineLength(std::abs(more), unit);
        return text.substr(0, i - 2) + (more < 0 ? " - " : " + ") + size;
    }
    return text + (by < 0 ? " - " : " + ") + fineLength(std::abs(by), unit);
}

std::string freeName(std::string wanted, const std::vector<std::string>& taken) {
    for (char& c : wanted) // what names of a document may not hold
        if (std::string_view("/*#|").find(c) != std::string_view::npos) c = ' ';
    if (wanted.find_first_not_of(' ') == std::string::npos) wanted = "unnamed";
    std::string name = wanted;
    for (int i = 2; std::find(taken.begin(), taken.end(), name) != taken.end(); ++i)
        name = wanted + " " + std::to_string(i);
    return name;
}

} // namespace slab
