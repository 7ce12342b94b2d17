// Openings by hand: what is clicked is what is cut, and formulas stay.
#include "core/board/opening_edits.h"
#include "tests/board/crate.h"
#include <random>

using namespace slab;
using namespace slab::test;

namespace {

const OpeningKind& kindOf(const std::string& key) {
    for (const OpeningKind& kind : openingKinds())
        if (kind.key == key) return kind;
    ADD_FAILURE() << key;
    return openingKinds().front();
}

} // namespace

TEST(OpeningEdits, AClickOnThePlateIsWhereTheHoleIs) {
    for (const double scale : {1.0, 0.5}) {
        const Project p = crate("2 m", "300 mm", scale);
        const Evaluation e = evaluated(p);
        for (const std::string name : {"crate/front", "crate/port", "crate/top"}) {
            const Plate& plate = plateOf(e, name);
            const Vec2 at = plateMiddle(plate) + Vec2(60, -40);
            for (const OpeningPlace place : {OpeningPlace::flat, OpeningPlace::space}) {
                const Project q =
                    applied(p, addOpening(p, *e.scope, kindOf("hand hole"), plate, at, place, 1));
                ASSERT_EQ(q.openings.size(), 1U);
                EXPECT_EQ(q.openings[0].plate.empty(), place == OpeningPlace::space);
                const Vec2 hole = holeAt(plateOf(evaluated(q), name), "hand hole");
                EXPECT_LT((hole - at).norm(), 3) << name << " at scale " << scale; // rounded to 1 mm or 2
            }
        }
    }
}

TEST(OpeningEdits, LengthsAreWrittenInTheDocumentsUnits) {
    Project p = crate();
    p.units = "in";
    const Evaluation e = evaluated(p);
    const Plate& plate = plateOf(e, "crate/port");
    const Project q =
        applied(p, addOpening(p, *e.scope, kindOf("hand hole"), plate, plateMiddle(plate) + Vec2(101, 0),
                              OpeningPlace::flat, 25.4 / 16));
    EXPECT_EQ(q.openings[0].u, "4\"");
    EXPECT_EQ(q.openings[0].v, "0");
    EXPECT_EQ(q.openings[0].width, "5\"");
    EXPECT_EQ(q.openings[0].height, "1-1/2\"");
    EXPECT_EQ(q.openings[0].purpose, "hand_hole");
    const Project two = applied(
        q, addOpening(q, *e.scope, kindOf("hand hole"), plate, plateMiddle(plate), OpeningPlace::flat, 1));
    EXPECT_EQ(two.openings[1].name, "hand hole 2");
}

TEST(OpeningEdits, AHatchIsCutWithItsLidAndFitsASmallPlate) {
    const Project p = crate("500 mm");
    const Evaluation e = evaluated(p);
    const Plate& plate = plateOf(e, "crate/port");
    const Vec2 size = openingSize(p, kindOf("hatch"), plate);
    EXPECT_LE(size.x(), 0.7 * bounds(plate.boundary.outer).size().x() + 1e-9);
    EXPECT_EQ(size.y(), 600);
    const Project q = applied(
        p, addOpening(p, *e.scope, kindOf("hatch"), plate, plateMiddle(plate), OpeningPlace::flat, 1));
    const Evaluation after = evaluated(q);
    EXPECT_NO_FATAL_FAILURE((void)plateOf(after, "crate/port/hatch lid"));
    for (const Finding& f : after.findings) EXPECT_NE(f.code, "opening-near-edge") << f.message;
}

