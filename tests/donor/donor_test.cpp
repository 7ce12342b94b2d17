#include "core/donor/donor.h"
#include <algorithm>
#include <gmock/gmock.h>
#include <numbers>
#include <set>

namespace slab {
namespace {

using ::testing::HasSubstr;

Project with(const std::string& kind, const std::string& rider = "none") {
    Project p;
    p.donor.kind = kind;
    p.rider.table = rider;
    return p;
}
DonorSet resolved(const Project& p, double scale = 1) {
    Scope scope;
    scope.scale = scale;
    return resolveDonor(p, scope);
}
const FitSolid* named(const DonorSet& set, const std::string& name) {
    const auto it =
        std::find_if(set.solids.begin(), set.solids.end(), [&](const FitSolid& s) { return s.name == name; });
    return it == set.solids.end() ? nullptr : &*it;
}
const Finding* findingWith(const DonorSet& set, const std::string& code) {
    for (const Finding& f : set.findings)
        if (f.code == code) return &f;
    return nullptr;
}
Box3 boundsOf(const DonorSet& set, const std::string& group) {
    Box3 all{Vec3::Constant(1e9), Vec3::Constant(-1e9)};
    for (const FitSolid& s : set.solids) {
        if (s.group != group) continue;
        const Box3 b = bounds(s.shape);
        all.min = all.min.cwiseMin(b.min);
        all.max = all.max.cwiseMax(b.max);
    }
    return all;
}

// Typical mid-wheel powered chair 600-660 x 900-1150 mm, seat 430-560 mm high (from memory); floor area that
// holds 95 % of occupied powered chairs: 827 x 1414 mm (UB IDeA 2010, anthropometry of wheeled mobility).
TEST(PoweredChair, IsOfTypicalSize) {
    const DonorSet set = resolved(with("powered_chair"));
    const Box3 b = boundsOf(set, "donor");
    EXPECT_GE(b.size().x(), 900);
    EXPECT_LE(b.size().x(), 1150);
    EXPECT_GE(b.size().y(), 600);
    EXPECT_LE(b.size().y(), 830); // with the joystick hand's room
    EXPECT_NEAR(b.min.z(), 0, 1e-9);
    const double seat = bounds(named(set, "donor/seat")->shape).max.z();
    EXPECT_GE(seat, 430);
    EXPECT_LE(seat, 560);
    EXPECT_TRUE(set.findings.empty());
    // Its wheels stand on the ground under the origin.
    const Box3 wheel = bounds(named(set, "donor/left drive wheel")->shape);
    EXPECT_NEAR(wheel.min.z(), 0, 1e-9);
    EXPECT_NEAR(wheel.min.x() + wheel.max.x(), 0, 1e-9);
    EXPECT_NEAR(wheel.max.y(), 315, 1e-9);
}

// Three-wheel scooter 500-600 x 1000-1300 mm (from memory).
TEST(Scooter, IsOfTypicalSize) {
    const DonorSet set = resolved(with("scooter"));
    const Box3 b = boundsOf(set, "donor");
    EXPECT_GE(b.size().x(), 1000);
    EXPECT_LE(b.size().x(), 1300);
    EXPECT_GE(b.size().y(), 500);
    EXPECT_LE(b.size().y(), 620); // over the handlebar's sweep
    EXPECT_NEAR(b.min.z(), 0, 1e-9);
    EXPECT_TRUE(set.findings.empty());
}

// Swept circle of a caster = trail + wheel radius (common practice).
TEST(PoweredChair, CasterCircleIsTrailPlusRadius) {
    Project p = with("powered_chair");
    p.donor.changes = {{"caster_trail", "60 mm"}, {"caster_diameter", "8 in"}};
    const FitSolid* circle = named(resolved(p), "donor/front left caster circle");
    ASSERT_NE(circle, nullptr);
    EXPECT_NEAR(named(resolved(p), "donor/front left caster circle")->shape.radius, 60 + 4 * 25.4, 1e-9);
    EXPECT_TRUE(named(resolved(p), "donor/front left caster circle")->moving);
}

TEST(Scooter, HandlebarSweepHoldsTheBarAtEveryAngle) {
    const DonorSet set = resolved(with("scooter"));
    const ConvexSolid& sweep = named(set, "donor/handlebar sweep")->shape;
    const ConvexSolid& tiller = named(set, "donor/tiller")->shape;
    const Vec3 top = tiller.points[1], axis = (tiller.points[1] - tiller.points[0]).normalized();
    for (double a = -std::numbers::pi / 4; a <= std::numbers::pi / 4 + 1e-9; a += 0.01)
        for (const double side : {1.0, -1.0}) {
            const Vec3 tip = top + side * 280 * (Eigen::AngleAxisd(a, axis) * Vec3::UnitY());
            const Nearest n = nearest(sweep, ConvexSolid{ConvexSolid::Kind::hull, {tip}, 0});
            EXPECT_TRUE(n.meets) << a;
        }
}

/// A little more than the generic size, as somebody would type it.
std::string changedText(const DonorSize& size) {
    const double value = size.value == 0 ? 10 : size.value * 1.04;
    if (size.kind == Kind::angle) return printExact(value, Unit::deg);
    return printExact(value, size.kind == Kind::number ? Unit::none : Unit::mm);
}

TEST(DonorSizes, EveryNameCanBeChangedAndMatters) {
    for (const std::string& kind : donorKinds()) {
        const DonorSet before = resolved(with(kind, "adult"));
        std::set<std::string> names;
        for (const DonorSize& size : donorSizes(kind)) {
            EXPECT_TRUE(names.insert(size.name).second) << size.name;
            EXPECT_TRUE(isValidName(size.name));
            EXPECT_FALSE(size.label.empty());
            EXPECT_FALSE(size.source.empty());
            Project p = with(kind, "adult");
            p.donor.changes = {{size.name, changedText(size)}};
            const DonorSet after = resolved(p);
            EXPECT_TRUE(std::all_of(after.findings.begin(), after.findings.end(),
                                    [&](const Finding& f) {
                                        return f.code == "rider-reach" ||
                                               (kind == "own" && f.code == "donor-stance");
                                    }))
                << kind << " " << size.name;
            EXPECT_TRUE(after.solids != before.solids || !(after.chassis == before.chassis))
                << kind << " " << size.name << " changes nothing";
        }
    }
}

TEST(ResolveDonor, StandsWhereTheDocumentPutsIt) {
    Project p = with("powered_chair", "adult");
    const DonorSet here = resolved(p);
    p.donor.at.x = "0.9 m";
    p.donor.at.y = "-10 mm";
    p.donor.at.z = "2 in";
    const DonorSet there = resolved(p, 0.4);
    const Vec3 shift(900, -10, 50.8); // build size: the scale does not touch it
    EXPECT_NEAR((there.place - shift).norm(), 0, 1e-9);
    ASSERT_EQ(here.solids.size(), there.solids.size());
    for (std::size_t i = 0; i < here.solids.size(); ++i)
        EXPECT_NEAR((bounds(there.solids[i].shape).min - bounds(here.solids[i].shape).min - shift).norm(), 0,
                    1e-9);
    p.donor.at.yaw = "180 deg";
    const DonorSet turned = resolved(p);
    EXPECT_NEAR(boundsOf(turned, "donor").max.x() - 900, -boundsOf(here, "donor").min.x(), 1e-9);
}

TEST(ResolveDonor, OwnSolidsReplaceOrAdd) {
    Project p = with("powered_chair");
    DonorSolid seat;
    seat.name = "seat";
    seat.shape = "box";
    seat.x = "100 mm";
    seat.z = "500 mm";
    seat.size_x = "400 mm";
    seat.size_y = "420 mm";
    seat.size_z = "50 mm";
    DonorSolid tank = seat;
    tank.name = "oxygen bottle";
    tank.shape = "cylinder";
    tank.axis = "z";
    tank.diameter = "110 mm";
    tank.length = "400 mm";
    tank.clearance = "50 mm";
    tank.moving = true;
    p.donor.solids = {seat, tank};
    const DonorSet set = resolved(p);
    EXPECT_EQ(set.solids.size(), resolved(with("powered_chair")).solids.size() + 1);
    const Box3 b = bounds(named(set, "donor/seat")->shape);
    EXPECT_NEAR((b.min - Vec3(-100, -210, 475)).norm(), 0, 1e-9);
    EXPECT_NEAR((b.max - Vec3(300, 210, 525)).norm(), 0, 1e-9);
    const FitSolid* bottle = named(set, "donor/oxygen bottle");
    ASSERT_NE(bottle, nullptr);
    EXPECT_EQ(bottle->shape.kind, ConvexSolid::Kind::cylinder);
    EXPECT_EQ(bottle->shape.radius, 55);
    EXPECT_EQ(bottle->clearance, 50);
    EXPECT_TRUE(bottle->moving);
    EXPECT_NEAR(bounds(bottle->shape).max.z(), 700, 1e-9);
}

TEST(ResolveDonor, BadOwnSolidsAreFindingsAndLeftOut) {
    const auto findingOfSolid = [](auto&& spoil) {
        Project p = with("none");
        DonorSolid s;
        s.name = "box";
        s.shape = "box";
        s.size_x = s.size_y = s.size_z = "100 mm";
        s.diameter = "50 mm";
        s.length = "10 mm";
        spoil(s);
        p.donor.solids = {s};
        const DonorSet set = resolved(p);
        EXPECT_TRUE(set.solids.empty());
        EXPECT_EQ(set.findings.size(), 1U);
        if (set.findings.empty()) return std::string();
        EXPECT_FALSE(set.findings[0].about.empty());
        return set.findings[0].code;
    };
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.size_x = "0 mm"; }), "donor-solid-size");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.size_z = "-5 mm"; }), "donor-solid-size");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.shape = "cylinder", s.length = "0 mm"; }),
              "donor-solid-size");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.shape = "capsule", s.diameter = "-1 mm"; }),
              "donor-solid-size");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.shape = "cone"; }), "donor-solid-shape");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.name = ""; }), "donor-solid-name");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.size_x = "wide"; }), "unknown-name");
    EXPECT_EQ(findingOfSolid([](DonorSolid& s) { s.x = "1e9 m"; }), "donor-range");
}

