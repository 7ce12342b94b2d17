#pragma once
// Panel outlines, read off a plate's solid.
#include "core/plates/plate.h"
#include "core/plates/solid.h"
#include <functional>

namespace slab::plates {

/// What stands behind one side of a plate.
struct SideLabel {
    std::string neighbour, opening;
    EdgeRole role = EdgeRole::cut;
    double dihedral = 0;
    int mark = 0;
    bool hasEdge = false;
    Vec3 onEdge = Vec3::Zero(),
         inward = Vec3::Zero(); ///< skin edge, and the direction into the plate in its plane
};
/// Asked with the side's half-space and a point on the outer edge.
using Labeller = std::function<SideLabel(const Half&, const Vec3&)>;

/// Panel frame of a face with outward normal `w` through `points`.
///
/// Level plates (within 20° of level): u forward (+x), so a top lies with its nose to the right. All others:
/// v up (+z) along the plate. The origin is the lower left corner of the points' box, so that coordinates are
/// not negative.
[[nodiscard]] Frame panelFrame(const Vec3& w, const std::vector<Vec3>& points);
[[nodiscard]] bool isLevel(const Vec3& w);

/// Turns a loop to start at its lowest, then leftmost corner. @return by how many corners
std::ptrdiff_t startLow(Ring& ring);

/// Fills frame, boundary and holes of `plate` from its solid. `plate.thickness` must be set.
/// @return false if nothing of the outer face is left
bool readOutlines(Plate& plate, const Piece& piece, const PlaneTable& planes, const Half& outer,
                  const Half& inner, const Labeller& label);

} // namespace slab::plates
