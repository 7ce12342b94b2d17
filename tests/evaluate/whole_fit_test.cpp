// The fit of whole documents with all that moves, floats and is round: closed forms for each.
#include "core/units/units.h"
#include "tests/evaluate/samples.h"
#include "tests/evaluate/text_of.h"
#include <algorithm>
#include <filesystem>
#include <gmock/gmock.h>

using namespace slab;
using namespace slab::test;

namespace {

using ::testing::HasSubstr;

Project document(const std::string& name) {
    const auto project = readProject(textOf(std::filesystem::path(SLABSIDE_SOURCE_DIR) /
                                            "tests/evaluate/documents" / (name + ".slabside.json")));
    EXPECT_TRUE(project) << (project ? "" : project.error().message);
    return project ? *project : Project{};
}

const Finding* findingOf(const Evaluation& e, const std::string& code) {
    for (const Finding& f : e.findings)
        if (f.code == code) return &f;
    return nullptr;
}

const FloatPair* afloatPair(const Evaluation& e, const std::string& plate, const std::string& solid) {
    for (const FloatPair& p : e.afloat->pairs)
        if (p.pair.plate == plate && p.pair.solid == solid) return &p;
    return nullptr;
}

/// The travel that a remedy names, typed into the linkage.
Project asAdvised(Project project, const Finding& f) {
    const std::string before = "sink no more than ";
    const std::size_t at = f.remedy.find(before), end = f.remedy.find(',', at);
    EXPECT_NE(at, std::string::npos) << f.remedy;
    if (at != std::string::npos)
        project.mechanisms.linkages[0].down = f.remedy.substr(at + before.size(), end - at - before.size());
    return project;
}

TEST(WholeFit, SaysHitsWhereASweepDoes) {
    for (const char* name : {"boom-over-a-post", "tub-in-a-seat"}) {
        const Project project = document(name);
        const Evaluation e = evaluated(project, Effort::verdict);
        ASSERT_NE(findingOf(e, "sweep-meets"), nullptr) << name;
        EXPECT_EQ(e.fit->state, FitState::hits) << name;
        EXPECT_EQ(e.totals.leastClearance, 0) << name;
        EXPECT_THAT(reportText(project, evaluated(project, Effort::full)), HasSubstr("hits, least gap 0 mm"));
        EXPECT_EQ(evaluated(project, Effort::live).fit->state, FitState::fits) << "sweeps wait for rest";
    }
}

TEST(WholeFit, ABoomSinksWithItsShell) {
    // Its underside at 500 - 30 = 470 less 60 stands 35 in the foot, whose top is at 445; 5 leave 20.
    const Project project = document("floating-boom");
    const Evaluation e = evaluated(project, Effort::verdict);
    const FloatPair* pair = afloatPair(e, "boom/tube", "donor/foot");
    ASSERT_NE(pair, nullptr);
    EXPECT_NEAR(pair->pair.depth, 445 - (500 - 30 - 60), 1e-6);
    const Finding* f = findingOf(e, "float-hits");
    ASSERT_NE(f, nullptr);
    EXPECT_EQ(f->message, "Lowered 60.0 mm, raised 0.0°: boom/tube runs into donor/foot, 35.0 mm deep.");
    EXPECT_THAT(f->remedy, HasSubstr("Let linkage float sink no more than 5.0 mm,"));
    const Evaluation better = evaluated(asAdvised(project, *f), Effort::verdict);
    EXPECT_EQ(findingOf(better, "float-hits"), nullptr);
    EXPECT_EQ(findingOf(better, "float-tight"), nullptr);
}

TEST(WholeFit, ATubAndATurningHouseSinkWithTheirShell) {
    for (const char* name : {"floating-tub", "floating-house"}) {
        const Project project = document(name);
        const Evaluation e = evaluated(project, Effort::verdict);
        const Finding* f = findingOf(e, "float-hits");
        ASSERT_NE(f, nullptr) << name;
        EXPECT_EQ(e.afloat->state, FitState::hits);
        EXPECT_EQ(e.totals.leastClearance, 0);
        const Evaluation better = evaluated(asAdvised(project, *f), Effort::verdict);
        EXPECT_EQ(findingOf(better, "float-hits"), nullptr) << name;
        EXPECT_EQ(findingOf(better, "float-tight"), nullptr) << name;
    }
}

TEST(WholeFit, APipeThroughTheRiderIsAHitOfTheFitAndTheSurvey) {
    Project boat = sample("harbour-fire-boat");
    const Evaluation before = evaluated(boat);
    ASSERT_NE(before.fit->state, FitState::hits);
    const auto head = std::find_if(before.donor->solids.begin(), before.donor->solids.end(),
                                   [](const FitSolid& s) { return s.name == "rider/head"; });
    ASSERT_NE(head, before.donor->solids.end());
    const Box3 box = bounds(head->shape);
    const auto build = [](double mm) { return "build(" + printExact(mm, Unit::mm) + ")"; };
    Form stack;
    stack.name = "stack";
    stack.at.x = build((box.min.x() + box.max.x()) / 2);
    stack.at.y = build(0);
    stack.at.z = build(box.min.z());
    stack.standing = true;
    RoundShape round;
    round.diameter = build(150);
    round.length = build(400);
    stack.shape = round;
    boat.forms.push_back(stack);
    const Evaluation e = evaluated(boat, Effort::verdict);
    EXPECT_EQ(e.fit->state, FitState::hits);
    const auto hit = std::find_if(e.fit->pairs.begin(), e.fit->pairs.end(), [](const FitPair& p) {
        return p.plate == "stack" && p.solid == "rider/head" && p.state == FitState::hits;
    });
    ASSERT_NE(hit, e.fit->pairs.end());
    EXPECT_TRUE(hit->confirmed);
    ASSERT_NE(findingOf(e, "fit-hits"), nullptr);
    EXPECT_THAT(findingOf(e, "fit-hits")->about, ::testing::Contains("form:stack"));
    const Evaluation there = evaluated(boat, Effort::fitOnly);
    EXPECT_EQ(there.fit->state, FitState::hits) << "as the survey over the scale asks";
}

} // namespace
