// What hinges and pins in slots allow, against closed forms.
#include "core/mechanisms/float_range.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <numbers>

using namespace slab;

namespace {

constexpr double degree = std::numbers::pi / 180;

FloatJoint hinge(double x, double z, double up, double down) {
    return {"hinge", true, Vec3(x, 0, z), 0, 0, up, down};
}
FloatJoint pin(double x, double z, double up, double down) {
    return {"pin", false, Vec3(x, 0, z), up, down, {}, {}};
}

} // namespace

TEST(FloatRange, AHingeTurnsAboutItsLine) {
    const FloatRange range = floatRange({hinge(100, 300, 10 * degree, 4 * degree)});
    EXPECT_NEAR(range.noseUp, 10 * degree, 1e-12);
    EXPECT_NEAR(range.noseDown, -4 * degree, 1e-12);
    EXPECT_EQ(range.highest, 0);
    ASSERT_EQ(range.poses.size(), 3u) << "both ends and the middle; at rest is what fit looks at anyway";
    for (const FloatPose& pose : range.poses) {
        EXPECT_NEAR((pose.shell(Vec3(100, 55, 300)) - Vec3(100, 55, 300)).norm(), 0, 1e-9);
        const Vec3 nose(1100, 0, 300); // a metre ahead: rises by r sin(pitch), draws back by r (1 - cos)
        EXPECT_NEAR(pose.shell(nose).z(), 300 + 1000 * std::sin(pose.noseUp), 1e-9);
        EXPECT_NEAR(pose.shell(nose).x(), 100 + 1000 * std::cos(pose.noseUp), 1e-9);
        EXPECT_NEAR(riseAt(pose, nose), 1000 * std::sin(pose.noseUp), 1e-9);
    }
}

TEST(FloatRange, APinInASlotSlides) {
    const FloatRange range = floatRange({pin(0, 200, 30, 10)});
    EXPECT_EQ(range.lowest, -10);
    EXPECT_EQ(range.highest, 30);
    EXPECT_EQ(range.noseUp, 0) << "nothing says how far it pitches";
    ASSERT_EQ(range.poses.size(), 3u);
    for (const FloatPose& pose : range.poses)
        EXPECT_NEAR((pose.shell(Vec3(7, 8, 9)) - Vec3(7, 8, 9 + pose.rise)).norm(), 0, 1e-12);
}

TEST(FloatRange, ASlotStopsTheHinge) {
    // The pin is 800 ahead at the hinge's height: sin(pitch) = travel / 800.
    const FloatRange range = floatRange({hinge(0, 250, 20 * degree, 20 * degree), pin(800, 250, 40, 25)});
    EXPECT_NEAR(range.noseUp, std::asin(40.0 / 800), 1e-9);
    EXPECT_NEAR(range.noseDown, -std::asin(25.0 / 800), 1e-9);
}

TEST(FloatRange, TwoSlotsHeaveAndPitch) {
    const FloatRange range = floatRange({pin(0, 200, 20, 20), pin(1000, 200, 20, 20)});
    EXPECT_EQ(range.lowest, -20);
    EXPECT_EQ(range.highest, 20);
    EXPECT_NEAR(range.noseUp, std::asin(40.0 / 1000), 1e-9) << "rear down, front up";
    EXPECT_NEAR(range.noseDown, -std::asin(40.0 / 1000), 1e-9);
    for (const FloatPose& pose : range.poses) {
        EXPECT_LE(std::abs(riseAt(pose, Vec3(0, 0, 200))), 20 + 1e-6);
        EXPECT_LE(std::abs(riseAt(pose, Vec3(1000, 0, 200))), 20 + 1e-6);
    }
}

TEST(FloatRange, HingesOnOneLineAreOneAndOthersLock) {
    EXPECT_FALSE(floatRange({hinge(100, 300, 0.1, 0.1), hinge(100, 300, 0.05, 0.2)}).locked);
    EXPECT_NEAR(floatRange({hinge(100, 300, 0.1, 0.1), hinge(100, 300, 0.05, 0.2)}).noseUp, 0.05, 1e-12);
    const FloatRange range = floatRange({hinge(100, 300, 0.1, 0.1), hinge(900, 300, 0.1, 0.1)});
    EXPECT_TRUE(range.locked);
    EXPECT_TRUE(range.poses.empty());
    EXPECT_TRUE(floatRange({}).poses.empty());
}

TEST(FloatRange, EveryPoseIsAllowedByEveryJointOnRandomLinkages) {
    auto random = seeded(81);
    for (int round = 0; round < 300 / slowdown; ++round) {
        std::vector<FloatJoint> joints;
        if (below(random, 2) == 0)
            joints.push_back(
                hinge(uniform(random, -500, 500), 200, uniform(random, 0, 0.3), uniform(random, 0, 0.3)));
        for (int i = below(random, 4); i > 0; --i)
            joints.push_back(pin(uniform(random, -900, 900), uniform(random, 100, 400),
                                 uniform(random, 0, 50), uniform(random, 0, 50)));
        const FloatRange range = floatRange(joints);
        for (const FloatPose& pose : range.poses) {
            EXPECT_LE(pose.noseUp, range.noseUp + 1e-12);
            EXPECT_GE(pose.noseUp, range.noseDown - 1e-12);
            for (const FloatJoint& j : joints) {
                const double here = riseAt(pose, j.at);
                if (j.hinge) {
                    EXPECT_NEAR(here, 0, 1e-9);
                    EXPECT_LE(pose.noseUp, *j.noseUp + 1e-9);
                    EXPECT_GE(pose.noseUp, -*j.noseDown - 1e-9);
                } else {
                    EXPECT_LE(here, j.up + 1e-6);
                    EXPECT_GE(here, -j.down - 1e-6);
                }
            }
            const Pose back = seenFromShell(pose);
            const Vec3 p(uniform(random, -900, 900), 30, uniform(random, 0, 900));
            EXPECT_NEAR((back(pose.shell(p)) - p).norm(), 0, 1e-9);
        }
    }
}
