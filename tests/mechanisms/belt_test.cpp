// Belts of a document: parts, figures, what is told.
#include "core/document/file.h"
#include "core/mechanisms/mechanisms.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <cctype>
#include <cmath>
#include <gmock/gmock.h>
#include <map>
#include <numbers>
#include <sstream>

namespace slab {
namespace {

using ::testing::HasSubstr;

struct Made {
    Project project;
    MechanismSet set;
    [[nodiscard]] const Finding* finding(const std::string& code) const {
        for (const Finding& f : set.findings)
            if (f.code == code) return &f;
        return nullptr;
    }
    [[nodiscard]] double fact(const std::string& key) const {
        for (const MechanismFact& f : set.facts)
            if (f.key == key) return f.value;
        ADD_FAILURE() << "no fact " << key;
        return 0;
    }
};

Made made(const std::string& mechanisms, const std::string& scale = "1") {
    const auto project = readProject(R"({"slabside": 1, "title": "Crawler", "units": "mm", "scale": ")" +
                                     scale + R"(",
      "forms": [], "materials": {"default": "ply"},
      "stock": {"sheets": [
        {"name": "ply", "kind": "plywood", "size": ["1220 mm", "2440 mm"], "thickness": "12 mm"},
        {"name": "card", "kind": "card", "size": ["700 mm", "1000 mm"], "thickness": "2 mm"}]},
      "mechanisms": )" + mechanisms + "}");
    Made out;
    if (!project) {
        ADD_FAILURE() << project.error().message << " at " << project.error().where;
        return out;
    }
    out.project = *project;
    Scope scope;
    scope.scale = *parseRatio(scale);
    const StockSet stock = resolveStock(out.project, scope);
    const Body body;
    const PlateRules rules;
    out.set = resolveMechanisms({out.project, scope, stock, body, rules, {}});
    return out;
}

std::string track(const std::string& more, const std::string& wheels = {}) {
    return R"({"belts": [{"name": "track", "at": {"x": "100 mm", "y": "400 mm", "z": "200 mm"}, "wheels": [)" +
           (wheels.empty() ? std::string(R"({"name": "drive", "x": "0", "z": "0", "diameter": "298 mm"},
               {"name": "idler", "x": "900 mm", "z": "0", "diameter": "298 mm"})")
                           : wheels) +
           R"(], "width": "120 mm", "stock": "card")" + more + "}]}";
}

/// How many strips the words of a length name: "Length of ply 2 strips 1 to 3 and 5, ends butt".
/// @param plate  only that one, "track/port ply 2 strip 1"; empty = all
int stripsIn(const std::string& words, const std::string& plate) {
    std::istringstream in(words.substr(10));
    const std::string own =
        plate.substr(plate.find("port ") == std::string::npos ? 0 : plate.find("port ") + 5);
    std::string word, ply;
    int count = 0, last = 0;
    bool to = false, strip = false;
    while (in >> word) {
        const bool comma = word.back() == ',';
        if (comma) word.pop_back();
        if (word == "ply") {
            in >> word;
            ply = "ply " + word + " ";
            strip = false;
        } else if (word == "strip" || word == "strips") {
            strip = true;
        } else if (word == "to") {
            to = true;
        } else if (strip && std::isdigit(static_cast<unsigned char>(word.front()))) {
            const int number = std::stoi(word);
            for (int i = to ? last + 1 : number; i <= number; ++i)
                count += plate.empty() || own == ply + "strip " + std::to_string(i);
            last = number;
            to = false;
        } else if (word != "and") {
            break;
        }
    }
    return count;
}

// Links share out unevenly: every length that is cut is told, with how many have it.
TEST(Belts, UnequalStripsAreAllTold) {
    const Made m = made(track(R"(, "overlap": "50 mm", "pitch": "110 mm", "adjust": "pitch")"));
    std::map<long, int> cut, told; // hundredths of a millimetre
    for (const Plate& p : m.set.parts)
        if (p.name.find("/port ") != std::string::npos)
            ++cut[std::lround(100 * bounds(p.boundary.outer).size().maxCoeff())];
    for (const MechanismFact& f : m.set.facts)
        if (f.key.starts_with("strip_length")) told[std::lround(100 * f.value)] += stripsIn(f.words, {});
    EXPECT_EQ(cut.size(), 2U) << "make the links share out unevenly";
    EXPECT_EQ(told, cut);
}

