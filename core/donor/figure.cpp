#include "core/donor/figure.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

constexpr double highExtreme = 95, lowExtreme = 5; ///< percentiles from which on a size is an extreme

std::string ordinal(double percentile) {
    const std::string number = printExact(std::round(percentile * 10) / 10, Unit::none);
    if (number.find('.') != std::string::npos) return number + "th";
    const bool teen = number.size() > 1 && number[number.size() - 2] == '1';
    const char last = number.back();
    return number + (teen || last > '3' || last == '0' ? "th"
                     : last == '1'                     ? "st"
                     : last == '2'                     ? "nd"
                                                       : "rd");
}

std::string listed(const std::vector<std::string>& names) {
    std::string out;
    for (std::size_t i = 0; i < names.size(); ++i)
        out += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    return out;
}

class SizeReader {
public:
    SizeReader(const Figure& figure, const Whose& whose, Reading& reading)
        : m_figure(figure), m_whose(whose), m_reading(reading) {
        m_table.child = figure.table == "child";
        m_table.sex = figure.sex;
    }

    BodySizes sizes() {
        m_percentile = held("percentile", number(m_figure.percentile, "percentile", 50), m_table.lowest(),
                            m_table.highest());
        if (m_table.child) m_table.age = held("age", number(m_figure.age, "age", 8), 3, 13.99);
        wholeFigure();
        for (const NamedText& own : m_figure.figures) ownFigure(own);
        tellStacked();
        BodySizes out{figuresOf(m_table,
                                [&](std::string_view name) {
                                    const auto it = m_sizes.find(name);
                                    return it == m_sizes.end() ? 0.0 : it->second;
                                }),
                      m_table,
                      m_table.child ? "Snyder et al. 1977, UM-HSRI-77-17" : "ANSUR II, Natick/TR-15/007"};
        ownMass(out.figures.mass);
        return out;
    }

private:
    [[nodiscard]] std::string about(const std::string& field) const {
        return "document:" + m_whose.place + "/" + field;
    }
    double number(const Text& text, const char* field, double otherwise) {
        return m_reading.read(text, Kind::number, m_whose.place + "/" + field, m_whose.words + "'s " + field,
                              otherwise);
    }
    /// Kept within the table.
    double held(const char* field, double value, double low, double high) {
        if (value >= low && value <= high) return value;
        const std::string range =
            std::to_string(static_cast<int>(low)) + " to " + std::to_string(static_cast<int>(high));
        m_reading.report(Severity::look, "rider-outside-table",
                         m_whose.words + "'s " + field + " lies outside the table (" + range +
                             "); the nearest is used.",
                         {about(field)}, "Choose a value from " + range + ".");
        return std::clamp(value, low, high);
    }
    [[nodiscard]] std::string printed(double mm) const {
        UnitStyle units;
        units.unit = m_reading.scope().unit;
        return printLength(mm, units);
    }

    /// Every size of the table: by percentile, or of a whole person of a stature.
    void wholeFigure() {
        const double middle = m_table.at("stature", 50);
        bool given = !m_figure.stature.empty();
        double stature = m_reading.read(m_figure.stature, Kind::length, m_whose.place + "/stature",
                                        m_whose.words + "'s stature", 0, &given);
        const double first = m_table.at("stature", m_table.lowest()),
                     last = m_table.at("stature", m_table.highest());
        const double low = 0.75 * first, high = 1.25 * last;
        if (given && (stature < low || stature > high)) {
            m_reading.report(Severity::look, "rider-outside-table",
                             m_whose.words + "'s stature, " + printed(stature) +
                                 ", is far outside the table; the nearest that it serves for is used.",
                             {about("stature")},
                             "Type a height from " + printed(low) + " to " + printed(high) +
                                 ", or choose another table or age.");
            stature = std::clamp(stature, low, high);
        } else if (given && (stature < first || stature > last)) {
            m_reading.report(Severity::note, "rider-outside-table",
                             m_whose.words + "'s stature, " + printed(stature) +
                                 ", lies outside the table (" + printed(first) + " to " + printed(last) +
                                 "); the other sizes go on from its end in proportion.",
                             {about("stature")},
                             "Measure such a rider, mass above all, and type those sizes in.");
        }
        m_byStature = given && middle > 0;
        for (const std::string& name : m_table.dimensions())
            m_sizes[name] =
                m_byStature ? sizeByStature(m_table, name, stature) : m_table.at(name, m_percentile);
    }

