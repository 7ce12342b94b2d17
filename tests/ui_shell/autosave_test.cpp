// Unsaved work is in its recovery file soon after each edit, whatever the window's own thread does meanwhile.
#include "tests/ui_shell/fakes.h"
#include "ui/session/autosave.h"
#include <QElapsedTimer>
#include <QTemporaryDir>
#include <gtest/gtest.h>
#include <thread>

namespace slab::ui {
namespace {

/// What a window started now would bring back from this file; empty where nothing can be read.
std::string titleIn(const QString& file) {
    return Autosave::read({file, {}, {}, {}, {}}).value_or(Project{}).title;
}

Edit titled(int number) {
    return setValue("/title", "\"title " + std::to_string(number) + "\"");
}

/// Works in this thread, without a turn of the event loop, until the file holds the title. @return ms
qint64 workUntil(const QString& file, const std::string& title, int longest) {
    QElapsedTimer clock;
    clock.start();
    while (titleIn(file) != title && clock.elapsed() < longest) std::this_thread::yield();
    return clock.elapsed();
}

constexpr int allowed = 2000; // ms of work that may be lost

TEST(Autosave, BringsBackTheWorkOfAWindowThatDied) {
    const QTemporaryDir folder;
    Session session(test::quickEngine());
    Recovered left;
    {
        Autosave autosave(&session, folder.path());
        session.apply(setValue("/title", "\"Half done\""));
        autosave.setOriginal("/tmp/boat.slabside.json");
        autosave.flush();
        EXPECT_TRUE(Autosave::leftBehind(folder.path()).empty()) << "a living window's work is not offered";
    }
    const auto found = Autosave::leftBehind(folder.path());
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].title, "Half done");
    EXPECT_EQ(found[0].original, "/tmp/boat.slabside.json");
    const auto project = Autosave::read(found[0]);
    ASSERT_TRUE(project.has_value());
    EXPECT_EQ(*project, session.project());
    Autosave::remove(found[0]);
    EXPECT_TRUE(Autosave::leftBehind(folder.path()).empty());
}

TEST(Autosave, LeavesNothingAfterASave) {
    const QTemporaryDir folder;
    Session session(test::quickEngine());
    {
        Autosave autosave(&session, folder.path());
        session.apply(setValue("/title", "\"Half done\""));
        autosave.flush();
        EXPECT_TRUE(QFile::exists(autosave.file()));
        session.markSaved();
    }
    EXPECT_TRUE(Autosave::leftBehind(folder.path()).empty());
}

TEST(Autosave, SweepsUpLocksOfWindowsThatDied) {
    const QTemporaryDir folder;
    const QString dead = folder.filePath("gone.recovery.json.lock"),
                  alive = folder.filePath("here.recovery.json.lock");
    // A lock as QLockFile writes it, of a process that is no more: its number is above any that Linux gives.
    QFile lock(dead);
    ASSERT_TRUE(lock.open(QIODevice::WriteOnly));
    lock.write(("4999999\nslabside\n" + QSysInfo::machineHostName() + "\n").toUtf8());
    lock.close();
    QLockFile held(alive);
    ASSERT_TRUE(held.tryLock());
    EXPECT_TRUE(Autosave::leftBehind(folder.path()).empty());
    EXPECT_FALSE(QFile::exists(dead));
    EXPECT_TRUE(QFile::exists(alive));
}

TEST(Autosave, WritesWhileTheWindowsThreadIsBusyAfterTheEdit) {
    const QTemporaryDir folder;
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job& job) {
        while (!job.stopped()) std::this_thread::yield();
        return test::scopeOnly(p, revision);
    };
    Session session(engine);
    QString file;
    qint64 took = allowed;
    // Connected first, so called first: a view that never comes back in time.
    QObject::connect(&session, &Session::projectChanged,
                     [&] { took = workUntil(file, session.project().title, allowed); });
    Autosave autosave(&session, folder.path());
    file = autosave.file();
    for (int i = 1; i <= 3; ++i) {
        ASSERT_TRUE(session.apply(titled(i)));
        EXPECT_LT(took, allowed) << i;
        EXPECT_EQ(titleIn(file), session.project().title);
    }
    session.undo();
    EXPECT_LT(took, allowed);
    EXPECT_EQ(titleIn(file), "title 2");
}

TEST(Autosave, WritesDuringALongDragAndNeverAnOlderStateOverANewerOne) {
    const QTemporaryDir folder;
    Session session(test::quickEngine());
    Autosave autosave(&session, folder.path());
    int last = 0, different = 0;
    QElapsedTimer clock;
    clock.start();
    for (int i = 1; different < 3 && clock.elapsed() < 3 * allowed; ++i) {
        ASSERT_TRUE(session.apply({"Drag", "drag", [i](const Project& p) {
                                       Project next = p;
                                       next.title = std::to_string(i);
                                       return Expected<Project>(next);
                                   }}));
        const std::string there = titleIn(autosave.file());
        const int number = there.empty() ? 0 : std::stoi(there);
        ASSERT_GE(number, last);
        different += number > last ? 1 : 0;
        last = number;
    }
    EXPECT_EQ(different, 3) << "the drag itself is written, not only its end";
    EXPECT_TRUE(autosave.waiting());
    autosave.flush();
    EXPECT_FALSE(autosave.waiting());
    EXPECT_EQ(titleIn(autosave.file()), session.project().title);
}

TEST(Autosave, ACleanEndWritesWhatWaits) {
    const QTemporaryDir folder;
    Session session(test::quickEngine());
    QString file;
    {
        Autosave autosave(&session, folder.path());
        file = autosave.file();
        ASSERT_TRUE(session.apply(titled(1)));
        ASSERT_TRUE(session.apply(titled(2)));
    }
    EXPECT_EQ(titleIn(file), "title 2");
}

} // namespace
} // namespace slab::ui
