#pragma once
// What a gesture makes of the formula of one field. Private to the room.
#include "core/board/moves.h"
#include <functional>
#include <utility>

namespace slab::detail {

/// How far a field's value is to change.
struct Change {
    double by = 0;      ///< mm at build size
    bool exact = false; ///< not rounded, only readable
    Space space = Space::subject;
};
/// The place that is written to and its new formula: the field's own, or with MoveOptions::drive that of the
/// dimension whose name stands there alone.
/// @error "broken-formula" and what evaluate() says, with the place
[[nodiscard]] Expected<std::pair<std::string, Text>> movedText(const Project& project, const Scope& scope,
                                                               const std::string& pointer,
                                                               const Change& change,
                                                               const MoveOptions& options);
/// Writes formulas to their places, for an edit. @error "no-such-place"
[[nodiscard]] std::function<Expected<Project>(const Project&)>
texting(std::vector<std::pair<std::string, Text>> texts);

} // namespace slab::detail
