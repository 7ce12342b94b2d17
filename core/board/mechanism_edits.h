#pragma once
// Turntables, trunnions, linkages and belts by hand: a start that works at once where the builder points,
// sized by the body, as rows of formulas that can be edited.
#include "core/board/board.h"
#include "core/document/edit.h"

namespace slab {

enum class MechanismKind { turntable, trunnion, linkage, belt };

/// What a click can put in.
struct MechanismWords {
    MechanismKind kind;
    std::string key;   ///< "turntable": the new one's name too
    std::string words; ///< one line for the builder
    std::string where; ///< what to click: "Click the deck that it stands on"
};
[[nodiscard]] const std::vector<MechanismWords>& mechanismWords();

/// A place that was pointed at.
struct MechanismSpot {
    Vec3 at = Vec3::Zero(); ///< body axes, mm at build size
    std::string on;         ///< plate or part of a mechanism there; empty = none
    bool operator==(const MechanismSpot&) const = default;
};
/// The place behind a point of an elevation: on the highest level plate there in plan; else on the level
/// plate that is nearest in height, over the middle of the body; without one in the middle of the body.
[[nodiscard]] MechanismSpot spotSeen(const Evaluation& evaluation, BoardView view, const Vec2& at);

/// What a new mechanism is made from.
struct MechanismStart {
    MechanismKind kind = MechanismKind::turntable;
    MechanismSpot spot;
    std::vector<std::string>
        wheels{};       ///< a belt's: round forms that lie across; none = two at the body's ends
    double step = 0;    ///< to which its place is rounded, see MoveOptions
    bool quick = false; ///< for a preview: how far a linkage may pitch is not found out
};
/// - Turntable: on the level plate pointed at, as large as half of the room there, its drum standing up.
/// - Trunnion: over a level plate, in the middle of a turntable that it then turns with, or behind an upright
///   plate that its tube goes through.
/// - Linkage: a hinge, with the pitch that donor, rider and ground leave free; beside a hinge a pin in a
/// slot.
/// - Belt: round the wheels, or on the side of the body that is pointed at; without a sheet that bends the
///   stock gets a card.
/// @param evaluation  of that project
/// @error "no-body"; "not-level", "no-room", "no-footing" (nothing there to stand on), "not-a-wheel",
/// "one-wheel"
[[nodiscard]] Expected<Edit> addMechanism(const Project& project, const Scope& scope,
                                          const Evaluation& evaluation, const MechanismStart& start);

/// Entry of the last mechanism of a kind: the one that addMechanism() has put in; empty = there is none.
[[nodiscard]] std::string newestMechanism(const Project& project, MechanismKind kind);

} // namespace slab
