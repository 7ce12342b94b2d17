#pragma once
// Lengths and view boxes inside an SVG file; only for its reader.
#include "core/picture/svg_file.h"
#include <optional>

namespace slab {

/// A length attribute in user units of 1/96 in.
struct SvgLength {
    double value = 0;
    bool percent = false; ///< value is a percentage
    bool real = false;    ///< written with a unit that has a true size
};
/// "12", "12px", "3.5mm", "50%"; nothing for lengths that depend on a typeface, or no length.
/// @source  W3C SVG 1.1 4.2 (length); CSS Values 3, 6.2 (absolute lengths)
[[nodiscard]] std::optional<SvgLength> readSvgLength(std::string_view text);

struct SvgBox {
    double x = 0, y = 0, width = 0, height = 0;
};
[[nodiscard]] std::optional<SvgBox> readViewBox(std::string_view text);
/// The transform that fits a view box into a viewport at the origin.
/// @source  W3C SVG 1.1 7.8, SVG 2 8.2 (equivalent transform of an SVG viewport)
[[nodiscard]] Mat3 fitted(const SvgBox& box, const Vec2& size, std::string_view preserveAspectRatio);

} // namespace slab
