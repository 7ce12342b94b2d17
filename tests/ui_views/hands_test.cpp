// Openings and seams put in, dragged and taken away by real mouse and keys, with the whole pipeline behind.
#include "core/board/seam_edits.h"
#include "tests/board/crate.h"
#include "tests/ui_shell/mouse.h"
#include "tests/ui_views/hand_body.h"
#include "tests/ui_views/live_engine.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_hands.h"
#include "ui/panels/panel_view.h"
#include "ui/theme/theme.h"
#include <QMenu>
#include <QTest>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

class PanelHandsTest : public testing::Test {
protected:
    void open(const Project& project, const char* plate = "crate/port") {
        session.replace(project);
        test::rest(session);
        view = std::make_unique<PanelView>(&session);
        view->resize(900, 560);
        view->show();
        session.selectPlate(plate);
        QApplication::processEvents();
        (void)view->grab(); // laid out
        QApplication::processEvents();
        canvas = view->findChild<PanelCanvas*>();
        hands = view->findChild<PanelHands*>();
    }
    const Panel& panel() const {
        const std::string shown = session.selection().plate.toStdString();
        for (const Panel& p : *session.evaluation().panels)
            if (p.isOf(shown)) return p;
        throw std::runtime_error("no panel " + shown);
    }
    Vec2 middle() const {
        const Box2 box = wholeBox(*session.evaluation().panels, panel());
        return (box.min + box.max) / 2;
    }
    QPoint px(const Vec2& at) const { return canvas->view().toScreen(at).toPoint(); }
    void drag(const QPoint& from, const QPoint& to, bool letGo = true) const {
        slab::test::dragOn(*canvas, from, to, {}, letGo);
    }
    void take(const QString& kind) const {
        for (QAction* action : hands->openingButton()->menu()->actions())
            if (action->text() == kind) return action->trigger();
        FAIL() << kind.toStdString();
    }
    double mmPerPx() const { return 1 / canvas->view().scale; }
    double value(const Text& text) const {
        return evaluate(text.empty() ? "0" : text, *session.evaluation().scope, Space::subject, Kind::length)
            ->value;
    }

    Session session{test::liveEngine()};
    std::unique_ptr<PanelView> view;
    PanelCanvas* canvas = nullptr;
    PanelHands* hands = nullptr;
};

TEST_F(PanelHandsTest, AClickPutsAnOpeningIn) {
    open(slab::test::crate());
    take("Hand hole");
    EXPECT_TRUE(hands->openingButton()->isChecked());
    QTest::mouseMove(canvas, px(middle() + Vec2(300, 120)));
    test::shot(*view, "panel_opening_tool");
    const QPoint at = px(middle() + Vec2(300, 120));
    const Vec2 hole = canvas->view().toPaper(QPointF(at)); // the fields of what is chosen resize the view
    QTest::mouseClick(canvas, Qt::LeftButton, {}, at);
    ASSERT_EQ(session.project().openings.size(), 1U);
    const Opening& o = session.project().openings[0];
    EXPECT_EQ(o.plate, "crate/port");
    EXPECT_EQ(o.name, "hand hole");
    EXPECT_NEAR(value(o.u), 300, 2 * mmPerPx() + 5);
    EXPECT_NEAR(value(o.v), 120, 2 * mmPerPx() + 5);
    EXPECT_TRUE(o.u.ends_with(" mm")) << o.u;
    EXPECT_EQ(session.selection().part, "/openings/0");
    EXPECT_EQ(session.history().undoLabel(), "Add hand hole in crate/port");
    test::rest(session);
    ASSERT_EQ(panel().holes.size(), 1U);
    const Box2 box = bounds(panel().holes[0].outer);
    EXPECT_LT(((box.min + box.max) / 2 - hole).norm(), 2 * mmPerPx() + 5);
    QTest::keyClick(canvas, Qt::Key_Escape);
    EXPECT_FALSE(hands->openingButton()->isChecked());
    QTest::mouseClick(canvas, Qt::LeftButton, {}, px(middle() - Vec2(300, 0)));
    EXPECT_EQ(session.project().openings.size(), 1U) << "the tool is gone";
    take("Light");
    QTest::mouseClick(canvas, Qt::LeftButton, {}, px(middle() + Vec2(0, 560)));
    EXPECT_EQ(session.project().openings.size(), 1U) << "beside the panel nothing is cut";
}

