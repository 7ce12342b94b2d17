// Keys of the drawing board: the tool's first, then the sheet's, then letters and figures.
#include "ui/board/board_canvas.h"
#include "ui/board/board_tool.h"
#include "ui/session/session.h"
#include <QKeyEvent>

namespace slab::ui {

void BoardCanvas::keyPressEvent(QKeyEvent* event) {
    Q_EMIT handled();
    if (m_tool->key(*event)) {
        update();
        Q_EMIT pointed();
        return;
    }
    if (event->key() == Qt::Key_Escape) {
        if (!m_tool->cancel()) Q_EMIT toolDone();
        update();
        Q_EMIT pointed();
        return;
    }
    const QString text = event->text();
    const bool plain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    const bool letter = plain && text.size() == 1 && text[0].isLetter();
    if (letter && m_tool->takesNames()) { // another tool would take what is drawn already
        Q_EMIT entryWanted(text);
        return;
    }
    if (moveKey(event)) return;
    if (letter) {
        Q_EMIT keyWanted(text.toUpper());
        return;
    }
    if (plain && text.size() == 1 && (text[0].isDigit() || QStringLiteral("-.(=").contains(text[0]))) {
        Q_EMIT entryWanted(text == "=" ? QString() : text);
        return;
    }
    QWidget::keyPressEvent(event);
}

void BoardCanvas::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
        m_space = false;
        showCursor();
        return;
    }
    // Arrow keys held down are one step to undo.
    if (!event->isAutoRepeat() && event->key() >= Qt::Key_Left && event->key() <= Qt::Key_Down)
        m_desk->session()->settle();
    QWidget::keyReleaseEvent(event);
}

} // namespace slab::ui
