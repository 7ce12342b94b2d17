#pragma once
// Where a round feature comes out as something that can be bought or is in the shed.
#include "core/evaluate/evaluate.h"
#include "core/stock/round_stock.h"

namespace slab {

/// A round feature and how its outside follows the scale.
struct RoundFeature {
    std::string name;  ///< "form:funnel", "turntable:hub", "trunnion:monitor"
    std::string words; ///< "funnel", "drum of hub", "tube of monitor"
    std::string about; ///< as findings point at it
    Text diameter;
    Space space = Space::subject; ///< of a plain number in it
    int count = 1;                ///< features of that very diameter; the first gives the name
    bool operator==(const RoundFeature&) const = default;
};
/// Round forms of one diameter (no cones), drums and tubes of the document, in its order; forms whose
/// diameter is typed alike are one feature.
[[nodiscard]] std::vector<RoundFeature> roundFeatures(const Project& project);

/// One feature at the scale where its outside is that of a stock part.
struct StockMatch {
    double scale = 0; ///< where it is the same
    double from = 0,
           to = 0;       ///< scales at which it differs by the tolerance at most, within the range looked at
    std::string feature; ///< RoundFeature::name
    std::string words;   ///< RoundFeature::words
    std::string part;    ///< "4 in pipe", "carpet tube"
    double outside = 0;  ///< of the part, mm
    bool inShed = false; ///< some of it is on hand
    bool operator==(const StockMatch&) const = default;
};

struct StockMatches {
    std::vector<StockMatch> matches; ///< rising in scale, then by feature
    /// Features that are the same at every scale and are a stock part: no scale does better than another.
    std::vector<StockMatch> always;
    double tolerance = 0; ///< mm
    bool operator==(const StockMatches&) const = default;
};

/// Exact where a diameter is a straight function of the scale, which is looked at in many places; else by
/// bisection between those, to the last digit.
[[nodiscard]] StockMatches stockMatches(const Project& project, double from, double to);

} // namespace slab
