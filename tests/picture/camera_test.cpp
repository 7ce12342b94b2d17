// Where the camera stood, and things that lie before the marked plane.
#include "core/picture/camera.h"
#include "tests/picture/marks.h"
#include "tests/picture/views.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

const Vec2 photoSize(3000, 2000);

/// A pinhole camera over a board: z runs from the board towards it, mm.
struct Camera {
    Mat3 lens = Mat3::Identity(), turn = Mat3::Identity();
    Vec3 shift = Vec3::Zero();
    [[nodiscard]] Vec2 see(const Vec3& p) const { return (lens * (turn * p + shift)).hnormalized(); }
    [[nodiscard]] double away() const { return std::abs(turn.col(2).dot(shift)); }
    [[nodiscard]] double focal() const { return lens(0, 0); }
};

/// @param tilt, pan  radians; they turn about the board's middle
Camera cameraAt(double focal, const Vec2& size, double away, double tilt, double pan) {
    Camera c;
    c.lens << focal, 0, photoSize.x() / 2, 0, focal, photoSize.y() / 2, 0, 0, 1;
    c.turn = (Eigen::AngleAxisd(tilt, Vec3::UnitX()) * Eigen::AngleAxisd(pan, Vec3::UnitY()) *
              Eigen::AngleAxisd(std::numbers::pi, Vec3::UnitX()))
                 .toRotationMatrix();
    c.shift = Vec3(0, 0, away) - c.turn * Vec3(size.x() / 2, size.y() / 2, 0);
    return c;
}

Camera randomCamera(std::mt19937_64& random, const Vec2& size) {
    const double focal = uniform(random, 1800, 4500);
    const double side = uniform(random, 0, 1) < 0.5 ? -1 : 1;
    return cameraAt(focal, size, focal * size.maxCoeff() / uniform(random, 1400, 2300),
                    uniform(random, -0.5, 0.5), side * uniform(random, 0.3, 0.8));
}

MarkedRectangle marked(const Camera& c, const Vec2& size, double click = 1) {
    MarkedRectangle r;
    const auto q = rectangle(size.x(), size.y());
    for (std::size_t i = 0; i < 4; ++i) r.corners[i] = c.see({q[i].x(), q[i].y(), 0});
    r.width = size.x();
    r.height = size.y();
    r.picture = photoSize;
    r.click = click;
    return r;
}

TEST(PictureCamera, IsFoundExactlyFromExactCorners) {
    auto random = seeded(1);
    int told = 0;
    for (int i = 0; i < 200; ++i) {
        const Vec2 size(uniform(random, 800, 3000), uniform(random, 600, 2000));
        const Camera c = randomCamera(random, size);
        const auto found = cameraOf(marked(c, size));
        if (!found) continue;
        ++told;
        EXPECT_EQ(found->source, PictureCamera::Source::corners);
        EXPECT_NEAR(found->distance / c.away(), 1, 1e-8);
        EXPECT_GT(found->error(1), 0);
    }
    std::printf("told %d of 200\n", told);
    EXPECT_GT(told, 150);
}

TEST(PictureCamera, OnePointPerspectiveIsTheTextbooksSimilarTriangles) {
    // Turned about the plumb axis only, by 30°: the near edge looks as much higher as it is nearer.
    const Vec2 size(2000, 1000);
    const Camera c = cameraAt(2000, size, 4000, 0, std::numbers::pi / 6);
    const MarkedRectangle r = marked(c, size);
    const double left = (r.corners[0] - r.corners[3]).norm(), right = (r.corners[1] - r.corners[2]).norm();
    // Depths of both edges: 4000 ± 1000 sin 30°.
    EXPECT_NEAR(std::max(left, right) / std::min(left, right), 4500.0 / 3500, 1e-9);
    const auto found = cameraOf(r);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->distance, 4000 * std::cos(std::numbers::pi / 6), 1e-4); // square to the plane
}

