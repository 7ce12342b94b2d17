// Sight past plates, exits, gaps and air: against closed forms and published sizes.
#include "core/base/paths.h"
#include "core/document/file.h"
#include "core/trial/path_out.h"
#include "tests/evaluate/samples.h"
#include "tests/trial/rig.h"
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab::trial {

using test::Rig;

namespace {

Rig seated(double eye) {
    Rig rig;
    Person who;
    who.name = "rider";
    who.eye = Vec3(0, 0, eye);
    who.seat = Vec3(-200, 0, 450);
    who.sittingHeight = 918;
    rig.donor.people.push_back(who);
    return rig;
}

/// A crate of 2 m with a grown-up in it, as a document; its front is pierced.
Project crate(const std::string& v, const std::string& width, const std::string& height,
              const char* purpose = "sight_slit", const char* plate = "crate/front") {
    nlohmann::json d = nlohmann::json::parse(R"({"slabside": 1, "title": "crate", "units": "mm", "scale": "1",
      "forms": [{"name": "crate", "kind": "taper", "base": [{"name": "starboard", "x": "-1 m", "y": "-1 m"},
        {"name": "front", "x": "1 m", "y": "-1 m"}, {"name": "port", "x": "1 m", "y": "1 m"},
        {"name": "back", "x": "-1 m", "y": "1 m"}],
        "top": [{"x": "-1 m", "y": "-1 m"}, {"x": "1 m", "y": "-1 m"}, {"x": "1 m", "y": "1 m"},
                {"x": "-1 m", "y": "1 m"}], "base_z": "0.2 m", "top_z": "2.2 m"}],
      "materials": {"default": "ply"}, "joints": {"default": "cover", "order": ["crate/top", "crate/base"]},
      "donor": {"kind": "none"}, "rider": {"table": "adult", "sex": "male", "percentile": "50"},
      "stock": {"sheets": [{"name": "ply", "kind": "plywood", "size": ["3 m", "3 m"], "thickness": "12 mm",
        "measured": true, "price": "30", "density": "600"}]}})");
    d["openings"] = {{{"name", "slit"},
                      {"shape", "rectangle"},
                      {"plate", plate},
                      {"u", "0"},
                      {"v", v},
                      {"width", width},
                      {"height", height},
                      {"purpose", purpose}}};
    d["ride"] = {{"sees", "3 m"}};
    return *readProject(d.dump());
}

} // namespace

TEST(TrialView,
     GroundOverAWall) { // x He / (He − Hh): eye 1.20 m, edge 0.70 m high 0.90 m ahead → 2.16 m (§12)
    Rig rig = seated(1200);
    rig.box("donor/wall", Vec3(899, -5000, 0), Vec3(900, 5000, 700));
    rig.ride.speed = 1800;
    const auto views = viewsOf(rig.stuff());
    ASSERT_EQ(views.size(), 1U);
    EXPECT_NEAR(views[0].ahead.distance, 2160, 0.1);
    EXPECT_NEAR(views[0].beyondNose, 1260, 0.1);
    EXPECT_NEAR(views[0].stops, 3420, 1e-6); // 1.8 m/s, 1 s, 1 m/s²
    EXPECT_NEAR(views[0].wanted, 3420, 1e-6);
    std::vector<Finding> told;
    tellViews(rig.stuff(), views, told);
    EXPECT_TRUE(told.empty());
    rig.ride.sees = 1200;
    tellViews(rig.stuff(), viewsOf(rig.stuff()), told);
    ASSERT_EQ(told.size(), 1U);
    EXPECT_EQ(told[0].code, "sight-ground");
}

TEST(TrialView, BlindGroundOfAWallAllRound) {
    // Four walls 0.9 m off, 0.7 m high: ground is hidden within 2.16 m across each side, a square of 4.32 m,
    // of which the map reaches 5 m.
    Rig rig = seated(1200);
    for (const double s : {1.0, -1.0}) {
        rig.box("donor/x", Vec3(std::min(s * 899, s * 900), -900, 0),
                Vec3(std::max(s * 899, s * 900), 900, 700));
        rig.box("donor/y", Vec3(-900, std::min(s * 899, s * 900), 0),
                Vec3(900, std::max(s * 899, s * 900), 700));
    }
    const auto views = viewsOf(rig.stuff());
    ASSERT_EQ(views.size(), 1U);
    // All ground is hidden but what lies within the walls and can be looked down on: a square of 1.798 m.
    EXPECT_NEAR(views[0].map.blindArea / 1e6, 4.32 * 4.32 - 1.798 * 1.798, 0.02);
}

