#pragma once
// The scale survey: what holds at which scale, where round features are stock parts, what the sheets cost,
// and the scale that is advised.
#include "core/survey/constraint.h"
#include "core/survey/matches.h"
#include "core/survey/squeeze.h"

namespace slab {

/// A stretch of scales at which everything holds that must.
struct FeasibleBand {
    double from = 0, to = 0;
    /// What ends it at either side, in words: "below 0.38 the joystick hand meets hull/port". Empty where the
    /// range looked at ends.
    std::string below, above;
    bool operator==(const FeasibleBand&) const = default;
};

/// The scale that is advised, or why there is none.
struct ScalePick {
    std::optional<double> scale;
    /// For the pick what speaks for it, one line each; without a pick what stands in the way and by how much.
    std::vector<std::string> reasons;
    double nearest = 0; ///< without a pick: the scale at which the least is missing
    std::vector<Squeeze>
        stretches; ///< without a pick: one direction alone with which all that must would hold
    bool operator==(const ScalePick&) const = default;
};

/// What the scale ruler and the plot show.
struct ScaleSurvey {
    double from = 0, to = 0;
    /// Everything that must hold, whichever is worst; none without donor and rider, route or ride.
    std::vector<FitBand> bands;
    struct Step {
        double scale = 0; ///< from here on
        int sheets = 0;   ///< for the panels that fit on one
        int tooLarge = 0; ///< panels that no sheet holds, split or not
        double cost = 0;  ///< of the sheets that are to be bought
        bool operator==(const Step&) const = default;
    };
    std::vector<Step> sheetSteps;
    /// Where the first band that fits begins; nothing when none fits, or when it begins with the range and
    /// may go on below it.
    std::optional<double> leastFitting;
    std::vector<Constraint> constraints; ///< as Sources (constraint_sources.h) tell them
    std::vector<FeasibleBand> feasible;
    StockMatches stock;
    ScalePick pick;
    std::string currency;
    int evaluations = 0; ///< of the whole pipeline, that it took
    bool operator==(const ScaleSurvey&) const = default;
};

/// @param from, to  scales, 0 < from <= to
/// Edges of bands are found to `surveyTolerance`, the first panel that outgrows its sheet to a thousandth of
/// the range. Stopped: what is known by then. The same result on any number of cores.
[[nodiscard]] ScaleSurvey surveyScale(const Project& project, double from, double to, const Job& job = {});

inline constexpr double surveyTolerance = 5e-5;
/// Stretches of equal length that the range is looked at in first; layouts are made at their ends alone.
inline constexpr int surveyCells = 24;

/// A layout that was searched for longer may need fewer sheets than the survey's quick ones: so do all
/// smaller scales then, and this one up to the next scale that was laid out.
/// @param cost  of what it buys; below 0 = not known
void learnLayout(ScaleSurvey& survey, double scale, int sheets, double cost = -1);

} // namespace slab
