// Pictures cut into views and cropped by hand, by real mouse and keyboard events.
#include "tests/ui_board/sheet_bench.h"
#include "ui/board/cut_tool.h"
#include "ui/board/field_strip.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QFile>
#include <QImage>
#include <QTemporaryDir>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;
using test::buttonOf;
using test::SheetOfViews;

/// Pixels of a click are whole on screen; a picture's pixel is as coarse as the zoom makes it.
double coarse(const BoardBench& b) {
    return 1.5 / (5 * b.canvas().view().scale) + 1;
}

TEST_F(SheetOfViews, BoxesBecomePicturesOfOneScaleInTheirElevations) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    const Project before = b.project();
    b.click(BoardView::side, place(400, 300));
    ASSERT_EQ(b.desk().choice().picture, 0);
    QToolButton* cut = buttonOf(b.view->pictureStrip(), "Cut into views");
    ASSERT_TRUE(cut);
    QTest::mouseClick(cut, Qt::LeftButton);
    ASSERT_TRUE(b.view->cutStrip()->serves());
    const auto box = [&](const Vec2& from, const Vec2& to) {
        b.drag(b.px(BoardView::side, place(from.x(), from.y())),
               b.px(BoardView::side, place(to.x(), to.y())));
    };
    box({40, 40}, {440, 240});
    box({520, 40}, {720, 240});
    box({40, 340}, {440, 540});
    const auto* tool = dynamic_cast<CutTool*>(&b.canvas().tool());
    ASSERT_TRUE(tool);
    ASSERT_EQ(tool->cuts().size(), 3U);
    EXPECT_EQ(tool->cuts()[0].view, "side");
    EXPECT_EQ(tool->cuts()[1].view, "front");
    EXPECT_EQ(tool->cuts()[2].view, "plan");
    // Told otherwise by a key and back by a button.
    b.key(Qt::Key_S);
    EXPECT_EQ(tool->cuts()[2].view, "side");
    QTest::mouseClick(buttonOf(b.view->cutStrip(), "Plan"), Qt::LeftButton);
    EXPECT_EQ(tool->cuts()[2].view, "plan");
    b.key(Qt::Key_Return);
    ASSERT_EQ(b.project().pictures.size(), 3U);
    EXPECT_FALSE(b.view->cutStrip()->serves()) << "the tool has done what it was for";
    const auto& placed = b.canvas().pictures().placed().pictures;
    ASSERT_EQ(placed.size(), 3U);
    for (const PlacedPicture& p : placed) {
        EXPECT_EQ(p.file, "tram.png");
        EXPECT_NEAR((toPlane(p.fix, {100, 0}) - toPlane(p.fix, {0, 0})).norm(), 500, 1e-9) << "one scale";
    }
    EXPECT_EQ(placed[0].view, "side");
    EXPECT_EQ(placed[1].view, "front");
    EXPECT_EQ(placed[2].view, "plan");
    EXPECT_NEAR(placed[0].crop.size().x(), 400, 2 * coarse(b));
    const Box2 side = bounds(placed[0].outline), front = bounds(placed[1].outline),
               plan = bounds(placed[2].outline);
    EXPECT_NEAR(front.min.y(), side.min.y(), 1e-3) << "on the same ground";
    EXPECT_NEAR(plan.min.x(), side.min.x(), 1e-3) << "in line with the side";
    EXPECT_NEAR(front.min.x(), -front.max.x(), 1e-3) << "astride the middle";
    b.session->undo();
    EXPECT_EQ(b.project(), before) << "one step";
}

/// Pixels lighter than middle grey in the canvas around a place of the side view, as a share.
double lightAround(const BoardBench& b, const Vec2& at) {
    const QImage seen = b.canvas().grab().toImage();
    const QPoint middle = b.px(BoardView::side, at) * seen.devicePixelRatio();
    int light = 0, all = 0;
    for (int y = -20; y <= 20; ++y)
        for (int x = -20; x <= 20; ++x, ++all)
            light += qGray(seen.pixel(middle + QPoint(x, y))) > 128 ? 1 : 0;
    return static_cast<double>(light) / all;
}

