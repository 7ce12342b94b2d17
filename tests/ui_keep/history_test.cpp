// Undo reaches back over saves and autosaves.
#include "core/survey/survey.h"
#include "core/document/file.h"
#include "tests/ui_keep/keep_child.h"
#include "tests/ui_keep/random_hand.h"
#include "ui/session/session.h"
#include "ui/window/document_file.h"
#include <QFileInfo>
#include <QTemporaryDir>
#include <gtest/gtest.h>

namespace slab::ui::test {
namespace {

Engine nothing() {
    return {[](const Project&, Effort, std::uint64_t revision, const Job&) {
                Evaluation e;
                e.revision = revision;
                return e;
            },
            [](const Project&, double, double, const Job&) { return ScaleSurvey{}; }};
}

Edit titled(int number) {
    return setValue("/title", "\"title " + std::to_string(number) + "\"");
}

class Keeping : public testing::Test {
protected:
    QTemporaryDir folder;
    Session session{nothing()};
    DocumentFile file{&session, nullptr};
    QString path(const char* name) const { return folder.filePath(name); }
};

TEST_F(Keeping, UndoGoesBackOverSaveSaveAsAndAutosave) {
    const Project first = session.project();
    ASSERT_TRUE(session.apply(titled(1)));
    ASSERT_TRUE(file.saveTo(path("a.slabside.json")).has_value());
    ASSERT_TRUE(session.apply(titled(2)));
    file.autosave()->flush();
    ASSERT_TRUE(session.apply(titled(3)));
    ASSERT_TRUE(file.saveTo(path("b.slabside.json")).has_value());
    EXPECT_TRUE(session.history().isSaved());
    ASSERT_TRUE(file.save());
    for (const char* title : {"title 2", "title 1"}) {
        session.undo();
        EXPECT_EQ(session.project().title, title);
        EXPECT_FALSE(session.history().isSaved()) << "the file holds the third";
    }
    session.undo();
    EXPECT_EQ(session.project(), first);
    EXPECT_FALSE(session.history().canUndo());
    for (int i = 0; i < 3; ++i) session.redo();
    EXPECT_EQ(session.project().title, "title 3");
    EXPECT_TRUE(session.history().isSaved());
    EXPECT_EQ(loadProject(path("a.slabside.json").toStdString())->title, "title 1");
    EXPECT_EQ(loadProject(path("b.slabside.json").toStdString())->title, "title 3");
}

TEST_F(Keeping, WorkUndoneAfterASaveIsKeptInTheRecoveryFile) {
    ASSERT_TRUE(session.apply(titled(1)));
    ASSERT_TRUE(session.apply(titled(2)));
    ASSERT_TRUE(file.saveTo(path("a.slabside.json")).has_value());
    session.undo();
    file.autosave()->flush();
    EXPECT_TRUE(QFileInfo::exists(file.autosave()->file())) << "the file holds what was undone";
    session.redo();
    file.autosave()->flush();
    EXPECT_FALSE(QFileInfo::exists(file.autosave()->file())) << "nothing is left to bring back";
}

TEST_F(Keeping, ASaveInTheMiddleOfADragParts) {
    ASSERT_TRUE(session.apply(setScale("0.4", "drag")));
    ASSERT_TRUE(session.apply(setScale("0.41", "drag")));
    ASSERT_TRUE(file.saveTo(path("a.slabside.json")).has_value());
    ASSERT_TRUE(session.apply(setScale("0.42", "drag")));
    session.undo();
    EXPECT_EQ(session.project().scale, "0.41");
    EXPECT_TRUE(session.history().isSaved());
}

TEST_F(Keeping, RandomSavesNeverCostAnUndoStep) {
    ASSERT_TRUE(file.saveTo(path("a.slabside.json")).has_value());
    RandomHand hand(20);
    History shadow(session.project()); // never saved
    for (int i = 0; i < 300; ++i) {
        const Step step = hand.next(shadow);
        if (step.kind == Step::Kind::save) {
            ASSERT_TRUE(file.saveTo(path(i % 2 ? "a.slabside.json" : "b.slabside.json")).has_value());
            shadow.settle();
        } else if (step.kind == Step::Kind::flush) {
            file.autosave()->flush();
        } else {
            play(step, shadow);
            if (step.kind == Step::Kind::edit) session.apply(step.edit);
            if (step.kind == Step::Kind::edit && !step.drags) session.settle();
            if (step.kind == Step::Kind::undo) session.undo();
            if (step.kind == Step::Kind::redo) session.redo();
        }
        ASSERT_EQ(session.project(), shadow.current()) << i;
        ASSERT_EQ(session.history().canUndo(), shadow.canUndo()) << i;
        ASSERT_EQ(session.history().canRedo(), shadow.canRedo()) << i;
    }
    while (shadow.canUndo()) {
        shadow.undo();
        session.undo();
        ASSERT_EQ(session.project(), shadow.current());
    }
    EXPECT_FALSE(session.history().canUndo());
}

} // namespace
} // namespace slab::ui::test
