#include "core/document/edit.h"
#include "core/document/file.h"
#include "tests/document/random_project.h"
#include <gmock/gmock.h>

namespace slab {
namespace {

using ::testing::ElementsAre;

Project boat() {
    const auto p = readProject(R"({"slabside": 1, "title": "Boat", "units": "in", "scale": "2/5",
      "dimensions": [{"name": "long", "value": "5 m"}, {"name": "half", "value": "long / 2 + longer * 0"},
                     {"name": "longer", "value": "6 m"}],
      "forms": [{"name": "hull", "kind": "profile", "at": {"x": "long - 1 m"},
                 "outline": [{"name": "a", "x": "long"}, {"name": "b"}, {"name": "c"}]},
                {"name": "hull 2", "kind": "round", "length": "long"},
                {"name": "rail", "kind": "plate", "mirror": true, "outline": [{}, {}, {}]}],
      "materials": {"default": "foam", "plates": {"hull/a": "board", "hull 2/*": "board", "*/deck": null,
                                                   "rail port/top": null}},
      "joints": {"order": ["hull/a", "*/a"], "edges": [{"between": ["hull/a", "hull/b#2"], "joint": "fold"}]},
      "openings": [{"name": "exit", "plate": "hull/a", "u": "long / 4"}, {"name": "x", "direction": "x",
                    "plates": ["hull/*", "hull 2/a"]}],
      "donor": {"changes": {"seat_height": "long / 10"}},
      "stock": {"sheets": [{"name": "foam", "size": ["4 ft", "8 ft"], "thickness": "1/2 in"},
                           {"name": "board", "size": ["4 ft", "8 ft"], "thickness": "1/8 in"}]},
      "cut": [{"panel": "hull/a", "fingerprint": "hull/a"}], "pieces": [{"name": "hull/a#1", "neighbours": ["hull/b"]}],
      "later": {"list": [1, {"name": "hull"}]}})");
    EXPECT_TRUE(p) << (p ? "" : p.error().where + p.error().message);
    return p.value_or(Project{});
}

Project after(const Edit& edit) {
    const auto p = edit.apply(boat());
    EXPECT_TRUE(p) << (p ? "" : p.error().where + ": " + p.error().message);
    return p.value_or(Project{});
}

TEST(SetValue, TextFlagWordAndListPlaces) {
    EXPECT_EQ(after(setValue("/title", "\"Tram\"")).title, "Tram");
    EXPECT_EQ(after(setValue("/scale", "\"1:3\"")).scale, "1:3");
    EXPECT_EQ(after(setValue("/dimensions/0/value", "\"4 m\"")).dimensions[0].value, "4 m");
    EXPECT_EQ(after(setValue("/dimensions/0/space", "\"build\"")).dimensions[0].space, Space::build);
    EXPECT_TRUE(after(setValue("/forms/0/standing", "true")).forms[0].standing);
    EXPECT_EQ(after(setValue("/forms/0/at/yaw", "\"5°\"")).forms[0].at.yaw, "5°");
    EXPECT_EQ(
        std::get<ProfileShape>(after(setValue("/forms/0/outline/1/x", "2.5")).forms[0].shape).outline[1].x,
        "2.5");
    EXPECT_EQ(after(setValue("/stock/sheets/1/size/0", "\"3 ft\"")).stock.sheets[1].width, "3 ft");
    EXPECT_EQ(after(setValue("/stock/sheets/1/price", "12.5")).stock.sheets[1].price, "12.5");
    EXPECT_EQ(after(setValue("/joints/order/1", "\"*/b\"")).joints.order[1], "*/b");
    EXPECT_EQ(after(setValue("/joints/edges/0/between/1", "\"hull/c\"")).joints.edges[0].b, "hull/c");
    EXPECT_EQ(after(setValue("/joints/default", "\"mitre\"")).joints.fallback, JointKind::mitre);
    EXPECT_TRUE(after(setValue("/donor/place", "\"best\"")).donor.best_place);
    EXPECT_EQ(after(setValue("/donor/changes/seat_height", "\"1 m\"")).donor.changes[0].value, "1 m");
    EXPECT_EQ(after(setValue("/donor/changes/seat_width", "\"1 m\"")).donor.changes.size(), 2U); // a new name
    EXPECT_EQ(after(setValue("/materials/plates/hull~1a", "null")).materials.plates[0].stock, "");
    EXPECT_EQ(after(setValue("/materials/plates/hull~1c", "\"foam\"")).materials.plates.back().plates,
              "hull/c");
    EXPECT_EQ(valueAt(after(setValue("/later/list/1/name", "\"z\"")), "/later"),
              R"({"list":[1,{"name":"z"}]})");
    EXPECT_EQ(after(setValue("/pieces/0/x", "2.5")).pieces[0].x, 2.5);
    EXPECT_EQ(after(setValue("/forms/2", R"({"name": "pipe", "kind": "round"})")).forms[2].name, "pipe");
    EXPECT_EQ(after(setValue("", R"({"slabside": 1})")), Project{});
}

TEST(SetValue, KindOfAFormKeepsWhatItCan) {
    const Project round = after(setValue("/forms/0/kind", "\"plate\""));
    ASSERT_TRUE(std::holds_alternative<PlateShape>(round.forms[0].shape));
    EXPECT_EQ(std::get<PlateShape>(round.forms[0].shape).outline.size(), 3U);
    EXPECT_EQ(round.forms[0].at.x, "long - 1 m");
    const auto back = setValue("/forms/0/kind", "\"profile\"").apply(round);
    ASSERT_TRUE(back);
    EXPECT_EQ(*back, boat());
    const auto bad = setValue("/forms/1/kind", "\"taper\"").apply(boat()); // has no base and top
    ASSERT_FALSE(bad);
    EXPECT_EQ(bad.error().code, "missing");
    EXPECT_EQ(bad.error().where, "/forms/1/base");
}

TEST(SetValue, RefusesWhatTheDocumentWouldNotAccept) {
    struct Case {
        const char *pointer, *json, *code, *where;
    };
    const Case cases[] = {{"/title", "3", "wrong-type", "/title"},
                          {"/title", "\"open", "truncated", "line 1 column 1"},
                          {"/title", "nonsense", "not-json", "line 1 column 1"},
                          {"/units", "\"cubit\"", "unknown-value", "/units"},
                          {"/nowhere", "3", "no-such-place", "/nowhere"},
                          {"/forms/9/name", "\"x\"", "no-such-place", "/forms"},
                          {"/forms/-1/name", "\"x\"", "no-such-place", "/forms"},
                          {"/forms/0/nothing", "3", "no-such-place", "/forms/0/nothing"},
                          {"/forms/0/name/x", "3", "no-such-place", "/forms/0/name/x"},
                          {"/forms/0/name", "\"hull 2\"", "duplicate-name", "/forms/1/name"},
                          {"/forms/0/name", "\"a/b\"", "bad-name", "/forms/0/name"},
                          {"/forms/0/outline", "[]", "empty-outline", "/forms/0/outline"},
                          {"/forms/0/outline/1/x", "[]", "wrong-type", "/forms/0/outline/1/x"},
                          {"/materials/default", "\"gold\"", "unknown-stock", "/materials/default"},
                          {"/stock/sheets/0/name", "\"other\"", "unknown-stock", "/materials/default"},
                          {"/stock/sheets/0/size/2", "\"1 m\"", "no-such-place", "/stock/sheets/0/size"},
                          {"/slabside", "2", "newer-version", "/slabside"},
                          {"title", "\"x\"", "bad-pointer", "title"},
                          {"/a~2", "\"x\"", "bad-pointer", "/a~2"}};
    for (const Case& c : cases) {
        History history(boat());
        const auto done = history.push(setValue(c.pointer, c.json));
        ASSERT_FALSE(done) << c.pointer;
        EXPECT_EQ(done.error().code, c.code) << c.pointer << ": " << done.error().message;
        EXPECT_EQ(done.error().where, c.where) << c.pointer << ": " << done.error().message;
        EXPECT_EQ(history.current(), boat()) << c.pointer;
        EXPECT_FALSE(history.canUndo());
        EXPECT_EQ(history.revision(), 0U);
    }
}

TEST(SetValue, AnOldErrorDoesNotForbidOtherChanges) {
    Project p = boat();
    p.materials.fallback = "gone";
    EXPECT_TRUE(setValue("/title", "\"x\"").apply(p));
}

TEST(ListEdits, InsertRemoveMove) {
    EXPECT_EQ(after(insertValue("/dimensions", 1, R"({"name": "new", "value": "1 m"})")).dimensions[1].name,
              "new");
    EXPECT_EQ(after(insertValue("/dimensions", 3, R"({"name": "new", "value": "1 m"})")).dimensions[3].name,
              "new");
    EXPECT_EQ(after(removeValue("/dimensions/1")).dimensions[1].name, "longer");
    EXPECT_EQ(after(moveValue("/forms", 2, 0)).forms[0].name, "rail");
    EXPECT_EQ(after(moveValue("/forms", 0, 2)).forms[2].name, "hull");
    EXPECT_THAT(after(insertValue("/joints/order", 0, "\"z\"")).joints.order,
                ElementsAre("z", "hull/a", "*/a"));
    EXPECT_THAT(after(moveValue("/joints/order", 1, 0)).joints.order, ElementsAre("*/a", "hull/a"));
    EXPECT_THAT(after(removeValue("/joints/order/0")).joints.order, ElementsAre("*/a"));
    EXPECT_EQ(after(moveValue("/materials/plates", 2, 0)).materials.plates[0].plates, "*/deck");
    EXPECT_EQ(after(insertValue("/materials/plates", 0, R"({"hull/c": null})")).materials.plates[0].plates,
              "hull/c");
    EXPECT_EQ(after(removeValue("/materials/plates/hull~1a")).materials.plates.size(), 3U);
    EXPECT_TRUE(after(removeValue("/later")).extra.empty());
    EXPECT_EQ(after(removeValue("/scale")).scale, Project{}.scale);
    EXPECT_EQ(after(removeValue("/forms/0/at/x")).forms[0].at.x, "");
    EXPECT_EQ(after(removeValue("/donor")).donor, Donor{});
    EXPECT_TRUE(after(removeValue("/openings")).openings.empty());
    for (const Edit& bad :
         {insertValue("/dimensions", 4, R"({"name": "n", "value": "1"})"),
          insertValue("/dimensions", -1, "{}"), moveValue("/forms", 0, 3), moveValue("/forms", 7, 0),
          insertValue("/title", 0, "3"), removeValue("/forms/3"), removeValue("/stock/sheets/0"),
          removeValue("/forms/0/name"), removeValue("/slabside"), removeValue(""),
          insertValue("/dimensions", 0, R"({"name": "long", "value": "1"})"),
          insertValue("/dimensions", 0, R"({"name": "n"})"), moveValue("/title", 0, 0)})
        EXPECT_FALSE(bad.apply(boat())) << bad.label;
}

TEST(ValueAt, EveryFieldWithItsDefault) {
    EXPECT_EQ(valueAt(boat(), "/scale"), "\"2/5\"");
    EXPECT_EQ(valueAt(boat(), "/forms/0/mirror"), "false");
    EXPECT_EQ(valueAt(boat(), "/forms/0/at/z"), "\"\"");
    EXPECT_EQ(valueAt(boat(), "/forms/0/kind"), "\"profile\"");
    EXPECT_EQ(valueAt(boat(), "/rider/percentile"), "50");
    EXPECT_EQ(valueAt(boat(), "/stock/sheets/0/size"), R"(["4 ft","8 ft"])");
    EXPECT_EQ(valueAt(boat(), "/materials/plates/hull~1a"), "\"board\"");
    EXPECT_EQ(valueAt(boat(), "/later/list/1/name"), "\"hull\"");
    EXPECT_EQ(valueAt(boat(), "/nope").error().code, "no-such-place");
    EXPECT_EQ(valueAt(boat(), "/forms/0/diameter").error().code, "no-such-place"); // of another kind
    EXPECT_EQ(readProject(valueAt(boat(), "").value()), boat());
}

TEST(ValueAt, SettingWhatIsThereChangesNothing) {
    auto random = seeded(51);
    for (int i = 0; i < 60 / slowdown; ++i) {
        const Project p = randomProject(random);
        for (const char* pointer :
             {"", "/forms", "/forms/0", "/forms/0/at", "/donor", "/donor/changes", "/stock/sheets",
              "/materials", "/materials/plates", "/joints/edges", "/openings/0", "/pieces", "/seed",
              "/rider/percentile", "/clearance/solids", "/dimensions/0/value", "/forms/0/kind"}) {
            const auto json = valueAt(p, pointer);
            if (!json) continue;
            const auto same = setValue(pointer, *json).apply(p);
            ASSERT_TRUE(same) << pointer << same.error().message;
            ASSERT_EQ(*same, p) << pointer;
        }
    }
}

TEST(Rename, DimensionInEveryFormula) {
    const Project p = after(renameDimension("long", "hull_length"));
    EXPECT_EQ(p.dimensions[0].name, "hull_length");
    EXPECT_EQ(p.dimensions[1].value, "hull_length / 2 + longer * 0");
    EXPECT_EQ(p.forms[0].at.x, "hull_length - 1 m");
    EXPECT_EQ(std::get<ProfileShape>(p.forms[0].shape).outline[0].x, "hull_length");
    EXPECT_EQ(std::get<RoundShape>(p.forms[1].shape).length, "hull_length");
    EXPECT_EQ(p.openings[0].u, "hull_length / 4");
    EXPECT_EQ(p.donor.changes[0].value, "hull_length / 10");
    EXPECT_FALSE(renameDimension("nothing", "x").apply(boat()));
    EXPECT_EQ(renameDimension("long", "longer").apply(boat()).error().code, "duplicate-name");
    EXPECT_EQ(renameDimension("long", "in").apply(boat()).error().code, "bad-name");
    EXPECT_EQ(renameDimension("long", "two words").apply(boat()).error().code, "bad-name");
}

TEST(Rename, FormInEveryPlateName) {
    const Project p = after(renameForm("hull", "body"));
    EXPECT_EQ(p.forms[0].name, "body");
    EXPECT_EQ(p.forms[1].name, "hull 2");
    EXPECT_EQ(p.materials.plates[0].plates, "body/a");
    EXPECT_EQ(p.materials.plates[1].plates, "hull 2/*");
    EXPECT_THAT(p.joints.order, ElementsAre("body/a", "*/a"));
    EXPECT_EQ(p.joints.edges[0].a, "body/a");
    EXPECT_EQ(p.joints.edges[0].b, "body/b#2");
    EXPECT_EQ(p.openings[0].plate, "body/a");
    EXPECT_THAT(p.openings[1].plates, ElementsAre("body/*", "hull 2/a"));
    EXPECT_EQ(p.cut[0].panel, "body/a");
    EXPECT_EQ(p.cut[0].fingerprint, "hull/a"); // not a name
    EXPECT_EQ(p.pieces[0].name, "body/a#1");
    EXPECT_THAT(p.pieces[0].neighbours, ElementsAre("body/b"));
    EXPECT_EQ(after(renameForm("rail", "rub")).materials.plates[3].plates, "rub port/top");
    EXPECT_EQ(renameForm("hull", "hull 2").apply(boat()).error().code, "duplicate-name");
    EXPECT_EQ(renameForm("hull", "a*").apply(boat()).error().code, "bad-name");
    EXPECT_EQ(renameForm("none", "x").apply(boat()).error().code, "unknown-name");
}

TEST(Rename, StockWhereverItIsUsed) {
    const Project p = after(renameStock("foam", "xps"));
    EXPECT_EQ(p.stock.sheets[0].name, "xps");
    EXPECT_EQ(p.materials.fallback, "xps");
    EXPECT_EQ(after(renameStock("board", "hardboard")).materials.plates[1].stock, "hardboard");
    EXPECT_EQ(renameStock("foam", "board").apply(boat()).error().code, "duplicate-name");
}

/// A hull with a curve, a shared side, patterns and a facet form.
Project ship() {
    const auto p = readProject(R"({"slabside": 1, "units": "mm",
      "forms": [{"name": "hull", "kind": "profile",
                 "outline": [{"name": "keel"}, {"name": "bow"}, {"name": "deck"}, {"name": "step", "side": "deck"},
                             {"name": "stern"}, {}],
                 "curves": [{"from": "bow", "to": "deck", "facets": "3"}, {"from": "stern", "to": "s6", "facets": "2"}]},
                {"name": "lamp", "kind": "facet", "mirror": true,
                 "corners": [{"name": "a"}, {"name": "b"}, {"name": "c"}, {"name": "d"}],
                 "faces": [{"name": "glass", "corners": ["a", "b", "c"]}, {"name": "back", "corners": ["a", "b", "d"]},
                           {"corners": ["b", "c", "d"]}, {"corners": ["a", "c", "d"]}]},
                {"name": "house", "kind": "taper", "base": [{"name": "bow"}, {"name": "x"}, {"name": "y"}],
                 "top": [{"name": "bow"}, {"name": "x"}, {"name": "y"}],
                 "curves": [{"from": "bow", "to": "x", "facets": "2"}]}],
      "materials": {"plates": {"hull/bow~2": "foam", "*/bow": null, "lamp */glass": "foam"}},
      "joints": {"order": ["*/bow", "*/deck", "hull/s6#2", "lamp*"],
                 "edges": [{"between": ["*/bow", "hull/keel"], "joint": "mitre"}]},
      "openings": [{"name": "eye", "plate": "lamp port/glass"}],
      "donor": {"solids": [{"name": "box", "shape": "box"}], "leave_out": ["box"]},
      "clearance": {"solids": {"donor/box": "5 mm", "box": "6 mm"}},
      "stock": {"sheets": [{"name": "foam", "size": ["4 ft", "8 ft"], "thickness": "1/2 in"}]},
      "cut": [{"panel": "hull/bow~1"}], "pieces": [{"name": "hull/bow~2#3", "neighbours": ["hull/keel"]}]})");
    EXPECT_TRUE(p) << (p ? "" : p.error().where + p.error().message);
    return p.value_or(Project{});
}

