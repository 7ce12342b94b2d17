#pragma once
// The way from a seat to an opening.
#include "core/trial/stuff.h"

namespace slab::trial {

struct PathOut {
    std::vector<Vec3> points;          ///< body axes, first and last included; empty if none is free
    std::vector<std::string> inTheWay; ///< on the straight one, if none is free
};
/// For a body's breadth of 300 mm, from over the seat's edge to the middle of an opening: straight, or round
/// the bend with which it is shortest. What moves is moved aside, and the opening's lid is off. While a hand
/// moves only the straight way is looked at, and only the donor's solids.
[[nodiscard]] PathOut pathOut(const Stuff& stuff, const Vec3& seat, const PlateOpening& opening);

} // namespace slab::trial
