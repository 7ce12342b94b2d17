#include "ui/board/picture_tool.h"
#include "core/picture/crop.h"
#include "core/picture/typed.h"
#include "ui/board/board_canvas.h"
#include "ui/board/crop_box.h"
#include "ui/board/picture_layer.h"
#include "ui/tables/table_edits.h"
#include "ui/theme/theme.h"
#include "ui/window/titles.h"
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

} // namespace

PictureTool::PictureTool(BoardCanvas& canvas, int picture, Deed deed)
    : BoardTool(canvas), m_picture(picture), m_deed(deed) {}

QString PictureTool::coarseWords() const {
    if (m_deed == Deed::crop) return {};
    const double coarse = m_pointer ? coarsenessAt(*m_pointer) : 0;
    constexpr double worthTelling = 1.5;
    return coarse < worthTelling
               ? QString()
               : QString(" · zoom in: a pixel here is %1 of the picture's").arg(coarse, 0, 'f', 1);
}

QString PictureTool::words() const {
    return prompt().words + coarseWords();
}

BoardPrompt PictureTool::prompt() const {
    const auto n = static_cast<int>(m_marks.size());
    const auto steps = static_cast<int>(wanted());
    switch (m_deed) {
    case Deed::distance:
        return {n == 0 ? "Click the first of two points whose distance you know"
                       : "Click the other point, " + m_first + " from it",
                n + 1, steps};
    case Deed::corners: {
        const QString from = n == 0   ? "Click a corner of the rectangle"
                             : n == 1 ? "Click the next corner: " + m_first + " along its width"
                             : n == 2 ? "Click the next corner: " + m_second + " along its height"
                                      : QString("Click the last corner");
        return {from, n + 1, steps};
    }
    case Deed::level:
        return {n == 0 ? "Click one end of a line that is " + m_first + " in truth"
                       : "Click its other end: the picture turns until it is " + m_first,
                n + 1, steps};
    case Deed::crop:
        return {"Drag a box round what is to stay", 0, 0};
    case Deed::feature:
        return {"Click what points are to snap to", 0, 0};
    case Deed::line:
        return {n == 0 ? "Click where the line begins"
                       : "Click where it ends: its length is told with its uncertainty",
                n + 1, steps};
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
    m_pointer = pixel;
    // A box may begin beside the picture: it is kept on it.
    if (const QString why = m_deed == Deed::crop ? QString() : whyNot(*pixel); !why.isEmpty()) {
        Q_EMIT desk().told(why);
        return;
    }
    m_marks.emplace_back(*pixel, coarseError(*pixel));
    if (m_deed != Deed::crop && m_marks.size() >= wanted()) finish();
}

QString PictureTool::whyNot(const Vec2& pixel) const {
    const PlacedPicture& picture = *m_canvas.pictures().at(m_picture);
    if (picture.shown.size() < 3) return {}; // nothing is known of its file yet
    constexpr double slack = 3;              // px of the screen: its edge can be clicked
    const double near = slack * coarsenessAt(pixel);
    if (contains(picture.shown, pixel, near)) return {};
    const QString name = QString::fromStdString(picture.name);
    if (contains(picture.whole, pixel, near))
        return QString(
                   "That lies in what is cropped away of %1: click inside its frame, or drag its edge out "
                   "first.")
            .arg(name);
    return QString("That lies beside %1: click inside its frame.").arg(name);
}

void PictureTool::move(const BoardPointer& pointer) {
    m_pointer = pixelAt(pointer);
}

void PictureTool::drag(const BoardPointer& pointer) {
    m_pointer = pixelAt(pointer);
}

void PictureTool::release(const BoardPointer& pointer) {
    if (m_deed != Deed::crop || m_marks.empty()) return;
    const auto pixel = pixelAt(pointer);
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    const Vec2 size =
        pixel && picture ? Vec2(pointer.at - toPlane(picture->fix, m_marks.front().at)) : Vec2::Zero();
    if (size.cwiseAbs().minCoeff() * m_canvas.view().scale < leastBox) {
        m_marks.clear();
        return;
    }
    m_marks.emplace_back(*pixel);
    finish();
}

double PictureTool::coarsenessAt(const Vec2& pixel) const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    if (!picture) return 0;
    const Vec2 at = toPlane(picture->fix, pixel);
    const double step = 1 / (m_canvas.view().scale * m_canvas.devicePixelRatioF());
    double most = 0;
    for (const Vec2& by : {Vec2(step, 0), Vec2(0, step)})
        most = std::max(most, (toPixel(picture->fix, at + by) - pixel).norm());
    return most;
}

std::string PictureTool::coarseError(const Vec2& pixel) const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    const double coarse = coarsenessAt(pixel);
    constexpr double tenth = 10;
    if (!picture || coarse <= picture->fix.click) return {};
    return printExact(std::ceil(coarse * tenth) / tenth, Unit::none);
}