TEST_F(SheetOfViews, ADrawingTurnsLightOnDarkWithTheBoardAndAPhotoStays) {
    const bool was = Theme::dark();
    Project project = sheet();
    QImage photo(800, 600, QImage::Format_RGB32);
    photo.fill(QColor(200, 120, 160));
    ASSERT_TRUE(photo.save(folder.filePath("photo.png")));
    // A drawing without paper of its own: only its lines have a colour.
    QFile(folder.filePath("clear.svg")).remove();
    QFile svg(folder.filePath("clear.svg"));
    ASSERT_TRUE(svg.open(QIODevice::WriteOnly));
    svg.write("<svg xmlns='http://www.w3.org/2000/svg' width='800' height='600' viewBox='0 0 800 600'>"
              "<path d='M 10 10 H 790' stroke='black'/></svg>");
    svg.close();
    for (const char* file : {"tram.png", "clear.svg", "photo.png"}) {
        const bool drawing = QString(file) != "photo.png";
        project.pictures[0].file = file;
        project.pictures[0].opacity = "1";
        Theme::setDark(false);
        BoardBench b(project);
        b.canvas().pictures().setFolder(folder.path());
        b.canvas().fit();
        EXPECT_GT(lightAround(b, place(300, 200)), 0.9) << file;
        Theme::setDark(true);
        if (drawing)
            EXPECT_LT(lightAround(b, place(300, 200)), 0.1) << file;
        else
            EXPECT_GT(lightAround(b, place(300, 200)), 0.9) << file;
    }
    Theme::setDark(was);
}

TEST_F(SheetOfViews, WhatIsMarkedFromAfarIsAsUnsureAsAPixelOfTheScreen) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.click(BoardView::side, place(400, 300));
    const double coarse =
        1 / (5 * b.canvas().view().scale * b.canvas().devicePixelRatioF()); // picture pixels
    ASSERT_GT(coarse, 1.1) << "the sheet is seen from afar";
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Measure on it"), Qt::LeftButton);
    b.click(BoardView::side, place(100, 100));
    b.click(BoardView::side, place(500, 100));
    ASSERT_EQ(b.project().pictures[0].lines.size(), 1U);
    const double said = std::stod(b.project().pictures[0].lines[0].click_error);
    EXPECT_NEAR(said, coarse, 0.11) << "to a tenth, rounded up";
    // Two ends of that error each, the scale's own two points of one pixel: as the published sum of squares.
    const PlacedLine& line = b.canvas().pictures().placed().pictures[0].lines[0];
    EXPECT_GT(line.length.error, 5 * said * std::sqrt(2.0) * 0.999);
    EXPECT_LT(line.length.error, 5 * std::hypot(said, 1.0) * std::sqrt(2.0) * 1.001);
    // From near a picture pixel is what limits it, and that is the picture's own.
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, place(300, 300)));
    for (int i = 0; i < 12; ++i) b.key(Qt::Key_Plus); // 1.2 each
    b.click(BoardView::side, place(250, 300));
    b.click(BoardView::side, place(330, 300));
    ASSERT_EQ(b.project().pictures[0].lines.size(), 2U);
    EXPECT_EQ(b.project().pictures[0].lines[1].click_error, "");
}

TEST_F(SheetOfViews, NothingStaysChosenInAnotherDocument) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.click(BoardView::side, place(400, 300));
    ASSERT_EQ(b.desk().choice().picture, 0);
    Project other = sheet();
    other.title = "another";
    b.session->replace(other);
    EXPECT_TRUE(b.desk().choice().empty());
    b.key(Qt::Key_Delete);
    EXPECT_EQ(b.project().pictures.size(), 1U) << "nothing was chosen, nothing goes";
}

