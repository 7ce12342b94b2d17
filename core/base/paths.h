#pragma once
#include <filesystem>

namespace slab {

/// Folder with schema, fonts and icons: $SLABSIDE_RESOURCES, or ../share/slabside/resources beside the program, or
/// the source tree it was built from.
[[nodiscard]] std::filesystem::path resourceFolder();
/// Folder with the sample projects, found the same way.
[[nodiscard]] std::filesystem::path sampleFolder();

} // namespace slab
