#pragma once
#include "tests/ui_views/hand_body.h"
#include "tests/ui_views/live_engine.h"
#include "ui/fit/fit_controls.h"
#include "ui/fit/fit_view.h"
#include <QApplication>
#include <QMouseEvent>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::test {

/// The 3D view on the whole pipeline, and a hand on it.
class FitBench : public testing::Test {
protected:
    void open(const Project& project) {
        session.replace(project);
        rest(session);
        view = std::make_unique<ui::FitView>(&session);
        view->resize(900, 700);
        view->show();
        QApplication::processEvents();
        controls = view->findChild<ui::FitControls*>();
    }
    void mouse(QEvent::Type type, const QPointF& at, Qt::MouseButton button, Qt::MouseButtons held,
               Qt::KeyboardModifiers keys = {}) const {
        QMouseEvent event(type, at, at, button, held, keys);
        QApplication::sendEvent(view->surface(), &event);
    }
    void click(const QPointF& at, Qt::KeyboardModifiers keys = {},
               Qt::MouseButton button = Qt::LeftButton) const {
        mouse(QEvent::MouseMove, at, Qt::NoButton, Qt::NoButton, keys);
        mouse(QEvent::MouseButtonPress, at, button, button, keys);
        mouse(QEvent::MouseButtonRelease, at, button, Qt::NoButton, keys);
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
    ui::Session session{liveEngine()};
    std::unique_ptr<ui::FitView> view;
    ui::FitControls* controls = nullptr;
};

} // namespace slab::test
