#include "core/survey/pick.h"
#include "core/survey/constraint_sources.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

struct Stretch {
    double from, to;
};

/// Least to spare of all lengths that must hold and are known.
double leastMargin(const ScaleSurvey& survey, double scale) {
    double least = 1e300;
    for (const Constraint& c : survey.constraints) {
        if (!c.must || c.unit != Constraint::Unit::length) continue;
        const Margin* near = c.nearest(scale);
        if (!near || near->known != Known::exactly) continue;
        if (const auto m = c.margin(scale)) least = std::min(least, *m);
    }
    return least;
}

/// Parts of stretches in which a curve is 0 or more.
std::vector<Stretch> partsWhere(const Constraint& curve, const std::vector<Stretch>& stretches) {
    std::vector<Stretch> out;
    const std::vector<Margin>& points = curve.points;
    for (const Stretch& s : stretches)
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double to = i + 1 < points.size() ? points[i + 1].scale : points[i].scale;
            if (!holds(points[i]) || (i + 1 < points.size() && !holds(points[i + 1]))) continue;
            const double low = std::max(s.from, points[i].scale), high = std::min(s.to, to);
            if (high < low) continue;
            if (!out.empty() && out.back().to >= low)
                out.back().to = std::max(out.back().to, high);
            else
                out.push_back({low, high});
        }
    return out;
}

/// Parts of the feasible bands in which what is worth having holds too, one after the other as long as any
/// scale is left: ways out and sight, and last that all panels lie on their sheets.
std::vector<Stretch> stretchesOf(const ScaleSurvey& survey) {
    std::vector<Stretch> out;
    for (const FeasibleBand& band : survey.feasible) out.push_back({band.from, band.to});
    for (const Constraint& c : survey.constraints)
        if (!c.must)
            if (std::vector<Stretch> parts = partsWhere(c, out); !parts.empty()) out = std::move(parts);
    return out;
}

/// Where the matches are most.
std::vector<Stretch> mostMatched(const StockMatches& stock, const std::vector<Stretch>& stretches) {
    std::vector<Stretch> best;
    int most = -1;
    for (const Stretch& s : stretches) {
        std::vector<double> cuts = {s.from, s.to};
        for (const StockMatch& m : stock.matches)
            for (const double at : {m.from, m.to})
                if (at > s.from && at < s.to) cuts.push_back(at);
        std::sort(cuts.begin(), cuts.end());
        if (cuts.size() == 2 && s.from == s.to) cuts.pop_back();
        for (std::size_t i = 0; i < cuts.size(); ++i) {
            const double to = cuts[std::min(i + 1, cuts.size() - 1)];
            const int here = matchesAt(stock, (cuts[i] + to) / 2);
            if (here < most || (i + 1 == cuts.size() && cuts.size() > 1)) continue;
            if (here > most) best.clear();
            most = here;
            if (!best.empty() && best.back().to == cuts[i])
                best.back().to = to;
            else
                best.push_back({cuts[i], to});
        }
    }
    return best;
}

