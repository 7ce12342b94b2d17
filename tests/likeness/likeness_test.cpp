// Likeness of faceted bodies against closed forms, and the survey of plates against it.
#include "core/body/curved.h"
#include "core/likeness/likeness.h"
#include "tests/body/make.h"
#include <cmath>
#include <numbers>

using namespace slab;

namespace {

constexpr double pi = std::numbers::pi;

Curve arcOf(const std::string& from, const std::string& to, double bulge, int facets) {
    Curve c;
    c.from = from;
    c.to = to;
    c.bulge = mm(bulge);
    c.facets = std::to_string(facets);
    return c;
}

/// A drum of n facets over a full circle: four quarters.
Project drum(double radius, int n, double height) {
    TaperShape s;
    s.base = {planPoint("a", -radius, 0), planPoint("s", 0, -radius), planPoint("b", radius, 0),
              planPoint("p", 0, radius)};
    s.top = s.base;
    s.base_z = "0";
    s.top_z = mm(height);
    const double bulge = radius * (1 - std::sqrt(0.5));
    for (const auto& [from, to] : {std::pair("a", "s"), {"s", "b"}, {"b", "p"}, {"p", "a"}})
        s.curves.push_back(arcOf(from, to, bulge, n / 4));
    return projectOf({named("drum", s)});
}

/// A side with a half-ellipse deck and a spline stem.
Project boat() {
    ProfileShape s;
    s.outline = {sidePoint("keel aft", 0, 0, 300), sidePoint("forefoot", 1800, 0, 300),
                 sidePoint("stem", 2400, 900, 300), sidePoint("deck aft", 0, 900, 300)};
    Curve stem;
    stem.kind = CurveKind::spline;
    stem.from = "forefoot";
    stem.to = "stem";
    OutlinePoint p;
    p.x = mm(2250);
    p.z = mm(330);
    stem.through = {p};
    stem.facets = "3";
    Curve deck;
    deck.kind = CurveKind::ellipse;
    deck.from = "stem";
    deck.to = "deck aft";
    deck.x = mm(900);
    deck.z = mm(1200);
    deck.facets = "4";
    s.curves = {stem, deck};
    Project project = projectOf({named("hull", s)});
    project.materials.fallback = "board";
    return project;
}

Scope scopeOf(double scale = 1) {
    return evaluateAll({}, scale, Unit::mm).scope;
}

} // namespace

// Regular n-gon in a circle: greatest R (1 − cos a), a = π/n; means by integration (see likeness.h).
TEST(Likeness, drumIsTheClosedForm) {
    const double R = 300;
    for (const int n : {4, 8, 12, 16, 24}) {
        const double a = pi / n, sine = std::sin(a), cosine = std::cos(a);
        const double onCircle = R * (sine / a - cosine),
                     onFacets = R - R * (1 + cosine * cosine * std::asinh(std::tan(a)) / sine) / 2;
        const double mean = (onCircle * a + onFacets * sine) / (a + sine); // by their areas
        const Likeness l = likenessOf(drum(R, n, 450), scopeOf());
        EXPECT_EQ(l.curves, 4);
        EXPECT_NEAR(l.greatest, R * (1 - cosine), 1e-9 * R) << n;
        // Seven nodes leave about (1 + √2)^-14 of a quarter turn's distances, whose root is singular at a
        // height of one half chord beside it; finer facets leave far less.
        EXPECT_NEAR(l.mean, mean, (n == 4 ? 1e-6 : 1e-8) * R) << n;
        // Everything shrinks with the scale.
        const Likeness small = likenessOf(drum(R, n, 450), scopeOf(0.4));
        EXPECT_NEAR(small.greatest, 0.4 * l.greatest, 1e-9);
        EXPECT_NEAR(small.mean, 0.4 * l.mean, 1e-9);
    }
    // Sagittas of the published table (reference-values 7.6).
    EXPECT_NEAR(likenessOf(drum(300, 8, 100), scopeOf()).greatest, 22.836, 5e-4);
    EXPECT_NEAR(likenessOf(drum(300, 24, 100), scopeOf()).greatest, 2.567, 5e-4);
}