TEST_F(SheetOfViews, APicturePutBackIsSeenByItself) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    ASSERT_EQ(b.canvas().pictures().at(0)->state, PlacedPicture::State::present);
    ASSERT_TRUE(QFile::rename(folder.filePath("tram.png"), folder.filePath("away.png")));
    EXPECT_TRUE(QTest::qWaitFor(
        [&] { return b.canvas().pictures().at(0)->state == PlacedPicture::State::missing; }, 10000));
    ASSERT_TRUE(QFile::rename(folder.filePath("away.png"), folder.filePath("tram.png")));
    EXPECT_TRUE(QTest::qWaitFor(
        [&] { return b.canvas().pictures().at(0)->state == PlacedPicture::State::present; }, 10000));
}

TEST_F(SheetOfViews, EscapeInAStripGoesBackToTheSheet) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.click(BoardView::side, place(400, 300));
    auto boxes = b.view->pictureStrip()->findChildren<QComboBox*>();
    ASSERT_FALSE(boxes.isEmpty());
    test::unfold(b.view->pictureStrip(), boxes.front());
    boxes.front()->setFocus();
    QKeyEvent ask(QEvent::ShortcutOverride, Qt::Key_Escape, Qt::NoModifier);
    ask.ignore();
    QApplication::sendEvent(b.view.get(), &ask);
    EXPECT_TRUE(ask.isAccepted()) << "no shortcut of the window takes it";
    QTest::keyClick(boxes.front(), Qt::Key_Escape);
    EXPECT_TRUE(b.canvas().hasFocus());
}

TEST_F(SheetOfViews, ThePointersPlaceIsToldWhileItIsOnTheBoard) {
    BoardBench b(sheet());
    const auto* place = b.view->findChild<ElidedLabel*>("place");
    ASSERT_TRUE(place);
    EXPECT_TRUE(place->text().isEmpty()) << place->text().toStdString();
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, {500, 500}));
    EXPECT_TRUE(place->text().startsWith("Side")) << place->text().toStdString();
    QEvent leave(QEvent::Leave);
    QApplication::sendEvent(&b.canvas(), &leave);
    EXPECT_TRUE(place->text().isEmpty());
}

TEST_F(SheetOfViews, ABoxIsPulledAtItsEdgeAndDropped) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.click(BoardView::side, place(400, 300));
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Cut into views"), Qt::LeftButton);
    const auto* tool = dynamic_cast<CutTool*>(&b.canvas().tool());
    ASSERT_TRUE(tool);
    b.drag(b.px(BoardView::side, place(100, 100)), b.px(BoardView::side, place(300, 300)));
    ASSERT_EQ(tool->cuts().size(), 1U);
    const Box2 drawn = tool->cuts()[0].box;
    b.drag(b.px(BoardView::side, place(300, 200)), b.px(BoardView::side, place(1200, 200)));
    EXPECT_NEAR(tool->cuts()[0].box.max.x(), 4000, 1e-9) << "no further than the picture";
    EXPECT_EQ(tool->cuts()[0].box.min, drawn.min);
    EXPECT_EQ(tool->cuts()[0].box.max.y(), drawn.max.y());
    b.key(Qt::Key_Delete);
    EXPECT_TRUE(tool->cuts().empty());
    b.key(Qt::Key_Return);
    EXPECT_EQ(b.project().pictures.size(), 1U) << "nothing is cut without a box";
    EXPECT_TRUE(b.view->helpWords().contains("No view is drawn")) << b.view->helpWords().toStdString();
}

TEST_F(SheetOfViews, ASheetWithoutAScaleIsNotCut) {
    Project project = sheet();
    project.pictures[0].distance.clear();
    BoardBench b(project);
    b.canvas().pictures().setFolder(folder.path());
    b.desk().choose({BoardView::side, {}, {}, -1, 0});
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Cut into views"), Qt::LeftButton);
    EXPECT_FALSE(b.view->cutStrip()->serves());
    EXPECT_TRUE(b.view->helpWords().contains("size is not known")) << b.view->helpWords().toStdString();
}

