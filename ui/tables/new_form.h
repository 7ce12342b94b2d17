#pragma once
// The form that "Add" makes: as large as the place that it comes to, and not in the way of what is there.
#include "core/document/project.h"
#include "core/evaluate/evaluate.h"

namespace slab::ui {

/// A form of a kind ("profile", "taper", "plate", "round", "facet").
///
/// The first one covers donor and rider. One more stands on the highest flat top of the body, on half of its
/// width. Where there is neither, it has a plain size.
[[nodiscard]] Form newForm(const Project& project, const Evaluation& evaluation, const std::string& kind,
                           const std::string& name);
/// A shape of a kind at a plain size, about the origin.
[[nodiscard]] Shape plainShape(const std::string& kind);

} // namespace slab::ui
