// Contacts of plate forms on panels: flat ones, those of copies and of blanks.
#include "core/plates/folds.h"
#include "tests/plates/folding.h"
#include <cmath>
#include <gtest/gtest.h>

namespace contact {

using namespace slab;
using namespace slab::test;

namespace {

Body box() {
    return bodyOf(makeBox({0, 0, 0}, {1000, 600, 400}));
}

/// On the face y = 0 (front) or y = 600 (back) of the box: 300 × 40, its lower edge at height z.
FreePlate rail(const std::string& name, bool front, double x, double z) {
    FreePlate plate;
    plate.name = name + "/plate";
    plate.form = name;
    const double side = front ? -1 : 1;
    plate.frame.axes.col(0) = Vec3(-side, 0, 0);
    plate.frame.axes.col(1) = Vec3::UnitZ();
    plate.frame.axes.col(2) = Vec3(0, side, 0);
    plate.frame.origin = {x, front ? -3.0 : 603.0, z};
    plate.outline.outer = {{0, 0}, {300, 0}, {300, 40}, {0, 40}};
    return plate;
}

double areaOf(const Contact& contact) {
    double sum = 0;
    for (const Ring& ring : contact.rings) sum += signedArea(ring);
    return sum;
}

} // namespace

TEST(PanelContacts, EachCopyHasItsOwn) {
    Body body = box();
    PlateRules rules = evenRules(body, 12);
    body.plates = {rail("front", true, 100, 200), rail("back", false, 700, 90)};
    rules.freePlates = {{"ply", 3, 0}, {"ply", 3, 0}};
    const PlateSet set = buildPlates(body, rules);
    int seen = 0;
    for (const Panel& panel : makePanels(set))
        for (std::size_t c = 0; c < panel.copies.size(); ++c)
            for (const Contact& contact : panel.copies[c].contacts) {
                ++seen;
                EXPECT_EQ(contact.on, panel.copies[c].plate);
                EXPECT_TRUE(contact.flat);
                EXPECT_FALSE(contact.inside);
                EXPECT_NEAR(areaOf(contact), 300 * 40, 1e-3);
                // Height over the edge that this copy has at the bottom, whichever way round it lies.
                const double wanted = contact.plate == "front/plate" ? 200 : 90;
                const auto& loop = panel.copies[c].loops.at(0);
                for (std::size_t i = 0; i < loop.size(); ++i) {
                    if (loop[i].neighbour != "bottom") continue;
                    const Ring& ring = panel.boundary.outer;
                    const Vec2 along = (ring[(i + 1) % ring.size()] - ring[i]).normalized();
                    double least = 1e9;
                    for (const Vec2& p : contact.rings.at(0))
                        least = std::min(least, cross2(along, p - ring[i]));
                    EXPECT_NEAR(least, wanted - panel.boundary.edges[i].offsetOuter, 0.02) << contact.plate;
                }
            }
    EXPECT_EQ(seen, 2);
}

TEST(PanelContacts, OfABlankLieOnThePartThatTheyBelongTo) {
    Body body = box();
    PlateRules rules = evenRules(body, 12);
    rules.edges = foldTree(body, 0, 3);
    body.plates = {rail("front", true, 100, 200), rail("back", false, 700, 90)};
    rules.freePlates = {{"ply", 3, 0}, {"ply", 3, 0}};
    const PlateSet set = buildPlates(body, rules);
    ASSERT_FALSE(set.blanks.empty());
    int inBlank = 0;
    for (const Panel& panel : makePanels(set))
        for (const Contact& contact : panel.copies.front().contacts)
            for (const PanelPart& part : panel.parts) {
                if (part.plate != contact.on) continue;
                ++inBlank;
                const Plate& plate = *findPlate(set, part.plate);
                ASSERT_EQ(plate.contacts.size(), 1U);
                const Ring& own = plate.contacts[0].rings.at(0);
                for (std::size_t i = 0; i < own.size(); ++i) {
                    EXPECT_LT((contact.rings.at(0)[i] - laid(part, own[i])).norm(), 1e-9);
                    EXPECT_TRUE(contains(part.outer, contact.rings[0][i], 1e-6));
                }
            }
    EXPECT_GT(inBlank, 0);
}

TEST(PanelContacts, OfTwoFormsThatLieOnEachOtherTheSmallerRests) {
    Body body;
    FreePlate board, patch;
    board.name = "board/plate";
    board.form = "board";
    board.outline.outer = {{0, 0}, {400, 0}, {400, 300}, {0, 300}};
    patch.name = "patch/plate";
    patch.form = "patch";
    patch.frame.origin = {50, 60, -12}; // under the board, on its inside face
    patch.outline.outer = {{0, 0}, {100, 0}, {100, 80}, {0, 80}};
    PlateRules rules;
    for (const bool turned : {false, true}) {
        body.plates = {board, patch};
        rules.freePlates = {{"ply", 12, 0}, {"ply", 6, 0}};
        if (turned) {
            std::swap(body.plates[0], body.plates[1]);
            std::swap(rules.freePlates[0], rules.freePlates[1]);
        }
        const PlateSet set = buildPlates(body, rules);
        const Plate& on = *findPlate(set, "board/plate");
        const Plate& small = *findPlate(set, "patch/plate");
        ASSERT_EQ(small.rests.size(), 1U);
        EXPECT_EQ(small.rests[0], (FaceRest{"board/plate", true, true, small.rests[0].mark}));
        EXPECT_TRUE(on.rests.empty());
        EXPECT_TRUE(small.contacts.empty());
        ASSERT_EQ(on.contacts.size(), 1U);
        EXPECT_TRUE(on.contacts[0].inside);
        EXPECT_EQ(on.contacts[0].mark, small.rests[0].mark);
        EXPECT_GT(on.contacts[0].mark, 0);
        EXPECT_NEAR(areaOf(on.contacts[0]), 100 * 80, 1e-3);
    }
}

} // namespace contact
