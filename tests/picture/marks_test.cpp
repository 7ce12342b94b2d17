// Marks that carry errors of their own, level lines, files that several pictures share.
#include "core/picture/edits.h"
#include "core/picture/typed.h"
#include "tests/picture/marks.h"
#include "tests/picture/views.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

Project applied(const Project& p, const Edit& edit) {
    auto next = edit.apply(p);
    EXPECT_TRUE(next) << next.error().message;
    return next ? *next : p;
}

Picture twoPointPicture() {
    Picture p;
    p.name = "drawing";
    p.file = "photo.jpg";
    p.hash = "ab";
    p.from = mark({100, 500});
    p.to = mark({1100, 500});
    p.distance = "2 m"; // 2 mm for a pixel
    return p;
}

TEST(MarkErrors, EachFigureUsesThoseOfItsOwnMarks) {
    Picture p = twoPointPicture();
    p.features = {mark({300, 400}, "coarse"), mark({300, 400}, "fine")};
    p.features[0].click_error = "6";
    p.lines = {lineOf({200, 100}, {200, 600}), lineOf({200, 100}, {200, 600})};
    p.lines[0].click_error = "6";
    const PlacedPicture at = place(p).picture;
    Picture all = p;
    all.features[0].click_error = all.lines[0].click_error = "";
    const PlacedPicture before = place(all).picture;
    EXPECT_EQ(at.features[1].error, before.features[1].error) << "one coarse mark worsens no other";
    EXPECT_EQ(at.lines[1].length, before.lines[1].length);
    EXPECT_GT(at.features[0].error.major, 4 * at.features[1].error.major);
    EXPECT_GT(at.lines[0].length.error, 4 * at.lines[1].length.error);
    // Plumb line, level scale: ends 2 mm · √2 · 6, scale 500 / 1000 of 2 mm · √2.
    EXPECT_NEAR(at.lines[0].length.error, std::sqrt(2 * 144.0 + 2 * 1.0), 1e-9);
    Picture ends = p;
    ends.lines[0].end_error = "1";
    EXPECT_NEAR(place(ends).picture.lines[0].length.error, std::sqrt(144.0 + 4 + 2), 1e-9);
    // The scale's own two points.
    Picture scale = p;
    scale.from.click_error = "3";
    EXPECT_NEAR(place(scale).picture.lines[1].length.error, std::sqrt(8 + 9 + 1.0), 1e-9);
    // One number for all marks, as older documents have it.
    Picture old = all;
    old.click_error = "6";
    EXPECT_NEAR(place(old).picture.lines[1].length.error, 6 * before.lines[1].length.error, 1e-9);
    p.features[0].click_error = "-1";
    EXPECT_TRUE(place(p).tells("picture-click-error"));
}

TEST(MarkErrors, AFinerCornerMakesTheWholePictureSurer) {
    auto random = seeded(1);
    for (int round = 0; round < 50; ++round) {
        const Mat3 view = randomView(random, 2440, 1220);
        Picture p;
        p.name = "photo";
        p.file = "photo.jpg";
        p.hash = "ab";
        for (const Vec2& corner : rectangle(2440, 1220)) p.corners.push_back(mark(seen(view, corner)));
        p.rectangle_width = "2440 mm";
        p.rectangle_height = "1220 mm";
        p.lines = {lineOf(seen(view, {300, 200}), seen(view, {900, 900}))};
        for (PicturePoint& corner : p.corners) corner.click_error = "5";
        double error = place(p).picture.lines[0].length.error;
        for (PicturePoint& corner : p.corners) {
            corner.click_error = "1"; // zoomed in and set again
            const double finer = place(p).picture.lines[0].length.error;
            EXPECT_LT(finer, error);
            error = finer;
        }
        for (PicturePoint& corner : p.corners) corner.click_error = "";
        EXPECT_NEAR(place(p).picture.lines[0].length.error, error, 1e-9 * error);
    }
}

