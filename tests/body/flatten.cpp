// Traced corners moved so that every face is flat.
#include "core/body/flatten.h"
#include "tests/body/make.h"
#include <algorithm>
#include <cmath>
#include <numbers>

using namespace slab;

namespace {

using Faces = std::vector<std::vector<int>>;

struct Block {
    std::string name;
    std::vector<Vec3> corners;
    Faces faces;
};

/// Prism or truncated pyramid over a regular outline, sides first.
Block frustum(int n, double bottom, double top, double height) {
    Block b{"frustum of " + std::to_string(n), {}, {}};
    for (const auto& [r, z] : {std::pair(bottom, 0.0), {top, height}})
        for (int i = 0; i < n; ++i)
            b.corners.emplace_back(r * std::cos(2 * std::numbers::pi * i / n),
                                   r * std::sin(2 * std::numbers::pi * i / n), z);
    std::vector<int> floor, roof;
    for (int i = 0; i < n; ++i) {
        const int j = (i + 1) % n;
        b.faces.push_back({i, j, n + j, n + i});
        floor.insert(floor.begin(), i);
        roof.push_back(n + i);
    }
    b.faces.push_back(floor);
    b.faces.push_back(roof);
    return b;
}

Block box(double x, double y, double z) {
    Block b = frustum(4, std::sqrt(0.5), std::sqrt(0.5), 1);
    b.name = "box";
    for (Vec3& c : b.corners) {
        const double u = c.x(), v = c.y();
        c = Vec3((u - v) * std::sqrt(0.5) * x, (u + v) * std::sqrt(0.5) * y, c.z() * z);
    }
    return b;
}

/// The regular solid of twelve pentagons: corners (±1, ±1, ±1), (0, ±1/φ, ±φ) and its turns (Euclid XIII.17).
Block dodecahedron(double size) {
    Block b{"dodecahedron", {}, {}};
    const double f = (1 + std::sqrt(5.0)) / 2;
    for (const double s : {-1.0, 1.0})
        for (const double t : {-1.0, 1.0}) {
            b.corners.emplace_back(s, t, 1);
            b.corners.emplace_back(s, t, -1);
            b.corners.emplace_back(0, s / f, t * f);
            b.corners.emplace_back(s / f, t * f, 0);
            b.corners.emplace_back(s * f, 0, t / f);
        }
    for (const double s : {-1.0, 1.0})
        for (const double t : {-1.0, 1.0})
            for (const Vec3& axis : {Vec3(0, s * f, t), Vec3(s * f, t, 0), Vec3(s, 0, t * f)}) {
                std::vector<int> face;
                double most = 0;
                for (const Vec3& c : b.corners) most = std::max(most, c.dot(axis));
                for (std::size_t i = 0; i < b.corners.size(); ++i)
                    if (b.corners[i].dot(axis) > most - 1e-9) face.push_back(static_cast<int>(i));
                const Vec3 u = axis.unitOrthogonal(), v = axis.normalized().cross(u);
                std::sort(face.begin(), face.end(), [&](int i, int j) {
                    const auto turn = [&](int k) {
                        const Vec3& c = b.corners[static_cast<std::size_t>(k)];
                        return std::atan2(v.dot(c), u.dot(c));
                    };
                    return turn(i) < turn(j);
                });
                b.faces.push_back(face);
            }
    for (Vec3& c : b.corners) c *= size / 2;
    return b;
}

std::vector<Block> blocks() {
    return {box(1200, 700, 500),       frustum(3, 300, 300, 500), frustum(6, 400, 400, 300),
            frustum(4, 600, 350, 400), frustum(5, 500, 300, 250), frustum(12, 900, 600, 700),
            dodecahedron(800)};
}

double worstOff(const std::vector<Vec3>& corners, const Faces& faces) {
    double off = 0;
    for (const auto& face : faces) off = std::max(off, offPlane(corners, face));
    return off;
}

double sizeOf(const std::vector<Vec3>& corners) {
    return bounds(Polyhedron{corners, {}}).size().norm();
}

} // namespace

