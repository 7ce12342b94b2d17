#pragma once
// The outlines of frames before they are slotted into each other: what the shell leaves, less what they stay
// clear of.
#include "core/frames/carried.h"

namespace slab::frames {

constexpr double leastPiece = 900; ///< mm²: smaller pieces are waste

/// Adds a finding about a frame; `message` goes on after its name and ends without a full stop.
void tell(FrameSet& set, const FrameChoice& c, Severity severity, std::string code,
          const std::string& message, std::string remedy);

/// Area of all together, mm².
[[nodiscard]] double areaOf(const std::vector<Polygon>& regions);

/// What is too thin or too small to hold is cut away, and told where that is worth a word.
/// @param by  what leaves it: "its slots leave"
[[nodiscard]] std::vector<Polygon> withoutScrap(const FrameChoice& c, const std::vector<Polygon>& regions,
                                                const std::string& by, FrameSet& set, const UnitStyle& units);

/// Where a frame finds room, by the bodies that it stands in.
struct Room {
    struct Part {
        Polygon region;
        int carrier = -1; ///< motion of the plates that line it; -1 = they stand
    };
    std::vector<Part> parts;
    /// Motion of the part that a board was cut from.
    [[nodiscard]] int carrierOf(const Polygon& board) const;
};

/// Room inside the shell's plates, less the gap to them.
[[nodiscard]] Room roomOf(const FrameChoice& c, const Skin& skin, const PlateList& plates,
                          const PlateCarrier& carrier);

/// The whole outline of one frame before slots: its room less what is kept clear of and its openings.
/// @param clear  what the boards of a part of the room stay clear of, by its motion
[[nodiscard]] std::vector<Polygon>
outlineOf(const FrameChoice& c, const Room& room,
          const std::function<std::vector<const std::vector<FitSolid>*>(int carrier)>& clear,
          const UnitStyle& units, FrameSet& set);

} // namespace slab::frames
