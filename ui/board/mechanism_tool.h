#pragma once
#include "core/board/mechanism_edits.h"
#include "ui/board/board_tool.h"

namespace slab::ui {

/// Puts one mechanism in where it is clicked.
class MechanismTool : public BoardTool {
public:
    MechanismTool(BoardCanvas& canvas, const MechanismWords& kind) : BoardTool(canvas), m_kind(kind) {}
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void move(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;
    [[nodiscard]] bool takesPlaces() const override { return true; }
    void place(BoardView view, const Vec2& at) override;

private:
    [[nodiscard]] Vec2 met(const BoardPointer& pointer);
    void put(BoardView view, const Vec2& at, double step);

    MechanismWords m_kind;
    BoardView m_view = BoardView::side;
    std::optional<Vec2> m_at; ///< where a click would put it
};

} // namespace slab::ui
