#pragma once
// What a hand does on the board: one tool at a time takes mouse and keys, and draws what is in the making.
#include "core/board/snap.h"
#include "ui/board/board_desk.h"
#include "ui/board/board_prompt.h"
#include "ui/paint/paper_view.h"
#include <QCursor>
#include <QString>

class QKeyEvent;
class QPainter;

namespace slab::ui {

class BoardCanvas;

/// The pointer, on screen and in an elevation.
struct BoardPointer {
    QPointF px;
    BoardView view = BoardView::side;
    Vec2 at = Vec2::Zero(); ///< in the view, mm at build size
    Qt::KeyboardModifiers keys;
};

class BoardTool {
public:
    explicit BoardTool(BoardCanvas& canvas) : m_canvas(canvas) {}
    virtual ~BoardTool() = default;
    BoardTool(const BoardTool&) = delete;
    BoardTool& operator=(const BoardTool&) = delete;

    /// What to do next, for the status line.
    [[nodiscard]] virtual QString words() const = 0;
    /// What it waits for, written large on the board; empty for a tool that waits for nothing.
    [[nodiscard]] virtual BoardPrompt prompt() const { return {}; }
    virtual void press(const BoardPointer&) {}
    virtual void move(const BoardPointer&) {}
    virtual void drag(const BoardPointer&) {} ///< moved with the left button down
    virtual void release(const BoardPointer&) {}
    virtual void doubleClick(const BoardPointer&) {}
    /// @return true if the key was for this tool
    virtual bool key(QKeyEvent&) { return false; }
    /// Escape: gives up what is in the making. @return false if there was nothing
    virtual bool cancel() { return false; }
    /// Another tool is taken: what is in the making is given up, what is chosen stays.
    virtual void leave() { cancel(); }
    virtual void paint(QPainter&) const {}
    [[nodiscard]] virtual Qt::CursorShape cursor(const BoardPointer&) const { return Qt::CrossCursor; }
    /// What the pointer has met: "level with hull/deck".
    [[nodiscard]] const Snap& snap() const { return m_snap; }
    /// Name of what lies under the pointer and is no point or edge: "monitor/tube"; empty = nothing.
    [[nodiscard]] virtual std::string under() const { return {}; }
    /// The view that a gesture keeps to, wherever the pointer is on the sheet.
    [[nodiscard]] virtual std::optional<BoardView> keepsTo() const { return {}; }
    /// It marks a picture: what lies over that is drawn faint.
    [[nodiscard]] virtual bool marksPicture() const { return false; }
    /// Exact places typed in the strip: a tool that places points takes them.
    [[nodiscard]] virtual bool takesPlaces() const { return false; }
    /// Letters begin a formula in the strip: another tool would take away what is in the making.
    [[nodiscard]] virtual bool takesNames() const { return false; }
    virtual void place(BoardView, const Vec2&) {}
    /// Where the next point is measured from, for typed places; nothing = from the view's zero.
    [[nodiscard]] virtual std::optional<Vec2> last() const { return {}; }

protected:
    [[nodiscard]] BoardDesk& desk() const;
    /// Snaps unless Alt is held, and remembers the guides.
    const Snap& meet(const BoardPointer& pointer, const Vec2& at, SnapOptions options);
    void meetNothing() { m_snap = {}; }

    BoardCanvas& m_canvas;
    Snap m_snap;
};

} // namespace slab::ui
