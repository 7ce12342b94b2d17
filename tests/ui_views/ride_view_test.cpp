// Ride in the window: pages, choice, empty states, keys, and what is drawn.
#include "tests/ui_views/ride_bench.h"
#include "ui/fit/ride_marks.h"
#include "ui/ride/ride_canvas.h"
#include "ui/ride/ride_list.h"
#include "ui/ride/ride_pages.h"
#include "ui/ride/ride_view.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QApplication>
#include <QComboBox>
#include <QMenu>
#include <QPushButton>
#include <QSlider>
#include <QTest>
#include <QToolButton>
#include <gtest/gtest.h>
#include <set>

namespace slab::ui {
namespace {

class RideViewTest : public testing::Test {
protected:
    explicit RideViewTest(Project project = test::rideProject()) : session(test::rideEngine()) {
        session.replace(std::move(project));
        test::rest(session);
        view.resize(820, 640);
        view.show();
        QApplication::processEvents();
    }
    ~RideViewTest() override { Theme::setDark(false); }
    int rowOf(RideView::Page page, const QString& title) const {
        const RideRows& rows = view.pageOf(page)->list()->rows();
        for (std::size_t i = 0; i < rows.size(); ++i)
            if (rows[i].title == title) return static_cast<int>(i);
        return -1;
    }
    void clickRow(RideView::Page page, const QString& title) {
        view.open(page);
        RideList* list = view.pageOf(page)->list();
        const QModelIndex index = list->model()->index(rowOf(page, title), 0);
        list->scrollTo(index);
        QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, list->visualRect(index).center());
    }
    /// Colours of a page's drawing; a blank one has one.
    static std::size_t colours(const QImage& image) {
        std::set<QRgb> all;
        for (int y = 0; y < image.height(); y += 2)
            for (int x = 0; x < image.width(); x += 2) all.insert(image.pixel(x, y));
        return all.size();
    }
    Session session;
    RideView view{&session};
};

class BareRide : public RideViewTest {
protected:
    BareRide() : RideViewTest(test::handProject()) {}
};

TEST_F(RideViewTest, AClickOnAResultChoosesItEverywhere) {
    clickRow(RideView::route, "shed door");
    EXPECT_EQ(session.selection().part, "/route/0");
    EXPECT_EQ(session.selection().plate, "hull/port");
    EXPECT_EQ(session.selection().result, RideThing::part);
    EXPECT_EQ(session.selection().resultIndex, 0);
    clickRow(RideView::sight, "sight");
    EXPECT_EQ(session.selection().plate, "hull/front");
}

TEST_F(RideViewTest, APartThatIsChosenInTheTablesOpensItsPage) {
    ASSERT_EQ(view.page(), RideView::stands);
    Selection now;
    now.part = "/route/1";
    session.select(now);
    EXPECT_EQ(view.page(), RideView::route);
    ASSERT_NE(view.routePage()->shown(), nullptr);
    EXPECT_EQ(view.routePage()->shown()->name, "ramp");
}

TEST_F(RideViewTest, APageThatWasLeftStaysLeftWhenFiguresChange) {
    Selection now;
    now.part = "/route/1";
    session.select(now);
    ASSERT_EQ(view.page(), RideView::route);
    view.open(RideView::stands);
    session.apply(setScale("0.9"));
    test::rest(session);
    EXPECT_EQ(view.page(), RideView::stands);
}

TEST_F(RideViewTest, TheWorstPartIsDrawnFirstAndTheTabSaysSo) {
    ASSERT_NE(view.routePage()->shown(), nullptr);
    EXPECT_EQ(view.routePage()->shown()->name, "shed door");
    EXPECT_EQ(view.tab(RideView::route)->text(), "Route · 1 stop · 1 look");
    EXPECT_FALSE(view.tab(RideView::route)->icon().isNull());
}

TEST_F(RideViewTest, TheSliderBeginsWhereItIsClosestAndTheArrowsDriveIt) {
    clickRow(RideView::route, "ramp");
    const trial::RouteResult* ramp = view.routePage()->shown();
    ASSERT_NE(ramp, nullptr);
    QSlider* along = view.routePage()->along();
    EXPECT_TRUE(along->isVisible());
    EXPECT_EQ(along->value(), ramp->worst);
    RideList* list = view.routePage()->list();
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Right);
    QTest::keyClick(list, Qt::Key_Right);
    EXPECT_EQ(along->value(), ramp->worst + 2);
    QTest::keyClick(list, Qt::Key_C);
    EXPECT_EQ(along->value(), ramp->worst);
    clickRow(RideView::route, "shed door");
    EXPECT_FALSE(along->isVisible()) << "a door has no ground to drive along";
}

