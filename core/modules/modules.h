#pragma once
// Groups of plates and bought parts that come off as one: size, mass, what holds them, and what they pass.
#include "core/mechanisms/bought.h"
#include "core/modules/extent.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// An opening on the way, as figures.
struct PassageSize {
    std::string name;
    double width = 0, height = 0; ///< mm
    bool operator==(const PassageSize&) const = default;
};

/// How a module goes through one of them.
struct ModulePassing {
    std::string passage;
    Passing way;
    [[nodiscard]] bool passes() const { return way.margin >= 0; }
    bool operator==(const ModulePassing&) const = default;
};

struct ModuleInfo {
    std::string name;                ///< "" = what no module takes, when there are modules, or the whole body
    std::vector<std::string> plates; ///< strips, lids and the like go with the plate that has them
    std::vector<std::string> bought; ///< drums, tubes, weights, wheels, round forms
    std::vector<std::string> unweighed; ///< of `bought` and of sheets, what has no known mass: not in `mass`
    Box3 bounds;                        ///< as it stands, body axes; of all of it
    LeastBox box;                       ///< in its best orientation
    double mass = 0;                    ///< kg
    Vec3 centre = Vec3::Zero();         ///< of mass, body axes
    std::vector<std::pair<std::string, std::string>> ties; ///< joints that hold it: own plate, the other
    std::vector<ModulePassing> passings;
    bool operator==(const ModuleInfo&) const = default;
};
struct ModuleSet {
    std::vector<ModuleInfo> modules; ///< in document order; what is left comes last
    std::vector<Finding> findings;
    bool operator==(const ModuleSet&) const = default;
};

/// What the modules are made of, as it is shown.
struct ModuleStuff {
    const PlateSet& plates;
    const StockSet& stock;
    std::vector<BoughtPart> bought = {};
};
/// Measures every module and what is left, and tries each in every passage. A module comes off if its border
/// cuts open joints only: standing forms touch without a joint. A bought part goes with the module that names
/// it or its mechanism or form; else with the plates of its mechanism, else with what carries that.
/// @param modules  names and plate patterns; the first that matches takes a plate
[[nodiscard]] ModuleSet measureModules(const ModuleStuff& stuff, const std::vector<Module>& modules,
                                       const std::vector<PassageSize>& passages, const UnitStyle& units = {});

/// Reads the passages' formulas. @return those that have a size; the others give a finding
[[nodiscard]] std::vector<PassageSize> resolvePassages(const Project& project, const Scope& scope,
                                                       std::vector<Finding>& findings);

/// Middle of a closed solid, body axes.
/// @source  divergence theorem over the triangles of its faces
[[nodiscard]] Vec3 centreOf(const Polyhedron& solid);

} // namespace slab
