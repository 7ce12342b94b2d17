// Blind ground against walls in closed form, against single rays, and by Monte Carlo.
#include "core/sight/ranges.h"
#include "core/sight/sight.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::sight;

namespace {

constexpr double fullTurn = 2 * std::numbers::pi, degrees = std::numbers::pi / 180;

/// Two triangles.
void addQuad(SightScene& scene, const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
    scene.opaque.push_back({a, b, c});
    scene.opaque.push_back({a, c, d});
}

/// A wall across the way, `half` to both sides.
SightScene wallAhead(double eye, double ahead, double low, double high, double half = 5000) {
    SightScene scene{{0, 0, eye}, {}, {}};
    addQuad(scene, {ahead, -half, low}, {ahead, half, low}, {ahead, half, high}, {ahead, -half, high});
    return scene;
}

SightOpening slit(double ahead, double half, double low, double high) {
    return {{{ahead, -half, low}, {ahead, half, low}, {ahead, half, high}, {ahead, -half, high}}, 1};
}

Vec3 anyPlace(std::mt19937_64& random) {
    return {uniform(random, -1500, 1500), uniform(random, -1500, 1500), uniform(random, 0, 1800)};
}

/// Plates anywhere, some with an opening.
SightScene clutter(std::mt19937_64& random, int plates) {
    SightScene scene{
        {uniform(random, -200, 200), uniform(random, -200, 200), uniform(random, 900, 1400)}, {}, {}};
    for (int i = 0; i < plates; ++i) {
        const Vec3 a = anyPlace(random), b = a + anyPlace(random) / 3, c = a + anyPlace(random) / 3;
        const auto up = [](Vec3 p) {
            p.z() = std::max(p.z(), 0.0);
            return p;
        };
        const Triangle t{a, up(b), up(c)};
        scene.opaque.push_back(t);
        if (i % 2) continue;
        const Vec3 middle = (t[0] + t[1] + t[2]) / 3;
        SightOpening opening{{}, 1e-3};
        for (const Vec3& p : t) opening.outline.push_back(middle + 0.6 * (p - middle));
        scene.openings.push_back(opening);
    }
    return scene;
}

bool inRanges(const std::vector<Range>& ranges, double at, double eps) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [&](const Range& r) { return at > r.from + eps && at < r.to - eps; });
}
bool nearAnEnd(const std::vector<Range>& ranges, double at, double eps) {
    return std::any_of(ranges.begin(), ranges.end(), [&](const Range& r) {
        return std::abs(at - r.from) < eps || std::abs(at - r.to) < eps;
    });
}

/// A low wall all round, as a polygon of n sides with corners at `radius`.
SightScene ringWall(double eye, double radius, double height, int n) {
    SightScene scene{{0, 0, eye}, {}, {}};
    for (int k = 0; k < n; ++k) {
        const auto at = [&](int i, double z) {
            return Vec3(radius * std::cos(fullTurn * i / n), radius * std::sin(fullTurn * i / n), z);
        };
        addQuad(scene, at(k, 0), at(k + 1, 0), at(k + 1, height), at(k, height));
    }
    return scene;
}

} // namespace

TEST(Sight, OverAnEdgeOfTheTable) {
    // eye 1.20 m, edge 0.70 high 0.90 ahead: 2.16 m from the eye, 1.26 past the edge (computed worked figure)
    EXPECT_NEAR(*groundOverEdge(1200, 900, 700), 2160, 1e-9);
    EXPECT_NEAR(*groundOverEdge(1200, 900, 700) - 900, 1260, 1e-9);
    const auto sight = Sight::of(wallAhead(1200, 900, 0, 700));
    ASSERT_TRUE(sight);
    for (double azimuth : {0.0, 0.3, -1.0}) {
        const auto blind = sight->blindGround(azimuth);
        ASSERT_EQ(blind.size(), 1u);
        EXPECT_NEAR(blind[0].from, 900 / std::cos(azimuth), 1e-9);
        EXPECT_NEAR(blind[0].to, 2160 / std::cos(azimuth), 1e-9);
        EXPECT_NEAR(sight->nearestSeen(azimuth, 900 / std::cos(azimuth)), 2160 / std::cos(azimuth), 1e-9);
        EXPECT_EQ(sight->nearestSeen(azimuth), 0); // nothing hides what is before the wall
    }
    EXPECT_TRUE(sight->blindGround(3).empty());
    const auto ahead = nearestSeenAhead(*sight, 0, 0.5, 0.01, 1030);
    ASSERT_TRUE(ahead);
    EXPECT_NEAR(ahead->distance, 2160 / std::cos(0.5), 1e-9);
    EXPECT_NEAR(std::abs(ahead->azimuth), 0.5, 1e-12);
}

