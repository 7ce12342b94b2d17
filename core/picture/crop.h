#pragma once
// Boxes drawn on a picture as it lies in its elevation, and the part of the picture that they keep.
#include "core/document/edit.h"
#include "core/picture/place.h"

namespace slab {

/// The four corners of a box; empty where it has no area.
[[nodiscard]] Ring ringOf(const Box2& box);
/// What of a convex ring lies where line.x · x + line.y · y + line.z ≥ 0.
/// @source  I. E. Sutherland, G. W. Hodgman, Reentrant Polygon Clipping, 1974
[[nodiscard]] Ring clipped(const Ring& ring, const Vec3& line);
/// What of a convex ring lies inside a box.
[[nodiscard]] Ring clipped(Ring ring, const Box2& box);

/// All of a picture in its elevation, mm: as far as a box on it can reach.
[[nodiscard]] Ring wholeOutline(const PlacedPicture& picture);
/// What a box of the elevation, mm, keeps of a picture: corners in pixels, in order round it. On a picture
/// that is turned or rectified that is no rectangle of pixels. Empty where the box lies beside the picture.
[[nodiscard]] Ring pixelsIn(const PlacedPicture& picture, const Box2& box);

/// The same corners as they are written: a rectangle along the pixels has whole ones, others
/// hundredths.
[[nodiscard]] Ring asWritten(const Ring& pixels);
/// Writes what is shown of a picture: a rectangle of whole pixels where the ring is one, else its corners.
/// @param pixels  convex, three corners or more
void showOnly(Picture& picture, const Ring& pixels);
/// Keeps of a picture what lies in a box of its elevation, mm. All crops of one gesture are one step.
/// @error "no-such-place", "picture-crop" (the box lies beside the picture)
[[nodiscard]] Edit cropTo(const PlacedPicture& picture, const Box2& box, std::string gesture = {});

} // namespace slab
