// The fire boat's water monitor: a drum in rings on the pump house, a tube on a trunnion that turns with it.
#include "core/plates/mass.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

using namespace slab;
using namespace slab::test;

// Its wheels are round forms, and bought as those: not once more for the belt.
TEST(Mechanisms, TheCrawlersWheelsAreBoughtOnce) {
    const Project crawler = sample("moon-crawler");
    const Evaluation e = evaluated(crawler);
    for (const HardwareLine& h : e.mechanisms->hardware)
        EXPECT_EQ(h.item.find("wheel"), std::string::npos) << h.item;
    std::size_t wheels = 0;
    for (const BoughtPart& part : boughtParts(*e.mechanisms, *e.body))
        wheels += part.name.find("/wheel") != std::string::npos;
    EXPECT_EQ(wheels, 0U);
    EXPECT_FALSE(e.body->rounds.empty());
}

TEST(Mechanisms, TheFireBoatsMonitorTurnsAndElevates) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat, Effort::full);
    ASSERT_TRUE(e.mechanisms);
    for (const Finding& f : e.findings)
        std::printf("%s %s: %s\n", severityName(f.severity), f.code.c_str(), f.message.c_str());
    for (const Finding& f : e.findings) EXPECT_NE(f.severity, Severity::stop) << f.message;
    const auto plate = [&](const std::string& name) {
        return std::find_if(e.plates->plates.begin(), e.plates->plates.end(),
                            [&](const Plate& p) { return p.name == name; });
    };
    ASSERT_NE(plate("monitor base/cap ring"), e.plates->plates.end());
    ASSERT_NE(plate("water monitor/cheek port"), e.plates->plates.end());
    const auto top = plate("pump house/top");
    ASSERT_NE(top, e.plates->plates.end());
    ASSERT_EQ(top->holes.size(), 1U);
    EXPECT_EQ(top->holes[0].opening, "monitor base");
    bool ring = false;
    for (const Panel& p : *e.panels) ring = ring || p.name == "monitor base/cap ring";
    EXPECT_TRUE(ring) << "the rings are laid out as panels";
    EXPECT_TRUE(e.sheets->unplaced.empty());
    EXPECT_FALSE(e.mechanisms->checks.empty());
    for (const SweptCheck& c : e.mechanisms->checks) {
        std::printf("%s - %s: %.3f (%.3f), %s\n", c.moving.c_str(), c.fixed.c_str(), c.clearance, c.bound,
                    c.pose.c_str());
        EXPECT_LE(c.bound, c.clearance);
    }
    // The tube's far end, level, is what the turntable sweeps furthest with: 0.9 m of the subject before the
    // axis, at scale 0.4, and half of its 60 mm beside it; in facets a little more.
    for (const MechanismFact& f : e.mechanisms->facts)
        if (f.mechanism == "monitor base" && f.key == "swept_radius") {
            const double exact = std::hypot(900 * e.scale, 30);
            EXPECT_GE(f.value, exact - 1e-6);
            EXPECT_LE(f.value, 900 * e.scale + 30 + 1e-6);
        }
    const std::string words = reportText(boat, e);
    EXPECT_NE(words.find("Moving parts"), std::string::npos);
    const auto report = nlohmann::json::parse(reportJson(boat, e));
    ASSERT_EQ(report["mechanisms"].size(), 2U);
    EXPECT_EQ(report["mechanisms"][0]["name"], "monitor base");
    EXPECT_EQ(report["mechanisms"][1]["moves"].size(), 2U);
    const std::string list = shoppingListCsv(e.totals, *e.stock, e.units, {}, e.mechanisms->hardware);
    EXPECT_NE(list.find("for water monitor"), std::string::npos) << list;
    // 1.05 m of tube, 0.9 ahead and 0.15 behind: 0.375 / 0.15 of its mass at the rear end, 2.5 × 0.265 kg.
    EXPECT_NE(list.find("counterweight of 1.5 lb at the rear end for water monitor"), std::string::npos)
        << list;
}

TEST(Mechanisms, TheMonitorsTubeAndDrumGoWithItsModule) {
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat, Effort::verdict);
    ASSERT_TRUE(e.modules);
    const auto& all = e.modules->modules;
    const auto monitor =
        std::find_if(all.begin(), all.end(), [](const ModuleInfo& m) { return m.name == "water monitor"; });
    ASSERT_NE(monitor, all.end());
    EXPECT_EQ(monitor->bought, (std::vector<std::string>{"monitor base/drum", "water monitor/tube"}));
    EXPECT_EQ(monitor->unweighed, std::vector<std::string>{"monitor base/drum"});
    double plates = 0;
    for (const Plate& p : e.plates->plates)
        if (std::find(monitor->plates.begin(), monitor->plates.end(), p.name) != monitor->plates.end())
            plates += massOf(p, *e.stock);
    // Plastic pipe of 60 mm with a wall of 2.5 mm, 1.05 m of the subject at 2/5: 1400 kg/m³ (PVC, ASTM D1785)
    const double tube = std::numbers::pi / 4 * (60.0 * 60 - 55.0 * 55) * 1050 * e.scale * 1400e-9;
    EXPECT_NEAR(monitor->mass, plates + tube, 1e-6);
    // Level, its flat front end stands ahead of where it is raised by 20° by the closed form of a disc.
    Project level = boat;
    level.mechanisms.trunnions[0].angle = "0 deg";
    const Evaluation flat = evaluated(level, Effort::verdict);
    const double raised = 20 * std::numbers::pi / 180;
    const double ahead = 900 * e.scale * (1 - std::cos(raised)) - 30 * std::sin(raised);
    for (const ModuleInfo& m : flat.modules->modules) {
        if (m.name == "water monitor") {
            EXPECT_NEAR(m.bounds.max.x() - monitor->bounds.max.x(), ahead, 1e-6);
        }
    }
    const std::string words = reportText(boat, e);
    EXPECT_NE(words.find("without monitor base/drum, whose mass is not known"), std::string::npos) << words;
}

