#include "core/frames/frames.h"
#include "core/base/parallel.h"
#include "core/frames/carried.h"
#include "core/frames/clean_outline.h"
#include "core/frames/put_together.h"
#include "core/frames/section.h"
#include "core/frames/slot_fit.h"
#include "core/geometry/round_offset.h"
#include "core/plates/flat_part.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double off = 1e-5;        ///< mm: kept free so that rounding to the grid never makes an overlap
constexpr double leastPiece = 900;  ///< mm²: smaller pieces are waste
constexpr double cornerRadius = 15; ///< mm, inside corners of lightening holes (common practice: round them)

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

/// The holes that lighten a board: what lies further than the web from every edge and outside of `keep`,
/// with round corners.
std::vector<Polygon> lightening(const std::vector<Polygon>& regions, double web,
                                const std::vector<Polygon>& keep) {
    auto deep = roundOffset(regions, -(web + cornerRadius));
    if (!keep.empty()) deep = subtract(deep, roundOffset(unite(keep), cornerRadius));
    std::vector<Polygon> holes;
    for (const Polygon& p : roundOffset(deep, cornerRadius))
        if (area(p) > leastPiece) holes.push_back(p);
    return holes;
}

/// Slots are cut into whole boards; lightened is what lies clear of them.
std::vector<Polygon> lightened(const frames::Board& board, const std::vector<Polygon>& whole) {
    std::vector<Polygon> regions, keep;
    for (const frames::Unit& unit : board.units) {
        regions.insert(regions.end(), unit.regions.begin(), unit.regions.end());
        keep.insert(keep.end(), unit.keep.begin(), unit.keep.end());
    }
    if (!(board.choice->web > 0)) return regions;
    const auto holes = lightening(whole, board.choice->web, keep);
    return holes.empty() ? regions : subtract(regions, holes);
}

/// Beside larger pieces, one that is nowhere as wide as its board is thick is no board of its own.
bool isLath(const Polygon& piece, double thickness) {
    constexpr double rounding = 0.05; // mm
    return roundOffset({piece}, -std::max(thickness / 2 - rounding, 0.0)).empty();
}

/// What is too thin or too small to hold is cut away, and told where that is worth a word.
/// @param by  what leaves it: "its slots leave"
std::vector<Polygon> withoutScrap(const FrameChoice& c, const std::vector<Polygon>& regions,
                                  const std::string& by, FrameSet& set, const UnitStyle& units) {
    constexpr double rounding = 2, worth = 5; // mm², mm
    std::vector<Polygon> kept = frames::withoutShortEdges(frames::withoutSlivers(regions));
    std::erase_if(kept, [](const Polygon& p) { return area(p) < leastPiece; });
    const auto lath = [&](const Polygon& p) { return isLath(p, c.thickness); };
    if (!std::all_of(kept.begin(), kept.end(), lath)) std::erase_if(kept, lath);
    Box2 largest;
    int count = 0;
    for (const Polygon& lost : subtract(regions, kept)) {
        const Box2 box = bounds(lost.outer);
        // Edges that were straightened are no pieces.
        if (area(lost) < std::max(rounding, frames::leastEdge * box.size().norm()) ||
            box.size().norm() < worth)
            continue;
        if (++count == 1 || box.size().norm() > largest.size().norm()) largest = box;
    }
    if (count > 0)
        tell(set, c, Severity::note, "frame-scrap",
             (count == 1 ? std::string("a piece of ") : std::to_string(count) + " pieces, up to ") +
                 printFine(largest.size().x(), units) + " × " + printFine(largest.size().y(), units) +
                 (count == 1 ? " that " + by + " is" : ", that " + by + " are") +
                 " too small to hold and cut away",
             "Where that matters, move a frame so that more is left there.");
    return kept;
}

