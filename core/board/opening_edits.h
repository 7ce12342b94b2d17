#pragma once
// Openings by hand: put into a plate, moved, as edits. Formulas are kept as moves.h keeps them.
#include "core/board/moves.h"
#include "core/plates/openings.h"
#include <array>

namespace slab {

/// What a click can put into a plate.
struct OpeningKind {
    std::string key;   ///< "hatch", "slit", "hand hole", "wheel arch", "light": the new opening's name too
    std::string words; ///< one line for the builder
    std::string purpose;
    OpeningShape shape = OpeningShape::rectangle;
    std::array<double, 2> metric{}, inches{}; ///< width and height (of a circle: its diameter), mm and in
    double radius = 0;                        ///< of its corners, mm; in inches 1/25 of that
    bool lid = false;                         ///< what is cut out comes back as a hatch that lifts off
};
[[nodiscard]] const std::vector<OpeningKind>& openingKinds();

/// How a new opening says where it is.
enum class OpeningPlace {
    flat, ///< on its plate, from the plate's middle
    space ///< by a point on its axis in body axes and a direction, limited to the plate
};
/// A new opening at a place of a plate's flat coordinates. Sizes are the kind's, smaller where the plate is
/// small; lengths are written in the document's units.
/// @param step  mm on the board to which its place is rounded, see MoveOptions
/// @error "not-cuttable": the plate is cut from nothing, or is a frame, a strip, a mechanism's part
[[nodiscard]] Expected<Edit> addOpening(const Project& project, const Scope& scope, const OpeningKind& kind,
                                        const Plate& plate, const Vec2& at, OpeningPlace place, double step);
/// Width and height that addOpening() takes, mm.
[[nodiscard]] Vec2 openingSize(const Project& project, const OpeningKind& kind, const Plate& plate);
/// Name of the opening that addOpening() would make.
[[nodiscard]] std::string openingName(const Project& project, const OpeningKind& kind);

/// An opening moved along a plate that it is cut in.
/// @param by  mm at build size, body axes; what is square to its directions is passed over
/// @error "no-such-place"; "broken-formula" (a formula of its place has no value)
[[nodiscard]] Expected<Edit> moveOpening(const Project& project, const Scope& scope, int index,
                                         const Plate& plate, const Vec3& by, const MoveOptions& options = {});

} // namespace slab