TEST(OpeningEdits, ADragKeepsFormulasAndMovesTheHoleAsFar) {
    Project p = crate("2 m", "300 mm", 0.5);
    Opening flat;
    flat.name = "flat";
    flat.plate = "crate/port";
    flat.shape = OpeningShape::circle;
    flat.diameter = "80 mm";
    flat.u = "long / 10";
    flat.v = "-wide / 10 + 20 mm";
    Opening space = flat;
    space.name = "space";
    space.plate.clear();
    space.u.clear();
    space.v.clear();
    space.direction = "x";
    space.plates = {"crate/front"};
    space.x = "long";
    space.y = "wide / 8";
    space.z = "700 mm";
    p.openings = {flat, space};
    const Evaluation e = evaluated(p);
    const Plate &port = plateOf(e, "crate/port"), &front = plateOf(e, "crate/front");
    const Vec3 by = port.frame.axes.col(0) * 50 - port.frame.axes.col(1) * 30;
    Project q = applied(p, moveOpening(p, *e.scope, 0, port, by));
    EXPECT_EQ(q.openings[0].u, "long / 10 + 100 mm"); // half size: 50 mm on the plate are 100 of the subject
    EXPECT_EQ(q.openings[0].v, "-wide / 10 - 40 mm");
    EXPECT_LT(
        (holeAt(plateOf(evaluated(q), "crate/port"), "flat") - holeAt(port, "flat") - Vec2(50, -30)).norm(),
        1e-6);
    const Vec3 onFront = front.frame.axes.col(0) * 25 + front.frame.axes.col(1) * 35;
    q = applied(p, moveOpening(p, *e.scope, 1, front, onFront));
    EXPECT_TRUE(q.openings[1].y.starts_with("wide / 8 ")) << q.openings[1].y;
    EXPECT_EQ(q.openings[1].x, "long") << "it comes along x: where along does not matter";
    EXPECT_LT((holeAt(plateOf(evaluated(q), "crate/front"), "space") - holeAt(front, "space") - Vec2(25, 35))
                  .norm(),
              1e-6);
    EXPECT_EQ(moveOpening(p, *e.scope, 2, port, by).error().code, "no-such-place");
}

/// Where openings are told to be is where the pipeline cuts them.
TEST(OpeningEdits, FlatOutlinesAreTheHolesThatAreCut) {
    std::mt19937_64 random(seed(71));
    const auto share = [&] { return static_cast<double>(random() % 2001) / 1000 - 1; };
    for (int round = 0; round < 6; ++round) {
        Project p = crate("2 m", "250 mm", 0.5);
        const std::array<std::string, 3> plates{"crate/port", "crate/front", "crate/top"};
        for (std::size_t i = 0; i < plates.size(); ++i) {
            Opening o;
            o.name = "o" + std::to_string(i);
            o.shape = i == 1 ? OpeningShape::rectangle : OpeningShape::slot;
            o.width = "90 mm";
            o.height = "40 mm";
            o.turn = std::to_string(share() * 90) + " deg";
            if (round % 2 == 0) {
                o.plate = plates[i];
                o.u = std::to_string(share() * 200) + " mm";
                o.v = std::to_string(share() * 200) + " mm";
            } else {
                o.direction = i == 0 ? "y" : i == 1 ? "-x" : "z";
                o.plates = {plates[i]};
                o.x = std::to_string(1000 + share() * 300) + " mm";
                o.y = std::to_string(share() * 200) + " mm";
                o.z = std::to_string(700 + share() * 200) + " mm";
            }
            p.openings.push_back(o);
        }
        const Evaluation e = evaluated(p);
        for (std::size_t i = 0; i < plates.size(); ++i) {
            const Plate& plate = plateOf(e, plates[i]);
            const auto all = openingsOn(plate, *e.body, p, *e.scope);
            ASSERT_EQ(all.size(), 1U) << plates[i];
            EXPECT_EQ(all[0].index, static_cast<int>(i));
            ASSERT_EQ(plate.holes.size(), 1U);
            const Polygon told{all[0].outline, {}}, cut{reversed(plate.holes[0].outer), {}};
            double off = 0;
            for (const Polygon& rest : subtract({told}, {cut})) off += area(rest);
            for (const Polygon& rest : subtract({cut}, {told})) off += area(rest);
            EXPECT_LT(off, 1e-3 * area(cut)) << plates[i];
        }
    }
}

