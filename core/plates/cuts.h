#pragma once
// Openings and round forms as convex cutters.
#include "core/plates/cell.h"
#include "core/plates/plate.h"
#include "core/plates/prism_cut.h"
#include "core/plates/shell.h"
#include "core/plates/walls.h"
#include <functional>

namespace slab::plates {

/// A prism around an axis, as convex pieces. One opening may need several pieces.
struct Cutter {
    std::vector<Prism> pieces;
};

/// Prism of `outline` (u, v around `origin`) along `direction`.
[[nodiscard]] Cutter prismCutter(PlaneTable& planes, const Ring& outline, const Frame& at,
                                 const Vec3& direction, const std::string& name, Walls& walls);
/// Takes the cutter out of the cells. @return the volume taken, mm³
double cut(const PlaneTable& planes, Cells& cells, const Cutter& cutter);

/// A plate to be cut.
struct CutTarget {
    PlaneTable& planes;
    Cells& cells;
    Walls& walls;
    std::string name; ///< of the plate
    Half outer;
    double thickness = 0;
    const std::vector<std::string>* aliases = nullptr;             ///< other sides merged into it
    std::function<void(const std::string&, const Cutter&)> told{}; ///< hears of each cutter and its opening
    /// A builder may mean it by its own name or by that of a merged side.
    [[nodiscard]] bool is(const std::string& pattern) const;
};

/// Cuts every opening and round form in one plate; counts in `hits` which of them cut it (openings first,
/// then rounds).
void cutPlate(const CutTarget& target, const Body& body, const PlateRules& rules, std::vector<int>& hits,
              std::vector<Finding>& findings);
/// The same for the plates of one closed skin.
void cutOpenings(Shell& shell, std::vector<int>& hits);

/// Least distance between two rings' edges, mm.
[[nodiscard]] double ringDistance(const Ring& a, const Ring& b);
/// Findings for openings that miss.
void checkOpenings(const Body& body, const PlateRules& rules, const std::vector<int>& hits, PlateSet& set);

} // namespace slab::plates
