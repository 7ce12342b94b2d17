// Round forms that go through frames, openings in frames, and frames behind openings; by closed forms.
#include "core/mechanisms/shown.h"
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

namespace {

json post(const std::string& z) {
    return {{{"name", "post"},
             {"shape", "box"},
             {"x", "150 mm"},
             {"y", "0"},
             {"z", z},
             {"size_x", "100 mm"},
             {"size_y", "100 mm"},
             {"size_z", "300 mm"}}};
}
json hub(const std::string& z, const json& carries) {
    return {{{"name", "hub"},
             {"at", {{"x", "0"}, {"z", z}}},
             {"diameter", "60 mm"},
             {"depth", "20 mm"},
             {"wall", "3 mm"},
             {"lip", "20 mm"},
             {"lip_thickness", "5 mm"},
             {"ring_stock", "ply"},
             {"gap", "2 mm"},
             {"overlap", "12 mm"},
             {"ring_width", "50 mm"},
             {"carries", carries}}};
}
/// A house of 800 by 800 by 600 that stands over the crate by itself.
json house() {
    const json corners = {{{"x", "-400 mm"}, {"y", "-400 mm"}},
                          {{"x", "400 mm"}, {"y", "-400 mm"}},
                          {{"x", "400 mm"}, {"y", "400 mm"}},
                          {{"x", "-400 mm"}, {"y", "400 mm"}}};
    return {{"name", "house"},     {"kind", "taper"},    {"base", corners}, {"top", corners},
            {"base_z", "1060 mm"}, {"top_z", "1660 mm"}, {"standing", true}};
}
/// Least distance of a board to what a full turn of a solid about the z axis takes, seen from the board.
double leastOverTurn(const Plate& board, const ConvexSolid& solid) {
    double least = 1e9;
    for (int degree = 0; degree < 360; ++degree) {
        ConvexSolid seen = solid;
        const double turn = degree * std::numbers::pi / 180;
        for (Vec3& p : seen.points)
            p = {p.x() * std::cos(turn) - p.y() * std::sin(turn),
                 p.x() * std::sin(turn) + p.y() * std::cos(turn), p.z()};
        for (const ConvexSolid& cell : board.cells) {
            const Nearest n = nearest(seen, cell);
            least = std::min(least, n.meets ? -n.depth : n.distance);
        }
    }
    return least;
}

} // namespace

// A house that turns about its middle, with a rib across it, and a post that stands still inside, off the
// axis. The rib goes along, named or not.
TEST(FrameRoom, AFrameThatTurnsKeepsClearOfWhatItTurnsPast) {
    for (const json& carries : {json{"crate/*", "frames/rib"}, json{"crate/*"}}) {
        json d = ribbed();
        d["donor"]["solids"] = post("500 mm");
        d["mechanisms"]["turntables"] = hub("0", carries);
        const Board board(d);
        ASSERT_FALSE(board.e.frames->parts.empty());
        ASSERT_EQ(board.e.mechanisms->motions.size(), 1U);
        double least = 1e9;
        for (const Plate& part : board.e.frames->parts) {
            EXPECT_NE(carriedWith(*board.e.mechanisms, part.name), nullptr) << part.name << carries;
            least = std::min(least, leastOverTurn(part, board.e.donor->solids.front().shape));
        }
        EXPECT_GE(least, 20 - 0.01) << "clearance wanted";
        EXPECT_LE(least, 20 + 2) << "no more than facets and chords cost";
        EXPECT_EQ(board.told("sweep-hits") + board.told("sweep-tight"), "") << carries;
    }
}

// A rib across a body that stands and a house that turns over it: each of its boards goes with its own body.
TEST(FrameRoom, BoardsGoWithTheBodyThatTheyStandIn) {
    json d = ribbed();
    d["forms"].push_back(house());
    d["donor"]["solids"] = post("1300 mm");
    d["mechanisms"]["turntables"] = hub("1000 mm", {"house/*"});
    const Board board(d);
    int standing = 0, turning = 0;
    for (const Plate& part : board.e.frames->parts) {
        const bool above = bounds(part.solid).min.z() > 1000;
        const CarriedPlates* carried = carriedWith(*board.e.mechanisms, part.name);
        EXPECT_EQ(carried != nullptr, above) << part.name;
        ++(above ? turning : standing);
        if (!above) {
            EXPECT_GT(bounds(part.solid).size().y(), 970) << "nothing sweeps through the crate";
            continue;
        }
        const double least = leastOverTurn(part, board.e.donor->solids.front().shape);
        EXPECT_GE(least, 20 - 0.01);
    }
    EXPECT_GE(standing, 1);
    EXPECT_GE(turning, 1);
    EXPECT_EQ(board.told("sweep-hits") + board.told("sweep-tight"), "");
    // Shown a quarter round, the house's boards lie along its x axis and the crate's still across it.
    d["mechanisms"]["turntables"][0]["angle"] = "90 deg";
    const Board shown(d);
    for (const Plate& plate : shown.e.plates->plates)
        if (plate.form == "frames/rib") {
            const Vec3 size = bounds(plate.solid).size();
            EXPECT_NEAR(bounds(plate.solid).min.z() > 1000 ? size.y() : size.x(), 12, 1e-6) << plate.name;
        }
}

// A body of plates that stands still inside the house that turns.
TEST(FrameRoom, AFrameThatTurnsKeepsClearOfPlatesThatStand) {
    json d = ribbed();
    json plinth = house();
    plinth["name"] = "plinth";
    plinth["base"] = plinth["top"] = {{{"x", "100 mm"}, {"y", "-50 mm"}},
                                      {{"x", "200 mm"}, {"y", "-50 mm"}},
                                      {{"x", "200 mm"}, {"y", "50 mm"}},
                                      {{"x", "100 mm"}, {"y", "50 mm"}}};
    plinth["base_z"] = "1150 mm";
    plinth["top_z"] = "1450 mm";
    d["forms"].push_back(house());
    d["forms"].push_back(plinth);
    d["donor"]["solids"] = json::array();
    d["mechanisms"]["turntables"] = hub("1000 mm", {"house/*"});
    const Board board(d);
    double least = 1e9;
    for (const Plate& part : board.e.frames->parts)
        if (bounds(part.solid).min.z() > 1000)
            for (const Plate& plate : board.e.plates->plates)
                if (plate.form == "plinth")
                    for (const ConvexSolid& cell : plate.cells)
                        least = std::min(least, leastOverTurn(part, cell));
    EXPECT_GE(least, 2 - 0.01) << "the table's gap";
    EXPECT_LE(least, 2 + 2) << "no more than facets and chords cost";
}
