#include "core/units/moment.h"
#include "core/units/units.h"
#include "tests/geometry/seed.h"
#include <cmath>

namespace slab {
namespace {

const UnitStyle kPlainInches{Unit::in, 16, 0, false};
const UnitStyle kInches{Unit::in, 16, 0, true};
const UnitStyle kFeet{Unit::ft, 16, 0, true};
const UnitStyle kPlainFeet{Unit::ft, 16, 0, false};

// Closed form: nearest 1/16 in, ties away from zero, reduced. 1220 mm = 48.03150 in is nearer to 48-1/16 than
// to 48 only because the tie lies at 48.03125.
TEST(PrintLength, NearestSixteenth) {
    struct Case {
        double mm;
        const char* text;
    };
    const Case cases[] = {{300, "11-13/16\""},
                          {1220, "48-1/16\""},
                          {2440, "96-1/16\""},
                          {610, "24\""},
                          {19.05, "3/4\""},
                          {100, "3-15/16\""},
                          {1000, "39-3/8\""},
                          {(11 + 31.0 / 32) * 25.4, "12\""},
                          {(2 + 1.0 / 32) * 25.4, "2-1/16\""},
                          {0.03 * 25.4, "0\""},
                          {-(2 + 1.0 / 32) * 25.4, "-2-1/16\""},
                          {-0.03 * 25.4, "0\""},
                          {0, "0\""}};
    for (const Case& c : cases) EXPECT_EQ(printLength(c.mm, kPlainInches), c.text) << c.mm;
}

TEST(PrintLength, EveryTieGoesAwayFromZero) {
    for (int i = 0; i < 4000; ++i) {
        const double mm = (2 * i + 1) / 32.0 * 25.4; // half way between two sixteenths
        const auto up = parseLength(printLength(mm, kPlainInches), Unit::in);
        ASSERT_TRUE(up);
        EXPECT_NEAR(*up, (i + 1) / 16.0 * 25.4, 1e-9) << mm;
        EXPECT_EQ(printLength(-mm, kPlainInches), "-" + printLength(mm, kPlainInches));
    }
}

TEST(PrintLength, AllFractionsOfOneStyleAreWrittenAlike) {
    const char* expected[] = {"5″",     "5-1/16″",  "5-1/8″", "5-3/16″", "5-1/4″", "5-5/16″",
                              "5-3/8″", "5-7/16″",  "5-1/2″", "5-9/16″", "5-5/8″", "5-11/16″",
                              "5-3/4″", "5-13/16″", "5-7/8″", "5-15/16″"};
    for (int i = 0; i < 16; ++i) EXPECT_EQ(printLength((5 + i / 16.0) * 25.4, kInches), expected[i]);
    EXPECT_EQ(printLength(12.7, kInches), "1/2″");
    EXPECT_EQ(printLength(25.4 / 16, kInches), "1/16″");
    // To eighths each fraction has a sign of its own.
    UnitStyle eighths = kInches;
    eighths.denominator = 8;
    const char* signs[] = {"5″", "5⅛″", "5¼″", "5⅜″", "5½″", "5⅝″", "5¾″", "5⅞″"};
    for (int i = 0; i < 8; ++i) EXPECT_EQ(printLength((5 + i / 8.0) * 25.4, eighths), signs[i]);
    // Either way reads back to the same length.
    for (const UnitStyle& style : {kInches, eighths, kFeet})
        for (int i = 0; i < 8; ++i) {
            const double mm = (29 + i / 8.0) * 25.4;
            EXPECT_NEAR(parseLength(printLength(mm, style), Unit::mm).value_or(0), mm, 1e-9)
                << printLength(mm, style);
        }
}

TEST(PrintLength, FeetAndInches) {
    EXPECT_EQ(printLength(89.25 * 25.4, kFeet), "7′ 5-1/4″");
    EXPECT_EQ(printLength(89.25 * 25.4, kPlainFeet), "7' 5-1/4\"");
    EXPECT_EQ(printLength(94.5 * 25.4, kPlainFeet), "7' 10-1/2\"");
    EXPECT_EQ(printLength(84 * 25.4, kFeet), "7′ 0″");
    EXPECT_EQ(printLength((48 + 1.0 / 16) * 25.4, kPlainFeet), "4' 0-1/16\"");
    EXPECT_EQ(printLength(48.5 * 25.4, kFeet), "4′ 0-1/2″");
    EXPECT_EQ(printLength(11.99 * 25.4, kFeet), "1′ 0″"); // rounded first, split after
    EXPECT_EQ(printLength(5.25 * 25.4, kFeet), "5-1/4″");
    EXPECT_EQ(printLength(-89.25 * 25.4, kFeet), "-7′ 5-1/4″");
}

TEST(PrintLength, Metric) {
    EXPECT_EQ(printLength(609.6, {Unit::mm, 16, 0, true}), "610 mm");
    EXPECT_EQ(printLength(609.6, {Unit::mm, 16, 1, true}), "609.6 mm");
    EXPECT_EQ(printLength(609.6, {Unit::cm, 16, 0, true}), "61.0 cm");
    EXPECT_EQ(printLength(609.6, {Unit::m, 16, 0, true}), "0.610 m");
    EXPECT_EQ(printLength(0.5, {Unit::mm, 16, 0, true}), "1 mm");
    EXPECT_EQ(printLength(-0.5, {Unit::mm, 16, 0, true}), "-1 mm");
    EXPECT_EQ(printLength(-0.2, {Unit::mm, 16, 0, true}), "0 mm");
    EXPECT_EQ(printLength(1.005, {Unit::mm, 16, 2, true}), "1.01 mm");
}

TEST(PrintLength, OddValuesHaveAText) {
    for (const UnitStyle& style :
         {kFeet, kInches, UnitStyle{Unit::mm, 16, 2, true}, UnitStyle{Unit::m, 0, -5, true}}) {
        EXPECT_EQ(printLength(NAN, style), "?");
        EXPECT_EQ(printLength(INFINITY, style), "?");
        EXPECT_FALSE(printLength(1e300, style).empty());
        EXPECT_FALSE(printLength(-1e300, style).empty());
    }
    EXPECT_FALSE(printLength(100, {Unit::ft, 0, 0, true}).empty());
    EXPECT_FALSE(printLength(100, {Unit::ft, -4, 900, true}).empty());
}

TEST(PrintLength, ReadsBackWithinHalfAStep) {
    auto random = seeded(11);
    for (int i = 0; i < 20000 / slowdown; ++i) {
        const double mm = uniform(random, -20000, 20000);
        for (const UnitStyle& style : {kFeet, kPlainFeet, kInches, kPlainInches}) {
            const std::string text = printLength(mm, style);
            const auto back = parseLength(text, Unit::mm);
            ASSERT_TRUE(back) << text;
            EXPECT_LE(std::abs(*back - mm), 25.4 / 32 + 1e-7) << text; // 1/32 in = 0.794 mm
            EXPECT_EQ(printLength(*back, style), text);
        }
        const UnitStyle metric{below(random, 2) == 0 ? Unit::mm : Unit::cm, 16, below(random, 4), true};
        const auto back = parseLength(printLength(mm, metric), Unit::mm);
        ASSERT_TRUE(back);
        EXPECT_LE(std::abs(*back - mm), 0.5 * std::pow(10.0, -metric.decimals) + 1e-7);
    }
}

// 1 lbf ft = 1.355817948 N m (NIST SP 811, appendix B.8)
TEST(PrintMoment, InTheDocumentsUnits) {
    EXPECT_EQ(printMoment(12.34, UnitStyle{}), "12.3 N m");
    EXPECT_EQ(printMoment(13.55817948, kFeet), "10.0 lbf ft");
    EXPECT_EQ(printMoment(-1.355817948, kInches), "-1.0 lbf ft");
    EXPECT_EQ(printMoment(NAN, kFeet), "?");
}

TEST(PrintAngleAndArea, Text) {
    EXPECT_EQ(printAngle(0.25), "14.3°");
    EXPECT_EQ(printAngle(-0.25, 2), "-14.32°");
    EXPECT_EQ(printAngle(0, 0), "0°");
    EXPECT_EQ(printAngle(NAN), "?");
    EXPECT_EQ(printArea(1220.0 * 2440.0, UnitStyle{}), "2.98 m²");
    EXPECT_EQ(printArea(48 * 25.4 * 96 * 25.4, kFeet), "32.0 ft²"); // a 4 x 8 ft sheet
    EXPECT_EQ(printArea(100, UnitStyle{}), "1.0 cm²");
    EXPECT_EQ(printMass(24.2, UnitStyle{}), "24 kg");
    EXPECT_EQ(printMass(4.5, UnitStyle{}), "4.5 kg");
    EXPECT_EQ(printMass(45.359237, kFeet), "100 lb"); // international pound of 1959
    EXPECT_EQ(printArea(25.4 * 25.4, kInches), "1.0 in²");
}

void expectExact(double value, Unit unit) {
    const std::string text = printExact(value, unit);
    const bool angle = unit == Unit::deg || unit == Unit::rad;
    const auto back = angle                ? parseAngle(text)
                      : unit == Unit::none ? parseRatio(text)
                                           : parseLength(text, Unit::none);
    ASSERT_TRUE(back) << text << ": " << back.error().message;
    EXPECT_EQ(*back, value) << text;
}

TEST(PrintExact, ShortWhereTheBuilderWroteItShort) {
    EXPECT_EQ(printExact(609.6, Unit::mm), "609.6 mm");
    EXPECT_EQ(printExact(609.6, Unit::m), "0.6096 m");
    EXPECT_EQ(printExact(609.6, Unit::cm), "60.96 cm");
    EXPECT_EQ(printExact(609.6, Unit::in), "24 in");
    EXPECT_EQ(printExact(609.6, Unit::ft), "2 ft");
    EXPECT_EQ(printExact(-12.7, Unit::in), "-0.5 in");
    EXPECT_EQ(printExact(2400, Unit::m), "2.4 m");
    EXPECT_EQ(printExact(0, Unit::in), "0 in");
    EXPECT_EQ(printExact(parseAngle("32°").value(), Unit::deg), "32°");
    EXPECT_EQ(printExact(0.4, Unit::none), "0.4");
    for (int i = 1; i < 2000; ++i) {
        const std::string text = std::to_string(i) + " in";
        EXPECT_EQ(printExact(parseLength(text, Unit::mm).value(), Unit::in), text);
    }
}

TEST(PrintExact, EveryDoubleComesBack) {
    auto random = seeded(12);
    for (int i = 0; i < 6000 / slowdown; ++i) {
        double value = uniform(random, -10000, 10000);
        if (i % 3 == 1) value = std::round(value * 1000) / 1000;
        if (i % 3 == 2) value = std::ldexp(uniform(random, 1, 2), below(random, 160) - 80);
        for (const Unit unit :
             {Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft, Unit::deg, Unit::rad, Unit::none})
            expectExact(value, unit);
    }
    for (const double value :
         {5e-324, 2.2250738585072014e-308, 1.7976931348623157e308, 1e15, 123456789012345680.0})
        for (const Unit unit : {Unit::mm, Unit::m, Unit::in, Unit::ft, Unit::rad, Unit::none})
            expectExact(value, unit);
}

// Sheets are measured with calipers: 0.01 mm or 0.001 in (common practice); 1/64 in where that is meant.
TEST(PrintThickness, KeepsWhatWasMeasured) {
    struct Case {
        double mm;
        const char *metric, *inch;
    };
    for (const Case& c :
         {Case{6.5, "6.5 mm", "0.256″"}, Case{6.2, "6.2 mm", "0.244″"}, Case{12.7, "12.7 mm", "1/2″"},
          Case{13, "13 mm", "0.512″"}, Case{6.35, "6.35 mm", "1/4″"}, Case{3.0, "3 mm", "0.118″"},
          Case{25.4 * 15 / 32, "11.91 mm", "15/32″"}}) {
        UnitStyle style;
        EXPECT_EQ(printThickness(c.mm, style), c.metric);
        style.unit = Unit::m;
        EXPECT_EQ(printThickness(c.mm, style), c.metric);
        EXPECT_EQ(printThickness(c.mm, kFeet), c.inch);
    }
    EXPECT_EQ(printThickness(12.7, kPlainInches), "1/2\"");
}

TEST(PrintFine, SmallLengthsStayReadable) {
    EXPECT_EQ(printFine(0.4, {}), "0.4 mm");
    EXPECT_EQ(printFine(0.04, {}), "0.04 mm");
    EXPECT_EQ(printFine(1e-4, {}), "under 0.001 mm");
    EXPECT_EQ(printFine(136, {}), "136 mm");
    EXPECT_EQ(printFine(0.4, kFeet), "0.016″");
    EXPECT_EQ(printFine(25.4, kFeet), "1″");
}

// A printed least scale that is typed in again must not be smaller than the one that was found.
TEST(PrintRatioUp, NeverSaysLess) {
    // What is cut by the printed size is enough, in every style.
    for (const UnitStyle& style : {UnitStyle{Unit::mm, 16, 0, true}, UnitStyle{Unit::mm, 16, 1, true},
                                   UnitStyle{Unit::in, 16, 0, true}, UnitStyle{Unit::ft, 8, 0, false},
                                   UnitStyle{Unit::cm, 16, 0, true}})
        for (const double mm : {0.01, 12.3, 84.14, 300.0, 304.8, 1234.56}) {
            const auto back = parseLength(printLengthUp(mm, style), style.unit);
            ASSERT_TRUE(back) << printLengthUp(mm, style);
            EXPECT_GE(*back, mm - 1e-6);
            EXPECT_LT(*back, mm + 25.4 / 8);
        }
    EXPECT_EQ(printLengthUp(84.14, UnitStyle{Unit::mm, 16, 0, true}), "85 mm");
    EXPECT_EQ(printLengthUp(300, UnitStyle{Unit::mm, 16, 0, true}), "300 mm");
    EXPECT_EQ(printMassUp(166.2, UnitStyle{Unit::mm, 16, 0, true}), "167 kg");
    EXPECT_EQ(printMassUp(368.43 * 0.45359237, UnitStyle{Unit::in, 16, 0, true}), "369 lb");
    EXPECT_EQ(printRatioUp(0.46061), "0.4607");
    EXPECT_EQ(printRatioUp(0.4606), "0.4606");
    EXPECT_EQ(printRatioUp(0.5), "0.5");
    EXPECT_EQ(printRatioUp(0.99999), "1");
    std::mt19937_64 random = seeded();
    for (int i = 0; i < 20000; ++i) {
        const double value = uniform(random, 0.05, 3);
        const auto back = parseRatio(printRatioUp(value));
        ASSERT_TRUE(back);
        ASSERT_GE(*back, value);
        ASSERT_LT(*back, value + 1.0001e-4);
    }
}

// 3899 mm in 49 links: a pitch told to the millimetre would be 20 mm out at the end.
TEST(Print, HundredthsForWhatIsMarkedOffInARow) {
    EXPECT_EQ(printHundredths(3899.0 / 49, {}), "79.57 mm");
    EXPECT_EQ(printHundredths(50, {}), "50 mm");
    UnitStyle inches;
    inches.unit = Unit::in;
    EXPECT_EQ(printHundredths(79.57, inches), "3.133″");
}

} // namespace
} // namespace slab
