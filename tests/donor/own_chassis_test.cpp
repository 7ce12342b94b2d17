#include "core/donor/donor.h"
#include <algorithm>
#include <gmock/gmock.h>
#include <numbers>

namespace slab {
namespace {

using ::testing::HasSubstr;

DonorWheel wheelAt(const char* name, const char* x, const char* y, const char* role = "fixed") {
    DonorWheel w;
    w.name = name, w.x = x, w.y = y, w.role = role;
    w.diameter = "200 mm", w.width = "50 mm";
    if (w.role == "caster") w.trail = "40 mm";
    if (w.role == "steered") w.lock = "35 deg";
    return w;
}
/// A hand-drawn cart: two driven wheels behind, one steered wheel ahead.
Project cart() {
    Project p;
    p.donor.kind = "own";
    p.rider.table = "none";
    p.donor.wheels = {wheelAt("left", "0", "300 mm", "drive"), wheelAt("right", "0", "-300 mm", "drive"),
                      wheelAt("nose", "900 mm", "0", "steered")};
    return p;
}
DonorSet resolvedCart(const Project& p) {
    return resolveDonor(p, Scope{});
}
const Finding* told(const DonorSet& set, const std::string& code) {
    for (const Finding& f : set.findings)
        if (f.code == code) return &f;
    return nullptr;
}
const FitSolid* solidOfCart(const DonorSet& set, const std::string& name) {
    for (const FitSolid& s : set.solids)
        if (s.name == name) return &s;
    return nullptr;
}

TEST(OwnChassis, FollowsFromTheDocumentsWheels) {
    const DonorSet set = resolvedCart(cart());
    EXPECT_TRUE(set.findings.empty()) << set.findings.front().message;
    const Chassis& c = set.chassis;
    ASSERT_EQ(c.wheels.size(), 3U);
    EXPECT_EQ(c.drive, DriveKind::steered);
    EXPECT_NEAR(c.wheelbase, 900, 1e-9);
    EXPECT_NEAR(c.lock, 35 * std::numbers::pi / 180, 1e-12);
    EXPECT_NEAR(c.axle.norm(), 0, 1e-9);
    EXPECT_EQ(c.mass, 0) << "not known";
    // Each wheel is a solid too: what turns sweeps a circle over its diagonal.
    ASSERT_NE(solidOfCart(set, "donor/left"), nullptr);
    ASSERT_NE(solidOfCart(set, "donor/nose circle"), nullptr);
    const Box3 left = bounds(solidOfCart(set, "donor/left")->shape);
    EXPECT_NEAR((left.min - Vec3(-100, 275, 0)).norm(), 0, 1e-9);
    EXPECT_NEAR((left.max - Vec3(100, 325, 200)).norm(), 0, 1e-9);
    EXPECT_NEAR(solidOfCart(set, "donor/nose circle")->shape.radius, std::hypot(200, 50) / 2, 1e-9);
}

TEST(OwnChassis, StandsWhereTheDonorStands) {
    Project p = cart();
    p.donor.at.x = "500 mm";
    p.donor.at.yaw = "180 deg";
    const Chassis c = resolvedCart(p).chassis;
    EXPECT_NEAR((c.wheels[2].at - Vec3(-400, 0, 0)).norm(), 0, 1e-9);
    EXPECT_NEAR((c.axle - Vec3(500, 0, 0)).norm(), 0, 1e-9);
    EXPECT_NEAR((c.forward + Vec3::UnitX()).norm(), 0, 1e-12);
}

TEST(OwnChassis, DriveFollowsTheWheelsUnlessTyped) {
    Project p = cart();
    p.donor.wheels[2] = wheelAt("nose", "900 mm", "0", "caster");
    EXPECT_EQ(resolvedCart(p).chassis.drive, DriveKind::pivot);
    EXPECT_NEAR(resolvedCart(p).chassis.wheels[2].trail, 40, 1e-9);
    EXPECT_NEAR(solidOfCart(resolvedCart(p), "donor/nose circle")->shape.radius, 40 + std::hypot(100, 25),
                1e-9);
    for (DonorWheel& w : p.donor.wheels)
        if (w.role == "drive") w.role = "fixed";
    EXPECT_EQ(resolvedCart(p).chassis.drive, DriveKind::pushed);
    p = cart();
    p.donor.drive = "pushed";
    EXPECT_EQ(resolvedCart(p).chassis.drive, DriveKind::pushed);
}

TEST(OwnChassis, AWheelOfTheGenericNameReplacesItAndItsSolid) {
    Project p = cart();
    p.donor.kind = "scooter";
    DonorWheel front;
    front.name = "front wheel", front.role = "steered", front.x = "1 m", front.diameter = "300 mm";
    p.donor.wheels = {front};
    const DonorSet set = resolvedCart(p), generic = [] {
        Project q;
        q.donor.kind = "scooter";
        q.rider.table = "none";
        return resolveDonor(q, Scope{});
    }();
    EXPECT_TRUE(set.findings.empty());
    EXPECT_EQ(set.solids.size(), generic.solids.size());
    EXPECT_EQ(set.chassis.wheels.size(), 3U);
    EXPECT_NEAR(set.chassis.wheelbase, 1000, 1e-9);
    EXPECT_NEAR(set.chassis.lock, generic.chassis.lock, 1e-12) << "not typed: the generic one's";
    EXPECT_NEAR(bounds(solidOfCart(set, "donor/front wheel circle")->shape).max.z(), 300, 1e-9);
    EXPECT_EQ(set.chassis.service.size(), generic.chassis.service.size());
}

TEST(OwnChassis, ServicePointsAreReadAndReplaced) {
    Project p = cart();
    ServicePoint s;
    s.name = "switch", s.x = "1 in", s.z = "0.4 m", s.from = "-y", s.hand = "80 mm";
    p.donor.service = {s};
    const auto points = resolvedCart(p).chassis.service;
    ASSERT_EQ(points.size(), 1U);
    EXPECT_NEAR((points[0].at - Vec3(25.4, 0, 400)).norm(), 0, 1e-9);
    EXPECT_TRUE(points[0].from == Vec3(-Vec3::UnitY()));
    EXPECT_EQ(points[0].hand, 80);
    p.donor.kind = "powered_chair";
    p.donor.wheels.clear();
    const auto chair = resolvedCart(p).chassis.service;
    EXPECT_EQ(chair.size(), 4U) << "the chair's switch is replaced";
    EXPECT_NEAR(chair[0].at.z(), 400, 1e-9);
}

TEST(OwnChassis, WhatCannotBeUsedIsTold) {
    const auto toldOf = [](auto&& spoil) {
        Project p = cart();
        spoil(p);
        const DonorSet set = resolvedCart(p);
        EXPECT_EQ(set.findings.size(), 1U);
        return set.findings.empty() ? std::string() : set.findings[0].code;
    };
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.wheels.push_back(wheelAt("spare", "0", "0")), p.donor.wheels[3].diameter.clear();
              }),
              "donor-wheel-size");
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.wheels.push_back(wheelAt("spare", "0", "0")), p.donor.wheels[3].width = "-1 mm";
              }),
              "donor-wheel-size");
    EXPECT_EQ(toldOf([](Project& p) { p.donor.wheels[2].lock = "95 deg"; }), "donor-lock");
    EXPECT_EQ(toldOf([](Project& p) { p.donor.wheels[2].lock.clear(); }), "donor-lock");
    EXPECT_EQ(toldOf([](Project& p) { p.donor.wheels[0].lock = "5 deg"; }), "donor-wheel-unused");
    EXPECT_EQ(toldOf([](Project& p) { p.donor.wheels[0].trail = "5 mm"; }), "donor-wheel-unused");
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.wheels[2] = wheelAt("nose", "1 m", "0", "caster"),
                  p.donor.wheels[2].trail = "-5 mm";
              }),
              "donor-wheel-trail");
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.wheels[2].role = "fixed", p.donor.wheels[2].lock.clear(), p.donor.drive = "steered";
              }),
              "donor-drive");
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.wheels[2].x = "0";
                  p.donor.wheels.push_back(wheelAt("tail", "-500 mm", "0", "caster"));
              }),
              "donor-drive")
        << "steers on its own axle";
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.wheels = {wheelAt("a", "0", "0", "drive"), wheelAt("b", "0", "0", "drive"),
                                    wheelAt("c", "1 m", "300 mm", "caster"),
                                    wheelAt("d", "1 m", "-300 mm", "caster")};
              }),
              "donor-drive");
    EXPECT_EQ(toldOf([](Project& p) { p.donor.wheels.push_back(wheelAt("spare", "wide", "0")); }),
              "unknown-name");
    EXPECT_EQ(toldOf([](Project& p) {
                  p.donor.service = {{"plug", "", "", "", "", "-3 mm", {}}};
              }),
              "donor-service-hand");
}

