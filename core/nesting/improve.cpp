#include "core/base/index.h"
#include "core/nesting/improve_parts.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {

bool part(Separator& separator, Budget& budget, int patient, int strikesLeft) {
    std::vector<Body> best = separator.bodies();
    double least = separator.severity();
    while (least > 0 && strikesLeft > 0 && !budget.over()) {
        const double before = least;
        for (int idle = 0; least > 0 && idle < patient && !budget.over(); ++idle) {
            const double now = separator.pass();
            budget.spend();
            if (now >= least) continue;
            if (now < least * 0.98) idle = 0;
            least = now;
            best = separator.bodies();
        }
        if (least > 0) separator.restore(best);
        if (least > before * 0.98) --strikesLeft;
    }
    return least <= 0;
}

std::vector<Body> bodiesOf(const Build& build) {
    std::vector<Body> bodies;
    for (std::size_t k = 0; k < build.sheets.size(); ++k)
        for (const Placed& p : build.sheets[k].placed)
            bodies.push_back({p.item, p.oriented, static_cast<int>(k), p.at});
    return bodies;
}

double reachOf(const Task& task, const std::vector<Body>& bodies) {
    double reach = 0;
    for (const Body& b : bodies)
        reach = std::max(reach, b.at.x + task.library.oriented[at(b.oriented)].box.maxX);
    return reach;
}

Build buildOf(const Task& task, const Build& like, const std::vector<Body>& bodies) {
    Build build = like;
    for (Filled& f : build.sheets) {
        f.placed.clear();
        f.used = f.reach = 0;
    }
    for (const Body& b : bodies) {
        Filled& f = build.sheets[at(b.arena)];
        f.placed.push_back({b.item, b.oriented, b.at});
        f.used += task.library.oriented[at(b.oriented)].area;
        f.reach = std::max(f.reach, b.at.x + task.library.oriented[at(b.oriented)].box.maxX);
    }
    if (task.problem.strip > 0) build.reach = reachOf(task, bodies);
    return build;
}

namespace {

/// Exchanges the places of two large bodies of different parts.
void swapTwo(const Task& task, Separator& separator) {
    const auto& bodies = separator.bodies();
    std::vector<std::size_t> bySize(bodies.size());
    for (std::size_t i = 0; i < bySize.size(); ++i) bySize[i] = i;
    const auto weight = [&](std::size_t i) { return task.library.oriented[at(bodies[i].oriented)].weight; };
    std::stable_sort(bySize.begin(), bySize.end(),
                     [&](std::size_t a, std::size_t b) { return weight(a) > weight(b); });
    Random& random = separator.random();
    const std::size_t large = std::max<std::size_t>(2, bySize.size() / 2);
    for (int tries = 0; tries < 20 && bySize.size() >= 2; ++tries) {
        const std::size_t i = bySize[random.below(std::min(large, bySize.size()))];
        const std::size_t j = bySize[random.below(std::min(large, bySize.size()))];
        const Body a = bodies[i], b = bodies[j];
        if (task.items[at(a.item)].part == task.items[at(b.item)].part) continue;
        if (!separator.fits(a.oriented, b.arena) || !separator.fits(b.oriented, a.arena)) continue;
        if (separator.arenas()[at(a.arena)].stock != separator.arenas()[at(b.arena)].stock) continue;
        const auto middle = [&](const Body& body) {
            const Extent& e = task.library.oriented[at(body.oriented)].box;
            return Pt{(e.minX + e.maxX) / 2, (e.minY + e.maxY) / 2};
        };
        const Pt ma = middle(a), mb = middle(b);
        separator.put(i, a.oriented, b.arena, {b.at.x + mb.x - ma.x, b.at.y + mb.y - ma.y});
        separator.put(j, b.oriented, a.arena, {a.at.x + ma.x - mb.x, a.at.y + ma.y - mb.y});
        return;
    }
}

class StripSearch {
public:
    StripSearch(const Task& task, const Build& start, std::uint64_t seed, Budget& budget)
        : m_task(task), m_start(start), m_budget(budget), m_separator(task, seed), m_best(bodiesOf(start)),
          m_length(start.reach) {
        double own = 0;
        for (const Body& b : m_best) {
            double narrowest = std::numeric_limits<double>::infinity();
            for (const int turn : task.library.byPart[at(task.items[at(b.item)].part)]) {
                const Extent& box = task.library.oriented[at(turn)].box;
                narrowest = std::min(narrowest, box.maxX - box.minX);
            }
            m_shortest = std::max(m_shortest, narrowest);
            own += task.library.oriented[at(b.oriented)].area;
        }
        m_shortest = std::max(m_shortest, own / task.problem.strip);
    }