TEST(ResolveDonor, LeavesOutByName) {
    Project p = with("powered_chair");
    p.donor.leave_out = {"left armrest", "donor/right armrest", "wings"};
    const DonorSet set = resolved(p);
    EXPECT_EQ(named(set, "donor/left armrest"), nullptr);
    EXPECT_EQ(named(set, "donor/right armrest"), nullptr);
    EXPECT_NE(named(set, "donor/seat"), nullptr);
    ASSERT_NE(findingWith(set, "donor-unknown-solid"), nullptr);
    EXPECT_THAT(findingWith(set, "donor-unknown-solid")->message, HasSubstr("wings"));
}

TEST(ResolveDonor, ClearanceByNameThenOwnThenDefault) {
    Project p = with("powered_chair", "adult");
    p.clearance.fallback = "5 mm";
    p.clearance.solids = {
        {"donor/seat", "12 mm"}, {"left drive wheel", "8 mm"}, {"rider/head", "100 mm"}, {"wings", "1 mm"}};
    p.rider.clearance = "40 mm";
    const DonorSet set = resolved(p);
    EXPECT_EQ(named(set, "donor/seat")->clearance, 12);
    EXPECT_EQ(named(set, "donor/left drive wheel")->clearance, 8);
    EXPECT_EQ(named(set, "donor/right drive wheel")->clearance, 20); // moving: 20 mm, common practice
    EXPECT_EQ(named(set, "donor/footplate")->clearance, 5);
    EXPECT_EQ(named(set, "rider/head")->clearance, 100);
    EXPECT_EQ(named(set, "rider/torso")->clearance, 40);
    EXPECT_NE(findingWith(set, "clearance-unknown-solid"), nullptr);
    p.clearance.fallback = "-5 mm";
    EXPECT_NE(findingWith(resolved(p), "clearance-negative"), nullptr);
}

