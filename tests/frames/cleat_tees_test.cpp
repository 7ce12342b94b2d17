// Cleats beside what stands on the middle of a plate.
#include "core/frames/cleat_tees.h"
#include "tests/frames/cleats_make.h"
#include "tests/frames/make.h"
#include <algorithm>

namespace slab {
namespace {

/// The crate with one bulkhead in it.
struct WithFrame {
    Body body = crateBody();
    PlateSet plates = buildPlates(body, evenRules(body, 10));
    explicit WithFrame(const FrameChoice& frame) {
        const FrameSet made = makeFrames({frame}, body.skin, plates.plates, {});
        plates.plates.append(made.parts);
    }
    [[nodiscard]] CleatSet cleats(const CleatChoice& rule) const { return makeCleats({rule}, plates, {}); }
};

// Inside 580 across; a bulkhead of 10 at x = 700 has its faces at 695 and 705.
TEST(CleatTees, BothSidesOfABulkheadOnTheFloor) {
    const WithFrame crate(across("mid", 700));
    for (const bool turned : {false, true}) {
        CleatChoice rule = cleatRule("heel", "box/base", "frames/*");
        if (turned) std::swap(rule.a, rule.b);
        rule.width = 30;
        rule.depth = 20;
        const CleatSet set = crate.cleats(rule);
        ASSERT_EQ(set.parts.size(), 2U) << report(set.findings);
        EXPECT_NEAR(lengthOf(set), 2 * 580, 0.01);
        Box3 box = bounds(set.parts[0].solid), other = bounds(set.parts[1].solid);
        if (box.min.x() > other.min.x()) std::swap(box, other);
        const double free =
            2e-5; // a frame is kept free of the plates by 1e-5 so that rounding makes no overlap
        const double onFloor = turned ? 20 : 30, up = turned ? 30 : 20; // the width lies on the first
        EXPECT_NEAR((box.min - Vec3(695 - onFloor, -290, 10)).norm(), 0, free);
        EXPECT_NEAR((box.max - Vec3(695, 290, 10 + up)).norm(), 0, free);
        EXPECT_NEAR((other.min - Vec3(705, -290, 10)).norm(), 0, free);
        EXPECT_NEAR((other.max - Vec3(705 + onFloor, 290, 10 + up)).norm(), 0, free);
        for (const Contact& mark : set.marks) EXPECT_TRUE(mark.inside || mark.on == "frames/mid");
    }
    EXPECT_TRUE(crate.cleats(cleatRule("all")).parts.size() > 0);
    for (const Plate& p : crate.cleats(cleatRule("all")).parts)
        EXPECT_EQ(p.name.find("frames/"), std::string::npos) << "a rule for everything is for joints";
}

// Turned about the upright, its edges against the sides are cut square: only one side closes.
TEST(CleatTees, NonePiercesAnythingAndEachIsGlued) {
    auto random = seeded(67);
    for (int round = 0; round < 12 / slowdown + 1; ++round) {
        FrameChoice frame = turned(across("mid", uniform(random, 300, 700)),
                                   (below(random, 2) ? 1 : -1) * uniform(random, 0.3, 0.6));
        const bool wide = round % 4 == 3;
        frame.gap = wide ? uniform(random, 2.6, 6) : uniform(random, 0, 1.5);
        const WithFrame crate(frame);
        CleatChoice rule = cleatRule("heel", "box/*", "frames/*");
        rule.width = uniform(random, 12, 30);
        rule.depth = uniform(random, 12, 30);
        const CleatSet set = crate.cleats(rule);
        if (wide) {
            EXPECT_TRUE(set.parts.empty()) << "glue does not fill " << frame.gap;
            EXPECT_TRUE(find(set.findings, "cleat-misses")) << report(set.findings);
            continue;
        }
        EXPECT_EQ(set.parts.size(), 6U) << "two on floor and top, one at each side " << report(set.findings);
        const PlateSet all = withCleats(crate.plates, set);
        for (const Plate& piece : set.parts)
            for (const Plate& other : all.plates) {
                if (other.name == piece.name) continue;
                for (const ConvexSolid& cell : other.cells)
                    EXPECT_LT(nearest(piece.cells.front(), cell).depth, 1e-3)
                        << piece.name << " in " << other.name;
            }
        for (const Contact& mark : set.marks) {
            const auto host = std::find_if(all.plates.begin(), all.plates.end(),
                                           [&](const Plate& p) { return p.name == mark.on; });
            ASSERT_NE(host, all.plates.end());
            const Ring& face = mark.inside ? host->boundary.inner : host->boundary.outer;
            for (const Ring& ring : mark.rings)
                for (const Vec2& p : ring)
                    EXPECT_TRUE(contains(face, p, 0.25)) << mark.plate << " on " << mark.on;
        }
    }
}

// A fin of 10 upright on the deck at z = 500, 200 long.
TEST(CleatTees, BesideAPlateFormOnTheOutside) {
    Body body = crateBody();
    FreePlate fin;
    fin.name = "fin/plate";
    fin.form = "fin";
    fin.frame.origin = {700, 0, 500};
    fin.frame.axes << 0, 0, 1, 1, 0, 0, 0, 1, 0; // u = y, v = z, w = x
    fin.outline.outer = {{-100, 0}, {100, 0}, {100, 150}, {-100, 150}};
    body.plates.push_back(fin);
    PlateRules rules = evenRules(body, 10);
    rules.freePlates.back() = {"ply", 10, 9};
    const PlateSet plates = buildPlates(body, rules);
    CleatChoice rule = cleatRule("foot", "box/top", "fin/plate");
    const CleatSet set = makeCleats({rule}, plates, {});
    ASSERT_EQ(set.parts.size(), 2U) << report(set.findings);
    EXPECT_NEAR(lengthOf(set), 2 * 200, 0.01);
    for (const Plate& piece : set.parts) {
        const Box3 box = bounds(piece.solid);
        EXPECT_NEAR(box.min.z(), 500, 1e-6);
        EXPECT_NEAR(box.max.z(), 520, 1e-6);
        EXPECT_TRUE(std::abs(box.max.x() - 690) < 1e-6 || std::abs(box.min.x() - 700) < 1e-6);
    }
    for (const Contact& mark : set.marks)
        if (mark.on == "box/top") {
            EXPECT_FALSE(mark.inside);
        }
}

TEST(CleatTees, NothingStandsWhereNothingIsNear) {
    const Body body = crateBody();
    PlateSet plates = buildPlates(body, evenRules(body, 10));
    EXPECT_TRUE(cleats::teesOf(plates).empty());
    const WithFrame crate(across("mid", 700));
    const Plate& frame = crate.plates.plates.back();
    for (const Plate& host : crate.plates.plates) {
        if (&host == &frame) continue;
        const bool across = host.name == "box/front" || host.name == "box/back";
        EXPECT_EQ(cleats::seatsOf({&host, &frame, true, 0}, false).empty(), across) << host.name;
    }
}

} // namespace
} // namespace slab
