#include "core/geometry/occt.h"
#include "core/geometry/occt_shape.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>
#include <numbers>
#include <set>

using namespace slab;

namespace {

struct IntBox {
    std::array<int, 3> min{}, max{};
};

/// Union of boxes on a whole-number grid counted cell by cell: exact volume and surface.
struct Counted {
    double volume = 0, area = 0;
};
Counted count(const std::vector<IntBox>& boxes, int reach) {
    const auto filled = [&](int x, int y, int z) {
        return std::any_of(boxes.begin(), boxes.end(), [&](const IntBox& b) {
            return x >= b.min[0] && x < b.max[0] && y >= b.min[1] && y < b.max[1] && z >= b.min[2] &&
                   z < b.max[2];
        });
    };
    Counted c;
    for (int x = 0; x < reach; ++x)
        for (int y = 0; y < reach; ++y)
            for (int z = 0; z < reach; ++z) {
                if (!filled(x, y, z)) continue;
                c.volume += 1;
                for (auto [dx, dy, dz] :
                     {std::array{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}})
                    c.area += filled(x + dx, y + dy, z + dz) ? 0 : 1;
            }
    return c;
}

std::vector<Polyhedron> solidsOf(const std::vector<IntBox>& boxes, double unit) {
    std::vector<Polyhedron> solids;
    for (const IntBox& b : boxes)
        solids.push_back(
            makeBox(unit * Vec3(b.min[0], b.min[1], b.min[2]), unit * Vec3(b.max[0], b.max[1], b.max[2])));
    return solids;
}

IntBox randomBox(std::mt19937_64& random, int reach) {
    IntBox b;
    for (std::size_t k = 0; k < 3; ++k) {
        b.min[k] = below(random, reach - 1);
        b.max[k] = b.min[k] + 1 + below(random, reach - b.min[k] - 1);
    }
    return b;
}

Polyhedron turnedBox(std::mt19937_64& random) {
    const Mat3 turn = Eigen::AngleAxisd(uniform(random, 0, 3),
                                        Vec3(uniform(random, -1, 1), uniform(random, -1, 1), 1).normalized())
                          .toRotationMatrix();
    const Vec3 half(uniform(random, 100, 400), uniform(random, 100, 400), uniform(random, 100, 400));
    return moved(makeBox(-half, half), turn,
                 Vec3(uniform(random, -100, 100), uniform(random, -100, 100), uniform(random, -100, 100)));
}

double worstOffPlane(const Polyhedron& solid) {
    double worst = 0;
    for (const PolyFace& f : solid.faces)
        for (const auto& loop : f.loops)
            for (int v : loop)
                worst = std::max(worst, std::abs(f.plane.distance(solid.vertices[std::size_t(v)])));
    return worst;
}

} // namespace

// Boxes on a coarse grid touch, overlap and lie flush in every way; the cell count is exact.
TEST(OcctFuse, gridBoxesHaveTheCountedVolumeAndSurface) {
    auto random = seeded(7);
    for (int round = 0; round < 120 / slowdown; ++round) {
        const int reach = 4;
        std::vector<IntBox> boxes;
        for (int i = 0; i < 2 + round % 4; ++i) boxes.push_back(randomBox(random, reach));
        const double unit = uniform(random, 50, 300);
        const auto fused = occt::fuse(solidsOf(boxes, unit));
        ASSERT_TRUE(fused) << round << " " << fused.error().message;
        const Counted expected = count(boxes, reach);
        EXPECT_NEAR(volume(fused->solid) / std::pow(unit, 3), expected.volume, 1e-9) << round;
        EXPECT_NEAR(surfaceArea(fused->solid) / std::pow(unit, 2), expected.area, 1e-9) << round;
        EXPECT_LT(worstOffPlane(fused->solid), 1e-10) << round;
        if (fused->contacts.empty()) {
            EXPECT_TRUE(checkClosed(fused->solid, 1e-9)) << round;
        }
        EXPECT_EQ(fused->faceInputs.size(), fused->solid.faces.size());
        EXPECT_EQ(fused->faceSolid.size(), fused->solid.faces.size());
    }
}

// |A ∪ B| = |A| + |B| − |A ∩ B| with the common part from another algorithm; planes stay those of the input.
TEST(OcctFuse, turnedBoxesKeepTheirPlanes) {
    auto random = seeded(3);
    for (int round = 0; round < 30 / slowdown + 1; ++round) {
        const std::vector<Polyhedron> boxes{turnedBox(random), turnedBox(random)};
        const auto fused = occt::fuse(boxes);
        ASSERT_TRUE(fused) << fused.error().message;
        const auto common = occt::commonVolume(boxes[0], boxes[1]);
        ASSERT_TRUE(common);
        const double expected = volume(boxes[0]) + volume(boxes[1]) - *common;
        EXPECT_NEAR(volume(fused->solid), expected, 1e-7 * expected);
        EXPECT_LT(worstOffPlane(fused->solid), 1e-9);
        EXPECT_TRUE(checkClosed(fused->solid, 1e-9));
        std::vector<PolyFace> input;
        for (const Polyhedron& b : boxes) input.insert(input.end(), b.faces.begin(), b.faces.end());
        for (std::size_t f = 0; f < fused->solid.faces.size(); ++f) {
            ASSERT_FALSE(fused->faceInputs[f].empty());
            EXPECT_EQ(fused->solid.faces[f].plane, input[std::size_t(fused->faceInputs[f].front())].plane);
        }
    }
}

