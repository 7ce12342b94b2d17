// Edge numbers where there is little room.
#include "core/drawing/number_room.h"
#include "core/drawing/panel_view.h"
#include "tests/drawing/hand_panels.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

/// A flat board with round wheels cut out of its lower edge, each by short edges whose marks differ.
Panel wheeled(int wheels, int facets, double width, double height, bool meets = true) {
    Ring ring{{0, 0}};
    const double pitch = width / wheels, radius = 0.4 * pitch;
    for (int w = 0; w < wheels; ++w)
        for (int k = 0; k <= facets; ++k) {
            const double a = std::numbers::pi * (1 - static_cast<double>(k) / facets);
            // Flatter than a circle, so that no run of edges lies on one.
            ring.push_back({(w + 0.5) * pitch + radius * std::cos(a), 0.5 * height * std::sin(a)});
        }
    ring.push_back({width, 0});
    ring.push_back({width, height});
    ring.push_back({0, height});
    Panel panel;
    panel.name = "frames/keelson";
    panel.plates = {panel.name};
    panel.thickness = 9;
    panel.up = Vec2::UnitY();
    std::vector<hand::Cut> cuts;
    for (std::size_t i = 0; i < ring.size() && meets; ++i)
        cuts.push_back({"hull/" + std::to_string(i), EdgeRole::butts, 0});
    panel.boundary = hand::loopOf(ring, cuts, 9);
    return panel;
}

struct Placed {
    std::vector<PlacedNumber> numbers;
    std::vector<EdgeRow> rows;
};
Placed placedOn(const Panel& panel, double scale, const Area& region) {
    Placed out;
    out.rows = edgeRows(panel);
    NumberRoom room;
    room.region = region;
    const Box2 box = bounds(panel.boundary.outer);
    const PanelMap map{scale, Vec2(region.x + region.width / 2, region.y + region.height / 2) -
                                  scale * (box.min + box.max) / 2};
    room.rings = {map.ring(panel.boundary.outer)};
    out.numbers = placeNumbers(room, out.rows, panel, map);
    return out;
}

void expectLegible(const Placed& placed) {
    std::size_t next = 0;
    for (std::size_t a = 0; a < placed.numbers.size(); ++a) {
        const auto area = [&](std::size_t i) {
            return NumberRoom::areaOf(placed.numbers[i].place, NumberRoom::widthOf(placed.numbers[i].number));
        };
        for (std::size_t b = 0; b < a; ++b)
            EXPECT_FALSE(area(a).meets(area(b)))
                << placed.numbers[a].number << " on " << placed.numbers[b].number;
        // Rows follow each other, none is left out: each number begins where the last one ended.
        ASSERT_LT(next, placed.rows.size());
        const std::string& words = placed.numbers[a].number;
        EXPECT_EQ(std::stoi(words), placed.rows[next].first + 1) << words;
        const std::size_t dash = words.find("–");
        const int last = dash == std::string::npos ? std::stoi(words) : std::stoi(words.substr(dash + 3));
        while (next < placed.rows.size() && placed.rows[next].last < last) ++next;
    }
    EXPECT_EQ(next, placed.rows.size()) << "every row of the table is told";
}

TEST(NumberRoom, TellsShortEdgesTogetherWhereTheyHaveNoRoomOfTheirOwn) {
    const Panel panel = wheeled(4, 24, 2400, 120);
    const Placed placed = placedOn(panel, 0.02, {0, 0, 80, 24});
    expectLegible(placed);
    EXPECT_TRUE(std::any_of(placed.numbers.begin(), placed.numbers.end(), [](const auto& n) {
        return n.together;
    })) << "else nothing was crowded";
    // With room enough each edge has its own.
    const Placed large = placedOn(panel, 0.5, {0, 0, 1400, 300});
    expectLegible(large);
    EXPECT_EQ(large.numbers.size(), large.rows.size());
}

TEST(EdgeRows, ShortEdgesThatMeetNothingAreOneRow) {
    const Panel loose = wheeled(2, 16, 400, 60, false);
    const std::vector<EdgeRow> rows = edgeRows(loose);
    ASSERT_LT(rows.size(), 10U) << "two wheels, and what is between and round them";
    int next = 0;
    for (const EdgeRow& row : rows) {
        EXPECT_EQ(row.first, next) << "no edge is left out";
        next = row.last + 1;
        double longest = 0;
        for (int i = row.first; i <= row.last; ++i)
            longest = std::max(longest, loose.boundary.edges[static_cast<std::size_t>(i)].length);
        if (row.upTo) {
            EXPECT_EQ(row.length, longest);
            EXPECT_LE(row.length, 25);
            EXPECT_GE(row.last - row.first, 2);
        }
    }
    EXPECT_EQ(next, static_cast<int>(loose.boundary.edges.size()));
    EXPECT_EQ(std::count_if(rows.begin(), rows.end(), [](const EdgeRow& r) { return r.upTo; }), 2);
    // What meets something keeps a row of its own, however short it is.
    for (const EdgeRow& row : edgeRows(wheeled(2, 16, 400, 60))) EXPECT_EQ(row.first, row.last) << row.number;
}

TEST(NumberRoom, StaysLegibleForAnyBoard) {
    auto random = seeded(41);
    int together = 0;
    for (int round = 0; round < 40; ++round) {
        const Panel panel =
            wheeled(1 + static_cast<int>(uniform(random, 0, 4)), 3 + static_cast<int>(uniform(random, 0, 12)),
                    uniform(random, 600, 3000), uniform(random, 60, 400));
        const Placed placed = placedOn(panel, uniform(random, 0.015, 0.06), {0, 0, 190, 40});
        expectLegible(placed);
        for (const PlacedNumber& n : placed.numbers) together += n.together;
    }
    std::printf("%d ranges on 40 boards\n", together);
}

} // namespace
} // namespace slab
