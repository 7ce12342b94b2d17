// A known distance on a rectified picture makes it surer.
#include "tests/picture/marks.h"

namespace slab {
namespace {

TEST(Place, ACheckNeverMakesARectifiedPictureLessSure) {
    auto random = seeded(3);
    for (int round = 0; round < 40; ++round) {
        const Mat3 view = randomView(random, 2440, 1220);
        Picture p = leaned(view);
        p.features = {mark(seen(view, {1900, 900})), mark(seen(view, {2600, 300}))};
        p.lines = {lineOf(seen(view, {100, 200}), seen(view, {2300, 900}))};
        const PlacedPicture before = place(p).picture;
        p.from = mark(seen(view, {300, 100}));
        p.to = mark(seen(view, {2000, 1100}));
        p.distance = "1972.3083 mm"; // hypot(1700, 1000)
        p.distance_error = "4";
        if (round % 2 == 0) p.turn = "30 deg";
        const PlacedPicture after = place(p).picture;
        ASSERT_TRUE(after.check);
        EXPECT_TRUE(after.check->taken);
        EXPECT_LT(after.check->after, after.check->found.error);
        ASSERT_EQ(after.corners.size(), 4u);
        for (std::size_t i = 0; i < 4; ++i) {
            EXPECT_LE(after.corners[i].error.major, before.corners[i].error.major * (1 + 1e-9)) << round;
            EXPECT_LE(after.corners[i].error.minor, before.corners[i].error.minor * (1 + 1e-9)) << round;
        }
        for (std::size_t i = 0; i < 2; ++i)
            EXPECT_LE(after.features[i].error.major, before.features[i].error.major * (1 + 1e-9)) << round;
        EXPECT_LT(after.lines[0].length.error, before.lines[0].length.error) << round;
        // Where it is put changes no size and no error of it.
        p.x = "3 m";
        const PlacedPicture moved = place(p).picture;
        EXPECT_NEAR(moved.corners[2].error.major, after.corners[2].error.major, 1e-9);
        EXPECT_NEAR(moved.lines[0].length.error, after.lines[0].length.error, 1e-9);
    }
}

/// A check that was marked with the errors it tells: what is left is as foretold, before it and after it.
TEST(Place, ACheckedPictureIsAsSureAsItSays) {
    auto random = seeded(4);
    const Mat3 view = randomView(random, 2440, 1220);
    const double click = 0.8, truth = std::hypot(2200, 700);
    double before = 0, after = 0, foretoldBefore = 0, foretoldAfter = 0;
    const int rounds = 3000;
    for (int i = 0; i < rounds; ++i) {
        std::vector<PointPair> pairs = pairsOf(view, rectangle(2440, 1220));
        for (PointPair& p : pairs) p.pixel += click * normal2(random);
        const PlaneFix flat = homographyOf(pairs, click)->fix;
        const auto marked = [&](const Vec2& at) { return Vec2(seen(view, at) + click * normal2(random)); };
        const PlaneFix surer =
            takenIn(flat, {marked({300, 100}), marked({2000, 1100}), std::hypot(1700, 1000), click});
        const Vec2 a = marked({100, 200}), b = marked({2300, 900});
        const Measured one = measure(flat, a, b), two = measure(surer, a, b);
        before += std::pow(one.value - truth, 2) / rounds;
        after += std::pow(two.value - truth, 2) / rounds;
        foretoldBefore += one.error * one.error / rounds;
        foretoldAfter += two.error * two.error / rounds;
    }
    std::printf("a length is off by %.2f mm, foretold %.2f; with the check %.2f, foretold %.2f\n",
                std::sqrt(before), std::sqrt(foretoldBefore), std::sqrt(after), std::sqrt(foretoldAfter));
    EXPECT_NEAR(std::sqrt(before / foretoldBefore), 1, 0.06);
    EXPECT_NEAR(std::sqrt(after / foretoldAfter), 1, 0.06);
    EXPECT_LT(after, before);
}

TEST(Place, AContradictionIsTakenInByNothing) {
    auto random = seeded(5);
    const Mat3 view = randomView(random, 2440, 1220);
    Picture p = leaned(view);
    p.from = mark(seen(view, {300, 100}));
    const PlacedPicture before = place(p).picture;
    p.to = mark(seen(view, {300, 1100}));
    p.distance = "1.2 m";
    const Placed at = place(p);
    ASSERT_TRUE(at.picture.check);
    EXPECT_FALSE(at.picture.check->taken);
    EXPECT_GT(at.picture.check->errors(), mostErrors);
    EXPECT_LT((at.picture.fix.map - before.fix.map).norm(), 1e-9 * before.fix.map.norm());
    EXPECT_NE(checkWords(*at.picture.check, {}).find("not taken in"), std::string::npos);
    EXPECT_NE(checkWords(*at.picture.check, {}).find("too short"), std::string::npos);
}

} // namespace
} // namespace slab
