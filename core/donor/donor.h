#pragma once
#include "core/base/finding.h"
#include "core/document/project.h"
#include "core/geometry/convex.h"

namespace slab {

/// One convex solid of donor or rider, in body axes at its place.
struct FitSolid {
    std::string name;  ///< "donor/seat", "rider/head", "donor/front left caster circle"
    std::string group; ///< "donor" or "rider"
    ConvexSolid shape;
    double clearance = 0; ///< wanted, mm
    bool moving = false;  ///< the space that something sweeps
    std::string note;     ///< where its size comes from
    double bulge = 0;     ///< what it sweeps reaches so far out of its shape, beside the clearance, mm
    bool operator==(const FitSolid&) const = default;
};

struct DonorSet {
    std::vector<FitSolid> solids;
    Vec3 place = Vec3::Zero(); ///< donor origin in body axes
    std::vector<Finding> findings;
    bool operator==(const DonorSet&) const = default;
};

/// A size of a generic donor that the document may change by name.
struct DonorSize {
    std::string name;  ///< "seat_height"
    std::string label; ///< "seat height"
    double value = 0;  ///< generic value, mm
    std::string source;
    bool operator==(const DonorSize&) const = default;
};
[[nodiscard]] std::vector<std::string> donorKinds(); ///< "powered_chair", "scooter", "none"
[[nodiscard]] std::vector<DonorSize> donorSizes(const std::string& kind);

/// Donor and rider as solids, formulas read. Everything is build size.
[[nodiscard]] DonorSet resolveDonor(const Project& project, const Scope& scope);

} // namespace slab
