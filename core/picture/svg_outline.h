#pragma once
#include "core/picture/svg_file.h"
#include <string>
#include <vector>

namespace slab {

/// One edge of an outline as it goes into a document.
struct OutlineEdge {
    enum class Kind { line, arc, ellipse, spline };
    Kind kind = Kind::line;
    double bulge = 0; ///< arc: sagitta, mm, positive to the left of the way from its point to the next
    Vec2 meet = Vec2::Zero(); ///< ellipse: where its end tangents meet, mm
    double sweep = 0; ///< ellipse: angle of the circle arc that it is stretched from, radians, in (0, π)
    std::vector<Vec2> through; ///< spline: points that it runs through, mm
    double off = 0;            ///< the most that the edge leaves the drawn curve, mm
};
/// An outline in millimetres, y up; edge i runs from point i to the next.
struct OutlineDraft {
    std::vector<Vec2> points;
    std::vector<OutlineEdge> edges;
    bool wasOpen = false; ///< the file left it open; it is closed by a straight side
    int splined = 0;      ///< free curves that became splines
    int flattened = 0;    ///< free curves replaced by straight pieces
    double deviation = 0; ///< the most that any of those leaves its curve, mm, at most what is allowed it
};

/// How an outline is read off a path.
struct SvgScale {
    double mmX = 1, mmY = 1; ///< millimetres for one unit of the file along x and y
    double tolerance = 0.5;  ///< the most that a free curve may be changed, mm, above zero
    bool splines = true;     ///< free curves may become splines; else straight pieces only
    double flats = 0;        ///< the most that straight pieces may leave a free curve, mm; 0 = the tolerance
};
/// Makes an outline of one path: circular arcs and parts of ellipses stay what they are (cut into quarters at
/// most), cubic curves that are circular arcs as drawing programs write them become arcs, other curves
/// splines through a few of their points, within the tolerance, or the fewest straight pieces. Points that
/// fall together are taken as one.
///
/// @error "svg-outline" (fewer than three points, or more than 200), "svg-tolerance"
[[nodiscard]] Expected<OutlineDraft> draftOutline(const SvgSubpath& path, const SvgScale& scale);

/// What the curved edges of an outline come to when they are replaced by flats.
struct OutlineFlats {
    int count = 0;        ///< sides of the outline, straight ones included
    double deviation = 0; ///< the most that any of them leaves the drawn curve, mm
};
/// As the document will cut it, with this chord tolerance for every curve, mm, above zero.
[[nodiscard]] OutlineFlats flatsOf(const OutlineDraft& draft, double tolerance);

/// One outline to choose from a drawing.
struct SvgChoice {
    std::string name; ///< the element's id, else what it is and its number: "hull", "path 3"; "hull (2)" of
                      ///< its second part
    SvgSubpath path;
    double area = 0; ///< that it encloses, in the drawing's square units
};
/// All outlines of a drawing, the largest first; lines that enclose nothing come last.
[[nodiscard]] std::vector<SvgChoice> outlinesOf(const SvgFile& file);

/// The most points that a form's outline may have.
inline constexpr std::size_t mostOutlinePoints = 200;

/// Moved by a vector, mm: `moved(draft, -bounds(draft).min)` stands on the axes. Outlines of one drawing that
/// belong together are moved by one vector.
[[nodiscard]] OutlineDraft moved(OutlineDraft draft, const Vec2& by);
/// Box round points and curved edges, mm.
[[nodiscard]] Box2 bounds(const OutlineDraft& draft);

} // namespace slab
