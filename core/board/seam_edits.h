#pragma once
// Seams by hand: found on the panel that they cut, moved, added, given back to the program, as edits.
#include "core/board/moves.h"
#include "core/plates/seams.h"

namespace slab {

/// A seam through a panel, as drawn: in the panel's coordinates, which its pieces keep.
struct PanelSeam {
    int entry = -1;                           ///< in the document's list of seams; -1 = found by the program
    std::string plate;                        ///< first of the plates that it cuts
    double at = 0, turn = 0;                  ///< like SeamChoice
    Vec2 normal = Vec2::UnitX();              ///< `at` grows along it
    double sign = 1;                          ///< -1: the entry counts the other way
    std::vector<std::pair<Vec2, Vec2>> lines; ///< on the outside face
    bool operator==(const PanelSeam&) const = default;
};
/// Box of a whole panel, of the pieces that it was cut into; where `at` is measured from is its middle.
[[nodiscard]] Box2 wholeBox(const std::vector<Panel>& panels, const Panel& panel);
/// The seams of a panel or of the panel that it is a piece of.
[[nodiscard]] std::vector<PanelSeam> seamsOn(const Project& project, const Scope& scope,
                                             const std::vector<SeamCut>& cuts,
                                             const std::vector<Panel>& panels, const Panel& panel);
/// The line that a new seam would take through a place of a panel: square to the longer side of its box.
struct SeamLine {
    double at = 0;
    Vec2 normal = Vec2::UnitX();
};
[[nodiscard]] SeamLine seamThrough(const Box2& whole, const Vec2& onPanel);

/// A seam moved along its normal. One that the program had found becomes the builder's own.
/// @param by  mm at build size
/// @error "no-such-place"; "broken-formula"
[[nodiscard]] Expected<Edit> moveSeam(const Project& project, const Scope& scope, const PanelSeam& seam,
                                      double by, const MoveOptions& options = {});
/// A new seam square to the longer side.
/// @param step  to which its place is rounded, see MoveOptions
/// @error "no-seam-here": the panel is a blank of several plates
[[nodiscard]] Expected<Edit> addSeam(const Project& project, const Scope& scope, const Panel& panel,
                                     double at, double step);
/// The program finds the cut again, if the panel needs one.
/// @error "no-such-place": the seam was found by the program
[[nodiscard]] Expected<Edit> giveBackSeam(const Project& project, const PanelSeam& seam);

} // namespace slab
