// What follows from mechanisms and modules, read in the tables.
#include "core/board/starts.h"
#include "core/evaluate/evaluate.h"
#include "tests/mechanisms/boat.h"
#include "tests/ui_shell/fakes.h"
#include "ui/tables/document_source.h"
#include "ui/tables/part_facts.h"
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

/// A box with a lift-off top, a door to pass, and a belt.
Project withParts() {
    Project p = *startProject("box", "mm", "none");
    Module top;
    top.name = "lid";
    top.plates = {"box/top"};
    p.modules = {top};
    Passage door;
    door.name = "shed door";
    door.width = "760 mm";
    door.height = "1.98 m";
    p.passages = {door};
    return p;
}

TEST(PartFacts, TellsAModulesSizeMassAndDoor) {
    Session session(Engine::real());
    session.replace(withParts());
    ASSERT_TRUE(session.waitUntilAtRest(60000));
    const auto facts = partFacts(session);
    QStringList words;
    for (const PartFact& f : facts) {
        EXPECT_EQ(f.pointer, "/modules/0");
        EXPECT_FALSE(f.value.isEmpty()) << f.key;
        words << f.words;
    }
    EXPECT_TRUE(words.contains("Mass"));
    EXPECT_TRUE(words.contains("Least box"));
    EXPECT_TRUE(words.contains("Passes shed door") || words.contains("Does not pass shed door"));
    const auto& m = session.evaluation().modules->modules.front();
    EXPECT_EQ(partSummary(session, "module", "lid").toStdString(), printMass(m.mass, session.unitStyle()));
}

TEST(PartFacts, TellsWhatAModuleTakesBesidePlatesAndWhatHasNoKnownMass) {
    Session session(Engine::real());
    Project p = withParts();
    Turntable lamp = lampTable();
    lamp.at.z = "1 m";
    lamp.diameter = "200 mm";
    lamp.depth = "100 mm";
    p.mechanisms.turntables = {lamp};
    p.modules[0].plates.push_back("lamp/*");
    session.replace(p);
    ASSERT_TRUE(session.waitUntilAtRest(60000));
    int told = 0;
    for (const PartFact& f : partFacts(session)) {
        if (f.pointer != "/modules/0") continue;
        if (f.key == "mass") {
            ++told;
            EXPECT_TRUE(f.value.endsWith(" + ?")) << f.value.toStdString();
            EXPECT_TRUE(f.tip.contains("lamp/drum")) << f.tip.toStdString();
        }
        if (f.key == "bought") {
            ++told;
            EXPECT_EQ(f.value, "1");
        }
    }
    EXPECT_EQ(told, 2);
}

TEST(PartFacts, AreRowsBelowTheEntryThatCannotBeEdited) {
    Session session(Engine::real());
    DocumentSource source(&session);
    session.replace(withParts());
    ASSERT_TRUE(session.waitUntilAtRest(60000));
    const Node* lid = nodeAt(source.root(), "/modules/0");
    ASSERT_TRUE(lid);
    int facts = 0;
    for (const auto& row : lid->children)
        if (row->kind == Node::Kind::fact) {
            ++facts;
            EXPECT_FALSE(source.factOf(*row).isEmpty()) << row->key;
            EXPECT_FALSE(row->entry);
        }
    EXPECT_EQ(facts, 5);
    // Another name: what was true of the old one is not shown under the new one before it was looked at
    // again.
    Node renamed;
    auto tree = treeOf(session.project());
    addFacts(*tree, {{"/modules/0", "another", "mass", "Mass", ""}});
    EXPECT_EQ(nodeAt(*tree, "/modules/0")->child("fact mass"), nullptr);
}

} // namespace
} // namespace slab::ui
