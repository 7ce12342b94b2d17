#include "core/trial/path_out.h"
#include "core/fit/pieces.h"
#include <algorithm>

namespace slab::trial {

namespace {

constexpr double halfBreadth = 150; ///< mm, of a body that bends and turns on its way (from memory)

struct Obstacle {
    const ConvexSolid* shape;
    Box3 box;
    const std::string* name;
};

std::vector<Obstacle> obstaclesOf(const Stuff& stuff, const PlateOpening& opening) {
    std::vector<Obstacle> out;
    const auto add = [&](const ConvexSolid& shape, const std::string& name) {
        if (!shape.points.empty()) out.push_back({&shape, bounds(shape), &name});
    };
    for (const FitSolid& s : stuff.donor.solids)
        if (s.group == "donor" && !s.moving && s.name != "donor/seat") add(s.shape, s.name);
    if (stuff.depth < Depth::full) return out;
    const std::string& host = stuff.plates.plates[opening.plate].name;
    const std::string fittings = host + "/" + opening.flat.name + " "; // lid, lap and strips
    for (const Plate& p : stuff.plates.plates)
        if (p.name != host && !p.name.starts_with(fittings))
            for (const ConvexSolid& cell : p.cells) add(cell, p.name);
    return out;
}

/// Names of what a straight piece of the way runs through, each once; the first only, if that will do.
std::vector<std::string> metBy(const std::vector<Obstacle>& all, const Vec3& from, const Vec3& to,
                               bool firstOnly) {
    std::vector<std::string> out;
    const ConvexSolid way = makeCapsule(from, to, halfBreadth);
    const Box3 box = bounds(way);
    for (const Obstacle& o : all) {
        if (boxDistance(box, o.box) > 0 || std::find(out.begin(), out.end(), *o.name) != out.end()) continue;
        if (!nearest(*o.shape, way).meets) continue;
        out.push_back(*o.name);
        if (firstOnly) break;
    }
    return out;
}

/// Places about the rider through which a way may go, those with the shortest ways first.
std::vector<Vec3> bends(const Vec3& from, const Vec3& to, const Vec3& forward) {
    const Vec3 port = Vec3::UnitZ().cross(forward);
    std::vector<Vec3> out;
    for (int along = -2; along <= 4; ++along)
        for (int aside = -2; aside <= 2; ++aside)
            for (int up = 0; up <= 3; ++up)
                out.push_back(from + 200 * (along * forward + aside * port + up * Vec3::UnitZ()));
    const auto length = [&](const Vec3& p) { return (p - from).norm() + (to - p).norm(); };
    std::stable_sort(out.begin(), out.end(),
                     [&](const Vec3& a, const Vec3& b) { return length(a) < length(b); });
    return out;
}

} // namespace

PathOut pathOut(const Stuff& stuff, const Vec3& seat, const PlateOpening& opening) {
    const Vec3 from = seat + 200 * stuff.donor.chassis.forward + Vec3(0, 0, 250);
    const Vec3 to = stuff.plates.plates[opening.plate].frame.toBody(opening.flat.at);
    PathOut out;
    const std::vector<Obstacle> obstacles = obstaclesOf(stuff, opening);
    out.inTheWay = metBy(obstacles, from, to, false);
    if (out.inTheWay.empty()) {
        out.points = {from, to};
        return out;
    }
    if (stuff.depth < Depth::full) return out;
    for (const Vec3& bend : bends(from, to, stuff.donor.chassis.forward))
        if (metBy(obstacles, from, bend, true).empty() && metBy(obstacles, bend, to, true).empty()) {
            out.points = {from, bend, to};
            out.inTheWay.clear();
            return out;
        }
    return out;
}

} // namespace slab::trial