TEST_F(RideViewTest, DigitsOpenThePagesAndDeleteTakesAPartOut) {
    RideList* list = view.pageOf(RideView::stands)->list();
    QTest::keyClick(list, Qt::Key_3);
    EXPECT_EQ(view.page(), RideView::sight);
    EXPECT_TRUE(view.pageOf(RideView::sight)->isVisible());
    EXPECT_FALSE(view.pageOf(RideView::stands)->isVisible());
    clickRow(RideView::route, "ramp");
    QTest::keyClick(view.routePage()->list(), Qt::Key_Delete);
    ASSERT_EQ(session.project().route.size(), 2U);
    EXPECT_EQ(session.project().route[1].name, "old gate");
    session.undo();
    EXPECT_EQ(session.project().route.size(), 3U);
}

TEST_F(RideViewTest, AnExampleIsAddedAndChosen) {
    QMenu* menu = view.routePage()->examples();
    QAction* kerb = nullptr;
    for (QAction* action : menu->actions())
        if (action->text().startsWith("Kerb ramp")) kerb = action;
    ASSERT_NE(kerb, nullptr);
    EXPECT_TRUE(kerb->text().contains("406.2"));
    kerb->trigger();
    ASSERT_EQ(session.project().route.size(), 4U);
    EXPECT_EQ(session.project().route.back().kind, "kerb_ramp");
    EXPECT_FALSE(session.project().route.back().note.empty());
    EXPECT_EQ(session.selection().part, "/route/3");
}

TEST_F(RideViewTest, WhatIsDrawnCanBePointedAt) {
    RidePage* page = view.pageOf(RideView::stands);
    (void)page->canvas()->grab();
    const int first = rowOf(RideView::stands, "to port");
    const auto& spots = page->canvas()->spots();
    const auto spot =
        std::find_if(spots.begin(), spots.end(), [&](const RideSpot& s) { return s.row == first; });
    ASSERT_NE(spot, spots.end());
    EXPECT_TRUE(spot->words.contains("26.6°"));
    QTest::mouseClick(page->canvas(), Qt::LeftButton, {}, spot->at.toPoint());
    EXPECT_EQ(page->list()->chosenRow(), first);
    EXPECT_TRUE(page->canvas()->accessibleDescription().contains("26.6°"));
}

TEST_F(RideViewTest, TheWheelsLoadsFollowTheChooser) {
    auto* page = static_cast<StandsPage*>(view.pageOf(RideView::stands));
    ASSERT_EQ(page->standing()->count(), 2);
    const QImage level = page->canvas()->grab().toImage();
    page->standing()->setCurrentIndex(1);
    Q_EMIT page->standing()->activated(1);
    EXPECT_EQ(
        page->list()->rows()[static_cast<std::size_t>(rowOf(RideView::stands, "rear left wheel"))].value,
        "57 kg");
    EXPECT_TRUE(page->canvas()->grab().toImage() != level);
}

TEST_F(RideViewTest, EveryPageIsDrawnInLightAndDarkNarrowAndAllAtOnce) {
    for (const bool dark : {false, true}) {
        Theme::setDark(dark);
        for (const QSize& size : {QSize(430, 520), QSize(900, 700), QSize(1500, 1000)}) {
            view.resize(size);
            QApplication::processEvents();
            EXPECT_EQ(view.showsAll(), size.width() == 1500);
            for (int i = 0; i < 4; ++i) {
                view.open(static_cast<RideView::Page>(i));
                QApplication::processEvents();
                const QImage image = view.pageOf(static_cast<RideView::Page>(i))->canvas()->grab().toImage();
                EXPECT_GT(colours(image), 20U) << i << " at " << size.width();
                test::shot(view,
                           QString("ride_%1_%2_%3").arg(i).arg(size.width()).arg(dark).toUtf8().constData());
            }
        }
    }
}

