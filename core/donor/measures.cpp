#include "core/donor/measures.h"
#include "core/donor/generic.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

class MeasureReader {
public:
    MeasureReader(const Donor& donor, const std::string& kind, Reading& reading)
        : m_donor(donor), m_kind(kind), m_reading(reading), m_sheet(measuringSheet(kind)) {
        m_units.unit = reading.scope().unit;
    }

    void apply(SizeValues& sizes) {
        readAll();
        if (m_values.empty()) return;
        const MeasuredDonor found = measured(m_kind, m_values);
        tellWrong(found);
        tellFew(found);
        for (const auto& [name, value] : found.shared)
            if (isPosition(name) || value > 0) sizes[name] = value;
        for (const auto& [name, value] : found.sizes) {
            const bool sound = isPosition(name) || value > 0;
            if (sound)
                sizes[name] = value;
            else
                tellSize(name, value);
        }
    }

    std::vector<TypedMeasure> typed() {
        readAll();
        const MeasuredDonor found = measured(m_kind, m_values);
        std::vector<TypedMeasure> all;
        for (std::size_t i = 0; i < m_values.size(); ++i)
            all.push_back({m_places[i].substr(m_places[i].rfind('/') + 1), measureOf(i), found.checks[i]});
        return all;
    }

private:
    void readAll() {
        for (const NamedText& typed : m_donor.measures) {
            const std::string place = "/donor/measures/" + typed.name;
            const auto at = std::find_if(m_sheet.begin(), m_sheet.end(), [&](const Measure& m) {
                return m.name == typed.name || m.letter == typed.name;
            });
            if (at == m_sheet.end()) {
                m_reading.report(
                    Severity::look, "measure-unknown",
                    m_sheet.empty() ? "There is no measuring sheet for the donor \"" + m_kind + "\"."
                                    : "The measuring sheet of this donor has no \"" + typed.name + "\".",
                    {"document:" + place},
                    m_sheet.empty() ? "Choose a donor first."
                                    : "Use a letter or a name of the printed sheet, or take it out.");
                continue;
            }
            bool sound = true;
            const double value =
                m_reading.read(typed.value, at->kind, place, "Reading " + said(*at), 0, &sound);
            if (typed.value.empty() || !sound || !canBe(*at, value, place)) continue;
            m_values.push_back({static_cast<int>(at - m_sheet.begin()), value});
            m_places.push_back(place);
        }
    }

    /// A tape reads no less than nothing. What lies near a zero may be read to its other side.
    bool canBe(const Measure& m, double value, const std::string& place) {
        constexpr double near = 150, most = 2e4; // mm
        const bool aside = m.kind == Kind::length && std::abs(valueOf(m.sum, donorSizes(m_kind))) < near;
        if (value > 0 && value < most) return true;
        if (aside && value > -most && value < most) return true;
        m_reading.report(
            Severity::look, "measure-reading",
            "Reading " + said(m) + " is " +
                (m.kind == Kind::length ? printFine(value, m_units) : printExact(value, Unit::none)) +
                ", which cannot be; it is left out.",
            {"document:" + place}, "Measure it again, and type what you read.");
        return false;
    }

    [[nodiscard]] static std::string said(const Measure& m) { return m.letter + " (" + m.words + ")"; }
    [[nodiscard]] const Measure& measureOf(std::size_t reading) const {
        return m_sheet[static_cast<std::size_t>(m_values[reading].measure)];
    }

    void tellWrong(const MeasuredDonor& found) {
        for (std::size_t i = 0; i < found.checks.size(); ++i) {
            const ReadingCheck& c = found.checks[i];
            if (!c.leftOut) continue;
            m_reading.report(
                Severity::look, "measure-residual",
                "Reading " + said(measureOf(i)) + " is off by " + printFine(std::abs(c.residual), m_units) +
                    ": by the other readings it should be " + printFine(c.expected, m_units) + ", it says " +
                    printFine(m_values[i].value, m_units) + ". It is left out meanwhile.",
                {"document:" + m_places[i]}, "Measure it again, and type what you read.");
        }
        if (found.doubtful.empty()) return;
        std::string names;
        std::vector<std::string> about;
        double most = 0;
        for (const int i : found.doubtful) {
            const auto k = static_cast<std::size_t>(i);
            names += (names.empty() ? "" : ", ") + said(measureOf(k));
            about.push_back("document:" + m_places[k]);
            const ReadingCheck& c = found.checks[k];
            most = std::max(most, std::abs(c.expected - m_values[k].value));
        }
        m_reading.report(Severity::look, "measure-doubtful",
                         "One of these readings is wrong, by about " + printFine(most, m_units) + ": " +
                             names + ".",
                         about, "Measure each of them again: nothing else tells which it is.");
    }

