#pragma once
// Openings as figures, and where they lie on a plate laid flat.
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// An opening of the document as figures.
/// @return false if it cannot be made; a finding says why
[[nodiscard]] bool readOpening(const Opening& opening, const Scope& scope, std::vector<Finding>& findings,
                               ResolvedOpening& out);

/// An opening on the outside face of a plate, in the plate's own flat coordinates.
struct FlatOpening {
    int index = -1; ///< in the document's list
    std::string name;
    bool hosted = false;    ///< by this plate; else it comes through along a direction
    Vec2 at = Vec2::Zero(); ///< its middle
    Ring outline;           ///< counter-clockwise; whole, also where it runs out through the plate's edge
    bool operator==(const FlatOpening&) const = default;
};
/// Sides of the body and plate forms do; frames, lids, strips and parts of mechanisms do not.
[[nodiscard]] bool takesOpenings(const Plate& plate, const Body& body);
/// The place on the plate that u and v of its openings are measured from: the middle of its outline's box.
/// (An opening that takes a whole end of the plate away shifts the box that is left.)
[[nodiscard]] Vec2 plateMiddle(const Plate& plate);
/// Those openings of the document that can be made, by their place in its list.
struct NumberedOpening {
    int index = -1;
    ResolvedOpening figures;
};
[[nodiscard]] std::vector<NumberedOpening> readOpenings(const Project& project, const Scope& scope);

/// All openings of the document that are cut in this plate, in the document's order. What comes within 10° of
/// along the plate is passed over: it leaves no outline of its own.
/// @param plate  of the same project, as evaluated
[[nodiscard]] std::vector<FlatOpening> openingsOn(const Plate& plate, const Body& body,
                                                  const Project& project, const Scope& scope);
/// The same for many plates: the openings are read once.
[[nodiscard]] std::vector<FlatOpening> openingsOn(const Plate& plate, const Body& body,
                                                  const std::vector<NumberedOpening>& openings);

/// How much of a plate is left beside an opening.
struct EdgeRoom {
    double left = 0;      ///< mm on the outside face, to the edge or to the nearest other opening
    double wanted = 0;    ///< mm, see leastWeb()
    bool through = false; ///< it runs out through the plate's edge
    std::string other;    ///< the opening that is nearer than the edge; empty = the edge
    bool operator==(const EdgeRoom&) const = default;
};
/// @param sheet    of the plate; null = unknown
/// @param outline  of the opening, flat coordinates of the plate
/// @param opening  its name: its own hole is not looked at
[[nodiscard]] EdgeRoom edgeRoom(const Plate& plate, const Sheet* sheet, const Ring& outline,
                                const std::string& opening);

} // namespace slab
