#pragma once
// What a hand does on the panel drawing beyond choosing edges.
#include <QCursor>
#include <QPointF>
#include <QRectF>
#include <QString>
#include <algorithm>
#include <vector>

class QKeyEvent;
class QPainter;

namespace slab::ui {

/// Do words stand there already?
[[nodiscard]] inline bool isCovered(const QRectF& box, const std::vector<QRectF>& taken) {
    return std::any_of(taken.begin(), taken.end(), [&](const QRectF& r) { return r.intersects(box); });
}

/// Asked before the canvas acts on its own. Places are pixels of the canvas.
class PanelTool {
public:
    PanelTool() = default;
    virtual ~PanelTool() = default;
    PanelTool(const PanelTool&) = delete;
    PanelTool& operator=(const PanelTool&) = delete;

    /// The left button goes down. @return true if what follows until it comes up is this tool's
    virtual bool press(const QPointF& at, Qt::KeyboardModifiers keys) = 0;
    virtual void drag(const QPointF& at, Qt::KeyboardModifiers keys) = 0;
    virtual void release(const QPointF& at) = 0;
    /// No button is down. @return true if a press here would be taken
    virtual bool hover(const QPointF& at, Qt::KeyboardModifiers keys) = 0;
    virtual void away() = 0; ///< the pointer has left the drawing
    /// @return true if the key was for this tool
    virtual bool key(QKeyEvent& event) = 0;
    /// An arrow key comes up again.
    virtual void keyUp() {}
    /// @param taken  where words stand already; the tool's own come to it
    virtual void paint(QPainter& painter, std::vector<QRectF>& taken) const = 0;
    /// Over something that can be dragged, or where a click would put something.
    [[nodiscard]] virtual Qt::CursorShape cursor() const = 0;
    /// What the thing under the pointer is; empty = nothing.
    [[nodiscard]] virtual QString tip() const = 0;
};

} // namespace slab::ui