TEST(MarkErrors, AreWrittenWithTheMarksAndReplacedWithThem) {
    Project p;
    p.pictures = {twoPointPicture()};
    p.pictures[0].distance_error = "9";
    const PlacedPicture at = place(p.pictures[0]).picture;
    PlacedPicture first = at;
    first.index = 0;
    Project coarse =
        applied(p, markDistance(first, {Mark(Vec2(10, 20), "4.5"), Mark(Vec2(900, 20))}, "3 m", 1));
    EXPECT_EQ(coarse.pictures[0].from.click_error, "4.5");
    EXPECT_EQ(coarse.pictures[0].to.click_error, "");
    EXPECT_EQ(coarse.pictures[0].distance_error, "");
    const Project fine =
        applied(coarse, markDistance(first, {Mark(Vec2(11, 20)), Mark(Vec2(900, 20))}, "3 m", 1));
    EXPECT_EQ(fine.pictures[0].from.click_error, "");
    const Project lines = applied(fine, markLine(0, "a", {Mark(Vec2(1, 1), "2"), Mark(Vec2(9, 9))}, {}));
    EXPECT_EQ(lines.pictures[0].lines[0].click_error, "2");
    EXPECT_EQ(lines.pictures[0].lines[0].end_error, "1")
        << "the second end is as sure as the picture's marks";
}

TEST(LevelLine, TurnsThePictureAndLeavesTheDistance) {
    auto random = seeded(2);
    for (int round = 0; round < 50; ++round) {
        Picture p = twoPointPicture();
        p.x = "300 mm", p.y = "-40 mm";
        const Vec2 a(uniform(random, 0, 900), uniform(random, 0, 900)),
            b = a + Vec2(uniform(random, 100, 500), uniform(random, -300, 300));
        p.level_from = mark(a);
        p.level_to = mark(b);
        const PlacedPicture level = place(p).picture;
        EXPECT_NEAR(toPlane(level.fix, a).y(), toPlane(level.fix, b).y(), 1e-9);
        EXPECT_LT((toPlane(level.fix, {100, 500}) - Vec2(300, -40)).norm(), 1e-9) << "its first point stays";
        EXPECT_NEAR((toPlane(level.fix, {1100, 500}) - toPlane(level.fix, {100, 500})).norm(), 2000, 1e-9);
        EXPECT_GT(std::abs(toPlane(level.fix, {1100, 500}).y() + 40), 1e-3)
            << "the distance need not be level";
        p.turn = "90 deg";
        const PlacedPicture plumb = place(p).picture;
        EXPECT_NEAR(toPlane(plumb.fix, a).x(), toPlane(plumb.fix, b).x(), 1e-9);
        p.level_from = p.level_to = {};
        p.turn = "";
        p.rotation = "7 deg";
        const PlacedPicture turned = place(p).picture;
        const Vec2 along = toPlane(turned.fix, {1100, 500}) - toPlane(turned.fix, {100, 500});
        EXPECT_NEAR(std::atan2(along.y(), along.x()), 7 * std::numbers::pi / 180, 1e-12);
    }
}

TEST(LevelLine, OwesToItsMarksWhatDifferencesSay) {
    auto random = seeded(3);
    for (int round = 0; round < 20; ++round) {
        std::array<Vec2, 4> m{Vec2(100, 500), Vec2(1100, 520), Vec2(uniform(random, 0, 400), 300),
                              Vec2(uniform(random, 700, 1200), uniform(random, 200, 600))};
        const auto build = [&](const std::array<Vec2, 4>& at) {
            const TwoPoints two{at[0], at[1], 2000, Vec2(50, 60), {}, {2, 1}};
            const auto fix = calibrated(two, 1);
            EXPECT_TRUE(fix);
            const auto out = levelled(*fix, {at[2], at[3], 0.2, {1, 3}}, Vec2(50, 60));
            EXPECT_TRUE(out);
            return *out;
        };
        const PlaneFix fix = build(m);
        ASSERT_EQ(fix.slopes.size(), 8u);
        const double own[] = {2, 1, 1, 3};
        for (std::size_t k = 0; k < 8; ++k) {
            auto more = m, less = m;
            const double step = 1e-4;
            more[k / 2][static_cast<Eigen::Index>(k % 2)] += step;
            less[k / 2][static_cast<Eigen::Index>(k % 2)] -= step;
            const Mat3 slope = (build(more).map - build(less).map) / (2 * step) * own[k / 2];
            EXPECT_LT((slope - fix.slopes[k]).cwiseAbs().maxCoeff(), 1e-6 * (1 + slope.norm())) << k;
        }
    }
    const auto fix = calibrated({{0, 0}, {10, 0}, 5, Vec2::Zero(), {}, {}});
    EXPECT_EQ(levelled(*fix, {{5, 5}, {5, 5}, 0, {}}, Vec2::Zero()).error().code, "picture-level-same");
}

