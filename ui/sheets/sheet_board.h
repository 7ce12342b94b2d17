#pragma once
#include "core/evaluate/evaluate.h"
#include "ui/paint/paper_view.h"
#include <QPainterPath>
#include <QWidget>

namespace slab::ui {

/// One panel where it lies on a sheet.
struct LaidPanel {
    std::string panel, plate;        ///< plate = the copy that this piece is for; of a blank, its first plate
    std::vector<std::string> plates; ///< all plates of the piece: several of a blank
    std::string form;                ///< of that plate
    Ring outer;                      ///< sheet axes, mm
    std::vector<Ring> holes;
    Polygon footprint;   ///< what the saw takes: both outlines together
    double rotation = 0; ///< radians
};

/// A sheet as it is shown.
struct LaidSheet {
    double length = 0, width = 0, trim = 0; ///< mm, length along x
    QString kind;
    QStringList titles; ///< longest first: "1 · foam_13 · 13 mm · shed", "1 · foam_13 · shed", "1 · shed"
    double used = 0;
    bool provisional = false;
    std::vector<LaidPanel> panels;
};

/// A panel's point as placed: mirrored if flipped, turned, moved.
[[nodiscard]] Vec2 placedPoint(const Vec2& point, const NestPlace& place);
[[nodiscard]] std::vector<LaidSheet> laidSheets(const Evaluation& evaluation);

/// All sheets side by side, captions under them; zoom, pan, choose.
class SheetBoard : public QWidget {
    Q_OBJECT
public:
    explicit SheetBoard(QWidget* parent = nullptr);
    void show(std::vector<LaidSheet> sheets);
    /// @param form  all of its plates, when no plate is chosen
    void setChosen(const std::string& plate, const std::string& form = {});
    void fit();
    void fillWith(int sheet);
    /// Widget pixels of sheet coordinates.
    [[nodiscard]] PaperView viewOf(int sheet) const;
    [[nodiscard]] const std::vector<LaidSheet>& sheets() const { return m_sheets; }
    /// Sheet and panel under a pixel; panel -1 = bare sheet, sheet -1 = nothing.
    [[nodiscard]] std::pair<int, int> at(const QPointF& px) const;
    [[nodiscard]] QSize minimumSizeHint() const override { return {140, 60}; }
    [[nodiscard]] QSize sizeHint() const override { return {420, 260}; }

Q_SIGNALS:
    void plateClicked(const QString& plate); ///< empty = bare ground
    void wholeChanged(bool whole);           ///< all sheets are shown, or a part

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void arrange();
    void zoomAt(const QPointF& px, double factor);
    void paintSheet(QPainter& painter, int sheet) const;
    void paintPanel(QPainter& painter, const LaidPanel& panel, const PaperView& view,
                    const QColor& tint) const;
    void paintName(QPainter& painter, const LaidPanel& panel, const PaperView& view, const QColor& ink,
                   bool bold) const;
    void chooseNext(int by);

    std::vector<LaidSheet> m_sheets;
    std::vector<PaperView> m_base; ///< of each sheet when everything fits
    std::string m_chosen, m_chosenForm, m_chosenPanel;
    double m_zoom = 1;
    QPointF m_offset;
    int m_filled = -1;
    QPointF m_pressed, m_last;
    bool m_dragging = false;
};

} // namespace slab::ui
