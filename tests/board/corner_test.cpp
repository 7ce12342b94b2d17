// Corners put on edges of facet forms, and dimension lines drawn through a place.
#include "core/board/measure.h"
#include "core/board/outline_edits.h"
#include "tests/board/make.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

using namespace test;

Project drawnBlock(double length, double height, double depth, const std::string& scale) {
    Project p;
    p.units = "mm";
    p.scale = scale;
    NewForm wanted;
    wanted.kind = "facet";
    wanted.name = "block";
    const double s = parseRatio(scale).value();
    wanted.places = {{0, 0}, {length * s, 0}, {length * s, height * s}, {0, height * s}};
    wanted.size = depth * s;
    return applied(p, addForm(p, scopeIn(p), wanted));
}

const FacetShape& facetsOf(const Project& p) {
    return std::get<FacetShape>(p.forms.at(0).shape);
}

// Euler's formula for a closed polyhedron without holes, V − E + F = 2: a corner more is an edge more.
TEST(InsertCorner, theBodyStaysClosedAndAsLarge) {
    auto random = seeded(11);
    for (int round = 0; round < 24; ++round) {
        const std::string scale = round % 2 ? "2/5" : "1";
        const Project p = drawnBlock(uniform(random, 500, 2000), uniform(random, 300, 900),
                                     uniform(random, 200, 800), scale);
        const FacetShape& before = facetsOf(p);
        const FacetFace& face = before.faces[static_cast<std::size_t>(below(random, 6))];
        const auto k = static_cast<std::size_t>(below(random, 4));
        const auto refOf = [&](const std::string& name) {
            for (std::size_t i = 0; i < before.corners.size(); ++i)
                if (before.corners[i].name == name)
                    return PointRef{"/forms/0/corners/" + std::to_string(i), Handle::corner};
            return PointRef{};
        };
        const BoardView view = boardViews[static_cast<std::size_t>(below(random, 3))];
        const Vec2 at(uniform(random, 0, 2000), uniform(random, 0, 900));
        const Project next =
            applied(p, insertCorner(p, scopeIn(p), view,
                                    {refOf(face.corners[k]), refOf(face.corners[(k + 1) % 4])}, at));
        const FacetShape& after = facetsOf(next);
        ASSERT_EQ(after.corners.size(), 9u);
        std::size_t sides = 0;
        for (const FacetFace& f : after.faces) sides += f.corners.size();
        EXPECT_EQ(after.corners.size() - sides / 2 + after.faces.size(), 2u);
        const double s = parseRatio(scale).value();
        EXPECT_NEAR(bodyOf(next, s).volume, bodyOf(p, s).volume, 1e-5 * bodyOf(p, s).volume) << round;
    }
}

TEST(InsertCorner, refusesWhatIsNoEdge) {
    const Project p = drawnBlock(1000, 500, 400, "1");
    const auto corner = [](int i) {
        return PointRef{"/forms/0/corners/" + std::to_string(i), Handle::corner};
    };
    for (const auto& [a, b] :
         {std::pair(corner(0), corner(2)), std::pair(corner(0), corner(0)), std::pair(corner(0), corner(99)),
          std::pair(corner(0), PointRef{"/forms/7/corners/1", Handle::corner})}) {
        const auto edit = insertCorner(p, scopeIn(p), BoardView::side, {a, b}, {0, 0});
        ASSERT_FALSE(edit);
        EXPECT_EQ(edit.error().code, "no-edge");
        EXPECT_FALSE(edit.error().remedy.empty());
    }
    const Project hull = boat();
    EXPECT_FALSE(insertCorner(
        hull, scopeIn(hull), BoardView::side,
        {PointRef{"/forms/0/outline/0", Handle::corner}, PointRef{"/forms/0/outline/1", Handle::corner}},
        {0, 0}));
}

TEST(MoveLine, theLineRunsThroughThePlaceAndMeasuresTheSame) {
    auto random = seeded(12);
    for (const char* scale : {"1", "2/5"}) {
        Project p = boat(scale);
        for (const char* along : {"x", "z", ""})
            p.lines.push_back({"line", "side", "hull/forefoot", "hull/stem head", along, {}, {}, {}});
        const BoardScene before = sceneOf(p);
        for (int round = 0; round < 60; ++round) {
            const int line = round % 3;
            const Vec2 at(uniform(random, -1000, 6000), uniform(random, -1000, 3000));
            const Project next = applied(p, moveLine(p, scopeIn(p), line, at));
            const auto& was = before.of(BoardView::side).dimensions.at(static_cast<std::size_t>(line));
            const BoardScene scene = sceneOf(next);
            const auto& is = scene.of(BoardView::side).dimensions.at(static_cast<std::size_t>(line));
            EXPECT_DOUBLE_EQ(is.value, was.value);
            const Vec2 way = (is.lineTo - is.lineFrom).normalized();
            const double off = std::abs(cross2(way, Vec2(at - is.lineFrom)));
            // Between the two points a line along an axis goes to the nearer outside.
            const int across = line == 0 ? 1 : 0;
            const auto [low, high] = std::minmax(was.from[across], was.to[across]);
            const bool between = line < 2 && at[across] > low - 1 && at[across] < high + 1;
            EXPECT_LT(off, between ? (high - low) / 2 + 1.1 : 1e-2) << line << " at " << at.transpose();
        }
    }
}

TEST(MoveLine, refusesALineThatIsNotThere) {
    Project p = boat();
    EXPECT_EQ(moveLine(p, scopeIn(p), 0, {0, 0}).error().code, "no-such-place");
    p.lines.push_back({"line", "side", "hull/nowhere", "hull/stem head", "x", {}, {}, {}});
    EXPECT_EQ(moveLine(p, scopeIn(p), 0, {0, 0}).error().code, "no-such-point");
}

} // namespace
} // namespace slab
