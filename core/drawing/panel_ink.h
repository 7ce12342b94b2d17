#pragma once
// The lines of a panel, shared by the true-size group and the fitted drawing.
#include "core/drawing/panel_facts.h"
#include "core/drawing/pen.h"
#include "core/drawing/sheets.h"

namespace slab {

/// Panel coordinates to paper: p × scale + shift. Scale 1 without shift leaves every number as it is.
struct PanelMap {
    double scale = 1;
    Vec2 shift = Vec2::Zero();
    Vec2 operator()(const Vec2& p) const { return p * scale + shift; }
    [[nodiscard]] Ring ring(const Ring& points) const;
};

/// Outlines: cut lines solid, the inside face dashed. No fill, no words; folds: fold_ink.h.
void drawOutlines(const Panel& panel, const PanelMap& map, Layer& outer, Layer& inner);
/// The face area with its openings left free.
[[nodiscard]] Polygon faceArea(const Panel& panel, const PanelMap& map = {});
/// The strip along a fold line that words beside it take: `aside` mm on the side of the words
/// (drawFoldWords), a fifth of that on the other.
[[nodiscard]] Ring foldStrip(const Vec2& from, const Vec2& to, double aside);
/// How far the groove of a fold reaches on the side of its words, mm.
[[nodiscard]] double grooveAside(const PanelFold& fold);
/// The face area without the strips along its folds, their grooves and contacts: where the name may lie.
[[nodiscard]] Polygon nameArea(const Panel& panel, const PanelMap& map, double aside);
/// Unit vector from edge i of the outer outline out of the panel, and the edge's middle.
struct EdgeSpot {
    Vec2 middle = Vec2::Zero(), out = Vec2::UnitY(), along = Vec2::UnitX();
    double length = 0;
};
[[nodiscard]] EdgeSpot edgeSpot(const Ring& outline, std::size_t edge);
/// What meets at an edge, how and with which tilt, written along the part of it that is seen (`from` to `to`,
/// in the pen's coordinates), on the inside. Less is said where it is short.
void drawEdgeWords(const Panel& panel, const EdgeRow& row, const Vec2& from, const Vec2& to, const Pen& pen);
/// A panel's name, large and pale, inside `area`, with an arrow to its `up` beside it. Nothing when there is
/// no room for letters of `least` mm.
struct NameStyle {
    double most = 40, least = 2.2; ///< font size, mm
};
void drawName(const Panel& panel, const Polygon& area, const Pen& pen, const NameStyle& style);

} // namespace slab
