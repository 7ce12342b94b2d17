#pragma once
// Does an outline go on a sheet in any way that its stock allows?
#include "core/geometry/polygon.h"
#include "core/stock/stock.h"

namespace slab::plates {

/// What the sheets of one stock take, trim off.
struct SheetRoom {
    std::vector<Vec2> sizes; ///< length, width of each sheet; empty = stock unknown
    bool either = true;      ///< may be turned by a quarter
    bool any = true;         ///< … or to any angle
    /// A box of that size, its first side along the sheet's length or, if allowed, across it.
    [[nodiscard]] bool takes(const Vec2& box) const;
    /// Least number of parts that a box falls into when it is cut in a grid for the largest sheet.
    [[nodiscard]] int count(const Vec2& box) const;
    /// The largest sheet.
    [[nodiscard]] Vec2 largest() const;
};
[[nodiscard]] SheetRoom roomOf(const StockSet& stock, const std::string& name);

/// Directions that the layout tries for an outline that may lie at any angle: its two longest hull sides by
/// total length, as angles in [0, quarter turn); else 0 alone.
[[nodiscard]] std::vector<double> layDirections(const Ring& outline, const SheetRoom& room);

/// Does it lie on one of the sheets in one of those directions?
/// @param most  of the directions; the quick layout tries the first alone
[[nodiscard]] bool fitsSheet(const Ring& outline, const SheetRoom& room, std::size_t most = 2);

/// Box of the points after turning them by -angle.
[[nodiscard]] Box2 boxAt(const Ring& points, double angle);

} // namespace slab::plates
