// T-joints: a plate form that stands on a face of another plate is cut to that face. Closed forms: a plate of
// thickness t that leans by δ from the face, drawn with the corner line of one of its faces on it, loses (or
// gains) a wedge of half t² cot δ along its foot, and its foot covers t / sin δ of the face.
#include "tests/plates/fixtures.h"
#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace feet {

using namespace slab;
using namespace slab::test;

namespace {

constexpr double degree = std::numbers::pi / 180;

double cot(double angle) {
    return std::cos(angle) / std::sin(angle);
}

/// A face to stand on: a point, its outward normal and a direction in it.
struct Ground {
    Vec3 point = Vec3::Zero(), normal = Vec3::UnitZ(), along = Vec3::UnitX();
};

/// A plate form that leans by `lean` from the ground, its v axis up along the plate, the foot along `along`.
/// @param byInside  the inside face's corner line is drawn on the ground, else the outside face's
FreePlate leaning(const std::string& name, const Ground& g, double lean, const Ring& outline,
                  double byInside = 0) {
    FreePlate fin;
    fin.name = name + "/plate";
    fin.form = name;
    fin.frame.axes.col(0) = g.along;
    fin.frame.axes.col(1) = std::cos(lean) * g.normal.cross(g.along) + std::sin(lean) * g.normal;
    fin.frame.axes.col(2) = fin.frame.axes.col(0).cross(fin.frame.axes.col(1));
    fin.frame.origin = g.point + byInside * fin.frame.axes.col(2);
    fin.outline.outer = outline;
    return fin;
}

FreePlate level(const std::string& name, const Vec3& origin, double length, double width) {
    return leaning(name, {origin, -Vec3::UnitY(), Vec3::UnitX()}, -90 * degree,
                   {{0, 0}, {length, 0}, {length, width}, {0, width}});
}

Body box() {
    return bodyOf(hullOf({{0, 0, 0},
                          {600, 0, 0},
                          {600, 400, 0},
                          {0, 400, 0},
                          {0, 0, 300},
                          {600, 0, 300},
                          {600, 400, 300},
                          {0, 400, 300}}));
}

std::string topOf(const Body& body) {
    for (const SkinFace& f : body.skin.faces)
        if (f.plane.normal.z() > 0.99) return f.name;
    return "";
}

const Plate& plateOf(const PlateSet& set, const std::string& name) {
    const Plate* plate = findPlate(set, name);
    EXPECT_TRUE(plate) << name;
    static const Plate none;
    return plate ? *plate : none;
}

double areaOf(const Contact& contact) {
    double sum = 0;
    for (const Ring& ring : contact.rings) sum += signedArea(ring);
    return sum;
}

double contactArea(const Plate& host, const std::string& plate) {
    double sum = 0;
    for (const Contact& c : host.contacts)
        if (c.plate == plate) sum += areaOf(c);
    return sum;
}

bool has(const PlateSet& set, const std::string& code) {
    return std::any_of(set.findings.begin(), set.findings.end(),
                       [&](const Finding& f) { return f.code == code; });
}

double overlapOf(const PlateSet& set) {
    double sum = 0;
    for (const Misfit& m : set.overlaps) sum += m.volume;
    return sum;
}

constexpr double length = 200, height = 100, thick = 20;
const Ring rectangle = {{0, 0}, {length, 0}, {length, height}, {0, height}};

/// The plate, its foot and the contact on the host, against the closed form.
void expectFoot(const PlateSet& set, const std::string& host, double lean, bool byInside, bool inside) {
    const Plate& fin = plateOf(set, "fin/plate");
    const double wedge = thick * thick * cot(lean) / 2;
    EXPECT_NEAR(fin.volume, length * (thick * height + (byInside ? wedge : -wedge)), 1e-5);
    const PanelEdge* foot = findEdge(fin, host);
    ASSERT_TRUE(foot);
    EXPECT_EQ(foot->role, EdgeRole::rests);
    EXPECT_NEAR(foot->bevel, 90 * degree - lean, 1e-9);
    EXPECT_NEAR(foot->dihedral, lean, 1e-9);
    EXPECT_NEAR(foot->offsetOuter, byInside ? -thick * cot(lean) : 0, 1e-6);
    EXPECT_NEAR(foot->offsetInner, byInside ? 0 : thick * cot(lean), 1e-6);
    ASSERT_GE(foot->inner, 0);
    const Ring &outer = fin.boundary.outer, &ring = fin.boundary.inner;
    const auto i = static_cast<std::size_t>(foot - fin.boundary.edges.data());
    const auto k = static_cast<std::size_t>(foot->inner);
    const Vec2 along = (outer[(i + 1) % outer.size()] - outer[i]).normalized();
    for (const Vec2& p : {ring[k], ring[(k + 1) % ring.size()]})
        EXPECT_NEAR(cross2(along, p - outer[i]), foot->offsetInner - foot->offsetOuter, 1e-6);
    EXPECT_GT(foot->mark, 0);
    EXPECT_LT(overlapOf(set), 1e-3);
    EXPECT_FALSE(has(set, "plates-overlap"));
    const Plate& base = plateOf(set, host);
    ASSERT_EQ(base.contacts.size(), 1U);
    const Contact& contact = base.contacts.front();
    EXPECT_EQ(contact.on, host);
    EXPECT_EQ(contact.plate, "fin/plate");
    EXPECT_EQ(contact.mark, foot->mark);
    EXPECT_EQ(contact.inside, inside);
    EXPECT_FALSE(contact.flat);
    EXPECT_NEAR(areaOf(contact), length * thick / std::sin(lean), 1e-3);
}

} // namespace

