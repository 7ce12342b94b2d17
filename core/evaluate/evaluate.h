#pragma once
// Project -> Evaluation, stage by stage, each remembered by the part of the project that it reads.
#include "core/base/job.h"
#include "core/body/skin.h"
#include "core/donor/donor.h"
#include "core/fit/fit.h"
#include "core/fit/floating.h"
#include "core/frames/cleats.h"
#include "core/frames/frames.h"
#include "core/mechanisms/mechanisms.h"
#include "core/mechanisms/sweep_worst.h"
#include "core/modules/modules.h"
#include "core/nesting/nest.h"
#include "core/picture/place.h"
#include "core/plates/plate.h"
#include "core/plates/seams.h"
#include "core/stock/stock.h"
#include "core/takeoff/takeoff.h"
#include "core/trial/trial.h"
#include <memory>
#include <optional>

namespace slab {

/// Everything that follows from one project. Plain values behind shared, immutable parts: cheap to copy and
/// to pass between threads.
struct Evaluation {
    std::uint64_t revision = 0; ///< of the history that it was made from
    double scale = 1;
    UnitStyle units;
    std::shared_ptr<const Scope> scope;
    std::shared_ptr<const Body> body;
    /// Shell, mechanisms' parts, frames, cleats, lids and strips, as shown.
    std::shared_ptr<const PlateSet> plates;
    std::shared_ptr<const std::vector<Panel>> panels; ///< pieces of those that were split
    std::shared_ptr<const MechanismSet> mechanisms;   ///< sweeps from Effort::verdict on
    std::shared_ptr<const FrameSet> frames; ///< not up to Effort::fitOnly: they keep clear by themselves
    std::shared_ptr<const CleatSet> cleats; ///< like the frames
    std::shared_ptr<const std::vector<SeamCut>> seams;
    std::shared_ptr<const ModuleSet> modules; ///< from Effort::verdict on
    std::shared_ptr<const DonorSet> donor;
    std::shared_ptr<const FitResult> fit;   ///< with the shell at rest
    std::shared_ptr<const FloatFit> afloat; ///< over all poses of a floating shell; null if nothing floats
    std::optional<WorstSwept> worst; ///< what moves against all but donor and rider; from the survey only
    std::shared_ptr<const StockSet> stock;
    std::shared_ptr<const NestProblem> nestProblem;
    std::shared_ptr<const NestResult> sheets;
    std::shared_ptr<const trial::Trial> trial;  ///< not at Effort::fitOnly; sight and wind from verdict on
    std::shared_ptr<const PictureSet> pictures; ///< null up to Effort::fitOnly
    Totals totals;
    std::vector<Finding> findings; ///< all stages, worst first, stable order
};

/// How far to go.
enum class Effort {
    windy,   ///< like survey, with wind, which takes long
    survey,  ///< like fitOnly, with what moves over its whole range (the scale survey)
    fitOnly, ///< like live, without sheets and totals
    live,    ///< planes and plates at once, boolean only if needed, convex distances, quick or reused layout
    verdict, ///< like live, with OpenCASCADE's verdict on the fit and the sweeps of mechanisms
    full     ///< joined again, OpenCASCADE's verdict, nested again
};

/// Remembers its stages; one per window or command. Not for two threads at once.
class Evaluator {
public:
    Evaluator();
    ~Evaluator();
    Evaluator(const Evaluator&) = delete;
    Evaluator& operator=(const Evaluator&) = delete;
    /// Runs the pipeline. A stopped run comes back partial (parts may be null): drop it.
    /// @param pictures  what readPictureFiles found beside the document; a file that is not listed was not
    /// looked for
    [[nodiscard]] Evaluation evaluate(const Project& project, Effort effort, std::uint64_t revision = 0,
                                      const Job& job = {}, const PictureFiles& pictures = {});

private:
    struct Memory;
    std::unique_ptr<Memory> m_memory;
};

/// Box of all that is built, as it is shown: the skin, plates, and what is bought and has a body of its own.
[[nodiscard]] Box3 builtBounds(const Evaluation& evaluation);

/// Panels larger than their sheet: those that were split, and those that found no place.
[[nodiscard]] int largerThanSheet(const std::vector<SeamCut>* seams, const NestResult* sheets);

/// Report of design.md §10; documented in resources/report.md.
[[nodiscard]] std::string reportJson(const Project& project, const Evaluation& evaluation);
[[nodiscard]] std::string reportText(const Project& project, const Evaluation& evaluation);

} // namespace slab
