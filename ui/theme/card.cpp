#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

namespace slab::ui {

Card::Card(const QString& title, QWidget* parent) : QFrame(parent) {
    setObjectName("card");
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(space::inside, 9, space::inside, space::inside);
    all->setSpacing(7);
    m_strip = new QHBoxLayout;
    m_strip->setSpacing(10);
    m_title = new QLabel(title);
    m_title->setFont(Theme::words(14, true));
    m_title->setProperty("role", "title");
    m_note = new ElidedLabel;
    m_note->setQuiet(true);
    m_note->setFont(Theme::words(12));
    m_note->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_strip->addWidget(m_title);
    m_strip->addWidget(m_note, 1);
    all->addLayout(m_strip);
    m_body = new QVBoxLayout;
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(space::row);
    all->addLayout(m_body, 1);
}

void Card::setTitle(const QString& title) {
    m_title->setText(title);
}

void Card::setNote(const QString& note) {
    m_note->setText(note);
}

void Card::setBare() {
    m_title->hide();
    m_note->hide();
    static_cast<QVBoxLayout*>(layout())->setSpacing(0);
}

ElidedLabel::ElidedLabel(const QString& text, QWidget* parent) : QFrame(parent) {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    setFocusPolicy(Qt::NoFocus);
    setText(text);
}

void ElidedLabel::setText(const QString& text) {
    setAccessibleName(text);
    if (text == m_text) return;
    m_text = text;
    setToolTip(text);
    updateGeometry();
    update();
}

void ElidedLabel::setQuiet(bool quiet) {
    m_quiet = quiet;
    update();
}

void ElidedLabel::setAlignment(Qt::Alignment alignment) {
    m_alignment = alignment;
    update();
}

QSize ElidedLabel::sizeHint() const {
    const QFontMetrics metrics(font());
    return {metrics.horizontalAdvance(m_text) + 2, metrics.height()};
}

QSize ElidedLabel::minimumSizeHint() const {
    return {20, QFontMetrics(font()).height()};
}

void ElidedLabel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setFont(font());
    painter.setPen(m_quiet ? Theme::colours().quiet : Theme::colours().ink);
    painter.drawText(rect(), static_cast<int>(m_alignment), shown());
}

QString ElidedLabel::shown() const {
    const QFontMetrics metrics(font());
    QStringList parts = m_text.split(QStringLiteral(" · "));
    while (parts.size() > 1 && metrics.horizontalAdvance(parts.join(QStringLiteral(" · "))) > width())
        parts.removeLast();
    return metrics.elidedText(parts.join(QStringLiteral(" · ")), Qt::ElideMiddle, width());
}

namespace {

/// Return presses the button that has the focus, as Space does.
class ReturnPresses : public QObject {
public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() != QEvent::KeyPress) return false;
        const auto* key = static_cast<QKeyEvent*>(event);
        if ((key->key() != Qt::Key_Return && key->key() != Qt::Key_Enter) ||
            (key->modifiers() & ~Qt::KeypadModifier) != Qt::NoModifier)
            return false;
        auto* tool = qobject_cast<QToolButton*>(watched);
        if (tool && tool->isEnabled() && tool->menu() && tool->popupMode() == QToolButton::InstantPopup)
            tool->showMenu();
        else
            static_cast<QAbstractButton*>(watched)->click();
        return true;
    }
};

} // namespace

void explain(QWidget* widget, const QString& name, const QString& tip) {
    const bool presses = qobject_cast<QPushButton*>(widget) || qobject_cast<QToolButton*>(widget);
    if (presses && !widget->property("presses").toBool()) {
        widget->setProperty("presses", true); // explained again it has its filter
        widget->installEventFilter(new ReturnPresses(widget));
    }
    widget->setAccessibleName(name);
    widget->setAccessibleDescription(tip);
    widget->setToolTip(tip);
}

void paintSheet(QPainter& painter, const QWidget& widget) {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(Theme::colours().line, 1));
    painter.setBrush(Theme::colours().card);
    painter.drawRoundedRect(QRectF(widget.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 8, 8);
}

} // namespace slab::ui