TEST(Flatten, perturbedPlanarSolidsComeBackWithinTheNoise) {
    auto random = seeded();
    for (int run = 0; run < 60 / slowdown; ++run)
        for (const Block& block : blocks()) {
            const double size = sizeOf(block.corners), noise = size * std::pow(10, uniform(random, -5, -2.3));
            std::vector<Vec3> traced = block.corners;
            FlattenWish wish;
            for (Vec3& c : traced) {
                c += Vec3(uniform(random, -noise, noise), uniform(random, -noise, noise),
                          uniform(random, -noise, noise));
                wish.weights.push_back(run % 2 == 0 ? 1 : uniform(random, 0.2, 5));
            }
            const auto made = flattened(traced, block.faces, wish);
            ASSERT_TRUE(made) << block.name << " " << noise / size << " " << made.error().code;
            EXPECT_LE(worstOff(made->corners, block.faces), 1e-9 * size) << block.name;
            // The undisturbed solid is flat too, so the least weighted move is at most the noise's.
            double moves = 0, noises = 0, back = 0, total = 0;
            for (std::size_t i = 0; i < traced.size(); ++i) {
                moves += wish.weights[i] * (made->corners[i] - traced[i]).squaredNorm();
                noises += wish.weights[i] * (block.corners[i] - traced[i]).squaredNorm();
                back += wish.weights[i] * (made->corners[i] - block.corners[i]).squaredNorm();
                total += wish.weights[i];
            }
            EXPECT_LE(moves, noises * (1 + 1e-6)) << block.name;
            EXPECT_LE(std::sqrt(back / total), noise * std::sqrt(3.0)) << block.name;
        }
}

// One quadrilateral, everything else triangles. To first order its corners are flat when δ1 − δ2 + δ3 − δ4
// makes up for how they are twisted; the least Σ w δ² under one linear constraint is δ ∝ ±1/w (Lagrange).
TEST(Flatten, twistedSquareIsTheClosedForm) {
    const double h = 1e-4;
    const std::vector<Vec3> traced{
        {-500, -500, h}, {500, -500, -h}, {500, 500, h}, {-500, 500, -h}, {0, 0, 400}};
    const Faces faces{{3, 2, 1, 0}, {0, 1, 4}, {1, 2, 4}, {2, 3, 4}, {3, 0, 4}};
    for (const std::vector<double>& w :
         {std::vector<double>{1, 1, 1, 1, 1}, {1, 2, 4, 8, 1}, {10, 1, 1, 0.1, 1}}) {
        FlattenWish wish;
        wish.weights = w;
        const auto made = flattened(traced, faces, wish);
        ASSERT_TRUE(made);
        const double sum = 1 / w[0] + 1 / w[1] + 1 / w[2] + 1 / w[3];
        for (std::size_t i = 0; i < 4; ++i) {
            const double wanted = (i % 2 == 0 ? -1 : 1) * 4 * h / w[i] / sum;
            EXPECT_NEAR(made->corners[i].z() - traced[i].z(), wanted, 1e-3 * h) << i;
        }
        EXPECT_LT((made->corners[4] - traced[4]).norm(), 1e-3 * h);
    }
}

TEST(Flatten, pinnedCornersStayToTheBit) {
    auto random = seeded();
    for (int run = 0; run < 40 / slowdown; ++run)
        for (const Block& block : blocks()) {
            const double size = sizeOf(block.corners), noise = 2e-3 * size;
            std::vector<Vec3> traced = block.corners;
            FlattenWish wish;
            wish.pinned.assign(traced.size(), false);
            // Three pinned corners of one face leave every face a plane to lie in.
            for (int k = 0; k < 3; ++k)
                wish.pinned[static_cast<std::size_t>(block.faces.back()[std::size_t(k)])] = true;
            for (Vec3& c : traced)
                c += Vec3(uniform(random, -noise, noise), uniform(random, -noise, noise),
                          uniform(random, -noise, noise));
            const auto made = flattened(traced, block.faces, wish);
            ASSERT_TRUE(made) << block.name << " " << made.error().code;
            EXPECT_LE(worstOff(made->corners, block.faces), 1e-9 * size) << block.name;
            for (std::size_t i = 0; i < traced.size(); ++i)
                if (wish.pinned[i]) {
                    EXPECT_EQ(made->corners[i], traced[i]) << block.name << " " << i;
                }
        }
}

