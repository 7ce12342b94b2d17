// Strips of board beside slots, by closed forms.
#include "core/frames/slot_margins.h"
#include "core/plates/margins.h"
#include "tests/frames/crate.h"
#include <cmath>

namespace slab {
namespace {

StockSet plySet(const std::string& kind = "plywood") {
    StockSet stock;
    Sheet sheet;
    sheet.name = "ply";
    sheet.kind = kind;
    sheet.thickness = thick;
    stock.sheets.push_back(sheet);
    return stock;
}

/// Between a slot of 10 and the rib's end at 290 stays what is asked for.
FrameSet leaving(const Crate& crate, double strip, double side = 1) {
    return crate.make({across("rib", 500), lengthwise("keelson", side * (290 - 5 - strip))});
}

TEST(SlotMargins, aHornIsToldByItsWidth) {
    const Crate crate;
    // Three times the slot's 10 mm, as for a bolt hole.
    EXPECT_EQ(leastWeb(plySet().find("ply"), thick, 10), 30);
    auto random = seeded(5);
    for (int round = 0; round < 40; ++round) {
        const double strip = uniform(random, 4, 60), side = below(random, 2) ? 1 : -1;
        const FrameSet set = leaving(crate, strip, side);
        ASSERT_EQ(set.crossings.size(), 1U);
        const auto found = hornFindings(set, plySet(), {});
        ASSERT_EQ(found.size(), strip < 30 ? 1U : 0U) << strip << report(found);
        const auto horn = thinHorn(*boardNamed(set, "frames/rib"), set.crossings[0], 100);
        ASSERT_TRUE(horn) << strip;
        EXPECT_NEAR(horn->width, strip, 1e-4);
        EXPECT_NEAR(horn->depth, 240, 1e-3) << "half of 480";
        EXPECT_NEAR(horn->at.y(), side * 290, 1e-3);
        EXPECT_FALSE(thinHorn(*boardNamed(set, "frames/keelson"), set.crossings[0], 100)) << "its end is far";
        if (found.empty()) continue;
        EXPECT_EQ(found[0].code, "frame-horn");
        EXPECT_EQ(found[0].severity, Severity::look);
        for (const std::string& text : {std::string("rib"), std::string("keelson"), printFine(strip, {})})
            EXPECT_NE(found[0].message.find(text), std::string::npos) << found[0].message;
        EXPECT_NE(found[0].remedy.find(printLength(30, {})), std::string::npos) << found[0].remedy;
    }
    EXPECT_EQ(hornFindings(leaving(crate, 35), plySet("foam"), {}).size(), 1U) << "40 mm in foam";
    EXPECT_EQ(hornFindings(leaving(crate, 45), plySet("foam"), {}).size(), 0U);
}

TEST(SlotMargins, slotsSideBySideAndChosenWebs) {
    const Crate crate;
    // Two keelsons 22 mm apart leave 12 mm between their slots; each is told of.
    const FrameSet twins =
        crate.make({across("rib", 500), lengthwise("port", 11), lengthwise("starboard", -11)});
    const auto found = hornFindings(twins, plySet(), {});
    EXPECT_EQ(found.size(), 2U) << report(found);
    for (const FrameCrossing& c : twins.crossings)
        EXPECT_NEAR(thinHorn(*boardNamed(twins, "frames/rib"), c, 30)->width, 12, 1e-4);
    // Lightened with a web of 20, less than the rule's 30: that is the builder's own choice.
    const FrameSet lightened =
        crate.make({webbed(across("rib", 500), 20), webbed(lengthwise("keelson", 0), 20)});
    EXPECT_EQ(boardsOf(lightened, "rib").front()->holes.size(), 2U);
    EXPECT_TRUE(hornFindings(lightened, plySet(), {}).empty());
    // A strip that is cut away as scrap leaves no horn, and a slot that is open to the side none either.
    EXPECT_TRUE(hornFindings(leaving(crate, 1.5), plySet(), {}).empty());
    EXPECT_TRUE(find(leaving(crate, 1.5).findings, "frame-scrap"));
    EXPECT_TRUE(hornFindings(FrameSet{}, plySet(), {}).empty());
}

TEST(SlotMargins, betweenTheEndsOfTwoSlotsASecondLayerIsNotAdvised) {
    const Crate crate;
    // One slot from below and one from above end at half height, 12 mm apart.
    const FrameSet set =
        crate.make({lengthwise("port", 11), across("rib", 500), lengthwise("starboard", -11)});
    const auto found = hornFindings(set, plySet(), {});
    const auto narrow =
        std::find_if(found.begin(), found.end(), [](const Finding& f) { return f.code == "frame-narrow"; });
    ASSERT_NE(narrow, found.end()) << report(found);
    EXPECT_NE(narrow->message.find("Frame rib"), std::string::npos) << narrow->message;
    EXPECT_NE(narrow->message.find(printFine(12, {})), std::string::npos) << narrow->message;
    EXPECT_EQ(narrow->remedy.find("Glue"), std::string::npos) << narrow->remedy;
    EXPECT_NE(narrow->remedy.find("port or starboard"), std::string::npos) << narrow->remedy;
}

} // namespace
} // namespace slab
