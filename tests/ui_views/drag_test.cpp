#include "core/document/file.h"
#include "tests/ui_views/hand_body.h"
#include "ui/fit/fit_drag.h"
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

Scope scope() {
    Scope s;
    s.scale = 0.5;
    s.values["hull_length"] = {2000, Kind::length, true, false};
    return s;
}

TEST(FitDrag, APlainLengthBecomesTheNewLength) {
    EXPECT_EQ(movedText("0.9 m", 37.4, scope(), false), "937 mm");
    EXPECT_EQ(movedText("", -12.2, scope(), false), "-12 mm");
    EXPECT_EQ(movedText("10 in", 25.4 * 0.26, scope(), true), "10.25 in");
    EXPECT_EQ(movedText("5 mm", -5.2, scope(), false), "0 mm");
}

TEST(FitDrag, AFormulaKeepsItsWordsAndGetsOneOffset) {
    const Text once = movedText("hull_length * 0.4", 25, scope(), false);
    EXPECT_EQ(once, "hull_length * 0.4 + 25 mm");
    EXPECT_EQ(movedText(once, -40, scope(), false), "hull_length * 0.4 - 15 mm");
    EXPECT_EQ(movedText(once, -25, scope(), false), "hull_length * 0.4");
}

TEST(FitDrag, MovedTextReadsBackAsMoved) {
    for (const Text& typed : {Text("hull_length * 0.4"), Text("620 mm"), Text("hull_length / 2 - 30 mm")}) {
        const double before = evaluate(typed, scope(), Space::build, Kind::length)->value;
        for (const double by : {-211.0, -1.0, 3.0, 480.0}) {
            const auto after =
                evaluate(movedText(typed, by, scope(), false), scope(), Space::build, Kind::length);
            ASSERT_TRUE(after) << after.error().message;
            EXPECT_NEAR(after->value - before, by, 0.5) << typed;
        }
    }
}

TEST(FitDrag, TheGrabbedPointFollowsTheHand) {
    ViewCamera camera;
    camera.look(Direction::threeQuarter);
    camera.parallel = true;
    camera.frame({{-700, -320, 0}, {700, 320, 600}});
    const Vec3 grabbed(50, 20, 300);
    const Vec3 at = camera.toScreen(grabbed);
    const Vec2 by = moveOnScreen(camera, grabbed, 40, -25);
    const Vec3 now = camera.toScreen(grabbed + Vec3(by.x(), 0, by.y()));
    EXPECT_NEAR(now.x() - at.x(), 40, 1e-6);
    EXPECT_NEAR(now.y() - at.y(), -25, 1e-6);
}

TEST(FitDrag, AnAxisThatPointsAtTheEyeStands) {
    ViewCamera camera;
    camera.frame({{-700, -320, 0}, {700, 320, 600}});
    camera.look(Direction::plan);
    EXPECT_EQ(moveOnScreen(camera, Vec3::Zero(), 30, 30).y(), 0);
    camera.look(Direction::end);
    EXPECT_EQ(moveOnScreen(camera, Vec3::Zero(), 30, 30).x(), 0);
}

TEST(FitDrag, AllStepsOfOneGestureAreOneUndo) {
    History history(test::handProject());
    const Project before = history.current();
    for (int i = 1; i <= 10; ++i)
        ASSERT_TRUE(
            history.push(moveEdit(Movable::donor, before, scope(), {5.0 * i, 2.0 * i}, "move-donor-1")));
    EXPECT_EQ(history.current().donor.at.x, "10 mm"); // from -40
    EXPECT_EQ(history.current().donor.at.z, "20 mm");
    EXPECT_TRUE(history.undo());
    EXPECT_EQ(history.current(), before);
    ASSERT_TRUE(history.push(moveEdit(Movable::rider, before, scope(), {0, 15}, "move-rider-2")));
    EXPECT_EQ(history.current().rider.shift_z, "15 mm");
    EXPECT_EQ(history.current().rider.shift_x, "");
}

} // namespace
} // namespace slab::ui
