#include "core/drawing/tiles.h"
#include <algorithm>
#include <cmath>

namespace slab {
namespace {

constexpr double inch = 25.4;
/// Longest piece of a roll printed in one go: under pdfLimit, with room to spare for the plotter's own
/// margins.
constexpr double longestRoll = 5000;
/// Shortest, so that the bars and the notes find room.
constexpr double shortestRoll = 220;

const std::vector<Paper>& papers() {
    // ISO 216 (A3, A4); Letter 8.5 × 11 in and Tabloid 11 × 17 in are ANSI A and B; rolls by their width.
    static const std::vector<Paper> all = {{"Letter", 8.5 * inch, 11 * inch},
                                           {"A4", 210, 297},
                                           {"A3", 297, 420},
                                           {"Tabloid", 11 * inch, 17 * inch},
                                           {"roll 24 in", 24 * inch, 0},
                                           {"roll 36 in", 36 * inch, 0},
                                           {"roll 914 mm", 914, 0}};
    return all;
}

/// Lays the grid over the rings' box, centred, and marks the tiles that something is drawn on.
TilePlan layGrid(const std::vector<Ring>& rings, const Box2& box, TilePlan plan) {
    const Vec2 p = plan.printable();
    plan.columns = tileCount(box.size().x(), p.x(), plan.overlap);
    plan.rows = tileCount(box.size().y(), p.y(), plan.overlap);
    const Vec2 covered(plan.columns * plan.pitch().x() + plan.overlap,
                       plan.rows * plan.pitch().y() + plan.overlap);
    plan.origin = box.min - (covered - box.size()) / 2;
    plan.printed.assign(static_cast<std::size_t>(plan.columns * plan.rows), false);
    for (int row = 0; row < plan.rows; ++row)
        for (int column = 0; column < plan.columns; ++column) {
            const Vec2 low = plan.corner(column, row), high = low + p;
            bool any = plan.columns * plan.rows == 1;
            for (const Ring& ring : rings)
                for (std::size_t i = 0; i < ring.size() && !any; ++i)
                    any = lengthInside(ring[i], ring[(i + 1) % ring.size()], low, high) > 0;
            plan.printed[static_cast<std::size_t>(row * plan.columns + column)] = any;
        }
    return plan;
}

/// Length of one roll page so that `n` equal pages cover `size`.
double rollLength(double size, double border, double overlap) {
    const int n = tileCount(size, longestRoll - 2 * border, overlap);
    return std::max(shortestRoll, (size + (n - 1) * overlap) / n + 2 * border + 1e-6);
}

Box2 boundsOf(const std::vector<Ring>& rings) {
    Box2 box = bounds(rings.front());
    for (const Ring& ring : rings) box = united(box, bounds(ring));
    return box;
}

} // namespace

Expected<Paper> paperNamed(const std::string& name) {
    for (const Paper& paper : papers())
        if (paper.name == name) return paper;
    std::string known;
    for (const Paper& paper : papers()) known += (known.empty() ? "" : ", ") + paper.name;
    return fail("unknown-paper", "there is no paper named \"" + name + "\"", name, "choose one of " + known);
}

std::vector<std::string> paperNames() {
    std::vector<std::string> names;
    for (const Paper& paper : papers()) names.push_back(paper.name);
    return names;
}

int tileCount(double size, double printable, double overlap) {
    constexpr double slack =
        1e-9; // a size that is the printable length but for rounding needs no second page
    if (size <= printable + slack || printable <= overlap) return 1;
    return static_cast<int>(std::ceil((size - overlap) / (printable - overlap) - slack));
}

Vec2 TilePlan::corner(int column, int row) const {
    return origin + Vec2(column * pitch().x(), row * pitch().y());
}

bool TilePlan::isPrinted(int column, int row) const {
    if (column < 0 || row < 0 || column >= columns || row >= rows) return false;
    return printed[static_cast<std::size_t>(row * columns + column)];
}

int TilePlan::printedCount() const {
    return static_cast<int>(std::count(printed.begin(), printed.end(), true));
}

std::string TilePlan::tileName(int column, int row) const {
    std::string letters;
    for (int n = column; n >= 0; n = n / 26 - 1)
        letters.insert(letters.begin(), static_cast<char>('A' + n % 26));
    return letters + std::to_string(rows - row);
}

Vec2 TilePlan::registerPoint(int column, int row) const {
    return corner(column, row) + Vec2(overlap, overlap) / 2;
}

std::vector<Ring> drawnRings(const Panel& panel) {
    std::vector<Ring> rings;
    const auto add = [&](const PanelLoop& loop) {
        if (!loop.outer.empty()) rings.push_back(loop.outer);
        if (!loop.inner.empty()) rings.push_back(loop.inner);
    };
    add(panel.boundary);
    for (const PanelLoop& hole : panel.holes) add(hole);
    for (const PanelFold& fold : panel.folds) {
        rings.push_back({fold.from, fold.to});
        if (!fold.mouth.empty()) rings.push_back(fold.mouth);
    }
    return rings;
}

std::optional<std::pair<Vec2, Vec2>> partInside(const Vec2& a, const Vec2& b, const Vec2& boxMin,
                                                const Vec2& boxMax) {
    // Liang and Barsky, "A new concept and method for line clipping", ACM TOG 3(1), 1984.
    double from = 0, to = 1;
    for (int axis = 0; axis < 2; ++axis) {
        const double step = b[axis] - a[axis];
        if (step == 0) {
            if (a[axis] < boxMin[axis] || a[axis] > boxMax[axis]) return {};
            continue;
        }
        double enter = (boxMin[axis] - a[axis]) / step, leave = (boxMax[axis] - a[axis]) / step;
        if (enter > leave) std::swap(enter, leave);
        from = std::max(from, enter);
        to = std::min(to, leave);
    }
    if (!(to > from)) return {};
    return std::pair<Vec2, Vec2>(a + from * (b - a), a + to * (b - a));
}

double lengthInside(const Vec2& a, const Vec2& b, const Vec2& boxMin, const Vec2& boxMax) {
    const auto part = partInside(a, b, boxMin, boxMax);
    return part ? (part->second - part->first).norm() : 0;
}

TilePlan planTiles(const std::vector<Ring>& rings, const TemplateOptions& options) {
    TilePlan base;
    base.overlap = options.overlap;
    base.border = options.border;
    if (rings.empty()) return base;
    const Box2 box = boundsOf(rings);
    const bool roll = options.paper.height <= 0;
    std::vector<TilePlan> plans;
    std::vector<double> lengths; // of one page along the roll
    for (const bool across : {false, true}) {
        TilePlan plan = base;
        plan.pageWidth = options.paper.width;
        plan.pageHeight = options.paper.height;
        if (roll)
            plan.pageHeight = rollLength(across ? box.size().x() : box.size().y(), plan.border, plan.overlap);
        lengths.push_back(plan.pageHeight);
        if (across) std::swap(plan.pageWidth, plan.pageHeight);
        plans.push_back(layGrid(rings, box, plan));
    }
    // Every seam costs the builder more than the paper: fewest pages first, on rolls then the shortest.
    const auto cost = [&](std::size_t i) {
        const double pages = plans[i].printedCount();
        return std::tuple(pages, roll ? lengths[i] * pages : 0.0, plans[i].columns * plans[i].rows);
    };
    return plans[cost(1) < cost(0) ? 1 : 0];
}

} // namespace slab
