#pragma once
// The chosen mechanism, in whatever view it was chosen, and what is done to it.
#include "ui/session/session.h"

namespace slab::ui {

/// Entry of the mechanism, or of a belt's wheel, that is chosen: its row, a part or a plate of it; empty =
/// none.
[[nodiscard]] std::string chosenMechanism(const Session& session);
/// Its name; empty = none is chosen.
[[nodiscard]] std::string chosenMechanismName(const Session& session);
/// A mechanism or wheel with the part of it that was pointed at, else with what is seen of it in 3D.
/// @param kind  of the region: "mechanism", "mechanism plate"; empty = nothing was pointed at
[[nodiscard]] Selection mechanismSelection(const Session& session, const std::string& pointer,
                                           const std::string& kind = {}, const std::string& part = {});
/// Takes the chosen one away; one step to undo. Says at the session what went wrong.
/// @param told  what follows from it; empty = nothing
bool deleteChosenMechanism(Session& session, QString* told = nullptr);

} // namespace slab::ui
