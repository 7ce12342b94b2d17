#pragma once
// Changes of a document that pictures lead to.
#include "core/document/edit.h"
#include "core/picture/place.h"

namespace slab {

/// Adds a picture: name made unique from the file's, hash taken over, drawn upright under `view`.
/// @error "picture-missing", or what made the file unreadable
[[nodiscard]] Edit addPicture(const PictureFile& file, std::string view, Space space = Space::subject);
/// Takes the file as it is now for the one that was marked (after "picture-changed", or for another file), in
/// every picture of that file.
/// @error "no-such-place", as addPicture
[[nodiscard]] Edit acceptPicture(int index, const PictureFile& file);

/// A place marked by hand, pixels, and its standard error where it is not the picture's.
struct Mark {
    Vec2 at = Vec2::Zero();
    Text error;
    Mark() = default;
    Mark(const Vec2& where, Text off = {}) : at(where), error(std::move(off)) {}
    Mark(double x, double y) : at(x, y) {}
};
/// Marks the two points of a known distance; the distance as typed.
/// @error "no-such-place"
[[nodiscard]] Edit markDistance(int index, const Mark& from, const Mark& to, Text distance);
/// The same on a picture that lies in its elevation: the first point stays where it is, and a picture that
/// was turned keeps its turn.
/// @param scale  of the document, as evaluated
[[nodiscard]] Edit markDistance(const PlacedPicture& placed, const std::array<Mark, 2>& points, Text distance,
                                double scale);
/// Marks a line that has the direction `turn` in truth, beside whatever gives the scale.
[[nodiscard]] Edit markLevel(int index, const std::array<Mark, 2>& ends, Text turn);
/// Turns a picture by an angle from as pictured; a level line or a direction of the two points goes.
[[nodiscard]] Edit turnPicture(int index, Text rotation);
/// Marks the four corners of a known rectangle, in order round it; its sides as typed. Takes the
/// distance away, as it would be of the picture as it was before.
[[nodiscard]] Edit markRectangle(int index, const std::array<Mark, 4>& corners, Text width, Text height);
/// Puts a feature to snap to, or moves the one of that name.
[[nodiscard]] Edit markFeature(int index, const std::string& name, const Mark& at);
/// Draws a line that measures; `size` names a donor size or is empty.
[[nodiscard]] Edit markLine(int index, const std::string& name, const std::array<Mark, 2>& ends,
                            std::string size);
/// Moves a picture in its elevation by a drag, mm at build size. All moves of one gesture are one step.
/// @param scale  of the document, as evaluated
[[nodiscard]] Edit movePicture(int index, const Vec2& by, double scale, std::string gesture);

/// A view cut from a sheet of several.
struct ViewCut {
    std::string name;
    std::string view; ///< "side", "front", "plan"
    Box2 box;         ///< mm, in the sheet's elevation as it lies now
};
/// Makes one picture of each view of a sheet: the same file, scale and alignment, however the boxes are
/// drawn. The first side (else the first view that has heights) stands on the ground with the lower edge of
/// its box; sides and fronts that lie beside it on the sheet keep their heights against it, others stand on
/// the ground by themselves. Sides stay where they are along the sheet; a plan over or under the first side
/// keeps its place along it, another one lies with its rear end in line. Front and plan lie astride the
/// middle.
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