Project renamedShip(const char* pointer, const char* to) {
    const auto p = renameAt(pointer, to).apply(ship());
    EXPECT_TRUE(p) << pointer << (p ? "" : p.error().where + ": " + p.error().message);
    return p.value_or(Project{});
}

TEST(RenameAt, PointInCurvesAndPlateNames) {
    const Project p = renamedShip("/forms/0/outline/1", "stem");
    const auto& hull = std::get<ProfileShape>(p.forms[0].shape);
    EXPECT_EQ(hull.outline[1].name, "stem");
    EXPECT_EQ(hull.curves[0].from, "stem");
    EXPECT_EQ(std::get<TaperShape>(p.forms[2].shape).curves[0].from, "bow") << "another form's point";
    EXPECT_EQ(p.materials.plates[0].plates, "hull/stem~2");
    // "*/bow" meant the plates of both forms, and still does.
    EXPECT_THAT(p.joints.order, ElementsAre("*/bow", "hull/stem", "*/deck", "hull/s6#2", "lamp*"));
    ASSERT_EQ(p.materials.plates.size(), 4U);
    EXPECT_EQ(p.materials.plates[2].plates, "hull/stem");
    EXPECT_EQ(p.materials.plates[2].stock, "");
    ASSERT_EQ(p.joints.edges.size(), 2U);
    EXPECT_EQ(p.joints.edges[1].a, "hull/stem");
    EXPECT_EQ(p.joints.edges[1].b, "hull/keel");
    EXPECT_EQ(p.cut[0].panel, "hull/stem~1");
    EXPECT_EQ(p.pieces[0].name, "hull/stem~2#3");
}

