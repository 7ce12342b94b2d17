#pragma once
// Plates that mechanisms are made of, built from the outlines of their two faces.
#include "core/plates/plate.h"

namespace slab::mechanisms {

/// One closed boundary: the same number of corners on both faces, corner i behind corner i. Around the part
/// counter-clockwise, holes clockwise, seen from outside.
struct PartLoop {
    Ring outer, inner;
    std::vector<PanelEdge> edges; ///< neighbour, role, dihedral and mark of edge i; empty = all free
};

struct PartShape {
    std::string name, form, stock;
    double thickness = 0;
    Frame at; ///< of the loops; w outward, outer face at w = 0
    PartLoop boundary;
    std::vector<PartLoop> holes;
    bool lies = false; ///< its panel lies as `at` does, what is drawn to the right to the right; false: as
                       ///< every other plate, by what points up
    std::vector<std::vector<Vec2>> pieces; ///< convex regions that make up a square-edged part with holes;
                                           ///< empty = the part is the hull of its boundary
};
/// The plate with its panel frame, whose origin is the lower left corner of its outline.
/// Lengths, bevels and offsets of the edges are worked out from the outlines.
[[nodiscard]] Plate makePart(const PartShape& shape);

/// Lines in a shape's coordinates as the panel of the plate made of it has them.
[[nodiscard]] std::vector<GuideLine> panelGuides(const PartShape& shape, const Plate& plate,
                                                 std::vector<GuideLine> lines);

/// A square-edged loop.
[[nodiscard]] inline PartLoop squareLoop(const Ring& ring) {
    return {ring, ring, {}};
}

} // namespace slab::mechanisms
