// Parts of mechanisms and frames are told as what they are, and alike lines once.
#include "core/evaluate/owners.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>
#include <random>
#include <set>
#include <sstream>

using namespace slab;
using namespace slab::test;
using nlohmann::json;

namespace {

/// The small sound document of the findings, with these mechanisms.
Project crateWith(const std::string& mechanisms) {
    json document = json::parse(
        textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "findings" / "base.json"));
    document["mechanisms"] = json::parse(mechanisms);
    const auto project = readProject(document.dump());
    if (!project) ADD_FAILURE() << project.error().message << " at " << project.error().where;
    return project ? *project : Project{};
}

const Finding* find(const Evaluation& e, const std::string& code) {
    for (const Finding& f : e.findings)
        if (f.code == code) return &f;
    return nullptr;
}

std::string lampAt(const std::string& x, const std::string& more = {}) {
    return R"({"turntables": [{"name": "lamp", "at": {"x": ")" + x + R"(", "z": "side"}, "diameter": "400 mm",
        "depth": "180 mm", "wall": "3 mm", "lip": "25 mm", "lip_thickness": "6 mm", "gap": "3 mm",
        "overlap": "15 mm", "ring_width": "70 mm")" +
           more + "}]}";
}

/// Lines of one part of the report in words.
std::vector<std::string> linesUnder(const std::string& report, const std::string& title) {
    std::vector<std::string> out;
    std::istringstream in(report);
    std::string line;
    bool in_it = false;
    while (std::getline(in, line)) {
        if (in_it && line.empty()) break;
        if (in_it) out.push_back(line);
        in_it = in_it || line == title;
    }
    return out;
}

} // namespace

TEST(Owners, WhatATurntableCutsIsNoOpening) {
    const Evaluation e = evaluated(crateWith(lampAt("290 mm")));
    const Finding* f = find(e, "opening-near-edge");
    ASSERT_TRUE(f);
    EXPECT_TRUE(f->message.starts_with("The opening of turntable lamp leaves only ")) << f->message;
    EXPECT_EQ(f->about.front(), "mechanism:lamp");
    EXPECT_NE(f->remedy.find("Keep 40 mm to the edge: move turntable lamp"), std::string::npos) << f->remedy;
    EXPECT_FALSE(find(evaluated(crateWith(lampAt("100 mm"))), "opening-near-edge")) << "moved";
}

TEST(Owners, OnlyWholeNamesOfCuttersAreChanged) {
    Project project;
    Turntable lamp;
    lamp.name = "lamp";
    project.mechanisms.turntables = {lamp};
    Form funnel;
    funnel.name = "funnel";
    funnel.shape = RoundShape{};
    project.forms = {funnel};
    Opening hatch;
    hatch.name = "lamp two";
    project.openings = {hatch};
    const auto told = [&](const std::string& name, const std::string& other) {
        Finding f{Severity::look,
                  "openings-near",
                  "Opening " + name + " leaves only 3 mm to opening " + other + " in hull/top",
                  {"opening:" + name, "plate:hull/top", "opening:" + other},
                  "Keep 36 mm between them, or make one opening of both.",
                  {}};
        return inOwnersWords({f}, project).front();
    };
    Finding f = told("lamp", "funnel");
    EXPECT_EQ(f.message,
              "The opening of turntable lamp leaves only 3 mm to the opening of form funnel in hull/top");
    EXPECT_EQ(f.about, (std::vector<std::string>{"mechanism:lamp", "plate:hull/top", "form:funnel"}));
    EXPECT_EQ(f.remedy,
              "Keep 36 mm between them: move turntable lamp or the other, or make one of them smaller.");
    f = told("lamp two", "lamp");
    EXPECT_EQ(f.message, "Opening lamp two leaves only 3 mm to the opening of turntable lamp in hull/top");
    f = told("lamp two", "hatch");
    EXPECT_EQ(f.message, "Opening lamp two leaves only 3 mm to opening hatch in hull/top");
    EXPECT_EQ(f.remedy, "Keep 36 mm between them, or make one opening of both.");
    f.code = "fit-hits";
    EXPECT_EQ(inOwnersWords({f}, project).front(), f);
}

