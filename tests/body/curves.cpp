// Circle arcs, ellipse arcs and splines, and the facets that follow them.
#include "core/body/outline.h"
#include "tests/body/make.h"
#include <algorithm>
#include <cmath>
#include <numbers>

using namespace slab;

namespace {

CurvePath randomPath(std::mt19937_64& random) {
    if (below(random, 2) == 0) {
        const Vec2 a(uniform(random, -500, 500), 0),
            b(uniform(random, 600, 1500), uniform(random, -200, 200));
        const Vec2 meet(uniform(random, -200, 1500), uniform(random, 300, 1200));
        return *ellipsePath(a, b, meet, uniform(random, 0.3, 3.0));
    }
    std::vector<Vec2> points;
    for (int i = 0, n = 3 + below(random, 6); i < n; ++i)
        points.emplace_back(300.0 * i + uniform(random, -100, 100), uniform(random, -250, 250));
    return *splinePath(points);
}

/// Least greatest chord error over breaks on a grid of parameters: dynamic programming, all choices looked
/// at.
double bestOnGrid(const CurvePath& path, int count, int grid) {
    std::vector<double> least(static_cast<std::size_t>(grid) + 1, 1e300), next;
    least[0] = 0;
    const auto at = [&](int i) { return endOf(path) * i / grid; };
    for (int facet = 0; facet < count; ++facet) {
        next.assign(least.size(), 1e300);
        for (int to = 1; to <= grid; ++to)
            for (int from = 0; from < to; ++from) {
                const double before = least[static_cast<std::size_t>(from)];
                double& best = next[static_cast<std::size_t>(to)];
                if (before < best)
                    best = std::min(best, std::max(before, deviationOf(path, at(from), at(to))));
            }
        least = next;
    }
    return least.back();
}

OutlinePoint through(double x, double z) {
    OutlinePoint p;
    p.x = mm(x);
    p.z = mm(z);
    return p;
}

} // namespace

// Sagittas of facets on R = 300 (reference-values 7.6): n = 8, 12, 16, 24 on the full circle.
TEST(CurvePath, circleFacetsAreTheClosedForm) {
    for (const auto& [n, sagitta] : {std::pair{8, 22.836}, {12, 10.222}, {16, 5.764}, {24, 2.567}}) {
        const CurvePath half = arcPath({-300, 0}, {300, 0}, {0, 1}, 300);
        const auto breaks = bestBreaks(half, n / 2);
        EXPECT_NEAR(deviationOf(half, breaks), sagitta, 5e-4);
        EXPECT_NEAR(deviationOf(half, breaks), 300 * (1 - std::cos(std::numbers::pi / n)), 1e-9 * 300);
        for (std::size_t i = 0; i < breaks.size(); ++i)
            EXPECT_NEAR(breaks[i], double(i) / (n / 2), 1e-9) << "equal steps are best on a circle";
        EXPECT_NEAR(deviationOf(600.0, 300.0, n / 2), 300 * (1 - std::cos(std::numbers::pi / n)), 1e-9 * 300);
    }
    // Facets for a sagitta of at most 1, 2, 3 mm on the full circle: 39, 28, 23 (reference-values 7.6).
    const CurvePath third = arcPath({0, 0}, {300 * std::sqrt(3.0), 0}, {0, 1}, 150);
    for (const auto& [tolerance, full] : {std::pair{1.0, 39}, {2.0, 28}, {3.0, 23}})
        EXPECT_EQ(breaksWithin(third, tolerance, 200).size() - 1, std::size_t((full + 2) / 3));
}

TEST(CurvePath, quarterEllipseLiesOnItsEquation) {
    // x²/a² + y²/b² = 1 with a = 400, b = 150; tangents meet in the corner of its box.
    const auto path = ellipsePath({400, 0}, {0, 150}, {400, 150}, std::numbers::pi / 2);
    ASSERT_TRUE(path);
    for (int i = 0; i <= 40; ++i) {
        const Vec2 p = pointAt(*path, i / 40.0);
        EXPECT_NEAR(p.x() * p.x() / 160000 + p.y() * p.y() / 22500, 1, 1e-12);
    }
    EXPECT_NEAR((pointAt(*path, 0) - Vec2(400, 0)).norm(), 0, 1e-9);
    EXPECT_NEAR((pointAt(*path, 1) - Vec2(0, 150)).norm(), 0, 1e-9);
    // A sweep whose tangents meet as a circle's do is that circle's arc.
    const double half = 0.6;
    const auto round = ellipsePath({-std::sin(half), std::cos(half)}, {std::sin(half), std::cos(half)},
                                   {0, 1 / std::cos(half)}, 2 * half);
    ASSERT_TRUE(round);
    for (int i = 0; i <= 20; ++i) EXPECT_NEAR(pointAt(*round, i / 20.0).norm(), 1, 1e-12);
}

