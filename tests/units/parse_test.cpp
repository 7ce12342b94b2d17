#include "core/units/units.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

double inches(double n) {
    return n * 254 / 10;
} // rounded once

TEST(ParseLength, ReadsWhatBuildersWrite) {
    struct Case {
        const char* text;
        double mm;
    };
    // 1 in = 25.4 mm, 1 ft = 304.8 mm: exact since the international yard and pound agreement of 1959 (from
    // memory).
    const Case cases[] = {{"2.4 m", 2400},
                          {"610mm", 610},
                          {"61 cm", 610},
                          {" 610 mm ", 610},
                          {"3/4 in", 19.05},
                          {"10-1/2 in", 266.7},
                          {"10 1/2 in", 266.7},
                          {"7' 10-1/2\"", inches(94.5)},
                          {"7' 10 1/2\"", inches(94.5)},
                          {"7 ft 10-1/2 in", inches(94.5)},
                          {"7 ft 10 1/2 in", inches(94.5)},
                          {"7′ 5¼″", inches(89.25)},
                          {"7'-10\"", inches(94)},
                          {"7'10\"", inches(94)},
                          {"7' 10", inches(94)},
                          {"4'2", inches(50)},
                          {"-4′ 2", -inches(50)},
                          {"4 ft 2 1/2", inches(50.5)},
                          {"7’ 10”", inches(94)},
                          {"7ft", inches(84)},
                          {"½\"", 12.7},
                          {"5½ in", inches(5.5)},
                          {"5 ⅞″", inches(5.875)},
                          {"2-1/3 ft", 711.2},
                          {"-3 mm", -3},
                          {"−3 mm", -3},
                          {"+3 mm", 3},
                          {"-7' 3\"", -inches(87)},
                          {".5 in", 12.7},
                          {"1.5e3 mm", 1500},
                          {"0 mm", 0},
                          {"12''", inches(12)},
                          {"1 inch", 25.4},
                          {"2 feet", 609.6}};
    for (const Case& c : cases) {
        const auto mm = parseLength(c.text, Unit::mm);
        ASSERT_TRUE(mm) << c.text << ": " << mm.error().message;
        EXPECT_EQ(*mm, c.mm) << c.text;
    }
}

TEST(ParseLength, BareNumberTakesTheUnitGiven) {
    EXPECT_EQ(parseLength("12", Unit::in), inches(12));
    EXPECT_EQ(parseLength("7/8", Unit::in), 22.225);
    EXPECT_EQ(parseLength("1.25", Unit::m), 1250);
    EXPECT_EQ(parseLength("10-1/2", Unit::in), 266.7);
}

TEST(ParseLength, SameSizeInEveryUnitIsTheSameDouble) {
    EXPECT_EQ(parseLength("0.1 m", Unit::mm), parseLength("100 mm", Unit::mm));
    EXPECT_EQ(parseLength("0.3 m", Unit::mm), parseLength("30 cm", Unit::mm));
    EXPECT_EQ(parseLength("7.875 ft", Unit::mm), parseLength("7' 10-1/2\"", Unit::mm));
    EXPECT_EQ(parseLength("7.875 ft", Unit::mm), parseLength("94.5 in", Unit::mm));
    EXPECT_EQ(parseLength("0.7 in", Unit::mm), parseLength("17.78 mm", Unit::mm));
}

TEST(ParseLength, RefusesWithPlaceAndRemedy) {
    struct Case {
        const char* text;
        const char* where;
    };
    const Case cases[] = {{"", "column 1"},         {"abc", "column 1"},      {"12 stone", "column 4"},
                          {"3 4 mm", "column 3"},   {"7' 10 mm", "column 4"}, {"1/0 in", "column 2"},
                          {"12 mm 3", "column 7"},  {"5°", "column 1"},       {"10 - 1/2 in", "column 4"},
                          {"--3 mm", "column 2"},   {"7′ 5¼ mm", "column 4"}, {"1e999 mm", "column 1"},
                          {"1.2.3 mm", "column 4"}, {"nan", "column 1"},      {"inf mm", "column 1"},
                          {"3,5 mm", "column 2"}};
    for (const Case& c : cases) {
        const auto mm = parseLength(c.text, Unit::mm);
        ASSERT_FALSE(mm) << c.text << " gave " << *mm;
        EXPECT_EQ(mm.error().code, "bad-length") << c.text;
        EXPECT_EQ(mm.error().where, c.where) << c.text << ": " << mm.error().message;
        EXPECT_FALSE(mm.error().remedy.empty()) << c.text;
    }
}

