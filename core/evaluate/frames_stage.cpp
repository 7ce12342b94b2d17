#include "core/evaluate/frames_stage.h"
#include "core/evaluate/swept_room.h"
#include "core/frames/carried.h"
#include "core/frames/slot_margins.h"
#include "core/mechanisms/shown.h"
#include "core/plates/lap_strips.h"
#include <compare>
#include <map>

namespace slab {

namespace {

/// Donor, rider, round forms, and what moves over its whole range where these boards may be.
std::vector<FitSolid> keptClearOf(const Evaluation& e, const std::vector<FrameChoice>& boards) {
    std::vector<FitSolid> solids = e.donor->solids;
    for (const RoundPart& round : shownRounds(*e.mechanisms, e.body->rounds))
        if (round.top != round.base)
            solids.push_back({round.name, "form", shapeOf(round), round.gap, false, {}});
    for (FitSolid& s : sweptRoom(*e.mechanisms, boards, e.body->skin)) solids.push_back(std::move(s));
    return solids;
}
/// How a frame goes: its boards, of which the document may name some, are cut from one outline.
struct Carried {
    int motion = -1;    ///< index in MechanismSet::motions; -1 = none of its boards moves
    bool stands = true; ///< one that is not named stands still
    auto operator<=>(const Carried&) const = default;
};
Carried carriedOf(const MechanismSet& mechanisms, const FrameChoice& frame) {
    constexpr int mostBoards = 9; // that are looked for by name
    const CarriedPlates* whole = carriedWith(mechanisms, "frames/" + frame.name);
    Carried out{whole ? whole->motion : -1, !whole};
    for (int n = 2; n <= mostBoards; ++n) {
        const CarriedPlates* board =
            carriedWith(mechanisms, "frames/" + frame.name + "#" + std::to_string(n));
        if (!board) continue;
        if (out.motion < 0) out.motion = board->motion;
    }
    return out;
}

/// The same for frames that one turn carries, as they see it.
std::vector<FitSolid> keptClearAlong(int carrier, const Evaluation& e,
                                     const std::vector<FrameChoice>& boards) {
    std::vector<FitSolid> still = e.donor->solids, along;
    for (const RoundPart& round : e.body->rounds) {
        if (round.top == round.base) continue;
        const CarriedPlates* carried = carriedWith(*e.mechanisms, round.name);
        const bool same = carried && carried->motion == carrier;
        (same ? along : still).push_back({round.name, "form", shapeOf(round), round.gap, false, {}});
    }
    for (FitSolid& s : sweptRoomSeenFrom(carrier, *e.mechanisms, still, boards, e.body->skin))
        along.push_back(std::move(s));
    return along;
}

/// What each frame stays clear of, by how it goes.
std::map<Carried, std::vector<FitSolid>> keptClearByCarrier(const Evaluation& e,
                                                            const std::vector<FrameChoice>& choices) {
    std::map<Carried, std::vector<FrameChoice>> boards;
    for (const FrameChoice& c : choices) boards[carriedOf(*e.mechanisms, c)].push_back(c);
    std::map<Carried, std::vector<FitSolid>> out;
    for (const auto& [carried, those] : boards) {
        if (carried.stands) out[carried] = keptClearOf(e, those);
        if (carried.motion < 0) continue;
        for (FitSolid& s : keptClearAlong(carried.motion, e, those)) out[carried].push_back(std::move(s));
    }
    return out;
}

/// Cleats on plates that stand keep clear of every pose; those on plates that move, of what is beside them as
/// everything stands with its moves at 0.
CleatRoom roomForCleats(const DonorSet& donor, const MechanismSet& mechanisms) {
    CleatRoom room{donor.solids, donor.solids,
                   [&](const std::string& plate) { return carriedWith(mechanisms, plate) != nullptr; }};
    for (FitSolid& s : sweptRoom(mechanisms)) room.solids.push_back(std::move(s));
    for (const MovingSolid& s : mechanisms.solids)
        room.carried.push_back({s.name, s.mechanism, s.shape, s.wanted, true, {}});
    return room;
}

} // namespace

std::shared_ptr<const FrameSet> FrameStage::made(const Project& project, const Evaluation& e,
                                                 const std::vector<ResolvedOpening>& openings) {
    Key key{{}, {}, e.body, e.plates, e.donor, e.mechanisms, e.units};
    key.units.decimals = 1;
    key.choices = resolveFrames(project, *e.scope, *e.stock, key.findings);
    addOpenings(key.choices, openings);
    for (const ResolvedOpening& o : openings) // that frame is not there
        if (isForFrames(o) && std::none_of(key.choices.begin(), key.choices.end(), [&](const FrameChoice& c) {
                return std::any_of(c.openings.begin(), c.openings.end(),
                                   [&](const FrameOpening& own) { return own.name == o.name; });
            }))
            key.findings.push_back({Severity::look,
                                    "opening-misses",
                                    "Opening " + o.name + " cuts no frame.",
                                    {"opening:" + o.name},
                                    "Correct the frame's name, or turn the opening's direction to the board.",
                                    {}});
    return m_made.get(key, [&] {
        const auto clear = keptClearByCarrier(e, key.choices);
        const KeptClear of = [&](const FrameChoice& c) -> const std::vector<FitSolid>& {
            return clear.at(carriedOf(*e.mechanisms, c));
        };
        FrameSet set = makeFramesClearOf(key.choices, e.body->skin, e.plates->plates, of, key.units);
        set.findings.insert(set.findings.begin(), key.findings.begin(), key.findings.end());
        return set;
    });
}

std::vector<Finding> FrameStage::narrow(const Evaluation& e) {
    NarrowKey key{e.frames, e.stock, e.units};
    key.units.decimals = 1;
    return *m_narrow.get(key, [&] { return hornFindings(*key.frames, *key.stock, key.units); });
}

std::shared_ptr<const PlateSet> FrameStage::joined(const std::shared_ptr<const PlateSet>& plates,
                                                   const std::shared_ptr<const FrameSet>& made) {
    if (made->parts.empty()) return plates;
    return m_joined.get({plates, made}, [&] {
        PlateSet set = *plates;
        const int last = slab::plates::highestMark(*plates); // marks of the laps go on from there
        for (Plate part : made->parts) {
            for (PanelEdge& e : part.boundary.edges)
                if (e.mark > 0) e.mark += last;
            for (PanelLoop& hole : part.holes)
                for (PanelEdge& e : hole.edges)
                    if (e.mark > 0) e.mark += last;
            set.plates.push_back(std::move(part));
        }
        return set;
    });
}

std::shared_ptr<const CleatSet> FrameStage::cleats(const Project& project, const Evaluation& e) {
    CleatKey key{{}, {}, e.plates, e.donor, e.mechanisms, e.units};
    key.choices = resolveCleats(project, *e.scope, *e.stock, key.findings);
    return m_cleats.get(key, [&] {
        const auto room = key.choices.empty() ? CleatRoom{} : roomForCleats(*e.donor, *e.mechanisms);
        CleatSet set = makeCleats(key.choices, *e.plates, room, key.units);
        set.findings.insert(set.findings.begin(), key.findings.begin(), key.findings.end());
        return set;
    });
}

std::shared_ptr<const PlateSet> FrameStage::joined(const std::shared_ptr<const PlateSet>& plates,
                                                   const std::shared_ptr<const CleatSet>& cleats) {
    if (cleats->parts.empty()) return plates;
    return m_withCleats.get({plates, cleats}, [&] { return withCleats(*plates, *cleats); });
}

} // namespace slab
