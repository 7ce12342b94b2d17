// Frames that the donor cuts in pieces, through a whole document: order, ways in, findings and report.
#include "core/frames/slot_margins.h"
#include "core/plates/margins.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include "tests/frames/goes_together.h"
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// A lamp tender: a crate on whose keel stands a rib that a shaft and two tanks leave in a post and an arch.
json tender() {
    json d =
        json::parse(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
    const auto solid = [](const char* name, const char* y, const char* z, const char* wide,
                          const char* high) {
        return json{{"name", name}, {"shape", "box"},     {"x", "0"},       {"y", y},
                    {"z", z},       {"size_x", "200 mm"}, {"size_y", wide}, {"size_z", high}};
    };
    d["donor"]["solids"] = {solid("shaft", "0", "400 mm", "500 mm", "100 mm"),
                            solid("port tank", "150 mm", "170 mm", "200 mm", "380 mm"),
                            solid("starboard tank", "-150 mm", "170 mm", "200 mm", "380 mm")};
    d["frames"] = {{{"name", "rib"}, {"axis", "x"}, {"station", "0"}},
                   {{"name", "aft"}, {"axis", "x"}, {"station", "-0.3 m"}},
                   {{"name", "keel"}, {"axis", "y"}, {"station", "0"}}};
    return d;
}

Evaluation evaluatedJson(const json& document) {
    const auto project = readProject(document.dump());
    EXPECT_TRUE(project) << (project ? "" : project.error().message);
    return project ? evaluated(*project, Effort::full) : Evaluation{};
}

const Finding* findCode(const Evaluation& e, const std::string& code) {
    const auto it =
        std::find_if(e.findings.begin(), e.findings.end(), [&](const Finding& f) { return f.code == code; });
    return it == e.findings.end() ? nullptr : &*it;
}

} // namespace

TEST(FramesInPieces, haveTheirTurnsInTheReport) {
    const json document = tender();
    const Evaluation e = evaluatedJson(document);
    ASSERT_TRUE(e.frames && e.plates);
    EXPECT_EQ(findCode(e, "frame-order"), nullptr);
    EXPECT_EQ(findCode(e, "frame-cut-through"), nullptr) << "piece by piece nothing bars the way";
    expectGoesTogether(*e.frames, "tender");
    for (std::size_t i = 0; i < e.frames->order.size(); ++i) EXPECT_LT(sweptShare(*e.frames, i), 1e-6) << i;
    const json report = json::parse(reportJson(*readProject(document.dump()), e));
    std::vector<std::string> turns(4);
    for (const json& frame : report["frames"])
        for (const json& board : frame["boards"]) {
            const auto turn = board["goes_in"].get<std::size_t>();
            ASSERT_GE(turn, 1U);
            ASSERT_LE(turn, 4U);
            turns[turn - 1] = board["name"];
            EXPECT_EQ(board["from"], "above");
            EXPECT_EQ(board["from_direction"], json({0.0, 0.0, 1.0}));
        }
    EXPECT_EQ(turns, (std::vector<std::string>{"frames/rib#2", "frames/aft", "frames/keel", "frames/rib"}));
    EXPECT_EQ(report["frames"][0]["boards"][0]["name"], "frames/rib#2") << "by their turns";
    EXPECT_EQ(report["frames"][0]["boards"][1]["onto"], json({"frames/keel"}));
    EXPECT_EQ(report["frames"][0]["left_out"], 0);
    for (const json& crossing : report["frames"][0]["crossings"]) {
        EXPECT_EQ(crossing["with_board"], "frames/keel");
        // Twelve millimetres of ply, measured; the rib's post is open above, its arch below.
        EXPECT_NEAR(crossing["slot_width_mm"].get<double>(), 12, 1e-6);
        EXPECT_EQ(crossing["slot"], crossing["board"] == "frames/rib#2" ? "from above" : "from below");
    }
    const std::string text = reportText(*readProject(document.dump()), e);
    for (const char* line : {"1. rib#2: stands first\n", "2. aft: set at its place, from above\n",
                             "3. keel: from above, onto rib#2 and aft\n", "4. rib: from above, onto keel\n",
                             "rib: 2 boards: rib "})
        EXPECT_NE(text.find(line), std::string::npos) << line << " in\n" << text;
}