// Of two plies each strip has a length of its own: each is told by the name of its plate.
TEST(Belts, EveryLengthNamesItsStrips) {
    for (const char* thickness : {"2 mm", "4 mm", "6 mm"}) {
        const Made m =
            made(track(R"(, "overlap": "20 mm", "pitch": "110 mm", "adjust": "pitch", "thickness": ")" +
                       std::string(thickness) + "\""));
        std::size_t named = 0;
        for (const MechanismFact& f : m.set.facts)
            if (f.key.starts_with("strip_length"))
                for (const Plate& p : m.set.parts) {
                    if (p.name.find("/port ") == std::string::npos || stripsIn(f.words, p.name) == 0)
                        continue;
                    ++named;
                    EXPECT_NEAR(bounds(p.boundary.outer).size().maxCoeff(), f.value, 0.05)
                        << p.name << ": " << f.words;
                }
        EXPECT_EQ(2 * named, m.set.parts.size()) << "each once";
    }
}

TEST(Belts, AStripRoundTwoWheelsIsCutFromCard) {
    const Made m = made(track(R"(, "overlap": "50 mm")"));
    // Middle line at (298 + 2) / 2: L = 2 C + 2 std::numbers::pi r; strips of at most 1000 with a lap of 50.
    const double length = 1800 + 2 * std::numbers::pi * 150;
    EXPECT_NEAR(m.fact("length"), length, 1e-9);
    const int strips = static_cast<int>(std::ceil(length / 950));
    ASSERT_EQ(m.set.parts.size(), 2u * static_cast<std::size_t>(strips)) << "one belt on each side";
    EXPECT_NEAR(m.fact("strip_length"), length / strips + 50, 1e-9);
    for (const Plate& p : m.set.parts) {
        const Box2 box = bounds(p.boundary.outer);
        EXPECT_NEAR(box.size().maxCoeff(), length / strips + 50, 1e-9);
        EXPECT_NEAR(box.size().minCoeff(), 120, 1e-9);
        EXPECT_NEAR(box.min.norm(), 0, 1e-9);
        EXPECT_EQ(p.stock, "card");
        EXPECT_EQ(p.form, "track");
        EXPECT_NEAR(p.frame.axes.determinant(), 1, 1e-12);
        EXPECT_TRUE(checkClosed(p.solid).has_value());
        EXPECT_NEAR(volume(p.solid), (length / strips) * 120 * 2, 0.01 * volume(p.solid))
            << "without the lap";
    }
    EXPECT_EQ(m.set.parts.front().name, "track/port strip 1");
    EXPECT_EQ(m.set.parts.back().name, "track/starboard strip " + std::to_string(strips));
    const Box3 box = bounds(m.set.parts.front().solid);
    EXPECT_NEAR(box.min.y(), 340, 1e-9);
    EXPECT_NEAR(box.max.y(), 460, 1e-9);
    EXPECT_NEAR(bounds(m.set.parts.back().solid).max.y(), -340, 1e-9);
    ASSERT_NE(m.finding("belt-pinch"), nullptr);
    EXPECT_THAT(m.finding("belt-pinch")->message, HasSubstr("must not drive"));
    ASSERT_FALSE(m.set.hardware.empty());
    EXPECT_EQ(m.set.hardware.front().count, 4);
    EXPECT_NEAR(m.set.hardware.front().size, 298, 1e-9);
}

TEST(Belts, WheelsScaleAndCardDoesNot) {
    const Made m = made(track(R"(, "mirror": false)"), "1/2");
    EXPECT_NEAR(m.fact("length"), 900 + std::numbers::pi * (149 + 2), 1e-9);
    EXPECT_NEAR(m.set.parts.front().thickness, 2, 1e-12);
    EXPECT_NEAR(bounds(m.set.parts.front().solid).size().y(), 60, 1e-9);
    EXPECT_EQ(m.set.parts.front().name, "track/strip 1");
}