TEST(Mechanisms, TheBuiltSizeHoldsBeltsTubesAndWheels) {
    const Evaluation crawler = evaluated(sample("moon-crawler"), Effort::live);
    Box3 box = crawler.body->bounds;
    for (const Plate& p : crawler.plates->plates) box = united(box, bounds(p.solid));
    const Vec3 size = builtBounds(crawler).size(), skin = crawler.body->bounds.size();
    std::printf("skin %.1f x %.1f x %.1f, built %.1f x %.1f x %.1f\n", skin.x(), skin.y(), skin.z(), size.x(),
                size.y(), size.z());
    EXPECT_LT((size - box.size()).norm(), 1e-9) << "the wheels stand within their belts";
    EXPECT_GT(size.y(), skin.y() + 1) << "the belts stand beside the hull";
    const Project boat = sample("harbour-fire-boat");
    const Evaluation e = evaluated(boat, Effort::live);
    const auto report = nlohmann::json::parse(reportJson(boat, e));
    const auto& bounds_mm = report["built"]["bounds_mm"];
    for (const BoughtPart& part : boughtParts(*e.mechanisms, *e.body))
        for (int i = 0; i < 3; ++i) {
            EXPECT_LE(bounds_mm[0][i].get<double>(), bounds(part).min[i] + 1e-9) << part.name;
            EXPECT_GE(bounds_mm[1][i].get<double>(), bounds(part).max[i] - 1e-9) << part.name;
        }
}

TEST(Mechanisms, ADraggedDocumentEqualsAFreshOne) {
    Evaluator kept;
    Project boat = sample("harbour-fire-boat");
    (void)kept.evaluate(boat, Effort::verdict);
    for (const char* angle : {"0 deg", "35 deg", "90 deg", "0 deg"}) {
        boat.mechanisms.turntables[0].angle = angle;
        const Evaluation e = kept.evaluate(boat, Effort::verdict), fresh = evaluated(boat, Effort::verdict);
        EXPECT_EQ(*e.mechanisms, *fresh.mechanisms) << angle;
        EXPECT_EQ(*e.plates, *fresh.plates) << angle;
        EXPECT_EQ(*e.panels, *fresh.panels) << angle;
        EXPECT_EQ(e.findings, fresh.findings) << angle;
    }
}

TEST(Mechanisms, TurningWhatIsShownCutsNothingElse) {
    Project boat = sample("harbour-fire-boat");
    const Evaluation before = evaluated(boat);
    boat.mechanisms.turntables[0].angle = "90 deg";
    boat.mechanisms.trunnions[0].angle = "30 deg";
    const Evaluation after = evaluated(boat);
    ASSERT_EQ(before.panels->size(), after.panels->size());
    for (std::size_t i = 0; i < before.panels->size(); ++i)
        EXPECT_EQ((*before.panels)[i].fingerprint, (*after.panels)[i].fingerprint);
    EXPECT_NE(*before.plates, *after.plates);
}

TEST(Mechanisms, SweepsTakeThisLong) {
    Evaluator kept;
    Project boat = sample("harbour-fire-boat");
    (void)kept.evaluate(boat, Effort::live);
    double worst = 0, total = 0;
    for (int i = 0; i < 12; ++i) {
        boat.scale = std::to_string(0.38 + 0.004 * i);
        const auto start = std::chrono::steady_clock::now();
        (void)kept.evaluate(boat, Effort::live);
        const double ms =
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
        worst = std::max(worst, ms);
        total += ms;
    }
    double without = 0;
    Project plain = boat;
    plain.mechanisms = {};
    (void)kept.evaluate(plain, Effort::live);
    for (int i = 0; i < 12; ++i) {
        plain.scale = std::to_string(0.38 + 0.004 * i);
        const auto start = std::chrono::steady_clock::now();
        (void)kept.evaluate(plain, Effort::live);
        without +=
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
    }
    const Evaluation e = kept.evaluate(boat, Effort::live);
    const auto start = std::chrono::steady_clock::now();
    (void)sweepMechanisms(*e.mechanisms, *e.plates, e.donor->solids, e.units);
    std::printf("sweeps: %.1f ms\n",
                std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    std::printf("live: mean %.1f ms, worst %.1f ms; without mechanisms %.1f ms\n", total / 12, worst,
                without / 12);
    EXPECT_GT(total, 0);
}
