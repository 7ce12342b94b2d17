#include "core/drawing/label_spot.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_view.h"
#include "core/drawing/pen.h"
#include "core/drawing/tables.h"
#include "tests/drawing/hand_panels.h"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

std::vector<Panel> panels() {
    return {hand::longSide(), hand::triangle(), hand::roof(), hand::folded()};
}

std::vector<Label> labelsOf(const Page& page) {
    std::vector<Label> labels;
    const auto add = [&](const Group& group) {
        for (const Layer& layer : group.layers)
            for (const Label& label : layer.labels)
                if (label.ink != Ink::pale) labels.push_back(label);
    };
    for (const Group& group : page.groups) add(group);
    add(page.overlay);
    return labels;
}

bool says(const std::vector<Label>& labels, const std::string& words) {
    for (const Label& label : labels)
        if (label.text.find(words) != std::string::npos) return true;
    return false;
}

PanelDrawingOptions optionsFor(Unit unit, bool portrait) {
    PanelDrawingOptions options;
    options.units.unit = unit;
    options.title = "Harbour fire boat";
    options.number = 7;
    options.count = 35;
    if (unit == Unit::ft) options.width = 279.4, options.height = 215.9;
    if (portrait) std::swap(options.width, options.height);
    return options;
}

} // namespace

TEST(PanelPage, TheNameOfABlankLiesOnNoFold) {
    const Panel panel = hand::folded();
    const auto clear = [&](const Group& group, double scale, const Vec2& shift,
                           const std::vector<Label>& words) {
        int names = 0;
        for (const Layer& layer : group.layers)
            for (const Label& label : layer.labels) {
                if (label.ink != Ink::pale) continue;
                ++names;
                const Area name = labelArea(label).grown(-0.15 * label.height);
                for (const PanelFold& fold : panel.folds)
                    for (int i = 0; i <= 200; ++i) {
                        const Vec2 p = (fold.from + (fold.to - fold.from) * i / 200.0) * scale + shift;
                        EXPECT_FALSE(name.meets({p.x(), p.y(), 0, 0})) << label.text;
                    }
                for (const Label& other : words)
                    if (other.text.find("fold") != std::string::npos) {
                        EXPECT_FALSE(name.meets(labelArea(other))) << other.text;
                    }
            }
        EXPECT_EQ(names, 1);
    };
    for (const Unit unit : {Unit::mm, Unit::ft}) {
        const Page page = panelPages(panel, optionsFor(unit, false)).front();
        const Ring drawn = page.groups.at(0).layers.at(0).strokes.at(0).points; // the outer outline
        const double scale =
            (drawn[1] - drawn[0]).norm() / (panel.boundary.outer[1] - panel.boundary.outer[0]).norm();
        clear(page.groups.at(0), scale, drawn[0] - panel.boundary.outer[0] * scale, labelsOf(page));
    }
    const Group group = panelGroup(panel, Ink::foam);
    clear(group, 1, Vec2::Zero(), group.layers.at(3).labels);
}

TEST(PanelPage, WordsDoNotCollideNorLeaveThePage) {
    for (const Unit unit : {Unit::mm, Unit::ft})
        for (const bool portrait : {false, true})
            for (const Panel& panel : panels()) {
                const Page page = panelPages(panel, optionsFor(unit, portrait)).front();
                const std::vector<Label> labels = labelsOf(page);
                for (std::size_t i = 0; i < labels.size(); ++i) {
                    const Area a = labelArea(labels[i]);
                    EXPECT_TRUE(a.x > 4 && a.y > 4 && a.right() < page.width - 4 && a.top() < page.height - 4)
                        << panel.name << ": " << labels[i].text;
                    for (std::size_t j = i + 1; j < labels.size(); ++j)
                        EXPECT_FALSE(a.grown(-0.25).meets(labelArea(labels[j]).grown(-0.25)))
                            << panel.name << (portrait ? " portrait: " : ": ") << labels[i].text << " | "
                            << labels[j].text;
                }
            }
}

