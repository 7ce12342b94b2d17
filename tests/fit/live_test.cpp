#include "tests/fit/shell.h"
#include "tests/geometry/seed.h"
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

using ::testing::HasSubstr;

TEST(LiveFit, BoxInBoxHasClosedFormClearances) {
    // Shell 1000 x 600 x 500, t = 12.7; box donor 700 x 400, z 60 to 300, moved 5 to port.
    const PlateSet shell = boxShell(1000, 600, 500, 12.7);
    const auto donor = fitSolid("donor/base", makeBoxSolid({-350, -195, 60}, {350, 205, 300}), 200);
    const FitResult fit = liveFit({donor}, shell);
    ASSERT_EQ(fit.pairs.size(), 6U);
    EXPECT_NEAR(pairOf(fit, "donor/base", "hull/front")->clearance, 500 - 12.7 - 350, 1e-9);
    EXPECT_NEAR(pairOf(fit, "donor/base", "hull/port")->clearance, 300 - 12.7 - 205, 1e-9);
    EXPECT_NEAR(pairOf(fit, "donor/base", "hull/starboard")->clearance, 300 - 12.7 - 195, 1e-9);
    EXPECT_NEAR(pairOf(fit, "donor/base", "hull/top")->clearance, 500 - 12.7 - 300, 1e-9);
    EXPECT_NEAR(pairOf(fit, "donor/base", "hull/floor")->clearance, 60 - 12.7, 1e-9);
    EXPECT_NEAR(fit.leastClearance, 47.3, 1e-9);
    EXPECT_NEAR(fit.leastMargin, 47.3 - 200, 1e-9);
    EXPECT_EQ(fit.state, FitState::tight);
    const FitPair& floor = *pairOf(fit, "donor/base", "hull/floor");
    EXPECT_NEAR((floor.onSolid - floor.onPlate).norm(), floor.clearance, 1e-9);
}

TEST(LiveFit, FittingSolidKeepsOnlyItsNearestPlate) {
    const FitResult fit = liveFit({fitSolid("donor/base", makeBoxSolid({-100, -100, 100}, {100, 100, 200}))},
                                  boxShell(1000, 600, 500, 10));
    ASSERT_EQ(fit.pairs.size(), 1U);
    EXPECT_EQ(fit.pairs[0].plate, "hull/floor");
    EXPECT_EQ(fit.pairs[0].state, FitState::fits);
    EXPECT_TRUE(fit.findings.empty());
    EXPECT_NEAR(fit.leastMargin, 90 - 20, 1e-9);
}

TEST(LiveFit, APlateOnTheMiddleLineIsOnNoSide) {
    PlateSet set;
    for (const double y : {0.0, 6.0, 7.0}) { // middle of a bracket 12 thick
        Plate bracket;
        bracket.name = "arm/bracket";
        bracket.stock = "ply";
        bracket.thickness = 12;
        bracket.frame.axes << -1, 0, 0, 0, 0, 1, 0, 1, 0; // w towards port
        bracket.frame.origin = {0, y + 6, 0};
        bracket.solid = makeBox({0, y - 6, 0}, {200, y + 6, 200});
        bracket.cells = {makeBoxSolid({0, y - 6, 0}, {200, y + 6, 200})};
        set.plates = {bracket};
        const FitResult fit =
            liveFit({fitSolid("donor/post", makeBoxSolid({50, -3, 50}, {100, 300, 100}))}, set);
        ASSERT_EQ(fit.findings.size(), 1U);
        EXPECT_EQ(fit.findings[0].message.starts_with("Middle: "), y < 6) << fit.findings[0].message;
        EXPECT_EQ(fit.findings[0].message.starts_with("Port side: "), y >= 6) << fit.findings[0].message;
    }
}

