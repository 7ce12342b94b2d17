#pragma once
// Parts of the JSON report that have a file of their own.
#include "core/evaluate/evaluate.h"
#include <nlohmann/json_fwd.hpp>

namespace slab {

/// `seams`: every cut through a panel, found or placed.
[[nodiscard]] nlohmann::ordered_json seamsReport(const Evaluation& e);
/// `modules`: what comes off as one, and what is left.
[[nodiscard]] nlohmann::ordered_json modulesReport(const Evaluation& e);

/// `frames`: the boards of each, and where they cross.
[[nodiscard]] nlohmann::ordered_json framesReport(const Evaluation& e);
/// `cleats`: the lines of their cut list; `totals.timber`: the bars that those of timber are sawn from.
[[nodiscard]] nlohmann::ordered_json cleatsReport(const Evaluation& e);
[[nodiscard]] nlohmann::ordered_json timberReport(const Totals& totals);
/// `measures`: the readings of the donor's measuring sheet, and how they go with each other.
[[nodiscard]] nlohmann::ordered_json measuresReport(const Project& project, const Evaluation& e);
/// `curves`: what the facets of curved edges miss.
[[nodiscard]] nlohmann::ordered_json curvesReport(const Evaluation& e);

/// Lines of the text report: frames and curves; empty without any.
[[nodiscard]] std::string framesText(const Evaluation& e);
[[nodiscard]] std::string curvesText(const Evaluation& e);
/// Lines of the text report: cleats and the bars for them; empty without any.
[[nodiscard]] std::string cleatsText(const Evaluation& e);
/// Lines of the text report: seams, modules and what they pass; empty without any.
[[nodiscard]] std::string seamsText(const Evaluation& e);
[[nodiscard]] std::string modulesText(const Evaluation& e);

} // namespace slab
