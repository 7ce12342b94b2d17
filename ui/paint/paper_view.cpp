#include "ui/paint/paper_view.h"
#include <QPolygonF>
#include <algorithm>
#include <cmath>

namespace slab::ui {

QRectF PaperView::toScreen(const Box2& mm) const {
    return QRectF(toScreen(mm.min), toScreen(mm.max)).normalized();
}

void PaperView::fit(const Box2& mm, const QRectF& into, double most) {
    const double w = std::max(mm.size().x(), 1e-6), h = std::max(mm.size().y(), 1e-6);
    scale = std::clamp(std::min(into.width() / w, into.height() / h), 1e-6, most);
    const Vec2 middle = (mm.min + mm.max) / 2;
    origin = {into.center().x() - middle.x() * scale, into.center().y() + middle.y() * scale};
}

void PaperView::zoomAt(const QPointF& px, double factor, double least, double most) {
    const double wanted = std::clamp(scale * factor, least, most);
    origin = px + (origin - px) * (wanted / scale);
    scale = wanted;
}

QPolygonF PaperView::ring(const Ring& points) const {
    QPolygonF out;
    out.reserve(static_cast<qsizetype>(points.size()));
    for (const auto& p : points) out << toScreen(p);
    return out;
}

QPainterPath PaperView::path(const Polygon& region) const {
    QPainterPath out;
    out.setFillRule(Qt::OddEvenFill);
    const auto add = [&](const Ring& points) {
        if (points.size() < 3) return;
        out.addPolygon(ring(points));
        out.closeSubpath();
    };
    add(region.outer);
    for (const auto& hole : region.holes) add(hole);
    return out;
}

double distanceToSegment(const QPointF& p, const QPointF& a, const QPointF& b) {
    const QPointF ab = b - a;
    const double length2 = QPointF::dotProduct(ab, ab);
    const double t = length2 > 0 ? std::clamp(QPointF::dotProduct(p - a, ab) / length2, 0.0, 1.0) : 0.0;
    const QPointF d = p - (a + ab * t);
    return std::hypot(d.x(), d.y());
}

namespace {

/// Distance to the border, negative outside.
double roomAt(const Polygon& region, const Vec2& p) {
    double least = 1e300;
    bool inside = false;
    const auto ring = [&](const Ring& points) {
        for (std::size_t i = 0, j = points.size() - 1; i < points.size(); j = i++) {
            const Vec2 &a = points[j], &b = points[i];
            const Vec2 ab = b - a;
            const double length2 = ab.squaredNorm();
            const double t = length2 > 0 ? std::clamp((p - a).dot(ab) / length2, 0.0, 1.0) : 0.0;
            least = std::min(least, (p - a - ab * t).norm());
            if ((a.y() > p.y()) != (b.y() > p.y()) &&
                p.x() < (b.x() - a.x()) * (p.y() - a.y()) / (b.y() - a.y()) + a.x())
                inside = !inside;
        }
    };
    ring(region.outer);
    for (const auto& hole : region.holes) {
        if (hole.size() >= 3) ring(hole);
    }
    return inside ? least : -least;
}

} // namespace

namespace {

/// Clips the segment to the box (Liang and Barsky 1984); true if any of it is inside.
bool meets(const Vec2& a, const Vec2& b, const Box2& box) {
    double from = 0, to = 1;
    const Vec2 d = b - a;
    for (int k = 0; k < 2; ++k) {
        if (std::abs(d[k]) < 1e-12) {
            if (a[k] < box.min[k] || a[k] > box.max[k]) return false;
            continue;
        }
        double near = (box.min[k] - a[k]) / d[k], far = (box.max[k] - a[k]) / d[k];
        if (near > far) std::swap(near, far);
        from = std::max(from, near), to = std::min(to, far);
        if (from > to) return false;
    }
    return true;
}

bool isInside(const Polygon& region, const Box2& box) {
    const auto crosses = [&](const Ring& ring) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            if (meets(ring[j], ring[i], box)) return true;
        }
        return false;
    };
    if (roomAt(region, (box.min + box.max) / 2) < 0 || crosses(region.outer)) return false;
    return std::none_of(region.holes.begin(), region.holes.end(),
                        [&](const Ring& hole) { return hole.size() >= 3 && crosses(hole); });
}

} // namespace

std::optional<QPointF> placeInside(const Polygon& region, const PaperView& view, double w, double h,
                                   const Vec2& favourite) {
    if (region.outer.size() < 3) return std::nullopt;
    const Vec2 half = Vec2(w, h) / (2 * view.scale);
    const Box2 all = bounds(region.outer);
    if (2 * half.x() > all.size().x() || 2 * half.y() > all.size().y()) return std::nullopt;
    const auto fits = [&](const Vec2& at) { return isInside(region, {at - half, at + half}); };
    if (fits(favourite)) return view.toScreen(favourite);
    std::optional<Vec2> best;
    constexpr int grid = 8;
    for (int i = 0; i <= grid; ++i) {
        for (int k = 0; k <= grid; ++k) {
            const Vec2 at = all.min + half + (all.size() - 2 * half).cwiseProduct(Vec2(i, k) / grid);
            if (best && (at - favourite).norm() >= (*best - favourite).norm()) continue;
            if (fits(at)) best = at;
        }
    }
    return best ? std::optional(view.toScreen(*best)) : std::nullopt;
}

Roomy roomiest(const Polygon& region) {
    if (region.outer.size() < 3) return {};
    Box2 box = bounds(region.outer);
    Roomy best{(box.min + box.max) / 2, roomAt(region, (box.min + box.max) / 2)};
    constexpr int grid = 14;
    for (int round = 0; round < 4; ++round) {
        const Vec2 step = box.size() / grid;
        for (int i = 0; i <= grid; ++i) {
            for (int k = 0; k <= grid; ++k) {
                const Vec2 p = box.min + Vec2(step.x() * i, step.y() * k);
                const double room = roomAt(region, p);
                if (room > best.room + 1e-9) best = {p, room};
            }
        }
        box = {best.at - step, best.at + step};
    }
    return best;
}

} // namespace slab::ui
