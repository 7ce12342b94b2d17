#pragma once
// What a builder can change about a mechanism by one figure, as a change of everything that is swept.
#include "core/mechanisms/sweep_pairs.h"

namespace slab::mechanisms {

/// A change by a figure x that grows from 0.
struct Change {
    enum class Kind {
        shift, ///< all that the carrier carries, with it, by x along `way`
        stand, ///< the plates that a turntable carries up by x, on a packing
        aside, ///< both halves of a mirrored mechanism by x along `way` and its mirror image
        pivot, ///< a trunnion's pivot up by x
        front, ///< a trunnion's tube shorter by x ahead of its pivot
        rear,  ///< … behind it
        depth, ///< a drum that hangs from its lip less deep by x
    };
    Kind kind = Kind::shift;
    std::string mechanism; ///< whose value it is: the carrier, or a trunnion on it
    Vec3 way = Vec3::Zero();
    bool operator==(const Change&) const = default;
};

/// A field after a change.
struct Changed {
    SweepField field;
    std::vector<char> things; ///< 1 = this thing, or how it moves, is another; 2 = it only grew smaller
    bool asOne = false; ///< all that changed only went along together: what is between them is as before
};

/// A trunnion among the things of one carrier.
struct TrunnionThings {
    std::string name;
    std::size_t tube = 0;
    int motion = -1;
};
[[nodiscard]] std::vector<TrunnionThings> trunnionsOn(const SweepField& field, const std::string& carrier);

/// The turn of a turntable about its upright axis; null for what is none.
[[nodiscard]] const Move* uprightTurn(const SweepField& field, const std::string& carrier);

/// Whether a plate has an opening that a mechanism of the carrier needs: the opening goes where that goes.
[[nodiscard]] bool openedFor(const SweepField& field, const Thing& plate, const std::string& carrier);

/// The changes that make sense for a carrier.
[[nodiscard]] std::vector<Change> changesOf(const SweepField& field, const std::string& carrier);
/// @return nothing if it cannot be changed so far: nothing is left of a tube or a drum, or it leaves its deck
///         or the ground
[[nodiscard]] std::optional<Changed> changed(const SweepField& field, const std::string& carrier,
                                             const Change& change, double x);
/// The same with other ends of one move, wherever it occurs.
[[nodiscard]] Changed withRange(const SweepField& field, const Move& move, double from, double to);

} // namespace slab::mechanisms