/// The box that holds a board of these outlines, body axes.
Box3 roomOf(const std::vector<Polygon>& regions, const BoardSlab& slab) {
    constexpr double far = 1e300, rounding = 1; // mm
    Box3 box{Vec3::Constant(far), Vec3::Constant(-far)};
    for (const Polygon& p : regions)
        for (const Vec2& q : p.outer)
            for (const double w : {-slab.half, slab.half}) {
                const Vec3 at = slab.frame.toBody(Vec3(q.x(), q.y(), w));
                box.min = box.min.cwiseMin(at);
                box.max = box.max.cwiseMax(at);
            }
    box.min.array() -= rounding;
    box.max.array() += rounding;
    return box;
}

/// Cuts the frame's openings; one that finds nothing to cut is told.
void cutOpenings(const FrameChoice& c, std::vector<Polygon>& regions, FrameSet& set) {
    if (regions.empty()) return;
    const auto largest = std::max_element(regions.begin(), regions.end(),
                                          [](const auto& a, const auto& b) { return area(a) < area(b); });
    const Box2 box = bounds(largest->outer);
    const Vec2 middle = (box.min + box.max) / 2;
    for (const FrameOpening& o : c.openings) {
        Ring ring = o.outline;
        if (o.hosted)
            for (Vec2& p : ring) p += middle + o.at;
        const double before = areaOf(regions);
        regions = subtract(regions, {{ring, {}}});
        if (areaOf(regions) < before - 1) continue; // mm²
        set.findings.push_back({Severity::look,
                                "opening-misses",
                                "Opening " + o.name + " cuts nothing of frame " + c.name + ".",
                                {"opening:" + o.name, "frame:" + c.name},
                                "Move it onto the board, or correct the name of its plate.",
                                {}});
    }
}

/// The whole outline of one frame before slots: section, gap, donor and rider, openings.
std::vector<Polygon> outlineOf(const FrameChoice& c, const Skin& skin, const std::vector<Plate>& plates,
                               const std::vector<FitSolid>& solids, const UnitStyle& units, FrameSet& set) {
    const BoardSlab slab{c.place, c.thickness / 2};
    std::vector<Polygon> regions;
    for (int body = 0; body < skin.bodies; ++body)
        for (const Polygon& p : insideSection(toPolyhedron(skin, body), plates, slab))
            for (Polygon& inset : offset(p, -(c.gap + off))) regions.push_back(std::move(inset));
    FrameFact fact{c.name, areaOf(regions), 0, 0, 0, c.web};
    if (regions.empty()) {
        tell(set, c, Severity::look, "frame-misses", "its plane finds no room inside the shell",
             "Move its station to where the body is, or turn its plane.");
        return {};
    }
    std::vector<Polygon> taken;
    const Box3 here = roomOf(regions, slab);
    for (const FitSolid& s : solids) {
        const double wanted = s.group == "form" ? s.clearance : c.clearance.value_or(s.clearance);
        const double room = wanted + s.bulge;
        const Box3 there = bounds(s.shape);
        const double reach = room + 0.02 * s.shape.radius; // facets are drawn round what is round
        if (((there.min.array() - reach) > here.max.array()).any() ||
            ((there.max.array() + reach) < here.min.array()).any())
            continue;
        for (Polygon& p : shadowOf(s.shape, slab, room)) taken.push_back(std::move(p));
    }
    if (!taken.empty()) regions = subtract(regions, unite(taken));
    cutOpenings(c, regions, set);
    regions = withoutScrap(c, regions, taken.empty() ? "the shell leaves" : "shell, donor and rider leave",
                           set, units);
    if (regions.empty())
        tell(set, c, Severity::look, "frame-empty", "donor and rider leave nothing of it",
             "Move its station, or ask for less clearance.");
    else
        set.frames.push_back(fact);
    return regions;
}

