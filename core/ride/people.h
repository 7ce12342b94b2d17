#pragma once
// Room for a person to get out, and gaps that catch one: published figures for toys, playgrounds and houses,
// as guides where no rule covers a home-built ride. Local rules govern. mm and radians.
#include "core/base/error.h"
#include <string_view>
#include <vector>

namespace slab::ride {

/// What may be caught.
enum class Caught { head, finger };

/// Sizes of a gap that are refused: greater than `from` and less than `to`.
struct GapRule {
    std::string_view id;   ///< stable key
    std::string_view what; ///< plain words
    Caught caught = Caught::finger;
    double from = 0, to = 0;  ///< mm
    bool moving = false;      ///< counts only where the gap's sides move against each other
    std::string_view section; ///< document and clause
};
[[nodiscard]] const std::vector<GapRule>& gapRules();
/// Rules that a gap's least size breaks.
/// @param gap     clear size, mm, 0 or more; where it moves ask for its least and its greatest
/// @param moving  its sides move against each other
/// @error "out-of-range"
[[nodiscard]] Expected<std::vector<GapRule>> gapHazards(double gap, bool moving);
/// Least angle between two edges that meet upwards like a V and could hold a head or a cord: 55°, radians.
/// @source  CPSC playground handbook, as quoted
[[nodiscard]] double leastVAngle();

/// Clear width that a seated person needs to leave by: the widest of shoulders and hips, and an allowance
/// each side.
/// @param shoulders  bideltoid breadth, mm;  @param hips  hip breadth sitting, mm;  @param allowance  mm a
/// side
/// @error "out-of-range"
[[nodiscard]] Expected<double> exitWidth(double shoulders, double hips, double allowance = 50);

/// An opening to get out of in an emergency, against the size of a house's escape window: 20 in wide, 24 in
/// high, 5.7 ft² (IRC R310, from memory).
struct EscapeCheck {
    double width = 0, height = 0,
           area = 0; ///< spare against each least size, mm, mm, mm²; below 0: too small
    [[nodiscard]] bool passes() const { return width >= 0 && height >= 0 && area >= 0; }
};
/// @error "out-of-range"
[[nodiscard]] Expected<EscapeCheck> escapeOpening(double width, double height);

/// Height over the ground of a point of a seated person: seat, what is measured above it, and what is worn.
/// @param seat     height of the seat as it is sat in, mm
/// @param above    sitting height or eye height, mm;  @param worn  helmet, or 0, mm
/// @error "out-of-range"
[[nodiscard]] Expected<double> seatedHeight(double seat, double above, double worn = 0);

/// Centre of mass of a seated person, mm.
struct SeatedCentre {
    double above = 0;   ///< the seat
    double forward = 0; ///< of the plane of the back
};
/// Its height as a share of sitting height falls with age: interpolated between age groups, 0.26 from 20
/// years on (adults: 0.25 to 0.27). How far forward is a median of the age group and no more.
/// @param sittingHeight  mm, above 0;  @param age  years, 4 or more
/// @error "out-of-range"
/// @source  R. G. Snyder et al. (1977), UM-HSRI-77-17, medians of the public records
[[nodiscard]] Expected<SeatedCentre> seatedCentre(double sittingHeight, double age);

} // namespace slab::ride
