// A dragged point: live results have the plates of a fresh evaluation, and at rest they are the same to the
// bit.
#include "tests/evaluate/samples.h"
#include <algorithm>

using namespace slab;
using namespace slab::test;

namespace {

std::vector<std::string> namesOf(const Evaluation& e) {
    std::vector<std::string> names;
    for (const Plate& p : e.plates->plates) names.push_back(p.name);
    std::sort(names.begin(), names.end());
    return names;
}
const Plate* plateNamed(const Evaluation& e, const std::string& name) {
    for (const Plate& p : e.plates->plates)
        if (p.name == name) return &p;
    return nullptr;
}

} // namespace

TEST(Drag, liveEqualsScratchAndRestToTheBit) {
    for (const char* pointer : {"/forms/0/outline/6/x", "/forms/1/top/1/x"}) {
        History history(sample("harbour-fire-boat"));
        Evaluator evaluator;
        (void)evaluator.evaluate(history.current(), Effort::live);
        const std::string before = *valueAt(history.current(), pointer);
        for (int step = 1; step <= 6; ++step) {
            const std::string text =
                before.substr(0, before.size() - 1) + " + " + std::to_string(7 * step) + " mm\"";
            ASSERT_TRUE(history.push(setValue(pointer, text, "", "drag")));
            const Evaluation live = evaluator.evaluate(history.current(), Effort::live);
            const Evaluation fresh = evaluated(history.current(), Effort::live);
            ASSERT_EQ(namesOf(live), namesOf(fresh));
            for (const Plate& p : fresh.plates->plates) {
                const Plate& q = *plateNamed(live, p.name);
                EXPECT_NEAR(q.volume, p.volume, 1e-9 * p.volume) << p.name;
                EXPECT_EQ(q.boundary.outer.size(), p.boundary.outer.size()) << p.name;
            }
            EXPECT_NEAR(live.fit->leastMargin, fresh.fit->leastMargin, 1e-6);
            EXPECT_EQ(live.findings.size(), fresh.findings.size());
        }
        const Evaluation rest = evaluator.evaluate(history.current(), Effort::verdict);
        const Evaluation fresh = evaluated(history.current(), Effort::verdict);
        EXPECT_EQ(*rest.body, *fresh.body);
        EXPECT_EQ(*rest.plates, *fresh.plates);
        EXPECT_EQ(rest.findings, fresh.findings);
    }
}
