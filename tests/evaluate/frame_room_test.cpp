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
