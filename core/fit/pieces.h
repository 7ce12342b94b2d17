#pragma once
// Solids against the convex pieces of plates: what live fit and best place share.
#include "core/fit/fit.h"
#include "core/geometry/convex_core.h"
#include <optional>

namespace slab {

/// All convex pieces of all plates with their boxes. They learn as they are compared: one set to a thread.
class Pieces {
public:
    explicit Pieces(const PlateSet& plates);

    struct Piece {
        Prepared shape;
        Box3 box;
        int plate;
    };
    [[nodiscard]] std::vector<Piece>& all() { return m_pieces; }

private:
    std::vector<ConvexSolid> m_made; ///< hulls of plates that came without pieces
    std::vector<Piece> m_pieces;
};

/// Least distance between two boxes, mm; 0 when they meet.
[[nodiscard]] double boxDistance(const Box3& a, const Box3& b);

/// Pairs of one solid: every plate nearer than its clearance, and at least the nearest; in plate order.
/// @param within  plates farther than this and than the clearance are not looked at, mm
[[nodiscard]] std::vector<FitPair> pairsOf(const FitSolid& solid, Pieces& pieces, const PlateSet& plates,
                                           double within = 1e300);
/// Least margin of one solid, as pairsOf would give it, moved by `shift`; `floor` lets it stop early once
/// below.
/// @param home  the solid where it stands, for what does not change with its place
[[nodiscard]] double leastMarginOf(const FitSolid& solid, Prepared& home, Pieces& pieces, const Vec3& shift,
                                   double floor);

/// Totals and findings from the pairs.
void summarise(FitResult& fit, const std::vector<FitSolid>& solids, const PlateSet& plates,
               const FitWords& words);

/// What can be done about a pair, in words.
/// @param solid  may be null
[[nodiscard]] std::string remedyOf(const FitPair& pair, const FitSolid* solid, const PlateSet& plates,
                                   const FitWords& words);

/// Boxes round everything; nothing round nothing. @param group  "" = all solids
[[nodiscard]] std::optional<Box3> boundsOf(const PlateSet& plates);
[[nodiscard]] std::optional<Box3> boundsOf(const std::vector<FitSolid>& solids,
                                           const std::string& group = {});

/// Marks and tells what stands wholly outside the body's plan.
void checkOutside(FitResult& fit, const std::vector<FitSolid>& solids, const PlateSet& plates,
                  const UnitStyle& style);

/// Meeting by less than this is touching, and a clearance short by less than this is enough, mm.
inline constexpr double touchDepth = 1e-6;
/// State of a pair that is apart.
[[nodiscard]] inline FitState apartState(double clearance, double wanted) {
    return clearance < wanted - touchDepth ? FitState::tight : FitState::fits;
}

} // namespace slab
