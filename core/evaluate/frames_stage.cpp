#include "core/evaluate/frames_stage.h"
#include "core/evaluate/swept_room.h"
#include "core/frames/carried.h"
#include "core/frames/slot_margins.h"
#include "core/mechanisms/shown.h"
#include "core/plates/lap_strips.h"
#include <algorithm>

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

/// The same for frames that one turn carries, as they see it: plates that do not go along move past as well.
std::vector<FitSolid> keptClearAlong(int carrier, const Evaluation& e,
                                     const std::vector<FrameChoice>& boards) {
    std::vector<FitSolid> still = e.donor->solids, along;
    const auto& motions = e.mechanisms->motions;
    for (const RoundPart& round : e.body->rounds) {
        if (round.top == round.base) continue;
        const CarriedPlates* carried = carriedWith(*e.mechanisms, round.name);
        const bool same = carried && carried->motion == carrier;
        (same ? along : still).push_back({round.name, "form", shapeOf(round), round.gap, false, {}});
    }
    double gap = 0; // to other plates
    for (const CarriedPlates& c : e.mechanisms->carried)
        if (c.motion == carrier) gap = std::max(gap, c.wanted);
    MechanismSet past = *e.mechanisms;
    for (const Plate& plate : e.plates->plates) {
        const CarriedPlates* carried = carriedWith(*e.mechanisms, plate.name);
        const int motion = carried ? carried->motion : -1;
        if (motion == carrier ||
            (motion < 0 && plate.form == motions[static_cast<std::size_t>(carrier)].mechanism))
            continue;
        for (const ConvexSolid& cell : plate.cells) {
            MovingSolid moving{plate.form, plate.name, cell, motion};
            moving.wanted = gap;
            past.solids.push_back(std::move(moving));
        }
    }
    for (FitSolid& s : sweptRoomSeenFrom(carrier, past, still, boards, e.body->skin))
        along.push_back(std::move(s));
    return along;
}

/// What the document says of a frame's boards: a name without a number is of all of them.
FrameCarrying::Named namedOf(const MechanismSet& mechanisms, const FrameChoice& frame) {
    const std::string name = "frames/" + frame.name;
    if (const CarriedPlates* whole = carriedWith(mechanisms, name)) return {{whole->motion}, true};
    FrameCarrying::Named named;
    for (const CarriedPlates& c : mechanisms.carried)
        if (std::any_of(c.patterns.begin(), c.patterns.end(),
                        [&](const std::string& pattern) { return pattern.starts_with(name + "#"); }))
            named.motions.push_back(c.motion);
    return named;
}

FrameCarrying carryingOf(const Evaluation& e) {
    FrameCarrying carrying;
    carrying.plate = [&e](const std::string& plate) {
        const CarriedPlates* carried = carriedWith(*e.mechanisms, plate);
        return carried ? carried->motion : -1;
    };
    carrying.named = [&e](const FrameChoice& c) { return namedOf(*e.mechanisms, c); };
    carrying.clear = [&e](int motion, const std::vector<FrameChoice>& boards) {
        return motion < 0 ? keptClearOf(e, boards) : keptClearAlong(motion, e, boards);
    };
    return carrying;
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
        FrameSet set =
            makeFramesClearOf(key.choices, e.body->skin, e.plates->plates, carryingOf(e), key.units);
        set.findings.insert(set.findings.begin(), key.findings.begin(), key.findings.end());
        return set;
    });
}

std::shared_ptr<const MechanismSet> FrameStage::carried(const std::shared_ptr<const MechanismSet>& mechanisms,
                                                        const std::shared_ptr<const FrameSet>& made) {
    if (made->carried.empty()) return mechanisms;
    return m_carried.get({mechanisms, made}, [&] {
        MechanismSet set = *mechanisms;
        for (const auto& [board, motion] : made->carried) {
            if (carriedWith(*mechanisms, board)) continue; // the document says what moves it
            for (CarriedPlates& c : set.carried)
                if (c.motion == motion) {
                    c.patterns.push_back(board);
                    break;
                }
        }
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
        for (std::size_t i = 0; i < made->parts.size(); ++i)
            slab::plates::addBehindMark(set, made->parts, i, last);
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
