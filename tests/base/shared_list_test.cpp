// Copies share what they hold, and no change of one is seen in another.
#include "../geometry/seed.h"
#include "core/base/shared_list.h"
#include <algorithm>
#include <gmock/gmock.h>
#include <string>
#include <thread>

namespace slab {
namespace {

using testing::ElementsAre;

TEST(SharedList, ACopyHoldsTheSameItemsUntilOneIsOwned) {
    SharedList<std::string> first{"port", "top", "front"};
    SharedList<std::string> second = first;
    EXPECT_EQ(&first[1], &second[1]);
    second.own(1) = "roof";
    EXPECT_NE(&first[1], &second[1]);
    EXPECT_EQ(&first[0], &second[0]);
    EXPECT_THAT(first, ElementsAre("port", "top", "front"));
    EXPECT_THAT(second, ElementsAre("port", "roof", "front"));
    const std::string* alone = &second[1];
    second.own(1) += "s"; // nobody else has it: changed where it is
    EXPECT_EQ(&second[1], alone);
    EXPECT_FALSE(first == second);
    first.own(1) = "roofs";
    EXPECT_TRUE(first == second); // by value
}

TEST(SharedList, BehavesAsAVectorThatIsCopied) {
    auto random = seeded(71);
    std::vector<SharedList<int>> lists(3);
    std::vector<std::vector<int>> vectors(3);
    for (int step = 0; step < 5000; ++step) {
        const auto i = static_cast<std::size_t>(below(random, 3)),
                   k = static_cast<std::size_t>(below(random, 3));
        const auto place =
            lists[i].empty() ? 0 : static_cast<std::size_t>(below(random, static_cast<int>(lists[i].size())));
        switch (below(random, 6)) {
        case 0:
            lists[i] = lists[k];
            vectors[i] = vectors[k];
            break;
        case 1:
            if (vectors[k].size() > 40) break;
            lists[i].append(SharedList<int>(lists[k]));
            for (const int v : std::vector<int>(vectors[k])) vectors[i].push_back(v);
            break;
        case 2:
            lists[i].push_back(step);
            vectors[i].push_back(step);
            break;
        case 3:
            if (lists[i].empty()) break;
            lists[i].erase(place);
            vectors[i].erase(vectors[i].begin() + static_cast<std::ptrdiff_t>(place));
            break;
        case 4:
            lists[i].ownEach([](int& v) { ++v; });
            for (int& v : vectors[i]) ++v;
            break;
        default:
            if (lists[i].empty()) break;
            lists[i].own(place) = -step;
            vectors[i][place] = -step;
        }
        for (std::size_t n = 0; n < 3; ++n)
            ASSERT_TRUE(std::equal(lists[n].begin(), lists[n].end(), vectors[n].begin(), vectors[n].end()))
                << "step " << step;
        if (lists[i].size() > 200) {
            lists[i].clear();
            vectors[i].clear();
        }
    }
}

TEST(SharedList, ThreadsEachChangeTheirOwn) {
    SharedList<std::string> whole;
    for (int i = 0; i < 200; ++i) whole.push_back(std::to_string(i));
    std::vector<SharedList<std::string>> own(4, whole);
    {
        std::vector<std::jthread> threads;
        for (auto& list : own)
            threads.emplace_back([&list] {
                for (int round = 0; round < 20; ++round) list.ownEach([](std::string& s) { s += '.'; });
            });
    }
    for (const auto& list : own)
        for (std::size_t i = 0; i < list.size(); ++i)
            ASSERT_EQ(list[i], std::to_string(i) + std::string(20, '.'));
    EXPECT_EQ(whole[7], "7");
}

} // namespace
} // namespace slab
