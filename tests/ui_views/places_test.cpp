// Where a result of the ride, or a finding, is shown in the 3D view.
#include "tests/ui_views/ride_bench.h"
#include "ui/findings/findings_model.h"
#include "ui/fit/place_marks.h"
#include "ui/tables/used_value.h"
#include <gtest/gtest.h>

namespace slab::ui {

namespace {

std::vector<Vec3> linesOf(const Evaluation& e, RideThing thing, int index) {
    Selection chosen;
    chosen.result = thing;
    chosen.resultIndex = index;
    const auto marks = placeMarks(e, chosen);
    return marks.empty() ? std::vector<Vec3>{} : marks.front().lines;
}

Vec3 middleOf(const std::vector<Vec3>& lines) {
    Vec3 sum = Vec3::Zero();
    for (const Vec3& p : lines) sum += p / static_cast<double>(lines.size());
    return sum;
}

} // namespace

TEST(Places, EveryResultOfTheRideHasOne) {
    const Evaluation e = test::rideEvaluation(test::rideProject());
    const trial::Trial& t = *e.trial;
    EXPECT_NEAR((middleOf(linesOf(e, RideThing::part, 0)) - *t.route[0].at).norm(), 0, 1e-9);
    EXPECT_NEAR((middleOf(linesOf(e, RideThing::gap, 0)) - t.gaps[0].at).norm(), 0, 1e-9);
    EXPECT_NEAR((middleOf(linesOf(e, RideThing::way, 0)) - t.waysOut[0].at).norm(), 0, 1e-9);
    EXPECT_NEAR((middleOf(linesOf(e, RideThing::slit, 0)) - t.views[0].openings[0].at).norm(), 0, 1e-9);
    EXPECT_NEAR((middleOf(linesOf(e, RideThing::load, -1)) - t.balance->load.all.centre).norm(), 0, 1e-9);
    const Vec2 wheel = middleOf(linesOf(e, RideThing::wheel, 2)).head<2>();
    EXPECT_NEAR((wheel - t.balance->stance.wheels[2]).norm(), 0, 1e-9);
    const ride::TipLine& line = t.balance->lines[1];
    const auto over = linesOf(e, RideThing::line, 1);
    ASSERT_GE(over.size(), 2U);
    EXPECT_EQ(Vec2(over[0].head<2>()), t.balance->stance.wheels[static_cast<std::size_t>(line.from)]);
    EXPECT_EQ(Vec2(over[1].head<2>()), t.balance->stance.wheels[static_cast<std::size_t>(line.to)]);
    for (const RideThing thing :
         {RideThing::turn, RideThing::wind, RideThing::circle, RideThing::ground, RideThing::field})
        EXPECT_FALSE(linesOf(e, thing, 0).empty()) << static_cast<int>(thing);
    EXPECT_TRUE(linesOf(e, RideThing::part, 9).empty());
    EXPECT_TRUE(placeMarks(e, {}).empty());
}

TEST(UsedInstead, FollowsTheTrial) {
    Session session{test::rideEngine()};
    session.replace(test::rideProject());
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    const auto root = treeOf(session.project());
    const auto used = [&](const char* pointer) {
        Node* node = nodeAt(*root, pointer);
        return node ? usedInstead(session, *node).toStdString() : std::string("no such field");
    };
    EXPECT_EQ(used("/ride/speed"), "5.4 km/h"); // 1500 mm/s
    EXPECT_EQ(used("/ride/radius"), "1500 mm");
    EXPECT_EQ(used("/ride/sees"), "1900 mm");
    EXPECT_EQ(used("/ride/friction"), "0.6");
    EXPECT_EQ(used("/rider/recline"), "0.0°");
    EXPECT_EQ(used("/ride/slope"), ""); // typed
}

TEST(Places, AFindingShowsItsOwn) {
    Evaluation e = test::rideEvaluation(test::rideProject());
    Finding f{Severity::look, "route-tight", "", {"document:/route/0"}, "", {}};
    f.at = {100, 200, 300};
    e.findings.push_back(f);
    Selection chosen;
    chosen.finding = keyOf(f);
    const auto marks = placeMarks(e, chosen);
    ASSERT_EQ(marks.size(), 1U);
    EXPECT_NEAR((middleOf(marks[0].lines) - Vec3(100, 200, 300)).norm(), 0, 1e-9);
    EXPECT_TRUE(isOver(marks[0].kind));
}

} // namespace slab::ui
