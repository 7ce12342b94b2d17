#pragma once
// How it stands, what it passes, what is seen and how one gets out, for the report.
#include "core/evaluate/evaluate.h"
#include <nlohmann/json.hpp>

namespace slab {

/// "ride": null before it was tried.
[[nodiscard]] nlohmann::ordered_json trialReport(const Evaluation& e);
/// The same in words; empty when there is nothing to tell.
[[nodiscard]] std::string trialText(const Evaluation& e);

} // namespace slab
