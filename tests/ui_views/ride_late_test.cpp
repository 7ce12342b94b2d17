// Ride while sight is still being worked out, and what can be added to the route.
#include "core/trial/figures.h"
#include "tests/ui_views/ride_bench.h"
#include "ui/ride/ride_list.h"
#include "ui/ride/ride_pages.h"
#include "ui/ride/ride_view.h"
#include "ui/tables/used_value.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include <QApplication>
#include <QImage>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QTest>
#include <QTimer>
#include <QToolButton>
#include <atomic>
#include <gtest/gtest.h>
#include <thread>

namespace slab::ui {
namespace {

/// What comes with the verdict waits for the gate.
class LateSight : public testing::Test {
protected:
    LateSight() {
        session.replace(test::rideProject());
        view.resize(820, 640);
        view.show();
        test::rest(session);
        view.open(RideView::sight);
        QApplication::processEvents();
    }
    ~LateSight() override { open->store(true); }
    static ui::Engine engineBehind(const std::shared_ptr<std::atomic<bool>>& open) {
        ui::Engine engine = test::rideEngine();
        engine.evaluate = [open](const Project& project, Effort effort, std::uint64_t revision,
                                 const Job& job) {
            while (effort != Effort::live && !open->load() && !job.stop.stop_requested())
                std::this_thread::yield();
            Evaluation e = test::rideEvaluation(project, revision);
            trial::Trial t = *e.trial;
            if (effort == Effort::live || project.rider.table == "none") t.views.clear();
            e.trial = std::make_shared<const trial::Trial>(std::move(t));
            return e;
        };
        return engine;
    }
    /// A change whose sight is not there yet.
    void change(const Edit& edit) {
        open->store(false);
        session.apply(edit);
        ASSERT_TRUE(QTest::qWaitFor([&] { return session.evaluation().trial->views.empty(); }, 5000));
    }
    std::shared_ptr<std::atomic<bool>> open = std::make_shared<std::atomic<bool>>(true);
    Session session{engineBehind(open)};
    RideView view{&session};
};

TEST_F(LateSight, KeepsTheOldMapAndOffersNoRider) {
    const RidePage* page = view.pageOf(RideView::sight);
    ASSERT_EQ(page->emptyShown(), nullptr);
    const qsizetype rows = static_cast<qsizetype>(page->list()->rows().size());
    const QString tab = view.tab(RideView::sight)->text();
    change(setScale("0.9"));
    EXPECT_EQ(page->emptyShown(), nullptr) << "somebody sits in it";
    EXPECT_EQ(static_cast<qsizetype>(page->list()->rows().size()), rows);
    EXPECT_TRUE(page->list()->isFaint());
    EXPECT_EQ(view.tab(RideView::sight)->text(), tab);
    open->store(true);
    test::rest(session);
    EXPECT_FALSE(page->list()->isFaint());
}

TEST_F(LateSight, WithoutARiderOneIsOffered) {
    change(setValue("/rider/table", "\"none\"", "Nobody"));
    const EmptyState* empty = view.pageOf(RideView::sight)->emptyShown();
    ASSERT_NE(empty, nullptr);
    EXPECT_EQ(empty->findChild<QPushButton*>()->text(), "Seat a grown-up");
}

TEST_F(LateSight, TheWantedGroundStaysInTheTable) {
    Node ride;
    ride.owner = "ride";
    ride.key = "sees";
    EXPECT_EQ(usedInstead(session, ride), "1900 mm");
    change(setScale("0.9"));
    EXPECT_EQ(usedInstead(session, ride), "1900 mm");
}

QStringList wordsOfMenu(const QMenu& menu, bool captions) {
    QStringList out;
    for (const QAction* action : menu.actions())
        if (!action->isSeparator() && action->isEnabled() != captions) out << action->text();
    return out;
}

TEST(RouteMenu, TellsWhatIsPublishedAndWhatIsMeasured) {
    QMenu menu;
    RoutePart taken;
    fillExamples(&menu, styleFor("mm"), [&](const RoutePart& part) { taken = part; });
    EXPECT_FALSE(menu.actions().front()->isSeparator()) << "no stray line on top";
    const QStringList captions = wordsOfMenu(menu, true), entries = wordsOfMenu(menu, false);
    ASSERT_EQ(captions.size(), 2);
    EXPECT_TRUE(captions[1].contains("To be measured"));
    for (const char* own : {"Own step", "Own kerb", "Own ground"}) EXPECT_TRUE(entries.contains(own)) << own;
    EXPECT_TRUE(entries.contains("Door, 32 in clear (813 mm)  ·  ADA 2010 404.2.3"))
        << entries[0].toStdString();
    for (QAction* action : menu.actions())
        if (action->text() == "Own ground") action->trigger();
    EXPECT_EQ(taken.kind, "ground");
    EXPECT_EQ(taken.stretches.size(), 3U);
}

TEST(RouteMenu, SpeaksInches) {
    QMenu menu;
    RoutePart taken;
    fillExamples(&menu, styleFor("in"), [&](const RoutePart& part) { taken = part; });
    const QStringList entries = wordsOfMenu(menu, false);
    EXPECT_TRUE(entries.contains("Door, 32 in clear  ·  ADA 2010 404.2.3"))
        << "published as the builder reads";
    EXPECT_TRUE(entries.contains("Step of 40 mm (1-9/16″)  ·  US CMS group 2"))
        << entries.join("; ").toStdString();
    for (QAction* action : menu.actions())
        if (action->text() == "Garden gate") action->trigger();
    EXPECT_EQ(taken.width, "35.5 in"); // 900 mm is 35.4 in
}

TEST(RouteMenu, EveryOwnPartIsSound) {
    QMenu menu;
    Project p = test::handProject();
    fillExamples(&menu, styleFor("ft"),
                 [&](const RoutePart& part) { p = trial::addToRoute(part).apply(p).value(); });
    for (QAction* action : menu.actions()) action->trigger();
    std::vector<Finding> findings;
    const auto figures = trial::resolveRoute(p, Scope{}, findings);
    ASSERT_EQ(figures.size(), p.route.size());
    for (std::size_t i = figures.size() - 3; i < figures.size(); ++i)
        EXPECT_GT(figures[i].ground.points.size(), 1U) << p.route[i].name << " is something to drive over";
    for (const Finding& f : findings) ADD_FAILURE() << f.message;
}

TEST(Explained, ReturnPressesTheButtonThatHasTheFocus) {
    QPushButton plain;
    explain(&plain, "Plain", "Does something.");
    int pressed = 0;
    QObject::connect(&plain, &QPushButton::clicked, [&] { ++pressed; });
    explain(&plain, "Plain", "Explained again.");
    QTest::keyClick(&plain, Qt::Key_Return);
    QTest::keyClick(&plain, Qt::Key_Space);
    EXPECT_EQ(pressed, 2);
    QToolButton opens;
    QMenu menu;
    menu.addAction("One");
    opens.setPopupMode(QToolButton::InstantPopup);
    opens.setMenu(&menu);
    explain(&opens, "Opens", "A menu.");
    opens.show();
    bool opened = false;
    QObject::connect(&menu, &QMenu::aboutToShow, &menu, [&] {
        opened = true;
        QTimer::singleShot(0, &menu, &QMenu::close);
    });
    QTest::keyClick(&opens, Qt::Key_Return);
    EXPECT_TRUE(opened);
}

TEST(RideInk, WordsStayWholeAtTheEdges) {
    QImage image(200, 60, QImage::Format_ARGB32);
    QPainter painter(&image);
    for (const double x : {-40.0, 10.0, 195.0, 400.0}) {
        const QRectF box = inkWords(painter, {x, 30}, "tips first 35.9°", Qt::black);
        EXPECT_GE(box.left(), 0) << x;
        EXPECT_LE(box.right(), 200) << x;
    }
}

} // namespace
} // namespace slab::ui
