#pragma once
#include "core/base/finding.h"
#include "core/document/project.h"
#include <filesystem>

namespace slab {

/// Reads a document from JSON text. Nothing is guessed: wrong types, missing fields, duplicate names, NaN,
/// nesting deeper than 64, more than 64 MiB are errors.
/// @error "not-json", "truncated", "bad-encoding", "byte-order-mark", "too-deep", "too-large", "not-finite",
///        "duplicate-key" with `where` = "line L column C"; "newer-version", "missing", "wrong-type",
///        "unknown-value", "duplicate-name", "bad-name", "empty-outline", "too-few-points"
///        with `where` = a JSON pointer ("/forms/2/outline/0/x")
[[nodiscard]] Expected<Project> readProject(std::string_view json);
/// All validation errors, not only the first (at most 1000).
[[nodiscard]] std::vector<Error> validateProject(std::string_view json);
/// Pretty JSON, stable field order, unknown fields kept; readProject(writeProject(p)) == p.
[[nodiscard]] std::string writeProject(const Project& project);

/// What new documents are called until the builder gives them a name.
inline constexpr const char* noTitle = "Untitled body";
/// The document's name in the window and on what is printed: its title, else its file's name, else noTitle.
[[nodiscard]] std::string shownTitle(const Project& project, const std::filesystem::path& file);

/// readProject of a file. @error also "cannot-read"
[[nodiscard]] Expected<Project> loadProject(const std::filesystem::path& path);
/// Atomic: temporary file beside it, fsync, rename; the file before becomes `<name>~` (up to three,
/// rotating).
/// @error "cannot-write"; the old file is untouched
[[nodiscard]] Expected<void> saveProject(const Project& project, const std::filesystem::path& path);

} // namespace slab
