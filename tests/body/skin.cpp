#include "core/body/skin.h"
#include "core/geometry/convex.h"
#include "tests/body/make.h"
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;

namespace {

std::vector<Vec3> icosahedron() {
    const double g = std::numbers::phi;
    std::vector<Vec3> points;
    for (double a : {-1.0, 1.0})
        for (double b : {-g, g})
            for (int turn = 0; turn < 3; ++turn) {
                Vec3 p;
                p[turn] = 0;
                p[(turn + 1) % 3] = a;
                p[(turn + 2) % 3] = b;
                points.push_back(300 * p);
            }
    return points;
}

std::vector<Vec3> dodecahedron() {
    const double g = std::numbers::phi;
    std::vector<Vec3> points;
    for (int i = 0; i < 8; ++i)
        points.emplace_back(i & 1 ? 300 : -300, i & 2 ? 300 : -300, i & 4 ? 300 : -300);
    for (double a : {-1 / g, 1 / g})
        for (double b : {-g, g})
            for (int turn = 0; turn < 3; ++turn) {
                Vec3 p;
                p[turn] = 0;
                p[(turn + 1) % 3] = a;
                p[(turn + 2) % 3] = b;
                points.push_back(300 * p);
            }
    return points;
}

std::vector<Vec3> octahedron() {
    return {{250, 0, 0}, {-250, 0, 0}, {0, 250, 0}, {0, -250, 0}, {0, 0, 250}, {0, 0, -250}};
}

} // namespace

// Dihedral angles of the regular solids, computed from their closed forms (reference-values 7.2):
// arccos(1/3), π/2, arccos(−1/3), 2 arctan φ, 2 arctan φ² .
TEST(Skin, dihedralsOfRegularSolids) {
    const double g = std::numbers::phi;
    struct Case {
        const char* name;
        std::vector<Vec3> points;
        std::size_t faces, edges;
        double exact, published;
    };
    const std::vector<Vec3> tetrahedron{
        {100, 100, 100}, {100, -100, -100}, {-100, 100, -100}, {-100, -100, 100}};
    const std::vector<Case> cases{
        {"tetrahedron", tetrahedron, 4, 6, std::acos(1.0 / 3), 70.5288},
        {"cube", makeBox({-1, -1, -1}, {1, 1, 1}).vertices, 6, 12, std::numbers::pi / 2, 90},
        {"octahedron", octahedron(), 8, 12, std::acos(-1.0 / 3), 109.4712},
        {"dodecahedron", dodecahedron(), 12, 30, 2 * std::atan(g), 116.5651},
        {"icosahedron", icosahedron(), 20, 30, 2 * std::atan(g * g), 138.1897}};
    for (const Case& c : cases) {
        const auto skin = makeSkin(toPolyhedron(ConvexSolid{ConvexSolid::Kind::hull, c.points, 0}));
        ASSERT_TRUE(skin) << c.name << ": " << skin.error().message;
        EXPECT_EQ(skin->faces.size(), c.faces) << c.name;
        EXPECT_EQ(skin->edges.size(), c.edges) << c.name;
        for (const SkinEdge& e : skin->edges) {
            EXPECT_NEAR(e.dihedral, c.exact, 1e-12) << c.name;
            EXPECT_NEAR(degrees(e.dihedral), c.published, 5e-5) << c.name;
        }
    }
}

// A valley: the inside angle of an L-shaped body's inner corner is 270°.
TEST(Skin, valleyEdgesAreOver180Degrees) {
    const Body body = bodyOf(
        projectOf({boxForm("low", {0, 0, 0}, {200, 100, 50}), boxForm("high", {0, 0, 0}, {100, 100, 150})}));
    ASSERT_EQ(body.skin.bodies, 1);
    int valleys = 0;
    for (const SkinEdge& e : body.skin.edges) {
        const bool valley = e.dihedral > std::numbers::pi + 1e-9;
        valleys += valley ? 1 : 0;
        EXPECT_NEAR(e.dihedral, valley ? 1.5 * std::numbers::pi : std::numbers::pi / 2, 1e-12);
    }
    EXPECT_EQ(valleys, 1);
    ASSERT_NE(edge(body.skin, "low/top", "high/front"), nullptr);
    EXPECT_NEAR(edge(body.skin, "low/top", "high/front")->dihedral, 1.5 * std::numbers::pi, 1e-12);
}

