// The list of keys: read off what there is, and the same in the README.
#include "tests/board/crate.h"
#include "tests/ui_shell/fakes.h"
#include "tests/ui_views/live_engine.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include "ui/window/document_file.h"
#include "ui/window/keys.h"
#include "ui/window/main_window.h"
#include "ui/window/notice.h"
#include "ui/window/top_bar.h"
#include <QAction>
#include <QFile>
#include <QMenuBar>
#include <QTemporaryDir>
#include <QTest>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

struct KeysBench {
    MainWindow window{std::make_unique<Session>(test::quickEngine())};
    QMenuBar* menus = window.findChild<TopBar*>()->menus();
};

TEST(Keys, EveryListedShortcutIsAnActionAndEveryActionWithOneIsListed) {
    KeysBench b;
    const auto groups = keyGroups(b.menus);
    ASSERT_FALSE(groups.empty());
    ASSERT_EQ(groups[0].where, "everywhere");
    QStringList listed, there;
    for (const KeyLine& line : groups[0].lines) listed << line.keys;
    for (const QAction* action : b.window.findChildren<QAction*>())
        if (!action->shortcut().isEmpty()) there << action->shortcut().toString(QKeySequence::PortableText);
    listed.sort();
    there.sort();
    EXPECT_EQ(listed, there) << listed.join(' ').toStdString() << " / " << there.join(' ').toStdString();
    EXPECT_EQ(listed.removeDuplicates(), 0) << "no key does two things";
    EXPECT_TRUE(there.contains("Ctrl+F1"));
    KeysDialog dialog(groups);
    dialog.show();
    EXPECT_TRUE(dialog.isVisible());
}

TEST(Keys, TheReadmeListsThem) {
    KeysBench b;
    QFile readme(QStringLiteral(SLABSIDE_SOURCE_DIR "/README.md"));
    ASSERT_TRUE(readme.open(QIODevice::ReadOnly));
    const QString text = QString::fromUtf8(readme.readAll());
    auto groups = keyGroups(b.menus);
    groups.resize(3); // the rest is told by Help, Keys
    const QString table = keysAsMarkdown(groups);
    EXPECT_TRUE(text.contains(table)) << "the README's table of keys is to be:\n" << table.toStdString();
}

TEST(Titles, ADocumentWithoutATitleIsCalledByItsFile) {
    KeysBench b;
    QTemporaryDir folder;
    Project project;
    project.title = "Untitled body";
    b.window.file()->take(project, {}, true);
    EXPECT_EQ(b.window.file()->shownTitle(), "Untitled body");
    ASSERT_TRUE(b.window.file()->saveTo(folder.filePath("harbour tug.slabside.json")));
    EXPECT_EQ(b.window.file()->shownTitle(), "harbour tug");
    EXPECT_TRUE(b.window.windowTitle().startsWith("harbour tug")) << b.window.windowTitle().toStdString();
    project.title = "Tug";
    b.window.file()->take(project, folder.filePath("harbour tug.slabside.json"), true);
    EXPECT_EQ(b.window.file()->shownTitle(), "Tug");
}

TEST(Notices, WhatWasRefusedIsNotToldAnyMoreWhenSomethingElseIsDone) {
    KeysBench b;
    b.window.show();
    auto* notice = b.window.findChild<Notice*>();
    ASSERT_TRUE(notice);
    Session* session = b.window.session();
    EXPECT_FALSE(session->apply({"No", {}, [](const Project&) -> Expected<Project> {
                                     return fail("bad-name", "That cannot be.", {}, "Do it otherwise.");
                                 }}));
    ASSERT_TRUE(notice->isVisible());
    EXPECT_TRUE(notice->words().contains("That cannot be"));
    EXPECT_TRUE(session->apply({"Yes", {}, [](const Project& p) -> Expected<Project> {
                                    Project next = p;
                                    next.title = "other";
                                    return next;
                                }}));
    EXPECT_FALSE(notice->isVisible());
}

TEST(Notices, AKeyTellsWhatItMadeOrWhatToChooseFirst) {
    MainWindow window{std::make_unique<Session>(slab::test::liveEngine())};
    Session* session = window.session();
    session->replace(slab::test::crate());
    ASSERT_TRUE(session->waitUntilAtRest(20000));
    window.show();
    window.fill(1);
    auto* notice = window.findChild<Notice*>();
    const auto press = [&](const char* keys) {
        notice->hide();
        for (QAction* action : window.findChildren<QAction*>())
            if (action->shortcut() == QKeySequence(keys)) action->trigger();
        return notice->isVisible() ? notice->words().toStdString() : std::string();
    };
    EXPECT_NE(press("Ctrl+G").find("No plate is chosen"), std::string::npos) << notice->words().toStdString();
    EXPECT_NE(press("Ctrl+J").find("No joint"), std::string::npos) << notice->words().toStdString();
    Selection joint;
    joint.plate = "crate/top";
    for (const Plate& plate : session->evaluation().plates->plates)
        for (std::size_t i = 0; plate.name == "crate/top" && i < plate.boundary.edges.size(); ++i)
            if (plate.boundary.edges[i].neighbour == "crate/port") joint.edge = static_cast<int>(i);
    session->select(joint);
    EXPECT_NE(press("Ctrl+J").find("Cleats are put"), std::string::npos) << notice->words().toStdString();
    EXPECT_EQ(session->project().cleats.size(), 1U);
    session->select(joint);
    EXPECT_NE(press("Ctrl+G").find("is made"), std::string::npos) << notice->words().toStdString();
    EXPECT_EQ(session->project().modules.size(), 1U);
}

TEST(Notices, ARefusalOnTheBoardDoesNotMoveTheSheet) {
    KeysBench b;
    b.window.resize(1366, 768);
    b.window.show();
    b.window.findChild<Notice*>()->hide();
    b.window.fill(3);
    DraftingView* board = b.window.board();
    for (int i = 0; i < 3; ++i) QCoreApplication::processEvents();
    board->canvas()->fit();
    const auto place = [&] {
        return board->canvas()->mapTo(&b.window,
                                      board->canvas()->pixelOf(BoardView::side, {100, 200}).toPoint());
    };
    const QPoint before = place();
    const QRect sheet = board->canvas()->geometry();
    EXPECT_FALSE(b.window.session()->apply({"No", {}, [](const Project&) -> Expected<Project> {
                                                return fail("bad-name", "That cannot be.", {},
                                                            "Do it otherwise.");
                                            }}));
    for (int i = 0; i < 3; ++i) QCoreApplication::processEvents();
    EXPECT_EQ(place(), before);
    EXPECT_EQ(board->canvas()->geometry(), sheet);
    EXPECT_FALSE(b.window.findChild<Notice*>()->isVisible());
    EXPECT_TRUE(board->helpWords().contains("That cannot be")) << board->helpWords().toStdString();
}

} // namespace
} // namespace slab::ui
