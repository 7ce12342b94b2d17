// Corners and curves that a board is marked out by.
#include "core/drawing/corner_table.h"
#include "core/drawing/outline_arcs.h"
#include "core/drawing/panel_facts.h"
#include "core/drawing/pen.h"
#include "core/drawing/sheets.h"
#include "tests/drawing/hand_panels.h"
#include "tests/geometry/seed.h"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using ::testing::ElementsAre;

namespace {

constexpr double pi = std::numbers::pi;

/// Corners on a circle, both ends included.
void addArc(Ring& ring, const Vec2& centre, double radius, double from, double to, int edges) {
    for (int i = 0; i <= edges; ++i) {
        const double a = from + (to - from) * i / edges;
        ring.emplace_back(centre.x() + radius * std::cos(a), centre.y() + radius * std::sin(a));
    }
}

/// 600 by 300 with a round cut-out of radius 120 in the upper edge and a corner rounded with 60.
Ring cutOutBoard() {
    Ring ring = {{0, 0}, {600, 0}};
    addArc(ring, {540, 240}, 60, 0, pi / 2, 8);
    addArc(ring, {300, 300}, 120, 0, -pi, 40);
    ring.emplace_back(0, 300);
    return ring;
}

Panel boardOf(const Ring& ring) {
    Panel panel = hand::longSide();
    panel.holes.clear();
    panel.boundary = hand::loopOf(ring, {}, panel.thickness);
    return panel;
}

std::size_t rowsTold(const std::vector<Page>& pages, const std::string& title) {
    std::size_t found = 0;
    for (const Page& page : pages)
        for (const Layer& layer : page.overlay.layers)
            for (const Label& label : layer.labels) found += label.text.starts_with(title) ? 1 : 0;
    return found;
}

bool says(const Page& page, const std::string& words) {
    for (const Layer& layer : page.overlay.layers)
        for (const Label& label : layer.labels)
            if (label.text == words) return true;
    return false;
}

} // namespace

TEST(OutlineArcs, OfABoardWithARoundCutOut) {
    const auto arcs = arcsOf(cutOutBoard());
    ASSERT_EQ(arcs.size(), 2U);
    EXPECT_EQ(arcs[0].first, 2);
    EXPECT_EQ(arcs[0].last, 10);
    EXPECT_FALSE(arcs[0].hollow);
    EXPECT_NEAR(arcs[0].radius, 60, 1e-9);
    EXPECT_EQ(arcs[1].first, 11);
    EXPECT_EQ(arcs[1].last, 51);
    EXPECT_TRUE(arcs[1].hollow);
    EXPECT_NEAR(arcs[1].radius, 120, 1e-9);
    EXPECT_LT((arcs[1].centre - Vec2(300, 300)).norm(), 1e-9);
}

TEST(OutlineArcs, FoundWhereverTheRingBeginsAndHoweverItLies) {
    auto random = seeded();
    for (int n = 0; n < 60; ++n) {
        Ring ring = cutOutBoard();
        std::rotate(ring.begin(), ring.begin() + n % static_cast<int>(ring.size()), ring.end());
        const double turn = uniform(random, -pi, pi);
        const Vec2 by(uniform(random, -500, 500), uniform(random, -500, 500));
        for (Vec2& p : ring)
            p = Vec2(std::cos(turn) * p.x() - std::sin(turn) * p.y() + by.x(),
                     std::sin(turn) * p.x() + std::cos(turn) * p.y() + by.y());
        const auto arcs = arcsOf(ring);
        ASSERT_EQ(arcs.size(), 2U) << n;
        const auto& hollow = arcs[0].hollow ? arcs[0] : arcs[1];
        EXPECT_EQ(hollow.last - hollow.first, 40);
        EXPECT_NEAR(hollow.radius, 120, 1e-6);
    }
}

TEST(OutlineArcs, NoneOfStraightSidedOrFullyRoundBoards) {
    EXPECT_TRUE(arcsOf(hand::longSide().boundary.outer).empty());
    EXPECT_TRUE(arcsOf({{0, 0}, {90, 0}, {100, 10}, {100, 90}, {90, 100}, {0, 100}}).empty());
    Ring circle;
    addArc(circle, {0, 0}, 50, 0, 2 * pi * 35 / 36, 35);
    EXPECT_TRUE(arcsOf(circle).empty()) << "told by its diameter";
    EXPECT_FALSE(circleOf({0, 0}, {1, 1}, {2, 2}));
}

TEST(CornerTable, CurvesStandByTheirCentreAndCornersWithoutThem) {
    const auto tables = cornerTables(boardOf(cutOutBoard()), {});
    ASSERT_EQ(tables.size(), 2U);
    EXPECT_EQ(tables[0].rows.size(), 4U) << "7 corners, two a line: 1 to 3, 11, 12, 52, 53";
    EXPECT_THAT(tables[0].rows[0], ElementsAre("1", "0", "0", "", "12", "420", "300"));
    ASSERT_EQ(tables[1].rows.size(), 2U);
    EXPECT_THAT(tables[1].rows[0], ElementsAre("3–11", "540", "240", "60", "round"));
    EXPECT_THAT(tables[1].rows[1], ElementsAre("12–52", "300", "300", "120", "hollow"));
}

