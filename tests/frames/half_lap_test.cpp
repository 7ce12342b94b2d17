// Half laps: slots by closed forms, and boards that really slide together, by OpenCASCADE.
#include "core/frames/half_lap.h"
#include "tests/frames/crate.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {
namespace {

using std::numbers::pi;

/// How deep moved boards stand in those that stand, by their convex cells; 0 for what is apart, mm.
double depthOf(const FrameSet& set, const std::string& moves, const std::string& stands, const Vec3& by) {
    double most = 0;
    for (const Plate* p : boardsOf(set, moves))
        for (const ConvexSolid& cell : p->cells) {
            const ConvexSolid moved = translated(cell, by);
            const Box3 box = bounds(moved);
            for (const Plate* q : boardsOf(set, stands))
                for (const ConvexSolid& other : q->cells) {
                    const Box3 there = bounds(other);
                    if ((box.min.array() < there.max.array()).all() &&
                        (there.min.array() < box.max.array()).all())
                        most = std::max(most, nearest(moved, other).depth);
                }
        }
    return most;
}
/// Common volume of moved boards with those that stand, by OpenCASCADE.
double meeting(const FrameSet& set, const std::string& moves, const std::string& stands, const Vec3& by) {
    double sum = 0;
    for (const Plate* p : boardsOf(set, moves))
        for (const Plate* q : boardsOf(set, stands)) {
            const Polyhedron solid = moved(p->solid, Mat3::Identity(), by);
            if (boxesMeet(solid, q->solid)) sum += common(solid, q->solid);
        }
    return sum;
}

TEST(HalfLap, SlotWidthsAgainstTheCrossSection) {
    // Square: the other board and the play. At 30°: what a board of 12 and play 1 takes of a plane, 13 / sin
    // 30° = 26, and 10 / tan 30° more through a board of 10.
    EXPECT_NEAR(slotWidth(12, 10, pi / 2, 0.5), 12.5, 1e-12);
    EXPECT_NEAR(slotWidth(12, 10, pi / 6, 1), 26 + 10 * std::sqrt(3.0), 1e-12);
    // A straight-walled slot holds the parallelogram in which two slabs meet, and no narrower one does:
    // corners of |x sin + y cos| <= other / 2 within |y| <= own / 2.
    auto random = seeded(11);
    for (int i = 0; i < 500; ++i) {
        const double other = uniform(random, 2, 30), own = uniform(random, 2, 30),
                     angle = uniform(random, 0.18, pi / 2);
        double most = 0;
        for (const double y : {-own / 2, own / 2})
            for (const double s : {-other / 2, other / 2})
                most = std::max(most, (s - y * std::cos(angle)) / std::sin(angle));
        EXPECT_NEAR(slotWidth(other, own, angle, 0), 2 * most, 1e-9);
    }
}

TEST(HalfLap, LightenedBoardsCrossOnceAndSlideTogether) {
    const Crate crate;
    const FrameSet set =
        crate.make({webbed(across("rib", 440), 60, 12), webbed(lengthwise("keelson", 40), 50)});
    ASSERT_EQ(set.parts.size(), 2U) << report(set.findings);
    ASSERT_EQ(set.crossings.size(), 1U) << "one lap for the full height, not one for each web";
    const FrameCrossing& c = set.crossings[0];
    EXPECT_TRUE(c.through.empty());
    EXPECT_NEAR(c.height, 478, 1e-3); // 480 inside, a gap of 1 all round
    EXPECT_NEAR(c.depthA, 239, 1e-3);
    EXPECT_NEAR(c.depthA + c.depthB, c.height, 1e-9);
    EXPECT_NEAR(c.slotA, 10.3, 1e-9);
    EXPECT_NEAR(c.slotB, 12.3, 1e-9);
    expectGoesTogether(set, "two");
    for (const double lift : {0.0, 3.0, 120.0, 240.0, 470.0})
        EXPECT_LT(meeting(set, "keelson", "rib", lift * c.along), 1e-3) << lift;
    EXPECT_GT(meeting(set, "keelson", "rib", -5 * c.along), 100) << "the slots end in the middle";
    // The slots' ends name each other and carry one mark.
    const auto end = [&](const std::string& name, double width) {
        const PanelEdge* found = nullptr;
        for (const PanelEdge& e : boardsOf(set, name).front()->boundary.edges)
            if (e.mark == 1) {
                EXPECT_EQ(found, nullptr);
                EXPECT_NEAR(e.length, width, 1e-5);
                found = &e;
            }
        return found;
    };
    const PanelEdge *inRib = end("rib", c.slotA), *inKeelson = end("keelson", c.slotB);
    ASSERT_TRUE(inRib && inKeelson);
    EXPECT_EQ(inRib->neighbour, "frames/keelson");
    EXPECT_EQ(inKeelson->neighbour, "frames/rib");
    // Each is still lightened, by two holes, and whole over its full height for slot + 2 webs.
    for (const auto& [name, web, slot] : {std::tuple{"rib", 60.0, c.slotA}, {"keelson", 50.0, c.slotB}}) {
        const auto boards = boardsOf(set, name);
        ASSERT_EQ(boards.size(), 1U);
        ASSERT_EQ(boards[0]->holes.size(), 2U) << name;
        const Vec2 at = boards[0]->frame.toPlane(c.at);
        double nearest = 1e9;
        for (const PanelLoop& hole : boards[0]->holes)
            for (const Vec2& p : hole.outer) nearest = std::min(nearest, std::abs(p.x() - at.x()));
        EXPECT_NEAR(nearest, slot / 2 + web, 0.25) << name;
    }
}

TEST(HalfLap, ObliqueBoardsSlideTogether) {
    const Crate crate;
    for (const double angle : {0.35, 0.8, 1.3}) {
        const FrameSet set = crate.make({webbed(turned(across("rib", 440), pi / 2 - angle), 40, 14),
                                         webbed(lengthwise("keelson", 0), 40)});
        ASSERT_EQ(set.crossings.size(), 1U) << report(set.findings);
        const FrameCrossing& c = set.crossings[0];
        EXPECT_NEAR(c.angle, angle, 1e-9);
        EXPECT_NEAR(c.slotA, slotWidth(10, 14, angle, 0.3), 1e-9);
        expectGoesTogether(set, "oblique " + std::to_string(angle));
        EXPECT_GT(meeting(set, "keelson", "rib", Vec3(0, c.slotA, 0)), 100) << "no wider than it needs to be";
    }
}

TEST(HalfLap, ThreeFramesCrossTwo) {
    const Crate crate;
    const std::vector<FrameChoice> frames{
        webbed(across("aft", 200), 40), webbed(lengthwise("port", 120), 45), webbed(across("mid", 500), 40),
        webbed(lengthwise("starboard", -120), 45), webbed(turned(across("fore", 780), 0.1), 40)};
    const FrameSet set = crate.make(frames);
    EXPECT_EQ(set.parts.size(), 5U);
    EXPECT_EQ(set.crossings.size(), 6U) << report(set.findings);
    EXPECT_TRUE(set.findings.empty()) << report(set.findings);
    EXPECT_EQ(orderOf(set), (std::vector<std::string>{"aft", "port", "mid", "starboard", "fore"}));
    expectGoesTogether(set, "egg crate");
}

TEST(HalfLap, RoomForTheDonorLeavesTwoStretches) {
    const Crate crate;
    const std::vector<FitSolid> donor{block({400, -60, 150}, {500, 60, 280})};
    const FrameSet set =
        crate.make({webbed(across("rib", 440), 0), webbed(lengthwise("keelson", 0), 0)}, donor);
    ASSERT_EQ(set.crossings.size(), 1U) << report(set.findings);
    const FrameCrossing& c = set.crossings[0];
    // Below 10 + 1 to 130, above 300 to 489: the lap is where less must be cut, so the lower one is cut
    // through.
    EXPECT_NEAR(c.height, 489 - 300, 0.5);
    ASSERT_EQ(c.through.size(), 1U);
    EXPECT_NEAR(c.through[0].height, 130 - 11, 0.5);
    EXPECT_EQ(c.through[0].frame, "keelson");
    const Finding* told = find(set.findings, "frame-cut-through");
    ASSERT_TRUE(told);
    EXPECT_NE(told->message.find("keelson is cut through"), std::string::npos) << told->message;
    EXPECT_NE(told->remedy.find("corner blocks"), std::string::npos);
    expectGoesTogether(set, "round the donor");
    for (const char* name : {"rib", "keelson"})
        EXPECT_EQ(boardsOf(set, name).size(), 1U) << name << " hangs together beside the donor";
}

TEST(HalfLap, BoardsInTwoPartsLapInEach) {
    // A block as wide as the box leaves two boards of the rib, one below and one above; the keelson ends at
    // it. Each crosses a shelf-like strip of its own, and each pair slides on its own.
    const Crate crate;
    const std::vector<FitSolid> donor{block({-10, -310, 200}, {1010, 310, 260})};
    const FrameSet set =
        crate.make({webbed(across("rib", 440), 0), webbed(lengthwise("keelson", 0), 0)}, donor);
    ASSERT_EQ(set.parts.size(), 4U) << report(set.findings);
    ASSERT_EQ(set.crossings.size(), 2U);
    EXPECT_EQ(find(set.findings, "frame-cut-through"), nullptr);
    for (const FrameCrossing& c : set.crossings) {
        EXPECT_NEAR(c.depthA + c.depthB, c.height, 1e-6);
        const auto at = [&](const Plate* p) { // the part of it that holds the lap
            const Box3 box = bounds(p->solid);
            return box.min.z() < c.at.z() && c.at.z() < box.max.z();
        };
        for (const Plate* rib : boardsOf(set, "rib"))
            for (const Plate* keelson : boardsOf(set, "keelson")) {
                if (!at(rib) || !at(keelson)) continue;
                for (const double lift : {0.0, 20.0, 70.0, 150.0, 600.0}) {
                    const Polyhedron up = moved(keelson->solid, Mat3::Identity(), lift * c.along);
                    if (boxesMeet(up, rib->solid)) {
                        EXPECT_LT(common(up, rib->solid), 1e-3) << lift;
                    }
                }
            }
    }
}

TEST(HalfLap, AnotherOrderIsFoundWhereTheListsOwnBinds) {
    // A rib upright and one pitched: the keelson, last in the list, cannot slide onto both at once. It goes
    // in first, and they onto it.
    const Crate crate;
    const FrameSet set =
        crate.make({webbed(across("upright", 300), 40), webbed(pitched(across("raked", 650), 0.3), 40),
                    webbed(lengthwise("keelson", 0), 40)});
    ASSERT_EQ(set.crossings.size(), 2U) << report(set.findings);
    EXPECT_EQ(find(set.findings, "frame-order"), nullptr) << report(set.findings);
    ASSERT_EQ(set.order.size(), 3U);
    EXPECT_EQ(set.order.front().board, "frames/keelson");
    for (const FrameCrossing& c : set.crossings) EXPECT_EQ(c.a, "keelson");
    expectGoesTogether(set, "raked");
}

TEST(HalfLap, WhatCannotBePutTogetherIsTold) {
    const Crate crate;
    // Three that cross each other square: the last would slide both ways at once.
    const FrameSet corner = crate.make({across("rib", 440), lengthwise("keelson", 0), level("shelf", 250)});
    const Finding* order = find(corner.findings, "frame-order");
    ASSERT_TRUE(order) << report(corner.findings);
    EXPECT_EQ(order->severity, Severity::stop);
    // Too flat for a lap, and meeting; beside each other they do not meet.
    EXPECT_TRUE(
        find(crate.make({across("rib", 440), turned(across("twin", 442), 0.05)}).findings, "frame-meets"));
    EXPECT_FALSE(find(crate.make({across("rib", 440), across("twin", 460)}).findings, "frame-meets"));
}

TEST(HalfLap, ABoardThatGoesInInNoOrderIsLeftOut) {
    const Crate crate;
    auto random = seeded(66);
    for (int round = 0; round < 8 / slowdown + 1; ++round) {
        std::vector<FrameChoice> frames{across("rib", uniform(random, 200, 500)),
                                        lengthwise("keelson", uniform(random, -150, 150)),
                                        across("fore", uniform(random, 600, 900))};
        frames.insert(frames.begin() + below(random, 4), level("shelf", uniform(random, 60, 440)));
        const FrameSet set = crate.make(frames);
        ASSERT_TRUE(find(set.findings, "frame-order")) << report(set.findings);
        // What goes together does as if the others were not in the list.
        EXPECT_LT(set.order.size(), 4U);
        EXPECT_GE(set.order.size(), 2U);
        for (const FrameFact& f : set.frames) {
            EXPECT_EQ(goesIn(set, f.name), f.parts > 0) << f.name;
            EXPECT_EQ(goesIn(set, f.name), f.leftOut == 0) << f.name;
        }
        std::erase_if(frames, [&](const FrameChoice& c) { return !goesIn(set, c.name); });
        const FrameSet alone = crate.make(frames);
        EXPECT_EQ(alone.parts, set.parts);
        EXPECT_EQ(alone.crossings, set.crossings);
        EXPECT_EQ(alone.order, set.order);
        // Boards of one height: both depths make up the lap.
        for (const FrameCrossing& c : set.crossings) EXPECT_NEAR(c.depthA + c.depthB, c.height, 1e-6);
        expectGoesTogether(set, "round " + std::to_string(round));
    }
}

TEST(HalfLap, SliversBesideASlotAreCutAwayAndTold) {
    const Crate crate;
    for (const double left : {1.5, 2.8, 4.0}) { // of a rib between the slot and its end at 290
        const FrameSet set = crate.make({across("rib", 500), lengthwise("keelson", 285 - left)});
        ASSERT_EQ(set.crossings.size(), 1U);
        const bool sliver = left < 3;
        EXPECT_EQ(find(set.findings, "frame-scrap") != nullptr, sliver) << left << report(set.findings);
        double area = 0;
        for (const FrameFact& f : set.frames)
            if (f.name == "rib") area = f.area;
        // Where a sliver begins a fillet stays, at most 3 mm high.
        const double cut = 580.0 * 480 - (10 + (sliver ? left : 0)) * 240;
        EXPECT_GE(area, cut - 1) << left;
        EXPECT_LE(area, cut + 1 + (sliver ? 3 * left : 0)) << left;
    }
}

TEST(HalfLap, RandomEggCratesSlideTogether) {
    const Crate crate;
    auto random = seeded(23);
    int laps = 0, cutThrough = 0;
    for (int round = 0; round < 12 / slowdown + 1; ++round) {
        std::vector<FrameChoice> frames;
        const int ribs = 1 + below(random, 3), keelsons = 1 + below(random, 2);
        for (int i = 0; i < ribs; ++i)
            frames.push_back(
                webbed(turned(across("rib " + std::to_string(i), 150 + 280 * i + uniform(random, 0, 60)),
                              uniform(random, -0.15, 0.15)),
                       below(random, 3) ? uniform(random, 25, 70) : 0, uniform(random, 4, 20)));
        for (int i = 0; i < keelsons; ++i) {
            const auto at = frames.begin() + below(random, static_cast<int>(frames.size()) + 1);
            frames.insert(at, webbed(lengthwise("keelson " + std::to_string(i),
                                                -150 + 250 * i + uniform(random, 0, 60)),
                                     below(random, 3) ? uniform(random, 25, 70) : 0, uniform(random, 4, 20)));
        }
        std::vector<FitSolid> donor;
        if (round % 2) { // round a crossing, or beside it
            const FrameChoice& rib = frames.front().name.starts_with("rib") ? frames.front() : frames.back();
            const double x = rib.place.origin.x(), y = uniform(random, -150, 150),
                         z = uniform(random, 60, 250);
            const double half = uniform(random, 30, 120);
            donor.push_back(block({x - half, y - 2 * half, z}, {x + half, y + 2 * half, z + half}));
        }
        const FrameSet set = crate.make(frames, donor);
        laps += static_cast<int>(set.crossings.size());
        for (const FrameCrossing& c : set.crossings) cutThrough += static_cast<int>(c.through.size());
        for (const FrameFact& f : set.frames)
            for (const FrameFact& g : set.frames)
                if (&f < &g) {
                    EXPECT_LT(depthOf(set, f.name, g.name, Vec3::Zero()), 1e-4) << f.name << " " << g.name;
                }
        expectGoesTogether(set, "round " + std::to_string(round));
    }
    std::printf("%d laps, %d cut through\n", laps, cutThrough);
    EXPECT_GT(laps, 10 / slowdown);
    if (slowdown == 1) {
        EXPECT_GT(cutThrough, 0);
    }
}

} // namespace
} // namespace slab
