#pragma once
#include "core/base/finding.h"
#include "core/document/project.h"
#include <filesystem>

namespace slab {

/// Reads a document from JSON text. Nothing is guessed: wrong types, missing fields, duplicate names, NaN,
/// nesting deeper than 64, more than 64 MiB are errors.
/// @error "not-json" (where = "line L column C"), "wrong-type", "missing", "newer-version", "too-large", …
///        `where` is a JSON pointer ("/forms/2/outline/0/x")
[[nodiscard]] Expected<Project> readProject(std::string_view json);
/// All validation errors, not only the first.
[[nodiscard]] std::vector<Error> validateProject(std::string_view json);
/// Pretty JSON, stable field order, unknown fields kept; readProject(writeProject(p)) == p.
[[nodiscard]] std::string writeProject(const Project& project);

[[nodiscard]] Expected<Project> loadProject(const std::filesystem::path& path);
/// Atomic: temporary file beside it, fsync, rename; the file before becomes `<name>~` (up to three,
/// rotating).
/// @error "cannot-write"; the old file is untouched
[[nodiscard]] Expected<void> saveProject(const Project& project, const std::filesystem::path& path);

} // namespace slab
