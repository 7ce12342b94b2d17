// Points inserted, deleted, mirrored; forms drawn and doubled.
#include "core/board/outline_edits.h"
#include "core/evaluate/evaluate.h"
#include "tests/board/make.h"
#include <algorithm>

using namespace slab;
using namespace slab::test;

namespace {

const std::vector<OutlinePoint>& hullOf(const Project& p) {
    return std::get<ProfileShape>(p.forms[0].shape).outline;
}
const TaperShape& houseOf(const Project& p) {
    return std::get<TaperShape>(p.forms[1].shape);
}
double volumeOf(const Project& p) {
    return bodyOf(p).volume;
}

} // namespace

TEST(InsertPoint, splitsAnEdgeWithoutChangingTheBody) {
    Project p = boat();
    p.lines = {{"height", "side", "hull/outline/3", "hull/outline/0", "z", "", "", {}}};
    const Project next =
        applied(p, insertPoint(p, scopeIn(p), BoardView::side, "/forms/0/outline/2", {3000, 1504}));
    ASSERT_EQ(hullOf(next).size(), 6U);
    const OutlinePoint& fresh = hullOf(next)[3];
    EXPECT_EQ(fresh.name, "stem head 2");
    EXPECT_EQ(fresh.side, "stem head") << "still the same plate";
    EXPECT_EQ(fresh.x, "3000 mm");
    EXPECT_EQ(fresh.z, "1.5 m") << "as both its neighbours say";
    EXPECT_EQ(fresh.half_width, "beam / 2");
    EXPECT_EQ(next.lines[0].from, "hull/outline/4") << "names by position follow";
    EXPECT_NEAR(volumeOf(next), volumeOf(p), 1e-9 * volumeOf(p));
}

TEST(InsertPoint, inPlanTheHalfWidthIsSplitToo) {
    Project p = boat();
    auto& hull = std::get<ProfileShape>(p.forms[0].shape).outline;
    hull[2].half_width = "400 mm";
    const Project next =
        applied(p, insertPoint(p, scopeIn(p), BoardView::plan, "/forms/0/outline/2", {3000, 650}));
    EXPECT_EQ(hullOf(next)[3].half_width, "650 mm");
    EXPECT_EQ(hullOf(next)[3].x, "3000 mm");
}

// Both parts of a split arc lie on the circle of the whole.
TEST(InsertPoint, arcsKeepTheirCircle) {
    Project p = boat();
    Curve c;
    c.from = "forefoot";
    c.to = "stem head";
    c.bulge = "150 mm";
    c.facets = "4";
    std::get<ProfileShape>(p.forms[0].shape).curves = {c};
    const Vec2 a(3120, 300), b(4000, 1500), chord = b - a, out = Vec2(chord.y(), -chord.x()).normalized();
    const double radius = chord.squaredNorm() / 4 / 300 + 75;
    const Vec2 centre = (a + b) / 2 + out * (150 - radius);
    const Vec2 third = centre + radius * (a + chord * 0.3 + out * 120 - centre).normalized();
    const Project next = applied(p, insertPoint(p, scopeIn(p), BoardView::side, "/forms/0/outline/1", third));
    const auto& curves = std::get<ProfileShape>(next.forms[0].shape).curves;
    ASSERT_EQ(curves.size(), 2U);
    EXPECT_EQ(curves[0].to, curves[1].from);
    EXPECT_EQ(curves[0].from, "forefoot");
    EXPECT_EQ(curves[1].to, "stem head");
    const BoardScene scene = sceneOf(next);
    for (const BoardEdge& e : scene.of(BoardView::side).edges)
        if (e.pointer == "/forms/0/outline/1" || e.pointer == "/forms/0/outline/2") {
            for (const Vec2& q : e.line) EXPECT_NEAR((q - centre).norm(), radius, 1e-6) << e.pointer;
        }
}

TEST(InsertPoint, tapersStayPaired) {
    const Project p = boat();
    const Project next = applied(p, insertPoint(p, scopeIn(p), BoardView::plan, "/forms/1/top/1", {1700, 0}));
    ASSERT_EQ(houseOf(next).base.size(), 5U);
    ASSERT_EQ(houseOf(next).top.size(), 5U);
    EXPECT_EQ(houseOf(next).base[2].name, "front 2");
    EXPECT_EQ(houseOf(next).top[2].y, "0");
    EXPECT_NEAR(volumeOf(next), volumeOf(p), 1e-9 * volumeOf(p));
}