TEST_F(SheetOfViews, APictureIsCroppedAtItsEdgesInOneStepAndComesBack) {
    BoardBench b(sheet());
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    const Project before = b.project();
    b.click(BoardView::side, place(400, 300));
    ASSERT_EQ(b.desk().choice().picture, 0);
    b.drag(b.px(BoardView::side, place(0, 300)), b.px(BoardView::side, place(200, 300)));
    const PlacedPicture* placed = b.canvas().pictures().at(0);
    EXPECT_NEAR(placed->crop.min.x(), 200, coarse(b));
    EXPECT_EQ(placed->crop.max, Vec2(800, 600));
    EXPECT_EQ(b.desk().choice().picture, 0) << "it stays chosen";
    // A corner takes two sides along.
    b.drag(b.px(BoardView::side, place(800, 0)), b.px(BoardView::side, place(700, 100)));
    placed = b.canvas().pictures().at(0);
    EXPECT_NEAR(placed->crop.max.x(), 700, coarse(b));
    EXPECT_NEAR(placed->crop.min.y(), 100, coarse(b));
    EXPECT_EQ(placed->crop.max.y(), 600);
    // Far out again: as much as there is.
    b.drag(b.px(BoardView::side, place(placed->crop.min.x(), 350)), b.px(BoardView::side, place(-300, 350)));
    EXPECT_EQ(b.canvas().pictures().at(0)->crop.min.x(), 0);
    for (int i = 0; i < 3; ++i) b.session->undo();
    EXPECT_EQ(b.project(), before) << "three drags, three steps";
}

/// Rows of what is seen in the strip, by their middles.
int rowsOf(const QWidget* strip) {
    std::vector<int> middles;
    for (const QObject* child : strip->children()) {
        const auto* part = qobject_cast<const QWidget*>(child);
        if (!part || part->isHidden()) continue;
        const int y = part->geometry().center().y();
        if (std::none_of(middles.begin(), middles.end(), [&](int m) { return std::abs(m - y) < 8; }))
            middles.push_back(y);
    }
    return static_cast<int>(middles.size());
}

TEST_F(SheetOfViews, TheStripTakesThreeRowsAndAllOfItIsReachedByKeys) {
    // Beside the body in windows of 1366 and 1600 px, and alone in one of 1366.
    for (const int width : {900, 1130, 1340}) {
        BoardBench b(sheet());
        b.view->resize(width, 700);
        b.canvas().pictures().setFolder(folder.path());
        b.canvas().fit();
        b.click(BoardView::side, place(400, 300));
        QCoreApplication::processEvents();
        const PictureStrip* strip = b.view->pictureStrip();
        ASSERT_TRUE(strip->isVisible());
        EXPECT_LE(rowsOf(strip), 3) << width;
        const auto sections = strip->sectionButtons();
        ASSERT_FALSE(sections.isEmpty());
        for (QToolButton* section : sections) {
            ASSERT_TRUE(section->isVisible()) << width;
            EXPECT_NE(section->focusPolicy() & Qt::TabFocus, 0) << section->text().toStdString();
            section->setFocus(Qt::TabFocusReason);
            QTest::keyClick(section, Qt::Key_Space);
            QCoreApplication::processEvents();
            EXPECT_TRUE(section->isChecked());
            EXPECT_LE(rowsOf(strip), 3) << section->text().toStdString() << " at " << width;
        }
        // Every part comes by one of them.
        for (const char* deed : {"Two points", "Level", "Four corners", "Crop", "Cut into views", "Mark",
                                 "Measure on it", "Hide", "Remove"})
            EXPECT_TRUE(buttonOf(strip, deed)->isVisible()) << deed;
        for (auto* one : strip->findChildren<StripEntry*>()) {
            test::unfold(strip, one);
            EXPECT_TRUE(one->isVisible()) << one->label().toStdString();
        }
        // A figure typed over the sheet goes to the known distance, wherever that is.
        b.canvas().setFocus();
        b.key(Qt::Key_7);
        EXPECT_TRUE(strip->focusWidget() && strip->focusWidget()->isVisible());
    }
}