    Build run() {
        explore();
        compress();
        return buildOf(m_task, m_start, m_best);
    }

private:
    static constexpr double exploreShare = 0.8, leastStep = 1e-3;

    std::vector<Arena> strip(double length) const { return {{0, 0, length, m_task.problem.strip, ""}}; }

    /// Takes over a parted layout. False if it is no shorter: a part is longer than the strip in its present
    /// turn.
    bool take() {
        const double reach = reachOf(m_task, m_separator.bodies());
        if (reach >= m_length) return false;
        m_best = m_separator.bodies();
        m_length = reach;
        return true;
    }

    void explore() {
        double step = 0.02;
        std::vector<std::pair<double, std::vector<Body>>> pool; // severity, parted badly at this length
        m_separator.load(m_best, strip(m_length * (1 - step)));
        while (m_budget.fraction() < exploreShare && !m_budget.over() && m_length > m_shortest * (1 + 1e-9)) {
            m_budget.spend();
            if (part(m_separator, m_budget, patience, strikes) && take()) {
                pool.clear();
                m_separator.resize(strip(std::max(m_shortest, m_length * (1 - step))));
                continue;
            }
            if (step > leastStep) {
                step = std::max(leastStep, step / 2);
                m_separator.load(m_best, strip(m_length * (1 - step)));
                continue;
            }
            pool.emplace_back(m_separator.severity(), m_separator.bodies());
            std::stable_sort(pool.begin(), pool.end(),
                             [](const auto& a, const auto& b) { return a.first < b.first; });
            if (pool.size() > 30) pool.pop_back();
            const double u = m_separator.random().unit();
            const auto pick = static_cast<std::size_t>(u * u * static_cast<double>(pool.size()));
            m_separator.load(pool[pick].second, strip(m_length * (1 - step)));
            swapTwo(m_task, m_separator);
        }
    }

    /// Cuts out a little at a random place, closes the strip, parts again.
    void compress() {
        const double from = m_budget.fraction();
        while (!m_budget.over() && m_length > m_shortest * (1 + 1e-9)) {
            const double gone = (m_budget.fraction() - from) / std::max(1e-9, 1 - from);
            const double step = 5e-4 * std::pow(2e-2, std::clamp(gone, 0.0, 1.0)); // 0.05 % down to 0.001 %
            const double cut = m_separator.random().between(0, m_length), by = m_length * step;
            std::vector<Body> bodies = m_best;
            for (Body& b : bodies)
                if (b.at.x + m_task.library.oriented[at(b.oriented)].box.minX > cut) b.at.x -= by;
            m_separator.load(std::move(bodies), strip(m_length - by));
            m_budget.spend();
            if (part(m_separator, m_budget, patience / 2, 1)) (void)take();
        }
    }

    const Task& m_task;
    const Build& m_start;
    Budget& m_budget;
    Separator m_separator;
    std::vector<Body> m_best;
    double m_length, m_shortest = 0;
};

} // namespace

Build shortenStrip(const Task& task, const Build& start, std::uint64_t seed, Budget& budget) {
    if (start.sheets.empty() || start.sheets.front().placed.empty()) return start;
    return StripSearch(task, start, seed, budget).run();
}

} // namespace slab::nesting
