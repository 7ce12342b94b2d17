#include "core/drawing/bars.h"
#include "core/drawing/tiles.h"
#include <gtest/gtest.h>

using namespace slab;

// ISO 216 in whole millimetres; Letter 8.5 × 11 in and Tabloid 11 × 17 in.
// https://a-size.com/ (A sizes, Letter); Tabloid = ANSI B, from memory.
TEST(Paper, SizesArePublished) {
    const auto expect = [](const std::string& name, double width, double height) {
        const Expected<Paper> paper = paperNamed(name);
        ASSERT_TRUE(paper) << name;
        EXPECT_EQ(paper->name, name);
        EXPECT_DOUBLE_EQ(paper->width, width);
        EXPECT_DOUBLE_EQ(paper->height, height);
    };
    expect("A4", 210, 297);
    expect("A3", 297, 420);
    expect("Letter", 215.9, 279.4);
    expect("Tabloid", 279.4, 431.8);
    expect("roll 24 in", 609.6, 0);
    expect("roll 36 in", 914.4, 0);
    expect("roll 914 mm", 914, 0);
    EXPECT_EQ(paperNames().size(), 7u);
}

TEST(Paper, UnknownNameIsRefusedWithTheChoices) {
    const Expected<Paper> paper = paperNamed("foolscap");
    ASSERT_FALSE(paper);
    EXPECT_EQ(paper.error().code, "unknown-paper");
    EXPECT_NE(paper.error().remedy.find("Tabloid"), std::string::npos);
}

// n = 1 if W <= p, else ceil((W - o) / (p - o)): worked out by hand for 4 × 8 ft and 1220 × 2440 mm sheets.
TEST(Paper, TileCounts) {
    constexpr double in = 25.4;
    EXPECT_EQ(tileCount(96 * in, 8 * in, 0.5 * in), 13);
    EXPECT_EQ(tileCount(48 * in, 10.5 * in, 0.5 * in), 5);
    EXPECT_EQ(tileCount(96 * in, 10.5 * in, 0.5 * in), 10);
    EXPECT_EQ(tileCount(48 * in, 8 * in, 0.5 * in), 7);
    EXPECT_EQ(tileCount(2440, 190, 10), 14);
    EXPECT_EQ(tileCount(1220, 277, 10), 5);
    EXPECT_EQ(tileCount(2440, 277, 10), 10);
    EXPECT_EQ(tileCount(1220, 190, 10), 7);
    EXPECT_EQ(tileCount(2440, 821, 20), 4); // A0 less 10 mm borders
    EXPECT_EQ(tileCount(1220, 1169, 20), 2);
    EXPECT_EQ(tileCount(2440, 1169, 20), 3);
    EXPECT_EQ(tileCount(1220, 821, 20), 2);
    EXPECT_EQ(tileCount(600, 190, 10), 4);
    EXPECT_EQ(tileCount(400, 277, 10), 2);
    EXPECT_EQ(tileCount(600, 277, 10), 3);
    EXPECT_EQ(tileCount(400, 190, 10), 3);
    EXPECT_EQ(tileCount(8 * in, 8 * in, 0.5 * in), 1);
    EXPECT_EQ(tileCount(8.01 * in, 8 * in, 0.5 * in), 2);
    EXPECT_EQ(tileCount(10.5 * in, 10.5 * in, 0.5 * in), 1);
}

TEST(Paper, TilesCoverTheirSize) {
    for (double size = 1; size < 5000; size += 13.7)
        for (double p : {100.0, 190.0, 277.0})
            for (double o : {0.0, 10.0, 25.0}) {
                const int n = tileCount(size, p, o);
                EXPECT_GE(n * (p - o) + o, size - 1e-9) << size;
                if (n > 1) {
                    EXPECT_LT((n - 1) * (p - o) + o, size) << size;
                }
            }
}

// The longest bar that fits: 12 mm off over 2440 mm comes from reading a 100 mm bar half a millimetre wrong.
TEST(Bars, AsLongAsFits) {
    UnitStyle mm, ft;
    ft.unit = Unit::ft;
    EXPECT_DOUBLE_EQ(barLength(99, mm), 0);
    EXPECT_DOUBLE_EQ(barLength(100, mm), 100);
    EXPECT_DOUBLE_EQ(barLength(199.9, mm), 150);
    EXPECT_DOUBLE_EQ(barLength(200, mm), 200);
    EXPECT_DOUBLE_EQ(barLength(101, ft), 0);
    EXPECT_DOUBLE_EQ(barLength(4 * 25.4, ft), 101.6);
    EXPECT_DOUBLE_EQ(barLength(170, ft), 152.4);
    EXPECT_EQ(barWords(152.4, ft), "6 in");
    EXPECT_EQ(barWords(150, mm), "150 mm");
}
