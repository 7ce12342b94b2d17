#pragma once
// Names of the plates that the forms of a document may have, read off the document alone.
#include "core/document/project.h"

namespace slab::detail {

/// Names of a form as its plates have them: the form's own, or "name port" and "name starboard".
[[nodiscard]] std::vector<std::string> handNames(const Form& form);
/// Name of an outline point or corner: its own, or "s" and its number, counted from 1.
[[nodiscard]] std::string pointName(const std::vector<OutlinePoint>& points, std::size_t index);
/// Name of the side that begins at a point.
[[nodiscard]] std::string sideName(const std::vector<OutlinePoint>& points, std::size_t index);
/// Sides of a form's plates, "port" and "base" included; facets and pieces ("~1", "#1") stand under the side.
[[nodiscard]] std::vector<std::string> sidesOf(const Form& form);

} // namespace slab::detail
