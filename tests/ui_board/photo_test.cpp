// Photos taken at an angle: corners marked, questioned, cropped and cut by real mouse and keyboard events.
#include "tests/ui_board/sheet_bench.h"
#include "ui/board/field_strip.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include <cmath>

namespace slab::ui {
namespace {

using test::BoardBench;
using test::buttonOf;

/// A photo of a rectangle 2000 by 1500 mm, taken at an angle by a camera whose axis goes through its middle.
class PhotoAtAnAngle : public test::SheetOfViews {
protected:
    static constexpr double wide = 2000, high = 1500;
    static Vec2 seen(const Vec2& place) {
        const double turned = 0.5, away = 4000, focal = 640;
        const Vec2 p = place - Vec2(wide / 2, high / 2);
        const double depth = away + p.x() * std::sin(turned);
        return {400 + focal * p.x() * std::cos(turned) / depth, 300 - focal * p.y() / depth};
    }
    Project photo(bool marked) {
        Project project = sheet();
        Picture& p = project.pictures[0];
        p.from = p.to = {};
        p.distance.clear();
        p.space = Space::build;
        if (!marked) return project;
        for (const Vec2& corner : {Vec2(0, 0), Vec2(wide, 0), Vec2(wide, high), Vec2(0, high)})
            p.corners.push_back({{}, std::to_string(seen(corner).x()), std::to_string(seen(corner).y()), {}});
        p.rectangle_width = "2000 mm";
        p.rectangle_height = "1500 mm";
        return project;
    }
    /// The four corners of the rectangle clicked in that order, as they lie on the unmarked picture.
    static void clickCorners(const BoardBench& b, const std::array<Vec2, 4>& corners) {
        QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Four corners"), Qt::LeftButton);
        const PlaneFix fix = b.canvas().pictures().at(0)->fix;
        for (const Vec2& corner : corners) b.click(BoardView::side, toPlane(fix, seen(corner)));
    }
    static StripEntry* entry(const BoardBench& b, const QString& label) {
        for (auto* one : b.view->pictureStrip()->findChildren<StripEntry*>())
            if (one->label() == label) {
                test::unfold(b.view->pictureStrip(), one);
                return one;
            }
        return nullptr;
    }
};

TEST_F(PhotoAtAnAngle, IsCroppedToTheBoxThatIsDrawnOnIt) {
    BoardBench b(photo(true));
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    ASSERT_EQ(b.canvas().pictures().at(0)->scale, PlacedPicture::Scale::rectangle);
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    const Project before = b.project();
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Crop"), Qt::LeftButton);
    const Vec2 from(400, 300), to(1500, 1100);
    b.drag(b.px(BoardView::side, from), b.px(BoardView::side, to));
    const double off = 1.5 / b.canvas().view().scale;
    const auto isBox = [&](const PlacedPicture& p, const Vec2& low, const Vec2& high) {
        ASSERT_EQ(p.outline.size(), 4U);
        const Box2 all = bounds(p.outline);
        EXPECT_LT((all.min - low).cwiseAbs().maxCoeff(), off) << all.min.transpose();
        EXPECT_LT((all.max - high).cwiseAbs().maxCoeff(), off) << all.max.transpose();
        EXPECT_NEAR(std::abs(signedArea(p.outline)) / (all.size().x() * all.size().y()), 1, 1e-3)
            << "its edges run level and plumb";
    };
    isBox(*b.canvas().pictures().at(0), from, to);
    EXPECT_EQ(b.desk().choice().picture, 0) << "what was worked on stays chosen";
    // Its right side is pulled in, and out again.
    b.drag(b.px(BoardView::side, {to.x(), 700}), b.px(BoardView::side, {1200, 700}));
    isBox(*b.canvas().pictures().at(0), from, {1200, 1100});
    b.drag(b.px(BoardView::side, {1200, 700}), b.px(BoardView::side, to - Vec2(0, 400)));
    isBox(*b.canvas().pictures().at(0), from, to);
    for (int i = 0; i < 3; ++i) b.session->undo();
    EXPECT_EQ(b.project(), before);
}

TEST_F(PhotoAtAnAngle, IsCutIntoTheBoxesThatAreDrawnOnIt) {
    BoardBench b(photo(true));
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Cut into views"), Qt::LeftButton);
    b.drag(b.px(BoardView::side, {200, 400}), b.px(BoardView::side, {1100, 1200}));
    b.drag(b.px(BoardView::side, {1400, 300}), b.px(BoardView::side, {1950, 1300}));
    b.key(Qt::Key_Return);
    const auto& placed = b.canvas().pictures().placed().pictures;
    ASSERT_EQ(placed.size(), 2U);
    const double off = 1.5 / b.canvas().view().scale + 1.5 * 1000 / b.canvas().width();
    for (const PlacedPicture& p : placed) {
        const Box2 all = bounds(p.outline);
        EXPECT_NEAR(std::abs(signedArea(p.outline)) / (all.size().x() * all.size().y()), 1, 1e-3) << p.view;
    }
    EXPECT_NEAR(bounds(placed[0].outline).min.y(), 0, 1e-3) << "the side stands on the ground";
    EXPECT_NEAR(bounds(placed[1].outline).min.y(), 300 - 400, 2 * off)
        << "beside it on the sheet: at its height";
    EXPECT_NEAR(bounds(placed[0].outline).size().x(), 900, 2 * off);
    EXPECT_NEAR(bounds(placed[0].outline).size().y(), 800, 2 * off);
    EXPECT_NEAR(bounds(placed[0].outline).min.x(), 200, off) << "along the sheet it stays";
    EXPECT_NEAR(bounds(placed[1].outline).size().x(), 550, 2 * off);
    EXPECT_NEAR(bounds(placed[1].outline).min.x(), -bounds(placed[1].outline).max.x(), 1e-3);
}

TEST_F(PhotoAtAnAngle, CornersOutOfOrderAreToldAndNotTaken) {
    BoardBench b(photo(false));
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    const Project before = b.project();
    entry(b, "rectangle")->edit()->setText("2000 mm");
    entry(b, "by")->edit()->setText("1500 mm");
    clickCorners(b, {Vec2(0, 0), Vec2(wide, high), Vec2(wide, 0), Vec2(0, high)});
    EXPECT_EQ(b.project(), before);
    EXPECT_TRUE(b.view->helpWords().contains("cross each other")) << b.view->helpWords().toStdString();
    EXPECT_TRUE(b.view->helpWords().contains("in their order")) << b.view->helpWords().toStdString();
    // The tool is still in hand: marked in order they are taken, and there is nothing to doubt.
    const PlaneFix fix = b.canvas().pictures().at(0)->fix;
    for (const Vec2& corner : {Vec2(0, 0), Vec2(wide, 0), Vec2(wide, high), Vec2(0, high)})
        b.click(BoardView::side, toPlane(fix, seen(corner)));
    EXPECT_EQ(b.canvas().pictures().at(0)->scale, PlacedPicture::Scale::rectangle);
    EXPECT_EQ(b.canvas().pictures().at(0)->doubt, "");
}

TEST_F(PhotoAtAnAngle, SidesTheWrongWayRoundAreQuestionedAndSwappedByAButton) {
    BoardBench b(photo(false));
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    entry(b, "rectangle")->edit()->setText("1500 mm");
    entry(b, "by")->edit()->setText("2000 mm");
    clickCorners(b, {Vec2(0, 0), Vec2(wide, 0), Vec2(wide, high), Vec2(0, high)});
    EXPECT_EQ(b.canvas().pictures().at(0)->scale, PlacedPicture::Scale::rectangle) << "it is only a doubt";
    EXPECT_TRUE(b.view->helpWords().contains("wrong way round")) << b.view->helpWords().toStdString();
    EXPECT_TRUE(b.canvas().pictures().words(0).startsWith("doubtful"));
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Swap"), Qt::LeftButton);
    EXPECT_EQ(b.project().pictures[0].rectangle_width, "2000 mm");
    EXPECT_EQ(b.canvas().pictures().at(0)->doubt, "");
    EXPECT_FALSE(b.view->helpWords().contains("wrong way round")) << "what is no longer so is not told";
}

TEST_F(PhotoAtAnAngle, IsNoLessSureForACheckMarkedFromAfar) {
    BoardBench b(photo(true));
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    // Several pixels of the photo to one of the screen.
    for (int i = 0; i < 7; ++i) b.key(Qt::Key_Minus);
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    const PlacedPicture before = *b.canvas().pictures().at(0);
    const QString sure = b.canvas().pictures().uncertaintyAt(0, BoardView::side, {1800, 1200});
    ASSERT_FALSE(sure.isEmpty());
    entry(b, "distance")->edit()->setText("1300 mm");
    QTest::mouseClick(buttonOf(b.view->pictureStrip(), "Two points"), Qt::LeftButton);
    b.click(BoardView::side, {200, 200});
    b.click(BoardView::side, {1400, 700}); // hypot(1200, 500)
    const Picture& marked = b.project().pictures[0];
    EXPECT_FALSE(marked.from.click_error.empty());
    EXPECT_FALSE(marked.to.click_error.empty());
    EXPECT_EQ(marked.click_error, "") << "the corners are as sure as they were";
    const PlacedPicture& after = *b.canvas().pictures().at(0);
    ASSERT_TRUE(after.check);
    EXPECT_TRUE(after.check->taken);
    ASSERT_EQ(after.corners.size(), 4U);
    for (std::size_t i = 0; i < 4; ++i)
        EXPECT_LE(after.corners[i].error.major, before.corners[i].error.major * 1.001); // first order
    // What was foretold, what the check says, what holds now: at once, and in the strip.
    EXPECT_TRUE(b.view->helpWords().contains("foretold ±")) << b.view->helpWords().toStdString();
    EXPECT_TRUE(b.view->helpWords().contains("it agrees and is taken in"))
        << b.view->helpWords().toStdString();
    EXPECT_TRUE(b.canvas().pictures().words(0).contains("agrees and is taken in"));
    std::printf("before: %s; after: %s\n", sure.toUtf8().constData(),
                b.canvas().pictures().uncertaintyAt(0, BoardView::side, {1800, 1200}).toUtf8().constData());
}

TEST_F(PhotoAtAnAngle, FieldsOfItsStripKeepTheirWidthWhileTyped) {
    BoardBench b(photo(false));
    b.canvas().pictures().setFolder(folder.path());
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    QCoreApplication::processEvents();
    for (const char* label : {"distance", "rectangle", "by"}) {
        StripEntry* one = entry(b, label);
        ASSERT_NE(one, nullptr);
        QCoreApplication::processEvents();
        const int width = one->edit()->width(), strip = b.view->pictureStrip()->height();
        QTest::keyClicks(one->edit(), "length * 3 / 4 - apron * 1200 mm");
        QCoreApplication::processEvents();
        EXPECT_EQ(one->edit()->width(), width) << label;
        EXPECT_EQ(b.view->pictureStrip()->height(), strip) << label;
    }
}

} // namespace
} // namespace slab::ui
