// Who is aboard: sizes as the document gives them, posture, shoes and helmet, passengers, poses.
#include "core/donor/placing.h"
#include "core/ride/people.h"
#include <algorithm>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

using ::testing::HasSubstr;

Project chairWith(const std::string& sex = "male") {
    Project p;
    p.donor.kind = "powered_chair";
    p.rider.table = "adult";
    p.rider.sex = sex;
    return p;
}
DonorSet aboard(const Project& p) {
    return resolveDonor(p, Scope{});
}
Box3 boxOf(const std::vector<FitSolid>& solids, const std::string& name) {
    for (const FitSolid& s : solids)
        if (s.name == name) return bounds(s.shape);
    ADD_FAILURE() << "no " << name;
    return {};
}
const Finding* toldAboard(const DonorSet& set, const std::string& code) {
    for (const Finding& f : set.findings)
        if (f.code == code) return &f;
    return nullptr;
}
const DonorPose* posed(const DonorSet& set, const std::string& words) {
    for (const DonorPose& p : set.poses)
        if (p.words == words) return &p;
    return nullptr;
}

// ANSUR II: men's hip breadth 431 mm at the 95th percentile, sitting height 918 mm at the 50th.
TEST(People, SingleSizesGoByTheirOwnPercentileOrAsASize) {
    Project p = chairWith();
    p.rider.figures = {{"hip breadth", "95"}, {"sitting height", "96 cm"}};
    const DonorSet set = aboard(p);
    ASSERT_EQ(set.people.size(), 1U);
    EXPECT_NEAR(set.people[0].hips, 431, 1e-9);
    EXPECT_NEAR(set.people[0].sittingHeight, 960, 1e-9);
    EXPECT_NEAR(set.people[0].shoulders, 509, 1e-9);
    EXPECT_NEAR(boxOf(set.solids, "rider/head").max.z(), set.people[0].seat.z() + 960, 1e-9);
    EXPECT_EQ(toldAboard(set, "figures-stacked"), nullptr); // one at 95, one (960 mm) below
}

TEST(People, AnUnknownSizeIsToldWithTheKnownOnes) {
    Project p = chairWith();
    p.rider.figures = {{"hat size", "95"}};
    const DonorSet set = aboard(p);
    const Finding* f = toldAboard(set, "rider-unknown-figure");
    ASSERT_NE(f, nullptr);
    EXPECT_THAT(f->remedy, HasSubstr("hip breadth"));
    EXPECT_THAT(f->remedy, HasSubstr("forearm-hand length"));
    EXPECT_EQ(f->about.front(), "document:/rider/figures/hat size");
    EXPECT_TRUE(set.people == aboard(chairWith()).people);
}

TEST(People, WhatIsNoSizeOfAPersonIsRefused) {
    Project p = chairWith();
    p.rider.figures = {{"hip breadth", "4 m"}};
    p.rider.mass = "3";
    const DonorSet set = aboard(p);
    EXPECT_NE(toldAboard(set, "rider-figure"), nullptr);
    EXPECT_NE(toldAboard(set, "rider-mass"), nullptr);
    EXPECT_TRUE(set.people == aboard(chairWith()).people);
}

// Nobody is at the 95th percentile of everything: single percentiles do not add up (common practice).
TEST(People, StackedExtremesAreTold) {
    Project p = chairWith();
    p.rider.percentile = "95";
    EXPECT_NE(toldAboard(aboard(p), "figures-stacked"), nullptr);
    p.rider.percentile = "90";
    EXPECT_EQ(toldAboard(aboard(p), "figures-stacked"), nullptr);
    p.rider.figures = {{"hip breadth", "95"}, {"sitting height", "980 mm"}};
    {
        const DonorSet set = aboard(p);
        const Finding* f = toldAboard(set, "figures-stacked");
        ASSERT_NE(f, nullptr);
        EXPECT_EQ(f->severity, Severity::note);
        EXPECT_THAT(f->message, HasSubstr("hip breadth and sitting height"));
    }
    p.rider.figures = {{"hip breadth", "95"}, {"sitting height", "5"}};
    EXPECT_EQ(toldAboard(aboard(p), "figures-stacked"), nullptr);
    p.rider.figures.clear();
    p.rider.percentile = "95";
    p.rider.stature = "1870 mm"; // a whole person: nothing is stacked
    EXPECT_EQ(toldAboard(aboard(p), "figures-stacked"), nullptr);
}

