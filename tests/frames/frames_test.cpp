// Frames: their section by closed forms, their room by OpenCASCADE.
#include "core/frames/section.h"
#include "tests/frames/crate.h"
#include "tests/frames/frustum.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

// A box of 1000 x 600 x 500 with plates of 10: inside 580 x 480.
TEST(Frames, bulkheadOfABoxHasTheInsideArea) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = platesOf(body, thick);
    FrameChoice c = across("mid", 400);
    c.gap = 3;
    const FrameSet frames = makeFrames({c}, body.skin, set.plates, {});
    ASSERT_EQ(frames.parts.size(), 1U) << report(frames.findings);
    EXPECT_NEAR(frames.frames[0].section, (580 - 6) * (480 - 6), 0.1);
    EXPECT_NEAR(frames.parts[0].volume, (580.0 - 6) * (480 - 6) * thick, 2);
    EXPECT_EQ(frames.parts[0].name, "frames/mid");
    // The board stands about its station.
    const Box3 box = bounds(frames.parts[0].solid);
    EXPECT_NEAR(box.min.x(), 395, 1e-9);
    EXPECT_NEAR(box.max.x(), 405, 1e-9);
}

// Frustum of reference-values 7.4: base 600, top 400, height 400 over a square; a level section at z has the
// side 600 - z / 2. Level board between z1 and z2: the smaller section counts, less the plates' thickness
// measured level, t / sin p with the sides' pitch p, tan p = 4 (slant 412.311 over 400).
TEST(Frames, shelfInAFrustumIsItsUpperSection) {
    const Body body = frustumBody();
    const PlateSet set = platesOf(body, thick);
    FrameChoice c;
    c.name = "shelf";
    c.place.origin = {0, 0, 200};
    c.stock = "ply";
    c.thickness = thick;
    const FrameSet frames = makeFrames({c}, body.skin, set.plates, {});
    ASSERT_EQ(frames.parts.size(), 1U) << report(frames.findings);
    const double side = 600 - 205 / 2.0 - 2 * thick / std::sin(std::atan(4.0));
    EXPECT_NEAR(frames.frames[0].section, side * side, 0.1);
}

// A plane tilted by 30° about the cross axis cuts a box of height h in a rectangle of height h / cos 30°.
TEST(Frames, tiltedSectionOfABox) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    Frame tilted;
    tilted.origin = {500, 0, 250};
    const double a = std::numbers::pi / 6;
    tilted.axes << 0, -std::sin(a), std::cos(a), 1, 0, 0, 0, std::cos(a), std::sin(a);
    const auto section = sectionOf(toPolyhedron(body.skin), tilted);
    ASSERT_EQ(section.size(), 1U);
    EXPECT_NEAR(area(section[0]), 600 * 500 / std::cos(a), 1e-3);
}

TEST(Frames, boardsNeverMeetPlatesNorLeaveTheSkin) {
    auto random = seeded();
    int made = 0, met = 0;
    for (int run = 0; run < 24 / slowdown + 2; ++run) {
        ProfileShape hull;
        hull.outline = {sidePoint("keel", 0, 0, uniform(random, 200, 400)),
                        sidePoint("fore", uniform(random, 700, 900), 0, uniform(random, 200, 400)),
                        sidePoint("stem", uniform(random, 950, 1200), uniform(random, 350, 450),
                                  uniform(random, 50, 300)),
                        sidePoint("aft", uniform(random, -150, 100), uniform(random, 350, 500),
                                  uniform(random, 200, 400))};
        const Body body =
            bodyOf(projectOf({named("hull", hull),
                              boxForm("house", {200, -150, 300}, {500, 150, uniform(random, 600, 900)})}));
        if (body.skin.faces.empty()) continue;
        const PlateSet set = platesOf(body, uniform(random, 4, 14));
        FrameChoice c = turned(across("rib", uniform(random, 150, 800)), uniform(random, -0.6, 0.6));
        c.thickness = uniform(random, 3, 20);
        const FrameSet frames = makeFrames({c}, body.skin, set.plates, {});
        const Polyhedron skin = toPolyhedron(body.skin);
        for (const Plate& part : frames.parts) {
            ++made;
            EXPECT_TRUE(checkClosed(part.solid));
            for (const Plate& plate : set.plates)
                if (boxesMeet(part.solid, plate.solid)) {
                    ++met;
                    EXPECT_LT(common(part.solid, plate.solid), 1e-3) << run << " " << plate.name;
                }
            EXPECT_NEAR(common(part.solid, skin), part.volume, 1e-6 * part.volume + 1e-2) << run;
        }
    }
    std::printf("%d boards, %d pairs with a plate\n", made, met);
    EXPECT_GT(made, 10 / slowdown);
}

