// Cheeks of a trunnion on a turntable: they turn past the rings.
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <algorithm>
#include <cmath>

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

} // namespace
} // namespace slab
