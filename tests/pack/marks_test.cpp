// "Like mark numbers meet": over every plate of the samples, every copy cut from one panel, and every plate
// form with what it stands on.
#include "core/drawing/panel_facts.h"
#include "core/pack/drawings.h"
#include "tests/evaluate/samples.h"
#include <map>

using namespace slab;
using namespace slab::test;

namespace {

struct Place {
    std::string plate, neighbour;
};

} // namespace

TEST(Marks, EachStandsOnTheTwoPlacesThatMeet) {
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        const Evaluation e = evaluated(sample(name));
        ASSERT_TRUE(e.panels && e.plates) << name;
        std::map<int, std::vector<Place>> places;
        std::size_t copies = 0, contacts = 0;
        for (const Panel& panel : *e.panels) {
            ASSERT_EQ(panel.copies.size(), panel.plates.size());
            for (std::size_t c = 0; c < panel.copies.size(); ++c) {
                const PanelCopy& copy = panel.copies[c];
                EXPECT_EQ(copy.plate, panel.plates[c]);
                ASSERT_EQ(copy.loops.size(), 1 + panel.holes.size());
                ++copies;
                for (const auto& loop : copy.loops)
                    for (const EdgeMeeting& edge : loop)
                        if (edge.mark > 0) places[edge.mark].push_back({copy.plate, edge.neighbour});
                for (const FaceRest& rest : copy.rests) places[rest.mark].push_back({copy.plate, rest.plate});
                for (const Contact& contact : copy.contacts) {
                    EXPECT_GT(contact.mark, 0) << name << " " << contact.plate;
                    places[contact.mark].push_back({contact.on, contact.plate});
                    ++contacts;
                }
            }
        }
        EXPECT_EQ(copies, e.plates->plates.size()) << name;
        EXPECT_GT(places.size(), 20U) << name;
        if (std::string(name) == "harbour-fire-boat") {
            EXPECT_EQ(contacts, 3U) << "two rub rails and the mast fin";
        }
        for (const auto& [mark, at] : places) {
            ASSERT_EQ(at.size(), 2U) << name << " mark " << mark << " on " << at.front().plate;
            EXPECT_EQ(at[0].plate, at[1].neighbour) << name << " mark " << mark;
            EXPECT_EQ(at[1].plate, at[0].neighbour) << name << " mark " << mark;
        }
    }
}

TEST(Marks, ACopyIsTheSameOutlineWithItsOwnNeighbours) {
    const Evaluation e = evaluated(sample("harbour-fire-boat"));
    bool many = false;
    for (const Panel& panel : *e.panels)
        for (const PanelCopy& copy : panel.copies) {
            const auto plate = std::find_if(e.plates->plates.begin(), e.plates->plates.end(),
                                            [&](const Plate& p) { return p.name == copy.plate; });
            ASSERT_NE(plate, e.plates->plates.end());
            many = many || panel.copies.size() > 2;
            // Edge i of the panel is as long and as tilted as the plate's edge with that mark.
            for (std::size_t i = 0; i < copy.loops[0].size(); ++i) {
                if (copy.loops[0][i].mark == 0) continue;
                const auto own =
                    std::find_if(plate->boundary.edges.begin(), plate->boundary.edges.end(),
                                 [&](const PanelEdge& edge) { return edge.mark == copy.loops[0][i].mark; });
                ASSERT_NE(own, plate->boundary.edges.end());
                EXPECT_EQ(own->neighbour, copy.loops[0][i].neighbour);
                EXPECT_NEAR(own->length, panel.boundary.edges[i].length, 0.03);
                EXPECT_NEAR(own->bevel, panel.boundary.edges[i].bevel, 2e-4);
            }
        }
    EXPECT_TRUE(many) << "no panel of the boat is cut more than twice";
}

TEST(Marks, OpeningsHaveTheirOwnNames) {
    const Evaluation e = evaluated(sample("harbour-fire-boat"));
    std::vector<std::string> names;
    for (const Panel& panel : *e.panels)
        if (panel.name == "hull/transom")
            for (const OpeningRow& row : openingRows(panel)) names.push_back(row.name);
    std::sort(names.begin(), names.end());
    EXPECT_EQ(names, (std::vector<std::string>{"port hand", "starboard hand"}));
}
