#pragma once
// What it takes to roll up a slope or over a step. mm, kg, radians, N, N·m.
#include "core/base/error.h"

namespace slab::ride {

/// Horizontal push at the axle, over the weight on the wheel, that lifts a free rigid wheel over a step.
/// @param radius  of the wheel, mm;  @param step  its height, mm, 0 or more
/// @return        √(2 r h − h²) / (r − h)
/// @error "out-of-range"; "step-too-high" if the step is as high as the radius: no push lifts it
/// @source  moments about the edge of the step
[[nodiscard]] Expected<double> stepPush(double radius, double step);
/// Torque that lifts a driven wheel over a step by itself, N·m.
/// @param load  on the wheel, N
/// @return      W √(2 r h − h²)
/// @error as stepPush()
[[nodiscard]] Expected<double> stepTorque(double radius, double step, double load);
/// Highest step that a push goes over, mm: the inverse of stepPush().
/// @param push  over the weight on the wheel, 0 or more
[[nodiscard]] Expected<double> highestStep(double radius, double push);

/// Force along a slope that keeps it moving, N.
/// @param mass     kg, 0 or more;  @param slope  radians, in (−π/2, π/2), above 0 uphill
/// @param rolling  coefficient of rolling resistance, 0 or more; about 0.015 on a hard floor (common
/// practice)
/// @return         m g (sin s + c cos s); below 0 downhill where it must be held back
/// @error "out-of-range"
[[nodiscard]] Expected<double> gradeForce(double mass, double slope, double rolling);

} // namespace slab::ride