TEST(Likeness, whatLiesInsideAnotherFormIsLeftOut) {
    Project project = drum(300, 8, 450);
    const Likeness alone = likenessOf(project, scopeOf());
    // A box round the lower half: what is left is the same ring of the drum, only shorter.
    project.forms.push_back(boxForm("box", {-400, -400, -50}, {400, 400, 225}));
    const Likeness half = likenessOf(project, scopeOf());
    EXPECT_NEAR(half.greatest, alone.greatest, 1e-9);
    EXPECT_NEAR(half.mean, alone.mean, 1e-9);
    // A box round all of it leaves nothing to see.
    project.forms.back() = boxForm("box", {-400, -400, -50}, {400, 400, 500});
    const Likeness hidden = likenessOf(project, scopeOf());
    EXPECT_EQ(hidden.greatest, 0);
    EXPECT_EQ(hidden.mean, 0);
}

TEST(Likeness, greatestIsTheChordErrorOfRandomCurves) {
    auto random = seeded();
    for (int run = 0; run < 20; ++run) {
        Project project = boat();
        auto& curves = std::get<ProfileShape>(project.forms[0].shape).curves;
        curves[0].through[0].x = mm(uniform(random, 2150, 2400));
        curves[1].z = mm(uniform(random, 1000, 1500));
        curves[0].facets = std::to_string(1 + below(random, 5));
        curves[1].facets = std::to_string(1 + below(random, 6));
        const ResolvedForms forms = resolvedAt(project);
        ASSERT_TRUE(forms.findings.empty()) << report(forms.findings);
        double deviation = 0;
        for (const CurveFit& fit : forms.curves) deviation = std::max(deviation, fit.deviation);
        const Likeness l = likenessOf(project, scopeOf());
        // Sampled, so a little below; never above.
        EXPECT_LE(l.greatest, deviation * (1 + 1e-9)) << run;
        EXPECT_GE(l.greatest, deviation * 0.97) << run;
        EXPECT_LT(l.mean, l.greatest);
        EXPECT_GT(l.mean, 0);
    }
}

TEST(Likeness, surveyRisesInPlatesAndFallsInDistance) {
    const Project project = boat();
    const LikenessSurvey survey = surveyLikeness(project, scopeOf());
    ASSERT_GE(survey.points.size(), 5U);
    for (std::size_t i = 1; i < survey.points.size(); ++i) {
        EXPECT_GT(survey.points[i].plates, survey.points[i - 1].plates);
        EXPECT_LT(survey.points[i].greatest, survey.points[i - 1].greatest);
        EXPECT_LT(survey.points[i].mean, survey.points[i - 1].mean);
    }
    // 2 plain cross plates, 2 flanks and the facets of two curves.
    EXPECT_EQ(survey.now.plates, 2 + 2 + 3 + 4);
    EXPECT_EQ(survey.points.front().plates, 2 + 2 + 1 + 1);
    EXPECT_EQ(survey, surveyLikeness(project, scopeOf())) << "the same on every run";

    // Each point is what its edit makes.
    for (const std::size_t k : {std::size_t(0), survey.points.size() / 2, survey.points.size() - 1}) {
        const auto after = setFacets(survey.points[k]).apply(project);
        ASSERT_TRUE(after);
        const Likeness l = likenessOf(*after, scopeOf());
        EXPECT_EQ(l.greatest, survey.points[k].greatest);
        EXPECT_EQ(l.mean, survey.points[k].mean);
        EXPECT_EQ(static_cast<int>(bodyOf(*after).skin.faces.size()), survey.points[k].plates);
    }
}

TEST(Likeness, nothingToCompareAndRefusals) {
    const Project plain = projectOf({boxForm("box", {0, 0, 0}, {500, 400, 300})});
    EXPECT_EQ(likenessOf(plain, scopeOf()), Likeness{});
    EXPECT_TRUE(surveyLikeness(plain, scopeOf()).points.empty());

    const Project project = boat();
    std::stop_source source;
    source.request_stop();
    EXPECT_TRUE(surveyLikeness(project, scopeOf(), Job{source.get_token(), {}}).points.empty());

    LikenessPoint point;
    point.facets = {{0, 5, 3}};
    const auto gone = setFacets(point).apply(project);
    ASSERT_FALSE(gone);
    EXPECT_EQ(gone.error().code, "curve-gone");
    // A form that cannot be read takes no part.
    Project broken = project;
    std::get<ProfileShape>(broken.forms[0].shape).curves[0].facets = "many";
    EXPECT_EQ(likenessOf(broken, scopeOf()).curves, 0);
}
