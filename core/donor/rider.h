#pragma once
// A seated person: sizes from published tables, and the solids that stand for the body.
#include "core/donor/donor.h"
#include <functional>
#include <string_view>

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

/// The table that a figure is read from.
struct BodyTable {
    bool child = false;
    std::string sex = "both"; ///< "male", "female"; "both" is the mean of the two at the same percentile
    double age = 8;           ///< of a child, years
    /// Percentiles that it holds: 1 to 99 of adults, 5 to 95 of children.
    [[nodiscard]] double lowest() const { return child ? 5 : 1; }
    [[nodiscard]] double highest() const { return child ? 95 : 99; }
    [[nodiscard]] std::vector<std::string> dimensions() const; ///< "hip breadth", …
    /// Size at a percentile (clamped), mm or kg; 0 for an unknown dimension.
    [[nodiscard]] double at(std::string_view dimension, double percentile) const;
    /// The percentile of a size, clamped to the table.
    [[nodiscard]] double percentileOf(std::string_view dimension, double size) const;
};
/// Figures with each of the table's dimensions as `size` gives it; what the table lacks follows from those.
[[nodiscard]] RiderFigures figuresOf(const BodyTable& table,
                                     const std::function<double(std::string_view)>& size);
/// One whole person of a stature: sizes by the table's dimension names.
///
/// Lengths are those of the 50th percentile in proportion to stature. Breadths, depths, the head and mass go
/// with stature only loosely: with z the stature's distance from the median in standard deviations, they are
/// taken 0.4 z from theirs, mass 0.5 z (their correlations with stature are 0.3 to 0.5, from memory). So a
/// tall one is no giant in every size: nothing but the lengths is at the stature's own percentile.
/// @param stature  mm; beyond the table lengths stay in proportion, mass goes on with its square from the end and
///                 all else with its root
[[nodiscard]] double sizeByStature(const BodyTable& table, std::string_view dimension, double stature);

/// Where a rider sits and what the hands hold, in donor axes.
struct Seat {
    Vec3 reference = Vec3::Zero(); ///< where seat surface and back meet, in the middle
    Vec3 leftHand = Vec3::Zero(), rightHand = Vec3::Zero();
    double sole = 0; ///< height of what the feet stand on
    /// What the hands steer by: a point on its axis, the axis upwards (0 = nothing that takes them along),
    /// and how far it turns to either side, radians.
    Vec3 helm = Vec3::Zero(), helmAxis = Vec3::Zero();
    double helmTurn = 0;
    bool operator==(const Seat&) const = default;
};

/// How somebody sits; radians, mm.
struct Posture {
    double recline = 0; ///< of the back, from upright
    double shoes = 0;   ///< thickness of the soles
    double helmet = 0;  ///< thickness round the head
    double forward = 0,
           left = 0;  ///< leaning: forward first, then the whole to the left; below 0 the other way
    bool lap = false; ///< hands rest on the thighs, else at the controls
    double helm = 0;  ///< turned to the left by, the hands go along
    bool operator==(const Posture&) const = default;
};

/// Head, neck, torso, thighs, shins, feet, upper arms, forearms and hands, in the seat's axes.
///
/// Recline and lean turn the shoulders, neck, head and arms about the hip (0.14 of sitting height ahead of
/// the back and 0.1 above the seat, from memory); the torso reaches from the seated hips to the turned
/// shoulders.
/// @param shortOf  greatest distance by which a hand misses its place, mm; 0 when both reach
/// @param name     what the solids' names begin with
[[nodiscard]] std::vector<FitSolid> riderSolids(const RiderFigures& figures, const Seat& seat,
                                                double& shortOf, const Posture& posture = {},
                                                const std::string& name = "rider");
/// Where a point that goes along with the back comes to: both in the seat's axes.
[[nodiscard]] Vec3 leaned(const RiderFigures& figures, const Seat& seat, const Posture& posture,
                          const Vec3& upright);

} // namespace slab