TEST(LiveFit, BoxThroughPlateHasVolumeDepthAndWords) {
    // 30 mm past the inner face of a 12 mm plate: the whole thickness over 200 x 100 is common.
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const FitResult fit =
        liveFit({fitSolid("donor/joystick hand", makeBoxSolid({0, 200, 100}, {200, 318, 200}))}, shell);
    const FitPair* pair = pairOf(fit, "donor/joystick hand", "hull/port");
    ASSERT_NE(pair, nullptr);
    EXPECT_EQ(pair->state, FitState::hits);
    EXPECT_NEAR(pair->volume, 200.0 * 100 * 12, 1e-6);
    EXPECT_NEAR(pair->depth, 30, 1e-9); // back to the inner face; onward through the plate: 100
    EXPECT_EQ(pair->clearance, 0);
    EXPECT_NEAR((pair->onSolid - Vec3(100, 294, 150)).norm(), 0, 1e-9);
    EXPECT_NEAR(fit.leastMargin, -30 - 20, 1e-9);
    ASSERT_EQ(fit.findings.size(), 1U);
    const Finding& f = fit.findings[0];
    EXPECT_EQ(f.code, "fit-hits");
    EXPECT_EQ(f.severity, Severity::stop);
    EXPECT_EQ(f.message, "Port side: hull/port runs into donor/joystick hand, 30.0 mm deep.");
    EXPECT_THAT(f.remedy, HasSubstr("Move the donor to starboard"));
    EXPECT_THAT(f.about, ::testing::ElementsAre("solid:donor/joystick hand", "plate:hull/port"));
}

TEST(LiveFit, TheDeepestHitIsToldFirst) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const FitResult fit = liveFit({fitSolid("donor/shallow", makeBoxSolid({0, 200, 100}, {200, 292, 200})),
                                   fitSolid("donor/deep", makeBoxSolid({0, -350, 100}, {200, -200, 200})),
                                   fitSolid("rider/near", makeBoxSolid({-100, -100, 300}, {476, 276, 476}))},
                                  shell);
    ASSERT_EQ(fit.findings.size(), 3U);
    EXPECT_EQ(fit.findings[0].about.front(), "solid:donor/deep");
    EXPECT_EQ(fit.findings[1].about.front(), "solid:donor/shallow");
    EXPECT_EQ(fit.findings[2].code, "fit-tight");
}

TEST(LiveFit, TightIsOneFindingASolidInTheBuildersUnits) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const UnitStyle mm{Unit::mm, 16, 0, true};
    const FitResult fit =
        liveFit({fitSolid("rider/head", makeBoxSolid({-100, -100, 300}, {476, 276, 476}))}, shell, mm);
    ASSERT_EQ(fit.findings.size(), 1U);
    EXPECT_EQ(fit.findings[0].code, "fit-tight");
    EXPECT_EQ(fit.findings[0].severity, Severity::look);
    EXPECT_EQ(fit.findings[0].message,
              "Front: hull/front, 12 mm to rider/head; wanted 20 mm; 2 more plates near.");
    EXPECT_THAT(fit.findings[0].remedy, HasSubstr("Move the rider back"));
    ASSERT_TRUE(fit.findings[0].at.has_value());
    EXPECT_NEAR((*fit.findings[0].at)[0], 482, 1e-9);
}

