#pragma once
// Box shells by hand, so that every distance has a closed form.
#include "core/fit/fit.h"

namespace slab {

/// A plate that is one axis-aligned box; its outside looks along `out`.
inline Plate boxPlate(const std::string& name, const Vec3& min, const Vec3& max, const Vec3& out) {
    Plate plate;
    plate.name = name;
    plate.solid = makeBox(min, max);
    plate.cells = {makeBoxSolid(min, max)};
    plate.thickness = (max - min).minCoeff();
    plate.volume = (max - min).prod();
    const Vec3 u = out.unitOrthogonal();
    plate.frame.axes.col(0) = u;
    plate.frame.axes.col(1) = out.cross(u);
    plate.frame.axes.col(2) = out;
    return plate;
}

/// Six plates of thickness t inside the box [-l/2, l/2] × [-w/2, w/2] × [0, h]; top and floor cover.
inline PlateSet boxShell(double l, double w, double h, double t) {
    PlateSet set;
    const double x = l / 2, y = w / 2;
    set.plates = {
        boxPlate("hull/front", {x - t, -y + t, t}, {x, y - t, h - t}, Vec3::UnitX()),
        boxPlate("hull/back", {-x, -y + t, t}, {-x + t, y - t, h - t}, -Vec3::UnitX()),
        boxPlate("hull/port", {-x, y - t, t}, {x, y, h - t}, Vec3::UnitY()),
        boxPlate("hull/starboard", {-x, -y, t}, {x, -y + t, h - t}, -Vec3::UnitY()),
        boxPlate("hull/top", {-x, -y, h - t}, {x, y, h}, Vec3::UnitZ()),
        boxPlate("hull/floor", {-x, -y, 0}, {x, y, t}, -Vec3::UnitZ()),
    };
    return set;
}

inline FitSolid fitSolid(const std::string& name, ConvexSolid shape, double clearance = 20) {
    return {name, name.substr(0, name.find('/')), std::move(shape), clearance, false, {}};
}

inline const FitPair* pairOf(const FitResult& fit, const std::string& solid, const std::string& plate) {
    for (const FitPair& p : fit.pairs)
        if (p.solid == solid && p.plate == plate) return &p;
    return nullptr;
}

} // namespace slab
