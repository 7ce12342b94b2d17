// Plates against likeness over ways to choose the facets of all curves together.
#include "core/body/curved.h"
#include "core/document/stock_for.h"
#include "core/likeness/likeness.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr int mostFacets = 60; ///< of one curve; finer makes no better plot

std::vector<Curve>* curvesOf(Shape& shape) {
    if (auto* s = std::get_if<ProfileShape>(&shape)) return &s->curves;
    if (auto* s = std::get_if<TaperShape>(&shape)) return &s->curves;
    return nullptr;
}

/// One curve of the document: both hands of a mirrored form share it.
struct Bend {
    CurveFacets now;
    CurvePath path, top;
    bool operator==(const Bend&) const = default;
};
std::vector<Bend> bendsOf(const Project& project, const Scope& scope) {
    std::vector<Bend> bends;
    for (const CurvedSide& side : curvedSides(project, scope))
        if (!side.mirrored)
            bends.push_back({{side.formIndex, side.curveIndex, static_cast<int>(side.breaks.size()) - 1},
                             side.path,
                             side.top});
    return bends;
}

struct Choice {
    std::string how;
    std::vector<CurveFacets> facets;
};

int within(const Bend& bend, double tolerance) {
    const auto count = [&](const CurvePath& path) {
        const auto breaks = breaksWithin(path, tolerance, mostFacets);
        return breaks.empty() ? mostFacets : static_cast<int>(breaks.size()) - 1;
    };
    return std::max(count(bend.path), bend.top.empty() ? 1 : count(bend.top));
}

std::string shareWords(double share) {
    char text[48];
    std::snprintf(text, sizeof text, "%.3g", share);
    return std::string(text) + " times the facets";
}

/// From one facet each to four times those that are drawn, and by one chord error from coarse to fine.
std::vector<Choice> choicesOf(const std::vector<Bend>& bends, const Scope& scope) {
    std::vector<Choice> all;
    const auto add = [&](std::string how, const auto& count) {
        Choice choice{std::move(how), {}};
        for (const Bend& bend : bends) {
            choice.facets.push_back(bend.now);
            choice.facets.back().facets = std::clamp(count(bend), 1, mostFacets);
        }
        if (std::none_of(all.begin(), all.end(), [&](const Choice& c) { return c.facets == choice.facets; }))
            all.push_back(std::move(choice));
    };
    add("one facet each", [](const Bend&) { return 1; });
    for (const double share : {0.25, 0.35, 0.5, 0.7, 1.4, 2.0, 2.8, 4.0})
        add(shareWords(share),
            [&](const Bend& b) { return static_cast<int>(std::lround(b.now.facets * share)); });
    double coarse = 0;
    for (const Bend& b : bends)
        for (const CurvePath* path : {&b.path, &b.top})
            if (!path->empty()) coarse = std::max(coarse, deviationOf(*path, 0, endOf(*path)));
    UnitStyle style;
    style.unit = scope.unit;
    for (double tolerance = coarse * 0.8; coarse > 0 && tolerance > coarse / 200; tolerance *= 0.6)
        add("within " + printFine(tolerance, style), [&](const Bend& b) { return within(b, tolerance); });
    return all;
}

Project withFacets(Project project, const std::vector<CurveFacets>& facets) {
    for (const CurveFacets& f : facets) {
        Curve& curve = (*curvesOf(project.forms[f.form].shape))[f.curve];
        curve.facets = std::to_string(f.facets);
        curve.tolerance.clear();
    }
    return project;
}

/// @return  false when a form cannot be made like this, or stopped
bool weigh(const Project& project, const Scope& scope, LikenessPoint& point, const Job& job) {
    const ResolvedForms forms = resolveForms(project, scope);
    if (std::any_of(forms.findings.begin(), forms.findings.end(),
                    [](const Finding& f) { return f.severity == Severity::stop; }))
        return false;
    const MayMerge mayMerge = [&](const std::string& a, const std::string& b) {
        return stockFor(project.materials, a) == stockFor(project.materials, b);
    };
    const Body body = joinForms(forms, mayMerge, {}, Job{job.stop, {}});
    if (job.stopped() || std::any_of(body.findings.begin(), body.findings.end(),
                                     [](const Finding& f) { return f.severity == Severity::stop; }))
        return false;
    point.plates = static_cast<int>(
        std::count_if(body.skin.faces.begin(), body.skin.faces.end(),
                      [&](const SkinFace& face) { return !stockFor(project.materials, face.name).empty(); }));
    const Likeness likeness = likenessOf(project, scope);
    point.greatest = likeness.greatest;
    point.mean = likeness.mean;
    return true;
}

/// Rising plates; a point that costs more than another is more like than it.
std::vector<LikenessPoint> worthwhile(std::vector<LikenessPoint> points) {
    std::stable_sort(points.begin(), points.end(), [](const LikenessPoint& a, const LikenessPoint& b) {
        if (a.plates != b.plates) return a.plates < b.plates;
        return a.greatest != b.greatest ? a.greatest < b.greatest : a.mean < b.mean;
    });
    std::vector<LikenessPoint> kept;
    for (LikenessPoint& p : points)
        if (kept.empty() ||
            (p.plates > kept.back().plates && p.greatest < kept.back().greatest && p.mean < kept.back().mean))
            kept.push_back(std::move(p));
    return kept;
}

} // namespace

LikenessSurvey surveyLikeness(const Project& project, const Scope& scope, const Job& job) {
    LikenessSurvey survey;
    survey.now.how = "as drawn";
    const std::vector<Bend> bends = bendsOf(project, scope);
    for (const Bend& bend : bends) survey.now.facets.push_back(bend.now);
    const bool sound = weigh(project, scope, survey.now, job);
    if (bends.empty()) return survey;
    std::vector<LikenessPoint> points;
    if (sound) points.push_back(survey.now);
    const std::vector<Choice> choices = choicesOf(bends, scope);
    for (std::size_t i = 0; i < choices.size() && !job.stopped(); ++i) {
        LikenessPoint point;
        point.how = choices[i].how;
        point.facets = choices[i].facets;
        if (weigh(withFacets(project, point.facets), scope, point, job)) points.push_back(std::move(point));
        job.report(static_cast<double>(i + 1) / static_cast<double>(choices.size()));
    }
    survey.points = worthwhile(std::move(points));
    return survey;
}

Edit setFacets(const LikenessPoint& point) {
    Edit edit;
    edit.label = "Set the facets of all curves";
    edit.apply = [facets = point.facets](const Project& before) -> Expected<Project> {
        Project after = before;
        for (const CurveFacets& f : facets) {
            auto* curves = f.form < after.forms.size() ? curvesOf(after.forms[f.form].shape) : nullptr;
            if (!curves || f.curve >= curves->size())
                return fail("curve-gone", "A curve that was to get facets is no longer there.", {},
                            "Work the plot out again.");
        }
        return withFacets(std::move(after), facets);
    };
    return edit;
}

} // namespace slab