TEST(Frames, endBelowAnOpeningAsBelowItsPlate) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    PlateRules rules;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i) rules.faces.push_back({"ply", thick, 0});
    ResolvedOpening hatch;
    hatch.name = "hatch";
    hatch.plate = "box/top";
    hatch.outline = {{-150, -150}, {150, -150}, {150, 150}, {-150, 150}};
    rules.openings = {hatch};
    const PlateSet open = buildPlates(body, rules);
    const auto top = std::find_if(open.plates.begin(), open.plates.end(),
                                  [](const Plate& p) { return p.name == "box/top"; });
    ASSERT_NE(top, open.plates.end());
    ASSERT_EQ(top->holes.size(), 1U);
    const FrameSet frames = makeFrames({across("mid", 500)}, body.skin, open.plates, {});
    ASSERT_EQ(frames.parts.size(), 1U) << report(frames.findings);
    EXPECT_NEAR(frames.frames[0].section, 580 * 480, 0.1);
    EXPECT_LE(bounds(frames.parts[0].solid).max.z(), 490);
}

TEST(Frames, keepClearOfDonorAndRider) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = platesOf(body, thick);
    const std::vector<FitSolid> solids{
        {"donor/seat", "donor", makeBoxSolid({300, -100, 10}, {600, 100, 250}), 20, false, {}},
        {"rider/head", "rider", makeCapsule({450, 150, 300}, {450, 200, 400}, 60), 30, false, {}},
        {"donor/wheel", "donor", makeCylinder({480, -250, 100}, {480, -200, 100}, 90), 15, false, {}}};
    const FrameSet frames = makeFrames({across("mid", 440)}, body.skin, set.plates, solids);
    ASSERT_FALSE(frames.parts.empty()) << report(frames.findings);
    for (const FitSolid& s : solids) {
        double least = 1e9;
        for (const Plate& part : frames.parts)
            for (const ConvexSolid& cell : part.cells) {
                const Nearest n = nearest(cell, s.shape);
                EXPECT_FALSE(n.meets) << s.name;
                least = std::min(least, n.distance);
            }
        EXPECT_GE(least, s.clearance - 1e-9) << s.name;
        EXPECT_LT(least, s.clearance + 10) << s.name << ": more is given away than needed";
    }
    // One clearance for this frame alone.
    FrameChoice own = across("mid", 440);
    own.clearance = 60;
    const FrameSet wide = makeFrames({own}, body.skin, set.plates, {solids[0]});
    for (const Plate& part : wide.parts)
        for (const ConvexSolid& cell : part.cells)
            EXPECT_GE(nearest(cell, solids[0].shape).distance, 60 - 1e-9);
}

TEST(Frames, lathsBesideTheDonorAreNoBoardsOfTheirOwn) {
    const Crate crate;
    for (const double left : {3.2, 9.0, 14.0}) { // of the rib between its end at -290 and what is kept clear
        const FrameSet set =
            crate.make({across("rib", 500)}, {block({480, -290 + left + 20, -100}, {520, 100, 600})});
        const bool lath = left < thick;
        EXPECT_EQ(boardsOf(set, "rib").size(), lath ? 1U : 2U) << left << report(set.findings);
        EXPECT_EQ(find(set.findings, "frame-scrap") != nullptr, lath) << left;
    }
    // A rib that is nothing but laths is the builder's own.
    const FrameSet thin =
        crate.make({across("rib", 500)}, {block({480, -290 + 8 + 20, -100}, {520, 290 - 8 - 20, 600})});
    EXPECT_EQ(boardsOf(thin, "rib").size(), 2U);
}

