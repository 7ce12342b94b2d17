#include "core/body/closing.h"
#include "core/body/place_words.h"
#include "tests/body/make.h"
#include <gtest/gtest.h>

using namespace slab;

// A refusal leaves the form out, says where, and keeps the other forms.
namespace {
Curve arc(const char* from, const char* to, const char* bulge, const char* facets) {
    Curve c;
    c.from = from;
    c.to = to;
    c.bulge = bulge;
    c.facets = facets;
    return c;
}

} // namespace

TEST(Form, refusals) {
    const auto taper = [](auto&& change) {
        Form f = boxForm("bad", {0, 0, 0}, {100, 100, 100});
        change(std::get<TaperShape>(f.shape));
        return f;
    };
    const auto hull = [](auto&& change) {
        Form f = profile("bad", {sidePoint("a", 0, 0, 50), sidePoint("b", 300, 0, 50),
                                 sidePoint("c", 300, 200, 50), sidePoint("d", 0, 200, 50)});
        change(std::get<ProfileShape>(f.shape));
        return f;
    };
    const auto facet = [](auto&& change) {
        FacetShape s;
        s.corners = {corner("a", {0, 0, 0}), corner("b", {100, 0, 0}), corner("c", {0, 100, 0}),
                     corner("d", {0, 0, 100})};
        s.faces = {{"1", {"a", "c", "b"}, {}},
                   {"2", {"a", "b", "d"}, {}},
                   {"3", {"b", "c", "d"}, {}},
                   {"4", {"c", "a", "d"}, {}}};
        change(s);
        return named("bad", s);
    };
    struct Case {
        const char* code;
        const char* place;
        Form form;
    };
    const std::vector<Case> cases{
        {"outline-crosses", "/forms/0/base/1", taper([](TaperShape& s) { std::swap(s.base[2], s.base[3]); })},
        {"outline-crosses", "/forms/0/outline/1",
         hull([](ProfileShape& s) { std::swap(s.outline[2], s.outline[3]); })},
        {"outline-point-twice", "/forms/0/outline/1", hull([](ProfileShape& s) { s.outline[2].z = "0"; })},
        {"outline-short", "/forms/0/outline/0", hull([](ProfileShape& s) { s.outline.resize(2); })},
        {"outline-short", "/forms/0/outline", hull([](ProfileShape& s) { s.outline.clear(); })},
        {"outline-spike", "/forms/0/outline/1",
         hull([](ProfileShape& s) { s.outline.insert(s.outline.begin() + 2, sidePoint("e", 100, 0, 50)); })},
        {"form-flat", "/forms/0/outline", hull([](ProfileShape& s) {
             for (auto& p : s.outline) p.half_width = "";
         })},
        {"half-width-negative", "/forms/0/outline/2/half_width",
         hull([](ProfileShape& s) { s.outline[2].half_width = "-1 mm"; })},
        {"form-flat", "/forms/0/top_z", taper([](TaperShape& s) { s.top_z = s.base_z; })},
        {"taper-corners", "/forms/0/top", taper([](TaperShape& s) { s.top.pop_back(); })},
        {"form-too-big", "/forms/0", taper([](TaperShape& s) { s.top_z = "90000 m"; })},
        {"form-crosses", "/forms/0",
         taper([](TaperShape& s) { std::rotate(s.top.begin(), s.top.begin() + 2, s.top.end()); })},
        {"curve-ends", "/forms/0/curves/0",
         hull([](ProfileShape& s) { s.curves = {arc("a", "c", "5 mm", "3")}; })},
        {"curve-facets", "/forms/0/curves/0/facets",
         hull([](ProfileShape& s) { s.curves = {arc("a", "b", "5 mm", "2.5")}; })},
        {"curve-tolerance", "/forms/0/curves/0",
         hull([](ProfileShape& s) { s.curves = {arc("a", "b", "5 mm", "")}; })},
        {"outline-crosses", "/forms/0/curves/0",
         hull([](ProfileShape& s) { s.curves = {arc("a", "b", "-250 mm", "9")}; })},
        {"unknown-name", "/forms/0/outline/1/x", hull([](ProfileShape& s) { s.outline[1].x = "beam / 2"; })},
        {"unit-mismatch", "/forms/0/outline/1/x", hull([](ProfileShape& s) { s.outline[1].x = "3 deg"; })},
        {"facet-corner", "/forms/0/faces/1", facet([](FacetShape& s) { s.faces[1].corners[0] = "zz"; })},
        {"form-open", "/forms/0", facet([](FacetShape& s) {
             s.faces.push_back({"5", {"a", "b", "c"}, {}});
             s.faces.erase(s.faces.begin());
             s.corners[0].x = "1 mm";
             s.faces[0].corners = {"b", "a", "c"};
         })},
        {"form-flat", "/forms/0", facet([](FacetShape& s) { s.corners[3].z = "0"; })},
    };
    for (const Case& c : cases) {
        const auto forms = resolvedAt(projectOf({c.form, boxForm("good", {0, 0, 0}, {10, 10, 10})}));
        ASSERT_FALSE(forms.findings.empty()) << c.code;
        const Finding* f = find(forms.findings, c.code);
        ASSERT_NE(f, nullptr) << c.code << " expected, got " << forms.findings[0].code << ": "
                              << forms.findings[0].message;
        EXPECT_EQ(f->severity, Severity::stop) << c.code;
        ASSERT_EQ(f->about.size(), 2U);
        EXPECT_EQ(f->about[0], "form:bad");
        EXPECT_EQ(f->about[1], std::string("document:") + c.place) << c.code;
        EXPECT_FALSE(f->remedy.empty()) << c.code;
        ASSERT_EQ(forms.solids.size(), 1U) << c.code;
        EXPECT_EQ(forms.solids[0].form, "good");
    }
}

