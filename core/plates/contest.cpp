// Sharing out: every zone minus what its rivals win of it.
#include "core/plates/shell.h"
#include <algorithm>

namespace slab::plates {

namespace {

struct Boxed {
    std::vector<Box3> cells;
    Box3 all;
};

Boxed boxed(const Cells& cells) {
    Boxed b;
    for (const Cell& c : cells) {
        b.cells.push_back(bounds(c));
        const Box3& box = b.cells.back();
        b.all.min = b.cells.size() == 1 ? box.min : Vec3(b.all.min.cwiseMin(box.min));
        b.all.max = b.cells.size() == 1 ? box.max : Vec3(b.all.max.cwiseMax(box.max));
    }
    return b;
}

/// Half-spaces of the points of a cell of g that g wins; the main cut (claim or inner face) comes first.
std::vector<Half> winning(const Shell& shell, const Cell& cell, int g, const Verdict& v) {
    std::vector<Half> halves;
    if (v.claim == Claim::where) halves.push_back(v.half);
    const Half slab = shell.inner[at(g)].other();
    halves.push_back(slab);
    for (const auto& f : cell.facets)
        if (f.half != slab) halves.push_back(f.half);
    return halves;
}

/// Takes from the cells of f what g wins of them along one stretch of their common line.
void yield(Shell& shell, int f, int g, const Stretch& stretch, const std::vector<Box3>& boxes, Cells& cells) {
    const Verdict v = verdict(shell, f, g, stretch.bond);
    if (v.claim == Claim::never) return;
    for (std::size_t i = 0; i < boxes.size() && !cells.empty(); ++i) {
        auto halves = winning(shell, shell.zones[at(g)][i], g, v);
        halves.insert(halves.end(), stretch.within.begin(), stretch.within.end());
        Cells rest;
        for (Cell& cell : cells) {
            if (boxesMeet(bounds(cell), boxes[i]))
                subtract(shell.planes, cell, halves, rest);
            else
                rest.push_back(std::move(cell));
        }
        cells = std::move(rest);
    }
}

} // namespace

void contest(Shell& shell, const Job& job) {
    std::vector<Boxed> boxes(shell.zones.size());
    for (const int f : shell.faces) boxes[at(f)] = boxed(shell.zones[at(f)]);
    for (const int f : shell.faces) {
        if (job.stopped()) return;
        Cells cells = shell.zones[at(f)];
        for (const int g : shell.faces) {
            if (g == f || cells.empty() || shell.zones[at(g)].empty()) continue;
            if (!boxesMeet(boxes[at(f)].all, boxes[at(g)].all)) continue;
            for (const Stretch& stretch : stretches(shell, f, g))
                yield(shell, f, g, stretch, boxes[at(g)].cells, cells);
        }
        shell.plates[at(f)] = std::move(cells);
    }
}

} // namespace slab::plates
