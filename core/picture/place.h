#pragma once
#include "core/base/finding.h"
#include "core/document/project.h"
#include "core/geometry/polygon.h"
#include "core/picture/camera.h"
#include "core/picture/files.h"
#include "core/picture/homography.h"

namespace slab {

struct PlacedPoint {
    std::string name;
    Vec2 pixel = Vec2::Zero();
    Vec2 at = Vec2::Zero(); ///< in the elevation, mm
    PlaceError error;       ///< against the rectangle, or the first of two points
    bool operator==(const PlacedPoint&) const = default;
};

struct PlacedLine {
    std::string name, size; ///< size: of the donor; empty = none
    Vec2 fromPixel = Vec2::Zero(), toPixel = Vec2::Zero();
    Vec2 from = Vec2::Zero(), to = Vec2::Zero(); ///< mm
    EndErrors click;                             ///< of its own ends
    PictureDepth depth;                          ///< before the plane
    Measured flat;                               ///< mm: as if it lay in the plane
    Measured length;                             ///< mm, at its depth, with its standard error
    int index = 0;                               ///< in Picture::lines: one that cannot be placed is left out
    bool operator==(const PlacedLine&) const = default;
};

/// A known distance on a rectified picture against what the rectangle makes of it.
struct PictureCheck {
    double stated = 0;                   ///< mm
    Measured found;                      ///< by the corners alone, with the error that they foretell
    bool taken = false;                  ///< it agrees, and the map takes it in
    double after = 0;                    ///< standard error of such a length once it is taken in, mm
    [[nodiscard]] double errors() const; ///< how many of the foretold errors it is off
    bool operator==(const PictureCheck&) const = default;
};
/// What was foretold, what the check says and what holds now: "known 1000 mm comes out as 1004 mm, foretold
/// ± 6 mm: it agrees and is taken in; such a length is ± 4 mm from now on".
[[nodiscard]] std::string checkWords(const PictureCheck& check, const UnitStyle& units);

/// A picture in its elevation at build size: right and up in mm (side: x, z; front, seen from ahead: y, z;
/// plan: x, y).
struct PlacedPicture {
    enum class State {
        unseen,
        present,
        missing,
        unreadable,
        changed
    }; ///< unseen: nobody looked for the file yet
    enum class Scale { none, distance, rectangle };
    std::string name, file, view;
    int index = 0; ///< in Project::pictures
    Space space = Space::subject;
    State state = State::unseen;
    Scale scale =
        Scale::none; ///< what its size rests on; none: a provisional place, so that it can be seen and marked
    double width = 0, height = 0; ///< px of the whole picture as shown; 0 while unknown
    Box2 crop;                    ///< px: what is shown lies inside it
    Vec2 at = Vec2::Zero();       ///< mm: where the document's x and y put it
    PlaneFix own; ///< the same map with its errors against the rectangle, wherever the picture was put
    PlaneFix fix; ///< px to mm; for an unmarked picture without slopes
    Ring whole;   ///< px: all of the picture without what lies at or beyond the horizon; empty while unknown
    Ring shown;   ///< px: of the crop without what lies at or beyond the horizon; empty while unknown
    Ring outline; ///< the same in the elevation, mm
    double opacity = 0.6;
    bool hidden = false;
    double residual =
        0; ///< root mean square of what is left at the marked corners, px (0: four corners alone always fit)
    std::optional<PictureCheck> check;
    std::string
        doubt; ///< what speaks against the rectangle's sides or corners, and what to do; empty = nothing
    PictureCamera camera; ///< how far it was from the plane
    PictureDepth depth;   ///< of lines without one of their own
    std::vector<PlacedPoint> corners, features;
    std::vector<PlacedLine> lines;
    /// By its place in Picture::lines; null if it could not be placed.
    [[nodiscard]] const PlacedLine* line(int index) const;
    bool operator==(const PlacedPicture&) const = default;
};

/// One picture placed; what cannot be read or does not hold becomes a finding, and the rest goes on.
///
/// Lengths are read in the picture's space: those of a subject picture are times the scale, so that it
/// shrinks with the body.
/// @param file  what lies on the disk; null = nobody has looked, which is no finding
[[nodiscard]] PlacedPicture placePicture(const Picture& picture, int index, const Scope& scope,
                                         const PictureFile* file, std::vector<Finding>& findings);

/// What a line's length owes to the marks of its picture, to the camera and to its depth.
[[nodiscard]] LengthSlopes lineSlopes(const PlacedPicture& picture, const PlacedLine& line);

/// A donor size as lines on pictures give it, all lines taken together.
struct MeasuredSize {
    std::string size, label;        ///< "seat_height", "seat height"
    Measured value;                 ///< mm
    std::vector<std::string> lines; ///< "photo/seat": picture and line
    double worst = 0; ///< the most that one line leaves the whole, in its standard errors; 0 for one line
    bool operator==(const MeasuredSize&) const = default;
};

struct PictureSet {
    std::vector<PlacedPicture> pictures; ///< as many as in the document, in its order
    std::vector<MeasuredSize> sizes;     ///< in the order of the donor's own list of sizes
    std::vector<Finding> findings;
    bool operator==(const PictureSet&) const = default;
};
[[nodiscard]] PictureSet placePictures(const Project& project, const Scope& scope, const PictureFiles& files);

/// Lines of one size taken together with the weights of least variance; what lines of one picture owe to the
/// same marked points is counted once.
/// @param pictures  pairs of a picture and the index of one of its lines, at least one
/// @source  generalised least squares (A. C. Aitken 1935; J. Mandel, The Statistical Analysis of Experimental
/// Data,
///          7.9 for independent lines: weights by inverse variance)
[[nodiscard]] MeasuredSize
combined(const std::vector<std::pair<const PlacedPicture*, std::size_t>>& pictures);
/// Lines that differ by more than this many standard errors are told.
inline constexpr double mostErrors = 3;

} // namespace slab
