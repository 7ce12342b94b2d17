// The hand in 3D with the whole pipeline: openings put in, mechanisms turned, frames seen through the shell.
#include "tests/board/crane.h"
#include "tests/ui_views/fit_bench.h"
#include "ui/fit/fit_hand.h"
#include "ui/fit/fit_turn.h"
#include "ui/fit/look.h"
#include "ui/panels/opening_menu.h"
#include <QMenu>
#include <QTest>
#include <numbers>

namespace slab::ui {
namespace {

Project craneCrate() {
    Project p = slab::test::crane("1.5 m");
    p.mechanisms.turntables.front().gap = "2 mm";
    Trunnion& boom = p.mechanisms.trunnions.front();
    boom.wall = "2 mm";
    boom.lowest = "-5 deg";
    boom.highest = "30 deg";
    boom.angle = "5 deg + 2 deg";
    return p;
}

class FitHandsTest : public test::FitBench {
protected:
    /// The middle of the hole, seen through the eye, lies where the pointer was: nearer than the pixels that
    /// its place was rounded by.
    void expectUnder(const QPointF& pixel, const Plate& plate, const std::string& opening) const {
        const Vec2 flat = slab::test::holeAt(plate, opening);
        const QPointF seen = view->pixelAt(plate.frame.toBody(flat));
        const Vec2 beside = flat + Vec2(rounding, rounding);
        const QPointF step = view->pixelAt(plate.frame.toBody(beside)) - seen;
        const double off = std::hypot(seen.x() - pixel.x(), seen.y() - pixel.y());
        EXPECT_LE(off, std::hypot(step.x(), step.y()) + 0.1)
            << "hole at " << seen.x() << ", " << seen.y() << " for a click at " << pixel.x() << ", "
            << pixel.y();
        EXPECT_LE(off, 3) << "and that is a few pixels at most";
    }
    static constexpr double rounding = 5; ///< mm: half of the coarsest step at these zooms
    double boomAngle() const {
        return evaluate(session.project().mechanisms.trunnions[0].angle, *session.evaluation().scope,
                        Space::build, Kind::angle)
                   ->value *
               180 / std::numbers::pi;
    }
};

TEST_F(FitHandsTest, AClickOnAPlatePutsAnOpeningInSpace) {
    open(slab::test::crate("2 m", "300 mm"));
    for (QAction* action : button("Opening")->menu()->actions())
        if (action->text() == "Light") action->trigger();
    ASSERT_NE(controls->opening(), nullptr);
    EXPECT_TRUE(view->prompt().contains("Click where the light goes")) << view->prompt().toStdString();
    EXPECT_TRUE(view->prompt().contains("Esc leaves")) << view->prompt().toStdString();
    const auto at = view->pixelOf("crate/front");
    ASSERT_TRUE(at);
    mouse(QEvent::MouseMove, *at, Qt::NoButton, Qt::NoButton);
    test::shot(*view, "fit_opening_ghost");
    click(*at);
    ASSERT_EQ(session.project().openings.size(), 1U);
    const Opening& o = session.project().openings[0];
    EXPECT_TRUE(o.plate.empty());
    EXPECT_EQ(o.direction, "x");
    EXPECT_EQ(o.plates, std::vector<std::string>{"crate/front"});
    EXPECT_EQ(session.selection().part, "/openings/0");
    test::rest(session);
    const Plate& front = slab::test::plateOf(session.evaluation(), "crate/front");
    ASSERT_EQ(front.holes.size(), 1U);
    expectUnder(*at, front, "light");
    key(Qt::Key_Escape);
    EXPECT_EQ(controls->opening(), nullptr);
    EXPECT_TRUE(view->prompt().isEmpty()) << view->prompt().toStdString();
    session.selectPlate("crate/port");
    controls->arm(&openingKinds()[2]);
    key(Qt::Key_Return);
    ASSERT_EQ(session.project().openings.size(), 2U);
    EXPECT_EQ(session.project().openings[1].direction, "y");
}

// Wherever it is clicked, however the eye stands: the hole comes under the pointer.
TEST_F(FitHandsTest, TheHoleIsWhereThePointerWas) {
    open(slab::test::crate("2 m", "300 mm"));
    int count = 0;
    for (const char* look : {"Three-quarter", "Plan", "Side"}) {
        button(look)->click();
        for (const char* name : {"crate/front", "crate/top", "crate/starboard"}) {
            if (!view->pixelOf(name)) continue; // seen edge on, or from behind
            const Plate plate = slab::test::plateOf(session.evaluation(), name);
            for (const Vec2& share : {Vec2(0, 0), Vec2(-0.23, 0.11), Vec2(0.31, -0.27)}) {
                const Vec2 flat =
                    plateMiddle(plate) + share.cwiseProduct(bounds(plate.boundary.outer).size());
                const QPointF at = view->pixelAt(plate.frame.toBody(flat));
                session.selectPlate({});
                controls->arm(&openingKinds()[4]); // a light
                click(at);
                controls->disarm();
                ASSERT_EQ(session.project().openings.size(), 1U) << look << " " << name;
                EXPECT_EQ(session.project().openings[0].plates, std::vector<std::string>{name}) << look;
                test::rest(session);
                expectUnder(at, slab::test::plateOf(session.evaluation(), name), "light");
                ++count;
                session.undo();
                test::rest(session);
            }
        }
    }
    EXPECT_GE(count, 15) << "three places on five views of a plate at least";
}

TEST_F(FitHandsTest, ABoomIsRaisedAndTurnedByHand) {
    open(craneCrate());
    button("Side")->click();
    button("Move")->click();
    const auto tube = view->pixelOf("boom/tube");
    ASSERT_TRUE(tube);
    const Project before = session.project();
    drag(*tube, *tube + QPointF(0, -14));
    EXPECT_GT(boomAngle(), 7.5) << session.project().mechanisms.trunnions[0].angle;
    EXPECT_LE(boomAngle(), 30 + 1e-9);
    EXPECT_TRUE(session.project().mechanisms.trunnions[0].angle.starts_with("5 deg + "))
        << session.project().mechanisms.trunnions[0].angle;
    EXPECT_EQ(session.history().undoLabel(), "Turn boom");
    test::rest(session);
    session.undo();
    EXPECT_EQ(session.project(), before) << "one step";
    test::rest(session);
    const auto again = view->pixelOf("boom/tube");
    ASSERT_TRUE(again);
    drag(*again, *again + QPointF(0, -400));
    EXPECT_NEAR(boomAngle(), 30, 1e-6) << "it stops";
    session.undo();
    test::rest(session);
    // Across in plan the same tube turns the table.
    button("Plan")->click();
    const auto above = view->pixelOf("boom/tube");
    ASSERT_TRUE(above);
    drag(*above, *above + QPointF(0, -40));
    EXPECT_EQ(session.history().undoLabel(), "Turn table");
    EXPECT_FALSE(session.project().mechanisms.turntables[0].angle.empty());
}

TEST_F(FitHandsTest, TheChosenPartIsTurnedByKeys) {
    open(craneCrate());
    button("Side")->click();
    const auto tube = view->pixelOf("boom/tube");
    ASSERT_TRUE(tube);
    click(*tube);
    EXPECT_EQ(session.selection().solid, "boom/tube");
    key(Qt::Key_BracketRight);
    EXPECT_NEAR(boomAngle(), 8, 1e-6);
    key(Qt::Key_BraceLeft);
    EXPECT_NEAR(boomAngle(), -2, 1e-6);
    Selection drum;
    drum.solid = "table/drum";
    session.select(drum);
    key(Qt::Key_BraceRight);
    EXPECT_EQ(session.history().undoLabel(), "Turn table");
    EXPECT_FALSE(session.project().mechanisms.turntables[0].angle.empty());
}

TEST_F(FitHandsTest, DelDeletesTheChosenMechanism) {
    open(craneCrate());
    const Project before = session.project();
    std::string told;
    QObject::connect(&session, &Session::refused, [&](const Error& error) { told = error.code; });
    button("Side")->click();
    const auto tube = view->pixelOf("boom/tube");
    ASSERT_TRUE(tube);
    click(*tube);
    key(Qt::Key_Delete);
    EXPECT_TRUE(session.project().mechanisms.trunnions.empty());
    EXPECT_EQ(session.project().mechanisms.turntables.size(), 1U);
    EXPECT_EQ(session.history().undoLabel(), "Delete boom");
    EXPECT_EQ(session.selection(), Selection{});
    EXPECT_EQ(told, "");
    session.undo();
    EXPECT_EQ(session.project(), before);
    test::rest(session);
    // A plate of it stands for it, one of the body for nothing.
    session.selectPlate(QString::fromStdString(session.evaluation().mechanisms->parts.front().name));
    key(Qt::Key_Delete);
    EXPECT_TRUE(session.project().mechanisms.turntables.empty());
    EXPECT_EQ(session.project().mechanisms.trunnions[0].on, "") << "nothing names it any more";
    session.undo();
    test::rest(session);
    session.selectPlate("crate/port");
    key(Qt::Key_Delete);
    EXPECT_EQ(session.project(), before);
    EXPECT_EQ(told, "nothing-chosen");
}

TEST_F(FitHandsTest, TheMenuAtThePointerDeletesItToo) {
    open(craneCrate());
    button("Side")->click();
    const auto tube = view->pixelOf("boom/tube");
    ASSERT_TRUE(tube);
    click(*tube, {}, Qt::RightButton);
    auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
    ASSERT_TRUE(menu);
    QAction* gone = nullptr;
    for (QAction* action : menu->actions())
        if (action->text() == "Delete boom") gone = action;
    ASSERT_TRUE(gone);
    EXPECT_TRUE(gone->isEnabled());
    gone->trigger();
    menu->close();
    EXPECT_TRUE(session.project().mechanisms.trunnions.empty());
}

// A linkage too says what a click would do, though how far it pitches is found out by the click alone.
TEST_F(FitHandsTest, ALinkageIsToldBeforeItIsPutIn) {
    open(slab::test::crate());
    controls->arm(&mechanismWords()[2]);
    ASSERT_EQ(controls->mechanism()->kind, MechanismKind::linkage);
    const auto at = view->pixelOf("crate/starboard");
    ASSERT_TRUE(at);
    mouse(QEvent::MouseMove, *at, Qt::NoButton, Qt::NoButton);
    auto* hand = view->findChild<FitHand*>();
    ASSERT_TRUE(hand);
    EXPECT_EQ(hand->ghostWords(), "linkage · crate/starboard");
}

TEST_F(FitHandsTest, FramesAreSeenThroughTheShell) {
    Project p = slab::test::crate();
    for (const char* station : {"0.5 m", "1 m", "1.5 m"}) {
        Rib rib;
        rib.name = std::string("at ") + station;
        rib.station = station;
        p.frames.push_back(rib);
    }
    open(p);
    SceneBuilder builder;
    const Scene scene = builder.build(session.evaluation(), {});
    int inside = 0;
    for (const SceneItem& item : scene.items) {
        if (!item.inside) continue;
        ++inside;
        EXPECT_EQ(lookOf(item, {0.68, 1}).alpha, 1) << item.id;
    }
    EXPECT_GE(inside, 3) << "the rider may cut one in pieces";
    test::shot(view->picture({400, 300}), "fit_frames");
    SceneOptions without;
    without.frames = false;
    for (const SceneItem& item : builder.build(session.evaluation(), without).items)
        EXPECT_FALSE(item.inside) << item.id;
}

// turnOnScreen() against the turn itself: the grabbed point, turned by what it says, is under the hand again.
TEST(FitTurn, TheGrabbedPointComesUnderTheHand) {
    ViewCamera camera;
    camera.frame({{-500, -500, 0}, {500, 500, 1000}});
    TurnNow turn;
    turn.at = {0, 0, 400};
    for (const Vec3& axis : {Vec3(0, 0, 1), Vec3(0, -1, 0), Vec3(0.3, 0.2, 0.9)}) {
        turn.axis = axis.normalized();
        for (const double by : {-1.2, -0.1, 0.05, 0.9}) {
            const Vec3 grabbed(300, 80, 450);
            const Vec3 moved = turn.at + Eigen::AngleAxisd(by, turn.axis) * (grabbed - turn.at);
            const Vec2 from = camera.toScreen(grabbed).head<2>(), to = camera.toScreen(moved).head<2>();
            if (std::abs(turn.axis.dot(camera.forward())) < 0.3) continue; // along the tangent: near only
            EXPECT_NEAR(turnOnScreen(turn, camera, grabbed, from, to), by, 1e-6);
        }
    }
}

} // namespace
} // namespace slab::ui
