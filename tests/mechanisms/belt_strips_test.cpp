#include "core/geometry/convex_hull.h"
#include "core/mechanisms/belt_strips.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <map>
#include <numbers>

using namespace slab;

namespace {

BeltPath racetrack(double between, double radius) {
    return *beltPath({{Vec2(0, 0), radius, false}, {Vec2(between, 0), radius, false}});
}

} // namespace

TEST(BeltStrips, OnePlyLapsAndTheStripsCloseTheRound) {
    // 2400 round, card 1000 long, lap 50: two strips would be 1250 long, three are 850.
    const auto plies = layStrips(2400, 2, 0, 50, {2, 1000});
    ASSERT_TRUE(plies.has_value());
    ASSERT_EQ(plies->strips.size(), 3u);
    for (const BeltStrip& s : plies->strips) EXPECT_NEAR(s.length, 850, 1e-9);
    EXPECT_EQ(plies->stagger, 0);
}

TEST(BeltStrips, PliesButtAndNoJointLiesUnderAnother) {
    const auto plies = layStrips(3000, 6, 60, 40, {1.5, 1100});
    ASSERT_TRUE(plies.has_value());
    EXPECT_EQ(plies->plies, 4);
    EXPECT_NEAR(plies->thickness, 6, 1e-12);
    EXPECT_GE(plies->stagger, 40);
    std::map<int, double> length;
    std::map<int, int> links;
    for (const BeltStrip& s : plies->strips) {
        EXPECT_EQ(s.lap, 0);
        length[s.ply] += s.length;
        links[s.ply] += s.links;
    }
    for (int ply = 0; ply < 4; ++ply) {
        // A closed line moved out by d is 2 std::numbers::pi d longer (Steiner).
        EXPECT_NEAR(length[ply], 3000 + 2 * std::numbers::pi * (-2.25 + 1.5 * ply), 1e-9);
        EXPECT_EQ(links[ply], 60);
    }
}

TEST(BeltStrips, OnRandomBeltsTheSumIsTheRoundAndEachFitsItsCard) {
    auto random = seeded(73);
    for (int round = 0; round < 2000 / slowdown; ++round) {
        const double length = uniform(random, 400, 9000), card = uniform(random, 0.5, 4);
        const double thickness = uniform(random, 0.5, 12), overlap = uniform(random, 0, 80);
        const int links = below(random, 3) == 0 ? 0 : 3 + below(random, 120);
        const double longest = uniform(random, 300, 2400);
        const auto plies = layStrips(length, thickness, links, overlap, {card, longest});
        if (!plies) {
            EXPECT_EQ(plies.error().code, "belt-card");
            continue;
        }
        std::vector<double> sum(static_cast<std::size_t>(plies->plies));
        for (const BeltStrip& s : plies->strips) {
            EXPECT_LE(s.length, longest + 1e-9);
            EXPECT_GE(s.start, 0);
            EXPECT_LT(s.start, 1);
            sum[static_cast<std::size_t>(s.ply)] += s.length - s.lap;
            if (links > 0) {
                EXPECT_NEAR(s.length - s.lap, s.links * s.linkLength, 1e-9 * length);
            }
        }
        for (std::size_t ply = 0; ply < sum.size(); ++ply)
            EXPECT_NEAR(sum[ply],
                        length + 2 * std::numbers::pi *
                                     ((static_cast<double>(ply) + 0.5) * card - plies->thickness / 2),
                        1e-9 * length);
    }
}

