#include "core/nesting/construct.h"
#include "core/base/index.h"
#include "core/nesting/store.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

/// Where the reference point may stand; nothing if the part is too large.
std::optional<Window> windowOf(const Task& task, const Filled& filled, const Oriented& o) {
    const double eps = task.library.eps;
    double x0 = 0, x1 = 0, y0 = 0, y1 = 0;
    if (task.problem.strip > 0) {
        x1 = filled.reach + (o.box.maxX - o.box.minX); // one more part always fits behind the others
        y1 = task.problem.strip;
    } else {
        const NestSheet& s = task.problem.sheets[at(filled.sheet)];
        x0 = y0 = s.trim;
        x1 = s.length - s.trim;
        y1 = s.width - s.trim;
    }
    Window w{x0 - o.box.minX, x1 - o.box.maxX, y0 - o.box.minY, y1 - o.box.maxY};
    if (w.x1 < w.x0 - eps || w.y1 < w.y0 - eps) return std::nullopt;
    w.x1 = std::max(w.x1, w.x0);
    w.y1 = std::max(w.y1, w.y0);
    return w;
}

Pull pullOf(const Recipe& recipe) {
    if (recipe.across) return {{recipe.tilt, 1}, {1, 0}};
    return {{1, recipe.tilt}, {0, 1}};
}

/// Far, near or middle extent of the part along the pull.
double reachOf(const Oriented& o, const Pull& pull, Taste taste) {
    const auto along = [&](double x, double y) { return pull.primary.x * x + pull.primary.y * y; };
    const double near = along(o.box.minX, o.box.minY), far = along(o.box.maxX, o.box.maxY);
    return taste == Taste::edge ? far : taste == Taste::corner ? near : (near + far) / 2;
}

struct Choice {
    int oriented = -1;
    Pt spot;
    double score = 0, tie = 0;
};

void tryTurn(const Task& task, const Recipe& recipe, Filled& filled, int oriented, Choice& best,
             RegionScratch& scratch) {
    const Oriented& o = task.library.oriented[at(oriented)];
    double& bound = filled.bound[at(oriented)];
    if (bound == std::numeric_limits<double>::infinity()) return;
    const auto window = windowOf(task, filled, o);
    const double eps = task.library.eps;
    SpotQuery query;
    query.pull = pullOf(recipe);
    const double reach = reachOf(o, query.pull, recipe.taste);
    const bool capped = best.oriented >= 0;
    if (capped) query.atMost = best.score - reach + eps;
    query.atLeast = bound;
    query.eps = eps;
    if (query.atLeast > query.atMost) return;
    std::optional<Pt> spot;
    if (window) {
        query.window = *window;
        static thread_local std::vector<Obstacle> obstacles;
        obstacles.clear();
        for (const Placed& p : filled.placed)
            obstacles.push_back({&task.cache.get(p.oriented, oriented), p.at});
        spot = bestSpot(obstacles, query, scratch);
    }
    if (!spot) {
        bound = capped && window ? std::max(bound, query.atMost) : std::numeric_limits<double>::infinity();
        return;
    }
    const double key = query.pull.key(*spot);
    bound = key - eps;
    const Choice found{oriented, *spot, key + reach,
                       query.pull.tie({spot->x + o.box.maxX, spot->y + o.box.maxY})};
    if (!capped || found.score < best.score - eps ||
        (found.score <= best.score + eps && found.tie < best.tie - eps))
        best = found;
}

bool placeOnSheets(const Task& task, const Recipe& recipe, Build& build, Store& store, int item,
                   RegionScratch& scratch) {
    const std::string& stock = task.problem.parts[at(task.items[at(item)].part)].stock;
    for (Filled& f : build.sheets)
        if (task.problem.sheets[at(f.sheet)].stock == stock && putOn(task, recipe, f, item, scratch))
            return true;
    for (const auto& [sheet, onHand] : store.offers(stock)) {
        Filled fresh = emptySheet(task, sheet, onHand);
        if (!putOn(task, recipe, fresh, item, scratch)) continue;
        store.take(sheet, onHand);
        build.sheets.push_back(std::move(fresh));
        return true;
    }
    return false;
}

} // namespace

Filled emptySheet(const Task& task, int sheet, bool onHand) {
    Filled f;
    f.sheet = sheet;
    f.onHand = onHand;
    f.bound.assign(task.library.oriented.size(), -std::numeric_limits<double>::infinity());
    return f;
}

Task makeTask(const NestProblem& problem, const Library& library, NoFitCache& cache) {
    Task task{problem, library, cache, {}, {}};
    for (std::size_t i = 0; i < problem.parts.size(); ++i) {
        for (int c = 0; c < problem.parts[i].copies; ++c) task.items.push_back({static_cast<int>(i), c});
        const auto& options = library.byPart[i];
        task.area.push_back(options.empty() ? 0 : library.oriented[at(options.front())].area);
    }
    return task;
}

bool putOn(const Task& task, const Recipe& recipe, Filled& filled, int item, RegionScratch& scratch) {
    const int part = task.items[at(item)].part;
    const auto& options = task.library.byPart[at(part)];
    if (task.problem.strip <= 0) {
        const NestSheet& s = task.problem.sheets[at(filled.sheet)];
        const double room = (s.width - 2 * s.trim) * (s.length - 2 * s.trim);
        if (filled.used + task.area[at(part)] > room * (1 + 1e-9)) return false;
    }
    Choice best;
    const int only = recipe.turn.empty() ? -1 : recipe.turn[at(item)];
    for (std::size_t k = 0; k < options.size(); ++k)
        if (only < 0 || static_cast<std::size_t>(only) == k)
            tryTurn(task, recipe, filled, options[k], best, scratch);
    if (best.oriented < 0) return false;
    filled.placed.push_back({item, best.oriented, best.spot});
    filled.used += task.area[at(part)];
    filled.reach = std::max(filled.reach, best.spot.x + task.library.oriented[at(best.oriented)].box.maxX);
    return true;
}

Build construct(const Task& task, const Recipe& recipe, const Job& job) {
    Build build;
    RegionScratch scratch;
    Store store(task.problem);
    const bool strip = task.problem.strip > 0;
    if (strip) build.sheets.push_back(emptySheet(task, 0, false));
    for (const int item : recipe.order) {
        const bool done =
            !job.stopped() && (strip ? putOn(task, recipe, build.sheets.front(), item, scratch)
                                     : placeOnSheets(task, recipe, build, store, item, scratch));
        if (!done) build.unplaced.push_back(item);
    }
    if (strip) build.reach = build.sheets.front().reach;
    return build;
}

} // namespace slab::nesting
