// The report's figures against what they are made of.
#include "tests/evaluate/samples.h"
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

Vec3 placed(const json& m, const json& p) {
    Vec3 out;
    for (int row = 0; row < 3; ++row)
        out[row] = m[row][0].get<double>() * p[0].get<double>() +
                   m[row][1].get<double>() * p[1].get<double>() + m[row][3].get<double>();
    return out;
}

const json& named(const json& list, const std::string& name) {
    for (const json& one : list)
        if (one["name"] == name) return one;
    ADD_FAILURE() << "no " << name;
    static const json none;
    return none;
}

} // namespace

TEST(Report, EveryPlateIsItsPanelPlaced) {
    // Each corner of a panel, put in place by the plate's matrix, is a corner of that plate's solid: of the
    // outside face, and of the inside face a thickness behind it.
    int turned = 0;
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        const Project project = sample(name);
        const Evaluation e = evaluated(project);
        const json report = json::parse(reportJson(project, e));
        for (const json& panel : report["panels"])
            for (const json& plateName : panel["plates"]) {
                if (!panel["cut_from"].empty()) continue; // a piece ends at its seams
                const json& plate = named(report["plates"], plateName);
                const auto solid =
                    std::find_if(e.plates->plates.begin(), e.plates->plates.end(),
                                 [&](const Plate& p) { return p.name == plateName.get<std::string>(); });
                ASSERT_NE(solid, e.plates->plates.end());
                if (solid->form == "crawler belt") continue; // laid flat, it is bent round its wheels
                const Vec3 own = solid->frame.axes.col(0);
                turned += std::abs(own.x() - plate["placement"][0][0].get<double>()) > 1e-6 ? 1 : 0;
                const Vec3 inward = -solid->thickness * solid->frame.axes.col(2);
                for (const char* face : {"outer_mm", "inner_mm"})
                    for (const json& point : panel[face]) {
                        Vec3 at = placed(plate["placement"], point);
                        if (face == std::string("inner_mm")) at += inward;
                        double nearest = 1e9;
                        for (const Vec3& v : solid->solid.vertices)
                            nearest = std::min(nearest, (v - at).norm());
                        EXPECT_LT(nearest, 0.02) << name << " " << plateName << " " << face;
                    }
            }
    }
    EXPECT_GT(turned, 0) << "no copy is turned: the matrices were not put to the test";
}

TEST(Report, HasEveryKeyOfItsGuide) {
    const Project project = sample("moon-crawler");
    const json report = json::parse(reportJson(project, evaluated(project, Effort::full)));
    for (const char* key : {"scale", "skin", "plates", "panels", "seams", "modules", "gaps", "plate_overlaps",
                            "fit", "sheets", "unplaced", "totals", "findings"})
        EXPECT_TRUE(report.contains(key)) << key;
    const json& panel = report["panels"][0];
    for (const char* key :
         {"name", "plates", "mirror_of", "outer_mm", "inner_mm", "holes", "edges", "extra_inner_edges"})
        EXPECT_TRUE(panel.contains(key)) << key;
    EXPECT_EQ(panel["edges"].size(), panel["outer_mm"].size());
    for (const char* key : {"neighbour", "joint", "dihedral_deg", "bevel_deg", "length_mm", "offset_outer_mm",
                            "offset_inner_mm", "inner"})
        EXPECT_TRUE(panel["edges"][0].contains(key)) << key;
}

TEST(Report, EdgesSayWhatTheOutlinesAre) {
    // length_mm is the outer edge's; tan(bevel) = (b - a) / t; the inner edge named is parallel to the outer
    // one.
    const Project project = sample("harbour-fire-boat");
    const json report = json::parse(reportJson(project, evaluated(project)));
    int compared = 0;
    for (const json& panel : report["panels"]) {
        const auto& outer = panel["outer_mm"];
        const auto& inner = panel["inner_mm"];
        const double t = panel["thickness_mm"];
        const auto corner = [](const json& ring, std::size_t i) {
            const json& p = ring[i % ring.size()];
            return Vec2(p[0].get<double>(), p[1].get<double>());
        };
        for (std::size_t i = 0; i < outer.size(); ++i) {
            const json& edge = panel["edges"][i];
            const Vec2 along = corner(outer, i + 1) - corner(outer, i);
            EXPECT_NEAR(along.norm(), edge["length_mm"].get<double>(), 1e-6);
            const double a = edge["offset_outer_mm"], b = edge["offset_inner_mm"];
            EXPECT_NEAR(std::atan2(b - a, t) * 180 / M_PI, edge["bevel_deg"].get<double>(), 1e-6);
            if (edge["inner"].is_null() || edge["neighbour"].get<std::string>().empty()) continue;
            const auto k = edge["inner"].get<std::size_t>();
            const Vec2 other = corner(inner, k + 1) - corner(inner, k);
            EXPECT_NEAR(cross2(along.normalized(), other.normalized()), 0, 1e-6)
                << panel["name"] << " edge " << i;
            // The inner line lies b - a further in.
            const Vec2 inward(-along.y(), along.x());
            EXPECT_NEAR((corner(inner, k) - corner(outer, i)).dot(inward.normalized()), b - a, 1e-5)
                << panel["name"] << " edge " << i;
            ++compared;
        }
    }
    EXPECT_GT(compared, 80);
}

TEST(Report, VolumesAddUp) {
    const Project project = sample("moon-crawler");
    const Evaluation e = evaluated(project, Effort::full);
    const json report = json::parse(reportJson(project, e));
    double mass = 0;
    for (const json& plate : report["plates"])
        mass += plate["volume_mm3"].get<double>() * (plate["material"] == "card_3" ? 130e-9 : 95e-9);
    EXPECT_NEAR(mass, report["totals"]["mass_kg"].get<double>(), 1e-6);
    for (const json& sheet : report["sheets"]) {
        EXPECT_GT(sheet["used_percent"].get<double>(), 0);
        EXPECT_LE(sheet["used_percent"].get<double>(), 100);
    }
}

TEST(Report, CountsOneSheetAsOne) {
    const Project project = sample("harbour-fire-boat");
    const std::string text = reportText(project, evaluated(project, Effort::full));
    EXPECT_EQ(text.find(" 1 sheets"), std::string::npos) << text;
    EXPECT_NE(text.find(" 1 sheet,"), std::string::npos) << text;
}

// The boat is drawn in feet and inches: no finding speaks of millimetres, at sound scales and at bad ones.
TEST(Report, FindingsSpeakTheBuildersUnits) {
    Project boat = sample("harbour-fire-boat");
    ASSERT_EQ(boat.units, "ft");
    std::set<std::string> codes;
    for (const char* scale : {"1/2", "0.42", "0.3", "0.12"}) {
        boat.scale = scale;
        for (const Finding& f : evaluated(boat, Effort::fitOnly).findings) {
            codes.insert(f.code);
            for (const std::string& words : {f.message, f.remedy}) {
                EXPECT_EQ(words.find(" mm"), std::string::npos)
                    << "scale " << scale << ", " << f.code << ": " << words;
                EXPECT_EQ(words.find(" cm"), std::string::npos)
                    << "scale " << scale << ", " << f.code << ": " << words;
            }
        }
    }
    for (const char* code : {"side-split", "fit-hits", "opening-near-edge"})
        EXPECT_TRUE(codes.contains(code)) << code << " is not among the findings looked at";
}
