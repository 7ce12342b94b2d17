#pragma once
// The pipeline at many scales, on two cores.
#include "core/survey/constraint_sources.h"
#include "core/survey/survey.h"
#include <array>

namespace slab {

/// What one scale tells.
struct SurveySample {
    double scale = 0;
    std::vector<ToldMargin> told;
    std::optional<ScaleSurvey::Step> step; ///< of a fresh layout, where it was asked for and the body stands
    bool sound = false;                    ///< the pipeline came through
    std::vector<std::string> stops;        ///< in words, where they were asked for: what no curve tells

    [[nodiscard]] FitState state() const;
    /// The constraint that fails worst; null where all that must holds.
    [[nodiscard]] const ToldMargin* worst() const;
    [[nodiscard]] const ToldMargin* find(const std::string& key) const;
};

struct ScaleToLookAt {
    double scale = 0;
    bool layout = false; ///< also laid out on sheets
    bool slow = false;   ///< also wind, and carried through passages: a search over orientations
    bool stops = false;  ///< also what else stops it
    bool operator==(const ScaleToLookAt&) const = default;
};

/// Two lanes, each with an Evaluator of its own, so that the result never depends on how many cores there
/// are: what is first asked for goes into the first lane, the next into the second, and so on.
class SurveySampler {
public:
    explicit SurveySampler(const Project& project);
    /// In the order asked for. Stopped: the rest is not sound.
    std::vector<SurveySample> at(const std::vector<ScaleToLookAt>& asked, const Job& job);
    [[nodiscard]] int evaluations() const { return m_evaluations; }

private:
    struct Lane {
        Project project;
        Evaluator evaluator;
    };
    static SurveySample look(Lane& lane, const ScaleToLookAt& asked, const Job& job);
    std::array<Lane, 2> m_lanes;
    int m_evaluations = 0;
};

/// In words, for a band: "donor/seat – hull/port", "school gate, across: hull/port".
[[nodiscard]] std::string bandBinding(const ToldMargin& told);

} // namespace slab