TEST(OwnChassis, TooFewWheelsOrAllInOneLineAreToldPlainly) {
    Project p = cart();
    p.donor.wheels.clear();
    ASSERT_NE(told(resolvedCart(p), "donor-stance"), nullptr);
    EXPECT_THAT(told(resolvedCart(p), "donor-stance")->message, HasSubstr("no wheels"));
    EXPECT_EQ(resolvedCart(p).chassis.drive, DriveKind::none);
    p = cart();
    p.donor.wheels.pop_back();
    EXPECT_THAT(told(resolvedCart(p), "donor-stance")->message, HasSubstr("2 wheels"));
    p = cart();
    p.donor.wheels[2] = wheelAt("middle", "0", "0");
    EXPECT_THAT(told(resolvedCart(p), "donor-stance")->message, HasSubstr("in one line"));
    p.donor.kind = "none";
    p.donor.wheels.clear();
    EXPECT_TRUE(resolvedCart(p).findings.empty()) << "no donor at all is no trouble";
}

TEST(OwnChassis, SteeringOfAGenericOneIsKeptInRange) {
    Project p = cart();
    p.donor.kind = "scooter_4";
    p.donor.wheels.clear();
    p.donor.changes = {{"steering_lock", "30 deg"}};
    EXPECT_NEAR(resolvedCart(p).chassis.lock, std::numbers::pi / 6, 1e-12);
    p.donor.changes = {{"steering_lock", "90 deg"}};
    EXPECT_NE(told(resolvedCart(p), "donor-lock"), nullptr);
}

} // namespace
} // namespace slab
