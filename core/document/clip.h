#pragma once
// What copying and pasting share. Private to the room.
#include "core/document/project.h"
#include <optional>

namespace slab::detail {

/// A document with nothing but the copied forms and what they need. @error "not-forms", "newer-version", or
/// why it is not sound
[[nodiscard]] Expected<Project> readClip(const std::string& text);
/// Named dimensions at one scale. @param unit  of bare numbers; none = the document's
[[nodiscard]] Scope scopeOf(const Project& project, double scale, std::optional<Unit> unit = {});
/// Equal but for rounding.
[[nodiscard]] bool sameQuantity(const Quantity& a, const Quantity& b);
/// Writes the document's unit behind every length that takes it.
void writeUnits(Project& project);
/// Keeps the dimensions that a formula outside of the dimensions needs, directly or through others.
void dropUnusedDimensions(Project& project);

} // namespace slab::detail