TEST(PictureCamera, SquareOnItIsNotTold) {
    auto random = seeded(2);
    for (int i = 0; i < 100; ++i) {
        const Vec2 size(2440, 1220);
        MarkedRectangle r = marked(cameraAt(2500, size, 5000, 0, 0), size);
        for (Vec2& corner : r.corners) corner += normal2(random);
        EXPECT_FALSE(cameraOf(r)) << "noise is no perspective";
    }
    MarkedRectangle none = marked(cameraAt(2500, {2000, 1000}, 5000, 0.3, 0.5), {2000, 1000});
    none.picture = Vec2::Zero();
    EXPECT_FALSE(cameraOf(none)) << "nobody has seen the file";
    none.picture = photoSize;
    none.width = 0;
    EXPECT_FALSE(cameraOf(none));
}

TEST(PictureCamera, LiesWithinItsErrorAsOftenAsForetold) {
    auto random = seeded(3);
    int told = 0, within = 0;
    double square = 0;
    for (int i = 0; i < 3000 / slowdown; ++i) {
        const Vec2 size(2440, 1220);
        const Camera c = randomCamera(random, size);
        MarkedRectangle r = marked(c, size);
        const Vec2 axis = 0.02 * photoSize.maxCoeff() * normal2(random); // the lens' axis is off the middle
        for (Vec2& corner : r.corners) corner += axis + normal2(random);
        const auto found = cameraOf(r);
        if (!found || found->error(1) > 0.12 * found->distance) continue; // of first order
        ++told;
        const double off = (found->distance - c.away()) / found->error(1);
        square += off * off;
        within += std::abs(off) < 2 ? 1 : 0;
    }
    std::printf("%d told: %.3f within two standard errors, spread %.3f of the foretold\n", told,
                within * 1.0 / told, std::sqrt(square / told));
    EXPECT_GT(told, 1000 / slowdown);
    EXPECT_NEAR(within * 1.0 / told, 0.9545, 0.025);
    EXPECT_NEAR(std::sqrt(square / told), 1, 0.12);
}

TEST(PictureCamera, AUsualLensHoldsWhatLensesThereAre) {
    for (const double focal : {0.55, 0.7, 1.2, 2.0}) { // longer sides
        const double mmPerPixel = 2, away = focal * 3000 * mmPerPixel;
        const PictureCamera c = usualCamera(photoSize, mmPerPixel);
        EXPECT_LT(std::abs(c.distance - away), 2 * c.error(1)) << focal;
        EXPECT_EQ(c.source, PictureCamera::Source::lens);
    }
}

TEST(Depth, IsSimilarTriangles) {
    // 3 m away and 300 mm before the sheet: 610 mm read 677.8.
    PictureCamera camera{PictureCamera::Source::typed, 3000, {}, 100.0 * 100.0};
    LengthSlopes seen;
    seen.value = 610 * 3000.0 / 2700;
    seen.shared = {2, -1};
    seen.own = 4;
    const double click = 1.5;
    const auto at = [&](double value, double error, bool shared) {
        return atDepth(seen, camera, {{value, error}, shared}, click);
    };
    EXPECT_NEAR(measuredOf(at(300, 0, false), click).value, 610, 1e-9);
    EXPECT_NEAR(measuredOf(at(-300, 0, false), click).value, seen.value * 1.1, 1e-9)
        << "behind it looks smaller";
    // dL/dcamera = L' z / d², dL/dz = −L' / d.
    const double marks = (click * click * 5 + 4) * 0.81, byCamera = seen.value * 300 / 9e6 * 100,
                 byDepth = seen.value / 3000 * 20;
    for (const bool shared : {false, true})
        EXPECT_NEAR(measuredOf(at(300, 20, shared), click).error,
                    std::sqrt(marks + byCamera * byCamera + byDepth * byDepth), 1e-9);
    // In the plane nothing changes; one that may lie before it is as much less sure.
    EXPECT_EQ(measuredOf(at(0, 0, false), click).value, seen.value);
    EXPECT_NEAR(measuredOf(at(0, 20, false), click).error,
                std::sqrt(click * click * 5 + 4 + byDepth * byDepth), 1e-9);
}

