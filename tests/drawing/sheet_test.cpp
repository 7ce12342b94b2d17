#include "core/drawing/pen.h"
#include "core/drawing/sheets.h"
#include "tests/drawing/hand_panels.h"
#include <gtest/gtest.h>
#include <set>

using namespace slab;

namespace {

struct Case {
    std::vector<Panel> panels{hand::triangle(), hand::roof()};
    NestProblem problem;
    NestLayout layout;
    StockSet stock;
    Case() {
        for (const Panel& panel : panels) {
            NestPart part;
            part.id = panel.name;
            part.shape = panel.footprint;
            part.copies = static_cast<int>(panel.plates.size());
            problem.parts.push_back(part);
        }
        problem.sheets.push_back({"xps_13", 1220, 2440, 6, 1, -1, 14.5});
        Sheet sheet;
        sheet.name = "xps_13";
        stock.sheets.push_back(sheet);
        layout.onHand = true;
        layout.places = {{0, 0, 100, 200, std::numbers::pi / 2, false},
                         {1, 0, 600, 300, 0, true},
                         {1, 1, 1300.25, 6, 0, false}};
    }
};

const Group& named(const Page& page, std::size_t index) {
    return page.groups.at(index);
}

} // namespace

// Lengths lie along x: sheet 2440 × 1220 mm gives a page of just that size.
TEST(Sheets, TrueSizeAndPlaces) {
    const Case c;
    const Page page = sheetPage(c.problem, c.layout, c.panels, c.stock, 3);
    EXPECT_EQ(page.width, 2440);
    EXPECT_EQ(page.height, 1220);
    EXPECT_NE(page.name.find("Sheet 3"), std::string::npos);
    EXPECT_NE(page.name.find("in the shed"), std::string::npos);
    ASSERT_EQ(page.groups.size(), 4u);
    const Ring& turned = named(page, 1).layers[0].strokes[0].points; // (x, y) -> (100 - y, 200 + x)
    for (std::size_t i = 0; i < turned.size(); ++i) {
        const Vec2 p = c.panels[0].boundary.outer[i];
        EXPECT_NEAR((turned[i] - Vec2(100 - p.y(), 200 + p.x())).norm(), 0, 1e-9);
    }
    const Ring& flipped = named(page, 2).layers[0].strokes[0].points; // (x, y) -> (600 + x, 300 - y)
    for (std::size_t i = 0; i < flipped.size(); ++i) {
        const Vec2 p = c.panels[1].boundary.outer[i];
        EXPECT_NEAR((flipped[i] - Vec2(600 + p.x(), 300 - p.y())).norm(), 0, 1e-9);
    }
    EXPECT_NE(named(page, 1).title.find("turned 90°"), std::string::npos);
    EXPECT_NE(named(page, 2).title.find("inside face up"), std::string::npos);
    EXPECT_NE(named(page, 3).title.find("2 of 2"), std::string::npos);
}

TEST(Sheets, PaperTableTellsThePlaceFromTheCorner) {
    const Case c;
    const Page sheet = sheetPage(c.problem, c.layout, c.panels, c.stock, 1);
    for (const bool landscape : {false, true}) {
        const auto pages = landscape ? sheetPaperPages(sheet, "Boat", 297, 210, {})
                                     : sheetPaperPages(sheet, "Boat", 210, 297, {});
        ASSERT_EQ(pages.size(), 1U);
        const Page& page = pages.front();
        std::vector<std::string> words;
        for (const Layer& layer : page.overlay.layers)
            for (const Label& label : layer.labels) {
                words.push_back(label.text);
                const Area box = labelArea(label);
                EXPECT_TRUE(box.x > 4 && box.y > 4 && box.right() < page.width - 4 &&
                            box.top() < page.height - 4)
                    << label.text;
            }
        // triangle turned about its origin: x from 100 - 52 to 100, y from 200; roof copy 2 at 1300, 6
        for (const char* word : {"48", "200", "1300", "6", "2 of 2", "2440", "1220", "3"})
            EXPECT_NE(std::find(words.begin(), words.end(), word), words.end()) << word;
        for (const Group& group : page.groups)
            for (const Layer& layer : group.layers)
                for (const Stroke& stroke : layer.strokes)
                    for (const Vec2& p : stroke.points)
                        EXPECT_TRUE(p.x() > 0 && p.y() > 0 && p.x() < page.width && p.y() < page.height);
    }
}

TEST(Sheets, ALongTableGoesOnAndNamesEveryPanel) {
    Case c;
    const NestPlace place = c.layout.places.front();
    for (int i = 0; i < 150; ++i) c.layout.places.push_back(place);
    const Page sheet = sheetPage(c.problem, c.layout, c.panels, c.stock, 1);
    for (const bool landscape : {false, true}) {
        const auto pages = landscape ? sheetPaperPages(sheet, "Boat", 297, 210, {})
                                     : sheetPaperPages(sheet, "Boat", 210, 297, {});
        EXPECT_GT(pages.size(), 1U);
        std::set<std::string> told;
        for (const Page& page : pages)
            for (const Label& label : page.overlay.layers[1].labels) {
                told.insert(label.text);
                EXPECT_EQ(label.text.find("see the"), std::string::npos) << label.text;
            }
        for (std::size_t i = 1; i < sheet.groups.size(); ++i)
            EXPECT_TRUE(told.contains(std::to_string(i))) << i;
    }
}

TEST(Sheets, ABadSheetNumberGivesAnEmptyPage) {
    Case c;
    c.layout.sheet = 9;
    EXPECT_TRUE(sheetPage(c.problem, c.layout, c.panels, c.stock, 1).groups.empty());
    c.layout.sheet = 0;
    c.layout.places[0].part = -4;
    EXPECT_EQ(sheetPage(c.problem, c.layout, c.panels, c.stock, 1).groups.size(), 3u);
}