TEST(CurvePath, splineRunsThroughItsPointsWithContinuousCurvature) {
    auto random = seeded();
    for (int run = 0; run < 20; ++run) {
        std::vector<Vec2> points;
        for (int i = 0, n = 3 + below(random, 5); i < n; ++i)
            points.emplace_back(200.0 * i + uniform(random, -60, 60), uniform(random, -300, 300));
        const auto path = splinePath(points);
        ASSERT_TRUE(path);
        // The natural cubic spline is the only twice smooth piecewise cubic through the points with no
        // curvature at its ends (de Boor); over its own parameters x, whose steps are the roots of the
        // chords.
        for (std::size_t i = 0; i < path->size(); ++i) {
            const double h = std::sqrt((points[i + 1] - points[i]).norm());
            const auto& k = (*path)[i].k;
            EXPECT_NEAR((k[0] - points[i]).norm(), 0, 1e-9);
            EXPECT_NEAR((k[0] + k[1] + k[2] + k[3] - points[i + 1]).norm(), 0, 1e-9);
            const Vec2 endSlope = (k[1] + 2 * k[2] + 3 * k[3]) / h, endBend = (2 * k[2] + 6 * k[3]) / (h * h);
            if (i == 0) {
                EXPECT_NEAR(k[2].norm(), 0, 1e-9);
            }
            if (i + 1 == path->size()) {
                EXPECT_NEAR(endBend.norm(), 0, 1e-9);
                continue;
            }
            const double g = std::sqrt((points[i + 2] - points[i + 1]).norm());
            const auto& q = (*path)[i + 1].k;
            EXPECT_NEAR((endSlope - q[1] / g).norm(), 0, 1e-8);
            EXPECT_NEAR((endBend - 2 * q[2] / (g * g)).norm(), 0, 1e-8);
        }
    }
}

TEST(CurvePath, bestBreaksAreNeverWorseThanEqualSteps) {
    auto random = seeded();
    double gained = 0;
    const int runs = 200;
    for (int run = 0; run < runs; ++run) {
        const CurvePath path = randomPath(random);
        const int count = 2 + below(random, 12);
        std::vector<double> steps;
        for (int i = 0; i <= count; ++i) steps.push_back(endOf(path) * i / count);
        const auto best = bestBreaks(path, count);
        ASSERT_EQ(best.size(), steps.size());
        EXPECT_TRUE(std::is_sorted(best.begin(), best.end()));
        const double d = deviationOf(path, best), equal = deviationOf(path, equalBreaks(path, count));
        EXPECT_LE(d, deviationOf(path, steps) * (1 + 1e-12)) << run;
        EXPECT_LE(d, equal * (1 + 1e-12)) << run;
        gained += equal > 0 ? 1 - d / equal : 0;
    }
    std::printf("least greatest deviation is on average %.1f %% below that of equal steps of length\n",
                100 * gained / runs);
}

TEST(CurvePath, bestBreaksAreTheLeastOverAllChoices) {
    const auto ellipse = ellipsePath({900, 0}, {0, 200}, {900, 200}, std::numbers::pi / 2);
    const auto bow = splinePath({{0, 0}, {400, 260}, {900, 380}, {1600, 400}});
    for (const CurvePath& path : {*ellipse, *bow})
        for (const int count : {2, 3, 5}) {
            const double found = deviationOf(path, bestBreaks(path, count)),
                         all = bestOnGrid(path, count, 240);
            EXPECT_LE(found, all * (1 + 1e-9)) << count;
            EXPECT_GE(found, all * 0.97) << count << ": a grid of 240 comes near the least";
        }
}

