#pragma once
// Frames in a plain box, and whether their boards really go together as told.
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

inline std::vector<std::string> orderOf(const FrameSet& set) {
    std::vector<std::string> names;
    for (const FrameStep& step : set.order) names.push_back(step.board.substr(std::string("frames/").size()));
    return names;
}
inline bool goesIn(const FrameSet& set, const std::string& frame) {
    return std::any_of(set.order.begin(), set.order.end(),
                       [&](const FrameStep& s) { return s.frame == frame; });
}
inline const Plate* boardNamed(const FrameSet& set, const std::string& name) {
    for (const Plate& p : set.parts)
        if (p.name == name) return &p;
    return nullptr;
}

/// How deep a board stands in another anywhere on its straight way home from 3 m off, by the hulls of its
/// convex cells at both ends; 0 for what stays apart, mm.
inline double sweptDepth(const Plate& moves, const Vec3& from, const Plate& stands) {
    double most = 0;
    for (const ConvexSolid& cell : moves.cells) {
        ConvexSolid swept = cell;
        for (const Vec3& p : cell.points) swept.points.push_back(p + 3000 * from);
        const Box3 box = bounds(swept);
        for (const ConvexSolid& other : stands.cells) {
            const Box3 there = bounds(other);
            if ((box.min.array() < there.max.array()).all() && (there.min.array() < box.max.array()).all())
                most = std::max(most, nearest(swept, other).depth);
        }
    }
    return most;
}

/// Each board once, from far away to its place along the way told: it meets none that stands.
inline void expectGoesTogether(const FrameSet& set, const std::string& what, double within = 1e-4) {
    EXPECT_EQ(set.order.size(), set.parts.size()) << what;
    for (std::size_t i = 0; i < set.order.size(); ++i) {
        const FrameStep& step = set.order[i];
        const Plate* moves = boardNamed(set, step.board);
        ASSERT_TRUE(moves) << what << ": " << step.board;
        EXPECT_NEAR(step.from.norm(), 1, 1e-9) << what;
        for (std::size_t k = 0; k < i; ++k) {
            const Plate* stands = boardNamed(set, set.order[k].board);
            ASSERT_TRUE(stands && stands != moves) << what;
            EXPECT_LT(sweptDepth(*moves, step.from, *stands), within)
                << what << ": " << step.board << " on its way past " << stands->name;
        }
        for (const std::string& other : step.onto)
            EXPECT_TRUE(std::any_of(set.order.begin(), set.order.begin() + static_cast<std::ptrdiff_t>(i),
                                    [&](const FrameStep& s) { return s.board == other; }))
                << what << ": " << step.board << " onto " << other;
    }
}

} // namespace slab
