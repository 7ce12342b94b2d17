#include "ui/fit/view_camera.h"
#include <cmath>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

const Box3 box{{-700, -320, 90}, {700, 320, 610}};

TEST(ViewCamera, RayThroughAPixelMeetsThePointShownThere) {
    for (const bool parallel : {false, true}) {
        ViewCamera camera;
        camera.parallel = parallel;
        camera.yaw = -0.7;
        camera.pitch = 0.3;
        camera.frame(box);
        for (const Vec3& p : {Vec3(100, 50, 200), Vec3(-600, 300, 600), Vec3(0, 0, 0)}) {
            const Vec3 s = camera.toScreen(p);
            const auto ray = camera.ray(s.x(), s.y());
            const double away = (p - ray.origin).cross(ray.direction).norm();
            EXPECT_LT(away, 1e-8 * camera.distance) << "parallel " << parallel;
        }
    }
}

TEST(ViewCamera, FrameShowsEveryCornerAndFillsTheView) {
    for (const auto direction : {Direction::side, Direction::plan, Direction::end, Direction::threeQuarter}) {
        for (const bool parallel : {false, true}) {
            ViewCamera camera;
            camera.parallel = parallel;
            camera.look(direction);
            camera.frame(box);
            double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
            for (int i = 0; i < 8; ++i) {
                const Vec3 s =
                    camera.toScreen({(i & 1 ? box.max : box.min).x(), (i & 2 ? box.max : box.min).y(),
                                     (i & 4 ? box.max : box.min).z()});
                left = std::min(left, s.x()), right = std::max(right, s.x());
                top = std::min(top, s.y()), bottom = std::max(bottom, s.y());
            }
            EXPECT_GE(left, 0);
            EXPECT_GE(top, 0);
            EXPECT_LE(right, camera.width);
            EXPECT_LE(bottom, camera.height);
            EXPECT_GT(std::max((right - left) / camera.width, (bottom - top) / camera.height), 0.7);
        }
    }
}

TEST(ViewCamera, ZoomKeepsWhatLiesUnderThePointer) {
    ViewCamera camera;
    camera.frame(box);
    const double k = camera.mmPerPixel();
    const Vec3 under = camera.target + camera.right() * (120 - 400) * k - camera.up() * (90 - 300) * k;
    const Vec3 before = camera.toScreen(under);
    camera.zoomAt(120, 90, 0.5);
    const Vec3 after = camera.toScreen(under);
    EXPECT_NEAR(before.x(), after.x(), 1e-8);
    EXPECT_NEAR(before.y(), after.y(), 1e-8);
}

// ISO 8855: x forward, y left, z up. Side view from starboard: forward is right on screen, up is up.
TEST(ViewCamera, StandardDirectionsShowTheAxesTheRightWayRound) {
    ViewCamera camera;
    camera.look(Direction::side);
    EXPECT_GT(camera.right().x(), 0.999);
    EXPECT_GT(camera.up().z(), 0.999);
    camera.look(Direction::plan);
    EXPECT_GT(camera.right().x(), 0.999);
    EXPECT_GT(camera.up().y(), 0.999);
    camera.look(Direction::end);
    EXPECT_GT(camera.right().y(), 0.999);
    EXPECT_GT(camera.up().z(), 0.999);
}

TEST(ViewCamera, OrbitStopsAtThePoles) {
    ViewCamera camera;
    camera.orbit(0, 1e6);
    EXPECT_NEAR(camera.pitch, std::acos(0.0), 1e-12);
    EXPECT_NEAR(camera.up().norm(), 1, 1e-12);
    EXPECT_NEAR(camera.up().dot(camera.forward()), 0, 1e-12);
}

TEST(ViewCamera, SeesWhatItFramesAndNothingOutsideItsPicture) {
    for (const bool parallel : {false, true}) {
        ViewCamera camera;
        camera.parallel = parallel;
        camera.look(Direction::threeQuarter);
        camera.frame(box);
        EXPECT_TRUE(camera.sees(box));
        const Vec3 far = box.size() * 3;
        EXPECT_FALSE(camera.sees({box.min - far, box.max + far})) << "grown past the borders";
        EXPECT_FALSE(camera.sees({box.min + far, box.max + far})) << "beside the picture";
        camera.frame({box.min - far, box.max + far});
        EXPECT_TRUE(camera.sees({box.min - far, box.max + far}));
    }
}

} // namespace
} // namespace slab::ui
