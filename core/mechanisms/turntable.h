#pragma once
// A turntable as figures, and what it is made of.
#include "core/mechanisms/reading.h"
#include "core/mechanisms/turntable_rings.h"
#include "core/plates/sheet_room.h"

namespace slab::mechanisms {

/// A turntable with its formulas read. The frame's w is the axis; its origin lies in the face that the seat
/// ring lies on.
struct TurntableFigures {
    std::string name;
    Frame frame;
    RingProblem rings;
    RingSizes sizes;
    double depth = 0; ///< of the drum, from its lip to its far end
    int sides = 0;    ///< 0 = a found tub or pipe
    Sheet ringSheet, drumSheet;
    plates::SheetRoom ringRoom;   ///< of all sheets of the rings' stock
    std::optional<int> segments;  ///< of each ring; nothing = no number of them fits the sheet
    std::vector<Plate> ringParts; ///< cutRings()
    Move turn;

    /// Heights along the axis of the lip's underside and of the drum's ends, low and high.
    [[nodiscard]] double lipBottom() const { return sizes.lipTop - rings.lipThickness; }
    [[nodiscard]] double drumLow() const { return rings.rises ? sizes.lipTop : lipBottom() - depth; }
    [[nodiscard]] double drumHigh() const { return rings.rises ? sizes.lipTop + depth : lipBottom(); }
    /// Radius of the round room within the drum's wall, or within all of its sides; 0 = nothing is hollow.
    [[nodiscard]] double inside() const;
    /// Radius of the hole through the lip; 0 = none: the disc on a drum of plates that hangs closes it.
    [[nodiscard]] double mouth() const { return sides > 0 && !rings.rises ? 0 : inside(); }
    [[nodiscard]] Vec3 onAxis(double height) const { return frame.origin + height * frame.axes.col(2); }
};

/// Seat, spacer and cap rings, each a flat part; holes stand outside their true circle and outsides within
/// it, so that no clearance is less than asked (a cap hole that must not be clear of the drum stands within
/// its circle, so that the overlap is not less).
/// Rings that their sheet does not hold are cut in segments that butt. Joints of neighbouring layers are half
/// a segment apart, so that each layer, glued on, splices the joints of the next (common practice); a guide
/// line on each segment tells where those lie.
/// In the fewest segments with which every layer lies on a sheet as the stock may be turned: 1 = whole; in
/// 24 where not even those do.
void cutRings(TurntableFigures& t);
/// Screws or bolts through the rings: at most 100 mm apart, as many beside every joint of the segments.
[[nodiscard]] int ringScrews(const TurntableFigures& t, int segments);
/// Their places about the axis, as the rings lie, mm.
[[nodiscard]] std::vector<Vec2> screwPlaces(const TurntableFigures& t, int segments);
/// From a joint to the next one of a neighbouring layer, along the middle of the spacer, mm.
[[nodiscard]] double jointLap(const RingSizes& sizes, int segments);
/// A drum of plates: sides with mitred edges, their outer corners on the drum's circle; a lip disc (a ring,
/// where the drum rises) and a floor (a top) within the sides. Each with what it is.
[[nodiscard]] std::vector<std::pair<Plate, PartRole::Kind>> drumPlates(const TurntableFigures& t);

} // namespace slab::mechanisms
