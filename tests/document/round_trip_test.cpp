#include "core/document/file.h"
#include "tests/document/random_project.h"
#include <fstream>
#include <gmock/gmock.h>

namespace slab {
namespace {

std::string sketch() {
    return R"({ "slabside": 1, "title": "Harbour fire boat", "units": "in", "scale": "2/5",
  "dimensions": [ {"name": "hull_length", "value": "5.4 m", "space": "subject"},
                  {"name": "exit_width",  "value": "26 in", "space": "build"} ],
  "forms": [
    {"name": "hull", "kind": "profile", "at": {"x": "0", "y": "0", "z": "0.3 m"},
     "outline": [ {"name": "stem head", "x": "hull_length", "z": "1.5 m", "half_width": "0.4 m"},
                  {"name": "forefoot", "x": 4.5}, {"name": "heel"} ],
     "curves": [ {"from": "forefoot", "to": "stem head", "bulge": "0.2 m", "facets": 3} ]} ],
  "materials": {"default": "xps_13", "plates": {"wheelhouse/roof": "hardboard_3", "hull/floor": null}},
  "joints": {"default": "cover", "order": ["*/port", "*/starboard", "*/deck"],
             "edges": [ {"between": ["hull/bow", "hull/port"], "joint": "mitre"} ]},
  "moorings": [ {"kind": "turntable", "turns": 2} ],
  "donor": {"kind": "powered_chair", "at": {"x": "0.9 m"}, "place": "best", "changes": {"seat_height": "500 mm"}},
  "rider": {"table": "adult", "percentile": 50}, "clearance": {"default": "20 mm"},
  "stock": {"sheets": [ {"name": "xps_13", "size": ["1220 mm", "2440 mm"], "thickness": "12.7 mm",
                         "price": 14.5, "on_hand": 1, "trim": "6 mm"},
                        {"name": "hardboard_3", "kind": "hardboard", "size": ["4 ft", "8 ft"],
                         "thickness": "1/8 in"} ], "kerf": "2 mm"} })";
}

TEST(ReadProject, FieldsOfADocument) {
    const auto p = readProject(sketch());
    ASSERT_TRUE(p) << p.error().where << ": " << p.error().message;
    EXPECT_EQ(p->title, "Harbour fire boat");
    EXPECT_EQ(p->scale, "2/5");
    ASSERT_EQ(p->dimensions.size(), 2U);
    EXPECT_EQ(p->dimensions[1].space, Space::build);
    ASSERT_EQ(p->forms.size(), 1U);
    EXPECT_EQ(p->forms[0].at.z, "0.3 m");
    const auto& hull = std::get<ProfileShape>(p->forms[0].shape);
    ASSERT_EQ(hull.outline.size(), 3U);
    EXPECT_EQ(hull.outline[0].half_width, "0.4 m");
    EXPECT_EQ(hull.outline[1].x, "4.5"); // a number may stand for a formula
    ASSERT_EQ(hull.curves.size(), 1U);
    EXPECT_EQ(hull.curves[0].facets, "3");
    EXPECT_EQ(p->materials.fallback, "xps_13");
    ASSERT_EQ(p->materials.plates.size(), 2U);
    EXPECT_EQ(p->materials.plates[0].plates, "wheelhouse/roof");
    EXPECT_EQ(p->materials.plates[1].stock, ""); // null leaves the plate out
    EXPECT_EQ(p->joints.edges.at(0).a, "hull/bow");
    EXPECT_EQ(p->joints.edges.at(0).joint, JointKind::mitre);
    EXPECT_TRUE(p->donor.best_place);
    EXPECT_EQ(p->donor.changes.at(0).value, "500 mm");
    EXPECT_EQ(p->stock.sheets.at(0).width, "1220 mm");
    EXPECT_EQ(p->stock.sheets.at(0).length, "2440 mm");
    EXPECT_EQ(p->stock.sheets.at(0).price, "14.5");
    EXPECT_EQ(p->stock.kerf, "2 mm");
    ASSERT_EQ(p->extra.size(), 1U);
    EXPECT_EQ(p->extra[0].first, "moorings");
}

