#include "core/donor/donor.h"
#include <algorithm>
#include <gmock/gmock.h>
#include <numbers>
#include <set>

namespace slab {
namespace {

using ::testing::HasSubstr;

DonorSet setOf(const std::string& kind) {
    Project p;
    p.donor.kind = kind;
    p.rider.table = "none";
    return resolveDonor(p, Scope{});
}
/// Kinds that have a generic chassis.
std::vector<std::string> chassisKinds() {
    auto all = donorKinds();
    std::erase_if(all, [](const std::string& k) { return k == "none" || k == "own"; });
    return all;
}
/// What stands there, steered straight, without the room for hands and people.
Box3 bodyOf(const DonorSet& set) {
    Box3 all{Vec3::Constant(1e9), Vec3::Constant(-1e9)};
    for (const Wheel& w : set.chassis.wheels) {
        all.min = all.min.cwiseMin(w.at - Vec3(w.radius, w.width / 2, 0));
        all.max = all.max.cwiseMax(w.at + Vec3(w.radius, w.width / 2, 2 * w.radius));
    }
    for (const FitSolid& s : set.solids) {
        const auto has = [&](const char* word) { return s.name.find(word) != std::string::npos; };
        if (has("ing hand") || has("hand on") || has("joystick hand") || has("room") || has("sweep") ||
            has("circle"))
            continue;
        const Box3 b = bounds(s.shape);
        all.min = all.min.cwiseMin(b.min);
        all.max = all.max.cwiseMax(b.max);
    }
    return all;
}

TEST(DonorKinds, AreAllThere) {
    EXPECT_THAT(donorKinds(), ::testing::UnorderedElementsAre(
                                  "powered_chair", "rear_wheel_chair", "front_wheel_chair", "scooter",
                                  "scooter_4", "self_propelled_chair", "pushed_chair", "ride_on", "wagon",
                                  "pedal_kart", "garden_tractor", "own", "none"));
}

TEST(DonorKinds, AreSoundAsTheyCome) {
    for (const std::string& kind : chassisKinds()) {
        const DonorSet set = setOf(kind);
        EXPECT_TRUE(set.findings.empty()) << kind << " " << set.findings.front().code;
        EXPECT_GE(set.solids.size(), 8U) << kind;
        for (const FitSolid& s : set.solids) {
            EXPECT_GE(bounds(s.shape).min.z(), -1e-9) << kind << " " << s.name;
            EXPECT_GT(bounds(s.shape).size().minCoeff(), 0) << kind << " " << s.name;
            EXPECT_FALSE(toPolyhedron(s.shape).faces.empty()) << kind << " " << s.name;
        }
        // Both sides alike, but for joystick, brake and the like.
        EXPECT_NEAR(bodyOf(set).min.y(), -bodyOf(set).max.y(), 40) << kind;
    }
}

TEST(DonorKinds, StandOnWheelsThatAreUnderTheirSolids) {
    for (const std::string& kind : chassisKinds()) {
        const DonorSet set = setOf(kind);
        std::set<std::string> names;
        for (const Wheel& w : set.chassis.wheels) {
            EXPECT_TRUE(names.insert(w.name).second) << kind << " " << w.name;
            EXPECT_EQ(w.at.z(), 0) << kind << " " << w.name;
            EXPECT_GT(w.radius, 0);
            EXPECT_GT(w.width, 0);
            EXPECT_EQ(w.role == WheelRole::caster, w.trail > 0) << kind << " " << w.name;
            EXPECT_EQ(w.role == WheelRole::steered, w.lock > 0) << kind << " " << w.name;
            const auto solid = std::find_if(set.solids.begin(), set.solids.end(), [&](const FitSolid& s) {
                return s.name == "donor/" + w.name || s.name == "donor/" + w.name + " circle";
            });
            ASSERT_NE(solid, set.solids.end()) << kind << " " << w.name;
            const Box3 b = bounds(solid->shape);
            EXPECT_NEAR(b.min.z(), 0, 1e-9) << kind << " " << w.name;
            EXPECT_NEAR((b.min.x() + b.max.x()) / 2, w.at.x(), 1e-9) << kind << " " << w.name;
            EXPECT_NEAR((b.min.y() + b.max.y()) / 2, w.at.y(), 1e-9) << kind << " " << w.name;
            EXPECT_GE(b.max.z(), 2 * w.radius - 1e-9) << kind << " " << w.name;
            EXPECT_TRUE(solid->moving);
        }
    }
}

// A level donor falls over no line: in every direction a wheel stands out beyond the centre of mass.
TEST(DonorKinds, CentreOfMassLiesWithinTheWheels) {
    for (const std::string& kind : chassisKinds()) {
        const Chassis c = setOf(kind).chassis;
        EXPECT_GE(c.wheels.size(), 3U) << kind;
        for (int i = 0; i < 360; ++i) {
            const double a = i * std::numbers::pi / 180;
            const Vec3 out(std::cos(a), std::sin(a), 0);
            double reach = -1e9;
            for (const Wheel& w : c.wheels) reach = std::max(reach, out.dot(w.at - c.centre));
            EXPECT_GT(reach, 40) << kind << " " << i;
        }
        EXPECT_GT(c.centre.z(), 100) << kind;
    }
}

TEST(DonorKinds, DriveAsTheirWheelsSay) {
    for (const std::string& kind : chassisKinds()) {
        const Chassis c = setOf(kind).chassis;
        ASSERT_NE(c.drive, DriveKind::none) << kind;
        double straight = 0, steered = 0;
        int straightCount = 0, steeredCount = 0;
        for (const Wheel& w : c.wheels) {
            if (w.role == WheelRole::drive || w.role == WheelRole::fixed)
                straight += w.at.x(), ++straightCount;
            if (w.role == WheelRole::steered) steered += w.at.x(), ++steeredCount;
        }
        ASSERT_EQ(straightCount, 2) << kind;
        EXPECT_NEAR(straight / 2, c.axle.x(), 1e-9) << kind;
        EXPECT_EQ(c.drive == DriveKind::steered, steeredCount > 0) << kind;
        EXPECT_EQ(c.drive == DriveKind::steered, c.lock > 0) << kind;
        EXPECT_NEAR(steeredCount > 0 ? steered / steeredCount - c.axle.x() : 0, c.wheelbase, 1e-9) << kind;
        EXPECT_TRUE(c.forward == Vec3::UnitX());
    }
    EXPECT_EQ(setOf("pushed_chair").chassis.drive, DriveKind::pushed);
    EXPECT_EQ(setOf("self_propelled_chair").chassis.drive, DriveKind::pivot);
    EXPECT_EQ(setOf("wagon").chassis.drive, DriveKind::steered);
}

TEST(DonorKinds, HaveServicePointsThatAHandCanLookFor) {
    for (const std::string& kind : chassisKinds()) {
        const DonorSet set = setOf(kind);
        EXPECT_FALSE(set.chassis.service.empty()) << kind;
        const Box3 b = bodyOf(set);
        std::set<std::string> names;
        for (const ReachPoint& p : set.chassis.service) {
            EXPECT_TRUE(names.insert(p.name).second) << kind << " " << p.name;
            EXPECT_GE(p.hand, 50) << kind << " " << p.name;
            EXPECT_TRUE(p.from.isZero() || std::abs(p.from.norm() - 1) < 1e-12) << kind << " " << p.name;
            EXPECT_TRUE(((p.at - b.min).array() >= -50).all() && ((b.max - p.at).array() >= -50).all())
                << kind << " " << p.name;
        }
    }
}

/// Length, width and height of the donor by itself, mm, its mass, kg, and what it may carry, kg.
struct Range {
    const char* kind;
    double length[2], width[2], height[2], mass[2], rated[2];
    const char* source;
};
constexpr Range ranges[] = {
    {"powered_chair",
     {900, 1150},
     {600, 660},
     {900, 1300},
     {60, 150},
     {100, 160},
     "typical mid-wheel chair, from memory; class 3 at most 150 kg and 850 mm wide (UK, read)"},
    {"rear_wheel_chair",
     {1000, 1414},
     {600, 827},
     {900, 1300},
     {60, 150},
     {100, 160},
     "floor area of 95 % of powered chairs 827 x 1414 mm (UB IDeA 2010)"},
    {"front_wheel_chair",
     {900, 1414},
     {600, 827},
     {900, 1300},
     {60, 150},
     {100, 160},
     "floor area of 95 % of powered chairs 827 x 1414 mm (UB IDeA 2010)"},
    {"scooter",
     {1000, 1300},
     {500, 600},
     {850, 1150},
     {40, 70},
     {100, 160},
     "typical three-wheel scooter 500-600 x 1000-1300 mm, 40-70 kg, from memory"},
    {"scooter_4",
     {1100, 1435},
     {560, 837},
     {850, 1250},
     {50, 150},
     {120, 230},
     "floor area of 95 % of scooters 837 x 1435 mm (UB IDeA 2010); class 3 at most 150 kg (UK, read)"},
    {"self_propelled_chair",
     {900, 1200},
     {560, 700},
     {850, 1090},
     {10, 25},
     {100, 130},
     "at most 1200 x 700 x 1090 mm (ISO 7193, from memory); 786 x 1362 mm holds 95 % (UB IDeA 2010)"},
    {"pushed_chair",
     {850, 1200},
     {500, 700},
     {850, 1090},
     {9, 25},
     {100, 130},
     "at most 1200 x 700 x 1090 mm (ISO 7193, from memory)"},
    {"ride_on", {900, 1300}, {550, 750}, {400, 750}, {10, 30}, {20, 60}, "typical, from memory"},
    {"wagon", {850, 1100}, {450, 650}, {350, 650}, {10, 30}, {60, 160}, "typical, from memory"},
    {"pedal_kart", {1050, 1700}, {650, 850}, {500, 850}, {18, 50}, {50, 150}, "typical, from memory"},
    {"garden_tractor",
     {1600, 1950},
     {850, 1050},
     {900, 1250},
     {150, 280},
     {100, 160},
     "typical, from memory"},
};

TEST(DonorKinds, AreOfPublishedSize) {
    EXPECT_EQ(std::size(ranges), chassisKinds().size());
    const auto within = [](double value, const double(&range)[2]) {
        return value >= range[0] && value <= range[1];
    };
    for (const Range& r : ranges) {
        const DonorSet set = setOf(r.kind);
        const Vec3 size = bodyOf(set).size();
        EXPECT_TRUE(within(size.x(), r.length)) << r.kind << " is " << size.x() << " mm long: " << r.source;
        EXPECT_TRUE(within(size.y(), r.width)) << r.kind << " is " << size.y() << " mm wide: " << r.source;
        EXPECT_TRUE(within(size.z(), r.height)) << r.kind << " is " << size.z() << " mm high: " << r.source;
        EXPECT_TRUE(within(set.chassis.mass, r.mass))
            << r.kind << " " << set.chassis.mass << " kg: " << r.source;
        EXPECT_TRUE(within(set.chassis.rated, r.rated)) << r.kind << " " << set.chassis.rated << " kg";
    }
}

// Turning radius of three-wheel scooters 0.8 to 1.3 m, from memory; of the path of the front wheel, L / sin
// δ.
TEST(DonorKinds, ScootersTurnAsTightlyAsPublished) {
    for (const char* kind : {"scooter", "scooter_4"}) {
        const Chassis c = setOf(kind).chassis;
        const double radius = c.wheelbase / std::sin(c.lock);
        EXPECT_GE(radius, 800) << kind;
        EXPECT_LE(radius, 1650) << kind;
    }
    EXPECT_LE(setOf("scooter").chassis.wheelbase / std::sin(setOf("scooter").chassis.lock), 1300);
}

// The helper's room is as high as a man of the 95th percentile: stature 1870 mm (ANSUR II).
TEST(DonorKinds, LeaveRoomForWhoPushesAndPulls) {
    for (const auto& [kind, name] :
         {std::pair{"pushed_chair", "donor/helper's room"}, {"wagon", "donor/puller's room"}}) {
        const DonorSet set = setOf(kind);
        const auto room = std::find_if(set.solids.begin(), set.solids.end(),
                                       [&, wanted = name](const FitSolid& s) { return s.name == wanted; });
        ASSERT_NE(room, set.solids.end()) << kind;
        EXPECT_NEAR(bounds(room->shape).max.z(), 1870, 1e-9);
        EXPECT_GE(bounds(room->shape).size().x(), 500);
    }
}

} // namespace
} // namespace slab
