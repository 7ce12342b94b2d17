// The printed measuring sheet: every measure once in the table, every line on a drawing, nothing off the
// paper.
#include "core/donor/donor.h"
#include "core/pack/measuring_sheet.h"
#include "core/pack/pack.h"
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <gmock/gmock.h>

namespace slab {
namespace {

Drawing sheetFor(const std::string& kind, const char* units = "mm") {
    Project p;
    p.title = "Harbour crate";
    p.units = units;
    p.donor.kind = kind;
    Evaluation e;
    e.units.unit = std::string(units) == "in" ? Unit::in : Unit::mm;
    return measuringDrawing(p, e);
}
std::size_t countOf(const Drawing& d, const std::string& words) {
    std::size_t n = 0;
    for (const Page& page : d.pages)
        for (const Layer& layer : page.overlay.layers)
            for (const Label& label : layer.labels) n += label.text == words ? 1 : 0;
    return n;
}

TEST(MeasuringPages, ShowEveryLetterOnTheDrawingAndInTheTable) {
    for (const std::string& kind : donorKinds()) {
        const Drawing d = sheetFor(kind);
        const auto sheet = measuringSheet(kind);
        EXPECT_EQ(d.pages.empty(), sheet.empty()) << kind;
        for (const Measure& m : sheet)
            EXPECT_EQ(countOf(d, m.letter), m.axis >= 0 && kind != "own" ? 2U : 1U) << kind << " " << m.name;
        if (const char* folder = std::getenv("SLABSIDE_SHOTS"); folder && !d.pages.empty()) {
            std::ofstream out(std::filesystem::path(folder) / ("measuring-" + kind + ".pdf"),
                              std::ios::binary);
            out << writePdf(d);
        }
    }
}

TEST(MeasuringPages, KeepToThePaper) {
    for (const std::string& kind : donorKinds())
        for (const Page& page : sheetFor(kind, "in").pages)
            for (const Layer& layer : page.overlay.layers) {
                const auto inside = [&](const Vec2& p) {
                    return p.x() > 5 && p.y() > 5 && p.x() < page.width - 5 && p.y() < page.height - 5;
                };
                for (const Stroke& s : layer.strokes)
                    EXPECT_TRUE(std::all_of(s.points.begin(), s.points.end(), inside))
                        << kind << " " << page.name;
                for (const Label& l : layer.labels) {
                    const Area a = labelArea(l);
                    EXPECT_TRUE(inside({a.x, a.y}) && inside({a.right(), a.top()}))
                        << kind << " " << page.name << " " << l.text;
                }
            }
}

TEST(MeasuringPages, SayTheCautionsAndTheGenericValues) {
    const Drawing d = sheetFor("powered_chair");
    std::string all;
    for (const Page& page : d.pages)
        for (const Layer& layer : page.overlay.layers)
            for (const Label& label : layer.labels) all += label.text + "\n";
    for (const char* words :
         {"Switch it off", "chock", "Never crawl", "Measured by", "Date", "480 mm", "630 mm"})
        EXPECT_THAT(all, ::testing::HasSubstr(words));
}

} // namespace
} // namespace slab
