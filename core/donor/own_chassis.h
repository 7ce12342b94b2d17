#pragma once
// The document's own wheels, service points and drive.
#include "core/donor/generic.h"
#include "core/donor/reading.h"

namespace slab {

inline constexpr double greatestLock = 85 * 3.14159265358979323846 / 180; ///< radians; further is no steering

/// `value` if wheels can be steered by it, else `otherwise` and a finding `donor-lock`.
[[nodiscard]] double soundLock(double value, double otherwise, const std::string& what,
                               std::vector<std::string> about, Reading& reading);

/// Puts the document's wheels (each with its solid), service points and drive into a generic donor, in its
/// own axes. Where they say anything about how it drives, axle, wheelbase and lock follow from the wheels.
/// Findings: `donor-wheel-size`, `donor-wheel-trail`, `donor-wheel-unused`, `donor-lock`, `donor-drive`,
/// `donor-stance`, `donor-service-hand`.
void addOwnChassis(const Donor& donor, Reading& reading, GenericDonor& generic);

} // namespace slab
