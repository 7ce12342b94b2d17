// What is hidden from the eye, as a map around the body, and the eye from the side.
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

struct SightSheet {
    const RideDraw& d;
    const trial::View& v;
    Vec3 eye = Vec3::Zero(); ///< axes of the way
    double turned = 0;       ///< of the way in the body's axes
    double reach = 0;        ///< mm
    PaperView map;
    [[nodiscard]] QPointF at(double azimuth, double mm) const {
        return map.toScreen(eye.head<2>() + mm * Vec2(std::cos(azimuth), std::sin(azimuth)));
    }
};

QPainterPath ringOf(const SightSheet& s, double from, double to, double inner, double outer) {
    QPainterPath path;
    QPolygonF ring;
    constexpr int most = 4;
    for (int i = 0; i <= most; ++i) ring << s.at(from + (to - from) * i / most, outer);
    for (int i = most; i >= 0; --i) ring << s.at(from + (to - from) * i / most, inner);
    path.addPolygon(ring);
    path.closeSubpath();
    return path;
}

/// Cells that are hidden, those of one direction that touch as one.
QPainterPath blindPath(const SightSheet& s) {
    const sight::BlindMap& m = s.v.map;
    QPainterPath all;
    all.setFillRule(Qt::WindingFill);
    const double wide = 2 * std::numbers::pi / m.directions, deep = m.reach / m.rings;
    for (int i = 0; i < m.directions; ++i) {
        const double middle = m.azimuth(i) - s.turned;
        for (int k = 0; k < m.rings;) {
            if (!m.at(i, k)) {
                ++k;
                continue;
            }
            int end = k;
            while (end < m.rings && m.at(i, end)) ++end;
            all.addPath(ringOf(s, middle - wide * 0.505, middle + wide * 0.505, k * deep, end * deep));
            k = end;
        }
    }
    return all;
}

void paintMap(const SightSheet& s) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    const QPointF eye = s.map.toScreen(s.eye.head<2>());
    const double r = s.reach * s.map.scale;
    p.setPen(Qt::NoPen);
    p.setBrush(Theme::mix(c.fits, c.card, 0.10));
    p.drawEllipse(eye, r, r);
    const QPainterPath blind = blindPath(s);
    p.fillPath(blind, Theme::mix(c.quiet, c.card, Theme::dark() ? 0.42 : 0.34));
    inkHatch(p, blind, Theme::mix(c.ink, c.card, 0.42), 8);
    p.setBrush(Qt::NoBrush);
    const double step = s.reach > 3500 ? 1000 : 500;
    QPen thin(Theme::mix(c.ink, c.card, 0.28), 1);
    thin.setDashPattern({2, 4});
    for (double mm = step; mm < s.reach + 1; mm += step) {
        p.setPen(thin);
        p.drawEllipse(eye, mm * s.map.scale, mm * s.map.scale);
    }
    p.setPen(QPen(c.ink, 1));
    p.drawEllipse(eye, r, r);
}

/// What hatched and plain ground is.
void paintLegend(const SightSheet& s, const QRectF& area) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    double y = area.bottom() - 44;
    for (const bool hidden : {true, false}) {
        QPainterPath swatch;
        swatch.addRect(QRectF(area.left() + 6, y - 6, 18, 12));
        p.fillPath(swatch, hidden ? Theme::mix(c.quiet, c.card, Theme::dark() ? 0.42 : 0.34)
                                  : Theme::mix(c.fits, c.card, 0.10));
        if (hidden) inkHatch(p, swatch, Theme::mix(c.ink, c.card, 0.42), 6);
        p.setPen(QPen(Theme::mix(c.ink, c.card, 0.5), 1));
        p.setBrush(Qt::NoBrush);
        p.drawPath(swatch);
        inkWords(p, {area.left() + 30, y}, hidden ? "hidden ground" : "ground that is seen", c.quiet,
                 Anchor::left, false, 11);
        y += 17;
    }
    inkWords(p, {area.left() + 6, y}, "as far as " + lengthText(s.reach, s.d.e.units) + " round the eye",
             c.quiet, Anchor::left, false, 11);
}

