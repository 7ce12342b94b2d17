#pragma once
// While a point is dragged, the joined skin keeps its structure most of the time: then its corners are met
// again from the moved planes, which gives the same skin as joining anew and takes a hundredth of the time.
#include "core/body/join_events.h"
#include "core/body/skin.h"
#include "core/geometry/occt.h"
#include <deque>

namespace slab {

/// Unions that were joined lately, to be followed while their solids move.
class JoinMemory {
public:
    bool follow = true;    ///< false: always join (and remember), as at rest
    bool followed = false; ///< a union was moved instead of joined since this was last set to false

    /// The union of the solids, from a remembered one of the same structure; nothing if there is none, or
    /// where that cannot be told for certain.
    [[nodiscard]] std::optional<occt::Fused> moved(const std::vector<Polyhedron>& solids);
    /// @param fused  comes back with the planes and corners that moving it would give
    void remember(const std::vector<Polyhedron>& solids, occt::Fused& fused);
    void forget() { m_unions.clear(); }

private:
    struct Union {
        std::vector<Polyhedron> solids;
        occt::Fused fused;
        std::vector<bool> flush; ///< which neighbours lie in one plane
        JoinEvents events;
        std::vector<int> eventOf;  ///< for each corner of `fused`
        std::vector<double> turns; ///< for each border edge of each face, in order: see turnsOf()
    };
    std::deque<Union> m_unions; ///< latest first
};

/// The same as joinForms() of skin.h, with unions that keep their structure moved. Faces are in the order
/// that they had when they were joined.
[[nodiscard]] Body joinForms(const ResolvedForms& forms, const MayMerge& mayMerge,
                             const std::vector<PieceKey>& keys, const Job& job, JoinMemory& memory);

} // namespace slab