TEST(Belts, AWheelIsMovedForWholeLinks) {
    const Made m = made(track(R"(, "pitch": "60 mm", "moves": "idler")"));
    const double links = std::round((1800 + 2 * std::numbers::pi * 150) / 60);
    EXPECT_EQ(m.fact("links"), links);
    EXPECT_NEAR(m.fact("length"), links * 60, 1e-9);
    EXPECT_NEAR(m.fact("moved"), std::abs(links * 30 - std::numbers::pi * 150 - 900), 1e-9);
    ASSERT_NE(m.finding("belt-wheel-moved"), nullptr);
    EXPECT_THAT(m.finding("belt-wheel-moved")->message, HasSubstr("wheel idler is moved"));
    const Made pitched = made(track(R"(, "pitch": "60 mm", "adjust": "pitch")"));
    EXPECT_EQ(pitched.finding("belt-wheel-moved"), nullptr);
    EXPECT_NEAR(pitched.fact("pitch") * pitched.fact("links"), 1800 + 2 * std::numbers::pi * 150, 1e-9);
}

TEST(Belts, LinksAndLapsAreMarkedOnEveryStrip) {
    const Made m = made(track(R"(, "pitch": "60 mm", "adjust": "pitch", "overlap": "50 mm")"));
    const double pitch = m.fact("pitch");
    std::size_t links = 0;
    for (const Plate& p : m.set.parts) {
        // Along the strip from its own beginning, where it is glued: a panel may lie any way round.
        const Vec2 size = bounds(p.boundary.outer).size();
        const int along = size.x() > size.y() ? 0 : 1;
        const auto glue =
            std::find_if(p.guides.begin(), p.guides.end(), [](const GuideLine& g) { return g.inside; });
        ASSERT_NE(glue, p.guides.end());
        const bool back = glue->from[along] > size[along] / 2;
        std::vector<double> at{0};
        int laps = 0;
        for (const GuideLine& g : p.guides) {
            EXPECT_NEAR(g.from[along], g.to[along], 1e-9) << "square across the strip";
            EXPECT_NEAR((g.to - g.from).norm(), 120, 1e-9);
            laps += g.words.find("lap") != std::string::npos || g.inside;
            if (!g.inside) at.push_back(back ? size[along] - g.from[along] : g.from[along]);
        }
        EXPECT_EQ(laps, 2) << p.name;
        for (std::size_t i = 1; i < at.size(); ++i) EXPECT_NEAR(at[i] - at[i - 1], pitch, 1e-9) << p.name;
        EXPECT_NEAR(at.back(), size[along] - 50, 1e-9);
        links += at.size() - 1;
    }
    EXPECT_EQ(links, 2 * static_cast<std::size_t>(m.fact("links")));
    // Both belts are cut from the same panels, their marks with them; another pitch is another panel.
    PlateSet both;
    both.plates = m.set.parts;
    std::size_t marks = 0, marked = 0;
    for (const Plate& p : both.plates) marks += p.guides.size();
    const auto panels = makePanels(both);
    for (const Panel& panel : panels) marked += panel.copyCount() * panel.guides.size();
    EXPECT_EQ(marked, marks);
    EXPECT_LT(panels.size(), both.plates.size()) << "strips that are alike are one panel";
    PlateSet mixed;
    mixed.plates = {m.set.parts[0], m.set.parts[0]};
    mixed.plates.own(1).name += " again";
    EXPECT_EQ(makePanels(mixed).size(), 1u);
    GuideLine& shifted = mixed.plates.own(1).guides[1];
    const Vec2 by = 3 * Vec2(-(shifted.to - shifted.from).y(), (shifted.to - shifted.from).x()).normalized();
    shifted.from += by;
    shifted.to += by;
    EXPECT_EQ(makePanels(mixed).size(), 2u);
}

