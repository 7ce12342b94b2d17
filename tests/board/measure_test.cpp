// Distances, and dimension lines that drive.
#include "core/board/measure.h"
#include "tests/board/make.h"
#include <cmath>
#include <numbers>

using namespace slab;
using namespace slab::test;

namespace {

Project lined(const std::string& from, const std::string& to, const std::string& along,
              const std::string& drives, const std::string& scale = "1", const std::string& view = "side") {
    Project p = boat(scale);
    p.lines = {{"length", view, from, to, along, drives, "", {}}};
    return p;
}
double measured(const Project& p) {
    const auto value = lengthOf(p, scopeIn(p), p.lines[0]);
    EXPECT_TRUE(value) << (value ? "" : value.error().message);
    return value ? *value : -1;
}

} // namespace

// A 3–4–5 triangle.
TEST(Measure, distanceAndAngles) {
    const MeasuredWay m = measure({100, 100}, {400, 500});
    EXPECT_DOUBLE_EQ(m.distance, 500);
    EXPECT_DOUBLE_EQ(m.right, 300);
    EXPECT_DOUBLE_EQ(m.up, 400);
    EXPECT_NEAR(m.angle, std::asin(0.8), 1e-15);
    EXPECT_NEAR(angleAt({1, 0}, {0, 0}, {0, 2}), std::numbers::pi / 2, 1e-15);
    EXPECT_NEAR(angleAt({1, 0}, {0, 0}, {-3, 0}), std::numbers::pi, 1e-15);
    EXPECT_NEAR(angleAt({4, 3}, {0, 0}, {4, 0}), std::atan2(3, 4), 1e-15);
}

TEST(Measure, inTheBuildersUnits) {
    UnitStyle metric;
    EXPECT_EQ(inWords(measure({0, 0}, {300, 400}), 1, metric), "500 mm at 53.1°; 300 mm along, 400 mm up");
    EXPECT_EQ(inWords(measure({0, 0}, {300, -400}), 0.5, metric),
              "500 mm at -53.1°; 300 mm along, 400 mm down (subject 1000 mm)");
}

TEST(DimensionLines, namesOfPointsAndBack) {
    const Project p = boat();
    for (const PointRef& ref :
         {PointRef{"/forms/0/outline/2", Handle::corner}, PointRef{"/forms/0/outline/2", Handle::halfWidth},
          PointRef{"/forms/1/base/1", Handle::corner}, PointRef{"/forms/1/top/1", Handle::corner},
          PointRef{"/forms/1", Handle::place}}) {
        const auto back = refNamed(p, lineName(p, ref));
        ASSERT_TRUE(back) << lineName(p, ref);
        EXPECT_EQ(*back, ref) << lineName(p, ref);
    }
    EXPECT_EQ(lineName(p, {"/forms/0/outline/2", Handle::corner}), "hull/stem head");
    EXPECT_EQ(lineName(p, {"/forms/1/top/1", Handle::corner}), "house/top/1");
    EXPECT_FALSE(refNamed(p, "hull/nowhere"));
    EXPECT_FALSE(refNamed(p, "boat"));
}

TEST(DimensionLines, measureAlongAxesAndTruly) {
    EXPECT_NEAR(measured(lined("hull/forefoot", "hull/stem head", "", "")), std::hypot(880, 1200), 1e-9);
    EXPECT_NEAR(measured(lined("hull/forefoot", "hull/stem head", "x", "")), 880, 1e-9);
    EXPECT_NEAR(measured(lined("hull/forefoot", "hull/stem head", "z", "", "0.5")), 600, 1e-9);
    EXPECT_NEAR(measured(lined("hull/keel/half_width", "house/top/0", "y", "", "1", "front")), 900 + 600,
                1e-9);
}

TEST(DriveLine, straightFormulasAreSolved) {
    const Project p = lined("hull/keel", "hull/stem head", "x", "hull_length", "0.5");
    // At half size: a figure is the subject's, as in the fields of its points.
    const Project next = applied(p, driveLine(p, 0, "4.4 m"));
    EXPECT_EQ(next.dimensions[0].value, "4400 mm");
    EXPECT_NEAR(measured(next), 2200, 1e-9);
    const Project built = applied(p, driveLine(p, 0, "build(2.1 m)"));
    EXPECT_EQ(built.dimensions[0].value, "4200 mm");
    EXPECT_NEAR(measured(built), 2100, 1e-9);
}

TEST(DriveLine, keepsTheDimensionsFormula) {
    Project p = lined("hull/keel", "hull/stem head", "x", "hull_length");
    p.dimensions[0].value = "2 * beam + 0.4 m";
    const Project next = applied(p, driveLine(p, 0, "4.1 m"));
    EXPECT_EQ(next.dimensions[0].value, "2 * beam + 0.5 m");
}

