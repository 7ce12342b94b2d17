#pragma once
// Bodies and rules for the plate tests.
#include "core/geometry/convex_hull.h"
#include "core/plates/plate.h"
#include "tests/geometry/seed.h"
#include <cstdlib>
#include <iostream>
#include <random>
#include <string>

namespace slab::test {

/// SLABSIDE_SEED if set, else `fallback`; printed.
inline unsigned seedFor(const char* what, unsigned fallback) {
    const char* text = std::getenv("SLABSIDE_SEED");
    const unsigned seed = text ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : fallback;
    std::cout << what << " seed " << seed << '\n';
    return seed;
}

using Random = std::mt19937;
inline double uniform(Random& random, double from, double to) {
    return from + (to - from) * static_cast<double>(random()) / 4294967296.0;
}
inline int pick(Random& random, int from, int to) {
    return from + static_cast<int>(random() % static_cast<unsigned>(to - from + 1));
}

/// Convex hull as a polyhedron with merged faces "f0", "f1", …
Polyhedron hullOf(const std::vector<Vec3>& points);
/// Frustum of a regular polygon, z from 0 to height; `top` 0 gives a pyramid.
Polyhedron frustum(int sides, double base, double top, double height);
Polyhedron regularSolid(int faces); ///< 4, 6, 8, 12 or 20, edge about 100 mm
Body bodyOf(const Polyhedron& solid);

PlateRules rulesFor(const Body& body, const std::vector<double>& thickness, const std::vector<int>& rank);
PlateRules evenRules(const Body& body, double thickness, JointKind fallback = JointKind::cover);

/// Volume of the convex intersection of half-spaces: a third of every plane's offset times the area that the
/// others leave of it (divergence theorem). Shares nothing with the cells under test.
double volumeOfPlanes(const std::vector<Plane>& planes);
double sumOfVolumes(const PlateSet& set);
double sumOfGaps(const PlateSet& set);
const Plate* findPlate(const PlateSet& set, const std::string& name);
/// Edge of the outer outline that meets `neighbour`.
const PanelEdge* findEdge(const Plate& plate, const std::string& neighbour);

} // namespace slab::test