Picture leanedSheet(const MarkedRectangle& r) {
    Picture p;
    p.name = "photo";
    p.file = "photo.jpg";
    p.hash = "ab";
    p.space = Space::build;
    for (const Vec2& corner : r.corners) p.corners.push_back(mark(corner));
    p.rectangle_width = px(r.width) + " mm";
    p.rectangle_height = px(r.height) + " mm";
    return p;
}

TEST(Depth, ADonorBeforeTheSheetIsMeasuredAtItsTrueSize) {
    const Vec2 size(2440, 1220);
    const Camera c = cameraAt(2200, size, 3600, 0.15, 0.45);
    Picture p = leanedSheet(marked(c, size));
    const double depth = 300;
    p.lines = {lineOf(c.see({900, 100, depth}), c.see({900, 710, depth}), "seat_height")};
    const PictureFile file = photo(photoSize.x(), photoSize.y());
    const PlacedLine flat = place(p, 1, &file).picture.lines.at(0);
    const double looks = 610 * c.away() / (c.away() - depth);
    EXPECT_NEAR(flat.length.value, looks, 1e-6);
    EXPECT_GT(flat.length.value - 610, 3 * flat.length.error) << "what is not said is not known";
    p.lines[0].depth = "300 mm";
    p.lines[0].depth_error = "15 mm";
    const Placed corrected = place(p, 1, &file);
    EXPECT_TRUE(corrected.findings.empty()) << corrected.findings[0].message;
    EXPECT_NEAR(corrected.picture.lines.at(0).length.value, 610, 1e-4);
    EXPECT_GT(corrected.picture.lines.at(0).length.error, flat.length.error);
    EXPECT_NEAR(corrected.picture.lines.at(0).flat.value, looks, 1e-6);
    // The picture's own depth is that of all lines that have none.
    Picture all = p;
    all.depth = p.lines[0].depth, all.depth_error = p.lines[0].depth_error;
    all.lines[0].depth.clear(), all.lines[0].depth_error.clear();
    EXPECT_NEAR(place(all, 1, &file).picture.lines.at(0).length.error,
                corrected.picture.lines.at(0).length.error, 1e-9);
    // Typed, the camera's distance goes before what the corners tell.
    p.camera = px(c.away()) + " mm";
    p.camera_error = "1 mm";
    const PlacedPicture typed = place(p, 1, &file).picture;
    EXPECT_EQ(typed.camera.source, PictureCamera::Source::typed);
    EXPECT_NEAR(typed.lines.at(0).length.value, 610, 1e-6);
    EXPECT_LT(typed.lines.at(0).length.error, corrected.picture.lines.at(0).length.error);
}

TEST(Depth, GoesIntoTheSizeAndIntoTheClearance) {
    const Vec2 size(2440, 1220);
    const Camera c = cameraAt(2200, size, 3600, 0.15, 0.45);
    Project p;
    p.donor.kind = "powered_chair";
    p.pictures = {leanedSheet(marked(c, size))};
    p.pictures[0].depth = "300 mm";
    p.pictures[0].depth_error = "40 mm";
    // Two lines whose depth is one figure: its error does not grow less by there being two.
    for (const double x : {900.0, 1300.0})
        p.pictures[0].lines.push_back(lineOf(c.see({x, 100, 300}), c.see({x, 710, 300}), "seat_height"));
    const PictureSet set = placePictures(p, Scope{}, {photo(photoSize.x(), photoSize.y())});
    ASSERT_EQ(set.sizes.size(), 1u);
    EXPECT_NEAR(set.sizes[0].value.value, 610, 1e-3);
    EXPECT_GT(set.sizes[0].value.error, 610 * 40 / c.away()) << "the depth's share alone";
    p.pictures[0].lines[0].depth = p.pictures[0].lines[1].depth = "300 mm";
    p.pictures[0].lines[0].depth_error = p.pictures[0].lines[1].depth_error = "40 mm";
    const PictureSet own = placePictures(p, Scope{}, {photo(photoSize.x(), photoSize.y())});
    EXPECT_LT(own.sizes[0].value.error, set.sizes[0].value.error) << "two depths, each measured for itself";
}

