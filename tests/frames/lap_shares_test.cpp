// Three and more boards that cross along one line each keep an equal part of it.
#include "core/frames/lap_shares.h"
#include "tests/frames/crate.h"

namespace slab {
namespace {

FrameChoice through(const std::string& name, double angle, double x, double thickness) {
    FrameChoice c = turned(across(name, 0), angle);
    c.place.origin = {x, 0, 0};
    c.thickness = thickness;
    c.fit = 0.2;
    return c;
}

TEST(LapShares, boardsOnOneLineKeepEqualParts) {
    const Crate crate;
    auto random = seeded(313);
    for (int round = 0; round < 12; ++round) {
        const int count = 3 + static_cast<int>(below(random, 2));
        const double x = uniform(random, 350, 650), first = uniform(random, -0.3, 0.3);
        std::vector<FrameChoice> choices;
        for (int i = 0; i < count; ++i)
            choices.push_back(through(std::string(1, static_cast<char>('a' + i)),
                                      first + i * std::numbers::pi / count + uniform(random, -0.1, 0.1), x,
                                      uniform(random, 4, 12)));
        const FrameSet set = crate.make(choices);
        SCOPED_TRACE(testing::Message() << count << " boards, round " << round << report(set.findings));
        ASSERT_EQ(set.crossings.size(), static_cast<std::size_t>(count * (count - 1) / 2));
        int touching = 0;
        for (const FrameCrossing& c : set.crossings) {
            ASSERT_EQ(c.sharing.size(), static_cast<std::size_t>(count));
            EXPECT_NEAR(c.height, 480, 1e-3);
            const double part = c.height / count;
            const auto rank = [&](const std::string& name) {
                return std::find(c.sharing.begin(), c.sharing.end(), name) - c.sharing.begin();
            };
            const auto a = static_cast<double>(rank(c.a)), b = static_cast<double>(rank(c.b));
            ASSERT_LT(a, b);
            EXPECT_NEAR(c.depthA, (count - 1 - a) * part, 1e-6);
            EXPECT_NEAR(c.depthB, b * part, 1e-6);
            EXPECT_NEAR(c.apart, (b - a - 1) * part, 1e-6);
            if (c.apart > 1e-6) continue;
            ++touching;
            // As told, so cut: the ends of both slots carry one mark.
            int marked = 0;
            for (const Plate& p : set.parts)
                for (const PanelEdge& e : p.boundary.edges) marked += e.mark == touching ? 1 : 0;
            EXPECT_EQ(marked, 2) << c.a << " " << c.b;
        }
        EXPECT_EQ(touching, count - 1);
        for (std::size_t i = 0; i < set.parts.size(); ++i)
            for (std::size_t k = 0; k < i; ++k)
                EXPECT_LT(common(set.parts[i].solid, set.parts[k].solid), 1e-3);
        expectGoesTogether(set, "share");
        for (std::size_t i = 0; i < set.order.size(); ++i) EXPECT_LT(sweptShare(set, i), 1e-6) << i;
    }
}

TEST(LapShares, boardsThatMissOneAnotherStayPairs) {
    const Crate crate;
    const FrameSet set = crate.make({through("a", 0.7, 300, 10), through("b", -0.7, 300, 10),
                                     through("c", 1.5, 300, 10), lengthwise("d", 200)});
    for (const FrameCrossing& c : set.crossings)
        EXPECT_EQ(c.sharing.size(), c.a == "d" || c.b == "d" ? 0U : 3U) << c.a << " " << c.b;
    EXPECT_TRUE(frames::sharedLaps({}, {}, {}).empty());
}

} // namespace
} // namespace slab