TEST(TrialView, BothEyesSeePastAThinPost) {
    Rig rig = seated(1200);
    rig.box("donor/post", Vec3(700, -25, 0), Vec3(750, 25, 2000)); // narrower than the eyes are apart
    EXPECT_NEAR(viewsOf(rig.stuff())[0].field.total, 2 * std::numbers::pi, 1e-9);
    Rig wide = seated(1200);
    wide.box("donor/post", Vec3(700, -60, 0), Vec3(750, 60, 2000));
    EXPECT_LT(viewsOf(wide.stuff())[0].field.total, 2 * std::numbers::pi - 0.05);
}

TEST(TrialView, TellsHowFarASlitIsOff) {
    // The eye of a middle-sized man 804 mm above a seat of 450 mm (ANSUR II); the crate's middle is at 1200
    // mm.
    const double eye = 450 + 804;
    const auto viewOf = [&](const Project& p) {
        const auto e = slab::test::evaluated(p, Effort::verdict);
        EXPECT_EQ(e.trial->views.size(), 1U);
        return e.trial->views.front();
    };
    const auto low = viewOf(crate("-300 mm", "800 mm", "200 mm"));
    EXPECT_NEAR(low.eye.z(), eye, 1e-9);
    EXPECT_EQ(low.field.port, 0);
    ASSERT_EQ(low.openings.size(), 1U);
    EXPECT_NEAR(low.openings[0].raise, eye - 1000 + 1, 1e-6); // its upper edge lies at 1000 mm
    const auto high = viewOf(crate("500 mm", "800 mm", "200 mm"));
    EXPECT_NEAR(high.openings[0].raise, eye - 1600 - 1, 1e-6);
    const auto level = viewOf(crate("50 mm", "800 mm", "200 mm")); // from 1150 to 1350 mm
    EXPECT_EQ(level.openings[0].raise, 0);
    EXPECT_GT(level.field.port, 0.3);
    EXPECT_NEAR(level.openings[0].field, level.field.total, 1e-9) << "all that is seen is seen through it";
    // Ground 3 m before the front, 1 m before x = 0: the line to it crosses the outside face where
    const double ahead = 1000 - low.eye.x();
    const double crossing = eye * (1 - ahead / (ahead + 3000));
    EXPECT_NEAR(level.openings[0].lower, 1150 - crossing, 1e-6);
    // Opened that far down, with room for the plate's thickness, the ground is seen from there on.
    const double deeper = level.openings[0].lower + 20;
    const auto mended = viewOf(
        crate(std::to_string(50 - deeper / 2) + " mm", "800 mm", std::to_string(200 + deeper) + " mm"));
    EXPECT_EQ(mended.openings[0].lower, 0);
    EXPECT_LT(mended.beyondNose, 3000);
    EXPECT_GT(level.beyondNose, 3000);
}

TEST(TrialView, AHandHoleAheadIsNoSlit) {
    const auto e = slab::test::evaluated(crate("-300 mm", "150 mm", "150 mm", "hand_hole"), Effort::verdict);
    ASSERT_EQ(e.trial->views.front().openings.size(), 1U);
    EXPECT_FALSE(e.trial->views.front().openings[0].ahead);
    const auto told = std::find_if(e.findings.begin(), e.findings.end(),
                                   [](const Finding& f) { return f.code == "sight-ahead"; });
    ASSERT_NE(told, e.findings.end());
    EXPECT_NE(told->remedy.find("Cut a sight slit"), std::string::npos) << told->remedy;
}

TEST(TrialLeaving, ClearSizeOfRectanglesAndCircles) {
    const auto wayOf = [&](const Project& p) {
        const auto e = slab::test::evaluated(p);
        EXPECT_EQ(e.trial->waysOut.size(), 1U);
        return e.trial->waysOut.empty() ? WayOut{} : e.trial->waysOut.front();
    };
    const WayOut box = wayOf(crate("0", "640 mm", "700 mm", "exit", "crate/back"));
    EXPECT_NEAR(box.width, 640, 1e-6);
    EXPECT_NEAR(box.height, 700, 1e-6);
    // Shoulders 509 and hips 378 of a middle-sized man (ANSUR II), 50 mm a side; 24 in high (IRC R310).
    EXPECT_NEAR(box.wantedWidth, 609, 1e-9);
    EXPECT_NEAR(box.wantedHeight, 609.6, 1e-9);
    EXPECT_EQ(box.outcome, Outcome::passes);
    const WayOut narrow = wayOf(crate("0", "600 mm", "700 mm", "exit", "crate/back"));
    EXPECT_EQ(narrow.outcome, Outcome::fails);
    EXPECT_NEAR(narrow.height, 700, 1e-6) << "its height is not what is too small";
    Project large = crate("0", "640 mm", "700 mm", "exit", "crate/back");
    large.rider.percentile = "95"; // 567 + 100: the check value of reference values §12
    EXPECT_NEAR(wayOf(large).wantedWidth, 667, 1e-9);
    Project round = crate("0", "", "", "exit", "crate/back");
    round.openings[0].shape = OpeningShape::circle;
    round.openings[0].diameter = "700 mm";
    // A person's outline has its corners cut to half: 0.5 w wide at 0.25 h; the circle holds √(r² − (h/4)²)
    // · 2.
    const WayOut port = wayOf(round);
    EXPECT_LE(std::hypot(port.width / 2, port.height / 4), 350 + 1e-3);
    EXPECT_GE(port.width, 609);
    // Wide enough for the 95th percentile, and widened until only the wanted height is left.
    round.rider.percentile = "95";
    for (int diameter = 740; diameter <= 1200; diameter += 20) {
        round.openings[0].diameter = printExact(diameter, Unit::mm);
        const WayOut way = wayOf(round);
        EXPECT_EQ(way.outcome, Outcome::passes) << diameter << ": " << way.height - way.wantedHeight;
    }
}

