#include "core/frames/frames.h"
#include "core/frames/half_lap.h"
#include "core/frames/section.h"
#include "core/geometry/round_offset.h"
#include "core/plates/flat_part.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double off = 1e-5;        ///< mm: kept free so that rounding to the grid never makes an overlap
constexpr double leastPiece = 900;  ///< mm²: smaller pieces are waste
constexpr double cornerRadius = 15; ///< mm, inside corners of lightening holes (common practice: round them)
constexpr double sliver = 1.5;      ///< mm: what is narrower than twice this is cut away

double areaOf(const std::vector<Polygon>& regions) {
    double sum = 0;
    for (const Polygon& p : regions) sum += area(p);
    return sum;
}

void tell(FrameSet& set, const FrameChoice& c, Severity severity, std::string code,
          const std::string& message, std::string remedy) {
    set.findings.push_back({severity,
                            std::move(code),
                            "Frame " + c.name + ": " + message + ".",
                            {"frame:" + c.name, "document:/frames/" + std::to_string(c.index)},
                            std::move(remedy),
                            {}});
}

/// Without what is too narrow to hold together; corners stay as they are.
std::vector<Polygon> withoutSlivers(const std::vector<Polygon>& regions) {
    const auto core = roundOffset(regions, -sliver);
    if (core.empty()) return {};
    return intersect(regions, roundOffset(core, 2 * sliver));
}

/// The holes that lighten a board: what lies further than the web from every edge, with round corners.
std::vector<Polygon> lightening(const std::vector<Polygon>& regions, double web) {
    const auto deep = roundOffset(regions, -(web + cornerRadius));
    std::vector<Polygon> holes;
    for (const Polygon& p : roundOffset(deep, cornerRadius))
        if (area(p) > leastPiece) holes.push_back(p);
    return holes;
}

/// The whole outline of one frame before slots: section, gap, donor and rider.
std::vector<Polygon> outlineOf(const FrameChoice& c, const Skin& skin, const std::vector<Plate>& plates,
                               const std::vector<FitSolid>& solids, FrameSet& set) {
    const BoardSlab slab{c.place, c.thickness / 2};
    std::vector<Polygon> regions;
    for (int body = 0; body < skin.bodies; ++body)
        for (const Polygon& p : insideSection(toPolyhedron(skin, body), plates, slab))
            for (Polygon& inset : offset(p, -(c.gap + off))) regions.push_back(std::move(inset));
    FrameFact fact{c.name, areaOf(regions), 0, 0};
    if (regions.empty()) {
        tell(set, c, Severity::look, "frame-misses", "its plane finds no room inside the shell",
             "Move its station to where the body is, or turn its plane.");
        return {};
    }
    std::vector<Polygon> taken;
    for (const FitSolid& s : solids)
        for (Polygon& p : shadowOf(s.shape, slab, c.clearance.value_or(s.clearance)))
            taken.push_back(std::move(p));
    if (!taken.empty()) regions = subtract(regions, unite(taken));
    regions = withoutSlivers(regions);
    std::erase_if(regions, [](const Polygon& p) { return area(p) < leastPiece; });
    if (regions.empty())
        tell(set, c, Severity::look, "frame-empty", "donor and rider leave nothing of it",
             "Move its station, or ask for less clearance.");
    else
        set.frames.push_back(fact);
    return regions;
}

void addParts(const FrameChoice& c, std::vector<Polygon> regions, FrameSet& set) {
    std::erase_if(regions, [](const Polygon& p) { return area(p) < leastPiece; });
    std::stable_sort(regions.begin(), regions.end(),
                     [](const Polygon& l, const Polygon& r) { return area(l) > area(r); });
    int number = 0;
    for (Polygon& region : regions) {
        FlatPart part;
        part.form = "frames/" + c.name;
        part.name = ++number == 1 ? part.form : part.form + "#" + std::to_string(number);
        part.stock = c.stock;
        part.thickness = c.thickness;
        part.frame = c.place;
        part.frame.origin += c.place.axes.col(2) * (c.thickness / 2);
        part.outline = std::move(region);
        auto plate = flatPart(part);
        if (!plate) {
            set.findings.push_back(findingOf(plate.error(), Severity::stop, {"frame:" + c.name}));
            continue;
        }
        for (FrameFact& f : set.frames)
            if (f.name == c.name) {
                f.area += plate->volume / c.thickness;
                ++f.parts;
            }
        set.parts.push_back(std::move(*plate));
    }
}

} // namespace

FrameSet makeFrames(const std::vector<FrameChoice>& choices, const Skin& skin,
                    const std::vector<Plate>& plates, const std::vector<FitSolid>& solids,
                    const UnitStyle& units) {
    FrameSet set;
    std::vector<frames::Board> boards;
    for (const FrameChoice& c : choices) {
        frames::Board board{&c, outlineOf(c, skin, plates, solids, set)};
        if (c.web > 0)
            if (const auto holes = lightening(board.regions, c.web); !holes.empty())
                board.regions = subtract(board.regions, holes);
        boards.push_back(std::move(board));
    }
    frames::cutSlots(boards, units, set);
    for (frames::Board& board : boards) addParts(*board.choice, std::move(board.regions), set);
    return set;
}

} // namespace slab