TEST(Feet, AreCutToTheFaceOfASkinPlate) {
    for (const double lean : {90.0, 60.0, 120.0, 45.0, 135.0, 20.0, 160.0})
        for (const bool byInside : {false, true}) {
            SCOPED_TRACE(testing::Message() << lean << (byInside ? " by the inside face" : ""));
            Body body = box();
            const PlateRules made = evenRules(body, thick);
            PlateRules rules = made;
            body.plates = {leaning("fin", {{200, 200, 300}}, lean * degree, rectangle, byInside ? thick : 0)};
            rules.freePlates = {{"ply", thick, 0}};
            expectFoot(buildPlates(body, rules), topOf(body), lean * degree, byInside, false);
        }
}

TEST(Feet, AreCutToEitherFaceOfAPlateForm) {
    for (const double lean : {60.0, 120.0})
        for (const bool inside : {false, true})
            for (const double hostThickness : {0.2, 20.0}) {
                SCOPED_TRACE(testing::Message()
                             << lean << (inside ? " inside " : " outside ") << hostThickness);
                Body body;
                PlateRules rules;
                Ground g{{100, 150, 0}};
                if (inside) g = {{100, 150, -hostThickness}, -Vec3::UnitZ(), Vec3::UnitX()};
                body.plates = {level("deck", Vec3::Zero(), 400, 300),
                               leaning("fin", g, lean * degree, rectangle)};
                rules.freePlates = {{"ply", hostThickness, 0}, {"ply", thick, 0}};
                const PlateSet set = buildPlates(body, rules);
                EXPECT_NEAR(plateOf(set, "deck/plate").volume, 400 * 300 * hostThickness, 1e-5);
                expectFoot(set, "deck/plate", lean * degree, false, inside);
            }
}

TEST(Feet, OfASlightlyMisplacedEdgeTakeUpTheGap) {
    Body body = box();
    PlateRules rules = evenRules(body, thick);
    body.plates = {leaning("fin", {{200, 200, 300.3}}, 60 * degree, rectangle)};
    rules.freePlates = {{"ply", thick, 0}};
    const PlateSet set = buildPlates(body, rules);
    const double reach = 0.3 / std::sin(60 * degree);
    EXPECT_NEAR(findPlate(set, "fin/plate")->volume,
                length * (thick * (height + reach) - thick * thick * cot(60 * degree) / 2), 1e-5);
    body.plates[0].frame.origin.z() = 300.7; // no longer on the face
    const PlateSet clear = buildPlates(body, rules);
    EXPECT_FALSE(findEdge(*findPlate(clear, "fin/plate"), topOf(body)));
    EXPECT_TRUE(findPlate(clear, topOf(body))->contacts.empty());
}

