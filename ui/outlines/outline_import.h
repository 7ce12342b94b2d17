#pragma once
// What the import of outlines asks, as plain values, and the edit that it leads to.
#include "core/document/edit.h"
#include "core/picture/svg_form.h"

namespace slab::ui {

/// What outlines become, and the elevation that they are drawn in.
enum class OutlineUse { profile, taper, platePlan, plateSide, plateFront };

struct OutlineWish {
    OutlineUse use = OutlineUse::profile;
    double mmX = 1, mmY = 1; ///< millimetres for one unit of the drawing
    Space space = Space::subject;
    Text size = "500 mm";    ///< half-width of a profile, height of a taper
    Text tolerance = "5 mm"; ///< chord error of the flats of curved edges
    bool onAxes = true;      ///< moved together so that they begin at zero; a plan's lie astride the middle
    int replaces = -1; ///< form whose outline one drawn outline takes the place of; -1 = forms are added
};

/// The chord tolerance in millimetres of the drawing: a subject's before it shrinks.
/// @error "svg-size", what evaluate() says
[[nodiscard]] Expected<double> flatsTolerance(const OutlineWish& wish, const Scope& scope);
/// One outline as it would be made: free curves within half a millimetre, or a tenth of the tolerance of the
/// flats where that is less; those that no spline follows are cut into the fewest flats.
/// @error "svg-outline", "svg-tolerance", as flatsTolerance
[[nodiscard]] Expected<OutlineDraft> draftFor(const SvgChoice& outline, const OutlineWish& wish,
                                              const Scope& scope);
/// Forms whose outline may be replaced: profile, taper and plate forms, by their index.
[[nodiscard]] std::vector<int> replaceable(const Project& project);
/// Adds a form for each outline, all in one step; outlines of one drawing keep their places to each other.
/// With `replaces` one outline takes the place of a form's own, from where that began if `onAxes`.
/// @error as draftFor, with the outline's name in the message; "svg-nothing" without outlines, "svg-several"
/// where one is to be replaced; what evaluate() says of the size and the tolerance
[[nodiscard]] Expected<Edit> importOutlines(const Project& project, const Scope& scope,
                                            const std::vector<SvgChoice>& outlines, const OutlineWish& wish);
/// The millimetres of one unit by two points of the drawing and what lies between them.
/// @error "svg-points-same", "svg-distance"
[[nodiscard]] Expected<double> unitBetween(const Vec2& a, const Vec2& b, double distance);

} // namespace slab::ui
