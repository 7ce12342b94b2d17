#include "core/base/parallel.h"
#include <gtest/gtest.h>
#include <stdexcept>
#include <vector>

using slab::shareOut;

TEST(ShareOut, callsEveryIndexOnce) {
    for (const std::size_t count : {0U, 1U, 2U, 1000U}) {
        std::vector<int> calls(count, 0);
        shareOut(count, [&](std::size_t i) { ++calls[i]; });
        EXPECT_EQ(calls, std::vector<int>(count, 1));
    }
}

TEST(ShareOut, throwsOnWhatAPieceOfWorkThrows) {
    EXPECT_THROW(shareOut(100,
                          [](std::size_t i) {
                              if (i == 37) throw std::runtime_error("37");
                          }),
                 std::runtime_error);
}
