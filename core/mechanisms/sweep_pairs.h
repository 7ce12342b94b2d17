#pragma once
// Which of the things that move and stand are compared, how they move past each other, and what is wanted.
#include "core/mechanisms/sweep_things.h"
#include <map>
#include <optional>
#include <set>

namespace slab::mechanisms {

constexpr double enoughShort = 1e-6; ///< a clearance short by less is enough, mm (as in fit)

/// All things of a document with how they move.
struct SweepField {
    std::vector<Thing> things;
    std::vector<Motion> motions;                             ///< as MechanismSet::motions
    std::vector<CarriedPlates> carried;                      ///< as MechanismSet::carried
    std::set<std::pair<std::string, std::string>> joined;    ///< plates that a joint holds together
    std::vector<std::pair<std::string, std::string>> opened; ///< plate, and the mechanism it is opened for

    std::vector<std::pair<std::string, std::string>> ownForms{}; ///< as MechanismSet::ownForms

    /// Of each round solid that is hollow, by name: does a thing keep outside of it?
    std::map<std::string, std::vector<char>> outside{};

    [[nodiscard]] const Motion& motionOf(const Thing& t) const;
    /// The mechanism whose move carries a thing last: a turntable for all that stands on it.
    [[nodiscard]] std::string carrierOf(const Thing& t) const;
    /// Pairs that are looked at: each moving pair once, and not what is made to touch.
    [[nodiscard]] bool compared(std::size_t i, std::size_t j) const;
    /// What comes between the two; a drum is round, so that what it carries sees no turn of it.
    [[nodiscard]] Motion between(const Thing& a, const Thing& b) const;
    /// Clearance wanted; what only turns with a table runs past its rings with their own clearance, whatever
    /// a tube that it holds needs.
    [[nodiscard]] double wantedOf(const Thing& a, const Thing& b) const;
    /// A hollow solid is looked at whole by what keeps outside of it, and in staves by all else.
    [[nodiscard]] bool concerns(const Thing& solid, std::size_t other) const;
    /// The same solid whole; nothing of what is no staves.
    [[nodiscard]] std::optional<std::size_t> wholeOf(std::size_t staves) const;
};

[[nodiscard]] SweepField fieldOf(const MechanismSet& set, const PlateSet& plates,
                                 const std::vector<FitSolid>& solids);

[[nodiscard]] inline bool ownedByMechanism(const Thing& t) {
    return t.kind == Thing::Kind::part || t.kind == Thing::Kind::solid;
}
/// Parts that stand still are only told when they stand in a plate by more than `touching`: rings lie on
/// their deck.
[[nodiscard]] bool onlyOverlap(const Thing& a, const Thing& b, const Motion& between);
constexpr double touching = 0.1; ///< parts that stand in a plate by less lie on it, mm
/// Plates and parts that stand still to each other: their clearance is for the fit to tell.
[[nodiscard]] bool toldByFit(const Thing& a, const Thing& b, const Motion& between);

/// The turn that brings the `from`th thing onto the `to`th, where both are parts of one kind that turn round
/// and round with one mechanism, and are looked at against the same things, all of them turning past with the
/// same turn; nothing if they are not alike.
[[nodiscard]] std::optional<double> turnFrom(const SweepField& field, std::size_t from, std::size_t to);

/// Lower bound of the clearance, from the rings that both keep to or from their boxes where nothing moves,
/// mm.
[[nodiscard]] double leastBetween(const Thing& a, const Thing& b, const Motion& between);
/// The pieces of both that this bound leaves within `wanted` (mm) of any of the other.
[[nodiscard]] std::pair<std::vector<ConvexSolid>, std::vector<ConvexSolid>>
piecesWithin(const Thing& a, const Thing& b, const Motion& between, double wanted);

} // namespace slab::mechanisms