TEST(ResolveDonor, WrongSizesKeepTheGenericOnes) {
    Project p = with("powered_chair");
    p.donor.changes = {{"seat_height", "0 mm"}, {"seat_width", "-10 mm"}, {"wing_span", "3 m"}};
    const DonorSet set = resolved(p);
    EXPECT_EQ(set.solids, resolved(with("powered_chair")).solids);
    ASSERT_NE(findingWith(set, "donor-size"), nullptr);
    ASSERT_NE(findingWith(set, "donor-unknown-size"), nullptr);
    EXPECT_THAT(findingWith(set, "donor-unknown-size")->message, HasSubstr("wing_span"));
    p.donor.changes = {{"base_back_x", "500 mm"}};
    const DonorSet crossed = resolved(p);
    EXPECT_NE(findingWith(crossed, "donor-solid-empty"), nullptr);
    EXPECT_EQ(named(crossed, "donor/base and battery box"), nullptr);
}

TEST(ResolveDonor, UnknownKindAndTableAreFindings) {
    EXPECT_NE(findingWith(resolved(with("sledge")), "donor-unknown-kind"), nullptr);
    EXPECT_NE(findingWith(resolved(with("none", "giant")), "rider-unknown-table"), nullptr);
    EXPECT_TRUE(resolved(with("none")).solids.empty());
}

