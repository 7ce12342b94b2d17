#include "core/geometry/polyhedron.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

Polyhedron tetrahedron(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
    Polyhedron t;
    t.vertices = {a, b, c, d};
    for (std::vector<int> loop : {std::vector{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}}) {
        const auto p = [&](int i) { return t.vertices[std::size_t(loop[std::size_t(i)])]; };
        const Vec3 normal = (p(1) - p(0)).cross(p(2) - p(0)).normalized();
        t.faces.push_back({{normal, normal.dot(p(0))}, {loop}, ""});
    }
    return t;
}

/// A 10 × 10 × 1 slab with a 4 × 4 hole through it.
Polyhedron frame() {
    Polyhedron f;
    for (double z : {0.0, 1.0})
        for (auto [x, y] :
             {std::pair{0., 0.}, {10., 0.}, {10., 10.}, {0., 10.}, {3., 3.}, {7., 3.}, {7., 7.}, {3., 7.}})
            f.vertices.emplace_back(x, y, z);
    f.faces.push_back({{Vec3::UnitZ(), 1}, {{8, 9, 10, 11}, {12, 15, 14, 13}}, "top"});
    f.faces.push_back({{-Vec3::UnitZ(), 0}, {{0, 3, 2, 1}, {4, 5, 6, 7}}, "bottom"});
    const auto side = [&](int a, int b) {
        const Vec3 along = f.vertices[std::size_t(b)] - f.vertices[std::size_t(a)];
        const Vec3 normal = along.cross(Vec3::UnitZ()).normalized();
        f.faces.push_back({{normal, normal.dot(f.vertices[std::size_t(a)])}, {{a, b, b + 8, a + 8}}, "side"});
    };
    for (int i = 0; i < 4; ++i) {
        side(i, (i + 1) % 4);
        side(4 + (i + 1) % 4, 4 + i);
    }
    return f;
}

} // namespace

// Volume of a tetrahedron = |det(b − a, c − a, d − a)| / 6 (textbook).
TEST(Polyhedron, tetrahedronVolume) {
    auto random = seeded();
    for (int i = 0; i < 200; ++i) {
        const auto point = [&] {
            return Vec3(uniform(random, -5, 5), uniform(random, -5, 5), uniform(random, -5, 5) + 1e4);
        };
        Vec3 a = point(), b = point(), c = point(), d = point();
        double det = (b - a).dot((c - a).cross(d - a));
        if (det > 0) {
            std::swap(b, c);
            det = -det;
        }
        const Polyhedron t = tetrahedron(a, c, b, d);
        EXPECT_NEAR(volume(t), -det / 6, 1e-9 * (1 - det)) << i;
        EXPECT_TRUE(checkClosed(t));
        EXPECT_TRUE(contains(t, (a + b + c + d) / 4));
        EXPECT_FALSE(contains(t, a + (a - (b + c + d) / 3)));
    }
}

TEST(Polyhedron, boxWithHole) {
    const Polyhedron f = frame();
    ASSERT_TRUE(checkClosed(f));
    EXPECT_NEAR(volume(f), 84, 1e-12);
    EXPECT_NEAR(surfaceArea(f), 2 * 84 + 40 + 16, 1e-12);
    EXPECT_TRUE(contains(f, {1, 1, 0.5}));
    EXPECT_FALSE(contains(f, {5, 5, 0.5}));
    const auto soup = triangulateFace(f, f.faces[0]);
    double sum = 0;
    for (std::size_t i = 0; i < soup.size(); i += 3) {
        const Vec3 twice = (soup[i + 1] - soup[i]).cross(soup[i + 2] - soup[i]);
        EXPECT_GT(twice.z(), 0);
        sum += twice.z() / 2;
    }
    EXPECT_NEAR(sum, 84, 1e-12);
}

TEST(Polyhedron, movedScaledMirrored) {
    const Polyhedron box = makeBox({0, 1, 2}, {4, 3, 7});
    ASSERT_TRUE(checkClosed(box));
    EXPECT_DOUBLE_EQ(volume(box), 40);
    EXPECT_DOUBLE_EQ(surfaceArea(box), 2 * (8 + 20 + 10));
    const Mat3 turn = Eigen::AngleAxisd(0.7, Vec3(1, 2, 3).normalized()).toRotationMatrix();
    for (bool mirror : {false, true}) {
        const Polyhedron there = moved(box, turn, {10, 20, 30}, mirror);
        EXPECT_TRUE(checkClosed(there, 1e-9));
        EXPECT_NEAR(volume(there), 40, 1e-9);
    }
    EXPECT_NEAR(volume(scaled(box, 0.4)), 40 * 0.064, 1e-12);
    EXPECT_TRUE(checkClosed(scaled(box, 0.4), 1e-12));
    const Polyhedron flipped = moved(box, Mat3::Identity(), Vec3::Zero(), true);
    EXPECT_DOUBLE_EQ(bounds(flipped).min.y(), -3);
}

TEST(Polyhedron, checkClosedTellsWhy) {
    Polyhedron open = makeBox({0, 0, 0}, {1, 1, 1});
    open.faces.pop_back();
    EXPECT_EQ(checkClosed(open).error().code, "not-closed");
    Polyhedron bent = makeBox({0, 0, 0}, {1, 1, 1});
    bent.vertices[7].z() += 0.01;
    EXPECT_EQ(checkClosed(bent).error().code, "not-planar");
    Polyhedron doubled = makeBox({0, 0, 0}, {1, 1, 1});
    doubled.faces.push_back(doubled.faces.front());
    EXPECT_EQ(checkClosed(doubled).error().code, "edge-contact");
    EXPECT_EQ(checkClosed({}).error().code, "not-closed");
    Polyhedron wild = makeBox({0, 0, 0}, {1, 1, 1});
    wild.faces[0].loops[0][0] = 99;
    EXPECT_EQ(checkClosed(wild).error().code, "not-closed");
}

TEST(Polyhedron, containsCountsAsMonteCarlo) {
    auto random = seeded();
    const Polyhedron f =
        moved(frame(), Eigen::AngleAxisd(1, Vec3(1, 1, 0).normalized()).toRotationMatrix(), {3, 2, 1});
    const Box3 box = bounds(f);
    int inside = 0;
    const int tries = 20000 / slowdown;
    for (int i = 0; i < tries; ++i) {
        const Vec3 at = box.min + Vec3(uniform(random, 0, 1), uniform(random, 0, 1), uniform(random, 0, 1))
                                      .cwiseProduct(box.size());
        inside += contains(f, at) ? 1 : 0;
    }
    const double share = 84 / box.size().prod();
    const double sigma = std::sqrt(share * (1 - share) / tries);
    EXPECT_NEAR(double(inside) / tries, share, 5 * sigma);
}
