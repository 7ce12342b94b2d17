#include "core/nesting/search.h"
#include "core/base/index.h"
#include "core/nesting/exchange.h"
#include "core/nesting/improve.h"
#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <string_view>
#include <thread>

namespace slab::nesting {
namespace {

constexpr double orderShare = 0.1; // of the time; the rest goes to parting overlaps
constexpr long passesPerRound = 8;
constexpr long movesPerRound = 800;      // on sheets: as many passes as move so many items
constexpr std::size_t steadyWalkers = 2; // for a given number of rounds, whatever the threads

constexpr std::size_t few = 16; // items that take less than a millisecond a pass
constexpr int rules = 8;        // of measureOf

/// What an item is ranked by in a starting order.
double measureOf(const Task& task, int item, int rule) {
    const auto& options = task.library.byPart[at(task.items[at(item)].part)];
    if (options.empty()) return 0;
    const Oriented& o = task.library.oriented[at(options.front())];
    const double w = o.box.maxX - o.box.minX, h = o.box.maxY - o.box.minY;
    switch (rule) {
    case 0:
        return o.area;
    case 1:
        return std::max(w, h);
    case 2:
        return w * h;
    case 3:
        return h;
    case 4:
        return w;
    case 5:
        return std::min(w, h);
    case 6:
        return o.weight; // by the area of the hull
    default:
        return w + h;
    }
}

Recipe sortedRecipe(const Task& task, int rule, Taste taste, double tilt) {
    Recipe recipe;
    recipe.taste = taste;
    recipe.tilt = tilt;
    recipe.order.resize(task.items.size());
    std::iota(recipe.order.begin(), recipe.order.end(), 0);
    std::vector<double> rank;
    for (const int item : recipe.order) rank.push_back(measureOf(task, item, rule));
    std::stable_sort(recipe.order.begin(), recipe.order.end(),
                     [&](int a, int b) { return rank[at(a)] > rank[at(b)]; });
    return recipe;
}

/// A neighbour of a recipe: items change places or move, and now and then the pull changes.
Recipe changed(const Task& task, Recipe recipe, Random& random) {
    const std::size_t n = recipe.order.size();
    const std::size_t moves = 1 + random.below(3);
    for (std::size_t k = 0; k < moves; ++k) {
        const std::size_t i = random.below(n), j = random.below(n);
        if (random.below(2)) {
            std::swap(recipe.order[i], recipe.order[j]);
        } else {
            const int item = recipe.order[i];
            recipe.order.erase(recipe.order.begin() + static_cast<std::ptrdiff_t>(i));
            recipe.order.insert(recipe.order.begin() + static_cast<std::ptrdiff_t>(j), item);
        }
    }
    if (random.below(8) == 0) recipe.taste = static_cast<Taste>(random.below(3));
    if (random.below(6) == 0) recipe.tilt = random.below(2) ? 0 : random.between(-0.3, 1);
    if (task.problem.strip <= 0 && random.below(16) == 0) recipe.across = !recipe.across;
    return recipe;
}

struct Walker {
    Build best;
    Merit merit;
};

void searchOrders(const Task& task, Walker& walker, Random& random, Budget& budget) {
    constexpr std::array tilts{0.0, 0.1, -0.1};
    Recipe best = firstRecipe(task);
    for (int trial = 1; !budget.over(); ++trial) {
        Recipe next;
        if (trial <= rules * static_cast<int>(tilts.size())) {
            const int k = trial - 1;
            next = sortedRecipe(task, k % rules, static_cast<Taste>(k % 3), tilts[at(k / rules)]);
        } else {
            next = changed(task, best, random);
        }
        Build build = construct(task, next, budget.job());
        budget.spend();
        const Merit merit = meritOf(task, build);
        if (walker.merit < merit || budget.job().stopped()) continue;
        best = std::move(next);
        walker.best = std::move(build);
        walker.merit = merit;
    }
}

void walk(const Task& task, const NestOptions& options, std::uint64_t seed, const Job& job, Walker& walker) {
    Random random(seed);
    Budget orders(options.seconds * orderShare, options.rounds > 0 ? options.rounds : -1, job);
    searchOrders(task, walker, random, orders);
    const long each = task.problem.strip > 0
                          ? passesPerRound
                          : std::max(passesPerRound, movesPerRound / static_cast<long>(task.items.size()));
    const long passes = options.rounds > 0 ? each * options.rounds : -1;
    Budget parting(options.seconds * (1 - orderShare), passes, job);
    Build improved = task.problem.strip > 0 ? shortenStrip(task, walker.best, random.next(), parting)
                                            : emptySheets(task, walker.best, random.next(), parting);
    improved = onCheaperSheets(task, std::move(improved), job);
    const Merit merit = meritOf(task, improved);
    if (walker.merit < merit) return;
    walker.best = std::move(improved);
    walker.merit = merit;
}

} // namespace

// Rule, taste and tilt that did best over the open instances, all in one pass.
Recipe firstRecipe(const Task& task) {
    if (task.problem.strip > 0) return sortedRecipe(task, 7, Taste::middle, 0);
    return sortedRecipe(task, 7, Taste::corner, -0.1);
}

namespace {

/// The best of a few starting orders, where there is time: for a strip, which is not for live use, or few
/// items.
Build handful(const Task& task, Build first, const Job& job) {
    const std::array recipes{sortedRecipe(task, 1, Taste::middle, 0.1),
                             sortedRecipe(task, 6, Taste::middle, 0), sortedRecipe(task, 7, Taste::edge, 0.1),
                             sortedRecipe(task, 5, Taste::middle, -0.1),
                             sortedRecipe(task, 1, Taste::edge, -0.1)};
    for (const Recipe& recipe : recipes) {
        Build build = onCheaperSheets(task, construct(task, recipe, job), job);
        if (!job.stopped() && meritOf(task, build) < meritOf(task, first)) first = std::move(build);
    }
    return first;
}

/// All items of the task, which share the sheets.
Build searchOne(const Task& task, const NestOptions& options, const Job& job) {
    Build first = onCheaperSheets(task, construct(task, firstRecipe(task), job), job);
    if (task.items.empty() || job.stopped()) return first;
    if (options.seconds <= 0 && options.rounds <= 0) {
        if (task.problem.strip <= 0 && task.items.size() > few) return first;
        return handful(task, std::move(first), job);
    }
    const std::size_t threads = static_cast<std::size_t>(std::clamp(options.threads, 1, 64));
    const std::size_t count = options.rounds > 0 ? steadyWalkers : threads;
    std::vector<Walker> walkers(count, Walker{first, meritOf(task, first)});
    Random seeds(options.seed);
    std::vector<std::uint64_t> seed;
    for (std::size_t k = 0; k < count; ++k) seed.push_back(seeds.next());
    std::vector<std::jthread> pool;
    for (std::size_t t = 1; t < std::min(threads, count); ++t)
        pool.emplace_back([&, t] {
            for (std::size_t k = t; k < count; k += threads) walk(task, options, seed[k], job, walkers[k]);
        });
    for (std::size_t k = 0; k < count; k += threads) walk(task, options, seed[k], job, walkers[k]);
    pool.clear();
    const auto best = std::min_element(walkers.begin(), walkers.end(),
                                       [](const Walker& a, const Walker& b) { return a.merit < b.merit; });
    return std::move(best->best);
}

/// The items of each stock, in the order of their first one.
std::vector<std::vector<int>> itemsByStock(const Task& task) {
    std::vector<std::vector<int>> groups;
    std::map<std::string_view, std::size_t> known;
    for (std::size_t i = 0; i < task.items.size(); ++i) {
        const std::string& stock = task.problem.parts[at(task.items[i].part)].stock;
        const std::size_t group = known.emplace(stock, groups.size()).first->second;
        if (group == groups.size()) groups.emplace_back();
        groups[group].push_back(static_cast<int>(i));
    }
    return groups;
}

} // namespace

// Sheets of one stock have no say in those of another, so each stock is a search of its own.
Build search(const Task& task, const NestOptions& options, const Job& job) {
    const std::vector<std::vector<int>> groups = itemsByStock(task);
    if (task.problem.strip > 0 || groups.size() < 2) return searchOne(task, options, job);
    Build all;
    for (const std::vector<int>& group : groups) {
        Task own = task;
        own.items.clear();
        for (const int item : group) own.items.push_back(task.items[at(item)]);
        NestOptions share = options;
        share.seconds *= static_cast<double>(group.size()) / static_cast<double>(task.items.size());
        Build build = searchOne(own, share, job);
        for (Filled& f : build.sheets) {
            for (Placed& p : f.placed) p.item = group[at(p.item)];
            all.sheets.push_back(std::move(f));
        }
        for (const int item : build.unplaced) all.unplaced.push_back(group[at(item)]);
    }
    return all;
}

} // namespace slab::nesting