// 24 in both ways, in a side that slants: for whoever is broader than that it is still 24 in high, wherever
// rounding falls.
TEST(TrialLeaving, TheHeightOfAHoleThatIsTooNarrowIsItsOwn) {
    Project boat = *loadProject(sampleFolder() / "harbour-fire-boat.slabside.json");
    boat.rider.sex = "male";
    boat.rider.percentile = "99";
    for (int i = 0; i <= 10; ++i) {
        boat.scale = printExact(0.4 + 0.0025 * i, Unit::none);
        const auto e = slab::test::evaluated(boat);
        const auto way = std::find_if(e.trial->waysOut.begin(), e.trial->waysOut.end(),
                                      [](const WayOut& w) { return w.opening == "exit"; });
        ASSERT_NE(way, e.trial->waysOut.end());
        EXPECT_EQ(way->outcome, Outcome::fails);
        EXPECT_NEAR(way->width, 609.6, 1e-6) << boat.scale;
        EXPECT_NEAR(way->height, 609.6, 1e-6) << boat.scale;
    }
}

TEST(TrialLeaving, GoesRoundABendWhereSomethingStandsInTheWay) {
    Rig rig;
    Plate back;
    back.name = "back";
    back.frame.axes.col(0) = -Vec3::UnitY();
    back.frame.axes.col(1) = Vec3::UnitZ();
    back.frame.axes.col(2) = -Vec3::UnitX();
    back.frame.origin = Vec3(-900, 0, 0);
    rig.plates.plates.push_back(back);
    PlateOpening opening;
    opening.flat.name = "exit";
    opening.flat.at = Vec2(0, 900);
    rig.openings.push_back(opening);
    const Vec3 seat(0, 0, 450);
    const auto way = [&](Depth depth) {
        Stuff stuff = rig.stuff();
        stuff.depth = depth;
        return pathOut(stuff, seat, opening);
    };
    const auto free = way(Depth::full);
    ASSERT_EQ(free.points.size(), 2U);
    EXPECT_NEAR((free.points.back() - Vec3(-900, 0, 900)).norm(), 0, 1e-9);
    // A seat's back to 900 mm: over it, with half a body's breadth to spare.
    rig.box("donor/seat back", Vec3(-300, -300, 300), Vec3(-250, 300, 900));
    const auto over = way(Depth::full);
    ASSERT_EQ(over.points.size(), 3U);
    EXPECT_TRUE(over.inTheWay.empty());
    for (int i = 0; i < 2; ++i)
        for (int k = 0; k <= 100; ++k) {
            const Vec3 at =
                over.points[static_cast<std::size_t>(i)] +
                k / 100.0 *
                    (over.points[static_cast<std::size_t>(i + 1)] - over.points[static_cast<std::size_t>(i)]);
            const Vec3 near(std::clamp(at.x(), -300.0, -250.0), std::clamp(at.y(), -300.0, 300.0),
                            std::clamp(at.z(), 300.0, 900.0));
            EXPECT_GE((at - near).norm(), 150 - 1e-6);
        }
    EXPECT_EQ(way(Depth::live).inTheWay, std::vector<std::string>{"donor/seat back"}); // straight only
    // A wall that nothing goes round.
    rig.box("donor/wall", Vec3(-500, -3000, 0), Vec3(-450, 3000, 3000));
    const auto shut = way(Depth::full);
    EXPECT_TRUE(shut.points.empty());
    EXPECT_EQ(shut.inTheWay, (std::vector<std::string>{"donor/seat back", "donor/wall"}));
}

