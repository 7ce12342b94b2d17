// Timber by length: bars by closed forms and against the sum of lengths.
#include "../geometry/seed.h"
#include "core/takeoff/takeoff.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numeric>

namespace slab {
namespace {

CleatSet twoSections() {
    CleatSet set;
    for (const auto& [rule, width, count, length] :
         {std::tuple("sill", 20.0, 3, 900.0), std::tuple("post", 30.0, 2, 400.0),
          std::tuple("cap", 20.0, 1, 500.0)}) {
        CleatLine line;
        line.rule = rule;
        line.a = "crate/port";
        line.b = "crate/base";
        line.mark = 7;
        line.count = count;
        line.length = length;
        line.width = line.depth = width;
        line.angle = std::acos(-1.0) / 2;
        line.barLength = 2400;
        line.price = 4.5;
        for (int i = 0; i < count; ++i) {
            Plate part;
            part.name = rule + std::to_string(i);
            part.volume = width * width * length;
            part.density = 500;
            line.plates.push_back(part.name);
            set.parts.push_back(part);
        }
        set.lines.push_back(line);
    }
    CleatLine strip = set.lines[0];
    strip.stock = "ply";
    set.lines.push_back(strip);
    return set;
}

} // namespace

// Four of 600 and three cuts of 2 fill 2406: a bar of 2400 holds three, one of 2406 four.
TEST(Bars, sawCutsTakeTheirShare) {
    EXPECT_EQ(cutBars({600, 600, 600, 600}, 2400, 2).size(), 2U);
    EXPECT_EQ(cutBars({600, 600, 600, 600}, 2406, 2).size(), 1U);
    EXPECT_EQ(cutBars({600, 600, 600, 600}, 2400, 0).size(), 1U);
    const auto one = cutBars({500, 700}, 2400, 3);
    ASSERT_EQ(one.size(), 1U);
    EXPECT_EQ(one[0].lengths, (std::vector<double>{700, 500}));
    EXPECT_DOUBLE_EQ(one[0].left, 2400 - 1200 - 6);
    EXPECT_EQ(piecesOf(one[0], {}), "700 mm + 500 mm");
    EXPECT_EQ(piecesOf({{900, 60, 60, 60}, 0}, {}), "900 mm + 3 × 60 mm");
    EXPECT_TRUE(cutBars({}, 2400, 2).empty());
    EXPECT_EQ(cutBars({3000, 100}, 2400, 2).size(), 2U); // too long: a bar of its own
}

// First fit, longest first, needs three bars here (4 + 4, 3 + 3 + 3, 3); two do: twice 4 + 3 + 3.
TEST(Bars, fewerThanFirstFitWhereThatWastes) {
    EXPECT_EQ(cutBars({4, 4, 3, 3, 3, 3}, 10, 0).size(), 2U);
}

// Against every way there is: least bars over subsets (dynamic programming).
TEST(Bars, asFewAsCanBe) {
    auto random = seeded(9);
    for (int round = 0; round < 60 / slowdown; ++round) {
        const double bar = 1000, kerf = uniform(random, 0, 5);
        std::vector<double> lengths;
        for (int i = 0; i < 10; ++i) lengths.push_back(uniform(random, 150, 700));
        const std::size_t all = std::size_t{1} << lengths.size();
        std::vector<char> fits(all, 0);
        std::vector<int> least(all, 100);
        least[0] = 0;
        for (std::size_t set = 1; set < all; ++set) {
            double sum = 0;
            for (std::size_t i = 0; i < lengths.size(); ++i)
                if ((set >> i & 1U) != 0) sum += lengths[i] + kerf;
            fits[set] = sum <= bar + kerf ? 1 : 0;
            for (std::size_t part = set; part > 0; part = (part - 1) & set)
                if (fits[part] != 0) least[set] = std::min(least[set], least[set ^ part] + 1);
        }
        ASSERT_EQ(static_cast<int>(cutBars(lengths, bar, kerf).size()), least[all - 1]);
    }
}

TEST(Bars, holdAllPiecesAndNoMoreThanTheirLength) {
    auto random = seeded(3);
    for (int round = 0; round < 300 / slowdown; ++round) {
        const double bar = uniform(random, 1000, 3000), kerf = uniform(random, 0, 5);
        std::vector<double> lengths;
        const int count = 1 + below(random, 30);
        for (int i = 0; i < count; ++i) lengths.push_back(uniform(random, 40, bar));
        const auto bars = cutBars(lengths, bar, kerf);
        std::vector<double> all;
        for (const BarCut& b : bars) {
            const double sum = std::accumulate(b.lengths.begin(), b.lengths.end(), 0.0);
            ASSERT_LE(sum + kerf * static_cast<double>(b.lengths.size() - 1), bar + 1e-5);
            ASSERT_NEAR(b.left, std::max(0.0, bar - sum - kerf * static_cast<double>(b.lengths.size())),
                        1e-6);
            all.insert(all.end(), b.lengths.begin(), b.lengths.end());
        }
        std::sort(all.begin(), all.end());
        std::sort(lengths.begin(), lengths.end());
        ASSERT_EQ(all, lengths);
        double need = 0;
        for (const double l : lengths) need += l + kerf;
        const double least = std::ceil(need / (bar + kerf) - 1e-9);
        ASSERT_GE(static_cast<double>(bars.size()), least);
    }
}

TEST(Bars, areBoughtByCrossSection) {
    const CleatSet set = twoSections();
    const auto lines = barLines(set, 2);
    ASSERT_EQ(lines.size(), 2U); // strips of a sheet are not bought by length
    EXPECT_EQ(lines[0].pieces, 4);
    EXPECT_DOUBLE_EQ(lines[0].length, 3 * 900 + 500);
    EXPECT_DOUBLE_EQ(lines[0].withKerf, 3 * 900 + 500 + 4 * 2);
    EXPECT_EQ(lines[0].bars.size(), 2U);
    EXPECT_DOUBLE_EQ(lines[0].cost, 9);
    EXPECT_NEAR(lines[0].mass, 0.02 * 0.02 * 3.2 * 500, 1e-12); // m³ x kg/m³
    EXPECT_EQ(lines[1].pieces, 2);
    Totals totals;
    totals.cost = 1;
    totals.mass = 2;
    addTimber(totals, set, 2);
    EXPECT_DOUBLE_EQ(totals.cost, 1 + 9 + 4.5);
    EXPECT_NEAR(totals.mass, 2 + 0.64 + 0.03 * 0.03 * 0.8 * 500, 1e-12);
    const std::string list = shoppingListCsv(totals, {}, {});
    EXPECT_NE(list.find("timber for cleats,\"20 mm x 20 mm x "), std::string::npos) << list;
    EXPECT_NE(list.find(",2,0,2,4.50,9.00\r\n"), std::string::npos) << list;
    const std::string cuts = cleatListCsv(set, {});
    EXPECT_NE(cuts.find("sill,cleat,3,"), std::string::npos) << cuts;
    EXPECT_NE(cuts.find(",90.0,0,timber,crate/port,crate/base,7\r\n"), std::string::npos) << cuts;
    EXPECT_NE(cuts.find(",ply,crate/port"), std::string::npos) << cuts;
}

} // namespace slab
