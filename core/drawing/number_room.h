#pragma once
// Where edge numbers stand: each beside its edge, clear of everything else; where that is not to be had,
// numbers of neighbouring edges are told together, as a range.
#include "core/drawing/panel_facts.h"
#include "core/drawing/panel_ink.h"
#include "core/drawing/pen.h"

namespace slab {

/// A number and the place on its edge that a line leads to, mm on paper.
struct NumberPlace {
    Vec2 centre = Vec2::Zero(), foot = Vec2::Zero();
};

/// What is drawn already, and what may still be put between it.
class NumberRoom {
public:
    static constexpr double balloon = 2.3; ///< half the height of an edge number, mm

    Area region;
    std::vector<Ring> rings;              ///< outlines: nothing stands on them
    std::vector<Area> taken, numberAreas; ///< words and numbers; numbers alone
    std::vector<NumberPlace> leaders;

    [[nodiscard]] bool isFree(const Area& area) const;
    /// The line from a number to its edge runs over no other number and no other such line.
    [[nodiscard]] bool leaderIsFree(const NumberPlace& place) const;
    /// A free place for an edge number; best one whose line crosses no other.
    /// @param first  side of the edge to look at first: 1 is off the panel, -1 on it
    [[nodiscard]] std::optional<NumberPlace> placeFor(const EdgeSpot& spot, double width, double first) const;
    [[nodiscard]] static double widthOf(const std::string& number);
    [[nodiscard]] static Area areaOf(const NumberPlace& place, double width);
    void take(const NumberPlace& place, double width);
};

/// A number as it is drawn.
struct PlacedNumber {
    std::string number; ///< "3", or "7–12" for rows that are told together
    NumberPlace place;
    bool together = false; ///< of several rows of the edge table
};
/// Places for the numbers of all rows, which are then taken. Rows that find none are told together with the
/// next one along the outline, until all have a place; every row lies in exactly one number.
/// @param map  from the panel to paper
[[nodiscard]] std::vector<PlacedNumber> placeNumbers(NumberRoom& room, const std::vector<EdgeRow>& rows,
                                                     const Panel& panel, const PanelMap& map);

} // namespace slab