TEST_F(SheetOfViews, TheStripKeepsWhatBelongsTogetherInOneRow) {
    BoardBench b(sheet());
    b.view->resize(2700, 900); // a large screen: all of it is seen
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.click(BoardView::side, place(400, 300));
    QCoreApplication::processEvents();
    const PictureStrip* strip = b.view->pictureStrip();
    ASSERT_TRUE(strip->isVisible());
    const auto row = [&](const char* words) {
        const QToolButton* one = buttonOf(strip, words);
        return one ? one->geometry().center().y() : -1;
    };
    for (const char* deed : {"Cut into views", "Mark", "Measure on it", "Hide", "Remove"})
        EXPECT_EQ(row(deed), row("Crop")) << deed;
    for (const char* deed : {"Two points", "Level", "Plumb"}) EXPECT_EQ(row(deed), row("Level")) << deed;
    for (const QToolButton* section : strip->sectionButtons()) EXPECT_FALSE(section->isVisible());
    for (const auto* label : strip->findChildren<ElidedLabel*>())
        EXPECT_EQ(label->shown(), label->text()) << label->text().toStdString();
}

TEST_F(SheetOfViews, BringingToScaleKeepsThePictureWhereItIs) {
    for (const bool turned : {false, true}) {
        Project project = sheet();
        project.scale = "1/2";
        project.pictures[0].x = "300 mm";
        project.pictures[0].y = "200 mm";
        if (turned) project.pictures[0].turn = "10 deg";
        BoardBench b(project);
        b.canvas().pictures().setFolder(folder.path());
        b.canvas().fit();
        b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
        const PlaneFix before = b.canvas().pictures().at(0)->fix;
        const Vec2 a = toPlane(before, {200, 400}), z = toPlane(before, {600, 250});
        for (auto* one : b.view->pictureStrip()->findChildren<StripEntry*>())
            if (one->label() == "distance") one->edit()->setText("1 m");
        QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Two points"), Qt::LeftButton);
        b.click(BoardView::side, a);
        b.click(BoardView::side, z);
        const PlacedPicture& placed = *b.canvas().pictures().at(0);
        const PlaneFix after = placed.fix;
        const double off = 1.5 / b.canvas().view().scale;
        EXPECT_LT((toPlane(after, {200, 400}) - a).norm(), off) << "the first point stays";
        const Vec2 was = z - a, is = toPlane(after, {600, 250}) - toPlane(after, {200, 400});
        EXPECT_NEAR(is.norm(), 500, 3 * off) << "a metre of the subject at half size";
        EXPECT_LT(std::abs(cross2(was.normalized(), is.normalized())), 1e-3) << "nothing turns";
    }
}

TEST_F(SheetOfViews, ATypedDistanceWaitsForItsPoints) {
    Project project = sheet();
    project.pictures[0].from = project.pictures[0].to = {};
    project.pictures[0].distance.clear();
    BoardBench b(project);
    b.canvas().pictures().setFolder(folder.path());
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    StripEntry* distance = nullptr;
    for (auto* one : b.view->pictureStrip()->findChildren<StripEntry*>())
        if (one->label() == "distance") distance = one;
    ASSERT_TRUE(distance);
    distance->edit()->setFocus();
    QTest::keyClicks(distance->edit(), "4.3 m");
    QTest::keyClick(distance->edit(), Qt::Key_Return);
    distance->edit()->clearFocus();
    Q_EMIT b.canvas().pictures().changed(); // a result comes in
    EXPECT_EQ(distance->edit()->text(), "4.3 m");
    EXPECT_TRUE(b.project().pictures[0].distance.empty()) << "it is of the points that are marked next";
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Two points"), Qt::LeftButton);
    EXPECT_TRUE(b.canvas().tool().words().startsWith("Click the first of two points"))
        << b.view->helpWords().toStdString();
}

} // namespace
} // namespace slab::ui
