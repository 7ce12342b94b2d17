#pragma once
// Frames in a plain box, and whether boards meet by OpenCASCADE.
#include "core/frames/frames.h"
#include "core/geometry/occt.h"
#include "tests/body/make.h"

namespace slab {

inline constexpr double thick = 10;

inline PlateSet platesOf(const Body& body, double thickness) {
    PlateRules rules;
    for (std::size_t i = 0; i < body.skin.faces.size(); ++i) rules.faces.push_back({"ply", thickness, 0});
    rules.freePlates.resize(body.plates.size());
    return buildPlates(body, rules);
}

inline FrameChoice across(const std::string& name, double station) {
    FrameChoice c;
    c.name = name;
    c.place.origin = {station, 0, 0};
    c.place.axes << 0, 0, 1, 1, 0, 0, 0, 1, 0; // u = y, v = z, w = x
    c.stock = "ply";
    c.thickness = thick;
    return c;
}

/// Turned about z by an angle.
inline FrameChoice turned(FrameChoice c, double angle) {
    c.place.axes = Eigen::AngleAxisd(angle, Vec3::UnitZ()).toRotationMatrix() * c.place.axes;
    return c;
}

inline double common(const Polyhedron& a, const Polyhedron& b) {
    const auto v = occt::commonVolume(a, b);
    EXPECT_TRUE(v) << (v ? "" : v.error().message);
    return v ? *v : 1e9;
}

inline bool boxesMeet(const Polyhedron& a, const Polyhedron& b) {
    const Box3 l = bounds(a), r = bounds(b);
    return (l.min.array() < r.max.array()).all() && (r.min.array() < l.max.array()).all();
}

} // namespace slab
