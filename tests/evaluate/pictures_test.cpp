// Reference pictures in the pipeline and in the report.
#include "tests/evaluate/samples.h"
#include <cmath>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const fs::path pictureFolder = fs::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "findings";

Picture board() {
    Picture p;
    p.name = "side view";
    p.file = "board.png"; // 64 by 48 pixels
    p.from = {"", "4", "40", {}};
    p.to = {"", "44", "40", {}};
    p.distance = "4 m";
    p.features = {{"bow", "44", "20", {}}};
    p.lines = {{"rail", "4", "20", "44", "20", "", "", {}}};
    return p;
}

} // namespace

TEST(Pictures, AMissingOneChangesNothingElse) {
    const Project plain = sample("harbour-fire-boat");
    Project with = plain;
    with.pictures = {board(), board()};
    with.pictures[1].name = "gone";
    with.pictures[1].file = "gone.png";
    Evaluator evaluator;
    const Evaluation without = evaluator.evaluate(plain, Effort::live);
    const Evaluation e = evaluator.evaluate(with, Effort::live, 0, {}, readPictureFiles(with, pictureFolder));
    EXPECT_EQ(e.plates, without.plates) << "pictures are no reason to make plates again";
    EXPECT_EQ(e.sheets, without.sheets);
    ASSERT_TRUE(e.pictures);
    EXPECT_EQ(e.pictures->pictures[0].state, PlacedPicture::State::present);
    EXPECT_EQ(e.pictures->pictures[1].state, PlacedPicture::State::missing);
    std::vector<Finding> rest = e.findings;
    ASSERT_EQ(std::erase_if(rest, [](const Finding& f) { return f.code == "picture-missing"; }), 1u);
    EXPECT_EQ(rest, without.findings);
    const Evaluation unseen = evaluator.evaluate(with, Effort::live);
    EXPECT_EQ(unseen.findings, without.findings) << "nobody looked for the files";
}

TEST(Pictures, ShrinkWithTheBodyAndStandInTheReport) {
    Project p = sample("harbour-fire-boat");
    p.pictures = {board(), board()};
    p.pictures[1].name = "of the donor";
    p.pictures[1].space = Space::build;
    p.scale = "1/4";
    Evaluator evaluator;
    const Evaluation e = evaluator.evaluate(p, Effort::live, 0, {}, readPictureFiles(p, pictureFolder));
    const json report = json::parse(reportJson(p, e));
    ASSERT_EQ(report["pictures"].size(), 2u);
    const json& side = report["pictures"][0];
    EXPECT_EQ(side["state"], "present");
    EXPECT_EQ(side["scale_from"], "distance");
    EXPECT_EQ(side["size_px"], json::array({64.0, 48.0}));
    EXPECT_NEAR(side["lines"][0]["length_mm"], 1000, 1e-9);
    EXPECT_NEAR(report["pictures"][1]["lines"][0]["length_mm"], 4000, 1e-9);
    EXPECT_NEAR(side["lines"][0]["error_mm"], 25 * std::sqrt(2 * (1 + 1)), 1e-9); // 25 mm for a pixel, a pixel off
    EXPECT_NEAR(side["points"][0]["at_mm"][0], 1000, 1e-9);
    EXPECT_NEAR(side["points"][0]["at_mm"][1], 500, 1e-9);
    EXPECT_TRUE(side["check"].is_null());
    EXPECT_NEAR(side["map"][0][0], 25, 1e-9);
    EXPECT_TRUE(report["measured_sizes"].is_array());
}
