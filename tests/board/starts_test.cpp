// Ready bodies stand round donor and rider without anything that stops the work.
#include "core/board/starts.h"
#include "tests/board/make.h"

using namespace slab;
using namespace slab::test;

TEST(Starts, fitRoundDonorAndRider) {
    for (const StartKind& kind : startKinds())
        for (const char* donor : {"powered_chair", "scooter"})
            for (const char* units : {"mm", "in"}) {
                const auto p = startProject(kind.kind, units, donor);
                ASSERT_TRUE(p) << p.error().message;
                const Evaluation e = evaluated(*p, Effort::live);
                const std::string which = kind.kind + " " + donor + " " + units;
                for (const Finding& f : e.findings)
                    EXPECT_NE(f.severity, Severity::stop) << which << ": " << f.code << " " << f.message;
                ASSERT_TRUE(e.fit);
                EXPECT_EQ(e.fit->state, FitState::fits) << which << " margin " << e.fit->leastMargin;
                EXPECT_TRUE(e.sheets && e.sheets->unplaced.empty()) << which;
                std::printf("%-28s %2d plates, %.0f x %.0f x %.0f mm, least margin %.0f mm\n", which.c_str(),
                            e.totals.plates, e.body->bounds.size().x(), e.body->bounds.size().y(),
                            e.body->bounds.size().z(), e.fit->leastMargin);
            }
}

// Every donor that the dialog offers, each under one of the bodies.
TEST(Starts, fitRoundEveryDonor) {
    std::size_t next = 0;
    for (const std::string& donor : donorKinds()) {
        const StartKind& kind = startKinds()[next++ % startKinds().size()];
        const auto p = startProject(kind.kind, "mm", donor);
        ASSERT_TRUE(p) << p.error().message;
        const Evaluation e = evaluated(*p, Effort::fitOnly);
        for (const Finding& f : e.findings)
            EXPECT_NE(f.severity, Severity::stop) << kind.kind << " " << donor << ": " << f.code;
        ASSERT_TRUE(e.fit);
        EXPECT_TRUE(e.fit->state == FitState::fits) << kind.kind << " " << donor << " " << e.fit->leastMargin;
    }
}

TEST(Starts, withoutADonorToo) {
    for (const StartKind& kind : startKinds()) {
        const auto p = startProject(kind.kind, "ft", "none");
        ASSERT_TRUE(p);
        for (const Finding& f : evaluated(*p).findings)
            EXPECT_NE(f.severity, Severity::stop) << kind.kind << ": " << f.code << " " << f.message;
    }
}

// Every dimension is used and does something: a body that is parametric in name only would not move.
TEST(Starts, everyDimensionCounts) {
    for (const StartKind& kind : startKinds()) {
        const auto p = startProject(kind.kind, "mm", "powered_chair");
        ASSERT_TRUE(p);
        const Evaluation before = evaluated(*p, Effort::fitOnly);
        for (std::size_t i = 0; i < p->dimensions.size(); ++i) {
            // How far one form reaches into another is not seen from outside.
            if (kind.kind == "boat" && p->dimensions[i].name == "overlap") continue;
            Project changed = *p;
            changed.dimensions[i].value = "(" + changed.dimensions[i].value + ") * 1.02";
            const Evaluation after = evaluated(changed, Effort::fitOnly);
            EXPECT_FALSE(*before.plates == *after.plates) << kind.kind << ": " << p->dimensions[i].name;
        }
    }
}

// The donor that was measured: own sizes, own solids, formulas that use a dimension whose name a start takes
// too.
TEST(Starts, standRoundTheDonorOfAnotherDocument) {
    Project measured;
    measured.units = "in";
    measured.scale = "1/2";
    measured.dimensions = {{"body_width", "60 in", Space::subject, "of the wagon", {}},
                           {"unused", "1 in", Space::build, "", {}}};
    DonorSolid wagon;
    wagon.name = "wagon";
    wagon.shape = "box";
    wagon.z = "20";
    wagon.size_x = "50";
    wagon.size_y = "body_width"; // 30 in as built
    wagon.size_z = "24";
    measured.donor.solids = {wagon};
    measured.rider.table = "none";
    measured.clearance.fallback = "2";
    for (const StartKind& kind : startKinds()) {
        const auto p = startProject(kind.kind, "mm", measured);
        ASSERT_TRUE(p) << p.error().message;
        const Evaluation e = evaluated(*p, Effort::live);
        for (const Finding& f : e.findings)
            EXPECT_NE(f.severity, Severity::stop) << kind.kind << ": " << f.code << " " << f.message;
        ASSERT_EQ(e.donor->solids.size(), 1u);
        EXPECT_NEAR(bounds(e.donor->solids[0].shape).size().y(), 30 * 25.4, 1e-9) << kind.kind;
        EXPECT_NEAR(e.donor->solids[0].clearance, 2 * 25.4, 1e-9) << kind.kind;
        ASSERT_TRUE(e.fit);
        EXPECT_EQ(e.fit->state, FitState::fits) << kind.kind << " margin " << e.fit->leastMargin;
        const auto names = [&](const char* name) {
            return std::count_if(p->dimensions.begin(), p->dimensions.end(),
                                 [&](const Dimension& d) { return d.name == name; });
        };
        EXPECT_EQ(names("donor_body_width"), 1) << kind.kind;
        EXPECT_EQ(names("donor_unused") + names("unused"), 0) << kind.kind;
        EXPECT_LE(names("body_width"), 1) << kind.kind;
    }
    EXPECT_EQ(startProject("castle", "mm", measured).error().code, "unknown-start");
    EXPECT_EQ(startProject("box", "yard", measured).error().code, "unknown-unit");
}

TEST(Starts, refuse) {
    EXPECT_EQ(startProject("castle", "mm", "none").error().code, "unknown-start");
    EXPECT_EQ(startProject("box", "yard", "none").error().code, "unknown-unit");
    EXPECT_EQ(startProject("box", "mm", "horse").error().code, "unknown-donor");
}
