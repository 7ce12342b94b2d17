#pragma once
// What of a picture is put somewhere when it is dragged.
#include "core/picture/place.h"
#include <optional>

namespace slab::ui {

/// A place of a picture that means something: a marked point, a corner of its rectangle or frame, or what its
/// x and y are of.
struct PictureHold {
    std::string name;
    Vec2 at = Vec2::Zero(); ///< in the elevation, mm
};
/// The nearest one to where it was taken; its name tells which.
[[nodiscard]] PictureHold holdOf(const PlacedPicture& picture, const Vec2& at);

} // namespace slab::ui
