// Painted from the back to the front, the figure seen at any point is the one nearest to the eye.
#include "core/pack/back_to_front.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <optional>

namespace slab {
namespace {

Frame turnedFrame(const Vec3& at, double yaw, double pitch) {
    Frame f;
    f.origin = at;
    f.axes =
        (Eigen::AngleAxisd(yaw, Vec3::UnitZ()) * Eigen::AngleAxisd(pitch, Vec3::UnitY())).toRotationMatrix();
    return f;
}

/// How near to the eye a figure is where the line of sight through a point meets it.
std::optional<double> nearness(const FlatFigure& figure, const Vec3& point, const Vec3& eye) {
    const Vec3 w = figure.frame.axes.col(2);
    if (std::abs(w.dot(eye)) < 1e-9) return {};
    const double t = w.dot(figure.frame.origin - point) / w.dot(eye);
    const Vec2 p = figure.frame.toPlane(point + t * eye);
    if (!contains(figure.area, p)) return {};
    return t;
}

} // namespace

TEST(BackToFront, whatIsPaintedLastIsNearestToTheEye) {
    auto random = seeded(29);
    const Vec3 eye = Vec3(1, 1, 0.9).normalized();
    int seen = 0, cut = 0;
    for (int round = 0; round < 60; ++round) {
        std::vector<FlatFigure> figures;
        const int count = 2 + below(random, 5);
        for (int i = 0; i < count; ++i) {
            const Vec3 at(uniform(random, -100, 100), uniform(random, -100, 100), uniform(random, -100, 100));
            FlatFigure f{static_cast<std::size_t>(i),
                         turnedFrame(at, uniform(random, -3, 3), uniform(random, -1.5, 1.5)),
                         {{{-200, -150}, {200, -150}, {200, 150}, {-200, 150}},
                          {{{-60, -40}, {-60, 40}, {60, 40}, {60, -40}}}}};
            figures.push_back(f);
        }
        const auto order = backToFront(figures, eye);
        cut += static_cast<int>(order.size()) - count;
        double before = 0, after = 0;
        for (const FlatFigure& f : figures) before += area(f.area);
        for (const FlatFigure& f : order) after += area(f.area);
        EXPECT_NEAR(after, before, 1e-6 * before) << "nothing is lost";
        for (int k = 0; k < 100; ++k) {
            const Vec3 point(uniform(random, -200, 200), uniform(random, -200, 200),
                             uniform(random, -200, 200));
            std::optional<double> nearest, last;
            for (const FlatFigure& f : figures)
                if (const auto t = nearness(f, point, eye); t && (!nearest || *t > *nearest)) nearest = t;
            for (const FlatFigure& f : order)
                if (const auto t = nearness(f, point, eye)) last = t;
            if (!last || !nearest) continue; // on a cut
            EXPECT_NEAR(*last, *nearest, 1e-2) << "round " << round;
            ++seen;
        }
    }
    std::printf("%d points, %d cuts\n", seen, cut);
    EXPECT_GT(seen, 3000);
    EXPECT_GT(cut, 100);
}

TEST(BackToFront, figuresInOnePlaneStayInTheirOrder) {
    const Polygon square{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {}};
    Frame flipped;
    flipped.axes = Eigen::AngleAxisd(std::numbers::pi, Vec3::UnitX()).toRotationMatrix();
    const auto order = backToFront({{7, {}, square}, {3, flipped, square}}, Vec3::UnitZ());
    ASSERT_EQ(order.size(), 2U);
    EXPECT_EQ(order[0].board, 7U);
    EXPECT_EQ(order[1].board, 3U);
    EXPECT_TRUE(backToFront({}, Vec3::UnitZ()).empty());
}

} // namespace slab
