#pragma once
// Bodies to fold, and folding a blank up again.
#include "fixtures.h"

namespace slab::test {

/// Upright prism over a counter-clockwise outline, not necessarily convex: faces "s0" (from point 0 to 1),
/// "s1" …, "top", "bottom".
Polyhedron prism(const Ring& outline, double height);
/// Random convex hull, or a prism over an L, U or T outline.
Body randomFoldable(Random& random);
/// Up to `count` folds that make a tree, taken from the skin's edges from number `start` on.
std::vector<EdgeJoint> foldTree(const Body& body, int start, int count);
/// Up to `count` edges of the skin, none of them closing a ring.
std::vector<EdgeJoint> randomFolds(const Body& body, Random& random, int count);
const Panel* panelOf(const std::vector<Panel>& panels, const std::string& plate);
/// From a plate's own flat coordinates to the blank's.
Vec2 laid(const PanelPart& part, const Vec2& point);
/// Turns every part of a blank about its fold lines by the fold angles, the first part lying where its plate
/// stands. @return greatest distance of a corner of an outline from its place in the plate, mm
double refoldError(const PlateSet& set, const Panel& blank);

} // namespace slab::test