TEST(CornerTable, OpeningsThatNoBoxTellsHaveTheirCorners) {
    Panel panel = boardOf({{0, 0}, {800, 0}, {800, 400}, {0, 400}});
    panel.holes = {hand::loopOf({{100, 100}, {100, 200}, {300, 200}, {300, 100}}, {}, panel.thickness),
                   hand::loopOf({{400, 100}, {500, 250}, {600, 100}}, {}, panel.thickness)};
    const auto tables = cornerTables(panel, {});
    ASSERT_EQ(tables.size(), 1U);
    std::vector<std::string> all;
    for (const auto& row : tables[0].rows) all.insert(all.end(), row.begin(), row.end());
    EXPECT_THAT(all, ::testing::IsSupersetOf({"Q1", "Q2", "Q3", "500", "250"}));
    EXPECT_THAT(all, ::testing::Not(::testing::Contains("P1"))) << "a level box: its table says all";
    EXPECT_TRUE(cornerTables(Panel{}, {}).empty());
}

TEST(PanelPages, CornersOfOpeningsAreNumberedClearOfOtherWords) {
    Panel panel = boardOf({{0, 0}, {900, 0}, {900, 500}, {0, 500}});
    // A lightening hole with round corners, a triangle, and a star with narrow points.
    const double r = 15;
    Ring hole;
    const std::vector<std::pair<Vec2, double>> rounds{{{60 + r, 60 + r}, pi},
                                                      {{300 - r, 60 + r}, 1.5 * pi},
                                                      {{300 - r, 400 - r}, 0},
                                                      {{60 + r, 400 - r}, 0.5 * pi}};
    for (const auto& [centre, from] : rounds) addArc(hole, centre, r, from, from + pi / 2, 8);
    Ring star;
    for (int i = 0; i < 12; ++i) {
        const double radius = i % 2 ? 40 : 130, a = i * pi / 6;
        star.emplace_back(650 + radius * std::cos(a), 250 + radius * std::sin(a));
    }
    for (const Ring& ring : {hole, Ring{{350, 100}, {480, 100}, {400, 180}}, star})
        panel.holes.push_back(hand::loopOf(reversed(ring), {}, panel.thickness));
    for (const bool portrait : {false, true}) {
        PanelDrawingOptions options;
        if (portrait) std::swap(options.width, options.height);
        const auto pages = panelPages(panel, options);
        std::vector<Label> labels;
        for (const Group& group : pages.front().groups)
            for (const Layer& layer : group.layers)
                labels.insert(labels.end(), layer.labels.begin(), layer.labels.end());
        std::size_t numbered = 0;
        for (std::size_t h = 0; h < panel.holes.size(); ++h)
            for (const std::size_t i : toldCorners(panel.holes[h].outer)) {
                const std::string number = openingLetter(h) + std::to_string(i + 1);
                const auto said = std::count_if(labels.begin(), labels.end(),
                                                [&](const Label& l) { return l.text == number; });
                EXPECT_EQ(said, 1) << number;
                ++numbered;
            }
        EXPECT_GE(numbered, 20U);
        for (std::size_t i = 0; i < labels.size(); ++i)
            for (std::size_t k = 0; k < i; ++k)
                if (labels[i].text.size() <= 3 || labels[k].text.size() <= 3) {
                    EXPECT_FALSE(labelArea(labels[i]).meets(labelArea(labels[k])))
                        << labels[i].text << " over " << labels[k].text;
                }
    }
}

TEST(PanelPages, TablesGoOnAndNothingIsLeftOut) {
    // A saw-toothed board: 90 corners, which no first page holds.
    Ring ring = {{0, 0}, {1800, 0}, {1800, 300}};
    for (int i = 0; i < 87; ++i) ring.emplace_back(1780 - 20 * i, i % 2 ? 300 : 250 + i);
    const Panel panel = boardOf(ring);
    for (const bool portrait : {false, true}) {
        PanelDrawingOptions options;
        if (portrait) std::swap(options.width, options.height);
        const auto pages = panelPages(panel, options);
        ASSERT_GT(pages.size(), 1U);
        EXPECT_LT(pages.size(), 5U);
        for (std::size_t corner = 1; corner <= ring.size(); ++corner) {
            std::size_t edges = 0;
            for (const Page& page : pages) edges += says(page, std::to_string(corner)) ? 1 : 0;
            EXPECT_GT(edges, 0U) << corner;
        }
        EXPECT_GE(rowsTold(pages, "Corners from"), 1U);
        EXPECT_GE(rowsTold(pages, "Edges"), 1U);
        for (const Page& page : pages) {
            EXPECT_EQ(page.chapter, panel.name);
            for (const Layer& layer : page.overlay.layers)
                for (const Label& label : layer.labels) {
                    EXPECT_EQ(label.text.find("see "), std::string::npos) << label.text;
                    const Area a = labelArea(label);
                    EXPECT_TRUE(a.x > 4 && a.y > 4 && a.right() < page.width - 4 && a.top() < page.height - 4)
                        << label.text;
                }
        }
    }
    EXPECT_EQ(panelPages(boardOf({{0, 0}, {800, 0}, {800, 400}, {0, 400}}), {}).size(), 1U);
}

TEST(EdgeRows, EdgesOnOneCircleMakeOneRowWhateverTheirLength) {
    // The first facet of the cut-out is half as long as the others, as where a round offset begins.
    Ring ring = cutOutBoard();
    const double a = -std::numbers::pi / 80;
    ring.insert(ring.begin() + 12, Vec2(300 + 120 * std::cos(a), 300 + 120 * std::sin(a)));
    const auto rows = edgeRows(boardOf(ring));
    std::vector<std::string> names;
    for (const EdgeRow& row : rows) names.push_back(row.number);
    EXPECT_THAT(names, ElementsAre("1", "2", "3–10", "11", "12–52", "53", "54"));
    EXPECT_NEAR(rows[2].radius, 60, 1e-9);
    EXPECT_NEAR(rows[4].radius, 120, 1e-9);
    EXPECT_EQ(rows[0].radius, 0);
}