/// How far the horizon is open to either side, as a ring outside of the map.
void paintField(const SightSheet& s) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    const QPointF eye = s.map.toScreen(s.eye.head<2>());
    const double r = s.reach * s.map.scale + 13;
    const QRectF box(eye.x() - r, eye.y() - r, 2 * r, 2 * r);
    const auto arc = [&](double from, double to) {
        p.drawArc(box, static_cast<int>(from / trial::degree * 16),
                  static_cast<int>((to - from) / trial::degree * 16));
    };
    p.setBrush(Qt::NoBrush);
    QPen dashed(Theme::mix(c.quiet, c.card, 0.7), 2);
    dashed.setDashPattern({1.5, 2.5});
    p.setPen(dashed);
    arc(0, 2 * std::numbers::pi);
    const bool open = s.v.field.port > 0 || s.v.field.starboard > 0;
    p.setPen(QPen(open ? c.fits : c.tight, 6, Qt::SolidLine, Qt::FlatCap));
    if (open) arc(-s.v.field.starboard, s.v.field.port);
    p.setPen(QPen(c.ink, 1.6));
    for (const double side : {-s.v.wantedField, s.v.wantedField}) {
        if (!(s.v.wantedField > 0)) break;
        const QPointF u(std::cos(side), -std::sin(side));
        p.drawLine(eye + u * (r - 7), eye + u * (r + 7));
    }
    const QString words =
        open ? "open " + QString::fromStdString(printAngle(s.v.field.port, 0)) + " to port, " +
                   QString::fromStdString(printAngle(s.v.field.starboard, 0)) + " to starboard"
        : std::isfinite(s.v.beyondNose)
            ? QStringLiteral("ahead only ground is seen, nothing level with the eyes")
            : QStringLiteral("nothing is seen straight ahead");
    inkWords(p, {eye.x(), box.top() - 14}, words, open ? c.ink : c.tight, Anchor::centre, true);
    s.d.spot({eye.x(), box.top()}, RideThing::field, -1, 18);
}

/// Nearest ground that is seen ahead, and where it comes to a stop.
void paintAhead(const SightSheet& s) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    const double nose = s.d.body.plan.box.max.x() - s.eye.x();
    const auto arc = [&](double mm, const QColor& colour, Qt::PenStyle style, double half) {
        QPolygonF line;
        for (int i = -16; i <= 16; ++i) line << s.at(half * i / 16, mm);
        p.setPen(QPen(colour, 2.2, style, Qt::FlatCap));
        p.setBrush(Qt::NoBrush);
        p.drawPolyline(line);
    };
    const bool endless = !std::isfinite(s.v.beyondNose);
    const bool late = endless || s.v.beyondNose > s.v.wanted + 1e-6;
    if (s.v.stops > 0 && nose + s.v.stops < s.reach) {
        arc(nose + s.v.stops, c.ink, Qt::DashLine, 26 * trial::degree);
        inkWords(p, s.at(-29 * trial::degree, nose + s.v.stops - 0.06 * s.reach),
                 "stops within " + lengthText(s.v.stops, s.d.e.units), c.ink, Anchor::right);
    }
    if (endless || nose + s.v.beyondNose > s.reach) {
        inkWords(p, s.at(0, std::min(s.reach * 0.8, std::max(nose + 300, s.reach * 0.72))),
                 endless ? QStringLiteral("no ground is seen ahead")
                         : "seen only from " + lengthText(s.v.beyondNose, s.d.e.units),
                 c.tight, Anchor::centre, true);
        return;
    }
    const QColor colour = late ? c.tight : c.fits;
    arc(nose + s.v.beyondNose, colour, Qt::SolidLine, 12 * trial::degree);
    inkDimension(p, s.at(0, nose), s.at(0, nose + s.v.beyondNose),
                 (late ? "blind for " : "seen from ") + lengthText(s.v.beyondNose, s.d.e.units), colour);
    s.d.spot(s.at(0, nose + s.v.beyondNose / 2), RideThing::ground, -1, 22);
}