// Splines that wind, against all choices on a grid by another search: equal errors are not the least there.
TEST(CurvePath, bestBreaksOfWindingSplinesAreTheLeastOverAllChoices) {
    auto random = seeded(11);
    double gained = 0;
    const int runs = 24;
    for (int run = 0; run < runs; ++run) {
        std::vector<Vec2> points{{0, 0}};
        for (int i = 1, n = 3 + below(random, 4); i <= n; ++i)
            points.emplace_back(points.back().x() + uniform(random, 150, 400), uniform(random, -200, 200));
        const auto path = splinePath(points);
        ASSERT_TRUE(path);
        for (const int count : {2, 3, 5}) {
            const double found = deviationOf(*path, bestBreaks(*path, count)),
                         all = bestOnGrid(*path, count, 180);
            EXPECT_LE(found, all * 1.005) << run << " " << count;
            gained += 1 - found / deviationOf(*path, equalBreaks(*path, count));
        }
    }
    std::printf("winding splines: %.1f %% below equal steps of length\n", 100 * gained / runs / 3);
}

TEST(CurvePath, fewestFacetsWithinATolerance) {
    auto random = seeded();
    for (int run = 0; run < 60; ++run) {
        const CurvePath path = randomPath(random);
        const double tolerance = uniform(random, 0.5, 20);
        const auto breaks = breaksWithin(path, tolerance, 200);
        ASSERT_FALSE(breaks.empty());
        EXPECT_LE(deviationOf(path, breaks), tolerance * (1 + 1e-9));
        const int count = static_cast<int>(breaks.size()) - 1;
        if (count > 1) {
            EXPECT_GT(deviationOf(path, bestBreaks(path, count - 1)), tolerance) << run;
            EXPECT_GT(bestOnGrid(path, count - 1, 120), tolerance) << run;
        }
    }
    EXPECT_TRUE(breaksWithin(arcPath({0, 0}, {1000, 0}, {0, 1}, 500), 1e-3, 20).empty());
}

TEST(CurvePath, deviationIsTheGreatestDistanceSampled) {
    auto random = seeded();
    for (int run = 0; run < 100; ++run) {
        const CurvePath path = randomPath(random);
        double a = uniform(random, 0, endOf(path)), b = uniform(random, 0, endOf(path));
        if (a > b) std::swap(a, b);
        const Vec2 p = pointAt(path, a), q = pointAt(path, b), along = q - p;
        double sampled = 0;
        for (int i = 0; i <= 4000; ++i) {
            const Vec2 at = pointAt(path, a + (b - a) * i / 4000);
            const double t =
                std::clamp((at - p).dot(along) / std::max(along.squaredNorm(), 1e-300), 0.0, 1.0);
            sampled = std::max(sampled, (at - p - t * along).norm());
        }
        EXPECT_NEAR(deviationOf(path, a, b), sampled, 1e-3 + 2e-3 * sampled) << run;
    }
}

TEST(CurvePath, refusals) {
    EXPECT_EQ(ellipsePath({0, 0}, {100, 0}, {50, 0}, 1).error().code, "curve-ellipse");
    EXPECT_EQ(ellipsePath({0, 0}, {100, 0}, {50, 50}, std::numbers::pi).error().code, "curve-ellipse");
    EXPECT_EQ(ellipsePath({0, 0}, {100, 0}, {50, 50}, 0).error().code, "curve-ellipse");
    EXPECT_EQ(splinePath({{0, 0}, {0, 0}, {100, 0}}).error().code, "curve-spline");
}

TEST(CurvedForm, ellipticBowTakesTheEllipsesArea) {
    // A quarter of an ellipse, a = 800, b = 300, as the nose of a box of half-width 200: the side area is
    // 1000 · 300 + π a b / 4 (closed form), approached from below.
    double last = 0;
    for (const int facets : {2, 4, 8, 16, 32}) {
        ProfileShape s;
        s.outline = {sidePoint("keel", 0, 0, 200), sidePoint("nose", 1800, 0, 200),
                     sidePoint("deck", 1000, 300, 200), sidePoint("stern", 0, 300, 200)};
        Curve c;
        c.from = "nose";
        c.to = "deck";
        c.kind = CurveKind::ellipse;
        c.x = mm(1800);
        c.z = mm(300);
        c.facets = std::to_string(facets);
        s.curves = {c};
        const Body body = bodyOf(projectOf({named("hull", s)}));
        const double area = body.volume / 400;
        EXPECT_GT(area, last);
        EXPECT_LT(area, 300000 + std::numbers::pi * 800 * 300 / 4);
        last = area;
        ASSERT_EQ(body.curves.size(), 1U);
        EXPECT_EQ(body.curves[0].side, "nose");
        EXPECT_EQ(body.curves[0].facets, facets);
        EXPECT_GT(body.curves[0].deviation, 0);
    }
    EXPECT_NEAR(last, 300000 + std::numbers::pi * 800 * 300 / 4, 300);
}