TEST(OcctFuse, boxOnRoofLeavesAHole) {
    const auto fused = occt::fuse({makeBox({0, 0, 0}, {100, 100, 50}), makeBox({30, 30, 50}, {60, 60, 80})});
    ASSERT_TRUE(fused);
    EXPECT_EQ(fused->solids, 1);
    const auto roof = std::find_if(fused->solid.faces.begin(), fused->solid.faces.end(),
                                   [](const PolyFace& f) { return f.loops.size() == 2; });
    ASSERT_NE(roof, fused->solid.faces.end());
    EXPECT_EQ(roof->plane.normal, Vec3(0, 0, 1));
    EXPECT_DOUBLE_EQ(faceArea(fused->solid, *roof), 100 * 100 - 30 * 30);
    EXPECT_EQ(fused->solid.faces.size(), 11U);
}

TEST(OcctFuse, flushFacesMergeOnlyWhereAllowed) {
    const std::vector<Polyhedron> boxes{makeBox({0, 0, 0}, {100, 100, 50}),
                                        makeBox({50, 0, 0}, {200, 100, 50})};
    const auto whole = occt::fuse(boxes);
    ASSERT_TRUE(whole);
    EXPECT_EQ(whole->solid.faces.size(), 6U);
    EXPECT_EQ(whole->solid.vertices.size(), 8U);
    const auto apart = occt::fuse(boxes, [](int, int) { return false; });
    ASSERT_TRUE(apart);
    EXPECT_EQ(apart->solid.faces.size(), 10U) << "top, bottom and both sides stay divided";
    EXPECT_NEAR(volume(apart->solid), 200 * 100 * 50, 1e-6);
    EXPECT_TRUE(checkClosed(apart->solid));
    // Where both forms cover the same place, the first one owns it.
    for (std::size_t f = 0; f < apart->solid.faces.size(); ++f)
        if (apart->solid.faces[f].plane.normal.z() > 0.5) {
            EXPECT_NEAR(faceArea(apart->solid, apart->solid.faces[f]), 100 * 100, 1e-9);
        }
}

TEST(OcctFuse, contactAlongAnEdgeOrAtAPoint) {
    const Polyhedron box = makeBox({0, 0, 0}, {10, 10, 10});
    const auto edge = occt::fuse({box, makeBox({10, 10, 0}, {20, 20, 10})});
    ASSERT_TRUE(edge);
    EXPECT_EQ(edge->solids, 2);
    EXPECT_FALSE(edge->contacts.empty());
    const auto point = occt::fuse({box, makeBox({10, 10, 10}, {20, 20, 20})});
    ASSERT_TRUE(point);
    EXPECT_FALSE(point->contacts.empty());
    const auto clear = occt::fuse({box, makeBox({5, 5, 5}, {20, 20, 20})});
    ASSERT_TRUE(clear);
    EXPECT_TRUE(clear->contacts.empty());
}

TEST(OcctFuse, stopsWhenAsked) {
    std::stop_source source;
    source.request_stop();
    const auto fused = occt::fuse({makeBox({0, 0, 0}, {10, 10, 10}), makeBox({5, 5, 5}, {20, 20, 20})}, {},
                                  Job{source.get_token(), {}});
    ASSERT_FALSE(fused);
    EXPECT_EQ(fused.error().code, "stopped");
}

TEST(OcctFuse, refusesOpenSolids) {
    Polyhedron open = makeBox({0, 0, 0}, {10, 10, 10});
    open.faces.pop_back();
    EXPECT_EQ(occt::fuse({open, makeBox({5, 5, 5}, {20, 20, 20})}).error().code, "invalid-solid");
    EXPECT_EQ(occt::fuse({}).error().code, "join-failed");
}

TEST(Occt, itsExceptionsBecomeErrors) {
    const auto result =
        occt::guarded("invalid-solid", []() -> Expected<int> { throw Standard_Failure("too thin"); });
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, "invalid-solid");
    EXPECT_NE(result.error().message.find("too thin"), std::string::npos);
}

TEST(Occt, volumeAgreesWithTheDivergenceTheorem) {
    auto random = seeded(11);
    for (int round = 0; round < 10; ++round) {
        const auto fused = occt::fuse({turnedBox(random), turnedBox(random), turnedBox(random)});
        ASSERT_TRUE(fused);
        const auto v = occt::volume(fused->solid);
        ASSERT_TRUE(v) << v.error().message;
        EXPECT_NEAR(*v, volume(fused->solid), 1e-6 * *v);
    }
    Polyhedron open = makeBox({0, 0, 0}, {10, 10, 10});
    open.faces.pop_back();
    EXPECT_EQ(occt::volume(open).error().code, "invalid-solid");
}

