#include "core/nesting/separate.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>

namespace slab::nesting {
namespace {

constexpr std::size_t trialsKept = 3;
constexpr int nearSamples = 10, farSamples = 60;

} // namespace

Separator::Separator(const Task& task, std::uint64_t seed) : m_task(task), m_random(seed) {}

bool Separator::fits(int oriented, int arena) const {
    const Extent& box = m_task.library.oriented[at(oriented)].box;
    const Arena& a = m_arenas[at(arena)];
    const double eps = m_task.library.eps;
    return box.maxX - box.minX <= a.x1 - a.x0 + eps && box.maxY - box.minY <= a.y1 - a.y0 + eps;
}

Pt Separator::pulledIn(int oriented, int arena, Pt p) const {
    const Extent& box = m_task.library.oriented[at(oriented)].box;
    const Arena& a = m_arenas[at(arena)];
    const double x0 = a.x0 - box.minX, x1 = std::max(x0, a.x1 - box.maxX);
    const double y0 = a.y0 - box.minY, y1 = std::max(y0, a.y1 - box.maxY);
    return {std::clamp(p.x, x0, x1), std::clamp(p.y, y0, y1)};
}

void Separator::load(std::vector<Body> bodies, std::vector<Arena> arenas) {
    m_bodies = std::move(bodies);
    m_reach.resize(m_bodies.size());
    m_arenas = std::move(arenas);
    m_weights.assign(m_bodies.size() * m_bodies.size(), 1.0);
    m_severity.assign(m_bodies.size() * m_bodies.size(), 0.0);
    for (std::size_t i = 0; i < m_bodies.size(); ++i)
        place(i, m_bodies[i].oriented, m_bodies[i].arena, m_bodies[i].at);
    measure();
}

void Separator::restore(const std::vector<Body>& bodies) {
    m_bodies = bodies;
    for (std::size_t i = 0; i < m_bodies.size(); ++i)
        place(i, m_bodies[i].oriented, m_bodies[i].arena, m_bodies[i].at);
    measure();
}

void Separator::resize(const std::vector<Arena>& arenas) {
    m_arenas = arenas;
    for (std::size_t i = 0; i < m_bodies.size(); ++i)
        place(i, m_bodies[i].oriented, m_bodies[i].arena, m_bodies[i].at);
    measure();
}

void Separator::put(std::size_t body, int oriented, int arena, Pt p) {
    place(body, oriented, arena, p);
    measureOne(body);
    addUp();
}

void Separator::addUp() {
    m_total = 0;
    for (const double s : m_severity) m_total += s / 2;
}

void Separator::place(std::size_t body, int oriented, int arena, Pt p) {
    p = pulledIn(oriented, arena, p);
    m_bodies[body].oriented = oriented;
    m_bodies[body].arena = arena;
    m_bodies[body].at = p;
    const Extent& e = m_task.library.oriented[at(oriented)].reach;
    m_reach[body] = {e.minX + p.x, e.minY + p.y, e.maxX + p.x, e.maxY + p.y};
}

double Separator::pairSeverity(int a, Pt atA, int b, Pt atB) const {
    const Oriented &oa = m_task.library.oriented[at(a)], &ob = m_task.library.oriented[at(b)];
    const double dx = atB.x - atA.x, dy = atB.y - atA.y;
    const double depth = penetration(m_task.cache.get(a, b), {dx, dy}, m_task.library.eps);
    return depth <= 0 ? 0 : depth * oa.weight * ob.weight;
}

double Separator::cost(std::size_t body, const Trial& trial, double bound) const {
    double sum = 0;
    const std::size_t n = m_bodies.size();
    const double* weights = m_weights.data() + body * n;
    const Extent& own = m_task.library.oriented[at(trial.oriented)].reach;
    const Extent e{own.minX + trial.at.x, own.minY + trial.at.y, own.maxX + trial.at.x,
                   own.maxY + trial.at.y};
    for (std::size_t j = 0; j < n && sum < bound; ++j) {
        const Extent& o = m_reach[j];
        if (o.maxX <= e.minX || o.minX >= e.maxX || o.maxY <= e.minY || o.minY >= e.maxY) continue;
        const Body& other = m_bodies[j];
        if (j == body || other.arena != trial.arena) continue;
        const double s = pairSeverity(other.oriented, other.at, trial.oriented, trial.at);
        if (s > 0) sum += weights[j] * s;
    }
    return sum;
}

void Separator::setPair(std::size_t i, std::size_t j, double severity) {
    const std::size_t n = m_bodies.size();
    m_severity[i * n + j] = m_severity[j * n + i] = severity;
}

void Separator::measureOne(std::size_t i) {
    for (std::size_t j = 0; j < m_bodies.size(); ++j) {
        if (j == i) continue;
        const Extent &e = m_reach[i], &o = m_reach[j];
        const bool apart = o.maxX <= e.minX || o.minX >= e.maxX || o.maxY <= e.minY || o.minY >= e.maxY;
        // Always seen from the lower index, so that the figure does not depend on which of the two moved.
        const Body &a = m_bodies[std::min(i, j)], &b = m_bodies[std::max(i, j)];
        setPair(i, j, !apart && a.arena == b.arena ? pairSeverity(a.oriented, a.at, b.oriented, b.at) : 0);
    }
}

void Separator::measure() {
    for (std::size_t i = 0; i < m_bodies.size(); ++i) measureOne(i);
    addUp();
}

void Separator::keep(std::vector<Trial>& best, const Trial& trial) const {
    const auto where =
        std::find_if(best.begin(), best.end(), [&](const Trial& t) { return trial.cost < t.cost; });
    if (where == best.end() && best.size() >= trialsKept) return;
    best.insert(where, trial);
    if (best.size() > trialsKept) best.pop_back();
}

void Separator::sample(std::size_t body, std::vector<Trial>& best) {
    const Body& b = m_bodies[body];
    const int part = m_task.items[at(b.item)].part;
    const auto& turns = m_task.library.byPart[at(part)];
    const Extent& box = m_task.library.oriented[at(b.oriented)].box;
    const double spanX = box.maxX - box.minX, spanY = box.maxY - box.minY;
    for (int k = 0; k < nearSamples + farSamples; ++k) {
        Trial t;
        t.oriented = turns[m_random.below(turns.size())];
        t.arena = b.arena;
        if (k < nearSamples) {
            const double reach = k < nearSamples / 2 ? 0.15 : 0.5;
            t.at = {b.at.x + spanX * m_random.between(-reach, reach),
                    b.at.y + spanY * m_random.between(-reach, reach)};
        } else {
            if (m_arenas.size() > 1) t.arena = static_cast<int>(m_random.below(m_arenas.size()));
            const Arena& a = m_arenas[at(t.arena)];
            if (a.stock != m_task.problem.parts[at(part)].stock) continue;
            const Extent& own = m_task.library.oriented[at(t.oriented)].box;
            t.at = {m_random.between(a.x0 - own.minX, a.x1 - own.maxX),
                    m_random.between(a.y0 - own.minY, a.y1 - own.maxY)};
        }
        if (!fits(t.oriented, t.arena)) continue;
        t.at = pulledIn(t.oriented, t.arena, t.at);
        const double bound =
            best.size() < trialsKept ? std::numeric_limits<double>::infinity() : best.back().cost;
        t.cost = cost(body, t, bound);
        if (t.cost < bound) keep(best, t);
    }
}

void Separator::exits(std::size_t body, std::vector<Trial>& best) {
    const Body b = m_bodies[body];
    for (std::size_t j = 0; j < m_bodies.size(); ++j) {
        if (m_severity[body * m_bodies.size() + j] <= 0) continue;
        const Body& other = m_bodies[j];
        const NoFit& nofit = m_task.cache.get(other.oriented, b.oriented);
        const Pt out = nearestExit(nofit, {b.at.x - other.at.x, b.at.y - other.at.y});
        Trial t{0, b.oriented, b.arena,
                pulledIn(b.oriented, b.arena, {out.x + other.at.x, out.y + other.at.y})};
        const double bound =
            best.size() < trialsKept ? std::numeric_limits<double>::infinity() : best.back().cost;
        t.cost = cost(body, t, bound);
        if (t.cost < bound) keep(best, t);
    }
}

void Separator::refine(std::size_t body, Trial& trial) {
    const Extent& box = m_task.library.oriented[at(trial.oriented)].box;
    const double span = std::min(box.maxX - box.minX, box.maxY - box.minY);
    double stepX = 0.1 * span, stepY = 0.1 * span;
    const double least = 5e-4 * span;
    for (int k = 0; k < 60 && trial.cost > 0 && std::max(stepX, stepY) > least; ++k) {
        const std::size_t axis = m_random.below(4);
        const double dx = axis == 1 ? 0 : stepX, dy = axis == 0 ? 0 : axis == 3 ? -stepY : stepY;
        bool better = false;
        for (const double sign : {1.0, -1.0}) {
            Trial t = trial;
            t.at = pulledIn(t.oriented, t.arena, {trial.at.x + sign * dx, trial.at.y + sign * dy});
            t.cost = cost(body, t, trial.cost);
            if (t.cost < trial.cost) {
                trial = t;
                better = true;
                break;
            }
        }
        const double factor = better ? 1.2 : 0.5;
        if (dx != 0) stepX *= factor;
        if (dy != 0) stepY *= factor;
    }
}

void Separator::moveBest(std::size_t body) {
    const Body& b = m_bodies[body];
    Trial now{0, b.oriented, b.arena, b.at};
    now.cost = cost(body, now, std::numeric_limits<double>::infinity());
    if (now.cost <= 0) return;
    std::vector<Trial> best{now};
    exits(body, best);
    sample(body, best);
    for (Trial& t : best) {
        refine(body, t);
        if (t.cost <= 0) break;
    }
    const auto winner = std::min_element(best.begin(), best.end(),
                                         [](const Trial& p, const Trial& q) { return p.cost < q.cost; });
    if (winner->cost > now.cost) return;
    place(body, winner->oriented, winner->arena, winner->at);
    measureOne(body);
}

double Separator::pass() {
    const std::size_t n = m_bodies.size();
    std::vector<std::size_t> moving;
    for (std::size_t i = 0; i < n; ++i)
        if (std::any_of(m_severity.begin() + static_cast<std::ptrdiff_t>(i * n),
                        m_severity.begin() + static_cast<std::ptrdiff_t>((i + 1) * n),
                        [](double s) { return s > 0; }))
            moving.push_back(i);
    for (std::size_t k = moving.size(); k > 1; --k) std::swap(moving[k - 1], moving[m_random.below(k)]);
    for (const std::size_t i : moving) moveBest(i);
    addUp();
    changeWeights();
    return m_total;
}

void Separator::changeWeights() {
    const double most = m_severity.empty() ? 0 : *std::max_element(m_severity.begin(), m_severity.end());
    for (std::size_t k = 0; k < m_severity.size(); ++k)
        if (m_severity[k] > 0)
            m_weights[k] *= 1.2 + 0.8 * m_severity[k] / most;
        else
            m_weights[k] = std::max(1.0, m_weights[k] * 0.95);
}

} // namespace slab::nesting
