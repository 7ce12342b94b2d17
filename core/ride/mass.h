#pragma once
// Mass, centre of mass and inertia of what stands on the wheels. This room knows plain values only: mm, kg, s
// and radians; forces in N, torques in N·m, densities in kg/m³. Axes as the body's: x forward, y port, z up,
// and the ground under the wheels is z = 0.
#include "core/geometry/polyhedron.h"

namespace slab::ride {

/// Standard gravity, mm/s². @source  ISO 80000-3: 9.80665 m/s²
inline constexpr double gravity = 9806.65;

/// A rigid part, or several as one.
struct MassProperties {
    double mass = 0;             ///< kg
    Vec3 centre = Vec3::Zero();  ///< of mass, mm
    Mat3 inertia = Mat3::Zero(); ///< about the centre, along the body axes, kg·mm²
    bool operator==(const MassProperties&) const = default;
};

/// A part so small that only its place counts.
/// @param mass  kg, 0 or more
/// @error "out-of-range" if mass or place is not finite or the mass is below 0
[[nodiscard]] Expected<MassProperties> pointMass(double mass, const Vec3& at);

/// A solid of one density, hollow parts and holes included.
/// @param solid    closed, faces outward
/// @param density  kg/m³, above 0
/// @error "out-of-range"; "no-volume" if the solid encloses nothing, or looks inward
/// @source  divergence theorem over signed tetrahedra; ∫ x xᵀ over one with a corner in the origin is
///          det/120 (aaᵀ + bbᵀ + ccᵀ + (a+b+c)(a+b+c)ᵀ): F. Tonon (2005), J. Math. Statistics 1(1), 8–11
[[nodiscard]] Expected<MassProperties> solidMass(const Polyhedron& solid, double density);
/// The same for a solid that was weighed: its mass spread evenly over its volume.
/// @param mass  kg, 0 or more
[[nodiscard]] Expected<MassProperties> solidOfMass(const Polyhedron& solid, double mass);

/// All parts as one rigid body; nothing has no mass and lies at the origin.
/// @source  parallel axis theorem (Huygens and Steiner)
[[nodiscard]] MassProperties combined(const std::vector<MassProperties>& parts);
/// Turned about the origin, then moved by `by`.
[[nodiscard]] MassProperties moved(const MassProperties& part, const Mat3& rotation, const Vec3& by);
/// Moment of inertia about any axis, kg·mm².
/// @param direction  any length but 0
/// @error "out-of-range" if the direction has no length
[[nodiscard]] Expected<double> inertiaAbout(const MassProperties& part, const Vec3& point,
                                            const Vec3& direction);

} // namespace slab::ride
