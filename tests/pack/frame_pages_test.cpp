// The printed steps in which frames go together, and both in the build pack.
#include "core/document/file.h"
#include "core/pack/drawings.h"
#include "core/pack/pack.h"
#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>

namespace slab {
namespace {

namespace fs = std::filesystem;

const Project& crawlerProject() {
    static const Project project = [] {
        auto read = loadProject(fs::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "documents" /
                                "marsh-crawler.slabside.json");
        if (!read) throw std::runtime_error(read.error().message);
        return *read;
    }();
    return project;
}

std::vector<std::string> pageWords(const Page& page) {
    std::vector<std::string> all;
    for (const Layer& layer : page.overlay.layers)
        for (const Label& label : layer.labels) all.push_back(label.text);
    for (const Group& group : page.groups)
        for (const Layer& layer : group.layers)
            for (const Label& label : layer.labels) all.push_back(label.text);
    return all;
}
std::string inOne(const std::vector<std::string>& words) {
    std::string all;
    for (const std::string& w : words) all += w + "\n";
    return all;
}

} // namespace

TEST(FramePages, tellEveryStepInItsOrderAndDrawIt) {
    const Evaluation e = Evaluator().evaluate(crawlerProject(), Effort::live);
    ASSERT_TRUE(e.frames);
    ASSERT_EQ(e.frames->order.size(), 3U);
    const Drawing drawing = frameDrawing(crawlerProject(), e);
    ASSERT_EQ(drawing.pages.size(), 2U) << "the table, and three pictures";
    const std::string table = inOne(pageWords(drawing.pages[0]));
    std::size_t last = 0;
    for (const char* text : {"bulkhead", "stands first", "midship", "keelson", "from above"}) {
        const std::size_t at = table.find(text, last);
        ASSERT_NE(at, std::string::npos) << text << " in\n" << table;
        last = at;
    }
    // The marks that it names are those on the boards' edges.
    for (const Plate& plate : e.plates->plates)
        if (plate.name == "frames/keelson")
            for (const PanelEdge& edge : plate.boundary.edges)
                if (edge.mark > 0 && edge.neighbour.starts_with("frames/")) {
                    EXPECT_NE(table.find("(mark " + std::to_string(edge.mark) + ")"), std::string::npos)
                        << table;
                }
    const Page& pictures = drawing.pages[1];
    EXPECT_NE(inOne(pageWords(pictures)).find("from above, onto bulkhead"), std::string::npos)
        << inOne(pageWords(pictures));
    // The board that goes in is filled in each picture, perhaps in parts; what stands hides what is behind
    // it.
    std::vector<bool> filled(3, false);
    int standing = 0;
    for (const Layer& layer : pictures.overlay.layers) {
        for (const Fill& fill : layer.fills) {
            const double share = bounds(fill.area.outer).min.x() / pictures.width;
            if (fill.ink == Ink::plywood) filled[static_cast<std::size_t>(3 * share)] = true;
            standing += fill.ink == Ink::paper ? 1 : 0;
        }
        for (const Stroke& stroke : layer.strokes)
            for (const Vec2& p : stroke.points) {
                EXPECT_TRUE(p.x() >= 0 && p.x() <= pictures.width && p.y() >= 0 && p.y() <= pictures.height);
            }
    }
    EXPECT_EQ(filled, std::vector<bool>(3, true));
    EXPECT_GE(standing, 1 + 2);
}

TEST(FramePages, areInThePackWhereBoardsGoTogether) {
    const fs::path folder = fs::temp_directory_path() / "slabside-frame-pages";
    const auto holds = [&](const Project& project) {
        fs::remove_all(folder);
        const auto written = writePack(project, Evaluator().evaluate(project, Effort::live), folder);
        EXPECT_TRUE(written) << (written ? "" : written.error().message);
        return fs::exists(folder / "frames.pdf");
    };
    EXPECT_TRUE(holds(crawlerProject()));
    Project bare = crawlerProject();
    bare.frames.clear();
    EXPECT_FALSE(holds(bare));
    EXPECT_TRUE(frameDrawing(bare, Evaluator().evaluate(bare, Effort::live)).pages.empty());
    fs::remove_all(folder);
}

TEST(FramePages, drawingsOfBoardsSayWhichWayTheirOutsideLooks) {
    const Evaluation e = Evaluator().evaluate(crawlerProject(), Effort::live);
    ASSERT_TRUE(e.panels);
    int boards = 0;
    for (std::size_t i = 0; i < e.panels->size(); ++i) {
        const Panel& panel = (*e.panels)[i];
        const std::string words =
            inOne(pageWords(panelPages(panel, panelOptions(crawlerProject(), e, i)).front()));
        const bool frame = panel.name.starts_with("frames/");
        EXPECT_EQ(words.find("this face ") != std::string::npos, frame) << panel.name;
        if (!frame) continue;
        ++boards;
        // A board's outside is the side that its frame's axis points to: x to the front, y to port.
        const std::string side = panel.name == "frames/keelson" ? "to port" : "to the front";
        EXPECT_NE(words.find("; this face " + side), std::string::npos) << panel.name << "\n" << words;
        EXPECT_NE(words.find("Outside face\n" + side), std::string::npos) << panel.name << "\n" << words;
        const TemplateOptions options = templateOptions(crawlerProject(), e, panel, *paperNamed("A4"));
        EXPECT_EQ(options.facing.size(), 1U);
        EXPECT_TRUE(options.facing.front().starts_with(side));
        EXPECT_NE(inOne(pageWords(templatePages(panel, options).front())).find("this face"),
                  std::string::npos);
    }
    EXPECT_EQ(boards, 3);
}

} // namespace slab