TEST(Feet, OfABracketAreCutToBothPlates) {
    // Floor z = 0 and wall x = 0; the bracket's plane leans from both.
    Body body;
    FreePlate wall = leaning("wall", {{0, -300, 0}, Vec3::UnitX(), Vec3::UnitY()}, 0,
                             {{0, 0}, {600, 0}, {600, 400}, {0, 400}});
    ASSERT_NEAR(wall.frame.axes.col(2).x(), 1, 1e-12);
    for (const double sign : {1.0, -1.0}) {
        const Vec3 onFloor(150, 60 * sign, 0), onWall(0, 40 * sign, 150);
        FreePlate bracket;
        bracket.name = "bracket/plate";
        bracket.form = "bracket";
        Vec3 u = onFloor.normalized(), w = u.cross(onWall).normalized();
        bracket.frame.axes << u, w.cross(u), w;
        const auto flat = [&](const Vec3& p) { return bracket.frame.toPlane(p); };
        bracket.outline.outer = {flat(Vec3::Zero()), flat(onFloor), flat(onWall)};
        body.plates = {level("floor", {0, -300, 0}, 400, 600), wall, bracket};
        PlateRules rules;
        rules.freePlates = {{"ply", 12, 0}, {"ply", 12, 1}, {"ply", 9, 2}};
        const PlateSet set = buildPlates(body, rules);
        const Vec3 outer = onWall - onFloor;
        const Vec3 n = outer.cross(w).normalized();
        EXPECT_NEAR(
            plateOf(set, "bracket/plate").volume,
            volumeOfPlanes({{w, 0}, {-w, 9}, {-Vec3::UnitZ(), 0}, {-Vec3::UnitX(), 0}, {n, n.dot(onFloor)}}),
            1e-5);
        EXPECT_LT(overlapOf(set), 1e-3);
        EXPECT_EQ(plateOf(set, "floor/plate").contacts.size(), 1U);
        EXPECT_EQ(plateOf(set, "wall/plate").contacts.size(), 1U);
    }
}

TEST(Feet, OfAHookLeaveTheLegBesideTheHost) {
    // Stands on the deck's top from x = 0 on, its leg hangs down beside the deck's edge at x < 0.
    const Ring hook = {{-40, -80}, {0, -80}, {0, 0}, {150, 0}, {150, 90}, {-40, 90}};
    for (const double lean : {60.0, 120.0}) {
        Body body;
        body.plates = {level("deck", Vec3::Zero(), 400, 300),
                       leaning("hook", {{0, 150, 0}}, lean * degree, hook)};
        PlateRules rules;
        rules.freePlates = {{"ply", 10, 0}, {"ply", 10, 0}};
        const PlateSet set = buildPlates(body, rules);
        const double square = 40 * 170 + 150 * 90;
        EXPECT_NEAR(plateOf(set, "hook/plate").volume, 10 * square - 150 * 10 * 10 * cot(lean * degree) / 2,
                    1e-5);
        EXPECT_LT(overlapOf(set), 1e-3);
        EXPECT_NEAR(contactArea(plateOf(set, "deck/plate"), "hook/plate"), 150 * 10 / std::sin(lean * degree),
                    1e-3);
    }
}

TEST(Feet, CoverNothingWhereTheHostIsOpen) {
    Body body = box();
    PlateRules rules = evenRules(body, thick);
    body.plates = {leaning("fin", {{200, 200, 300}}, 60 * degree, rectangle)};
    rules.freePlates = {{"ply", thick, 0}};
    ResolvedOpening hatch;
    hatch.name = "hatch";
    hatch.plate = topOf(body);
    hatch.outline = {{-40, -100}, {0, -100}, {0, 100}, {-40, 100}}; // 40 mm of the foot
    rules.openings = {hatch};
    const PlateSet set = buildPlates(body, rules);
    const Plate& top = plateOf(set, topOf(body));
    ASSERT_EQ(top.contacts.size(), 1U);
    EXPECT_EQ(top.contacts[0].rings.size(), 2U);
    EXPECT_NEAR(areaOf(top.contacts[0]), (length - 40) * thick / std::sin(60 * degree), 1e-3);
    rules.openings[0].outline = {{-150, -100}, {150, -100}, {150, 100}, {-150, 100}};
    const PlateSet open = buildPlates(body, rules);
    EXPECT_TRUE(plateOf(open, topOf(body)).contacts.empty());
    EXPECT_FALSE(findEdge(plateOf(open, "fin/plate"), topOf(body)));
}

