// Cutting outlines by lines: nothing is lost, and every edge knows where it came from.
#include "core/plates/seam_cut.h"
#include "fixtures.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace slab;
using namespace slab::plates;
using namespace slab::test;

namespace {

PanelLoop loopOf(const Ring& outer, const Ring& inner) {
    PanelLoop loop;
    loop.outer = outer;
    loop.inner = inner;
    for (std::size_t i = 0; i < outer.size(); ++i) {
        PanelEdge e;
        e.length = (outer[(i + 1) % outer.size()] - outer[i]).norm();
        e.inner = static_cast<int>(i);
        loop.edges.push_back(e);
    }
    return loop;
}

Panel panelOf(const Ring& outer, const Ring& inner) {
    Panel panel;
    panel.name = "hull/port";
    panel.plates = {panel.name};
    panel.stock = "ply";
    panel.thickness = 12;
    panel.boundary = loopOf(outer, inner);
    return panel;
}

Ring box(double x, double y, double w, double h) {
    return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}};
}

/// A star-shaped outline; the inside one is shrunk towards the middle by its own share at every corner.
Panel randomPanel(Random& random) {
    const int corners = pick(random, 4, 12);
    Ring outer, inner;
    for (int i = 0; i < corners; ++i) {
        const double a = 2 * std::numbers::pi * (i + uniform(random, 0, 0.6)) / corners;
        const Vec2 p(std::cos(a), std::sin(a));
        const double r = uniform(random, 400, 1000);
        outer.push_back(p * r);
        inner.push_back(p * (r * uniform(random, 0.93, 1.02)));
    }
    Panel panel = panelOf(outer, inner);
    const int holes = pick(random, 0, 3);
    for (int h = 0; h < holes; ++h) {
        Ring hole = box(-150.0 + 120 * h, uniform(random, -120, 60), 80, uniform(random, 20, 60)), in = hole;
        const Vec2 shift(uniform(random, -5, 5), uniform(random, -5, 5)); // leaning walls
        for (Vec2& p : in) p += shift;
        panel.holes.push_back(loopOf(reversed(hole), reversed(in)));
        panel.holes.back().opening = "hole " + std::to_string(h);
    }
    return panel;
}

double areaOf(const std::vector<CutPiece>& pieces, bool inside) {
    double sum = 0;
    for (const CutPiece& p : pieces) sum += inside ? (p.inner ? p.inner->area() : 0) : p.outer.area();
    return sum;
}

/// Every edge of a piece lies on the edge that it came from, or on its seam.
void checkSources(const Panel& panel, const TracedPolygon& face, bool inside,
                  const std::vector<CutLine>& lines) {
    std::vector<const TracedRing*> rings{&face.outer};
    for (const TracedRing& hole : face.holes) rings.push_back(&hole);
    for (const TracedRing* ring : rings) {
        EXPECT_TRUE(isSimple(ring->points));
        for (std::size_t i = 0; i < ring->points.size(); ++i) {
            const Vec2 &a = ring->points[i], &b = ring->points[(i + 1) % ring->points.size()];
            const EdgeSource& s = ring->sources[i];
            for (const Vec2& p : {a, b}) {
                if (s.loop < 0) {
                    EXPECT_NEAR(lines[static_cast<std::size_t>(s.edge)].beyond(p), 0, 1e-6);
                    continue;
                }
                const PanelLoop& from =
                    s.loop == 0 ? panel.boundary : panel.holes[static_cast<std::size_t>(s.loop - 1)];
                const Ring& whole = inside ? from.inner : from.outer;
                const Vec2 &c = whole[static_cast<std::size_t>(s.edge)],
                           &d = whole[(static_cast<std::size_t>(s.edge) + 1) % whole.size()];
                EXPECT_NEAR(cross2((d - c).normalized(), p - c), 0, 1e-6);
                EXPECT_GE((d - c).dot(b - a), 0); // the same way round
            }
        }
    }
}

} // namespace

TEST(SeamCut, RectangleInTwoByItsWidths) {
    const Panel panel = panelOf(box(0, 0, 1000, 400), box(12, 12, 976, 376));
    const CutPieces cut = cutPiece(wholePiece(panel), {Vec2::UnitX(), 300}, 0);
    ASSERT_EQ(cut.pieces.size(), 2U);
    EXPECT_DOUBLE_EQ(cut.pieces[0].outer.area(), 300 * 400);
    EXPECT_DOUBLE_EQ(cut.pieces[1].outer.area(), 700 * 400);
    EXPECT_DOUBLE_EQ(cut.pieces[0].inner->area(), 288 * 376);
    EXPECT_DOUBLE_EQ(cut.lost, 0);
    EXPECT_EQ(cut.pieces[0].outer.outer.points.size(), 4U);
}

TEST(SeamCut, AHoleThatIsCutBecomesPartOfTheOutline) {
    Panel panel = panelOf(box(0, 0, 1000, 400), box(0, 0, 1000, 400));
    panel.holes.push_back(loopOf(reversed(box(400, 100, 200, 200)), reversed(box(400, 100, 200, 200))));
    const CutPieces cut = cutPiece(wholePiece(panel), {Vec2::UnitX(), 450}, 0);
    ASSERT_EQ(cut.pieces.size(), 2U);
    EXPECT_TRUE(cut.pieces[0].outer.holes.empty());
    EXPECT_EQ(cut.pieces[0].outer.outer.points.size(), 8U);
    EXPECT_DOUBLE_EQ(cut.pieces[0].outer.area(), 450 * 400 - 50 * 200);
    const auto seams =
        std::count_if(cut.pieces[1].outer.outer.sources.begin(), cut.pieces[1].outer.outer.sources.end(),
                      [](const EdgeSource& s) { return s.loop < 0; });
    EXPECT_EQ(seams, 2);
}

