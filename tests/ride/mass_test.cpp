// Mass properties against closed forms and against OpenCASCADE's own integrals.
#include "core/geometry/convex_hull.h"
#include "core/geometry/occt_shape.h"
#include "core/ride/mass.h"
#include "tests/geometry/seed.h"
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <gp_Mat.hxx>
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::ride;

namespace {

Mat3 anyRotation(std::mt19937_64& random) {
    const Vec3 axis(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1));
    return Eigen::AngleAxisd(uniform(random, 0, 3), axis.normalized()).toRotationMatrix();
}

Polyhedron anyHull(std::mt19937_64& random, int points) {
    std::vector<Vec3> at;
    for (int i = 0; i < points; ++i)
        at.emplace_back(uniform(random, -900, 1200), uniform(random, -400, 500), uniform(random, 10, 900));
    return convexHull3(at);
}

/// A box with a square hole from top to bottom.
Polyhedron tubeBox(double outer, double inner, double height) {
    Polyhedron solid;
    for (double z : {0.0, height})
        for (double half : {outer / 2, inner / 2})
            for (int k = 0; k < 4; ++k)
                solid.vertices.emplace_back(half * (k == 0 || k == 3 ? 1 : -1), half * (k < 2 ? 1 : -1), z);
    const auto face = [&](const Vec3& normal, std::vector<std::vector<int>> loops) {
        const Vec3 on = solid.vertices[static_cast<std::size_t>(loops[0][0])];
        solid.faces.push_back({{normal, normal.dot(on)}, std::move(loops), ""});
    };
    face(Vec3::UnitZ(), {{8, 9, 10, 11}, {15, 14, 13, 12}});
    face(-Vec3::UnitZ(), {{3, 2, 1, 0}, {4, 5, 6, 7}});
    const std::array<Vec3, 4> normals{Vec3::UnitY(), -Vec3::UnitX(), -Vec3::UnitY(), Vec3::UnitX()};
    for (int k = 0; k < 4; ++k) {
        const int n = (k + 1) % 4;
        face(normals[static_cast<std::size_t>(k)], {{k, n, 8 + n, 8 + k}});
        face(-normals[static_cast<std::size_t>(k)], {{4 + n, 4 + k, 12 + k, 12 + n}});
    }
    return solid;
}

} // namespace

TEST(Mass, ABox) {
    // m (b² + c²) / 12: any table of moments of inertia
    const auto box = solidMass(makeBox({100, 200, 300}, {700, 600, 500}), 32);
    ASSERT_TRUE(box);
    EXPECT_NEAR(box->mass, 0.6 * 0.4 * 0.2 * 32, 1e-12);
    EXPECT_NEAR((box->centre - Vec3(400, 400, 400)).norm(), 0, 1e-9);
    const double m = box->mass;
    const Vec3 want(m * (400 * 400 + 200 * 200) / 12, m * (600 * 600 + 200 * 200) / 12,
                    m * (600 * 600 + 400 * 400) / 12);
    EXPECT_NEAR((box->inertia.diagonal() - want).norm(), 0, 1e-9 * want.norm());
    EXPECT_NEAR((box->inertia - Mat3(want.asDiagonal())).norm(), 0, 1e-9 * want.norm());
}

TEST(Mass, ATubeIsTheBoxLessTheHole) {
    const Polyhedron tube = tubeBox(300, 200, 500);
    ASSERT_TRUE(checkClosed(tube)) << checkClosed(tube).error().message;
    const auto got = solidMass(tube, 1000);
    ASSERT_TRUE(got);
    EXPECT_NEAR(got->mass, (0.09 - 0.04) * 0.5 * 1000, 1e-9);
    const double iz = 45 * (300 * 300 * 2) / 12.0 - 20 * (200 * 200 * 2) / 12.0;
    EXPECT_NEAR(got->inertia(2, 2), iz, 1e-6);
}

TEST(Mass, ATetrahedron) {
    // regular: m s² / 20 about any axis through its centre (E. Weisstein's tables of inertia tensors)
    const auto got = solidOfMass(convexHull3({{0, 0, 0}, {100, 100, 0}, {100, 0, 100}, {0, 100, 100}}), 3);
    ASSERT_TRUE(got);
    EXPECT_NEAR((got->inertia - Mat3::Identity() * (3 * 20000 / 20.0)).norm(), 0, 1e-8);
    EXPECT_NEAR((got->centre - Vec3(50, 50, 50)).norm(), 0, 1e-12);
}

