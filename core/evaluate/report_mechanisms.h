#pragma once
// Moving parts in the report.
#include "core/mechanisms/mechanisms.h"
#include <nlohmann/json_fwd.hpp>

namespace slab {

/// One entry per mechanism, in the order in which they were made; resources/report.md.
[[nodiscard]] nlohmann::ordered_json mechanismsJson(const MechanismSet& set);
/// The same in words; empty without mechanisms.
[[nodiscard]] std::string mechanismsText(const MechanismSet& set, const UnitStyle& units);

/// A fact's value in the builder's units: "406 mm", "0.4°", "2.1 kg", "3.5 N m", "2".
[[nodiscard]] std::string factWords(const MechanismFact& fact, const UnitStyle& units);

} // namespace slab
