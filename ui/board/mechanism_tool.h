#pragma once
#include "core/board/mechanism_edits.h"
#include "ui/board/placing_tool.h"
#include <array>

namespace slab::ui {

/// Puts one mechanism in where it is clicked; what it would be is drawn in all elevations before.
class MechanismTool : public PlacingTool {
public:
    MechanismTool(BoardCanvas& canvas, const MechanismWords& kind) : PlacingTool(canvas), m_kind(kind) {}
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void move(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    void paint(QPainter& painter) const override;
    void place(BoardView view, const Vec2& at) override;

    /// What a click would put in, as it is drawn.
    [[nodiscard]] const std::vector<BoardMark>& planned(BoardView view) const {
        return m_planned[static_cast<std::size_t>(view)];
    }

private:
    void put(BoardView view, const Vec2& at, double step);
    [[nodiscard]] MechanismStart startAt(BoardView view, const Vec2& at, double step) const;

    MechanismWords m_kind;
    std::array<std::vector<BoardMark>, 3> m_planned; ///< of each view
    QString m_refused;                               ///< why a click would put nothing in
};

} // namespace slab::ui
