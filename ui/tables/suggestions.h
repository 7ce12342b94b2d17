#pragma once
#include "ui/session/session.h"
#include "ui/tables/document_tree.h"
#include <QStringList>

namespace slab::ui {

/// What may stand in a field: plate names, sheets, corners of the same form, solids, names for formulas,
/// papers.
[[nodiscard]] QStringList suggestionsFor(const Session& session, const Node& node);

} // namespace slab::ui
