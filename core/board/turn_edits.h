#pragma once
// Turning what a mechanism carries by hand: its angle as shown, within its stops, as an edit.
#include "core/board/moves.h"
#include "core/mechanisms/motion.h"

namespace slab {

/// A formula of an angle whose value is `change` greater, radians. A literal becomes a new literal in
/// degrees; a trailing "+ 12 deg" is changed, and dropped when it becomes nothing; anything else gets one
/// added.
/// @param step  radians to which what is written is rounded; 0 = exact
/// @error what evaluate() says of `text`
[[nodiscard]] Expected<Text> shiftedAngle(const Text& text, double change, const Scope& scope,
                                          double step = 0);

/// One turn of a moving part as it stands now.
struct TurnNow {
    std::string mechanism;                        ///< turntable or trunnion whose angle it is
    Vec3 at = Vec3::Zero(), axis = Vec3::UnitZ(); ///< as shown
    double from = 0, to = 0, shown = 0;           ///< radians
    bool endless = false;
    std::string words; ///< "turned", "raised"
    bool operator==(const TurnNow&) const = default;
};
/// The turns that a motion is made of, its own first, each about its axis as it stands now. What slides, and
/// what is no turntable's or trunnion's, is left out.
[[nodiscard]] std::vector<TurnNow> turnsOf(const Project& project, const Motion& motion);

/// The angle as shown, turned on; it stops at the stops.
/// @error "no-such-place"; what evaluate() says of its formula
[[nodiscard]] Expected<Edit> turnMechanism(const Project& project, const Scope& scope, const TurnNow& turn,
                                           double change, double step, const std::string& gesture = {});

} // namespace slab
