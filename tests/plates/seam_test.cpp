// Panels larger than their sheet: where they are cut, what the pieces are, and the strips behind.
#include "core/nesting/nest.h"
#include "core/plates/facets.h"
#include "core/plates/seams.h"
#include "core/plates/sheet_room.h"
#include "core/takeoff/takeoff.h"
#include "fixtures.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <numbers>
#include <set>

using namespace slab;
using namespace slab::plates;
using namespace slab::test;

namespace {

StockSet sheetsOf(const std::string& stock, double length, double width, double thickness,
                  const std::string& turns = "any") {
    StockSet set;
    Sheet s;
    s.name = stock;
    s.kind = "plywood";
    s.length = length;
    s.width = width;
    s.thickness = thickness;
    s.turns = turns;
    set.sheets = {s};
    set.margin = 2;
    return set;
}

struct Cut {
    PlateSet plates;
    std::vector<Panel> before;
    SplitPanels after;
};

Cut split(const Polyhedron& solid, double length, double width, std::vector<SeamChoice> seams = {},
          const std::string& turns = "any", std::vector<ResolvedOpening> openings = {}) {
    const Body body = bodyOf(solid);
    PlateRules rules = evenRules(body, 12);
    rules.openings = std::move(openings);
    Cut cut;
    cut.plates = buildPlates(body, rules);
    cut.before = makePanels(cut.plates);
    cut.after = splitPanels(cut.before, cut.plates,
                            sheetsOf(rules.faces.front().stock, length, width, 12, turns), seams);
    return cut;
}

const Panel* panelNamed(const std::vector<Panel>& all, const std::string& name) {
    const auto it = std::find_if(all.begin(), all.end(), [&](const Panel& p) { return p.name == name; });
    return it == all.end() ? nullptr : &*it;
}

bool has(const SplitPanels& split, const std::string& code) {
    return std::any_of(split.findings.begin(), split.findings.end(),
                       [&](const Finding& f) { return f.code == code; });
}

double faceArea(const Panel& panel, bool inside) {
    double sum = signedArea(inside ? panel.boundary.inner : panel.boundary.outer);
    for (const PanelLoop& hole : panel.holes) sum += signedArea(inside ? hole.inner : hole.outer);
    return sum;
}

/// Area of both faces of every panel cut from a plate, times its copies.
double areaOf(const std::vector<Panel>& all, const std::set<std::string>& leaveOut = {}) {
    double sum = 0;
    for (const Panel& p : all)
        if (!leaveOut.contains(p.plates.front()))
            sum += static_cast<double>(p.copyCount()) * (faceArea(p, false) + faceArea(p, true));
    return sum;
}

ResolvedOpening hosted(const std::string& plate, double width, double height, Vec2 at = Vec2::Zero()) {
    ResolvedOpening o;
    o.name = "exit";
    o.plate = plate;
    o.outline = roundedRing(width, height, 0);
    o.at = at;
    return o;
}

/// What the two edges of every mark say of each other.
void checkMarks(const SplitPanels& split) {
    std::map<int, std::vector<std::pair<std::string, std::string>>> seams;
    for (const Panel& panel : split.panels)
        for (const PanelCopy& copy : panel.copies)
            for (const auto& loop : copy.loops)
                for (const EdgeMeeting& m : loop)
                    if (m.role == EdgeRole::seam) seams[m.mark].emplace_back(copy.plate, m.neighbour);
    for (const auto& [mark, sides] : seams) {
        ASSERT_EQ(sides.size(), 2U) << "mark " << mark;
        EXPECT_GT(mark, 0);
        EXPECT_EQ(sides[0].first, sides[1].second);
        EXPECT_EQ(sides[1].first, sides[0].second);
    }
}

} // namespace

