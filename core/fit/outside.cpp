// A donor or rider that stands beside the body touches nothing and still does not fit.
#include "core/fit/pieces.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

struct Side {
    double gap; ///< beyond the body's end, mm
    const char *where, *back;
};

/// The side of the body on which a box lies wholly beyond its end, by most; gap < 0 = on none.
Side beyond(const Box3& group, const Box3& body) {
    const Side sides[] = {{group.min.x() - body.max.x(), "ahead of", "back"},
                          {body.min.x() - group.max.x(), "behind", "forward"},
                          {group.min.y() - body.max.y(), "to port of", "to starboard"},
                          {body.min.y() - group.max.y(), "to starboard of", "to port"}};
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

std::optional<Box3> boundsOf(const PlateSet& plates) {
    std::optional<Box3> box;
    for (const Plate& plate : plates.plates) {
        const Box3 own = bounds(plate.solid);
        box = box ? united(*box, own) : own;
    }
    return box;
}

std::optional<Box3> boundsOf(const std::vector<FitSolid>& solids, const std::string& group) {
    std::optional<Box3> box;
    for (const FitSolid& solid : solids) {
        if (!group.empty() && solid.group != group) continue;
        const Box3 own = bounds(solid.shape);
        box = box ? united(*box, own) : own;
    }
    return box;
}

void checkOutside(FitResult& fit, const std::vector<FitSolid>& solids, const PlateSet& plates,
                  const UnitStyle& style) {
    fit.outside.clear();
    const auto body = boundsOf(plates);
    if (!body) return;
    for (const std::string group : {"donor", "rider"}) {
        const auto box = boundsOf(solids, group);
        if (!box) continue;
        const Side side = beyond(*box, *body);
        if (side.gap < 0) continue;
        fit.outside.push_back({group, side.gap});
        fit.state = FitState::hits;
        if (fit.outside.size() > 1) continue; // the rider goes where the donor goes
        Finding f = tell(group, side, *box, style);
        for (const FitSolid& solid : solids)
            if (solid.group == group) f.about.push_back("solid:" + solid.name);
        fit.findings.insert(fit.findings.begin(), std::move(f));
    }
}

} // namespace slab
