#pragma once
// Reference pictures in the elevations, and lines that tell or drive a size.
#include "core/document/basics.h"

namespace slab {

/// A place in a picture: pixels from its upper left corner, x to the right, y down, uncropped.
struct PicturePoint {
    std::string name;
    Text x, y;
    Extra extra;
    bool operator==(const PicturePoint&) const = default;
};

/// A line drawn on a picture that gives a size.
struct PictureLine {
    std::string name;
    Text x1, y1, x2, y2; ///< pixels
    std::string size;    ///< the donor's size that it gives; empty = none
    Text click_error;    ///< standard error of its ends, pixels; empty = the picture's
    Extra extra;
    bool operator==(const PictureLine&) const = default;
};

/// A picture under an elevation.
struct Picture {
    std::string name;
    std::string file;                             ///< relative to the document's folder
    std::string hash;                             ///< SHA-256 of the file, hexadecimal
    std::string view = "side";                    ///< "side", "front", "plan"
    Space space = Space::subject;                 ///< build: it does not shrink with the scale
    Text crop_x, crop_y, crop_width, crop_height; ///< pixels; empty = all of it
    std::vector<PicturePoint> crop_corners;       ///< instead: corners of what is shown, in order round it
    std::vector<PicturePoint> corners;            ///< none, or four of a known rectangle, in order round it
    Text rectangle_width, rectangle_height;       ///< its sides; the first corner to the second is the width
    PicturePoint from, to;                        ///< calibration: two points …
    Text distance;                                ///< … and what lies between them in truth
    Text click_error;                             ///< standard error of a marked point, pixels; empty = 1
    Text distance_error; ///< the same of from and to on a rectified picture; empty = click_error
    Text x, y;           ///< where `from` stands in the elevation: to the right, up
    Text turn;           ///< of the line from–to in the elevation; empty = as pictured
    Text opacity;        ///< 0 to 1; empty = 0.6
    bool hidden = false;
    std::vector<PicturePoint> features; ///< marked by the builder, to snap to
    std::vector<PictureLine> lines;
    Extra extra;
    bool operator==(const Picture&) const = default;
};

/// A line between two points of outlines that tells their distance and may drive a dimension.
struct DimensionLine {
    std::string name;
    std::string view = "side"; ///< "side", "front", "plan"
    std::string from, to;      ///< form and point: "hull/stem head"
    std::string along;         ///< "" = the distance in the view; "x", "y", "z"
    std::string drives;        ///< dimension that a typed distance changes; empty = it only tells
    Text offset;               ///< of the drawn line from its points, subject
    Extra extra;
    bool operator==(const DimensionLine&) const = default;
};

} // namespace slab
