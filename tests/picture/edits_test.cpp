#include "core/document/file.h"
#include "core/donor/donor.h"
#include "core/picture/crop.h"
#include "core/picture/edits.h"
#include "core/picture/sha256.h"
#include "core/picture/typed.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

namespace slab {
namespace {

namespace fs = std::filesystem;
using namespace std::string_literals;

const std::string smallPng =
    "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x04\0\0\0\x03\0\x08\x02\0\0\0\0\0\0\0"s; // 1024 × 768

struct Folder {
    fs::path path = fs::path(testing::TempDir()) / "slabside-pictures";
    Folder() { fs::create_directories(path / "photos"); }
    ~Folder() { fs::remove_all(path); }
    void write(const std::string& name, const std::string& bytes) const {
        std::ofstream(path / name, std::ios::binary) << bytes;
    }
};

Project apply(const Project& p, const Edit& edit) {
    auto next = edit.apply(p);
    EXPECT_TRUE(next) << next.error().message;
    EXPECT_FALSE(edit.label.empty());
    if (!next) return p;
    const auto again = readProject(writeProject(*next)); // what an edit leaves can be saved and opened
    EXPECT_TRUE(again) << again.error().message << " at " << again.error().where;
    return *next;
}
PictureSet evaluated(const Project& p, double scale = 1) {
    Scope scope;
    scope.scale = scale;
    return placePictures(p, scope, {});
}

TEST(PictureFiles, AreFoundReadOnceAndMissed) {
    const Folder folder;
    folder.write("photos/side.png", smallPng);
    folder.write("notes.txt", "no picture");
    Project p;
    for (const char* name : {"photos/side.png", "gone.png", "notes.txt", "photos/side.png"}) {
        p.pictures.push_back({});
        p.pictures.back().file = name;
    }
    const PictureFiles files = readPictureFiles(p, folder.path);
    ASSERT_EQ(files.size(), 3u);
    EXPECT_EQ(files[0].state, PictureFile::State::present);
    EXPECT_EQ(files[0].hash, sha256(smallPng));
    EXPECT_EQ(files[0].header.width, 1024);
    EXPECT_EQ(files[1].state, PictureFile::State::missing);
    EXPECT_EQ(files[2].state, PictureFile::State::unreadable);
    EXPECT_EQ(files[2].trouble.code, "picture-format");
    EXPECT_EQ(readPictureFiles(p, folder.path, files), files);
    PictureFiles known = files;
    known[0].hash = "as known"; // the same length and time: not read again
    EXPECT_EQ(readPictureFiles(p, folder.path, known)[0].hash, "as known");
    folder.write("photos/side.png", smallPng + "more");
    EXPECT_EQ(readPictureFiles(p, folder.path, files)[0].hash, sha256(smallPng + "more"));
    EXPECT_EQ(pictureName(folder.path / "photos/side.png", folder.path), "photos/side.png");
    EXPECT_EQ(pictureName(folder.path / "side.png", folder.path / "photos"), "../side.png");
    EXPECT_EQ(fileNamed(files, "never"), nullptr);
    folder.write("huge.png", smallPng);
    fs::resize_file(folder.path / "huge.png",
                    (std::uintmax_t{256} << 20U) + 1); // a hole, no bytes on the disk
    EXPECT_EQ(readPictureFile("huge.png", folder.path).trouble.code, "picture-large");
    EXPECT_EQ(readPictureFile("/proc/self/mem", folder.path).trouble.code,
              "picture-unreadable"); // reading it fails
}

TEST(PictureFiles, ADocumentThatMovesTakesItsPicturesNamesAlong) {
    const Folder folder;
    for (const char* name : {"a/b", "c", "a/photos"}) fs::create_directories(folder.path / name);
    auto random = seeded(3);
    const std::vector<std::string> places{"", "a", "a/b", "c"};
    for (int round = 0; round < 40; ++round) {
        const fs::path from = folder.path / places[static_cast<std::size_t>(below(random, 4))],
                       to = folder.path / places[static_cast<std::size_t>(below(random, 4))];
        Project p;
        for (const std::string name : {"side.png", "photos/front.jpg", "../plan.svg", ""}) {
            Picture picture;
            picture.name = name;
            picture.file = name;
            p.pictures.push_back(picture);
        }
        const Project moved = movedTo(p, from, to);
        for (std::size_t i = 0; i < 3; ++i) {
            const std::string& name = moved.pictures[i].file;
            EXPECT_EQ((to / name).lexically_normal(), (from / p.pictures[i].file).lexically_normal()) << name;
            EXPECT_TRUE(fs::path(name).is_relative()) << name;
            EXPECT_EQ(name.find('\\'), std::string::npos);
        }
        EXPECT_EQ(moved.pictures[3].file, "") << "one without a file has none";
        EXPECT_EQ(movedTo(moved, to, from).pictures[1].file, "photos/front.jpg") << "there and back";
        EXPECT_TRUE(from != to || moved == p) << "one that stays keeps its names as they are typed";
    }
    Project outside;
    outside.pictures.resize(1);
    outside.pictures[0].file = (folder.path / "c" / "side.png").generic_string();
    EXPECT_EQ(movedTo(outside, folder.path / "a", folder.path / "c").pictures[0].file, "side.png");
}

TEST(PictureEdits, AddMarkAndMove) {
    const Folder folder;
    folder.write("side.png", smallPng);
    const PictureFile file = readPictureFile("side.png", folder.path);
    Project p;
    p.scale = "2/5";
    p = apply(p, addPicture(file, "side"));
    p = apply(p, addPicture(file, "plan", Space::build));
    EXPECT_EQ(p.pictures[0].name, "side");
    EXPECT_EQ(p.pictures[1].name, "side 2");
    EXPECT_EQ(p.pictures[0].hash, file.hash);
    p = apply(p, markDistance(0, {100, 600.25}, {900, 600.25}, "4 m"));
    p = apply(p, markFeature(0, "bow", {900, 300}));
    p = apply(p, markFeature(0, "bow", {910, 300})); // moved, not doubled
    p = apply(p, markLine(0, "rail", {Vec2(100, 300), Vec2(500, 300)}, ""));
    PictureSet set = evaluated(p, 0.4);
    ASSERT_EQ(set.pictures[0].features.size(), 1u);
    EXPECT_LT((set.pictures[0].features[0].at - Vec2(1620, 600.5)).norm(), 1e-9);
    EXPECT_NEAR(set.pictures[0].lines[0].length.value, 800, 1e-9);
    // A drag at build size; two moves add up, and a formula stays one.
    p = apply(p, movePicture(0, {40, -20}, 0.4, "drag"));
    p = apply(p, movePicture(0, {40, 0}, 0.4, "drag"));
    EXPECT_EQ(p.pictures[0].x, "200 mm");
    EXPECT_EQ(p.pictures[0].y, "-50 mm");
    p.dimensions.push_back({"keel", "300 mm", Space::subject, {}, {}});
    p.pictures[0].x = "keel / 2";
    p = apply(p, movePicture(0, {40, 0}, 0.4, "drag"));
    p = apply(p, movePicture(0, {-60, 0}, 0.4, "drag"));
    EXPECT_EQ(p.pictures[0].x, "keel / 2 - 50 mm");
    p = apply(
        p, markRectangle(1, {Vec2(100, 100), Vec2(800, 120), Vec2(820, 600), Vec2(90, 580)}, "8 ft", "4 ft"));
    set = evaluated(p, 0.4);
    EXPECT_EQ(set.pictures[1].scale, PlacedPicture::Scale::rectangle);
    EXPECT_NEAR((set.pictures[1].corners[1].at - set.pictures[1].corners[0].at).norm(), 2438.4, 1e-9);

    EXPECT_EQ(markFeature(7, "x", {1, 1}).apply(p).error().code, "no-such-place");
    EXPECT_EQ(addPicture(readPictureFile("no.png", folder.path), "side").apply(p).error().code,
              "picture-missing");
    folder.write("side.png", smallPng + "2");
    p = apply(p, acceptPicture(0, readPictureFile("side.png", folder.path)));
    EXPECT_EQ(p.pictures[0].hash, sha256(smallPng + "2"));
}

TEST(PictureEdits, CutASheetIntoItsViews) {
    Project p;
    p.scale = "1/2";
    Picture sheet;
    sheet.name = "sheet";
    sheet.file = "sheet.png";
    sheet.from = {"", "100", "900", {}};
    sheet.to = {"", "600", "900", {}};
    sheet.distance = "5 m"; // 10 mm for a pixel on the subject, 5 at half size
    sheet.x = "0.5 m";
    sheet.features = {{"bow", "600", "700", {}}, {"mast", "1200", "300", {}}};
    p.pictures = {sheet};
    const PlacedPicture placed = evaluated(p, 0.5).pictures[0];
    const auto drawn = [&](const Vec2& a, const Vec2& b) {
        return bounds({toPlane(placed.fix, a), toPlane(placed.fix, b)});
    };
    const std::vector<ViewCut> cuts{{"side", "side", drawn({50, 500}, {650, 800})},
                                    {"front", "front", drawn({1100, 200}, {1300, 500})},
                                    {"plan", "plan", drawn({50, 100}, {650, 300})}};
    p = apply(p, cutViews(placed, cuts, 0.5));
    ASSERT_EQ(p.pictures.size(), 3u);
    const PictureSet set = evaluated(p, 0.5);
    for (const PlacedPicture& v : set.pictures) {
        EXPECT_EQ(v.file, "sheet.png");
        EXPECT_NEAR((toPlane(v.fix, {11, 0}) - toPlane(v.fix, {10, 0})).norm(), 5, 1e-9)
            << "one scale for all";
    }
    const auto box = [&](std::size_t i) { return bounds(set.pictures[i].outline); };
    // The side view keeps its place along the sheet, x from 250 − 250 on, and comes down from 500 to the
    // ground. Front: on the ground, astride. Plan: from the same rear end, astride.
    EXPECT_LT((box(0).min - Vec2(0, 0)).norm(), 1e-6);
    EXPECT_LT((box(1).min - Vec2(-500, 0)).norm(), 1e-6);
    EXPECT_LT((box(1).max - Vec2(500, 1500)).norm(), 1e-6);
    EXPECT_LT((box(2).min - Vec2(0, -500)).norm(), 1e-6);
    EXPECT_EQ(set.pictures[0].features.size(), 1u);
    EXPECT_EQ(set.pictures[1].features.at(0).name, "mast");
    EXPECT_TRUE(set.pictures[2].features.empty());

    PlacedPicture unknown = placed;
    unknown.scale = PlacedPicture::Scale::none;
    EXPECT_EQ(cutViews(unknown, cuts, 1).apply(p).error().code, "picture-uncalibrated");
    EXPECT_EQ(cutViews(placed, {{"none", "side", {{5, 5}, {5, 9}}}}, 1).apply(p).error().code,
              "picture-crop");
    EXPECT_EQ(cutViews(placed, {}, 1).apply(p).error().code, "picture-crop");
}

/// A picture turned by 30°, so that a box of the elevation is no rectangle of pixels.
Project turnedDrawing() {
    Project p;
    p.scale = "1";
    Picture one;
    one.name = "drawing";
    one.file = "drawing.png";
    one.from = {"", "100", "900", {}};
    one.to = {"", "600", "900", {}};
    one.distance = "1 m"; // 2 mm for a pixel
    one.turn = "30 deg";
    p.pictures = {one};
    return p;
}

TEST(PictureEdits, ABoxKeepsWhatLiesInItHoweverThePictureIsTurned) {
    auto random = seeded(21);
    const Project p = turnedDrawing();
    const PlacedPicture placed = evaluated(p, 1).pictures[0];
    for (int round = 0; round < 50; ++round) {
        const Vec2 low(uniform(random, -500, 500), uniform(random, -500, 500));
        const Box2 box{low, low + Vec2(uniform(random, 20, 900), uniform(random, 20, 900))};
        const Project cropped = apply(p, cropTo(placed, box));
        EXPECT_EQ(cropped.pictures[0].crop_x, "");
        const PlacedPicture after = evaluated(cropped, 1).pictures[0];
        ASSERT_EQ(after.outline.size(), 4U);
        const Box2 shown = bounds(after.outline);
        // A hundredth of a pixel is 0.02 mm.
        EXPECT_LT((shown.min - box.min).cwiseAbs().maxCoeff(), 0.03);
        EXPECT_LT((shown.max - box.max).cwiseAbs().maxCoeff(), 0.03);
        EXPECT_EQ(after.fix.map, placed.fix.map) << "it stays where it is";
    }
    EXPECT_EQ(cropTo(placed, {{0, 0}, {0, 50}}).apply(p).error().code, "picture-crop");
    PlacedPicture gone = placed;
    gone.index = 4;
    EXPECT_EQ(cropTo(gone, {{0, 0}, {50, 50}}).apply(p).error().code, "no-such-place");
    Project upright = p;
    upright.pictures[0].turn = "";
    const Project straight = apply(upright, cropTo(evaluated(upright, 1).pictures[0], {{0, 0}, {100, 40}}));
    EXPECT_TRUE(straight.pictures[0].crop_corners.empty()) << "a rectangle of whole pixels stays one";
    EXPECT_EQ(straight.pictures[0].crop_width, "50");
    EXPECT_EQ(straight.pictures[0].crop_height, "20");
}

TEST(PictureEdits, ACropThatIsNoAreaIsTold) {
    Project p = turnedDrawing();
    p.pictures[0].crop_corners = {{"", "0", "0", {}}, {"", "9", "9", {}}};
    const PictureSet set = evaluated(p, 1);
    ASSERT_EQ(set.findings.size(), 1U);
    EXPECT_EQ(set.findings[0].code, "picture-crop");
}

TEST(PictureEdits, MarkingADistanceAnewKeepsPlaceAndTurn) {
    const Project p = turnedDrawing();
    const PlacedPicture before = evaluated(p, 1).pictures[0];
    const std::array<Vec2, 2> points{Vec2(300, 400), Vec2(900, 650)};
    const Project marked = apply(p, markDistance(before, {points[0], points[1]}, "3 m", 1));
    const PlacedPicture after = evaluated(marked, 1).pictures[0];
    EXPECT_LT((toPlane(after.fix, points[0]) - toPlane(before.fix, points[0])).norm(), 1e-3);
    const Vec2 was = toPlane(before.fix, points[1]) - toPlane(before.fix, points[0]),
               is = toPlane(after.fix, points[1]) - toPlane(after.fix, points[0]);
    EXPECT_NEAR(is.norm(), 3000, 1e-6);
    EXPECT_NEAR(cross2(was.normalized(), is.normalized()), 0, 1e-7);
    PlacedPicture gone = before;
    gone.index = 7;
    EXPECT_EQ(markDistance(gone, {points[0], points[1]}, "3 m", 1).apply(p).error().code, "no-such-place");
}

TEST(PictureEdits, TypeFiguresAsTheyAreKnown) {
    EXPECT_EQ(typedLength(507.6, 4.3, Unit::mm), "508 mm");
    EXPECT_EQ(typedLength(507.63, 0.3, Unit::mm), "507.6 mm");
    EXPECT_EQ(typedLength(507.6, 30, Unit::mm), "510 mm");
    EXPECT_EQ(typedLength(507.6, 4.3, Unit::cm), "50.8 cm");
    EXPECT_EQ(typedLength(507.6, 4.3, Unit::m), "0.508 m");
    EXPECT_EQ(typedLength(507.6, 4.3, Unit::in), "20\"");
    EXPECT_EQ(typedLength(515, 1.7, Unit::in), "20-1/4\"");
    EXPECT_EQ(typedLength(515, 1.7, Unit::ft), "1' 8-1/4\"");
    EXPECT_EQ(typedLength(8.6, 2.15, Unit::mm, true), "10 mm");
    EXPECT_EQ(typedLength(8, 2, Unit::mm, true), "8 mm");
    EXPECT_EQ(fineLength(-0.0001, Unit::mm), "0 mm");
    EXPECT_EQ(fineLength(25.4, Unit::in), "1 in");
    auto random = seeded();
    for (int i = 0; i < 2000; ++i)
        for (Unit unit : {Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft}) {
            const double mm = uniform(random, 1, 3000), error = uniform(random, 0.05, 30);
            const auto back = parseLength(typedLength(mm, error, unit), unit),
                       up = parseLength(typedLength(mm, error, unit, true), unit);
            ASSERT_TRUE(back && up);
            EXPECT_LE(std::abs(*back - mm), std::max(error / 2, 25.4 / 128) + 1e-9);
            EXPECT_GE(*up, mm - 1e-6);
            EXPECT_NEAR(*parseLength(fineLength(mm, unit), unit), mm, 0.002);
        }
    EXPECT_EQ(shiftedLength("", 5, Unit::mm), "5 mm");
    EXPECT_EQ(shiftedLength("a * (b + 2 mm)", 5, Unit::mm), "a * (b + 2 mm) + 5 mm");
    EXPECT_EQ(shiftedLength("a - 2 mm", -5, Unit::mm), "a - 7 mm");
    EXPECT_EQ(freeName("a/b", {"a b"}), "a b 2");
}

MeasuredSize seat(double value, double error) {
    return {"seat_height", "seat height", {value, error}, {"photo/seat"}, 0};
}

TEST(TakeOver, WritesTheSizeAndWidensWhatItMoves) {
    Project p;
    p.donor.kind = "powered_chair";
    p.clearance.fallback = "25 mm";
    p.clearance.solids = {{"donor/seat", "40 mm"}};
    Project plain = apply(p, takeOver(seat(507.6, 4.3), false));
    ASSERT_EQ(plain.donor.changes.size(), 1u);
    EXPECT_EQ(plain.donor.changes[0].value, "508 mm");
    EXPECT_EQ(plain.clearance, p.clearance);

    const Project wide = apply(p, takeOver(seat(507.6, 4.3), true));
    ASSERT_EQ(wide.dimensions.size(), 2u);
    EXPECT_EQ(wide.dimensions[0].name, "seat_height_uncertainty");
    EXPECT_EQ(wide.dimensions[0].value, "10 mm"); // two standard errors are 8.6, rounded up
    EXPECT_EQ(wide.dimensions[0].space, Space::build);
    EXPECT_EQ(wide.dimensions[1].name, "usual_clearance");
    EXPECT_EQ(wide.dimensions[1].value, "25 mm");
    EXPECT_EQ(wide.clearance.fallback, "usual_clearance");
    Scope scope;
    scope.values["seat_height_uncertainty"] = {10, Kind::length, false, true};
    scope.values["usual_clearance"] = {25, Kind::length, false, true};
    const DonorSet before = resolveDonor(plain, Scope{}), after = resolveDonor(wide, scope);
    EXPECT_TRUE(after.findings.empty());
    Project taller = plain;
    taller.donor.changes[0].value = "520 mm";
    const DonorSet moved = resolveDonor(taller, Scope{});
    ASSERT_EQ(before.solids.size(), after.solids.size());
    int widened = 0;
    for (std::size_t i = 0; i < before.solids.size(); ++i) {
        const bool follows = !(before.solids[i].shape == moved.solids[i].shape);
        EXPECT_NEAR(after.solids[i].clearance - before.solids[i].clearance, follows ? 10 : 0, 1e-9)
            << before.solids[i].name;
        widened += follows ? 1 : 0;
    }
    EXPECT_GT(widened, 3);
    EXPECT_EQ(wide.clearance.solids[0].value, "40 mm + seat_height_uncertainty");
    EXPECT_EQ(wide.rider.clearance, "usual_clearance + seat_height_uncertainty")
        << "the whole rider sits on it: one entry for all";
    // Raised later, it is raised for what was measured too.
    scope.values["usual_clearance"].value = 40;
    const DonorSet raised = resolveDonor(wide, scope);
    for (std::size_t i = 0; i < raised.solids.size(); ++i)
        if (raised.solids[i].name != "donor/seat") {
            EXPECT_NEAR(raised.solids[i].clearance - after.solids[i].clearance, 15, 1e-9)
                << raised.solids[i].name;
        }

    // Measured again, sharper: two values change, nothing piles up.
    const Project again = apply(wide, takeOver(seat(505.2, 1.1), true));
    EXPECT_EQ(again.dimensions[0].value, "2.5 mm");
    EXPECT_EQ(again.donor.changes[0].value, "505 mm");
    EXPECT_EQ(again.clearance, wide.clearance);
    EXPECT_EQ(again.rider, wide.rider);
}

TEST(TakeOver, KeepsSidesOfTheAxleAndRefusesOtherNames) {
    Project p;
    p.donor.kind = "powered_chair";
    MeasuredSize back{"seat_back_x", "front of the seat back", {251, 2}, {"photo/back"}, 0};
    EXPECT_EQ(apply(p, takeOver(back, false)).donor.changes[0].value,
              "-252 mm"); // to 2 mm, behind the axle as before
    p.donor.changes = {{"seat_back_x", "100 mm"}};
    EXPECT_EQ(apply(p, takeOver(back, false)).donor.changes[0].value, "252 mm");
    back.size = "mast_height";
    EXPECT_EQ(takeOver(back, false).apply(p).error().code, "picture-size-unknown");
    p.dimensions.push_back({"seat_height_uncertainty", "3 mm", Space::build, "mine", {}});
    EXPECT_EQ(takeOver(seat(500, 2), true).apply(p).error().code, "duplicate-name");
}

} // namespace
} // namespace slab
