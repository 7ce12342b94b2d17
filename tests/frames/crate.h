#pragma once
// Frames in a plain box.
#include "tests/frames/goes_together.h"
#include "tests/frames/make.h"
#include <algorithm>
#include <numbers>

namespace slab {

/// Inside 980 x 580 x 480, from -290 to 290 across and 10 to 490 up.
struct Crate {
    Body body = bodyOf(projectOf({boxForm("box", {0, -300, 0}, {1000, 300, 500})}));
    PlateSet plates = platesOf(body, thick);
    [[nodiscard]] FrameSet make(const std::vector<FrameChoice>& choices,
                                const std::vector<FitSolid>& solids = {}) const {
        return makeFrames(choices, body.skin, plates.plates, solids);
    }
};

inline FrameChoice lengthwise(const std::string& name, double y) {
    FrameChoice c = turned(across(name, 0), std::numbers::pi / 2); // normal along y, 500 along the box
    c.place.origin = {500, y, 0};
    return c;
}
inline FrameChoice webbed(FrameChoice c, double web, double thickness = thick) {
    c.web = web;
    c.thickness = thickness;
    c.gap = 1;
    c.fit = 0.3;
    return c;
}
/// A shelf.
inline FrameChoice level(const std::string& name, double z) {
    FrameChoice c;
    c.name = name;
    c.place.origin = {0, 0, z};
    c.stock = "ply";
    c.thickness = thick;
    return c;
}
inline FrameChoice pitched(FrameChoice c, double angle) {
    c.place.axes = Eigen::AngleAxisd(angle, Vec3::UnitY()).toRotationMatrix() * c.place.axes;
    return c;
}
inline FitSolid block(const Vec3& min, const Vec3& max) {
    return {"donor/block", "donor", makeBoxSolid(min, max), 20, false, {}};
}

inline std::vector<const Plate*> boardsOf(const FrameSet& set, const std::string& name) {
    std::vector<const Plate*> found;
    for (const Plate& p : set.parts)
        if (p.form == "frames/" + name) found.push_back(&p);
    return found;
}

} // namespace slab
