#include "tests/ui_views/hand_body.h"
#include "ui/session/follow.h"
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

PanelEdge edgeTo(const char* neighbour) {
    PanelEdge e;
    e.neighbour = neighbour;
    return e;
}

/// One plate "deck" with these corners; edge i runs from corner i to the next and meets neighbours[i].
PlateSet deck(const Ring& corners, const std::vector<const char*>& neighbours) {
    Plate plate;
    plate.name = "deck";
    plate.boundary.outer = corners;
    for (const char* n : neighbours) plate.boundary.edges.push_back(edgeTo(n));
    PlateSet set;
    set.plates.push_back(plate);
    return set;
}

const Ring square{{0, 0}, {100, 0}, {100, 50}, {0, 50}};

TEST(FollowedEdge, GoesWithTheNeighbourWhenNumbersShift) {
    const PlateSet before = deck(square, {"aft", "side#1", "bow", "side#2"});
    const PlateSet after =
        deck({{0, 0}, {50, 0}, {100, 0}, {100, 50}, {0, 50}}, {"aft", "transom", "side#1", "bow", "side#2"});
    EXPECT_EQ(followedEdge(before, after, "deck", 1), 2);
    EXPECT_EQ(followedEdge(before, after, "deck", 3), 4);
}

TEST(FollowedEdge, TakesTheNearestOfSeveralWithOneNeighbourAtAnyScale) {
    const PlateSet before = deck(square, {"hull", "a", "hull", "b"});
    Ring twice = square;
    for (Vec2& p : twice) p *= 2;
    std::rotate(twice.begin(), twice.begin() + 1, twice.end());
    const PlateSet after = deck(twice, {"a", "hull", "b", "hull"});
    EXPECT_EQ(followedEdge(before, after, "deck", 0), 3);
    EXPECT_EQ(followedEdge(before, after, "deck", 2), 1);
}

TEST(FollowedEdge, IsNoneWhenThePlateOrItsNeighbourIsGone) {
    const PlateSet before = deck(square, {"aft", "side#1", "bow", "side#2"});
    EXPECT_EQ(followedEdge(before, deck(square, {"aft", "x", "bow", "side#2"}), "deck", 1), -1);
    EXPECT_EQ(followedEdge(before, PlateSet{}, "deck", 1), -1);
    EXPECT_EQ(followedEdge(before, before, "deck", 9), -1);
    EXPECT_EQ(followedEdge(before, before, "deck", -1), -1);
}

TEST(FollowedEdge, BothHandsOfAMirroredFormAreItsOwn) {
    EXPECT_TRUE(isOfForm("locker port", "locker"));
    EXPECT_TRUE(isOfForm("locker starboard", "locker"));
    EXPECT_TRUE(isOfForm("hull", "hull"));
    EXPECT_FALSE(isOfForm("hull", ""));
    EXPECT_FALSE(isOfForm("locker port", "lock"));
}

} // namespace
} // namespace slab::ui
