// Round forms beside what moves, and carried by it.
#include "core/mechanisms/shown.h"
#include "tests/geometry/seed.h"
#include "tests/mechanisms/boat.h"
#include <cmath>
#include <numbers>

namespace slab {
namespace {

RoundPart post(const std::string& name, const Vec3& base, const Vec3& top, double radius) {
    RoundPart r;
    r.name = name;
    r.base = base;
    r.top = top;
    r.radius = r.topRadius = radius;
    return r;
}

const SweptCheck* checkOf(const Boat& boat, const std::string& fixed) {
    const SweptCheck* least = nullptr;
    for (const SweptCheck& c : boat.set.checks)
        if (c.fixed == fixed && (!least || c.clearance < least->clearance)) least = &c;
    return least;
}

// The lamp house's corners turn on a circle of hypot(150, 100); an upright post beside it stays its own
// radius short of its distance.
TEST(RoundForms, StandInTheWayOfWhatTurns) {
    auto random = seeded(71);
    for (int i = 0; i < 24 / slowdown + 1; ++i) {
        const double far = uniform(random, 190, 260), turn = uniform(random, 0, 6.28),
                     radius = uniform(random, 5, 40);
        Boat boat = lampHouse();
        const Vec3 foot(far * std::cos(turn), far * std::sin(turn), 700);
        boat.body.rounds = {post("mast", foot, foot + Vec3(0, 0, 300), radius)};
        boat.make();
        const double gap = far - radius - std::hypot(150, 100);
        const SweptCheck* check = checkOf(boat, "mast");
        if (gap > 3.001) { // the table's running clearance is wanted
            EXPECT_TRUE(!check || check->clearance > 3) << gap << boat.told();
            continue;
        }
        ASSERT_TRUE(check) << gap << boat.told();
        if (gap > 0)
            EXPECT_NEAR(check->clearance, gap, 0.02) << boat.told();
        else
            EXPECT_LT(check->clearance, 1e-3) << boat.told();
        const Finding* told = boat.finding(gap < 0 ? "sweep-meets" : "sweep-tight");
        ASSERT_TRUE(told) << gap << boat.told();
        EXPECT_NE(std::find(told->about.begin(), told->about.end(), "form:mast"), told->about.end());
    }
}

TEST(RoundForms, TurnWithTheTableThatCarriesThem) {
    Boat boat = lampHouse();
    Turntable& table = boat.project.mechanisms.turntables[0];
    table.carries.push_back("mast");
    table.angle = "90 deg";
    const Vec3 foot(0, 230, 700);
    boat.body.rounds = {post("mast", foot, foot + Vec3(0, 0, 300), 15),
                        post("stack", {0, -260, 700}, {0, -260, 1000}, 20)};
    boat.make();
    EXPECT_FALSE(boat.finding("carries-no-plate")) << boat.told();
    EXPECT_NEAR(boat.fact("swept_radius"), 245, 0.02); // drawn round it
    // 260 - 20 from the axis, where the mast comes to 245.
    const Finding* meets = boat.finding("sweep-meets");
    ASSERT_TRUE(meets) << boat.told();
    EXPECT_NE(meets->message.find("mast"), std::string::npos) << meets->message;
    const SweptCheck* check = checkOf(boat, "stack");
    ASSERT_TRUE(check);
    EXPECT_NEAR(check->clearance, -5, 0.2);
    // As shown it is a quarter turn round.
    const auto shown = shownRounds(boat.set, boat.body.rounds);
    EXPECT_LT((shown[0].base - Vec3(-230, 0, 700)).norm(), 1e-9);
    EXPECT_EQ(shown[1], boat.body.rounds[1]);
    for (const BoughtPart& part : boughtParts(boat.set, boat.body))
        if (part.name == "mast") {
            EXPECT_EQ(part.on, "lamp");
            EXPECT_LT((part.centre - Vec3(-230, 0, 850)).norm(), 1e-9);
        }
}

TEST(RoundForms, ABeltsOwnWheelsAreNotInItsWayAndAPoleThroughItsRunIs) {
    Boat boat;
    SheetStock card;
    card.name = "card";
    card.kind = "card";
    card.width = "700 mm";
    card.length = "1000 mm";
    card.thickness = "2 mm";
    boat.project.stock.sheets.push_back(card);
    Belt belt;
    belt.name = "track";
    belt.at.y = "700 mm";
    belt.width = "100 mm";
    belt.stock = "card";
    belt.wheels = {{"fore", "300 mm", "150 mm", "200 mm", {}}, {"aft", "-300 mm", "150 mm", "200 mm", {}}};
    boat.project.mechanisms.belts = {belt};
    boat.body.rounds = {post("fore wheel", {300, 650, 150}, {300, 750, 150}, 100),
                        post("aft wheel", {-300, 650, 150}, {-300, 750, 150}, 100)};
    boat.make();
    EXPECT_EQ(boat.finding("sweep-meets"), nullptr) << boat.told();
    boat.body.rounds.push_back(post("pole", {0, 700, 0}, {0, 700, 400}, 20));
    boat.make();
    const Finding* meets = boat.finding("sweep-meets");
    ASSERT_TRUE(meets) << boat.told();
    EXPECT_NE(meets->message.find("pole"), std::string::npos) << meets->message;
    // Without forms for them its wheels are its own solids: a plate in one is told.
    boat.body.rounds.clear();
    boat.add("step", makeBox({250, 640, 100}, {350, 690, 200}));
    boat.make();
    const Finding* stands = boat.finding("sweep-meets");
    ASSERT_TRUE(stands) << boat.told();
    EXPECT_NE(stands->message.find("wheel fore"), std::string::npos) << stands->message;
}

} // namespace
} // namespace slab