TEST(SeamCut, AlongAStepTheOutlineStaysOutline) {
    // a T: the cut runs along the underside of its bar
    const Ring tee{{300, 0}, {700, 0}, {700, 500}, {1000, 500}, {1000, 800}, {0, 800}, {0, 500}, {300, 500}};
    const Panel panel = panelOf(tee, tee);
    const CutPieces cut = cutPiece(wholePiece(panel), {Vec2::UnitY(), 500}, 0);
    ASSERT_EQ(cut.pieces.size(), 2U);
    EXPECT_DOUBLE_EQ(cut.pieces[0].outer.area(), 400 * 500);
    EXPECT_DOUBLE_EQ(cut.pieces[1].outer.area(), 1000 * 300);
    const TracedRing& bar = cut.pieces[1].outer.outer;
    double seam = 0, outline = 0;
    for (std::size_t i = 0; i < bar.points.size(); ++i) {
        const Vec2 &a = bar.points[i], &b = bar.points[(i + 1) % bar.points.size()];
        if (std::abs(a.y() - 500) > 1e-9 || std::abs(b.y() - 500) > 1e-9) continue;
        (bar.sources[i].loop < 0 ? seam : outline) += (b - a).norm();
    }
    EXPECT_DOUBLE_EQ(seam, 400);
    EXPECT_DOUBLE_EQ(outline, 600);
}

TEST(SeamCut, APronggedOutlineFallsIntoAsManyPieces) {
    const Ring fork{{0, 0}, {900, 0}, {900, 600}, {600, 600}, {600, 200}, {300, 200}, {300, 600}, {0, 600}};
    const CutPieces cut = cutPiece(wholePiece(panelOf(fork, fork)), {Vec2::UnitY(), 400}, 0);
    ASSERT_EQ(cut.pieces.size(), 3U);
    EXPECT_EQ(crossings(tracedFace(panelOf(fork, fork), false), {Vec2::UnitY(), 400}).size(), 2U);
}

TEST(SeamCut, ALineBeyondTheOutlineLeavesItWhole) {
    const Panel panel = panelOf(box(0, 0, 1000, 400), box(0, 0, 1000, 400));
    const CutPieces cut = cutPiece(wholePiece(panel), {Vec2::UnitX(), 1000}, 0);
    ASSERT_EQ(cut.pieces.size(), 1U);
    EXPECT_EQ(cut.pieces[0].outer.outer.points, panel.boundary.outer);
}

TEST(SeamCut, RandomPanelsKeepTheirArea) {
    Random random(seedFor("seam cuts", 7));
    double worst = 0;
    int pieces = 0;
    for (int round = 0; round < 1500 / slowdown; ++round) {
        const Panel panel = randomPanel(random);
        const CutPiece whole = wholePiece(panel);
        std::vector<CutPiece> all{whole};
        std::vector<CutLine> lines;
        const int cuts = pick(random, 1, 4);
        double lost = 0;
        for (int c = 0; c < cuts; ++c) {
            const double a = uniform(random, 0, 2 * std::numbers::pi);
            CutLine line{{std::cos(a), std::sin(a)}, uniform(random, -300, 300)};
            if (pick(random, 0, 2) == 0) { // through two corners
                const Ring& ring =
                    panel.holes.empty() || pick(random, 0, 1) ? panel.boundary.outer : panel.holes[0].outer;
                const auto n = static_cast<int>(ring.size());
                const int i = pick(random, 0, n - 1), k = (i + pick(random, 1, n - 1)) % n;
                const Vec2 d =
                    (ring[static_cast<std::size_t>(k)] - ring[static_cast<std::size_t>(i)]).normalized();
                line.normal = {-d.y(), d.x()};
                line.offset = line.normal.dot(ring[static_cast<std::size_t>(i)]);
            }
            lines.push_back(line);
            std::vector<CutPiece> next;
            for (const CutPiece& piece : all) {
                CutPieces cut = cutPiece(piece, line, c);
                lost += cut.lost;
                for (CutPiece& p : cut.pieces) next.push_back(std::move(p));
            }
            all = std::move(next);
        }
        const double outer = whole.outer.area(), inner = whole.inner->area();
        worst = std::max(worst, std::abs(areaOf(all, false) - outer) / outer);
        worst = std::max(worst, std::abs(areaOf(all, true) + lost - inner) / inner);
        pieces += static_cast<int>(all.size());
        for (const CutPiece& p : all) {
            checkSources(panel, p.outer, false, lines);
            if (p.inner) checkSources(panel, *p.inner, true, lines);
        }
        if (HasFailure()) {
            std::cout << "round " << round << '\n';
            return;
        }
    }
    std::cout << pieces << " pieces, greatest relative loss " << worst << '\n';
    EXPECT_LT(worst, 1e-12);
    EXPECT_GT(pieces, 3000 / slowdown);
}