void paintEye(const SightSheet& s, const QRectF& area) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    const SeenBody& body = s.d.body.side;
    const double nose = body.box.max.x();
    // As far as the ground that is seen, or the way to stop, but the body stays large enough.
    const double most = std::max(300.0, 2.5 * body.box.size().x());
    const double seen = std::isfinite(s.v.beyondNose) ? s.v.beyondNose : s.v.stops;
    const double right = nose + std::clamp(seen, 300.0, most) + 150;
    PaperView view;
    view.fit({{body.box.min.x() - 80, -60}, {right, std::max(body.box.max.y(), s.eye.z()) + 120}},
             area.adjusted(100, 6, -10, -26));
    inkBody(p, body, [&](const Vec2& mm) { return view.toScreen(mm); }, {true, true, true, true});
    inkGround(p, QPolygonF{view.toScreen({body.box.min.x() - 60, 0}), view.toScreen({right, 0})}, c.ink);
    const Vec2 eye(s.eye.x(), s.eye.z());
    const QPointF at = view.toScreen(eye);
    QPen sightLine(c.chosen, 1.4);
    if (std::isfinite(s.v.beyondNose)) {
        const Vec2 meets(nose + s.v.beyondNose, 0);
        const Vec2 end = meets.x() > right
                             ? Vec2(eye + (meets - eye) * ((right - eye.x()) / (meets.x() - eye.x())))
                             : meets;
        p.setPen(sightLine);
        p.drawLine(at, view.toScreen(end));
        const double y = view.toScreen({0, 0}).y() + 18;
        if (meets.x() > right) // it meets the ground off the sheet
            inkWords(p, {view.toScreen({right, 0}).x(), y},
                     "ground seen from " + lengthText(s.v.beyondNose, s.d.e.units) + " on →", c.chosen,
                     Anchor::right);
        else
            inkDimension(p, {view.toScreen({nose, 0}).x(), y}, {view.toScreen({end.x(), 0}).x(), y},
                         lengthText(s.v.beyondNose, s.d.e.units), c.chosen);
    }
    sightLine.setDashPattern({8, 3, 1.5, 3});
    p.setPen(sightLine);
    p.drawLine(at, view.toScreen({right, eye.y()}));
    const double rear = view.toScreen({body.box.min.x() - 40, 0}).x();
    const double ground = view.toScreen({0, 0}).y();
    inkDimension(p, {rear, ground}, {rear, at.y()}, {}, c.ink);
    inkWords(p, {rear - 8, (ground + at.y()) / 2}, "eyes " + lengthText(eye.y(), s.d.e.units), c.ink,
             Anchor::right);
    p.setPen(QPen(Theme::mix(c.ink, c.card, 0.4), 1));
    p.drawLine(QPointF(rear, at.y()), at);
    p.setPen(QPen(c.chosen, 1.6));
    p.setBrush(c.card);
    p.drawEllipse(at, 5.5, 5.5);
    p.setBrush(c.chosen);
    p.drawEllipse(at, 2, 2);
    for (std::size_t i = 0; i < s.v.openings.size(); ++i) {
        if (!s.d.isMarked(RideThing::slit, static_cast<int>(i))) continue;
        const QPointF slit = view.toScreen(seenAs(s.d.body.way.toLocal(s.v.openings[i].at), Look::side));
        p.setPen(QPen(c.chosen, 2.4));
        p.setBrush(Qt::NoBrush);
        p.drawEllipse(slit, 10, 10);
        inkWords(p, slit + QPointF(0, -20), QString::fromStdString(s.v.openings[i].opening), c.chosen,
                 Anchor::centre, true);
    }
}

} // namespace

void paintSight(const RideDraw& d, const trial::View& view) {
    if (d.body.plan.empty()) return;
    SightSheet s{d, view, d.body.way.toLocal(view.eye), 0, 0, {}};
    const Vec3 forward = d.body.way.axes.col(0);
    s.turned = std::atan2(forward.y(), forward.x());
    s.reach = view.map.reach > 0 ? view.map.reach : 5000;
    const bool wide = d.area.width() > 1.6 * d.area.height();
    QRectF map = d.area, side = d.area;
    if (wide) {
        map.setWidth(std::min(0.62 * d.area.width(), d.area.height() + 40));
        side.setLeft(map.right() + 8);
        side.setTop(d.area.top() + 0.22 * d.area.height());
        side.setBottom(d.area.bottom() - 0.18 * d.area.height());
    } else {
        map.setHeight(0.68 * d.area.height());
        side.setTop(map.bottom());
    }
    const double r = std::max(20.0, std::min(map.width() - 44, map.height() - 64) / 2);
    s.map.scale = r / s.reach;
    s.map.origin = map.center() + QPointF(-s.eye.x(), s.eye.y()) * s.map.scale + QPointF(0, 8);
    if (view.map.directions > 0) {
        paintMap(s);
        paintLegend(s, map);
    }
    inkBody(d.painter, d.body.plan, [&](const Vec2& mm) { return s.map.toScreen(mm); },
            {true, false, false, false});
    paintAhead(s);
    paintField(s);
    const QPointF eye = s.map.toScreen(s.eye.head<2>());
    d.painter.setPen(QPen(Theme::colours().chosen, 1.6));
    d.painter.setBrush(Theme::colours().card);
    d.painter.drawEllipse(eye, 4, 4);
    paintEye(s, side);
}

} // namespace slab::ui
