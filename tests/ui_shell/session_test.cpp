#include "tests/ui_shell/fakes.h"
#include "ui/session/runner.h"
#include <QCoreApplication>
#include <QSignalSpy>
#include <atomic>
#include <future>
#include <gtest/gtest.h>
#include <semaphore>

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

} // namespace
} // namespace slab::ui
