#pragma once
#include "core/mechanisms/mechanisms.h"
#include "core/nesting/nest.h"
#include "core/plates/plate.h"
#include "core/stock/stock.h"
#include "core/takeoff/bars.h"

namespace slab {

struct StockLine {
    std::string stock;
    int used = 0, onHand = 0, buy = 0;
    double price = 0, cost = 0;
    double area = 0; ///< of panels, mm²
    double mass = 0; ///< kg
    bool operator==(const StockLine&) const = default;
};
struct Totals {
    int plates = 0;                      ///< of what is cut from sheets
    int panels = 0, sheets = 0, buy = 0; ///< buy: sheets
    double cost = 0;                     ///< with the timber
    double mass = 0;                     ///< shell, with its cleats, kg
    std::vector<std::string>
        unweighed{};        ///< sheets of no known density: what is cut from them is not in `mass`
    double cutLength = 0;   ///< mm
    double jointLength = 0; ///< mm, for adhesive
    double leastClearance = 0;
    double usedPercent = 0;
    std::vector<StockLine> stock;
    std::vector<BarLine> timber; ///< bought by length
    bool operator==(const Totals&) const = default;
};
[[nodiscard]] Totals takeOff(const PlateSet& plates, const std::vector<Panel>& panels, const StockSet& stock,
                             const NestProblem& problem, const NestResult& nested);
/// One note for each sheet that is cut and whose density nobody typed.
[[nodiscard]] std::vector<Finding> massFindings(const Totals& totals);
/// Adds the cleats' timber: cost, mass, lines. Strips cut from sheets are panels like others.
void addTimber(Totals& totals, const CleatSet& cleats, double kerf);
/// Panels and stock as a nesting problem: footprints, spacing = kerf / cos(bevel) + margin, rotations by
/// material.
[[nodiscard]] NestProblem nestProblemFor(const std::vector<Panel>& panels, const StockSet& stock);
/// Round forms alike, to be bought as pipe or turned.
struct RoundLine {
    std::vector<std::string> forms;
    std::string part;                        ///< what the builder named it; may be empty
    double outside = 0, top = 0, length = 0; ///< diameters at its two ends, mm
    double wall = 0;                         ///< mm; 0 = not given
    std::string nearest;                     ///< published pipe or tubing of that outside, "" if none is near
    double nearestOutside = 0;               ///< mm
    bool operator==(const RoundLine&) const = default;
};
/// In the order of the forms. The nearest published size is named where its outside differs by 3 % or 2 mm at
/// most.
[[nodiscard]] std::vector<RoundLine> roundLines(const std::vector<RoundPart>& rounds);
/// CSV (RFC 4180): item, size, need, on hand, buy, unit price, cost. Of timber the need is in bars. Round
/// forms and hardware have no price.
[[nodiscard]] std::string shoppingListCsv(const Totals& totals, const StockSet& stock, const UnitStyle& units,
                                          const std::vector<RoundLine>& rounds = {},
                                          const std::vector<HardwareLine>& hardware = {});

} // namespace slab
