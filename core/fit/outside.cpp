// A donor or rider that stands beside the body touches nothing and still does not fit.
#include "core/fit/pieces.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

struct Spans {
    Box3 box;
    bool any = false;
    void add(const Box3& b) {
        box = any ? Box3{box.min.cwiseMin(b.min), box.max.cwiseMax(b.max)} : b;
        any = true;
    }
};

struct Side {
    int axis;
    double gap; ///< beyond the body's end, mm
    const char *where, *back;
};

/// The side of the body on which a box lies wholly beyond its end, by most; gap < 0 = on none.
Side beyond(const Box3& group, const Box3& body) {
    const Side sides[] = {{0, group.min.x() - body.max.x(), "ahead of", "back"},
                          {0, body.min.x() - group.max.x(), "behind", "forward"},
                          {1, group.min.y() - body.max.y(), "to port of", "to starboard"},
                          {1, body.min.y() - group.max.y(), "to starboard of", "to port"}};
    return *std::max_element(std::begin(sides), std::end(sides),
                             [](const Side& a, const Side& b) { return a.gap < b.gap; });
}

Finding tell(const std::string& group, const Side& side, const Box3& box, const UnitStyle& style) {
    Finding f{Severity::stop, "stands-outside", {}, {}, {}, {}};
    f.message = "The " + group + " stands outside the body, " + printLength(side.gap, style) + " " +
                side.where + " it.";
    f.remedy = std::string("Move the ") + group + " " + side.back +
               (group == "donor" ? ", or let it take its best place." : " over the donor.");
    const Vec3 middle = (box.min + box.max) / 2;
    f.at = std::array<double, 3>{middle.x(), middle.y(), middle.z()};
    return f;
}

} // namespace

void checkOutside(FitResult& fit, const std::vector<FitSolid>& solids, const PlateSet& plates,
                  const UnitStyle& style) {
    fit.outside.clear();
    Spans body;
    for (const Plate& plate : plates.plates) body.add(bounds(plate.solid));
    if (!body.any) return;
    for (const std::string group : {"donor", "rider"}) {
        Spans all;
        for (const FitSolid& solid : solids)
            if (solid.group == group) all.add(bounds(solid.shape));
        if (!all.any) continue;
        const Side side = beyond(all.box, body.box);
        if (side.gap < 0) continue;
        fit.outside.push_back({group, side.gap});
        fit.state = FitState::hits;
        if (fit.outside.size() > 1) continue; // the rider goes where the donor goes
        Finding f = tell(group, side, all.box, style);
        for (const FitSolid& solid : solids)
            if (solid.group == group) f.about.push_back("solid:" + solid.name);
        fit.findings.insert(fit.findings.begin(), std::move(f));
    }
}

} // namespace slab
