#include "ui/session/follow.h"
#include <algorithm>
#include <limits>

namespace slab::ui {

namespace {

const PanelLoop* loopOf(const PlateSet& set, const std::string& name) {
    const auto at = std::find_if(set.plates.begin(), set.plates.end(),
                                 [&](const Plate& plate) { return plate.name == name; });
    return at == set.plates.end() ? nullptr : &at->boundary;
}

/// Middle of an edge as a share of the outline's box, so that a change of scale does not matter.
Vec2 placeOf(const PanelLoop& loop, std::size_t edge) {
    const auto box = bounds(loop.outer);
    const Vec2 middle = (loop.outer[edge] + loop.outer[(edge + 1) % loop.outer.size()]) / 2;
    return (middle - box.min).cwiseQuotient(box.size().cwiseMax(1e-9));
}

} // namespace

int followedEdge(const PlateSet& before, const PlateSet& after, const std::string& plate, int edge) {
    const PanelLoop* was = loopOf(before, plate);
    const PanelLoop* is = loopOf(after, plate);
    const auto at = static_cast<std::size_t>(edge);
    if (!was || !is || edge < 0 || at >= was->edges.size() || was->outer.size() != was->edges.size())
        return -1;
    const Vec2 place = placeOf(*was, at);
    int found = -1;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < is->edges.size() && i < is->outer.size(); ++i) {
        if (is->edges[i].neighbour != was->edges[at].neighbour) continue;
        const double away = (placeOf(*is, i) - place).norm();
        if (away >= least) continue;
        least = away;
        found = static_cast<int>(i);
    }
    return found;
}

bool isOfForm(const std::string& plateForm, const std::string& chosen) {
    return !chosen.empty() &&
           (plateForm == chosen || plateForm == chosen + " port" || plateForm == chosen + " starboard");
}

} // namespace slab::ui
