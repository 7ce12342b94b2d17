// The sheet itself: zoom, pan, what is painted, light and dark, one and two device pixels.
#include "tests/ui_board/sheet_bench.h"
#include "ui/board/picture_layer.h"
#include "ui/theme/theme.h"
#include <QImage>
#include <QMenu>
#include <QWheelEvent>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

void wheel(BoardCanvas& canvas, const QPointF& at, int turn) {
    QWheelEvent event(at, canvas.mapToGlobal(at), {}, {0, turn}, Qt::NoButton, {}, Qt::NoScrollPhase, false);
    QApplication::sendEvent(&canvas, &event);
}

TEST(Canvas, ShowsEverythingAtFirst) {
    BoardBench b(test::hull());
    for (const BoardElevation& e : b.desk().scene().views)
        for (const BoardPoint& p : e.points)
            EXPECT_TRUE(b.canvas().paper().contains(b.canvas().pixelOf(e.view, p.at))) << p.name;
}

// Room that comes in small steps is used all the same; what was moved by hand stays.
TEST(Canvas, TheSheetIsFittedToRoomThatGrowsStepByStep) {
    for (const bool touched : {false, true}) {
        BoardBench b(test::hull());
        b.view->resize(1200, 560);
        QCoreApplication::processEvents();
        b.canvas().fit();
        if (touched) wheel(b.canvas(), {700, 200}, 120);
        const double before = b.canvas().view().scale;
        for (int height = 620; height <= 860; height += 60) {
            b.view->resize(1200, height);
            QCoreApplication::processEvents();
        }
        const double after = b.canvas().view().scale;
        if (touched)
            EXPECT_EQ(after, before);
        else
            EXPECT_GT(after, 1.3 * before);
    }
}

TEST(Canvas, TheWheelZoomsAtThePointer) {
    BoardBench b(test::hull());
    const QPointF at(700, 300);
    const Vec2 before = b.canvas().view().toPaper(at);
    const double scale = b.canvas().view().scale;
    wheel(b.canvas(), at, 240);
    EXPECT_GT(b.canvas().view().scale, scale * 1.2);
    EXPECT_LT((b.canvas().view().toPaper(at) - before).norm(), 1e-6);
    for (int i = 0; i < 200; ++i) wheel(b.canvas(), at, 1200);
    EXPECT_LE(b.canvas().view().scale, 60.001);
    b.key(Qt::Key_F);
    EXPECT_NEAR(b.canvas().view().scale, scale, 1e-9);
}

TEST(Canvas, SpaceAndTheMiddleButtonMoveTheSheet) {
    BoardBench b(test::hull());
    const QPointF before = b.canvas().view().origin;
    QTest::keyPress(&b.canvas(), Qt::Key_Space);
    b.drag({500, 300}, {560, 330});
    QTest::keyRelease(&b.canvas(), Qt::Key_Space);
    EXPECT_EQ(b.canvas().view().origin, before + QPointF(60, 30));
    EXPECT_TRUE(b.desk().choice().empty());
    EXPECT_FALSE(b.session->history().canUndo());
}

TEST(Canvas, PicksTheViewUnderThePointer) {
    BoardBench b(test::hull());
    for (const BoardView view : boardViews) {
        const Vec2 middle = (b.desk().scene().of(view).bounds.min + b.desk().scene().of(view).bounds.max) / 2;
        const BoardPointer pointer = b.canvas().pointerAt(b.canvas().pixelOf(view, middle));
        EXPECT_EQ(pointer.view, view);
        EXPECT_LT((pointer.at - middle).norm(), 1e-6);
    }
}

TEST(Canvas, TellsWhereThePointerIs) {
    BoardBench b(test::hull());
    QTest::mouseMove(&b.canvas(), b.px(BoardView::plan, {500, 200}));
    EXPECT_TRUE(b.view->placeWords().startsWith("Plan · x ")) << b.view->placeWords().toStdString();
    EXPECT_TRUE(b.view->placeWords().contains("y ")) << b.view->placeWords().toStdString();
}

int inked(const QImage& image, const QRect& box, const QColor& paper) {
    int count = 0;
    for (int y = box.top(); y <= box.bottom(); ++y)
        for (int x = box.left(); x <= box.right(); ++x) count += image.pixelColor(x, y) != paper;
    return count;
}

