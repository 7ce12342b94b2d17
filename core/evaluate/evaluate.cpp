#include "core/evaluate/evaluate.h"
#include "core/base/parallel.h"
#include "core/body/checks.h"
#include "core/body/moved_skin.h"
#include "core/evaluate/cutting.h"
#include "core/evaluate/fit_stage.h"
#include "core/evaluate/frames_stage.h"
#include "core/evaluate/ground.h"
#include "core/evaluate/keys.h"
#include "core/evaluate/mechanisms_stage.h"
#include "core/evaluate/owners.h"
#include "core/evaluate/remembered.h"
#include "core/evaluate/stages.h"
#include "core/evaluate/trial_stage.h"
#include "core/frames/barred.h"
#include "core/lines/lines.h"
#include "core/plates/build.h"
#include "core/stock/round_stock.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab {

namespace {

void append(std::vector<Finding>& all, const std::vector<Finding>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

MayMerge mergeRule(const Materials& materials) {
    return [materials](const std::string& a, const std::string& b) {
        return stockFor(materials, a) == stockFor(materials, b);
    };
}

/// Rounds of the search at rest. One takes about the square of the parts, so that many parts get fewer.
int roundsFor(const NestProblem& problem) {
    constexpr double most = 24, fullTo = 100;
    double parts = 1;
    for (const NestPart& part : problem.parts) parts += part.copies;
    return static_cast<int>(std::clamp(most * std::pow(fullTo / parts, 2), 1.0, most));
}

} // namespace

struct Evaluator::Memory {
    Remembered<UnitFormsKey, ResolvedForms> unitForms;
    template <class Key>
    struct Joined {
        Remembered<Key, Body> skin;
        bool moved = false; ///< the remembered skin was moved, not joined
    };
    Joined<UnitSkinKey> unitSkin;
    Joined<SkinKey> skin;
    Remembered<PlatesKey, PlateSet> plates;
    std::optional<PlatesKey> sharedFor; ///< of `plates`, with the rules as they were before mechanisms
    Remembered<CuttingKey, Cutting> cutting;
    Remembered<ModulesKey, ModuleSet> modules;
    Remembered<StockKey, StockSet> stock;
    JoinMemory joins;
    Materials joinedFor; ///< whose faces `joins` merged
    Remembered<PicturesKey, PictureSet> pictures;
    MechanismStage mechanisms;
    FrameStage frames;
    FitStage fits;
    TrialStage trials;
    std::shared_ptr<const PlateSet> beforeCleats; ///< the last evaluation's plates with frames' boards
    std::shared_ptr<const PlateSet> cut;          ///< the last evaluation's plates before anything is turned

    struct Layout {
        NestProblem problem;
        std::string seed;
        Effort effort = Effort::live;
        std::shared_ptr<const NestResult> result;
    };
    std::optional<Layout> settled; ///< the last fully nested one
    std::optional<Layout> shown;   ///< the last one shown