/// The boards of one frame, largest first.
/// @param told  takes findings
std::vector<frames::MadeBoard> boardsOf(const FrameChoice& c, const std::vector<Polygon>& cut, FrameSet& told,
                                        const UnitStyle& units) {
    std::vector<Polygon> regions = withoutScrap(c, cut, "its slots leave", told, units);
    std::stable_sort(regions.begin(), regions.end(),
                     [](const Polygon& l, const Polygon& r) { return area(l) > area(r); });
    std::vector<frames::MadeBoard> boards;
    for (const Polygon& region : regions) {
        FlatPart part;
        part.form = "frames/" + c.name;
        part.name = boards.empty() ? part.form : part.form + "#" + std::to_string(boards.size() + 1);
        part.stock = c.stock;
        part.thickness = c.thickness;
        part.frame = c.place;
        part.frame.origin += c.place.axes.col(2) * (c.thickness / 2);
        part.outline = region;
        boards.push_back({part.name, {&c, {region}}, flatPart(part)});
    }
    return boards;
}

void addParts(const FrameChoice& c, std::vector<frames::MadeBoard> boards, FrameSet& set) {
    for (frames::MadeBoard& board : boards) {
        if (!board.plate) {
            set.findings.push_back(findingOf(board.plate.error(), Severity::stop, {"frame:" + c.name}));
            continue;
        }
        for (FrameFact& f : set.frames)
            if (f.name == c.name) {
                f.area += board.plate->volume / c.thickness;
                ++f.parts;
            }
        set.parts.push_back(std::move(*board.plate));
    }
}

/// The edge of one of a frame's boards in which a slot ends.
struct SlotEnd {
    Plate* plate = nullptr;
    PanelEdge* edge = nullptr;
};
SlotEnd slotEnd(FrameSet& set, const std::string& board, const Vec3& at, double width) {
    constexpr double near = 1e-3; // mm
    for (Plate& plate : set.parts) {
        if (plate.name != board) continue;
        const Vec2 p = plate.frame.toPlane(at);
        std::vector<PanelLoop*> loops{&plate.boundary};
        for (PanelLoop& hole : plate.holes) loops.push_back(&hole);
        for (PanelLoop* loop : loops)
            for (std::size_t i = 0; i < loop->outer.size(); ++i) {
                const Vec2 &a = loop->outer[i], &b = loop->outer[(i + 1) % loop->outer.size()];
                if (((a + b) / 2 - p).norm() < near && std::abs((b - a).norm() - width) < near)
                    return {&plate, &loop->edges[i]};
            }
    }
    return {};
}

/// Where two slots meet, their ends carry each other's name and one match mark, so that the builder finds
/// which goes into which.
void markLaps(FrameSet& set) {
    int mark = 0;
    for (const FrameCrossing& c : set.crossings) {
        const SlotEnd a = slotEnd(set, c.boardA, c.at, c.slotA), b = slotEnd(set, c.boardB, c.at, c.slotB);
        if (!a.edge || !b.edge) continue;
        ++mark;
        for (const auto& [own, other] : {std::pair{a, b}, std::pair{b, a}}) {
            own.edge->neighbour = other.plate->name;
            own.edge->role = EdgeRole::butts;
            own.edge->mark = mark;
        }
    }
}

/// Boards that lie too flat to each other for a lap and yet meet.
void tellFlatCrossings(const std::vector<FrameChoice>& choices, FrameSet& set) {
    const auto of = [](const Plate& part, const FrameChoice& c) { return part.form == "frames/" + c.name; };
    const auto meet = [](const Plate& a, const Plate& b) {
        constexpr double touching = 1e-3; // mm
        const Box3 l = bounds(a.solid), r = bounds(b.solid);
        if ((l.min.array() > r.max.array()).any() || (r.min.array() > l.max.array()).any()) return false;
        for (const ConvexSolid& x : a.cells)
            for (const ConvexSolid& y : b.cells)
                if (nearest(x, y).depth > touching) return true;
        return false;
    };
    for (std::size_t i = 0; i < choices.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            bool found = false;
            if (frames::meetingOf(choices[i], choices[k])) continue;
            for (const Plate& a : set.parts)
                for (const Plate& b : set.parts)
                    found = found || (of(a, choices[i]) && of(b, choices[k]) && meet(a, b));
            if (found)
                tell(set, choices[i], Severity::stop, "frame-meets",
                     "it lies too flat to frame " + choices[k].name + ", which it meets, for a half lap",
                     "Move one of them away, or turn one so that they cross at 10° or more.");
        }
}

