// Bodies with valley edges and saddle corners: nothing doubled, nothing missing, checked point by point.
#include "core/body/contact.h"
#include "core/geometry/occt.h"
#include "fixtures.h"
#include "point_model.h"
#include <algorithm>
#include <chrono>
#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <random>

using namespace slab;
using namespace slab::test;

namespace {

Polyhedron turned(const Polyhedron& solid, double angle, const Vec3& by) {
    const Mat3 m = Eigen::AngleAxisd(angle, Vec3::UnitZ()).toRotationMatrix();
    return moved(solid, m, by);
}

/// One random part: box, prism or frustum; sizes on a grid so that flush faces and edges occur.
Polyhedron randomPart(Random& random) {
    const auto grid = [&](int from, int to) { return 25.0 * pick(random, from, to); };
    const Vec3 at(grid(-8, 8), grid(-8, 8), grid(0, 12));
    switch (pick(random, 0, 3)) {
    case 0:
        return turned(frustum(pick(random, 3, 8), grid(5, 14), 0, grid(8, 20)), uniform(random, 0, 3), at);
    case 1:
        return turned(frustum(pick(random, 3, 8), grid(6, 14), grid(3, 8), grid(4, 16)),
                      uniform(random, 0, 3), at);
    default: {
        const Vec3 size(grid(4, 24), grid(4, 24), grid(4, 16));
        return makeBox(at - Vec3(size.x() / 2, size.y() / 2, 0),
                       at + Vec3(size.x() / 2, size.y() / 2, size.z()));
    }
    }
}

bool joined(const std::vector<Polyhedron>& parts, Body& body) {
    auto fused = occt::fuse(parts);
    if (!fused || fused->solids != 1) return false;
    for (std::size_t i = 0; i < fused->solid.faces.size(); ++i)
        fused->solid.faces[i].name = "f" + std::to_string(i);
    auto skin = makeSkin(fused->solid);
    if (!skin) return false;
    body = Body{};
    body.skin = *skin;
    body.volume = volume(fused->solid);
    body.bounds = bounds(fused->solid);
    return true;
}

bool holds(const Plate& plate, const Vec3& p) {
    return contains(plate.solid, p);
}

struct Count {
    int draws = 0, shell = 0, doubled = 0, outside = 0, empty = 0;
    int steps = 0; ///< points of the whole shell that no plate holds
};

/// Points at random depths under every face: shell points must lie in exactly one plate or in a gap.
Count countPoints(const Body& body, const PlateRules& rules, const PlateSet& set, Random& random,
                  int wanted) {
    const PointModel model(body, rules), whole(body, rules, true);
    Count count;
    const Vec3 low = body.bounds.min, size = body.bounds.size();
    std::vector<Box3> boxes;
    for (const Plate& p : set.plates) boxes.push_back(bounds(p.solid));
    for (int tries = 0; tries < wanted * 50 && count.shell < wanted; ++tries) {
        ++count.draws;
        const Vec3 p = low + Vec3(uniform(random, 0, size.x()), uniform(random, 0, size.y()),
                                  uniform(random, 0, size.z()));
        bool near = false;
        for (std::size_t f = 0; f < body.skin.faces.size(); ++f) {
            const double d = body.skin.faces[f].plane.depth(p);
            near = near || (d > 0 && d < rules.faces[f].thickness);
        }
        if (!near || model.leastPlaneDistance(p) < 1e-4 || whole.leastPlaneDistance(p) < 1e-4) continue;
        const bool shell = model.inShell(p);
        int in = 0;
        for (std::size_t i = 0; i < set.plates.size(); ++i)
            if (((p - boxes[i].min).array() >= 0).all() && ((boxes[i].max - p).array() >= 0).all())
                in += holds(set.plates[i], p);
        count.shell += shell;
        count.doubled += in > 1;
        count.outside += in > 0 && !shell;
        count.empty += shell && in == 0;
        count.steps += in == 0 && !shell && whole.inShell(p);
    }
    return count;
}

} // namespace

TEST(JoinedPlates, BoxOnBox) {
    Body body;
    ASSERT_TRUE(
        joined({makeBox({0, 0, 0}, {600, 400, 200}), makeBox({100, 100, 150}, {300, 300, 400})}, body));
    Random random(3);
    for (const auto& ranks : {std::vector<int>{0}, std::vector<int>{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10}}) {
        const PlateRules rules = rulesFor(body, {12, 9, 5}, ranks);
        const PlateSet set = buildPlates(body, rules);
        const Count c = countPoints(body, rules, set, random, 3000);
        EXPECT_EQ(c.doubled, 0);
        EXPECT_EQ(c.outside, 0);
        EXPECT_EQ(c.empty, 0);
    }
}