TEST(PanelPage, SaysWhatTheBenchNeeds) {
    PanelDrawingOptions options = optionsFor(Unit::mm, false);
    options.otherHand = "hull/port";
    const Panel panel = hand::longSide();
    const auto labels = labelsOf(panelPages(panel, options).front());
    for (const char* words : {"panel 7 of 35",
                              "xps_13",
                              "12.7 mm, measured",
                              "right (starboard)",
                              "mirror of hull/port",
                              "2400 × 560",
                              "OUTSIDE FACE UP",
                              "arrow points up",
                              "A–B",
                              "C–D",
                              "hull/stem",
                              "mitre",
                              "exit",
                              "420 × 190",
                              "Ø 110",
                              "seen from outside",
                              "Sizes in mm",
                              "35.3° from square",
                              "outside face is long",
                              "inside face is long"})
        EXPECT_TRUE(says(labels, words)) << words;
    options.nominal = true;
    EXPECT_TRUE(says(labelsOf(panelPages(panel, options).front()), "NOMINAL 12.7 mm"));
    // Where the outside face is nowhere near the body's outside, it is said which way it looks.
    EXPECT_FALSE(says(labels, "Outside face"));
    options.facing = {"to the front"};
    const auto facing = labelsOf(panelPages(panel, options).front());
    for (const char* words : {"arrow points up; this face to the front", "Outside face", "to the front"})
        EXPECT_TRUE(says(facing, words)) << words;
    options.facing = {"frames/rib to the front", "frames/keel to port"};
    const auto copies = labelsOf(panelPages(panel, options).front());
    for (const char* words : {"copies face different ways", "frames/rib to the front", "frames/keel to port"})
        EXPECT_TRUE(says(copies, words)) << words;
    // A copy that lies turned has its own way.
    options.facing.clear();
    options.arrows = {"up", "down", "up"};
    EXPECT_TRUE(
        says(labelsOf(panelPages(panel, options).front()), "arrow points up (copies 1, 3), down (copy 2)"));
}

TEST(PanelPage, ViewIsToTheScaleItNames) {
    const Panel panel = hand::longSide();
    const Area region{0, 0, 160, 130};
    const PanelView view = drawView(panel, region, edgeRows(panel), {});
    const Ring& drawn = view.group.layers[0].strokes[0].points;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const double paper = (drawn[(i + 1) % drawn.size()] - drawn[i]).norm();
        EXPECT_NEAR(paper, panel.boundary.edges[i].length * view.scale.factor, 1e-9);
    }
    EXPECT_EQ(view.scale.words, "1:" + plain(1 / view.scale.factor, 1));
}

TEST(PanelPage, NiceScales) {
    UnitStyle mm, ft;
    ft.unit = Unit::ft;
    EXPECT_EQ(niceScale(0.09, mm).words, "1:12");
    EXPECT_EQ(niceScale(0.1, mm).words, "1:10");
    EXPECT_EQ(niceScale(2.2, mm).words, "2:1");
    EXPECT_EQ(niceScale(0.09, ft).words, "1:12");
    EXPECT_LE(niceScale(0.0013, mm).factor, 0.0013);
}

// A rectangle's diagonals are both √(w² + h²): the carpenter's check (Pythagoras).
TEST(PanelFacts, DiagonalsCheckSquareness) {
    const Ring board = hand::rectangle(5, 7, 300, 400);
    const auto pairs = checkDiagonals(board);
    ASSERT_EQ(pairs.size(), 2u);
    for (const auto& [a, b] : pairs)
        EXPECT_NEAR((board[static_cast<std::size_t>(a)] - board[static_cast<std::size_t>(b)]).norm(), 500,
                    1e-12);
    EXPECT_TRUE(checkDiagonals({{0, 0}, {60, 0}, {30, 52}}).empty());
    EXPECT_TRUE(checkDiagonals(hand::circle(0, 0, 100, 40)).empty());
    const Ring outline = hand::longSide().boundary.outer;
    const int count = static_cast<int>(outline.size());
    for (const auto& [a, b] : checkDiagonals(outline)) {
        EXPECT_GT(std::abs(a - b), 1);
        EXPECT_LT(std::abs(a - b), count - 1);
    }
}

