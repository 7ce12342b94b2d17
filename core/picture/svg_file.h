#pragma once
#include "core/geometry/polygon.h"
#include "core/picture/svg_path.h"
#include <string>
#include <vector>

namespace slab {

/// How large a drawing says that it is.
struct SvgSize {
    bool real = false;                           ///< width and height are given in mm, cm, in, pt, pc or Q
    double width = 0, height = 0;                ///< mm; of a drawing that is not real, at 96 px to the inch
    double pixelWidth = 0, pixelHeight = 0;      ///< at 96 px to the inch; never 0
    double unitX = 25.4 / 96, unitY = 25.4 / 96; ///< mm for one unit of its coordinates, at that size
    std::string written;                         ///< "210mm by 297mm", as it stands in the file; may be empty
    bool operator==(const SvgSize&) const = default;
};

/// One drawn element of a file, in the drawing's outermost coordinates (y down, before its viewBox is
/// fitted).
struct SvgShape {
    std::string id;      ///< may be empty
    std::string element; ///< "path", "polygon", …
    std::vector<SvgSubpath> paths;
};

struct SvgFile {
    SvgSize size;
    std::vector<SvgShape> shapes;     ///< in drawing order, those that are drawn
    std::vector<std::string> leftOut; ///< what has no outline or could not be read, in words
    [[nodiscard]] bool empty() const { return shapes.empty(); }
};

/// One answer to the question in which unit a drawing is.
struct SvgUnit {
    std::string name; ///< "millimetres", "inches", "pixels of 1/96 in", or "as written: …"
    double unitX = 1,
           unitY = 1; ///< mm for one unit of the drawing along x and y (they differ if it is stretched)
    double width = 0, height = 0; ///< what the outlines measure then, mm
};

/// Is there an svg element in the first 64 KiB?
[[nodiscard]] bool looksLikeSvg(std::string_view bytes);
/// Only the size. @error "picture-damaged", "picture-format"
[[nodiscard]] Expected<SvgSize> readSvgSize(std::string_view bytes);
/// Outlines of path, polygon, polyline, rect, circle, ellipse and line elements, moved by the transforms
/// round them; nested svg elements and `use` included, definitions and what is not displayed left out.
/// @error "picture-format" (no SVG), "picture-damaged" (not well formed), "too-large" (over 64 MiB)
/// @source  W3C SVG 1.1 (2nd ed. 2011): 5.6 (use), 7.6 (transform), 7.8 (preserveAspectRatio), 8.3, 9; SVG 2
/// 7 to 10
[[nodiscard]] Expected<SvgFile> readSvg(std::string_view bytes);

/// Box round all points and curves of shapes, in the drawing's units.
[[nodiscard]] Box2 bounds(const std::vector<SvgShape>& shapes);
/// The unit question: one answer, "as written", when the file gives its size in real units (the first one
/// then), and the usual guesses, each with the size that the outlines would have.
[[nodiscard]] std::vector<SvgUnit> unitChoices(const SvgFile& file);

/// An affine transform list ("translate(10 20) rotate(45)"). @error "svg-transform"
[[nodiscard]] Expected<Mat3> readTransform(std::string_view text);

} // namespace slab
