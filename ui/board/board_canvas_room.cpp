// Where there is room on the board for what is asked.
#include "ui/board/board_canvas.h"
#include "ui/board/board_paint.h"
#include <QGuiApplication>

namespace slab::ui {

namespace {

std::vector<QRectF> cardsOn(const QWidget& canvas) {
    std::vector<QRectF> all;
    for (const QWidget* card : canvas.findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly))
        if (card->isVisible()) all.emplace_back(card->geometry());
    return all;
}

} // namespace

void BoardCanvas::makeRoom() {
    if (!m_touched) fit();
}

/// Where a card would lie on an elevation the sheet is moved to the other corner, and made smaller if need
/// be.
void BoardCanvas::keepClear() {
    if (!m_desk->hasAnything()) return;
    const std::vector<QRectF> cards = cardsOn(*this);
    const auto covered = [&](const PaperView& view) {
        for (const Box2& area : m_desk->sheet().area)
            for (const QRectF& card : cards)
                if (view.toScreen(area).intersects(card)) return true;
        return false;
    };
    if (!covered(m_view)) return;
    const QRectF room = paper().adjusted(20, 40, -20, -20);
    const Box2 all = extent();
    constexpr double least = 0.35, less = 0.97; // of the scale without cards
    for (double share = 1.1; share >= least; share *= less) {
        const double scale = m_view.scale * share;
        const QSizeF size(all.size().x() * scale, all.size().y() * scale);
        if (size.width() > room.width() || size.height() > room.height()) continue;
        PaperView view;
        view.fit(all, QRectF(room.topLeft(), size));
        if (covered(view)) continue;
        m_view = view;
        return;
    }
}

/// A form that was pasted or made elsewhere is brought into sight.
void BoardCanvas::showNewForm() {
    const std::size_t forms = m_desk->project().forms.size();
    if (forms <= m_forms) {
        m_forms = forms;
        return;
    }
    int inside = 0, outside = 0;
    for (const BoardElevation& e : m_desk->scene().views)
        for (const BoardPoint& p : e.points)
            if (p.form == static_cast<int>(forms) - 1)
                ++(paper().contains(pixelOf(e.view, p.at)) ? inside : outside);
    if (inside + outside == 0) return; // not worked out yet
    m_forms = forms;
    if (outside > 0 && (!m_touched || inside == 0) && QGuiApplication::mouseButtons() == Qt::NoButton) fit();
}

PromptRoom BoardCanvas::promptRoom(const BoardInk& ink) const {
    PromptRoom room{
        paper().adjusted(0, 0, 0, -m_covered), m_over ? std::optional(m_pointer.px) : std::nullopt, {}, {}};
    if (m_desk->hasAnything()) {
        room.taken = titleBoxes(ink);
        for (const Box2& area : m_desk->sheet().area) room.drawn.push_back(m_view.toScreen(area));
    }
    for (const QRectF& card : cardsOn(*this)) room.taken.push_back(card);
    return room;
}

} // namespace slab::ui