TEST(LevelLine, LevelsAPhotoMadeTrueByItsCorners) {
    auto random = seeded(4);
    const Mat3 view = randomView(random, 2440, 1220);
    Picture p;
    p.name = "photo";
    p.file = "photo.jpg";
    p.hash = "ab";
    for (const Vec2& corner : rectangle(2440, 1220)) p.corners.push_back(mark(seen(view, corner)));
    p.rectangle_width = "2440 mm";
    p.rectangle_height = "1220 mm";
    // The sheet leans: what is level in truth runs across it.
    const Vec2 a(200, 300), b(1900, 520);
    p.level_from = mark(seen(view, a));
    p.level_to = mark(seen(view, b));
    p.x = "1 m", p.y = "2 m";
    const PlacedPicture at = place(p).picture;
    EXPECT_NEAR(toPlane(at.fix, seen(view, a)).y(), toPlane(at.fix, seen(view, b)).y(), 1e-6);
    Vec2 low = Vec2::Constant(1e9);
    for (const PlacedPoint& corner : at.corners) low = low.cwiseMin(corner.at);
    EXPECT_LT((low - Vec2(1000, 2000)).norm(), 1e-6) << "it stands on its lowest corner";
}

TEST(LevelLine, EditsKeepItOrTakeItAway) {
    Project p;
    p.pictures = {twoPointPicture()};
    p.pictures[0].rotation = "3 deg";
    const Project level = applied(p, markLevel(0, {Mark(Vec2(1, 2), "3"), Mark(Vec2(700, 9))}, "0 deg"));
    EXPECT_EQ(level.pictures[0].level_from.click_error, "3");
    EXPECT_EQ(level.pictures[0].rotation, "");
    EXPECT_EQ(level.pictures[0].from, p.pictures[0].from) << "the distance is kept";
    PlacedPicture at = place(level.pictures[0]).picture;
    at.index = 0;
    const Project again = applied(level, markDistance(at, {Mark(Vec2(5, 5)), Mark(Vec2(500, 50))}, "1 m", 1));
    EXPECT_EQ(again.pictures[0].level_from, level.pictures[0].level_from);
    EXPECT_EQ(again.pictures[0].turn, "0 deg");
    const Project turned = applied(again, turnPicture(0, "4 deg"));
    EXPECT_EQ(turned.pictures[0].rotation, "4 deg");
    EXPECT_EQ(turned.pictures[0].turn, "");
    EXPECT_EQ(turned.pictures[0].level_from, PicturePoint{});
    EXPECT_EQ(markLevel(4, {Mark(), Mark()}, "").apply(p).error().code, "no-such-place");
    EXPECT_EQ(turnPicture(4, "").apply(p).error().code, "no-such-place");
}