TEST(Seams, ALongSideBecomesTwoAlikeHalves) {
    // 3000 × 400 on 2440 × 1220: in the middle both lie one over the other on half a sheet
    const Cut cut = split(makeBox({0, 0, 0}, {3000, 700, 400}), 2440, 1220);
    const Panel *a = panelNamed(cut.after.panels, "port/a"), *b = panelNamed(cut.after.panels, "port/b");
    ASSERT_TRUE(a && b);
    EXPECT_FALSE(panelNamed(cut.after.panels, "port"));
    EXPECT_FALSE(panelNamed(cut.after.panels, "port/c"));
    EXPECT_NEAR(bounds(a->boundary.outer).size().x(), 1500, 1e-6);
    EXPECT_NEAR(bounds(b->boundary.outer).size().x(), 1500, 1e-6);
    EXPECT_EQ(a->cutFrom, (std::vector<std::string>{"port", "starboard"})); // cut alike
    EXPECT_EQ(a->plates, (std::vector<std::string>{"port/a", "starboard/a"}));
    EXPECT_TRUE(a->isOf("port") && a->isOf("port/a") && !a->isOf("port/b"));
    EXPECT_NE(a->fingerprint, b->fingerprint);
    EXPECT_FALSE(a->fingerprint.empty());
    EXPECT_TRUE(has(cut.after, "panel-split"));
    checkMarks(cut.after);
    const auto seam = std::find_if(a->boundary.edges.begin(), a->boundary.edges.end(),
                                   [](const PanelEdge& e) { return e.role == EdgeRole::seam; });
    ASSERT_NE(seam, a->boundary.edges.end());
    EXPECT_EQ(seam->neighbour, "port/b");
    EXPECT_NEAR(seam->bevel, 0, 1e-12);
    EXPECT_NEAR(seam->dihedral, std::numbers::pi, 1e-12);
    EXPECT_GE(seam->inner, 0);
}

TEST(Seams, FewestPiecesOfRectangles) {
    // a plain rectangle needs ceil(a / L) ceil(b / W) pieces in the better of its two directions
    for (const auto& [length, width] :
         {std::pair(2500.0, 300.0), std::pair(2400.0, 1300.0), std::pair(5000.0, 500.0),
          std::pair(3000.0, 1500.0), std::pair(7000.0, 1000.0), std::pair(5000.0, 2000.0),
          std::pair(5000.0, 1500.0), std::pair(6000.0, 2000.0), std::pair(4500.0, 4000.0)}) {
        const Cut cut = split(makeBox({0, 0, 0}, {length, width, 200}), 2440, 1220);
        const auto way = [](double a, double b) {
            return static_cast<int>(std::ceil(a / 2440 - 1e-9) * std::ceil(b / 1220 - 1e-9));
        };
        const auto top = std::count_if(cut.after.panels.begin(), cut.after.panels.end(),
                                       [](const Panel& p) { return p.isOf("top") && !p.cutFrom.empty(); });
        const int copies = static_cast<int>(panelNamed(cut.before, "top") ? top : 0);
        EXPECT_EQ(copies, std::min(way(length, width), way(width, length))) << length << " x " << width;
    }
}

TEST(Seams, ThePlaceOfTheBuilderIsTaken) {
    SeamChoice seam;
    seam.plate = "port";
    seam.at = -200;
    seam.strip = 100;
    const Cut cut = split(makeBox({0, 0, 0}, {3000, 700, 400}), 2440, 1220, {seam});
    const Panel* a = panelNamed(cut.after.panels, "port/a");
    ASSERT_TRUE(a);
    EXPECT_NEAR(bounds(a->boundary.outer).size().x(), 1300, 1e-6);
    const auto made = std::find_if(cut.after.seams.begin(), cut.after.seams.end(),
                                   [](const SeamCut& s) { return s.panel == "port"; });
    ASSERT_NE(made, cut.after.seams.end());
    EXPECT_FALSE(made->found);
    EXPECT_NEAR(made->at, -200, 1e-9);
    EXPECT_NEAR(made->turn, 0, 1e-9);
    EXPECT_NEAR(made->length, 400, 1e-6);
    EXPECT_EQ(made->strips, (std::vector<std::string>{"port/strip", "starboard/strip"}));
    const Panel* strip = panelNamed(cut.after.panels, "port/strip");
    ASSERT_TRUE(strip);
    EXPECT_NEAR(bounds(strip->boundary.outer).size().x(), 100, 1e-6);
}

