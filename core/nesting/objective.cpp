#include "core/nesting/objective.h"
#include "core/base/index.h"
#include <algorithm>

namespace slab::nesting {
namespace {

/// Bounding-box share of a sheet that is taken: what is left beyond is one useful offcut.
double takenShare(const Task& task, const Filled& filled) {
    return filled.reach * task.problem.sheets[at(filled.sheet)].width;
}

} // namespace

Merit meritOf(const Task& task, const Build& build) {
    Merit m;
    m.unplaced = static_cast<int>(build.unplaced.size());
    if (task.problem.strip > 0) {
        m.count = build.reach;
        return m;
    }
    double least = std::numeric_limits<double>::infinity(), emptiest = least;
    for (const Filled& f : build.sheets) {
        if (!f.onHand) m.cost += task.problem.sheets[at(f.sheet)].price;
        least = std::min(least, takenShare(task, f));
        emptiest = std::min(emptiest, f.used);
    }
    m.count = static_cast<double>(build.sheets.size());
    // The fuller the other sheets, the nearer this one is to being saved; its reach breaks ties.
    m.rest = build.sheets.empty() ? 0 : emptiest + 0.01 * least;
    return m;
}

NestResult resultOf(const Task& task, const Build& build) {
    NestResult result;
    double parts = 0, sheets = 0;
    for (const Filled& f : build.sheets) {
        if (f.placed.empty()) continue;
        NestLayout layout;
        layout.sheet = f.sheet;
        layout.onHand = f.onHand;
        double own = 0;
        for (const Placed& p : f.placed) {
            const Oriented& o = task.library.oriented[at(p.oriented)];
            const Item& item = task.items[at(p.item)];
            layout.places.push_back({item.part, item.copy, p.at.x, p.at.y, o.rotation, o.flipped});
            own += o.area;
        }
        const bool strip = task.problem.strip > 0;
        const double size =
            strip ? task.problem.strip * build.reach
                  : task.problem.sheets[at(f.sheet)].width * task.problem.sheets[at(f.sheet)].length;
        if (!strip && !f.onHand) result.cost += task.problem.sheets[at(f.sheet)].price;
        layout.used = size > 0 ? own / size : 0;
        parts += own;
        sheets += size;
        result.layouts.push_back(std::move(layout));
    }
    for (const int i : build.unplaced)
        result.unplaced.emplace_back(task.items[at(i)].part, task.items[at(i)].copy);
    result.stripLength = build.reach;
    result.density = sheets > 0 ? parts / sheets : 0;
    return result;
}

} // namespace slab::nesting