TEST(RenameAt, PointWithoutANameOfItsOwn) {
    const Project p = renamedShip("/forms/0/outline/5", "heel");
    EXPECT_EQ(std::get<ProfileShape>(p.forms[0].shape).curves[1].to, "heel");
    EXPECT_EQ(p.joints.order[2], "hull/heel#2");
}

TEST(RenameAt, ASharedSideStaysOnePlate) {
    const Project p = renamedShip("/forms/0/outline/2", "brow");
    const auto& hull = std::get<ProfileShape>(p.forms[0].shape);
    EXPECT_EQ(hull.outline[2].name, "brow");
    EXPECT_EQ(hull.outline[2].side, "deck");
    EXPECT_EQ(hull.curves[0].to, "brow");
    EXPECT_THAT(p.joints.order, ElementsAre("*/bow", "*/deck", "hull/s6#2", "lamp*"));
}

TEST(RenameAt, CornersAndFacesOfAFacetForm) {
    const Project corner = renamedShip("/forms/1/corners/1", "tip");
    EXPECT_THAT(std::get<FacetShape>(corner.forms[1].shape).faces[0].corners, ElementsAre("a", "tip", "c"));
    const Project face = renamedShip("/forms/1/faces/0", "lens");
    EXPECT_EQ(face.materials.plates[2].plates, "lamp */lens");
    EXPECT_EQ(face.openings[0].plate, "lamp port/lens");
}