TEST(People, AStatureMakesAWholeFigure) {
    Project p = chairWith();
    p.rider.stature = "1870 mm"; // the 95th percentile of men, ANSUR II
    p.rider.mass = "101.5";
    const DonorSet set = aboard(p);
    EXPECT_NEAR(set.people[0].stature, 1870, 1e-9);
    EXPECT_NEAR(set.people[0].sittingHeight, 1870 * 918.0 / 1755, 1e-9);
    EXPECT_LT(set.people[0].hips, 431); // not at the 95th as well
    EXPECT_GT(set.people[0].hips, 378);
    EXPECT_EQ(set.people[0].mass, 101.5);
    p.rider.stature = "5 m";
    EXPECT_NE(toldAboard(aboard(p), "rider-outside-table"), nullptr);
}

TEST(People, ReclineTurnsTheUpperBodyAboutTheHip) {
    Project p = chairWith();
    const DonorSet upright = aboard(p);
    p.rider.recline = "20 deg";
    const DonorSet set = aboard(p);
    const Person &a = upright.people[0], &b = set.people[0];
    const Vec3 hip = a.seat + a.sittingHeight * Vec3(0.14, 0, 0.1);
    const double angle = 20 * std::numbers::pi / 180;
    const Vec3 from = a.eye - hip, to = b.eye - hip;
    EXPECT_NEAR(from.norm(), to.norm(), 1e-9);
    EXPECT_NEAR(std::acos(from.dot(to) / from.squaredNorm()), angle, 1e-9);
    EXPECT_LT(b.eye.x(), a.eye.x());
    EXPECT_LT(b.top, a.top);
    EXPECT_NEAR(b.top, boxOf(set.solids, "rider/head").max.z(), 1e-9);
    EXPECT_LT(b.centre.x(), a.centre.x());
    for (const char* still : {"rider/left thigh", "rider/right shin", "rider/left foot"})
        EXPECT_TRUE(boxOf(set.solids, still).min == boxOf(upright.solids, still).min) << still;
    // Nobody sinks into the seat.
    EXPECT_GE(boxOf(set.solids, "rider/torso").min.z(), a.seat.z() - 1e-9);
    p.rider.recline = "120 deg";
    EXPECT_NE(toldAboard(aboard(p), "rider-posture"), nullptr);
}

// Shoes +25 to 30 mm, helmet 30 to 50 mm (from memory).
TEST(People, ShoesAndHelmetAddToTheBody) {
    Project p = chairWith();
    p.donor.changes = {{"footplate_height", "140 mm"}};
    const DonorSet bare = aboard(p);
    p.rider.shoes = "30 mm";
    p.rider.helmet = "40 mm";
    const DonorSet set = aboard(p);
    EXPECT_NEAR(set.people[0].top, bare.people[0].top + 40, 1e-9);
    const Box3 a = boxOf(bare.solids, "rider/head"), b = boxOf(set.solids, "rider/head");
    EXPECT_NEAR(b.size().y(), a.size().y() + 80, 1e-9);
    EXPECT_TRUE(set.people[0].eye == bare.people[0].eye);
    const Box3 foot = boxOf(bare.solids, "rider/left foot"), shod = boxOf(set.solids, "rider/left foot");
    EXPECT_NEAR(shod.size().z(), foot.size().z() + 30, 1e-9);
    EXPECT_NEAR(shod.min.z(), foot.min.z(), 1e-9); // both stand on the footplate
}

