#include "core/base/paths.h"
#include <cstdlib>

namespace slab {
namespace fs = std::filesystem;

namespace {

fs::path folder(const char* variable, const char* name) {
    if (const char* given = std::getenv(variable)) return given;
    std::error_code none;
    const fs::path program = fs::read_symlink("/proc/self/exe", none);
    if (!none) {
        const fs::path shared = program.parent_path().parent_path() / "share" / "slabside" / name;
        if (fs::is_directory(shared, none)) return shared;
    }
    return fs::path(SLABSIDE_SOURCE_DIR) / name;
}

} // namespace

fs::path resourceFolder() { return folder("SLABSIDE_RESOURCES", "resources"); }
fs::path sampleFolder() { return folder("SLABSIDE_SAMPLES", "samples"); }

} // namespace slab
