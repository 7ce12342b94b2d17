#pragma once
// What every fitted page of the pack shares: margins, head, foot.
#include "core/drawing/pen.h"
#include "core/drawing/sheets.h"

namespace slab {

inline constexpr double pageMargin = 11; ///< mm; home printers leave 4 to 6.4 mm blank (common practice)

struct Head {
    std::string over;    ///< small line above: project title
    std::string title;   ///< large
    std::string subject; ///< behind the title, quiet
    std::string corner;  ///< upper right: "panel 7 of 35"
};
/// Head and foot rules with their words. @return the area between them
[[nodiscard]] Area drawFrame(const Pen& pen, const Page& page, const Head& head, const std::string& footLeft,
                             const std::string& footRight);
/// Samples of the line kinds with their meaning. @return x behind the last
double drawLegend(const Pen& pen, const Vec2& at);
/// The small print about blades and solvents, at the very foot of a page.
void addCautions(Page& page);

} // namespace slab