    void ownFigure(const NamedText& own) {
        const std::string place = m_whose.place + "/figures/" + own.name;
        const auto it = m_sizes.find(own.name);
        if (it == m_sizes.end()) {
            m_reading.report(Severity::look, "rider-unknown-figure",
                             m_whose.words + "'s table has no size called \"" + own.name + "\".",
                             {"document:" + place}, "Use one of: " + listed(m_table.dimensions()) + ".");
            return;
        }
        if (own.value.empty()) return;
        // A plain number is a percentile; with a unit it is a size.
        double percentile = 0, size = 0;
        if (const auto plain = evaluateAny(own.value, m_reading.scope(), Space::build);
            plain && plain->kind == Kind::number) {
            percentile =
                held(("figure " + own.name).c_str(), plain->value, m_table.lowest(), m_table.highest());
            size = m_table.at(own.name, percentile);
        } else {
            const Kind kind = own.name == "mass" ? Kind::number : Kind::length;
            bool sound = true;
            size = m_reading.read(own.value, kind, place, m_whose.words + "'s " + own.name, 0, &sound);
            if (!sound) return;
            const double middle = m_table.at(own.name, 50);
            if (size < middle / 2 || size > middle * 2) {
                m_reading.report(Severity::stop, "rider-figure",
                                 m_whose.words + "'s " + own.name + ", " + printed(size) +
                                     ", is no size of a person; the table's " + printed(it->second) +
                                     " is used.",
                                 {"document:" + place}, "Check the unit, and what was measured.");
                return;
            }
            percentile = m_table.percentileOf(own.name, size);
        }
        it->second = size;
        if (percentile >= highExtreme) m_large.push_back(own.name);
        if (percentile <= lowExtreme) m_small.push_back(own.name);
    }

    /// Nobody is at the same end of the table in every size.
    void tellStacked() {
        const bool all = !m_byStature && (m_percentile >= highExtreme || m_percentile <= lowExtreme);
        if (all)
            m_reading.report(
                Severity::note, "figures-stacked",
                m_whose.words + " has every size at the " + ordinal(m_percentile) +
                    " percentile: hardly anybody is so " + (m_percentile >= highExtreme ? "large" : "small") +
                    " in all of them at once.",
                {about("percentile")},
                "Good for a check of each size by itself; for one whole person type the stature.");
        for (const auto* names : {&m_large, &m_small}) {
            if (names->size() < 2) continue;
            m_reading.report(
                Severity::note, "figures-stacked",
                m_whose.words + " is among the " + (names == &m_large ? "largest" : "smallest") +
                    " 5 of 100 in " + listed(*names) + " at once: far fewer people than 5 of 100 are.",
                {about("figures")},
                "Keep them if they were measured on the person who rides; else type the stature, or "
                "leave one of them at its extreme.");
        }
    }

    void ownMass(double& mass) {
        const double own = number(m_figure.mass, "mass", mass);
        constexpr double least = 8, most = 300; // kg: from a small child on
        if (own >= least && own <= most)
            mass = own;
        else
            m_reading.report(Severity::stop, "rider-mass",
                             m_whose.words + "'s mass, " + printExact(own, Unit::none) +
                                 " kg, is no mass of a person; the table's is used.",
                             {about("mass")}, "Type it in kg, 8 to 300.");
    }

    const Figure& m_figure;
    const Whose& m_whose;
    Reading& m_reading;
    BodyTable m_table;
    double m_percentile = 50;
    bool m_byStature = false;
    std::map<std::string, double, std::less<>> m_sizes; ///< by the table's dimensions
    std::vector<std::string> m_large, m_small;          ///< own figures at the ends of the table
};

} // namespace

std::optional<BodySizes> sizesOf(const Figure& figure, const Whose& whose, Reading& reading) {
    if (figure.table == "none") return std::nullopt;
    if (figure.table != "adult" && figure.table != "child") {
        reading.report(Severity::stop, "rider-unknown-table",
                       "There is no rider table \"" + figure.table + "\".",
                       {"document:" + whose.place + "/table"}, "Choose adult, child or none.");
        return std::nullopt;
    }
    return SizeReader(figure, whose, reading).sizes();
}

double heldWithin(const Text& text, const char* field, const Limits& limits, const Whose& whose,
                  Reading& reading) {
    const double value =
        reading.read(text, limits.kind, whose.place + "/" + field, whose.words + "'s " + field, 0);
    if (value >= limits.low && value <= limits.high) return value;
    UnitStyle units;
    units.unit = reading.scope().unit;
    const auto printed = [&](double v) {
        return limits.kind == Kind::angle ? printAngle(v, 0) : printLength(v, units);
    };
    std::string plain = field;
    std::replace(plain.begin(), plain.end(), '_', ' ');
    reading.report(Severity::look, "rider-posture",
                   whose.words + "'s " + plain + ", " + printed(value) +
                       ", is out of range; the nearest is used.",
                   {"document:" + whose.place + "/" + field},
                   "Choose a value from " + printed(limits.low) + " to " + printed(limits.high) + ".");
    return std::clamp(value, limits.low, limits.high);
}

} // namespace slab
