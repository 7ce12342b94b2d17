// How steep it may lean in every direction, and what it carries against what it may.
#include "core/trial/words.h"
#include "ui/ride/ride_paint.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ui {

namespace {

constexpr int roseSteps = 120;

/// Tip angles over the downhill directions, in the axes of the way.
std::vector<std::pair<double, double>> roseOf(const RideDraw& d, const trial::Balance& b) {
    std::vector<std::pair<double, double>> out;
    const Vec3 forward = d.body.way.axes.col(0);
    const double turned = std::atan2(forward.y(), forward.x());
    for (int i = 0; i < roseSteps; ++i) {
        const double downhill = 2 * std::numbers::pi * i / roseSteps;
        const auto tip = ride::tipAngleTowards(b.stance, downhill + turned);
        out.emplace_back(downhill, tip ? std::max(0.0, tip->angle) : 0);
    }
    return out;
}

} // namespace

void paintTipRose(const RideDraw& d, const trial::Balance& balance, const QRectF& area) {
    const auto rose = roseOf(d, balance);
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    const double radius = std::min(area.width(), area.height()) / 2 - 26;
    const QPointF centre = area.center() + QPointF(0, 6);
    double most = 0;
    for (const auto& [way, angle] : rose) most = std::max(most, angle);
    if (radius < 30 || !(most > 0)) return;
    const double step = (most > 24 * trial::degree ? 10 : 5) * trial::degree;
    const double outer = std::ceil(most / step) * step;
    const auto at = [&](double way, double angle) {
        return centre + QPointF(std::cos(way), -std::sin(way)) * (angle / outer * radius);
    };
    p.setBrush(Qt::NoBrush);
    for (double ring = step; ring < outer + 1e-9; ring += step) {
        p.setPen(QPen(c.line, 1));
        p.drawEllipse(centre, ring / outer * radius, ring / outer * radius);
    }
    p.setPen(QPen(c.line, 1));
    p.drawLine(centre - QPointF(radius, 0), centre + QPointF(radius, 0));
    p.drawLine(centre - QPointF(0, radius), centre + QPointF(0, radius));
    QPolygonF curve;
    for (const auto& [way, angle] : rose) curve << at(way, angle);
    QColor fill = c.fits;
    fill.setAlphaF(0.16F);
    p.setPen(QPen(c.fits, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    p.setBrush(fill);
    p.drawPolygon(curve);
    // Slopes that it is asked to stand on.
    for (const trial::Standing& s : balance.standings) {
        if (!(s.slope.angle > 0)) continue;
        const Vec3 body(std::cos(s.slope.heading), std::sin(s.slope.heading), 0);
        const Vec3 local = d.body.way.axes.transpose() * body;
        const QPointF mark = at(std::atan2(-local.y(), -local.x()), s.slope.angle); // downhill
        p.setPen(QPen(s.stands ? c.ink : c.hits, 1.6));
        p.setBrush(c.card);
        p.drawRect(QRectF(mark.x() - 3, mark.y() - 3, 6, 6));
    }
    const double every = radius / (outer / step) < 20 ? 2 * step : step; // words need room
    for (double ring = every; ring < outer + 1e-9; ring += every)
        inkWords(p, centre + QPointF(0.7071, 0.7071) * (ring / outer * radius),
                 QString::fromStdString(printAngle(ring, 0)), c.quiet, Anchor::centre, false, 10);
    const auto least = std::min_element(rose.begin(), rose.end(),
                                        [](const auto& a, const auto& b) { return a.second < b.second; });
    const QPointF tip = at(least->first, least->second);
    p.setPen(Qt::NoPen);
    p.setBrush(c.ink);
    p.drawEllipse(tip, 3.4, 3.4);
    inkWords(p, {centre.x(), area.top() + 10},
             area.width() > 190 ? "may lean so far before it tips" : "may lean so far", c.quiet,
             Anchor::centre, false, 11);
}

void paintLoadBar(const RideDraw& d, const trial::Balance& balance, const QRectF& area) {
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    const QRectF bar(area.left(), area.top() + 24, area.width(), 12);
    const auto mass = [&](double kg) { return QString::fromStdString(printMass(kg, d.e.units)); };
    if (!balance.rating || !(balance.rated > 0)) {
        p.setPen(QPen(c.line, 1, Qt::DashLine));
        p.setBrush(Qt::NoBrush);
        p.drawRoundedRect(bar, 3, 3);
        inkWords(p, {bar.left() + 4, bar.top() - 11},
                 "What the donor may carry is not known: type its rated load.", c.quiet, Anchor::left);
        return;
    }
    const double carried = balance.rating->carried, used = balance.rating->rated, rated = balance.rated;
    const double whole = std::max(rated, carried) * 1.04;
    const auto x = [&](double kg) { return bar.left() + kg / whole * bar.width(); };
    const auto outcome = carried > rated  ? trial::Outcome::fails
                         : carried > used ? trial::Outcome::tight
                                          : trial::Outcome::passes;
    p.setPen(QPen(c.line, 1));
    p.setBrush(c.paper);
    p.drawRoundedRect(bar, 3, 3);
    QPainterPath room;
    room.addRect(QRectF(QPointF(x(used), bar.top()), QPointF(x(rated), bar.bottom())));
    inkHatch(p, room, c.tight, 6);
    QColor fill = outcomeColour(outcome);
    p.setPen(QPen(fill, 1));
    fill.setAlphaF(0.55F);
    p.setBrush(fill);
    p.drawRect(QRectF(bar.topLeft(), QPointF(x(carried), bar.bottom())));
    p.setPen(QPen(c.ink, 1.4));
    for (const double kg : {used, rated})
        p.drawLine(QPointF(x(kg), bar.top() - 3), QPointF(x(kg), bar.bottom() + 3));
    const QString words = "carries " + mass(carried) +
                          (outcome == trial::Outcome::fails   ? ", more than it is rated for"
                           : outcome == trial::Outcome::tight ? ", more than the share that is used"
                                                              : "");
    paintOutcome(p, QRectF(bar.left(), bar.top() - 18, 12, 12), outcome);
    inkWords(p, {bar.left() + 20, bar.top() - 12}, words, c.ink, Anchor::left, true);
    const double gap = x(rated) - x(used);
    inkWords(p, {x(used) - (gap < 150 ? 2 : 0), bar.bottom() + 12}, "used up to " + mass(used), c.quiet,
             gap < 150 ? Anchor::right : Anchor::centre, false, 11);
    inkWords(p, {std::min(x(rated) + 2, area.right()), bar.bottom() + 12}, "rated " + mass(rated), c.quiet,
             gap < 150 && x(rated) + 90 < area.right() ? Anchor::left : Anchor::right, false, 11);
    d.spot({x(carried), bar.center().y()}, RideThing::load, -1, 16);
}

} // namespace slab::ui
