#include "ui/board/pixel_box.h"
#include "ui/board/board_canvas.h"
#include "ui/board/picture_layer.h"
#include "ui/theme/theme.h"
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

double toSide(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 along = b - a;
    const double length = along.squaredNorm();
    const double t = length > 0 ? std::clamp((p - a).dot(along) / length, 0.0, 1.0) : 0;
    return (p - a - along * t).norm();
}

/// The pixels that there are; nothing is known of a picture whose file is missing.
Box2 allOf(const PlacedPicture& picture) {
    if (picture.width <= 0 || picture.height <= 0) return picture.crop;
    return {Vec2::Zero(), Vec2(picture.width, picture.height)};
}

} // namespace

Ring boxCorners(const PlacedPicture& picture, const Box2& pixels) {
    Ring corners;
    const Vec2 near = (picture.crop.min + picture.crop.max) / 2;
    for (const Vec2& p : {pixels.min, Vec2(pixels.max.x(), pixels.min.y()), pixels.max,
                          Vec2(pixels.min.x(), pixels.max.y())}) {
        if (!isBeforeHorizon(picture.fix, p, near)) return {};
        corners.push_back(toPlane(picture.fix, p));
    }
    return corners;
}

BoxGrip gripAt(const PlacedPicture& picture, const Box2& pixels, const Vec2& at, double reach) {
    const Ring c = boxCorners(picture, pixels);
    if (c.size() != 4) return {};
    BoxGrip grip;
    const double up = toSide(at, c[0], c[1]), right = toSide(at, c[1], c[2]), down = toSide(at, c[2], c[3]),
                 left = toSide(at, c[3], c[0]);
    if (std::min(left, right) <= reach) grip.across = left < right ? -1 : 1;
    if (std::min(up, down) <= reach) grip.down = up < down ? -1 : 1;
    if (grip.side()) return grip;
    const Vec2 pixel = toPixel(picture.fix, at);
    grip.whole = pixel.x() > pixels.min.x() && pixel.x() < pixels.max.x() && pixel.y() > pixels.min.y() &&
                 pixel.y() < pixels.max.y();
    return grip;
}

Box2 pulled(const PlacedPicture& picture, const Box2& pixels, const BoxGrip& grip, const Vec2& from,
            const Vec2& to) {
    const Box2 all = allOf(picture);
    const Vec2 by = to - from;
    Box2 out = pixels;
    for (int i = 0; i < 2; ++i) {
        const int side = i == 0 ? grip.across : grip.down;
        if (grip.whole) {
            const double low = all.min[i] - pixels.min[i], high = all.max[i] - pixels.max[i];
            const double moved = std::clamp(by[i], std::min(low, 0.0), std::max(high, 0.0));
            out.min[i] += moved;
            out.max[i] += moved;
        } else if (side < 0) {
            out.min[i] = std::min(std::max(pixels.min[i] + by[i], all.min[i]), pixels.max[i] - leastBox);
        } else if (side > 0) {
            out.max[i] = std::max(std::min(pixels.max[i] + by[i], all.max[i]), pixels.min[i] + leastBox);
        }
    }
    return out;
}

Box2 boxBetween(const PlacedPicture& picture, const Vec2& a, const Vec2& b) {
    const Box2 all = allOf(picture);
    const auto kept = [&](const Vec2& p) { return Vec2(p.cwiseMax(all.min).cwiseMin(all.max)); };
    return {kept(a.cwiseMin(b)), kept(a.cwiseMax(b))};
}

Qt::CursorShape cursorFor(const PlacedPicture& picture, const Box2& pixels, const BoxGrip& grip) {
    if (!grip.side()) return grip.whole ? Qt::SizeAllCursor : Qt::CrossCursor;
    const Ring c = boxCorners(picture, pixels);
    if (c.size() != 4) return Qt::CrossCursor;
    // Where the held side or corner lies from the middle says which way it is pulled.
    const Vec2 middle = (c[0] + c[1] + c[2] + c[3]) / 4;
    Vec2 held = Vec2::Zero();
    for (std::size_t i = 0; i < 4; ++i) {
        const int across = i == 1 || i == 2 ? 1 : -1, down = i >= 2 ? 1 : -1;
        if ((grip.across == 0 || grip.across == across) && (grip.down == 0 || grip.down == down))
            held += c[i] - middle;
    }
    if (grip.across != 0 && grip.down != 0)
        return held.x() * held.y() > 0 ? Qt::SizeBDiagCursor : Qt::SizeFDiagCursor;
    return std::abs(held.x()) > std::abs(held.y()) ? Qt::SizeHorCursor : Qt::SizeVerCursor;
}

QPolygonF boxOnScreen(const PlacedPicture& picture, const Box2& pixels, const BoardCanvas& canvas) {
    QPolygonF corners;
    for (const Vec2& p : boxCorners(picture, pixels))
        corners << canvas.pixelOf(PictureLayer::viewOf(picture), p);
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
