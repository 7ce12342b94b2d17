#include "../geometry/seed.h"
#include "core/takeoff/takeoff.h"
#include <cmath>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Ring box(double w, double h) {
    return {Vec2(0, 0), Vec2(w, 0), Vec2(w, h), Vec2(0, h)};
}

Panel panelOf(std::string name, double w, double h, double bevel = 0, std::vector<std::string> plates = {}) {
    Panel panel;
    panel.name = std::move(name);
    panel.plates = plates.empty() ? std::vector<std::string>{panel.name} : std::move(plates);
    panel.stock = "board";
    panel.boundary.outer = box(w, h);
    panel.boundary.edges.resize(4);
    panel.boundary.edges[1].bevel = bevel;
    panel.footprint.outer = box(w, h);
    return panel;
}

StockSet oneBoard() {
    Sheet sheet;
    sheet.name = "board";
    sheet.width = 1220;
    sheet.length = 2440;
    sheet.thickness = 12;
    sheet.trim = 5;
    sheet.price = 14.5;
    sheet.onHand = 1;
    sheet.density = 30;
    StockSet stock;
    stock.sheets = {sheet};
    stock.kerf = 2;
    stock.margin = 1;
    stock.currency = "EUR";
    return stock;
}

TEST(NestProblemFor, SpacingIsKerfOverCosineOfTheWorstBevelPlusMargin) {
    const double third = std::numbers::pi / 3;
    const NestProblem problem = nestProblemFor(
        {panelOf("square", 300, 200), panelOf("tilted", 300, 200, -third, {"p", "q"})}, oneBoard());
    ASSERT_EQ(problem.parts.size(), 2U);
    EXPECT_DOUBLE_EQ(problem.parts[0].spacing, 3);
    EXPECT_NEAR(problem.parts[1].spacing, 5, 1e-12); // cos 60 degrees = 1/2
    EXPECT_EQ(problem.parts[1].copies, 2);
    EXPECT_EQ(problem.parts[1].stock, "board");
    ASSERT_EQ(problem.sheets.size(), 1U);
    EXPECT_DOUBLE_EQ(problem.sheets[0].length, 2440);
    EXPECT_DOUBLE_EQ(problem.sheets[0].width, 1220);
    EXPECT_DOUBLE_EQ(problem.sheets[0].trim, 5);
    EXPECT_EQ(problem.sheets[0].onHand, 1);
}

TEST(NestProblemFor, TurnsFollowTheMaterial) {
    StockSet stock = oneBoard();
    const std::vector<Panel> panels{panelOf("a", 300, 200)};
    const auto turns = [&](const char* word) {
        stock.sheets[0].turns = word;
        return nestProblemFor(panels, stock).parts[0].rotations;
    };
    constexpr double half = std::numbers::pi;
    EXPECT_THAT(turns("any"), IsEmpty());
    EXPECT_THAT(turns("quarter"), ElementsAre(0, half / 2, half, 3 * half / 2));
    EXPECT_THAT(turns("half"), ElementsAre(0, half));
    EXPECT_THAT(turns("none"), ElementsAre(0));
}

TEST(NestProblemFor, OnlySquareCutsMayBeTurnedOver) {
    StockSet stock = oneBoard();
    const std::vector<Panel> panels{panelOf("square", 300, 200), panelOf("tilted", 300, 200, 0.3)};
    EXPECT_FALSE(nestProblemFor(panels, stock).parts[0].flip);
    stock.sheets[0].flip = true;
    EXPECT_TRUE(nestProblemFor(panels, stock).parts[0].flip);
    EXPECT_FALSE(nestProblemFor(panels, stock).parts[1].flip);
}

struct Built {
    std::vector<Panel> panels;
    StockSet stock = oneBoard();
    PlateSet plates;
    NestProblem problem;
    NestResult nested;
};

/// Three plates of 1000 x 1000 x 12 cut from two panels: two sheets, one of them on hand.
Built threePlates() {
    Built b;
    b.panels = {panelOf("side", 1000, 1000, 0, {"port", "starboard"}), panelOf("roof", 1000, 1000)};
    for (const char* name : {"port", "starboard", "roof"}) {
        Plate plate;
        plate.name = name;
        plate.stock = "board";
        plate.volume = 1000.0 * 1000 * 12;
        b.plates.plates.push_back(plate);
    }
    JointInfo cover, open;
    cover.to = Vec3(1000, 0, 0);
    open.to = Vec3(500, 0, 0);
    open.kind = JointKind::open;
    b.plates.joints = {cover, open};
    b.problem = nestProblemFor(b.panels, b.stock);
    b.nested = nest(b.problem, {});
    return b;
}

TEST(TakeOff, CountsMoneyMassAndLengths) {
    const Built b = threePlates();
    ASSERT_THAT(checkNest(b.problem, b.nested), IsEmpty());
    const Totals t = takeOff(b.plates, b.panels, b.stock, b.problem, b.nested);
    EXPECT_EQ(t.plates, 3);
    EXPECT_EQ(t.panels, 2);
    EXPECT_EQ(t.sheets, 2);
    EXPECT_EQ(t.buy, 1);
    EXPECT_DOUBLE_EQ(t.cost, 14.5);
    EXPECT_NEAR(t.mass, 3 * 0.012 * 30, 1e-12); // 1 m² of 12 mm at 30 kg/m³
    EXPECT_DOUBLE_EQ(t.cutLength, 12000);
    EXPECT_DOUBLE_EQ(t.jointLength, 1000); // an open joint takes no adhesive
    EXPECT_NEAR(t.usedPercent, 100 * 3e6 / (2 * 1220.0 * 2440), 1e-9);
    ASSERT_EQ(t.stock.size(), 1U);
    EXPECT_EQ(t.stock[0].used, 2);
    EXPECT_EQ(t.stock[0].onHand, 1);
    EXPECT_EQ(t.stock[0].buy, 1);
    EXPECT_DOUBLE_EQ(t.stock[0].area, 3e6);
}

