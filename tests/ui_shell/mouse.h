#pragma once
// A real mouse on a widget.
#include <QApplication>
#include <QMouseEvent>
#include <QTest>

namespace slab::test {

/// Pressed, moved in steps, let go.
/// @param letGo  false: the button stays down
inline void dragOn(QWidget& widget, const QPoint& from, const QPoint& to, Qt::KeyboardModifiers keys = {},
                   bool letGo = true) {
    QTest::mouseMove(&widget, from);
    QTest::mousePress(&widget, Qt::LeftButton, keys, from);
    for (int i = 1; i <= 5; ++i) {
        const QPoint at = from + (to - from) * i / 5;
        QMouseEvent move(QEvent::MouseMove, at, widget.mapToGlobal(at), Qt::NoButton, Qt::LeftButton, keys);
        QApplication::sendEvent(&widget, &move);
    }
    if (letGo) QTest::mouseRelease(&widget, Qt::LeftButton, keys, to);
}

} // namespace slab::test