TEST(Belts, PliesLieOnEachOtherAndFillTheThickness) {
    const Made m = made(track(R"(, "thickness": "6 mm", "mirror": false)"));
    EXPECT_EQ(m.fact("plies"), 3);
    double sum = 0;
    for (const Plate& p : m.set.parts) sum += volume(p.solid);
    const double length = 1800 + 2 * std::numbers::pi * 152;
    EXPECT_NEAR(sum, length * 120 * 6, 0.005 * sum);
    for (std::size_t a = 0; a < m.set.parts.size(); ++a)
        for (std::size_t b = a + 1; b < m.set.parts.size(); ++b)
            for (const ConvexSolid& x : m.set.parts[a].cells)
                for (const ConvexSolid& y : m.set.parts[b].cells) EXPECT_LT(nearest(x, y).depth, 1e-6);
}

// Asked for 3.2 mm, two cards of 2 mm are built: the belt is as long as these make it.
TEST(Belts, ABeltIsAsLongAsItsCardsAreThick) {
    const Made m = made(track(R"(, "thickness": "3.2 mm")"));
    EXPECT_NEAR(m.fact("length"), 2 * 900 + std::numbers::pi * (298 + 4), 1e-6);
    EXPECT_NEAR(m.fact("length"), made(track(R"(, "thickness": "4 mm")")).fact("length"), 1e-9);
}

TEST(Belts, WhatIsWrongIsSaidAndTheRestGoesOn) {
    const std::string wheels =
        R"({"name": "drive", "x": "0", "z": "0", "diameter": "300 mm"}, {"name": "idler", "x": "900 mm", "z": "0", "diameter": "300 mm"})";
    const Made off =
        made(track("", wheels + R"(, {"name": "roller", "x": "450 mm", "z": "0", "diameter": "60 mm"})"));
    ASSERT_NE(off.finding("belt-wheel-off"), nullptr);
    EXPECT_THAT(off.finding("belt-wheel-off")->message,
                HasSubstr("wheel roller does not touch it, by 120 mm"));
    EXPECT_FALSE(off.set.parts.empty());
    const std::string crossed =
        R"({"name": "a", "x": "0", "z": "0", "diameter": "100 mm"}, {"name": "b", "x": "600 mm", "z": "300 mm", "diameter": "100 mm"},
           {"name": "c", "x": "600 mm", "z": "0", "diameter": "100 mm"}, {"name": "d", "x": "0", "z": "300 mm", "diameter": "100 mm"})";
    ASSERT_NE(made(track("", crossed)).finding("belt-order"), nullptr);
    for (
        const auto& [more, list, code] : std::vector<std::array<std::string, 3>>{
            {"", R"({"name": "drive", "x": "0", "z": "0", "diameter": "300 mm"})", "belt-wheels-few"},
            {"",
             R"({"name": "drive", "x": "0", "z": "0", "diameter": "0"}, {"name": "b", "x": "1 m", "diameter": "20 mm"})",
             "mechanism-size"},
            {R"(, "pitch": "2 m")", "", "belt-pitch"},
            {R"(, "overlap": "990 mm")", "", "belt-card"},
            {R"(, "pitch": "37 mm", "moves": "roller")",
             wheels + R"(, {"name": "roller", "x": "450 mm", "z": "0", "diameter": "60 mm"})",
             "belt-no-links"},
            {R"(, "pitch": "60 mm", "moves": "nobody")", "", "belt-wheel-unknown"},
            {R"(, "thickness": "3.2 mm")", "", "belt-thickness"},
            {R"(, "at": {"y": "10 mm"})", "", "belt-mirror"}}) {
        std::string text = track(more, list);
        if (code == "belt-mirror") text = track("", list).replace(track("", list).find("400 mm"), 6, "10 mm");
        EXPECT_NE(made(text).finding(code), nullptr) << code;
    }
}

// 120 wide: half of it has to stand beside the middle.
TEST(Belts, HowMuchFartherAsideIsTold) {
    const auto at = [](const std::string& y) {
        std::string text = track("");
        return made(text.replace(text.find("400 mm"), 6, y));
    };
    for (const char* y : {"40 mm", "-40 mm"}) {
        const Made near = at(y);
        const Finding* told = near.finding("belt-mirror");
        ASSERT_NE(told, nullptr) << y;
        EXPECT_THAT(told->remedy, HasSubstr("at least 20 mm farther aside"));
    }
    EXPECT_EQ(at("60 mm").finding("belt-mirror"), nullptr);
}

