// A way out against whoever must pass it, and where ways out and gaps lie.
#include "ui/ride/ride_paint.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

/// The clear opening over the size that is wanted, both from one middle.
void paintClear(const RideDraw& d, const trial::WayOut& w, const QRectF& area) {
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    const Vec2 size(std::max(w.width, w.wantedWidth), std::max(w.height, w.wantedHeight));
    if (!(size.minCoeff() > 0)) return;
    PaperView view;
    view.fit({-size / 2, size / 2}, area.adjusted(76, 66, -60, -40), 0.6);
    const auto box = [&](double wide, double high) {
        return view.toScreen(Box2{Vec2(-wide, -high) / 2, Vec2(wide, high) / 2});
    };
    const QRectF clear = box(w.width, w.height), wanted = box(w.wantedWidth, w.wantedHeight);
    QPainterPath lacking;
    lacking.addRect(wanted);
    QPainterPath there;
    there.addRect(clear);
    inkHatch(p, lacking.subtracted(there), c.tight, 7);
    p.setPen(QPen(c.ink, 2));
    p.setBrush(Theme::mix(c.fits, c.card, 0.14));
    p.drawRect(clear);
    p.setBrush(Qt::NoBrush);
    if (w.wantedWidth > 0) {
        p.setPen(QPen(w.outcome == trial::Outcome::fails ? c.tight : c.chosen, 1.6, Qt::DashLine));
        p.drawRect(wanted);
    }
    const QRectF both = clear.united(wanted);
    inkDimension(p, {clear.left(), both.bottom() + 16}, {clear.right(), both.bottom() + 16},
                 lengthText(w.width, d.e.units), c.ink);
    inkDimension(p, {both.right() + 18, clear.bottom()}, {both.right() + 18, clear.top()},
                 lengthText(w.height, d.e.units), c.ink);
    if (w.wantedWidth > 0) {
        inkDimension(p, {wanted.left(), both.top() - 14}, {wanted.right(), both.top() - 14},
                     "wanted " + lengthText(w.wantedWidth, d.e.units), c.chosen);
        const double side = both.left() - 34; // its words stand clear of the outline
        inkDimension(p, {side, wanted.bottom()}, {side, wanted.top()}, lengthText(w.wantedHeight, d.e.units),
                     c.chosen);
    }
    inkWords(p, {area.center().x(), both.top() - 50},
             QString::fromStdString(w.opening) + ", clear and wanted", c.ink, Anchor::centre, true);
}

void paintRing(const RideDraw& d, const QPointF& at, const QColor& colour, bool marked, double radius) {
    d.painter.setPen(QPen(colour, marked ? 2.6 : 1.6));
    d.painter.setBrush(Qt::NoBrush);
    d.painter.drawEllipse(at, radius, radius);
}

void paintPlaces(const RideDraw& d, const PaperView& view, Look look, int way) {
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    const trial::Trial& t = *d.e.trial;
    const auto place = [&](const Vec3& at) { return view.toScreen(seenAs(d.body.way.toLocal(at), look)); };
    for (std::size_t i = 0; i < t.gaps.size(); ++i) {
        const int index = static_cast<int>(i);
        const bool marked = d.isMarked(RideThing::gap, index);
        const QPointF at = place(t.gaps[i].at);
        paintRing(d, at, d.colourOf(RideThing::gap, index, c.quiet), marked, marked ? 9 : 5);
        if (marked)
            inkWords(p, at + QPointF(0, -18),
                     QString::fromStdString(t.gaps[i].what) + " " + lengthText(t.gaps[i].size, d.e.units),
                     c.ink, Anchor::centre, true);
        d.spot(at, RideThing::gap, index, 9);
    }
    for (std::size_t i = 0; i < t.waysOut.size(); ++i) {
        const int index = static_cast<int>(i);
        const trial::WayOut& w = t.waysOut[i];
        const QPointF at = place(w.at);
        const bool marked = index == way;
        if (marked && d.e.donor && !d.e.donor->people.empty()) {
            const Vec3 seat = d.e.donor->people.front().seat + Vec3(0, 0, 250);
            const QColor& ink = w.inTheWay.empty() ? c.fits : c.quiet;
            if (w.path.size() == 3) {
                p.setPen(QPen(ink, 2.2));
                p.drawLine(place(w.path[0]), place(w.path[1]));
            }
            inkArrow(p, w.path.size() == 3 ? place(w.path[1]) : place(seat), at, ink, 2.2);
        }
        paintRing(d, at, d.colourOf(RideThing::way, index, outcomeColour(w.outcome)), marked, 8);
        if (marked)
            inkWords(p, at + QPointF(0, -20), QString::fromStdString(w.opening), c.ink, Anchor::centre, true);
        d.spot(at, RideThing::way, index, 10);
    }
}

