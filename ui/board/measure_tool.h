#pragma once
#include "core/board/measure.h"
#include "ui/board/board_tool.h"

namespace slab::ui {

/// Tells distances between any two places, and the angle when a third is clicked. Changes nothing.
class MeasureTool : public BoardTool {
public:
    using BoardTool::BoardTool;
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;
    [[nodiscard]] QString reading() const; ///< the last distance or angle; empty = none yet

private:
    [[nodiscard]] std::vector<Vec2> line() const;
    BoardView m_view = BoardView::side;
    std::vector<Vec2> m_places;
    std::optional<Vec2> m_pointer;
};

/// Draws a dimension line: two points, then where it lies, which also says along what it measures.
class DimensionTool : public BoardTool {
public:
    using BoardTool::BoardTool;
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;

    /// Along what a line measures that lies at `at`: "x" and the like beyond the points' box, else "" (true
    /// distance).
    [[nodiscard]] static std::string alongFor(BoardView view, const Vec2& a, const Vec2& b, const Vec2& at);

private:
    [[nodiscard]] const BoardPoint* pointAt(const BoardPointer& pointer) const;
    void finish(const BoardPointer& pointer);
    BoardView m_view = BoardView::side;
    std::vector<PointRef> m_points;
    const BoardPoint* m_hover = nullptr; ///< only between events
    Vec2 m_pointer = Vec2::Zero();
};

} // namespace slab::ui
