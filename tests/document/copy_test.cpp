// Forms from one document to another: self-contained, under free names, and nothing that was there changes.
#include "core/document/clip.h"
#include "core/document/copy.h"
#include "core/document/file.h"
#include "core/document/reach.h"
#include "core/document/texts.h"
#include "tests/document/random_project.h"
#include "tests/geometry/seed.h"
#include <algorithm>
#include <gmock/gmock.h>

using namespace slab;
using testing::ElementsAre;

namespace {

SheetStock sheet(const char* name, const char* thickness) {
    SheetStock s;
    s.name = name;
    s.width = "1220 mm";
    s.length = "2440 mm";
    s.thickness = thickness;
    return s;
}

Form cabin(const char* name) {
    PlateShape shape;
    shape.outline = {{"a", {}, "0", "0", {}, {}, {}},
                     {"b", {}, "width", "0", {}, {}, {}},
                     {"c", {}, "12", "height", {}, {}, {}}};
    Form form;
    form.name = name;
    form.shape = shape;
    return form;
}

/// A document in inches with a cabin whose sizes are formulas.
Project yard() {
    Project p;
    p.units = "in";
    p.scale = "2/5";
    p.dimensions = {{"beam", "2 m", Space::subject, {}, {}},
                    {"width", "beam / 2", Space::subject, {}, {}},
                    {"height", "3 ft", Space::build, {}, {}},
                    {"unused", "1 m", Space::subject, {}, {}}};
    p.forms = {cabin("cabin"), cabin("shed")};
    p.stock.sheets = {sheet("card", "3 mm"), sheet("foam", "12.7 mm")};
    p.materials.fallback = "foam";
    p.materials.plates = {{"*/plate", "card"}};
    p.joints.order = {"*/roof", "cab*/plate", "*/deck"};
    Opening light;
    light.name = "light";
    light.plate = "cabin/plate";
    light.diameter = "3";
    light.shape = OpeningShape::circle;
    p.openings = {light};
    return p;
}

Project pasted(const Project& into, const std::string& text) {
    auto next = pasteForms(text).apply(into);
    EXPECT_TRUE(next.has_value()) << next.error().message;
    return next ? *next : into;
}

const PlateShape& outlineOf(const Project& p, std::size_t form) {
    return std::get<PlateShape>(p.forms.at(form).shape);
}

std::vector<std::string> namesOf(const Project& p) {
    std::vector<std::string> names;
    for (const Dimension& d : p.dimensions) names.push_back(d.name);
    return names;
}

} // namespace

TEST(Copy, BringsWhatTheFormNeedsAndNoMore) {
    const auto text = copyForms(yard(), {"cabin"});
    ASSERT_TRUE(text.has_value());
    EXPECT_THAT(formsInText(*text), ElementsAre("cabin"));
    Project into;
    into.units = "mm";
    const Project p = pasted(into, *text);
    EXPECT_EQ(p.units, "mm");
    EXPECT_EQ(p.scale, "1") << "the scale is this document's own";
    EXPECT_THAT(namesOf(p), ElementsAre("beam", "width", "height"));
    EXPECT_EQ(outlineOf(p, 0).outline[2].x, "12 in") << "a bare number meant inches";
    EXPECT_EQ(outlineOf(p, 0).outline[1].x, "width");
    EXPECT_EQ(p.openings.at(0).diameter, "3 in");
    ASSERT_EQ(p.stock.sheets.size(), 2u);
    EXPECT_EQ(detail::sheetIn(p.materials, "cabin/plate"), "card");
    EXPECT_TRUE(readProject(writeProject(p)).has_value());
}

TEST(Copy, BareNumbersInsideFormulasKeepTheirUnitToo) {
    Project p = yard();
    auto& outline = std::get<PlateShape>(p.forms[0].shape).outline;
    outline[0].x = "2 * 3";
    outline[0].y = "build(4)";
    outline[1].y = "0";
    outline[2].x = "7' 3 in";
    const Project q = pasted(Project{}, *copyForms(p, {"cabin"}));
    const Scope from = detail::scopeOf(p, 0.4), to = detail::scopeOf(q, 0.4);
    for (std::size_t i = 0; i < outline.size(); ++i)
        for (const Space space : {Space::subject, Space::build}) {
            const OutlinePoint& there = outlineOf(q, 0).outline[i];
            for (const auto& [a, b] : {std::pair{outline[i].x, there.x}, {outline[i].y, there.y}})
                EXPECT_NEAR(evaluate(a, from, space, Kind::length)->value,
                            evaluate(b, to, space, Kind::length)->value, 1e-9)
                    << a << " became " << b;
        }
    EXPECT_EQ(outlineOf(q, 0).outline[2].x, "7' 3 in") << "as typed";
}

