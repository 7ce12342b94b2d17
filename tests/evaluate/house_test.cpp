// Rules of the house that a reader could miss: core links no Qt and shows no OpenCASCADE type outside its
// bridge.
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>
#include <regex>

namespace fs = std::filesystem;

namespace {

template <class Visit>
void eachSource(const fs::path& folder, Visit visit) {
    int seen = 0;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.path().extension() == ".h" || entry.path().extension() == ".cpp") {
            ++seen;
            visit(entry.path(), textOf(entry.path()));
        }
    EXPECT_GT(seen, 20) << "nothing was looked at in " << folder;
}

} // namespace

TEST(House, CoreIncludesNoQt) {
    const std::regex qt(R"(#include\s*<Q[A-Z])");
    eachSource(fs::path(SLABSIDE_SOURCE_DIR) / "core", [&](const fs::path& path, const std::string& text) {
        EXPECT_FALSE(std::regex_search(text, qt)) << path;
    });
}

TEST(House, OpenCascadeStaysBehindItsBridge) {
    const std::regex occt(R"(#include\s*<(TopoDS|BRep|gp_|Standard_|BOPAlgo|Geom|Precision|Message_))");
    eachSource(fs::path(SLABSIDE_SOURCE_DIR) / "core", [&](const fs::path& path, const std::string& text) {
        const bool bridge = path.parent_path().filename() == "geometry" && path.extension() == ".cpp";
        const bool inside = path.parent_path().filename() == "geometry" &&
                            path.filename().string().find("_occt") != std::string::npos;
        if (!bridge && !inside && path.filename().string().rfind("occt_", 0) != 0) {
            EXPECT_FALSE(std::regex_search(text, occt)) << path;
        }
    });
}

TEST(House, FilesStayReadable) {
    for (const char* part : {"core", "ui", "app"})
        for (const auto& entry : fs::recursive_directory_iterator(fs::path(SLABSIDE_SOURCE_DIR) / part)) {
            const fs::path path = entry.path();
            if (path.extension() != ".h" && path.extension() != ".cpp") continue;
            const std::string text = textOf(path);
            EXPECT_LE(std::count(text.begin(), text.end(), '\n'), 400) << path;
        }
}
