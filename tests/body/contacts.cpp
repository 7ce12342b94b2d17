// Forms that touch only along an edge or in a point.
#include "tests/body/make.h"
#include <gtest/gtest.h>

using namespace slab;

TEST(Contact, edgeContactIsFound) {
    const Body edge = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {100, 100, 0}, {200, 200, 100})}));
    const Finding* f = find(edge.findings, "edge-contact");
    ASSERT_NE(f, nullptr) << report(edge.findings);
    EXPECT_EQ(f->severity, Severity::stop);
    EXPECT_NE(f->remedy.find("thickness"), std::string::npos);
    ASSERT_TRUE(f->at);
    EXPECT_NEAR((*f->at)[0], 100, 1e-9);
    EXPECT_NEAR(edge.volume, 2e6, 1e-6) << "what is sound stays";
    const Body point = bodyOf(projectOf(
        {boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {100, 100, 100}, {200, 200, 200})}));
    EXPECT_NE(find(point.findings, "edge-contact"), nullptr);
    // The remedy removes it.
    const Body overlap = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {80, 80, 0}, {200, 200, 100})}));
    EXPECT_TRUE(overlap.findings.empty()) << report(overlap.findings);
}

TEST(Contact, edgeContactWithinOneBodyIsFound) {
    // An L of three boxes whose ends touch along an edge only.
    const Body ring = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {0, 0, 100}, {200, 200, 150}),
                   boxForm("c", {100, 100, 0}, {200, 200, 100})}));
    EXPECT_NE(find(ring.findings, "edge-contact"), nullptr) << report(ring.findings);
    for (int b = 0; b < ring.skin.bodies; ++b) EXPECT_TRUE(makeSkin(toPolyhedron(ring.skin, b)));
    EXPECT_EQ(ring.skin.bodies, 1) << "it hangs together above";
    EXPECT_NEAR(ring.volume, 2 * 1e6 + 200 * 200 * 50, 1e-6);
}

TEST(Contact, edgeContactsLeaveClosedSkinsOfTheTrueVolume) {
    // Two posts that touch along an edge, between a floor and a roof: the edge is doubled from end to end.
    const auto column = [](const std::string& name, double x, double y) {
        return boxForm(name, {x, y, 0}, {x + 100, y + 100, 100});
    };
    const Form floor = boxForm("floor", {-20, -20, -50}, {220, 220, 10}),
               roof = boxForm("roof", {-20, -20, 90}, {220, 220, 150});
    const double plates = 2 * 240 * 240 * 60.0, posts = 2 * 100 * 100 * 80.0;
    const Body between = bodyOf(projectOf({column("a", 0, 0), column("b", 100, 100), floor, roof}));
    ASSERT_NE(find(between.findings, "edge-contact"), nullptr) << report(between.findings);
    EXPECT_EQ(find(between.findings, "join-failed"), nullptr) << report(between.findings);
    EXPECT_EQ(between.skin.bodies, 1);
    EXPECT_TRUE(makeSkin(toPolyhedron(between.skin, 0)));
    EXPECT_NEAR(between.volume, plates + posts, 1e-6);
    // Overlapping forms in the same cluster are not counted twice.
    const Body apart = bodyOf(
        projectOf({column("a", 0, 0), column("b", 100, 100), boxForm("c", {-50, 20, 20}, {50, 80, 80})}));
    ASSERT_NE(find(apart.findings, "edge-contact"), nullptr) << report(apart.findings);
    EXPECT_EQ(apart.skin.bodies, 2);
    EXPECT_NEAR(apart.volume, 2e6 + 50 * 60 * 60, 1e-6);
    // A point: a corner on a corner, joined elsewhere.
    const Body point = bodyOf(
        projectOf({boxForm("a", {0, 0, 0}, {100, 100, 100}), boxForm("b", {100, 100, 100}, {200, 200, 200}),
                   boxForm("c", {-50, -50, 50}, {50, 50, 250}), boxForm("d", {0, 0, 180}, {150, 150, 250})}));
    ASSERT_NE(find(point.findings, "edge-contact"), nullptr) << report(point.findings);
    EXPECT_EQ(point.skin.bodies, 1) << report(point.findings);
    EXPECT_TRUE(makeSkin(toPolyhedron(point.skin, 0)));
    const double c = 100 * 100 * 200 - 50 * 50 * 50, d = 150 * 150 * 70 - 50 * 50 * 70 - 50 * 50 * 20;
    EXPECT_NEAR(point.volume, 2e6 + c + d, 1e-6);
}
