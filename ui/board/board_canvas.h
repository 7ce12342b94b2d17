#pragma once
#include "ui/board/board_tool.h"
#include <QWidget>
#include <memory>

namespace slab::ui {

class PictureLayer;
struct BoardInk;

/// The drafting sheet: three elevations with grid and rulers. Wheel zooms at the pointer, middle button or
/// the space bar moves the sheet; everything else is the tool's.
class BoardCanvas : public QWidget {
    Q_OBJECT
public:
    explicit BoardCanvas(BoardDesk* desk, QWidget* parent = nullptr);
    ~BoardCanvas() override;

    [[nodiscard]] BoardDesk& desk() const { return *m_desk; }
    [[nodiscard]] const PaperView& view() const { return m_view; }
    void fit();                           ///< everything, clear of the cards that lie on the sheet
    void makeRoom();                      ///< the same, unless the sheet was moved by hand
    void fitView(BoardView view);         ///< one elevation
    void setPaper(const PaperView& view); ///< pans and zooms by hand
    [[nodiscard]] QPointF pixelOf(BoardView view, const Vec2& at) const;
    [[nodiscard]] BoardPointer pointerAt(const QPointF& px, Qt::KeyboardModifiers keys = {}) const;
    /// The same pointer seen in a view that a gesture keeps to.
    [[nodiscard]] BoardPointer pointerIn(BoardView view, const QPointF& px,
                                         Qt::KeyboardModifiers keys = {}) const;
    [[nodiscard]] double reach() const { return reachPx / m_view.scale; } ///< mm
    [[nodiscard]] double step() const;                                    ///< mm: figures are rounded to it
    [[nodiscard]] double grid() const;                                    ///< mm: 0 while it is off
    [[nodiscard]] bool gridOn() const { return m_gridOn; }
    void setGridOn(bool on);
    [[nodiscard]] const BoardPointer& pointer() const { return m_pointer; }
    [[nodiscard]] bool isPointedAt() const { return m_over; } ///< the pointer is on the board
    [[nodiscard]] QRectF paper() const;                       ///< inside the rulers, px
    /// Where what is asked may stand: clear of the views' titles, of cards and of the pointer.
    [[nodiscard]] PromptRoom promptRoom(const BoardInk& ink) const;

    /// Says whether figures may be typed for what is chosen: a minus begins one then.
    void setTakesFigures(std::function<bool()> takes) { m_takesFigures = std::move(takes); }
    void setCovered(int px) { m_covered = px, update(); } ///< of the paper, from below
    void setTold(const BoardTold& told);           ///< why something could not be done, written on the board
    void setTool(std::unique_ptr<BoardTool> tool); ///< null = choose
    [[nodiscard]] BoardTool& tool() const { return *m_tool; }
    [[nodiscard]] PictureLayer& pictures() const { return *m_pictures; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {320, 220}; }
    [[nodiscard]] QSize sizeHint() const override { return {900, 620}; }

    static constexpr double ruler = 24; ///< px
    static constexpr double reachPx = 9;

Q_SIGNALS:
    void handled();                         ///< a key or a button goes down: something is about to be done
    void pointed();                         ///< the pointer, what it meets, or what the tool asks has changed
    void toolDone();                        ///< the tool has made what it was for
    void keyWanted(const QString& tool);    ///< a tool's letter
    void entryWanted(const QString& typed); ///< figures typed over the sheet go to the strip

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void moveEvent(QMoveEvent* event) override;
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] Box2 extent() const;
    void keepClear();
    void showNewForm();
    void zoom(const QPointF& px, double factor);
    bool moveKey(QKeyEvent* event);
    void paintWords(QPainter& painter) const;
    void showCursor();
    void lookAgain();
    [[nodiscard]] bool isTracing() const;
    /// Nothing is chosen and no tool waits for a place: the sheet may move.
    [[nodiscard]] bool isIdle() const {
        return m_desk->choice().empty() && m_desk->chosenPart().empty() && m_tool->prompt().words.isEmpty();
    }

    BoardDesk* m_desk;
    std::unique_ptr<PictureLayer> m_pictures;
    std::unique_ptr<BoardTool> m_tool;
    PaperView m_view;
    BoardPointer m_pointer;
    QPointF m_last;
    BoardTold m_told;
    bool m_touched = false; ///< zoomed or moved by hand: not fitted again
    QSize m_fitted;         ///< of the canvas when all was fitted last
    bool m_gridOn = true, m_space = false, m_panning = false, m_over = false;
    std::function<bool()> m_takesFigures;
    std::uint64_t m_document = 0;
    bool m_hadAnything = false;
    int m_covered = 0;       ///< px
    std::size_t m_forms = 0; ///< of the document, when the newest was last looked for
};

} // namespace slab::ui
