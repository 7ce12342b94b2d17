#pragma once
// In which order, and from where, boards that are slotted into each other go together.
#include "core/frames/frames.h"

namespace slab::frames {

/// A board, or what is to become one, at its place.
struct Piece {
    const FrameChoice* choice = nullptr;
    std::vector<Polygon> regions; ///< in the choice's u and v; none = it is not there
};

/// Line in which the middle planes of two boards meet, pointing up where it can.
struct Meeting {
    Vec3 at = Vec3::Zero(), along = Vec3::UnitZ();
    double sine = 0; ///< of the angle between the boards
};
/// @return nothing where they cross too flat for a half lap, below 10°
[[nodiscard]] std::optional<Meeting> meetingOf(const FrameChoice& a, const FrameChoice& b);

/// Do two directions count as one? Within 1e-4: 0.05 mm over a lap of 500 mm.
[[nodiscard]] bool oneWay(const Vec3& a, const Vec3& b);

/// Does a piece, moved straight to its place from far away, meet another that stands? Exact for boards with
/// square edges; overlaps narrower than 0.01 mm do not count, nor does what a press fit pushes aside.
/// @param from  where it comes from: a unit vector in its own plane, or square to it
[[nodiscard]] bool barsWay(const Piece& stands, const Piece& moves, const Vec3& from);
/// Do two pieces have room in common where they stand? The same tolerances.
[[nodiscard]] bool standsIn(const Piece& a, const Piece& b);

/// A piece and the unit vector to where it comes from.
struct Way {
    std::size_t piece = 0;
    Vec3 from = Vec3::UnitZ();
};
struct Assembly {
    std::vector<Way> order;          ///< of those that go together, as they do, the first ones first
    std::vector<std::size_t> locked; ///< those that hold each other: none of them comes out of the others
};
/// The order in which pieces go together one by one, each along a straight line past those that stand. Where
/// there is a choice they go in from above, and the earlier in the list first.
///
/// It is found the other way round, by taking out what comes out. That never loses an order: what is taken
/// out bars no way any more.
[[nodiscard]] Assembly assemblyOf(const std::vector<Piece>& pieces);

/// Remembers who bars whose way, for pieces that stay as they are.
class Ways {
public:
    explicit Ways(const std::vector<Piece>& pieces);
    /// Directions from which a piece may come, the handier ones first: above, along its laps, other.
    [[nodiscard]] const std::vector<Vec3>& of(std::size_t piece) const { return m_ways[piece]; }
    /// Handiness of a way, 0 for the handiest.
    [[nodiscard]] int rank(std::size_t piece, std::size_t way) const { return m_ranks[piece][way]; }
    /// Two that meet though they cross too flat for a lap never bar each other: that is told by itself.
    [[nodiscard]] bool barred(std::size_t piece, std::size_t way, std::size_t by);
    [[nodiscard]] std::size_t count() const { return m_pieces->size(); }

private:
    void add(std::size_t piece, const Vec3& from, int rank);
    const std::vector<Piece>* m_pieces;
    std::vector<std::vector<Vec3>> m_ways;
    std::vector<std::vector<int>> m_ranks;
    std::vector<std::vector<signed char>> m_known; ///< by piece and way, then who bars it; -1 = not asked yet
    std::vector<std::size_t> m_first;              ///< of a piece's ways in m_known
};

} // namespace slab::frames
