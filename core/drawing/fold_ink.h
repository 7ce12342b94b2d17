#pragma once
// The folds of a blank: lines, grooves and what is said about them.
#include "core/drawing/panel_ink.h"
#include "core/drawing/tables.h"

namespace slab {

/// Fold lines dash-dot; the borders of their grooves dashed on the inside face (in the layer "inner"), thin
/// dash-dot on the outside face. No words. Adds a layer "folds" at the end if there are any.
void drawFolds(const Panel& panel, const PanelMap& map, Group& group);
/// "fold 90°, groove inside 24 mm"; just "fold 90°" for the short form.
[[nodiscard]] std::string foldWords(const PanelFold& fold, const UnitStyle& units, bool full = true);
/// Written along the part of a fold line that is seen (`from` to `to`, in the pen's coordinates), beside it.
/// Less is said where it is short, nothing where it is too short for that.
/// Clear of the groove's border too.
/// @param tag    stands before the words
/// @param scale  of the pen's coordinates to the panel's
void drawFoldWords(const PanelFold& fold, const Vec2& from, const Vec2& to, const UnitStyle& units,
                   const Pen& pen, const std::string& tag = {}, double scale = 1);
/// "F1", "F2" … with the plates, angle, groove and length; no rows for a panel without folds.
[[nodiscard]] Table foldTable(const Panel& panel, const UnitStyle& units);

} // namespace slab