/// A hull whose nose is a spline through the points given.
ProfileShape splineNose(std::vector<OutlinePoint> points) {
    ProfileShape s;
    s.outline = {sidePoint("keel", 0, 0, 200), sidePoint("nose", 1500, 0, 200),
                 sidePoint("deck", 1000, 500, 200), sidePoint("stern", 0, 500, 200)};
    Curve c;
    c.from = "nose";
    c.to = "deck";
    c.kind = CurveKind::spline;
    c.through = std::move(points);
    c.facets = "12";
    s.curves = {c};
    return s;
}

TEST(CurvedForm, splineThatCrossesItselfNamesThePointToMove) {
    // Its second and third points are out of order: it goes out, back and out again.
    ProfileShape s =
        splineNose({through(1600, 100), through(1100, 450), through(1650, 300), through(1150, 150)});
    for (const bool back : {false, true}) {
        if (back) {
            std::swap(s.curves[0].from, s.curves[0].to);
            std::reverse(s.curves[0].through.begin(), s.curves[0].through.end());
        }
        const auto forms = resolvedAt(projectOf({named("hull", s)}));
        const Finding* f = find(forms.findings, "outline-crosses");
        ASSERT_NE(f, nullptr);
        EXPECT_EQ(f->remedy.find("bulge"), std::string::npos) << f->remedy;
        EXPECT_NE(f->remedy.find("spline"), std::string::npos) << f->remedy;
        EXPECT_NE(f->message.find("crosses or touches itself"), std::string::npos) << f->message;
        const std::string at = f->about.at(1);
        ASSERT_NE(at.find("/curves/0/through/"), std::string::npos) << at;
        // The point that is named lies by the crossing: taken out, the rest is sound or tells the next.
        const auto point = static_cast<std::size_t>(at.back() - '0');
        ASSERT_LT(point, 4U);
        EXPECT_NE(f->remedy.find("point " + std::to_string(point + 1)), std::string::npos) << f->remedy;
    }
}

TEST(CurvedForm, secondCurveOfAnEdgeIsToldAndLeftOut) {
    ProfileShape s = splineNose({through(1480, 200), through(1250, 420)});
    const Body one = bodyOf(projectOf({named("hull", s)}));
    Curve arc;
    arc.from = "deck";
    arc.to = "nose";
    arc.bulge = "40 mm";
    arc.facets = "3";
    s.curves.push_back(arc);
    const auto forms = resolvedAt(projectOf({named("hull", s)}));
    const Finding* f = find(forms.findings, "curve-twice");
    ASSERT_NE(f, nullptr);
    EXPECT_EQ(f->severity, Severity::look);
    EXPECT_EQ(f->about.at(1), "document:/forms/0/curves/1");
    const Body two = bodyOf(projectOf({named("hull", s)}));
    EXPECT_EQ(two.volume, one.volume);
    EXPECT_EQ(two.curves.size(), 1U);
}

TEST(CurvedForm, splineTakesItsHalfWidthsAndEitherDirection) {
    ProfileShape s;
    s.outline = {sidePoint("keel", 0, 0, 200), sidePoint("nose", 1500, 0, 200),
                 sidePoint("deck", 1000, 500, 200), sidePoint("stern", 0, 500, 200)};
    Curve c;
    c.from = "nose";
    c.to = "deck";
    c.kind = CurveKind::spline;
    c.through = {through(1480, 200), through(1250, 420)};
    c.facets = "6";
    s.curves = {c};
    const Body there = bodyOf(projectOf({named("hull", s)}));
    ASSERT_EQ(there.curves.size(), 1U);
    std::swap(s.curves[0].from, s.curves[0].to);
    std::reverse(s.curves[0].through.begin(), s.curves[0].through.end());
    const Body back = bodyOf(projectOf({named("hull", s)}));
    EXPECT_NEAR(there.volume, back.volume, 1e-9 * there.volume);
    s.curves[0].through[0].half_width = mm(120);
    const Body narrower = bodyOf(projectOf({named("hull", s)}));
    EXPECT_LT(narrower.volume, back.volume * 0.999);
    s.curves[0].through.clear();
    const auto refused = resolvedAt(projectOf({named("hull", s)}));
    EXPECT_NE(find(refused.findings, "curve-spline"), nullptr);
}
