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

TEST(Starts, refuse) {
    EXPECT_EQ(startProject("castle", "mm", "none").error().code, "unknown-start");
    EXPECT_EQ(startProject("box", "yard", "none").error().code, "unknown-unit");
    EXPECT_EQ(startProject("box", "mm", "horse").error().code, "unknown-donor");
}
