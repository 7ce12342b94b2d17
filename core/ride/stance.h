#pragma once
// How a vehicle stands on a plane: wheel loads, and the lines that it would tip over.
#include "core/ride/mass.h"
#include <limits>

namespace slab::ride {

/// A rigid vehicle on wheels that all touch the plane z = 0.
struct Stance {
    std::vector<Vec2> wheels;   ///< contact points, mm; three or more, not in one line
    double mass = 0;            ///< kg, all that the wheels carry
    Vec3 centre = Vec3::Zero(); ///< of mass, mm, above the plane
    bool operator==(const Stance&) const = default;
};
/// @error "wheels-few" (under three, or over twelve), "wheels-in-line", "out-of-range" (mass or height of the
///        centre not above 0, or a figure that is not finite)
[[nodiscard]] Expected<void> checkStance(const Stance& stance);

/// A plane that leans by `angle`, radians in [0, π/2); `heading` is the direction that goes straight up it,
/// measured in the plane from the vehicle's forward (x) towards port (y): 0 = nose uphill, π/2 = port side
/// up.
struct Slope {
    double angle = 0, heading = 0;
    bool operator==(const Slope&) const = default;
};
/// A steady turn about an upright axis.
struct Turn {
    double speed = 0;                                        ///< of the centre of mass, mm/s
    double radius = std::numeric_limits<double>::infinity(); ///< mm; above 0 to port, below 0 to starboard
    bool operator==(const Turn&) const = default;
};
/// Up, seen from the vehicle on a slope: a unit vector in its axes.
[[nodiscard]] Vec3 upOn(const Slope& slope);
/// What pulls on each kilogram in the vehicle's axes, mm/s²: weight, and the outward pull of a turn. The turn
/// is level, as round a hill: on a side slope the leans just add, which is the graver case.
/// @error "out-of-range" if the slope is not in [0, π/2), the speed below 0, the radius 0 or one not a number
/// @source  d'Alembert; v² / R
[[nodiscard]] Expected<Vec3> pullOn(const Slope& slope, const Turn& turn = {});

/// Loads square to the plane.
struct WheelLoads {
    bool stands = false;       ///< false: it tips over, and nothing below is set
    std::vector<double> loads; ///< N, one a wheel, 0 or more
    std::vector<bool> lifted;  ///< carries nothing
    bool operator==(const WheelLoads&) const = default;
};
/// Three wheels: by equilibrium alone. More: equally stiff wheels on a rigid frame, which push but never
/// pull: the loads of least Σ N² that keep the balance, with N ≥ 0; a wheel that would have to pull lifts.
/// @param pull  as from pullOn(), mm/s², pointing down (z below 0)
/// @error as checkStance(); "out-of-range" if the pull does not point down
/// @source  Castigliano's least strain energy; KKT conditions of the least squares = contact complementarity
[[nodiscard]] Expected<WheelLoads> wheelLoads(const Stance& stance, const Vec3& pull = {0, 0, -gravity});

/// The heaviest and the lightest that each wheel becomes on a slope, over all headings.
struct LoadRange {
    double least = 0, most = 0;               ///< N
    double leastHeading = 0, mostHeading = 0; ///< of the slope, radians
    bool operator==(const LoadRange&) const = default;
};
/// @param angle  slope on which it stands at every heading
/// @return       one range a wheel; headings searched each degree and refined to 1e-6 rad
/// @error as wheelLoads(); "tips" if it does not stand at some heading
[[nodiscard]] Expected<std::vector<LoadRange>> loadsOverHeadings(const Stance& stance, double angle);

/// What is carried against what may be.
struct Rating {
    double carried = 0, rated = 0; ///< kg
    [[nodiscard]] double spare() const { return rated - carried; }
    [[nodiscard]] bool holds() const { return carried <= rated; }
    bool operator==(const Rating&) const = default;
};
/// @param load   what the donor carries besides itself (rider, shell, what is stowed), kg
/// @param rated  its maker's limit, kg
/// @error "out-of-range" if a figure is below 0 or not finite, or nothing is rated
[[nodiscard]] Expected<Rating> ratedLoad(double load, double rated);

} // namespace slab::ride
