#pragma once
// Formulas of one entry of the document, each in its range; what is wrong becomes a finding.
#include "core/base/finding.h"
#include "core/formula/formula.h"
#include "core/units/units.h"
#include <cmath>
#include <limits>

namespace slab::trial {

/// Rise over run: 1/12, 1:12, 8 % or 4.8°, or a formula of a number or an angle.
/// @error as evaluate()
inline Expected<double> readSlope(const std::string& text, const Scope& scope) {
    if (const auto ratio = parseRatio(text)) return *ratio;
    const auto number = evaluate(text, scope, Space::build, Kind::number);
    if (number) return number->value;
    constexpr double upright = 1.5; // radians: steeper is no slope
    if (const auto angle = evaluate(text, scope, Space::build, Kind::angle);
        angle && std::abs(angle->value) < upright)
        return std::tan(angle->value);
    return Unexpected(number.error());
}

class Reading {
public:
    /// @param place  "/route/0";  @param words  "Door school door", at the head of messages
    Reading(const Scope& scope, std::string place, std::string words, std::vector<Finding>& findings)
        : m_scope(scope), m_place(std::move(place)), m_words(std::move(words)), m_findings(findings) {}

    /// Value of a field; empty text is `otherwise`. What cannot be read, or lies outside of low to high, is
    /// told and `otherwise` too.
    double value(const char* field, const std::string& text, Kind kind, double otherwise, double low,
                 double high, const char* what) {
        if (text.empty()) return otherwise;
        const auto read = evaluate(text, m_scope, Space::build, kind);
        if (read && read->value >= low && read->value <= high) return read->value;
        sound = false;
        Finding f = read ? Finding{Severity::look, "trial-range", "", {}, rangeWords(kind, low, high), {}}
                         : findingOf(read.error(), Severity::look);
        f.message = m_words + ", " + what + ": " + (read ? "outside of what can be." : f.message);
        f.about = {"document:" + m_place + "/" + field};
        m_findings.push_back(std::move(f));
        return otherwise;
    }
    double length(const char* field, const std::string& text, const char* what, double otherwise = 0) {
        return value(field, text, Kind::length, otherwise, 0, greatest, what);
    }
    /// May lie below 0.
    double place(const char* field, const std::string& text, const char* what) {
        return value(field, text, Kind::length, 0, -greatest, greatest, what);
    }
    double number(const char* field, const std::string& text, double otherwise, double low, double high,
                  const char* what) {
        return value(field, text, Kind::number, otherwise, low, high, what);
    }

    /// As readSlope(), from 0 on.
    double slope(const char* field, const std::string& text, double otherwise, double high,
                 const char* what) {
        const auto read = readSlope(text, m_scope);
        if (read && *read >= 0 && *read <= high) return *read;
        return number(field, read ? printExact(*read, Unit::none) : text, otherwise, 0, high, what);
    }

    bool sound = true; ///< nothing was wrong so far

private:
    static constexpr double greatest = 1e5; ///< mm
    [[nodiscard]] std::string rangeWords(Kind kind, double low, double high) const {
        UnitStyle units;
        units.unit = m_scope.unit;
        const auto text = [&](double v) {
            return kind == Kind::angle    ? printAngle(v, 0)
                   : kind == Kind::length ? printLength(v, units)
                                          : printExact(v, Unit::none);
        };
        return "Type a figure from " + text(low) + " to " + text(high) + ".";
    }
    const Scope& m_scope;
    std::string m_place, m_words;
    std::vector<Finding>& m_findings;
};

} // namespace slab::trial
