#include "ui/tables/formula_edit.h"
#include <QAbstractItemView>
#include <QCompleter>
#include <QKeyEvent>

namespace slab::ui {

FormulaEdit::FormulaEdit(const QStringList& names, QWidget* parent)
    : QLineEdit(parent), m_completer(new QCompleter(names, this)) {
    m_completer->setWidget(this);
    m_completer->setCaseSensitivity(Qt::CaseInsensitive);
    connect(m_completer, qOverload<const QString&>(&QCompleter::activated), this, &FormulaEdit::take);
    connect(this, &QLineEdit::textEdited, this, &FormulaEdit::propose);
}

bool FormulaEdit::proposing() const {
    return m_completer->popup()->isVisible();
}

int FormulaEdit::wordStart() const {
    int at = cursorPosition();
    while (at > 0 && (text()[at - 1].isLetterOrNumber() || text()[at - 1] == '_')) --at;
    return at;
}

void FormulaEdit::propose() {
    const int start = wordStart();
    const QString word = text().mid(start, cursorPosition() - start);
    if (word.size() < 2 || !word[0].isLetter()) {
        m_completer->popup()->hide();
        return;
    }
    m_completer->setCompletionPrefix(word);
    if (m_completer->completionCount() == 0 || m_completer->currentCompletion() == word)
        m_completer->popup()->hide();
    else
        m_completer->complete();
}

void FormulaEdit::take(const QString& name) {
    const int start = wordStart();
    const QString now = text();
    setText(now.left(start) + name + now.mid(cursorPosition()));
    setCursorPosition(start + static_cast<int>(name.size()));
}

void FormulaEdit::keyPressEvent(QKeyEvent* event) {
    if (m_completer->popup()->isVisible() &&
        (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Tab ||
         event->key() == Qt::Key_Escape)) {
        event->ignore();
        return;
    }
    QLineEdit::keyPressEvent(event);
}

} // namespace slab::ui
