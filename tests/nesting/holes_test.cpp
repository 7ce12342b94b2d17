// Parts in the holes of others: no-fit polygons of many pieces, and the search on them.
#include "core/nesting/nofit.h"
#include "shapes.h"

namespace slab {
namespace {

using nesting::NoFit;
using nesting::Pt;
using testing::IsEmpty;

double distanceTo(const std::vector<nesting::Segment>& border, Pt p) {
    double least = std::numeric_limits<double>::infinity();
    for (const auto& [a, b] : border) {
        const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
        const double t =
            length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0;
        least = std::min(least, std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
    }
    return least;
}

/// The piece as a polygon: its box, cut by its half-planes.
std::vector<Pt> outlineOf(const NoFit& nofit, const NoFit::Piece& piece) {
    const nesting::Extent& e = piece.box;
    std::vector<Pt> ring{{e.minX, e.minY}, {e.maxX, e.minY}, {e.maxX, e.maxY}, {e.minX, e.maxY}};
    for (int k = 0; k < piece.count; ++k) {
        const nesting::Half& h = nofit.halves[static_cast<std::size_t>(piece.first + k)];
        std::vector<Pt> cut;
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Pt a = ring[i], b = ring[(i + 1) % ring.size()];
            const double da = h.x * a.x + h.y * a.y - h.c, db = h.x * b.x + h.y * b.y - h.c;
            if (da <= 0) cut.push_back(a);
            if (da * db >= 0) continue;
            const double t = da / (da - db);
            cut.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
        }
        ring = std::move(cut);
    }
    return ring;
}

/// Points on the sides of pieces that are neither near the border nor blocked: slits that would let parts
/// overlap.
int slits(const NoFit& nofit, double eps) {
    constexpr double nearBorder = 2e-6; // mm; less than the spacing is grown by
    int count = 0;
    for (const NoFit::Piece& piece : nofit.pieces) {
        const std::vector<Pt> corners = outlineOf(nofit, piece);
        for (std::size_t i = 0; i < corners.size(); ++i)
            for (int k = 1; k < 12; ++k) {
                const Pt a = corners[i], b = corners[(i + 1) % corners.size()];
                const double t = k / 12.0;
                const Pt p{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
                if (!nesting::blocked(nofit, p, eps) && distanceTo(nofit.border, p) > nearBorder) ++count;
            }
    }
    return count;
}

int slitsOfAll(const NestProblem& problem) {
    const nesting::Library library = nesting::makeLibrary(problem, {8, false});
    nesting::NoFitCache cache(library);
    int count = 0;
    for (std::size_t a = 0; a < library.oriented.size(); ++a)
        for (std::size_t b = 0; b < library.oriented.size(); ++b)
            if (library.oriented[a].rough || library.oriented[b].rough)
                count += slits(cache.get(static_cast<int>(a), static_cast<int>(b)), library.eps);
    return count;
}

Ring regular(Vec2 centre, double radius, int corners) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * (i + 0.5) / corners;
        ring.emplace_back(centre.x() + radius * std::cos(angle), centre.y() + radius * std::sin(angle));
    }
    return ring;
}

/// A ship's deck with a wide opening and a round one, and lids that fit in the openings, leaning a little
/// more each time.
NestProblem deckAndLids(int lean) {
    NestProblem problem;
    problem.sheets = {sheetOf(2438.4, 1219.2)};
    problem.sheets[0].trim = 6.35;
    Polygon deck{
        {Vec2(0, 0), Vec2(1385.829, 0), Vec2(2160, 270), Vec2(2160, 630), Vec2(1385.829, 900), Vec2(0, 900)},
        {}};
    deck.holes.push_back(reversed(regular(Vec2(1533.6, 450), 158.1, 8)));
    deck.holes.push_back(reversed(box(327.5, 33, 1305, 867)));
    const Polygon lid{
        {Vec2(0, 0), Vec2(63.9 + 0.37 * lean, 239.6), Vec2(-109.2 - 0.21 * lean, 239.6), Vec2(-161.7, 43.1)},
        {}};
    problem.parts = {partOf("deck", deck, 1, {}), partOf("lid", lid, 9, {}),
                     partOf("disc", {regular(Vec2(0, 0), 120, 24), {}}, 2, {})};
    problem.parts[0].spacing = 4.85;
    problem.parts[1].spacing = 5.42;
    problem.parts[2].spacing = 5;
    return problem;
}

/// Frames with large holes of straight and round outline, and small parts for them.
NestProblem randomFrames(std::mt19937_64& random) {
    NestProblem problem;
    problem.sheets = {sheetOf(uniform(random, 220, 300), uniform(random, 160, 220))};
    problem.sheets[0].trim = below(random, 2) ? 0 : 4;
    const double spacing = below(random, 3) ? uniform(random, 0.5, 4) : 0;
    for (int i = 1 + below(random, 2); i >= 0; --i) {
        const double w = uniform(random, 90, 150), h = uniform(random, 90, 140), rim = uniform(random, 4, 12);
        Polygon frame{box(0, 0, w, h), {}};
        if (below(random, 2))
            frame.holes.push_back(reversed(box(rim, rim, w - rim, h - rim)));
        else
            frame.holes.push_back(
                reversed(regular(Vec2(w / 2, h / 2), std::min(w, h) / 2 - rim, below(random, 2) ? 8 : 40)));
        problem.parts.push_back(partOf("frame " + std::to_string(i), frame, 1 + below(random, 2), {}));
    }
    for (int i = 2 + below(random, 3); i >= 0; --i)
        problem.parts.push_back(partOf("part " + std::to_string(i),
                                       randomShape(random, uniform(random, 15, 70)), 1 + below(random, 3),
                                       {}));
    for (NestPart& part : problem.parts) {
        part.spacing = spacing;
        if (below(random, 2))
            part.rotations = {0, std::numbers::pi / 2, std::numbers::pi, 1.5 * std::numbers::pi};
    }
    return problem;
}

TEST(Holes, CutsBetweenPiecesAreNotFree) {
    for (int lean = 0; lean < 16; lean += slowdown)
        EXPECT_EQ(slitsOfAll(deckAndLids(lean)), 0) << "lean " << lean;
    auto random = seeded(31);
    for (int round = 0; round < 12 / slowdown + 1; ++round)
        ASSERT_EQ(slitsOfAll(randomFrames(random)), 0) << "round " << round;
}

TEST(Holes, CornersAHairApartStillLeaveTheHoleOpen) {
    const double hair = std::nextafter(20.1, 100);
    const Ring outer{Vec2(0, 0),     Vec2(100, 0),    Vec2(100, 20.1), Vec2(110, hair),
                     Vec2(100, 100), Vec2(hair, 110), Vec2(20.1, 100), Vec2(0, 100)};
    const Polygon frame{outer, {reversed(box(20.1, 20.1, 80, 80))}};
    double sum = 0;
    for (const nesting::ConvexPiece& piece : nesting::convexPieces(frame)) sum += nesting::pieceArea(piece);
    EXPECT_NEAR(sum, area(frame), 1e-6);
}

TEST(Holes, TheJudgeRefusesNoLayoutOfTheSearch) {
    for (int lean = 0; lean < 16; lean += slowdown) {
        const NestProblem problem = deckAndLids(lean);
        NestOptions options;
        options.rounds = 12;
        options.threads = 2;
        const NestResult result = nest(problem, options);
        EXPECT_EQ(result.refusals, 0) << "lean " << lean;
        EXPECT_THAT(checkNest(problem, result), IsEmpty());
    }
}

TEST(Holes, RandomFramesAreSearchedWithoutRefusal) {
    auto random = seeded(32);
    int inside = 0;
    for (int round = 0; round < 32 / slowdown; ++round) {
        const NestProblem problem = randomFrames(random);
        NestOptions options;
        options.rounds = 3;
        options.seed = random();
        const NestResult result = nest(problem, options);
        ASSERT_EQ(result.refusals, 0) << "round " << round;
        ASSERT_THAT(checkNest(problem, result), IsEmpty()) << "round " << round;
        for (const NestLayout& layout : result.layouts)
            for (const NestPlace& outer : layout.places)
                for (const NestPlace& inner : layout.places) {
                    const Polygon frame = placed(problem.parts[static_cast<std::size_t>(outer.part)], outer);
                    const Polygon part = placed(problem.parts[static_cast<std::size_t>(inner.part)], inner);
                    for (const Ring& hole : frame.holes)
                        inside += contains(reversed(hole), part.outer.front()) ? 1 : 0;
                }
    }
    EXPECT_GT(inside, 32 / slowdown / 4); // the holes are used
}

Polygon washer(double outer, double inner, int corners) {
    Polygon ring{regular(Vec2(0, 0), outer, corners), {}};
    ring.holes.push_back(reversed(regular(Vec2(0, 0), inner, corners)));
    return ring;
}

TEST(Holes, FinelyRoundRingsAreFewPiecesAndLieInOnePosition) {
    NestProblem problem;
    problem.sheets = {sheetOf(2440, 1220)};
    problem.parts = {partOf("seat", washer(273, 203, 168), 1, {0, std::numbers::pi / 2}),
                     partOf("cap", washer(273, 210, 168), 1, {}), partOf("disc", washer(190, 3, 168), 1, {})};
    for (NestPart& part : problem.parts) part.spacing = 5;
    const nesting::Library library = nesting::makeLibrary(problem, {8, false});
    ASSERT_EQ(library.oriented.size(), 3u);
    for (const nesting::Oriented& o : library.oriented) EXPECT_LE(o.pieces.size(), 40u);
    EXPECT_EQ(library.oriented[2].pieces.size(), 1u); // nothing of the problem fits in a hole of 6 mm
    // Two rings of one size: neither goes into the other, so their outlines are all that counts.
    const NoFit beside = nesting::makeNoFit(library.oriented[0], library.oriented[1], library.eps);
    EXPECT_EQ(beside.pieces.size(), 1u);
    // A disc of 380 mm goes into a hole of 406 mm and not into a ring's material.
    const NoFit inside = nesting::makeNoFit(library.oriented[0], library.oriented[2], library.eps);
    EXPECT_FALSE(nesting::blocked(inside, {0, 0}, library.eps));
    EXPECT_TRUE(nesting::blocked(inside, {203 - 190 + 1, 0}, library.eps));
    EXPECT_TRUE(nesting::blocked(inside, {273 + 190 - 1, 0}, library.eps));
    EXPECT_FALSE(nesting::blocked(inside, {1.02 * (273 + 190) + 5, 0}, library.eps));
}

TEST(Holes, RingsOfFallingSizeLieInEachOther) {
    NestProblem problem;
    problem.sheets = {sheetOf(620, 620)}; // room for the greatest ring only
    for (const double outer : {300.0, 240.0, 180.0, 120.0})
        problem.parts.push_back(partOf("ring", washer(outer, outer - 50, 128), 1, {}));
    for (NestPart& part : problem.parts) part.spacing = 3;
    NestOptions options;
    options.rounds = 2;
    const NestResult searched = nest(problem, options);
    EXPECT_EQ(searched.layouts.size(), 1u);
    EXPECT_THAT(searched.unplaced, IsEmpty());
    EXPECT_EQ(searched.refusals, 0);
    EXPECT_THAT(checkNest(problem, searched), IsEmpty());
}

} // namespace
} // namespace slab
