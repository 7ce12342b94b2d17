#pragma once
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

/// The whole text of a file.
inline std::string textOf(const std::filesystem::path& path) {
    std::ifstream in(path);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}