TEST(Frames, webIsLeftAllRoundTheLightening) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = platesOf(body, thick);
    FrameChoice c = across("mid", 440);
    c.web = 60;
    const FrameSet frames = makeFrames({c}, body.skin, set.plates, {});
    ASSERT_EQ(frames.parts.size(), 1U);
    ASSERT_EQ(frames.parts[0].holes.size(), 1U);
    // Hole (580 - 120) x (480 - 120) with corners of radius 15: less (4 - π) 15².
    const double hole = 460 * 360 - (4 - std::numbers::pi) * 225;
    EXPECT_NEAR(frames.frames[0].section - frames.frames[0].area, hole, 25);
}

TEST(Frames, crossingBoardsSlideTogether) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = platesOf(body, thick);
    for (const double angle : {std::numbers::pi / 2, 1.1}) {
        FrameChoice a = across("cross", 440), b = turned(across("along", 500), angle);
        a.thickness = 12.3;
        b.thickness = 8.7;
        a.fit = b.fit = 0.4;
        a.gap = b.gap = 1;
        const FrameSet frames = makeFrames({a, b}, body.skin, set.plates, {});
        ASSERT_EQ(frames.parts.size(), 2U) << report(frames.findings);
        ASSERT_EQ(frames.crossings.size(), 1U);
        const FrameCrossing& c = frames.crossings[0];
        EXPECT_NEAR(c.height, 478, 1e-3);
        if (angle == std::numbers::pi / 2) {
            EXPECT_NEAR(c.slotA, 8.7 + 0.4, 1e-9); // measured thickness of the other, and the play
            EXPECT_NEAR(c.slotB, 12.3 + 0.4, 1e-9);
        }
        EXPECT_NEAR(c.depthA + c.depthB, c.height, 1e-9);
        EXPECT_LT(common(frames.parts[0].solid, frames.parts[1].solid), 1e-3);
        // Pulled apart along the slots they never touch: half way up, and clear of each other.
        for (const double lift : {30.0, 120.0, 238.0, 400.0})
            EXPECT_LT(
                common(moved(frames.parts[1].solid, Mat3::Identity(), lift * c.along), frames.parts[0].solid),
                1e-3)
                << lift;
        // Pushed the other way they meet at once: the slots end in the middle.
        EXPECT_GT(common(moved(frames.parts[1].solid, Mat3::Identity(), -5 * c.along), frames.parts[0].solid),
                  100);
    }
}

TEST(Frames, refusals) {
    const Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    const PlateSet set = platesOf(body, thick);
    const FrameSet missed = makeFrames({across("far", 3000)}, body.skin, set.plates, {});
    EXPECT_TRUE(missed.parts.empty());
    EXPECT_NE(find(missed.findings, "frame-misses"), nullptr);
    const FrameSet filled =
        makeFrames({across("mid", 500)}, body.skin, set.plates,
                   {{"donor/block", "donor", makeBoxSolid({0, -300, 0}, {1000, 300, 500}), 20, false, {}}});
    EXPECT_TRUE(filled.parts.empty());
    EXPECT_NE(find(filled.findings, "frame-empty"), nullptr);

    Project p;
    p.frames.push_back({});
    p.frames[0].name = "rib";
    p.frames[0].stock = "ply";
    p.frames[0].gap = "-1 mm";
    std::vector<Finding> findings;
    StockSet stock;
    EXPECT_TRUE(resolveFrames(p, Scope{}, stock, findings).empty());
    EXPECT_NE(find(findings, "frame-size"), nullptr);
    EXPECT_NE(find(findings, "frame-stock"), nullptr);
}

} // namespace
} // namespace slab
