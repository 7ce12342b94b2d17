// The hand in 3D with the whole pipeline: openings put in, mechanisms turned, frames seen through the shell.
#include "tests/board/crate.h"
#include "tests/ui_views/hand_body.h"
#include "tests/ui_views/live_engine.h"
#include "ui/fit/fit_controls.h"
#include "ui/fit/fit_turn.h"
#include "ui/fit/fit_view.h"
#include "ui/fit/look.h"
#include "ui/panels/opening_menu.h"
#include <QMenu>
#include <QMouseEvent>
#include <QTest>
#include <QToolButton>
#include <gtest/gtest.h>
#include <numbers>

namespace slab::ui {
namespace {

/// The crate with a boom that rises on a table that turns.
Project craneCrate() {
    Project p = slab::test::crate();
    Turntable table;
    table.name = "table";
    table.at.x = "1 m";
    table.at.z = "1.2 m";
    table.diameter = "400 mm";
    table.depth = "150 mm";
    table.wall = "3 mm";
    table.lip = "15 mm";
    table.lip_thickness = "4 mm";
    table.gap = "2 mm";
    table.overlap = "10 mm";
    table.ring_width = "60 mm";
    p.mechanisms.turntables = {table};
    Trunnion boom;
    boom.name = "boom";
    boom.at.x = "1 m";
    boom.at.z = "1.5 m";
    boom.diameter = "80 mm";
    boom.wall = "2 mm";
    boom.front = "800 mm";
    boom.rear = "200 mm";
    boom.lowest = "-5 deg";
    boom.highest = "30 deg";
    boom.angle = "5 deg + 2 deg";
    boom.on = "table";
    p.mechanisms.trunnions = {boom};
    return p;
}

class FitHandsTest : public testing::Test {
protected:
    void open(const Project& project) {
        session.replace(project);
        test::rest(session);
        view = std::make_unique<FitView>(&session);
        view->resize(900, 700);
        view->show();
        QApplication::processEvents();
        controls = view->findChild<FitControls*>();
    }
    void mouse(QEvent::Type type, const QPointF& at, Qt::MouseButton button, Qt::MouseButtons held) const {
        QMouseEvent event(type, at, at, button, held, {});
        QApplication::sendEvent(view->surface(), &event);
    }
    void click(const QPointF& at) const {
        mouse(QEvent::MouseMove, at, Qt::NoButton, Qt::NoButton);
        mouse(QEvent::MouseButtonPress, at, Qt::LeftButton, Qt::LeftButton);
        mouse(QEvent::MouseButtonRelease, at, Qt::LeftButton, Qt::NoButton);
    }
    void drag(const QPointF& from, const QPointF& to) const {
        mouse(QEvent::MouseButtonPress, from, Qt::LeftButton, Qt::LeftButton);
        for (int i = 1; i <= 8; ++i)
            mouse(QEvent::MouseMove, from + (to - from) * i / 8.0, Qt::NoButton, Qt::LeftButton);
        mouse(QEvent::MouseButtonRelease, to, Qt::LeftButton, Qt::NoButton);
    }
    void key(int key) const {
        QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier);
        QApplication::sendEvent(view->surface(), &event);
    }
    QToolButton* button(const QString& words) const {
        for (auto* b : view->findChildren<QToolButton*>())
            if (b->text() == words) return b;
        return nullptr;
    }
    double boomAngle() const {
        return evaluate(session.project().mechanisms.trunnions[0].angle, *session.evaluation().scope,
                        Space::build, Kind::angle)
                   ->value *
               180 / std::numbers::pi;
    }
    Session session{test::liveEngine()};
    std::unique_ptr<FitView> view;
    FitControls* controls = nullptr;
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
    key(Qt::Key_Escape);
    EXPECT_EQ(controls->opening(), nullptr);
    EXPECT_TRUE(view->prompt().isEmpty()) << view->prompt().toStdString();
    session.selectPlate("crate/port");
    controls->arm(&openingKinds()[2]);
    key(Qt::Key_Return);
    ASSERT_EQ(session.project().openings.size(), 2U);
    EXPECT_EQ(session.project().openings[1].direction, "y");
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
