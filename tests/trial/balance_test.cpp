// How it stands, against the worked examples of the reference values (definitions: ISO 7176-1, NHTSA; figures
// computed there by hand).
#include "tests/trial/rig.h"
#include <cmath>

namespace slab::trial {

using test::Rig;

namespace {

/// Four wheels `track` apart.
Rig fourWheels(double base, double track) {
    Rig rig;
    for (const double x : {0.0, base})
        for (const double y : {track / 2, -track / 2}) rig.wheel(x, y, 100, WheelRole::drive);
    return rig;
}

double axleLoad(const Balance& b, const Standing& s, double x) {
    double sum = 0;
    for (std::size_t i = 0; i < s.loads.size(); ++i)
        if (std::abs(b.stance.wheels[i].x() - x) < 1) sum += s.loads[i];
    return sum;
}

} // namespace

TEST(TrialBalance, ThreePartsOneOverTheOther) { // example A
    Rig rig = fourWheels(2000, 550);
    rig.donor.chassis.mass = 55;
    rig.donor.chassis.centre = Vec3(1000, 0, 300);
    rig.weight("rider", 85, Vec3(1000, 0, 750));
    rig.weight("body", 25, Vec3(1000, 0, 700));
    rig.ride.speed = 1800;
    rig.ride.radius = 1000;
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    EXPECT_NEAR(b->load.all.mass, 165, 1e-12);
    EXPECT_NEAR(b->stance.centre.z(), 592.4, 0.05);
    EXPECT_NEAR(b->least.angle / degree, 24.90, 0.005);
    EXPECT_NEAR(b->turn.least(), 2134, 0.5); // √(SSF g R)
    // On a cross slope of 1:48 the turn's lean and the slope's add up: tan⁻¹ SSF − 1.193° is left for it.
    rig.ride.crossSlope = 1.0 / 48;
    const auto sloping = balanceOf(rig.stuff());
    ASSERT_TRUE(sloping);
    const double left = std::tan(b->least.angle - std::atan(1.0 / 48));
    EXPECT_NEAR(sloping->turn.least(), std::sqrt(left * 9806.65 * 1000), 1e-6);
}

TEST(TrialBalance, ATurnedDonorTurnsAsItDrives) {
    // Driven along y its track is what was its wheelbase: v² = g R (base / 2) / h on the level.
    Rig rig = fourWheels(800, 2000);
    rig.donor.chassis.mass = 100;
    rig.donor.chassis.centre = Vec3(400, 0, 600);
    rig.donor.chassis.forward = Vec3::UnitY();
    rig.ride.radius = 1000;
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    EXPECT_NEAR(b->turn.least(), std::sqrt(9806.65 * 1000 * 400 / 600), 1e-6);
    // Uphill is along y then: the wheels to port carry less.
    rig.ride.slope = 1.0 / 12;
    const auto up = balanceOf(rig.stuff());
    ASSERT_TRUE(up);
    const auto uphill = std::find_if(up->standings.begin(), up->standings.end(),
                                     [](const Standing& s) { return s.words.rfind("uphill", 0) == 0; });
    ASSERT_NE(uphill, up->standings.end());
    const double down = 100 * 9.80665 * std::cos(std::atan(1.0 / 12));
    EXPECT_NEAR(uphill->loads[0] + uphill->loads[2], down * (0.5 - 600.0 / 12 / 2000), 1e-6);
}

TEST(TrialBalance, ThreeWheelsTipOverALineAslant) { // example B: half the track would give 24.44°
    Rig rig;
    rig.wheel(0, 250, 100);
    rig.wheel(0, -250, 100);
    rig.wheel(900, 0, 100, WheelRole::steered);
    rig.donor.chassis.mass = 100;
    rig.donor.chassis.centre = Vec3(300, 0, 550);
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    EXPECT_NEAR(b->least.angle / degree, 16.28, 0.005);
    EXPECT_NEAR(b->least.line.distance, 160.6, 0.05);
}

TEST(TrialBalance, AxlesShareTheLoadOnSlopes) { // example C
    Rig rig = fourWheels(900, 600);
    rig.donor.chassis.mass = 165;
    rig.donor.chassis.centre = Vec3(350, 0, 600);
    struct Row {
        double slope, front, rear;
    };
    for (const Row& row : {Row{1.0 / 12, 537.5, 1075.0}, Row{1.0 / 8, 490.6, 1115.0}}) {
        rig.ride.slope = row.slope;
        const auto b = balanceOf(rig.stuff());
        ASSERT_TRUE(b);
        ASSERT_EQ(b->standings.size(), 3U);
        EXPECT_NEAR(axleLoad(*b, b->standings[0], 900), 629.3, 0.05);
        EXPECT_NEAR(axleLoad(*b, b->standings[0], 0), 988.8, 0.05);
        EXPECT_NEAR(axleLoad(*b, b->standings[1], 900), row.front, 0.05) << b->standings[1].words;
        EXPECT_NEAR(axleLoad(*b, b->standings[1], 0), row.rear, 0.05);
    }
    rig.ride.slope = 0.59; // just over atan(0.35 / 0.6) = 30.26°
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    EXPECT_FALSE(b->standings[1].stands);
    EXPECT_TRUE(b->standings[2].stands) << "forward it stands up to 42.51°";
}

TEST(TrialBalance, CastersStandBehindTheirPivots) {
    Rig rig = fourWheels(900, 600);
    rig.donor.chassis.wheels[2].trail = rig.donor.chassis.wheels[3].trail = 45;
    rig.donor.chassis.mass = 100;
    rig.donor.chassis.centre = Vec3(300, 0, 400);
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    EXPECT_NEAR(b->stance.wheels[2].x(), 855, 1e-12);
}

TEST(TrialBalance, WindFindsTheSilhouette) {
    // A box 2 m long, 1.5 m high from 0.2 m on: from the side 3 m² with its middle 0.95 m up.
    Rig rig = fourWheels(1200, 600);
    rig.donor.chassis.mass = 120;
    rig.donor.chassis.centre = Vec3(600, 0, 400);
    rig.box("donor/box", Vec3(-400, -500, 200), Vec3(1600, 500, 1700));
    const auto b = balanceOf(rig.stuff());
    ASSERT_TRUE(b);
    ASSERT_EQ(b->winds.size(), 4U);
    EXPECT_NEAR(b->winds[0].area, 3e6, 1);
    EXPECT_NEAR(b->winds[2].area, 1.5e6, 1);
    // ½ ρ v² c A h = m g d: drag equation, ρ = 1.225 kg/m³, c = 1.2 (moments about the wheels' line).
    const double v = std::sqrt(120 * 9.80665 * 0.3 / (0.5 * 1.225 * 1.2 * 3 * 0.95));
    EXPECT_NEAR(b->winds[0].limits.tips, v * 1000, 0.01);
}

TEST(TrialBalance, TellsWhatIsRatedAndWhatIsNot) {
    Rig rig = fourWheels(900, 600);
    rig.donor.chassis.mass = 60;
    rig.donor.chassis.centre = Vec3(450, 0, 300);
    rig.weight("rider", 100, Vec3(450, 0, 600));
    std::vector<Finding> told;
    const auto codes = [&](double rated) {
        rig.donor.chassis.rated = rated;
        told.clear();
        const Stuff stuff = rig.stuff();
        tellBalance(stuff, *balanceOf(stuff), told);
        std::vector<std::string> all;
        for (const Finding& f : told)
            if (f.code.rfind("load-", 0) == 0) all.push_back(f.code);
        return all;
    };
    EXPECT_EQ(codes(0), std::vector<std::string>{"load-unrated"});
    EXPECT_EQ(codes(99), std::vector<std::string>{"load-over-rated"});
    EXPECT_EQ(codes(124), std::vector<std::string>{"load-share"}); // 80 %: common practice
    EXPECT_TRUE(codes(126).empty());
}

TEST(TrialBalance, NothingStandsOnTwoWheels) {
    Rig rig;
    rig.wheel(0, 250, 100);
    rig.wheel(0, -250, 100);
    rig.donor.chassis.mass = 10;
    rig.donor.chassis.centre = Vec3(0, 0, 100);
    EXPECT_FALSE(balanceOf(rig.stuff()));
}

TEST(TrialBalance, AMovedDonorTakesItsRiderAlong) {
    const auto rigAt = [](double x) {
        Rig rig;
        for (const double y : {250.0, -250.0}) {
            rig.wheel(x, y, 150, WheelRole::drive);
            rig.wheel(x + 500, y, 100, WheelRole::caster);
        }
        rig.donor.chassis.mass = 100;
        rig.donor.chassis.centre = Vec3(x + 100, 0, 300);
        Person who;
        who.name = "rider";
        who.mass = 80;
        who.centre = Vec3(x + 150, 0, 700);
        who.sittingHeight = 900;
        rig.donor.people.push_back(who);
        rig.weight("shell", 60, Vec3(700, 0, 600)); // stays where it is
        return rig;
    };
    const auto b = balanceOf(rigAt(0).stuff());
    ASSERT_TRUE(b);
    int told = 0;
    for (const BalanceChange& c : b->changes) {
        if (c.words.find("the donor moved") == std::string::npos) continue;
        const auto moved = balanceOf(rigAt(c.words.find("forward") != std::string::npos ? 50 : -50).stuff());
        ASSERT_TRUE(moved);
        EXPECT_NEAR(c.angle, moved->least.angle, 1e-9) << c.words;
        ++told;
    }
    EXPECT_EQ(told, 2);
}

} // namespace slab::trial
