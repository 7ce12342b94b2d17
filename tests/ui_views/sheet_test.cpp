#include "core/survey/survey.h"
#include "tests/ui_views/hand_body.h"
#include "ui/sheets/sheet_board.h"
#include "ui/sheets/sheet_view.h"
#include "ui/theme/empty_state.h"
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

class SheetViewTest : public testing::Test {
protected:
    SheetViewTest() : session(test::handEngine()) {
        session.replace(test::handProject());
        test::rest(session);
        view = std::make_unique<SheetView>(&session);
        view->resize(560, 360);
        view->show();
        QApplication::processEvents();
        board = view->findChild<SheetBoard*>();
    }
    QPointF centreOf(int sheet, std::size_t panel) const {
        const auto& laid = board->sheets()[static_cast<std::size_t>(sheet)].panels[panel];
        return board->viewOf(sheet).toScreen(centroid({laid.outer, {}}));
    }
    Session session;
    std::unique_ptr<SheetView> view;
    SheetBoard* board = nullptr;
};

TEST_F(SheetViewTest, PlacedPointIsTheNestersPlacedPoint) {
    const auto& problem = *session.evaluation().nestProblem;
    for (const NestPlace& place : {NestPlace{0, 0, 120, 40, 0.7, false}, NestPlace{0, 0, -3, 9, 2.1, true}}) {
        const Polygon there = placed(problem.parts[0], place);
        for (std::size_t i = 0; i < there.outer.size(); ++i) {
            // A mirrored ring may start elsewhere or run the other way: look for the nearest point.
            double least = 1e300;
            for (const auto& p : problem.parts[0].shape.outer)
                least = std::min(least, (placedPoint(p, place) - there.outer[i]).norm());
            EXPECT_LT(least, 1e-9);
        }
    }
}

TEST_F(SheetViewTest, OutlineOnScreenIsThePanelWhereItWasPlaced) {
    const auto& layouts = session.evaluation().sheets->layouts;
    const auto& panels = *session.evaluation().panels;
    for (std::size_t s = 0; s < layouts.size(); ++s) {
        for (std::size_t k = 0; k < layouts[s].places.size(); ++k) {
            const NestPlace& place = layouts[s].places[k];
            const auto& panel = panels[static_cast<std::size_t>(place.part)];
            const PaperView paper = board->viewOf(static_cast<int>(s));
            const QPolygonF ring = paper.ring(board->sheets()[s].panels[k].outer);
            for (std::size_t i = 0; i < panel.boundary.outer.size(); ++i) {
                const Vec2 back = paper.toPaper(ring[static_cast<qsizetype>(i)]);
                EXPECT_LT((back - placedPoint(panel.boundary.outer[i], place)).norm(), 1e-9);
            }
        }
    }
}

TEST_F(SheetViewTest, ShorterTitlesKeepTheNumberAndTheShed) {
    for (std::size_t i = 0; i < board->sheets().size(); ++i) {
        const QStringList& titles = board->sheets()[i].titles;
        ASSERT_GE(titles.size(), 3);
        EXPECT_EQ(titles.back(), QString::number(i + 1));
        for (qsizetype k = 1; k < titles.size(); ++k) {
            EXPECT_LE(titles[k].size(), titles[k - 1].size());
            EXPECT_TRUE(titles[k].startsWith(titles.back()));
        }
        EXPECT_EQ(titles.front().contains("shed"), titles[titles.size() - 2].contains("shed"));
    }
}

TEST_F(SheetViewTest, ClickSelectsThePlate) {
    for (std::size_t k = 0; k < board->sheets()[0].panels.size(); ++k) {
        QTest::mouseClick(board, Qt::LeftButton, {}, centreOf(0, k).toPoint());
        EXPECT_EQ(session.selection().plate.toStdString(), board->sheets()[0].panels[k].plate);
    }
    test::shot(*view, "sheets");
    QTest::mouseClick(board, Qt::LeftButton, {}, QPoint(1, 1));
    EXPECT_TRUE(session.selection().plate.isEmpty());
}

TEST_F(SheetViewTest, DoubleClickFillsAndComesBack) {
    const double before = board->viewOf(0).scale;
    QTest::mouseDClick(board, Qt::LeftButton, {}, centreOf(0, 0).toPoint());
    EXPECT_GE(board->viewOf(0).scale, before * (1 - 1e-12));
    test::shot(*view, "sheet_filled");
    QTest::mouseDClick(board, Qt::LeftButton, {}, centreOf(0, 0).toPoint());
    EXPECT_DOUBLE_EQ(board->viewOf(0).scale, before);
}

TEST_F(SheetViewTest, WheelZoomsAboutThePointer) {
    const QPointF at = centreOf(0, 0);
    const Vec2 under = board->viewOf(0).toPaper(at);
    QWheelEvent wheel(at, board->mapToGlobal(at), {}, {0, 480}, Qt::NoButton, Qt::NoModifier,
                      Qt::NoScrollPhase, false);
    QApplication::sendEvent(board, &wheel);
    EXPECT_LT((board->viewOf(0).toPaper(at) - under).norm(), 1e-9);
    QTest::keyClick(board, Qt::Key_F);
    EXPECT_EQ(board->at(at).second, 0);
}

TEST_F(SheetViewTest, EmptyStateAsksForStock) {
    Session bare(Engine{[](const Project&, Effort, std::uint64_t, const Job&) { return Evaluation{}; },
                        [](const Project&, double, double, const Job&) { return ScaleSurvey{}; }});
    SheetView empty(&bare);
    empty.resize(500, 300);
    empty.show();
    QSignalSpy spy(&empty, &SheetView::stockWanted);
    QPushButton* button = nullptr;
    for (EmptyState* state : empty.findChildren<EmptyState*>())
        if (auto* offered = state->findChild<QPushButton*>(); !offered->text().isEmpty()) button = offered;
    ASSERT_NE(button, nullptr);
    EXPECT_TRUE(button->isVisible());
    button->click();
    EXPECT_EQ(spy.count(), 1);
}

} // namespace
} // namespace slab::ui