// The lowest place of a belt round wheels of radius r at height z, t thick, is the least z - r - t.
TEST(Owners, ABeltMayStandOnTheGroundButNotUnderIt) {
    std::mt19937_64 random(seed(41));
    std::uniform_real_distribution<double> size(80, 400), sunk(1.5, 90);
    for (int i = 0; i < 12; ++i) {
        const double a = size(random), b = size(random), deep = i % 3 == 0 ? 0 : sunk(random);
        const double thick = 12 * (1 + i % 2), reach = std::max(a, b) / 2 + thick;
        const auto mm = [](double v) { return "\"" + std::to_string(v) + " mm\""; };
        const Project project = crateWith(
            R"({"belts": [{"name": "track", "at": {"x": "-450 mm", "y": "700 mm", "z": )" + mm(reach - deep) +
            R"(}, "width": "100 mm", "stock": "ply", "thickness": )" + mm(thick) +
            R"(, "wheels": [{"name": "drive", "x": "0", "z": "0", "diameter": )" + mm(a) +
            R"(}, {"name": "idler", "x": "900 mm", "z": "0", "diameter": )" + mm(b) + "}]}]}");
        const Evaluation e = evaluated(project);
        const Finding* f = find(e, "below-ground");
        ASSERT_EQ(f != nullptr, deep > 0) << i << " " << deep << (f ? f->message : "");
        if (!f) continue;
        EXPECT_NEAR((*f->at)[2], -deep, 0.005 * reach + 1e-6) << i;
        EXPECT_NE(std::find(f->about.begin(), f->about.end(), "mechanism:track"), f->about.end());
        EXPECT_NE(f->remedy.find("Lift belt track"), std::string::npos) << f->remedy;
        EXPECT_EQ(f->remedy.find("form"), std::string::npos) << f->remedy;
    }
}

// A form of the same name stays a form.
TEST(Owners, AFormMayHaveAMechanismsName) {
    Project project = crateWith(lampAt("0"));
    project.mechanisms.turntables[0].name = "crate";
    project.forms[0].at.z = "-20 mm";
    const Evaluation e = evaluated(project);
    const Finding* f = find(e, "below-ground");
    ASSERT_TRUE(f);
    EXPECT_NE(f->remedy.find("Lift crate,"), std::string::npos) << f->remedy;
    EXPECT_EQ(f->remedy.find("turntable"), std::string::npos) << f->remedy;
}

// A tube of radius r, pitched down by w, ends a ahead of its pivot: a sin w + r cos w lower.
TEST(Owners, ATubeThatDipsUnderTheGroundIsTold) {
    const auto boom = [](const std::string& angle) {
        return crateWith(
            R"({"trunnions": [{"name": "boom", "at": {"x": "2 m", "z": "300 mm"}, "diameter": "60 mm",
            "wall": "2 mm", "front": "800 mm", "rear": "100 mm", "lowest": "-40 deg", "highest": "40 deg",
            "angle": ")" +
            angle + "\"}]}");
    };
    // Wherever it is shown, lowest is its end at -40°.
    const double a = 40 * std::numbers::pi / 180;
    for (const char* angle : {"0 deg", "-30 deg", "-40 deg"}) {
        const Evaluation e = evaluated(boom(angle));
        const Finding* f = find(e, "below-ground");
        ASSERT_TRUE(f) << angle;
        EXPECT_NEAR((*f->at)[2], 300 - 800 * std::sin(a) - 30 * std::cos(a), 1e-6) << angle;
        const std::string when = angle[1] == '4' ? "" : ", raised -40.0°,";
        EXPECT_TRUE(f->message.starts_with("boom/tube" + when + " reaches 237 mm under the ground"))
            << f->message;
        EXPECT_NE(f->remedy.find("Lift trunnion boom"), std::string::npos) << f->remedy;
        EXPECT_EQ(f->remedy.find("leave out the positions") != std::string::npos, !when.empty());
    }
    Project high = boom("0 deg");
    high.mechanisms.trunnions[0].lowest = "-15 deg"; // 300 - 800 sin 15° - 30 cos 15° = 64 above
    EXPECT_FALSE(find(evaluated(high), "below-ground"));
}

