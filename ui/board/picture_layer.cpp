#include "ui/board/picture_layer.h"
#include "core/picture/typed.h"
#include "ui/board/board_canvas.h"
#include "ui/board/label_boxes.h"
#include "ui/paint/page_painter.h"
#include "ui/theme/theme.h"
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QFileSystemWatcher>
#include <QImageReader>
#include <QPainter>
#include <QPainterPath>
#include <QSvgRenderer>
#include <QTimer>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace slab::ui {

namespace {

constexpr int mostPixels = 4096; // along one side, of a drawing that has no pixels of its own

QString pathOf(const QString& folder, const std::string& name) {
    const QString file = QString::fromStdString(name);
    return QDir::isAbsolutePath(file) ? file : QDir(folder).filePath(file);
}

QImage drawn(const QString& path, const PlacedPicture& picture) {
    QSvgRenderer renderer(path);
    if (!renderer.isValid() || picture.width < 1 || picture.height < 1) return {};
    const double larger = std::clamp(mostPixels / std::max(picture.width, picture.height), 0.1, 3.0);
    QImage image(static_cast<int>(picture.width * larger), static_cast<int>(picture.height * larger),
                 QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    renderer.render(&painter, QRectF(image.rect()));
    painter.end();
    return image;
}

/// Drawings are ink on paper: what they leave clear is white.
QImage onPaper(const QImage& image) {
    if (image.isNull() || !image.hasAlphaChannel()) return image;
    QImage paper(image.size(), QImage::Format_RGB32);
    paper.fill(Qt::white);
    QPainter(&paper).drawImage(0, 0, image);
    return paper;
}

/// Mostly white: lines on paper, no photo.
bool isDrawing(const QImage& image) {
    constexpr int samples = 64, white = 200;
    constexpr double most = 0.7;
    int bright = 0;
    for (int i = 0; i < samples * samples; ++i) {
        const QRgb p = image.pixel((2 * (i % samples) + 1) * image.width() / (2 * samples),
                                   (2 * (i / samples) + 1) * image.height() / (2 * samples));
        bright += qGray(p) > white ? 1 : 0;
    }
    return bright > most * samples * samples;
}

/// Light lines on a dark sheet, each in its own hue: HSL lightness turned round, the drawing's paper as dark
/// as the sheet.
QImage byNight(const QImage& drawing) {
    const QColor sheet = Theme::colours().card;
    std::array<std::array<int, 256>, 3> onSheet{};
    const int darkest[] = {sheet.red(), sheet.green(), sheet.blue()};
    for (int c = 0; c < 3; ++c)
        for (int v = 0; v < 256; ++v) onSheet[c][v] = darkest[c] + v * (255 - darkest[c]) / 255;
    QImage out = drawing.convertToFormat(QImage::Format_RGB32);
    for (int y = 0; y < out.height(); ++y) {
        auto* line = reinterpret_cast<QRgb*>(out.scanLine(y));
        for (int x = 0; x < out.width(); ++x) {
            const int r = qRed(line[x]), g = qGreen(line[x]), b = qBlue(line[x]);
            const int by = 255 - std::max({r, g, b}) - std::min({r, g, b});
            line[x] = qRgb(onSheet[0][r + by], onSheet[1][g + by], onSheet[2][b + by]);
        }
    }
    return out;
}

/// Rows of a column-vector matrix as Qt writes it, for row vectors.
QTransform transformOf(const Mat3& m) {
    return {m(0, 0), m(1, 0), m(2, 0), m(0, 1), m(1, 1), m(2, 1), m(0, 2), m(1, 2), m(2, 2)};
}

} // namespace

PictureLayer::PictureLayer(BoardDesk* desk, QObject* parent)
    : QObject(parent), m_desk(desk), m_folder(QDir::homePath()), m_watch(new QFileSystemWatcher(this)),
      m_again(new QTimer(this)) {
    connect(desk, &BoardDesk::sceneChanged, this, &PictureLayer::refresh);
    // A picture that comes, goes or changes beside the window; many events at once are one reading.
    constexpr int settled = 300; // ms
    m_again->setSingleShot(true);
    m_again->setInterval(settled);
    connect(m_again, &QTimer::timeout, this, &PictureLayer::readFiles);
    for (const auto changed : {&QFileSystemWatcher::fileChanged, &QFileSystemWatcher::directoryChanged})
        connect(m_watch, changed, m_again, qOverload<>(&QTimer::start));
    refresh();
}

void PictureLayer::setFolder(const QString& folder) {
    const QString wanted = folder.isEmpty() ? QDir::homePath() : folder;
    if (wanted == m_folder) return;
    m_folder = wanted;
    readFiles();
}

void PictureLayer::watchFiles() {
    if (const QStringList known = m_watch->files() + m_watch->directories(); !known.isEmpty())
        m_watch->removePaths(known);
    QStringList paths;
    for (const Picture& p : m_desk->project().pictures) {
        const QFileInfo file(pathOf(m_folder, p.file));
        for (const QString& path : {file.absoluteFilePath(), file.absolutePath()})
            if (!paths.contains(path) && QFileInfo::exists(path)) paths << path;
    }
    if (!paths.isEmpty()) m_watch->addPaths(paths);
}

void PictureLayer::readFiles() {
    watchFiles();
    m_files = readPictureFiles(m_desk->project(), m_folder.toStdString(), m_files);
    Q_EMIT filesRead();
    refresh();
}

void PictureLayer::refresh() {
    if (m_busy) return;
    m_busy = true; // features that it finds make the scene anew, which asks for it again
    QStringList names;
    for (const Picture& p : m_desk->project().pictures) names << QString::fromStdString(p.file);
    if (names != m_names) {
        m_names = names;
        watchFiles();
        m_files = readPictureFiles(m_desk->project(), m_folder.toStdString(), m_files);
        Q_EMIT filesRead();
    }
    PictureSet placed = placePictures(m_desk->project(), m_desk->scope(), m_files);
    if (!(placed == m_placed)) {
        m_placed = std::move(placed);
        std::vector<BoardFeature> features;
        BoardDesk::PictureRoom room;
        for (const PlacedPicture& picture : m_placed.pictures) {
            if (picture.hidden) continue;
            for (const PlacedPoint& f : picture.features)
                features.push_back({picture.name + "/" + f.name, viewOf(picture), f.at});
            if (picture.outline.empty()) continue;
            std::optional<Box2>& all = room[static_cast<std::size_t>(viewOf(picture))];
            const Box2 own = bounds(picture.outline);
            all = all ? united(*all, own) : own;
        }
        m_desk->setPictures(std::move(features), room);
        Q_EMIT changed();
    }
    m_busy = false;
}

const PlacedPicture* PictureLayer::at(int index) const {
    if (index < 0 || index >= static_cast<int>(m_placed.pictures.size())) return nullptr;
    return &m_placed.pictures[static_cast<std::size_t>(index)];
}

BoardView PictureLayer::viewOf(const PlacedPicture& picture) {
    return parseView(picture.view).value_or(BoardView::side);
}

int PictureLayer::pictureAt(BoardView view, const Vec2& at) const {
    for (std::size_t i = m_placed.pictures.size(); i-- > 0;) {
        const PlacedPicture& picture = m_placed.pictures[i];
        if (picture.hidden || viewOf(picture) != view || picture.outline.size() < 3) continue;
        QPolygonF outline;
        for (const Vec2& p : picture.outline) outline << QPointF(p.x(), p.y());
        if (outline.containsPoint({at.x(), at.y()}, Qt::OddEvenFill)) return static_cast<int>(i);
    }
    return -1;
}

std::optional<Box2> PictureLayer::extent() const {
    std::optional<Box2> all;
    for (const PlacedPicture& picture : m_placed.pictures) {
        if (picture.hidden || picture.outline.empty()) continue;
        for (const Vec2& p : picture.outline) {
            const Vec2 at = m_desk->sheet().toSheet(viewOf(picture), p);
            all = all ? united(*all, {at, at}) : Box2{at, at};
        }
    }
    return all;
}

QImage PictureLayer::load(const PlacedPicture& picture) const {
    const PictureFile* file = fileNamed(m_files, picture.file);
    if (!file || file->state != PictureFile::State::present) return {};
    const QString key =
        QString::fromStdString(picture.file + " " + file->hash) + (Theme::dark() ? " dark" : "");
    if (const auto known = m_images.constFind(key); known != m_images.constEnd()) return *known;
    const QString path = pathOf(m_folder, picture.file);
    QImage image;
    if (file->header.format == "svg") {
        image = drawn(path, picture);
    } else {
        QImageReader reader(path);
        reader.setAutoTransform(true); // a photo is shown the right way up
        image = reader.read();
    }
    image = onPaper(image);
    if (Theme::dark() && !image.isNull() && isDrawing(image)) image = byNight(image);
    m_images.insert(key, image);
    return image;
}

QImage PictureLayer::halved(const QImage& image, double shrunk) const {
    constexpr int most = 8;
    const int times = std::clamp(static_cast<int>(std::floor(std::log2(std::max(shrunk, 1.0)))), 0, most);
    if (times == 0) return image;
    const auto key = qMakePair(image.cacheKey(), times);
    if (const auto known = m_halved.constFind(key); known != m_halved.constEnd()) return *known;
    const QSize size(std::max(1, image.width() >> times), std::max(1, image.height() >> times));
    QImage small = image.scaled(size, Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    m_halved.insert(key, small);
    return small;
}

void PictureLayer::paint(QPainter& painter, const BoardCanvas& canvas) const {
    const Palette& c = Theme::colours();
    for (const PlacedPicture& picture : m_placed.pictures) {
        if (picture.hidden || picture.outline.size() < 3) continue;
        QPolygonF outline;
        for (const Vec2& p : picture.outline) outline << canvas.pixelOf(viewOf(picture), p);
        const QImage whole = load(picture);
        if (!whole.isNull()) {
            const QRectF seen = outline.boundingRect();
            const double shown =
                std::max(1.0, std::max(seen.width(), seen.height()) * painter.device()->devicePixelRatioF());
            const Vec2 part = picture.crop.size();
            const double share = std::max(part.x() / picture.width * whole.width(),
                                          part.y() / picture.height * whole.height());
            const QImage image = halved(whole, share / shown);
            const QPointF zero = canvas.pixelOf(viewOf(picture), Vec2::Zero());
            const double s = canvas.view().scale;
            Mat3 screen;
            screen << s, 0, zero.x(), 0, -s, zero.y(), 0, 0, 1;
            Mat3 pixels = Mat3::Identity();
            pixels(0, 0) = picture.width / image.width();
            pixels(1, 1) = picture.height / image.height();
            painter.save();
            QPainterPath clip;
            clip.addPolygon(outline);
            painter.setClipPath(clip, Qt::IntersectClip);
            painter.setOpacity(picture.opacity);
            painter.setRenderHint(QPainter::SmoothPixmapTransform);
            painter.setTransform(transformOf(Mat3(screen * picture.fix.map * pixels)), true);
            painter.drawImage(0, 0, image);
            painter.restore();
        }
        const bool chosen = m_desk->choice().picture == picture.index;
        painter.setBrush(Qt::NoBrush);
        painter.setPen(
            QPen(chosen ? c.chosen : Theme::mix(c.quiet, c.card, 0.4), chosen ? 2 : 1, Qt::DashLine));
        painter.drawPolygon(outline);
    }
}

/// Over everything, one line below the other where pictures of one file lie together, and on the paper.
void PictureLayer::paintMissing(QPainter& painter, const BoardCanvas& canvas) const {
    const QFont font = Theme::words(12);
    const QFontMetricsF metrics(font);
    std::vector<QRectF> taken;
    for (const PlacedPicture& picture : m_placed.pictures) {
        if (picture.hidden || picture.outline.size() < 3 || !load(picture).isNull()) continue;
        QPolygonF outline;
        for (const Vec2& p : picture.outline) outline << canvas.pixelOf(viewOf(picture), p);
        const QRectF paper = canvas.paper().adjusted(6, 6, -6, -6);
        const QString words = metrics.elidedText(QString::fromStdString("picture missing: " + picture.file),
                                                 Qt::ElideMiddle, paper.width());
        QRectF box(0, 0, metrics.horizontalAdvance(words), metrics.height());
        box.moveCenter(outline.boundingRect().center());
        box.moveLeft(
            std::clamp(box.left(), paper.left(), std::max(paper.left(), paper.right() - box.width())));
        box.moveTop(std::clamp(box.top(), paper.top(), std::max(paper.top(), paper.bottom() - box.height())));
        for (const QRectF& other : taken)
            if (box.intersects(other)) box.moveTop(other.bottom() + 2);
        taken.push_back(box);
        drawText(painter, box.center(), words, font, Theme::colours().hits, 0, Theme::colours().card);
    }
}

void PictureLayer::paintChosen(QPainter& painter, const BoardCanvas& canvas) const {
    paintMissing(painter, canvas);
    const PlacedPicture* picture = at(m_desk->choice().picture);
    if (picture && !picture->hidden && picture->outline.size() >= 3) paintMarks(painter, canvas, *picture);
}

void PictureLayer::paintMarks(QPainter& painter, const BoardCanvas& canvas,
                              const PlacedPicture& picture) const {
    const Palette& c = Theme::colours();
    const BoardView view = viewOf(picture);
    painter.setPen(QPen(c.tight, 2));
    painter.setBrush(Qt::NoBrush);
    QPolygonF corners;
    for (const PlacedPoint& p : picture.corners) corners << canvas.pixelOf(view, p.at);
    if (corners.size() >= 3) painter.drawPolygon(corners);
    for (const QPointF& p : corners) painter.drawEllipse(p, 5, 5);
    std::vector<QLineF> drawn;
    QStringList words;
    for (const PlacedLine& line : picture.lines) {
        const QPointF a = canvas.pixelOf(view, line.from), b = canvas.pixelOf(view, line.to);
        drawn.emplace_back(a, b);
        const bool held = m_desk->choice().reading == line.index;
        painter.setPen(QPen(held ? c.chosen : c.tight, held ? 3 : 2));
        painter.drawLine(a, b);
        painter.setBrush(c.card);
        for (const QPointF& end : {a, b}) painter.drawEllipse(end, 3.5, 3.5);
        words << QString::fromStdString(line.name + ": " + measuredText(line.length, m_desk->scene().units));
    }
    const auto boxes = labelBoxes(drawn, words, Theme::figures(12));
    for (std::size_t i = 0; i < boxes.size(); ++i)
        drawText(painter, boxes[i].center(), words[static_cast<qsizetype>(i)], Theme::figures(12), c.ink, 0,
                 c.card);
}

} // namespace slab::ui
