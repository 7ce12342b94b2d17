#include "core/nesting/objective.h"
#include "core/base/index.h"
#include <algorithm>

namespace slab::nesting {
Taken takenOf(const Task& task, const Filled& filled) {
    const NestSheet& sheet = task.problem.sheets[at(filled.sheet)];
    double x = 0, y = 0;
    for (const Placed& p : filled.placed) {
        const Extent& box = task.library.oriented[at(p.oriented)].box;
        x = std::max(x, p.at.x + box.maxX);
        y = std::max(y, p.at.y + box.maxY);
    }
    const bool across = y * sheet.length < x * sheet.width;
    return {across ? y : x, across, across ? y * sheet.length : x * sheet.width};
}

Merit meritOf(const Task& task, const Build& build) {
    Merit m;
    m.unplaced = static_cast<int>(build.unplaced.size());
    if (task.problem.strip > 0) {
        m.count = build.reach;
        return m;
    }
    double emptiest = std::numeric_limits<double>::infinity();
    for (const Filled& f : build.sheets) {
        const NestSheet& sheet = task.problem.sheets[at(f.sheet)];
        if (!f.onHand) m.cost += sheet.price;
        emptiest = std::min(emptiest, f.used);
        const double size = sheet.width * sheet.length, offcut = size - takenOf(task, f).area;
        m.rest -= offcut * offcut / size; // one large offcut is worth more than two of half its size
    }
    m.count = static_cast<double>(build.sheets.size());
    // The fuller the other sheets, the nearer this one is to being saved.
    if (!build.sheets.empty()) m.rest += 0.5 * emptiest;
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
