// The subject made longer, wider or higher: what is drawn goes along, what is built stays.
#include "core/survey/squeeze.h"
#include "tests/evaluate/samples.h"
#include "tests/survey/crate.h"
#include <algorithm>
#include <regex>

using namespace slab;
using namespace slab::test;

namespace {

/// Greatest distance of a corner of the new skin or a new free plate from where the stretch brings the old.
double offBy(const Evaluation& before, const Evaluation& after, const Vec3& by) {
    const auto corners = [](const Evaluation& e) {
        std::vector<Vec3> out = e.body->skin.vertices;
        for (const FreePlate& p : e.body->plates)
            for (const Vec2& q : p.outline.outer) out.push_back(p.frame.toBody(q));
        return out;
    };
    const auto old = corners(before), now = corners(after);
    double worst = 0;
    for (const Vec3& p : now) {
        double least = 1e9;
        for (const Vec3& q : old) least = std::min(least, (q.cwiseProduct(by) - p).norm());
        worst = std::max(worst, least);
    }
    return worst;
}

Vec3 skinSize(const Evaluation& e) { // round parts, which keep their diameter, are not of it
    Vec3 low = e.body->skin.vertices.front(), high = low;
    for (const Vec3& v : e.body->skin.vertices) low = low.cwiseMin(v), high = high.cwiseMax(v);
    return high - low;
}

} // namespace

TEST(Stretch, TextsTakeTheFactor) {
    EXPECT_EQ(multiplied("1.2 m", 1.5), "1.8 m");
    EXPECT_EQ(multiplied("-40", 0.5), "-20");
    EXPECT_EQ(multiplied("", 2), "");
    EXPECT_EQ(multiplied("a", 1), "a");
    EXPECT_EQ(multiplied("a + 3 in", 1.5), "1.5 * (a + 3 in)");
    EXPECT_EQ(multiplied("1.5 * (a + 3 in)", 2), "3 * (a + 3 in)");
    EXPECT_EQ(multiplied("1.25 * (a + 3 in)", 0.8), "a + 3 in");
    EXPECT_EQ(multiplied("2 * (a) + (b)", 2), "2 * (2 * (a) + (b))");
}

TEST(Stretch, WhatIsBuiltKeepsItsSizeInAFormula) { // a rail that stands on the sheet's thickness
    EXPECT_EQ(multiplied("beam / 2 + build(1/8 in)", 0.94), "0.94 * (beam / 2) + build(1/8 in)");
    EXPECT_EQ(multiplied("0.94 * (beam / 2) + build(1/8 in)", 0.5), "0.47 * (beam / 2) + build(1/8 in)");
    EXPECT_EQ(multiplied("build(6 mm) - deck", 2), "2 * (-deck) + build(6 mm)");
    EXPECT_EQ(multiplied("deck-wall*2", 2, {"wall"}), "2 * (deck) - wall*2");
    EXPECT_EQ(multiplied("build(a + 3 mm)", 2), "build(a + 3 mm)");
    EXPECT_EQ(multiplied("10-1/2 in + build(1 in)", 2), "2 * (10-1/2 in) + build(1 in)");
    EXPECT_EQ(multiplied("2 * -a + build(1 in)", 2), "2 * (2 * -a) + build(1 in)");
    EXPECT_EQ(multiplied("(a + build(1 in)) * 2", 2), "2 * ((a + build(1 in)) * 2)"); // not taken apart
}

