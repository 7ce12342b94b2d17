#include "ui/board/picture_tool.h"
#include "core/picture/typed.h"
#include "ui/board/board_canvas.h"
#include "ui/board/picture_layer.h"
#include "ui/board/pixel_box.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/theme.h"
#include <QKeyEvent>
#include <QPainter>
#include <cmath>

namespace slab::ui {

namespace {

std::string freeIn(const std::string& wanted, const auto& list) {
    std::vector<std::string> taken;
    for (const auto& one : list) taken.push_back(one.name);
    return freeName(wanted, taken);
}

std::string pixelText(double px) {
    return std::to_string(static_cast<long>(std::lround(px)));
}

} // namespace

Edit cropPicture(int index, const Box2& pixels, std::string gesture) {
    const std::string at = "/pictures/" + std::to_string(index) + "/";
    const Vec2 size = pixels.size();
    Edit edit = chained("Crop picture", {setValue(at + "crop_x", quotedJson(pixelText(pixels.min.x()))),
                                         setValue(at + "crop_y", quotedJson(pixelText(pixels.min.y()))),
                                         setValue(at + "crop_width", quotedJson(pixelText(size.x()))),
                                         setValue(at + "crop_height", quotedJson(pixelText(size.y())))});
    edit.merge = std::move(gesture);
    return edit;
}

PictureTool::PictureTool(BoardCanvas& canvas, int picture, Deed deed)
    : BoardTool(canvas), m_picture(picture), m_deed(deed) {}

QString PictureTool::coarseWords() const {
    const double coarse = m_pointer ? coarsenessAt(*m_pointer) : 0;
    constexpr double worthTelling = 1.5;
    return coarse < worthTelling
               ? QString()
               : QString(" · zoom in: a pixel here is %1 of the picture's").arg(coarse, 0, 'f', 1);
}

QString PictureTool::words() const {
    const std::size_t n = m_pixels.size();
    switch (m_deed) {
    case Deed::distance:
        return (n == 0 ? QString("Click the first of two points whose distance you know")
                       : QString("Click the other point")) +
               coarseWords();
    case Deed::corners:
        return QString("Click corner %1 of 4 of a rectangle that you know, in order round it; first to "
                       "second is its width")
                   .arg(n + 1) +
               coarseWords();
    case Deed::crop:
        return "Drag a box round what is to stay";
    case Deed::feature:
        return "Click what points are to snap to";
    case Deed::line:
        return (n == 0 ? QString("Click where the line begins")
                       : QString("Click where it ends: its length is told with its uncertainty")) +
               coarseWords();
    }
    return {};
}

std::size_t PictureTool::wanted() const {
    return m_deed == Deed::corners ? 4 : m_deed == Deed::feature ? 1 : 2;
}

std::optional<Vec2> PictureTool::pixelAt(const BoardPointer& pointer) const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    if (!picture || PictureLayer::viewOf(*picture) != pointer.view) return {};
    return toPixel(picture->fix, pointer.at);
}

std::optional<BoardView> PictureTool::keepsTo() const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    if (!picture) return {};
    return PictureLayer::viewOf(*picture);
}

void PictureTool::press(const BoardPointer& pointer) {
    const auto pixel = pixelAt(pointer);
    if (!pixel) {
        Q_EMIT desk().told("Click inside the chosen picture.");
        return;
    }
    m_pixels.push_back(*pixel);
    m_pointer = pixel;
    if (m_deed != Deed::crop && m_pixels.size() >= wanted()) finish();
}

void PictureTool::move(const BoardPointer& pointer) {
    m_pointer = pixelAt(pointer);
}

void PictureTool::drag(const BoardPointer& pointer) {
    m_pointer = pixelAt(pointer);
}

void PictureTool::release(const BoardPointer& pointer) {
    if (m_deed != Deed::crop || m_pixels.empty()) return;
    const auto pixel = pixelAt(pointer);
    const Vec2 size = pixel ? Vec2((*pixel - m_pixels.front()).cwiseAbs()) : Vec2::Zero();
    if (size.x() < 4 || size.y() < 4) {
        m_pixels.clear();
        return;
    }
    m_pixels.push_back(*pixel);
    finish();
}

double PictureTool::coarsenessAt(const Vec2& pixel) const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    if (!picture) return 0;
    const Vec2 at = toPlane(picture->fix, pixel);
    const double step = 1 / (m_canvas.view().scale * m_canvas.devicePixelRatioF());
    double most = 0;
    for (const Vec2& by : {Vec2(step, 0), Vec2(0, step)})
        if (const auto next = toPixel(picture->fix, at + by)) most = std::max(most, (*next - pixel).norm());
    return most;
}

