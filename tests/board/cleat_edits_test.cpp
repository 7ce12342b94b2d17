// Cleats and corner blocks by hand, along one joint.
#include "core/board/cleat_edits.h"
#include "tests/board/crate.h"

using namespace slab;
using namespace slab::test;

namespace {

int piecesIn(const Evaluation& e) {
    return e.cleats ? static_cast<int>(e.cleats->parts.size()) : 0;
}

} // namespace

TEST(CleatEdits, AStickGoesIntoTheCornerOfThatJointAlone) {
    const Project p = crate();
    const auto edit = addCleats(p, scopeIn(p), "crate/top", "crate/port", CleatKind::cleat);
    const Project q = applied(p, edit);
    ASSERT_EQ(q.cleats.size(), 1U);
    EXPECT_EQ(q.cleats[0].name, "top port");
    EXPECT_EQ(q.cleats[0].width, "20 mm");
    const Evaluation e = evaluated(q);
    EXPECT_EQ(piecesIn(e), 1);
    for (const Finding& f : e.findings) EXPECT_NE(f.severity, Severity::stop) << f.message;
    History history(p);
    ASSERT_TRUE(history.push(*edit));
    EXPECT_TRUE(history.undo());
    EXPECT_EQ(history.current(), p);
    EXPECT_EQ(addCleats(q, scopeIn(q), "crate/port", "crate/top", CleatKind::cleat).error().code,
              "already-there");
    EXPECT_EQ(applied(q, takeCleatsAway(q, "crate/port", "crate/top")), p);
}

TEST(CleatEdits, BlocksTakeThePlaceOfTheStick) {
    const Project p = crate();
    Project q = applied(p, addCleats(p, scopeIn(p), "crate/top", "crate/port", CleatKind::cleat));
    q.cleats[0].width = "30 mm"; // the builder's own
    q = applied(q, addCleats(q, scopeIn(q), "crate/top", "crate/port", CleatKind::block));
    ASSERT_EQ(q.cleats.size(), 1U);
    EXPECT_EQ(q.cleats[0].kind, "block");
    EXPECT_EQ(q.cleats[0].width, "30 mm") << "what was typed stays";
    EXPECT_GT(piecesIn(evaluated(q)), 3);
}

TEST(CleatEdits, AWiderRuleDoesNotHideThem) {
    Project p = crate();
    CleatRule all;
    all.name = "all";
    all.width = all.depth = "15 mm";
    p.cleats = {all};
    const Project q = applied(p, addCleats(p, scopeIn(p), "crate/top", "crate/port", CleatKind::block));
    EXPECT_EQ(q.cleats[0].name, "top port");
    EXPECT_GT(piecesIn(evaluated(q)), piecesIn(evaluated(p)));
}

TEST(CleatEdits, AJointNeedsTwoPlates) {
    const Project p = crate();
    EXPECT_EQ(addCleats(p, scopeIn(p), "crate/top", "", CleatKind::cleat).error().code, "no-joint");
    EXPECT_EQ(takeCleatsAway(p, "crate/top", "crate/port").error().code, "no-such-place");
}
