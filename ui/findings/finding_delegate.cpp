#include "ui/findings/finding_delegate.h"
#include "ui/findings/findings_model.h"
#include "ui/theme/theme.h"
#include <QAbstractItemView>
#include <QPainter>
#include <QPainterPath>
#include <QScrollBar>
#include <cmath>
#include <numbers>

namespace slab::ui {

namespace {

constexpr int gap = 10, left = 14, right = 10, top = 8, iconRoom = 26;

QColor colourOf(Severity severity) {
    const Palette& c = Theme::colours();
    return severity == Severity::stop ? c.hits : severity == Severity::look ? c.tight : c.quiet;
}

int textHeight(const QString& text, const QFont& font, int width) {
    if (text.isEmpty()) return 0;
    return QFontMetrics(font).boundingRect(0, 0, width, 10000, Qt::TextWordWrap, text).height();
}

/// Beside a scroll bar, whether or not there is one yet: entries measured before it came would be too low.
int widthFor(const QStyleOptionViewItem& option) {
    const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
    if (!view) return std::max(120, option.rect.width());
    const QScrollBar* bar = view->verticalScrollBar();
    return std::max(120, view->viewport()->width() - (bar->isVisible() ? 0 : bar->sizeHint().width()));
}

QString remedyText(const Finding& f) {
    return f.remedy.empty() ? QString() : "→ " + QString::fromStdString(f.remedy);
}

} // namespace

void paintSeverity(QPainter& painter, const QRectF& area, Severity severity) {
    const QColor colour = colourOf(severity);
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF c = area.center();
    const double r = area.width() / 2;
    if (severity == Severity::stop) {
        QPolygonF octagon;
        for (int i = 0; i < 8; ++i) {
            const double turn = (i + 0.5) * std::numbers::pi / 4;
            octagon << c + QPointF(std::cos(turn), std::sin(turn)) * r;
        }
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawPolygon(octagon);
        painter.setBrush(Theme::colours().card);
        painter.drawRect(QRectF(c.x() - r * 0.5, c.y() - 1.3, r, 2.6));
    } else if (severity == Severity::look) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.drawPolygon(
            QPolygonF{{c.x(), c.y() - r * 0.9}, {c.x() + r, c.y() + r * 0.8}, {c.x() - r, c.y() + r * 0.8}});
    } else {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(colour, 1.6));
        painter.drawEllipse(c, r * 0.8, r * 0.8);
        painter.drawLine(QPointF(c.x(), c.y() - 0.5), QPointF(c.x(), c.y() + r * 0.4));
        painter.drawPoint(QPointF(c.x(), c.y() - r * 0.38));
    }
}

QSize FindingDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const auto* model = static_cast<const FindingsModel*>(index.model());
    const Finding& f = model->at(index.row());
    const int room = widthFor(option) - left - right;
    const QFont small = Theme::words(12);
    const int height = top +
                       std::max(18, textHeight(titleOf(f), Theme::words(13, true), room - iconRoom - 38)) +
                       5 + textHeight(QString::fromStdString(f.message), small, room) + 4 +
                       textHeight(remedyText(f), small, room) + top;
    return {120, height + gap};
}

void FindingDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
    const auto* model = static_cast<const FindingsModel*>(index.model());
    const Finding& f = model->at(index.row());
    const Palette& c = Theme::colours();
    const bool chosen = option.state & QStyle::State_Selected;
    const bool focus = option.widget && option.widget->hasFocus() && option.state & QStyle::State_HasFocus;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const QRectF card = QRectF(option.rect).adjusted(0.5, 0.5, -0.5, -gap - 0.5);
    QPainterPath shape;
    shape.addRoundedRect(card, 6, 6);
    painter->fillPath(shape, chosen ? c.chosenFill : Theme::mix(c.paper, c.card, 0.4));
    painter->setClipPath(shape);
    painter->fillRect(QRectF(card.left(), card.top(), 4, card.height()), colourOf(f.severity));
    painter->setClipping(false);
    painter->setPen(QPen(focus ? c.chosen : c.line, focus ? 2 : 1));
    painter->setBrush(Qt::NoBrush);
    painter->drawPath(shape);

    const int x = option.rect.left() + left, whole = option.rect.width() - left - right;
    const int room = std::min(whole, widthFor(option) - left - right); // as measured: no gap below the words
    int y = option.rect.top() + top;
    paintSeverity(*painter, QRectF(x, y, 18, 18), f.severity);
    painter->setPen(c.ink);
    painter->setFont(Theme::words(13, true));
    const int flags = Qt::TextWordWrap;
    const int titleRoom = room - iconRoom - 38;
    const int titleHeight = std::max(18, textHeight(titleOf(f), painter->font(), titleRoom));
    painter->drawText(QRect(x + iconRoom, y, titleRoom, titleHeight), flags | Qt::AlignVCenter, titleOf(f));
    painter->setFont(Theme::words(11));
    painter->setPen(c.quiet);
    painter->drawText(QRect(x, y, whole, 18), Qt::AlignRight | Qt::AlignVCenter, wordOf(f.severity));
    y += titleHeight + 5;
    painter->setFont(Theme::words(12));
    painter->setPen(c.ink);
    const QString message = QString::fromStdString(f.message);
    const int messageHeight = textHeight(message, painter->font(), room);
    painter->drawText(QRect(x, y, room, messageHeight), flags, message);
    y += messageHeight + 4;
    painter->setPen(c.chosen);
    painter->drawText(QRect(x, y, room, textHeight(remedyText(f), painter->font(), room)), flags,
                      remedyText(f));
    painter->restore();
}

} // namespace slab::ui
