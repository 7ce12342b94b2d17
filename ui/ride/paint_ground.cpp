// The body driven along the ground, seen from the side.
#include "core/trial/words.h"
#include "ui/ride/ride_paint.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double liftSeen = 0.5; ///< mm

struct GroundSheet {
    const RideDraw& d;
    const trial::RouteResult& r;
    route::SidePose pose;
    PaperView view;
    [[nodiscard]] QPointF place(const Vec2& body) const { return view.toScreen(pose.place(body)); }
};

/// The poses are at even steps: the least gap lies between the worst one's neighbours.
route::SidePose closestPose(const trial::RouteResult& r) {
    const auto at = static_cast<std::size_t>(r.worst);
    const route::SidePose& worst = r.poses[at];
    double low = r.poses[at > 0 ? at - 1 : at].at.x(),
           high = r.poses[std::min(at + 1, r.poses.size() - 1)].at.x();
    route::SidePose best = worst;
    double least = route::gapUnder(r.ground, r.side, worst).height;
    constexpr int steps = 24;
    for (int round = 0; round < 3; ++round) {
        const double step = (high - low) / steps;
        for (int i = 0; i <= steps; ++i) {
            const auto pose = route::standAt(r.ground, r.side, low + i * step, worst.pitch);
            if (!pose) continue;
            const double gap = route::gapUnder(r.ground, r.side, *pose).height;
            if (gap >= least) continue;
            least = gap;
            best = *pose;
        }
        low = best.at.x() - step;
        high = best.at.x() + step;
    }
    return best;
}

/// The whole way where that leaves the body large enough, else what is about the body.
Box2 windowOf(const RideDraw& d, const trial::RouteResult& r, const route::SidePose& pose) {
    Box2 body{pose.place(d.body.side.box.min), pose.place(d.body.side.box.min)};
    for (const double x : {d.body.side.box.min.x(), d.body.side.box.max.x()})
        for (const double z : {0.0, d.body.side.box.max.y()}) {
            const Vec2 p = pose.place({x, z});
            body = united(body, Box2{p, p});
        }
    const double length = std::max(500.0, body.size().x());
    double low = body.min.x() - 0.3 * length, high = body.max.x() + 0.3 * length;
    const double first = r.ground.points.front().x() - length, last = r.ground.points.back().x() + length;
    if (last - first < 3.2 * length) {
        low = std::min(low, first);
        high = std::max(high, last);
    }
    Box2 box{{low, body.min.y()}, {high, body.max.y()}};
    for (const double x : {low, high}) {
        const Vec2 p(x, route::groundAt(r.ground, x));
        box = united(box, Box2{p, p});
    }
    for (const Vec2& p : r.ground.points)
        if (p.x() > low && p.x() < high) box = united(box, Box2{p, p});
    return {box.min - Vec2(0, 90), box.max + Vec2(0, 60)};
}

/// Where the line goes down to the words of the least gap, px.
std::optional<double> leaderOf(const GroundSheet& s) {
    if (s.r.poses.empty()) return std::nullopt;
    const route::GroundGap gap = route::gapUnder(s.r.ground, s.r.side, s.pose);
    if (!std::isfinite(gap.height)) return std::nullopt;
    return s.view.toScreen(s.pose.place(gap.at)).x();
}

void paintLine(const GroundSheet& s) {
    const Box2 seen{s.view.toPaper({s.d.area.left(), s.d.area.bottom()}),
                    s.view.toPaper({s.d.area.right(), s.d.area.top()})};
    QPolygonF line{s.view.toScreen({seen.min.x(), route::groundAt(s.r.ground, seen.min.x())})};
    for (const Vec2& p : s.r.ground.points)
        if (p.x() > seen.min.x() && p.x() < seen.max.x()) line << s.view.toScreen(p);
    line << s.view.toScreen({seen.max.x(), route::groundAt(s.r.ground, seen.max.x())});
    inkGround(s.d.painter, line, Theme::colours().ink);
    // What each sloping stretch is.
    for (std::size_t i = 0; i + 1 < s.r.ground.points.size(); ++i) {
        const Vec2 &a = s.r.ground.points[i], &b = s.r.ground.points[i + 1], way = b - a;
        const double wide = (s.view.toScreen(b) - s.view.toScreen(a)).manhattanLength();
        if (std::abs(way.y()) < 1 || wide < 56) continue;
        QPointF below = s.view.toScreen((a + b) / 2) + QPointF(0, 24);
        constexpr double apart = 46; // of the line down to the least gap, px
        if (const auto leader = leaderOf(s); leader && std::abs(below.x() - *leader) < apart)
            below.setX(*leader + (below.x() < *leader ? -apart : apart));
        if (way.x() < 1)
            inkWords(s.d.painter, below + QPointF(12, -24), lengthText(std::abs(way.y()), s.d.e.units),
                     Theme::colours().quiet, Anchor::left);
        else
            inkWords(s.d.painter, below,
                     QString::fromStdString(trial::slopeWords(std::abs(way.y()) / way.x())) +
                         (way.y() > 0 ? " up" : " down"),
                     Theme::colours().quiet);
    }
}