TEST(Paste, SharesEqualDimensionsAndSheetsAndRenamesOthers) {
    Project into;
    into.units = "mm";
    into.dimensions = {{"beam", "200 cm", Space::subject, {}, {}}, // the same in other words
                       {"height", "1 m", Space::build, {}, {}}};   // another
    into.stock.sheets = {sheet("card", "0.3 cm"), sheet("foam", "25 mm")};
    into.stock.sheets[0].price = "99";
    const Project p = pasted(into, *copyForms(yard(), {"cabin"}));
    EXPECT_THAT(namesOf(p), ElementsAre("beam", "height", "width", "height_2"));
    EXPECT_EQ(p.dimensions[0].value, "200 cm") << "what is there stays as it was typed";
    EXPECT_EQ(outlineOf(p, 0).outline[2].y, "height_2");
    ASSERT_EQ(p.stock.sheets.size(), 3u);
    EXPECT_EQ(p.stock.sheets[0].price, "99");
    EXPECT_EQ(p.stock.sheets[2].name, "foam 2");
    EXPECT_EQ(p.stock.sheets[2].thickness, "12.7 mm");
}

TEST(Paste, ADimensionOfAnotherSpaceIsAnother) {
    Project into;
    into.dimensions = {{"beam", "2 m", Space::build, {}, {}}};
    EXPECT_THAT(namesOf(pasted(into, *copyForms(yard(), {"cabin"}))),
                ElementsAre("beam", "beam_2", "width", "height"));
}

TEST(Paste, TakenNamesGetTheNextNumberAndPlatesFollow) {
    Project first = yard();
    first.seams = {{"cabin/plate", "10 cm", {}, {}, {}, {}}};
    const std::string text = *copyForms(first, {"cabin"});
    const Project p = pasted(pasted(first, text), text);
    ASSERT_EQ(p.forms.size(), 4u);
    EXPECT_EQ(p.forms[2].name, "cabin 2");
    EXPECT_EQ(p.forms[3].name, "cabin 3");
    EXPECT_EQ(p.openings.at(1).name, "light 2");
    EXPECT_EQ(p.openings.at(1).plate, "cabin 2/plate");
    ASSERT_EQ(p.seams.size(), 3u);
    EXPECT_EQ(p.seams[2].plate, "cabin 3/plate");
    EXPECT_EQ(p.forms[2].at.x, "100 mm") << "a copy on the very same place would not be seen";
    EXPECT_EQ(p.forms[3].at.x, "200 mm");
    EXPECT_EQ(p.dimensions, first.dimensions);
    EXPECT_EQ(p.stock, first.stock);
}

TEST(Paste, DoesNotTouchOtherPlates) {
    Project into = yard();
    into.forms = {cabin("tower")};
    into.openings.clear();
    into.materials.fallback = "card";
    into.materials.plates = {{"tower/*", "foam"}, {"c*/plate", "foam"}};
    into.joints.order = {"*/deck", "*/plate"};
    const Project p = pasted(into, *copyForms(yard(), {"cabin", "shed"}));
    EXPECT_EQ(detail::sheetIn(p.materials, "tower/plate"), "foam");
    EXPECT_EQ(detail::sheetIn(p.materials, "cabin/plate"), "card");
    EXPECT_EQ(detail::sheetIn(p.materials, "shed/plate"), "card");
    EXPECT_LT(detail::rankIn(p.joints.order, "cabin/plate"), detail::rankIn(p.joints.order, "shed/plate"));
    for (const std::string& pattern : p.joints.order)
        if (pattern != "*/deck" && pattern != "*/plate") {
            EXPECT_FALSE(matches(pattern, "tower/plate")) << pattern;
        }
}

