#include "core/nesting/search.h"
#include <algorithm>
#include <numeric>

namespace slab::nesting {

Recipe firstRecipe(const Task& task) {
    Recipe recipe;
    recipe.order.resize(task.items.size());
    std::iota(recipe.order.begin(), recipe.order.end(), 0);
    const auto areaOf = [&](int item) {
        return task.area[static_cast<std::size_t>(task.items[static_cast<std::size_t>(item)].part)];
    };
    std::stable_sort(recipe.order.begin(), recipe.order.end(),
                     [&](int a, int b) { return areaOf(a) > areaOf(b); });
    return recipe;
}

Build search(const Task& task, const NestOptions& options, const Job& job) {
    (void)options;
    return construct(task, firstRecipe(task), job);
}

} // namespace slab::nesting