// Snyder et al. 1977: an 8 year old's seated centre of mass, 28.8 to 30.6 % of sitting height.
TEST(People, APassengerIsAPersonWithSolidsAndAClearanceOfItsOwn) {
    Project p = chairWith();
    Passenger child;
    child.name = "child";
    child.table = "child";
    child.age = "8";
    child.x = "400 mm";
    child.z = "600 mm";
    child.clearance = "55 mm";
    p.passengers = {child};
    const DonorSet set = aboard(p);
    ASSERT_EQ(set.people.size(), 2U);
    const Person& who = set.people[1];
    EXPECT_EQ(who.name, "child");
    EXPECT_TRUE(who.seat == Vec3(400, 0, 600));
    EXPECT_NEAR(who.mass, 27.3, 1e-9);
    EXPECT_NEAR(who.sittingHeight, 689.5, 1e-9);
    const auto centre = ride::seatedCentre(689.5, 8);
    ASSERT_TRUE(centre);
    EXPECT_NEAR(who.centre.z() - 600, centre->above, 1e-9);
    EXPECT_NEAR(who.centre.x() - 400, centre->forward, 1e-9);
    EXPECT_NEAR(who.top, 600 + 689.5, 1e-9);
    // Adults: 0.25 to 0.27 of sitting height.
    EXPECT_NEAR(set.people[0].centre.z() - set.people[0].seat.z(), 0.26 * 918, 1e-9);
    int solids = 0;
    for (const FitSolid& s : set.solids)
        if (s.name.rfind("child/", 0) == 0) {
            EXPECT_EQ(s.group, "rider");
            EXPECT_EQ(s.clearance, 55);
            ++solids;
        } else {
            EXPECT_EQ(s.clearance, 20) << s.name;
        }
    EXPECT_EQ(solids, 15);
    p.passengers[0].name = "rider";
    EXPECT_NE(toldAboard(aboard(p), "passenger-name"), nullptr);
    EXPECT_EQ(aboard(p).people.size(), 1U);
}

TEST(Poses, LeaningTurnsTheUpperBodyAndLeavesTheLegs) {
    Project p = chairWith();
    p.rider.lean_forward = "20 deg";
    p.rider.lean_back = "10 deg";
    p.rider.lean_aside = "15 deg";
    const DonorSet set = aboard(p);
    // 5 x 5 leans with the hands at the controls and on the thighs, but the one at rest.
    EXPECT_EQ(set.poses.size(), 49U);
    const DonorPose* lean = posed(set, "leaning forward 20.0°");
    ASSERT_NE(lean, nullptr);
    const Box3 rest = boxOf(set.solids, "rider/head"), there = boxOf(lean->solids, "rider/head");
    EXPECT_GT(there.max.x(), rest.max.x() + 200);
    EXPECT_NEAR(there.min.y(), rest.min.y(), 1e-6);
    for (const DonorPose& pose : set.poses)
        for (const FitSolid& s : pose.solids) {
            EXPECT_EQ(s.name.find("thigh"), std::string::npos);
            EXPECT_EQ(s.name.find("shin"), std::string::npos);
            EXPECT_EQ(s.name.rfind("donor/", 0), std::string::npos);
        }
    const DonorPose *left = posed(set, "leaning left 15.0°"), *right = posed(set, "leaning right 15.0°");
    ASSERT_TRUE(left && right);
    EXPECT_NEAR(boxOf(left->solids, "rider/head").max.y(), -boxOf(right->solids, "rider/head").min.y(), 1e-6);
    EXPECT_GT(boxOf(left->solids, "rider/head").max.y(), rest.max.y() + 100);
    for (const char* words :
         {"leaning back 10.0° and right 7.5°", "leaning forward 10.0° and left 15.0°", "hands on the thighs",
          "leaning forward 20.0° and left 15.0°, hands on the thighs"})
        EXPECT_NE(posed(set, words), nullptr) << words;
}

TEST(Poses, HandsRestOnTheThighs) {
    const DonorSet set = aboard(chairWith());
    ASSERT_EQ(set.poses.size(), 1U); // who does not lean still lets go of the controls
    const DonorPose& lap = set.poses[0];
    EXPECT_EQ(lap.words, "hands on the thighs");
    EXPECT_EQ(lap.solids.size(), 6U);
    for (const char* side : {"left", "right"}) {
        const Box3 hand = boxOf(lap.solids, std::string("rider/") + side + " hand");
        const Box3 thigh = boxOf(set.solids, std::string("rider/") + side + " thigh");
        EXPECT_NEAR(hand.min.z(), thigh.max.z(), 30) << side; // it slopes down to the fingers
        EXPECT_LT(hand.max.x(), thigh.max.x() + 60) << side;
        EXPECT_GT(hand.min.y(), thigh.min.y()) << side;
        EXPECT_LT(hand.max.y(), thigh.max.y()) << side;
    }
}