TEST(ResolveDonor, RiderSitsOnTheDonorAndShifts) {
    Project p = with("powered_chair", "adult");
    p.rider.sex = "male";
    p.rider.percentile = "95";
    // Seat 480 + sitting height 977 (ANSUR II, 95th percentile male).
    EXPECT_NEAR(bounds(named(resolved(p), "rider/head")->shape).max.z(), 480 + 977, 0.01);
    p.rider.shift_z = "1 in";
    p.rider.shift_x = "50 mm";
    const DonorSet moved = resolved(p);
    EXPECT_NEAR(bounds(named(moved, "rider/head")->shape).max.z(), 480 + 977 + 25.4, 0.01);
    EXPECT_NEAR(bounds(named(moved, "rider/torso")->shape).min.x(), -230 + 50, 1e-9);
    p.rider.percentile = "120";
    const DonorSet outside = resolved(p);
    ASSERT_NE(findingWith(outside, "rider-outside-table"), nullptr);
    EXPECT_THAT(outside.solids[outside.solids.size() - 1].note, HasSubstr("ANSUR II"));
    p.rider.table = "child";
    p.rider.percentile = "50";
    p.rider.age = "2";
    EXPECT_NE(findingWith(resolved(p), "rider-outside-table"), nullptr);
    EXPECT_NE(findingWith(resolved(p), "rider-reach"), nullptr);
}

TEST(ResolveDonor, DistinctNamesAndPositiveSizes) {
    for (const std::string& kind : donorKinds())
        for (const char* table : {"adult", "child"}) {
            const DonorSet set = resolved(with(kind, table));
            std::set<std::string> names;
            for (const FitSolid& s : set.solids) {
                EXPECT_TRUE(names.insert(s.name).second) << s.name;
                EXPECT_EQ(s.name.substr(0, s.name.find('/')), s.group);
                EXPECT_GT(bounds(s.shape).size().minCoeff(), 0) << s.name;
                EXPECT_GT(s.clearance, 0);
                EXPECT_FALSE(toPolyhedron(s.shape).faces.empty()) << s.name;
            }
        }
}

} // namespace
} // namespace slab
