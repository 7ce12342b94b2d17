// How it stands: plan, side and end on one sheet, at one scale.
#include "core/trial/words.h"
#include "ui/ride/ride_paint.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace slab::ui {

int RideDraw::rowOf(RideThing thing, int index) const {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].thing == thing && (index < 0 || rows[i].index == index)) return static_cast<int>(i);
    return -1;
}

bool RideDraw::isMarked(RideThing thing, int index) const {
    const auto at = static_cast<std::size_t>(marked);
    return marked >= 0 && at < rows.size() && rows[at].thing == thing &&
           (index < 0 || rows[at].index == index);
}

QColor RideDraw::colourOf(RideThing thing, int index, const QColor& clear) const {
    const Palette& c = Theme::colours();
    const int row = rowOf(thing, index);
    const auto told = row < 0 ? std::nullopt : rows[static_cast<std::size_t>(row)].severity();
    if (!told) return clear;
    return *told == Severity::stop ? c.hits : *told == Severity::look ? c.tight : c.quiet;
}

void RideDraw::spot(const QPointF& at, RideThing thing, int index, double reach) const {
    const int row = rowOf(thing, index);
    if (row >= 0) spots.push_back({at, reach, rows[static_cast<std::size_t>(row)].spoken(), row});
}

namespace {

/// The three views: the plan about the wheels, side and end at one scale.
struct StandSheet {
    const RideDraw& d;
    const trial::Balance& b;
    Vec3 centre = Vec3::Zero(); ///< of mass, axes of the way
    std::vector<Vec2> wheels;   ///< in plan
    PaperView plan, side, end;
    QRectF planArea, rose;
};

Box2 boxOf(const std::vector<Vec2>& points) {
    Box2 box{points.front(), points.front()};
    for (const Vec2& p : points) box = united(box, Box2{p, p});
    return box;
}

/// Side and end stand on one line of ground.
void placeElevations(StandSheet& s, const QRectF& area) {
    const RideDraw& d = s.d;
    Box2 plan = boxOf(s.wheels);
    if (!d.body.plan.empty()) plan = united(plan, d.body.plan.box);
    const double high = std::max({d.body.side.box.max.y(), s.centre.z(), 100.0});
    const Vec2 size = plan.size();
    constexpr double left = 34, right = 34, top = 8, between = 70, bottom = 40;
    const double room = area.width() - left - right - between, tall = area.height() - top - bottom;
    const double scale = std::max(1e-3, std::min(room / (size.x() + size.y()), tall / high));
    const double spare = std::max(0.0, room - (size.x() + size.y()) * scale) / 3;
    const double ground = area.bottom() - bottom;
    const double start = area.left() + left + spare;
    s.side = {scale, {start - plan.min.x() * scale, ground}};
    const double endLeft = start + size.x() * scale + between + spare;
    s.end = {scale, {endLeft + plan.max.y() * scale, ground}};
}

StandSheet standSheet(const RideDraw& d, const trial::Balance& b, const QRectF& area) {
    StandSheet s{d, b, d.body.way.toLocal(b.stance.centre), {}, {}, {}, {}, {}, {}};
    for (const Vec2& w : b.stance.wheels)
        s.wheels.push_back(d.body.way.toLocal(Vec3(w.x(), w.y(), 0)).head<2>());
    const double tall = area.height() * 0.5, wide = area.width() * (area.width() > 420 ? 0.64 : 1);
    s.planArea = QRectF(area.left(), area.top(), wide, tall);
    s.rose = QRectF(s.planArea.right() + 4, area.top(), area.width() - wide - 8, tall);
    const Box2 stance = boxOf(s.wheels);
    const Vec2 grow = Vec2::Constant(0.16 * stance.size().maxCoeff() + 60);
    s.plan.fit({stance.min - grow, stance.max + grow}, s.planArea.adjusted(56, 6, -56, -6));
    placeElevations(s, QRectF(area.left(), s.planArea.bottom() + 6, area.width(), area.height() - tall - 6));
    return s;
}

void paintWheelMarks(const StandSheet& s) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    if (!s.d.e.donor) return;
    const auto& wheels = s.d.e.donor->chassis.wheels;
    for (std::size_t i = 0; i < wheels.size() && i < s.wheels.size(); ++i) {
        const double r = std::max(20.0, wheels[i].radius), w = std::max(20.0, wheels[i].width) / 2;
        p.setPen(QPen(c.ink, 1.2));
        p.setBrush(Theme::mix(c.donor, c.card, 0.25));
        const Vec2& at = s.wheels[i];
        p.drawRoundedRect(s.plan.toScreen(Box2{at - Vec2(r, w), at + Vec2(r, w)}), 3, 3);
    }
}

