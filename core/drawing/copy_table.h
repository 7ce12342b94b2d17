#pragma once
// Match marks of a panel that is cut more than once: every copy meets other plates.
#include "core/drawing/panel_facts.h"
#include "core/drawing/tables.h"

namespace slab {

/// Plate by plate the mark at each numbered edge, at most eight edges a table. Empty for a panel cut once.
[[nodiscard]] std::vector<Table> copyTables(const Panel& panel, const std::vector<EdgeRow>& rows);
/// Size that those tables take side by side with nothing, mm: for a template page.
[[nodiscard]] Vec2 copyTableSize(const Panel& panel, const std::vector<Table>& tables);

} // namespace slab
