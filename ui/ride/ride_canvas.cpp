#include "ui/ride/ride_canvas.h"
#include "ui/theme/theme.h"
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <cmath>

namespace slab::ui {

RideCanvas::RideCanvas(const QString& name, QWidget* parent) : QWidget(parent) {
    setAccessibleName(name);
    setMouseTracking(true);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void RideCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    m_spots.clear();
    if (m_paint) m_paint(painter, QRectF(rect()), m_spots);
}

const RideSpot* RideCanvas::spotAt(const QPointF& px) const {
    const RideSpot* best = nullptr;
    double least = 1e9;
    for (const RideSpot& spot : m_spots) {
        const double away = std::hypot(px.x() - spot.at.x(), px.y() - spot.at.y());
        if (away > spot.reach || away >= least) continue;
        least = away;
        best = &spot;
    }
    return best;
}

void RideCanvas::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return;
    if (const RideSpot* spot = spotAt(event->position())) Q_EMIT pointed(spot->row);
}

void RideCanvas::mouseMoveEvent(QMouseEvent* event) {
    setCursor(spotAt(event->position()) ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

bool RideCanvas::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QWidget::event(event);
    auto* help = static_cast<QHelpEvent*>(event);
    if (const RideSpot* spot = spotAt(help->pos()))
        QToolTip::showText(help->globalPos(), spot->words, this);
    else
        QToolTip::hideText();
    return true;
}

} // namespace slab::ui