TEST(Seams, ATurnedSeamIsFoundAgainAtItsPlace) {
    SeamChoice seam;
    seam.plate = "port";
    seam.at = 150;
    seam.turn = 0.3;
    const Cut cut = split(makeBox({0, 0, 0}, {3000, 700, 400}), 2440, 1220, {seam});
    const auto made = std::find_if(cut.after.seams.begin(), cut.after.seams.end(),
                                   [](const SeamCut& s) { return s.panel == "port"; });
    ASSERT_NE(made, cut.after.seams.end());
    EXPECT_NEAR(made->at, 150, 1e-9);
    EXPECT_NEAR(made->turn, 0.3, 1e-9);
    EXPECT_NEAR(made->length, 400 / std::cos(0.3), 1e-6);
}

TEST(Seams, StripsStayInsideAndClearOfNeighbours) {
    const Cut cut = split(makeBox({0, 0, 0}, {3000, 700, 400}), 2440, 1220);
    ASSERT_FALSE(cut.after.strips.empty());
    for (const Plate& strip : cut.after.strips) {
        EXPECT_TRUE(checkClosed(strip.solid)) << strip.name;
        for (const Plate& plate : cut.plates.plates)
            for (const ConvexSolid& a : strip.cells)
                for (const ConvexSolid& b : plate.cells) {
                    const Nearest n = nearest(a, b);
                    EXPECT_LT(n.meets ? n.depth : 0.0, 1e-6) << strip.name << " in " << plate.name;
                }
    }
    // behind the seam of the long side: from the bottom plate to the top plate, 2 mm clear of each
    const Plate& port = *std::find_if(cut.after.strips.begin(), cut.after.strips.end(),
                                      [](const Plate& p) { return p.name == "port/strip"; });
    const Vec2 size = bounds(port.boundary.outer).size();
    EXPECT_NEAR(size.x(), 80, 1e-6);
    EXPECT_NEAR(size.y(), 400 - 2 * 12 - 2 * 2, 1e-3);
    const double inside = 700 - 12;
    EXPECT_NEAR(bounds(port.solid).max.y(), inside, 1e-6);
    EXPECT_NEAR(bounds(port.solid).min.y(), inside - 12, 1e-6);
}

TEST(Seams, KeepsClearOfOpenings) {
    // in the middle stands the exit: the seam goes beside it, 40 mm clear
    const Cut cut =
        split(makeBox({0, 0, 0}, {3000, 700, 400}), 2440, 1220, {}, "any", {hosted("port", 500, 200)});
    const auto made = std::find_if(cut.after.seams.begin(), cut.after.seams.end(),
                                   [](const SeamCut& s) { return s.panel == "port"; });
    ASSERT_NE(made, cut.after.seams.end());
    EXPECT_GE(std::abs(made->at), 250 + 40 - 1e-6);
    EXPECT_LE(std::abs(made->at), 250 + 60);
    EXPECT_GE(made->clear, 40 - 1e-6);
    EXPECT_FALSE(has(cut.after, "seam-near-corner"));
    EXPECT_FALSE(has(cut.after, "seam-through-opening"));
}

TEST(Seams, AnOpeningThatLeavesNoRoomIsCutAndTold) {
    const Cut cut =
        split(makeBox({0, 0, 0}, {2600, 700, 400}), 1400, 1220, {}, "any", {hosted("port", 2500, 200)});
    EXPECT_TRUE(has(cut.after, "seam-through-opening"));
    const Panel* a = panelNamed(cut.after.panels, "port/a");
    ASSERT_TRUE(a);
    EXPECT_TRUE(a->holes.empty());
    EXPECT_EQ(a->boundary.opening, "exit");
    checkMarks(cut.after);
}

TEST(Seams, TheOtherHandIsCutAlike) {
    std::vector<Vec3> points; // sides that lean and taper: port and starboard are each other's hand
    for (const double y : {-1.0, 1.0}) {
        points.emplace_back(0, 300 * y, 0);
        points.emplace_back(2900, 350 * y, 0);
        points.emplace_back(0, 350 * y, 420);
        points.emplace_back(3100, 420 * y, 500);
    }
    const Cut cut = split(hullOf(points), 2440, 1220);
    int pairs = 0;
    for (const Panel& panel : cut.after.panels) {
        if (panel.mirrorOf.empty() || panel.cutFrom.empty()) continue;
        const Panel* other = panelNamed(cut.after.panels, panel.mirrorOf);
        ASSERT_TRUE(other) << panel.mirrorOf;
        EXPECT_NEAR(faceArea(panel, false), faceArea(*other, false), 1e-3);
        EXPECT_NEAR(faceArea(panel, true), faceArea(*other, true), 1e-3);
        EXPECT_EQ(panel.boundary.outer.size(), other->boundary.outer.size());
        ++pairs;
    }
    EXPECT_GE(pairs, 2);
}

