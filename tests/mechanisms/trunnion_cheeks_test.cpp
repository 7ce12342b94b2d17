// Cheeks of a trunnion on a turntable: they turn past the rings.
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

// A foot of half width h beside a tube of radius 30 with 5 of gap, in 12 mm: its corners turn on
// hypot(h, 47). They keep the rings' gap of 3 to the cap's hole, 225 - 15 across at its overlap of 15.
TEST(Trunnion, ItsCheeksTurnWithinTheCapsHole) {
    for (const char* height : {"800 mm", "1000 mm", "1600 mm"}) {
        Boat boat;
        boat.project.mechanisms.turntables = {lampTable()};
        Trunnion tube = monitor();
        tube.on = "lamp";
        tube.diameter = "60 mm";
        tube.front = "150 mm";
        tube.rear = "100 mm";
        tube.at.z = height;
        boat.project.mechanisms.trunnions = {tube};
        boat.make();
        const Plate* cheek = boat.plate("monitor/cheek port");
        ASSERT_TRUE(cheek) << boat.told();
        double foot = 0, rest = std::stod(height) - 621;
        for (const Vec3& p : cheek->solid.vertices)
            if (p.z() < 621.001) foot = std::max(foot, std::abs(p.x()));
        const double most = std::sqrt(std::pow(boat.fact("cap_hole") / 2 - 3, 2) - 47 * 47);
        EXPECT_LE(foot, most) << height;
        EXPECT_GT(foot, std::min(rest / 2, most) - 3) << height << ": and no narrower than it must be";
        EXPECT_FALSE(boat.finding("sweep-meets")) << height << boat.told();
        EXPECT_FALSE(boat.finding("sweep-tight")) << height << boat.told();
    }
}

// Off the axis, turned and leaning: what is made beside each other is never told as in each other's way.
TEST(Trunnion, CheeksAndRingsOfOneTurningGroupAreNeverToldAsTooNear) {
    auto random = seeded(31);
    for (int i = 0; i < 40 / slowdown + 1; ++i) {
        Boat boat;
        Turntable table = lampTable();
        table.lip_thickness = std::to_string(uniform(random, 2, 12)) + " mm";
        table.gap = std::to_string(uniform(random, 1, 4)) + " mm";
        boat.project.mechanisms.turntables = {table};
        Trunnion tube = monitor();
        tube.on = "lamp";
        tube.front = tube.rear = "120 mm";
        tube.diameter = std::to_string(uniform(random, 20, 70)) + " mm";
        tube.gap = std::to_string(uniform(random, 2, 15)) + " mm";
        tube.at.x = std::to_string(uniform(random, -60, 60)) + " mm";
        tube.at.y = std::to_string(uniform(random, -40, 40)) + " mm";
        tube.at.z = std::to_string(uniform(random, 800, 1500)) + " mm";
        tube.at.yaw = std::to_string(uniform(random, -90, 90)) + " deg";
        boat.project.mechanisms.trunnions = {tube};
        boat.make();
        for (const SweptCheck& c : boat.set.checks) {
            if (c.moving.find("/cheek") == std::string::npos || c.fixed.rfind("lamp/", 0) != 0) continue;
            EXPECT_GE(c.clearance, c.wanted - 1e-6) << i << " " << c.moving << " " << c.fixed << boat.told();
        }
    }
}

/// How far a cheek's lowest corners stand over a plane, and how many of them stand on it.
struct Standing {
    double least = 1e300;
    int on = 0;
};
Standing standingOn(const Plate& cheek, const Plane& plane) {
    Standing out;
    for (const Vec3& p : cheek.solid.vertices) {
        const double over = plane.distance(p);
        out.least = std::min(out.least, over);
        if (std::abs(over) < 1e-6) ++out.on;
    }
    return out;
}

// Pitched on a level deck, or upright on a turntable that is pitched: their feet are cut to the slope.
TEST(Trunnion, ItsCheeksStandFlatOnASlopeAhead) {
    auto random = seeded(32);
    for (int i = 0; i < 40 / slowdown + 1; ++i) {
        Boat boat;
        const double lean = uniform(random, -25, 25) * std::numbers::pi / 180;
        const std::string pitch = std::to_string(lean * 180 / std::numbers::pi) + " deg";
        Trunnion tube = monitor();
        tube.front = tube.rear = "100 mm";
        tube.diameter = std::to_string(uniform(random, 20, 60)) + " mm";
        tube.at.z = std::to_string(uniform(random, 850, 1200)) + " mm";
        Plane ground{Vec3::UnitZ(), 600};
        if (i % 2 == 0) {
            tube.at.pitch = pitch;
        } else {
            Turntable table = lampTable();
            table.at.pitch = pitch;
            table.from = table.to = "0";
            boat.project.mechanisms.turntables = {table};
            tube.on = table.name;
        }
        boat.project.mechanisms.trunnions = {tube};
        boat.make();
        if (i % 2 == 1) {
            const Move& turn = boat.set.motions[0].moves.front();
            ground = {turn.axis, turn.axis.dot(turn.at) + boat.fact("lip_top")};
            ASSERT_NEAR(turn.axis.z(), std::cos(lean), 1e-6);
        }
        EXPECT_FALSE(boat.finding("trunnion-leans")) << boat.told();
        for (const char* name : {"monitor/cheek port", "monitor/cheek starboard"}) {
            const Plate* cheek = boat.plate(name);
            ASSERT_TRUE(cheek) << boat.told();
            const Standing standing = standingOn(*cheek, ground);
            EXPECT_GE(standing.least, -1e-6) << i << " " << name << " " << pitch;
            EXPECT_EQ(standing.on, 4) << i << " " << name << " " << pitch;
        }
        for (const SweptCheck& c : boat.set.checks)
            if (c.moving.find("/cheek") != std::string::npos && c.fixed.rfind("lamp/lip", 0) == 0) {
                EXPECT_GE(c.clearance, c.wanted - 1e-6) << i << " " << c.fixed << boat.told();
            }
    }
}

TEST(Trunnion, OneThatIsRolledIsToldAndStandsOnOneEdge) {
    Boat boat;
    Trunnion tube = monitor();
    tube.at.roll = "6 deg";
    boat.project.mechanisms.trunnions = {tube};
    boat.make();
    const Finding* leans = boat.finding("trunnion-leans");
    ASSERT_TRUE(leans) << boat.told();
    EXPECT_NE(leans->message.find("6.0°"), std::string::npos) << leans->message;
    for (const char* name : {"monitor/cheek port", "monitor/cheek starboard"}) {
        const Standing standing = standingOn(*boat.plate(name), {Vec3::UnitZ(), 600});
        EXPECT_NEAR(standing.least, 0, 1e-6) << name;
        EXPECT_EQ(standing.on, 2) << name;
    }
}

} // namespace
} // namespace slab
