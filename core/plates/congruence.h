#pragma once
// Are two panels the same cutting part?
#include "core/plates/plate.h"
#include <optional>

namespace slab::plates {

/// Length of a closed ring, mm.
[[nodiscard]] double lengthRound(const Ring& ring);

/// What is cut, for comparing: every loop with its bevels, in plain order.
struct Shape {
    struct Loop {
        Ring outer, inner;
        std::vector<double> bevels; ///< by outer edge
        std::vector<char> folds;
    };
    /// Line of a fold of a blank.
    struct Fold {
        Vec2 from = Vec2::Zero(), to = Vec2::Zero();
        bool valley = false;
        double angle = 0;
    };
    double thickness = 0;
    std::vector<Loop> loops;   ///< boundary first
    std::vector<double> areas; ///< of the loops' outer rings, least first, mm²
    double round = 0;          ///< length of the longest ring, mm
    std::vector<Fold> lines;
    std::vector<Vec2> centres;     ///< of the parts of a blank
    std::vector<GuideLine> guides; ///< without words
};
/// @param mirror  reflected in the panel's v axis, as the other hand would look
[[nodiscard]] Shape shapeOf(const Panel& panel, bool mirror);
/// A turn in the plane about `from`, which then lies on `to`.
struct Turn {
    double c = 1, s = 0; ///< cosine and sine
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    [[nodiscard]] Vec2 operator()(const Vec2& p) const {
        const Vec2 d = p - from;
        return to + Vec2(c * d.x() - s * d.y(), s * d.x() + c * d.y());
    }
};
/// How loops of one shape fall on those of another.
struct Match {
    struct Loop {
        std::size_t from = 0;  ///< loop of a
        std::size_t shift = 0; ///< its edge i falls on edge i + shift of b's loop
    };
    std::vector<Loop> loops;        ///< by the loops of b
    std::vector<std::size_t> parts; ///< of blanks, by the parts of b: the part of a that falls on it
    Turn turn{};                    ///< of a onto b
};
/// The same after turning and moving in the plane, within 0.01 mm and 0.01°. Nothing if they are not.
[[nodiscard]] std::optional<Match> congruent(const Shape& a, const Shape& b);

} // namespace slab::plates
