#include "core/survey/survey_report.h"
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

namespace slab {

namespace {

using nlohmann::ordered_json;

const char* stateWord(FitState state) {
    return state == FitState::fits ? "fits" : state == FitState::tight ? "tight" : "hits";
}
const char* knownWord(Known known) {
    return known == Known::exactly ? "exactly" : known == Known::atLeast ? "at_least" : "at_most";
}
const char* unitWord(Constraint::Unit unit) {
    switch (unit) {
    case Constraint::Unit::mass:
        return "kg";
    case Constraint::Unit::angle:
        return "rad";
    case Constraint::Unit::speed:
        return "mm/s";
    default:
        return "mm";
    }
}

ordered_json constraintJson(const Constraint& c) {
    ordered_json points = ordered_json::array();
    for (const Margin& m : c.points)
        points.push_back({{"scale", m.scale},
                          {"margin", m.margin},
                          {"known", knownWord(m.known)},
                          {"binding", m.binding}});
    return {
        {"key", c.key}, {"words", c.words}, {"unit", unitWord(c.unit)}, {"must", c.must}, {"points", points}};
}

ordered_json matchJson(const StockMatch& m) {
    return {{"scale", m.scale}, {"from", m.from}, {"to", m.to},           {"feature", m.feature},
            {"words", m.words}, {"part", m.part}, {"outside", m.outside}, {"in_shed", m.inShed}};
}

template <class All, class Make>
ordered_json listOf(const All& all, Make make) {
    ordered_json out = ordered_json::array();
    for (const auto& one : all) out.push_back(make(one));
    return out;
}

std::string scaleWords(double scale) {
    return printExact(std::round(scale * 1e4) / 1e4, Unit::none);
}

} // namespace

std::string surveyJson(const ScaleSurvey& s) {
    ordered_json out;
    out["from"] = s.from;
    out["to"] = s.to;
    out["bands"] = listOf(s.bands, [](const FitBand& b) {
        return ordered_json{{"from", b.from},
                            {"to", b.to},
                            {"state", stateWord(b.state)},
                            {"bindings", listOf(b.bindings, [](const FitBand::Binding& at) {
                                 return ordered_json{{"from", at.from}, {"pair", at.pair}};
                             })}};
    });
    out["feasible"] = listOf(s.feasible, [](const FeasibleBand& b) {
        return ordered_json{{"from", b.from}, {"to", b.to}, {"below", b.below}, {"above", b.above}};
    });
    out["sheets"] = listOf(s.sheetSteps, [](const ScaleSurvey::Step& step) {
        return ordered_json{
            {"from", step.scale}, {"sheets", step.sheets}, {"too_large", step.tooLarge}, {"cost", step.cost}};
    });
    out["match_tolerance"] = s.stock.tolerance;
    out["matches"] = listOf(s.stock.matches, matchJson);
    out["always"] = listOf(s.stock.always, matchJson);
    out["pick"] = {{"scale", s.pick.scale ? ordered_json(*s.pick.scale) : ordered_json()},
                   {"reasons", s.pick.reasons}};
    out["constraints"] = listOf(s.constraints, constraintJson);
    return out.dump(1) + "\n";
}

std::string surveyText(const ScaleSurvey& s, const UnitStyle& units) {
    std::ostringstream out;
    out << "Scales from " << scaleWords(s.from) << " to " << scaleWords(s.to) << "\n";
    for (const FitBand& b : s.bands)
        out << "  " << scaleWords(b.from) << " to " << scaleWords(b.to) << "  " << stateWord(b.state)
            << (b.bindings.empty() ? "" : "  " + b.bindingAt((b.from + b.to) / 2)) << "\n";
    for (const FeasibleBand& b : s.feasible) {
        out << "All holds from " << scaleWords(b.from) << " to " << scaleWords(b.to) << "\n";
        for (const std::string& end : {b.below, b.above})
            if (!end.empty()) out << "  " << end << "\n";
    }
    if (!s.sheetSteps.empty()) out << "Sheets\n";
    for (const ScaleSurvey::Step& step : s.sheetSteps) {
        out << "  from " << scaleWords(step.scale) << "  " << step.sheets;
        if (step.tooLarge > 0) out << ", and panels larger than their sheets: " << step.tooLarge;
        if (step.cost > 0) out << "  " << s.currency << " " << std::round(step.cost * 100) / 100;
        out << "\n";
    }
    if (!s.stock.matches.empty())
        out << "Round features that are stock parts, to " << printFine(s.stock.tolerance, units) << "\n";
    for (const StockMatch& m : s.stock.matches)
        out << "  " << scaleWords(m.scale) << "  " << m.words << " = " << m.part << " ("
            << printFine(m.outside, units) << ")" << (m.inShed ? ", in the shed" : "") << "\n";
    if (s.pick.scale) out << "Pick " << scaleWords(*s.pick.scale) << "\n";
    for (const std::string& reason : s.pick.reasons) out << "  " << reason << "\n";
    return out.str();
}

} // namespace slab
