// Modules by hand: plates chosen and made one, more of them, fewer.
#include "core/board/module_edits.h"
#include "tests/board/crate.h"

using namespace slab;
using namespace slab::test;

namespace {

using Names = std::vector<std::string>;

/// A standing house on the crate's top.
Project housed() {
    Project p = crate();
    TaperShape house = std::get<TaperShape>(p.forms[0].shape);
    for (auto* ring : {&house.base, &house.top})
        for (OutlinePoint& o : *ring) {
            o.x = o.x == "0" ? "0.4 m" : "(" + o.x + ") / 2 + 0.4 m";
            o.y = "(" + o.y + ") / 2";
        }
    house.base_z = "1.2 m";
    house.top_z = "1.7 m";
    p.forms.push_back(named("house", house));
    p.forms.back().standing = true;
    return p;
}

Names platesIn(const Evaluation& e, const std::string& module) {
    for (const ModuleInfo& info : e.modules->modules)
        if (info.name == module) return info.plates;
    return {};
}

const Names houseSides{"house/starboard", "house/front", "house/port",
                       "house/back",      "house/top",   "house/base"};

} // namespace

TEST(ModuleEdits, AllPlatesOfAFormAreOneEntryAndComeOffWithItsName) {
    const Project p = housed();
    const Evaluation e = evaluated(p, Effort::verdict);
    const Project q = applied(p, makeModule(p, e, houseSides));
    ASSERT_EQ(q.modules.size(), 1U);
    EXPECT_EQ(q.modules[0].name, "house");
    EXPECT_EQ(q.modules[0].plates, Names{"house/*"});
    EXPECT_EQ(platesIn(evaluated(q, Effort::verdict), "house").size(), 6U);
    History history(p);
    ASSERT_TRUE(history.push(*makeModule(p, e, houseSides)));
    EXPECT_TRUE(history.undo());
    EXPECT_EQ(history.current(), p);
}

TEST(ModuleEdits, SeveralFormsMakeAModuleWithoutAFormsName) {
    const Project p = housed();
    const Evaluation e = evaluated(p, Effort::live);
    Project q = applied(p, makeModule(p, e, {"crate/top", "house/base"}));
    EXPECT_EQ(q.modules[0].name, "module");
    EXPECT_EQ(q.modules[0].plates, (Names{"crate/top", "house/base"}));
    q = applied(q, makeModule(q, e, {"crate/port"}));
    EXPECT_EQ(q.modules[1].name, "crate");
    q = applied(q, makeModule(q, e, {"crate/front"}));
    EXPECT_EQ(q.modules[2].name, "crate 2");
}

TEST(ModuleEdits, APlateLeavesTheModuleThatItWasIn) {
    const Project p = housed();
    const Evaluation e = evaluated(p, Effort::live);
    const Project house = applied(p, makeModule(p, e, houseSides));
    // Out of the pattern one plate is taken: what is left is told by name.
    const Project q = applied(house, makeModule(house, e, {"house/top"}));
    ASSERT_EQ(q.modules.size(), 2U);
    EXPECT_EQ(q.modules[0].plates.size(), 5U);
    EXPECT_EQ(q.modules[1].plates, Names{"house/top"});
    for (const std::string& side : houseSides)
        EXPECT_EQ(moduleOf(q, side), side == "house/top" ? 1 : 0) << side;
    for (const Finding& f : evaluated(q, Effort::verdict).findings) EXPECT_NE(f.code, "module-shared");
    // And back: the second module has nothing left and goes.
    const Project back = applied(q, addToModule(q, e, 0, {"house/top"}));
    ASSERT_EQ(back.modules.size(), 1U);
    EXPECT_EQ(back.modules[0].plates.size(), 6U);
    EXPECT_EQ(addToModule(back, e, 0, {"house/top"}).error().code, "already-there");
}

TEST(ModuleEdits, PlatesAreTakenOutAgain) {
    const Project p = housed();
    const Evaluation e = evaluated(p, Effort::live);
    const Project house = applied(p, makeModule(p, e, houseSides));
    const Project less = applied(house, takeFromModules(house, e, {"house/top", "crate/top"}));
    EXPECT_EQ(moduleOf(less, "house/top"), -1);
    EXPECT_EQ(moduleOf(less, "house/port"), 0);
    const Project none = applied(less, takeFromModules(less, e, houseSides));
    EXPECT_EQ(none, p) << "a module of nothing goes";
    EXPECT_EQ(takeFromModules(none, e, {"house/top"}).error().code, "no-module");
}

TEST(ModuleEdits, WhatIsFastenedToAPlateGoesWithIt) {
    Project p = housed();
    Opening exit;
    exit.name = "exit";
    exit.plate = "house/top";
    exit.width = exit.height = "300 mm";
    exit.lid = true;
    exit.lid_gap = "2 mm";
    exit.lap = "30 mm";
    p.openings = {exit};
    const Evaluation e = evaluated(p, Effort::live);
    Project q = applied(p, makeModule(p, e, houseSides));
    EXPECT_EQ(q.modules[0].plates, Names{"house/*"}) << "its lid is not asked for";
    EXPECT_EQ(moduleOf(q, "house/top/exit lid"), 0);
    q = applied(q, takeFromModules(q, e, {"house/top"}));
    EXPECT_EQ(moduleOf(q, "house/top/exit lid"), -1) << "it went with its plate";
}

TEST(ModuleEdits, NothingChosenAndUnknownPlatesAreRefused) {
    const Project p = housed();
    const Evaluation e = evaluated(p, Effort::live);
    EXPECT_EQ(makeModule(p, e, {}).error().code, "nothing-chosen");
    EXPECT_EQ(makeModule(p, e, {"house/roof"}).error().code, "no-such-place");
    EXPECT_EQ(addToModule(p, e, 0, {"house/top"}).error().code, "no-such-place");
}
