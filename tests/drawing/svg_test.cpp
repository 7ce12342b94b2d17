#include "core/drawing/drawing.h"
#include "tests/drawing/hand_panels.h"
#include <algorithm>
#include <functional>
#include <gtest/gtest.h>
#include <pugixml.hpp>
#include <random>
#include <regex>
#include <set>

using namespace slab;

namespace {

Page pageOf(std::vector<Group> groups) {
    Page page;
    page.width = 2440;
    page.height = 1220;
    page.groups = std::move(groups);
    return page;
}

pugi::xml_document parsed(const std::string& svg) {
    pugi::xml_document document;
    const pugi::xml_parse_result result = document.load_string(svg.c_str());
    EXPECT_TRUE(result) << result.description();
    return document;
}

/// Numbers of a path's "M x y L x y … Z".
Ring pointsOf(const std::string& d) {
    Ring ring;
    const char* at = d.c_str();
    while (*at) {
        if (*at == 'M' || *at == 'L' || *at == ' ' || *at == 'Z') {
            ++at;
            continue;
        }
        char* next = nullptr;
        const double x = std::strtod(at, &next);
        const double y = std::strtod(next, &next);
        ring.push_back({x, y});
        at = next;
    }
    return ring;
}

std::vector<std::string> idsOf(const pugi::xml_document& document) {
    std::vector<std::string> ids;
    for (const auto& found : document.select_nodes("//*[@id]"))
        ids.emplace_back(found.node().attribute("id").value());
    return ids;
}

Ring strokes(const pugi::xml_document& document, const std::string& layer, std::size_t index) {
    const auto found = document.select_nodes(
        ("//*[local-name()='g'][@class='layer-" + layer + "']/*[local-name()='path'][@fill='none']").c_str());
    EXPECT_LT(index, found.size());
    if (index >= found.size()) return {};
    return pointsOf(found.begin()[index].node().attribute("d").value());
}

} // namespace

// One user unit is one millimetre when width and viewBox agree: SVG 1.1, chapter 7 "Coordinate systems".
TEST(Svg, RealMillimetres) {
    const pugi::xml_document document = parsed(writeSvg(pageOf({})));
    const pugi::xml_node svg = document.child("svg");
    EXPECT_STREQ(svg.attribute("width").value(), "2440mm");
    EXPECT_STREQ(svg.attribute("height").value(), "1220mm");
    EXPECT_STREQ(svg.attribute("viewBox").value(), "0 0 2440 1220");
    EXPECT_STREQ(svg.attribute("version").value(), "1.1");
}

TEST(Svg, CoordinatesAreThePanelsOwn) {
    std::mt19937_64 random(20251);
    std::uniform_real_distribution<double> shift(-1e3, 1e3);
    for (Panel panel : {hand::longSide(), hand::triangle(), hand::roof()}) {
        for (Ring* ring : {&panel.boundary.outer, &panel.boundary.inner})
            for (Vec2& p : *ring) p += Vec2(shift(random), shift(random)) / 3; // digits of every kind
        Page page = pageOf({panelGroup(panel, Ink::foam)});
        page.shift = Vec2(10.1, -7.3);
        const pugi::xml_document document = parsed(writeSvg(page));
        EXPECT_EQ(strokes(document, "outer", 0), panel.boundary.outer);
        EXPECT_EQ(strokes(document, "inner", 0), panel.boundary.inner);
        for (std::size_t h = 0; h < panel.holes.size(); ++h) {
            EXPECT_EQ(strokes(document, "outer", h + 1), panel.holes[h].outer);
            EXPECT_EQ(strokes(document, "inner", h + 1), panel.holes[h].inner);
        }
    }
}

// The y axis is turned once per group: y on paper = height - shift - y.
TEST(Svg, UpIsUp) {
    Page page = pageOf({panelGroup(hand::triangle(), Ink::foam)});
    page.shift = Vec2(20, 30);
    const pugi::xml_document document = parsed(writeSvg(page));
    EXPECT_STREQ(document.child("svg").child("g").attribute("transform").value(), "matrix(1 0 0 -1 20 1190)");
    const auto text = document.select_nodes("//*[local-name()='text']");
    ASSERT_FALSE(text.empty());
    for (const auto& node : text) {
        const std::string transform = node.node().attribute("transform").value();
        EXPECT_NE(transform.find("scale(1 -1)"), std::string::npos) << transform;
    }
}