TEST(Seams, CopiesAreOnePanelWithTheirOwnMarks) {
    // a square tube: its four sides are one panel, cut four times
    const Body body = bodyOf(makeBox({0, 0, 0}, {3000, 400, 400}));
    PlateRules rules = evenRules(body, 12, JointKind::mitre);
    const PlateSet set = buildPlates(body, rules);
    const auto before = makePanels(set);
    const SplitPanels out = splitPanels(before, set, sheetsOf(rules.faces[0].stock, 2440, 1220, 12), {});
    const auto side =
        std::find_if(before.begin(), before.end(), [](const Panel& p) { return p.plates.size() == 4; });
    ASSERT_NE(side, before.end());
    const Panel* a = panelNamed(out.panels, side->name + "/a");
    ASSERT_TRUE(a);
    EXPECT_EQ(a->copies.size(), 4U);
    EXPECT_EQ(a->copyCount(), 4U);
    checkMarks(out);
    std::set<std::string> strips;
    for (const Plate& s : out.strips) strips.insert(s.name);
    EXPECT_EQ(strips.size(), 4U);
    for (std::size_t c = 0; c < 4; ++c) {
        EXPECT_EQ(a->copies[c].plate, side->plates[c] + "/a");
        ASSERT_EQ(a->copies[c].contacts.size(), 1U);
        EXPECT_EQ(a->copies[c].contacts[0].plate, side->plates[c] + "/strip");
        // 376 mm inside, 2 mm clear of the sides and, behind the first, of their strips
        const double long_ = std::abs(signedArea(a->copies[c].contacts[0].rings[0])) / 40;
        EXPECT_TRUE(std::abs(long_ - 372) < 1e-3 || std::abs(long_ - 348) < 1e-3) << long_;
    }
}

TEST(Seams, NothingToDoWhereAllFits) {
    const Cut cut = split(makeBox({0, 0, 0}, {1000, 700, 400}), 2440, 1220);
    EXPECT_EQ(cut.after.panels, cut.before);
    EXPECT_TRUE(cut.after.findings.empty());
    EXPECT_TRUE(cut.after.strips.empty());
}

TEST(Seams, WrongEntriesAreToldAndNothingElseChanges) {
    SeamChoice gone, far;
    gone.plate = "keel";
    far.plate = "port";
    far.at = 5000;
    const Cut cut = split(makeBox({0, 0, 0}, {1000, 700, 400}), 2440, 1220, {gone, far});
    EXPECT_TRUE(has(cut.after, "seam-no-panel"));
    EXPECT_TRUE(has(cut.after, "seam-misses"));
    EXPECT_EQ(cut.after.panels, cut.before);
    // Of a panel that is split anyway it is told as well.
    const Cut large = split(makeBox({0, 0, 0}, {3000, 700, 400}), 2440, 1220, {far});
    EXPECT_TRUE(panelNamed(large.after.panels, "port/a"));
    EXPECT_TRUE(has(large.after, "seam-misses"));
}

TEST(Seams, GrainDecidesWhichWayPiecesLie) {
    // with the grain along the sheet a panel 1300 high must be cut, however short it is
    const Cut free = split(makeBox({0, 0, 0}, {2000, 700, 1300}), 2440, 1220);
    EXPECT_TRUE(panelNamed(free.after.panels, "port/a"));
    const Cut turned = split(makeBox({0, 0, 0}, {1100, 700, 1300}), 2440, 1220);
    EXPECT_TRUE(panelNamed(turned.after.panels, "port"));
    const Cut grain = split(makeBox({0, 0, 0}, {1100, 700, 1300}), 2440, 1220, {}, "half");
    EXPECT_TRUE(panelNamed(grain.after.panels, "port/a"));
}

