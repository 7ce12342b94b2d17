#pragma once
// Ribs and bulkheads: boards cut from the inside section of the shell, clear of donor and rider, lightened,
// and slotted into each other where they cross.
#include "core/donor/donor.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"
#include <optional>

namespace slab {

/// An opening of the document that is cut in a frame's board.
struct FrameOpening {
    std::string name;
    Ring outline;        ///< counter-clockwise; about `at` or, where that is none, in the frame's u and v
    bool hosted = false; ///< placed from the middle of the board's outline
    Vec2 at = Vec2::Zero();
    bool operator==(const FrameOpening&) const = default;
};
/// A frame as figures.
struct FrameChoice {
    std::string name;
    Frame place; ///< w = normal of the board's middle plane, v as nearly up as can be
    std::string stock;
    double thickness = 0;
    double gap = 0;                  ///< to the plates, mm
    double web = 0;                  ///< left round the lightening hole, mm; 0 = a whole board
    std::optional<double> clearance; ///< to donor and rider; nothing = each solid's own
    double fit = 0;                  ///< a slot is this much wider than the board in it
    bool soft = false;               ///< foam or card: gives where it is pressed
    int index = 0;                   ///< in the document's list
    std::vector<FrameOpening> openings{};
    bool operator==(const FrameChoice&) const = default;
};

/// Two boards that go into each other by half-lap slots.
struct FrameCrossing {
    std::string a, b;                ///< frames; a is slotted from above (along `along`), b from below
    std::string boardA{}, boardB{};  ///< their boards: "frames/rib#2"; empty if what held the slot is scrap
    Vec3 at = Vec3::Zero();          ///< middle of the lap
    Vec3 along = Vec3::UnitZ();      ///< in which they slide together, unit vector
    double angle = 0;                ///< between the boards, radians, at most a right angle
    double height = 0;               ///< of the lap, mm; of all together where more than two share it
    double slotA = 0, slotB = 0;     ///< widths, mm; see slotWidth()
    double depthA = 0, depthB = 0;   ///< from each board's own edge, mm; both end in the middle of the lap
    double beforeA = 0, beforeB = 0; ///< of that, before the lap begins, mm
    /// Frames that cross along this line where there are more than two, the lowest first: each keeps an equal
    /// part of the height, and its slots are cut for all of them.
    std::vector<std::string> sharing{};
    double apart = 0; ///< between the ends of the two slots, where others of the sharing lie; `at` is between
    /// A stretch that would bar the way: one board is cut through there and stands against the other.
    struct Through {
        std::string frame;
        Vec3 at = Vec3::Zero();
        double height = 0; ///< mm
        bool operator==(const Through&) const = default;
    };
    std::vector<Through> through{};
    bool operator==(const FrameCrossing&) const = default;
};

/// Width of a slot with square walls that lets a board through at an angle: on the boards' cross-section the
/// other one, `fit` more than its thickness, takes (other + fit) / sin(angle) of the own plane, and its slant
/// own / tan(angle) more through the own thickness. The slot is widened by that; its walls are not bevelled.
/// @param angle  between the boards, radians, in (0, pi / 2]
[[nodiscard]] double slotWidth(double other, double own, double angle, double fit);

struct FrameFact {
    std::string name;
    double section = 0; ///< area of the inside section less the gap, before donor and lightening, mm²
    double area = 0;    ///< of what is cut, mm²
    int parts = 0;
    int leftOut = 0; ///< pieces that go together with the others in no order
    double web = 0;  ///< as chosen, mm
    bool operator==(const FrameFact&) const = default;
};

/// One board's turn when the frames are put together.
struct FrameStep {
    std::string board, frame;        ///< "frames/rib#2", "rib"
    Vec3 from = Vec3::UnitZ();       ///< where it comes from, straight to its place: unit vector
    std::vector<std::string> onto{}; ///< boards that stand and that it laps with, in the order of the laps
    bool operator==(const FrameStep&) const = default;
};

struct FrameSet {
    PlateList parts; ///< "frames/bulkhead", "frames/bulkhead#2"; match marks of the laps from 1 on
    std::vector<FrameFact> frames;
    std::vector<FrameCrossing> crossings;
    std::vector<FrameStep> order; ///< as the boards go together; none meets on its way what stands
    /// Boards that stand in a body that moves, and with which motion (index in MechanismSet::motions).
    std::vector<std::pair<std::string, int>> carried;
    std::vector<Finding> findings;
    bool operator==(const FrameSet&) const = default;
};

/// Reads the document's frames; one that cannot be made gives a finding and is left out.
[[nodiscard]] std::vector<FrameChoice> resolveFrames(const Project& project, const Scope& scope,
                                                     const StockSet& stock, std::vector<Finding>& findings);

/// The openings of the document that name a frame ("frames/rib") as their plate, or among the plates that one
/// with a direction is limited to, as the frames' boards have them.
void addOpenings(std::vector<FrameChoice>& choices, const std::vector<ResolvedOpening>& openings);

/// Boards for all frames. Everywhere: no volume in common with any plate or with each other; donor and rider
/// stay clear by what is wanted. Where two cross, each is slotted to the middle of the stretch that both have
/// there, the first in the list from above where nothing speaks against it, so that the later one slides down
/// onto it. A frame that donor and rider cut in pieces is put together piece by piece, each from where all
/// its laps let it in. Where both a lap and another stretch would bar each other, the other stretch is cut
/// through, with a finding. A board is not lightened over its full height beside a slot, on either side by as
/// much as its web.
/// @param plates  the shell's
[[nodiscard]] FrameSet makeFrames(const std::vector<FrameChoice>& choices, const Skin& skin,
                                  const PlateList& plates, const std::vector<FitSolid>& solids,
                                  const UnitStyle& units = {});

} // namespace slab
