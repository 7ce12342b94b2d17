// Distances and depths of convex solids against closed forms, all pairs of features, the separating bound,
// and FCL.
#include "tests/geometry/convex_cases.h"
#include <gmock/gmock.h>
#include <numbers>
#ifdef SLABSIDE_HAVE_FCL
#include <fcl/narrowphase/distance.h>
#endif

namespace slab {
namespace {

using Long = long double;
using LVec = Eigen::Matrix<Long, 3, 1>;

Long segmentDistance(const LVec& p, const LVec& q, const LVec& r, const LVec& s) {
    // Every candidate: both ends against the other segment, and the common perpendicular when it falls inside
    // both.
    const auto toSegment = [](const LVec& x, const LVec& a, const LVec& b) {
        const LVec d = b - a;
        const Long t = std::clamp<Long>((x - a).dot(d) / std::max<Long>(d.squaredNorm(), 1e-30L), 0, 1);
        return (x - a - t * d).norm();
    };
    Long best = std::min({toSegment(p, r, s), toSegment(q, r, s), toSegment(r, p, q), toSegment(s, p, q)});
    const LVec d = q - p, e = s - r, n = d.cross(e), w = r - p;
    const Long nn = n.squaredNorm();
    if (nn > 0) {
        const Long t = w.cross(e).dot(n) / nn, u = w.cross(d).dot(n) / nn;
        if (t >= 0 && t <= 1 && u >= 0 && u <= 1) best = std::min(best, std::abs(w.dot(n)) / std::sqrt(nn));
    }
    return best;
}

/// Vertex against face, where the foot falls inside it.
Long vertexFace(const ConvexSolid& a, const Polyhedron& b) {
    Long best = 1e30L;
    for (const PolyFace& f : b.faces) {
        const auto corner = [&](std::size_t i) -> LVec {
            return b.vertices[static_cast<std::size_t>(f.loops[0][i % f.loops[0].size()])].cast<Long>();
        };
        const LVec n = (corner(1) - corner(0)).cross(corner(2) - corner(0)).normalized();
        for (const Vec3& v : a.points) {
            const LVec x = v.cast<Long>();
            bool inside = true;
            for (std::size_t i = 0; i < f.loops[0].size() && inside; ++i)
                inside = n.dot((corner(i + 1) - corner(i)).cross(x - corner(i))) >= 0;
            if (inside) best = std::min(best, std::abs(n.dot(x - corner(0))));
        }
    }
    return best;
}

/// Least distance of two polyhedra that are apart, over all pairs of features, in extended precision.
double featureDistance(const ConvexSolid& a, const ConvexSolid& b) {
    const Polyhedron ha = convexHull3(a.points), hb = convexHull3(b.points);
    Long best = std::min(vertexFace(a, hb), vertexFace(b, ha));
    const auto edges = [](const ConvexSolid& s, const Polyhedron& hull) {
        std::vector<std::pair<LVec, LVec>> out;
        for (const PolyFace& f : hull.faces)
            for (std::size_t i = 0; i < f.loops[0].size(); ++i)
                out.emplace_back(
                    hull.vertices[static_cast<std::size_t>(f.loops[0][i])].cast<Long>(),
                    hull.vertices[static_cast<std::size_t>(f.loops[0][(i + 1) % f.loops[0].size()])]
                        .cast<Long>());
        if (out.empty()) out.emplace_back(s.points.front().cast<Long>(), s.points.back().cast<Long>());
        return out;
    };
    for (const auto& [p, q] : edges(a, ha))
        for (const auto& [r, s] : edges(b, hb)) best = std::min(best, segmentDistance(p, q, r, s));
    return static_cast<double>(best) - a.radius - b.radius;
}

void expectSound(const ConvexSolid& a, const ConvexSolid& b, const Nearest& n, double tolerance) {
    if (n.meets) {
        // The common point lies in both: no direction separates it.
        for (int axis = 0; axis < 3; ++axis)
            for (const double sign : {1.0, -1.0})
                for (const ConvexSolid* s : {&a, &b})
                    EXPECT_LE(sign * n.onA[axis], supportOf(*s, sign * Vec3::Unit(axis)) + 1e-6);
        EXPECT_EQ(n.onA, n.onB);
        EXPECT_EQ(n.distance, 0);
        return;
    }
    EXPECT_EQ(n.depth, 0);
    EXPECT_NEAR((n.onA - n.onB).norm(), n.distance, 1e-9 + 1e-12 * n.distance);
    const Vec3 d = (n.onB - n.onA).normalized();
    // A slab across d separates them, and no wider one can be found: so the distance is the least.
    EXPECT_GE(-supportOf(a, d) - supportOf(b, -d), n.distance - tolerance);
}

TEST(Nearest, BoxesHaveClosedForms) {
    const ConvexSolid a = makeBoxSolid({0, 0, 0}, {10, 10, 10});
    const Nearest face = nearest(a, makeBoxSolid({13, 2, 2}, {20, 5, 5}));
    EXPECT_NEAR(face.distance, 3, 1e-12);
    EXPECT_NEAR(face.onA.x(), 10, 1e-12);
    EXPECT_NEAR(face.onB.x(), 13, 1e-12);
    EXPECT_NEAR(nearest(a, makeBoxSolid({13, 14, 2}, {20, 20, 5})).distance, 5, 1e-12);
    EXPECT_NEAR(nearest(a, makeBoxSolid({12, 13, 16}, {20, 20, 20})).distance, 7, 1e-12);
    const Nearest met = nearest(a, makeBoxSolid({8, 3, -5}, {20, 5, 50}));
    EXPECT_TRUE(met.meets);
    EXPECT_NEAR(met.depth, 2, 1e-12);
    const Nearest inside = nearest(a, makeBoxSolid({4, 4, 3}, {5, 5, 4}));
    EXPECT_NEAR(inside.depth, 4, 1e-12); // out through z = 0: its top 4 above it
    const Nearest touching = nearest(a, makeBoxSolid({10, 0, 0}, {20, 10, 10}));
    EXPECT_TRUE(touching.meets);
    EXPECT_NEAR(touching.depth, 0, 1e-12);
}

TEST(Nearest, CapsulesAndBallsHaveClosedForms) {
    const ConvexSolid a = makeCapsule({0, 0, 0}, {100, 0, 0}, 10);
    EXPECT_NEAR(nearest(a, makeCapsule({50, -50, 40}, {50, 50, 40}, 5)).distance, 25, 1e-12);
    EXPECT_NEAR(nearest(a, makeCapsule({130, 0, 40}, {130, 0, 40}, 5)).distance, 50 - 15, 1e-12);
    const Nearest met = nearest(a, makeCapsule({50, -50, 12}, {50, 50, 12}, 5));
    EXPECT_TRUE(met.meets);
    EXPECT_NEAR(met.depth, 3, 1e-12);
    EXPECT_NEAR(met.onA.z(), 8, 1e-12); // 12 shared out by the radii
    EXPECT_NEAR(nearest(a, makeBoxSolid({0, 0, 30}, {10, 10, 40})).distance, 20, 1e-12);
    // Cores meet: the ball's centre is 4 deep in the box, and its radius comes on top.
    const Nearest deep = nearest(makeCapsule({5, 5, 4}, {5, 5, 4}, 3), makeBoxSolid({0, 0, 0}, {10, 10, 10}));
    EXPECT_NEAR(deep.depth, 7, 1e-12);
}

TEST(Nearest, CylindersHaveClosedForms) {
    const ConvexSolid wheel = makeCylinder({0, -20, 170}, {0, 20, 170}, 170);
    // Side, end, rim against a face; rim against an edge and a corner.
    EXPECT_NEAR(nearest(wheel, makeBoxSolid({190, -100, 0}, {200, 100, 400})).distance, 20, 1e-7);
    EXPECT_NEAR(nearest(wheel, makeBoxSolid({-300, 45, -50}, {300, 57, 400})).distance, 25, 1e-7);
    EXPECT_NEAR(nearest(wheel, makeBoxSolid({-300, -100, -30}, {300, 100, -18})).distance, 18, 1e-7);
    EXPECT_NEAR(nearest(wheel, makeBoxSolid({200, 60, 170}, {300, 80, 180})).distance, std::hypot(30, 40),
                1e-7);
    const Vec3 corner(300, 50, 170 + 200);
    EXPECT_NEAR(nearest(wheel, makeBoxSolid(corner, corner + Vec3(9, 9, 9))).distance,
                std::hypot(std::hypot(300, 200) - 170, 30), 1e-7);
    // A plate that leans 45° over the rim: the rim's farthest point along its normal.
    const double s = std::sqrt(0.5);
    const Vec3 n(0, s, s), at = Vec3(0, 20, 340) + 12 * n;
    const Vec3 u(1, 0, 0), v(0, -s, s);
    ConvexSolid plate;
    for (const double i : {-500.0, 500.0})
        for (const double j : {-500.0, 500.0})
            for (const double t : {0.0, 12.7}) plate.points.push_back(at + i * u + j * v + t * n);
    EXPECT_NEAR(nearest(wheel, plate).distance, 12, 1e-7);
    // Two cylinders: parallel axes, and rim over rim.
    EXPECT_NEAR(nearest(wheel, makeCylinder({400, -20, 170}, {400, 20, 170}, 30)).distance, 200, 1e-7);
    EXPECT_NEAR(nearest(wheel, makeCylinder({0, 50, 170}, {0, 90, 170}, 30)).distance, 30, 1e-7);
}

TEST(Nearest, CylinderDepthsHaveClosedForms) {
    const ConvexSolid post = makeCylinder({0, 0, 0}, {0, 0, 400}, 40);
    // Into its side, through its end, and a corner near its axis.
    EXPECT_NEAR(nearest(post, makeBoxSolid({30, -200, 100}, {500, 200, 300})).depth, 10, 1e-9);
    EXPECT_NEAR(nearest(post, makeBoxSolid({-200, -200, 395}, {200, 200, 500})).depth, 5, 1e-9);
    EXPECT_NEAR(nearest(post, makeCapsule({10, 0, 200}, {10, 0, 200}, 0)).depth, 30, 1e-9);
    EXPECT_NEAR(nearest(post, makeCylinder({60, 0, 0}, {60, 0, 400}, 30)).depth, 10, 1e-9);
    EXPECT_NEAR(nearest(post, makeCylinder({60, -200, 200}, {60, 200, 200}, 30)).depth, 10, 1e-9);
    // An edge that leans 45° over the rim, 5 deep along its normal (rim point at (40, 0, 400)).
    const double s = std::sqrt(0.5);
    const Vec3 n(s, 0, s), u(0, 1, 0), v(-s, 0, s), at = Vec3(40, 0, 400) - 5 * n;
    ConvexSolid plate;
    for (const double i : {-500.0, 500.0})
        for (const double j : {-500.0, 500.0})
            for (const double t : {0.0, 60.0}) plate.points.push_back(at + i * u + j * v + t * n);
    EXPECT_NEAR(nearest(post, plate).depth, 5, 1e-9);
}

TEST(Nearest, PolyhedraMatchAllPairsOfFeatures) {
    auto random = seeded(21);
    double worst = 0;
    int apart = 0;
    for (int i = 0; i < 4000 / slowdown; ++i) {
        const ConvexSolid a = randomSolid(random, i % 3), b = randomSolid(random, below(random, 3));
        const Nearest n = nearest(a, b);
        expectSound(a, b, n, 1e-6);
        if (n.meets) continue;
        ++apart;
        const double error = std::abs(n.distance - featureDistance(a, b));
        worst = std::max(worst, error);
        ASSERT_LE(error, 1e-9) << "round " << i; // 1e-9 of a size of about 1000 mm would be 1e-6
    }
    std::printf("%d pairs apart, largest error %.3g mm\n", apart, worst);
    EXPECT_GT(apart, 2000 / slowdown);
}

TEST(Nearest, NearlyParallelFacesAndTinyGaps) {
    auto random = seeded(22);
    for (int i = 0; i < 2000 / slowdown; ++i) {
        const ConvexSolid a = randomSolid(random, 0, 100);
        const Box3 box = bounds(a);
        const double gap = std::pow(10, uniform(random, -6, 2)),
                     lean = std::pow(10, uniform(random, -12, -1));
        // A plate over the top face, turned by `lean` about its middle and lifted by the gap.
        const Vec3 n = Vec3(lean, uniform(random, -lean, lean), 1).normalized(), u = n.unitOrthogonal(),
                   v = n.cross(u);
        const Vec3 at(box.max.x() / 2 + box.min.x() / 2, box.max.y() / 2 + box.min.y() / 2,
                      box.max.z() + gap);
        ConvexSolid plate;
        double below = 0;
        for (const double p : {-100.0, 100.0})
            for (const double q : {-70.0, 70.0}) {
                const Vec3 w = p * u + q * v;
                below = std::max(below, -w.z());
                plate.points.push_back(at + w);
                plate.points.push_back(at + w + 13 * n);
            }
        for (Vec3& p : plate.points) p.z() += 30 * lean + below;
        const Nearest found = nearest(a, plate);
        if (found.meets) {
            EXPECT_LE(found.depth, 300 * lean) << i;
            continue;
        }
        EXPECT_NEAR(found.distance, featureDistance(a, plate), 1e-9)
            << i << " gap " << gap << " lean " << lean;
    }
}

/// The separating slab widened over its direction, from `d` on: a lower bound that must reach the distance.
double widestSlab(const ConvexSolid& a, const ConvexSolid& b, Vec3 d) {
    const auto slab = [&](const Vec3& e) { return -supportOf(a, e) - supportOf(b, -e); };
    double low = slab(d);
    for (double step = 1e-5; step > 1e-11;) {
        const Vec3 p = d.unitOrthogonal(), q = d.cross(p);
        bool better = false;
        for (int k = 0; k < 8 && !better; ++k) {
            const double angle = k * std::numbers::pi / 4;
            const Vec3 e = (d + step * (std::cos(angle) * p + std::sin(angle) * q)).normalized();
            if (slab(e) > low) {
                low = slab(e);
                d = e;
                better = true;
            }
        }
        if (!better) step /= 2;
    }
    return low;
}

TEST(Nearest, CylindersAreCertifiedFromBothSides) {
    auto random = seeded(23);
    double worst = 0;
    for (int i = 0; i < 3000 / slowdown; ++i) {
        const ConvexSolid a = randomSolid(random, 3), b = randomSolid(random, i % 4);
        const Nearest n = nearest(a, b);
        expectSound(a, b, n, 1e-4);
        if (n.meets) continue;
        const double low = widestSlab(a, b, (n.onB - n.onA).normalized());
        worst = std::max(worst, n.distance - low);
        ASSERT_LE(n.distance - low, 1e-7) << "round " << i;
    }
    std::printf("largest doubt %.3g mm\n", worst);
}

TEST(Nearest, DepthIsTheLeastWayOut) {
    auto random = seeded(24);
    int met = 0;
    for (int i = 0; i < 1500 / slowdown; ++i) {
        const ConvexSolid a = randomSolid(random, i % 4, 120), b = randomSolid(random, below(random, 4), 120);
        const Nearest n = nearest(a, b);
        if (!n.meets) continue;
        ++met;
        expectSound(a, b, n, 0);
        // No direction needs less; and along the best of many the depth is nearly reached.
        double least = 1e300;
        for (int k = 0; k < 500; ++k) {
            const Vec3 e = randomPoint(random, 1).normalized();
            least = std::min(least, supportOf(a, e) + supportOf(b, -e));
        }
        EXPECT_LE(n.depth, least + 1e-6) << "round " << i;
    }
    EXPECT_GT(met, 200 / slowdown);
}

/// The point of a cylinder farthest along a direction.
Vec3 rimAlong(const ConvexSolid& s, const Vec3& d) {
    const Vec3 u = (s.points[1] - s.points[0]).normalized();
    return s.points[d.dot(u) > 0 ? 1 : 0] + s.radius * (d - d.dot(u) * u).normalized();
}

// Two tubes, one of them long, rim over rim along a known direction: no more than that way parts them.
TEST(Nearest, RimsOfLongTubesAreNoDeeperThanTheyWerePut) {
    auto random = seeded(2);
    for (int i = 0; i < 800 / slowdown; ++i) {
        const double length = std::array{150.0, 1000.0, 10000.0, 60000.0}[static_cast<std::size_t>(i) % 4];
        const Vec3 along = randomPoint(random, 1).normalized(), at = randomPoint(random, 100);
        const ConvexSolid a =
            makeCylinder(at - 0.02 * length * along, at + length * along, uniform(random, 5, 200));
        ConvexSolid b = makeCylinder(Vec3::Zero(), randomPoint(random, 300), uniform(random, 5, 200));
        const Vec3 n = randomPoint(random, 1).normalized();
        const double deep = uniform(random, 0.1, 10);
        b = translated(b, rimAlong(a, n) - rimAlong(b, -n) - deep * n); // the overlap along n
        const Nearest r = nearest(a, b);
        ASSERT_TRUE(r.meets) << "round " << i;
        EXPECT_LE(r.depth, deep + 1e-6) << "round " << i << ", length " << length;
        EXPECT_FALSE(nearest(a, translated(b, (deep + 1e-3) * n)).meets) << "round " << i;
    }
}

TEST(Nearest, MovingOutByTheDepthParts) {
    auto random = seeded(25);
    int met = 0;
    for (int i = 0; i < 800 / slowdown; ++i) {
        const ConvexSolid a = randomSolid(random, i % 2, 150), b = randomSolid(random, below(random, 2), 150);
        const Nearest n = nearest(a, b);
        if (!n.meets || n.depth < 1) continue;
        ++met;
        // Less than the depth never parts them, whatever the direction.
        for (int k = 0; k < 30; ++k)
            EXPECT_TRUE(
                nearest(translated(a, randomPoint(random, 1).normalized() * (n.depth * 0.999)), b).meets);
    }
    EXPECT_GT(met, 50 / slowdown);
}

TEST(Nearest, SameBothWaysRoundAndWhereverItStands) {
    auto random = seeded(26);
    for (int i = 0; i < 1000 / slowdown; ++i) {
        const ConvexSolid a = randomSolid(random, i % 4), b = randomSolid(random, below(random, 4));
        const Nearest n = nearest(a, b), back = nearest(b, a);
        EXPECT_EQ(n.meets, back.meets);
        EXPECT_NEAR(n.distance, back.distance, 1e-7);
        EXPECT_NEAR(n.depth, back.depth, 1e-6);
        const Vec3 by = randomPoint(random, 3000);
        EXPECT_NEAR(nearest(translated(a, by), translated(b, by)).distance, n.distance, 1e-7);
    }
}

TEST(Nearest, ASolidMeetsItself) {
    auto random = seeded(27);
    for (int kind = 0; kind < 4; ++kind) {
        const ConvexSolid a = randomSolid(random, kind);
        const Nearest n = nearest(a, a);
        EXPECT_TRUE(n.meets);
        EXPECT_GT(n.depth, 1);
    }
}

/// A tube over one wedge of a flat ring: nearest features lie on rims and edges that mirror each other.
TEST(Nearest, ATubeOverARingOfWedgesIsApart) {
    constexpr double deg = std::numbers::pi / 180, high = 12;
    constexpr int wedges = 60;
    for (int turn = 0; turn < 360; turn += 15 * slowdown)
        for (double rise = 0; rise <= 40; rise += 2.5) {
            const Eigen::AngleAxisd about(turn * deg, Vec3::UnitZ());
            const Vec3 along = about * Vec3(std::cos(rise * deg), 0, std::sin(rise * deg));
            const Vec3 pivot = about * Vec3(50, 0, 250);
            const ConvexSolid tube = makeCylinder(pivot - 250 * along, pivot + 700 * along, 45);
            // The tube's lowest point lies above the ring's upper face, so a level plane parts them.
            const double lowest =
                std::min(tube.points[0].z(), tube.points[1].z()) - 45 * std::cos(rise * deg);
            ASSERT_GT(lowest, high);
            for (int i = 0; i < wedges; ++i) {
                ConvexSolid wedge;
                for (const double a :
                     {2 * std::numbers::pi * i / wedges, 2 * std::numbers::pi * (i + 1) / wedges})
                    for (const double r : {203.3, 273.0})
                        for (const double z : {0.0, high})
                            wedge.points.emplace_back(r * std::cos(a), r * std::sin(a), z);
                const Nearest n = nearest(tube, wedge);
                ASSERT_FALSE(n.meets) << "turn " << turn << " rise " << rise << " wedge " << i;
                ASSERT_GE(n.distance, lowest - high - 1e-6);
                ASSERT_NEAR(widestSlab(tube, wedge, (n.onB - n.onA).normalized()), n.distance, 1e-6);
            }
        }
}

#ifdef SLABSIDE_HAVE_FCL
// FCL (Flexible Collision Library, Debian libfcl-dev) as reference; its own tolerance is 1e-6 for boxes by
// GJK.
TEST(Nearest, AgreesWithFcl) {
    auto random = seeded(28);
    int compared = 0;
    for (int i = 0; i < 300 / slowdown; ++i) {
        const auto boxAt = [&](fcl::Transform3d& pose, Vec3& size) {
            size = Vec3(uniform(random, 5, 300), uniform(random, 5, 300), uniform(random, 5, 300));
            pose.setIdentity();
            pose.translation() = randomPoint(random, 400);
            pose.linear() = Eigen::AngleAxisd(uniform(random, 0, 3), randomPoint(random, 1).normalized())
                                .toRotationMatrix();
        };
        fcl::Transform3d ta, tb;
        Vec3 sa, sb;
        boxAt(ta, sa);
        boxAt(tb, sb);
        const auto solidOf = [](const fcl::Transform3d& pose, const Vec3& size) {
            ConvexSolid s = makeBoxSolid(-size / 2, size / 2);
            for (Vec3& p : s.points) p = pose * p;
            return s;
        };
        const fcl::Boxd a(sa), b(sb);
        fcl::DistanceRequestd request(true);
        request.gjk_solver_type = fcl::GST_LIBCCD;
        request.distance_tolerance = 1e-9;
        fcl::DistanceResultd result;
        const double distance = fcl::distance(&a, ta, &b, tb, request, result);
        const Nearest n = nearest(solidOf(ta, sa), solidOf(tb, sb));
        if (distance <= 0) {
            EXPECT_TRUE(n.meets) << "round " << i;
        } else {
            EXPECT_NEAR(n.distance, distance, 1e-5) << "round " << i;
            ++compared;
        }
    }
    EXPECT_GT(compared, 20);
}
#endif

} // namespace
} // namespace slab
