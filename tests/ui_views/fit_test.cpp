#include "tests/ui_views/hand_body.h"
#include "ui/fit/fit_controls.h"
#include "ui/fit/fit_view.h"
#include <QMouseEvent>
#include <QScreen>
#include <QTest>
#include <QToolButton>
#include <QWindow>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

class FitViewTest : public testing::Test {
protected:
    FitViewTest() : session(test::handEngine()) {
        session.replace(test::handProject());
        test::rest(session);
        view = std::make_unique<FitView>(&session);
        view->resize(760, 560);
        view->show();
        static_cast<void>(QTest::qWaitForWindowExposed(view.get()));
        QApplication::processEvents();
    }
    void mouse(QEvent::Type type, const QPointF& at, Qt::MouseButton button, Qt::MouseButtons held,
               Qt::KeyboardModifiers modifiers = {}) {
        QMouseEvent event(type, at, at, button, held, modifiers);
        QApplication::sendEvent(view->surface(), &event);
    }
    void click(const QPointF& at) {
        mouse(QEvent::MouseButtonPress, at, Qt::LeftButton, Qt::LeftButton);
        mouse(QEvent::MouseButtonRelease, at, Qt::LeftButton, Qt::NoButton);
    }
    void drag(const QPointF& from, const QPointF& to, Qt::KeyboardModifiers modifiers = {}) {
        mouse(QEvent::MouseButtonPress, from, Qt::LeftButton, Qt::LeftButton, modifiers);
        for (int i = 1; i <= 8; ++i)
            mouse(QEvent::MouseMove, from + (to - from) * i / 8.0, Qt::NoButton, Qt::LeftButton, modifiers);
        mouse(QEvent::MouseButtonRelease, to, Qt::LeftButton, Qt::NoButton, modifiers);
    }
    QToolButton* button(const QString& words) {
        for (auto* b : view->findChildren<QToolButton*>()) {
            if (b->text() == words) return b;
        }
        return nullptr;
    }
    Session session;
    std::unique_ptr<FitView> view;
};

TEST_F(FitViewTest, ClickSelectsThePlateUnderThePointer) {
    for (const char* name : {"hull/starboard", "hull/top", "hull/front"}) {
        const auto at = view->pixelOf(name);
        ASSERT_TRUE(at) << name;
        click(*at);
        EXPECT_EQ(session.selection().plate, name);
    }
    click({2, 2});
    EXPECT_TRUE(session.selection().plate.isEmpty());
}

TEST_F(FitViewTest, OrbitKeepsTheDocumentAndTheSelection) {
    session.selectPlate("hull/top");
    const Project before = session.project();
    const auto seen = view->picture({200, 150});
    drag({100, 100}, {260, 140});
    EXPECT_EQ(session.project(), before);
    EXPECT_EQ(session.selection().plate, "hull/top");
    EXPECT_NE(view->picture({200, 150}), seen);
}

TEST_F(FitViewTest, MovingTheDonorIsOneUndoStep) {
    button("Side")->click();
    const auto base = view->pixelOf("donor/base");
    button("Move")->click();
    // In see-through plates the donor is grabbed through the side.
    const QPointF from = base ? *base : QPointF(view->width() / 2.0, view->height() * 0.45);
    drag(from, from + QPointF(40, 0));
    test::rest(session);
    EXPECT_EQ(session.history().undoLabel(), "Move donor");
    EXPECT_NE(session.project().donor.at.x, "-40 mm");
    session.undo();
    EXPECT_EQ(session.project(), test::handProject());
    EXPECT_FALSE(session.history().canUndo());
}

TEST_F(FitViewTest, StandardDirectionsByKey) {
    const auto seen = view->picture({200, 150});
    QKeyEvent key(QEvent::KeyPress, Qt::Key_2, Qt::NoModifier);
    QApplication::sendEvent(view->surface(), &key);
    QTest::qWait(view->usesOpenGl() ? 400 : 0);
    EXPECT_NE(view->picture({200, 150}), seen);
    EXPECT_TRUE(button("Plan")->isChecked());
}

TEST_F(FitViewTest, ScreenShots) {
    session.selectPlate("hull/starboard");
    QTest::qWait(qEnvironmentVariableIsSet("SLABSIDE_SHOTS") ? 1500 : 0);
    if (!qEnvironmentVariableIsSet("SLABSIDE_SHOTS")) GTEST_SKIP() << "SLABSIDE_SHOTS is not set";
    const QRect r(view->mapToGlobal(QPoint(0, 0)), view->size());
    test::shot(view->screen()->grabWindow(0, r.x(), r.y(), r.width(), r.height()).toImage(), "fit_view");
}

} // namespace
} // namespace slab::ui
