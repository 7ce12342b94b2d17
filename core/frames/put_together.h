#pragma once
// The order of assembly of boards that are cut.
#include "core/base/error.h"
#include "core/frames/assembly.h"
#include "core/frames/half_lap.h"

namespace slab::frames {

/// A board as it is cut.
struct MadeBoard {
    std::string name; ///< "frames/rib#2"
    Piece piece;
    Expected<Plate> plate;
};

/// Names the boards of every crossing, and sets the order in which all go together.
///
/// @param made   by frame, largest first
/// @param slots  its crossings get boards, its `order` is set
/// @param uncut  the frames before slots: if the boards go together in no order, the unit to leave out is
///               taken out of them
/// @return the one that was taken out and what holds it: the rest is to be cut again
[[nodiscard]] std::optional<Held> putTogether(const std::vector<std::vector<MadeBoard>>& made,
                                              FrameSet& slots, std::vector<Board>& uncut);

/// Which board each piece has become, the one that takes most of it: its name, or "" for none.
[[nodiscard]] std::vector<std::string> boardNames(const std::vector<Piece>& pieces,
                                                  const std::vector<std::vector<MadeBoard>>& made);

} // namespace slab::frames
