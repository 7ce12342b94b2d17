#include "core/nesting/search.h"
#include "core/nesting/improve.h"
#include <algorithm>
#include <numeric>
#include <thread>

namespace slab::nesting {
namespace {

constexpr double orderShare = 0.1; // of the time; the rest goes to parting overlaps
constexpr long passesPerRound = 8;
constexpr std::size_t steadyWalkers = 2; // for a given number of rounds, whatever the threads

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

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
    default:
        return std::min(w, h);
    }
}

Recipe sortedRecipe(const Task& task, int rule) {
    Recipe recipe;
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
    if (random.below(16) == 0) recipe.tilt = random.between(0, 0.4);
    if (task.problem.strip <= 0 && random.below(16) == 0) recipe.across = !recipe.across;
    return recipe;
}

struct Walker {
    Build best;
    Merit merit;
};

void searchOrders(const Task& task, Walker& walker, Random& random, Budget& budget) {
    Recipe best = firstRecipe(task);
    for (int trial = 1; !budget.over(); ++trial) {
        Recipe next;
        if (trial < 18) {
            next = sortedRecipe(task, trial % 6);
            next.taste = static_cast<Taste>(trial / 6);
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
    const long passes = options.rounds > 0 ? passesPerRound * options.rounds : -1;
    Budget parting(options.seconds * (1 - orderShare), passes, job);
    Build improved = task.problem.strip > 0 ? shortenStrip(task, walker.best, random.next(), parting)
                                            : emptySheets(task, walker.best, random.next(), parting);
    const Merit merit = meritOf(task, improved);
    if (walker.merit < merit) return;
    walker.best = std::move(improved);
    walker.merit = merit;
}

} // namespace

Recipe firstRecipe(const Task& task) {
    return sortedRecipe(task, 0);
}

Build search(const Task& task, const NestOptions& options, const Job& job) {
    Build first = construct(task, firstRecipe(task), job);
    if ((options.seconds <= 0 && options.rounds <= 0) || task.items.empty() || job.stopped()) return first;
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

} // namespace slab::nesting