/// Solids that stand before a way out, filled.
void paintBarring(const RideDraw& d, const PaperView& view, Look look, const trial::WayOut& w) {
    const Palette& c = Theme::colours();
    if (!d.e.donor) return;
    for (const FitSolid& solid : d.e.donor->solids) {
        if (std::find(w.inTheWay.begin(), w.inTheWay.end(), solid.name) == w.inTheWay.end()) continue;
        std::vector<Vec2> points;
        for (const Vec3& v : toPolyhedron(solid.shape, 24).vertices)
            points.push_back(seenAs(d.body.way.toLocal(v), look));
        const Ring ring = convexHull(std::move(points));
        if (ring.size() < 3) continue;
        const QPainterPath path = view.path({ring, {}});
        inkHatch(d.painter, path, c.quiet, 6);
        d.painter.setPen(QPen(c.quiet, 1.6));
        d.painter.setBrush(Qt::NoBrush);
        d.painter.drawPath(path);
        inkWords(d.painter, path.boundingRect().center(), QString::fromStdString(solid.name), c.ink);
    }
}

} // namespace

void paintLeaving(const RideDraw& d, int way) {
    if (d.body.plan.empty() || !d.e.trial) return;
    const trial::Trial& t = *d.e.trial;
    const bool chosen = way >= 0 && static_cast<std::size_t>(way) < t.waysOut.size();
    QRectF views = d.area, clear = d.area;
    if (chosen && d.area.width() > 560) {
        clear.setLeft(d.area.right() - 0.40 * d.area.width());
        views.setRight(clear.left() - 8);
    } else if (chosen) {
        clear.setTop(d.area.bottom() - 0.4 * d.area.height());
        views.setBottom(clear.top());
    }
    const Box2 &plan = d.body.plan.box, &side = d.body.side.box;
    const double high = side.max.y(), long_ = plan.size().x();
    constexpr double margin = 30, between = 36;
    const double scale =
        std::max(1e-3, std::min((views.width() - 2 * margin) / long_,
                                (views.height() - 2 * margin - between) / (plan.size().y() + high)));
    const double used = (plan.size().y() + high) * scale + between;
    const double left = views.center().x() - long_ * scale / 2, top = views.center().y() - used / 2;
    const PaperView above{scale, {left - plan.min.x() * scale, top + plan.max.y() * scale}};
    const PaperView beside{scale, {above.origin.x(), top + used}};
    for (const Look look : {Look::plan, Look::side}) {
        const PaperView& view = look == Look::plan ? above : beside;
        inkBody(d.painter, d.body.of(look), [&](const Vec2& mm) { return view.toScreen(mm); },
                {true, true, true, true});
        if (look == Look::side)
            inkGround(d.painter,
                      QPolygonF{view.toScreen({side.min.x() - 60, 0}), view.toScreen({side.max.x() + 60, 0})},
                      Theme::colours().ink);
        if (chosen) paintBarring(d, view, look, t.waysOut[static_cast<std::size_t>(way)]);
        paintPlaces(d, view, look, way);
    }
    if (chosen) paintClear(d, t.waysOut[static_cast<std::size_t>(way)], clear);
}

} // namespace slab::ui
