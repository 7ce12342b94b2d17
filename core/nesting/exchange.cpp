#include "core/nesting/exchange.h"
#include "core/nesting/store.h"
#include <numeric>

namespace slab::nesting {
namespace {

/// The same places on another sheet, if its borders allow.
std::optional<Filled> movedOver(const Task& task, const Filled& from, Filled onto) {
    const NestSheet& a = task.problem.sheets[at(from.sheet)];
    const NestSheet& b = task.problem.sheets[at(onto.sheet)];
    const double shift = b.trim - a.trim;
    for (Placed p : from.placed) {
        const Extent& box = task.library.oriented[at(p.oriented)].box;
        p.at = {p.at.x + shift, p.at.y + shift};
        const double right = b.length - b.trim + task.library.eps, top = b.width - b.trim + task.library.eps;
        if (p.at.x + box.maxX > right || p.at.y + box.maxY > top) return std::nullopt;
        onto.reach = std::max(onto.reach, p.at.x + box.maxX);
        onto.placed.push_back(p);
    }
    onto.used = from.used;
    return onto;
}

/// All parts of one sheet laid anew on another, in a few ways.
std::optional<Filled> laidAnew(const Task& task, const Filled& from, const Filled& onto) {
    RegionScratch scratch;
    std::vector<int> items;
    for (const Placed& p : from.placed) items.push_back(p.item);
    for (int way = 0; way < 6; ++way) {
        Recipe recipe;
        recipe.taste = static_cast<Taste>(way % 3);
        recipe.across = way >= 3;
        std::vector<int> order = items;
        if (way % 2 == 1)
            std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
                return task.area[at(task.items[at(a)].part)] > task.area[at(task.items[at(b)].part)];
            });
        Filled filled = onto;
        if (std::all_of(order.begin(), order.end(),
                        [&](int item) { return putOn(task, recipe, filled, item, scratch); }))
            return filled;
    }
    return std::nullopt;
}

double priceOf(const Task& task, const Filled& f) {
    return f.onHand ? 0 : task.problem.sheets[at(f.sheet)].price;
}

} // namespace

Build onCheaperSheets(const Task& task, Build build, const Job& job) {
    if (task.problem.strip > 0) return build;
    Store store(task.problem);
    for (const Filled& f : build.sheets) store.take(f.sheet, f.onHand);
    std::vector<std::size_t> dearest(build.sheets.size());
    std::iota(dearest.begin(), dearest.end(), std::size_t{0});
    std::stable_sort(dearest.begin(), dearest.end(), [&](std::size_t a, std::size_t b) {
        return priceOf(task, build.sheets[a]) > priceOf(task, build.sheets[b]);
    });
    for (const std::size_t k : dearest) {
        Filled& f = build.sheets[k];
        auto offers = store.offers(task.problem.sheets[at(f.sheet)].stock);
        const auto cost = [&](const std::pair<int, bool>& offer) {
            return offer.second ? 0 : task.problem.sheets[at(offer.first)].price;
        };
        std::stable_sort(offers.begin(), offers.end(),
                         [&](const auto& a, const auto& b) { return cost(a) < cost(b); });
        for (const auto& offer : offers) {
            if (job.stopped() || !(cost(offer) < priceOf(task, f))) break;
            const Filled onto = emptySheet(task, offer.first, offer.second);
            std::optional<Filled> there = movedOver(task, f, onto);
            if (!there) there = laidAnew(task, f, onto);
            if (!there) continue;
            store.take(offer.first, offer.second);
            store.giveBack(f.sheet, f.onHand);
            f = std::move(*there);
            break;
        }
    }
    return build;
}

} // namespace slab::nesting