void paintLoads(const StandSheet& s, int standing) {
    const auto at = static_cast<std::size_t>(standing);
    if (at >= s.b.standings.size()) return;
    const trial::Standing& how = s.b.standings[at];
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    if (!how.stands) {
        const double y = s.plan.toScreen(s.centre.head<2>()).y() + 24;
        inkWords(p, {s.plan.toScreen(s.centre.head<2>()).x(), y},
                 "tips over " + QString::fromStdString(how.words), c.hits, Anchor::centre, true, 13);
        return;
    }
    double most = 1;
    for (const double load : how.loads) most = std::max(most, load);
    for (std::size_t i = 0; i < how.loads.size() && i < s.wheels.size(); ++i) {
        const QPointF mark = s.plan.toScreen(s.wheels[i]);
        const int wheel = static_cast<int>(i);
        const bool lifts = how.loads[i] < 1;
        const double r = 4 + 13 * std::sqrt(how.loads[i] / most); // its area goes with the load
        QColor fill = lifts ? c.tight : c.chosen;
        fill.setAlphaF(0.28F);
        p.setPen(QPen(lifts ? c.tight : c.chosen, s.d.isMarked(RideThing::wheel, wheel) ? 2.4 : 1.2,
                      lifts ? Qt::DashLine : Qt::SolidLine));
        p.setBrush(fill);
        p.drawEllipse(mark, r, r);
        const bool port = s.wheels[i].y() >= s.centre.y(); // inward: the tip lines' angles stand outside
        inkWords(p, mark + QPointF(0, port ? r + 9 : -r - 9),
                 lifts ? QStringLiteral("lifts") : loadWords(how.loads[i], s.d.e.units),
                 lifts ? c.tight : c.ink, Anchor::centre, s.d.isMarked(RideThing::wheel, wheel));
        s.d.spot(mark, RideThing::wheel, wheel, r + 4);
    }
}

void paintTipLines(const StandSheet& s) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    QPolygonF polygon;
    for (const ride::TipLine& line : s.b.lines)
        polygon << s.plan.toScreen(s.wheels[static_cast<std::size_t>(line.from)]);
    QColor fill = c.fits;
    fill.setAlphaF(0.10F);
    p.setPen(Qt::NoPen);
    p.setBrush(fill);
    p.drawPolygon(polygon);
    for (std::size_t i = 0; i < s.b.lines.size(); ++i) {
        const ride::TipLine& line = s.b.lines[i];
        const QPointF a = s.plan.toScreen(s.wheels[static_cast<std::size_t>(line.from)]);
        const QPointF b = s.plan.toScreen(s.wheels[static_cast<std::size_t>(line.to)]);
        const bool worst = line == s.b.least.line,
                   marked = s.d.isMarked(RideThing::line, static_cast<int>(i));
        QPen pen(worst    ? c.ink
                 : marked ? c.chosen
                          : Theme::mix(c.ink, c.card, 0.7),
                 worst    ? 3
                 : marked ? 2.2
                          : 1.2);
        if (!worst && !marked) pen.setDashPattern({8, 3, 1.5, 3});
        p.setPen(pen);
        p.drawLine(a, b);
        const Vec3 out3 = s.d.body.way.axes.transpose() * Vec3(line.outward.x(), line.outward.y(), 0);
        const QPointF out(out3.x(), -out3.y()), middle = (a + b) / 2;
        const bool across = std::abs(out.x()) > 0.5;
        const QString angle = QString::fromStdString(printAngle(line.angle));
        const QPointF at = middle + out * (across ? 14 : 30);
        inkWords(p, at, worst ? "tips first " + angle : angle,
                 line.angle <= 0   ? c.hits
                 : worst || marked ? c.ink
                                   : c.quiet,
                 !across       ? Anchor::centre
                 : out.x() > 0 ? Anchor::left
                               : Anchor::right,
                 worst);
        s.d.spot(middle, RideThing::line, static_cast<int>(i), 16);
    }
}

/// The line of the weight meets the ground downhill of its middle.
void paintWeight(const StandSheet& s, int standing) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    const QPointF centre = s.plan.toScreen(s.centre.head<2>());
    const auto at = static_cast<std::size_t>(standing);
    if (at < s.b.standings.size() && s.b.standings[at].slope.angle > 0) {
        const ride::Slope& slope = s.b.standings[at].slope;
        const Vec3 body(std::cos(slope.heading), std::sin(slope.heading), 0);
        const Vec2 up = (s.d.body.way.axes.transpose() * body).head<2>();
        const QPointF falls = s.plan.toScreen(s.centre.head<2>() - up * s.centre.z() * std::tan(slope.angle));
        inkArrow(p, centre, falls, c.ink, 1.6);
        const QPointF uphill(up.x(), -up.y());
        const QPointF tail = centre + uphill * 30, head = centre + uphill * 84;
        inkArrow(p, tail, head, c.chosen, 1.6);
        inkWords(p, head + uphill * 26, "uphill", c.chosen);
    }
    inkCentre(p, centre, 7, c.ink);
}