TEST(DeletePoints, curvesAndFacesFollow) {
    Project p = boat();
    Curve c;
    c.from = "forefoot";
    c.to = "stem head";
    c.bulge = "150 mm";
    c.facets = "4";
    std::get<ProfileShape>(p.forms[0].shape).curves = {c};
    const Project next = applied(p, deletePoints(p, {{"/forms/0/outline/1", Handle::corner}}));
    EXPECT_EQ(hullOf(next).size(), 4U);
    EXPECT_TRUE(std::get<ProfileShape>(next.forms[0].shape).curves.empty());
    const Project house = applied(p, deletePoints(p, {{"/forms/1/top/1", Handle::corner}}));
    EXPECT_EQ(houseOf(house).base.size(), 3U) << "base and top together";
}

TEST(DeletePoints, facetFormsStayClosed) {
    FacetShape cube;
    for (int i = 0; i < 8; ++i)
        cube.corners.push_back(corner(std::string(1, static_cast<char>('a' + i)),
                                      {i & 1 ? 100.0 : 0, i & 2 ? 100.0 : 0, i & 4 ? 100.0 : 0}));
    cube.faces = {{"bottom", {"a", "c", "d", "b"}, {}}, {"top", {"e", "f", "h", "g"}, {}},
                  {"front", {"b", "d", "h", "f"}, {}},  {"back", {"a", "e", "g", "c"}, {}},
                  {"port", {"c", "g", "h", "d"}, {}},   {"starboard", {"a", "b", "f", "e"}, {}}};
    const Project p = projectOf({named("cube", cube)});
    ASSERT_NEAR(volumeOf(p), 1e6, 1e-3);
    const Project next = applied(p, deletePoints(p, {{"/forms/0/corners/7", Handle::corner}}));
    // A corner cut off a cube: a sixth of it goes (tetrahedron).
    EXPECT_NEAR(volumeOf(next), 1e6 * 5 / 6, 1e-3) << report(bodyOf(next).findings);
    EXPECT_EQ(std::get<FacetShape>(next.forms[0].shape).faces.back().name, "cut");
}

TEST(DeletePoints, refusesTooFew) {
    const Project p = boat();
    const auto none =
        deletePoints(p, {{"/forms/1/base/0", Handle::corner}, {"/forms/1/base/1", Handle::corner}});
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().code, "too-few-points");
    EXPECT_EQ(deletePoints(p, {{"/forms/0/outline/7", Handle::corner}}).error().code, "no-such-point");
}

TEST(Symmetry, theKeptHalfReplacesTheOther) {
    Project p = boat();
    auto& house = std::get<TaperShape>(p.forms[1].shape);
    house.base[2].y = house.top[2].y = "0.4 m + wall"; // port front
    house.base[2].x = house.top[2].x = "1 m";
    const Project next = applied(p, makeSymmetric(p, scopeIn(p), 1, true));
    const auto& base = houseOf(next).base;
    ASSERT_EQ(base.size(), 4U);
    std::map<std::string, OutlinePoint> byName;
    for (const OutlinePoint& o : base) byName[o.name] = o;
    EXPECT_EQ(byName.at("front").y, "-(0.4 m + wall)");
    EXPECT_EQ(byName.at("front").x, "1 m");
    EXPECT_EQ(byName.at("starboard").y, "-0.6 m");
    const Body body = bodyOf(next);
    EXPECT_NEAR(body.bounds.min.y(), -body.bounds.max.y(), 1e-9);
    EXPECT_EQ(applied(next, makeSymmetric(next, scopeIn(next), 1, true)).forms[1], next.forms[1])
        << "twice is once";
}

TEST(Symmetry, refuses) {
    Project p = boat();
    EXPECT_EQ(makeSymmetric(p, scopeIn(p), 0, true).error().code, "not-a-plan-outline");
    p.forms[1].at.y = "2 m";
    EXPECT_EQ(makeSymmetric(p, scopeIn(p), 1, true).error().code, "not-a-plan-outline");
    Project aside = boat();
    for (auto* list :
         {&std::get<TaperShape>(aside.forms[1].shape).base, &std::get<TaperShape>(aside.forms[1].shape).top})
        for (OutlinePoint& o : *list) o.y = o.y + " + 2 m";
    EXPECT_EQ(makeSymmetric(aside, scopeIn(aside), 1, true).error().code, "nothing-to-mirror");
}

