// Cleats in the whole pipeline: what fit, panels, sheets, totals, modules and the report say of them.
#include "core/fit/fit.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// A barge with sills of timber, blocks under the deck and posts of ply; hatch, bulkhead and a wheel box.
json barge() {
    return json::parse(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" /
                              "documents" / "net-barge.slabside.json"));
}

Project readBarge(const json& document) {
    auto project = readProject(document.dump());
    if (!project) throw std::runtime_error(project.error().message);
    return *project;
}

bool isCleat(const std::string& plate) {
    return plate.find(" cleat") != std::string::npos || plate.find(" block") != std::string::npos;
}

const Plate* plateOfBarge(const Evaluation& e, const std::string& name) {
    const auto it = std::find_if(e.plates->plates.begin(), e.plates->plates.end(),
                                 [&](const Plate& p) { return p.name == name; });
    return it == e.plates->plates.end() ? nullptr : &*it;
}

bool tells(const Evaluation& e, const std::string& code) {
    return std::any_of(e.findings.begin(), e.findings.end(),
                       [&](const Finding& f) { return f.code == code; });
}

} // namespace

TEST(CleatStage, PiecesArePlatesThatOnlySheetsArePanelsOf) {
    const Evaluation e = evaluated(readBarge(barge()), Effort::full);
    ASSERT_FALSE(e.cleats->lines.empty());
    std::size_t timber = 0, strips = 0;
    for (const Plate& part : e.cleats->parts) {
        ASSERT_NE(plateOfBarge(e, part.name), nullptr) << part.name;
        const bool panel = std::any_of(e.panels->begin(), e.panels->end(),
                                       [&](const Panel& p) { return p.isOf(part.name); });
        EXPECT_EQ(panel, !part.stock.empty()) << part.name;
        ++(part.stock.empty() ? timber : strips);
    }
    EXPECT_GT(timber, 10U);
    EXPECT_EQ(strips, 4U); // the posts: what is left for the last rule
    EXPECT_TRUE(e.sheets->unplaced.empty());
    json bare = barge();
    bare["cleats"] = json::array();
    const Evaluation without = evaluated(readBarge(bare), Effort::full);
    double mass = 0, bars = 0; // lap and butt strips end at them, so all plates are weighed again
    for (const Plate& part : e.plates->plates)
        mass += part.volume * (part.stock.empty() ? part.density : 600) / 1e9;
    EXPECT_NEAR(e.totals.mass, mass, 1e-9);
    EXPECT_GT(e.totals.mass, without.totals.mass + 2);
    for (const BarLine& line : e.totals.timber) bars += line.price * static_cast<double>(line.bars.size());
    EXPECT_GT(bars, 0);
    EXPECT_NEAR(e.totals.cost, e.sheets->cost + bars, 1e-9);
    EXPECT_EQ(e.totals.plates, without.totals.plates + 4);
}

// Lap strips, butt strips, the bulkhead and the donor: nothing stands in a cleat.
TEST(CleatStage, NothingStandsInThem) {
    const Evaluation e = evaluated(readBarge(barge()), Effort::full);
    std::size_t laps = 0, butts = 0;
    for (const Plate& other : e.plates->plates) {
        laps += other.name.find(" lap") != std::string::npos ? 1 : 0;
        butts += other.name.find("/strip") != std::string::npos ? 1 : 0;
        for (const Plate& part : e.cleats->parts) {
            if (part.name == other.name) continue;
            for (const ConvexSolid& cell : other.cells)
                EXPECT_LT(nearest(part.cells[0], cell).depth, 5e-4) << part.name << " in " << other.name;
        }
    }
    EXPECT_GT(laps, 0U);
    EXPECT_GT(butts, 0U);
    EXPECT_TRUE(tells(e, "cleat-in-the-way")); // the wheel box stands near the sill
    EXPECT_FALSE(tells(e, "fit-tight"));
    EXPECT_FALSE(tells(e, "fit-hits"));
}

// They take room: a wheel box that floats up or moves into them is told like any plate.
TEST(CleatStage, FitKnowsThem) {
    const Evaluation e = evaluated(readBarge(barge()), Effort::full);
    const auto pairs = everyPair(*e.fit, e.donor->solids, *e.plates);
    double least = 1e9;
    for (const FitPair& p : pairs)
        if (isCleat(p.plate)) least = std::min(least, p.clearance);
    EXPECT_GE(least, 20 - 1e-6);
    EXPECT_LT(least, 25); // the sill ends so far off, and its end gap of 5 along the joint
}