// What belongs to a mechanism or a frame has no form with a floor to lower: its remedy names its owner, and
// the way that would do, d + wanted where it meets and wanted - clearance where it does not.
TEST(LiveFit, RemediesForPartsSpeakOfTheirOwner) {
    PlateSet set;
    Plate strip;
    strip.name = "bow belt/strip 1";
    strip.form = "bow belt";
    strip.frame.axes << 1, 0, 0, 0, -1, 0, 0, 0, -1; // looks down
    strip.solid = makeBox({0, 0, 100}, {900, 100, 104});
    strip.cells = {makeBoxSolid({0, 0, 100}, {900, 100, 104})};
    Plate board = strip;
    board.name = "frames/rib a";
    board.form = "frames/rib a";
    board.solid = makeBox({0, 500, 0}, {6, 900, 400});
    board.cells = {makeBoxSolid({0, 500, 0}, {6, 900, 400})};
    set.plates = {strip, board};
    const PartOwners owners{{"bow belt", {"belt", "bow belt", "mechanism:bow belt"}},
                            {"frames/rib a", {"frame", "rib a", "frame:rib a"}}};
    const auto told = [&](const FitSolid& solid, const FitWords& words) {
        const FitResult fit = liveFit({solid}, set, words);
        EXPECT_EQ(fit.findings.size(), 1U);
        return fit.findings.empty() ? Finding{} : fit.findings[0];
    };
    const FitWords words(fitUnits, owners);
    // 11.95 above the strip where 20 are wanted.
    const FitSolid shin = fitSolid("rider/left shin", makeBoxSolid({100, 20, 115.95}, {200, 80, 400}));
    const Finding near = told(shin, words);
    EXPECT_EQ(near.message, "Belt bow belt: bow belt/strip 1, 12.0 mm to rider/left shin; wanted 20.0 mm.");
    EXPECT_EQ(near.remedy,
              "Move belt bow belt at least 8.1 mm away from rider/left shin, make it smaller, or "
              "lower the wanted clearance.");
    EXPECT_EQ(near.about, (std::vector<std::string>{"solid:rider/left shin", "plate:bow belt/strip 1",
                                                    "mechanism:bow belt"}));
    // 5 into a board of 6: the short way out is through its face.
    const Finding hits = told(fitSolid("donor/base", makeBoxSolid({-95, 600, 100}, {5, 700, 200})), words);
    EXPECT_TRUE(hits.message.starts_with("Frame rib a: frames/rib a runs into donor/base, 5.0 mm deep"))
        << hits.message;
    EXPECT_THAT(hits.remedy, HasSubstr("Move frame rib a at least 25.0 mm away from donor/base"));
    EXPECT_EQ(hits.remedy.find("form"), std::string::npos) << hits.remedy;
    // Nobody's part is a plate as ever.
    EXPECT_THAT(told(shin, fitUnits).remedy, HasSubstr("form's floor"));
    auto random = seeded(9);
    for (int i = 0; i < 50; ++i) { // in inches too the way told is enough
        const double gap = uniform(random, 0.01, 19.5);
        UnitStyle inches = fitUnits;
        inches.unit = Unit::in;
        inches.typographic = false;
        const Finding f = told(fitSolid("rider/head", makeBoxSolid({100, 20, 104 + gap}, {200, 80, 400})),
                               FitWords(inches, owners));
        const std::size_t from = f.remedy.find("at least ") + 9, to = f.remedy.find(" away");
        const auto way = parseLength(f.remedy.substr(from, to - from), Unit::in);
        ASSERT_TRUE(way.has_value()) << f.remedy;
        EXPECT_GE(*way, 20 - gap - 1e-6) << f.remedy;
        EXPECT_LT(*way, 20 - gap + 25.4 / 16) << f.remedy;
    }
}

TEST(LiveFit, RemediesForFloorAndRoofCanWork) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const auto remedies = [&](const FitSolid& solid) {
        std::string all;
        for (const Finding& f : liveFit({solid}, shell).findings) all += f.remedy;
        EXPECT_NE(all, "");
        return all;
    };
    // The wheel stands on the ground under the floor: it cannot go up, and no scale clears it.
    const std::string wheel =
        remedies(fitSolid("donor/wheel", makeBoxSolid({-50, -50, -150}, {50, 50, 100})));
    EXPECT_EQ(wheel.find("Move the donor"), std::string::npos) << wheel;
    EXPECT_EQ(wheel.find("raise the scale"), std::string::npos) << wheel;
    EXPECT_THAT(wheel, HasSubstr("Cut an opening in hull/floor"));
    EXPECT_THAT(wheel, HasSubstr("ground clearance"));
    const std::string head = remedies(fitSolid("rider/head", makeBoxSolid({-50, -50, 300}, {50, 50, 495})));
    EXPECT_THAT(head, HasSubstr("Raise the form's top"));
}

TEST(LiveFit, TouchingIsTightAndNoHit) {
    const FitResult fit = liveFit({fitSolid("donor/base", makeBoxSolid({-100, -100, 12}, {100, 100, 200}))},
                                  boxShell(1000, 600, 500, 12));
    ASSERT_FALSE(fit.pairs.empty());
    EXPECT_EQ(fit.pairs[0].state, FitState::tight);
    EXPECT_EQ(fit.pairs[0].clearance, 0);
}

