#pragma once
// Moving parts: what a turntable, a trunnion, a floating linkage or an endless belt is made of, how it moves,
// and how near it comes to anything. resolveMechanisms() makes plates, hardware and openings; once the plates
// are built, sweepMechanisms() moves everything through its whole range.
#include "core/donor/donor.h"
#include "core/mechanisms/bought.h"
#include "core/mechanisms/float_range.h"
#include "core/mechanisms/motion.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// What a part does in its mechanism, whatever it is called.
struct PartRole {
    enum class Kind {
        other,
        ring,    ///< of those that capture a drum
        lip,     ///< of a drum
        drum,    ///< its wall, or all of a found one
        drumEnd, ///< the plate that closes it
        tube,
        cheek, ///< holds a tube's pivot
        bracket,
        strip, ///< of a belt
        wheel
    };
    Kind kind = Kind::other;
    bool starboard = false; ///< of the starboard one of two mirrored halves
    bool operator==(const PartRole&) const = default;
};

/// Something to buy or find for a mechanism.
struct HardwareLine {
    std::string mechanism;
    std::string item; ///< in words: "wood screw", "pivot bolt with two washers and a lock nut"
    int count = 1;
    double size = 0; ///< mm: diameter or length, as `item` says; 0 = none
    std::string note;
    bool operator==(const HardwareLine&) const = default;
};

/// A convex part that moves, for pictures and sweeps. Pieces of one part have one name.
struct MovingSolid {
    std::string mechanism;
    std::string name;  ///< "monitor/tube"
    ConvexSolid shape; ///< body axes, with every move at 0
    int motion = -1;   ///< index in MechanismSet::motions; -1 = does not move
    bool swept = true; ///< compared with everything else; false: only drawn (what its own checks cover)
    double wanted = 0; ///< clearance to plates and other mechanisms, mm; donor and rider have their own
    bool drawn = true; ///< false: other solids or plates are drawn in its place
    /// What it is compared with. Of a hollow round solid: plates = what stands still and keeps outside of it
    /// (it is whole, a cylinder); people = donor, rider and all else, which may be within (it is in staves).
    enum class Meets { all, plates, people };
    Meets meets = Meets::all;
    PartRole role{};
    bool operator==(const MovingSolid&) const = default;
};

/// Plates of the shell that move with a mechanism.
struct CarriedPlates {
    std::string mechanism;
    std::vector<std::string> patterns;
    int motion = -1;   ///< index in MechanismSet::motions
    double wanted = 0; ///< clearance to other plates and mechanisms, mm
    bool operator==(const CarriedPlates&) const = default;
};

/// A figure worth telling, in the order that the builder needs them.
struct MechanismFact {
    /// mm, radians, kg, N m, plain; fine: mm to a hundredth, for what is marked off many times in a row
    enum class Unit { length, angle, mass, moment, number, fine };
    std::string mechanism;
    std::string key;   ///< stable, for the report: "radial_play"
    std::string words; ///< "Play to each side"
    double value = 0;
    Unit unit = Unit::length;
    bool operator==(const MechanismFact&) const = default;
};

/// Least clearance of one moving thing to one other over the whole range of motion.
struct SweptCheck {
    std::string mechanism;
    std::string moving;     ///< plate, or MovingSolid
    std::string fixed;      ///< plate, donor or rider solid, or MovingSolid of another mechanism
    double clearance = 0;   ///< mm; when they meet, minus the least way out
    double bound = 0;       ///< proven: it is nowhere less than this, mm
    double wanted = 0;      ///< mm
    std::vector<double> at; ///< values of the motion's moves there (radians or mm)
    std::string pose;       ///< the same in words: "turned 143.0°"
    Vec3 onMoving = Vec3::Zero(), onFixed = Vec3::Zero(); ///< nearest points there
    bool inPlace = false; ///< as drawn they meet, or are too near where they meet nowhere
    /// Values of the only move (radians or mm), to about half a degree, in which they meet, and in which they
    /// are nearer than wanted; none of several moves. The second is left out where they meet in place: no
    /// stops help.
    std::vector<std::pair<double, double>> meetsIn, nearIn;
    bool operator==(const SweptCheck&) const = default;
};

struct MechanismSet {
    PlateList parts; ///< as they stand with every move at 0; a part that moves is named in `carried`
    std::vector<PartRole> roles; ///< one per part
    std::vector<HardwareLine> hardware;
    std::vector<Motion> motions;
    std::vector<MovingSolid> solids;
    std::vector<BoughtPart> bought;
    std::vector<CarriedPlates> carried;
    std::vector<std::pair<std::string, std::string>> ownForms; ///< mechanism, round form that is a part of it
    std::vector<ResolvedOpening> openings; ///< holes and slots that they need, for PlateRules::openings
    FloatRange floating;                   ///< how the whole shell floats on its chassis, by the linkages
    std::vector<MechanismFact> facts;
    std::vector<SweptCheck> checks; ///< by sweepMechanisms(): what is nearer than wanted, and the nearest
    std::vector<Finding> findings;
    bool operator==(const MechanismSet&) const = default;
};

/// One more part with its role.
void addPart(MechanismSet& set, Plate part, PartRole role);

/// What every kind of mechanism is made from.
struct MechanismInput {
    const Project& project;
    const Scope& scope;
    const StockSet& stock;
    const Body& body;        ///< the skin that openings are cut in
    const PlateRules& rules; ///< thicknesses of its plates
    UnitStyle units;         ///< for messages
};

/// All mechanisms of the document that are not off: parts, hardware, motions, openings, facts. What cannot be
/// made is a finding, and the rest goes on.
[[nodiscard]] MechanismSet resolveMechanisms(const MechanismInput& in);

/// One kind each, added to `set`.
void addTurntables(const MechanismInput& in, MechanismSet& set);
void addTrunnions(const MechanismInput& in, MechanismSet& set);
void addLinkages(const MechanismInput& in, MechanismSet& set);
void addBelts(const MechanismInput& in, MechanismSet& set);

/// Moves everything through its range against donor, rider and plates (those of the shell with the
/// mechanisms' own) and fills `checks`; each that is nearer than wanted is a finding.
[[nodiscard]] MechanismSet sweepMechanisms(MechanismSet set, const PlateSet& plates,
                                           const std::vector<FitSolid>& solids, const UnitStyle& units,
                                           const Job& job = {});

/// The same plates with what is carried as it is shown (frames, solids and cells moved; outlines stay).
[[nodiscard]] PlateSet posed(PlateSet plates, const MechanismSet& set);

/// A part that is no plate, as it is shown; for pictures.
struct ShownSolid {
    std::string mechanism, name;
    Polyhedron solid; ///< its pieces beside each other, round ones in facets
};
[[nodiscard]] std::vector<ShownSolid> shownSolids(const MechanismSet& set);

/// What is built that is no plate, as it is shown: what is bought or found for the mechanisms, and round
/// forms.
[[nodiscard]] std::vector<BoughtPart> boughtParts(const MechanismSet& set, const Body& body);

} // namespace slab
