#pragma once
// What tips it: slopes, turns and wind, each with the line that it goes over; what ballast changes.
// All of it is a rigid body on firm ground: tyres, springs, steps and a rider who leans make it worse.
#include "core/ride/stance.h"
#include <algorithm>

namespace slab::ride {

enum class Side { front, rear, port, starboard };

/// An edge of the support polygon.
struct TipLine {
    int from = 0, to = 0;         ///< wheels that it joins, the polygon counter-clockwise seen from above
    Vec2 outward = Vec2::UnitX(); ///< square to it, of unit length
    double distance = 0;          ///< from below the centre of mass to the line, mm; below 0: it falls over
    double angle = 0;             ///< tilt straight over it at which it tips, radians
    Side side = Side::front;      ///< that `outward` points to most
    bool operator==(const TipLine&) const = default;
};
/// Every edge, beginning at any wheel. Wheels inside the polygon take no part: between one front and two rear
/// wheels the lines run aslant, nearer to the centre than half the track.
/// @error as checkStance()
/// @source  ISO 7176-1 (tilt platform): tan θ = distance / height; NHTSA static stability factor T / 2H
[[nodiscard]] Expected<std::vector<TipLine>> tipLines(const Stance& stance);

/// Steepest slope on which it stands, and the line that it then goes over.
struct TipAngle {
    double angle = 0; ///< radians; below 0 if it falls over on the level
    TipLine line;
    bool operator==(const TipAngle&) const = default;
};
/// The least over all lines.
[[nodiscard]] Expected<TipAngle> leastTipAngle(const Stance& stance);
/// @param downhill  direction down the slope, from x towards y: 0 tips forward, π rearward, π/2 to port
[[nodiscard]] Expected<TipAngle> tipAngleTowards(const Stance& stance, double downhill);

/// How far a pull leans over the line that it comes nearest to.
struct Lean {
    double lean = 0;   ///< of the pull from square to the plane, towards the line, radians
    double margin = 0; ///< tilt to spare before it tips, radians; below 0: it tips
    TipLine line;
    bool operator==(const Lean&) const = default;
};
/// @param pull  as from pullOn()
/// @error as checkStance(); "out-of-range" if the pull does not point down
[[nodiscard]] Expected<Lean> leanUnder(const Stance& stance, const Vec3& pull);

/// Speed at which a turn tips it.
struct TurnLimit {
    double speed = 0; ///< mm/s; infinite if no speed tips it, 0 if it falls over at rest
    TipLine line;
    bool operator==(const TurnLimit&) const = default;
};
struct TurnLimits {
    TurnLimit port, starboard; ///< turning to port, to starboard
    [[nodiscard]] double least() const { return std::min(port.speed, starboard.speed); }
    bool operator==(const TurnLimits&) const = default;
};
/// Greatest speeds in a turn of a radius, mm, on a slope; it may slide before.
/// @param ahead  the way that it drives, from x towards y, radians
/// @error as checkStance() and pullOn(); "out-of-range"
/// @source  moments about the tip line; on the level v² = g R distance / height
[[nodiscard]] Expected<TurnLimits> turnLimits(const Stance& stance, double radius, const Slope& slope = {},
                                              double ahead = 0);
/// Least radius, mm, in which it may turn at a speed, mm/s, to the worse side.
/// @error as turnLimits(); "tips" if it falls over at rest
[[nodiscard]] Expected<double> leastTurnRadius(const Stance& stance, double speed, const Slope& slope = {});

/// What the wind blows on.
struct WindFace {
    double area = 0;            ///< seen along the wind, mm²
    Vec3 centre = Vec3::Zero(); ///< of that area, mm
    double drag = 1.2; ///< coefficient; about 1.2 for a slab-sided box in mid-range, 2 for a long flat
                       ///< plate (common practice)
    bool operator==(const WindFace&) const = default;
};
struct WindLimits {
    double tips = 0;   ///< wind that tips it, mm/s
    double slides = 0; ///< wind that slides it with locked wheels, mm/s
    TipLine line;      ///< that it goes over
    [[nodiscard]] double least() const { return std::min(tips, slides); }
    bool operator==(const WindLimits&) const = default;
};
/// Push of a wind, N.
/// @param speed    mm/s, 0 or more
/// @error "out-of-range"
/// @source  drag equation F = ½ ρ v² c A, ρ = 1.225 kg/m³ (ISO 2533, sea level, 15 °C)
[[nodiscard]] Expected<double> windForce(const WindFace& face, double speed);
/// On the level, at rest.
/// @param towards   direction that the wind blows to, from x towards y, radians
/// @param friction  between tyres and ground, above 0; 0.5 to 0.8 on dry ground (common practice)
/// @error as checkStance(); "out-of-range"
[[nodiscard]] Expected<WindLimits> windLimits(const Stance& stance, const WindFace& face, double towards,
                                              double friction);

/// With a mass fixed at a place.
/// @param mass  kg, 0 or more
/// @error as checkStance() and pointMass()
[[nodiscard]] Expected<Stance> withBallast(const Stance& stance, double mass, const Vec3& at);
/// With the donor, its wheels and what is fixed to it moved under the rest.
/// @param donor  what moves along, part of the stance's mass
/// @param by     mm; the ground plane stays
/// @error as checkStance(); "out-of-range" if the donor is heavier than all of it
[[nodiscard]] Expected<Stance> withDonorMoved(const Stance& stance, const MassProperties& donor,
                                              const Vec2& by);

/// One tip line before and after a change that keeps the number of wheels.
struct TipChange {
    TipLine before, after;
    [[nodiscard]] double gained() const { return after.angle - before.angle; }
    bool operator==(const TipChange&) const = default;
};
/// Lines of the same two wheels, in the order of `before`; a line that only one of them has is left out.
/// @error as checkStance(); "out-of-range" if the numbers of wheels differ
[[nodiscard]] Expected<std::vector<TipChange>> tipChanges(const Stance& before, const Stance& after);
/// Least ballast at a place with which no line tips under `angle`, kg; 0 if none is needed.
/// @error as checkStance(); "out-of-range"; "ballast-in-vain" if no mass there does it
/// @source  (M d + m d_b) / (M h + m h_b) = tan θ for each line
[[nodiscard]] Expected<double> ballastFor(const Stance& stance, const Vec3& at, double angle);

} // namespace slab::ride
