#include "core/base/index.h"
#include "core/nesting/improve_parts.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

Arena arenaOf(const NestSheet& s) {
    return {s.trim, s.trim, s.length - s.trim, s.width - s.trim, s.stock};
}

class SheetSearch {
public:
    SheetSearch(const Task& task, const Build& start, std::uint64_t seed, Budget& budget)
        : m_task(task), m_best(start), m_budget(budget), m_separator(task, seed) {}

    Build run() {
        for (std::size_t failures = 0; !m_budget.over() && m_budget.fraction() < emptyShare;) {
            const std::vector<std::size_t> victims = candidates();
            if (victims.empty()) break;
            if (empty(victims[failures % victims.size()]))
                failures = 0;
            else
                ++failures;
            m_budget.spend();
        }
        pressAll();
        return m_best;
    }

private:
    static constexpr double emptyShare = 0.6; ///< of the budget; the rest enlarges offcuts
    static constexpr double firstPress = 0.16, leastPress = 0.005; ///< of what a sheet's parts take
    static constexpr int relays = 12;                              ///< new orders tried for each sheet

    /// Sheets whose parts might go onto the others of their stock, least filled first.
    std::vector<std::size_t> candidates() const {
        std::vector<std::pair<double, std::size_t>> ranked;
        for (std::size_t k = 0; k < m_best.sheets.size(); ++k) {
            const std::string& stock = m_task.problem.sheets[at(m_best.sheets[k].sheet)].stock;
            double room = 0, wanted = 0;
            for (std::size_t i = 0; i < m_best.sheets.size(); ++i) {
                const NestSheet& s = m_task.problem.sheets[at(m_best.sheets[i].sheet)];
                if (s.stock != stock) continue;
                wanted += m_best.sheets[i].used;
                if (i != k) room += (s.width - 2 * s.trim) * (s.length - 2 * s.trim);
            }
            if (wanted <= room) ranked.emplace_back(m_best.sheets[k].used, k);
        }
        std::sort(ranked.begin(), ranked.end());
        std::vector<std::size_t> out;
        for (const auto& [used, k] : ranked) out.push_back(k);
        if (out.size() > 3) out.resize(3);
        return out;
    }

    bool empty(std::size_t victim) {
        Build rest = m_best;
        rest.sheets.erase(rest.sheets.begin() + static_cast<std::ptrdiff_t>(victim));
        std::vector<Arena> arenas;
        for (const Filled& f : rest.sheets) arenas.push_back(arenaOf(m_task.problem.sheets[at(f.sheet)]));
        std::vector<Body> bodies = bodiesOf(rest);
        const std::size_t kept = bodies.size();
        for (const Placed& p : m_best.sheets[victim].placed) bodies.push_back({p.item, p.oriented, 0, p.at});
        m_separator.load(bodies, arenas);
        for (std::size_t i = kept; i < bodies.size(); ++i)
            if (!scatter(i)) return false;
        if (!part(m_separator, m_budget, patience, strikes)) return false;
        m_best = buildOf(m_task, rest, m_separator.bodies());
        return true;
    }

    /// Enlarges the offcuts of all sheets in turn, in ever smaller steps.
    void pressAll() {
        for (std::size_t k = 0; k < m_best.sheets.size(); ++k)
            for (int i = 0; i < relays && !m_budget.over(); ++i) {
                layAnew(k);
                m_budget.spend();
            }
        std::vector<double> steps(m_best.sheets.size(), firstPress);
        while (!m_budget.over()) {
            bool idle = true;
            for (std::size_t k = 0; k < steps.size() && !m_budget.over(); ++k) {
                if (steps[k] < leastPress) continue;
                idle = false;
                if (!press(k, steps[k])) steps[k] /= 2;
                m_budget.spend();
                if (m_best.sheets.size() != steps.size()) steps.assign(m_best.sheets.size(), firstPress);
            }
            if (idle) break;
        }
    }

    /// Sets the parts of one sheet down again in another order; kept if the offcut grows.
    void layAnew(std::size_t sheet) {
        const Filled& old = m_best.sheets[sheet];
        Random& random = m_separator.random();
        Recipe recipe;
        for (const Placed& p : old.placed) recipe.order.push_back(p.item);
        for (std::size_t i = recipe.order.size(); i > 1; --i)
            std::swap(recipe.order[i - 1], recipe.order[random.below(i)]);
        recipe.taste = static_cast<Taste>(random.below(3));
        recipe.across = random.below(2) == 1;
        if (random.below(2)) recipe.tilt = random.between(-0.2, 0.2);
        Filled filled = emptySheet(m_task, old.sheet, old.onHand);
        for (const int item : recipe.order)
            if (!putOn(m_task, recipe, filled, item, m_scratch)) return;
        if (takenOf(m_task, filled).area < takenOf(m_task, old).area)
            m_best.sheets[sheet] = std::move(filled);
    }

    /// Takes a step off what a sheet's parts take; what stood there goes anywhere on the sheets of its stock.
    bool press(std::size_t sheet, double step) {
        std::vector<Arena> arenas;
        for (const Filled& f : m_best.sheets) arenas.push_back(arenaOf(m_task.problem.sheets[at(f.sheet)]));
        Arena& pressed = arenas[sheet];
        const Taken taken = takenOf(m_task, m_best.sheets[sheet]);
        double& side = taken.across ? pressed.y1 : pressed.x1;
        side = std::min(side, taken.reach * (1 - step));
        if (side <= (taken.across ? pressed.y0 : pressed.x0)) return false;
        const std::vector<Body> bodies = bodiesOf(m_best);
        m_separator.load(bodies, arenas);
        for (std::size_t i = 0; i < bodies.size(); ++i)
            if (!m_separator.fits(bodies[i].oriented, bodies[i].arena) && !scatter(i)) return false;
        if (!part(m_separator, m_budget, patience / 2, 1)) return false;
        Build pressedBuild = buildOf(m_task, m_best, m_separator.bodies());
        std::erase_if(pressedBuild.sheets, [](const Filled& f) { return f.placed.empty(); });
        if (!(meritOf(m_task, pressedBuild) < meritOf(m_task, m_best))) return false;
        m_best = std::move(pressedBuild);
        return true;
    }

    /// Drops a body anywhere on a sheet of its stock that can hold it.
    bool scatter(std::size_t body) {
        const Body b = m_separator.bodies()[body];
        const int part = m_task.items[at(b.item)].part;
        const auto& turns = m_task.library.byPart[at(part)];
        Random& random = m_separator.random();
        for (int tries = 0; tries < 200; ++tries) {
            const int arena = static_cast<int>(random.below(m_separator.arenas().size()));
            const int oriented = turns[random.below(turns.size())];
            const Arena& a = m_separator.arenas()[at(arena)];
            if (a.stock != m_task.problem.parts[at(part)].stock || !m_separator.fits(oriented, arena))
                continue;
            m_separator.put(body, oriented, arena, {random.between(a.x0, a.x1), random.between(a.y0, a.y1)});
            return true;
        }
        return false;
    }

    const Task& m_task;
    Build m_best;
    Budget& m_budget;
    Separator m_separator;
    RegionScratch m_scratch;
};

} // namespace

Build emptySheets(const Task& task, const Build& start, std::uint64_t seed, Budget& budget) {
    if (start.sheets.empty()) return start;
    return SheetSearch(task, start, seed, budget).run();
}

} // namespace slab::nesting