TEST(Symmetry, mirrorPointsAcrossALine) {
    const Project p = boat();
    const Project next = applied(
        p, mirrorPoints(p, scopeIn(p), BoardView::side, {{"/forms/0/outline/2", Handle::corner}}, 0, 3500));
    // From 3000 to 4000: as much longer as the hull becomes, as much less from then on.
    EXPECT_EQ(hullOf(next)[2].x, "7000 mm - hull_length");
    EXPECT_EQ(hullOf(next)[2].z, "1.5 m");
}

TEST(AddForm, everyKindIsABodyOfTheDrawnSize) {
    for (const char* scale : {"1", "0.5"}) {
        Project p;
        p.scale = scale;
        const Scope scope = scopeIn(p);
        const std::vector<Vec2> square{{0, 0}, {100, 0}, {100, 100}, {0, 100}};
        const auto drawn = [&](const char* kind, BoardView view, double size) {
            NewForm f;
            f.kind = kind;
            f.view = view;
            f.places = square;
            f.size = size;
            return applied(p, addForm(p, scope, f));
        };
        const double s = *parseRatio(scale);
        EXPECT_NEAR(bodyOf(drawn("profile", BoardView::side, 30), s).volume, 100 * 100 * 60, 1e-6);
        EXPECT_NEAR(bodyOf(drawn("taper", BoardView::plan, 30), s).volume, 100 * 100 * 30, 1e-6);
        for (const BoardView view : boardViews) {
            EXPECT_NEAR(bodyOf(drawn("facet", view, 30), s).volume, 100 * 100 * 30, 1e-6) << viewName(view);
            const Body plate = bodyOf(drawn("plate", view, 0), s);
            ASSERT_EQ(plate.plates.size(), 1U);
            EXPECT_NEAR(area(plate.plates[0].outline), 1e4, 1e-6);
            EXPECT_LT((seen(plate.bounds.max, view) - Vec2(100, 100)).norm(), 1e-9) << viewName(view);
            NewForm f;
            f.kind = "round";
            f.view = view;
            f.places = {{10, 20}, {70, 100}};
            f.size = 15;
            const Body round = bodyOf(applied(p, addForm(p, scope, f)), s);
            ASSERT_EQ(round.rounds.size(), 1U);
            EXPECT_LT((seen(round.rounds[0].base, view) - Vec2(10, 20)).norm(), 1e-6) << viewName(view);
            EXPECT_LT((seen(round.rounds[0].top, view) - Vec2(70, 100)).norm(), 1e-6) << viewName(view);
            EXPECT_NEAR(round.rounds[0].radius, 15, 1e-9);
        }
    }
}

TEST(AddForm, refuses) {
    Project p = boat();
    NewForm f;
    f.places = {{0, 0}, {1, 0}};
    EXPECT_EQ(addForm(p, scopeIn(p), f).error().code, "outline-short");
    f.places.emplace_back(0, 1);
    f.view = BoardView::plan;
    EXPECT_EQ(addForm(p, scopeIn(p), f).error().code, "unknown-kind");
    f.view = BoardView::side;
    f.name = "hull";
    EXPECT_EQ(addForm(p, scopeIn(p), f).error().code, "name-taken");
}

TEST(Duplicate, hasFreshNamesAndItsOwnMaterials) {
    Project p = boat();
    p.materials.plates = {{"house/top", ""}, {"hull/keel", ""}};
    p.joints.order = {"house/front"};
    const Project next = applied(p, duplicateForm(p, scopeIn(p), BoardView::side, 1, {500, 0}));
    ASSERT_EQ(next.forms.size(), 3U);
    EXPECT_EQ(next.forms[2].name, "house 2");
    EXPECT_EQ(next.forms[2].at.x, "1000 mm");
    ASSERT_EQ(next.materials.plates.size(), 3U);
    EXPECT_EQ(next.materials.plates[1].plates, "house 2/top");
    EXPECT_EQ(next.joints.order.back(), "house 2/front");
    EXPECT_EQ(freshFormName(next, "house"), "house 3");
}
