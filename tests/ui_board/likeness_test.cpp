// The likeness plot: worked out in the background, marked where the document is, one step a click.
#include "core/evaluate/stages.h"
#include "tests/ui_board/board_bench.h"
#include "ui/board/board_bar.h"
#include "ui/board/likeness_plot.h"
#include "ui/theme/card.h"
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

/// A barrel-backed hull: one arc of four facets.
Project bent() {
    Project project = test::hull();
    project.materials.fallback = "foam";
    Curve arc;
    arc.from = "deck";
    arc.to = "stern";
    arc.kind = CurveKind::arc;
    arc.bulge = "0.3 m";
    arc.facets = "4";
    std::get<ProfileShape>(project.forms[0].shape).curves.push_back(arc);
    return project;
}

LikenessSurvey surveyNow(const Project& project) {
    std::vector<Finding> findings;
    return surveyLikeness(project, resolveScope(project, readScale(project.scale).value(), findings));
}

struct PlotBench : BoardBench {
    explicit PlotBench(Project project) : BoardBench(std::move(project)) {
        QTest::mouseClick(view->bar()->button("likeness"), Qt::LeftButton);
        EXPECT_TRUE(view->likeness()->isVisible());
    }
    [[nodiscard]] LikenessPlot& plot() const { return *view->likeness()->plot(); }
    [[nodiscard]] LikenessWatch& watch() const { return *view->likeness()->watch(); }
};

TEST(LikenessView, ItShowsTheSurveyOfTheDocument) {
    PlotBench b(bent());
    ASSERT_TRUE(b.watch().waitUntilCurrent(60000));
    const LikenessSurvey wanted = surveyNow(b.project());
    ASSERT_FALSE(wanted.points.empty());
    EXPECT_EQ(*b.watch().survey(), wanted) << "the same as on one thread";
    // Sagitta of an arc of four equal flats, r (1 − cos(a / 8)) (closed form): the marker stands there.
    const double chord = 1000, sagitta = 300;
    const double r = chord * chord / (8 * sagitta) + sagitta / 2, a = 4 * std::atan(2 * sagitta / chord);
    EXPECT_NEAR(b.watch().survey()->now.greatest, r * (1 - std::cos(a / 8)), 0.5);
    EXPECT_TRUE(b.plot().wordsOf(b.watch().survey()->now).contains("as drawn"));
}

TEST(LikenessView, ItsWordsCoverNeitherCurve) {
    PlotBench b(bent());
    ASSERT_TRUE(b.watch().waitUntilCurrent(60000));
    const LikenessSurvey& s = *b.watch().survey();
    ASSERT_GE(s.points.size(), 2U);
    for (const bool mean : {false, true}) {
        const QRectF word = b.plot().wordPlace(mean);
        EXPECT_TRUE(b.plot().body().contains(word));
        for (const bool of : {false, true})
            for (std::size_t i = 0; i + 1 < s.points.size(); ++i)
                for (int step = 0; step <= 200; ++step) {
                    const auto at = [&](const LikenessPoint& p) {
                        return b.plot().placeOf(p.plates, of ? p.mean : p.greatest);
                    };
                    const QPointF from = at(s.points[i]), to = at(s.points[i + 1]);
                    const QPointF on = from + (to - from) * (step / 200.0);
                    ASSERT_FALSE(word.contains(on))
                        << (mean ? "mean" : "greatest") << " at " << on.x() << " " << on.y();
                }
    }
    EXPECT_FALSE(b.plot().wordPlace(true).intersects(b.plot().wordPlace(false)));
}

TEST(LikenessView, TheCardStaysInSightWhateverTheSheetLosesBelow) {
    PlotBench b(bent());
    const QWidget& card = *b.view->likeness();
    for (const QSize& size : {QSize(1200, 800), QSize(760, 520), QSize(760, 380), QSize(760, 330)}) {
        b.view->resize(size);
        QCoreApplication::processEvents();
        // As when a tall strip comes: the sheet shrinks, the view does not.
        for (const int less : {0, 60}) {
            b.canvas().setFixedHeight(b.canvas().height() - less);
            QCoreApplication::processEvents();
            EXPECT_TRUE(b.canvas().rect().contains(card.geometry()))
                << size.width() << " by " << size.height() << " less " << less << ": "
                << card.geometry().top() << " to " << card.geometry().bottom() << " of "
                << b.canvas().height();
            b.canvas().setMinimumHeight(0);
            b.canvas().setMaximumHeight(QWIDGETSIZE_MAX);
        }
        for (const ElidedLabel* label : card.findChildren<ElidedLabel*>())
            if (label->isVisible()) {
                EXPECT_EQ(label->shown(), label->accessibleName()) << "nothing of it is cut off";
            }
    }
}

TEST(LikenessView, TheSheetMakesRoomForTheCard) {
    int covered = 0;
    for (const QSize& size : {QSize(1200, 800), QSize(874, 560), QSize(760, 520), QSize(1500, 620)}) {
        BoardBench b(bent());
        b.view->resize(size);
        QCoreApplication::processEvents();
        b.canvas().fit();
        const auto lies = [&] {
            int count = 0;
            for (const Box2& area : b.desk().sheet().area)
                count += b.canvas().view().toScreen(area).intersects(QRectF(b.view->likeness()->geometry()));
            return count;
        };
        const PaperView before = b.canvas().view();
        b.view->showLikeness(true);
        QCoreApplication::processEvents();
        const PaperView after = b.canvas().view();
        EXPECT_EQ(lies(), 0) << size.width();
        b.canvas().setPaper(before); // as it was without it
        covered += lies();
        b.canvas().fit();
        EXPECT_EQ(b.canvas().view(), after);
        b.view->showLikeness(false);
        EXPECT_EQ(b.canvas().view(), before) << "and as before when it goes";
    }
    EXPECT_GT(covered, 0) << "there is something to make room for";
}

