// What is driven through, into or round, in plan.
#include "ui/ride/ride_paint.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ui {

namespace {

bool bendsAway(const trial::RouteResult& r) {
    return r.kind == "corner" || r.kind == "t_turn";
}

/// What it stands in rather than beside.
bool isFloor(const trial::RouteResult& r, const Ring& wall, const Vec2& middle) {
    return !bendsAway(r) && contains(wall, middle);
}

/// The region to show: the body and what is near it.
Box2 shownBox(const RideDraw& d, const trial::RouteResult& r) {
    Box2 box = d.body.plan.box;
    const Vec2 grow = Vec2::Constant(0.16 * box.size().maxCoeff() + 100);
    Box2 near{box.min - grow, box.max + grow};
    for (const Ring& wall : r.walls)
        for (const Vec2& p : wall) {
            const Vec2 held = p.cwiseMax(near.min - 2 * grow).cwiseMin(near.max + 2 * grow);
            box = united(box, Box2{held, held});
        }
    return {box.min - Vec2::Constant(80), box.max + Vec2::Constant(80)};
}

void paintWall(const RideDraw& d, const trial::RouteResult& r, const Ring& wall, const PaperView& view,
               const Vec2& middle) {
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    if (bendsAway(r)) { // a line of a corner: its far side is wall
        QPolygonF line;
        for (const Vec2& q : wall) line << view.toScreen(q);
        p.setPen(QPen(c.ink, 2));
        p.setBrush(Qt::NoBrush);
        p.drawPolyline(line);
        if (wall.size() != 3) return;
        // Behind it, as seen from the body, is wall.
        const Vec2 in = (wall[1] - wall[0]).normalized(), on = (wall[2] - wall[1]).normalized();
        Vec2 away = on - in;
        if (away.norm() < 1e-9) return;
        away.normalize();
        const bool inner = (middle - wall[1]).dot(away) < 0;
        const Vec2 deep = (inner ? 1.0 : -1.0) * away * (160 / std::max(0.2, std::abs(cross2(in, on))));
        QPainterPath strip;
        strip.addPolygon(QPolygonF{view.toScreen(wall[0]), view.toScreen(wall[1]), view.toScreen(wall[2]),
                                   view.toScreen(wall[2] + deep), view.toScreen(wall[1] + deep),
                                   view.toScreen(wall[0] + deep)});
        inkHatch(p, strip, Theme::mix(c.ink, c.card, 0.5));
        return;
    }
    const QPainterPath path = view.path({wall, {}});
    if (isFloor(r, wall, middle)) {
        p.setPen(QPen(c.ink, 1.6, Qt::DashLine));
        p.setBrush(Qt::NoBrush);
        p.drawPath(path);
        return;
    }
    inkHatch(p, path, Theme::mix(c.ink, c.card, 0.55));
    p.setPen(QPen(c.ink, 1.6));
    p.setBrush(Qt::NoBrush);
    p.drawPath(path);
}

/// Clear width between two jambs, and the body's breadth against it.
void paintDoorway(const RideDraw& d, const trial::RouteResult& r, const PaperView& view) {
    const Palette& c = Theme::colours();
    const auto posts = doorpostsOf(d, r);
    if (!posts) return;
    const auto [port, starboard, x, back] = *posts;
    const double at = (x + back) / 2;
    inkDimension(d.painter, view.toScreen({at, starboard}), view.toScreen({at, port}), {}, c.ink);
    double end = port; // beyond the jamb, where nothing drives
    for (const Ring& wall : r.walls) end = std::max(end, bounds(wall).max.y());
    inkWords(d.painter, view.toScreen({at, end}) - QPointF(0, 12),
             "clear " + lengthText(port - starboard, d.e.units), c.ink);
    const Box2& body = d.body.plan.box;
    // Its sides carried on through the door.
    QPen thin(c.chosen, 1);
    thin.setDashPattern({6, 4});
    for (const double y : {body.min.y(), body.max.y()}) {
        d.painter.setPen(thin);
        d.painter.drawLine(view.toScreen({body.min.x(), y}), view.toScreen({x + 200, y}));
    }
    const double rear = body.min.x() - 60;
    inkDimension(d.painter, view.toScreen({rear, body.min.y()}), view.toScreen({rear, body.max.y()}),
                 lengthText(body.size().y(), d.e.units), c.chosen);
}

void paintTightest(const RideDraw& d, const trial::RouteResult& r, const PaperView& view) {
    if (!r.at) return;
    const Vec2 at = d.body.way.toLocal(*r.at).head<2>();
    const QPointF mark = view.toScreen(at);
    const QColor colour = outcomeColour(r.outcome);
    QPainter& p = d.painter;
    p.setPen(QPen(colour, 2));
    p.setBrush(Qt::NoBrush);
    p.drawEllipse(mark, 9, 9);
    const QString margin = QString::fromStdString(printFine(std::abs(r.margin), d.e.units)) +
                           (r.margin < 0 ? " short " : " to spare ") + QString::fromStdString(r.measure);
    const bool low = mark.y() > d.area.center().y();
    QPointF words = mark + QPointF(0, low ? 24 : -24);
    const double half = 150;
    words.setX(
        std::clamp(words.x(), d.area.left() + half, std::max(d.area.left() + half, d.area.right() - half)));
    inkWords(p, words, margin, colour, Anchor::centre, true);
    if (!r.binds.empty())
        inkWords(p, words + QPointF(0, low ? 16 : -16), QString::fromStdString(r.binds),
                 Theme::colours().ink);
    const int row = d.marked;
    if (row >= 0) d.spots.push_back({mark, 14, d.rows[static_cast<std::size_t>(row)].spoken(), row});
}

} // namespace