TEST(CleatStage, TheirPlacesAreMarkedOnThePanels) {
    const Evaluation e = evaluated(readBarge(barge()), Effort::full);
    std::size_t marked = 0;
    double glued = 0, wanted = 0;
    for (const Panel& panel : *e.panels)
        for (const PanelCopy& copy : panel.copies)
            for (const Contact& contact : copy.contacts) {
                if (!isCleat(contact.plate)) continue;
                ++marked;
                EXPECT_TRUE(contact.inside);
                for (const Ring& ring : contact.rings) {
                    glued += std::abs(signedArea(ring));
                    for (const Vec2& p : ring) {
                        const Box2 box = bounds(panel.boundary.inner);
                        EXPECT_TRUE((p.array() > box.min.array() - 1e-6).all() &&
                                    (p.array() < box.max.array() + 1e-6).all())
                            << contact.plate << " on " << panel.name;
                    }
                }
            }
    for (const CleatLine& line : e.cleats->lines)
        wanted += line.count * line.length * (line.glueA + line.glueB);
    EXPECT_GE(marked, 2 * e.cleats->parts.size()); // more where a seam cuts a place in two
    EXPECT_NEAR(glued, wanted, 1e-6 * wanted);
}

TEST(CleatStage, ModulesTakeThoseOnTheirPlates) {
    const Evaluation e = evaluated(readBarge(barge()), Effort::full);
    const auto deck = std::find_if(e.modules->modules.begin(), e.modules->modules.end(),
                                   [](const ModuleInfo& m) { return m.name == "deck"; });
    ASSERT_NE(deck, e.modules->modules.end());
    double mass = 0;
    int blocks = 0;
    for (const std::string& name : deck->plates) {
        const Plate& plate = *plateOfBarge(e, name);
        blocks += isCleat(name) ? 1 : 0;
        mass += plate.volume * (plate.stock.empty() ? 500 : 600) / 1e9;
    }
    EXPECT_GT(blocks, 4);
    EXPECT_NEAR(deck->mass, mass, 1e-9);
    // Glued to the four sides too: only screws there; told once for each side.
    EXPECT_EQ(std::count_if(e.findings.begin(), e.findings.end(),
                            [](const Finding& f) { return f.code == "module-stands"; }),
              4);
}

TEST(CleatStage, ReportsTellThem) {
    const Project project = readBarge(barge());
    const Evaluation e = evaluated(project, Effort::full);
    const json report = json::parse(reportJson(project, e));
    ASSERT_EQ(report["cleats"].size(), e.cleats->lines.size());
    for (std::size_t i = 0; i < e.cleats->lines.size(); ++i) {
        const json& one = report["cleats"][i];
        const CleatLine& line = e.cleats->lines[i];
        EXPECT_EQ(one["count"], line.count);
        EXPECT_NEAR(one["length_mm"].get<double>(), line.length, 1e-9);
        EXPECT_EQ(one["between"], json::array({line.a, line.b}));
        EXPECT_EQ(one["plates"].size(), static_cast<std::size_t>(line.count));
    }
    const json& timber = report["totals"]["timber"];
    ASSERT_EQ(timber.size(), 2U); // 25 and 30 square
    EXPECT_EQ(timber[0]["bar_length_mm"], 2400);
    EXPECT_EQ(timber[1]["bar_length_mm"], 1800);
    for (const json& line : timber) {
        std::size_t pieces = 0;
        for (const json& bar : line["bars"]) pieces += bar["lengths_mm"].size();
        EXPECT_EQ(line["pieces"], pieces);
        EXPECT_EQ(line["buy"], line["bars"].size());
    }
    const std::string text = reportText(project, e);
    EXPECT_NE(text.find("\nCleats\n  sill: "), std::string::npos) << text;
    EXPECT_NE(text.find("  timber 25 mm x 25 mm: "), std::string::npos) << text;
    EXPECT_NE(text.find("push stick"), std::string::npos);
    const std::string list = shoppingListCsv(e.totals, *e.stock, e.units);
    EXPECT_NE(list.find("timber for cleats,\"25 mm x 25 mm x "), std::string::npos) << list;
}

TEST(CleatStage, ChangedStepByStepIsAsMadeAnew) {
    Evaluator evaluator;
    json document = barge();
    for (const char* width : {"25 mm", "40 mm", "25 mm"})
        for (const char* scale : {"1", "0.9", "1.1"}) {
            document["cleats"][0]["width"] = width;
            document["scale"] = scale;
            const Project project = readBarge(document);
            const Evaluation e = evaluator.evaluate(project, Effort::verdict);
            const Evaluation fresh = Evaluator().evaluate(project, Effort::verdict);
            EXPECT_EQ(*e.cleats, *fresh.cleats) << width << " " << scale;
            EXPECT_EQ(*e.plates, *fresh.plates) << width << " " << scale;
            EXPECT_EQ(*e.panels, *fresh.panels) << width << " " << scale;
            EXPECT_EQ(e.findings, fresh.findings) << width << " " << scale;
        }
}
