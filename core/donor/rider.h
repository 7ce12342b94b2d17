#pragma once
// A seated person of one percentile: every size is taken at the same percentile, none is stacked on another.
#include "core/donor/donor.h"

namespace slab {

/// Body sizes of one seated person, mm (heights sitting are above the seat unless said).
struct RiderFigures {
    double stature = 0, mass = 0; ///< mm, kg
    double sittingHeight = 0, eyeHeight = 0, shoulderHeight = 0, elbowRest = 0, thighClearance = 0;
    double kneeHeight = 0, poplitealHeight = 0; ///< above the sole
    double buttockKnee = 0, hipBreadth = 0, shoulderBreadth = 0, biacromial = 0, elbowSpan = 0;
    double abdomenDepth = 0, chestDepth = 0, footLength = 0, footBreadth = 0;
    double headBreadth = 0, headLength = 0, tragionToTop = 0;
    double shoulderElbow = 0, forearmHand = 0, handBreadth = 0;
    bool operator==(const RiderFigures&) const = default;
};

/// Adult sizes by linear interpolation between the table's percentiles (1 to 99; clamped).
/// @param sex  "male", "female"; "both" is the mean of the two at the same percentile
/// @source ANSUR II, Natick/TR-15/007
[[nodiscard]] RiderFigures adultFigures(const std::string& sex, double percentile);
/// Child sizes of the age group (3 to 13 years, percentiles 5 to 95; clamped). By sex only in groups of two
/// and three years from 4 to 12. Sizes that the table lacks follow from those that it has.
/// @source Snyder et al. 1977, UM-HSRI-77-17
[[nodiscard]] RiderFigures childFigures(const std::string& sex, double percentile, double age);

/// Where a rider sits and what the hands hold, in donor axes.
struct Seat {
    Vec3 reference = Vec3::Zero(); ///< where seat surface and back meet, in the middle
    Vec3 leftHand = Vec3::Zero(), rightHand = Vec3::Zero();
    double sole = 0; ///< height of what the feet stand on
    bool operator==(const Seat&) const = default;
};

/// Head, neck, torso, thighs, shins, feet, upper arms, forearms and hands, in the seat's axes.
/// @param shortOf  greatest distance by which a hand misses its place, mm; 0 when both reach
[[nodiscard]] std::vector<FitSolid> riderSolids(const RiderFigures& figures, const Seat& seat,
                                                double& shortOf);

} // namespace slab
