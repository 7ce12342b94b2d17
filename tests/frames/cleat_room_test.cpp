// Cleats over random bodies: they lie on both plates and meet nothing. OpenCASCADE judges a part of them.
#include "core/frames/frames.h"
#include "core/geometry/occt.h"
#include "tests/frames/cleats_make.h"
#include <algorithm>

namespace slab {
namespace {

bool meetBoxes(const Box3& l, const Box3& r) {
    return (l.min.array() < r.max.array()).all() && (r.min.array() < l.max.array()).all();
}

/// How deep a piece stands in the other's convex cells, mm.
double depthIn(const Plate& piece, const Plate& other) {
    double most = 0;
    for (const ConvexSolid& cell : other.cells)
        if (meetBoxes(bounds(piece.cells[0]), bounds(cell)))
            most = std::max(most, nearest(piece.cells[0], cell).depth);
    return most;
}

/// Of the piece's faces, what lies in the plate's inside face, mm². Read off the solids alone.
double liesOn(const Polyhedron& piece, const Plate& plate) {
    const Vec3 n = plate.frame.axes.col(2);
    const double level = n.dot(plate.frame.origin) - plate.thickness;
    double sum = 0;
    for (const PolyFace& face : piece.faces) {
        if (face.plane.normal.dot(n) < 1 - 1e-12) continue;
        if (std::abs(face.plane.offset - level) > 1e-6) continue;
        Ring seen;
        for (const int v : face.loops.front())
            seen.push_back(plate.frame.toPlane(piece.vertices[static_cast<std::size_t>(v)]));
        Polygon inside{plate.boundary.inner, {}};
        for (const PanelLoop& hole : plate.holes)
            if (hole.inner.size() >= 3) inside.holes.push_back(hole.inner);
        for (const Polygon& held : intersect({{seen, {}}}, {inside})) sum += area(held);
    }
    return sum;
}

struct Scene {
    PlateSet set;
    std::vector<FitSolid> solids;
};

Body randomBody(std::mt19937_64& random) {
    if (below(random, 3) == 0) {
        TaperShape s;
        const int sides = 3 + below(random, 5);
        for (int i = 0; i < sides; ++i) {
            const double turn = (i + uniform(random, -0.25, 0.25)) * 2 * std::numbers::pi / sides;
            s.base.push_back(planPoint("s" + std::to_string(i), 500 * std::cos(turn), 400 * std::sin(turn)));
            s.top.push_back(planPoint("t" + std::to_string(i), 380 * std::cos(turn), 304 * std::sin(turn)));
        }
        s.base_z = "0";
        s.top_z = mm(uniform(random, 400, 900));
        return bodyOf(projectOf({named("tower", s)}));
    }
    ProfileShape hull;
    hull.outline = {
        sidePoint("keel", 0, 0, uniform(random, 200, 400)),
        sidePoint("fore", uniform(random, 700, 900), 0, uniform(random, 200, 400)),
        sidePoint("stem", uniform(random, 950, 1200), uniform(random, 350, 450), uniform(random, 50, 300)),
        sidePoint("aft", uniform(random, -150, 100), uniform(random, 350, 500), uniform(random, 200, 400))};
    return bodyOf(projectOf(
        {named("hull", hull), boxForm("house", {200, -150, 300}, {500, 150, uniform(random, 600, 900)})}));
}

Scene randomScene(std::mt19937_64& random) {
    Scene scene;
    const Body body = randomBody(random);
    if (body.skin.faces.empty()) return scene;
    PlateRules rules = evenRules(body, uniform(random, 4, 14));
    for (FaceChoice& face : rules.faces) {
        if (below(random, 3) == 0) face.thickness *= uniform(random, 0.6, 1.6);
        if (below(random, 3) == 0) face.rank = 0; // equal ranks are mitred
    }
    ResolvedOpening hatch;
    hatch.name = "hatch";
    hatch.origin = {uniform(random, 100, 500), 0, uniform(random, 0, 300)};
    hatch.direction = below(random, 2) == 0 ? Vec3::UnitY() : Vec3::UnitZ();
    hatch.outline = {{-80, -60}, {80, -60}, {80, 60}, {-80, 60}};
    hatch.plates = {"*"};
    if (below(random, 2) == 0) rules.openings.push_back(hatch);
    scene.set = buildPlates(body, rules);
    FrameChoice board;
    board.name = "mid";
    board.place.origin = {uniform(random, 100, 600), 0, 0};
    board.place.axes << 0, 0, 1, 1, 0, 0, 0, 1, 0;
    board.stock = "ply";
    board.thickness = uniform(random, 4, 15);
    if (below(random, 2) == 0) {
        const FrameSet frames = makeFrames({board}, body.skin, scene.set.plates, {});
        scene.set.plates.append(frames.parts);
    }
    for (int i = 0; i < 3; ++i) {
        const Vec3 low(uniform(random, -300, 600), uniform(random, -300, 200), uniform(random, 0, 300));
        const double clearance = uniform(random, 0, 40);
        scene.solids.push_back({"donor/" + std::to_string(i),
                                "donor",
                                i == 0   ? makeCapsule(low, low + Vec3(90, 60, 120), 40)
                                : i == 1 ? makeCylinder(low, low + Vec3(0, 70, 0), 60)
                                         : makeBoxSolid(low, low + Vec3(120, 90, 100)),
                                clearance,
                                false,
                                {}});
    }
    return scene;
}

CleatChoice randomRule(std::mt19937_64& random) {
    CleatChoice rule = cleatRule("all");
    rule.block = below(random, 3) == 0;
    rule.width = uniform(random, 10, 40);
    rule.depth = uniform(random, 8, 30);
    rule.endGap = below(random, 2) == 0 ? 0 : uniform(random, 0, 15);
    rule.barLength = below(random, 3) == 0 ? 300 : 2400;
    if (below(random, 3) == 0) rule.stock = "ply";
    return rule;
}

} // namespace

/// mm: what comes no deeper only touches
constexpr double touch = 5e-4;

TEST(CleatRoom, lieOnBothPlatesAndMeetNothing) {
    auto random = seeded(11);
    std::size_t made = 0, judged = 0;
    double worst = 0, worstGlue = 0;
    for (int run = 0; run < 40 / slowdown + 2; ++run) {
        const Scene scene = randomScene(random);
        const CleatChoice rule = randomRule(random);
        const CleatSet cleats = makeCleats({rule}, scene.set, {scene.solids});
        EXPECT_EQ(makeCleats({rule}, scene.set, {scene.solids}), cleats);
        const auto named = [&](const std::string& name) -> const Plate& {
            return *std::find_if(scene.set.plates.begin(), scene.set.plates.end(),
                                 [&](const Plate& p) { return p.name == name; });
        };
        std::size_t counted = 0;
        for (const CleatLine& line : cleats.lines) {
            counted += line.plates.size();
            for (const std::string& name : line.plates) {
                const auto part = std::find_if(cleats.parts.begin(), cleats.parts.end(),
                                               [&](const Plate& p) { return p.name == name; });
                ASSERT_NE(part, cleats.parts.end());
                ASSERT_TRUE(checkClosed(part->solid)) << run << " " << name;
                // The widths that the cut list tells lie on the two plates, all along.
                for (const auto& [host, width] :
                     {std::pair(line.a, line.glueA), std::pair(line.b, line.glueB)}) {
                    const double lies = liesOn(part->solid, named(host)), wanted = width * line.length;
                    const double missing = std::max(0.0, wanted - lies) / line.length; // mm of the width
                    worstGlue = std::max(worstGlue, missing);
                    EXPECT_LT(missing, 0.5) << run << " " << name << " on " << host << " of " << width;
                }
                EXPECT_NEAR(part->volume, signedArea(line.section.outline) * line.length,
                            1e-6 * part->volume + 1e-6);
            }
        }
        EXPECT_EQ(counted, cleats.parts.size());
        for (std::size_t i = 0; i < cleats.parts.size(); ++i) {
            const Plate& part = cleats.parts[i];
            ++made;
            for (const Plate& plate : scene.set.plates) {
                const double depth = depthIn(part, plate);
                worst = std::max(worst, depth);
                EXPECT_LT(depth, touch) << run << " " << part.name << " in " << plate.name;
                if (i % 23 != 0 || !meetBoxes(bounds(part.solid), bounds(plate.solid))) continue;
                const auto verdict = occt::commonVolume(part.solid, plate.solid);
                ASSERT_TRUE(verdict) << verdict.error().message;
                ++judged;
                EXPECT_LT(*verdict, 0.1) << run << " " << part.name << " in " << plate.name;
            }
            for (std::size_t k = 0; k < i; ++k)
                EXPECT_LT(depthIn(part, cleats.parts[k]), touch) << run << " " << part.name;
            for (const FitSolid& solid : scene.solids)
                EXPECT_GE(nearest(part.cells[0], solid.shape).distance, solid.clearance - 1e-6)
                    << run << " " << part.name << " to " << solid.name;
        }
    }
    std::printf("%zu pieces, %zu pairs judged by OpenCASCADE, deepest %.2g mm, worst bare width "
                "%.2g mm\n",
                made, judged, worst, worstGlue);
    EXPECT_GT(made, 300U / slowdown);
    EXPECT_GT(judged, 40U / slowdown);
}

TEST(CleatRoom, rulesAreReadOrRefused) {
    Project project;
    project.cleats.resize(9);
    project.cleats[0].width = "0 mm";
    project.cleats[1].spacing = "3 + m";
    project.cleats[2].width = "15 mm";
    project.cleats[3].end_gap = "-1 mm";
    project.cleats[4].stock = "oak";
    project.cleats[5].stock = "ply";
    project.cleats[6].stock = "ply";
    project.cleats[6].depth = "20 mm"; // the sheet is 12
    project.cleats[7].density = "-5";
    project.cleats[8].kind = "block";
    project.cleats[8].length = "3 m"; // longer than a bar
    StockSet stock;
    Sheet sheet;
    sheet.name = "ply";
    sheet.width = 1220;
    sheet.length = 2440;
    sheet.thickness = 12;
    sheet.trim = 5;
    stock.sheets = {sheet};
    std::vector<Finding> findings;
    const auto read = resolveCleats(project, Scope{}, stock, findings);
    ASSERT_EQ(read.size(), 2U) << report(findings);
    EXPECT_DOUBLE_EQ(read[0].width, 15);
    EXPECT_DOUBLE_EQ(read[0].depth, 15); // as wide
    EXPECT_DOUBLE_EQ(read[0].barLength, 2400);
    EXPECT_DOUBLE_EQ(read[0].density, 450);
    EXPECT_EQ(read[1].stock, "ply");
    EXPECT_DOUBLE_EQ(read[1].depth, 12);
    EXPECT_DOUBLE_EQ(read[1].barLength, 2430);
    EXPECT_EQ(findings.size(), 7U) << report(findings);
    EXPECT_NE(find(findings, "cleat-size"), nullptr);
    EXPECT_NE(find(findings, "cleat-stock"), nullptr);
    for (const Finding& f : findings) EXPECT_FALSE(f.remedy.empty());
}

} // namespace slab