TEST(TrialLeaving, CatchesBearThreeTimesTheLid) {
    Project p = crate("0", "640 mm", "700 mm", "exit", "crate/back");
    p.openings.front().lid = true;
    const auto e = slab::test::evaluated(p);
    ASSERT_EQ(e.trial->waysOut.size(), 1U);
    const WayOut& w = e.trial->waysOut.front();
    ASSERT_GT(w.lidMass, 0.1);
    EXPECT_NEAR(w.catches, 3 * w.lidMass * 9.80665, 1e-9); // ISO 80000-3
    EXPECT_EQ(w.frees, w.catches <= 22.2);                 // 5 lbf, ADA 2010 404.2.9
}

TEST(TrialLeaving, ARoundExitIsAsWideAsAdvised) {
    Project p = crate("0", "300 mm", "300 mm", "exit", "crate/back");
    p.openings.front().shape = OpeningShape::circle;
    p.openings.front().diameter = "600 mm";
    const auto e = slab::test::evaluated(p);
    ASSERT_EQ(e.trial->waysOut.size(), 1U);
    const WayOut& small = e.trial->waysOut.front();
    EXPECT_EQ(small.outcome, Outcome::fails);
    ASSERT_GT(small.wantedAcross, 600);
    const auto across = [&](double diameter) {
        p.openings.front().diameter = std::to_string(diameter) + " mm";
        return slab::test::evaluated(p).trial->waysOut.front();
    };
    EXPECT_NE(across(std::ceil(small.wantedAcross)).outcome, Outcome::fails);
    EXPECT_EQ(across(small.wantedAcross - 1).outcome, Outcome::fails);
    // The corners cut off a rectangle w × h touch the circle at (w/2, h/4) or (w/4, h/2).
    const double w = small.wantedWidth, h = small.wantedHeight;
    EXPECT_NEAR(small.wantedAcross, 2 * std::max(std::hypot(w / 2, h / 4), std::hypot(w / 4, h / 2)), 1);
}

TEST(TrialLeaving, GapsAndAir) {
    const auto trialOf = [](const Project& p) { return *slab::test::evaluated(p).trial; };
    // Fingers: over 5 and under 12 mm (CEN/TR 13387:2004); heads: over 3.5 and under 9 in (CPSC).
    EXPECT_EQ(trialOf(crate("0", "300 mm", "8 mm")).gaps.size(), 1U);
    EXPECT_TRUE(trialOf(crate("0", "300 mm", "30 mm")).gaps.empty());
    EXPECT_EQ(trialOf(crate("0", "300 mm", "150 mm")).gaps.size(), 1U);
    EXPECT_TRUE(trialOf(crate("0", "300 mm", "240 mm")).gaps.empty());
    const Air air = trialOf(crate("300 mm", "300 mm", "240 mm")).air;
    EXPECT_NEAR(air.high, 72000, 1e-6);
    EXPECT_EQ(air.low, 0);
}

TEST(TrialLoad, ACrateIsABoxLessItsInside) {
    Project p = crate("0", "640 mm", "700 mm");
    p.openings.clear();
    p.ride.adhesive = "0";
    p.rider.table = "none";
    p.donor.kind = "powered_chair";
    const auto e = slab::test::evaluated(p, Effort::verdict);
    ASSERT_TRUE(e.trial->balance);
    const auto& parts = e.trial->balance->load.parts;
    const auto shell =
        std::find_if(parts.begin(), parts.end(), [](const LoadPart& l) { return l.name == "shell"; });
    ASSERT_NE(shell, parts.end());
    const double a = 2, b = 2 - 0.024; // m
    EXPECT_NEAR(shell->mass, 600 * (a * a * a - b * b * b), 1e-9);
    EXPECT_NEAR((shell->centre - Vec3(0, 0, 1200)).norm(), 0, 1e-9);
    // Hollow cube about its middle: ρ (a⁵ − b⁵) / 6.
    const auto& all = e.trial->balance->load.empty;
    const ride::MassProperties donor = *ride::pointMass(e.donor->chassis.mass, e.donor->chassis.centre);
    const double hollow = 600 * (std::pow(a, 5) - std::pow(b, 5)) / 6 * 1e6; // kg mm²
    const double apart = shell->mass * (shell->centre - all.centre).squaredNorm();
    const Vec3 d = donor.centre - all.centre, s = shell->centre - all.centre;
    EXPECT_NEAR(all.inertia(1, 1),
                hollow + apart - shell->mass * s.y() * s.y() + donor.mass * (d.x() * d.x() + d.z() * d.z()),
                1);
}

} // namespace slab::trial
