#pragma once
#include "core/base/error.h"
#include <map>
#include <string>
#include <vector>

namespace slab::app {

/// A command line taken apart: plain words in order, and --options with their values ("" for a switch).
struct Arguments {
    std::vector<std::string> words;
    std::map<std::string, std::string> options;
    [[nodiscard]] bool has(const std::string& name) const { return options.contains(name); }
    [[nodiscard]] std::string get(const std::string& name, const std::string& fallback = {}) const;
};

/// @param switches  options without a value; @param valued  options that take one ("--to DIR" or "--to=DIR")
/// @error "usage" for an unknown option or a missing value
[[nodiscard]] Expected<Arguments> readArguments(const std::vector<std::string>& given,
                                                const std::vector<std::string>& switches,
                                                const std::vector<std::string>& valued);
/// @error "usage" when it is not a number inside [least, most]
[[nodiscard]] Expected<double> numberOption(const Arguments& arguments, const std::string& name,
                                            double fallback, double least, double most);
/// @error "usage" when it is not a scale inside [least, most]
[[nodiscard]] Expected<double> scaleOption(const Arguments& arguments, const std::string& name,
                                           double fallback, double least, double most);

} // namespace slab::app
