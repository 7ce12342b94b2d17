// Round forms that go through frames, openings in frames, and frames behind openings; by closed forms.
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include "tests/geometry/seed.h"
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <numbers>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// A crate of a metre with a rib in its middle, inside 976 by 976 (cover joints, 12 mm, all round).
json ribbed() {
    json d =
        json::parse(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
    d["donor"]["solids"] = json::array();
    d["frames"] = {{{"name", "rib"}, {"axis", "x"}, {"station", "0"}}};
    return d;
}

struct Board {
    Evaluation e;
    double area = 0;
    explicit Board(const json& document) {
        const auto project = readProject(document.dump());
        EXPECT_TRUE(project) << (project ? "" : project.error().message);
        if (!project) return;
        e = evaluated(*project, Effort::full);
        for (const FrameFact& f : e.frames->frames) area += f.area;
    }
    [[nodiscard]] std::string told(const std::string& code) const {
        std::string all;
        for (const Finding& f : e.findings)
            if (f.code == code) all += f.message + "\n";
        return all;
    }
};

} // namespace

TEST(FrameRoom, APipeThatRunsThroughIsLeftFreeWithItsGap) {
    const double whole = Board(ribbed()).area;
    ASSERT_GT(whole, 900.0 * 900);
    json d = ribbed();
    d["forms"].push_back({{"name", "pipe"},
                          {"kind", "round"},
                          {"at", {{"x", "-400 mm"}, {"z", "300 mm"}, {"pitch", "90 deg"}}},
                          {"diameter", "60 mm"},
                          {"length", "800 mm"},
                          {"cuts", false},
                          {"gap", "4 mm"}});
    const Board board(d);
    // Facets are drawn round the circle of 30 + 4, 24 of them at least.
    const double hole = whole - board.area, circle = std::numbers::pi * 34 * 34;
    EXPECT_GE(hole, circle - 0.1);
    EXPECT_LE(hole, circle * 1.03);
    for (const Plate& part : board.e.frames->parts)
        for (const ConvexSolid& cell : part.cells)
            EXPECT_GE(nearest(cell, makeCylinder({-400, 0, 300}, {400, 0, 300}, 30)).distance, 4 - 1e-3);
}

TEST(FrameRoom, OpeningsNameAFrameAsTheirPlate) {
    const double whole = Board(ribbed()).area;
    json d = ribbed();
    d["openings"] = {{{"name", "hand hole"},
                      {"plate", "frames/rib"},
                      {"shape", "rectangle"},
                      {"u", "100 mm"},
                      {"v", "-50 mm"},
                      {"width", "120 mm"},
                      {"height", "80 mm"}},
                     {{"name", "cable"},
                      {"direction", "x"},
                      {"plates", {"frames/rib"}},
                      {"shape", "circle"},
                      {"y", "-200 mm"},
                      {"z", "700 mm"},
                      {"diameter", "50 mm"}}};
    const Board board(d);
    EXPECT_EQ(board.told("opening-misses"), "");
    const double circle = whole - board.area - 120 * 80;
    EXPECT_NEAR(circle, std::numbers::pi * 25 * 25, 12) << "in facets";
    const Plate& rib = board.e.frames->parts.front();
    bool found = false; // at 100, -50 from the board's middle, which is (0, 500) in y and z
    for (const PanelLoop& hole : rib.holes) {
        Box3 box{Vec3::Constant(1e9), Vec3::Constant(-1e9)};
        for (const Vec2& p : hole.outer) {
            const Vec3 at = rib.frame.toBody(Vec3(p.x(), p.y(), 0));
            box.min = box.min.cwiseMin(at);
            box.max = box.max.cwiseMax(at);
        }
        const Vec3 size = box.max - box.min, middle = (box.max + box.min) / 2;
        if (std::abs(size.y() - 120) > 0.01) continue;
        found = true;
        EXPECT_NEAR(size.z(), 80, 1e-3);
        EXPECT_NEAR(std::abs(middle.y()), 100, 1e-3);
        EXPECT_NEAR(middle.z(), 450, 1e-3);
    }
    EXPECT_TRUE(found);
    d["openings"][0]["plate"] = "frames/rig";
    d["openings"][1]["y"] = "2 m";
    const std::string told = Board(d).told("opening-misses");
    EXPECT_NE(told.find("hand hole cuts no frame"), std::string::npos) << told;
    EXPECT_NE(told.find("cable cuts nothing of frame rib"), std::string::npos) << told;
}

