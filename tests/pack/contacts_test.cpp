// Where free plates go: on the drawings and templates of what they stand on.
#include "core/drawing/contact_ink.h"
#include "core/drawing/tiles.h"
#include "core/pack/drawings.h"
#include "tests/evaluate/samples.h"

namespace contacts {

using namespace slab;
using namespace slab::test;

namespace {

std::size_t indexOf(const Evaluation& e, const std::string& name) {
    for (std::size_t i = 0; i < e.panels->size(); ++i)
        if ((*e.panels)[i].name == name) return i;
    ADD_FAILURE() << "no panel " << name;
    return 0;
}

const Layer* layerOf(const Group& group, const std::string& name) {
    for (const Layer& layer : group.layers)
        if (layer.name == name) return &layer;
    return nullptr;
}

std::vector<Stroke> dotted(const Layer& layer, Dash dash = Dash::dotted) {
    std::vector<Stroke> found;
    for (const Stroke& stroke : layer.strokes)
        if (stroke.dash == dash && stroke.closed) found.push_back(stroke);
    return found;
}

std::size_t countWords(const Page& page, const std::string& text) {
    std::size_t count = 0;
    const auto add = [&](const Group& group) {
        for (const Layer& layer : group.layers)
            for (const Label& label : layer.labels) count += label.text == text;
    };
    for (const Group& group : page.groups) add(group);
    add(page.overlay);
    return count;
}

struct Case {
    const char* host;
    const char* plate;
};
const Case cases[] = {{"hull/port#1", "rub rail port/plate"},
                      {"hull/starboard#1", "rub rail starboard/plate"},
                      {"wheelhouse/top", "mast fin/plate"}};

} // namespace

TEST(Contacts, StandOnThePanelsOfTheFireBoat) {
    const Project project = sample("harbour-fire-boat");
    const Evaluation e = evaluated(project);
    for (const Case& one : cases) {
        SCOPED_TRACE(one.host);
        const std::size_t index = indexOf(e, one.host);
        const Panel& panel = (*e.panels)[index];
        ASSERT_EQ(panel.copies.front().contacts.size(), 1U);
        const Contact& contact = panel.copies.front().contacts.front();
        EXPECT_EQ(contact.plate, one.plate);
        const std::string words = std::to_string(contact.mark) + "  " + one.plate;

        const Group group = panelGroup(panel, Ink::foam); // the SVG
        const auto lines = dotted(*layerOf(group, "marks"));
        ASSERT_EQ(lines.size(), 1U);
        EXPECT_EQ(lines[0].points, contact.rings[0]) << "true size, in the panel's own coordinates";
        EXPECT_LE(lines[0].width, 0.25);
        std::size_t told = 0;
        for (const Label& label : layerOf(group, "words")->labels) told += label.text == words;
        EXPECT_EQ(told, 1U);

        const Page drawing = panelPages(panel, panelOptions(project, e, index)).front();
        EXPECT_EQ(countWords(drawing, words), 1U);
        EXPECT_EQ(dotted(*layerOf(drawing.groups[0], "marks")).size(), 1U);
        EXPECT_EQ(countWords(drawing, "Stands on this panel"), 1U);
    }
}

TEST(Contacts, AreOnTheTemplatesTrueSizeWithTheirWords) {
    const Project project = sample("harbour-fire-boat");
    const Evaluation e = evaluated(project);
    for (const char* paper : {"Letter", "A3", "roll 36 in"})
        for (const Case& one : cases) {
            SCOPED_TRACE(testing::Message() << one.host << " on " << paper);
            const Panel& panel = (*e.panels)[indexOf(e, one.host)];
            const Contact& contact = panel.copies.front().contacts.front();
            const std::string words = std::to_string(contact.mark) + "  " + one.plate;
            std::size_t told = 0;
            for (const Page& page :
                 templatePages(panel, templateOptions(project, e, panel, *paperNamed(paper)))) {
                EXPECT_EQ(dotted(*layerOf(page.groups[0], "marks")).at(0).points, contact.rings[0]);
                told += countWords(page, words);
            }
            EXPECT_GE(told, 1U);
        }
}

TEST(Contacts, TheMarkOfAPlateThatLiesFlatIsOnItsOwnTemplate) {
    const Project project = sample("harbour-fire-boat");
    const Evaluation e = evaluated(project);
    const Panel& rail = (*e.panels)[indexOf(e, "rub rail port/plate")];
    const std::vector<std::string> lines = restLines(rail);
    ASSERT_EQ(lines.size(), rail.copies.size());
    for (const Page& page : templatePages(rail, templateOptions(project, e, rail, *paperNamed("Letter"))))
        for (const std::string& line : lines)
            EXPECT_EQ(countWords(page, line), 1U) << page.name << ": " << line;
}

TEST(Contacts, WordsLieOnNoLine) {
    const Project project = sample("harbour-fire-boat");
    const Evaluation e = evaluated(project);
    for (const Case& one : cases) {
        const Panel& panel = (*e.panels)[indexOf(e, one.host)];
        for (const Page& page :
             templatePages(panel, templateOptions(project, e, panel, *paperNamed("Letter")))) {
            std::vector<Ring> lines = drawnRings(panel);
            lines.push_back(panel.copies.front().contacts.front().rings.front());
            for (const Label& label : layerOf(page.overlay, "words")->labels) {
                if (label.text.find(one.plate) == std::string::npos) continue;
                const Area area = labelArea(label);
                for (const Ring& ring : lines)
                    for (std::size_t i = 0; i < ring.size(); ++i)
                        EXPECT_FALSE(partInside(ring[i] + page.shift,
                                                ring[(i + 1) % ring.size()] + page.shift, {area.x, area.y},
                                                {area.right(), area.top()}))
                            << page.name << ": " << label.text;
            }
        }
    }
}

TEST(Contacts, OnTheInsideFaceAreDashedAndSaySo) {
    Panel panel;
    panel.name = "deck";
    panel.plates = {"deck"};
    panel.boundary.outer = {{0, 0}, {400, 0}, {400, 300}, {0, 300}};
    panel.boundary.edges.resize(4);
    Contact contact;
    contact.on = "deck";
    contact.plate = "web/plate";
    contact.mark = 7;
    contact.inside = true;
    contact.rings = {{{100, 100}, {300, 100}, {300, 120}, {100, 120}}};
    panel.copies = {{"deck", {}, {}, {contact}}};
    const Group group = panelGroup(panel, Ink::foam);
    EXPECT_EQ(dotted(*layerOf(group, "marks"), Dash::dashed).size(), 1U);
    EXPECT_TRUE(dotted(*layerOf(group, "marks")).empty());
    std::size_t told = 0;
    for (const Label& label : layerOf(group, "words")->labels)
        told += label.text == "7  web/plate, inside face";
    EXPECT_EQ(told, 1U);
}

TEST(Contacts, OfCopiesAreToldCopyByCopy) {
    Panel panel;
    panel.name = "port";
    panel.plates = {"port", "starboard"};
    panel.boundary.outer = {{0, 0}, {400, 0}, {400, 300}, {0, 300}};
    panel.boundary.edges.resize(4);
    const auto on = [](const std::string& plate, const std::string& rail, int mark) {
        Contact contact;
        contact.on = plate;
        contact.plate = rail;
        contact.mark = mark;
        contact.rings = {{{50, 100}, {350, 100}, {350, 160}, {50, 160}}};
        return contact;
    };
    panel.copies = {{"port", {}, {}, {on("port", "rail a", 5)}},
                    {"starboard", {}, {}, {on("starboard", "rail b", 6)}}};
    const auto spots = contactSpots(panel);
    ASSERT_EQ(spots.size(), 1U);
    EXPECT_EQ(spots[0].words, (std::vector<std::string>{"5  rail a on port", "6  rail b on starboard"}));
    panel.copies[1].contacts.clear();
    EXPECT_EQ(contactSpots(panel).at(0).words, (std::vector<std::string>{"5  rail a on port"}));
}

} // namespace contacts
