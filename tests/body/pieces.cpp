// Sides in several pieces: which piece has which number.
#include "core/body/pieces.h"
#include "tests/body/make.h"
#include <gtest/gtest.h>
#include <map>

using namespace slab;

TEST(Pieces, piecesKeepTheirNumbers) {
    // A wall across a deck cuts it in two; the keys saved keep the numbers when a third piece appears.
    Project p = projectOf(
        {boxForm("deck", {0, 0, 0}, {900, 300, 50}), boxForm("wall", {500, -10, -10}, {550, 310, 200})});
    const Body first = bodyOf(p);
    ASSERT_NE(face(first.skin, "deck/top#1"), nullptr);
    ASSERT_NE(face(first.skin, "deck/top#2"), nullptr);
    EXPECT_GT(areaOf(first.skin, "deck/top#1"), areaOf(first.skin, "deck/top#2")) << "in the order of x";
    EXPECT_FALSE(first.pieces.empty());
    for (const PieceKey& k : first.pieces) EXPECT_NE(k.name.find('#'), std::string::npos);
    EXPECT_EQ(bodyOf(p, 1, {}, first.pieces), first) << "joined again with its own keys";

    std::vector<PieceKey> swapped = first.pieces;
    for (PieceKey& k : swapped) k.name.back() = k.name.back() == '1' ? '2' : '1';
    const Body turned = bodyOf(p, 1, {}, swapped);
    EXPECT_LT(areaOf(turned.skin, "deck/top#1"), areaOf(turned.skin, "deck/top#2")) << "keys decide, not x";
    EXPECT_EQ(faceNames(bodyOf(p, 0.4, {}, swapped).skin), faceNames(turned.skin)) << "at any scale";
    EXPECT_LT(areaOf(bodyOf(p, 0.4, {}, swapped).skin, "deck/top#1"),
              areaOf(turned.skin, "deck/top#2") * 0.16);

    p.forms.push_back(boxForm("rib", {200, -10, -10}, {250, 310, 200}));
    const Body three = bodyOf(p, 1, {}, first.pieces);
    EXPECT_NEAR(areaOf(three.skin, "deck/top#2"), 350 * 300, 1e-6) << "the far end keeps its number";
    EXPECT_NE(face(three.skin, "deck/top#3"), nullptr);
}

// Numbers run along x, of pieces side by side along y; at every scale the same piece has the same number.
TEST(Pieces, piecesAreNumberedAlongTheBodyAtEveryScale) {
    Form hull = profile("hull", {sidePoint("keel", 0, 300, 1125), sidePoint("knuckle", 1900, 300, 1125),
                                 sidePoint("bilge", 3100, 300, 900), sidePoint("stem", 4300, 300, 310),
                                 sidePoint("head", 5200, 1900, 400), sidePoint("shoulder", 4000, 1900, 1000),
                                 sidePoint("waist", 2000, 1900, 1125), sidePoint("stern", 0, 1900, 1125)});
    for (OutlinePoint& point : std::get<ProfileShape>(hull.shape).outline)
        if (point.z == mm(1900)) point.side = point.x == mm(0) ? "" : "deck";
    // A wall along the deck and two across it: six pieces, in pairs at one x.
    const Project p = projectOf({hull, boxForm("long wall", {-10, -50, 1800}, {3600, 50, 2200}),
                                 boxForm("wall", {700, -1200, 1800}, {800, 1200, 2200}),
                                 boxForm("fore wall", {1650, -1200, 1800}, {1700, 1200, 2200})});
    const Body unit = bodyOf(p);
    const auto centres = [](const Body& body, double scale) {
        std::map<std::string, Vec3> all;
        for (const SkinFace& f : body.skin.faces)
            if (f.name.find('#') != std::string::npos) all[f.name] = faceCentroid(body.skin, f) / scale;
        return all;
    };
    const auto first = centres(unit, 1);
    for (const char* side : {"hull/port#", "hull/starboard#", "hull/deck#"}) {
        double x = -1e9;
        for (int n = 1; first.contains(side + std::to_string(n)); ++n) {
            const Vec3 at = first.at(side + std::to_string(n));
            EXPECT_GT(at.x(), x - 1e-6) << side << n;
            x = at.x();
        }
    }
    EXPECT_TRUE(first.contains("hull/port#3")) << report(unit.findings);
    EXPECT_TRUE(first.contains("hull/deck#5"));
    EXPECT_LT(first.at("hull/deck#1").y(), first.at("hull/deck#2").y()) << "starboard before port";
    auto random = seeded(33);
    for (int round = 0; round < 12 / slowdown + 1; ++round) {
        const double scale = uniform(random, 0.05, 2);
        const auto here = centres(bodyOf(p, scale), scale),
                   quick = centres(rescaled(unit, 1, resolvedAt(p, scale)), scale);
        ASSERT_EQ(here.size(), first.size());
        ASSERT_EQ(quick.size(), first.size());
        for (const auto& [name, at] : first) {
            ASSERT_TRUE(here.contains(name)) << name;
            EXPECT_LT((here.at(name) - at).norm(), 1e-6) << name << " at " << scale;
            EXPECT_LT((quick.at(name) - at).norm(), 1e-6) << name << " at " << scale;
        }
    }
}