TEST(Flatten, mirrorPairsStayAlikeToTheBit) {
    auto random = seeded();
    for (int run = 0; run < 40 / slowdown; ++run) {
        // Half a hull with corners on the middle plane: a prism over a kite, its ends dented.
        Block block = frustum(4, 600, 350, 400);
        const double noise = 3;
        for (std::size_t i = 0; i < block.corners.size(); ++i) {
            Vec3& c = block.corners[i];
            c += Vec3(uniform(random, -noise, noise), uniform(random, -noise, noise),
                      uniform(random, -noise, noise));
            if (i % 4 == 0 || i % 4 == 2) c.y() = 0;
        }
        for (std::size_t i : {1U, 5U}) block.corners[i + 2] = block.corners[i].cwiseProduct(Vec3(1, -1, 1));
        FlattenWish wish;
        wish.symmetric = true;
        const auto made = flattened(block.corners, block.faces, wish);
        ASSERT_TRUE(made);
        EXPECT_LE(worstOff(made->corners, block.faces), 1e-9 * 1200);
        for (std::size_t i : {1U, 5U})
            EXPECT_EQ(made->corners[i + 2], made->corners[i].cwiseProduct(Vec3(1, -1, 1)));
        for (std::size_t i : {0U, 2U, 4U, 6U}) EXPECT_EQ(made->corners[i].y(), 0);
    }
}

TEST(Flatten, refusals) {
    Block block = box(1000, 600, 400);
    FlattenWish wish;
    wish.weights.assign(8, 1);
    wish.weights[3] = 0;
    const auto weightless = flattened(block.corners, block.faces, wish);
    ASSERT_FALSE(weightless);
    EXPECT_EQ(weightless.error().code, "flatten-weight");
    wish.weights.clear();
    block.corners[6] += Vec3(30, 25, 28);
    wish.most = 1e-3;
    const auto far = flattened(block.corners, block.faces, wish);
    ASSERT_FALSE(far);
    EXPECT_EQ(far.error().code, "flatten-far");
    // Four pinned corners of a pentagon that lie in no plane: its fifth cannot help.
    block = frustum(5, 500, 300, 250);
    block.corners[0].z() += 30;
    wish.most = 0.05;
    wish.pinned.assign(block.corners.size(), false);
    for (std::size_t i = 0; i < 4; ++i) wish.pinned[i] = true;
    const auto failed = flattened(block.corners, block.faces, wish);
    ASSERT_FALSE(failed);
    EXPECT_EQ(failed.error().code, "flatten-failed");
    // A face whose corners are all pinned is told and left; the others are made flat.
    block = box(1000, 600, 400);
    block.corners[6] += Vec3(3, 2, 2.5);
    wish.most = 0.05;
    wish.pinned.assign(8, false);
    for (const int v : block.faces[1]) wish.pinned[static_cast<std::size_t>(v)] = true;
    const bool bent = offPlane(block.corners, block.faces[1]) > 0.1;
    const auto held = flattened(block.corners, block.faces, wish);
    ASSERT_TRUE(bent);
    ASSERT_TRUE(held);
    EXPECT_EQ(held->held, std::vector<int>{1});
    EXPECT_GT(held->move, 0.1);
    for (std::size_t f = 0; f < block.faces.size(); ++f)
        if (f != 1) {
            EXPECT_LT(offPlane(held->corners, block.faces[f]), 1e-6) << f;
        }
    // What is flat already is left to the bit.
    block = box(1000, 600, 400);
    const auto same = flattened(block.corners, block.faces, {});
    ASSERT_TRUE(same);
    EXPECT_EQ(same->corner, -1);
}
