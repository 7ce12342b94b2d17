#pragma once
// Timber that is bought by length: how the sticks are cut from bars.
#include "core/frames/cleats.h"

namespace slab {

/// One bar of timber and the pieces sawn from it.
struct BarCut {
    std::vector<double> lengths; ///< longest first, mm
    double left = 0;             ///< behind the last cut, mm
    bool operator==(const BarCut&) const = default;
};
/// Bars of one cross-section.
struct BarLine {
    double width = 0, depth = 0; ///< mm
    double barLength = 0;        ///< as sold, mm
    int pieces = 0;
    double length = 0;   ///< of all pieces together, mm
    double withKerf = 0; ///< and of a saw cut for each, mm
    std::vector<BarCut> bars;
    double price = 0, cost = 0; ///< of one bar, of all
    double mass = 0;            ///< of the pieces as planed, kg
    bool operator==(const BarLine&) const = default;
};

/// Pieces on the fewest bars that the search finds: longest first into the first bar with room, then, where
/// that is more than the sum of lengths needs, a search over other ways within a fixed number of steps.
/// Between two pieces a saw cut is lost. Same lengths, same bars.
/// @param lengths  each > 0 and at most `barLength` (longer ones get a bar of their own), mm
/// @source  first-fit decreasing: at most 11/9 of the least and 6/9 of a bar (Dósa 2007)
[[nodiscard]] std::vector<BarCut> cutBars(std::vector<double> lengths, double barLength, double kerf);

/// "985 mm + 3 x 60 mm"
[[nodiscard]] std::string piecesOf(const BarCut& bar, const UnitStyle& units);

/// The timber of all lines, by cross-section and bar.
[[nodiscard]] std::vector<BarLine> barLines(const CleatSet& cleats, double kerf);

/// CSV (RFC 4180), a row for each line of the cut list: count, length, section, angle of the planed corner,
/// what it is cut from, plates, match mark of the joint.
[[nodiscard]] std::string cleatListCsv(const CleatSet& cleats, const UnitStyle& units);

} // namespace slab
