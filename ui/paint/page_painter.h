#pragma once
// Shows core/drawing pages with QPainter: theme inks, constant line widths, exact coordinates.
#include "core/drawing/drawing.h"
#include "ui/paint/paper_view.h"
#include <QColor>
#include <QFont>
#include <QPen>
#include <QString>

class QPainter;

namespace slab::ui {

struct PaintOptions {
    bool fills = true, labels = true;
    QColor line; ///< ink of outlines; invalid = the drawing's own ink
    QColor fill; ///< overrides fills; invalid = the drawing's own ink
};

/// Pen of a stroke: at least one pixel wide, dashes as on paper.
[[nodiscard]] QPen penFor(double widthMm, Dash dash, const QColor& colour);
void paintLayer(QPainter& painter, const Layer& layer, const PaperView& view,
                const PaintOptions& options = {});
void paintGroup(QPainter& painter, const Group& group, const PaperView& view,
                const PaintOptions& options = {});
/// All groups (shifted and clipped as the page says), then its overlay.
void paintPage(QPainter& painter, const Page& page, const PaperView& view, const PaintOptions& options = {});
/// Index of the last drawn group with a fill or closed stroke at `mm` (page coordinates); -1 = none.
[[nodiscard]] int groupAt(const Page& page, const Vec2& mm);

/// Text that fits into `width` pixels, elided in the middle.
[[nodiscard]] QString elided(const QString& text, const QFont& font, double width);
/// Text centred at a point, turned counter-clockwise by `degrees`, over a soft halo of `halo` if it is valid.
void drawText(QPainter& painter, const QPointF& centre, const QString& text, const QFont& font,
              const QColor& colour, double degrees = 0, const QColor& halo = {});

} // namespace slab::ui