TEST(Depth, SpreadsAsItSays) {
    auto random = seeded(5);
    const PictureFile file = photo(photoSize.x(), photoSize.y());
    const Vec2 size(2440, 1220);
    int told = 0, within = 0, without = 0;
    double square = 0;
    for (int i = 0; i < 1500 / slowdown; ++i) {
        const Camera c = randomCamera(random, size);
        const Vec2 axis = 0.02 * photoSize.maxCoeff() * normal2(random);
        const auto noisy = [&](const Vec3& at) -> Vec2 { return c.see(at) + axis + normal2(random); };
        MarkedRectangle r = marked(c, size);
        for (Vec2& corner : r.corners) corner += axis + normal2(random);
        Picture p = leanedSheet(r);
        const double depth = uniform(random, 100, 500), sure = uniform(random, 5, 30);
        p.lines = {lineOf(noisy({900, 200, depth}), noisy({1500, 900, depth}))};
        p.lines[0].depth = px(depth + sure * normal(random)) + " mm";
        p.lines[0].depth_error = px(sure) + " mm";
        const PlacedPicture placed = place(p, 1, &file).picture;
        if (placed.camera.source != PictureCamera::Source::corners || placed.lines.empty()) continue;
        const double truth = std::hypot(600, 700);
        const Measured length = placed.lines[0].length, flat = placed.lines[0].flat;
        ++told;
        square += std::pow((length.value - truth) / length.error, 2);
        within += std::abs(length.value - truth) < 2 * length.error ? 1 : 0;
        without += std::abs(flat.value - truth) < 2 * flat.error ? 1 : 0;
    }
    std::printf("%d lines: %.3f within two standard errors, spread %.3f; left in the plane %.3f\n", told,
                within * 1.0 / told, std::sqrt(square / told), without * 1.0 / told);
    EXPECT_GT(told, 1000 / slowdown);
    EXPECT_NEAR(within * 1.0 / told, 0.9545, 0.03);
    EXPECT_NEAR(std::sqrt(square / told), 1, 0.15);
}

TEST(Depth, SaysWhatItCannotTell) {
    const PictureFile file = photo(photoSize.x(), photoSize.y());
    const Vec2 size(2440, 1220);
    const Camera c = cameraAt(2500, size, 5000, 0, 0);
    Picture p = leanedSheet(marked(c, size));
    p.lines = {lineOf(c.see({900, 100, 300}), c.see({900, 710, 300}))};
    EXPECT_FALSE(place(p, 1, &file).tells("picture-camera")) << "nobody asked";
    p.depth = "300 mm";
    const Placed guess = place(p, 1, &file);
    EXPECT_TRUE(guess.tells("picture-camera"));
    EXPECT_EQ(guess.picture.camera.source, PictureCamera::Source::lens);
    EXPECT_LT(std::abs(guess.picture.lines.at(0).length.value - 610),
              2 * guess.picture.lines.at(0).length.error);
    p.camera = "5 m";
    EXPECT_TRUE(place(p, 1, &file).findings.empty());
    EXPECT_NEAR(place(p, 1, &file).picture.lines.at(0).length.value, 610, 1e-6);
    p.depth = "4.9 m";
    EXPECT_TRUE(place(p, 1, &file).tells("picture-depth"));
    p.depth = "300 mm";
    p.camera = "-5 m";
    EXPECT_TRUE(place(p, 1, &file).tells("picture-depth"));
}

} // namespace
} // namespace slab