// Wherever on the belt a strip begins, level or on a wheel, and on either side: its panel lies along it.
TEST(Belts, StripsOfAllPliesLieAlike) {
    const Made m = made(track(R"(, "thickness": "6 mm")"));
    ASSERT_GT(m.set.parts.size(), 6u);
    for (const Plate& strip : m.set.parts) {
        const Box2 box = bounds(strip.boundary.outer);
        EXPECT_GT(box.size().x(), box.size().y()) << strip.name;
        EXPECT_NEAR(box.min.norm(), 0, 1e-9) << strip.name;
        EXPECT_NEAR(box.size().x() * box.size().y() * strip.thickness, strip.volume, 1e-3) << strip.name;
    }
}

TEST(Linkages, ASlotAsLongAsItsTravelAndAHinge) {
    const Made m = made(R"({"linkages": [
        {"name": "rear", "joint": "hinge", "at": {"x": "-200 mm", "z": "300 mm"}, "pitch_up": "5 deg", "pitch_down": "5 deg"},
        {"name": "front", "joint": "pin_slot", "at": {"x": "600 mm", "y": "250 mm", "z": "300 mm"}, "up": "30 mm", "down": "20 mm",
         "pin": "12 mm", "stock": "ply"}]})");
    EXPECT_NEAR(m.fact("slot_length"), 30 + 20 + 12 + 1, 1e-9);
    EXPECT_NEAR(m.set.floating.noseUp, std::asin(30.0 / 800), 1e-9);
    EXPECT_NEAR(m.set.floating.noseDown, -std::asin(20.0 / 800), 1e-9);
    ASSERT_EQ(m.set.parts.size(), 1u);
    const Plate& bracket = m.set.parts[0];
    EXPECT_EQ(bracket.name, "front/bracket");
    ASSERT_EQ(bracket.holes.size(), 1u);
    const Box2 slot = bounds(bracket.holes[0].outer);
    EXPECT_NEAR(slot.size().maxCoeff(), 63, 0.05) << "round ends in facets";
    EXPECT_NEAR(slot.size().minCoeff(), 13, 0.05);
    // At rest the pin stands in it so that 30 are below (the shell rises) and 20 above; three widths of the
    // slot to the edge (common practice, as for any bolt's hole).
    const Vec2 pin = bracket.frame.toPlane(Vec3(600, 250, 300));
    EXPECT_NEAR(pin.y() - slot.min.y(), 30 + 6.5, 0.05);
    EXPECT_NEAR(slot.max.y() - pin.y(), 20 + 6.5, 0.05);
    EXPECT_NEAR(slot.min.x(), 39, 0.05);
    EXPECT_TRUE(checkClosed(bracket.solid).has_value());
    EXPECT_NE(m.finding("linkage-pinch"), nullptr);
    EXPECT_EQ(m.set.hardware.size(), 2u);
}

TEST(Linkages, WhatIsWrongIsSaid) {
    EXPECT_NE(
        made(
            R"({"linkages": [{"name": "a", "pitch_up": "5 deg"}, {"name": "b", "at": {"x": "1 m"}, "pitch_up": "5 deg"}]})")
            .finding("linkage-locked"),
        nullptr);
    EXPECT_NE(made(R"({"linkages": [{"name": "a"}]})").finding("linkage-still"), nullptr);
    for (const char* bad : {R"("up": "-5 mm")", R"("pitch_up": "50 deg")", R"("pitch_down": "-3 deg")"})
        EXPECT_NE(made(std::string(R"({"linkages": [{"name": "a", "joint": "pin_slot", )") + bad + "}]}")
                      .finding("mechanism-range"),
                  nullptr)
            << bad;
    EXPECT_TRUE(made(R"({"linkages": [{"name": "a", "off": true, "up": "-5 mm"}]})").set.findings.empty());
}

} // namespace
} // namespace slab