TEST(FramesInPieces, aPieceThatGoesInInNoOrderIsNamedAndLeftOut) {
    json document = tender();
    document["frames"].push_back({{"name", "shelf"}, {"axis", "z"}, {"station", "0.6 m"}});
    const Evaluation e = evaluatedJson(document);
    const Finding* told = findCode(e, "frame-order");
    ASSERT_TRUE(told && e.frames);
    EXPECT_EQ(told->severity, Severity::stop);
    EXPECT_EQ(told->about.front(), "frame:shelf");
    EXPECT_NE(std::find(told->about.begin(), told->about.end(), "document:/frames/3"), told->about.end());
    EXPECT_NE(told->message.find("keel"), std::string::npos) << told->message;
    EXPECT_FALSE(told->remedy.empty());
    ASSERT_TRUE(told->at);
    EXPECT_NEAR((*told->at)[2], 600, 1e-6);
    // The rest is as if it were not there.
    const Evaluation without = evaluatedJson(tender());
    EXPECT_EQ(e.frames->order, without.frames->order);
    EXPECT_EQ(e.frames->parts, without.frames->parts);
    const std::string text = reportText(*readProject(document.dump()), e);
    EXPECT_NE(text.find("shelf: 0 boards, 1 left out"), std::string::npos) << text;
}

TEST(FramesInPieces, ofEveryDocumentGoTogetherAsTold) {
    int boards = 0;
    const auto check = [&](const Project& project) {
        const Evaluation e = evaluated(project, Effort::live);
        ASSERT_TRUE(e.frames) << project.title;
        expectGoesTogether(*e.frames, project.title);
        for (std::size_t i = 0; i < e.frames->order.size(); ++i)
            EXPECT_LT(sweptShare(*e.frames, i), 1e-6) << project.title << ": " << e.frames->order[i].board;
        boards += static_cast<int>(e.frames->order.size());
    };
    for (const char* name : {"harbour-fire-boat", "harbour-tram"}) check(sample(name));
    const auto folder = std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/documents";
    for (const char* name : {"marsh-crawler", "net-barge"}) {
        const auto project = loadProject(folder / (std::string(name) + ".slabside.json"));
        ASSERT_TRUE(project) << name;
        check(*project);
    }
    std::printf("%d boards\n", boards);
    EXPECT_GT(boards, 8);
}

TEST(FrameMargins, aToldMoveRemovesItsHorn) {
    // Ribs and keelsons at random stations of a crate with a block in it; every move that is told is tried.
    auto random = seeded(77);
    int tried = 0, narrow = 0;
    for (int round = 0; round < 16; ++round) {
        json d = json::parse(
            textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/findings/base.json"));
        const auto nearWall = [&] {
            return std::to_string((below(random, 2) ? 1 : -1) * uniform(random, 425, 475)) + " mm";
        };
        const bool both = below(random, 3) == 0;
        d["frames"] = {
            {{"name", "rib"}, {"axis", "x"}, {"station", both ? nearWall() : std::string("200 mm")}},
            {{"name", "keel"}, {"axis", "y"}, {"station", nearWall()}}};
        if (below(random, 2) == 0) d["frames"][0]["yaw"] = "20 deg";
        const Evaluation before = evaluatedJson(d);
        for (const FrameCrossing& c : before.frames->crossings)
            for (const auto& [board, other] :
                 {std::pair{c.boardA, c.boardB}, std::pair{c.boardB, c.boardA}}) {
                const Plate *own = boardNamed(*before.frames, board),
                            *inSlot = boardNamed(*before.frames, other);
                const double wanted = leastWeb(before.stock->find("ply"), own->thickness,
                                               board == c.boardA ? c.slotA : c.slotB);
                if (!thinHorn(*own, c, wanted)) continue;
                const auto move = moveForMargin(*own, *inSlot, c, wanted);
                if (!move) {
                    ++narrow;
                    continue;
                }
                ++tried;
                json moved = d;
                const bool keel = inSlot->form == "frames/keel";
                const Vec3 axis = keel ? Vec3::UnitY() : Vec3::UnitX();
                const double station = std::stod(d["frames"][keel ? 1 : 0]["station"].get<std::string>()) +
                                       *move / inSlot->frame.axes.col(2).dot(axis);
                moved["frames"][keel ? 1 : 0]["station"] = std::to_string(station) + " mm";
                const Evaluation after = evaluatedJson(moved);
                for (const Finding& f : after.findings)
                    if (f.code == "frame-horn") {
                        EXPECT_EQ(f.message.find("beside the slot for " + inSlot->form.substr(7)),
                                  std::string::npos)
                            << *move << " mm: " << f.message << "\n"
                            << d["frames"];
                    }
            }
    }
    std::cout << tried << " moves tried, " << narrow << " boards too narrow\n";
    EXPECT_GT(tried, 5);
}