// Sum over a convex polyhedron of (π − dihedral) · edge length = 2 × mean width integral; a check that needs
// no single value: Σ (π − θ)·l is the same for the body and for the body turned and mirrored.
TEST(Skin, dihedralsDoNotDependOnPosition) {
    auto random = seeded(5);
    for (int round = 0; round < 40; ++round) {
        std::vector<Vec3> points;
        for (int i = 0; i < 14; ++i)
            points.emplace_back(uniform(random, -300, 300), uniform(random, -300, 300),
                                uniform(random, -300, 300));
        const Polyhedron solid = toPolyhedron(ConvexSolid{ConvexSolid::Kind::hull, points, 0});
        const Mat3 turn =
            Eigen::AngleAxisd(uniform(random, 0, 6), Vec3(1, uniform(random, -1, 1), 2).normalized())
                .toRotationMatrix();
        const auto here = makeSkin(solid),
                   there = makeSkin(moved(solid, turn, {1000, 2000, 300}, round % 2 == 1));
        ASSERT_TRUE(here && there);
        ASSERT_EQ(here->edges.size(), there->edges.size());
        EXPECT_EQ(here->vertices.size() + here->faces.size(), here->edges.size() + 2) << "Euler";
        double sumHere = 0, sumThere = 0;
        const auto add = [](const Skin& s, double& sum) {
            for (const SkinEdge& e : s.edges) {
                EXPECT_LT(e.dihedral, std::numbers::pi + 1e-9);
                sum += (std::numbers::pi - e.dihedral) *
                       (s.vertices[std::size_t(e.a)] - s.vertices[std::size_t(e.b)]).norm();
            }
        };
        add(*here, sumHere);
        add(*there, sumThere);
        EXPECT_NEAR(sumHere, sumThere, 1e-9 * sumHere);
    }
}

TEST(Skin, edgesRunCounterClockwiseInTheirLeftFace) {
    const auto skin = makeSkin(makeBox({0, 0, 0}, {1, 2, 3}));
    ASSERT_TRUE(skin);
    for (const SkinEdge& e : skin->edges) {
        const auto& loop = skin->faces[std::size_t(e.left)].loops[0];
        const auto a = std::find(loop.begin(), loop.end(), e.a);
        ASSERT_NE(a, loop.end());
        EXPECT_EQ(a + 1 == loop.end() ? loop.front() : *(a + 1), e.b);
    }
}

TEST(Skin, refusesWhatIsNotABody) {
    Polyhedron open = makeBox({0, 0, 0}, {1, 1, 1});
    open.faces.pop_back();
    EXPECT_EQ(makeSkin(open).error().code, "not-closed");
    EXPECT_EQ(makeSkin({}).error().code, "not-closed");
    // Two boxes that share an edge, and two that share a corner, as one polyhedron.
    for (const Vec3& at : {Vec3(1, 1, 0), Vec3(1, 1, 1)}) {
        Polyhedron both = makeBox({0, 0, 0}, {1, 1, 1});
        const Polyhedron other = makeBox(at, at + Vec3(1, 1, 1));
        std::vector<int> to;
        for (const Vec3& p : other.vertices) {
            const auto same = std::find(both.vertices.begin(), both.vertices.end(), p);
            to.push_back(static_cast<int>(same - both.vertices.begin()));
            if (same == both.vertices.end()) both.vertices.push_back(p);
        }
        for (PolyFace f : other.faces) {
            for (auto& loop : f.loops)
                for (int& v : loop) v = to[std::size_t(v)];
            both.faces.push_back(f);
        }
        EXPECT_EQ(makeSkin(both).error().code, "edge-contact") << at.transpose();
    }
}

TEST(Skin, polyhedronOfOneBodyOrAll) {
    Project p = projectOf({boxForm("a", {0, 0, 0}, {10, 10, 10}), boxForm("b", {0, 0, 10}, {10, 10, 30})});
    p.forms[1].standing = true;
    const Body body = bodyOf(p);
    ASSERT_EQ(body.skin.bodies, 2);
    EXPECT_NEAR(volume(toPolyhedron(body.skin, 0)), 1000, 1e-9);
    EXPECT_NEAR(volume(toPolyhedron(body.skin, 1)), 2000, 1e-9);
    EXPECT_NEAR(volume(toPolyhedron(body.skin)), 3000, 1e-9);
    EXPECT_NEAR(body.volume, 3000, 1e-9);
}
