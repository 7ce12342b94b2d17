// Where there is room on the board for what is asked.
#include "ui/board/board_canvas.h"
#include "ui/board/board_paint.h"

namespace slab::ui {

PromptRoom BoardCanvas::promptRoom(const BoardInk& ink) const {
    PromptRoom room{paper().adjusted(0, 0, 0, -m_covered), m_over ? std::optional(m_pointer.px) : std::nullopt, {}, {}};
    if (m_desk->hasAnything()) {
        room.taken = titleBoxes(ink);
        for (const Box2& area : m_desk->sheet().area) room.drawn.push_back(m_view.toScreen(area));
    }
    for (const QWidget* card : findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly))
        if (card->isVisible()) room.taken.emplace_back(card->geometry());
    return room;
}

} // namespace slab::ui
