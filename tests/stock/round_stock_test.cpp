#include "core/stock/round_stock.h"
#include <algorithm>
#include <gtest/gtest.h>

namespace slab {
namespace {

RoundStockSet resolvedRounds(std::vector<RoundStock> rounds, const Text& match = {}) {
    Project project;
    project.stock.rounds = std::move(rounds);
    project.stock.match = match;
    return resolveRoundStock(project, Scope{});
}
RoundStock tub(const char* name, const char* diameter) {
    RoundStock r;
    r.name = name;
    r.diameter = diameter;
    return r;
}

TEST(RoundStock, ReadsWhatIsInTheShed) {
    RoundStock pail = tub("pail", "30 cm");
    pail.wall = "1.5 mm";
    pail.length = "400 mm";
    pail.price = "4.5";
    pail.on_hand = "2";
    const RoundStockSet set = resolvedRounds({pail}, "5 mm");
    ASSERT_EQ(set.rounds.size(), 1U);
    EXPECT_TRUE((set.rounds[0] == RoundSize{"pail", 300, 1.5, 400, 4.5, 2, false}));
    EXPECT_DOUBLE_EQ(set.match, 5);
    EXPECT_TRUE(set.findings.empty());
    EXPECT_DOUBLE_EQ(resolvedRounds({}).match, defaultMatch);
}

TEST(RoundStock, TellsWhatCannotBeUsedAndLeavesItOut) {
    const auto refused = [](RoundStock r, const char* code, bool kept = false) {
        const RoundStockSet set = resolvedRounds({std::move(r)});
        EXPECT_EQ(set.rounds.size(), kept ? 1U : 0U) << code;
        ASSERT_EQ(set.findings.size(), 1U) << code;
        EXPECT_EQ(set.findings[0].code, code);
        EXPECT_FALSE(set.findings[0].remedy.empty());
        EXPECT_TRUE(set.findings[0].about.back().starts_with("document:/stock/rounds/0/")) << code;
    };
    refused(tub("", "300 mm"), "stock-name");
    refused(tub("pail", ""), "stock-size");
    refused(tub("pail", "-3 mm"), "stock-size");
    refused(tub("pail", "200 m"), "stock-size");
    refused(tub("pail", "3 wide"), resolvedRounds({tub("pail", "3 wide")}).findings.front().code.c_str());
    RoundStock thick = tub("pail", "300 mm");
    thick.wall = "151 mm";
    refused(thick, "stock-thickness");
    RoundStock cheap = tub("pail", "300 mm");
    cheap.price = "-1";
    refused(cheap, "stock-price", true);
    RoundStock half = tub("pail", "300 mm");
    half.on_hand = "1.5";
    refused(half, "stock-on-hand", true);
    const RoundStockSet twice = resolvedRounds({tub("pail", "300 mm"), tub("pail", "200 mm")});
    EXPECT_EQ(twice.rounds.size(), 1U);
    EXPECT_EQ(twice.findings.size(), 1U);
    const RoundStockSet off = resolvedRounds({}, "-1 mm");
    EXPECT_DOUBLE_EQ(off.match, defaultMatch);
    ASSERT_EQ(off.findings.size(), 1U);
    EXPECT_EQ(off.findings[0].code, "stock-match");
}

// ANSI C80.3 (https://hostforstudent.com/what-is-the-wall-thickness-of-2-emt/) 3 in tubing is as wide as 3 in
// pipe (ASTM D1785): one size.
TEST(RoundStock, PublishedSizesRiseAndNoneStandsTwice) {
    const auto& all = publishedRounds();
    for (std::size_t i = 1; i < all.size(); ++i)
        EXPECT_GT(all[i].outside, all[i - 1].outside + 0.05) << all[i].name;
    EXPECT_EQ(std::count_if(all.begin(), all.end(),
                            [](const RoundSize& r) { return std::abs(r.outside - 88.9) < 0.1; }),
              1);
    EXPECT_GE(all.size(), pipeSizes().size() + drainSizes().size() + sewerSizes().size());
}

} // namespace
} // namespace slab