TEST(BeltStrips, MarksAreOneLinkApartAndShowTheLaps) {
    // 2400 round in links of 60 on one ply: every mark 60 from the next, round the whole belt, also across
    // the laps.
    const auto plies = layStrips(2400, 2, 40, 50, {2, 1000});
    ASSERT_TRUE(plies.has_value());
    int links = 0;
    for (const BeltStrip& s : plies->strips) {
        double last = 0; // the strip's beginning is a link's
        int found = 0;
        bool lap = false, glue = false;
        for (const StripMark& m : stripMarks(s)) {
            if (m.kind == StripMark::Kind::glue) {
                EXPECT_NEAR(m.at, 50, 1e-12);
                glue = true;
                continue;
            }
            EXPECT_NEAR(m.at - last, 60, 1e-9);
            EXPECT_EQ(m.link, ++found);
            last = m.at;
            lap = lap || m.kind == StripMark::Kind::lap;
        }
        EXPECT_TRUE(lap && glue);
        EXPECT_NEAR(last, s.length - 50, 1e-9) << "the last link ends where the next strip begins";
        links += found;
    }
    EXPECT_EQ(links, 40);
    // Plies butt: no lap is marked, and outer plies have longer links.
    const auto thick = layStrips(3000, 6, 60, 40, {1.5, 1100});
    ASSERT_TRUE(thick.has_value());
    for (const BeltStrip& s : thick->strips) {
        const auto marks = stripMarks(s);
        ASSERT_EQ(marks.size(), static_cast<std::size_t>(s.links - 1));
        const double pitch = 50 + 2 * std::numbers::pi * (-2.25 + 1.5 * s.ply) / 60;
        for (std::size_t i = 1; i < marks.size(); ++i)
            EXPECT_NEAR(marks[i].at - marks[i - 1].at, pitch, 1e-9);
    }
    EXPECT_TRUE(stripMarks({0, 0, 1, 500, 0, 0, 0}).empty());
}

TEST(BeltStrips, RefusesCardThatGivesNoStrip) {
    const auto code = [](const Expected<BeltPlies>& plies) { return plies ? "" : plies.error().code; };
    EXPECT_EQ(code(layStrips(3000, 2, 0, 40, {0, 1000})), "belt-card");
    EXPECT_EQ(code(layStrips(3000, 2, 10, 40, {2, 200})), "belt-card") << "one link is 300 long";
    EXPECT_EQ(code(layStrips(3000, 2, 0, 900, {2, 1000})), "belt-card")
        << "the lap is longer than what is left";
}

TEST(BeltBand, IsClosedAndHoldsTheBeltOutsideOfTheFacets) {
    const double t = 6, w = 120, r = 150;
    const BeltPath path = racetrack(900, r);
    auto random = seeded(74);
    double sum = 0;
    Frame mirrored;
    mirrored.axes.col(1) = Vec3::UnitZ();
    mirrored.axes.col(2) = Vec3::UnitY(); // x forward, z up, y across: left-handed
    for (int part = 0; part < 3; ++part)
        for (const Frame& place : {Frame{}, mirrored}) {
            const BeltBand band =
                beltBand(path, {part / 3.0 + 0.2, (part + 1) / 3.0 + 0.2, -t / 2, t / 2, w}, place);
            EXPECT_TRUE(checkClosed(band.solid).has_value()) << checkClosed(band.solid).error().message;
            double pieces = 0;
            for (const ConvexSolid& s : band.pieces) pieces += volume(convexHull3(s.points));
            EXPECT_NEAR(pieces, volume(band.solid), 1e-6 * pieces);
            EXPECT_GT(volume(band.solid), 0);
            sum += volume(band.solid) / 2;
        }
    // Area between two polygons round the circles of r ± t / 2: n tan(std::numbers::pi / n) /
    // std::numbers::pi times the ring's.
    const int n = 2 * static_cast<int>(std::ceil(std::numbers::pi / 0.2));
    const double ring = 2 * std::numbers::pi * r * t * n * std::tan(std::numbers::pi / n) / std::numbers::pi;
    EXPECT_NEAR(sum, (2 * 900 * t + ring) * w, 1e-6 * sum);
    const BeltBand all = beltBand(path, {0, 1, -t / 2, t / 2, w}, Frame{});
    for (int i = 0; i < 500; ++i) { // every point of its outer half is in some piece
        const BeltPlace on = beltPlace(path, uniform(random, 0, path.length));
        const Vec2 p = on.at + uniform(random, 0.0, t / 2) * Vec2(on.along.y(), -on.along.x());
        const double across = uniform(random, -w / 2, w / 2);
        double least = 1e9;
        for (const ConvexSolid& s : all.pieces)
            least = std::min(least,
                             nearest(s, {ConvexSolid::Kind::hull, {Vec3(p.x(), p.y(), across)}, 0}).distance);
        EXPECT_LT(least, 1e-6);
    }
}
