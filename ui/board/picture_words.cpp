// What is told of a picture: how sure its places are, what its lines measure, where the camera was.
#include "core/picture/typed.h"
#include "ui/board/picture_layer.h"
#include <QPolygonF>
#include <algorithm>
#include <limits>

namespace slab::ui {

QString PictureLayer::uncertaintyAt(int index, BoardView view, const Vec2& at) const {
    const PlacedPicture* picture = this->at(index);
    if (!picture || picture->hidden || viewOf(*picture) != view ||
        picture->scale == PlacedPicture::Scale::none)
        return {};
    QPolygonF outline;
    for (const Vec2& p : picture->outline) outline << QPointF(p.x(), p.y());
    if (!outline.containsPoint({at.x(), at.y()}, Qt::OddEvenFill)) return {};
    const PlaceError error = errorAt(picture->own, toPixel(picture->fix, at));
    return QString::fromStdString(picture->name + " ± " + printFine(error.major, m_desk->scene().units));
}

namespace {

/// Four corners have as many coordinates as the map has unknowns: they always fit, whatever was marked.
QString cornerWords(const PlacedPicture& picture, const UnitStyle& units) {
    double least = std::numeric_limits<double>::max(), most = 0;
    for (const PlacedPoint& corner : picture.corners) {
        least = std::min(least, corner.error.major);
        most = std::max(most, corner.error.major);
    }
    QString words = "rectified by four corners";
    if (!picture.corners.empty()) {
        const QString from = QString::fromStdString(printFine(least, units)),
                      to = QString::fromStdString(printFine(most, units));
        words += from == to ? QString(", each ± %1").arg(from) : QString(", ± %1 to ± %2").arg(from, to);
    }
    if (!picture.check) words += "; four always fit, so a known distance is needed to check them by";
    return words;
}

} // namespace

QString PictureLayer::words(int index) const {
    const PlacedPicture* picture = at(index);
    if (!picture) return {};
    switch (picture->state) {
    case PlacedPicture::State::missing:
        return "the file is missing: " + QString::fromStdString(picture->file) +
               ": put it back, or Choose the file…";
    case PlacedPicture::State::unreadable:
        return "the file cannot be read: Choose the file…";
    case PlacedPicture::State::changed:
        return "the file is not the one that was marked: check the marks and Accept the changed file, or put "
               "the old one back";
    default:
        break;
    }
    if (picture->scale == PlacedPicture::Scale::none)
        return "not to scale yet: type a known distance and mark its two points, or a rectangle's two sides "
               "and "
               "mark its four corners";
    QStringList parts{picture->scale == PlacedPicture::Scale::rectangle
                          ? cornerWords(*picture, m_desk->scene().units)
                          : QString("to scale by two points")};
    // What warns comes first: the last words go where there is little room.
    if (picture->check) {
        const QString check = QString::fromStdString(checkWords(*picture->check, m_desk->scene().units));
        parts.insert(picture->check->taken ? parts.size() : 0, check);
    }
    if (!picture->doubt.empty()) parts.prepend("doubtful: " + QString::fromStdString(picture->doubt));
    for (const PlacedLine& line : picture->lines)
        parts << QString::fromStdString(line.name + " " + measuredText(line.length, m_desk->scene().units));
    return parts.join(" · ");
}

QString PictureLayer::cameraWords(int index) const {
    const PlacedPicture* picture = at(index);
    if (!picture || picture->scale == PlacedPicture::Scale::none) return {};
    const QString figures = QString::fromStdString(measuredText(
        {picture->camera.distance, picture->camera.error(picture->fix.click)}, m_desk->scene().units));
    switch (picture->camera.source) {
    case PictureCamera::Source::corners:
        return figures + " by the corners";
    case PictureCamera::Source::lens:
        return (picture->scale == PlacedPicture::Scale::rectangle ? "seen square on: a guess, "
                                                                  : "a guess, ") +
               figures;
    default:
        return {};
    }
}

QString PictureLayer::depthWords(int index, int line) const {
    const PlacedPicture* picture = at(index);
    const PlacedLine* found = picture ? picture->line(line) : nullptr;
    if (!found) return {};
    const PlacedLine& one = *found;
    const UnitStyle& units = m_desk->scene().units;
    if (one.depth.matters() && picture->camera.distance > 0)
        return QString::fromStdString("in the sheet's plane it would be " + measuredText(one.flat, units));
    if (!(picture->camera.distance > 0)) return "taken as lying in the sheet's plane";
    const double before = isInch(units) ? 4 * 25.4 : 100;
    const double more = 100 * before / picture->camera.distance;
    return QString("taken as lying in the sheet's plane: %1 in front of it, it looks %2 % too long")
        .arg(QString::fromStdString(printLength(before, units)))
        .arg(more, 0, 'f', 1);
}

} // namespace slab::ui
