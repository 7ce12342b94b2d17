// Seams keep clear of plates that stand behind them.
#include "core/plates/seams.h"
#include "fixtures.h"
#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

using namespace slab;
using namespace slab::test;

namespace {

StockSet largeSheets(const std::string& stock) {
    StockSet set;
    Sheet s;
    s.name = stock;
    s.kind = "plywood";
    s.length = 2440;
    s.width = 1220;
    s.thickness = 12;
    s.turns = "any";
    set.sheets = {s};
    set.margin = 2;
    return set;
}

} // namespace

TEST(SeamsAndStands, KeepsClearOfWhatStandsAlongItBehind) {
    // A bulkhead 12 mm thick stands across the middle of the long side, where the seam would be; a shelf runs
    // along that side, across every seam: that one does not count.
    const Body body = bodyOf(makeBox({0, 0, 0}, {3000, 700, 400}));
    const PlateRules rules = evenRules(body, 12);
    const PlateSet plates = buildPlates(body, rules);
    std::vector<Panel> panels = makePanels(plates);
    const auto port =
        std::find_if(panels.begin(), panels.end(), [](const Panel& p) { return p.name == "port"; });
    ASSERT_NE(port, panels.end());
    const Box2 box = bounds(port->boundary.inner);
    const Vec2 middle = (box.min + box.max) / 2;
    const auto standing = [&](const char* name, const Vec2& half) {
        Contact c;
        c.on = "port";
        c.plate = name;
        c.inside = true;
        c.rings = {{middle - half, middle + Vec2(half.x(), -half.y()), middle + half,
                    middle + Vec2(-half.x(), half.y())}};
        return c;
    };
    const auto seamWith = [&](std::vector<Contact> contacts) {
        std::vector<Panel> all = panels;
        for (Panel& p : all)
            if (p.name == "port") p.copies.front().contacts = contacts;
        const SplitPanels after = splitPanels(all, plates, largeSheets(rules.faces.front().stock), {});
        for (const Finding& f : after.findings) EXPECT_NE(f.code, "seam-under-plate");
        for (const SeamCut& s : after.seams)
            if (s.panel == "port") return s.at;
        return 1e9;
    };
    const double free = seamWith({standing("shelf", {1400, 6})});
    EXPECT_LT(std::abs(free), 1) << "in the middle, as without anything";
    const double beside = seamWith({standing("bulkhead", {6, 180}), standing("shelf", {1400, 6})});
    EXPECT_GE(std::abs(beside), 6 + 40 - 1e-6);
    EXPECT_LE(std::abs(beside), 6 + 60);
}
