#pragma once
#include "core/evaluate/evaluate.h"
#include <filesystem>

namespace slab {

/// Writes the build pack into `folder` (made if missing): templates-<paper>.pdf, panels.pdf, sheets.pdf,
/// sheets/*.svg, panels/*.svg, shopping-list.csv, cleats.csv, cleats.pdf, frames.pdf,
/// measuring-sheet.pdf, report.json. Each file is written whole or not at all.
/// @return the files written @error "cannot-write", "unknown-paper", "stopped"
[[nodiscard]] Expected<std::vector<std::filesystem::path>> writePack(const Project& project,
                                                                     const Evaluation& evaluation,
                                                                     const std::filesystem::path& folder,
                                                                     const Job& job = {});

} // namespace slab
