#pragma once
// From corners and rough faces to a closed solid with exactly flat, named faces.
#include "core/base/error.h"
#include "core/body/outline.h"
#include "core/geometry/polyhedron.h"

namespace slab {

/// A side that was not flat and became several.
struct SideSplit {
    std::string side;
    int pieces = 0;
    double off = 0; ///< how far a corner stood off the side's mean plane, mm
    bool operator==(const SideSplit&) const = default;
};
struct Made {
    Polyhedron solid;
    std::vector<SideSplit> splits;
};

struct RoughFace {
    std::string name;
    std::vector<int> loop; ///< either way round; all are turned outward together
};

/// Welds corners, drops sides without area, turns faces outward, splits those that are not flat (over 1e-6 of
/// the size), settles corners on the planes, numbers the pieces of a side "#1", "#2", … along x.
/// @error "form-open", "form-pinched", "form-flat", "form-crosses", "form-twisted", "form-too-big"; `where`
/// is empty,
///        the message names the side
[[nodiscard]] Expected<Made> closeUp(std::vector<Vec3> corners, std::vector<RoughFace> faces);

/// Profile form: cross plates from the outline's sides, flanks "port" and "starboard".
/// @param corners  (x, z) and half-widths, checked by troubleOf()
[[nodiscard]] Expected<Made> makeProfile(Corners corners);
/// Taper form: faces "base", "top" and the base's sides. Outlines run the same way and have as many corners.
[[nodiscard]] Expected<Made> makeTaper(const Corners& base, const Corners& top, double baseZ, double topZ);

} // namespace slab
