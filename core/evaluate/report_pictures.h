#pragma once
// The report's part on reference pictures.
#include "core/evaluate/evaluate.h"
#include <nlohmann/json.hpp>

namespace slab {

[[nodiscard]] nlohmann::ordered_json picturesJson(const PictureSet& set);
[[nodiscard]] nlohmann::ordered_json measuredSizesJson(const PictureSet& set);
/// The sizes in words, a line each; empty without any.
[[nodiscard]] std::string measuredSizesText(const PictureSet& set, const UnitStyle& units);

} // namespace slab
