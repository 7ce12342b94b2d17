#pragma once
// Lines to be marked out on a panel and not cut: links of a belt, laps, joints of other layers.
#include "core/drawing/panel_ink.h"
#include "core/drawing/tables.h"

namespace slab {

/// Thin lines, dashed on the inside face, with their words along them near the end that they start from, on
/// long ones near both ends.
void drawGuides(const Panel& panel, const PanelMap& map, Layer& marks);

/// Where the words of the guide lines stand: a panel's name keeps off them.
[[nodiscard]] std::vector<Ring> guideWordAreas(const Panel& panel, const PanelMap& map);
/// Both ends of every guide line from one datum, so that no error adds up. Empty without guide lines.
[[nodiscard]] Table guideTable(const Panel& panel, const UnitStyle& units);

} // namespace slab