TEST(Sight, AStripUnderASkirtIsNoGroundAhead) {
    // The same wall of 0.70 m, raised by a gap: behind it a strip shows, x He / (He − gap) − x long. What is
    // seen on from it is told of the edge, 2.16 m, for any such gap.
    for (const double gap : {1.0, 20.0, 60.0, 100.0}) {
        const auto sight = Sight::of(wallAhead(1200, 900, gap, 700));
        ASSERT_TRUE(sight);
        EXPECT_NEAR(sight->nearestSeen(0, 900, 500), 2160, 1e-9) << gap;
        const auto ahead = nearestSeenAhead(std::vector<Sight>{*sight}, 0, 0.1, 0.01, 900, 500);
        ASSERT_TRUE(ahead);
        EXPECT_NEAR(ahead->distance, 2160, 1e-9) << gap;
        if (gap > 50) {
            EXPECT_LT(sight->nearestSeen(0, 900), 1000) << "the strip itself";
        }
    }
}

TEST(Sight, ThroughASlit) {
    // edges of the slit 900 and 1100 high, 600 ahead of an eye at 1200: ground from 2400 to 7200 is seen
    SightScene scene = wallAhead(1200, 600, 0, 2000);
    EXPECT_EQ(Sight::of(scene)->nearestSeen(0, 600), std::numeric_limits<double>::infinity());
    scene.openings.push_back(slit(600, 300, 900, 1100));
    const auto sight = Sight::of(scene);
    ASSERT_TRUE(sight);
    const auto blind = sight->blindGround(0);
    ASSERT_EQ(blind.size(), 2u);
    EXPECT_NEAR(blind[0].from, 600, 1e-9);
    EXPECT_NEAR(blind[0].to, *groundOverEdge(1200, 600, 900), 1e-9);
    EXPECT_NEAR(blind[1].from, *groundOverEdge(1200, 600, 1100), 1e-9);
    EXPECT_EQ(blind[1].to, std::numeric_limits<double>::infinity());
    // it ends at atan(300 / 600) to the side
    EXPECT_EQ(sight->blindGround(std::atan(0.5) - 1e-6).size(), 2u);
    EXPECT_EQ(sight->blindGround(std::atan(0.5) + 1e-6).size(), 1u);
    // a second face 20 mm on with the same slit hides more: its lower edge counts from afar
    addQuad(scene, {620, -5000, 0}, {620, 5000, 0}, {620, 5000, 2000}, {620, -5000, 2000});
    scene.openings.push_back(slit(620, 300, 900, 1100));
    const auto thick = Sight::of(scene)->blindGround(0);
    ASSERT_EQ(thick.size(), 2u);
    EXPECT_NEAR(thick[0].to, *groundOverEdge(1200, 620, 900), 1e-9);
    EXPECT_NEAR(thick[1].from, *groundOverEdge(1200, 600, 1100), 1e-9);
}

TEST(Sight, RangesAgreeWithSingleRays) {
    auto random = seeded(81);
    int hidden = 0, seen = 0;
    for (int round = 0; round < 60 / slowdown + 1; ++round) {
        const SightScene scene = clutter(random, 1 + below(random, round % 5 == 0 ? 600 : 25));
        const auto sight = Sight::of(scene);
        ASSERT_TRUE(sight) << sight.error().message;
        for (int k = 0; k < 200; ++k) {
            const double azimuth = uniform(random, -fullTurn, fullTurn), distance = uniform(random, 10, 6000);
            const auto blind = sight->blindGround(azimuth);
            if (nearAnEnd(blind, distance, 1e-4)) continue;
            const Vec3 at(scene.eye.x() + distance * std::cos(azimuth),
                          scene.eye.y() + distance * std::sin(azimuth), 0);
            const bool is = sight->hides(at);
            EXPECT_EQ(is, inRanges(blind, distance, 0)) << round << " " << k;
            ++(is ? hidden : seen);
        }
    }
    std::printf("hidden %d, seen %d\n", hidden, seen);
    EXPECT_GT(hidden, 100);
    EXPECT_GT(seen, 100);
}