// Over the edge an opening is a part of the outline; it is there all the same.
TEST(OpeningEdits, OneOverTheEdgeIsOnThePlate) {
    for (const bool hosted : {true, false})
        for (const OpeningShape shape : {OpeningShape::rectangle, OpeningShape::circle}) {
            Project p = crate();
            Opening o;
            o.name = "arch";
            o.shape = shape;
            o.width = o.diameter = "300 mm";
            o.height = "200 mm";
            if (hosted)
                o.plate = "crate/port", o.v = "-500 mm";
            else
                o.direction = "y", o.x = "1 m", o.z = "200 mm";
            p.openings = {o};
            const Evaluation e = evaluated(p);
            const Plate& plate = plateOf(e, "crate/port");
            ASSERT_TRUE(plate.holes.empty()) << "it is merged into the outline";
            const auto all = openingsOn(plate, *e.body, p, *e.scope);
            ASSERT_EQ(all.size(), 1U) << (hosted ? "hosted" : "along y");
            EXPECT_EQ(all[0].index, 0);
            EXPECT_TRUE(openingsOn(plateOf(e, "crate/back"), *e.body, p, *e.scope).empty());
            EXPECT_TRUE(openingsOn(plateOf(e, "crate/top"), *e.body, p, *e.scope).empty());
        }
}

TEST(OpeningEdits, RoomToTheEdge) {
    const Project p = crate();
    const Evaluation e = evaluated(p);
    const Plate& plate = plateOf(e, "crate/port");
    const Box2 box = bounds(plate.boundary.outer);
    const auto square = [&](const Vec2& low, double side) {
        return Ring{low, low + Vec2(side, 0), low + Vec2(side, side), low + Vec2(0, side)};
    };
    const Sheet* sheet = e.stock->find("foam");
    const EdgeRoom inside = edgeRoom(plate, sheet, square(box.min + Vec2(30, 100), 100), {});
    EXPECT_NEAR(inside.left, 30, 1e-9);
    EXPECT_EQ(inside.wanted, 40); // foam, see leastWeb()
    EXPECT_FALSE(inside.through);
    EXPECT_TRUE(edgeRoom(plate, sheet, square(box.min - Vec2(10, -100), 100), {}).through);
}

TEST(OpeningEdits, WhatIsNoSideTakesNone) {
    Project p = crate();
    p.frames.push_back({"mid", "x", "1 m", {}, {}, {}, {}, {}, {}, {}, false, {}});
    const Evaluation e = evaluated(p);
    EXPECT_FALSE(takesOpenings(plateOf(e, "frames/mid"), *e.body));
    EXPECT_TRUE(takesOpenings(plateOf(e, "crate/port"), *e.body));
    EXPECT_EQ(addOpening(p, *e.scope, openingKinds().front(), Plate{}, Vec2::Zero(), OpeningPlace::flat, 1)
                  .error()
                  .code,
              "not-cuttable");
}

TEST(Materials, SidesThatNobodyGaveASheetAreTold) {
    Project p = crate();
    p.materials.fallback.clear();
    p.materials.plates = {{"crate/port", "foam"}, {"crate/top", ""}};
    const Evaluation e = evaluated(p);
    const auto told = std::find_if(e.findings.begin(), e.findings.end(),
                                   [](const Finding& f) { return f.code == "no-material"; });
    ASSERT_NE(told, e.findings.end());
    EXPECT_NE(std::find(told->about.begin(), told->about.end(), "plate:crate/front"), told->about.end());
    EXPECT_EQ(std::find(told->about.begin(), told->about.end(), "plate:crate/top"), told->about.end())
        << "left out on purpose";
    p.materials.fallback = "foam";
    for (const Finding& f : evaluated(p).findings) EXPECT_NE(f.code, "no-material");
}
