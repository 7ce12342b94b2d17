#pragma once
// The steps of the pipeline that belong to no single room: reading the scale, choosing where to join,
// gathering findings.
#include "core/document/stock_for.h"
#include "core/evaluate/evaluate.h"

namespace slab {

/// Builder's units as printing style: "ft" feet and inches, "in" inches, else metric.
[[nodiscard]] UnitStyle unitStyleOf(const std::string& units);

/// The scale as a number. @error "scale-zero" when it is not a positive, finite ratio between 1/1000 and 1000
[[nodiscard]] Expected<double> readScale(const Text& text);

/// All names at one scale; what cannot be read becomes a finding.
[[nodiscard]] Scope resolveScope(const Project& project, double scale, std::vector<Finding>& findings);

/// Panels that no sheet holds.
[[nodiscard]] std::vector<Finding> nestFindings(const NestProblem& problem, const NestResult& result);

/// Panels ticked as cut whose outline is not what it was.
/// Plates of one name: a side of a form and a part of a mechanism or a frame of the same name.
[[nodiscard]] std::vector<Finding> namedTwice(const PlateSet& plates);
[[nodiscard]] std::vector<Finding> cutFindings(const Project& project, const std::vector<Panel>& panels);

/// Worst first, otherwise in the order given; doubles dropped.
[[nodiscard]] std::vector<Finding> sortedFindings(std::vector<Finding> all);

} // namespace slab