TEST(RenameAt, FormInPatternsAndSolidInClearances) {
    const Project p = renamedShip("/forms/1", "lantern");
    EXPECT_EQ(p.materials.plates[2].plates, "lantern */glass");
    EXPECT_EQ(p.joints.order[3], "lantern*");
    EXPECT_EQ(p.openings[0].plate, "lantern port/glass");
    const Project solid = renamedShip("/donor/solids/0", "crate");
    EXPECT_EQ(solid.clearance.solids[0].name, "donor/crate");
    EXPECT_EQ(solid.clearance.solids[1].name, "crate");
    EXPECT_THAT(solid.donor.leave_out, ElementsAre("crate"));
    EXPECT_EQ(renamedShip("/openings/0", "lid").openings[0].name, "lid");
    EXPECT_EQ(renamedShip("/stock/sheets/0", "xps").materials.plates[0].stock, "xps");
}

TEST(RenameAt, Refusals) {
    struct Case {
        const char *pointer, *to, *code;
    };
    for (const Case& c :
         {Case{"/forms/0/outline/1", "deck", "duplicate-name"},
          Case{"/forms/0/outline/1", "port", "duplicate-name"}, Case{"/forms/0/outline/1", "a/b", "bad-name"},
          Case{"/forms/0/outline/9", "x", "no-such-place"}, Case{"/forms/0/corners/0", "x", "no-such-place"},
          Case{"/forms/1/faces/0", "back", "duplicate-name"}, Case{"/forms/9", "x", "no-such-place"},
          Case{"forms", "x", "bad-pointer"}, Case{"/forms/0", "lamp", "duplicate-name"}}) {
        const auto done = renameAt(c.pointer, c.to).apply(ship());
        ASSERT_FALSE(done) << c.pointer << " " << c.to;
        EXPECT_EQ(done.error().code, c.code) << c.pointer << ": " << done.error().message;
    }
}