TEST(Stretch, CornersOfTheSamplesGoWhereItBringsThem) {
    for (const char* name : {"harbour-fire-boat", "moon-crawler", "harbour-tram"})
        for (const Vec3& by : {Vec3(1.1, 1, 1), Vec3(1, 1.2, 1), Vec3(1, 1, 0.9), Vec3(0.95, 1.1, 1.05)}) {
            // Of the build nothing is stretched: here all is drawn.
            Project project = read(nlohmann::json::parse(
                std::regex_replace(writeProject(sample(name)), std::regex("build\\("), "(")));
            for (Dimension& d : project.dimensions) d.space = Space::subject;
            const Evaluation before = evaluated(project, Effort::fitOnly);
            const auto made = stretched(project, before, by);
            ASSERT_TRUE(made) << name << ": " << made.error().message;
            const Evaluation after = evaluated(*made, Effort::fitOnly);
            // An arc stays an arc, so that its facets go a little elsewhere, and may be one more or less.
            if (before.body->skin.vertices.size() == after.body->skin.vertices.size()) {
                EXPECT_LT(offBy(before, after, by), 8) << name;
                EXPECT_LT((skinSize(after) - skinSize(before).cwiseProduct(by)).norm(), 1) << name;
            }
            for (std::size_t i = 0; i < before.body->rounds.size(); ++i) {
                const RoundPart &old = before.body->rounds[i], &now = after.body->rounds[i];
                EXPECT_NEAR((now.base - old.base.cwiseProduct(by)).norm(), 0, 1e-6) << old.name;
                EXPECT_NEAR((now.top - old.top.cwiseProduct(by)).norm(), 0, 1e-6) << old.name;
                EXPECT_NEAR(now.radius, old.radius, 1e-9) << old.name;
            }
            // The sample itself, with all that is built: nothing gets into something else. Donor and rider
            // are not stretched, and may meet it.
            const Project own = sample(name);
            const auto stretchedOwn = stretched(own, evaluated(own, Effort::fitOnly), by);
            ASSERT_TRUE(stretchedOwn);
            for (const Finding& f : evaluated(*stretchedOwn, Effort::fitOnly).findings)
                EXPECT_TRUE(f.severity != Severity::stop || f.code.starts_with("fit-"))
                    << name << ": " << f.message;
        }
}

TEST(Stretch, ACrateIsTheClosedForm) {
    const Project project = test::read(Crate().document());
    const Evaluation before = evaluated(project, Effort::fitOnly);
    const Vec3 by(1.1, 0.95, 1.15);
    const auto made = stretched(project, before, by);
    ASSERT_TRUE(made);
    const Evaluation after = evaluated(*made, Effort::fitOnly);
    EXPECT_LT(offBy(before, after, by), 1e-9);
    History history(project);
    ASSERT_TRUE(history.push(stretchSubject(before, Vec3(1, 1.06, 1))));
    EXPECT_EQ(history.undoLabel(), "Make it 6 % wider");
    ASSERT_TRUE(history.undo());
    EXPECT_TRUE(history.current() == project);
}

TEST(Stretch, WhatWouldSkewOrBeUnlikeIsRefused) {
    Project project = test::read(Crate().document());
    const Evaluation e = evaluated(project, Effort::fitOnly);
    EXPECT_EQ(stretched(project, e, Vec3(1.3, 1, 1)).error().code, "stretch-range");
    EXPECT_EQ(stretched(project, e, Vec3(1.1, 0.87, 1)).error().code, "stretch-range");
    EXPECT_EQ(stretched(project, e, Vec3(0, 1, 1)).error().code, "stretch-range");
    EXPECT_TRUE(stretched(project, e, Vec3(1.2, 1.2, 1.2)));
    project.forms.front().at.yaw = "30 deg";
    EXPECT_EQ(stretched(project, e, Vec3(1.1, 1, 1)).error().code, "stretch-skews");
    EXPECT_TRUE(stretched(project, e, Vec3(1, 1, 1.1))); // it stands upright
    project.forms.front().at.yaw = "90 deg";
    const Evaluation turned = evaluated(project, Effort::fitOnly);
    const auto made = stretched(project, turned, Vec3(1.1, 1, 1));
    ASSERT_TRUE(made);
    EXPECT_LT(offBy(turned, evaluated(*made, Effort::fitOnly), Vec3(1.1, 1, 1)), 1e-9);
}

TEST(Stretch, WhatTheSurveyAdvisesFits) {
    const Project project = test::read(Crate().document());
    const ScaleSurvey survey = surveyScale(project, 0.5, 0.56);
    ASSERT_FALSE(survey.pick.scale);
    ASSERT_FALSE(survey.pick.stretches.empty());
    const Evaluation e = evaluated(project, Effort::fitOnly);
    History history(project);
    ASSERT_TRUE(history.push(takeAdvice(e, survey.pick.stretches.front())));
    const Evaluation made = evaluated(history.current(), Effort::fitOnly);
    EXPECT_NEAR(made.scale, survey.pick.stretches.front().scale, 1e-4);
    EXPECT_EQ(made.fit->state, FitState::fits);
    ASSERT_TRUE(history.undo()); // one step
    EXPECT_FALSE(history.canUndo());
}
