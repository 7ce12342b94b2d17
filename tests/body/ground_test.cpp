// What reaches under the ground is told once, at its lowest place.
#include "core/body/checks.h"
#include "tests/body/make.h"
#include <cmath>
#include <gtest/gtest.h>

using namespace slab;

TEST(Ground, aFloorUnderItIsToldWithItsDepth) {
    const Body body = bodyOf(projectOf({boxForm("hull", {0, -200, -35}, {900, 200, 400})}));
    const auto found = groundFindings(body);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "below-ground");
    EXPECT_EQ(found[0].severity, Severity::look);
    EXPECT_EQ(found[0].about, (std::vector<std::string>{"plate:hull/base", "form:hull"}));
    EXPECT_NE(found[0].message.find("35 mm"), std::string::npos) << found[0].message;
    ASSERT_TRUE(found[0].at);
    EXPECT_NEAR((*found[0].at)[2], -35, 1e-9);
}

TEST(Ground, whatStandsOnItIsNot) {
    EXPECT_TRUE(groundFindings(bodyOf(projectOf({boxForm("hull", {0, -200, 0}, {900, 200, 400})}))).empty());
    EXPECT_TRUE(
        groundFindings(bodyOf(projectOf({boxForm("hull", {0, -200, -0.4}, {900, 200, 400})}))).empty())
        << "less than half a millimetre is rounding";
    EXPECT_TRUE(groundFindings(Body{}).empty());
}

// The lowest place of a tilted disc of radius r about an axis at angle a to the plumb line lies r sin(a)
// under its middle (elementary trigonometry).
TEST(Ground, roundsReachAsFarAsTheirTiltedEnds) {
    auto random = seeded(7);
    for (int i = 0; i < 200; ++i) {
        const double a = uniform(random, 0, 3.1), r = uniform(random, 20, 300),
                     z = uniform(random, -200, 400), length = uniform(random, 50, 900);
        Body body;
        RoundPart part;
        part.name = "drum";
        part.base = Vec3(0, 0, z);
        part.top = part.base + length * Vec3(std::sin(a), 0, std::cos(a));
        part.radius = part.topRadius = r;
        body.rounds = {part};
        const double lowest = std::min(z, z + length * std::cos(a)) - r * std::sin(a);
        const auto found = groundFindings(body);
        ASSERT_EQ(found.empty(), lowest > -0.5) << "lowest " << lowest;
        if (!found.empty()) {
            EXPECT_NEAR((*found[0].at)[2], lowest, 1e-6);
            EXPECT_EQ(found[0].about, std::vector<std::string>{"form:drum"});
        }
    }
}