TEST(Feet, OfTwoThatMeetAtACornerTheLowerOneYields) {
    // Both drawn to the outside corner line: the second butts the first one's inside face.
    for (const bool firstYields : {false, true}) {
        Body body;
        FreePlate wall = leaning("wall", {{0, 0, 0}, Vec3::UnitX(), Vec3::UnitY()}, 180 * degree,
                                 {{0, 0}, {300, 0}, {300, 200}, {0, 200}});
        body.plates = {level("deck", Vec3::Zero(), 400, 300), wall};
        // The wall hangs under the deck's edge, its outside face at x = 0 looking to -x.
        body.plates[1].frame.axes << Vec3(0, -1, 0), Vec3(0, 0, 1), Vec3(-1, 0, 0);
        body.plates[1].frame.origin = {0, 300, -200};
        PlateRules rules;
        rules.freePlates = {{"ply", 10, firstYields ? 1 : 0}, {"ply", 12, 0}};
        const PlateSet set = buildPlates(body, rules);
        EXPECT_LT(overlapOf(set), 1e-3);
        EXPECT_NEAR(plateOf(set, "deck/plate").volume, (firstYields ? 388.0 : 400.0) * 300 * 10, 1e-5);
        EXPECT_NEAR(plateOf(set, "wall/plate").volume, (firstYields ? 200.0 : 190.0) * 300 * 12, 1e-5);
    }
}

TEST(Feet, ThatLeanTooLittleStaySquareAndSaySo) {
    Body body = box();
    PlateRules rules = evenRules(body, thick);
    rules.freePlates = {{"ply", thick, 0}};
    body.plates = {leaning("fin", {{200, 100, 300}}, 14 * degree, rectangle)};
    const PlateSet set = buildPlates(body, rules);
    EXPECT_TRUE(has(set, "foot-too-flat"));
    EXPECT_NEAR(plateOf(set, "fin/plate").volume, length * height * thick, 1e-6);
    body.plates = {leaning("fin", {{200, 100, 300}}, 16 * degree, rectangle)};
    EXPECT_FALSE(has(buildPlates(body, rules), "foot-too-flat"));
}

TEST(Feet, ThatCrossGetARemedyThatCanWork) {
    Body body;
    body.plates = {level("deck", Vec3::Zero(), 400, 300),
                   leaning("web", {{100, 150, -50}}, 70 * degree, rectangle)};
    PlateRules rules;
    rules.freePlates = {{"ply", 10, 0}, {"ply", 10, 0}};
    const PlateSet set = buildPlates(body, rules);
    ASSERT_TRUE(has(set, "plates-overlap"));
    for (const Finding& f : set.findings) {
        if (f.code != "plates-overlap") continue;
        EXPECT_EQ(f.remedy.find("join"), std::string::npos) << f.remedy;
        EXPECT_NE(f.remedy.find("Move web/plate"), std::string::npos) << f.remedy;
    }
}

TEST(Feet, StandWithoutOverlapOrGapOnAnyFace) {
    Random random(seedFor("feet", 20261126));
    int stood = 0;
    for (int round = 0; round < 240 / slowdown; ++round) {
        Body body =
            bodyOf(frustum(pick(random, 3, 7), 400, uniform(random, 150, 500), uniform(random, 200, 500)));
        PlateRules rules = evenRules(body, uniform(random, 2, 18));
        for (FaceChoice& choice : rules.faces) choice.rank = pick(random, 0, 3);
        const SkinFace& face = body.skin.faces[static_cast<std::size_t>(
            pick(random, 0, static_cast<int>(body.skin.faces.size()) - 1))];
        Ground g;
        g.normal = face.plane.normal;
        g.point = Vec3::Zero();
        for (const int v : face.loops.front())
            g.point += body.skin.vertices[static_cast<std::size_t>(v)] /
                       static_cast<double>(face.loops.front().size());
        Vec3 any(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1));
        g.along = (any - g.normal * any.dot(g.normal)).normalized();
        const double t = uniform(random, 1, 15), lean = uniform(random, 16, 164) * degree;
        const double foot = uniform(random, 10, 50), tall = uniform(random, 60, 120);
        const bool byInside = pick(random, 0, 1) == 1;
        g.point -= g.along * foot / 2;
        body.plates = {leaning("fin", g, lean,
                               {{0, 0}, {foot, 0}, {foot, tall}, {0.4 * foot, 1.2 * tall}, {0, tall}},
                               byInside ? t : 0)};
        rules.freePlates = {{"ply", t, pick(random, 0, 3)}};
        const PlateSet set = buildPlates(body, rules);
        SCOPED_TRACE(testing::Message() << "round " << round << " lean " << lean / degree << " t " << t);
        EXPECT_LT(overlapOf(set), 1e-3);
        const double wedge = t * t * cot(lean) / 2;
        EXPECT_NEAR(plateOf(set, "fin/plate").volume,
                    foot * t * 1.1 * tall + foot * (byInside ? wedge : -wedge), 1e-4);
        const Plate& host = plateOf(set, face.name);
        if (host.contacts.empty()) continue;
        EXPECT_NEAR(contactArea(host, "fin/plate"), foot * t / std::sin(lean), 1e-3);
        ++stood;
    }
    EXPECT_GT(stood, 200 / slowdown) << "too few feet stood where they were meant to";
}

