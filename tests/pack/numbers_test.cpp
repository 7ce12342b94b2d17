// Edge numbers of real panels: legible, and none lost.
#include "core/document/file.h"
#include "core/drawing/panel_view.h"
#include "core/pack/drawings.h"
#include <algorithm>
#include <gtest/gtest.h>

namespace slab {
namespace {

struct Numbers {
    std::vector<Area> areas;
    std::vector<std::string> words;
};
/// Edge numbers of a panel's view: those of the layer "numbers" that stand in a pill.
Numbers numbersOf(const PanelView& view, const std::vector<EdgeRow>& rows) {
    Numbers out;
    for (const Layer& layer : view.notes.layers) {
        if (layer.name != "numbers") continue;
        for (const Label& label : layer.labels) {
            const bool own = std::any_of(rows.begin(), rows.end(),
                                         [&](const EdgeRow& r) { return r.number == label.text; });
            const bool range = label.text.find("–") != std::string::npos;
            if (!own && !range) continue;
            const Area words = labelArea(label);
            const double width = std::max(4.6, words.width + 2.2), middle = words.y + words.height / 2;
            out.areas.push_back({words.x + words.width / 2 - width / 2, middle - 2.3, width, 4.6});
            out.words.push_back(label.text);
        }
    }
    return out;
}

/// Is edge `number` (with its hole's letter) told by a label, alone or in its range?
bool tells(const std::string& label, const std::string& letter, int number) {
    if (label.substr(0, letter.size()) != letter) return false;
    const std::string rest = label.substr(letter.size());
    if (rest.empty() || !std::isdigit(static_cast<unsigned char>(rest[0]))) return false;
    const std::size_t dash = rest.find("–");
    const int from = std::stoi(rest),
              to = dash == std::string::npos ? from : std::stoi(rest.substr(dash + std::string("–").size()));
    return number >= from && number <= to;
}

TEST(EdgeNumbers, OfAllSamplesAreClearOfEachOtherAndComplete) {
    int panels = 0, numbers = 0, ranges = 0;
    for (const char* file : {"samples/harbour-tram", "samples/moon-crawler", "samples/harbour-fire-boat",
                             "tests/evaluate/documents/marsh-crawler"}) {
        auto read = loadProject(std::string(SLABSIDE_SOURCE_DIR) + "/" + file + ".slabside.json");
        ASSERT_TRUE(read) << file;
        const Evaluation e = Evaluator().evaluate(*read, Effort::live);
        ASSERT_TRUE(e.panels);
        for (std::size_t i = 0; i < e.panels->size(); ++i) {
            const Panel& panel = (*e.panels)[i];
            const std::vector<EdgeRow> rows = edgeRows(panel);
            const PanelView view = drawView(panel, {0, 0, 170, 150}, rows, panelOptions(*read, e, i));
            const Numbers told = numbersOf(view, rows);
            ++panels;
            numbers += static_cast<int>(told.words.size());
            ranges += view.together;
            for (std::size_t a = 0; a < told.areas.size(); ++a)
                for (std::size_t b = 0; b < a; ++b)
                    EXPECT_FALSE(told.areas[a].meets(told.areas[b]))
                        << file << " " << panel.name << ": " << told.words[a] << " on " << told.words[b];
            for (const EdgeRow& row : rows) {
                const std::string letter =
                    row.hole < 0 ? "" : openingLetter(static_cast<std::size_t>(row.hole));
                const auto count =
                    std::count_if(told.words.begin(), told.words.end(),
                                  [&](const std::string& w) { return tells(w, letter, row.first + 1); });
                EXPECT_EQ(count, 1) << file << " " << panel.name << ": edge " << row.number;
            }
        }
    }
    std::printf("%d panels, %d numbers, ranges on %d\n", panels, numbers, ranges);
}

} // namespace
} // namespace slab