TEST(WriteProject, ReadsBackEqualAndStaysTheSameText) {
    const auto p = readProject(sketch());
    ASSERT_TRUE(p);
    const std::string text = writeProject(*p);
    EXPECT_THAT(text, ::testing::HasSubstr("\"price\": 14.5"));
    EXPECT_THAT(text, ::testing::HasSubstr("\"moorings\""));
    EXPECT_THAT(text, ::testing::HasSubstr("\"hull/floor\": null"));
    EXPECT_THAT(text, ::testing::Not(::testing::HasSubstr("\"mirror\""))); // what is not said stays unsaid
    const auto back = readProject(text);
    ASSERT_TRUE(back);
    EXPECT_EQ(*back, *p);
    EXPECT_EQ(writeProject(*back), text);
}

TEST(WriteProject, EmptyDocument) {
    const Project empty;
    const auto back = readProject(writeProject(empty));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(*back, empty);
    EXPECT_EQ(readProject(R"({"slabside": 1})"), empty);
}

TEST(WriteProject, RandomDocumentsReadBackEqual) {
    auto random = seeded(31);
    for (int i = 0; i < 500 / slowdown; ++i) {
        const Project p = randomProject(random);
        const std::string text = writeProject(p);
        const auto errors = validateProject(text);
        ASSERT_TRUE(errors.empty()) << errors[0].where << ": " << errors[0].message << "\n" << text;
        const auto back = readProject(text);
        ASSERT_TRUE(back);
        ASSERT_EQ(*back, p) << text;
        ASSERT_EQ(writeProject(*back), text);
    }
}

TEST(WriteProject, TextThatIsNotUtf8IsWrittenReadably) {
    Project p;
    p.title = "broken \xFF\xC3";
    EXPECT_TRUE(readProject(writeProject(p)));
}

// JSON written by hand with every unknown field on every level; nothing of it may be lost.
TEST(WriteProject, UnknownFieldsSurviveOnEveryLevel) {
    const std::string text = R"({"slabside": 1, "u0": [1],
      "dimensions": [{"name": "a", "value": "1 m", "u1": {"x": 1}}],
      "forms": [{"name": "f", "kind": "profile", "u2": 2, "at": {"u3": 3},
        "outline": [{"u4": 4}, {}, {}], "curves": [{"from": "a", "to": "b", "u5": 5}]},
        {"name": "g", "kind": "facet", "corners": [{}, {}, {}, {}],
         "faces": [{"corners": [], "u6": 6}, {"corners": []}, {"corners": []}, {"corners": []}]}],
      "materials": {"u7": 7}, "joints": {"u8": 8, "edges": [{"between": ["a", "b"], "joint": "fold", "u9": 9}]},
      "openings": [{"name": "o", "u10": 10, "outline": [{"u11": 11}]}],
      "donor": {"u12": 12, "solids": [{"name": "s", "shape": "box", "u13": 13}]},
      "rider": {"u14": 14}, "clearance": {"u15": 15},
      "stock": {"u16": 16, "sheets": [{"name": "x", "size": ["1 m", "2 m"], "thickness": "3 mm", "u17": 17}]},
      "cut": [{"panel": "p", "u18": 18}], "pieces": [{"name": "q", "u19": 19}]})";
    const auto p = readProject(text);
    ASSERT_TRUE(p) << p.error().where << p.error().message;
    const std::string out = writeProject(*p);
    for (int i = 0; i < 20; ++i)
        EXPECT_THAT(out, ::testing::HasSubstr("\"u" + std::to_string(i) + "\"")) << i;
    EXPECT_EQ(readProject(out), *p);
}

TEST(Samples, AreSoundAndKeepTheirText) {
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"}) {
        const auto p = loadProject(std::filesystem::path(SLABSIDE_SOURCE_DIR) / "samples" /
                                   (std::string(name) + ".slabside.json"));
        ASSERT_TRUE(p) << name << p.error().where << ": " << p.error().message;
        EXPECT_EQ(readProject(writeProject(*p)), *p);
    }
}

} // namespace
} // namespace slab
