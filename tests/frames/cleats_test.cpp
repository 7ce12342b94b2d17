// Cleats: sections and lengths by closed forms.
#include "core/frames/frames.h"
#include "tests/frames/cleats_make.h"
#include "tests/frames/frustum.h"
#include <algorithm>

namespace slab {

// Square corner: the bar as it is. Area of a bar of w x d in a corner of 60°, one face planed off:
// w d - d² cot 60° / 2 (elementary geometry).
TEST(Cleats, sectionsFitTheirCorner) {
    const auto square = cleatSection(20, 30, 90 * degree);
    ASSERT_TRUE(square);
    EXPECT_EQ(square->planed, 0);
    EXPECT_DOUBLE_EQ(signedArea(square->outline), 600);
    EXPECT_DOUBLE_EQ(square->onA, 20);
    EXPECT_DOUBLE_EQ(square->onB, 30);
    const auto sharp = cleatSection(20, 20, 60 * degree);
    ASSERT_TRUE(sharp);
    EXPECT_EQ(sharp->planed, 1);
    EXPECT_NEAR(signedArea(sharp->outline), 400 - 200 / std::tan(60 * degree), 1e-9);
    EXPECT_NEAR(sharp->onB, 20 / std::sin(60 * degree), 1e-9);
    const auto flat = cleatSection(20, 20, 150 * degree);
    ASSERT_TRUE(flat);
    EXPECT_EQ(flat->planed, 2);
    EXPECT_NEAR(flat->onA, 10 / std::sin(75 * degree), 1e-9);
    EXPECT_NEAR(flat->onB, flat->onA, 1e-9);
    // A gable roof of height 10 cot 75° is planed off: half base times height.
    EXPECT_NEAR(signedArea(flat->outline), 400 - 100 / std::tan(75 * degree), 1e-9);
}

TEST(Cleats, anySectionLiesOnBothPlates) {
    auto random = seeded(5);
    for (int round = 0; round < 2000 / slowdown; ++round) {
        const double angle = uniform(random, 12, 175) * degree, w = uniform(random, 5, 60),
                     d = uniform(random, 5, 60);
        const bool flat = below(random, 3) == 0;
        const auto s = cleatSection(w, d, angle, flat);
        if (!s) {
            ASSERT_TRUE(flat);
            continue;
        }
        const Vec2 b(std::cos(angle), std::sin(angle));
        for (const Vec2& p : s->outline) {
            ASSERT_GE(p.y(), -1e-9);
            ASSERT_GE(-cross2(b, p), -1e-9);
        }
        ASSERT_GT(s->onA, 0.2 * std::min(w, d));
        ASSERT_GT(s->onB, 0.2 * std::min(w, d));
        ASSERT_LE(signedArea(s->outline), w * d + 1e-9); // planed out of the bar, never more than it
        ASSERT_NEAR(signedArea(convexHull(s->outline)), signedArea(s->outline), 1e-9);
        for (std::size_t i = 0; i < s->outline.size(); ++i)
            ASSERT_GT((s->outline[(i + 1) % s->outline.size()] - s->outline[i]).norm(), 1e-9);
        if (flat) {
            ASSERT_LE(s->planed, 1);
        }
    }
}

TEST(Cleats, refuseWhatIsNoCorner) {
    for (const auto& section :
         {cleatSection(20, 20, std::numbers::pi), cleatSection(20, 20, 4), cleatSection(0, 20, 1),
          cleatSection(20, 20, 0), cleatSection(20, 20, std::nan("")),
          cleatSection(20, 20, 150 * degree, true), cleatSection(20, 20, 30 * degree, true)}) {
        ASSERT_FALSE(section);
        EXPECT_EQ(section.error().code, "cleat-corner");
    }
}

// Four inside edges each of 980, 580 and 480. At each corner one stick of 20 runs through and two butt, so
// the lengths sum to 4 (980 + 580 + 480) less 8 corners times two butting ends times 20.
TEST(Cleats, sticksOfABoxShareItsCorners) {
    const Body body = crateBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    const CleatSet cleats = makeCleats({cleatRule("edges")}, set, {});
    EXPECT_EQ(cleats.parts.size(), 12U);
    EXPECT_TRUE(cleats.findings.empty()) << report(cleats.findings);
    EXPECT_NEAR(lengthOf(cleats), 4 * (980 + 580 + 480) - 8 * 2 * 20, 0.01);
    double longest = 0, volumes = 0;
    for (const CleatLine& line : cleats.lines) {
        longest = std::max(longest, line.length);
        EXPECT_NEAR(line.angle, 90 * degree, 1e-12);
        EXPECT_EQ(line.section.planed, 0);
        EXPECT_GT(line.mark, 0);
        EXPECT_DOUBLE_EQ(line.glueA, 20);
        EXPECT_DOUBLE_EQ(line.glueB, 20);
    }
    for (const Plate& part : cleats.parts) volumes += part.volume;
    EXPECT_NEAR(longest, 980, 0.01);
    EXPECT_NEAR(volumes, lengthOf(cleats) * 400, 1);
    CleatChoice gapped = cleatRule("edges");
    gapped.endGap = 25; // more than a bar: no end butts
    EXPECT_NEAR(lengthOf(makeCleats({gapped}, set, {})), 4 * (980 + 580 + 480) - 12 * 2 * 25, 0.01);
}

// Hexagon of side 400: the inside one has the side 400 - 2 t tan 30°. Along its corners, at 120°, a bar of
// 20 x 20 stands on the bisector and holds 10 / sin 60° on either side; round the base, the square end of
// one reaches 20 sin 60° into the next.
TEST(Cleats, sticksOfASixSidedTower) {
    TaperShape s;
    for (int i = 0; i < 6; ++i)
        s.base.push_back(planPoint("s" + std::to_string(i), 400 * std::cos(60 * degree * i),
                                   400 * std::sin(60 * degree * i)));
    s.top = s.base;
    s.base_z = "0 mm";
    s.top_z = "700 mm";
    const Body body = bodyOf(projectOf({named("tower", s)}));
    const PlateSet set = buildPlates(body, evenRules(body, 12));
    const CleatSet upright = makeCleats({cleatRule("corners", "tower/s*", "tower/s*")}, set, {});
    ASSERT_EQ(upright.parts.size(), 6U) << report(upright.findings);
    for (const CleatLine& line : upright.lines) {
        EXPECT_NEAR(line.angle, 120 * degree, 1e-9);
        EXPECT_NEAR(line.length, 700 - 24, 1e-6);
        EXPECT_EQ(line.section.planed, 2);
        EXPECT_NEAR(line.glueA, 10 / std::sin(60 * degree), 1e-9);
        EXPECT_NEAR(line.glueB, line.glueA, 1e-9);
    }
    const CleatSet level = makeCleats({cleatRule("foot", "tower/base", "tower/s*")}, set, {});
    ASSERT_EQ(level.parts.size(), 6U) << report(level.findings);
    const double side = 400 - 2 * 12 * std::tan(30 * degree);
    EXPECT_NEAR(lengthOf(level), 6 * side - 6 * 20 * std::sin(60 * degree), 0.01);
    for (const CleatLine& line : level.lines) EXPECT_EQ(line.a, "tower/base"); // the rule's first
}

// Frustum of reference-values 7.4: sides pitched at p, tan p = 4; two sides meet at π - acos(cos² p).
TEST(Cleats, sectionsTakeTheJointsAngle) {
    const Body body = frustumBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    const CleatSet cleats = makeCleats({cleatRule("all")}, set, {});
    const double pitch = std::atan(4.0), cp = std::cos(pitch);
    int foot = 0, head = 0, arris = 0;
    for (const CleatLine& line : cleats.lines) {
        const bool base = line.a == "tower/base" || line.b == "tower/base";
        const bool top = line.a == "tower/top" || line.b == "tower/top";
        ++(base ? foot : top ? head : arris);
        EXPECT_NEAR(line.angle,
                    base  ? pitch
                    : top ? std::numbers::pi - pitch
                          : std::numbers::pi - std::acos(cp * cp),
                    1e-9);
        EXPECT_EQ(line.section.planed, 1);
    }
    EXPECT_EQ(foot, 4);
    EXPECT_EQ(head, 4);
    EXPECT_EQ(arris, 4);
}

TEST(Cleats, blocksStandNoFurtherApartThanWanted) {
    const Body body = crateBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    CleatChoice rule = cleatRule("blocks");
    rule.block = true;
    const CleatSet cleats = makeCleats({rule}, set, {});
    const auto most = std::max_element(cleats.lines.begin(), cleats.lines.end(),
                                       [](const auto& l, const auto& r) { return l.count < r.count; });
    ASSERT_NE(most, cleats.lines.end());
    EXPECT_EQ(most->count, 5); // (980 - 40) / 250 = 3.76: four spaces
    EXPECT_NEAR(most->pitch, 940 / 4.0, 0.01);
    for (const CleatLine& line : cleats.lines) {
        EXPECT_NEAR(line.length, 40, 1e-9);
        EXPECT_LE(line.pitch, 250);
        EXPECT_EQ(line.plates.size(), static_cast<std::size_t>(line.count));
    }
    rule.spacing = 30; // less than a block is long: they stand end to end, no nearer
    for (const CleatLine& line : makeCleats({rule}, set, {}).lines) {
        EXPECT_GE(line.pitch, 40 - 1e-9);
        EXPECT_LT(line.pitch, 44);
    }
}

// A stick of 980 from bars of 400: two whole ones and 180; from bars of 460 two whole ones leave only 60,
// less than four widths, so that 520 are halved.
TEST(Cleats, longSticksAreMadeOfWholeBarsAndARest) {
    const Body body = crateBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    CleatChoice rule = cleatRule("sill", "box/port", "box/base");
    rule.barLength = 400;
    const CleatSet cleats = makeCleats({rule}, set, {});
    ASSERT_EQ(cleats.lines.size(), 2U);
    EXPECT_EQ(cleats.lines[0].count, 2);
    EXPECT_NEAR(cleats.lines[0].length, 400, 1e-6);
    EXPECT_EQ(cleats.lines[1].count, 1);
    EXPECT_NEAR(cleats.lines[1].length, 180, 1e-6);
    EXPECT_EQ(cleats.parts[2].name, "box/port/sill cleat#3");
    rule.barLength = 460;
    const CleatSet halved = makeCleats({rule}, set, {});
    ASSERT_EQ(halved.lines.size(), 2U);
    EXPECT_NEAR(halved.lines[0].length, 460, 1e-6);
    EXPECT_EQ(halved.lines[1].count, 2);
    EXPECT_NEAR(halved.lines[1].length, 260, 1e-6);
}

// A door of 200 through the side takes 200 from the sill; a bulkhead of 10 takes 10.
TEST(Cleats, stopAtOpeningsAndFrames) {
    const Body body = crateBody();
    PlateRules rules = evenRules(body, 10);
    ResolvedOpening door; // from x = 400 to 600 and from z = 0 up, through port
    door.name = "door";
    door.origin = {500, 0, 100};
    door.direction = Vec3::UnitY();
    door.outline = {{-100, -150}, {100, -150}, {100, 150}, {-100, 150}};
    door.plates = {"box/port"};
    rules.openings.push_back(door);
    PlateSet set = buildPlates(body, rules);
    const CleatChoice rule = cleatRule("sill", "box/port", "box/base");
    const CleatSet cut = makeCleats({rule}, set, {});
    ASSERT_EQ(cut.parts.size(), 2U) << report(cut.findings);
    EXPECT_NEAR(lengthOf(cut), 980 - 200, 0.01);
    FrameChoice board;
    board.name = "mid";
    board.place.origin = {700, 0, 0};
    board.place.axes << 0, 0, 1, 1, 0, 0, 0, 1, 0; // u = y, v = z, w = x
    board.stock = "ply";
    board.thickness = 10;
    const FrameSet frames = makeFrames({board}, body.skin, set.plates, {});
    set.plates.append(frames.parts);
    const CleatSet both = makeCleats({rule}, set, {});
    ASSERT_EQ(both.parts.size(), 3U) << report(both.findings);
    EXPECT_NEAR(lengthOf(both), 980 - 200 - 10, 0.01);
}

// Wheel, 5 wanted: it stands in the section, so 5 more on either side of its 100 are left out. Foot, 30
// wanted: the section's corner passes it at √(10² + 15²), so √(30² - 325) more.
TEST(Cleats, giveWayToDonorAndRider) {
    const Body body = crateBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    const FitSolid wheel{"donor/wheel", "donor", makeBoxSolid({300, 200, 15}, {400, 285, 120}), 5, false, {}};
    const FitSolid foot{"rider/foot", "rider", makeBoxSolid({300, 200, 45}, {400, 260, 120}), 30, false, {}};
    const CleatChoice rule = cleatRule("sill", "box/port", "box/base");
    for (const auto& [solid, lost] :
         {std::pair(wheel, 100 + 2 * 5.0), std::pair(foot, 100 + 2 * std::sqrt(900 - 325.0))}) {
        const CleatSet cleats = makeCleats({rule}, set, {{solid}});
        ASSERT_EQ(cleats.parts.size(), 2U);
        EXPECT_NEAR(lengthOf(cleats), 980 - lost, 0.02) << solid.name;
        ASSERT_EQ(cleats.findings.size(), 1U) << report(cleats.findings);
        EXPECT_EQ(cleats.findings[0].code, "cleat-in-the-way");
        for (const Plate& part : cleats.parts) {
            const double gap = nearest(part.cells[0], solid.shape).distance;
            EXPECT_GE(gap, solid.clearance - 1e-9);
            EXPECT_LE(gap, solid.clearance + 0.02);
        }
    }
    FitSolid far = foot;
    far.clearance = 18; // just less than the 18.03 that there are
    EXPECT_EQ(makeCleats({rule}, set, {{far}}).parts.size(), 1U);
}

TEST(Cleats, tellWhatComesToNothing) {
    const Body body = crateBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    EXPECT_NE(find(makeCleats({cleatRule("wrong", "tower/*")}, set, {}).findings, "cleat-misses"), nullptr);
    CleatChoice wide = cleatRule("wide");
    wide.endGap = 600;
    EXPECT_NE(find(makeCleats({wide}, set, {}).findings, "cleat-no-room"), nullptr);
    const CleatSet twice = makeCleats({cleatRule("all"), cleatRule("sill", "box/port", "box/base")}, set, {});
    EXPECT_NE(find(twice.findings, "cleat-twice"), nullptr);
    EXPECT_EQ(twice.parts.size(), 12U);
}

// A flat strip of 10 in a corner of 60°: its edge against the second plate is sawn 30° from square.
TEST(Cleats, stripsOfASheetArePanels) {
    TaperShape s;
    s.base = {planPoint("a", 0, 0), planPoint("b", 800, 0), planPoint("c", 400, 400 * std::sqrt(3.0))};
    s.top = s.base;
    s.base_z = "0 mm";
    s.top_z = "500 mm";
    const Body body = bodyOf(projectOf({named("wedge", s)}));
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    CleatChoice rule = cleatRule("posts");
    rule.stock = "ply";
    rule.width = 40;
    rule.depth = 10;
    const CleatSet cleats = makeCleats({rule}, set, {});
    int posts = 0;
    for (const CleatLine& line : cleats.lines) {
        if (std::abs(line.angle - 60 * degree) > 1e-6) continue;
        ++posts;
        const auto part = std::find_if(cleats.parts.begin(), cleats.parts.end(),
                                       [&](const Plate& p) { return p.name == line.plates[0]; });
        ASSERT_NE(part, cleats.parts.end());
        EXPECT_EQ(part->stock, "ply");
        EXPECT_NEAR(part->volume, line.length * signedArea(line.section.outline), 1e-6 * part->volume);
        const auto& edges = part->boundary.edges;
        const auto planed = std::find_if(edges.begin(), edges.end(),
                                         [](const PanelEdge& e) { return e.role == EdgeRole::rests; });
        ASSERT_NE(planed, edges.end());
        EXPECT_NEAR(planed->bevel, 30 * degree, 1e-9);
        EXPECT_EQ(planed->neighbour, line.b);
        EXPECT_NEAR(planed->length, line.length, 1e-9);
        ASSERT_EQ(part->rests.size(), 1U);
        EXPECT_EQ(part->rests[0].plate, line.a);
    }
    EXPECT_EQ(posts, 3);
    const std::vector<Panel> panels = makePanels(withCleats(set, cleats));
    const auto count = std::count_if(panels.begin(), panels.end(), [](const Panel& p) {
        return p.name.find(" cleat") != std::string::npos;
    });
    EXPECT_GT(count, 0);
}

TEST(Cleats, timberMakesNoPanelButIsMarkedWhereItIsGlued) {
    const Body body = crateBody();
    const PlateSet set = buildPlates(body, evenRules(body, 10));
    const CleatSet cleats = makeCleats({cleatRule("sill", "box/port", "box/base")}, set, {});
    const PlateSet all = withCleats(set, cleats);
    EXPECT_EQ(all.plates.size(), set.plates.size() + 1);
    EXPECT_EQ(makePanels(all).size(), makePanels(set).size());
    for (const Plate& plate : all.plates) {
        if (plate.name != "box/port" && plate.name != "box/base") continue;
        ASSERT_EQ(plate.contacts.size(), 1U) << plate.name;
        EXPECT_TRUE(plate.contacts[0].inside);
        EXPECT_EQ(plate.contacts[0].plate, "box/port/sill cleat");
        ASSERT_EQ(plate.contacts[0].rings.size(), 1U);
        EXPECT_NEAR(signedArea(plate.contacts[0].rings[0]), 980 * 20, 0.01);
    }
}

} // namespace slab
