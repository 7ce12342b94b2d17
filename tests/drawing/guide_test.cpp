// Guide lines on drawings and templates: at their places, true size, apart from what is cut.
#include "core/drawing/guide_ink.h"
#include "core/drawing/tiles.h"
#include "tests/drawing/hand_panels.h"
#include "tests/geometry/seed.h"
#include <gtest/gtest.h>

namespace slab {
namespace {

/// A strip 800 by 120 with a mark every 60.
Panel stripPanel() {
    Panel panel = hand::panelOf("tread/strip 1", hand::rectangle(0, 0, 800, 120), {});
    for (int i = 1; i < 13; ++i)
        panel.guides.push_back({Vec2(60 * i, 0), Vec2(60 * i, 120), "link " + std::to_string(i), false});
    panel.guides.push_back({Vec2(40, 0), Vec2(40, 120), "glue up to here", true});
    return panel;
}

const Layer* layerOf(const Group& group, const std::string& name) {
    for (const Layer& layer : group.layers)
        if (layer.name == name) return &layer;
    return nullptr;
}

std::vector<Stroke> guidesIn(const Layer& layer) {
    std::vector<Stroke> found;
    for (const Stroke& s : layer.strokes)
        if (s.points.size() == 2 && s.width < 0.25) found.push_back(s);
    return found;
}

TEST(Guides, AreDrawnTrueSizeOnTheTemplate) {
    const Panel panel = stripPanel();
    const Group group = panelGroup(panel, Ink::card);
    const Layer* marks = layerOf(group, "marks");
    ASSERT_NE(marks, nullptr);
    const auto lines = guidesIn(*marks);
    ASSERT_EQ(lines.size(), panel.guides.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        EXPECT_EQ(lines[i].points[0], panel.guides[i].from);
        EXPECT_EQ(lines[i].points[1], panel.guides[i].to);
        EXPECT_EQ(lines[i].dash == Dash::dashed, panel.guides[i].inside);
    }
    for (std::size_t i = 1; i < 12; ++i)
        EXPECT_DOUBLE_EQ(lines[i].points[0].x() - lines[i - 1].points[0].x(), 60);
    // No outline of what is cut has changed.
    Panel plain = panel;
    plain.guides.clear();
    EXPECT_EQ(layerOf(panelGroup(plain, Ink::card), "outer")->strokes, layerOf(group, "outer")->strokes);
    // Every page of the template carries them.
    TemplateOptions options;
    options.paper = *paperNamed("A4");
    for (const Page& page : templatePages(panel, options)) {
        ASSERT_FALSE(page.groups.empty());
        EXPECT_EQ(guidesIn(*layerOf(page.groups.front(), "marks")).size(), panel.guides.size());
    }
}

TEST(Guides, WordsStandBesideTheirLineAndNeverUpsideDown) {
    auto random = seeded(4);
    for (int i = 0; i < 200; ++i) {
        Panel panel = hand::panelOf("plate", hand::rectangle(0, 0, 900, 900), {});
        const double a = uniform(random, -4, 4), length = uniform(random, 30, 400);
        const Vec2 from(450, 450), along(std::cos(a), std::sin(a));
        panel.guides = {{from, from + length * along, "joint of the next layer", false}};
        Layer marks{"marks", {}, {}, {}, {}};
        drawGuides(panel, {}, marks);
        ASSERT_EQ(marks.strokes.size(), 1U);
        for (const Label& label : marks.labels) {
            EXPECT_GT(std::cos(label.turn), -1e-9);
            const Vec2 away = label.at - from;
            EXPECT_LT(std::abs(away.x() * along.y() - away.y() * along.x()), 5) << "near its line";
            EXPECT_GT(away.dot(along), -5);
            EXPECT_LT(away.dot(along), length + 5);
        }
    }
}

TEST(Guides, AreTabledFromOneDatum) {
    const Panel panel = stripPanel();
    const Table table = guideTable(panel, {});
    ASSERT_EQ(table.rows.size(), 13U);
    EXPECT_EQ(table.rows[2][0], "link 3");
    EXPECT_NE(table.rows[2][1].find("180"), std::string::npos) << table.rows[2][1];
    EXPECT_NE(table.rows[12][0].find("inside face"), std::string::npos);
    EXPECT_TRUE(guideTable(hand::panelOf("plain", hand::rectangle(0, 0, 10, 10), {}), {}).rows.empty());
}

} // namespace
} // namespace slab