TEST(LiveFit, WheelAndCapsuleAgainstFlatPlate) {
    const PlateSet shell = boxShell(1000, 600, 500, 12);
    const auto wheel = fitSolid("donor/wheel", makeCylinder({0, 200, 250}, {0, 270, 250}, 170), 30);
    const auto arm = fitSolid("rider/arm", makeCapsule({0, 0, 300}, {300, 0, 400}, 50), 500);
    const FitResult fit = liveFit({wheel, arm}, shell);
    EXPECT_NEAR(pairOf(fit, "donor/wheel", "hull/port")->clearance, 288 - 270, 1e-7);
    EXPECT_NEAR(pairOf(fit, "rider/arm", "hull/top")->clearance, 488 - 450, 1e-9);
    EXPECT_NEAR(pairOf(fit, "rider/arm", "hull/front")->clearance, 488 - 350, 1e-9);
}

TEST(LiveFit, PlateInPiecesSumsItsCommonVolume) {
    PlateSet shell = boxShell(1000, 600, 500, 12);
    Plate& top = shell.plates.own(4);
    top.cells = {makeBoxSolid({-500, -300, 488}, {0, 300, 500}),
                 makeBoxSolid({0, -300, 488}, {500, 300, 500})};
    const FitResult fit =
        liveFit({fitSolid("rider/head", makeBoxSolid({-50, -40, 400}, {70, 40, 600}))}, shell);
    EXPECT_NEAR(pairOf(fit, "rider/head", "hull/top")->volume, 120.0 * 80 * 12, 1e-6);
}

TEST(LiveFit, NothingToCompareIsFit) {
    EXPECT_TRUE(liveFit({}, boxShell(1000, 600, 500, 12)).pairs.empty());
    const FitResult bare = liveFit({fitSolid("donor/base", makeBoxSolid({0, 0, 0}, {1, 1, 1}))}, {});
    EXPECT_TRUE(bare.pairs.empty());
    EXPECT_EQ(bare.state, FitState::fits);
    EXPECT_EQ(probeOf(bare).margin, 1e9);
}

TEST(LiveFit, AgreesWithEveryPieceComparedToEverySolid) {
    auto random = seeded(7);
    const int rounds = 60 / slowdown;
    for (int round = 0; round < rounds; ++round) {
        PlateSet set;
        for (int i = 0; i < 25; ++i) {
            const Vec3 at(uniform(random, -900, 900), uniform(random, -500, 500), uniform(random, 0, 900));
            const Vec3 half(uniform(random, 3, 250), uniform(random, 3, 150), uniform(random, 3, 200));
            set.plates.push_back(boxPlate("p/" + std::to_string(i), at - half, at + half, Vec3::UnitX()));
        }
        const Vec3 c(uniform(random, -900, 900), uniform(random, -500, 500), uniform(random, 0, 900));
        const FitSolid solid =
            fitSolid("donor/arm", makeCapsule(c, c + Vec3(150, uniform(random, 0, 90), 40), 35),
                     uniform(random, 1, 120));
        const FitResult fit = liveFit({solid}, set);
        double least = 1e300;
        std::size_t near = 0;
        for (const Plate& p : set.plates) {
            const Nearest n = nearest(solid.shape, p.cells[0]);
            least = std::min(least, n.distance);
            const FitPair* pair = pairOf(fit, solid.name, p.name);
            if (n.distance < solid.clearance) {
                ++near;
                ASSERT_NE(pair, nullptr) << "round " << round;
            }
            if (pair) {
                EXPECT_EQ(pair->clearance, n.distance);
            }
        }
        EXPECT_EQ(fit.leastClearance, least) << "round " << round;
        EXPECT_EQ(fit.pairs.size(), std::max<std::size_t>(near, 1)) << "round " << round;
    }
}

} // namespace
} // namespace slab
