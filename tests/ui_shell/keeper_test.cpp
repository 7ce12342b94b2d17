// Nothing of the toolkit here, so that ThreadSanitizer can look at it alone.
#include "ui/session/keeper.h"
#include <atomic>
#include <gtest/gtest.h>
#include <semaphore>
#include <vector>

namespace slab::ui {
namespace {

using namespace std::chrono_literals;

TEST(Keeper, CarriesOutTheLatestAndInOrder) {
    std::vector<int> done;
    std::binary_semaphore begun(0), go(0);
    Keeper keeper(0ms);
    keeper.post([&] {
        begun.release();
        go.acquire();
        done.push_back(0);
    });
    begun.acquire();
    for (int i = 1; i <= 100; ++i) keeper.post([&done, i] { done.push_back(i); });
    EXPECT_TRUE(keeper.waiting());
    go.release();
    keeper.finish();
    EXPECT_FALSE(keeper.waiting());
    EXPECT_EQ(done, (std::vector<int>{0, 100}));
}

TEST(Keeper, ARestIsCountedFromTheFirstTaskThatWaits) {
    constexpr auto rest = 50ms;
    std::atomic<int> done = 0;
    Keeper keeper(rest);
    const auto begun = Keeper::Clock::now();
    // Tasks without end: were the rest counted from the last of them, none would ever be carried out.
    while (done == 0 && Keeper::Clock::now() - begun < 20s) keeper.post([&done] { ++done; });
    EXPECT_GT(done, 0);
    EXPECT_GE(Keeper::Clock::now() - begun, rest);
}

TEST(Keeper, NothingRestsAtTheEndOrWhenItIsUrgent) {
    std::atomic<int> done = 0;
    const auto count = [&done] { ++done; };
    const auto begun = Keeper::Clock::now();
    {
        Keeper keeper(1h);
        keeper.post(count);
        keeper.finish();
        EXPECT_EQ(done, 1);
        keeper.post(count);
        keeper.post(count, true);
        while (keeper.waiting()) std::this_thread::yield();
        keeper.finish();
        EXPECT_EQ(done, 2);
        keeper.post(count);
    }
    EXPECT_EQ(done, 3);
    EXPECT_LT(Keeper::Clock::now() - begun, 1h);
}

TEST(Keeper, ManyTasksFromABusyThreadEndWithTheLast) {
    for (int round = 0; round < 50; ++round) {
        int last = 0; // written by the keeper's thread only, read after it has ended
        {
            Keeper keeper(std::chrono::milliseconds{round % 2});
            for (int i = 1; i <= 500; ++i) keeper.post([&last, i] { last = i; }, i % 7 == 0);
        }
        EXPECT_EQ(last, 500);
    }
}

} // namespace
} // namespace slab::ui