    /// Forms to panels. @return false when stopped; what is half made is forgotten
    bool shape(const Project& project, Evaluation& e, Effort effort, std::vector<Finding>& found,
               const Job& job);
    /// Mechanisms, and plates with the openings that they ask for, which are added to the rules.
    void makeShell(const Project& project, Evaluation& e, PlateRules& rules, const Job& job);
    /// Hatches, strips, panels and their seams.
    void layOut(const Project& project, Evaluation& e, const PlateRules& rules, std::vector<Finding>& found);
    /// Panels to fit, sheets and totals.
    void use(const Project& project, Evaluation& e, Effort effort, std::vector<Finding>& found,
             const Job& job);
    std::shared_ptr<const Body> body(const Project& project, const ResolvedForms& forms, Effort effort,
                                     const Job& job);
    template <class Key>
    const std::shared_ptr<const Body>& join(Joined<Key>& joined, Key key, const ResolvedForms& forms,
                                            const Project& project, const Job& job);
    std::shared_ptr<const NestResult> nestFor(const Project& project, const NestProblem& problem,
                                              Effort effort, const Job& job);
};

/// A skin that was moved while a point was dragged is joined again at rest, so that a dragged and a freshly
/// opened document agree to the bit.
template <class Key>
const std::shared_ptr<const Body>& Evaluator::Memory::join(Joined<Key>& joined, Key key,
                                                           const ResolvedForms& forms, const Project& project,
                                                           const Job& job) {
    if (!joins.follow && joined.moved && joined.skin.holds(key)) joined.skin.forget();
    return joined.skin.get(std::move(key), [&] {
        joins.followed = false;
        Body body = joinForms(forms, mergeRule(project.materials), project.pieces, job, joins);
        joined.moved = joins.followed;
        return body;
    });
}

std::shared_ptr<const Body> Evaluator::Memory::body(const Project& project, const ResolvedForms& forms,
                                                    Effort effort, const Job& job) {
    const bool scales =
        std::all_of(forms.solids.begin(), forms.solids.end(), [](const FormSolid& s) { return s.scales; });
    if (joinedFor != project.materials) joins.forget();
    joinedFor = project.materials;
    joins.follow = effort <= Effort::live;
    if (!scales) return join(skin, {forms, project.materials, project.pieces}, forms, project, job);

    // Always joined at scale 1 and then rescaled, so that a dragged and a freshly opened document agree to
    // the bit.
    const auto& unit = unitForms.get({project.forms, project.dimensions, project.units}, [&] {
        std::vector<Finding> ignored;
        return resolveForms(project, resolveScope(project, 1, ignored));
    });
    const auto before = unitSkin.skin.value();
    const auto& joined =
        join(unitSkin, {unit->solids, project.materials, project.pieces}, *unit, project, job);
    if (joined != before) skin.skin.forget();
    return skin.skin.get({forms, project.materials, project.pieces},
                         [&] { return rescaled(*joined, 1, forms); });
}

std::shared_ptr<const NestResult> Evaluator::Memory::nestFor(const Project& project,
                                                             const NestProblem& problem, Effort effort,
                                                             const Job& job) {
    NestOptions options;
    const auto seed = parseRatio(project.seed);
    options.seed = seed && *seed > 0 ? static_cast<std::uint64_t>(*seed) : 1;
    const auto same = [&](const std::optional<Layout>& l) {
        return l && l->problem == problem && l->seed == project.seed;
    };
    if (same(settled)) return settled->result;
    if (effort < Effort::full) {
        if (same(shown)) return shown->result;
        auto quick = shown ? follow(problem, shown->problem, *shown->result, options, job)
                           : nest(problem, options, job);
        quick.provisional = true;
        shown = Layout{problem, project.seed, effort, std::make_shared<const NestResult>(std::move(quick))};
        return shown->result;
    }
    // Rounds, not seconds: the same project and seed give the same layout on any machine.
    options.rounds = roundsFor(problem);
    options.threads = 2;
    auto best = std::make_shared<const NestResult>(nest(problem, options, job));
    if (job.stopped()) return best;
    settled = shown = Layout{problem, project.seed, effort, best};
    return best;
}

Evaluator::Evaluator() : m_memory(std::make_unique<Memory>()) {}
Evaluator::~Evaluator() = default;

Evaluation Evaluator::evaluate(const Project& project, Effort effort, std::uint64_t revision, const Job& job,
                               const PictureFiles& pictures) {
    Evaluation e;
    e.revision = revision;
    e.units = unitStyleOf(project.units);
    std::vector<Finding> found;
    if (m_memory->shape(project, e, effort, found, job)) m_memory->use(project, e, effort, found, job);
    if (effort > Effort::fitOnly && e.scope) {
        e.pictures = m_memory->pictures.get({project.pictures, project.donor.kind, *e.scope, pictures},
                                            [&] { return placePictures(project, *e.scope, pictures); });
        append(found, e.pictures->findings);
    }
    e.findings = sortedFindings(inOwnersWords(std::move(found), project));
    job.report(1);
    return e;
}

bool Evaluator::Memory::shape(const Project& project, Evaluation& e, Effort effort,
                              std::vector<Finding>& found, const Job& job) {
    const auto scale = readScale(project.scale);
    if (!scale) found.push_back(findingOf(scale.error()));
    e.scale = scale ? *scale : 1;
    e.scope = std::make_shared<const Scope>(resolveScope(project, e.scale, found));

    const ResolvedForms forms = resolveForms(project, *e.scope);
    append(found, forms.findings);
    e.body = body(project, forms, effort, job);
    append(found, e.body->findings);
    append(found, lineFindings(project, *e.scope));
    if (job.stopped()) {
        unitSkin.skin.forget();
        skin.skin.forget();
        return false;
    }
    job.report(0.15);
    e.stock = stock.get({project.stock, *e.scope}, [&] { return resolveStock(project, *e.scope); });
    append(found, e.stock->findings);
    append(found, resolveRoundStock(project, *e.scope).findings);
    PlateRules rules = resolveRules(project, *e.scope, *e.body, found);
    makeShell(project, e, rules, job);
    append(found, e.plates->findings);
    if (job.stopped()) {
        plates.forget();
        return false;
    }
    e.plates = mechanisms.joined(e.plates, e.mechanisms);
    e.donor = fits.placed(project, e);
    if (effort > Effort::fitOnly) {
        e.frames = frames.made(project, e, rules.openings);
        append(found, e.frames->findings);
        e.mechanisms = frames.carried(e.mechanisms, e.frames);
        e.plates = frames.joined(e.plates, e.frames);
        e.cleats = frames.cleats(project, e);
        append(found, e.cleats->findings);
        beforeCleats = e.plates;
        e.plates = frames.joined(e.plates, e.cleats);
    }
    append(found, namedTwice(*e.plates));
    layOut(project, e, rules, found);
    append(found, groundFindings(project, e));
    job.report(0.3);
    return true;
}

void Evaluator::Memory::makeShell(const Project& project, Evaluation& e, PlateRules& rules, const Job& job) {
    PlatesKey bare{e.body, rules};
    PlateBuild build(*e.body, rules);
    // What plates take from each other does not wait for the mechanisms' openings.
    const bool early = sharedFor != bare;
    const std::array<std::function<void()>, 2> both{
        [&] { e.mechanisms = mechanisms.made(project, e, rules); },
        [&] {
            if (early) build.share(job);
        }};
    shareOut(both.size(), [&](std::size_t i) { both[i](); });
    rules.openings.insert(rules.openings.end(), e.mechanisms->openings.begin(), e.mechanisms->openings.end());
    e.plates = plates.get({e.body, rules}, [&] {
        if (!early) build.share(job);
        return build.finish(job);
    });
    sharedFor = std::move(bare);
}

void Evaluator::Memory::layOut(const Project& project, Evaluation& e, const PlateRules& rules,
                               std::vector<Finding>& found) {
    const CuttingKey key{e.plates,
                         e.stock,
                         resolveSeams(project, *e.scope, found),
                         resolveUses(project, *e.scope, rules, found),
                         e.body->rounds,
                         rules.units};
    const auto& made = cutting.get(key, [&] { return cutPanels(key); });
    cut = made->plates;
    e.plates = mechanisms.shown(cut, e.mechanisms);
    e.panels = made->panels;
    e.seams = made->seams;
    append(found, made->findings);
    append(found, cutFindings(project, *e.panels));
}

void Evaluator::Memory::use(const Project& project, Evaluation& e, Effort effort, std::vector<Finding>& found,
                            const Job& job) {
    append(found, e.donor->findings);
    const NestProblem problem = nestProblemFor(*e.panels, *e.stock);
    const auto judge = [&] {
        e.fit = fits.atRest(project, e, effort, job);
        e.afloat = fits.afloat(project, e);
        if (effort > Effort::fitOnly) e.mechanisms = mechanisms.swept(e.mechanisms, cut, e, effort, job);
        if (effort <= Effort::survey) e.worst = MechanismStage::worst(e, *cut, job);
        if (job.stopped()) return;
        e.fit = effort <= Effort::survey ? fits.moving(e, cut, job) : fits.whole(e, cut, effort, job);
        e.fit = fits.serviced(e, effort);
        if (effort != Effort::fitOnly) e.afloat = fits.allAfloat(project, e, *cut, effort, job);
    };
    const auto nestAll = [&] {
        if (effort > Effort::fitOnly) e.sheets = nestFor(project, problem, effort, job);
    };
    std::vector<Finding> narrow, barred;
    const auto lookAtBoards = [&] {
        if (e.frames) narrow = frames.narrow(e);
    };
    const auto lookBehindOpenings = [&] {
        if (!e.frames || e.frames->parts.empty()) return;
        UnitStyle words = e.units;
        words.decimals = 1;
        barred = barredFindings(project, beforeCleats->plates, *e.frames, words);
    };
    const auto tryOut = [&] {
        if (effort != Effort::fitOnly) e.trial = trials.tried(project, e, effort);
    };
    const std::array<std::function<void()>, 5> live{nestAll, judge, tryOut, lookAtBoards, lookBehindOpenings};
    if (effort == Effort::live) // while the hand moves; at rest each of them has both cores to itself
        shareOut(live.size(), [&](std::size_t i) { live[i](); });
    else {
        judge();
        tryOut();
        lookAtBoards();
        lookBehindOpenings();
    }
    append(found, barred);
    append(found, narrow);
    append(found, toldOnce(e.fit->findings, e.mechanisms->findings));
    if (e.afloat) append(found, e.afloat->findings);
    append(found, e.mechanisms->findings);
    if (e.trial) append(found, e.trial->findings);
    if (effort <= Effort::fitOnly) return;
    if (effort >= Effort::verdict) { // a search over orientations is too slow while the hand moves
        const ModulesKey groups{e.plates,
                                e.stock,
                                boughtParts(*e.mechanisms, *e.body),
                                project.modules,
                                resolvePassages(project, *e.scope, found),
                                e.units};
        e.modules = modules.get(groups, [&] {
            return measureModules({*e.plates, *e.stock, groups.bought}, groups.modules, groups.passages,
                                  groups.units);
        });
        append(found, e.modules->findings);
        nestAll();
    }
    e.nestProblem = std::make_shared<const NestProblem>(problem);
    // At a scale that cannot be read everything is worked out at full size: too large is no news then.
    if (readScale(project.scale)) append(found, nestFindings(problem, *e.sheets));
    e.totals = takeOff(*e.plates, *e.panels, *e.stock, problem, *e.sheets);
    append(found, massFindings(e.totals));
    addTimber(e.totals, *e.cleats, e.stock->kerf);
    e.totals.leastClearance = e.fit->leastClearance;
    for (const SeamCut& seam : *e.seams)
        e.totals.jointLength += seam.length * static_cast<double>(seam.plates.size());
    if (e.afloat && !e.afloat->pairs.empty())
        e.totals.leastClearance = std::min(e.totals.leastClearance, e.afloat->leastClearance);
}

} // namespace slab
