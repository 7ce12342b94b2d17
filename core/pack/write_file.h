#pragma once
#include "core/base/error.h"
#include <filesystem>
#include <set>
#include <string_view>

namespace slab {

/// The whole text, or nothing: a temporary file beside it, flushed to disk, then renamed over the old one.
/// @error "cannot-write"; a file that was there before is untouched
[[nodiscard]] Expected<void> writeWhole(const std::filesystem::path& path, std::string_view bytes);

/// File names from panel and sheet names: safe on every usual file system, short, no two alike but for case.
class FileNames {
public:
    [[nodiscard]] std::string take(const std::string& name, const std::string& ending);

private:
    std::set<std::string> m_taken;
};

} // namespace slab
