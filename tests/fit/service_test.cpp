// Ways to service points: closed forms in box shells with openings by hand.
#include "core/fit/service.h"
#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <cmath>
#include <gmock/gmock.h>

namespace slab {
namespace {

using ::testing::HasSubstr;

/// Shell 1000 x 600 x 500, t = 10, with an opening in the port side about (x, z).
PlateSet openShell(double x, double z, double width, double height, const std::string& opening = "hatch") {
    PlateSet shell = boxShell(1000, 600, 500, 10);
    Plate& port = shell.plates.own(2);
    const double x0 = x - width / 2, x1 = x + width / 2, z0 = z - height / 2, z1 = z + height / 2;
    port.cells = {makeBoxSolid({-500, 290, 10}, {x0, 300, 490}), makeBoxSolid({x1, 290, 10}, {500, 300, 490}),
                  makeBoxSolid({x0, 290, 10}, {x1, 300, z0}), makeBoxSolid({x0, 290, z1}, {x1, 300, 490})};
    port.frame.origin = Vec3(0, 300, 0);
    PanelLoop hole;
    hole.opening = opening;
    for (const Vec3& p : {Vec3(x0, 300, z0), Vec3(x1, 300, z0), Vec3(x1, 300, z1), Vec3(x0, 300, z1)})
        hole.outer.push_back(port.frame.toPlane(p));
    port.holes = {hole};
    return shell;
}
DonorSet with(const ReachPoint& point) {
    DonorSet donor;
    donor.chassis.service = {point};
    return donor;
}
ReachPoint point(const Vec3& at, const Vec3& from = Vec3::Zero(), double hand = 100) {
    return {"charge port", at, from, hand};
}
ServiceWay wayTo(const DonorSet& donor, const PlateSet& shell) {
    const auto ways = serviceWays(donor, shell, shell);
    EXPECT_EQ(ways.size(), 1U);
    return ways.empty() ? ServiceWay{} : ways[0];
}

TEST(Service, AHandGetsThroughAnOpeningAsWideAsItIs) {
    const ServiceWay way = wayTo(with(point({0, 0, 250})), openShell(0, 250, 220, 160));
    EXPECT_TRUE(way.reached);
    EXPECT_NEAR(way.width, 160, 0.5); // straight through the middle
    EXPECT_NEAR(way.way.y(), 1, 1e-3);
    EXPECT_EQ(way.through, "hatch");
    EXPECT_EQ(way.binds, "hull/port");
    EXPECT_EQ(way.words, "from port through opening hatch, " + printLength(way.width, fitUnits) + " wide");
    EXPECT_TRUE(serviceFindings({way}, openShell(0, 250, 220, 160)).empty());
}

TEST(Service, ATooSmallOpeningSaysHowWideItMustBe) {
    const PlateSet shell = openShell(0, 250, 220, 80);
    const ServiceWay way = wayTo(with(point({0, 0, 250})), shell);
    EXPECT_FALSE(way.reached);
    EXPECT_NEAR(way.width, 80, 0.5);
    const auto found = serviceFindings({way}, shell);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].code, "service-narrow");
    EXPECT_THAT(found[0].message, HasSubstr("charge port"));
    EXPECT_THAT(found[0].message, HasSubstr("wanted 100.0 mm"));
    EXPECT_EQ(found[0].remedy, "Make opening hatch at least 100.0 mm wide all along the way.");
    EXPECT_THAT(found[0].about,
                ::testing::ElementsAre("plate:hull/port", "opening:hatch", "document:/donor"));
}

TEST(Service, ARoundHoleOfAHandsWidthLetsItThrough) { // as advised; its circle is cut in chords
    const PlateSet shell = openShell(0, 250, 220, 99.8);
    const ServiceWay way = wayTo(with(point({0, 0, 250})), shell);
    EXPECT_LT(way.width, 100);
    EXPECT_TRUE(way.reached);
    EXPECT_TRUE(serviceFindings({way}, shell).empty());
}

TEST(Service, AClosedShellNamesThePlateOnTheWay) {
    const PlateSet shell = boxShell(1000, 600, 500, 10);
    const ServiceWay way = wayTo(with(point({300, 0, 250}, Vec3::UnitX())), shell);
    EXPECT_FALSE(way.reached);
    EXPECT_EQ(way.width, 0);
    EXPECT_EQ(way.binds, "hull/front");
    EXPECT_EQ(way.words, "barred by hull/front");
    const auto found = serviceFindings({way}, shell);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].code, "service-blocked");
    EXPECT_EQ(found[0].message, "No hand gets to the donor's charge port: hull/front is in the way.");
    EXPECT_THAT(found[0].remedy,
                HasSubstr("Cut a hand hole at least 100.0 mm across and 104.8 mm along, for the way slants, "
                          "in hull/front"));
    EXPECT_EQ(found[0].about.front(), "plate:hull/front");
}

TEST(Service, TheSideThatAHandComesFromCounts) {
    const PlateSet shell = openShell(0, 250, 220, 160);
    EXPECT_TRUE(wayTo(with(point({0, 0, 250}, Vec3::UnitY())), shell).reached);
    const ServiceWay other = wayTo(with(point({0, 0, 250}, -Vec3::UnitY())), shell);
    EXPECT_FALSE(other.reached);
    EXPECT_EQ(other.binds, "hull/starboard");
}