TEST(PanelFacts, RunsOfLikeEdgesAreOneRow) {
    const Panel drum = hand::panelOf("drum", hand::circle(0, 0, 300, 40), {{"wall", EdgeRole::rests, 1}});
    const auto rows = edgeRows(drum);
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_EQ(rows[0].number, "1–40");
    EXPECT_EQ(edgeRows(hand::longSide()).size(), 14u);
}

TEST(PanelFacts, BevelsAreGatheredBySideAndAngle) {
    std::vector<EdgeRow> rows = edgeRows(hand::longSide());
    const auto kinds = bevelKinds(rows);
    ASSERT_EQ(kinds.size(), 5u);
    EXPECT_LT(kinds.back().tilt, 0); // the long inside face
    EXPECT_NEAR(kinds.back().tilt, std::atan2(-2.2, 12.7), 1e-12);
    EXPECT_EQ(rows[5].sketch, 0); // square
    std::size_t edges = 0;
    for (const BevelKind& kind : kinds) edges += kind.edges.size();
    EXPECT_EQ(edges, 8u);
    std::vector<EdgeRow> many(40);
    for (std::size_t i = 0; i < many.size(); ++i) many[i].bevel = 0.01 * (static_cast<double>(i) - 20.5);
    const auto few = bevelKinds(many, 6);
    EXPECT_LE(few.size(), 6u);
    for (const BevelKind& kind : few) EXPECT_GT(kind.leastTilt * kind.mostTilt, 0) << "sides are never mixed";
    for (const EdgeRow& row : many) EXPECT_NE(row.sketch, 0);
}

TEST(PanelFacts, OpeningsAreMeasuredFromTheCorner) {
    const auto rows = openingRows(hand::longSide());
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_EQ(rows[0].at, Vec2(1050, 180));
    EXPECT_EQ(rows[0].size, Vec2(420, 190));
    EXPECT_TRUE(rows[1].round);
    EXPECT_NEAR(rows[1].diameter, 110, 1e-9);
    EXPECT_NEAR((rows[1].at - Vec2(1850, 260)).norm(), 0, 1e-9);
}

TEST(PanelFacts, Hands) {
    Panel panel = hand::triangle();
    EXPECT_EQ(handWords(panel), "");
    panel.name = "hull/port#2";
    EXPECT_EQ(handWords(panel), "left (port)");
    panel.name = "rub rail starboard/plate";
    EXPECT_EQ(handWords(panel), "right (starboard)");
    panel.plates = {"rub rail starboard/plate", "rub rail port/plate"};
    EXPECT_EQ(handWords(panel), "either hand") << "one outline for both sides";
    panel.plates.clear();
    panel.name = "hull/porthole cover";
    EXPECT_EQ(handWords(panel), "");
}

TEST(Text, ElidesInTheMiddleAndKeepsLettersWhole) {
    const TextStyle style{3, false, false};
    const std::string name = "rub rail port/ä very löng name öf a plate that goes on";
    for (double width : {5.0, 12.0, 25.0, 40.0}) {
        const std::string shorter = elided(name, width, style);
        EXPECT_LE(textWidth(shorter, style), width);
        EXPECT_EQ(cleaned(shorter), shorter) << "valid UTF-8";
        EXPECT_NE(shorter.find("…"), std::string::npos);
    }
    EXPECT_EQ(elided("short", 100, style), "short");
    for (const std::string& line : wrapped(name, 30, style)) EXPECT_LE(textWidth(line, style), 30);
}

TEST(BevelSketch, EdgesStandInRuns) {
    EXPECT_EQ(runsOf({"1"}), "1");
    EXPECT_EQ(runsOf({"1", "2", "4", "5", "6"}), "1, 2, 4–6");
    EXPECT_EQ(runsOf({"9", "10", "11", "P1", "P2", "P3", "Q4"}), "9–11, P1–P3, Q4");
    EXPECT_EQ(runsOf({"2", "1"}), "2, 1");
}

