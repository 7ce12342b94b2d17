// The judge itself: planted faults must be found, and sound layouts must pass.
#include "shapes.h"

namespace slab {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

/// Two squares side by side on a sheet of 100 x 100.
struct Planted : testing::Test {
    NestProblem problem;
    NestResult result;
    void SetUp() override {
        problem.sheets = {sheetOf(100, 100)};
        problem.parts = {partOf("a", {box(0, 0, 50, 50), {}}, 2)};
        NestLayout layout;
        layout.places = {{0, 0, 0, 0, 0, false}, {0, 1, 50, 0, 0, false}};
        layout.used = 0.5;
        result.layouts = {layout};
        result.cost = 1;
    }
    NestPlace& second() { return result.layouts[0].places[1]; }
    std::string faults() {
        std::string all;
        for (const std::string& f : checkNest(problem, result)) all += f + "\n";
        return all;
    }
};

TEST_F(Planted, TouchingIsSound) {
    EXPECT_EQ(faults(), "");
}

TEST_F(Planted, OverlapOfAThousandth) {
    second().x = 50 - 1e-3;
    EXPECT_THAT(faults(), HasSubstr("overlap"));
    EXPECT_THAT(checkNest(problem, result, 2e-3), IsEmpty());
}
TEST_F(Planted, OutsideByAThousandth) {
    second().x = 50 + 1e-3;
    EXPECT_THAT(faults(), HasSubstr("leaves the sheet"));
    EXPECT_THAT(checkNest(problem, result, 2e-3), IsEmpty());
}
TEST_F(Planted, IdenticalPlaces) {
    second().x = 0;
    EXPECT_THAT(faults(), HasSubstr("overlap"));
}
TEST_F(Planted, WrongTurn) {
    second().rotation = std::numbers::pi / 2;
    second().x = 100;
    EXPECT_THAT(faults(), HasSubstr("angle"));
}
TEST_F(Planted, AFullTurnIsNoTurn) {
    second().rotation = 2 * std::numbers::pi;
    EXPECT_EQ(faults(), "");
}
TEST_F(Planted, Flipped) {
    second().flipped = true;
    second().y = 50;
    EXPECT_THAT(faults(), HasSubstr("flips"));
}
TEST_F(Planted, DuplicateCopy) {
    second().copy = 0;
    EXPECT_THAT(faults(), HasSubstr("twice"));
}
TEST_F(Planted, LostCopy) {
    result.layouts[0].places.pop_back();
    result.layouts[0].used = 0.25;
    EXPECT_THAT(faults(), HasSubstr("loses"));
    result.unplaced = {{0, 1}};
    EXPECT_EQ(faults(), "");
}
TEST_F(Planted, UnknownCopyAndPart) {
    second().copy = 2;
    EXPECT_THAT(faults(), HasSubstr("unknown copy"));
    second().part = 1;
    EXPECT_THAT(faults(), HasSubstr("unknown part"));
}
TEST_F(Planted, SpacingTooSmall) {
    problem.parts[0].spacing = 1e-3;
    EXPECT_THAT(faults(), HasSubstr("spacing"));
}
TEST_F(Planted, TrimNotKept) {
    problem.sheets[0].trim = 1e-3;
    EXPECT_THAT(faults(), HasSubstr("leaves"));
}
TEST_F(Planted, WrongStockCostAndSupply) {
    problem.sheets[0].stock = "foam";
    EXPECT_THAT(faults(), HasSubstr("another stock"));
    problem.parts[0].stock = "foam";
    EXPECT_EQ(faults(), "");
    result.cost = 0;
    EXPECT_THAT(faults(), HasSubstr("cost"));
    result.layouts[0].onHand = true;
    EXPECT_THAT(faults(), HasSubstr("on hand"));
    problem.sheets[0].onHand = 1;
    EXPECT_EQ(faults(), "");
    result.layouts[0].onHand = false;
    result.cost = 1;
    problem.sheets[0].limit = 0;
    EXPECT_THAT(faults(), HasSubstr("limit"));
}

TEST(Check, CrossingBarsWithNoCornerInsideEachOther) {
    NestProblem problem;
    problem.strip = 100;
    problem.parts = {partOf("flat", {box(0, 40, 100, 60), {}}), partOf("tall", {box(40, 0, 60, 100), {}})};
    NestResult result;
    result.stripLength = 100;
    result.layouts = {{0, false, {{0, 0, 0, 0, 0, false}, {1, 0, 0, 0, 0, false}}, 0.4}};
    EXPECT_EQ(checkNest(problem, result).size(), 1U);
}

TEST(Check, InsideTheHoleIsSoundInsideTheMaterialIsNot) {
    NestProblem problem;
    problem.strip = 100;
    problem.parts = {partOf("ring", {box(0, 0, 100, 100), {reversed(box(20, 20, 80, 80))}}),
                     partOf("small", {box(0, 0, 10, 10), {}})};
    NestResult result;
    result.stripLength = 100;
    result.layouts = {{0, false, {{0, 0, 0, 0, 0, false}, {1, 0, 20, 20, 0, false}}, 0.65}};
    EXPECT_THAT(checkNest(problem, result), IsEmpty());
    result.layouts[0].places[1].x = 5;
    result.layouts[0].places[1].y = 5;
    EXPECT_EQ(checkNest(problem, result).size(), 1U);
}

TEST(Check, RandomShapesPushedTogetherAreFoundWhenTheirCommonAreaIsNotNil) {
    auto random = seeded(30);
    int overlapping = 0;
    for (int round = 0; round < 4000 / slowdown; ++round) {
        NestProblem problem;
        problem.strip = 1000;
        problem.parts = {partOf("a", randomShape(random, 50)), partOf("b", randomShape(random, 50))};
        NestResult result;
        result.stripLength = 1000;
        const NestPlace a{0, 0, 500, 500, 0, false};
        const NestPlace b{1, 0, 500 + uniform(random, -50, 50), 500 + uniform(random, -50, 50), 0, false};
        const double own = area(problem.parts[0].shape) + area(problem.parts[1].shape);
        result.layouts = {{0, false, {a, b}, own / 1e6}};
        double common = 0; // by Clipper
        for (const Polygon& p : intersect({placed(problem.parts[0], a)}, {placed(problem.parts[1], b)}))
            common += area(p);
        const bool found = !checkNest(problem, result).empty();
        if (common > 1e-2) {
            ASSERT_TRUE(found) << "round " << round << " common area " << common;
        }
        if (common == 0) {
            ASSERT_FALSE(found) << "round " << round;
        }
        overlapping += common > 1e-2;
    }
    EXPECT_GT(overlapping, 1000 / slowdown);
}

} // namespace
} // namespace slab