/// Scales in a stretch at which curves were worked out, with its ends.
std::vector<double> knots(const ScaleSurvey& survey, const Stretch& s) {
    std::vector<double> all = {s.from, s.to};
    for (const Constraint& c : survey.constraints)
        for (const Margin& m : c.points)
            if (m.scale > s.from && m.scale < s.to) all.push_back(m.scale);
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

/// Farthest from the knot `i` on one side that still has `floor` to spare.
double reach(const ScaleSurvey& survey, const std::vector<double>& at, std::size_t i, int way, double floor) {
    double good = at[i];
    for (auto k = static_cast<std::ptrdiff_t>(i) + way; k >= 0 && k < static_cast<std::ptrdiff_t>(at.size());
         k += way) {
        double bad = at[static_cast<std::size_t>(k)];
        if (leastMargin(survey, bad) >= floor) {
            good = bad;
            continue;
        }
        for (int n = 0; n < 50; ++n) {
            const double middle = (good + bad) / 2;
            (leastMargin(survey, middle) >= floor ? good : bad) = middle;
        }
        break;
    }
    return good;
}

std::string number(double value, int decimals) {
    std::string text = std::to_string(std::round(value * std::pow(10, decimals)) / std::pow(10, decimals));
    text.resize(text.find('.') + 1 + static_cast<std::size_t>(decimals));
    return text;
}

std::string amount(const Constraint& c, double value, const UnitStyle& units) {
    if (c.unit == Constraint::Unit::mass) return printMass(value, units);
    if (c.unit == Constraint::Unit::angle) return printAngle(value);
    if (c.unit == Constraint::Unit::speed) return trial::speedWords(value, units);
    return printFine(value, units);
}

/// One line of what is a stock part at a scale.
std::string matchWords(const ScaleSurvey& survey, double scale, const UnitStyle& units) {
    std::map<std::string, const StockMatch*> best; // by feature, the nearest
    for (const StockMatch& m : survey.stock.matches) {
        if (scale < m.from || scale > m.to) continue;
        const StockMatch*& b = best[m.feature];
        if (!b || std::abs(m.scale - scale) < std::abs(b->scale - scale)) b = &m;
    }
    std::string words;
    for (const auto& [feature, m] : best) {
        if (!words.empty()) words += "; ";
        words += m->words + " is " + m->part + " (" + printFine(m->outside, units) + " outside" +
                 (m->inShed ? ", in the shed)" : ")");
    }
    return words;
}

const ToldMargin* tightest(const SurveySample& there) {
    const ToldMargin* least = nullptr;
    for (const ToldMargin& t : there.told)
        if (t.of.must && t.of.unit == Constraint::Unit::length && t.margin.known == Known::exactly &&
            (!least || t.margin.margin < least->margin.margin))
            least = &t;
    return least;
}

/// How far off everything is, for choosing where least is missing.
double missing(const SurveySample& s) {
    double sum = 0;
    for (const ToldMargin& t : s.told) {
        if (!t.of.must || holds(t.margin)) continue;
        const double unit = t.of.unit == Constraint::Unit::length ? 1
                            : t.of.unit == Constraint::Unit::mass ? 10
                                                                  : 1800 / std::numbers::pi;
        sum += -t.margin.margin * unit + (t.margin.known == Known::atMost ? 50 : 0);
    }
    return sum;
}

} // namespace

int matchesAt(const StockMatches& stock, double scale) {
    std::vector<std::string> features;
    for (const StockMatch& m : stock.matches)
        if (scale >= m.from && scale <= m.to) features.push_back(m.feature);
    std::sort(features.begin(), features.end());
    return static_cast<int>(std::unique(features.begin(), features.end()) - features.begin());
}

double roundestIn(double low, double high, double wish) {
    for (double power = 10; power < 1e7; power *= 10)
        for (const double times : {1.0, 2.0, 5.0}) {
            const double per = power * times; // multiples of 1 / per
            const double first = std::ceil(low * per - 1e-9), last = std::floor(high * per + 1e-9);
            if (first > last) continue;
            const double at = std::clamp(std::round(wish * per), first, last) / per;
            if (at >= low && at <= high) return at;
        }
    return std::clamp(wish, low, high);
}

namespace {

/// The exact scale of a match within stretches that all have the most matches: of stock in the shed rather
/// than to be bought, then where most is to spare; as round as a tenth of its tolerance allows.
std::optional<double> exactMatch(const ScaleSurvey& survey, const std::vector<Stretch>& stretches) {
    const StockMatch* best = nullptr;
    Stretch within{};
    double most = -1e300;
    for (const Stretch& s : stretches)
        for (const StockMatch& m : survey.stock.matches) {
            if (m.scale < s.from || m.scale > s.to) continue;
            const double spare = leastMargin(survey, m.scale);
            if (best && (best->inShed != m.inShed ? best->inShed : spare <= most)) continue;
            best = &m, within = s, most = spare;
        }
    if (!best) return std::nullopt;
    const double near = (best->to - best->from) / 20;
    return roundestIn(std::max(best->scale - near, within.from), std::min(best->scale + near, within.to),
                      best->scale);
}

} // namespace