TEST(Feet, WithSlantedEndsAreTheirHalfSpacesOnAnyPlateForm) {
    Random random(seedFor("feet on plate forms", 20261127));
    for (int round = 0; round < 240 / slowdown; ++round) {
        const double hostThickness = uniform(random, 0.1, 20), t = uniform(random, 1, 15);
        const double lean = uniform(random, 16, 164) * degree;
        const bool inside = pick(random, 0, 1) == 1;
        Ground g;
        g.normal = Vec3(uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)).normalized();
        g.along = g.normal.unitOrthogonal();
        g.point = Vec3(uniform(random, -500, 500), uniform(random, -500, 500), uniform(random, 0, 900));
        FreePlate deck;
        deck.name = "deck/plate";
        deck.form = "deck";
        const Vec3 w = inside ? Vec3(-g.normal) : g.normal;
        deck.frame.axes << w.cross(g.along), -g.along, w;
        deck.frame.axes.col(0) = deck.frame.axes.col(1).cross(w);
        deck.frame.origin = g.point + (inside ? hostThickness : 0) * w;
        deck.outline.outer = {{-300, -300}, {300, -300}, {300, 300}, {-300, 300}};
        const double foot = uniform(random, 40, 200), tall = uniform(random, 60, 120);
        const Ring outline{
            {0, 0}, {foot, 0}, {foot + uniform(random, -15, 60), tall}, {uniform(random, -60, 15), tall}};
        Body body;
        body.plates = {deck, leaning("fin", g, lean, outline)};
        if (pick(random, 0, 1) == 1) std::swap(body.plates[0], body.plates[1]);
        PlateRules rules;
        for (const FreePlate& plate : body.plates)
            rules.freePlates.push_back(
                {"ply", plate.name == "fin/plate" ? t : hostThickness, pick(random, 0, 2)});
        const PlateSet set = buildPlates(body, rules);
        SCOPED_TRACE(testing::Message() << "round " << round << " lean " << lean / degree);
        const FreePlate fin = leaning("fin", g, lean, outline);
        const Vec3 up = fin.frame.axes.col(2);
        // Near the origin, for the sake of rounding.
        const auto plane = [&](const Vec3& n, const Vec3& p) { return Plane{n, n.dot(p - g.point)}; };
        std::vector<Plane> planes{plane(up, g.point), plane(-up, g.point - t * up),
                                  plane(-g.normal, g.point)};
        for (std::size_t i = 1; i < outline.size(); ++i) {
            const Vec3 from = fin.frame.toBody(outline[i]);
            const Vec3 to = fin.frame.toBody(outline[(i + 1) % outline.size()]);
            planes.push_back(plane((to - from).cross(up).normalized(), from));
        }
        EXPECT_NEAR(plateOf(set, "fin/plate").volume, volumeOfPlanes(planes), 1e-3);
        EXPECT_NEAR(plateOf(set, "deck/plate").volume, 600 * 600 * hostThickness, 1e-3)
            << "the host is whole";
        EXPECT_LT(overlapOf(set), 1e-3);
        const PanelEdge* edge = findEdge(plateOf(set, "fin/plate"), "deck/plate");
        ASSERT_TRUE(edge);
        EXPECT_NEAR(edge->bevel, 90 * degree - lean, 1e-8);
        const Plate& host = plateOf(set, "deck/plate");
        ASSERT_EQ(host.contacts.size(), 1U);
        EXPECT_EQ(host.contacts[0].mark, edge->mark);
        if (hostThickness > 0.6) { // else both faces are within reach
            EXPECT_EQ(host.contacts[0].inside, inside);
        }
    }
}

} // namespace feet
