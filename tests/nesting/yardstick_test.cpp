// Open instances, skipped where the data is absent. Yardsticks: bottom-left fill in one pass, and with 60 s
// of order search, as measured in the data folder's README.
#include "shapes.h"
#include <filesystem>
#include <fstream>
#include <iterator>

namespace slab {
namespace {

std::filesystem::path dataFolder() {
    if (const char* set = std::getenv("SLABSIDE_BENCH_DATA")) return set;
    return std::filesystem::path(SLABSIDE_SOURCE_DIR) / "../shared/data/nesting";
}

std::optional<NestProblem> instance(const std::string& name) {
    std::ifstream in(dataFolder() / (name + ".json"));
    if (!in) return std::nullopt;
    const std::string text((std::istreambuf_iterator<char>(in)), {});
    const auto problem = readInstance(text);
    EXPECT_TRUE(problem) << name;
    return problem ? std::optional<NestProblem>(*problem) : std::nullopt;
}

struct Yardstick {
    const char* name;
    double onePass, search; ///< density, percent
    int rounds;             ///< enough to pass the order search, with room to spare
};
void PrintTo(const Yardstick& y, std::ostream* out) {
    *out << y.name;
}
class Strip : public testing::TestWithParam<Yardstick> {};

TEST_P(Strip, ThePassesBeatBottomLeftFill) {
    const auto problem = instance(std::string("strip/") + GetParam().name);
    if (!problem) GTEST_SKIP() << "no data";
    const NestResult result = nest(*problem, {});
    EXPECT_THAT(checkNest(*problem, result), testing::IsEmpty());
    EXPECT_THAT(result.unplaced, testing::IsEmpty());
    EXPECT_GT(result.density * 100, GetParam().onePass);
}

TEST_P(Strip, RoundsBeatAMinuteOfOrderSearch) {
    if (slowdown > 1) GTEST_SKIP() << "too slow under a sanitizer";
    const auto problem = instance(std::string("strip/") + GetParam().name);
    if (!problem) GTEST_SKIP() << "no data";
    NestOptions options;
    options.rounds = GetParam().rounds;
    options.threads = 2;
    const NestResult result = nest(*problem, options);
    EXPECT_THAT(checkNest(*problem, result), testing::IsEmpty());
    EXPECT_THAT(result.unplaced, testing::IsEmpty());
    EXPECT_GT(result.density * 100, GetParam().search);
    std::printf("%s %.2f %%\n", GetParam().name, result.density * 100);
}

INSTANTIATE_TEST_SUITE_P(Open, Strip,
                         testing::Values(Yardstick{"swim", 59.5, 69.3, 150},
                                         Yardstick{"shirts", 80.4, 85.8, 850},
                                         Yardstick{"albano", 76.3, 85.3, 1200},
                                         Yardstick{"shapes0", 53.6, 62.3, 300},
                                         Yardstick{"jakobs1", 75.4, 83.1, 1500}));

TEST(Sheets, FewerThanFirstFitWithBottomLeft) {
    // First fit with bottom-left fill takes 7927 sheets on all 990 instances of optimum 5880 together.
    constexpr double firstFit = 7927.0 / 5880.0;
    const auto folder = dataFolder() / "sheets";
    if (!std::filesystem::exists(folder)) GTEST_SKIP() << "no data";
    // Optima are published with the instances; the first digits of a name say nothing, so they stand here.
    const std::vector<std::pair<const char*, int>> optima{
        {"terashima1_TB016", 10}, {"terashima1_TB025", 10}, {"terashima1_TC028", 6},
        {"terashima1_TE003", 3},  {"terashima1_TE019", 3},  {"terashima1_TJ007", 4},
        {"terashima1_TJ026", 4},  {"terashima1_TK025", 6},  {"terashima1_TN008", 2},
        {"terashima1_TN024", 2},  {"terashima1_TP004", 8},  {"terashima1_TQ024", 15}};
    int used = 0, best = 0;
    for (const auto& [name, optimum] : optima) {
        const auto problem = instance(std::string("sheets/") + name);
        if (!problem) continue;
        const NestResult result = nest(*problem, {});
        EXPECT_THAT(checkNest(*problem, result), testing::IsEmpty()) << name;
        EXPECT_THAT(result.unplaced, testing::IsEmpty()) << name;
        used += static_cast<int>(result.layouts.size());
        best += optimum;
    }
    std::printf("sheets %d of at least %d\n", used, best);
    EXPECT_LT(used, firstFit * best);
}

} // namespace
} // namespace slab
