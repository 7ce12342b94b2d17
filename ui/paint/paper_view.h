#pragma once
// Millimetres on paper (y up) to widget pixels (y down) and back, without rounding.
#include "core/geometry/polygon.h"
#include <QPainterPath>
#include <QPointF>
#include <QRectF>
#include <optional>

namespace slab::ui {

/// Where a flat drawing lies on screen.
struct PaperView {
    double scale = 1;        ///< pixels per mm
    QPointF origin = {0, 0}; ///< pixel of the point (0, 0) mm

    [[nodiscard]] QPointF toScreen(const Vec2& mm) const {
        return {origin.x() + mm.x() * scale, origin.y() - mm.y() * scale};
    }
    [[nodiscard]] Vec2 toPaper(const QPointF& px) const {
        return {(px.x() - origin.x()) / scale, (origin.y() - px.y()) / scale};
    }
    /// Pixel rectangle of a box in mm.
    [[nodiscard]] QRectF toScreen(const Box2& mm) const;
    /// Centres `mm` in `into` as large as it goes, at most `most` pixels per mm.
    void fit(const Box2& mm, const QRectF& into, double most = 1e9);
    /// Zooms about a pixel; the scale stays within [least, most].
    void zoomAt(const QPointF& px, double factor, double least, double most);

    [[nodiscard]] QPolygonF ring(const Ring& points) const;
    /// Closed path of a region with its holes (odd-even).
    [[nodiscard]] QPainterPath path(const Polygon& region) const;
    bool operator==(const PaperView&) const = default;
};

/// Point in the region with the most room around it (within about 1 % of its size), and that room in mm.
struct Roomy {
    Vec2 at = Vec2::Zero();
    double room = 0;
};
[[nodiscard]] Roomy roomiest(const Polygon& region);
/// Where a box of w × h pixels lies wholly inside the region, as near to `favourite` (mm) as a coarse grid
/// finds.
[[nodiscard]] std::optional<QPointF> placeInside(const Polygon& region, const PaperView& view, double w,
                                                 double h, const Vec2& favourite);
/// Distance from a point to the segment from a to b.
[[nodiscard]] double distanceToSegment(const QPointF& p, const QPointF& a, const QPointF& b);

} // namespace slab::ui
