#pragma once
// Changes of a document that pictures lead to.
#include "core/document/edit.h"
#include "core/picture/place.h"

namespace slab {

/// Adds a picture: name made unique from the file's, hash taken over, drawn upright under `view`.
/// @error "picture-missing", or what made the file unreadable
[[nodiscard]] Edit addPicture(const PictureFile& file, std::string view, Space space = Space::subject);
/// Takes the file as it is now for the one that was marked (after "picture-changed", or for another file).
/// @error "no-such-place", as addPicture
[[nodiscard]] Edit acceptPicture(int index, const PictureFile& file);

/// Marks the two points of a known distance, pixels; the distance as typed.
/// @error "no-such-place"
[[nodiscard]] Edit markDistance(int index, const Vec2& from, const Vec2& to, Text distance);
/// The same on a picture that lies in its elevation: the first point stays where it is, and a picture that
/// was turned keeps its turn.
/// @param points  px; scale: of the document, as evaluated
[[nodiscard]] Edit markDistance(const PlacedPicture& placed, const std::array<Vec2, 2>& points, Text distance,
                                double scale);
/// Marks the four corners of a known rectangle, pixels, in order round it; its sides as typed. Takes the
/// distance away, as it would be of the picture as it was before.
[[nodiscard]] Edit markRectangle(int index, const std::array<Vec2, 4>& corners, Text width, Text height);
/// Puts a feature to snap to, or moves the one of that name.
[[nodiscard]] Edit markFeature(int index, const std::string& name, const Vec2& at);
/// Draws a line that measures; `size` names a donor size or is empty.
/// @param clickError  standard error of its ends, px, where it is not the picture's
[[nodiscard]] Edit markLine(int index, const std::string& name, const std::array<Vec2, 2>& ends,
                            std::string size, Text clickError = {});
/// Moves a picture in its elevation by a drag, mm at build size. All moves of one gesture are one step.
/// @param scale  of the document, as evaluated
[[nodiscard]] Edit movePicture(int index, const Vec2& by, double scale, std::string gesture);

/// A view cut from a sheet of several.
struct ViewCut {
    std::string name;
    std::string view; ///< "side", "front", "plan"
    Box2 box;         ///< mm, in the sheet's elevation as it lies now
};
/// Makes one picture of each view of a sheet: the same file and the same scale. Side and front stand on the
/// ground with the lower edge of their boxes, front and plan lie astride the middle; the side stays where it
/// is along the sheet, and the plan's rear end lies in line with it.
/// @param placed  the sheet as evaluated; it must have a scale
/// @error "no-such-place", "picture-uncalibrated", "picture-crop"
[[nodiscard]] Edit cutViews(const PlacedPicture& placed, std::vector<ViewCut> cuts, double scale);

/// Takes a measured size over into the donor: the length as a formula in the document's units, rounded to
/// about its uncertainty. A size that may lie on either side of the axle keeps its sign.
///
/// @param widen  also add two standard errors to the clearance of every solid that the size moves: a named
/// dimension
///               "<size>_uncertainty" takes them, and the clearances become sums such as `20 mm +
///               seat_height_uncertainty`, so that measuring again changes one value
/// @error "picture-size-unknown", "duplicate-name" (the dimension's name is taken by another thing)
[[nodiscard]] Edit takeOver(const MeasuredSize& size, bool widen);

} // namespace slab