TEST(Tables, ColumnsLendWhatTheyHaveToSpare) {
    // The second column's share is too small for its text; the first has room enough for both.
    Table table{"", {{"No", 60}, {"meets", 20}}, false, {{"1", "wheelhouse/starboard"}}, {}, false};
    const auto texts = [&](double width) {
        Layer layer;
        (void)setTables(Pen(layer), {{0, 0, width, 40}}, {table});
        std::vector<std::string> all;
        for (const Label& label : layer.labels) all.push_back(label.text);
        return all;
    };
    EXPECT_THAT(texts(60), ::testing::ElementsAre("1", "wheelhouse/starboard"));
    EXPECT_NE(texts(12).at(1), "wheelhouse/starboard") << "no room anywhere";
}

TEST(Text, WidthGrowsWithHeight) {
    const double one = textWidth("hull/port", {1, false, false});
    EXPECT_GT(one, 2);
    EXPECT_NEAR(textWidth("hull/port", {10, false, false}), 10 * one, 0.05 * one);
}

TEST(LabelSpot, BoxFitsInside) {
    const Polygon area{hand::longSide().boundary.outer, {}};
    for (const double aspect : {1.0, 4.0, 12.0}) {
        const Spot spot = labelSpot(area, aspect);
        EXPECT_GT(spot.height, 10);
        const Vec2 half =
            spot.turn == 0 ? Vec2(aspect, 1) * spot.height / 2 : Vec2(1, aspect) * spot.height / 2;
        for (double x : {-1.0, 0.0, 1.0})
            for (double y : {-1.0, 0.0, 1.0})
                EXPECT_TRUE(contains(area, spot.centre + Vec2(x * half.x(), y * half.y()), 1e-6)) << aspect;
    }
    EXPECT_EQ(labelSpot({}, 2).height, 0);
}

TEST(PanelPage, ASlotIsToldToATenthOfAMillimetre) {
    // A board with a half-lap slot of 12.7 mm of sheet and 0.5 mm of fit: whole millimetres would lose the
    // fit.
    Panel panel = hand::longSide();
    panel.holes.clear();
    const Ring outline = {{0, 0},        {800, 0},      {800, 120},   {654.1, 120},
                          {654.1, 60.3}, {640.9, 60.3}, {640.9, 120}, {0, 120}};
    panel.boundary = hand::loopOf(outline, {}, panel.thickness);
    for (std::size_t i = 0; i < outline.size(); ++i) EXPECT_EQ(slotBottom(outline, i), i == 4) << i;
    // Facets of a corner that is round inward are no slots.
    Ring round = {{0, 0}, {800, 0}, {800, 120}, {520, 120}};
    for (int k = 0; k <= 6; ++k) {
        const double a = std::numbers::pi * k / 12;
        round.emplace_back(500 + 20 * std::cos(a), 80 - 20 * std::sin(a));
    }
    round.emplace_back(0, 60);
    for (std::size_t i = 0; i < round.size(); ++i) EXPECT_FALSE(slotBottom(round, i)) << i;
    const Vec2 in = round[6] - round[5], out = round[7] - round[6];
    EXPECT_LT(cross2(in, out), 0) << "they do turn inward";
    const std::vector<Label> metric = labelsOf(panelPages(panel, optionsFor(Unit::mm, false)).front());
    for (const char* words : {"13.2", "640.9", "654.1", "60.3"}) EXPECT_TRUE(says(metric, words)) << words;
    EXPECT_TRUE(says(labelsOf(panelPages(panel, optionsFor(Unit::ft, false)).front()), "0.520″"));
    // Its corners too: 654.1 and 640.9 mm are 25.752 and 25.232 in, and a sixteenth would lose the fit.
    bool right = false, left = false;
    for (const Page& page : panelPages(panel, optionsFor(Unit::ft, false))) {
        right = right || says(labelsOf(page), "25.752″");
        left = left || says(labelsOf(page), "25.232″");
    }
    EXPECT_TRUE(right && left);
    // One rule for all lengths of the page, and the usual one where nothing is slotted.
    EXPECT_EQ(size(800, pageUnits(panel, {})), "800.0");
    EXPECT_TRUE(says(metric, "800.0") && says(metric, "120.0"));
    for (const Label& label : metric)
        for (const char* coarse : {"800", "120", "654", "60"}) EXPECT_NE(label.text, coarse);
    EXPECT_EQ(pageUnits(hand::longSide(), {}), UnitStyle{});
}
