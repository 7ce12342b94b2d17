// The printed cut list of the cleats, their sections true size, and both in the build pack.
#include "core/document/file.h"
#include "core/pack/drawings.h"
#include "core/pack/pack.h"
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>

namespace slab {
namespace {

namespace fs = std::filesystem;

const Project& netBarge() {
    static const Project project = [] {
        auto read = loadProject(fs::path(SLABSIDE_SOURCE_DIR) / "tests" / "evaluate" / "documents" /
                                "net-barge.slabside.json");
        if (!read) throw std::runtime_error(read.error().message);
        return *read;
    }();
    return project;
}

std::string wordsOf(const Drawing& drawing) {
    std::string all;
    for (const Page& page : drawing.pages)
        for (const Layer& layer : page.overlay.layers)
            for (const Label& label : layer.labels) all += label.text + "\n";
    return all;
}

} // namespace

TEST(CleatPages, tellEveryLineAndDrawSectionsTrueSize) {
    const Evaluation e = Evaluator().evaluate(netBarge(), Effort::live);
    const Drawing drawing = cleatDrawing(netBarge(), e);
    ASSERT_GE(drawing.pages.size(), 3U); // cut list, timber, sections
    const std::string words = wordsOf(drawing);
    for (const char* text : {"sill", "corner", "post", "25 mm × 25 mm", "30 mm × 30 mm",
                             "40 mm × 12 mm of ply", "one face planed", "push stick"})
        EXPECT_NE(words.find(text), std::string::npos) << text << " in\n" << words;
    std::vector<double> drawn;
    for (const Page& page : drawing.pages) {
        for (const Layer& layer : page.overlay.layers) {
            for (const Stroke& stroke : layer.strokes)
                for (const Vec2& p : stroke.points) {
                    EXPECT_GE(p.x(), 0) << page.name;
                    EXPECT_LE(p.x(), page.width) << page.name;
                    EXPECT_GE(p.y(), 0) << page.name;
                    EXPECT_LE(p.y(), page.height) << page.name;
                }
            for (const Fill& fill : layer.fills)
                if (fill.ink == Ink::plywood) drawn.push_back(std::abs(signedArea(fill.area.outer)));
        }
    }
    for (const CleatLine& line : e.cleats->lines)
        EXPECT_TRUE(std::any_of(drawn.begin(), drawn.end(), [&](double a) {
            return std::abs(a - signedArea(line.section.outline)) < 1e-6 * a;
        })) << line.rule;
}

TEST(CleatPages, areInThePackWhereThereAreAny) {
    const fs::path folder = fs::temp_directory_path() / "slabside-cleat-pages";
    const auto holds = [&](const Project& project) {
        fs::remove_all(folder);
        const Evaluation e = Evaluator().evaluate(project, Effort::live);
        const auto written = writePack(project, e, folder);
        EXPECT_TRUE(written) << (written ? "" : written.error().message);
        return fs::exists(folder / "cleats.pdf") && fs::exists(folder / "cleats.csv");
    };
    EXPECT_TRUE(holds(netBarge()));
    Project bare = netBarge();
    bare.cleats.clear();
    EXPECT_FALSE(holds(bare));
    EXPECT_TRUE(cleatDrawing(bare, Evaluator().evaluate(bare, Effort::live)).pages.empty());
    fs::remove_all(folder);
}

} // namespace slab
