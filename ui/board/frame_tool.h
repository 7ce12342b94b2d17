#pragma once
#include "ui/board/placing_tool.h"

namespace slab::ui {

/// Puts frames in: a click takes the usual direction of the view, a stretch the one that it is drawn in. It
/// stays in hand until Escape.
class FrameTool : public PlacingTool {
public:
    using PlacingTool::PlacingTool;
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    void drag(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;
    void place(BoardView view, const Vec2& at) override;

protected:
    [[nodiscard]] SnapOptions options() const override;

private:
    [[nodiscard]] std::string axis() const;
    void put(BoardView view, const std::string& along, const Vec2& at, double step);

    std::optional<Vec2> m_from; ///< the button went down there
    QPointF m_pressed;
    Vec2 m_stretch = Vec2::Zero();
};

} // namespace slab::ui
