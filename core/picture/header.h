#pragma once
#include "core/base/error.h"
#include <string>
#include <string_view>

namespace slab {

/// What a picture's first bytes say of it.
struct PictureHeader {
    std::string format; ///< "png", "jpeg" or "svg"
    double width = 0,
           height = 0; ///< px as shown: a JPEG turned by its orientation, an SVG at 96 px to the inch
    /// How a JPEG's stored rows are turned to be shown, 1 (not at all) to 8, as in Exif's orientation tag.
    int orientation = 1;
    bool operator==(const PictureHeader&) const = default;
};

/// Format and size of a PNG, JPEG or SVG from its bytes; no pixel is read.
///
/// A drawing (SVG) without a size in real units takes that of its viewBox; a program that shows it draws it
/// at `width` by `height` pixels, whatever size its own library would choose.
/// @error "picture-format" (another kind of file), "picture-damaged" (cut short, or without a size)
/// @source  W3C PNG 2nd ed. 2003, 5.2 and 11.2.2 (IHDR); ITU-T T.81 (JPEG) B.1.1 and B.2.2 (frame header);
/// JEITA
///          CP-3451 (Exif 2.2) 4.6.4, tag 274; W3C SVG 1.1 7.2 and 7.7; CSS 2.1 4.3.2 (96 px to the inch)
[[nodiscard]] Expected<PictureHeader> readPictureHeader(std::string_view bytes);

} // namespace slab
