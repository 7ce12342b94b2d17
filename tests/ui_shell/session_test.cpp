#include "tests/ui_shell/fakes.h"
#include "ui/session/autosave.h"
#include "ui/session/runner.h"
#include <QCoreApplication>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <atomic>
#include <future>
#include <gtest/gtest.h>
#include <semaphore>
#include <unistd.h>

namespace slab::ui {
namespace {

TEST(Runner, RunsTheLatestOfEachSlot) {
    std::promise<void> held, free, done;
    std::vector<int> ran;
    {
        Runner runner;
        runner.post(
            0,
            [&](std::stop_token) {
                held.set_value();
                free.get_future().wait();
            },
            Runner::slots);
        held.get_future().wait();
        for (int i = 0; i < 100; ++i)
            runner.post(
                0, [&ran, i](std::stop_token) { ran.push_back(i); }, Runner::slots);
        runner.post(
            1, [&](std::stop_token) { done.set_value(); }, Runner::slots);
        free.set_value();
        done.get_future().wait();
    }
    EXPECT_EQ(ran, std::vector<int>{99});
}

TEST(Runner, ALowSlotStopsAHigherOne) {
    std::promise<void> started, first;
    std::atomic<bool> stopped = false;
    Runner runner;
    runner.post(
        1,
        [&](std::stop_token stop) {
            started.set_value();
            while (!stop.stop_requested()) std::this_thread::yield();
            stopped = true;
        },
        1);
    started.get_future().wait();
    runner.post(
        0, [&](std::stop_token) { first.set_value(); }, 1);
    first.get_future().wait();
    EXPECT_TRUE(stopped);
}

TEST(Session, ShowsTheLatestOfManyChanges) {
    Session session(test::quickEngine());
    session.replace(test::sample("moon-crawler"));
    for (int i = 1; i <= 200; ++i)
        ASSERT_TRUE(session.apply(setScale("0." + std::to_string(1000 + i), "drag")));
    session.settle();
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_DOUBLE_EQ(session.evaluation().scale, 0.1200);
    EXPECT_FALSE(session.busy());
    session.undo();
    EXPECT_EQ(session.project().scale, "1/2") << "a drag is one step";
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_DOUBLE_EQ(session.evaluation().scale, 0.5);
}

TEST(Session, NeverShowsAnOlderResult) {
    Session session(test::quickEngine());
    std::vector<double> shown;
    QObject::connect(&session, &Session::evaluationChanged,
                     [&] { shown.push_back(session.evaluation().scale); });
    for (int i = 1; i <= 100; ++i) {
        session.apply(setScale("0." + std::to_string(100 + i), "drag"));
        if (i % 10 == 0) QCoreApplication::processEvents();
    }
    session.settle();
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    const auto first = std::find_if(shown.begin(), shown.end(), [](double s) { return s < 1; });
    EXPECT_TRUE(std::is_sorted(first, shown.end()));
    EXPECT_DOUBLE_EQ(shown.back(), 0.2);
}

TEST(Session, AFullPassGivesWayToANewDrag) {
    std::counting_semaphore<> fullStarted(0);
    std::atomic<int> stoppedFull = 0;
    Engine engine = test::quickEngine();
    engine.evaluate = [&](const Project& p, Effort effort, std::uint64_t revision, const Job& job) {
        if (effort == Effort::full && p.scale == "0.3") {
            fullStarted.release();
            while (!job.stopped()) std::this_thread::yield();
            ++stoppedFull;
        }
        return test::scopeOnly(p, revision);
    };
    Session session(engine);
    session.apply(setScale("0.3"));
    fullStarted.acquire();
    session.apply(setScale("0.4", "drag"));
    session.settle();
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_EQ(stoppedFull, 1);
    EXPECT_DOUBLE_EQ(session.evaluation().scale, 0.4);
}

TEST(Session, AnotherDocumentDropsTheResultsOfTheOneBefore) {
    std::counting_semaphore<> started(0), go(0);
    Engine engine = test::quickEngine();
    engine.evaluate = [&](const Project& p, Effort, std::uint64_t revision, const Job&) {
        if (p.title == "old") {
            started.release();
            go.acquire();
        }
        return test::scopeOnly(p, revision);
    };
    Session session(engine);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    Project old;
    old.title = "old";
    old.scale = "0.9";
    session.replace(old);
    started.acquire();
    Project fresh;
    fresh.scale = "0.25";
    session.replace(fresh);
    std::vector<double> shown;
    QObject::connect(&session, &Session::evaluationChanged,
                     [&] { shown.push_back(session.evaluation().scale); });
    go.release(2);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    for (const double scale : shown) EXPECT_DOUBLE_EQ(scale, 0.25);
}

TEST(Session, SurveysAgainOnlyWhenMoreThanTheScaleChanged) {
    std::atomic<int> surveys = 0;
    Engine engine = test::quickEngine();
    const auto plain = engine.survey;
    engine.survey = [&](const Project& p, double from, double to, const Job& job) {
        ++surveys;
        return plain(p, from, to, job);
    };
    Session session(engine);
    QSignalSpy surveyed(&session, &Session::surveyChanged);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    while (!session.surveyIsCurrent()) ASSERT_TRUE(surveyed.wait(20000));
    EXPECT_EQ(surveys, 1);
    session.apply(setScale("0.9"));
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_TRUE(session.surveyIsCurrent());
    EXPECT_EQ(surveys, 1);
    ASSERT_TRUE(session.apply(setValue("/clearance/default", "\"50 mm\"")));
    EXPECT_FALSE(session.surveyIsCurrent());
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    while (!session.surveyIsCurrent()) ASSERT_TRUE(surveyed.wait(20000));
    EXPECT_EQ(surveys, 2);
}

TEST(Session, ARefusedEditChangesNothing) {
    Session session(test::quickEngine());
    const Project before = session.project();
    QSignalSpy refused(&session, &Session::refused);
    EXPECT_FALSE(session.apply(setValue("/nowhere/at/all", "1")));
    EXPECT_EQ(refused.count(), 1);
    EXPECT_EQ(session.project(), before);
}

TEST(Session, AThrowingPipelineIsAFinding) {
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project&, Effort, std::uint64_t, const Job&) -> Evaluation {
        throw std::runtime_error("out of chalk");
    };
    Session session(engine);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    ASSERT_EQ(session.evaluation().findings.size(), 1U);
    EXPECT_NE(session.evaluation().findings[0].message.find("out of chalk"), std::string::npos);
}

TEST(Session, GoesAwayWhileEverythingRuns) {
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort effort, std::uint64_t revision, const Job& job) {
        while (effort == Effort::full && !job.stopped()) std::this_thread::yield();
        return test::scopeOnly(p, revision);
    };
    for (int i = 0; i < 20; ++i) {
        Session session(engine);
        session.apply(setScale("0.5", "drag"));
        session.settle();
    }
}

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

TEST(Autosave, WaitsLessThanTwoSecondsDuringALongDrag) {
    const QTemporaryDir folder;
    Session session(test::quickEngine());
    Autosave autosave(&session, folder.path());
    for (int i = 1; i < 50; ++i) session.apply(setScale("0." + std::to_string(100 + i), "drag"));
    EXPECT_TRUE(autosave.waiting());
    EXPECT_LT(autosave.longestWait(), 2000);
}

} // namespace
} // namespace slab::ui
