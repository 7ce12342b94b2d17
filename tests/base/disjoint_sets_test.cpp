#include "core/base/disjoint_sets.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

TEST(DisjointSets, TheLeastMemberStandsForASetInWhateverOrderItWasJoined) {
    DisjointSets up(6), down(6);
    up.join(1, 3), up.join(3, 5), up.join(0, 2);
    down.join(5, 3), down.join(2, 0), down.join(5, 1);
    for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(up.find(i), down.find(i)) << i;
    EXPECT_EQ(up.find(5), 1U);
    EXPECT_EQ(up.find(2), 0U);
    EXPECT_EQ(up.find(4), 4U) << "joined with nothing";
}

} // namespace
} // namespace slab
