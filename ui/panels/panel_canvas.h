#pragma once
#include "core/drawing/drawing.h"
#include "core/plates/plate.h"
#include "core/units/units.h"
#include "ui/paint/paper_view.h"
#include "ui/panels/panel_tool.h"
#include <QWidget>
#include <array>

namespace slab::ui {

/// What the canvas draws: one panel, with the words of one of its plates at the edges.
struct PanelPicture {
    Panel panel;
    std::vector<PanelEdge> edges; ///< of the chosen copy: of the panel's boundary, then its fold lines
    std::string plate;            ///< the chosen copy
    std::string stockKind;
    int number = 0;             ///< counted from 1
    std::uint64_t document = 0; ///< that it is of
    UnitStyle units;
    std::string arrow{};        ///< where the arrow points on the chosen copy; empty = where the panel says
    std::vector<Ring> others{}; ///< of a piece between seams: the other pieces of its plate, same coordinates
};

/// px from the left border of a drawing to the height's dimension line.
inline constexpr double panelSizeColumn = 14;

/// The panel's drawing: true coordinates, zoom and pan, edges to hover and click.
class PanelCanvas : public QWidget {
    Q_OBJECT
public:
    explicit PanelCanvas(QWidget* parent = nullptr);
    /// Another panel is fitted into the view; of the same one in another size the same part stays in view.
    void show(std::optional<PanelPicture> picture);
    void setChosenEdge(int edge);
    /// Asked first about mouse and keys, and paints over the panel; outlives the canvas or is taken off it.
    void setTool(PanelTool* tool) { m_tool = tool; }
    void fit();
    [[nodiscard]] const PaperView& view() const { return m_view; }
    /// Points of the outline as drawn, widget pixels.
    [[nodiscard]] QPolygonF outlineOnScreen() const;
    /// Where words and figures stand, with the direction arrow: clear of each other; widget pixels.
    [[nodiscard]] std::vector<QRectF> wordsOnScreen() const;
    /// What stands under the direction arrow.
    [[nodiscard]] QString arrowWord() const;
    /// Edge within reach of a pixel; -1 = none.
    [[nodiscard]] int edgeAt(const QPointF& px) const;
    [[nodiscard]] QSize minimumSizeHint() const override { return {120, 70}; }
    [[nodiscard]] QSize sizeHint() const override { return {420, 280}; }

Q_SIGNALS:
    void edgeClicked(int edge);
    void emptyClicked();
    void menuWanted(int edge, const QPoint& at); ///< the right button, on an edge (-1 = none); global pixels

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    [[nodiscard]] Box2 extent() const;
    void keepInView(const Box2& before); ///< what was seen of a panel that had this extent
    void hover(QMouseEvent* event);
    /// Ends of an edge of the picture (outline, then folds), widget pixels.
    [[nodiscard]] QLineF lineOnScreen(std::size_t edge) const;
    [[nodiscard]] QString edgeWords(std::size_t edge) const;
    [[nodiscard]] double sizeLine() const; ///< px; the width's dimension line
    [[nodiscard]] int wordsPx() const;     ///< larger words in a larger drawing
    [[nodiscard]] QSizeF arrowRoom() const;
    [[nodiscard]] QMarginsF roomForWords() const;
    /// A figure on a dimension line; without words where there is no room for it.
    struct Figure {
        QString words;
        QPointF at;
        double turn = 0; ///< degrees
        QRectF box;
    };
    [[nodiscard]] std::array<Figure, 2> figures() const; ///< width, height
    [[nodiscard]] std::vector<QRectF> dimensionLines() const;
    void paintPanel(QPainter& painter) const;
    void paintOthers(QPainter& painter) const;
    /// All words, those that matter most first: what comes later keeps clear of them or is left out.
    /// @return where they stand
    std::vector<QRectF> paintWords(QPainter& painter) const;
    void paintEdges(QPainter& painter) const; ///< the chosen one and the one under the pointer
    void paintEdgeLabel(QPainter& painter, std::size_t edge, std::vector<QRectF>& taken) const;
    void paintOpenings(QPainter& painter, std::vector<QRectF>& taken) const;
    void paintName(QPainter& painter, std::vector<QRectF>& taken) const;
    void paintSizes(QPainter& painter) const;
    void paintUp(QPainter& painter) const;

    std::optional<PanelPicture> m_picture;
    Group m_group;
    Polygon m_inside; ///< where the name may stand
    Roomy m_room;
    PaperView m_view;
    bool m_touched = false; ///< zoomed or moved by hand: not fitted again on resize
    int m_chosen = -1, m_hovered = -1;
    QPointF m_pressed, m_last;
    bool m_dragging = false, m_taken = false; ///< taken: by the tool, until the button comes up
    PanelTool* m_tool = nullptr;
};

} // namespace slab::ui