TEST_F(PanelHandsTest, ThePointerThatPutAnOpeningInDoesNotMeasureAgainstIt) {
    open(slab::test::crate());
    take("Hand hole");
    const QPoint at = px(middle());
    QTest::mouseMove(canvas, at);
    QTest::mouseClick(canvas, Qt::LeftButton, {}, at);
    test::rest(session);
    QApplication::processEvents();
    ASSERT_EQ(panel().holes.size(), 1U);
    const QImage seen = canvas->grab().toImage();
    int warns = 0;
    for (int y = 0; y < seen.height(); ++y)
        for (int x = 0; x < seen.width(); ++x)
            if (const QColor one = seen.pixelColor(x, y); one.hslSaturation() > 120)
                warns += std::abs(one.hslHue() - Theme::colours().tight.hslHue()) < 6 ? 1 : 0;
    EXPECT_EQ(warns, 0) << "pixels of a frame round a warning";
}

TEST_F(PanelHandsTest, ADragKeepsTheFormulaAndIsOneStep) {
    Project p = slab::test::crate();
    Opening o;
    o.name = "light";
    o.shape = OpeningShape::circle;
    o.diameter = "120 mm";
    o.plate = "crate/port";
    o.u = "long / 10";
    o.v = "-0.1 m";
    p.openings = {o};
    open(p);
    const Vec2 from = middle() + Vec2(200, -100);
    QTest::mouseClick(canvas, Qt::LeftButton, {}, px(from));
    EXPECT_EQ(session.selection().part, "/openings/0");
    drag(px(from), px(from + Vec2(150, 210)));
    const Opening& now = session.project().openings[0];
    EXPECT_TRUE(now.u.starts_with("long / 10 + ")) << now.u;
    EXPECT_NEAR(value(now.u), 350, 2 * mmPerPx() + 5);
    EXPECT_NEAR(value(now.v), 110, 2 * mmPerPx() + 5);
    test::rest(session);
    test::shot(*view, "panel_opening_chosen");
    session.undo();
    EXPECT_EQ(session.project(), p);
    test::rest(session);

    // Escape gives the drag up.
    drag(px(from), px(from + Vec2(100, 0)), false);
    EXPECT_NE(session.project(), p);
    QTest::keyClick(canvas, Qt::Key_Escape);
    EXPECT_EQ(session.project(), p);
    QTest::mouseRelease(canvas, Qt::LeftButton, {}, px(from + Vec2(100, 0)));
    EXPECT_EQ(session.project(), p);

    QTest::mouseClick(canvas, Qt::LeftButton, {}, px(from));
    QTest::keyClick(canvas, Qt::Key_Right);
    QTest::keyClick(canvas, Qt::Key_Up, Qt::ShiftModifier);
    EXPECT_NEAR(value(session.project().openings[0].u), 201, 1e-9);
    EXPECT_NEAR(value(session.project().openings[0].v), -90, 1e-9);
    QTest::keyClick(canvas, Qt::Key_Delete);
    EXPECT_TRUE(session.project().openings.empty());
    EXPECT_EQ(session.history().undoLabel(), "Delete opening light");
}