// The lowest of both together: the shell sinks 60 and the tube goes down.
TEST(Owners, ATubeOnAShellThatSinksIsTold) {
    Project project = crateWith(
        R"({"linkages": [{"name": "float", "joint": "pin_slot", "at": {"z": "300 mm"}, "up": "10 mm",
        "down": "60 mm"}], "trunnions": [{"name": "boom", "at": {"x": "2 m", "z": "500 mm"}, "diameter": "60 mm",
        "wall": "2 mm", "front": "850 mm", "rear": "100 mm", "lowest": "-30 deg", "highest": "0"}]})");
    project.forms[0].at.z = "200 mm";
    const Evaluation e = evaluated(project);
    const Finding* f = find(e, "below-ground");
    ASSERT_TRUE(f);
    EXPECT_NEAR((*f->at)[2], 500 - 850 * 0.5 - 30 * std::sqrt(0.75) - 60, 1e-6) << f->message;
    EXPECT_NE(f->message.find("lowered 60 mm, raised -30.0°"), std::string::npos) << f->message;
    project.mechanisms.linkages[0].down = "40 mm";
    EXPECT_FALSE(find(evaluated(project), "below-ground"));
}

// A shell whose floor is 30 above the ground, on pins that let it sink 45.
TEST(Owners, AShellThatSinksUnderTheGroundIsTold) {
    Project project = crateWith(
        R"({"linkages": [{"name": "float", "joint": "pin_slot", "at": {"z": "300 mm"}, "up": "10 mm",
        "down": "45 mm"}]})");
    const Evaluation before = evaluated(project);
    double low = 1e9;
    for (const Vec3& p : before.body->skin.vertices) low = std::min(low, p.z());
    project.forms[0].at.z = std::to_string(30 - low) + " mm";
    const Evaluation e = evaluated(project);
    const Finding* f = find(e, "below-ground");
    ASSERT_TRUE(f);
    EXPECT_NEAR((*f->at)[2], -15, 1e-6) << f->message;
    EXPECT_NE(f->message.find(", lowered 45 mm, reach"), std::string::npos) << f->message;
    project.mechanisms.linkages[0].down = "25 mm";
    EXPECT_FALSE(find(evaluated(project), "below-ground"));
}

TEST(Owners, AlikeSidesOfADrumAreOneRow) {
    const Project project = crateWith(lampAt("0", R"(, "sides": "12", "drum_stock": "ply")"));
    const Evaluation e = evaluated(project, Effort::verdict);
    const std::string report = reportText(project, e);
    int sides = 0;
    for (const SweptCheck& c : e.mechanisms->checks) sides += c.moving.starts_with("lamp/side");
    ASSERT_GE(sides, 12) << report;
    std::set<std::string> met;
    for (const std::string& line : linesUnder(report, "Moving parts")) {
        if (line.find("lamp/side") == std::string::npos) continue;
        EXPECT_TRUE(met.insert(line.substr(line.find(" - "))).second) << report;
    }
    EXPECT_NE(report.find("lamp/side 1 and 11 more - crate/top"), std::string::npos) << report;
    const auto panel = linesUnder(report, "Panels");
    EXPECT_EQ(std::count_if(panel.begin(), panel.end(),
                            [](const std::string& l) { return l.find("lamp/side") != std::string::npos; }),
              1)
        << report;
}

TEST(Owners, AlikeCurvesAreOneLine) {
    const Project tram = sample("harbour-tram");
    const Evaluation e = evaluated(tram);
    const auto lines = linesUnder(reportText(tram, e), "Curves");
    std::set<std::string> words;
    std::size_t curves = 0;
    for (const std::string& line : lines) {
        const std::size_t colon = line.rfind(": ");
        const std::string tail = line.substr(colon + 2);
        EXPECT_TRUE(words.insert(tail.starts_with("each ") ? tail.substr(5) : tail).second) << line;
        const auto count = [](std::string names) {
            for (std::size_t at = names.find(" and "); at != std::string::npos; at = names.find(" and "))
                names.replace(at, 5, ", ");
            return static_cast<std::size_t>(std::count(names.begin(), names.end(), ',')) + 1;
        };
        std::istringstream in(line.substr(2, colon - 2));
        for (std::string part; std::getline(in, part, ';');) {
            const std::size_t of = part.find(" of ");
            curves +=
                of == std::string::npos ? count(part) : count(part.substr(0, of)) * count(part.substr(of));
        }
    }
    EXPECT_EQ(curves, e.body->curves.size());
    EXPECT_TRUE(std::any_of(lines.begin(), lines.end(), [](const std::string& l) {
        return l.starts_with("  front, top, rear and foot of front wheel port, front wheel starboard, rear "
                             "wheel port and rear wheel starboard: each 4 facets");
    }));
    EXPECT_LT(2 * lines.size(), curves) << "its wheels are alike";
}
