#include "core/document/project.h"

namespace slab {
namespace {

/// `*` matches any run of letters; greedy with one step back, so never worse than length times length.
bool wild(std::string_view pattern, std::string_view name) {
    std::size_t p = 0, n = 0, star = std::string_view::npos, mark = 0;
    while (n < name.size()) {
        if (p < pattern.size() && pattern[p] == '*') {
            star = p++;
            mark = n;
        } else if (p < pattern.size() && pattern[p] == name[n]) {
            ++p;
            ++n;
        } else if (star != std::string_view::npos) {
            p = star + 1;
            n = ++mark;
        } else {
            return false;
        }
    }
    while (p < pattern.size() && pattern[p] == '*') ++p;
    return p == pattern.size();
}

} // namespace

bool matches(std::string_view pattern, std::string_view plateName) {
    if (wild(pattern, plateName)) return true;
    const std::size_t piece = plateName.rfind('#');
    if (piece == std::string_view::npos || piece + 1 == plateName.size()) return false;
    for (char c : plateName.substr(piece + 1))
        if (c < '0' || c > '9') return false;
    return wild(pattern, plateName.substr(0, piece));
}

} // namespace slab
