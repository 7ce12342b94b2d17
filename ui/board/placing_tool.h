#pragma once
#include "ui/board/board_tool.h"
#include <optional>

namespace slab::ui {

/// Puts something in at a place that is clicked or typed; what it would be is shown under the pointer.
class PlacingTool : public BoardTool {
public:
    explicit PlacingTool(BoardCanvas& canvas) : BoardTool(canvas) {}
    void move(const BoardPointer& pointer) override {
        m_view = pointer.view;
        m_at = met(pointer);
    }
    bool cancel() override {
        meetNothing();
        return false;
    }
    [[nodiscard]] bool takesPlaces() const override { return true; }

protected:
    /// What its places are drawn to.
    [[nodiscard]] virtual SnapOptions options() const { return {}; }
    [[nodiscard]] Vec2 met(const BoardPointer& pointer) { return meet(pointer, pointer.at, options()).at; }

    BoardView m_view = BoardView::side;
    std::optional<Vec2> m_at; ///< where a click would put it
};

} // namespace slab::ui
