#pragma once
// One model for screen, SVG and PDF: pages of strokes, fills and text in millimetres, y up from the page's
// lower left.
#include "core/base/finding.h"
#include "core/geometry/polygon.h"
#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace slab {

enum class Dash { solid, dashed, dashDot, dotted }; ///< cut, inner outline, fold, reference
enum class Align { left, centre, right };
/// Ink by meaning, so that screen themes and paper each choose their colours.
enum class Ink {
    line,
    quiet,
    chosen,
    fits,
    tight,
    hits,
    foam,
    hardboard,
    plywood,
    card,
    plastic,
    paper,
    pale
};

struct Stroke {
    Ring points;
    bool closed = false;
    double width = 0.25; ///< mm on paper
    Dash dash = Dash::solid;
    Ink ink = Ink::line;
    bool operator==(const Stroke&) const = default;
};
struct Fill {
    Polygon area;
    Ink ink = Ink::foam;
    bool hatch = false;
    bool operator==(const Fill&) const = default;
};
struct Label {
    Vec2 at = Vec2::Zero(); ///< of the baseline
    std::string text;       ///< UTF-8
    double height = 3;      ///< capital height × 1.4, mm: the font size
    double turn = 0;        ///< radians counter-clockwise
    Align align = Align::left;
    Ink ink = Ink::line;
    bool figures = false, bold = false;
    bool operator==(const Label&) const = default;
};
struct Circle {
    Vec2 centre = Vec2::Zero();
    double radius = 1, width = 0.25;
    Dash dash = Dash::solid;
    Ink ink = Ink::line;
    bool operator==(const Circle&) const = default;
};

/// A layer of a group: "outer", "inner", "marks".
struct Layer {
    std::string name;
    std::vector<Fill> fills;
    std::vector<Stroke> strokes;
    std::vector<Circle> circles;
    std::vector<Label> labels;
    bool operator==(const Layer&) const = default;
};
struct Group {
    std::string id; ///< panel name; becomes the SVG id (made safe) and a pick target on screen
    std::string title;
    std::vector<Layer> layers;
    bool operator==(const Group&) const = default;
};
struct Page {
    std::string name; ///< bookmark
    double width = 210, height = 297;
    std::vector<Group> groups;
    std::optional<std::array<double, 4>>
        clip;                  ///< x, y, width, height, mm: groups are clipped to it, `overlay` not
    Vec2 shift = Vec2::Zero(); ///< added to every group (tiles share one big drawing)
    Group overlay;             ///< register marks, title, page map; not shifted, not clipped
    std::string chapter; ///< bookmark that gathers the pages of one panel; empty = the page stands alone
    bool operator==(const Page&) const = default;
};
struct Drawing {
    std::string title;
    std::vector<Page> pages;
    bool operator==(const Drawing&) const = default;
};

/// SVG 1.1 of one page in real millimetres: width="…mm" height="…mm" viewBox in mm, one <g id> per group.
[[nodiscard]] std::string writeSvg(const Page& page);
/// PDF, true size, vector, fonts embedded, a bookmark for each page name. Same drawing, same bytes. A page
/// longer than `pdfLimit` is cut into windows of at most that size, each at true size. @return the file's
/// bytes
[[nodiscard]] std::string writePdf(const Drawing& drawing);
/// 14,400 units of 1/72 in: the longest page side that viewers agree on without UserUnit (which many ignore),
/// mm.
inline constexpr double pdfLimit = 5080;
/// "page-split" (note) for each page that writePdf has to cut, "page-empty" (look) for one without a size.
[[nodiscard]] std::vector<Finding> checkPages(const Drawing& drawing);
/// Id that is safe in SVG, CSS and file names: letters, digits, '-', '_' and '.'; starts with a letter; never
/// empty.
[[nodiscard]] std::string safeId(std::string_view name);

} // namespace slab