TEST(Sight, AnOpeningNeverHides) {
    auto random = seeded(82);
    for (int round = 0; round < 20 / slowdown + 1; ++round) {
        SightScene scene = clutter(random, 12);
        const auto with = Sight::of(scene);
        scene.openings.clear();
        const auto without = Sight::of(scene);
        for (int k = 0; k < 60; ++k) {
            const double azimuth = k * fullTurn / 60;
            double a = 0, b = 0;
            for (const Range& r : with->hidden(azimuth)) a += r.size();
            for (const Range& r : without->hidden(azimuth)) b += r.size();
            EXPECT_LE(a, b + 1e-9);
        }
        const auto mapWith = blindMap(*with, 5000, 90, 40), mapWithout = blindMap(*without, 5000, 90, 40);
        EXPECT_LE(mapWith->blindArea, mapWithout->blindArea + 1e-6);
        for (std::size_t i = 0; i < mapWith->blind.size(); ++i)
            EXPECT_FALSE(mapWith->blind[i] && !mapWithout->blind[i]);
    }
}

TEST(BlindMaps, ARingWallInClosedForm) {
    // a polygon of n sides of height h hides the ground between itself and itself grown by He / (He − h):
    // area n/2 R² sin(2π/n) (k² − 1)
    const int n = 12;
    const double eye = 1200, radius = 800, height = 600, k = eye / (eye - height);
    const auto sight = Sight::of(ringWall(eye, radius, height, n));
    ASSERT_TRUE(sight);
    const double exact = n / 2.0 * radius * radius * std::sin(fullTurn / n) * (k * k - 1);
    const auto map = blindMap(*sight, 5000, 720, 100);
    ASSERT_TRUE(map);
    EXPECT_NEAR(map->blindArea, exact, 1e-4 * exact);
    for (int d = 0; d < map->directions; ++d) {
        const double azimuth = map->azimuth(d),
                     inSide = std::remainder(azimuth - fullTurn / n / 2, fullTurn / n);
        const double wall = radius * std::cos(fullTurn / n / 2) / std::cos(inSide);
        for (int r = 0; r < map->rings; ++r) {
            const double at = map->distance(r);
            if (std::abs(at - wall) < 1e-6 || std::abs(at - k * wall) < 1e-6) continue;
            EXPECT_EQ(map->at(d, r), at > wall && at < k * wall);
        }
    }
}

TEST(BlindMaps, MonteCarlo) {
    // area of hidden ground by single rays at random points, within four standard deviations
    auto random = seeded(83);
    for (int round = 0; round < 4; ++round) {
        const SightScene scene = clutter(random, 20);
        const auto sight = Sight::of(scene);
        const double reach = 4000, whole = std::numbers::pi * reach * reach;
        const auto map = blindMap(*sight, reach, 1440, 50);
        ASSERT_TRUE(map);
        const int shots = 20000 / slowdown;
        int hits = 0;
        for (int k = 0; k < shots; ++k) {
            const double r = reach * std::sqrt(uniform(random, 0, 1)), a = uniform(random, 0, fullTurn);
            hits += sight->hides({scene.eye.x() + r * std::cos(a), scene.eye.y() + r * std::sin(a), 0});
        }
        const double share = static_cast<double>(hits) / shots,
                     sigma = std::sqrt(share * (1 - share) / shots);
        std::printf("blind %.4f of the ground, by rays %.4f ± %.4f\n", map->blindArea / whole, share, sigma);
        EXPECT_NEAR(map->blindArea / whole, share, 4 * sigma + 1e-3);
    }
}

TEST(Horizon, AWindowInClosedForm) {
    // 600 wide, 500 ahead: 2 atan(300 / 500)
    SightScene scene = ringWall(1200, 5000, 3000, 16);
    SightScene box{{0, 0, 1200}, {}, {}};
    addQuad(box, {500, -500, 0}, {500, 500, 0}, {500, 500, 2000}, {500, -500, 2000});
    addQuad(box, {-500, -500, 0}, {-500, 500, 0}, {-500, 500, 2000}, {-500, -500, 2000});
    addQuad(box, {-500, 500, 0}, {500, 500, 0}, {500, 500, 2000}, {-500, 500, 2000});
    addQuad(box, {-500, -500, 0}, {500, -500, 0}, {500, -500, 2000}, {-500, -500, 2000});
    EXPECT_NEAR(horizontalField(*Sight::of(box)).total, 0, 1e-9);
    EXPECT_NEAR(horizontalField(*Sight::of(scene)).total, 0, 1e-9);
    box.openings.push_back(slit(500, 300, 1100, 1300));
    const HorizontalField field = horizontalField(*Sight::of(box));
    EXPECT_NEAR(field.total, 2 * std::atan(0.6), 1e-9);
    EXPECT_NEAR(field.port, std::atan(0.6), 1e-9);
    EXPECT_NEAR(field.starboard, std::atan(0.6), 1e-9);
    box.openings[0] = slit(500, 300, 900, 1100); // below the eye: the ground is seen, the horizon not
    EXPECT_NEAR(horizontalField(*Sight::of(box)).total, 0, 1e-9);
    // with nothing about, all of it
    const HorizontalField free = horizontalField(*Sight::of(SightScene{{0, 0, 1000}, {}, {}}));
    EXPECT_NEAR(free.total, fullTurn, 1e-12);
    EXPECT_NEAR(free.port, std::numbers::pi, 1e-12);
}

