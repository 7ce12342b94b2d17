// What reaches under the ground is told once, at its lowest place.
#include "core/body/checks.h"
#include "tests/body/make.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <map>

using namespace slab;

TEST(Ground, aFloorUnderItIsToldWithItsDepth) {
    const Body body = bodyOf(projectOf({boxForm("hull", {0, -200, -35}, {900, 200, 400})}));
    const auto found = groundFindings(body);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].code, "below-ground");
    EXPECT_EQ(found[0].severity, Severity::look);
    ASSERT_EQ(found[0].about.size(), 6u) << "the walls that stand on it reach as low";
    EXPECT_EQ(found[0].about[0], "plate:hull/base");
    EXPECT_EQ(found[0].about[1], "form:hull");
    EXPECT_NE(found[0].message.find("hull/base and 4 more of hull reach"), std::string::npos)
        << found[0].message;
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

// One entry names the lowest of each owner, in the order of their depths, and points at every part.
TEST(Ground, allThatReachUnderItAreToldTogether) {
    auto random = seeded(8);
    for (int i = 0; i < 100; ++i) {
        std::vector<LowPart> parts;
        std::size_t low = 0;
        std::map<std::string, double> lowest;
        for (int k = 0; k < 12; ++k) {
            LowPart p;
            p.owner = "belt " + std::to_string(k % 5);
            p.ownerAbout = "mechanism:" + p.owner;
            p.name = p.owner + "/strip " + std::to_string(k);
            p.about = "plate:" + p.name;
            p.at.z() = uniform(random, -300, 200);
            if (std::abs(p.at.z() + 0.5) < 1e-3) p.at.z() = 1;
            if (p.at.z() < -0.5) {
                ++low;
                lowest[p.owner] = std::min(lowest[p.owner], p.at.z());
            }
            parts.push_back(std::move(p));
        }
        const auto found = groundFindings(parts);
        ASSERT_EQ(found.size(), low > 0 ? 1u : 0u);
        if (found.empty()) continue;
        EXPECT_EQ(found[0].about.size(), low + lowest.size()) << found[0].message;
        std::vector<std::pair<double, std::string>> order;
        for (const auto& [owner, z] : lowest) order.emplace_back(z, owner);
        std::sort(order.begin(), order.end());
        std::size_t at = 0;
        for (std::size_t k = 0; k < std::min<std::size_t>(3, order.size()); ++k) {
            const std::size_t here = found[0].message.find(order[k].second + "/strip", at);
            ASSERT_NE(here, std::string::npos) << found[0].message;
            at = here;
            EXPECT_NE(found[0].remedy.find(order[k].second), std::string::npos) << found[0].remedy;
        }
        EXPECT_EQ(found[0].message.find(" more part") != std::string::npos, order.size() > 3)
            << found[0].message;
        EXPECT_NEAR((*found[0].at)[2], order.front().first, 1e-5);
    }
    LowPart nowhere;
    nowhere.at.z() = std::nan("");
    EXPECT_TRUE(groundFindings({nowhere}).empty()) << "of no known place nothing is told";
}