TEST_F(PanelHandsTest, AnOpeningOverTheEdgeIsChosenAndDragged) {
    Project p = slab::test::crate();
    Opening o;
    o.name = "arch";
    o.shape = OpeningShape::rectangle;
    o.width = "300 mm";
    o.height = "200 mm";
    o.plate = "crate/port";
    o.v = "-500 mm";
    p.openings = {o};
    open(p);
    const Vec2 from = middle() + Vec2(0, -450);
    QTest::mouseClick(canvas, Qt::LeftButton, {}, px(from));
    EXPECT_EQ(session.selection().part, "/openings/0");
    drag(px(from), px(from + Vec2(200, 120)));
    EXPECT_NEAR(value(session.project().openings[0].u), 200, 2 * mmPerPx() + 5);
    EXPECT_NEAR(value(session.project().openings[0].v), -380, 2 * mmPerPx() + 5);
}

TEST_F(PanelHandsTest, AnotherSizeOrAnotherBodyKeepsInViewWhatWasSeen) {
    open(slab::test::crate());
    // A corner from near.
    const Box2 box = bounds(panel().boundary.outer);
    const Vec2 corner = box.min + Vec2(0.2 * box.size().x(), 0.7 * box.size().y());
    for (int i = 0; i < 20; ++i) {
        QWheelEvent wheel(QPointF(px(corner)), canvas->mapToGlobal(QPointF(px(corner))), {}, {0, 120},
                          Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
        QApplication::sendEvent(canvas, &wheel);
    }
    const auto seen = [&] {
        const Box2 now = bounds(panel().boundary.outer);
        const Vec2 at = canvas->view().toPaper(QRectF(canvas->rect()).center());
        return Vec2((at - now.min).cwiseQuotient(now.size()));
    };
    const auto shown = [&] {
        return canvas->height() / (canvas->view().scale * bounds(panel().boundary.outer).size().y());
    };
    const Vec2 before = seen();
    const double share = shown();
    ASSERT_LT(share, 0.5) << "it is seen from near";
    Project smaller = session.project();
    smaller.scale = "1/2";
    session.apply({"Half as large", {}, [smaller](const Project&) { return smaller; }});
    test::rest(session);
    QApplication::processEvents();
    EXPECT_LT((seen() - before).norm(), 0.02) << "the same corner";
    EXPECT_NEAR(shown(), share, 0.02 * share) << "as much of it";
    // Another body is another panel, whatever its name.
    session.replace(slab::test::crate("3 m"));
    test::rest(session);
    session.selectPlate("crate/port");
    QApplication::processEvents();
    EXPECT_TRUE(QRectF(canvas->rect()).contains(canvas->outlineOnScreen().boundingRect()));
}

TEST_F(PanelHandsTest, AllOfItByKeys) {
    open(slab::test::crate());
    take("Light");
    QTest::keyClick(canvas, Qt::Key_Return);
    ASSERT_EQ(session.project().openings.size(), 1U);
    EXPECT_EQ(session.project().openings[0].u, "0");
    QTest::keyClick(canvas, Qt::Key_Escape);
    QTest::keyClick(canvas, Qt::Key_Escape);
    EXPECT_TRUE(session.selection().part.isEmpty());
    test::rest(session);
    QTest::keyClick(canvas, Qt::Key_PageDown);
    EXPECT_EQ(session.selection().part, "/openings/0");
}

TEST_F(PanelHandsTest, NoFigureStandsOverAnotherWhileAToolIsInHand) {
    open(slab::test::crate("3 m"));
    const auto apart = [&](const char* when) {
        const auto boxes = canvas->wordsOnScreen();
        for (std::size_t i = 0; i < boxes.size(); ++i)
            for (std::size_t k = i + 1; k < boxes.size(); ++k)
                EXPECT_FALSE(boxes[i].adjusted(1, 1, -1, -1).intersects(boxes[k]))
                    << when << " " << canvas->width() << ": " << i << " over " << k;
        return boxes.size();
    };
    for (const QSize& size : {QSize(900, 560), QSize(620, 380), QSize(1500, 900)}) {
        view->resize(size);
        (void)view->grab();
        canvas->fit();
        QTest::keyClick(canvas, Qt::Key_Escape);
        const std::size_t idle = apart("idle");
        hands->seamButton()->click();
        for (const double share : {-0.4, -0.1, 0.0, 0.2, 0.45}) {
            const Box2 box = wholeBox(*session.evaluation().panels, panel());
            QTest::mouseMove(canvas, px(middle() + share * Vec2(box.size().x(), 0)));
            EXPECT_GT(apart("seam"), idle) << "its own figures";
        }
        hands->seamButton()->click();
        take("Hatch");
        for (const double share : {-0.4, 0.0, 0.3}) {
            const Box2 box = wholeBox(*session.evaluation().panels, panel());
            QTest::mouseMove(canvas, px(middle() + share * Vec2(box.size().x(), 0.2 * box.size().y())));
            apart("hatch");
        }
        QTest::keyClick(canvas, Qt::Key_Escape);
    }
}

TEST_F(PanelHandsTest, ASeamIsMovedAndGivenBack) {
    open(slab::test::crate("3 m"));
    ASSERT_EQ(hands->seams()->seams().size(), 1U);
    const PanelSeam seam = hands->seams()->seams()[0];
    EXPECT_EQ(seam.entry, -1);
    const Vec2 on = (seam.lines[0].first + seam.lines[0].second) / 2;
    test::shot(*view, "panel_seam_found");
    drag(px(on), px(on + Vec2(160, 0)));
    ASSERT_EQ(session.project().seams.size(), 1U);
    EXPECT_NEAR(value(session.project().seams[0].at), seam.at + 160, 2 * mmPerPx() + 5);
    test::rest(session);
    ASSERT_EQ(hands->seams()->seams().size(), 1U);
    EXPECT_EQ(hands->seams()->seams()[0].entry, 0);
    EXPECT_NEAR(hands->seams()->seams()[0].at, value(session.project().seams[0].at), 1e-6);
    EXPECT_EQ(session.selection().part, "/seams/0");
    test::shot(*view, "panel_seam_moved");
    QTest::keyClick(canvas, Qt::Key_Delete);
    EXPECT_TRUE(session.project().seams.empty());
    test::rest(session);
    EXPECT_EQ(hands->seams()->seams()[0].entry, -1);
    EXPECT_NEAR(hands->seams()->seams()[0].at, seam.at, 1e-9);
}

TEST_F(PanelHandsTest, ASeamIsPutIn) {
    open(slab::test::crate());
    EXPECT_TRUE(hands->seams()->seams().empty());
    hands->seamButton()->click();
    QTest::mouseMove(canvas, px(middle() + Vec2(-250, 40)));
    test::shot(*view, "panel_seam_tool");
    const QPoint at = px(middle() + Vec2(-250, 40));
    QTest::mouseClick(canvas, Qt::LeftButton, {}, at);
    ASSERT_EQ(session.project().seams.size(), 1U);
    EXPECT_NEAR(value(session.project().seams[0].at), -250, 2 * mmPerPx() + 5);
    EXPECT_TRUE(panel().isOf(session.project().seams[0].plate)) << session.project().seams[0].plate;
    test::rest(session);
    EXPECT_EQ(hands->seams()->seams().size(), 1U);
    EXPECT_TRUE(panel().isOf("crate/port"));
    EXPECT_FALSE(panel().cutFrom.empty());
}

TEST_F(PanelHandsTest, WhereNoneCanBeItSaysSo) {
    Project p = slab::test::crate();
    Rib rib;
    rib.name = "mid";
    rib.station = "1 m";
    p.frames = {rib};
    open(p, "frames/mid");
    take("Slit");
    QTest::mouseClick(canvas, Qt::LeftButton, {}, px(middle()));
    EXPECT_TRUE(session.project().openings.empty());
    EXPECT_TRUE(hands->words().contains("takes no openings")) << hands->words().toStdString();
}

} // namespace
} // namespace slab::ui