TEST(Canvas, PaintsInLightAndDarkOnBothKindsOfScreen) {
    BoardBench b(test::hull());
    for (const bool dark : {false, true}) {
        Theme::setDark(dark);
        for (const double ratio : {1.0, 2.0}) {
            QImage image(b.canvas().size() * ratio, QImage::Format_ARGB32_Premultiplied);
            image.setDevicePixelRatio(ratio);
            b.canvas().render(&image);
            const QPoint stem =
                (b.canvas().pixelOf(BoardView::side, b.at(BoardView::side, "hull/stem")) * ratio).toPoint();
            EXPECT_GT(inked(image, QRect(stem - QPoint(4, 4), QSize(9, 9)), Theme::colours().card), 10);
            EXPECT_GT(
                inked(image, QRect(QPoint(60, 2) * ratio, QSize(600, 20) * ratio), Theme::colours().paper),
                200)
                << "the ruler has marks";
        }
    }
    Theme::setDark(false);
}

TEST(Canvas, AnEmptySheetSaysWhatToDo) {
    BoardBench b;
    auto* card = b.view->findChild<WelcomeCard*>();
    ASSERT_TRUE(card);
    EXPECT_TRUE(card->isVisible());
    b.view->take("profile");
    EXPECT_FALSE(card->isVisible()) << "it makes room for drawing";
    b.view->take("choose");
    EXPECT_TRUE(card->isVisible());
    b.session->replace(test::hull());
    EXPECT_FALSE(card->isVisible());
}

TEST(Canvas, AFormThatComesFromElsewhereComesIntoSight) {
    BoardBench b(test::hull());
    const auto whole = [&] {
        for (const BoardElevation& e : b.desk().scene().views)
            for (const BoardPoint& p : e.points)
                if (!b.canvas().paper().contains(b.canvas().pixelOf(e.view, p.at))) return false;
        return true;
    };
    ASSERT_TRUE(whole());
    ASSERT_TRUE(b.session->apply({"Paste", {}, [](const Project& p) -> Expected<Project> {
                                      Project next = p;
                                      next.forms.push_back(p.forms.front());
                                      next.forms.back().name = "second";
                                      next.forms.back().at.x = "6 m";
                                      return next;
                                  }}));
    ASSERT_TRUE(b.session->waitUntilAtRest(20000));
    EXPECT_TRUE(whole());
}

TEST(Canvas, ThePopUpOfMechanismsHasItsFirstEntryChosen) {
    BoardBench b(test::hull());
    b.key(Qt::Key_W);
    QMenu* menu = nullptr;
    for (auto* one : b.canvas().findChildren<QMenu*>())
        if (one->isVisible()) menu = one;
    ASSERT_TRUE(menu);
    EXPECT_EQ(menu->activeAction(), menu->actions().first());
    menu->close();
}

using CanvasPicture = test::SheetOfViews;

TEST_F(CanvasPicture, ByNightItsPaperIsAsDarkAsTheSheet) {
    Theme::setDark(true);
    Project project = sheet();
    project.pictures[0].opacity = "1";
    BoardBench b(project);
    b.canvas().pictures().setFolder(folder.path());
    QCoreApplication::processEvents();
    b.canvas().setGridOn(false);
    b.canvas().fit();
    QImage image(b.canvas().size(), QImage::Format_ARGB32_Premultiplied);
    b.canvas().render(&image);
    const QPoint at = b.canvas().pixelOf(BoardView::side, place(300, 200)).toPoint();
    ASSERT_TRUE(image.rect().contains(at));
    EXPECT_EQ(image.pixelColor(at).name(), Theme::colours().card.name());
    Theme::setDark(false);
}

TEST(Canvas, EveryControlSaysWhatItIs) {
    BoardBench b(test::hull());
    for (const QWidget* w : b.view->findChildren<QWidget*>()) {
        if (!w->isVisible() || w->focusPolicy() == Qt::NoFocus || w->objectName().startsWith("qt_")) continue;
        EXPECT_NE(w->accessibleName(), "") << w->metaObject()->className();
    }
}

} // namespace
} // namespace slab::ui