TEST(ParseLength, HugeTextNeitherHangsNorCrashes) {
    EXPECT_FALSE(parseLength(std::string(100000, '9'), Unit::mm));
    const std::string manyDigits = "0." + std::string(100000, '3');
    const auto third = parseLength(manyDigits, Unit::m);
    ASSERT_TRUE(third);
    EXPECT_NEAR(*third, 1000.0 / 3, 1e-10);
    EXPECT_EQ(parseLength("1e-999 mm", Unit::mm), 0.0);
    EXPECT_EQ(parseLength("1e-99999999999 mm", Unit::mm), 0.0);
}

TEST(ParseAngle, DegreesAndRadians) {
    EXPECT_DOUBLE_EQ(parseAngle("180°").value(), std::numbers::pi);
    EXPECT_DOUBLE_EQ(parseAngle("90 deg").value(), std::numbers::pi / 2);
    EXPECT_DOUBLE_EQ(parseAngle("90").value(), std::numbers::pi / 2);
    EXPECT_DOUBLE_EQ(parseAngle("22½°").value(), std::numbers::pi / 8);
    EXPECT_EQ(parseAngle("0.5 rad"), 0.5);
    EXPECT_EQ(parseAngle("-0.5 rad"), -0.5);
    for (const char* bad : {"", "3 mm", "x", "30° 2"}) {
        const auto angle = parseAngle(bad);
        ASSERT_FALSE(angle) << bad;
        EXPECT_EQ(angle.error().code, "bad-angle");
    }
}

TEST(ParseRatio, FractionsColonsAndPercent) {
    EXPECT_EQ(parseRatio("0.4"), 0.4);
    EXPECT_EQ(parseRatio("2/5"), 0.4);
    EXPECT_EQ(parseRatio("2:5"), 0.4);
    EXPECT_EQ(parseRatio("1:2.5"), 0.4);
    EXPECT_EQ(parseRatio("40 %"), 0.4);
    EXPECT_EQ(parseRatio("40%"), 0.4);
    EXPECT_EQ(parseRatio("2 / 5"), 0.4);
    EXPECT_EQ(parseRatio("½"), 0.5);
    EXPECT_EQ(parseRatio("1:24"), 1.0 / 24);
    for (const char* bad : {"", "1:0", "2:", ":5", "x", "1:2:3", "3 in", "40 %%", "2/5 m"}) {
        const auto ratio = parseRatio(bad);
        ASSERT_FALSE(ratio) << bad << " gave " << *ratio;
        EXPECT_EQ(ratio.error().code, "bad-ratio") << bad;
        EXPECT_FALSE(ratio.error().remedy.empty());
    }
}

// Reduction ratios of scale models: 1:24 is 1/2 in to the foot, 1:12 one inch, 1:48 a quarter (from memory).
TEST(ParseRatio, ModelScalesPerFoot) {
    EXPECT_DOUBLE_EQ(parseRatio("1:24").value() * parseLength("1 ft", Unit::mm).value(), inches(0.5));
    EXPECT_DOUBLE_EQ(parseRatio("1:12").value() * parseLength("1 ft", Unit::mm).value(), inches(1));
    EXPECT_DOUBLE_EQ(parseRatio("1:48").value() * parseLength("1 ft", Unit::mm).value(), inches(0.25));
}

TEST(Units, NamesAndFactors) {
    for (const Unit unit : {Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft, Unit::deg, Unit::rad})
        EXPECT_EQ(parseUnit(unitName(unit)), unit);
    EXPECT_EQ(unitFactor(Unit::in), 25.4);
    EXPECT_EQ(unitFactor(Unit::ft), inches(12));
    const auto bad = parseUnit("furlong");
    ASSERT_FALSE(bad);
    EXPECT_EQ(bad.error().code, "bad-unit");
    EXPECT_FALSE(parseUnit(""));
    EXPECT_FALSE(parseUnit("mm "));
}

} // namespace
} // namespace slab