TEST(LikenessView, AClickOnAPointIsOneStepAndTheMarkerFollows) {
    PlotBench b(bent());
    ASSERT_TRUE(b.watch().waitUntilCurrent(60000));
    const Project before = b.project();
    const LikenessSurvey survey = *b.watch().survey();
    std::size_t other = 0;
    while (survey.points[other].facets == survey.now.facets) ++other;
    const LikenessPoint point = survey.points[other];
    const QPoint at = b.plot().placeOf(point.plates, point.greatest).toPoint();
    ASSERT_EQ(b.plot().pointAt(at), static_cast<int>(other));
    QTest::mouseMove(&b.plot(), at);
    QTest::mouseClick(&b.plot(), Qt::LeftButton, {}, at);
    const auto& curve = std::get<ProfileShape>(b.project().forms[0].shape).curves.at(0);
    EXPECT_EQ(curve.facets, std::to_string(point.facets.at(0).facets));
    EXPECT_EQ(curve.tolerance, "");
    EXPECT_FALSE(b.watch().isCurrent()) << "the plot is of the document before";
    ASSERT_TRUE(b.watch().waitUntilCurrent(60000));
    EXPECT_EQ(b.watch().survey()->now.plates, point.plates);
    EXPECT_NEAR(b.watch().survey()->now.greatest, point.greatest, 1e-9);
    EXPECT_GE(b.plot().pointOfNow(), 0);
    b.session->undo();
    EXPECT_EQ(b.project(), before);
    EXPECT_FALSE(b.session->history().canUndo()) << "one step";
}

TEST(LikenessView, KeysGoFromPointToPointAndReturnTakesOne) {
    PlotBench b(bent());
    ASSERT_TRUE(b.watch().waitUntilCurrent(60000));
    b.plot().setFocus();
    const int now = b.plot().pointOfNow();
    ASSERT_GE(now, 0);
    QTest::keyClick(&b.plot(), Qt::Key_Left);
    ASSERT_EQ(b.plot().marked(), std::max(now - 1, 0));
    const int facets =
        b.watch().survey()->points[static_cast<std::size_t>(b.plot().marked())].facets[0].facets;
    QTest::keyClick(&b.plot(), Qt::Key_Return);
    EXPECT_EQ(std::get<ProfileShape>(b.project().forms[0].shape).curves[0].facets, std::to_string(facets));
}

TEST(LikenessView, ADocumentWithoutCurvesSaysWhatToDo) {
    PlotBench b(test::hull());
    QString words;
    QObject::connect(&b.plot(), &LikenessPlot::told, [&](const QString& w) { words = w; });
    ASSERT_TRUE(b.watch().waitUntilCurrent(60000));
    QTest::mouseMove(&b.plot(), {50, 50});
    QEvent leave(QEvent::Leave);
    QApplication::sendEvent(&b.plot(), &leave);
    EXPECT_TRUE(words.contains("No curve here makes plates")) << words.toStdString();
    EXPECT_FALSE(b.plot().take(0));
    EXPECT_EQ(b.plot().pointAt({80, 50}), -1);
    b.key(Qt::Key_K);
    EXPECT_FALSE(b.view->likeness()->isVisible()) << "its letter takes it away";
}

TEST(LikenessView, OnlyWhatTheDocumentIsNowIsShownAndNothingWorksUnseen) {
    Session session(test::quickEngine());
    session.replace(bent());
    std::atomic<int> runs = 0;
    LikenessWatch watch(&session, [&](const Project& project, const Job&) {
        ++runs;
        LikenessSurvey s;
        s.now.how = project.scale;
        return s;
    });
    EXPECT_EQ(runs, 0) << "nobody looks";
    watch.setLooking(true);
    ASSERT_TRUE(watch.waitUntilCurrent(10000));
    for (const char* scale : {"0.5", "0.6", "0.7"}) session.apply(setScale(scale));
    ASSERT_TRUE(watch.waitUntilCurrent(10000));
    EXPECT_EQ(watch.survey()->now.how, "0.7") << "the latest wins";
    const int before = runs;
    session.apply(setValue("/title", "\"other\""));
    EXPECT_TRUE(watch.isCurrent()) << "a title makes no plates";
    watch.setLooking(false);
    session.apply(setScale("0.9"));
    EXPECT_FALSE(watch.waitUntilCurrent(200));
    EXPECT_EQ(runs, before);
}

TEST(LikenessView, TicksAreRoundFiguresOfTheUnit) {
    const auto mm = likenessTicks(1.5, 60, styleFor("mm"));
    EXPECT_EQ(mm, (std::vector<double>{2, 5, 10, 20, 50}));
    const auto inches = likenessTicks(25.4 / 16, 25.4, styleFor("in"));
    ASSERT_EQ(inches.size(), 5U) << "1/16, 1/8, 1/4, 1/2, 1";
    EXPECT_NEAR(inches[2], 6.35, 1e-12);
    EXPECT_EQ(likenessTicks(0.5, 60, styleFor("mm"), 5), (std::vector<double>{1, 3, 10, 30}));
    EXPECT_EQ(likenessTicks(0.5, 60, styleFor("mm"), 2), (std::vector<double>{1, 10}));
    EXPECT_TRUE(likenessTicks(0, 5, styleFor("mm")).empty());
}

} // namespace
} // namespace slab::ui
