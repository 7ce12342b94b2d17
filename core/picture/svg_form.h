#pragma once
// Outlines of drawings as forms of a document.
#include "core/document/edit.h"
#include "core/picture/svg_outline.h"

namespace slab {

/// How an outline of a drawing becomes a form.
struct OutlineImport {
    enum class As { profile, taper, plate };
    As as = As::profile;
    std::string name;             ///< of the form, from the drawing's id or file; made unique
    Space space = Space::subject; ///< build: sizes stay as they are at every scale
    Text half_width = "500 mm";   ///< profile: at every point
    Text height = "500 mm";       ///< taper: of its top, which has the same outline, above its base
    Text tolerance = "5 mm";      ///< chord error of the facets of its curved edges
};

/// Points and curves of a draft as the document writes them, in its units.
/// @param z  the outline lies in x and z (a profile) instead of x and y
struct OutlineTexts {
    std::vector<OutlinePoint> points;
    std::vector<Curve> curves;
};
[[nodiscard]] OutlineTexts outlineTexts(const OutlineDraft& draft, Unit unit, const OutlineImport& how);

/// Adds a form with this outline.
[[nodiscard]] Edit addOutline(OutlineDraft draft, OutlineImport how);
/// Gives a profile, taper or plate form this outline instead of its own. Of a taper base and top get it
/// alike. Points keep the names and half-widths of the old ones in their order, as far as there are as many;
/// new ones take the last's.
/// @error "no-such-place", "wrong-type" (a round or facet form)
[[nodiscard]] Edit replaceOutline(int form, OutlineDraft draft, OutlineImport how);

} // namespace slab
