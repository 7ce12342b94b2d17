#include "ui/fit/pill.h"
#include "ui/theme/theme.h"
#include <QFontMetrics>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>

namespace slab::ui {

Pill::Pill(QWidget* parent, bool native) : QWidget(parent), m_native(native) {
    setFocusPolicy(Qt::NoFocus);
    if (native) setAttribute(Qt::WA_NativeWindow);
    hide();
}

void Pill::say(const QString& text, const QColor& border) {
    if (text == m_text && border == m_border) return;
    m_text = text;
    m_border = border;
    setAccessibleName(text);
    const QFontMetrics metrics(Theme::figures(12));
    resize(metrics.horizontalAdvance(text) + 18, metrics.height() + 6);
    if (m_native) {
        QPainterPath outline;
        outline.addRoundedRect(QRectF(rect()), 6, 6);
        setMask(QRegion(outline.toFillPolygon().toPolygon()));
    }
    update();
}

void Pill::placeAt(const QPointF& centre) {
    const QWidget* over = parentWidget();
    const int x =
        std::clamp(static_cast<int>(centre.x()) - width() / 2, 0, std::max(0, over->width() - width()));
    const int y =
        std::clamp(static_cast<int>(centre.y()) - height() / 2, 0, std::max(0, over->height() - height()));
    move(x, y);
}

void Pill::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QColor card = Theme::colours().card;
    if (m_native) painter.fillRect(rect(), card);
    painter.setPen(QPen(m_border, 1.4));
    painter.setBrush(Theme::mix(m_border, card, 0.10));
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 5, 5);
    painter.setPen(Theme::colours().ink);
    painter.setFont(Theme::figures(12));
    painter.drawText(rect(), Qt::AlignCenter, m_text);
}

void Pill::mouseReleaseEvent(QMouseEvent*) {
    Q_EMIT clicked();
}

} // namespace slab::ui