std::vector<frames::Board> uncut(const std::vector<FrameChoice>& choices,
                                 const std::vector<std::vector<Polygon>>& whole) {
    std::vector<frames::Board> boards;
    for (std::size_t i = 0; i < choices.size(); ++i) {
        boards.push_back({&choices[i], {}, 0});
        for (const Polygon& p : whole[i]) boards.back().units.push_back({{p}, {}});
    }
    return boards;
}

/// Boards cut and made, without what goes together in no order.
/// @param whole  outlines of all frames
std::vector<std::vector<frames::MadeBoard>> cutBoards(const std::vector<FrameChoice>& choices,
                                                      const std::vector<std::vector<Polygon>>& whole,
                                                      const UnitStyle& units, FrameSet& set) {
    std::vector<frames::Board> boards = uncut(choices, whole);
    std::vector<frames::Held> held;
    for (;;) {
        std::vector<frames::Board> cut = boards;
        FrameSet slots;
        const std::vector<frames::Held> unslotted = frames::cutSlots(cut, units, slots);
        std::vector<std::vector<frames::MadeBoard>> parts(cut.size());
        std::vector<FrameSet> scrap(cut.size());
        shareOut(cut.size(), [&](std::size_t i) {
            parts[i] = boardsOf(choices[i], lightened(cut[i], whole[i]), scrap[i], units);
        });
        if (auto locked = frames::putTogether(parts, slots, boards)) {
            held.push_back(std::move(*locked));
            continue;
        }
        held.insert(held.end(), unslotted.begin(), unslotted.end());
        for (const frames::Held& h : held)
            frames::tellLocked(h.pieces, h.locked, units, set.findings, frames::boardNames(h.pieces, parts));
        for (const FrameSet& from : scrap)
            slots.findings.insert(slots.findings.end(), from.findings.begin(), from.findings.end());
        set.findings.insert(set.findings.end(), slots.findings.begin(), slots.findings.end());
        set.crossings = std::move(slots.crossings);
        set.order = std::move(slots.order);
        for (FrameFact& f : set.frames)
            for (const frames::Board& b : cut)
                if (b.choice->name == f.name) f.leftOut = b.leftOut;
        return parts;
    }
}

} // namespace

FrameSet makeFrames(const std::vector<FrameChoice>& choices, const Skin& skin,
                    const std::vector<Plate>& plates, const std::vector<FitSolid>& solids,
                    const UnitStyle& units) {
    const KeptClear all = [&](const FrameChoice&) -> const std::vector<FitSolid>& { return solids; };
    return makeFramesClearOf(choices, skin, plates, all, units);
}

FrameSet makeFramesClearOf(const std::vector<FrameChoice>& choices, const Skin& skin,
                           const std::vector<Plate>& plates, const KeptClear& solids,
                           const UnitStyle& units) {
    FrameSet set;
    std::vector<FrameSet> told(choices.size());
    std::vector<std::vector<Polygon>> whole(choices.size());
    shareOut(choices.size(), [&](std::size_t i) {
        whole[i] = outlineOf(choices[i], skin, plates, solids(choices[i]), units, told[i]);
    });
    for (const FrameSet& own : told) {
        set.findings.insert(set.findings.end(), own.findings.begin(), own.findings.end());
        set.frames.insert(set.frames.end(), own.frames.begin(), own.frames.end());
    }
    const auto sound = frames::withSoundFits(choices, uncut(choices, whole), units, set.findings);
    auto parts = cutBoards(sound, whole, units, set);
    for (std::size_t i = 0; i < sound.size(); ++i) addParts(sound[i], std::move(parts[i]), set);
    markLaps(set);
    frames::checkFits(sound, units, set);
    tellFlatCrossings(sound, set);
    return set;
}

} // namespace slab
