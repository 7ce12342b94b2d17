#pragma once
// What "Add" makes in the lists of frames, mechanisms and pictures: as large as the body, in its middle.
#include "ui/session/session.h"
#include "ui/tables/document_tree.h"
#include <nlohmann/json.hpp>

namespace slab::ui {

/// The new entry of a list of parts; null for other lists.
[[nodiscard]] nlohmann::ordered_json newPart(const Session& session, const Node& list);

} // namespace slab::ui
