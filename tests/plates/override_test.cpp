// Choices for single edges: each kind of override wins over the ranks, and shares the corner out exactly.
#include "tests/plates/fixtures.h"
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::test;

TEST(EdgeOverride, WinsOverRanksAndKeepsTheVolume) {
    const double a = 400, t = 12;
    const Body body = bodyOf(makeBox({0, 0, 0}, {a, a, a}));
    PlateRules rules = evenRules(body, t);
    for (std::size_t i = 0; i < rules.faces.size(); ++i) rules.faces[i].rank = static_cast<int>(i);
    const std::string f = body.skin.faces[0].name; // the highest rank: covers everything by rule
    for (const JointKind kind : {JointKind::mitre, JointKind::fold, JointKind::cover}) {
        for (const SkinEdge& edge : body.skin.edges) {
            if (edge.left != 0 && edge.right != 0) continue;
            const std::string g =
                body.skin.faces[static_cast<std::size_t>(edge.left == 0 ? edge.right : edge.left)].name;
            rules.edges = {{g, f, kind, {}}};
            const PlateSet set = buildPlates(body, rules);
            const Plate* plate = findPlate(set, f);
            ASSERT_NE(plate, nullptr);
            const PanelEdge* at = findEdge(*plate, g);
            ASSERT_NE(at, nullptr) << f << " " << g;
            const EdgeRole wanted = kind == JointKind::mitre  ? EdgeRole::mitre
                                    : kind == JointKind::fold ? EdgeRole::fold
                                                              : EdgeRole::butts;
            EXPECT_EQ(at->role, wanted) << f << " " << g;
            // design: a mitre at 90° has a = 0, b = t; a butting plate a = b = t.
            EXPECT_NEAR(at->offsetOuter, kind == JointKind::cover ? t : 0, 1e-9);
            EXPECT_NEAR(at->offsetInner, t, 1e-9);
            double sum = 0;
            for (const Plate& p : set.plates) sum += p.volume;
            for (const Misfit& gap : set.gaps) sum += gap.volume;
            const double inside = a - 2 * t;
            EXPECT_NEAR(sum, a * a * a - inside * inside * inside, 1e-9 * a * a * a) << f << " " << g;
            EXPECT_TRUE(set.overlaps.empty());
        }
    }
}
