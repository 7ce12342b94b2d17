#pragma once
// What is used where a field is left empty.
#include "ui/session/session.h"
#include "ui/tables/document_tree.h"

namespace slab::ui {

/// Of ride, rider and passengers: "5.0 km/h" where no speed is typed; empty for other fields.
[[nodiscard]] QString usedInstead(const Session& session, const Node& node);

} // namespace slab::ui
