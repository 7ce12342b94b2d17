#pragma once
#include "core/body/reader.h"

namespace slab {

/// Facet form: named corners and faces, made flat where the builder asks for it ("made-flat" tells the
/// largest move).
/// @error "outline-long", "facet-corner", and those of closeUp(); "" when the reader has reported it
[[nodiscard]] Expected<Made> makeFacet(FormReader& reader, const FacetShape& shape);

} // namespace slab