namespace {

struct Tally {
    int bodies = 0, withGaps = 0, plates = 0, empty = 0, steps = 0;
    double worst = 0, total = 0, expectedSteps = 0;
};

void checkBody(const Body& body, const PlateRules& rules, const std::string& what, Random& random,
               Tally& tally) {
    const auto start = std::chrono::steady_clock::now();
    const PlateSet set = buildPlates(body, rules);
    const double ms =
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
    tally.worst = std::max(tally.worst, ms);
    tally.total += ms;
    ++tally.bodies;
    tally.withGaps += !set.gaps.empty();
    const Count c = countPoints(body, rules, set, random, 60);
    EXPECT_EQ(c.doubled, 0) << what;
    EXPECT_EQ(c.outside, 0) << what;
    EXPECT_TRUE(set.overlaps.empty()) << what;
    // No joint is forced here, so every reported gap is a step behind a bisector cut: not one point in front
    // of those cuts may be empty, and the points behind them are counted against the reported volume.
    EXPECT_EQ(c.empty, 0) << what;
    tally.empty += c.empty;
    const Vec3 size = body.bounds.size();
    tally.steps += c.steps;
    tally.expectedSteps += c.draws * sumOfGaps(set) / (size.x() * size.y() * size.z());
    for (const Plate& p : set.plates) {
        ++tally.plates;
        EXPECT_NEAR(volume(p.solid) / p.volume, 1, 1e-7) << what << " " << p.name;
        const auto closed = checkClosed(p.solid);
        EXPECT_TRUE(closed) << what << " " << p.name << ": " << (closed ? "" : closed.error().message);
    }
}

void tryRandomBodies(Random& random, int wanted) {
    Tally tally;
    for (int round = 0; tally.bodies < wanted && round < wanted * 20; ++round) {
        std::vector<Polyhedron> parts;
        for (int i = pick(random, 2, 4); i > 0; --i) parts.push_back(randomPart(random));
        Body body;
        if (!joined(parts, body)) continue;
        std::vector<int> ranks;
        std::vector<double> thick;
        const int mode = pick(random, 0, 2);
        for (std::size_t i = 0; i < body.skin.faces.size(); ++i) {
            ranks.push_back(mode == 0 ? 0 : mode == 1 ? static_cast<int>(i) : pick(random, 0, 2));
            thick.push_back(std::vector<double>{3, 9, 12.7}[static_cast<std::size_t>(pick(random, 0, 2))]);
        }
        checkBody(body, rulesFor(body, thick, ranks),
                  "round " + std::to_string(round) + " mode " + std::to_string(mode), random, tally);
    }
    // Empty points of the shell against the reported gap volume, over all bodies together: five standard
    // deviations.
    EXPECT_NEAR(tally.steps, tally.expectedSteps, 5 * std::sqrt(tally.expectedSteps) + 3);
    std::cout << tally.bodies << " bodies, " << tally.plates << " plates, " << tally.withGaps
              << " bodies with steps; empty points " << tally.empty << " in front of the cuts, "
              << tally.steps << " behind, expected " << tally.expectedSteps << "; mean "
              << tally.total / tally.bodies << " ms, worst " << tally.worst << " ms\n";
}

} // namespace

TEST(JoinedPlates, ThousandRandomBodies) {
    Random random(seedFor("random joined bodies", 11));
    tryRandomBodies(random, 1000 / slowdown / slowdown);
}

TEST(JoinedPlates, BodiesNeverSeenBefore) {
    const unsigned seed = std::random_device{}();
    std::cout << "fresh seed " << seed << " (rerun with SLABSIDE_SEED)\n";
    Random random(seedFor("fresh joined bodies", seed));
    tryRandomBodies(random, 60 / slowdown);
}

// Two posts that touch along an edge under one roof: the skin is parted there, and every plate keeps to its
// own post.
TEST(JoinedPlates, BodiesThatTouchThemselvesAlongAnEdge) {
    Random random(seedFor("bodies with a contact", 17));
    Tally tally;
    for (int round = 0; round < 40 / slowdown + 1; ++round) {
        const auto grid = [&](int from, int to) { return 25.0 * pick(random, from, to); };
        const Vec3 edge(grid(4, 12), grid(4, 12), grid(6, 16)),
            far = edge + Vec3(grid(4, 12), grid(4, 12), 0);
        std::vector<Polyhedron> parts{
            makeBox({0, 0, 0}, edge), makeBox({edge.x(), edge.y(), 0}, {far.x(), far.y(), edge.z()}),
            makeBox({-25, -25, edge.z() - 25}, {far.x() + 25, far.y() + 25, edge.z() + grid(2, 6)})};
        if (round % 2) parts.push_back(makeBox({-25, -25, -50}, {far.x() + 25, far.y() + 25, 25}));
        const auto fused = occt::fuse(parts);
        ASSERT_TRUE(fused && fused->solids == 1) << round;
        EXPECT_FALSE(makeSkin(fused->solid)) << round << ": this is what is to be parted";
        const auto pieces = partedAtContacts(fused->solid);
        ASSERT_TRUE(pieces && pieces->size() == 1) << round;
        Polyhedron solid = pieces->front().solid;
        EXPECT_NEAR(volume(solid), volume(fused->solid), 1e-6);
        for (std::size_t i = 0; i < solid.faces.size(); ++i) solid.faces[i].name = "f" + std::to_string(i);
        const auto skin = makeSkin(solid);
        ASSERT_TRUE(skin) << round << skin.error().message;
        Body body;
        body.skin = *skin;
        body.volume = volume(solid);
        body.bounds = bounds(solid);
        std::vector<int> ranks;
        for (std::size_t i = 0; i < body.skin.faces.size(); ++i)
            ranks.push_back(round % 3 == 0 ? 0 : pick(random, 0, 3));
        checkBody(body, rulesFor(body, {12, 9, 5}, ranks), "round " + std::to_string(round), random, tally);
    }
    EXPECT_NEAR(tally.steps, tally.expectedSteps, 5 * std::sqrt(tally.expectedSteps) + 3);
}
