// Where the arrow of a panel points on each of its copies.
#include "core/document/file.h"
#include "core/pack/drawings.h"
#include "core/plates/placements.h"
#include <gtest/gtest.h>
#include <map>

namespace slab {
namespace {

TEST(Arrows, EveryCopyOfTheTramIsToldItsOwnWay) {
    auto read = loadProject(std::string(SLABSIDE_SOURCE_DIR) + "/samples/harbour-tram.slabside.json");
    ASSERT_TRUE(read);
    const Evaluation e = Evaluator().evaluate(*read, Effort::live);
    ASSERT_TRUE(e.panels);
    const auto placed = panelPlacements(*e.plates, *e.panels);
    int turned = 0;
    for (std::size_t i = 0; i < e.panels->size(); ++i) {
        const Panel& panel = (*e.panels)[i];
        if (!panel.parts.empty() || !panel.cutFrom.empty()) continue;
        const auto arrows = panelOptions(*read, e, i).arrows;
        ASSERT_TRUE(arrows.empty() || arrows.size() == panel.copyCount()) << panel.name;
        turned += !arrows.empty();
        for (std::size_t k = 0; k < panel.copyCount(); ++k) {
            const std::string word = arrows.empty() ? panel.upWord : arrows[k];
            const Vec3 way = placed.at(panel.plates[k]).axes.leftCols<2>() * panel.up;
            const std::map<std::string, double> along{
                {"up", way.z()}, {"down", -way.z()}, {"forward", way.x()}, {"back", -way.x()}};
            if (const auto at = along.find(word); at != along.end()) {
                EXPECT_GT(at->second, 0.5) << panel.name << k;
            }
        }
    }
    EXPECT_GE(turned, 3);
}

} // namespace
} // namespace slab