void paintAxles(const GroundSheet& s) {
    const Palette& c = Theme::colours();
    QPainter& p = s.d.painter;
    for (std::size_t i = 0; i < s.r.side.axles.size(); ++i) {
        const route::Axle& axle = s.r.side.axles[i];
        const QPointF hub = s.place({axle.x, axle.radius});
        const double r = axle.radius * s.view.scale;
        p.setPen(QPen(c.ink, 1.8));
        p.setBrush(Theme::mix(c.donor, c.card, 0.22));
        p.drawEllipse(hub, r, r);
        p.drawEllipse(hub, 1.5, 1.5);
        const double gap = i < s.pose.gaps.size() ? s.pose.gaps[i] : 0;
        if (gap < liftSeen) continue;
        p.setPen(QPen(c.tight, 2, Qt::DashLine));
        p.setBrush(Qt::NoBrush);
        p.drawEllipse(hub, r + 3, r + 3);
        inkWords(p, hub + QPointF(0, -r - 13), "lifts " + QString::fromStdString(printFine(gap, s.d.e.units)),
                 c.tight, Anchor::centre, true);
    }
}

/// Where it comes nearest to the ground in this pose.
void paintGap(const GroundSheet& s) {
    const route::GroundGap gap = route::gapUnder(s.r.ground, s.r.side, s.pose);
    if (!std::isfinite(gap.height)) return;
    const Palette& c = Theme::colours();
    const Vec2 at = s.pose.place(gap.at);
    const QPointF body = s.view.toScreen(at), ground = s.view.toScreen({at.x(), at.y() - gap.height});
    const QColor colour = gap.height < 0 ? c.hits : gap.height < 15 ? c.tight : c.fits;
    QPainter& p = s.d.painter;
    p.setPen(QPen(colour, 2));
    p.setBrush(Qt::NoBrush);
    p.drawEllipse(body, 7, 7);
    const QString size = QString::fromStdString(printFine(std::abs(gap.height), s.d.e.units));
    p.drawLine(body, ground);
    const QPointF words(ground.x(), std::max(body.y(), ground.y()) + 46);
    p.setPen(QPen(colour, 1));
    p.drawLine(QPointF(ground.x(), std::max(body.y(), ground.y()) + 6), words - QPointF(0, 9));
    inkWords(p, words, gap.height < 0 ? size + " into the ground" : size + " over the ground", colour,
             Anchor::centre, true);
}

} // namespace

void paintGround(const RideDraw& d, const trial::RouteResult& r, int index) {
    if (r.ground.points.size() < 2) return;
    const Palette& c = Theme::colours();
    QPainter& p = d.painter;
    GroundSheet s{d, r, {}, {}};
    const bool posed = index >= 0 && static_cast<std::size_t>(index) < r.poses.size();
    if (posed) s.pose = index == r.worst ? closestPose(r) : r.poses[static_cast<std::size_t>(index)];
    s.view.fit(windowOf(d, r, s.pose), d.area.adjusted(6, 30, -6, -30), 2);
    p.save();
    p.setClipRect(d.area, Qt::IntersectClip);
    if (posed) {
        inkBody(p, d.body.side, [&](const Vec2& mm) { return s.place(mm); });
        const QPointF centre = s.place(r.side.centre);
        p.setPen(QPen(s.pose.tips ? c.hits : Theme::mix(c.ink, c.card, 0.5), 1, Qt::DashLine));
        const Vec2 at = s.pose.place(r.side.centre);
        p.drawLine(centre, s.view.toScreen({at.x(), route::groundAt(r.ground, at.x())}));
        inkCentre(p, centre, 6, s.pose.tips ? c.hits : c.ink);
        paintAxles(s);
    }
    paintLine(s);
    if (posed) {
        paintGap(s);
        const QString pitch = std::abs(s.pose.pitch) < 0.05 * trial::degree
                                  ? QStringLiteral("level")
                                  : QString::fromStdString(printAngle(std::abs(s.pose.pitch))) +
                                        (s.pose.pitch > 0 ? " nose up" : " nose down");
        inkWords(p, {d.area.left() + 12, d.area.top() + 14},
                 (index == r.worst ? "closest here · " : QString()) + pitch +
                     (s.pose.tips ? " · it tips here" : ""),
                 s.pose.tips ? c.hits : c.ink, Anchor::left, index == r.worst);
    }
    p.restore();
}

} // namespace slab::ui
