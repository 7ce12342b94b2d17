#include "core/document/edit.h"
#include "core/document/file.h"
#include "tests/document/random_project.h"

namespace slab {
namespace {

TEST(History, UndoAndRedoWalkTheSameStates) {
    History history;
    std::vector<Project> states{history.current()};
    for (int i = 0; i < 20; ++i) {
        ASSERT_TRUE(
            history.push(setValue("/title", "\"" + std::to_string(i) + "\"", "Title " + std::to_string(i))));
        states.push_back(history.current());
    }
    EXPECT_EQ(history.undoLabel(), "Title 19");
    EXPECT_FALSE(history.canRedo());
    EXPECT_FALSE(history.redo());
    for (std::size_t i = states.size() - 1; i > 0; --i) {
        EXPECT_EQ(history.current(), states[i]);
        ASSERT_TRUE(history.undo());
    }
    EXPECT_EQ(history.current(), states[0]);
    EXPECT_FALSE(history.undo());
    EXPECT_EQ(history.undoLabel(), "");
    EXPECT_EQ(history.redoLabel(), "Title 0");
    for (std::size_t i = 1; i < states.size(); ++i) {
        ASSERT_TRUE(history.redo());
        EXPECT_EQ(history.current(), states[i]);
    }
    EXPECT_EQ(history.revision(), 60U); // 20 edits, 20 undone, 20 redone
}

TEST(History, ADragIsOneStep) {
    History history;
    for (int i = 1; i <= 50; ++i) ASSERT_TRUE(history.push(setScale(std::to_string(i) + "/100", "drag")));
    EXPECT_EQ(history.current().scale, "50/100");
    history.settle();
    for (int i = 51; i <= 60; ++i) ASSERT_TRUE(history.push(setScale(std::to_string(i) + "/100", "drag")));
    ASSERT_TRUE(history.push(setValue("/title", "\"x\"")));
    ASSERT_TRUE(history.push(setScale("0.9", "drag"))); // not in a row any more
    ASSERT_TRUE(history.undo());
    EXPECT_EQ(history.current().scale, "60/100");
    ASSERT_TRUE(history.undo());
    ASSERT_TRUE(history.undo());
    EXPECT_EQ(history.current().scale, "50/100");
    ASSERT_TRUE(history.undo());
    EXPECT_EQ(history.current(), Project{});
    EXPECT_FALSE(history.canUndo());
}

TEST(History, EditsWithoutAKeyNeverMergeAndUndoEndsADrag) {
    History history;
    ASSERT_TRUE(history.push(setScale("0.1")));
    ASSERT_TRUE(history.push(setScale("0.2")));
    ASSERT_TRUE(history.undo());
    EXPECT_EQ(history.current().scale, "0.1");
    ASSERT_TRUE(history.push(setScale("0.3", "drag")));
    ASSERT_TRUE(history.push(setScale("0.4", "drag")));
    ASSERT_TRUE(history.undo());
    ASSERT_TRUE(history.redo());
    ASSERT_TRUE(history.push(setScale("0.5", "drag")));
    ASSERT_TRUE(history.undo());
    EXPECT_EQ(history.current().scale, "0.4");
}

TEST(History, SavedMark) {
    History history;
    EXPECT_TRUE(history.isSaved());
    ASSERT_TRUE(history.push(setScale("0.1", "drag")));
    EXPECT_FALSE(history.isSaved());
    history.markSaved();
    EXPECT_TRUE(history.isSaved());
    ASSERT_TRUE(history.push(setScale("0.2", "drag"))); // saved in the middle of a drag: still two states
    EXPECT_FALSE(history.isSaved());
    ASSERT_TRUE(history.undo());
    EXPECT_TRUE(history.isSaved());
    ASSERT_TRUE(history.undo());
    EXPECT_FALSE(history.isSaved());
    ASSERT_TRUE(history.push(setScale("0.7"))); // the saved state can no longer be reached
    EXPECT_FALSE(history.isSaved());
    ASSERT_TRUE(history.undo());
    EXPECT_FALSE(history.isSaved());
    EXPECT_FALSE(history.redo() && history.isSaved());
}

TEST(History, NothingChangedIsNoStep) {
    History history;
    ASSERT_TRUE(history.push(setScale(history.current().scale)));
    EXPECT_FALSE(history.canUndo());
    EXPECT_EQ(history.revision(), 0U);
}

TEST(History, ARefusedEditKeepsWhatWasUndone) {
    History history;
    ASSERT_TRUE(history.push(setScale("0.5")));
    ASSERT_TRUE(history.undo());
    EXPECT_FALSE(history.push(setValue("/units", "\"cubit\"")));
    EXPECT_TRUE(history.canRedo());
    ASSERT_TRUE(history.push(setScale("0.6")));
    EXPECT_FALSE(history.canRedo());
}

TEST(History, KeepsAtLeastFiveHundredStepsAndIsBounded) {
    History history;
    for (int i = 1; i <= 5000; ++i) ASSERT_TRUE(history.push(setScale(std::to_string(i))));
    int steps = 0;
    while (history.undo()) ++steps;
    EXPECT_GE(steps, 500);
    EXPECT_LT(steps, 5000);
    EXPECT_EQ(history.current().scale, std::to_string(5000 - steps));
    EXPECT_FALSE(history.isSaved()); // the saved state was forgotten
}

TEST(History, RandomEditsUndoneAreTheOriginal) {
    auto random = seeded(61);
    for (int round = 0; round < 40 / slowdown; ++round) {
        const Project first = randomProject(random);
        History history(first);
        const char* pointers[] = {"/title",
                                  "/forms/0/mirror",
                                  "/forms/1/at/x",
                                  "/rider/sex",
                                  "/stock/kerf",
                                  "/donor/changes/seat_height",
                                  "/openings/0/u",
                                  "/dimensions/0/value",
                                  "/joints/default",
                                  "/donor/place",
                                  "/materials/plates/a~1b",
                                  "/clearance/solids/knee",
                                  "/forms/0/outline",
                                  "/seed",
                                  "/cut"};
        const char* values[] = {"\"1 m\"",   "true", "\"female\"", "null",      "3",
                                "\"mitre\"", "[]",   "\"best\"",   "[{},{},{}]"};
        int steps = 0;
        for (int i = 0; i < 100; ++i) {
            const Project before = history.current();
            const auto done = history.push(setValue(pointers[below(random, 15)], values[below(random, 9)],
                                                    "change", below(random, 3) == 0 ? "drag" : ""));
            if (!done) {
                ASSERT_EQ(history.current(), before);
            } else {
                ASSERT_TRUE(validateProject(writeProject(history.current())).empty());
                steps += history.current() == before ? 0 : 1;
            }
        }
        int undone = 0;
        while (history.undo()) ++undone;
        EXPECT_EQ(history.current(), first);
        EXPECT_GT(undone, 0);
        EXPECT_LE(undone, steps);
    }
}

} // namespace
} // namespace slab