TEST(Svg, IdsAreSafeAndUnique) {
    const std::string sixty(60, 'x');
    std::vector<Group> groups;
    for (const std::string& name :
         {std::string("hull/port#2"), std::string("hull-port-2"), std::string("hull port 2"),
          std::string("hull/port#2"), std::string("\"quoted\" & <b>'"), std::string(""), std::string("7 up"),
          std::string("–ö–"), sixty, sixty + "y", std::string("hull-port-2.2"), std::string("\xFF\xFE bad"),
          std::string("overlay"), std::string("clip")})
        groups.push_back({name, name, {{"outer", {}, {}, {}, {}}}});
    Page page = pageOf(groups);
    page.clip = std::array<double, 4>{0, 0, 10, 10};
    page.overlay = {"overlay", "", {{"x", {}, {}, {}, {}}}};
    const pugi::xml_document document = parsed(writeSvg(page));
    const std::vector<std::string> ids = idsOf(document);
    EXPECT_EQ(ids.size(), groups.size() + 2);
    EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ids.size());
    // XML 1.0 Name, ASCII part: https://www.w3.org/TR/xml/#NT-Name
    const std::regex name("[A-Za-z][A-Za-z0-9_.-]*");
    for (const std::string& id : ids) EXPECT_TRUE(std::regex_match(id, name)) << id;
}

TEST(Svg, TitleKeepsTheName) {
    const Panel panel = hand::folded();
    const pugi::xml_document document = parsed(writeSvg(pageOf({panelGroup(panel, Ink::foam)})));
    EXPECT_EQ(document.child("svg").child("g").child("title").text().as_string(), panel.name);
}

TEST(Svg, FoldsAreDashDotAndKeepEveryPoint) {
    const Panel panel = hand::folded();
    const Group group = panelGroup(panel, Ink::foam);
    const auto layer = [&](const std::string& name) -> const Layer& {
        return *std::find_if(group.layers.begin(), group.layers.end(),
                             [&](const Layer& l) { return l.name == name; });
    };
    const auto drawn = [&](const std::string& name, const Ring& line, Dash dash) {
        const auto& strokes = layer(name).strokes;
        return std::any_of(strokes.begin(), strokes.end(),
                           [&](const Stroke& s) { return s.points == line && s.dash == dash; });
    };
    ASSERT_EQ(layer("outer").strokes.size(), 1U) << "what is cut through";
    EXPECT_EQ(layer("outer").strokes[0].points, panel.boundary.outer);
    EXPECT_EQ(layer("outer").strokes[0].dash, Dash::solid);
    for (const PanelFold& fold : panel.folds) {
        EXPECT_TRUE(drawn("folds", {fold.from, fold.to}, Dash::dashDot));
        // The groove's borders lie on the face that is grooved: dashed like all that is inside.
        const Dash dash = fold.valley ? Dash::dashDot : Dash::dashed;
        EXPECT_TRUE(drawn(fold.valley ? "folds" : "inner", {fold.mouth[0], fold.mouth[1]}, dash));
        EXPECT_TRUE(drawn(fold.valley ? "folds" : "inner", {fold.mouth[2], fold.mouth[3]}, dash));
    }
    std::vector<std::string> words;
    for (const Label& label : layer("words").labels) words.push_back(label.text);
    // 2 × 4 mm × tan(half the fold): 8 mm at 90°, 2.1 mm at 30°.
    EXPECT_EQ(std::count(words.begin(), words.end(), "fold 90°, groove inside 8 mm"), 1);
    EXPECT_EQ(std::count(words.begin(), words.end(), "fold 30°, groove outside 2.1 mm"), 1);
}

TEST(Svg, HatchStaysInsideAndOutOfHoles) {
    Page page = pageOf({});
    Layer layer{"hatch", {}, {}, {}, {}};
    const Ring hole = hand::rectangle(20, 20, 30, 30);
    layer.fills.push_back(
        {{hand::rectangle(0, 0, 100, 80), {Ring(hole.rbegin(), hole.rend())}}, Ink::hits, true});
    page.groups = {{"hatch", "", {layer}}};
    const pugi::xml_document document = parsed(writeSvg(page));
    const Ring points =
        pointsOf(document.select_node("//*[local-name()='path']").node().attribute("d").value());
    ASSERT_GT(points.size(), 40u);
    for (std::size_t i = 0; i + 1 < points.size(); i += 2) {
        const Vec2 middle = (points[i] + points[i + 1]) / 2;
        EXPECT_TRUE(middle.x() >= 0 && middle.x() <= 100 && middle.y() >= 0 && middle.y() <= 80);
        EXPECT_FALSE(middle.x() > 20 && middle.x() < 50 && middle.y() > 20 && middle.y() < 50);
        EXPECT_NEAR(points[i + 1].x() - points[i].x(), points[i + 1].y() - points[i].y(), 1e-9);
    }
}