/// Wheels, ground, and the middle of all mass with its height.
void paintElevation(const StandSheet& s, const PaperView& view, Look look) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    const SeenBody& seen = s.d.body.of(look);
    inkBody(p, seen, [&](const Vec2& mm) { return view.toScreen(mm); });
    double low = seen.empty() ? 0 : seen.box.min.x(), high = seen.empty() ? 0 : seen.box.max.x();
    std::vector<double> feet;
    for (const Vec2& w : s.wheels) feet.push_back(look == Look::side ? w.x() : -w.y());
    for (const double x : feet) low = std::min(low, x), high = std::max(high, x);
    inkGround(p, QPolygonF{view.toScreen({low - 60, 0}), view.toScreen({high + 60, 0})}, c.ink);
    const Vec2 centre = seenAs(s.centre, look);
    const QPointF mark = view.toScreen(centre), foot = view.toScreen({centre.x(), 0});
    const auto [rear, front] = std::minmax_element(feet.begin(), feet.end());
    QPen thin(Theme::mix(c.ink, c.card, 0.55), 1);
    thin.setDashPattern({6, 3});
    for (const double x : {*rear, *front}) {
        p.setPen(thin);
        p.drawLine(mark, view.toScreen({x, 0}));
    }
    inkDimension(p, foot, mark, lengthText(centre.y(), s.d.e.units), c.ink);
    inkCentre(p, mark, 7, c.ink);
    const double y = view.toScreen({0, 0}).y() + 24;
    const QPointF a(view.toScreen({*rear, 0}).x(), y), b(foot.x(), y), z(view.toScreen({*front, 0}).x(), y);
    const auto part = [&](const QPointF& from, const QPointF& to, double mm, bool before) {
        if (std::abs(to.x() - from.x()) < 3) return;
        const QString words = lengthText(std::abs(mm), s.d.e.units);
        const bool fits = std::abs(to.x() - from.x()) > 9.0 * static_cast<double>(words.size()) + 12;
        inkDimension(p, from, to, fits ? words : QString(), c.quiet);
        if (!fits)
            inkWords(p, before ? from - QPointF(8, 0) : to + QPointF(8, 0), words, c.quiet,
                     before ? Anchor::right : Anchor::left);
    };
    part(a, b, centre.x() - *rear, true);
    part(b, z, *front - centre.x(), false);
}

void paintWindArrow(const StandSheet& s) {
    for (std::size_t i = 0; i < s.b.winds.size(); ++i) {
        if (!s.d.isMarked(RideThing::wind, static_cast<int>(i))) continue;
        const trial::WindCase& w = s.b.winds[i];
        const Vec3 to(std::cos(w.towards), std::sin(w.towards), 0);
        const Vec2 way = (s.d.body.way.axes.transpose() * to).head<2>();
        const QPointF u(way.x(), -way.y()), centre = s.plan.toScreen(s.centre.head<2>());
        for (const double off : {-22.0, 0.0, 22.0}) {
            const QPointF v(-u.y() * off, u.x() * off);
            inkArrow(s.d.painter, centre + v - u * 96, centre + v - u * 40, Theme::colours().chosen, 1.6);
        }
        inkWords(s.d.painter, centre - u * 112, speedText(w.limits.least(), s.d.e.units),
                 Theme::colours().chosen, Anchor::centre, true);
    }
}

} // namespace

void paintStands(const RideDraw& d, const trial::Balance& balance, int standing) {
    constexpr double bar = 58;
    const QRectF area = d.area.adjusted(0, 0, 0, -bar);
    const StandSheet s = standSheet(d, balance, area);
    d.painter.save();
    d.painter.setClipRect(s.planArea, Qt::IntersectClip);
    inkBody(d.painter, d.body.plan, [&](const Vec2& mm) { return s.plan.toScreen(mm); },
            {true, false, false, true});
    paintWheelMarks(s);
    paintTipLines(s);
    paintLoads(s, standing);
    paintWeight(s, standing);
    paintWindArrow(s);
    d.painter.restore();
    paintElevation(s, s.side, Look::side);
    paintElevation(s, s.end, Look::end);
    if (s.rose.width() > 110 && s.rose.height() > 110) paintTipRose(d, balance, s.rose);
    paintLoadBar(d, balance, QRectF(d.area.left() + 16, d.area.bottom() - bar, d.area.width() - 32, bar));
}

} // namespace slab::ui