TEST(Paste, RefusesOtherTextAndChangesNothing) {
    const Project p = yard();
    for (const char* text :
         {"", "hello", "{}", "[1]", R"({"slabside_forms": 1})",
          R"({"slabside_forms": 1, "document": {"slabside": 1, "title": "", "forms": []}})"}) {
        const auto next = pasteForms(text).apply(p);
        ASSERT_FALSE(next.has_value()) << text;
        EXPECT_FALSE(next.error().message.empty());
        EXPECT_TRUE(formsInText(text).empty());
    }
    EXPECT_EQ(pasteForms(R"({"slabside_forms": 2, "document": {}})").apply(p).error().code, "newer-version");
    EXPECT_EQ(copyForms(p, {"nothing"}).error().code, "no-such-form");
    EXPECT_EQ(copyForms(p, {}).error().code, "no-such-form");
    EXPECT_EQ(duplicateForms({"nothing"}).apply(p).error().code, "no-such-form");
}

TEST(Paste, RandomDocumentsKeepTheirMeaning) {
    auto random = seeded(75);
    for (int round = 0; round < 400 / slowdown; ++round) {
        const Project from = randomProject(random);
        if (from.forms.empty()) continue;
        std::vector<std::string> names;
        for (const Form& f : from.forms)
            if (names.empty() || below(random, 2) == 0) names.push_back(f.name);
        const auto text = copyForms(from, names);
        ASSERT_TRUE(text.has_value()) << text.error().message;
        Project into = round % 2 == 0 ? Project{} : randomProject(random);
        const auto done = pasteForms(*text).apply(into);
        ASSERT_TRUE(done.has_value()) << done.error().message << " at " << done.error().where;
        // What was there is there still, first and in the same order.
        ASSERT_EQ(done->forms.size(), into.forms.size() + names.size());
        EXPECT_TRUE(std::equal(into.forms.begin(), into.forms.end(), done->forms.begin()));
        EXPECT_TRUE(std::equal(into.dimensions.begin(), into.dimensions.end(), done->dimensions.begin()));
        for (const auto& plates : detail::platesOf(into.forms))
            for (const std::string& plate : plates.names)
                EXPECT_EQ(detail::sheetIn(done->materials, plate), detail::sheetIn(into.materials, plate));
        EXPECT_EQ(done->scale, into.scale);
        EXPECT_TRUE(readProject(writeProject(*done)) == *done);
        // The new plates have the old ones' sheets, in this document's words for them.
        const auto before = detail::platesOf(from.forms);
        const auto after = detail::platesOf(
            {done->forms.begin() + static_cast<std::ptrdiff_t>(into.forms.size()), done->forms.end()});
        std::size_t at = 0;
        for (const auto& plates : before) {
            const bool copied = std::any_of(names.begin(), names.end(), [&](const std::string& n) {
                return plates.form == n || plates.form == n + " port" || plates.form == n + " starboard";
            });
            if (!copied) continue;
            ASSERT_LT(at, after.size());
            for (std::size_t i = 0; i < plates.names.size(); ++i) {
                const std::string& was = detail::sheetIn(from.materials, plates.names[i]);
                const std::string& is = detail::sheetIn(done->materials, after[at].names[i]);
                EXPECT_TRUE(is == was || is.starts_with(was.substr(0, was.find_last_of(' '))))
                    << was << " became " << is;
            }
            ++at;
        }
        // Pasting again only ever adds the forms under new names: no dimension, no sheet twice.
        const auto again = pasteForms(*text).apply(*done);
        ASSERT_TRUE(again.has_value());
        for (const Dimension& d : again->dimensions) {
            const auto scope = detail::scopeOf(*done, 1);
            EXPECT_TRUE(std::any_of(done->dimensions.begin(), done->dimensions.end(),
                                    [&](const Dimension& o) { return o.name == d.name; }) ||
                        !scope.values.contains(d.name.substr(0, d.name.rfind('_'))))
                << d.name;
        }
    }
}

TEST(Paste, WithoutASheetOfTheirOwnFormsTakeThisDocuments) {
    Project bare = yard();
    bare.materials = {};
    bare.stock.sheets.clear();
    Project into = yard();
    into.forms = {cabin("house")};
    into.openings.clear();
    into.materials.plates.clear();
    const Project p = pasted(into, *copyForms(bare, {"cabin"}));
    EXPECT_EQ(detail::sheetIn(p.materials, "cabin/plate"), "foam");
    EXPECT_TRUE(p.materials.plates.empty()) << "nothing is left out";
    // What was left out on purpose stays so.
    bare.materials.plates = {{"cabin/plate", ""}};
    EXPECT_EQ(detail::sheetIn(pasted(into, *copyForms(bare, {"cabin"})).materials, "cabin/plate"), "");
}
