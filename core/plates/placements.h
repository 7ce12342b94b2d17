#pragma once
// Where the panels' outlines stand in the body.
#include "core/plates/plate.h"
#include <map>
#include <optional>

namespace slab {

/// For every plate that is cut, by its name: the frame that puts the outline of the panel it is cut from (or
/// that of its pieces) in place. Copies that are alike only after a turn in the plane have that turn in it; a
/// plate's own frame has not. Of a blank the coordinates are those of the plate of its first copy on that
/// part.
/// @param panels  made of the same plates
[[nodiscard]] std::map<std::string, Frame> panelPlacements(const PlateSet& set,
                                                           const std::vector<Panel>& panels);

/// The frame that puts the outline of one panel in place for one of the plates cut from it (of a piece
/// between seams: of the plate that it is a piece of).
/// @param copy  of the panel's copies
/// @param part  of a blank: index in Panel::parts; else 0
[[nodiscard]] std::optional<Frame> panelPlace(const PlateSet& set, const std::vector<Panel>& panels,
                                              const Panel& panel, std::size_t copy, std::size_t part = 0);

} // namespace slab