TEST(FrameRoom, AFrameBehindAWayOutIsTold) {
    auto random = seeded(83);
    for (int round = 0; round < 6; ++round) {
        const double behind = uniform(random, 20, 600), thick = 12;
        json d = ribbed();
        d["frames"] = {
            {{"name", "wall"}, {"axis", "y"}, {"station", std::to_string(488 - behind - thick / 2) + " mm"}}};
        d["openings"] = {{{"name", "way out"},
                          {"plate", "crate/port"},
                          {"shape", "rectangle"},
                          {"u", "0"},
                          {"v", "0"},
                          {"width", "400 mm"},
                          {"height", "500 mm"},
                          {"purpose", "exit"}}};
        const Board board(d);
        const std::string told = board.told("opening-barred");
        if (behind > 400) {
            EXPECT_EQ(told, "") << behind;
            continue;
        }
        EXPECT_NE(told.find("takes 100 % of it"), std::string::npos) << behind << told;
        d["openings"][0]["purpose"] = "light";
        EXPECT_EQ(Board(d).told("opening-barred"), "");
    }
}

// A house that turns about its middle, with a rib across it, and a post that stands still inside, off the
// axis.
TEST(FrameRoom, AFrameThatTurnsKeepsClearOfWhatItTurnsPast) {
    json d = ribbed();
    d["donor"]["solids"] = {{{"name", "post"},
                             {"shape", "box"},
                             {"x", "150 mm"},
                             {"y", "0"},
                             {"z", "500 mm"},
                             {"size_x", "100 mm"},
                             {"size_y", "100 mm"},
                             {"size_z", "300 mm"}}};
    d["mechanisms"]["turntables"] = {{{"name", "hub"},
                                      {"at", {{"x", "0"}, {"z", "0"}}},
                                      {"diameter", "60 mm"},
                                      {"depth", "20 mm"},
                                      {"wall", "3 mm"},
                                      {"lip", "20 mm"},
                                      {"lip_thickness", "5 mm"},
                                      {"ring_stock", "ply"},
                                      {"gap", "2 mm"},
                                      {"overlap", "12 mm"},
                                      {"ring_width", "50 mm"},
                                      {"carries", {"crate/*", "frames/rib"}}}};
    const Board board(d);
    ASSERT_FALSE(board.e.frames->parts.empty());
    ASSERT_EQ(board.e.mechanisms->motions.size(), 1U);
    const ConvexSolid& post = board.e.donor->solids.front().shape;
    double least = 1e9;
    for (int degree = 0; degree < 360; ++degree) {
        ConvexSolid seen = post; // as the rib sees it
        const double turn = degree * std::numbers::pi / 180;
        for (Vec3& p : seen.points)
            p = {p.x() * std::cos(turn) - p.y() * std::sin(turn),
                 p.x() * std::sin(turn) + p.y() * std::cos(turn), p.z()};
        for (const Plate& part : board.e.frames->parts)
            for (const ConvexSolid& cell : part.cells) {
                const Nearest n = nearest(seen, cell);
                least = std::min(least, n.meets ? -n.depth : n.distance);
            }
    }
    EXPECT_GE(least, 20 - 0.01) << "clearance wanted";
    EXPECT_LE(least, 20 + 2) << "no more than facets and chords cost";
}
