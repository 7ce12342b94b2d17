// Least boxes and ways through a rectangle, against closed forms.
#include "core/modules/extent.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

std::vector<Vec3> boxPoints(double a, double b, double c) {
    std::vector<Vec3> out;
    for (int i = 0; i < 8; ++i) out.emplace_back(i & 1 ? a : 0, i & 2 ? b : 0, i & 4 ? c : 0);
    return out;
}

Mat3 anyTurn(std::mt19937_64& random) {
    const Vec3 axis(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1));
    return Eigen::AngleAxisd(uniform(random, 0, 3), axis.normalized()).toRotationMatrix();
}

std::vector<Vec3> turned(std::vector<Vec3> points, const Mat3& by) {
    for (Vec3& p : points) p = by * p + Vec3(300, -200, 50);
    return points;
}

/// Least height of an opening of width P for a rectangle p × q, p > P: equality in Carver's condition.
double carver(double p, double q, double P) {
    return (2 * p * q * P + (p * p - q * q) * std::sqrt(p * p + q * q - P * P)) / (p * p + q * q);
}

} // namespace

TEST(LeastBox, ABoxHoweverItLies) {
    auto random = seeded(5);
    for (int round = 0; round < 20 / slowdown + 1; ++round) {
        const LeastBox box = leastBox(turned(boxPoints(900, 400, 250), anyTurn(random)));
        EXPECT_NEAR(box.size.x(), 900, 1e-3);
        EXPECT_NEAR(box.size.y(), 400, 1e-3);
        EXPECT_NEAR(box.size.z(), 250, 1e-3);
    }
}

TEST(LeastBox, TheRegularTetrahedronHasItsCube) {
    // four corners of a cube of side a: edge a√2, and that cube is its least box (O'Rourke 1985, figure 1)
    const std::vector<Vec3> corners{{0, 0, 0}, {100, 100, 0}, {100, 0, 100}, {0, 100, 100}};
    auto random = seeded(6);
    const LeastBox box = leastBox(turned(corners, anyTurn(random)));
    EXPECT_NEAR(box.size.prod(), 1e6, 1e6 * 1e-3);
}

TEST(LeastBox, NeverLessThanThePointsNeed) {
    auto random = seeded(7);
    for (int round = 0; round < 30 / slowdown; ++round) {
        std::vector<Vec3> points;
        for (int i = 0; i < 12; ++i)
            points.emplace_back(uniform(random, 0, 800), uniform(random, 0, 500), uniform(random, 0, 300));
        const LeastBox box = leastBox(points);
        EXPECT_NEAR((box.axes.transpose() * box.axes - Mat3::Identity()).norm(), 0, 1e-9);
        for (int k = 0; k < 3; ++k) {
            double low = 1e300, high = -1e300;
            for (const Vec3& p : points) {
                low = std::min(low, box.axes.col(k).dot(p));
                high = std::max(high, box.axes.col(k).dot(p));
            }
            EXPECT_NEAR(high - low, box.size[k], 1e-6);
        }
        EXPECT_LE(box.size.prod(), 800.0 * 500 * 300);
        EXPECT_GE(box.size.x(), box.size.y());
        EXPECT_GE(box.size.y(), box.size.z());
    }
}

TEST(Passing, ABoxStraightThrough) {
    auto random = seeded(8);
    for (int round = 0; round < 10 / slowdown + 1; ++round) {
        const Passing p = bestPassing(turned(boxPoints(2000, 700, 500), anyTurn(random)), 800, 1900);
        EXPECT_TRUE(p.margin >= 300 - 1e-6) << p.margin; // 500 across the 800: 300 to spare, 1200 in height
        EXPECT_NEAR(p.needs.x(), 500, 1.0);
    }
}

TEST(Passing, ARectangleTurnedInARectangle) {
    // long bars of section p × q: only their section counts
    auto random = seeded(9);
    for (int round = 0; round < 25 / slowdown + 1; ++round) {
        const double P = uniform(random, 700, 1000), p = P * uniform(random, 1.001, 1.15),
                     q = p * uniform(random, 0.02, 0.3);
        const double Q = carver(p, q, P);
        if (Q > P) continue;
        const auto bar = turned(boxPoints(30 * p, p, q), anyTurn(random));
        const Passing just = bestPassing(bar, P, Q);
        EXPECT_NEAR(just.margin, 0, 0.01) << p << " x " << q << " in " << P << " x " << Q;
        EXPECT_GT(bestPassing(bar, P + 1, Q + 1).margin, 0.5);
        EXPECT_LT(bestPassing(bar, P - 1, Q - 1).margin, -0.5);
        EXPECT_TRUE(rectangleFits(p, q, P, Q + 1e-9));
        EXPECT_FALSE(rectangleFits(p, q, P, Q - 1e-6));
    }
}

TEST(Passing, TheKnownRectangles) {
    // a strip of no width as long as the opening's diagonal just lies in it
    EXPECT_TRUE(rectangleFits(499.999, 0, 400, 300));
    EXPECT_FALSE(rectangleFits(500.001, 0, 400, 300));
    EXPECT_TRUE(rectangleFits(300, 400, 400, 300));
    EXPECT_FALSE(rectangleFits(401, 299, 400, 300));
    EXPECT_FALSE(rectangleFits(100, 301, 300, 250));
}

TEST(Passing, ACylinderNeedsItsDiameter) {
    std::vector<Vec3> points;
    constexpr int n = 48;
    for (int i = 0; i < n; ++i)
        for (const double z : {0.0, 900.0})
            points.emplace_back(200 * std::cos(2 * std::numbers::pi * i / n),
                                200 * std::sin(2 * std::numbers::pi * i / n), z);
    const Passing p = bestPassing(points, 450, 450);
    EXPECT_NEAR(p.margin, 50, 1.0); // a 48-gon is up to 0.9 mm narrower across its flats
}

TEST(Passing, TheNeedIsWhatTheOrientationTakes) {
    auto random = seeded(10);
    for (int round = 0; round < 15 / slowdown + 1; ++round) {
        std::vector<Vec3> points;
        for (int i = 0; i < 10; ++i)
            points.emplace_back(uniform(random, 0, 900), uniform(random, 0, 700), uniform(random, 0, 500));
        const double w = uniform(random, 300, 900), h = uniform(random, 300, 900);
        const Passing p = bestPassing(points, w, h);
        const Vec3 up = p.way.cross(p.across);
        EXPECT_NEAR(p.way.dot(p.across), 0, 1e-9);
        for (const auto& [axis, need] : {std::pair(p.across, p.needs.x()), std::pair(up, p.needs.y())}) {
            double low = 1e300, high = -1e300;
            for (const Vec3& q : points) {
                low = std::min(low, axis.dot(q));
                high = std::max(high, axis.dot(q));
            }
            EXPECT_NEAR(high - low, need, 1e-6);
        }
        EXPECT_NEAR(p.margin, std::min(w - p.needs.x(), h - p.needs.y()), 1e-9);
        // no straight way is better
        for (int k = 0; k < 200; ++k) {
            const Mat3 m = anyTurn(random);
            Vec3 low = Vec3::Constant(1e300), high = -low;
            for (const Vec3& q : points) {
                low = low.cwiseMin(m * q);
                high = high.cwiseMax(m * q);
            }
            const Vec3 s = high - low;
            EXPECT_LE(std::min(w - s.x(), h - s.y()), p.margin + 1e-6);
        }
    }
}