TEST_F(BareRide, AnEmptyRouteOffersADoor) {
    view.open(RideView::route);
    const EmptyState* empty = view.routePage()->emptyShown();
    ASSERT_NE(empty, nullptr);
    empty->findChild<QPushButton*>()->click();
    ASSERT_EQ(session.project().route.size(), 1U);
    EXPECT_EQ(session.project().route[0].kind, "door");
    EXPECT_EQ(session.project().route[0].width, "32 in");
    EXPECT_TRUE(session.history().canUndo());
}

TEST_F(BareRide, WithoutADonorEveryPageOffersOne) {
    Project project = test::handProject();
    project.donor.kind = "none";
    session.replace(project);
    test::rest(session);
    for (int i = 0; i < 4; ++i) {
        view.open(static_cast<RideView::Page>(i));
        const EmptyState* empty = view.pageOf(static_cast<RideView::Page>(i))->emptyShown();
        ASSERT_NE(empty, nullptr) << i;
        EXPECT_FALSE(empty->findChild<QPushButton*>()->text().isEmpty());
    }
    view.pageOf(RideView::stands)->emptyShown()->findChild<QPushButton*>()->click();
    EXPECT_EQ(session.project().donor.kind, "powered_chair");
}

TEST(BodyShapes, AreSeenAsTheDonorDrives) {
    const Project p = test::rideProject();
    Evaluation e = test::rideEvaluation(p);
    const BodyShapes ahead = bodyShapes(e);
    // The box by hand is 1400 by 640 by 520, 90 over the ground; the rider's head reaches 1255.
    EXPECT_TRUE(ahead.plan.box.min.isApprox(Vec2(-700, -320), 1e-9));
    EXPECT_TRUE(ahead.plan.box.max.isApprox(Vec2(700, 320), 1e-9));
    EXPECT_NEAR(ahead.side.box.max.y(), 1255, 1);
    auto turned = std::make_shared<DonorSet>(*e.donor);
    turned->chassis.forward = -Vec3::UnitX();
    e.donor = turned;
    const BodyShapes astern = bodyShapes(e);
    const auto least = [](const SeenBody& seen) {
        double x = 1e9;
        for (const Ring& ring : seen.rider)
            for (const Vec2& q : ring) x = std::min(x, q.x());
        return x;
    };
    EXPECT_LT(least(ahead.side), -200) << "the rider sits aft of the middle";
    EXPECT_GT(least(astern.side), -200);
}

TEST(RideMarks, LieWhereTheTrialSays) {
    const trial::Trial t = test::handTrial();
    EXPECT_TRUE(rideMarks(t, {}).empty());
    const auto stand = rideMarks(t, {true, false, false});
    ASSERT_EQ(stand.size(), 3U);
    EXPECT_EQ(stand[0].lines.size() + stand[1].lines.size(), 8U) << "four lines";
    EXPECT_EQ(stand[1].kind, MarkKind::firstTip);
    EXPECT_EQ(stand[1].lines.size(), 2U);
    EXPECT_NEAR(std::abs(stand[1].lines[0].y()), 250, 1e-9);
    EXPECT_NEAR(stand[1].lines[0].y(), stand[1].lines[1].y(), 1e-9);
    EXPECT_TRUE(stand[2].lines[1].isApprox(Vec3(0, 0, 500), 1e-9));
    const auto circle = rideMarks(t, {false, false, true});
    ASSERT_EQ(circle.size(), 1U);
    for (const Vec3& p : circle[0].lines) {
        const double r = p.head<2>().norm();
        EXPECT_TRUE(std::abs(r - 770) < 1e-6 || std::abs(r - 200) < 1e-6) << r;
    }
    const auto blind = rideMarks(t, {false, true, false});
    ASSERT_EQ(blind.size(), 1U);
    for (std::size_t i = 0; i + 1 < blind[0].lines.size(); i += 2) {
        const Vec2 from = (blind[0].lines[i] - t.views[0].eye).head<2>(),
                   to = (blind[0].lines[i + 1] - t.views[0].eye).head<2>();
        EXPECT_NEAR(from.norm(), 0, 1e-6);
        EXPECT_TRUE(std::abs(to.norm() - 3000) < 1e-6 || std::abs(to.norm() - 5000) < 1e-6) << to.norm();
    }
}

} // namespace
} // namespace slab::ui