TEST(RenameAt, BackAgainIsTheSameDocument) {
    for (const auto& [pointer, name] : {std::pair{"/forms/0/outline/0", "keel"},
                                        {"/forms/1/corners/1", "b"},
                                        {"/forms/1/faces/0", "glass"},
                                        {"/forms/1", "lamp"},
                                        {"/donor/solids/0", "box"}})
        EXPECT_EQ(renameAt(pointer, name).apply(renamedShip(pointer, "x1")), ship()) << pointer;
}

TEST(Rename, BackAgainIsTheSameDocument) {
    EXPECT_EQ(renameForm("x1", "hull").apply(after(renameForm("hull", "x1"))), boat());
    EXPECT_EQ(renameDimension("x1", "long").apply(after(renameDimension("long", "x1"))), boat());
    EXPECT_EQ(renameStock("x1", "foam").apply(after(renameStock("foam", "x1"))), boat());
}

TEST(Matches, PatternsAndPieces) {
    EXPECT_TRUE(matches("hull/port", "hull/port"));
    EXPECT_TRUE(matches("hull/port", "hull/port#2"));
    EXPECT_TRUE(matches("*/port", "wheel house/port#12"));
    EXPECT_TRUE(matches("hull/*", "hull/"));
    EXPECT_TRUE(matches("*", "anything"));
    EXPECT_TRUE(matches("h*l/*rt", "hull/port"));
    EXPECT_FALSE(matches("hull/port#2", "hull/port"));
    EXPECT_FALSE(matches("hull/port", "hull/port#2a"));
    EXPECT_FALSE(matches("hull/port", "hull/port aft"));
    EXPECT_FALSE(matches("*/deck", "hull/port"));
    EXPECT_FALSE(matches("", "x"));
    EXPECT_FALSE(matches(std::string(2000, '*') + "b", std::string(20000, 'a'))); // and it does not take long
}

} // namespace
} // namespace slab