std::optional<double> pickScale(const ScaleSurvey& survey) {
    const std::vector<Stretch> best = mostMatched(survey.stock, stretchesOf(survey));
    if (const auto exact = exactMatch(survey, best)) return exact;
    double most = -1e300;
    std::optional<double> pick;
    for (const Stretch& s : best) {
        const std::vector<double> at = knots(survey, s);
        for (std::size_t i = 0; i < at.size(); ++i) {
            const double here = leastMargin(survey, at[i]);
            if (here <= most + pickPlay && pick) continue;
            most = here;
            const double floor = std::max(here - pickPlay, std::min(here, 0.0));
            const double low = reach(survey, at, i, -1, floor), high = reach(survey, at, i, 1, floor);
            pick = roundestIn(low, high, at[i]);
        }
    }
    return pick;
}

namespace {

/// What is worth having too; panels larger than their sheets are told by themselves.
bool holdsAll(const SurveySample& there) {
    return there.stops.empty() && std::all_of(there.told.begin(), there.told.end(), [](const ToldMargin& t) {
               return t.of.key == "sheet" || holds(t.margin);
           });
}

} // namespace

std::vector<std::string> pickReasons(const ScaleSurvey& survey, const SurveySample& there,
                                     const UnitStyle& units) {
    std::vector<std::string> out;
    if (const ToldMargin* least = tightest(there))
        out.push_back((holdsAll(there) ? "Everything holds" : "All that must holds") +
                      std::string("; the least to spare is ") + printFine(least->margin.margin, units) +
                      ": " + bandBinding(*least) + ".");
    else
        out.push_back("Everything that was looked at holds.");
    for (const std::string& stop : there.stops) out.push_back("But, past what is drawn as curves: " + stop);
    const std::string matches = matchWords(survey, there.scale, units);
    if (!matches.empty()) {
        const int count = matchesAt(survey.stock, there.scale);
        out.push_back(
            std::to_string(count) +
            (count == 1 ? " round feature is a stock part: " : " round features are stock parts: ") +
            matches + ".");
    }
    for (const ToldMargin& t : there.told)
        if (!t.of.must && t.of.key != "sheet" && !holds(t.margin))
            out.push_back("But " + failWords(t.of, t.margin) + ".");
    const ToldMargin* sheet = there.find("sheet");
    if (sheet)
        out.push_back(holds(sheet->margin) ? "Every panel lies on its sheet."
                                           : failWords(sheet->of, sheet->margin) + ", and is cut in pieces.");
    if (there.step && there.step->sheets > 0)
        out.push_back(std::to_string(there.step->sheets) +
                      (there.step->sheets == 1 ? " sheet at most" : " sheets at most") +
                      (there.step->cost > 0
                           ? ", " + (survey.currency.empty() ? "" : survey.currency + " ") +
                                 number(there.step->cost, 2) + " to buy; laid out better, it may be fewer."
                           : "; laid out better, it may be fewer."));
    return out;
}

ScalePick missedPick(const ScaleSurvey& survey, const std::vector<SurveySample>& samples,
                     const UnitStyle& units) {
    ScalePick pick;
    const SurveySample* nearest = nullptr;
    for (const SurveySample& s : samples)
        if (s.sound && (!nearest || missing(s) < missing(*nearest))) nearest = &s;
    if (!nearest) return pick;
    pick.nearest = nearest->scale;
    pick.reasons.push_back("No scale from " + printRatioUp(survey.from) + " to " + printRatioUp(survey.to) +
                           " satisfies everything; least is missing at about " +
                           printRatioUp(nearest->scale, 3) + ":");
    for (const ToldMargin& t : nearest->told) {
        if (!t.of.must || holds(t.margin)) continue;
        std::string line = failWords(t.of, t.margin);
        if (t.margin.known == Known::exactly) line += ", short by " + amount(t.of, -t.margin.margin, units);
        pick.reasons.push_back(line + ".");
    }
    return pick;
}

} // namespace slab
