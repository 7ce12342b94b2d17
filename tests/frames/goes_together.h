#pragma once
// Whether boards really go together as told: by the solids that they sweep on their ways.
#include "core/frames/frames.h"
#include "core/geometry/occt.h"
#include "core/plates/flat_part.h"
#include "core/plates/prisms.h"
#include <algorithm>
#include <gtest/gtest.h>

namespace slab {

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

/// All that a board takes on its straight way home from 3 m off, as one solid. Its way lies in its own plane,
/// or square to it.
inline Polyhedron sweptSolid(const Plate& moves, const Vec3& from) {
    FlatPart part{"swept", "swept", "", moves.thickness, moves.frame, {moves.boundary.outer, {}}};
    for (const PanelLoop& hole : moves.holes) part.outline.holes.push_back(hole.outer);
    const Vec3 way = 3000 * (moves.frame.axes.transpose() * from);
    if (std::abs(way.z()) > 1500) {
        part.thickness += 3000;
        if (way.z() > 0) part.frame.origin += 3000 * from;
    } else {
        std::vector<Polygon> swept;
        for (Ring ring : plates::convexParts(part.outline)) {
            const std::size_t n = ring.size();
            for (std::size_t i = 0; i < n; ++i) ring.push_back(ring[i] + way.head<2>());
            swept.push_back({convexHull(std::move(ring)), {}});
        }
        swept = unite(swept);
        EXPECT_EQ(swept.size(), 1U) << moves.name;
        if (!swept.empty()) part.outline = swept.front();
    }
    const auto solid = flatPart(part);
    EXPECT_TRUE(solid) << moves.name << ": " << (solid ? "" : solid.error().message);
    return solid ? solid->solid : Polyhedron{};
}

/// What a board sweeps of those that stand at its turn, by OpenCASCADE, over the board's own volume.
inline double sweptShare(const FrameSet& set, std::size_t turn) {
    const Plate& moves = *boardNamed(set, set.order[turn].board);
    const Polyhedron swept = sweptSolid(moves, set.order[turn].from);
    double sum = 0;
    for (std::size_t k = 0; k < turn; ++k) {
        const auto volume = occt::commonVolume(swept, boardNamed(set, set.order[k].board)->solid);
        EXPECT_TRUE(volume) << moves.name << ": " << (volume ? "" : volume.error().message);
        sum += volume ? *volume : 1e9;
    }
    return sum / moves.volume;
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
