#include "ui/ride/ride_ink.h"
#include "ui/theme/theme.h"
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ui {

using trial::Outcome;

QColor outcomeColour(Outcome outcome) {
    const Palette& c = Theme::colours();
    return outcome == Outcome::passes  ? c.fits
           : outcome == Outcome::tight ? c.tight
           : outcome == Outcome::fails ? c.hits
                                       : c.quiet;
}

QString outcomeWord(Outcome outcome) {
    return outcome == Outcome::passes  ? QStringLiteral("passes")
           : outcome == Outcome::tight ? QStringLiteral("tight")
           : outcome == Outcome::fails ? QStringLiteral("does not pass")
                                       : QStringLiteral("not known");
}

void paintOutcome(QPainter& painter, const QRectF& area, Outcome outcome) {
    const QColor colour = outcomeColour(outcome);
    const QPointF c = area.center();
    const double r = area.width() / 2;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    if (outcome == Outcome::passes) {
        painter.setBrush(colour);
        painter.setPen(Qt::NoPen);
        painter.drawEllipse(c, r * 0.9, r * 0.9);
        painter.setPen(QPen(Theme::colours().card, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.setBrush(Qt::NoBrush);
        painter.drawPolyline(QPolygonF{c + QPointF(-0.42, 0.02) * r, c + QPointF(-0.1, 0.36) * r,
                                       c + QPointF(0.44, -0.32) * r});
    } else if (outcome == Outcome::tight) {
        painter.drawPolygon(
            QPolygonF{c + QPointF(0, -0.9) * r, c + QPointF(1, 0.8) * r, c + QPointF(-1, 0.8) * r});
    } else if (outcome == Outcome::fails) {
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
    } else {
        painter.setPen(QPen(colour, 1.4, Qt::DashLine));
        painter.drawEllipse(c, r * 0.8, r * 0.8);
    }
    painter.restore();
}

QRectF inkWords(QPainter& painter, const QPointF& at, const QString& text, const QColor& colour,
                Anchor anchor, bool bold, int px) {
    const QFont font = Theme::words(px, bold);
    const QFontMetricsF metrics(font);
    const double w = metrics.horizontalAdvance(text), h = metrics.height();
    const double wanted = anchor == Anchor::left    ? at.x()
                          : anchor == Anchor::right ? at.x() - w
                                                    : at.x() - w / 2;
    // Whole, if need be beside their place.
    const QRectF room = painter.hasClipping() ? painter.clipBoundingRect() : QRectF(painter.window());
    const double left = std::max(room.left() + 3, std::min(wanted, room.right() - 3 - w));
    const QRectF box(left - 3, at.y() - h / 2, w + 6, h);
    QColor halo = Theme::colours().card;
    halo.setAlphaF(0.94F);
    painter.setPen(Qt::NoPen);
    painter.setBrush(halo);
    painter.drawRoundedRect(box, 3, 3);
    painter.setFont(font);
    painter.setPen(colour);
    painter.drawText(QPointF(left, at.y() - h / 2 + metrics.ascent()), text);
    return box;
}

void inkArrow(QPainter& painter, const QPointF& from, const QPointF& to, const QColor& colour, double width) {
    const QPointF way = to - from;
    const double length = std::hypot(way.x(), way.y());
    if (length < 1e-6) return;
    const QPointF u = way / length, v(-u.y(), u.x());
    const double head = 5 + 2 * width;
    painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(from, to - u * std::min(head, length) * 0.8);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawPolygon(QPolygonF{to, to - u * head + v * head * 0.36, to - u * head - v * head * 0.36});
}

void inkDimension(QPainter& painter, const QPointF& a, const QPointF& b, const QString& text,
                  const QColor& colour) {
    const QPointF way = b - a, middle = (a + b) / 2;
    const double length = std::hypot(way.x(), way.y());
    if (length > 18) {
        inkArrow(painter, middle, a, colour, 1);
        inkArrow(painter, middle, b, colour, 1);
    } else if (length > 0.5) { // heads from outside
        const QPointF u = way / length;
        inkArrow(painter, a - u * 16, a, colour, 1);
        inkArrow(painter, b + u * 16, b, colour, 1);
    }
    if (text.isEmpty()) return;
    const bool level = std::abs(way.x()) > std::abs(way.y());
    const double room = QFontMetricsF(Theme::words(12)).horizontalAdvance(text) + 14;
    if (level && length > room)
        inkWords(painter, middle, text, colour);
    else if (level)
        inkWords(painter, middle + QPointF(0, -13), text, colour);
    else if (length > 40)
        inkWords(painter, middle, text, colour);
    else
        inkWords(painter, middle + QPointF(10, 0), text, colour, Anchor::left);
}

void inkCentre(QPainter& painter, const QPointF& at, double radius, const QColor& colour) {
    const QRectF box(at.x() - radius, at.y() - radius, 2 * radius, 2 * radius);
    painter.setPen(QPen(colour, 1.3));
    painter.setBrush(Theme::colours().card);
    painter.drawEllipse(box);
    painter.setBrush(colour);
    painter.drawPie(box, 0, 90 * 16);
    painter.drawPie(box, 180 * 16, 90 * 16);
}

void inkGround(QPainter& painter, const QPolygonF& line, const QColor& colour) {
    painter.setPen(QPen(colour, 1.4, Qt::SolidLine, Qt::FlatCap));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line);
    painter.setPen(QPen(Theme::mix(colour, Theme::colours().card, 0.55), 1));
    double carry = 4;
    for (qsizetype i = 0; i + 1 < line.size(); ++i) {
        const QPointF way = line[i + 1] - line[i];
        const double length = std::hypot(way.x(), way.y());
        if (length < 1e-9) continue;
        double at = carry;
        for (; at < length; at += 9) {
            const QPointF p = line[i] + way * (at / length);
            painter.drawLine(p, p + QPointF(-6, 7));
        }
        carry = at - length;
    }
}

void inkHatch(QPainter& painter, const QPainterPath& region, const QColor& colour, double gap) {
    if (region.isEmpty()) return;
    painter.save();
    painter.setClipPath(region, Qt::IntersectClip);
    const QRectF box = region.boundingRect();
    painter.setPen(QPen(colour, 1));
    for (double x = std::floor((box.left() - box.height()) / gap) * gap; x < box.right(); x += gap)
        painter.drawLine(QPointF(x, box.bottom()), QPointF(x + box.height(), box.top()));
    painter.restore();
}

void inkBody(QPainter& painter, const SeenBody& body, const std::function<QPointF(const Vec2&)>& place,
             const BodyInk& ink) {
    const Palette& c = Theme::colours();
    const auto pathOf = [&](const std::vector<Ring>& loops) {
        QPainterPath path;
        path.setFillRule(Qt::OddEvenFill);
        for (const Ring& loop : loops) {
            QPolygonF points;
            for (const Vec2& p : loop) points << place(p);
            path.addPolygon(points);
            path.closeSubpath();
        }
        return path;
    };
    if (ink.shell) {
        const QColor tint = Theme::mix(c.foam, c.card, ink.faint ? 0.3 : 0.55);
        const QColor line = Theme::mix(c.ink, tint, ink.faint ? 0.3 : 0.5);
        std::vector<QPainterPath> faces;
        for (const auto& face : body.shell) faces.push_back(pathOf(face));
        // What is under all of them sticks out around the edge alone: the outline of the whole.
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(Theme::mix(c.ink, tint, ink.faint ? 0.5 : 0.9), 2.6, Qt::SolidLine, Qt::RoundCap,
                            Qt::RoundJoin));
        for (const QPainterPath& face : faces) painter.drawPath(face);
        painter.setPen(QPen(line, 0.7));
        painter.setBrush(tint);
        for (const QPainterPath& face : faces) painter.drawPath(face);
    }
    painter.setBrush(Qt::NoBrush);
    QPen broken(Theme::mix(c.donor, c.card, ink.faint ? 0.35 : 0.6), 1);
    broken.setDashPattern({4, 3});
    painter.setPen(broken);
    if (ink.donor)
        for (const Ring& ring : body.donor) painter.drawPath(pathOf({ring}));
    if (ink.rider)
        for (const Ring& ring : body.rider) painter.drawPath(pathOf({ring}));
}

} // namespace slab::ui
