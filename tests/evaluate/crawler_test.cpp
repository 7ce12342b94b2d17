// Crossing frames, a turntable in segments and a belt in one document, from file to panels.
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <numbers>

using namespace slab;

namespace {

Evaluation crawler() {
    const auto file =
        std::filesystem::path(SLABSIDE_SOURCE_DIR) / "tests/evaluate/documents/marsh-crawler.slabside.json";
    const auto project = readProject(textOf(file));
    EXPECT_TRUE(project) << (project ? "" : project.error().message);
    Evaluator evaluator;
    return project ? evaluator.evaluate(*project, Effort::full) : Evaluation{};
}

TEST(Crawler, ItsFramesRingsAndBeltsGoTogether) {
    const Evaluation e = crawler();
    for (const Finding& f : e.findings) {
        EXPECT_NE(f.severity, Severity::stop) << f.code << ": " << f.message;
        for (const char* code :
             {"opening-near-edge", "frame-cut-through", "frame-order", "frame-meets", "ring-sheet"})
            EXPECT_NE(f.code, code) << f.message;
    }
    ASSERT_TRUE(e.frames && e.panels && e.mechanisms);
    ASSERT_EQ(e.frames->crossings.size(), 2U) << "keelson with bulkhead and with midship";
    for (const FrameCrossing& c : e.frames->crossings) {
        EXPECT_EQ(c.b, "keelson");
        EXPECT_NEAR(c.depthA + c.depthB, c.height, 1e-6);
        // Measured: 9.2, and 0.3 of play; midship stands at 70° to the keelson.
        EXPECT_NEAR(
            c.slotA,
            slotWidth(9.2, 9.2, c.a == "midship" ? 70 * std::numbers::pi / 180 : std::numbers::pi / 2, 0.3),
            1e-6);
    }
    std::vector<std::string> order;
    for (const FrameStep& step : e.frames->order) order.push_back(step.board);
    EXPECT_EQ(order, (std::vector<std::string>{"frames/bulkhead", "frames/midship", "frames/keelson"}));
    // Every match mark stands on edges that name each other: no lap has the mark of a joint of the plates.
    std::map<int, std::vector<std::pair<std::string, std::string>>> marks;
    for (const Plate& p : e.plates->plates)
        for (const PanelEdge& edge : p.boundary.edges)
            if (edge.mark > 0 && p.name.rfind("frames/", 0) == 0)
                marks[edge.mark].push_back({p.name, edge.neighbour});
    EXPECT_EQ(marks.size(), 2U);
    for (const auto& [mark, ends] : marks) {
        ASSERT_EQ(ends.size(), 2U) << mark;
        EXPECT_EQ(ends[0].first, ends[1].second);
        EXPECT_EQ(ends[1].first, ends[0].second);
        for (const Plate& p : e.plates->plates)
            for (const PanelEdge& edge : p.boundary.edges)
                if (p.name.rfind("frames/", 0) != 0) {
                    EXPECT_NE(edge.mark, mark) << p.name;
                }
    }
    int segments = 0, strips = 0;
    for (const Panel& panel : *e.panels) {
        EXPECT_TRUE(panel.cutFrom.empty())
            << panel.name << ": rings and strips are made to fit, not split again";
        const bool ring =
            panel.name.rfind("lamp/", 0) == 0 && panel.name.find("segment") != std::string::npos;
        const bool strip = panel.name.rfind("tread/", 0) == 0;
        segments += ring;
        strips += strip;
        if (ring) {
            ASSERT_FALSE(panel.guides.empty()) << panel.name; // the joint of the next layer, and screws on top
            EXPECT_EQ(panel.guides.size() > 1, panel.name.find("cap") != std::string::npos) << panel.name;
        }
        if (strip) {
            EXPECT_GT(panel.guides.size(), 5U) << panel.name;
        }
    }
    EXPECT_GT(segments, 0);
    EXPECT_GT(strips, 0);
}

} // namespace