Edit PictureTool::edit() const {
    const Picture& picture = desk().project().pictures[static_cast<std::size_t>(m_picture)];
    switch (m_deed) {
    case Deed::distance:
        return markDistance(*m_canvas.pictures().at(m_picture), {m_marks[0], m_marks[1]},
                            m_first.toStdString(), desk().scope().scale);
    case Deed::corners:
        return markRectangle(m_picture, {m_marks[0], m_marks[1], m_marks[2], m_marks[3]},
                             m_first.toStdString(), m_second.toStdString());
    case Deed::level:
        return markLevel(m_picture, {m_marks[0], m_marks[1]}, levelTurn());
    case Deed::feature:
        return markFeature(m_picture, freeIn("mark", picture.features), m_marks[0]);
    case Deed::line:
        return markLine(m_picture, freeIn("line", picture.lines), {m_marks[0], m_marks[1]}, {});
    case Deed::crop:
        break;
    }
    const PlacedPicture& placed = *m_canvas.pictures().at(m_picture);
    return cropTo(placed,
                  boxBetween(placed, toPlane(placed.fix, m_marks[0].at), toPlane(placed.fix, m_marks[1].at)));
}

/// The way that turns the picture less: whichever end was clicked first, it is not stood on its head.
std::string PictureTool::levelTurn() const {
    const PlacedPicture& placed = *m_canvas.pictures().at(m_picture);
    const Vec2 way = toPlane(placed.fix, m_marks[1].at) - toPlane(placed.fix, m_marks[0].at);
    const bool plumb = m_first == plumbWord;
    const bool back = plumb ? way.y() < 0 : way.x() < 0;
    return std::string(plumb ? (back ? "-90" : "90") : (back ? "180" : "0")) + " deg";
}

bool PictureTool::holds(const Edit& marked) const {
    if (m_deed != Deed::corners && m_deed != Deed::distance && m_deed != Deed::level) return true;
    const auto trial = marked.apply(desk().project());
    const auto index = static_cast<std::size_t>(m_picture);
    if (!trial || index >= trial->pictures.size()) return true; // applying it tells why
    std::vector<Finding> findings;
    const Picture& picture = trial->pictures[index];
    const PlacedPicture placed = placePicture(picture, m_picture, desk().scope(),
                                              fileNamed(m_canvas.pictures().files(), picture.file), findings);
    const bool turning = m_deed == Deed::level;
    if (placed.scale != PlacedPicture::Scale::none && !turning) return true;
    for (const Finding& f : findings)
        if (turning ? f.code == "picture-level-same" || f.code == "picture-horizon"
                    : f.code != "picture-missing" && f.code != "picture-changed") {
            Q_EMIT desk().told(errorWords({f.code, f.message, {}, f.remedy}));
            return false;
        }
    return true;
}

void PictureTool::finish() {
    const Edit marked = edit();
    if (!holds(marked)) {
        m_marks.clear(); // to be marked again
        return;
    }
    const bool done = desk().apply(marked);
    m_marks.clear();
    if (const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
        done && picture && m_deed == Deed::line) // its strip asks what it is
        desk().choose({PictureLayer::viewOf(*picture),
                       {},
                       {},
                       -1,
                       m_picture,
                       static_cast<int>(picture->lines.size()) - 1});
    // Features and lines come in numbers; Esc ends them.
    if (m_deed == Deed::feature || m_deed == Deed::line) return;
    BoardDesk& board = desk();
    const PlacedPicture* marks = m_canvas.pictures().at(m_picture);
    std::string says;
    bool fine = false; // else it warns
    if (done && marks && m_deed == Deed::corners) says = marks->doubt;
    if (done && marks && m_deed == Deed::distance && marks->check) {
        fine = marks->check->taken;
        says = checkWords(*marks->check, board.scene().units) +
               (fine ? "" : ". Check the rectangle's sides, its corners and the two points.");
    }
    if (done && marks && m_deed == Deed::level) {
        fine = true;
        says = "the line lies " + m_first.toStdString() + " now.";
    }
    const QString told = says.empty() ? QString() : QString::fromStdString(marks->name + ": " + says);
    Q_EMIT m_canvas.toolDone(); // this tool is gone after that
    if (!told.isEmpty()) Q_EMIT board.told(told, fine);
}

void PictureTool::setFigures(const QString& first, const QString& second) {
    m_first = first;
    m_second = second;
}

bool PictureTool::key(QKeyEvent& event) {
    if (event.key() != Qt::Key_Backspace || m_marks.empty()) return false;
    m_marks.pop_back();
    return true;
}

bool PictureTool::cancel() {
    const bool any = !m_marks.empty();
    m_marks.clear();
    return any;
}

void PictureTool::paint(QPainter& painter) const {
    const PlacedPicture* picture = m_canvas.pictures().at(m_picture);
    if (!picture) return;
    const Palette& c = Theme::colours();
    const BoardView view = PictureLayer::viewOf(*picture);
    QPolygonF line;
    for (const Mark& m : m_marks) line << m_canvas.pixelOf(view, toPlane(picture->fix, m.at));
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
