// OpenCASCADE as arbiter: its own volume of every plate, and no common volume of neighbours.
#include "core/geometry/occt.h"
#include "fixtures.h"
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::test;

namespace {

void confirm(const Body& body, const PlateRules& rules, const std::string& what) {
    const PlateSet set = buildPlates(body, rules);
    for (const Plate& p : set.plates) {
        const auto volume = occt::volume(p.solid);
        ASSERT_TRUE(volume) << what << " " << p.name << ": " << volume.error().message;
        EXPECT_NEAR(*volume / p.volume, 1, 1e-6) << what << " " << p.name;
    }
    for (const JointInfo& j : set.joints) {
        const Plate* a = findPlate(set, j.a);
        const Plate* b = findPlate(set, j.b);
        if (!a || !b) continue;
        const auto common = occt::commonVolume(a->solid, b->solid);
        ASSERT_TRUE(common) << what << " " << j.a << " " << j.b;
        EXPECT_LE(*common, 1e-6) << what << " " << j.a << " " << j.b;
    }
}

} // namespace

TEST(Arbiter, ConvexBodies) {
    Random random(seedFor("arbiter, convex", 21));
    for (const int faces : {4, 6, 8, 12, 20}) {
        const Body body = bodyOf(regularSolid(faces));
        confirm(body, rulesFor(body, {5}, {0}), "mitred solid of " + std::to_string(faces));
        if (slowdown == 1)
            confirm(body, rulesFor(body, {3, 6, 9}, {0, 1, 2}), "mixed solid of " + std::to_string(faces));
    }
    for (int round = 0; round < 6 / slowdown; ++round) {
        std::vector<Vec3> points;
        for (int i = 12; i > 0; --i)
            points.push_back(
                Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)).normalized() *
                300);
        const Body body = bodyOf(hullOf(points));
        confirm(body, rulesFor(body, {4, 7}, {0, 1, 2}), "hull " + std::to_string(round));
    }
}

TEST(Arbiter, JoinedBody) {
    auto fused = occt::fuse({makeBox({0, 0, 0}, {600, 400, 200}), makeBox({100, 100, 150}, {300, 300, 400}),
                             moved(frustum(6, 150, 80, 300), Mat3::Identity(), {600, 200, 50})});
    ASSERT_TRUE(fused);
    for (std::size_t i = 0; i < fused->solid.faces.size(); ++i)
        fused->solid.faces[i].name = "f" + std::to_string(i);
    const Body body = bodyOf(fused->solid);
    confirm(body, rulesFor(body, {9}, {0}), "mitred");
    confirm(body, rulesFor(body, {12, 9, 5}, {0, 1, 2, 3}), "mixed");
}
