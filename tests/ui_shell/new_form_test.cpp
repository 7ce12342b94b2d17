// The form that "Add" makes stands round donor and rider, or on what is there.
#include "core/evaluate/evaluate.h"
#include "ui/tables/new_form.h"
#include <gmock/gmock.h>

namespace slab::ui {
namespace {

constexpr const char* kinds[] = {"profile", "taper", "facet"};

/// Where only the body is looked at, no sheet is laid out and no fit confirmed.
constexpr Effort bodyOnly = Effort::fitOnly;

Project blank(const char* units, const char* scale) {
    Project p;
    p.units = units;
    p.scale = scale;
    p.donor.kind = "powered_chair";
    p.materials.fallback = "foam";
    SheetStock sheet;
    sheet.name = "foam";
    sheet.width = "8 m";
    sheet.length = "12 m";
    sheet.thickness = "12 mm";
    p.stock.sheets.push_back(sheet);
    return p;
}

Box3 boxOf(const Evaluation& e) {
    Box3 all{Vec3::Constant(1e300), Vec3::Constant(-1e300)};
    for (const FitSolid& solid : e.donor->solids) {
        all = united(all, bounds(solid.shape));
    }
    return all;
}

TEST(NewForm, TheFirstOneCoversDonorAndRider) {
    for (const char* units : {"mm", "ft", "m"})
        for (const char* scale : {"1", "2/5"})
            for (const char* kind : kinds) {
                const std::string which = std::string(kind) + " in " + units + " at " + scale;
                Project p = blank(units, scale);
                Evaluator evaluator;
                const Box3 inside = boxOf(evaluator.evaluate(p, bodyOnly));
                ASSERT_GT(inside.size().z(), 1000) << "a rider sits there";
                p.forms.push_back(newForm(p, evaluator.evaluate(p, bodyOnly), kind, "tub"));
                const bool upright = std::string(kind) == "profile"; // the only one whose fit is looked at
                const Evaluation after = evaluator.evaluate(p, upright ? Effort::verdict : bodyOnly);
                ASSERT_TRUE(after.body && after.plates) << which;
                EXPECT_EQ(after.body->skin.bodies, 1) << which;
                for (int axis = 0; axis < 2; ++axis) {
                    EXPECT_LT(after.body->bounds.min[axis], inside.min[axis]) << which;
                    EXPECT_GT(after.body->bounds.max[axis], inside.max[axis]) << which;
                    EXPECT_LT(after.body->bounds.size()[axis], 4 * inside.size()[axis])
                        << which << ", but no hall";
                }
                EXPECT_GT(after.body->bounds.max.z(), inside.max.z()) << which;
                // Upright sides keep clear of everybody; only the ground plate is where the wheels are.
                if (!upright) continue;
                for (const FitPair& pair : after.fit->pairs) {
                    if (pair.plate == "tub/floor") continue;
                    EXPECT_EQ(pair.state, FitState::fits)
                        << which << ": " << pair.plate << " to " << pair.solid << " " << pair.clearance;
                }
            }
}

TEST(NewForm, OneMoreStandsOnTopOfTheBody) {
    for (const char* units : {"mm", "ft"})
        for (const char* kind : kinds) {
            Project p = blank(units, "2/5");
            Evaluator evaluator;
            p.forms.push_back(newForm(p, evaluator.evaluate(p, bodyOnly), "profile", "tub"));
            const Evaluation before = evaluator.evaluate(p, bodyOnly);
            p.forms.push_back(newForm(p, before, kind, "house"));
            const Evaluation after = evaluator.evaluate(p, bodyOnly);
            const double top = before.body->bounds.max.z();
            double lowest = 1e300;
            for (const Plate& plate : after.plates->plates)
                if (plate.form == "house")
                    for (const Vec3& v : plate.solid.vertices) lowest = std::min(lowest, v.z());
            EXPECT_NEAR(lowest, top, 13) << kind << " in " << units << ": within a sheet's thickness";
            EXPECT_GT(after.body->bounds.max.z(), top + 50) << kind;
            EXPECT_EQ(after.body->skin.bodies, 1) << kind << " in " << units << " stands on it and is joined";
            for (int axis = 0; axis < 2; ++axis) {
                EXPECT_NEAR(after.body->bounds.min[axis], before.body->bounds.min[axis], 1e-6);
                EXPECT_NEAR(after.body->bounds.max[axis], before.body->bounds.max[axis], 1e-6);
            }
        }
}

TEST(NewForm, APlateOrAPipeLiesOnTheBodyAndOnNobody) {
    for (const char* kind : {"plate", "round"}) {
        Project p = blank("mm", "2/5");
        Evaluator evaluator;
        const Evaluation nothing = evaluator.evaluate(p, bodyOnly);
        Project alone = p;
        alone.forms.push_back(newForm(p, nothing, kind, "board"));
        const Evaluation over = evaluator.evaluate(alone, bodyOnly);
        EXPECT_GT(over.body->bounds.min.z(), boxOf(over).max.z() - 1) << kind << " over the rider's head";
        p.forms.push_back(newForm(p, nothing, "profile", "tub"));
        const Evaluation before = evaluator.evaluate(p, bodyOnly);
        p.forms.push_back(newForm(p, before, kind, "board"));
        const Evaluation after = evaluator.evaluate(p, Effort::full); // every finding there is
        EXPECT_GT(after.body->bounds.max.z(), before.body->bounds.max.z() + 5) << kind;
        for (const Finding& f : after.findings)
            for (const std::string& about : f.about)
                if (about.find("board") != std::string::npos) {
                    EXPECT_NE(f.severity, Severity::stop) << kind << ": " << f.code << " " << f.message;
                }
    }
}

TEST(NewForm, WithoutDonorItHasAPlainSizeInTheUnitOfTheDocument) {
    Project p = blank("in", "1");
    p.donor.kind = "none";
    p.rider.table = "none";
    Evaluator evaluator;
    const Form form = newForm(p, evaluator.evaluate(p, bodyOnly), "taper", "box");
    EXPECT_THAT(std::get<TaperShape>(form.shape).top_z, testing::EndsWith(" in"));
    EXPECT_TRUE(form.at.x.empty() && form.at.y.empty() && form.at.z.empty());
    p.forms.push_back(form);
    EXPECT_NEAR(evaluator.evaluate(p, bodyOnly).body->bounds.size().x(), 1000, 26);
}

} // namespace
} // namespace slab::ui