TEST(Horizon, AgreesWithSingleRays) {
    auto random = seeded(84);
    int open = 0, closed = 0;
    for (int round = 0; round < 40; ++round) {
        const SightScene scene = clutter(random, 10);
        const auto sight = Sight::of(scene);
        const auto ranges = sight->openHorizon();
        for (int k = 0; k < 50; ++k) {
            const double a = uniform(random, 0, fullTurn);
            if (nearAnEnd(ranges, a, 1e-6)) continue;
            const bool free = !sight->hides(scene.eye + 1e5 * Vec3(std::cos(a), std::sin(a), 0));
            EXPECT_EQ(free, inRanges(ranges, a, 0));
            ++(free ? open : closed);
        }
    }
    EXPECT_GT(open, 50);
    EXPECT_GT(closed, 50);
}

TEST(Stopping, OfTheTable) {
    // 1.8 m/s, 1 s, 1 m/s²: 3.42 m (computed worked figure)
    EXPECT_NEAR(*stoppingDistance(1800, 1, 1000), 3420, 1e-9);
    auto random = seeded(85);
    for (int round = 0; round < 200; ++round) {
        const double v = uniform(random, 0, 4000), t = uniform(random, 0, 2), a = uniform(random, 300, 4000);
        EXPECT_NEAR(*speedToStopWithin(*stoppingDistance(v, t, a), t, a), v, 1e-6);
        EXPECT_LE(*stoppingDistance(v * 0.9, t, a), *stoppingDistance(v, t, a));
    }
}

TEST(Ranges, TakenAwayAndJoined) {
    using Ranges = std::vector<Range>;
    EXPECT_EQ(without({{0, 10}}, {3, 4}), (Ranges{{0, 3}, {4, 10}}));
    EXPECT_EQ(without({{0, 10}, {12, 13}}, {-1, 11}), (Ranges{{12, 13}}));
    EXPECT_EQ(without({{0, 10}}, {10, 20}), (Ranges{{0, 10}}));
    EXPECT_EQ(joined({{5, 6}, {0, 1}, {1, 2}, {0.5, 0.6}}), (Ranges{{0, 2}, {5, 6}}));
    EXPECT_TRUE(joined({}).empty());
}

TEST(Sight, Refusals) {
    EXPECT_EQ(Sight::of(SightScene{{0, 0, 0}, {}, {}}).error().code, "out-of-range");
    EXPECT_EQ(Sight::of(SightScene{{0, NAN, 1}, {}, {}}).error().code, "out-of-range");
    const auto with = [](SightOpening opening) {
        SightScene scene = wallAhead(1200, 900, 0, 700);
        scene.openings.push_back(std::move(opening));
        const auto sight = Sight::of(scene);
        return sight ? std::string() : sight.error().code;
    };
    EXPECT_EQ(with({{{0, 0, 0}, {1, 0, 0}}, 1}), "sight-opening");
    EXPECT_EQ(with({{{0, 0, 0}, {1, 0, 0}, {2, 0, 0}}, 1}), "sight-opening");
    EXPECT_EQ(with({{{0, 0, 0}, {100, 0, 0}, {100, 100, 50}, {0, 100, 0}}, 1}), "sight-opening");
    EXPECT_EQ(with({{{0, 0, 0}, {100, 0, 0}, {20, 20, 0}, {0, 100, 0}}, 1}), "sight-opening");
    EXPECT_EQ(with({{{0, 0, 0}, {100, 0, 0}, {0, 100, 0}}, -1}), "sight-opening");
    EXPECT_EQ(with({{{0, 0, 0}, {100, 0, 0}, {0, 100, 0}}, 1}), "");
    const auto sight = Sight::of(wallAhead(1200, 900, 0, 700));
    EXPECT_EQ(blindMap(*sight, 0).error().code, "out-of-range");
    EXPECT_EQ(blindMap(*sight, 1000, 4).error().code, "out-of-range");
    EXPECT_EQ(nearestSeenAhead(*sight, 0, 0.5, 0).error().code, "out-of-range");
    EXPECT_EQ(groundOverEdge(1200, 900, 1200).error().code, "out-of-range");
    EXPECT_EQ(stoppingDistance(1, 1, 0).error().code, "out-of-range");
    EXPECT_EQ(speedToStopWithin(-1, 1, 1).error().code, "out-of-range");
}
