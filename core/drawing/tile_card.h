#pragma once
// The card on each template page: which page of which part, how it lies, and the map of all pages.
#include "core/drawing/pen.h"
#include "core/drawing/tiles.h"

namespace slab {

struct CardFacts {
    const Panel* panel = nullptr;
    const TilePlan* plan = nullptr;
    TemplateOptions options;
    int column = 0, row = 0, number = 0, count = 0; ///< this tile; "number of count"
};
[[nodiscard]] Vec2 cardSize(const CardFacts& facts);
void drawCard(const Pen& pen, const Area& area, const CardFacts& facts);
/// All tiles of a panel with its outline; the current one filled, unprinted ones hollow and dotted.
void drawMap(const Pen& pen, const Area& area, const CardFacts& facts);

} // namespace slab