TEST(Poses, HandsGoAlongWithTheTiller) {
    Project p = chairWith();
    p.donor.kind = "scooter";
    p.rider.shift_x = "250 mm";
    const DonorSet set = aboard(p);
    const DonorPose *left = posed(set, "steering left"), *half = posed(set, "steering half right");
    ASSERT_TRUE(left && half);
    // Turned left the right hand goes ahead and the left one comes back.
    EXPECT_GT(boxOf(left->solids, "rider/right hand").max.x(),
              boxOf(set.solids, "rider/right hand").max.x() + 50);
    EXPECT_LT(boxOf(left->solids, "rider/left hand").max.x(),
              boxOf(set.solids, "rider/left hand").max.x() - 50);
    // The hands stay within the room that the bar sweeps, but for what a fist is thicker than its grip.
    const Box3 sweep = boxOf(set.solids, "donor/handlebar sweep");
    const Box3 hand = boxOf(left->solids, "rider/right hand");
    EXPECT_LT(hand.max.x(), sweep.max.x() + 60);
    EXPECT_GT(hand.min.y(), sweep.min.y() - 60);
}

TEST(Poses, WhoCannotReachRoundTheBendLeansForIt) {
    Project p = chairWith();
    p.donor.kind = "scooter";
    p.rider.shift_x = "100 mm";
    const DonorSet set = aboard(p);
    EXPECT_EQ(toldAboard(set, "rider-reach"), nullptr);
    EXPECT_EQ(posed(set, "steering left"), nullptr);
    const auto leaning = std::find_if(set.poses.begin(), set.poses.end(), [](const DonorPose& pose) {
        return pose.words.rfind("steering left, leaning forward ", 0) == 0;
    });
    ASSERT_NE(leaning, set.poses.end());
    EXPECT_GT(boxOf(leaning->solids, "rider/right hand").max.x(),
              boxOf(set.solids, "rider/right hand").max.x() + 50);
    EXPECT_GT(boxOf(leaning->solids, "rider/head").max.x(), boxOf(set.solids, "rider/head").max.x());
}

TEST(Poses, WantTheSameClearanceAndLeaveOutWhatIsLeftOut) {
    Project p = chairWith();
    p.rider.lean_forward = "20 deg";
    p.donor.leave_out = {"rider/left hand"};
    p.clearance.solids = {{"rider/head", "70 mm"}};
    p.rider.clearance = "33 mm";
    for (const DonorPose& pose : aboard(p).poses)
        for (const FitSolid& s : pose.solids) {
            EXPECT_NE(s.name, "rider/left hand");
            EXPECT_EQ(s.clearance, s.name == "rider/head" ? 70 : 33) << s.name;
        }
}

TEST(Poses, GoWithTheDonorsPlace) {
    Project p = chairWith();
    p.rider.lean_aside = "15 deg";
    const DonorSet home = aboard(p);
    p.donor.at.x = "250 mm";
    p.donor.at.y = "-40 mm";
    const DonorSet there = aboard(p);
    ASSERT_EQ(home.poses.size(), there.poses.size());
    for (std::size_t i = 0; i < home.poses.size(); ++i)
        for (std::size_t k = 0; k < home.poses[i].solids.size(); ++k) {
            const Box3 a = bounds(home.poses[i].solids[k].shape), b = bounds(there.poses[i].solids[k].shape);
            EXPECT_NEAR((b.min - a.min - Vec3(250, -40, 0)).norm(), 0, 1e-9);
        }
}

TEST(Placing, ShiftingIsAnotherPlaceInTheDocument) {
    Project p = chairWith();
    p.rider.lean_aside = "15 deg";
    p.donor.at.yaw = "180 deg";
    DonorSet shifted = aboard(p);
    shift(shifted, Vec3(256, 0, 0)); // exact in binary: equal to the bit
    p.donor.at.x = "256 mm";
    const DonorSet there = aboard(p);
    ASSERT_FALSE(there.chassis.wheels.empty());
    EXPECT_TRUE(shifted.solids == there.solids);
    EXPECT_TRUE(shifted.people == there.people);
    EXPECT_TRUE(shifted.chassis == there.chassis);
    EXPECT_TRUE(shifted.poses == there.poses);
    EXPECT_TRUE(shifted.place == there.place);
}

} // namespace
} // namespace slab