TEST(Mass, AsOpenCascadeIntegratesIt) {
    auto random = seeded(41);
    for (int round = 0; round < 40 / slowdown; ++round) {
        const Polyhedron solid = anyHull(random, 4 + below(random, 12));
        const auto got = solidMass(solid, 1e9); // 1 kg a mm³: mass is volume
        ASSERT_TRUE(got);
        const auto shape = occt::build(solid);
        ASSERT_TRUE(shape) << shape.error().message;
        GProp_GProps props;
        BRepGProp::VolumeProperties(shape->solid, props);
        EXPECT_NEAR(got->mass, props.Mass(), 1e-9 * got->mass);
        EXPECT_NEAR((got->centre - occt::vecOf(props.CentreOfMass())).norm(), 0, 1e-6);
        const gp_Mat m = props.MatrixOfInertia(); // about the centre of mass
        for (int r = 0; r < 3; ++r)
            for (int c = 0; c < 3; ++c)
                EXPECT_NEAR(got->inertia(r, c), m(r + 1, c + 1), 1e-9 * got->inertia.norm()) << r << c;
    }
}

TEST(Mass, PartsAsOneAreTheWhole) {
    auto random = seeded(42);
    for (int round = 0; round < 60 / slowdown; ++round) {
        // a hull cut in two by a plane of its own box: the halves together are the hull
        const double a = uniform(random, 100, 900), b = uniform(random, 100, 900),
                     c = uniform(random, 100, 900);
        const double at = uniform(random, 0.1, 0.9) * a;
        const auto whole = solidMass(makeBox({0, 0, 0}, {a, b, c}), 30);
        const auto one = solidMass(makeBox({0, 0, 0}, {at, b, c}), 30);
        const auto two = solidMass(makeBox({at, 0, 0}, {a, b, c}), 30);
        ASSERT_TRUE(whole && one && two);
        const Mat3 turn = anyRotation(random);
        const Vec3 by(uniform(random, -500, 500), 20, -70);
        const MassProperties sum = combined({moved(*one, turn, by), moved(*two, turn, by)});
        const MassProperties all = moved(*whole, turn, by);
        EXPECT_NEAR(sum.mass, all.mass, 1e-12);
        EXPECT_NEAR((sum.centre - all.centre).norm(), 0, 1e-9);
        EXPECT_NEAR((sum.inertia - all.inertia).norm(), 0, 1e-9 * all.inertia.norm());
        // turning the solid is turning its figures
        const auto turned = solidMass(slab::moved(makeBox({0, 0, 0}, {a, b, c}), turn, by), 30);
        ASSERT_TRUE(turned);
        EXPECT_NEAR((turned->inertia - all.inertia).norm(), 0, 1e-9 * all.inertia.norm());
    }
}

TEST(Mass, AboutAnAxis) {
    const auto part = pointMass(2, {300, 400, 7});
    ASSERT_TRUE(part);
    const auto about = inertiaAbout(*part, Vec3::Zero(), {0, 0, 5});
    ASSERT_TRUE(about);
    EXPECT_NEAR(*about, 2 * 500 * 500, 1e-9);
    EXPECT_EQ(inertiaAbout(*part, Vec3::Zero(), Vec3::Zero()).error().code, "out-of-range");
}

TEST(Mass, ExampleAOfTheTable) {
    // donor 55 kg at 0.30 m, rider 85 at 0.75, body 25 at 0.70: centre 0.5924 m (computed worked example)
    const MassProperties all =
        combined({{55, {0, 0, 300}, {}}, {85, {0, 0, 750}, {}}, {25, {0, 0, 700}, {}}});
    EXPECT_NEAR(all.mass, 165, 1e-12);
    EXPECT_NEAR(all.centre.z(), 592.4, 0.05);
    EXPECT_EQ(combined({}).mass, 0);
}

TEST(Mass, Refusals) {
    EXPECT_EQ(pointMass(-1, Vec3::Zero()).error().code, "out-of-range");
    EXPECT_EQ(pointMass(1, Vec3::Constant(NAN)).error().code, "out-of-range");
    const Polyhedron box = makeBox({0, 0, 0}, {10, 10, 10});
    EXPECT_EQ(solidMass(box, 0).error().code, "out-of-range");
    EXPECT_EQ(solidOfMass(box, NAN).error().code, "out-of-range");
    EXPECT_EQ(solidMass({}, 30).error().code, "no-volume");
    Polyhedron inward = box;
    for (PolyFace& face : inward.faces) std::reverse(face.loops[0].begin(), face.loops[0].end());
    EXPECT_EQ(solidMass(inward, 30).error().code, "no-volume");
}