std::string PictureTool::coarseError() const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    double most = 0;
    for (const Vec2& pixel : m_pixels) most = std::max(most, coarsenessAt(pixel));
    constexpr double tenth = 10;
    if (!picture || most <= picture->fix.click) return {};
    return printExact(std::ceil(most * tenth) / tenth, Unit::none);
}

Edit PictureTool::edit() const {
    const Picture& picture = desk().project().pictures[static_cast<std::size_t>(m_picture)];
    const std::string error = coarseError();
    const auto withError = [&](Edit mark) {
        if (error.empty()) return mark;
        const std::string label = mark.label;
        return chained(
            label, {std::move(mark),
                    setValue("/pictures/" + std::to_string(m_picture) + "/click_error", quotedJson(error))});
    };
    switch (m_deed) {
    case Deed::distance:
        if (const PlacedPicture* placed = m_canvas.pictures().at(m_picture);
            placed && placed->scale == PlacedPicture::Scale::rectangle) {
            // A check of what is true to size already: the picture stays where it stands.
            const double own = picture.space == Space::subject ? std::max(desk().scope().scale, 1e-9) : 1;
            const Vec2 at = toPlane(placed->fix, m_pixels[0]) / own;
            const std::string base = "/pictures/" + std::to_string(m_picture) + "/";
            const auto words = [&](double mm) {
                return quotedJson(fineLength(mm, desk().scope().unit));
            };
            return chained(
                "Check picture",
                {withError(markDistance(m_picture, m_pixels[0], m_pixels[1], m_first.toStdString())),
                 setValue(base + "x", words(at.x())), setValue(base + "y", words(at.y()))});
        }
        return withError(markDistance(m_picture, m_pixels[0], m_pixels[1], m_first.toStdString()));
    case Deed::corners:
        return withError(markRectangle(m_picture, {m_pixels[0], m_pixels[1], m_pixels[2], m_pixels[3]},
                                       m_first.toStdString(), m_second.toStdString()));
    case Deed::feature:
        return markFeature(m_picture, freeIn("mark", picture.features), m_pixels[0]);
    case Deed::line:
        return markLine(m_picture, freeIn("line", picture.lines), {m_pixels[0], m_pixels[1]}, {}, error);
    case Deed::crop:
        break;
    }
    return cropPicture(m_picture, boxBetween(*m_canvas.pictures().at(m_picture), m_pixels[0], m_pixels[1]));
}

void PictureTool::finish() {
    const bool done = desk().apply(edit());
    m_pixels.clear();
    if (const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
        done && picture && m_deed == Deed::line) // its strip asks what it is
        desk().choose({PictureLayer::viewOf(*picture),
                       {},
                       {},
                       -1,
                       m_picture,
                       static_cast<int>(picture->lines.size()) - 1});
    // Features and lines come in numbers; Esc ends them.
    if (m_deed != Deed::feature && m_deed != Deed::line) Q_EMIT m_canvas.toolDone();
}

void PictureTool::setFigures(const QString& first, const QString& second) {
    m_first = first;
    m_second = second;
}

bool PictureTool::key(QKeyEvent& event) {
    if (event.key() != Qt::Key_Backspace || m_pixels.empty()) return false;
    m_pixels.pop_back();
    return true;
}

bool PictureTool::cancel() {
    const bool any = !m_pixels.empty();
    m_pixels.clear();
    return any;
}

void PictureTool::paint(QPainter& painter) const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    if (!picture) return;
    const Palette& c = Theme::colours();
    const BoardView view = PictureLayer::viewOf(*picture);
    QPolygonF line;
    for (const Vec2& p : m_pixels) line << m_canvas.pixelOf(view, toPlane(picture->fix, p));
    painter.setPen(QPen(c.chosen, 2));
    painter.setBrush(Qt::NoBrush);
    if (m_pointer) {
        const QPointF at = m_canvas.pixelOf(view, toPlane(picture->fix, *m_pointer));
        if (m_deed == Deed::crop && !line.isEmpty())
            painter.drawRect(QRectF(line.front(), at).normalized());
        else
            line << at;
    }
    painter.drawPolyline(line);
    painter.setBrush(c.card);
    for (const QPointF& p : line) painter.drawEllipse(p, 4, 4);
}

} // namespace slab::ui