TEST(Occt, facesWithoutSharedCornersAreSewn) {
    const Polyhedron box = makeBox({0, 0, 0}, {10, 20, 30});
    Polyhedron loose;
    for (const PolyFace& face : box.faces) {
        PolyFace copy = face;
        for (auto& loop : copy.loops)
            for (int& v : loop) {
                loose.vertices.push_back(box.vertices[std::size_t(v)]);
                v = static_cast<int>(loose.vertices.size()) - 1;
            }
        loose.faces.push_back(copy);
    }
    const auto v = occt::volume(loose);
    ASSERT_TRUE(v) << v.error().message;
    EXPECT_NEAR(*v, 6000, 1e-6);
}

// Closed forms: box ∩ box; cylinder π r² h; capsule π r² h + 4/3 π r³.
TEST(Occt, commonVolumesInClosedForm) {
    const Polyhedron box = makeBox({0, 0, 0}, {100, 100, 100});
    EXPECT_NEAR(*occt::commonVolume(box, makeBox({90, 80, 70}, {200, 200, 200})), 10 * 20 * 30, 1e-6);
    EXPECT_EQ(*occt::commonVolume(box, makeBox({101, 0, 0}, {200, 100, 100})), 0);
    EXPECT_NEAR(*occt::commonVolume(box, makeBox({100, 0, 0}, {200, 100, 100})), 0, 1e-6) << "touching";
    const double pi = std::numbers::pi;
    const ConvexSolid cylinder{ConvexSolid::Kind::cylinder, {{50, 50, 50}, {50, 50, 150}}, 20};
    EXPECT_NEAR(*occt::commonVolume(box, cylinder), pi * 400 * 50, 1e-6 * pi * 400 * 50);
    const ConvexSolid capsule{ConvexSolid::Kind::hull, {{30, 50, 50}, {70, 50, 50}}, 20};
    const double all = pi * 400 * 40 + 4.0 / 3 * pi * 8000;
    EXPECT_NEAR(*occt::commonVolume(box, capsule), all, 1e-6 * all);
    const ConvexSolid ball{ConvexSolid::Kind::hull, {{0, 0, 0}}, 20};
    EXPECT_NEAR(*occt::commonVolume(box, ball), 4.0 / 3 * pi * 8000 / 8, 1e-3);
}

TEST(Occt, distancesInClosedForm) {
    const Polyhedron box = makeBox({0, 0, 0}, {10, 10, 10});
    const auto corner = occt::nearest(box, makeBox({13, 14, 22}, {20, 20, 30}));
    ASSERT_TRUE(corner);
    EXPECT_NEAR(corner->distance, 13, 1e-9) << "3, 4, 12: a 13 diagonal";
    EXPECT_FALSE(corner->meets);
    EXPECT_NEAR((corner->onA - Vec3(10, 10, 10)).norm(), 0, 1e-9);
    EXPECT_NEAR((corner->onB - Vec3(13, 14, 22)).norm(), 0, 1e-9);
    const ConvexSolid capsule{ConvexSolid::Kind::hull, {{20, 5, 5}, {30, 5, 5}}, 4};
    EXPECT_NEAR(occt::nearest(box, capsule)->distance, 6, 1e-6);
    EXPECT_TRUE(occt::nearest(box, makeBox({5, 5, 5}, {20, 20, 20}))->meets);
    EXPECT_TRUE(occt::nearest(box, makeBox({4, 4, 4}, {6, 6, 6}))->meets) << "wholly inside";
}

// Comparing changes neither: the same figures to the bit, however often and with whatever before.
TEST(Occt, aSolidBuiltOnceComparesAsOneBuiltEachTime) {
    const Polyhedron box = makeBox({0, 0, 0}, {100, 100, 100});
    const occt::Built built(box);
    for (int round = 0; round < 3; ++round)
        for (const double x : {30.0, 99.5, 130.0}) {
            const ConvexSolid ball{ConvexSolid::Kind::hull, {{x, 50, 50}, {x + 20, 60, 50}}, 15};
            const occt::Built other(ball);
            EXPECT_EQ(*occt::commonVolume(built, other), *occt::commonVolume(box, ball)) << x;
            const auto once = occt::nearest(built, other), fresh = occt::nearest(box, ball);
            EXPECT_EQ(once->distance, fresh->distance) << x;
            EXPECT_EQ(once->onA, fresh->onA) << x;
        }
    const occt::Built nothing(ConvexSolid{});
    EXPECT_EQ(occt::nearest(built, nothing).error().code, "invalid-solid");
    EXPECT_EQ(occt::commonVolume(built, nothing).error().code, "invalid-solid");
}

TEST(Occt, refusesSolidsWithoutSize) {
    const Polyhedron box = makeBox({0, 0, 0}, {10, 10, 10});
    const ConvexSolid nothing{ConvexSolid::Kind::cylinder, {{5, 5, 5}, {5, 5, 5}}, 1};
    EXPECT_EQ(occt::commonVolume(box, nothing).error().code, "invalid-solid");
    EXPECT_EQ(occt::nearest(box, ConvexSolid{}).error().code, "invalid-solid");
}