TEST(CutViews, KeepTheSheetsAlignmentHoweverTheBoxesAreDrawn) {
    auto random = seeded(6);
    Project p;
    p.scale = "1";
    Picture sheet = twoPointPicture();
    p.pictures = {sheet};
    PlacedPicture placed = place(sheet).picture;
    placed.index = 0;
    // Side below left, front beside it, plan over it: 400 × 200, 200 × 200, 400 × 180 px.
    for (int round = 0; round < 100; ++round) {
        const auto loose = [&](const Vec2& a, const Vec2& b) {
            const auto off = [&] { return Vec2(uniform(random, 0, 40), uniform(random, 0, 40)); };
            return bounds({toPlane(placed.fix, a - off()), toPlane(placed.fix, b + off())});
        };
        const std::vector<ViewCut> cuts{{"front", "front", loose({700, 600}, {900, 800})},
                                        {"side", "side", loose({150, 600}, {550, 800})},
                                        {"plan", "plan", loose({150, 250}, {550, 430})},
                                        {"rear", "front", loose({1000, 600}, {1200, 800})}};
        const Project cut = applied(p, cutViews(placed, cuts, 1));
        const PictureSet set = placePictures(cut, Scope{}, {});
        const auto at = [&](std::size_t view, const Vec2& pixel) {
            return toPlane(set.pictures[view].fix, pixel);
        };
        for (const Vec2& pixel : {Vec2(150, 800), Vec2(400, 300)}) {
            EXPECT_NEAR(at(1, pixel).x(), at(2, pixel).x(), 1e-3) << "side and plan share their length";
            EXPECT_NEAR(at(1, pixel).y(), at(0, pixel).y(), 1e-3) << "side and front share their height";
            EXPECT_NEAR(at(1, pixel).y(), at(3, pixel).y(), 1e-3) << "and so does the rear";
        }
    }
}

TEST(PictureFiles, OneThatIsMissingIsToldOnceAndAcceptedForAll) {
    Project p;
    for (const char* name : {"side", "front", "plan"}) {
        p.pictures.push_back(twoPointPicture());
        p.pictures.back().name = name;
    }
    p.pictures.push_back(twoPointPicture());
    p.pictures.back().name = "other";
    p.pictures.back().file = "other.png";
    PictureFile gone = photo(), other = photo();
    gone.state = PictureFile::State::missing;
    other.name = "other.png";
    other.hash = "cd";
    const PictureSet set = placePictures(p, Scope{}, {gone, other});
    ASSERT_EQ(set.findings.size(), 2u);
    EXPECT_EQ(set.findings[0].code, "picture-missing");
    EXPECT_EQ(set.findings[0].message, "Pictures side, front, plan: there is no file photo.jpg.");
    EXPECT_EQ(set.findings[0].about.size(), 6u);
    EXPECT_EQ(set.findings[1].message.substr(0, 14), "Picture other:");
    PictureFile found = photo();
    found.name = "found.jpg";
    found.hash = "ef";
    const Project accepted = applied(p, acceptPicture(1, found));
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(accepted.pictures[i].file, "found.jpg");
        EXPECT_EQ(accepted.pictures[i].hash, "ef");
    }
    EXPECT_EQ(accepted.pictures[3], p.pictures[3]);
}

TEST(MeasuredText, ReadsAsItIsTakenOver) {
    auto random = seeded(8);
    for (const Unit unit : {Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft})
        for (int i = 0; i < 300; ++i) {
            UnitStyle style;
            style.unit = unit;
            const Measured m{uniform(random, 5, 3000), uniform(random, 0.05, 20)};
            const std::string told = measuredText(m, style);
            const auto shown = parseLength(told.substr(0, told.find(" ±")), unit),
                       taken = parseLength(typedLength(m.value, m.error, unit), unit);
            ASSERT_TRUE(shown && taken) << told;
            EXPECT_NEAR(*shown, *taken, 1e-9) << told;
        }
    UnitStyle feet;
    feet.unit = Unit::ft;
    EXPECT_EQ(measuredText({(3 * 12 + 11 + 0.3125) * 25.4, 8}, feet).substr(0, 13),
              measuredText({(3 * 12 + 11 + 0.25) * 25.4, 8}, feet).substr(0, 13))
        << "to a quarter, as typed";
    // Fractions beside each other are written alike, however coarse the step.
    EXPECT_EQ(measuredText({(29 * 12 + 1.5) * 25.4, (15 * 12 + 0.875) * 25.4}, feet),
              "29′ 1-1/2″ ± 15′ 0-7/8″");
    EXPECT_EQ(measuredText({10.75 * 25.4, 0.75 * 25.4}, feet), "11″ ± 3/4″");
    EXPECT_EQ(measuredText({10.75 * 25.4, 0.375 * 25.4}, feet), "10-3/4″ ± 3/8″");
}

} // namespace
} // namespace slab