TEST(Service, LidsAreOffAndOtherPlatesAreClosed) {
    PlateSet shell = openShell(0, 250, 220, 160);
    const Plate cover = boxPlate("hull/port/hatch lid", {-108, 290, 172}, {108, 300, 328}, Vec3::UnitY());
    shell.plates.push_back(cover);
    EXPECT_TRUE(wayTo(with(point({0, 0, 250})), shell).reached);
    shell.plates.own(shell.plates.size() - 1).name = "hull/port/hatch cover";
    EXPECT_FALSE(wayTo(with(point({0, 0, 250})), shell).reached);
}

TEST(Service, TheDonorsOwnSolidsAreInTheWayAndWhatTheySweepIsNot) {
    const PlateSet shell = openShell(0, 250, 220, 160);
    DonorSet donor = with(point({0, 0, 250}));
    donor.solids = {fitSolid("donor/box", makeBoxSolid({-250, 100, 0}, {250, 150, 480}))};
    EXPECT_FALSE(wayTo(donor, shell).reached);
    donor.solids[0].moving = true;
    EXPECT_TRUE(wayTo(donor, shell).reached);
    donor.solids[0].name = "donor/left drive wheel"; // turns, and is there all the same
    EXPECT_FALSE(wayTo(donor, shell).reached);
    donor.solids[0] = fitSolid("rider/torso", makeBoxSolid({-250, 100, 0}, {250, 150, 480}));
    EXPECT_TRUE(wayTo(donor, shell).reached); // nobody sits in it then
}

TEST(Service, WhatThePointIsOnDoesNotBarIt) {
    const PlateSet shell = openShell(0, 250, 220, 160);
    DonorSet donor = with(point({0, 0, 250}, Vec3::UnitY()));
    donor.solids = {fitSolid("donor/battery box", makeBoxSolid({-200, -200, 50}, {200, 0, 450}))};
    EXPECT_TRUE(wayTo(donor, shell).reached);
    donor.solids[0].shape = makeBoxSolid({-200, 0, 50}, {200, 200, 450}); // and it lies behind that face now
    EXPECT_FALSE(wayTo(donor, shell).reached);
}

TEST(Service, WhoSitsInItReachesWhatIsNear) {
    const PlateSet shell = boxShell(1000, 600, 900, 10);
    DonorSet donor = with(point({300, 0, 350}));
    EXPECT_FALSE(wayTo(donor, shell).reached);
    Person who;
    who.seat = Vec3(0, 0, 250);
    who.shoulders = 450;
    who.sittingHeight = 900;
    who.stature = 1750;
    donor.people = {who};
    // Shoulder at (0, ±225, 790): 579 mm away; an arm of 1750 mm stature reaches 700.
    const ServiceWay way = wayTo(donor, shell);
    EXPECT_TRUE(way.reached);
    EXPECT_TRUE(way.fromSeat);
    EXPECT_EQ(way.words, "from the seat");
    donor.people[0].stature = 1400; // 560
    EXPECT_FALSE(wayTo(donor, shell).reached);
}

TEST(Service, NobodyReachesInThroughTheGround) {
    PlateSet shell = boxShell(1000, 600, 500, 10);
    shell.plates.pop_back(); // no floor: open to the ground
    const ServiceWay way = wayTo(with(point({0, 0, 120})), shell);
    EXPECT_FALSE(way.reached);
    shell.plates.ownEach([](Plate& p) {
        for (Vec3& v : p.solid.vertices) v.z() += 400;
        for (ConvexSolid& c : p.cells)
            for (Vec3& v : c.points) v.z() += 400;
        p.frame.origin.z() += 400;
    });
    EXPECT_TRUE(wayTo(with(point({0, 280, 420})), shell).reached); // lifted: from below
}

// A way that is told passes: a hand-wide cylinder along it meets nothing.
TEST(Service, WaysPassOnRandomShells) {
    auto random = seeded(77);
    int reached = 0, barred = 0;
    for (int round = 0; round < 60 / slowdown + 1; ++round) {
        const PlateSet shell = openShell(uniform(random, -250, 250), uniform(random, 150, 350),
                                         uniform(random, 60, 300), uniform(random, 60, 250));
        const Vec3 at(uniform(random, -300, 300), uniform(random, -150, 150), uniform(random, 150, 350));
        const ServiceWay way = wayTo(with(point(at)), shell);
        if (!way.reached) {
            ++barred;
            continue;
        }
        ++reached;
        const double r = std::min(way.hand, way.width) / 2 - 1e-9;
        const FitSolid hand = fitSolid("hand", makeCapsule(at + r * way.way, at + 2000 * way.way, r), 0);
        const FitResult fit = liveFit({hand}, shell);
        EXPECT_NE(fit.state, FitState::hits) << round;
        // As wide as told, to the roundings of the search.
        const FitSolid line =
            fitSolid("line", makeCapsule(at + way.hand / 2 * way.way, at + 2000 * way.way, 0), 0);
        EXPECT_NEAR(2 * liveFit({line}, shell).leastClearance, way.width, 1e-6) << round;
    }
    EXPECT_GT(reached, 5 / slowdown);
    EXPECT_GT(barred, 5 / slowdown);
}

} // namespace
} // namespace slab
