#include "core/geometry/convex_hull.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyhedron.h"
#include "ui/fit/section.h"
#include <cstdlib>
#include <gtest/gtest.h>
#include <iostream>
#include <random>

namespace slab::ui {
namespace {

unsigned seed() {
    const char* text = std::getenv("SLABSIDE_SEED");
    const unsigned s = text ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 71;
    std::cout << "seed " << s << '\n';
    return s;
}

/// Prism over a polygon with one hole, z from 0 to 40: faces that are not convex, and faces with holes.
Polyhedron holedPrism(const Ring& outer, const Ring& hole) {
    Polyhedron out;
    std::vector<std::vector<int>> lower(2), upper(2);
    const Ring* rings[]{&outer, &hole};
    for (std::size_t r = 0; r < 2; ++r) {
        const Ring& ring = *rings[r];
        const int first = static_cast<int>(out.vertices.size()), n = static_cast<int>(ring.size());
        for (const auto& p : ring) out.vertices.emplace_back(p.x(), p.y(), 0);
        for (const auto& p : ring) out.vertices.emplace_back(p.x(), p.y(), 40);
        for (int i = 0; i < n; ++i) {
            const int k = (i + 1) % n;
            upper[r].push_back(first + n + i);
            lower[r].insert(lower[r].begin(), first + i);
            const Vec2 d = ring[static_cast<std::size_t>(k)] - ring[static_cast<std::size_t>(i)];
            const Vec3 normal = Vec3(d.y(), -d.x(), 0).normalized();
            out.faces.push_back({{normal, normal.dot(out.vertices[static_cast<std::size_t>(first + i)])},
                                 {{first + i, first + k, first + n + k, first + n + i}},
                                 "side"});
        }
    }
    out.faces.push_back({{-Vec3::UnitZ(), 0}, lower, "bottom"});
    out.faces.push_back({{Vec3::UnitZ(), 40}, upper, "top"});
    return out;
}

void checkBothSides(const Polyhedron& solid, const Plane& plane) {
    const Polyhedron kept = clipped(solid, plane);
    const Polyhedron rest = clipped(solid, {-plane.normal, -plane.offset});
    const double whole = volume(solid);
    EXPECT_NEAR(volume(kept) + volume(rest), whole, 1e-9 * whole);
    for (const auto* part : {&kept, &rest}) {
        if (part->faces.empty()) continue;
        EXPECT_TRUE(checkClosed(*part, 1e-6).has_value()) << checkClosed(*part, 1e-6).error().message;
    }
    for (const auto& v : kept.vertices) EXPECT_LE(plane.distance(v), 1e-8);
    // The caps are drawn: triangles add up to the same volume as the faces.
    double six = 0;
    const auto t = triangulate(kept);
    for (std::size_t i = 0; i + 2 < t.size(); i += 3) six += t[i].dot(t[i + 1].cross(t[i + 2]));
    EXPECT_NEAR(six / 6, volume(kept), 1e-9 * whole);
}

TEST(Section, HalfOfABoxIsHalfItsVolume) {
    const Polyhedron box = makeBox({0, 0, 0}, {100, 60, 40});
    const Polyhedron kept = clipped(box, {Vec3::UnitX(), 25});
    EXPECT_NEAR(volume(kept), 25 * 60 * 40, 1e-9);
    int caps = 0;
    for (const auto& face : kept.faces) caps += face.name == "section";
    EXPECT_EQ(caps, 1);
}

TEST(Section, NothingAndEverything) {
    const Polyhedron box = makeBox({0, 0, 0}, {100, 60, 40});
    EXPECT_TRUE(clipped(box, {Vec3::UnitX(), -1}).faces.empty());
    EXPECT_EQ(clipped(box, {Vec3::UnitX(), 200}), box);
    EXPECT_EQ(clipped(box, {Vec3::UnitX(), 100}), box); // flush with a face
}

TEST(Section, PiecesOfConvexSolidsAddUp) {
    std::mt19937 random(seed());
    std::uniform_real_distribution<double> at(-100, 100), unit(-1, 1);
    for (int round = 0; round < 60; ++round) {
        std::vector<Vec3> points;
        for (int i = 0; i < 14; ++i) points.emplace_back(at(random), at(random), at(random));
        const Vec3 normal = Vec3(unit(random), unit(random), unit(random)).normalized();
        checkBothSides(convexHull3(points), {normal, 40 * unit(random)});
    }
}

TEST(Section, PiecesOfSolidsWithHolesAndNotchesAddUp) {
    // A comb with a square hole: a plane across the teeth leaves several pieces.
    const Ring comb{{0, 0},   {120, 0}, {120, 80}, {100, 80}, {100, 30}, {80, 30},
                    {80, 80}, {60, 80}, {60, 30},  {40, 30},  {40, 80},  {0, 80}};
    const Ring hole{{10, 10}, {10, 25}, {30, 25}, {30, 10}};
    const Polyhedron solid = holedPrism(comb, hole);
    ASSERT_TRUE(checkClosed(solid).has_value());
    checkBothSides(solid, {Vec3::UnitY(), 50});
    checkBothSides(solid, {Vec3::UnitY(), 17}); // through the hole
    checkBothSides(solid, {Vec3::UnitY(), 30}); // flush with the roots of the teeth
    checkBothSides(solid, {Vec3::UnitZ(), 13});
    checkBothSides(solid, {Vec3::UnitX(), 20});
    checkBothSides(solid, {Vec3(1, 1, 0.3).normalized(), 70});
    const Polyhedron teeth = clipped(solid, {-Vec3::UnitY(), -50});
    int caps = 0;
    for (const auto& face : teeth.faces) caps += face.name == "section";
    EXPECT_EQ(caps, 3);
}

} // namespace
} // namespace slab::ui
