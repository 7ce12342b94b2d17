#pragma once
#include "core/picture/edits.h"
#include "ui/board/board_tool.h"
#include "ui/board/crop_box.h"
#include <QWidget>

class QToolButton;

namespace slab::ui {

/// Cuts a picture sheet with several views into its views: rectangles are dragged round them, each is told
/// which elevation it is, and one step makes a picture of each.
class CutTool : public BoardTool {
public:
    CutTool(BoardCanvas& canvas, int picture);
    [[nodiscard]] QString words() const override;
    [[nodiscard]] BoardPrompt prompt() const override;
    void press(const BoardPointer& pointer) override;
    void move(const BoardPointer& pointer) override;
    void drag(const BoardPointer& pointer) override;
    void release(const BoardPointer& pointer) override;
    bool key(QKeyEvent& event) override;
    bool cancel() override;
    void paint(QPainter& painter) const override;
    [[nodiscard]] Qt::CursorShape cursor(const BoardPointer& pointer) const override;
    [[nodiscard]] std::optional<BoardView> keepsTo() const override;

    [[nodiscard]] const std::vector<ViewCut>& cuts() const { return m_cuts; }
    [[nodiscard]] int chosen() const { return m_chosen; }
    [[nodiscard]] QString sheetName() const;
    /// The elevation of the chosen rectangle: "side", "front", "plan".
    void setElevation(const std::string& view);
    void drop(); ///< the chosen rectangle goes
    /// Makes the pictures. @return false if they cannot be made, which is told
    bool cut();

private:
    [[nodiscard]] const PlacedPicture* sheet() const;
    [[nodiscard]] std::string nextView() const;
    [[nodiscard]] double least() const; ///< that a rectangle may be made along each side, mm

    int m_picture;
    std::vector<ViewCut> m_cuts;
    int m_chosen = -1;
    BoxGrip m_grip, m_hover;
    int m_over = -1;            ///< rectangle under the pointer
    Vec2 m_from = Vec2::Zero(); ///< where the button went down, mm
    Box2 m_held;                ///< the rectangle as it was when it was taken
    bool m_down = false;        ///< the button is down
    bool m_fresh = false;
};

/// Says which elevation the chosen rectangle is, and cuts.
class CutStrip : public QWidget {
    Q_OBJECT
public:
    explicit CutStrip(BoardCanvas* canvas, QWidget* parent = nullptr);
    [[nodiscard]] bool serves() const { return tool() != nullptr; }
    void refresh();

Q_SIGNALS:
    void done();

private:
    [[nodiscard]] CutTool* tool() const;
    BoardCanvas* m_canvas;
    class ElidedLabel *m_heading, *m_words;
    QToolButton *m_views[3], *m_drop, *m_cut;
};

} // namespace slab::ui