// The distance as a crooked function of the dimension: bisection where the secant does not settle.
TEST(DriveLine, curvedFormulasAreSolved) {
    auto random = seeded(3);
    for (int round = 0; round < 40; ++round) {
        Project p = lined("hull/forefoot", "hull/stem head", "", "rake");
        p.dimensions.push_back({"rake", "30 deg", Space::subject, "", {}});
        auto& stem = std::get<ProfileShape>(p.forms[0].shape).outline[2];
        stem.x = "hull_length - 0.88 m + 1.2 m * tan(rake)";
        const double wanted = uniform(random, 1210, 3000);
        const Project next = applied(p, driveLine(p, 0, mm(wanted)));
        EXPECT_NEAR(measured(next), wanted, 1e-9) << next.dimensions.back().value;
    }
}

TEST(DriveLine, refusesWhatItDoesNotReach) {
    Project p = lined("hull/forefoot", "hull/stem head", "", "rake");
    p.dimensions.push_back({"rake", "30 deg", Space::subject, "", {}});
    std::get<ProfileShape>(p.forms[0].shape).outline[2].x = "hull_length - 0.88 m + 1.2 m * tan(rake)";
    const auto tooShort = driveLine(p, 0, "1 m"); // never under 1.2 m
    ASSERT_FALSE(tooShort);
    EXPECT_EQ(tooShort.error().code, "does-not-reach");
    const Project other = lined("hull/keel", "hull/transom", "z", "hull_length");
    const auto loose = driveLine(other, 0, "1 m");
    ASSERT_FALSE(loose);
    EXPECT_EQ(loose.error().code, "does-not-reach");
    const Project tells = lined("hull/keel", "hull/transom", "z", "");
    EXPECT_EQ(driveLine(tells, 0, "1 m").error().code, "not-driven");
    EXPECT_FALSE(driveLine(p, 3, "1 m"));
    EXPECT_FALSE(driveLine(p, 0, "1 deg"));
}

TEST(MakeDriving, rewritesTheSecondPoint) {
    const Project p = lined("hull/keel", "hull/transom", "z", "", "0.5");
    const Project next = applied(p, makeDriving(p, scopeIn(p), 0, "freeboard"));
    EXPECT_EQ(next.dimensions.back().name, "freeboard");
    EXPECT_EQ(next.dimensions.back().value, "1200 mm");
    EXPECT_EQ(std::get<ProfileShape>(next.forms[0].shape).outline[4].z, "300 mm + freeboard");
    EXPECT_EQ(next.lines[0].drives, "freeboard");
    EXPECT_NEAR(measured(next), 600, 1e-9);
    EXPECT_NEAR(measured(applied(next, driveLine(next, 0, "1400 mm"))), 700, 1e-9);
}

TEST(MakeDriving, betweenForms) {
    const Project p = lined("hull/stem head", "house/front", "x", "", "0.4");
    const Project next = applied(p, makeDriving(p, scopeIn(p), 0, "foredeck"));
    EXPECT_EQ(std::get<TaperShape>(next.forms[1].shape).base[1].x, "hull_length - foredeck - 0.5 m");
    EXPECT_NEAR(measured(applied(next, driveLine(next, 0, "1 m"))), 400, 1e-9) << "a metre of the subject";
}

TEST(MakeDriving, refuses) {
    const Project p = lined("hull/forefoot", "hull/stem head", "", "");
    EXPECT_EQ(makeDriving(p, scopeIn(p), 0, "slant").error().code, "needs-axis");
    EXPECT_EQ(makeDriving(p, scopeIn(p), 0, "2x").error().code, "bad-name");
    EXPECT_EQ(makeDriving(p, scopeIn(p), 0, "beam").error().code, "duplicate-name");
    Project turned = lined("hull/keel", "hull/transom", "z", "");
    turned.forms[0].at.pitch = "10 deg";
    EXPECT_EQ(makeDriving(turned, scopeIn(turned), 0, "h").error().code, "not-movable");
}

TEST(LineFindings, tellWhatPointsNowhere) {
    const auto codes = [](const Project& p) {
        std::vector<std::string> all;
        for (const Finding& f : lineFindings(p, scopeIn(p))) all.push_back(f.code);
        return all;
    };
    EXPECT_TRUE(codes(lined("hull/keel", "hull/stem head", "x", "hull_length")).empty());
    EXPECT_EQ(codes(lined("hull/keel", "hull/gone", "x", "")), std::vector<std::string>{"line-point"});
    EXPECT_EQ(codes(lined("hull/keel", "hull/stem head", "x", "hull_size")),
              std::vector<std::string>{"line-drives"});
    EXPECT_EQ(codes(lined("hull/keel", "hull/transom", "z", "hull_length")),
              std::vector<std::string>{"line-reach"});
}

TEST(AddLine, hasAFreshName) {
    Project p = boat();
    for (int i = 0; i < 2; ++i)
        p = edited(p, addLine(p, BoardView::side, {"/forms/0/outline/0", Handle::corner},
                              {"/forms/1/top/2", Handle::corner}, "z"));
    ASSERT_EQ(p.lines.size(), 2U);
    EXPECT_EQ(p.lines[1].name, "line 2");
    EXPECT_EQ(p.lines[1].from, "hull/keel");
    EXPECT_EQ(p.lines[1].to, "house/top/2");
    EXPECT_NEAR(measured(p), 2200, 1e-9);
}
