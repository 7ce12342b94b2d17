#include "core/formula/formula.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace slab {
namespace {

constexpr double kInch = 25.4;

Scope scopeAt(double scale) {
    Scope scope;
    scope.scale = scale;
    scope.unit = Unit::in;
    scope.values["hull_length"] = {5400 * scale, Kind::length, true, false};
    scope.values["exit_width"] = {26 * kInch, Kind::length, false, true};
    scope.values["lean"] = {0.25, Kind::angle, false, false};
    scope.values["count"] = {3, Kind::number, false, false};
    return scope;
}

double lengthOf(std::string_view text, Space space = Space::build, double scale = 1) {
    const auto q = evaluate(text, scopeAt(scale), space, Kind::length);
    EXPECT_TRUE(q) << text << ": " << (q ? "" : q.error().message + " " + q.error().where);
    return q ? q->value : -1;
}

double numberOf(std::string_view text) {
    const auto q = evaluate(text, scopeAt(1), Space::build, Kind::number);
    EXPECT_TRUE(q) << text << ": " << (q ? "" : q.error().message + " " + q.error().where);
    return q ? q->value : -1;
}

TEST(Evaluate, MixedLengthIsOneLiteralOnlyBehindAFootMark) {
    EXPECT_DOUBLE_EQ(lengthOf("7' 10-1/2\""), 94.5 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("7 ft 10-1/2 in"), 94.5 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("10-1/2 in"), 10.5 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("10 in - 1/2 in"), 9.5 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("7' - 10\""), 74 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("7' + 10\""), 94 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("-7' 10\""), -94 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("2 * 7' 10-1/2\" - 1 in"), 188 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("4' 2"), 50 * kInch); // behind feet a bare number can only be inches
    EXPECT_DOUBLE_EQ(lengthOf("2 * 4' 2-1/2 - 1 in"), 100 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("20 in - 10-1/2 in"), 9.5 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("exit_width-1/2 in"), 25.5 * kInch); // a name has no hyphen
    EXPECT_DOUBLE_EQ(lengthOf("(3 in)-1/2 in"), 2.5 * kInch);
}

TEST(Evaluate, MassesAndSpeedsSayTheirUnit) { // NIST SP 811: exact
    EXPECT_DOUBLE_EQ(numberOf("180 lb"), 180 * 0.45359237);
    EXPECT_DOUBLE_EQ(numberOf("180lbs"), 180 * 0.45359237);
    EXPECT_DOUBLE_EQ(numberOf("82 kg"), 82);
    EXPECT_DOUBLE_EQ(numberOf("5 mph"), 8.04672);
    EXPECT_DOUBLE_EQ(numberOf("8 km/h + 2"), 10);
    EXPECT_DOUBLE_EQ(numberOf("count * 10 lb"), 3 * 4.5359237);
    EXPECT_FALSE(evaluate("3 kg", scopeAt(1), Space::build, Kind::length));
    EXPECT_FALSE(evaluate("3 kgm", scopeAt(1), Space::build, Kind::number));
}

TEST(Evaluate, SubtractionBetweenLiteralsNeedsSpaces) {
    for (const char* text :
         {"10-1 in", "10 in-1/2 in", "10 in -1/2 in", "7' -10\"", "7'-10", "7' 10 mm", "10-3"}) {
        const auto q = evaluate(text, scopeAt(1), Space::build, Kind::length);
        ASSERT_FALSE(q) << text << " gave " << q->value;
        EXPECT_EQ(q.error().code, "syntax") << text;
        EXPECT_NE(q.error().remedy.find("spaces"), std::string::npos) << text << ": " << q.error().remedy;
    }
}

TEST(Evaluate, SpacesOfLiteralsAndNames) {
    EXPECT_DOUBLE_EQ(lengthOf("3 m", Space::subject, 0.4), 1200);
    EXPECT_DOUBLE_EQ(lengthOf("3 m", Space::build, 0.4), 3000);
    EXPECT_DOUBLE_EQ(lengthOf("build(3 m)", Space::subject, 0.4), 3000);
    EXPECT_DOUBLE_EQ(lengthOf("subject(3 m)", Space::build, 0.4), 1200);
    EXPECT_DOUBLE_EQ(lengthOf("build(1 m + subject(1 m)) + 1 m", Space::subject, 0.4), 1800);
    EXPECT_DOUBLE_EQ(lengthOf("hull_length * 0.4 - build(3 in)", Space::subject, 0.4),
                     5400 * 0.4 * 0.4 - 76.2);
    EXPECT_DOUBLE_EQ(lengthOf("build(hull_length)", Space::subject, 0.4), 2160); // names keep their own space
    EXPECT_DOUBLE_EQ(lengthOf("12", Space::subject, 0.5), 6 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("build(12)", Space::subject, 0.5), 12 * kInch);
    EXPECT_DOUBLE_EQ(lengthOf("2 * 12", Space::build, 0.5), 24 * kInch);
}

TEST(Evaluate, TellsWhichSpacesWentIn) {
    struct Case {
        const char* text;
        Space space;
        bool scale, build;
    };
    const Case cases[] = {{"3 m", Space::subject, true, false},
                          {"3 m", Space::build, false, true},
                          {"3 m + build(1 in)", Space::subject, true, true},
                          {"hull_length / 2", Space::build, true, false},
                          {"hull_length + exit_width", Space::subject, true, true},
                          {"exit_width", Space::subject, false, true},
                          {"0", Space::subject, false, false},
                          {"0 m", Space::build, false, false},
                          {"12", Space::subject, true, false},
                          {"max(0, 3 m)", Space::subject, true, false},
                          {"hull_length * (exit_width / 1 m)", Space::subject, true, true}};
    for (const Case& c : cases) {
        const auto q = evaluate(c.text, scopeAt(0.5), c.space, Kind::length);
        ASSERT_TRUE(q) << c.text << ": " << q.error().message;
        EXPECT_EQ(q->usesScale, c.scale) << c.text;
        EXPECT_EQ(q->usesBuild, c.build) << c.text;
    }
}

TEST(Evaluate, ArithmeticOrderAndFunctions) {
    EXPECT_EQ(numberOf("1 + 2 * 3"), 7);
    EXPECT_EQ(numberOf("2 ^ 3 ^ 2"), 512);
    EXPECT_EQ(numberOf("-2 ^ 2"), -4);
    EXPECT_EQ(numberOf("2 ^ -1"), 0.5);
    EXPECT_EQ(numberOf("8 / 4 / 2"), 1);
    EXPECT_EQ(numberOf("8 - 4 - 2"), 2);
    EXPECT_EQ(numberOf("2 × 3 ÷ 4 − 1"), 0.5);
    EXPECT_EQ(numberOf("min(3, 1, 2) + max(4, 5)"), 6);
    EXPECT_EQ(numberOf("abs(-3)"), 3);
    EXPECT_EQ(numberOf("round(2.5) + floor(-0.5) + ceil(0.2)"), 3);
    EXPECT_DOUBLE_EQ(numberOf("sin(30°)"), 0.5);
    EXPECT_DOUBLE_EQ(numberOf("cos(lean)^2 + sin(lean)^2"), 1);
    EXPECT_DOUBLE_EQ(numberOf("pi"), std::numbers::pi);
    EXPECT_DOUBLE_EQ(numberOf("exit_width / 1 in"), 26);
    EXPECT_DOUBLE_EQ(numberOf("1 in * 1 in / (1 in ^ 2)"), 1);
    EXPECT_DOUBLE_EQ(lengthOf("sqrt(3 m * 3 m + 4 m * 4 m)"), 5000);
    EXPECT_DOUBLE_EQ(lengthOf("sqrt((3 m)^2 + (4 m)^2)"), 5000);
    EXPECT_DOUBLE_EQ(lengthOf("round(exit_width / 1 m) * 1 m"), 1000);
    EXPECT_DOUBLE_EQ(lengthOf("max(0, exit_width - 30 in)"), 0);
    EXPECT_EQ(numberOf("1.5e3"), 1500);
    const auto angle = evaluate("atan2(3 m, 4 m)", scopeAt(1), Space::build, Kind::angle);
    ASSERT_TRUE(angle);
    EXPECT_DOUBLE_EQ(angle->value, std::atan2(3, 4));
    EXPECT_DOUBLE_EQ(evaluate("30", scopeAt(1), Space::build, Kind::angle)->value, std::numbers::pi / 6);
    EXPECT_DOUBLE_EQ(evaluate("asin(1/2) + 0.5 rad", scopeAt(1), Space::build, Kind::angle)->value,
                     std::numbers::pi / 6 + 0.5);
}

struct Refusal {
    const char* text;
    Kind kind;
    const char* code;
    const char* where;
};

class Refused : public ::testing::TestWithParam<Refusal> {};

TEST_P(Refused, WithCodePlaceAndWords) {
    const Refusal& r = GetParam();
    const auto q = evaluate(r.text, scopeAt(1), Space::build, r.kind);
    ASSERT_FALSE(q) << r.text << " gave " << q->value;
    EXPECT_EQ(q.error().code, r.code) << r.text << ": " << q.error().message;
    EXPECT_EQ(q.error().where, r.where) << r.text << ": " << q.error().message;
    EXPECT_FALSE(q.error().message.empty());
}

INSTANTIATE_TEST_SUITE_P(Formula, Refused,
                         ::testing::Values(Refusal{"", Kind::length, "syntax", "column 1"},
                                           Refusal{"3 m +", Kind::length, "syntax", "column 6"},
                                           Refusal{"(3 m", Kind::length, "syntax", "column 1"},
                                           Refusal{"3 m)", Kind::length, "syntax", "column 4"},
                                           Refusal{"3 m 4 m", Kind::length, "syntax", "column 5"},
                                           Refusal{"3 yards", Kind::length, "syntax", "column 3"},
                                           Refusal{"2 hull_length", Kind::length, "syntax", "column 3"},
                                           Refusal{"m", Kind::length, "syntax", "column 1"},
                                           Refusal{"sin", Kind::number, "syntax", "column 1"},
                                           Refusal{"log(3)", Kind::number, "syntax", "column 1"},
                                           Refusal{"sin()", Kind::number, "syntax", "column 1"},
                                           Refusal{"min()", Kind::number, "syntax", "column 1"},
                                           Refusal{"atan2(1)", Kind::angle, "syntax", "column 1"},
                                           Refusal{"3 m ; 4", Kind::length, "syntax", "column 5"},
                                           Refusal{"½ § 3", Kind::number, "syntax", "column 3"},
                                           Refusal{"build(1, 2)", Kind::number, "syntax", "column 6"},
                                           Refusal{"1 m + nothing", Kind::length, "unknown-name", "column 7"},
                                           Refusal{"hull_lenght", Kind::length, "unknown-name", "column 1"},
                                           Refusal{"5 m", Kind::angle, "unit-mismatch", "column 1"},
                                           Refusal{"5°", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"5 m", Kind::number, "unit-mismatch", "column 1"},
                                           Refusal{"count", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"5 m + 3", Kind::length, "unit-mismatch", "column 5"},
                                           Refusal{"5 m - 3°", Kind::length, "unit-mismatch", "column 5"},
                                           Refusal{"5 m * 3 m", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"1 / 5 m", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"sqrt(5 m)", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"sin(5 m)", Kind::number, "unit-mismatch", "column 1"},
                                           Refusal{"sin(30)", Kind::number, "unit-mismatch", "column 1"},
                                           Refusal{"asin(5 m)", Kind::angle, "unit-mismatch", "column 1"},
                                           Refusal{"round(5 m)", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"min(5 m, 3°)", Kind::length, "unit-mismatch", "column 1"},
                                           Refusal{"2 ^ 3 m", Kind::number, "unit-mismatch", "column 3"},
                                           Refusal{"(2 m) ^ 0.5", Kind::length, "unit-mismatch", "column 7"},
                                           Refusal{"(2 m) ^ 13", Kind::length, "unit-mismatch", "column 7"},
                                           Refusal{"5 m / 0", Kind::length, "not-finite", "column 5"},
                                           Refusal{"sqrt(-1)", Kind::number, "not-finite", "column 1"},
                                           Refusal{"0 / 0", Kind::number, "not-finite", "column 3"},
                                           Refusal{"10 ^ 400", Kind::number, "not-finite", "column 4"},
                                           Refusal{"asin(2)", Kind::angle, "not-finite", "column 1"},
                                           Refusal{"1e400", Kind::number, "syntax", "column 1"}));

TEST(Evaluate, BareNumbersOfBothSpacesAreRefusedOnlyWhenMixed) {
    EXPECT_TRUE(evaluate("build(1) + build(2)", scopeAt(0.5), Space::subject, Kind::length));
    EXPECT_FALSE(evaluate("1 + build(2)", scopeAt(0.5), Space::subject, Kind::length));
}

TEST(Evaluate, SuggestsTheNearestName) {
    const auto q = evaluate("hull_lenght", scopeAt(1), Space::build, Kind::length);
    ASSERT_FALSE(q);
    EXPECT_NE(q.error().remedy.find("hull_length"), std::string::npos) << q.error().remedy;
}

TEST(Evaluate, DeepAndLongTextIsRefusedNotCrashed) {
    for (const char* piece : {"(", "-", "sin(", "2^", "build("}) {
        std::string text;
        while (text.size() < 4000) text += piece;
        const auto q = evaluate(text, scopeAt(1), Space::build, Kind::number);
        ASSERT_FALSE(q);
        EXPECT_EQ(q.error().code, "syntax") << piece;
    }
    const auto q = evaluate(std::string(1000000, '1'), scopeAt(1), Space::build, Kind::number);
    ASSERT_FALSE(q);
    EXPECT_EQ(q.error().code, "syntax");
    EXPECT_EQ(numberOf(std::string(60, '(') + "1" + std::string(60, ')')), 1);
    EXPECT_FALSE(
        evaluate(std::string(70, '(') + "1" + std::string(70, ')'), scopeAt(1), Space::build, Kind::number));
    std::string sum = "1";
    for (int i = 1; i < 1000; ++i) sum += " + 1"; // long is no trouble, only deep is
    EXPECT_EQ(numberOf(sum), 1000);
}

} // namespace
} // namespace slab