TEST(Form, platesRoundsAndLongOutlinesAreRefusedToo) {
    const auto round = [](const char* diameter, const char* length, const char* gap) {
        RoundShape s;
        s.diameter = diameter;
        s.length = length;
        s.gap = gap;
        return named("bad", s);
    };
    std::vector<OutlinePoint> many;
    for (int i = 0; i < 300; ++i) many.push_back(planPoint("p" + std::to_string(i), i, i * i));
    const std::vector<std::tuple<const char*, const char*, Form>> cases{
        {"round-size", "/forms/0/diameter", round("", "10 mm", "")},
        {"round-size", "/forms/0/diameter", round("-5 mm", "10 mm", "")},
        {"round-size", "/forms/0/length", round("5 mm", "", "")},
        {"round-size", "/forms/0/gap", round("5 mm", "10 mm", "-1 mm")},
        {"outline-long", "/forms/0/outline", named("bad", PlateShape{many, {}})},
        {"outline-crosses", "/forms/0/outline/1",
         named("bad", PlateShape{{planPoint("a", 0, 0), planPoint("b", 9, 0), planPoint("c", 0, 9),
                                  planPoint("d", 9, 9)},
                                 {}})}};
    for (const auto& [code, place, form] : cases) {
        const auto forms = resolvedAt(projectOf({form}));
        const Finding* f = find(forms.findings, code);
        ASSERT_NE(f, nullptr) << code << " at " << place;
        EXPECT_EQ(f->about[1], std::string("document:") + place);
        EXPECT_FALSE(f->remedy.empty());
        EXPECT_TRUE(forms.plates.empty());
        EXPECT_TRUE(forms.rounds.empty());
    }
    EXPECT_TRUE(resolvedAt(projectOf({round("5 mm", "10 mm", "1 mm")})).findings.empty());
}

TEST(Form, pinchedWaistIsRefused) {
    // Half-width 0 at two corners across the outline: both halves meet along a line.
    const auto forms = resolvedAt(projectOf({profile(
        "p", {sidePoint("a", 0, 0, 50), sidePoint("b", 100, 0, 0), sidePoint("c", 200, 0, 50),
              sidePoint("d", 200, 100, 50), sidePoint("e", 100, 100, 0), sidePoint("f", 0, 100, 50)})}));
    EXPECT_TRUE(forms.solids.empty());
    ASSERT_FALSE(forms.findings.empty());
    EXPECT_EQ(forms.findings[0].code, "form-pinched");
}

// Outlines that cross themselves are refused before their flanks are split; the splitting itself gives up,
// too.
TEST(Form, flanksOfACrossingOutlineCannotBeSplit) {
    const Corners bow{{"a", "a", {0, 0}, 10},
                      {"b", "b", {100, 100}, 20},
                      {"c", "c", {100, 0}, 50},
                      {"d", "d", {0, 100}, 90}};
    EXPECT_EQ(troubleOf(bow).code, "outline-crosses");
    const auto made = makeProfile(bow);
    ASSERT_FALSE(made);
    EXPECT_EQ(made.error().code, "form-twisted");
    EXPECT_FALSE(made.error().remedy.empty());
}

TEST(Form, aCrossingOutlineIsToldByItsSides) {
    const auto forms = resolvedAt(
        projectOf({profile("hull", {sidePoint("front", 1500, 800, 300), sidePoint("back", 0, 200, 300),
                                    sidePoint("floor", 1500, 200, 300), sidePoint("top", 0, 800, 300)})}));
    const Finding* f = find(forms.findings, "outline-crosses");
    ASSERT_NE(f, nullptr);
    EXPECT_EQ(f->message, "Form hull, point front: sides front and floor of the outline cross or touch.");
    EXPECT_EQ(f->about[1], "document:/forms/0/outline/0");
}

TEST(Form, placesAreToldByTheirNames) {
    Form form = profile("hull", {sidePoint("stem", 0, 0, 50), sidePoint("", 100, 0, 50)});
    std::get<ProfileShape>(form.shape).curves.push_back({});
    std::get<ProfileShape>(form.shape).curves.back().from = "stem";
    std::get<ProfileShape>(form.shape).curves.back().to = "deck";
    EXPECT_EQ(placeWords(form, "outline/0/half_width"), "point stem, half width");
    EXPECT_EQ(placeWords(form, "outline/1"), "point s2");
    EXPECT_EQ(placeWords(form, "curves/0/bulge"), "curve from stem to deck, bulge");
    EXPECT_EQ(placeWords(form, "outline"), "outline");
    EXPECT_EQ(placeWords(form, "at/x"), "at, x");
    // Nothing there, or no such list: the words as they are.
    EXPECT_EQ(placeWords(form, "outline/7/x"), "outline, 7, x");
    EXPECT_EQ(placeWords(form, "base_z"), "base z");
    EXPECT_EQ(placeWords(form, "outline/1a"), "outline, 1a");
}
