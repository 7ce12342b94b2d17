#include "ui/board/crop_box.h"
#include "ui/board/board_canvas.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

/// As far as a box may reach; without bounds where nothing is known of the file.
Box2 allOf(const PlacedPicture& picture) {
    const Ring all = wholeOutline(picture);
    return all.empty() ? Box2{Vec2::Constant(-1e9), Vec2::Constant(1e9)} : bounds(all);
}

} // namespace

std::optional<Box2> frameOf(const PlacedPicture& picture) {
    if (picture.outline.size() < 3) return {};
    return bounds(picture.outline);
}

BoxGrip gripAt(const Box2& box, const Vec2& at, double reach) {
    BoxGrip grip;
    if (((at - box.min).array() < -reach).any() || ((box.max - at).array() < -reach).any()) return grip;
    const Vec2 low = (at - box.min).cwiseAbs(), high = (box.max - at).cwiseAbs();
    if (std::min(low.x(), high.x()) <= reach) grip.across = low.x() < high.x() ? -1 : 1;
    if (std::min(low.y(), high.y()) <= reach) grip.down = high.y() < low.y() ? -1 : 1;
    grip.whole = !grip.side();
    return grip;
}

Box2 pulled(const PlacedPicture& picture, const Box2& box, const BoxGrip& grip, const Vec2& by,
            double least) {
    const Box2 all = allOf(picture);
    Box2 out = box;
    for (int i = 0; i < 2; ++i) {
        const int side = i == 0 ? grip.across : -grip.down; // up is more
        if (grip.whole) {
            const double low = all.min[i] - box.min[i], high = all.max[i] - box.max[i];
            const double moved = std::clamp(by[i], std::min(low, 0.0), std::max(high, 0.0));
            out.min[i] += moved;
            out.max[i] += moved;
        } else if (side < 0) {
            out.min[i] = std::min(std::max(box.min[i] + by[i], all.min[i]), box.max[i] - least);
        } else if (side > 0) {
            out.max[i] = std::max(std::min(box.max[i] + by[i], all.max[i]), box.min[i] + least);
        }
    }
    return out;
}

Box2 boxBetween(const PlacedPicture& picture, const Vec2& a, const Vec2& b) {
    const Box2 all = allOf(picture);
    const auto kept = [&](const Vec2& p) { return Vec2(p.cwiseMax(all.min).cwiseMin(all.max)); };
    return {kept(a.cwiseMin(b)), kept(a.cwiseMax(b))};
}

Qt::CursorShape cursorFor(const BoxGrip& grip) {
    if (!grip.side()) return grip.whole ? Qt::SizeAllCursor : Qt::CrossCursor;
    if (grip.across == 0) return Qt::SizeVerCursor;
    if (grip.down == 0) return Qt::SizeHorCursor;
    return grip.across * grip.down > 0 ? Qt::SizeFDiagCursor : Qt::SizeBDiagCursor;
}

QPolygonF boxOnScreen(BoardView view, const Box2& box, const BoardCanvas& canvas) {
    QPolygonF corners;
    for (const Vec2& p : {Vec2(box.min.x(), box.max.y()), box.max, Vec2(box.max.x(), box.min.y()), box.min})
        corners << canvas.pixelOf(view, p);
    return corners;
}

void paintGrips(QPainter& painter, const QPolygonF& corners) {
    const Palette& c = Theme::colours();
    painter.setPen(QPen(c.chosen, 1.6));
    painter.setBrush(c.card);
    const auto square = [&](const QPointF& at) { painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8)); };
    for (qsizetype i = 0; i < corners.size(); ++i) {
        square(corners[i]);
        square((corners[i] + corners[(i + 1) % corners.size()]) / 2);
    }
}

} // namespace slab::ui
