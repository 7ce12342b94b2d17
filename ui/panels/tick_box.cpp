#include "ui/panels/tick_box.h"
#include "ui/theme/theme.h"
#include <QPainter>

namespace slab::ui {

namespace {
constexpr int box = 15, gap = 7;
}

QSize TickBox::sizeHint() const {
    const QFontMetrics metrics(font());
    return {box + gap + metrics.horizontalAdvance(text()) + 4, std::max(box, metrics.height()) + 6};
}

void TickBox::paintEvent(QPaintEvent*) {
    const Palette& c = Theme::colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF square(1.5, (height() - box) / 2.0 + 0.5, box - 1, box - 1);
    painter.setPen(QPen(hasFocus() || isChecked() ? c.chosen : c.quiet, hasFocus() ? 2 : 1.2));
    painter.setBrush(isChecked() ? c.chosenFill : c.card);
    painter.drawRoundedRect(square, 3, 3);
    if (isChecked()) {
        QPen pen(c.chosen, 2);
        pen.setCapStyle(Qt::RoundCap);
        pen.setJoinStyle(Qt::RoundJoin);
        painter.setPen(pen);
        const QPointF o = square.topLeft();
        painter.drawPolyline(QPolygonF({o + QPointF(3, 7.5), o + QPointF(6, 10.5), o + QPointF(11, 4)}));
    }
    painter.setPen(isEnabled() ? c.ink : c.quiet);
    painter.drawText(rect().adjusted(box + gap, 0, 0, 0), Qt::AlignVCenter | Qt::AlignLeft, text());
}

} // namespace slab::ui