std::optional<Doorposts> doorpostsOf(const RideDraw& d, const trial::RouteResult& r) {
    constexpr double none = 1e9;
    Doorposts out{none, -none, -none, none};
    const Vec2 middle = (d.body.plan.box.min + d.body.plan.box.max) / 2;
    for (const Ring& wall : r.walls) {
        const Box2 box = bounds(wall);
        if (contains(wall, middle)) return std::nullopt;
        if (box.min.y() > middle.y()) out.port = std::min(out.port, box.min.y());
        if (box.max.y() < middle.y()) out.starboard = std::max(out.starboard, box.max.y());
        out.front = std::max(out.front, box.max.x());
        out.back = std::min(out.back, box.min.x());
    }
    if (out.port == none || out.starboard == -none) return std::nullopt;
    return out;
}

void paintPassage(const RideDraw& all, const trial::RouteResult& r) {
    if (all.body.plan.empty()) return;
    // Beside the plan what is least above; in its place where there is no room for both.
    const bool above = r.measure == "above" && r.at;
    constexpr double enough = 520; // px
    const double share = !above ? 1 : all.area.width() > enough ? 0.55 : 0;
    const auto part = [&](double from, double to) {
        const QRectF& whole = all.area;
        const QRectF area(whole.left() + from * whole.width(), whole.top(), (to - from) * whole.width(),
                          whole.height());
        return RideDraw{all.painter, area, all.e, all.body, all.rows, all.marked, all.spots};
    };
    if (above) paintHeadroom(part(share, 1), r);
    if (share == 0) return;
    const RideDraw d = part(0, share);
    PaperView view;
    view.fit(shownBox(d, r), d.area.adjusted(40, 30, above ? -70 : -16, -30));
    d.painter.save();
    d.painter.setClipRect(d.area, Qt::IntersectClip);
    const Vec2 middle = (d.body.plan.box.min + d.body.plan.box.max) / 2;
    for (const Ring& wall : r.walls) paintWall(d, r, wall, view, middle);
    inkBody(d.painter, d.body.plan, [&](const Vec2& mm) { return view.toScreen(mm); });
    if (!bendsAway(r)) paintDoorway(d, r, view);
    const QPointF nose = view.toScreen({d.body.plan.box.max.x(), middle.y()});
    inkArrow(d.painter, nose + QPointF(-46, 0), nose + QPointF(-8, 0), Theme::colours().chosen, 1.8);
    if (!above) paintTightest(d, r, view);
    d.painter.restore();
}

void paintTurning(const RideDraw& d, const trial::Turning& t, double wanted) {
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    const Vec2 centre = d.body.way.toLocal(Vec3(t.centre.x(), t.centre.y(), 0)).head<2>();
    const double most = std::max(t.path.outer, wanted / 2) + 60;
    PaperView view;
    view.fit({centre - Vec2::Constant(most), centre + Vec2::Constant(most)}, d.area.adjusted(8, 26, -8, -26));
    const QPointF at = view.toScreen(centre);
    const auto circle = [&](double mm) {
        QPainterPath path;
        path.addEllipse(at, mm * view.scale, mm * view.scale);
        return path;
    };
    const QPainterPath swept = circle(t.path.outer).subtracted(circle(t.path.inner));
    QColor fill = c.chosen;
    fill.setAlphaF(0.09F);
    p.fillPath(swept, fill);
    // The body's outline as it comes round, and once the body as it stands.
    constexpr int stations = 12;
    std::vector<Vec2> points;
    for (const auto& face : d.body.plan.shell)
        points.insert(points.end(), face.front().begin(), face.front().end());
    const Ring hull = convexHull(std::move(points));
    p.setPen(QPen(Theme::mix(c.chosen, c.card, 0.4), 1));
    p.setBrush(Qt::NoBrush);
    for (int i = 1; i < stations && hull.size() > 2; ++i) {
        const Eigen::Rotation2Dd turn(2 * std::numbers::pi * i / stations);
        QPolygonF ring;
        for (const Vec2& mm : hull) ring << view.toScreen(centre + turn * (mm - centre));
        p.drawPolygon(ring);
    }
    inkBody(p, d.body.plan, [&](const Vec2& mm) { return view.toScreen(mm); });
    p.setBrush(Qt::NoBrush);
    p.setPen(QPen(c.ink, 1.8));
    p.drawPath(circle(t.path.outer));
    if (t.path.inner > 0) {
        p.setPen(QPen(c.ink, 1.2, Qt::DashLine));
        p.drawPath(circle(t.path.inner));
    }
    if (wanted > 0) {
        const bool passes = wanted >= 2 * t.path.outer;
        p.setPen(QPen(passes ? c.fits : c.hits, 2, Qt::DashDotLine));
        p.drawPath(circle(wanted / 2));
        inkWords(p, at + QPointF(0, wanted / 2 * view.scale + (passes ? 12 : -12)),
                 (passes ? "room there is " : "only room there is ") + lengthText(wanted, d.e.units),
                 passes ? c.fits : c.hits, Anchor::centre, true);
    }
    const double r = t.path.outer * view.scale;
    const QPointF u(-0.7071, -0.7071);
    inkDimension(p, at, at + u * r, lengthText(t.path.outer, d.e.units), c.ink);
    inkWords(p, at + QPointF(0, -r - 12),
             "sweeps " + lengthText(t.path.diameter(), d.e.units) + " wall to wall", c.ink, Anchor::centre,
             true);
    p.setPen(QPen(c.ink, 1.2));
    p.drawLine(at - QPointF(6, 0), at + QPointF(6, 0));
    p.drawLine(at - QPointF(0, 6), at + QPointF(0, 6));
}

} // namespace slab::ui
