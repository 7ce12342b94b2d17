#pragma once
// What facets and flat faces leave of the subject, for the report.
#include "core/evaluate/evaluate.h"
#include <nlohmann/json.hpp>

namespace slab {

/// "made_flat": the largest move of each traced form.
[[nodiscard]] nlohmann::ordered_json madeFlatReport(const Project& project, const Evaluation& e);
/// "likeness": null without curves of forms that are joined.
[[nodiscard]] nlohmann::ordered_json likenessReport(const Project& project, const Evaluation& e);
/// Both in words; empty when there is nothing to tell.
[[nodiscard]] std::string likenessText(const Project& project, const Evaluation& e);

} // namespace slab
