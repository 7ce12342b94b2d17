// Under a lintel, seen from behind.
#include "ui/ride/ride_paint.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>

namespace slab::ui {

namespace {

QPainterPath frameOf(const PaperView& view, const Doorposts& j, double clear, double thick) {
    const auto box = [&](double left, double low, double right, double high) {
        return QRectF(view.toScreen({left, high}), view.toScreen({right, low}));
    };
    QPainterPath path;
    path.addRect(box(-j.port - thick, 0, -j.starboard + thick, clear + thick));
    QPainterPath hole;
    hole.addRect(box(-j.port, 0, -j.starboard, clear));
    return path.subtracted(hole);
}

} // namespace

void paintHeadroom(const RideDraw& d, const trial::RouteResult& r) {
    const SeenBody& seen = d.body.end;
    if (seen.empty() || !r.at) return;
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    const Vec2 mark = seenAs(d.body.way.toLocal(*r.at), Look::end);
    const double clear = mark.y() + r.margin, thick = 100; // mm
    const Box2& plan = d.body.plan.box;
    const double aside = 200; // mm: where nothing bounds it to the sides
    const Doorposts jambs = doorpostsOf(d, r).value_or(
        Doorposts{plan.max.y() + aside, plan.min.y() - aside, plan.max.x(), plan.max.x()});
    PaperView view;
    const Box2 frame{{-jambs.port - thick, -40},
                     {-jambs.starboard + thick, std::max(clear, mark.y()) + thick}};
    view.fit(united(seen.box, frame), d.area.adjusted(44, 48, -16, -30));
    p.save();
    p.setClipRect(d.area, Qt::IntersectClip);
    inkBody(p, seen, [&](const Vec2& mm) { return view.toScreen(mm); });
    const QPainterPath path = frameOf(view, jambs, clear, thick);
    inkHatch(p, path, Theme::mix(c.ink, c.card, 0.55));
    p.setPen(QPen(c.ink, 1.6));
    p.setBrush(Qt::NoBrush);
    p.drawPath(path);
    inkGround(p, QPolygonF{view.toScreen({frame.min.x(), 0}), view.toScreen({frame.max.x(), 0})}, c.ink);
    // Beside the frame, read from the right as heights are.
    const QPointF foot = view.toScreen({frame.min.x(), 0}) - QPointF(12, 0),
                  head = view.toScreen({frame.min.x(), clear}) - QPointF(12, 0);
    inkDimension(p, foot, head, {}, c.ink);
    p.save();
    p.translate((foot + head) / 2 - QPointF(12, 0));
    p.rotate(-90);
    inkWords(p, {}, "clear " + lengthText(clear, d.e.units), c.ink);
    p.restore();
    const QColor colour = outcomeColour(r.outcome);
    const QPointF at = view.toScreen(mark);
    p.setPen(QPen(colour, 2));
    p.setBrush(Qt::NoBrush);
    p.drawEllipse(at, 9, 9);
    const double top = view.toScreen({0, std::max(clear, mark.y()) + thick}).y();
    const QPointF words(
        std::clamp(at.x(), d.area.left() + 110, std::max(d.area.left() + 110, d.area.right() - 110)),
        top - 12);
    inkWords(p, words,
             QString::fromStdString(printFine(std::abs(r.margin), d.e.units)) +
                 (r.margin < 0 ? " short above" : " to spare above"),
             colour, Anchor::centre, true);
    inkWords(p, words - QPointF(0, 16), QString::fromStdString(r.binds), c.ink);
    p.restore();
    if (d.marked >= 0)
        d.spots.push_back({at, 14, d.rows[static_cast<std::size_t>(d.marked)].spoken(), d.marked});
}

} // namespace slab::ui
