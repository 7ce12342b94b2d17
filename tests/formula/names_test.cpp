#include "core/formula/formula.h"
#include <gmock/gmock.h>

namespace slab {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

const Error* errorOf(const ScopeResult& result, const std::string& name) {
    for (const auto& [n, e] : result.errors)
        if (n == name) return &e;
    return nullptr;
}

TEST(EvaluateAll, InOrderOfNeedWhateverTheOrderWritten) {
    const auto result = evaluateAll({{"c", "a + b", Space::build},
                                     {"b", "2 * a", Space::build},
                                     {"a", "3 m", Space::subject},
                                     {"tilt", "10°", Space::build},
                                     {"n", "4", Space::subject}},
                                    0.5, Unit::in);
    EXPECT_TRUE(result.errors.empty());
    EXPECT_DOUBLE_EQ(result.scope.values.at("a").value, 1500);
    EXPECT_DOUBLE_EQ(result.scope.values.at("c").value, 4500);
    EXPECT_TRUE(result.scope.values.at("c").usesScale);
    EXPECT_FALSE(result.scope.values.at("c").usesBuild);
    EXPECT_EQ(result.scope.values.at("tilt").kind, Kind::angle);
    EXPECT_EQ(result.scope.values.at("n").kind, Kind::number); // a bare number stays a plain number
    EXPECT_EQ(result.scope.values.at("n").value, 4);
    EXPECT_EQ(result.scope.scale, 0.5);
}

TEST(EvaluateAll, CycleNamesTheWholeLoopAndTheRestIsEvaluated) {
    const auto result = evaluateAll({{"a", "1 m + b", Space::build},
                                     {"b", "c * 2", Space::build},
                                     {"c", "a / 3", Space::build},
                                     {"self", "self + 1 m", Space::build},
                                     {"after", "a + 1 m", Space::build},
                                     {"good", "2 m", Space::build}},
                                    1, Unit::mm);
    ASSERT_EQ(result.scope.values.size(), 1U);
    EXPECT_DOUBLE_EQ(result.scope.values.at("good").value, 2000);
    for (const char* name : {"a", "b", "c"}) {
        const Error* e = errorOf(result, name);
        ASSERT_NE(e, nullptr) << name;
        EXPECT_EQ(e->code, "cycle");
        EXPECT_THAT(e->message, HasSubstr("a needs b needs c needs a"));
    }
    EXPECT_EQ(errorOf(result, "a")->where, "column 7");
    EXPECT_EQ(errorOf(result, "b")->where, "column 1");
    ASSERT_NE(errorOf(result, "self"), nullptr);
    EXPECT_THAT(errorOf(result, "self")->message, HasSubstr("self needs self"));
    ASSERT_NE(errorOf(result, "after"), nullptr);
    EXPECT_EQ(errorOf(result, "after")->code, "depends-on-error");
}

TEST(EvaluateAll, UnknownDoubledAndBadNames) {
    const auto result = evaluateAll({{"a", "1 m + nowhere", Space::build},
                                     {"b", "2 m", Space::build},
                                     {"b", "3 m", Space::build},
                                     {"sin", "1", Space::build},
                                     {"3x", "1", Space::build},
                                     {"area", "b * b", Space::build},
                                     {"c", "b / 0", Space::build}},
                                    1, Unit::mm);
    EXPECT_EQ(errorOf(result, "a")->code, "unknown-name");
    EXPECT_EQ(errorOf(result, "a")->where, "column 7");
    EXPECT_EQ(errorOf(result, "b")->code, "duplicate-name");
    EXPECT_DOUBLE_EQ(result.scope.values.at("b").value, 2000); // the first one counts
    EXPECT_EQ(errorOf(result, "sin")->code, "bad-name");
    EXPECT_EQ(errorOf(result, "3x")->code, "bad-name");
    EXPECT_EQ(errorOf(result, "area")->code, "unit-mismatch");
    EXPECT_EQ(errorOf(result, "c")->code, "not-finite");
    EXPECT_EQ(result.errors.size(), 6U);
}

TEST(EvaluateAll, LongChainsNeedNoDeepStack) {
    std::vector<NamedFormula> named;
    const int count = 20000;
    for (int i = 0; i < count; ++i)
        named.push_back({"n" + std::to_string(i),
                         i + 1 < count ? "n" + std::to_string(i + 1) + " + 1 mm" : std::string("1 mm"),
                         Space::build});
    const auto good = evaluateAll(named, 1, Unit::mm);
    EXPECT_TRUE(good.errors.empty());
    EXPECT_DOUBLE_EQ(good.scope.values.at("n0").value, count);
}

TEST(EvaluateAll, LoopWithinALoop) {
    const auto result = evaluateAll(
        {{"a", "b + c", Space::build}, {"b", "a", Space::build}, {"c", "a + b", Space::build}}, 1, Unit::mm);
    EXPECT_TRUE(result.scope.values.empty());
    EXPECT_EQ(result.errors.size(), 3U);
}

TEST(NamesIn, InOrderOfAppearanceWithoutUnitsAndFunctions) {
    EXPECT_THAT(namesIn("b + 3 in * sin(a1) + build(b) - 2e3 mm + pi + _x"), ElementsAre("b", "a1", "_x"));
    EXPECT_TRUE(namesIn("7' 10-1/2\" + 3 m").empty());
    EXPECT_TRUE(namesIn("").empty());
    EXPECT_THAT(namesIn("5 broken ((x"), ElementsAre("broken", "x"));
    EXPECT_THAT(namesIn("½' 3 a"), ElementsAre("a")); // a literal that cannot be read
}

TEST(Renamed, OnlyWholeNamesAndEverythingElseAsTyped) {
    EXPECT_EQ(renamed("a+ab -  a*sin(a) + 3 a", "a", "hull"), "hull+ab -  hull*sin(hull) + 3 hull");
    EXPECT_EQ(renamed("2e3 mm + e3", "e3", "x"), "2e3 mm + x");
    EXPECT_EQ(renamed("m1 + 3 m", "m1", "long"), "long + 3 m");
    EXPECT_EQ(renamed("½ a", "b", "c"), "½ a");
}

TEST(WithUnit, OnlyBareNumbers) {
    EXPECT_EQ(withUnit("12", Unit::in), "12 in");
    EXPECT_EQ(withUnit("-12.5", Unit::mm), "-12.5 mm");
    EXPECT_EQ(withUnit("10-1/2", Unit::in), "10-1/2 in");
    EXPECT_EQ(withUnit("7/8 ", Unit::in), "7/8 in");
    for (const char* same : {"12 mm", "a + 1", "2 * 3", "", "hull", "7' 3\"", "1 - 2"})
        EXPECT_EQ(withUnit(same, Unit::in), same);
    EXPECT_EQ(withUnit("12", Unit::none), "12");
}

TEST(Names, AUseOfANameWithoutValueBlamesThatName) {
    const auto result = evaluateAll({{"length", "3 m / 0", Space::subject}}, 1, Unit::mm);
    ASSERT_EQ(result.errors.size(), 1U);
    const auto used = evaluate("length / 2", result.scope, Space::subject, Kind::length);
    ASSERT_FALSE(used.has_value());
    EXPECT_EQ(used.error().code, "depends-on-error");
    EXPECT_EQ(used.error().remedy, "correct length first");
    const auto never = evaluate("breadth / 2", result.scope, Space::subject, Kind::length);
    ASSERT_FALSE(never.has_value());
    EXPECT_EQ(never.error().code, "unknown-name");
}

TEST(IsValidName, LettersDigitsUnderscores) {
    for (const char* good : {"a", "_", "hull_length", "x1", "Pi", "inn"})
        EXPECT_TRUE(isValidName(good)) << good;
    for (const char* bad :
         {"", "1a", "a-b", "a b", "in", "mm", "deg", "sin", "atan2", "pi", "build", "subject", "ä", "feet"})
        EXPECT_FALSE(isValidName(bad)) << bad;
    EXPECT_FALSE(isValidName(std::string(65, 'a')));
}

} // namespace
} // namespace slab