    void tellFew(const MeasuredDonor& found) {
        for (std::size_t i = 0; i < found.checks.size(); ++i) {
            if (found.checks[i].says || found.checks[i].leftOut) continue;
            std::string missing;
            for (const auto& [name, factor] : measureOf(i).sum.terms)
                if (std::find(found.open.begin(), found.open.end(), name) != found.open.end())
                    missing += (missing.empty() ? "" : ", ") + labelOf(name);
            m_reading.report(Severity::note, "measure-few",
                             "Reading " + said(measureOf(i)) + " does not tell these sizes apart: " +
                                 missing + ". They are taken as near to the generic ones as it lets them.",
                             {"document:" + m_places[i]}, "Measure " + others(i, found) + " as well.");
        }
    }

    /// Does this measure, read as well, tell apart a size of that reading which is open now?
    [[nodiscard]] bool resolves(const Measure& m, std::size_t reading, const MeasuredDonor& now) const {
        std::vector<MeasureReading> with = m_values;
        with.push_back({static_cast<int>(&m - m_sheet.data()), valueOf(m.sum, donorSizes(m_kind))});
        const MeasuredDonor then = measured(m_kind, with);
        const auto isOpen = [](const MeasuredDonor& d, const std::string& size) {
            return std::find(d.open.begin(), d.open.end(), size) != d.open.end();
        };
        const auto& own = measureOf(reading).sum.terms;
        return std::any_of(own.begin(), own.end(),
                           [&](const auto& t) { return isOpen(now, t.first) && !isOpen(then, t.first); });
    }

    /// Up to three measures, not read yet, each of which tells apart what this reading does not.
    [[nodiscard]] std::string others(std::size_t reading, const MeasuredDonor& now) const {
        std::string words;
        int count = 0;
        for (const Measure& m : m_sheet) {
            const bool read = std::any_of(m_values.begin(), m_values.end(), [&](const MeasureReading& r) {
                return &m_sheet[static_cast<std::size_t>(r.measure)] == &m;
            });
            const auto& own = measureOf(reading).sum.terms;
            const bool shares = std::any_of(m.sum.terms.begin(), m.sum.terms.end(), [&](const auto& t) {
                return std::any_of(own.begin(), own.end(), [&](const auto& u) { return u.first == t.first; });
            });
            if (read || !shares || count == 3 || !resolves(m, reading, now)) continue;
            words += (words.empty() ? "" : " or ") + said(m);
            ++count;
        }
        return words.empty() ? "the others" : words;
    }

    [[nodiscard]] std::string labelOf(const std::string& size) const {
        for (const DonorSize& s : donorSizes(m_kind))
            if (s.name == size) return s.label;
        return size;
    }

    void tellSize(const std::string& name, double value) {
        std::vector<std::string> about;
        for (std::size_t i = 0; i < m_values.size(); ++i)
            for (const auto& [size, factor] : measureOf(i).sum.terms)
                if (size == name) about.push_back("document:" + m_places[i]);
        m_reading.report(Severity::stop, "measure-size",
                         "By these readings the size \"" + labelOf(name) + "\" is " +
                             printFine(value, m_units) + "; the generic one is used meanwhile.",
                         about, "Check them: nothing on a donor is of no size.");
    }

    const Donor& m_donor;
    const std::string& m_kind;
    Reading& m_reading;
    std::vector<Measure> m_sheet;
    UnitStyle m_units;
    std::vector<MeasureReading> m_values;
    std::vector<std::string> m_places;
};

} // namespace

void applyMeasures(const Donor& donor, const std::string& kind, Reading& reading, SizeValues& sizes) {
    if (!donor.measures.empty()) MeasureReader(donor, kind, reading).apply(sizes);
}

std::vector<TypedMeasure> typedMeasures(const Donor& donor, const std::string& kind, Reading& reading) {
    return MeasureReader(donor, kind, reading).typed();
}

} // namespace slab
