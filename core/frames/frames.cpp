#include "core/frames/frames.h"
#include "core/base/parallel.h"
#include "core/frames/outlines.h"
#include "core/frames/put_together.h"
#include "core/frames/slot_fit.h"
#include "core/geometry/round_offset.h"
#include "core/plates/flat_part.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace slab {

namespace {

constexpr double cornerRadius = 15; ///< mm, inside corners of lightening holes (common practice: round them)

/// The holes that lighten a board: what lies further than the web from every edge and outside of `keep`,
/// with round corners.
std::vector<Polygon> lightening(const std::vector<Polygon>& regions, double web,
                                const std::vector<Polygon>& keep) {
    auto deep = roundOffset(regions, -(web + cornerRadius));
    if (!keep.empty()) deep = subtract(deep, roundOffset(unite(keep), cornerRadius));
    std::vector<Polygon> holes;
    for (const Polygon& p : roundOffset(deep, cornerRadius))
        if (area(p) > frames::leastPiece) holes.push_back(p);
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

/// The boards of one frame, largest first.
/// @param told  takes findings
std::vector<frames::MadeBoard> boardsOf(const FrameChoice& c, const std::vector<Polygon>& cut, FrameSet& told,
                                        const UnitStyle& units) {
    std::vector<Polygon> regions = frames::withoutScrap(c, cut, "its slots leave", told, units);
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
    for (std::size_t k = 0; k < set.parts.size(); ++k) {
        if (set.parts[k].name != board) continue;
        Plate& plate = set.parts.own(k);
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
                frames::tell(set, choices[i], Severity::stop, "frame-meets",
                             "it lies too flat to frame " + choices[k].name +
                                 ", which it meets, for a half lap",
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

/// Motions that boards of a frame may move with where they stand in a body that moves so: what the document
/// says, and that. -1 = stands.
std::set<int> motionsOf(const FrameChoice& c, int carrier, const FrameCarrying& carrying) {
    const FrameCarrying::Named named = carrying.named(c);
    std::set<int> motions(named.motions.begin(), named.motions.end());
    if (!named.all) motions.insert(carrier);
    return motions;
}

/// Outlines of all frames before slots.
std::vector<std::vector<Polygon>> outlinesOf(const std::vector<FrameChoice>& choices,
                                             const std::vector<frames::Room>& rooms,
                                             const FrameCarrying& carrying, const UnitStyle& units,
                                             FrameSet& set) {
    std::map<int, std::vector<FrameChoice>> boards; // by motion
    for (std::size_t i = 0; i < choices.size(); ++i) {
        std::set<int> motions;
        for (const frames::Room::Part& part : rooms[i].parts)
            motions.merge(motionsOf(choices[i], part.carrier, carrying));
        for (const int motion : motions) boards[motion].push_back(choices[i]);
    }
    std::map<int, std::vector<FitSolid>> clear;
    for (const auto& [motion, those] : boards) clear[motion] = carrying.clear(motion, those);

    std::vector<FrameSet> told(choices.size());
    std::vector<std::vector<Polygon>> whole(choices.size());
    shareOut(choices.size(), [&](std::size_t i) {
        const auto of = [&](int carrier) {
            std::vector<const std::vector<FitSolid>*> lists;
            for (const int motion : motionsOf(choices[i], carrier, carrying))
                lists.push_back(&clear.at(motion));
            return lists;
        };
        whole[i] = frames::outlineOf(choices[i], rooms[i], of, units, told[i]);
    });
    for (const FrameSet& own : told) {
        set.findings.insert(set.findings.end(), own.findings.begin(), own.findings.end());
        set.frames.insert(set.frames.end(), own.frames.begin(), own.frames.end());
    }
    return whole;
}

} // namespace

FrameSet makeFrames(const std::vector<FrameChoice>& choices, const Skin& skin, const PlateList& plates,
                    const std::vector<FitSolid>& solids, const UnitStyle& units) {
    FrameCarrying standing;
    standing.clear = [&](int, const std::vector<FrameChoice>&) { return solids; };
    return makeFramesClearOf(choices, skin, plates, standing, units);
}

FrameSet makeFramesClearOf(const std::vector<FrameChoice>& choices, const Skin& skin, const PlateList& plates,
                           const FrameCarrying& carrying, const UnitStyle& units) {
    FrameSet set;
    std::vector<frames::Room> rooms(choices.size());
    shareOut(choices.size(),
             [&](std::size_t i) { rooms[i] = frames::roomOf(choices[i], skin, plates, carrying.plate); });
    const auto whole = outlinesOf(choices, rooms, carrying, units, set);
    const auto sound = frames::withSoundFits(choices, uncut(choices, whole), units, set.findings);
    auto parts = cutBoards(sound, whole, units, set);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        for (const frames::MadeBoard& board : parts[i])
            if (const int motion = rooms[i].carrierOf(board.piece.regions.front()); motion >= 0)
                set.carried.emplace_back(board.name, motion);
        addParts(sound[i], std::move(parts[i]), set);
    }
    markLaps(set);
    frames::checkFits(sound, units, set);
    tellFlatCrossings(sound, set);
    return set;
}

} // namespace slab