TEST(TakeOff, APanelTooLargeForItsSheetIsNotPlaced) {
    Built b = threePlates();
    b.panels.push_back(panelOf("keel", 3000, 100));
    b.problem = nestProblemFor(b.panels, b.stock);
    b.nested = nest(b.problem, {});
    EXPECT_THAT(checkNest(b.problem, b.nested), IsEmpty());
    EXPECT_THAT(b.nested.unplaced, ElementsAre(std::pair<int, int>(2, 0)));
    EXPECT_EQ(takeOff(b.plates, b.panels, b.stock, b.problem, b.nested).panels, 3);
}

TEST(TakeOff, NothingGivesNothing) {
    EXPECT_EQ(takeOff({}, {}, {}, {}, {}), Totals{});
    EXPECT_THAT(nestProblemFor({}, {}).parts, IsEmpty());
}

TEST(ShoppingList, LinesEndAndFieldsAreQuotedAsRfc4180Says) {
    // RFC 4180 section 2: CRLF after each record (1), fields with comma or quote in quotes (6), quotes
    // doubled (7).
    Built b = threePlates();
    b.stock.sheets[0].name = "board, \"best\" 12";
    Totals t = takeOff(b.plates, b.panels, oneBoard(), b.problem, b.nested);
    t.stock[0].stock = b.stock.sheets[0].name;
    UnitStyle mm;
    mm.typographic = false;
    EXPECT_EQ(shoppingListCsv(t, b.stock, mm),
              "Item,Size,Need,On hand,Buy,Unit price (EUR),Cost (EUR)\r\n"
              "\"board, \"\"best\"\" 12\",1220 mm x 2440 mm x 12 mm,2,1,1,14.50,14.50\r\n");
}

TEST(ShoppingList, InchMarksAreQuoted) {
    const Built b = threePlates();
    const Totals t = takeOff(b.plates, b.panels, b.stock, b.problem, b.nested);
    UnitStyle inches;
    inches.unit = Unit::in;
    inches.typographic = false;
    const std::string csv = shoppingListCsv(t, b.stock, inches);
    EXPECT_THAT(csv, testing::HasSubstr("\"\"")); // 48" is written 48""
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 2);
}

TEST(ShoppingList, ThicknessIsWhatWasMeasured) {
    Built b = threePlates();
    const Totals t = takeOff(b.plates, b.panels, b.stock, b.problem, b.nested);
    b.stock.sheets[0].thickness = 6.5;
    EXPECT_THAT(shoppingListCsv(t, b.stock, {}), testing::HasSubstr("x 6.5 mm,"));
    UnitStyle feet;
    feet.unit = Unit::ft;
    feet.typographic = false;
    EXPECT_THAT(shoppingListCsv(t, b.stock, feet), testing::HasSubstr("x 0.256\"\"\","));
}

TEST(ShoppingList, RoundFormsAreBoughtToo) {
    RoundPart left{"stack port", {0, 0, 0}, {0, 0, 300}, 70, 70, 3, 1, true, ""};
    RoundPart right = left;
    right.name = "stack starboard";
    const RoundPart cone{"horn", {0, 0, 0}, {100, 0, 0}, 40, 20, 0, 1, true, "funnel"};
    const auto lines = roundLines({left, cone, right});
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_THAT(lines[0].forms, ElementsAre("stack port", "stack starboard"));
    // ASTM D1785: 5 in pipe is 5.563 in outside.
    EXPECT_EQ(lines[0].nearest, "5 in pipe, schedule 40");
    EXPECT_NEAR(lines[0].nearestOutside, 5.563 * 25.4, 1e-9);
    EXPECT_EQ(lines[1].nearest, "");
    const std::string csv = shoppingListCsv({}, {}, {}, lines);
    EXPECT_THAT(csv, testing::HasSubstr(
                         "\"pipe for stack port, stack starboard\",\"140 mm outside x 3 mm wall x "
                         "300 mm long; nearest 5 in pipe, schedule 40, 141.3 mm outside\",2,0,2,,\r\n"));
    EXPECT_THAT(csv, testing::HasSubstr("funnel for horn,80 mm to 40 mm outside x 100 mm long,1,0,1,,\r\n"));
}

TEST(ShoppingList, HardwareSaysWhatItsSizeIsInMarksOfASpreadsheet) {
    UnitStyle inches;
    inches.unit = Unit::in;
    const std::string csv =
        shoppingListCsv({}, {}, inches, {},
                        {{"drum", "countersunk screw, length", 7, 25.4, ""},
                         {"water monitor", "tube or pipe, outside 2-3/8″, length", 1, 254, ""},
                         {"drum", "stop block 1/2″ thick with a screw", 2, 0, ""}});
    EXPECT_THAT(csv, testing::HasSubstr("countersunk screw for drum,\"1\"\" long\",7,0,7,,\r\n"));
    EXPECT_THAT(csv,
                testing::HasSubstr(
                    "\"tube or pipe, outside 2-3/8\"\" for water monitor\",\"10\"\" long\",1,0,1,,\r\n"));
    EXPECT_THAT(csv, testing::HasSubstr("\"stop block 1/2\"\" thick with a screw for drum\",,2,0,2,,\r\n"));
    for (const char c : csv) EXPECT_GE(c, 0) << "plain ASCII";
}

} // namespace
} // namespace slab
