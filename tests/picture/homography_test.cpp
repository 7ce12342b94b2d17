#include "core/picture/homography.h"
#include "tests/picture/views.h"
#include <Eigen/LU>
#include <gtest/gtest.h>

namespace slab {
namespace {

constexpr double pi = std::numbers::pi;

TEST(Homography, IsExactOnMadeUpPhotographs) {
    auto random = seeded();
    double worst = 0, worstBack = 0;
    for (int round = 0; round < 2000 / slowdown; ++round) {
        const double width = uniform(random, 300, 3000), height = uniform(random, 300, 3000);
        const Mat3 view = randomView(random, width, height);
        const auto corners = rectangle(width, height);
        const auto fixed = homographyOf(pairsOf(view, corners));
        ASSERT_TRUE(fixed) << fixed.error().message << " in round " << round;
        for (int i = 0; i < 10; ++i) {
            const Vec2 place(uniform(random, -0.5, 1.5) * width, uniform(random, -0.5, 1.5) * height);
            const Vec2 pixel = seen(view, place);
            worst = std::max(worst, (toPlane(fixed->fix, pixel) - place).norm() / (width + height));
            worstBack = std::max(worstBack, (toPixel(fixed->fix, place) - pixel).norm() / pixel.norm());
        }
        for (double r : fixed->residuals) EXPECT_LT(r, 1e-8);
        EXPECT_EQ(fixed->rms, 0);
    }
    std::printf("worst relative error %.2g there, %.2g back\n", worst, worstBack);
    EXPECT_LT(worst, 1e-9);
    EXPECT_LT(worstBack, 1e-9);
}

TEST(Homography, OfManyExactPointsIsExactToo) {
    auto random = seeded(2);
    double worst = 0;
    for (int round = 0; round < 300 / slowdown; ++round) {
        const Mat3 view = randomView(random, 1000, 700);
        std::vector<Vec2> places;
        for (int i = 0; i < 5 + below(random, 20); ++i)
            places.emplace_back(uniform(random, 0, 1000), uniform(random, 0, 700));
        const auto fixed = homographyOf(pairsOf(view, places));
        ASSERT_TRUE(fixed) << fixed.error().message;
        for (const Vec2& p : places)
            worst = std::max(worst, (toPlane(fixed->fix, seen(view, p)) - p).norm() / 1700);
        EXPECT_LT(fixed->rms, 1e-8);
    }
    EXPECT_LT(worst, 1e-9);
}

// P. Corke, Robotics, Vision and Control (the planar homography between two views of a grid), as printed with
// its result in the documentation of the Machine Vision Toolbox for Python, CentralCamera.points2H: two
// cameras of 2 mm focal length, 10 µm pixels and 1000 × 1000 of them look at a grid 1 m away.
TEST(Homography, GivesThePrintedOneOfTheTextbookExample) {
    const auto ry = [](double a) { return Eigen::AngleAxisd(a, Vec3::UnitY()).toRotationMatrix(); };
    const auto rx = [](double a) { return Eigen::AngleAxisd(a, Vec3::UnitX()).toRotationMatrix(); };
    Mat3 k;
    k << 200, 0, 500, 0, 200, 500, 0, 0, 1;
    const Mat3 grid = rx(0.1) * ry(0.2);
    const auto camera = [&](double x, double turn, const Vec2& p) {
        const Vec3 place = grid * Vec3(p.x(), p.y(), 0) + Vec3(0, 0, 1);
        return Vec2((k * ry(turn).transpose() * (place - Vec3(x, 0, 0))).hnormalized());
    };
    std::vector<PointPair> pairs;
    for (double x : {-0.5, 0.0, 0.5})
        for (double y : {-0.5, 0.0, 0.5})
            pairs.push_back({camera(-0.1, 0.4, {x, y}), camera(0.1, -0.4, {x, y})});
    const auto fixed = homographyOf(pairs);
    ASSERT_TRUE(fixed) << fixed.error().message;
    const Mat3 h = fixed->fix.map / fixed->fix.map(2, 2);
    Mat3 printed;
    printed << -0.4187, -0.0004, 397.7657, -0.6981, 0.3738, 309.4588, -0.0014, -0.0, 1;
    // Printed to four decimals, and worked out there in single precision (a residual of 4.8e-5 is printed
    // beside it).
    EXPECT_LT((h - printed).cwiseAbs().maxCoeff(), 1e-4) << h;
}

// P. Heckbert, Fundamentals of Texture Mapping and Image Warping, UCB/CSD 89/516, 1989, section 2.2.3: the
// closed form of the map from the unit square to a quadrilateral.
TEST(Homography, IsTheClosedFormOfASquareToAQuadrilateral) {
    auto random = seeded(3);
    for (int round = 0; round < 200; ++round) {
        const std::array<Vec2, 4> q{Vec2(uniform(random, -50, 50), uniform(random, -50, 50)),
                                    Vec2(uniform(random, 400, 600), uniform(random, -50, 50)),
                                    Vec2(uniform(random, 400, 600), uniform(random, 300, 500)),
                                    Vec2(uniform(random, -50, 50), uniform(random, 300, 500))};
        const Vec2 d1 = q[1] - q[2], d2 = q[3] - q[2], sum = q[0] - q[1] + q[2] - q[3];
        const double below = cross2(d1, d2), g = cross2(sum, d2) / below, h = cross2(d1, sum) / below;
        Mat3 closed;
        closed << Vec3((q[1] - q[0] + g * q[1]).x(), (q[1] - q[0] + g * q[1]).y(), g),
            Vec3((q[3] - q[0] + h * q[3]).x(), (q[3] - q[0] + h * q[3]).y(), h), Vec3(q[0].x(), q[0].y(), 1);
        std::vector<PointPair> pairs;
        const auto square = rectangle(1, 1);
        for (std::size_t i = 0; i < 4; ++i) pairs.push_back({square[i] * 100, q[i]}); // pixels of a square
        const auto fixed = homographyOf(pairs);
        ASSERT_TRUE(fixed) << fixed.error().message;
        for (int i = 0; i < 5; ++i) {
            const Vec2 p(uniform(random, 0, 1), uniform(random, 0, 1));
            EXPECT_LT((toPlane(fixed->fix, p * 100) - seen(closed, p)).norm(), 1e-9 * 700);
        }
    }
}

/// Spread of places and of a length over many marked copies of one photograph, against what one of them
/// foretells.
struct Spread {
    Eigen::Matrix2d foretold, found;
    double lengthForetold = 0, lengthFound = 0, inside = 0, insideLength = 0;
};
Spread spreadOf(const Mat3& view, std::span<const Vec2> places, double click, std::mt19937_64& random) {
    const Vec2 at(900, 500), from(-150, 100), to(1200, 650);
    const auto exact = homographyOf(pairsOf(view, places), click);
    EXPECT_TRUE(exact);
    const PlaceError e = errorAt(exact->fix, seen(view, at));
    const Measured m = measure(exact->fix, seen(view, from), seen(view, to));
    Spread s;
    s.foretold << e.xx, e.xy, e.xy, e.yy;
    s.found.setZero();
    s.lengthForetold = m.error;
    const int rounds = 4000;
    double sum = 0;
    for (int i = 0; i < rounds; ++i) {
        auto pairs = pairsOf(view, places);
        for (PointPair& p : pairs) p.pixel += click * normal2(random);
        const auto fixed = homographyOf(pairs, click);
        EXPECT_TRUE(fixed);
        const Vec2 off = toPlane(fixed->fix, seen(view, at) + click * normal2(random)) - at;
        s.found += off * off.transpose() / rounds;
        // 95 % of a plane normal lie within √5.991 standard errors (chi-square with two degrees of freedom).
        if (off.dot(s.foretold.inverse() * off) < 5.991) s.inside += 1.0 / rounds;
        const Vec2 a = seen(view, from) + click * normal2(random),
                   b = seen(view, to) + click * normal2(random);
        const Measured own = measure(fixed->fix, a, b); // with the error that this copy itself tells
        sum += std::pow(own.value - (to - from).norm(), 2) / rounds;
        if (std::abs(own.value - (to - from).norm()) < 1.96 * own.error) s.insideLength += 1.0 / rounds;
    }
    s.lengthFound = std::sqrt(sum);
    return s;
}

TEST(Homography, NoiseSpreadsAsForetold) {
    auto random = seeded(4);
    const auto corners = rectangle(1220, 700);
    std::vector<Vec2> many(corners.begin(), corners.end());
    for (int i = 0; i < 6; ++i) many.emplace_back(uniform(random, 0, 1220), uniform(random, 0, 700));
    for (int round = 0; round < 6; ++round) {
        const Mat3 view = randomView(random, 1220, 700);
        const std::span<const Vec2> places =
            round % 2 == 0 ? std::span<const Vec2>(corners) : std::span<const Vec2>(many);
        const Spread s = spreadOf(view, places, 0.7, random);
        std::printf(
            "%zu points: place %.3f and %.3f of the foretold, length %.3f; 95 %% mark holds %.3f and %.3f\n",
            places.size(), std::sqrt(s.found(0, 0) / s.foretold(0, 0)),
            std::sqrt(s.found(1, 1) / s.foretold(1, 1)), s.lengthFound / s.lengthForetold, s.inside,
            s.insideLength);
        for (int i = 0; i < 2; ++i) {
            EXPECT_GT(s.found(i, i) / s.foretold(i, i), 0.85 * 0.85);
            EXPECT_LT(s.found(i, i) / s.foretold(i, i), 1.15 * 1.15);
        }
        EXPECT_NEAR(s.lengthFound / s.lengthForetold, 1, 0.15);
        EXPECT_NEAR(s.inside, 0.95, 0.02);
        EXPECT_NEAR(s.insideLength, 0.95, 0.02);
    }
}

TEST(Homography, SlopesAreThoseOfFiniteSteps) {
    auto random = seeded(5);
    const auto corners = rectangle(800, 600);
    for (int round = 0; round < 20; ++round) {
        const Mat3 view = randomView(random, 800, 600);
        const auto pairs = pairsOf(view, corners);
        const auto fixed = homographyOf(pairs);
        ASSERT_TRUE(fixed);
        const Vec2 a = seen(view, {100, 50}), b = seen(view, {700, 500});
        const LengthSlopes slopes = lengthSlopes(fixed->fix, a, b);
        ASSERT_EQ(slopes.shared.size(), 8u);
        for (std::size_t k = 0; k < 8; ++k) {
            double ends[2] = {0, 0};
            for (int side = 0; side < 2; ++side) {
                auto moved = pairs;
                moved[k / 2].pixel[static_cast<int>(k % 2)] += side == 0 ? -0.01 : 0.01;
                const auto other = homographyOf(moved);
                ends[side] = (toPlane(other->fix, b) - toPlane(other->fix, a)).norm();
            }
            EXPECT_NEAR(slopes.shared[k], (ends[1] - ends[0]) / 0.02,
                        1e-4 * (1 + std::abs(slopes.shared[k])));
        }
    }
}

TEST(TwoPoints, IsTheClosedForm) {
    auto random = seeded(6);
    for (int round = 0; round < 500; ++round) {
        TwoPoints two{{uniform(random, 0, 2000), uniform(random, 0, 2000)},
                      Vec2::Zero(),
                      uniform(random, 10, 3000),
                      {uniform(random, -500, 500), uniform(random, -500, 500)},
                      {}};
        two.to = two.from + Vec2(uniform(random, 50, 900), uniform(random, -900, 900));
        if (round % 2 == 0) two.turn = uniform(random, -pi, pi);
        const double click = uniform(random, 0.2, 2);
        const auto fix = calibrated(two, click);
        ASSERT_TRUE(fix) << fix.error().message;
        const double px = (two.to - two.from).norm(), scale = two.distance / px;
        const Vec2 line = toPlane(*fix, two.to) - toPlane(*fix, two.from);
        EXPECT_LT((toPlane(*fix, two.from) - two.at).norm(), 1e-9 * 5000);
        EXPECT_NEAR(line.norm(), two.distance, 1e-9 * two.distance);
        const double angle =
            two.turn ? *two.turn : std::atan2(two.from.y() - two.to.y(), two.to.x() - two.from.x());
        EXPECT_NEAR(std::remainder(std::atan2(line.y(), line.x()) - angle, 2 * pi), 0, 1e-9);
        // A length l measured against a distance of c pixels: σ² = 2 s² σ_px² (1 + l² / c²).
        const Vec2 a(uniform(random, 0, 2000), uniform(random, 0, 2000)),
            b(uniform(random, 0, 2000), uniform(random, 0, 2000));
        const double l = (b - a).norm();
        const Measured m = measure(*fix, a, b);
        EXPECT_NEAR(m.value, l * scale, 1e-9 * 5000 * scale);
        EXPECT_NEAR(m.error, scale * click * std::sqrt(2 * (1 + l * l / (px * px))), 1e-9 * (1 + m.error));
        if (two.turn) {
            // With q the place along from–to as a complex share: σ² = s² σ_px² (1 + |1 − q|² + |q|²), round.
            const std::complex<double> q =
                std::complex<double>((a - two.from).x(), (a - two.from).y()) /
                std::complex<double>((two.to - two.from).x(), (two.to - two.from).y());
            const double expected = scale * click * std::sqrt(1 + std::norm(1.0 - q) + std::norm(q));
            const PlaceError e = errorAt(*fix, a);
            EXPECT_NEAR(e.major, expected, 1e-9 * expected);
            EXPECT_NEAR(e.minor, expected, 1e-6 * expected);
        }
    }
}

TEST(Placed, StandsAndTurnsWithItsErrors) {
    auto random = seeded(7);
    const auto corners = rectangle(1220, 700);
    for (int round = 0; round < 4; ++round) {
        const Mat3 view = randomView(random, 1220, 700);
        const double click = 0.5;
        TwoPoints two{seen(view, {100, 40}), seen(view, {1100, 60}), 0, {250, -30}, {}};
        if (round % 2 == 0) two.turn = 0.3;
        const auto make = [&](double noise) {
            auto pairs = pairsOf(view, corners);
            for (PointPair& p : pairs) p.pixel += noise * normal2(random);
            TwoPoints marked = two;
            marked.from += noise * normal2(random);
            marked.to += noise * normal2(random);
            return *placed(homographyOf(pairs, click)->fix, marked);
        };
        const PlaneFix exact = make(0);
        EXPECT_LT((toPlane(exact, two.from) - two.at).norm(), 1e-8);
        const Vec2 line = toPlane(exact, two.to) - two.at;
        if (two.turn) {
            EXPECT_NEAR(std::atan2(line.y(), line.x()), 0.3, 1e-12);
        }
        const Vec2 pixel = seen(view, {900, 600});
        const Vec2 truth = toPlane(exact, pixel);
        const PlaceError e = errorAt(exact, pixel, false);
        Eigen::Matrix2d found = Eigen::Matrix2d::Zero();
        const int rounds = 4000;
        for (int i = 0; i < rounds; ++i) {
            const Vec2 off = toPlane(make(click), pixel) - truth;
            found += off * off.transpose() / rounds;
        }
        EXPECT_NEAR(std::sqrt(found(0, 0) / e.xx), 1, 0.08);
        EXPECT_NEAR(std::sqrt(found(1, 1) / e.yy), 1, 0.08);
    }
}

TEST(Homography, RefusesWhatIsNoRectangle) {
    const auto code = [](std::vector<Vec2> pixels) {
        std::vector<PointPair> pairs;
        const auto plane = rectangle(1000, 500);
        for (std::size_t i = 0; i < pixels.size(); ++i) pairs.push_back({pixels[i], plane[i]});
        const auto fixed = homographyOf(pairs);
        if (fixed) return std::string("fine");
        EXPECT_FALSE(fixed.error().remedy.empty());
        return fixed.error().code;
    };
    EXPECT_EQ(code({{0, 0}, {10, 0}, {10, 10}, {0, 10}}), "fine");
    EXPECT_EQ(code({{0, 0}, {10, 0}, {10, 10}}), "picture-corners-few");
    EXPECT_EQ(code({{0, 0}, {10, 0}, {10, 0}, {0, 10}}), "picture-corners-same");
    EXPECT_EQ(code({{0, 0}, {5, 0}, {10, 0}, {0, 10}}), "picture-corners-line");
    EXPECT_EQ(code({{0, 0}, {10, 10}, {10, 0}, {0, 10}}), "picture-corners-cross");
    EXPECT_EQ(code({{0, 0}, {10, 0}, {3, 3}, {0, 10}}), "picture-corners-hollow");
    EXPECT_EQ(code({{0, 0}, {10, 0}, {10, std::nan("")}, {0, 10}}), "picture-corners-fit");
    EXPECT_EQ(calibrated({{5, 5}, {5, 5}, 100, Vec2::Zero(), {}}).error().code, "picture-points-same");
    EXPECT_EQ(calibrated({{5, 5}, {50, 5}, 0, Vec2::Zero(), {}}).error().code, "picture-distance");
    EXPECT_EQ(calibrated({{5, 5}, {50, 5}, -3, Vec2::Zero(), {}}).error().code, "picture-distance");
}

} // namespace
} // namespace slab
