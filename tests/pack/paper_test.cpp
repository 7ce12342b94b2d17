// The samples' own drawings: words never lie on words, bars and letters never on a line that is cut.
#include "core/drawing/pen.h"
#include "core/drawing/tiles.h"
#include "core/pack/drawings.h"
#include "tests/evaluate/samples.h"

using namespace slab;
using namespace slab::test;

namespace {

const char* const names[] = {"harbour-fire-boat", "moon-crawler", "harbour-tram"};

Evaluation inUnits(const std::string& name, const std::string& units) {
    Project project = sample(name);
    project.units = units;
    return evaluated(project);
}

std::vector<Label> labelsOf(const Page& page) {
    std::vector<Label> all;
    const auto add = [&](const Group& group) {
        for (const Layer& layer : group.layers)
            all.insert(all.end(), layer.labels.begin(), layer.labels.end());
    };
    for (const Group& group : page.groups) add(group);
    add(page.overlay);
    return all;
}

bool crosses(const Area& area, const Ring& ring, const Vec2& shift) {
    for (std::size_t i = 0; i < ring.size(); ++i)
        if (partInside(ring[i] + shift, ring[(i + 1) % ring.size()] + shift, {area.x, area.y},
                       {area.right(), area.top()}))
            return true;
    return false;
}

/// Frame of the card: the first box on its layer.
Area cardOf(const Page& page) {
    const Box2 box = bounds(page.overlay.layers.at(2).strokes.at(0).points);
    return {box.min.x(), box.min.y(), box.size().x(), box.size().y()};
}

} // namespace

TEST(PanelDrawings, NoWordsOverlapOnAnyPageOfTheSamples) {
    for (const char* name : names)
        for (const char* units : {"mm", "ft"}) {
            const Project project = sample(name);
            for (const Page& page : panelDrawing(project, inUnits(name, units)).pages) {
                const std::vector<Label> labels = labelsOf(page);
                std::vector<Area> areas;
                for (const Label& label : labels) areas.push_back(labelArea(label).grown(-0.2));
                for (std::size_t i = 0; i < labels.size(); ++i)
                    for (std::size_t j = i + 1; j < labels.size(); ++j)
                        EXPECT_FALSE(areas[i].meets(areas[j])) << page.name << " in " << units << ": "
                                                               << labels[i].text << " | " << labels[j].text;
            }
        }
}

TEST(PanelDrawings, NotesKeepOffTheOutlines) {
    for (const char* name : names)
        for (const Page& page : panelDrawing(sample(name), inUnits(name, "mm")).pages) {
            if (page.groups.empty()) continue; // tables alone
            ASSERT_EQ(page.groups.size(), 2U);
            for (const Layer& notes : page.groups[1].layers)
                for (const Label& label : notes.labels)
                    for (const char* lines : {"outer", "inner"})
                        for (const Layer& layer : page.groups[0].layers)
                            for (const Stroke& stroke : layer.strokes) {
                                if (layer.name != lines) continue;
                                Ring ring = stroke.points;
                                if (!stroke.closed) ring.insert(ring.end(), ring.rbegin(), ring.rend());
                                EXPECT_FALSE(crosses(labelArea(label).grown(-0.2), ring, Vec2::Zero()))
                                    << page.name << ": " << label.text << " on " << lines;
                            }
        }
}

TEST(TemplatePages, BarsNeverCrossALineThatIsCut) {
    std::size_t pages = 0, level = 0, upright = 0, crossed = 0;
    for (const char* name : names)
        for (const char* units : {"mm", "ft"}) {
            const Evaluation e = inUnits(name, units);
            TemplateOptions options;
            options.units = e.units;
            options.paper = *paperNamed(std::string(units) == "mm" ? "A4" : "Letter");
            for (const Panel& panel : *e.panels)
                for (const Page& page : templatePages(panel, options)) {
                    if (page.groups.empty()) continue; // marks of the copies
                    ++pages;
                    for (const Ring& ring : drawnRings(panel))
                        crossed += crosses(cardOf(page), ring, page.shift) ? 1 : 0;
                    const Layer& bars = page.overlay.layers.at(1);
                    ASSERT_EQ(bars.name, "bars");
                    bool along[2] = {false, false};
                    for (const Stroke& stroke : bars.strokes) {
                        const Vec2 a = stroke.points[0], b = stroke.points[1];
                        const Vec2 low = a.cwiseMin(b), high = a.cwiseMax(b);
                        const Area area{low.x() - 0.1, low.y() - 0.1, high.x() - low.x() + 0.2,
                                        high.y() - low.y() + 0.2};
                        for (int axis = 0; axis < 2; ++axis)
                            along[axis] = along[axis] || std::abs(b[axis] - a[axis]) > 99.9;
                        for (const Ring& ring : drawnRings(panel))
                            EXPECT_FALSE(crosses(area, ring, page.shift)) << page.name << " in " << units;
                        EXPECT_LE(stroke.width, 0.25);
                    }
                    level += along[0] ? 1 : 0;
                    upright += along[1] ? 1 : 0;
                }
        }
    // Where an outline runs down the middle of a page no 100 mm are free across it; that must stay an
    // exception.
    std::printf("%zu pages, level bar on %zu, upright bar on %zu, card across a line on %zu\n", pages, level,
                upright, crossed);
    EXPECT_GE(static_cast<double>(level), 0.95 * static_cast<double>(pages));
    EXPECT_GE(static_cast<double>(upright), 0.95 * static_cast<double>(pages));
}

TEST(TemplatePages, CopiesAreToldOnceWithEveryMark) {
    const Evaluation e = inUnits("harbour-fire-boat", "ft");
    TemplateOptions options;
    options.units = e.units;
    options.paper = *paperNamed("Letter");
    std::size_t told = 0;
    for (const Panel& panel : *e.panels) {
        std::string words;
        int tables = 0;
        for (const Page& page : templatePages(panel, options))
            for (const Layer& layer : page.overlay.layers)
                for (const Label& label : layer.labels) {
                    words += "\n" + label.text + "\n";
                    tables += label.text.rfind("Copies:", 0) == 0 ? 1 : 0;
                }
        bool marked = false;
        for (const PanelCopy& copy : panel.copies)
            for (const auto& loop : copy.loops)
                for (const EdgeMeeting& edge : loop) {
                    if (panel.copies.size() < 2 || edge.mark == 0) continue;
                    marked = true;
                    EXPECT_NE(words.find("\n" + std::to_string(edge.mark) + "\n"), std::string::npos)
                        << panel.name << " " << copy.plate << " " << edge.mark;
                }
        EXPECT_EQ(tables, marked ? 1 : 0) << panel.name;
        told += marked ? 1 : 0;
    }
    EXPECT_GT(told, 0U);
}

// 1572 × 627 mm on a roll 609.6 mm wide: two strips along the roll, not three across it.
TEST(TemplatePages, RollsGiveFewestStripsAlongTheRoll) {
    TemplateOptions options;
    options.paper = *paperNamed("roll 24 in");
    const TilePlan plan = planTiles({{{0, 0}, {1572, 0}, {1572, 627}, {0, 627}}}, options);
    EXPECT_EQ(plan.printedCount(), 2);
    EXPECT_NEAR(plan.pageHeight, 609.6, 1e-9);
    EXPECT_NEAR(plan.pageWidth, 1592, 1);
    EXPECT_LE(calibrationPage(options).height, 240);
}
