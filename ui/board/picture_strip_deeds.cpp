// What the buttons and fields of the picture's strip do.
#include "core/picture/edits.h"
#include "ui/board/board_canvas.h"
#include "ui/board/cut_tool.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/board/picture_tool.h"
#include "ui/tables/table_edits.h"
#include <QToolButton>

namespace slab::ui {

void PictureStrip::take(StripEntry* entry, const char* key) {
    if (!serves() || !entry->isTyped()) return;
    StripField field;
    field.label = entry->label();
    field.pointers = {at(key)};
    // Before its points are marked, a size is only kept for the marking.
    if (isForMarks(entry) && !isMarkedFor(entry)) return;
    if (entry == m_turned) return turn();
    if (!m_canvas->desk().apply(typedInto(*m_canvas->desk().session(), field, entry->edit()->text())))
        entry->restore();
}

void PictureStrip::mark(int deed) {
    if (!serves()) return;
    const auto what = static_cast<PictureTool::Deed>(deed);
    const Unit unit = m_canvas->desk().scope().unit;
    const auto typed = [&](StripEntry* entry) {
        return QString::fromStdString(withUnit(entry->edit()->text().trimmed().toStdString(), unit));
    };
    const bool corners = what == PictureTool::Deed::corners;
    StripEntry* missing = what == PictureTool::Deed::distance && typed(m_distance).isEmpty() ? m_distance
                          : corners && typed(m_width).isEmpty()                              ? m_width
                          : corners && typed(m_height).isEmpty()                             ? m_height
                                                                                             : nullptr;
    if (missing) {
        Q_EMIT m_canvas->desk().told("Type the known size first.");
        reveal(missing);
        missing->edit()->setFocus(Qt::OtherFocusReason);
        return;
    }
    auto tool = std::make_unique<PictureTool>(*m_canvas, m_canvas->desk().choice().picture, what);
    tool->setFigures(typed(corners ? m_width : m_distance), typed(m_height));
    // What is typed is of the points that are marked now, not of those that were marked before.
    for (StripEntry* one : {m_distance, m_width, m_height})
        if (isMarkedFor(one)) one->restore();
    m_canvas->setTool(std::move(tool));
    Q_EMIT done();
}

bool PictureStrip::isForMarks(const StripEntry* entry) const {
    return entry == m_distance || entry == m_width || entry == m_height;
}

bool PictureStrip::isMarkedFor(const StripEntry* entry) const {
    const Picture& picture =
        m_canvas->desk().project().pictures[static_cast<std::size_t>(m_canvas->desk().choice().picture)];
    return entry == m_distance ? !picture.from.x.empty() : picture.corners.size() == 4;
}

/// A typed angle takes the place of a level line.
void PictureStrip::turn() {
    const int index = m_canvas->desk().choice().picture;
    StripField field;
    field.label = m_turned->label();
    field.length = false;
    field.pointers = {at("rotation")};
    const Edit typed = typedInto(*m_canvas->desk().session(), field, m_turned->edit()->text());
    if (!m_canvas->desk().apply(chained("Turn picture", {turnPicture(index, {}), typed})))
        m_turned->restore();
}

void PictureStrip::swapSides() {
    if (!serves()) return;
    BoardDesk& desk = m_canvas->desk();
    const QString width = m_width->edit()->text(), height = m_height->edit()->text();
    const Picture& picture = desk.project().pictures[static_cast<std::size_t>(desk.choice().picture)];
    if (picture.corners.size() != 4) { // they are only kept for the marking
        m_width->edit()->setText(height);
        m_height->edit()->setText(width);
        return;
    }
    desk.apply(chained("Swap the rectangle's sides",
                       {setValue(at("rectangle_width"), quotedJson(picture.rectangle_height)),
                        setValue(at("rectangle_height"), quotedJson(picture.rectangle_width))}));
    const PlacedPicture* placed = m_canvas->pictures().at(desk.choice().picture);
    if (placed && !placed->doubt.empty())
        Q_EMIT desk.told(QString::fromStdString(placed->name + ": " + placed->doubt));
    Q_EMIT done();
}

void PictureStrip::cutViews() {
    if (!serves()) return;
    const int index = m_canvas->desk().choice().picture;
    const PlacedPicture* picture = m_canvas->pictures().at(index);
    if (!picture || picture->scale == PlacedPicture::Scale::none) {
        Q_EMIT m_canvas->desk().told(
            "The sheet's size is not known yet: type a distance and mark its two points.");
        reveal(m_distance);
        m_distance->edit()->setFocus(Qt::OtherFocusReason);
        return;
    }
    m_canvas->setTool(std::make_unique<CutTool>(*m_canvas, index));
    Q_EMIT done();
}

void PictureStrip::level(const char* word) {
    if (!serves()) return;
    auto tool =
        std::make_unique<PictureTool>(*m_canvas, m_canvas->desk().choice().picture, PictureTool::Deed::level);
    tool->setFigures(word, {});
    m_canvas->setTool(std::move(tool));
    Q_EMIT done();
}

void PictureStrip::acceptFile() {
    if (!serves()) return;
    BoardDesk& desk = m_canvas->desk();
    const int index = desk.choice().picture;
    const PictureFile* file = fileNamed(m_canvas->pictures().files(),
                                        desk.project().pictures[static_cast<std::size_t>(index)].file);
    if (file && desk.apply(acceptPicture(index, *file)))
        Q_EMIT desk.told("The file as it is now is the one that is marked.", true);
    Q_EMIT done();
}

void PictureStrip::toggleHidden() {
    if (!serves()) return;
    const bool hidden = m_canvas->desk()
                            .project()
                            .pictures[static_cast<std::size_t>(m_canvas->desk().choice().picture)]
                            .hidden;
    m_canvas->desk().apply(
        setValue(at("hidden"), hidden ? "false" : "true", hidden ? "Show picture" : "Hide picture"));
    refresh();
}

} // namespace slab::ui