TEST(Seams, RandomBodiesKeepTheirAreaAndFitTheirSheets) {
    Random random(seedFor("seams", 3));
    double worst = 0;
    int split = 0, pieces = 0, most = 0;
    for (int round = 0; round < 60 / slowdown; ++round) {
        std::vector<Vec3> points;
        for (int i = 0; i < pick(random, 6, 14); ++i)
            points.emplace_back(uniform(random, 0, 2600), uniform(random, 0, 1500), uniform(random, 0, 1200));
        const Body body = bodyOf(hullOf(points));
        PlateRules rules = evenRules(body, 12, pick(random, 0, 1) ? JointKind::cover : JointKind::mitre);
        for (int o = 0; o < 3; ++o) {
            const auto face =
                static_cast<std::size_t>(pick(random, 0, static_cast<int>(body.skin.faces.size()) - 1));
            rules.openings.push_back(hosted(body.skin.faces[face].name, uniform(random, 40, 300),
                                            uniform(random, 40, 200),
                                            {uniform(random, -200, 200), uniform(random, -100, 100)}));
            rules.openings.back().name += std::to_string(o);
        }
        const char* turns[] = {"any", "quarter", "half", "none"};
        const StockSet stock = sheetsOf(rules.faces[0].stock, uniform(random, 700, 1500),
                                        uniform(random, 500, 900), 12, turns[pick(random, 0, 3)]);
        const PlateSet set = buildPlates(body, rules);
        const auto before = makePanels(set);
        const SplitPanels out = splitPanels(before, set, stock, {});
        std::set<std::string> strips;
        for (const Plate& s : out.strips) strips.insert(s.name);
        std::set<std::string> stripPanels;
        double all = 0;
        for (const Panel& p : out.panels) {
            const std::string& first = p.cutFrom.empty() ? p.plates.front() : p.cutFrom.front();
            if (strips.contains(first)) {
                stripPanels.insert(p.plates.front());
                continue;
            }
            all += static_cast<double>(p.copyCount()) * (faceArea(p, false) + faceArea(p, true));
            if (!p.cutFrom.empty()) ++pieces;
            EXPECT_TRUE(fitsSheet(p.footprint.outer, roomOf(stock, p.stock))) << p.name;
        }
        const double was = areaOf(before);
        worst = std::max(worst, std::abs(all - was) / was);
        for (const SeamCut& s : out.seams) split += s.found;
        most = std::max(most, static_cast<int>(out.panels.size()));
        checkMarks(out);
        const NestProblem problem = nestProblemFor(out.panels, stock);
        NestOptions options;
        options.rounds = 1;
        const NestResult laid = nest(problem, options);
        EXPECT_TRUE(laid.unplaced.empty())
            << "round " << round << ": " << laid.unplaced.size() << " unplaced, first "
            << problem.parts[static_cast<std::size_t>(laid.unplaced.front().first)].id;
        EXPECT_TRUE(checkNest(problem, laid).empty());
        std::set<std::string> prints;
        for (const Panel& p : out.panels) {
            EXPECT_FALSE(p.fingerprint.empty());
            ASSERT_EQ(p.boundary.edges.size(), p.boundary.outer.size());
            ASSERT_EQ(p.copies.front().loops.size(), p.holes.size() + 1);
        }
        if (HasFailure()) break;
    }
    std::cout << split << " seams found, " << pieces << " pieces, at most " << most
              << " panels of one body; greatest relative loss of area " << worst << '\n';
    EXPECT_LT(worst, 1e-9);
    EXPECT_GT(split, 60 / slowdown);
}

TEST(Seams, ASliverOfTheInsideThatNothingCoversIsTold) {
    // the inside face is notched from above, the outside is whole: above the notch's foot it is in two parts
    Panel panel;
    panel.name = "hull/port";
    panel.plates = {panel.name};
    panel.stock = "ply";
    panel.thickness = 12;
    const Ring outer{{0, 0}, {1000, 0}, {1000, 400}, {0, 400}};
    const Ring inner{{0, 0},     {1000, 0},  {1000, 400}, {700, 400},
                     {700, 100}, {600, 100}, {600, 400},  {0, 400}};
    panel.boundary.outer = outer;
    panel.boundary.inner = inner;
    panel.boundary.edges.resize(4);
    SeamChoice seam;
    seam.plate = "hull/port";
    seam.turn = std::numbers::pi / 2;
    seam.at = 60;
    const SplitPanels out = splitPanels({panel}, {}, sheetsOf("ply", 2440, 1220, 12), {seam});
    EXPECT_EQ(out.panels.size(), 2U);
    EXPECT_TRUE(has(out, "seam-sliver"));
}
