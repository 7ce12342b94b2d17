#include "core/picture/place.h"
#include "tests/picture/marks.h"
#include <algorithm>
#include <fstream>
#include <gtest/gtest.h>

namespace slab {
namespace {

TEST(Place, ADrawingByADistance) {
    const PictureFile file = photo();
    const Placed at = place(drawing(), 0.4, &file);
    EXPECT_TRUE(at.findings.empty()) << at.findings[0].message;
    EXPECT_EQ(at.picture.scale, PlacedPicture::Scale::distance);
    EXPECT_EQ(at.picture.state, PlacedPicture::State::present);
    // 5 m over 1000 px, at 2:5: 2 mm for a pixel; y turns up.
    EXPECT_LT((toPlane(at.picture.fix, {100, 500}) - Vec2(-400, 80)).norm(), 1e-9);
    EXPECT_LT((toPlane(at.picture.fix, {600, 400}) - Vec2(600, 280)).norm(), 1e-9);
    ASSERT_EQ(at.picture.outline.size(), 4u);
    EXPECT_LT((at.picture.outline[0] - Vec2(-600, 1080)).norm(), 1e-9);
    EXPECT_LT((at.picture.outline[2] - Vec2(5400, -2920)).norm(), 1e-9);
    EXPECT_EQ(at.picture.opacity, 0.6);
    // A picture of the donor keeps its size at every scale.
    Picture own = drawing();
    own.space = Space::build;
    EXPECT_LT((toPlane(place(own, 0.4, &file).picture.fix, {600, 400}) - Vec2(1500, 700)).norm(), 1e-9);
}

TEST(Place, LevelsADrawingAndCropsIt) {
    Picture p = drawing();
    p.to = mark({900, 1100}); // runs down by 3 : 4
    p.turn = "0 deg";
    p.crop_x = "200";
    p.crop_y = "300";
    p.crop_width = "1500";
    p.opacity = "0.25";
    p.features = {mark({900, 1100}, "bow")};
    p.lines = {lineOf({100, 500}, {900, 1100})};
    const PictureFile file = photo();
    const Placed at = place(p, 1, &file);
    EXPECT_TRUE(at.findings.empty());
    EXPECT_LT((toPlane(at.picture.fix, {900, 1100}) - Vec2(4000, 200)).norm(), 1e-9);
    EXPECT_EQ(at.picture.crop.min, Vec2(200, 300));
    EXPECT_EQ(at.picture.crop.max, Vec2(1700, 2000));
    EXPECT_EQ(at.picture.opacity, 0.25);
    ASSERT_EQ(at.picture.features.size(), 1u);
    EXPECT_LT((at.picture.features[0].at - Vec2(4000, 200)).norm(), 1e-9);
    ASSERT_EQ(at.picture.lines.size(), 1u);
    EXPECT_NEAR(at.picture.lines[0].length.value, 5000, 1e-9);
    EXPECT_NEAR(at.picture.lines[0].length.error, 5 * 2, 1e-9); // 5 mm for a pixel, √(2 (1 + 1)) of it
}

TEST(Place, APhotoByFourCornersFromAnyCornerEitherWay) {
    auto random = seeded();
    int upright = 0;
    for (int round = 0; round < 60; ++round) {
        const Mat3 view = randomView(random, 2440, 1220);
        const Vec2 right = seen(view, {1230, 610}) - seen(view, {1220, 610});
        if (std::abs(right.y()) > 0.8 * right.x()) continue; // leans so much that up is no longer sure
        ++upright;
        for (bool clockwise : {false, true})
            for (int first = 0; first < 4; ++first) {
                Picture p = leaned(view, clockwise, first);
                p.from = mark(seen(view, {300, 100}));
                p.x = "10 mm";
                p.y = "20 mm";
                const Placed at = place(p);
                EXPECT_TRUE(at.findings.empty()) << at.findings[0].message;
                EXPECT_EQ(at.picture.scale, PlacedPicture::Scale::rectangle);
                EXPECT_EQ(at.picture.residual, 0);
                const Vec2 other(1900, 800);
                const Vec2 there = toPlane(at.picture.fix, seen(view, other));
                // Upright as seen, never mirrored.
                EXPECT_LT((there - Vec2(10 + 1600, 20 + 700)).norm(), 1e-6)
                    << round << " " << clockwise << first;
                // Without a fixed point it stands on its lowest corner, wherever the marking began.
                p.from = {};
                const Placed standing = place(p);
                Vec2 low = Vec2::Constant(1e9);
                for (const Vec2& corner : rectangle(2440, 1220))
                    low = low.cwiseMin(toPlane(standing.picture.fix, seen(view, corner)));
                EXPECT_LT((low - Vec2(10, 20)).norm(), 1e-6) << round << " " << clockwise << first;
            }
    }
    EXPECT_GT(upright, 30);
}

TEST(Place, TurnsARectifiedPhotoAndChecksItsDistance) {
    auto random = seeded(2);
    const Mat3 view = randomView(random, 2440, 1220);
    Picture p = leaned(view);
    p.from = mark(seen(view, {300, 100}));
    p.to = mark(seen(view, {300, 1100}));
    p.turn = "90 deg";
    p.distance = "1 m";
    Placed at = place(p);
    EXPECT_TRUE(at.findings.empty());
    ASSERT_TRUE(at.picture.check);
    EXPECT_NEAR(at.picture.check->found.value, 1000, 1e-6);
    EXPECT_LT((toPlane(at.picture.fix, seen(view, {300, 1100})) - Vec2(0, 1000)).norm(), 1e-6);
    p.turn = "0 deg";
    EXPECT_LT((toPlane(place(p).picture.fix, seen(view, {300, 1100})) - Vec2(1000, 0)).norm(), 1e-6);
    Picture side = p; // without a second point the rectangle's own side has the angle
    side.to = {};
    side.distance.clear();
    side.turn = "90 deg";
    EXPECT_LT((toPlane(place(side).picture.fix, seen(view, {1300, 100})) - Vec2(0, 1000)).norm(), 1e-6);
    p.distance = "1.2 m";
    at = place(p);
    EXPECT_TRUE(at.tells("picture-check"));
    EXPECT_EQ(at.picture.scale, PlacedPicture::Scale::rectangle); // told, and used all the same
}

TEST(Place, KeepsWhatLiesBeforeTheHorizon) {
    // A floor seen from 1.5 m: the horizon crosses the picture.
    Mat3 k, pose;
    k << 1000, 0, 1000, 0, 1000, 750, 0, 0, 1;
    // Camera looks along +y of the floor, level: x right, y of the picture down, floor at 1500 mm below.
    pose << 1, 0, 0, 0, 0, 1500, 0, 1, 0;
    const Mat3 view = k * pose;
    Picture p;
    p.name = "floor";
    p.rectangle_width = "1 m";
    p.rectangle_height = "1 m";
    for (const Vec2& c : {Vec2(-500, 2000), Vec2(500, 2000), Vec2(500, 3000), Vec2(-500, 3000)})
        p.corners.push_back(mark(seen(view, c)));
    p.features = {mark({1000, 700}, "cloud"), mark(seen(view, {100, 2500}), "tile")};
    for (const auto& [from, to] : {std::pair(Vec2(1000, 600), Vec2(1000, 700)),
                                   std::pair(seen(view, {-500, 2000}), seen(view, {500, 2000}))}) {
        PictureLine line;
        line.name = p.lines.empty() ? "mast" : "row of tiles";
        line.x1 = printExact(from.x(), Unit::none);
        line.y1 = printExact(from.y(), Unit::none);
        line.x2 = printExact(to.x(), Unit::none);
        line.y2 = printExact(to.y(), Unit::none);
        p.lines.push_back(line);
    }
    const PictureFile file = photo(2000, 1500);
    const Placed at = place(p, 1, &file);
    EXPECT_TRUE(at.tells("picture-horizon"));
    EXPECT_EQ(at.picture.line(0), nullptr) << "it stands before the sky";
    ASSERT_NE(at.picture.line(1), nullptr) << "the document's second line, whatever was left out before it";
    EXPECT_NEAR(at.picture.line(1)->length.value, 1000, 1e-6);
    ASSERT_EQ(at.picture.features.size(), 1u);
    for (const Vec2& q : at.picture.shown) EXPECT_GT(q.y(), 750 + 1); // the horizon lies at 750 px
    for (const Vec2& q : at.picture.outline) EXPECT_TRUE(q.allFinite() && q.norm() < 1e5);
    EXPECT_GE(at.picture.shown.size(), 4u);
}

TEST(Place, TellsWhatIsMissingAndGoesOn) {
    const PictureFile file = photo();
    Picture p = drawing();
    EXPECT_TRUE(place(p).findings.empty()) << "nobody looked: nothing is missing";
    PictureFile gone;
    gone.name = p.file;
    Placed at = place(p, 1, &gone);
    EXPECT_TRUE(at.tells("picture-missing"));
    EXPECT_EQ(at.picture.state, PlacedPicture::State::missing);
    EXPECT_LT((toPlane(at.picture.fix, {100, 500}) - Vec2(-1000, 200)).norm(), 1e-9)
        << "its place is known all the same";
    EXPECT_TRUE(at.picture.shown.empty());
    p.hash = "other";
    EXPECT_TRUE(place(p, 1, &file).tells("picture-changed"));
    p.file = "/pictures/photo.jpg";
    EXPECT_TRUE(place(p).tells("picture-absolute"));

    p = drawing();
    p.distance.clear();
    at = place(p, 0.5, &file);
    EXPECT_TRUE(at.tells("picture-uncalibrated"));
    EXPECT_EQ(at.picture.scale, PlacedPicture::Scale::none);
    ASSERT_EQ(at.picture.outline.size(), 4u); // seen all the same, 2 m long on the subject
    EXPECT_NEAR((at.picture.outline[1] - at.picture.outline[0]).norm(), 1000, 1e-9);
    EXPECT_LT((at.picture.outline[3] - Vec2(-500, 100)).norm(), 1e-9);

    const auto code = [&](auto change, const char* expected) {
        Picture q = drawing();
        change(q);
        const Placed found = place(q, 1, &file);
        EXPECT_TRUE(found.tells(expected)) << expected;
        EXPECT_EQ(found.findings.size(), 1u) << expected;
    };
    code([](Picture& q) { q.to = q.from; }, "picture-points-same");
    code([](Picture& q) { q.distance = "0 mm"; }, "picture-distance");
    code([](Picture& q) { q.distance = "5 stone"; }, "syntax");
    code([](Picture& q) { q.x = "hull_length"; }, "unknown-name");
    code([](Picture& q) { q.crop_x = "4000"; }, "picture-crop");
    code([](Picture& q) { q.opacity = "2"; }, "picture-opacity");
    code([](Picture& q) { q.click_error = "0"; }, "picture-click-error");
    code([](Picture& q) { q.corners.resize(3, mark({1, 2})); }, "picture-corners-few");
    code(
        [](Picture& q) {
            q.corners = {mark({0, 0}), mark({9, 0}), mark({9, 9}), mark({0, 9})};
        },
        "picture-rectangle");
    code(
        [](Picture& q) {
            q.corners = {mark({0, 0}), mark({9, 0}), mark({9, 9}), mark({0, 9}), mark({5, 12})};
            q.rectangle_width = q.rectangle_height = "1 m";
        },
        "picture-corners-many");
    code(
        [](Picture& q) {
            q.corners = {mark({0, 0}), mark({99, 99}), mark({99, 0}), mark({0, 99})};
            q.rectangle_width = q.rectangle_height = "1 m";
        },
        "picture-corners-cross");
}

Project measuredChair(const std::vector<PictureLine>& lines) {
    Project p;
    p.donor.kind = "powered_chair";
    Picture q = drawing(); // 5 mm for a pixel
    q.space = Space::build;
    q.lines = lines;
    p.pictures = {q};
    return p;
}

TEST(Measure, TakesLinesOfOneSizeTogether) {
    // Far apart in size from the calibration, lines are next to independent: weights by inverse variance.
    const Project p =
        measuredChair({lineOf({0, 0}, {0, 96}, "seat_height"), lineOf({9, 0}, {9, 98}, "seat_height"),
                       lineOf({0, 0}, {126, 0}, "width")});
    const PictureSet set = placePictures(p, Scope{}, {});
    EXPECT_TRUE(set.findings.empty());
    ASSERT_EQ(set.sizes.size(), 2u);
    EXPECT_EQ(set.sizes[0].size, "width"); // in the donor's order
    EXPECT_NEAR(set.sizes[0].value.value, 630, 1e-9);
    const MeasuredSize& seat = set.sizes[1];
    EXPECT_EQ(seat.label, "seat height");
    ASSERT_EQ(seat.lines.size(), 2u);
    EXPECT_EQ(seat.lines[0], "drawing/line");
    // Both owe the calibration alike: (own variance 2 s² σ²)/2 + shared s² σ² 2 l²/c², closed form for near
    // equal lengths.
    EXPECT_NEAR(seat.value.value, 485, 0.01);
    EXPECT_NEAR(seat.value.error, 5 * std::sqrt(1 + 2 * 0.097 * 0.097), 0.005);
    // Apart by 10 mm, each off by 5, of which √(2 · 25 − 25) = 5 was to be expected.
    EXPECT_NEAR(seat.worst, 1, 0.01);
}

TEST(Measure, IsTheWeightedMeanOfIndependentPictures) {
    // Two photos share no mark: the textbook's weights by inverse variance.
    Project p = measuredChair({lineOf({0, 0}, {0, 96}, "seat_height")});
    p.pictures.push_back(p.pictures[0]);
    p.pictures[1].name = "second";
    p.pictures[1].click_error = "3";
    p.pictures[1].lines = {lineOf({0, 0}, {0, 100}, "seat_height")};
    const PictureSet set = placePictures(p, Scope{}, {});
    ASSERT_EQ(set.sizes.size(), 1u);
    const Measured a = set.pictures[0].lines[0].length, b = set.pictures[1].lines[0].length;
    const double wa = 1 / (a.error * a.error), wb = 1 / (b.error * b.error);
    EXPECT_NEAR(set.sizes[0].value.value, (wa * a.value + wb * b.value) / (wa + wb), 1e-9);
    EXPECT_NEAR(set.sizes[0].value.error, 1 / std::sqrt(wa + wb), 1e-9);
    EXPECT_NEAR(set.sizes[0].worst, std::abs(a.value - b.value) / std::hypot(a.error, b.error), 1e-9);
}

TEST(Measure, SpreadsAsItSays) {
    auto random = seeded(3);
    const Mat3 view = randomView(random, 2440, 1220);
    const double click = 1;
    double sum = 0, told = 0, within = 0;
    const int rounds = 2000;
    for (int i = 0; i < rounds; ++i) {
        const auto noisy = [&](const Vec2& at) -> Vec2 { return seen(view, at) + click * normal2(random); };
        Project p;
        p.donor.kind = "powered_chair";
        Picture q = leaned(view);
        for (std::size_t c = 0; c < 4; ++c) q.corners[c] = mark(noisy(rectangle(2440, 1220)[c]));
        q.lines = {lineOf(noisy({500, 100}), noisy({500, 580}), "seat_height"),
                   lineOf(noisy({900, 100}), noisy({900, 580}), "seat_height"),
                   lineOf(noisy({1800, 300}), noisy({1800, 780}), "seat_height")};
        p.pictures = {q};
        const PictureSet set = placePictures(p, Scope{}, {});
        ASSERT_EQ(set.sizes.size(), 1u);
        const Measured m = set.sizes[0].value;
        sum += std::pow(m.value - 480, 2) / rounds;
        told += m.error * m.error / rounds;
        if (std::abs(m.value - 480) < 2 * m.error) within += 1.0 / rounds;
    }
    std::printf("three lines: spread %.3f of the foretold, %.3f within two standard errors\n",
                std::sqrt(sum / told), within);
    EXPECT_NEAR(std::sqrt(sum / told), 1, 0.15);
    EXPECT_NEAR(within, 0.9545, 0.02);
}

TEST(Measure, TellsContradictionsAndWhatIsNoSize) {
    const auto codes = [](const Project& p) {
        std::vector<std::string> all;
        for (const Finding& f : placePictures(p, Scope{}, {}).findings) all.push_back(f.code);
        return all;
    };
    using Codes = std::vector<std::string>;
    const PictureLine seat = lineOf({0, 0}, {0, 96}, "seat_height");
    EXPECT_EQ(codes(measuredChair({seat, lineOf({0, 0}, {0, 120}, "seat_height")})),
              Codes{"picture-sizes-differ"});
    EXPECT_EQ(codes(measuredChair({lineOf({0, 0}, {0, 96}, "seat_hight")})), Codes{"picture-size-unknown"});
    EXPECT_EQ(codes(measuredChair({lineOf({0, 0}, {0, 0}, "seat_height")})), Codes{"picture-line-short"});
    Project subject = measuredChair({seat});
    subject.pictures[0].space = Space::subject;
    EXPECT_EQ(codes(subject), Codes{"picture-size-subject"});
    Project bare = measuredChair({seat});
    bare.pictures[0].distance.clear();
    EXPECT_EQ(codes(bare), Codes{"picture-uncalibrated"});
    EXPECT_TRUE(placePictures(bare, Scope{}, {}).sizes.empty()) << "a provisional size measures nothing";
}

} // namespace
} // namespace slab
