#pragma once
#include "ui/board/draw_tool.h"
#include "ui/board/field_strip.h"

class QPushButton;

namespace slab::ui {

class BoardCanvas;

/// While a form is drawn: its name and size, the figures of the next corner, and the button that makes it.
class DrawStrip : public QWidget {
    Q_OBJECT
public:
    explicit DrawStrip(BoardCanvas* canvas, QWidget* parent = nullptr);
    /// Serves the canvas' tool if that draws a form.
    void refresh();
    [[nodiscard]] bool serves() const { return tool() != nullptr; }
    void begin(const QString& typed);

Q_SIGNALS:
    void done();

private:
    [[nodiscard]] DrawTool* tool() const;
    void figures();
    void placeCorner();

    BoardCanvas* m_canvas;
    const void* m_for = nullptr; ///< the tool that the entries were emptied for
    std::size_t m_count = 0;     ///< corners that it had then
    StripEntry *m_name, *m_size, *m_from, *m_right, *m_up;
    QPushButton *m_place, *m_make;
};

} // namespace slab::ui
