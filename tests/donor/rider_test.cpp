#include "core/donor/rider.h"
#include <algorithm>
#include <gmock/gmock.h>

namespace slab {
namespace {

const FitSolid& named(const std::vector<FitSolid>& solids, const std::string& name) {
    const auto it =
        std::find_if(solids.begin(), solids.end(), [&](const FitSolid& s) { return s.name == name; });
    EXPECT_NE(it, solids.end()) << name;
    return it == solids.end() ? solids.front() : *it;
}
Seat seatAt(double height) {
    Seat seat;
    seat.reference = Vec3(0, 0, height);
    seat.leftHand = Vec3(400, 250, height + 240);
    seat.rightHand = Vec3(400, -250, height + 240);
    return seat;
}

// ANSUR II (Natick/TR-15/007), table of 5th, 50th and 95th percentiles.
TEST(AdultFigures, MatchThePublishedPercentiles) {
    const auto f5 = adultFigures("female", 5), f50 = adultFigures("female", 50);
    const auto m50 = adultFigures("male", 50), m95 = adultFigures("male", 95);
    EXPECT_NEAR(f5.stature, 1525, 0.5);
    EXPECT_NEAR(f5.sittingHeight, 803, 0.5);
    EXPECT_NEAR(f50.hipBreadth, 397, 0.5);
    EXPECT_NEAR(f50.kneeHeight, 510, 0.5);
    EXPECT_NEAR(m50.sittingHeight, 918, 0.5);
    EXPECT_NEAR(m50.buttockKnee, 617, 0.5);
    EXPECT_NEAR(m95.sittingHeight, 977, 0.5);
    EXPECT_NEAR(m95.shoulderBreadth, 567, 0.5);
    EXPECT_NEAR(m95.elbowSpan, 667, 0.5);
    EXPECT_NEAR(m95.mass, 110.7, 0.05);
}

TEST(AdultFigures, InterpolateBetweenPercentilesAndHoldTheEnds) {
    const auto p75 = adultFigures("male", 75), p90 = adultFigures("male", 90);
    EXPECT_NEAR(adultFigures("male", 80).stature, p75.stature + (p90.stature - p75.stature) / 3, 1e-9);
    EXPECT_EQ(adultFigures("male", 100), adultFigures("male", 99));
    EXPECT_EQ(adultFigures("male", -5), adultFigures("male", 1));
    const auto both = adultFigures("both", 50);
    EXPECT_NEAR(both.stature, (1626.0 + 1755.0) / 2, 1e-9);
}

TEST(AdultFigures, GrowWithThePercentile) {
    for (const char* sex : {"female", "male", "both"})
        for (double p = 2; p < 99; ++p) {
            const auto a = adultFigures(sex, p), b = adultFigures(sex, p + 1);
            EXPECT_LT(a.stature, b.stature);
            EXPECT_LE(a.hipBreadth, b.hipBreadth);
            EXPECT_LE(a.kneeHeight, b.kneeHeight);
        }
}

// Measured elbow rest height against shoulder height less shoulder-elbow length, which children's figures
// rely on: ANSUR II has both, so the rule can be checked there.
TEST(AdultFigures, ElbowRestFollowsFromShoulderAndUpperArm) {
    for (const char* sex : {"female", "male"}) {
        const auto f = adultFigures(sex, 50);
        EXPECT_NEAR(f.shoulderHeight - f.shoulderElbow, f.elbowRest, 12) << sex;
    }
}

// Snyder et al. 1977 (UM-HSRI-77-17), 50th percentiles at 8 years: stature 1298, sitting 690, hips 242, feet
// 202.
TEST(ChildFigures, MatchThePublishedPercentiles) {
    const auto f = childFigures("both", 50, 8);
    EXPECT_NEAR(f.stature, 1298, 0.5);
    EXPECT_NEAR(f.sittingHeight, 690, 0.5);
    EXPECT_NEAR(f.hipBreadth, 242, 0.5);
    EXPECT_NEAR(f.footLength, 202, 0.5);
    EXPECT_NEAR(f.mass, 27.3, 0.05);
    EXPECT_NEAR(childFigures("both", 95, 12).sittingHeight, 858, 0.5);
    EXPECT_NEAR(childFigures("both", 5, 4).stature, 968, 0.5);
}

TEST(ChildFigures, HaveEverySizeAtEveryAge) {
    for (const char* sex : {"female", "male", "both"})
        for (double age = 3; age < 14; age += 0.5) {
            const auto f = childFigures(sex, 50, age);
            for (const double size : {f.stature,         f.mass,          f.sittingHeight,  f.eyeHeight,
                                      f.shoulderHeight,  f.elbowRest,     f.thighClearance, f.kneeHeight,
                                      f.poplitealHeight, f.buttockKnee,   f.hipBreadth,     f.shoulderBreadth,
                                      f.biacromial,      f.elbowSpan,     f.abdomenDepth,   f.chestDepth,
                                      f.footLength,      f.footBreadth,   f.headBreadth,    f.headLength,
                                      f.tragionToTop,    f.shoulderElbow, f.forearmHand,    f.handBreadth})
                EXPECT_GT(size, 0) << sex << " " << age;
        }
    EXPECT_EQ(childFigures("both", 50, 1), childFigures("both", 50, 3));
    EXPECT_EQ(childFigures("both", 50, 40), childFigures("both", 50, 13.5));
}

// Seat 450 mm + 95th percentile male sitting height 977 = 1427 mm over the ground (ANSUR II).
TEST(RiderSolids, HeadTopIsSeatPlusSittingHeight) {
    double shortOf = 0;
    const auto body = riderSolids(adultFigures("male", 95), seatAt(450), shortOf);
    double top = 0;
    for (const FitSolid& s : body) top = std::max(top, bounds(s.shape).max.z());
    EXPECT_NEAR(top, 1427, 0.01);
    EXPECT_NEAR(bounds(named(body, "rider/head").shape).max.z(), 1427, 0.01);
}

TEST(RiderSolids, BreadthsAndReachesAreThoseOfTheTable) {
    double shortOf = 0;
    const RiderFigures f = adultFigures("male", 50);
    const auto body = riderSolids(f, seatAt(450), shortOf);
    EXPECT_EQ(shortOf, 0);
    const Box3 left = bounds(named(body, "rider/left upper arm").shape),
               right = bounds(named(body, "rider/right upper arm").shape);
    EXPECT_NEAR(left.max.y() - right.min.y(), std::max(f.elbowSpan, f.shoulderBreadth), 1e-9);
    EXPECT_NEAR(left.min.z(), 450 + f.elbowRest, 1e-9);
    const Box3 thighs = bounds(named(body, "rider/left thigh").shape);
    EXPECT_NEAR(thighs.max.y(), f.hipBreadth / 2, 1e-9);
    EXPECT_NEAR(thighs.max.z(), 450 + f.thighClearance, 1e-9);
    EXPECT_NEAR(bounds(named(body, "rider/left shin").shape).max.z(), 450 + f.thighClearance, 1e-9);
    EXPECT_NEAR(bounds(named(body, "rider/head").shape).size().y(), f.headBreadth, 1e-9);
    EXPECT_NEAR(bounds(named(body, "rider/head").shape).size().x(), f.headLength, 1e-9);
}

TEST(RiderSolids, FeetStandOnTheirRestOrHangAboveIt) {
    double shortOf = 0;
    for (const double percentile : {5.0, 50.0, 95.0})
        for (const double sole : {0.0, 75.0, 200.0}) {
            Seat seat = seatAt(480);
            seat.sole = sole;
            const auto body = riderSolids(adultFigures("both", percentile), seat, shortOf);
            const double low = bounds(named(body, "rider/left foot").shape).min.z();
            EXPECT_GE(low, sole - 1e-9);
            if (sole >= 75) {
                EXPECT_NEAR(low, sole, percentile == 95 ? 1e-9 : 100);
            }
        }
}

TEST(RiderSolids, LeftAndRightMirrorEachOther) {
    double shortOf = 0;
    const auto body = riderSolids(adultFigures("female", 50), seatAt(500), shortOf);
    int pairs = 0;
    for (const FitSolid& s : body) {
        if (s.name.rfind("rider/left ", 0) != 0) continue;
        const Box3 l = bounds(s.shape), r = bounds(named(body, "rider/right " + s.name.substr(11)).shape);
        EXPECT_NEAR(l.min.y(), -r.max.y(), 1e-9) << s.name;
        EXPECT_NEAR(l.max.z(), r.max.z(), 1e-9) << s.name;
        EXPECT_NEAR(l.max.x(), r.max.x(), 1e-9) << s.name;
        ++pairs;
    }
    EXPECT_EQ(pairs, 6);
}

TEST(RiderSolids, FarControlsBendTheElbowThenFallShort) {
    const RiderFigures f = adultFigures("male", 50);
    Seat seat = seatAt(500);
    seat.leftHand = Vec3(620, 200, 900);
    seat.rightHand = Vec3(620, -200, 900);
    double shortOf = -1;
    const auto body = riderSolids(f, seat, shortOf);
    EXPECT_EQ(shortOf, 0);
    const auto& arm = named(body, "rider/left upper arm").shape.points;
    const auto& fore = named(body, "rider/left forearm").shape.points;
    EXPECT_NEAR((arm[1] - fore[0]).norm(), 0, 1e-9);
    EXPECT_NEAR((fore[1] - seat.leftHand).norm(), 0, 1e-6);
    EXPECT_NEAR((arm[1] - arm[0]).norm(), f.shoulderElbow - 0.2 * f.shoulderBreadth, 1e-9);
    seat.rightHand = Vec3(2000, -200, 900);
    (void)riderSolids(f, seat, shortOf);
    EXPECT_GT(shortOf, 500);
}

} // namespace
} // namespace slab
