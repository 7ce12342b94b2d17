// Frames and openings on the drawing board, by real mouse and keys.
#include "tests/board/crate.h"
#include "tests/ui_board/board_bench.h"
#include "tests/ui_views/live_engine.h"
#include "ui/board/board_bar.h"
#include "ui/board/field_strip.h"
#include <QToolButton>

namespace slab::ui {
namespace {

struct PartBench : test::BoardBench {
    explicit PartBench(Project project) : BoardBench(std::move(project), slab::test::liveEngine()) { rest(); }
    void rest() const {
        session->settle();
        EXPECT_TRUE(session->waitUntilAtRest(60000));
        QCoreApplication::processEvents();
        canvas().fit();
    }
    [[nodiscard]] double mm() const { return 1 / canvas().view().scale; }
    [[nodiscard]] double value(const Text& text) const {
        return evaluate(text, desk().scope(), Space::subject, Kind::length)->value;
    }
};

TEST(BoardParts, AFrameIsPutInMovedAndDeleted) {
    PartBench b(slab::test::crate());
    b.key(Qt::Key_B);
    EXPECT_TRUE(b.view->findChild<BoardBar*>()->button("frame")->isChecked());
    b.click(BoardView::side, {700, 600});
    ASSERT_EQ(b.project().frames.size(), 1U);
    EXPECT_EQ(b.project().frames[0].axis, "x");
    EXPECT_EQ(b.project().frames[0].name, "bulkhead");
    EXPECT_NEAR(b.value(b.project().frames[0].station), 700, 12 * b.mm());
    // A level stretch is a shelf.
    b.drag(b.px(BoardView::side, {400, 700}), b.px(BoardView::side, {900, 720}));
    ASSERT_EQ(b.project().frames.size(), 2U);
    EXPECT_EQ(b.project().frames[1].axis, "z");
    // In plan a click is lengthwise.
    b.click(BoardView::plan, {800, 170});
    ASSERT_EQ(b.project().frames.size(), 3U);
    EXPECT_EQ(b.project().frames[2].axis, "y");
    EXPECT_EQ(b.desk().chosenPart(), "/frames/2");
    b.key(Qt::Key_Escape);
    b.rest();

    const double was = b.value(b.project().frames[0].station);
    const Vec2 at(was, 640);
    b.drag(b.px(BoardView::side, at), b.px(BoardView::side, at + Vec2(237, 0)));
    EXPECT_EQ(b.desk().chosenPart(), "/frames/0");
    EXPECT_NEAR(b.value(b.project().frames[0].station), was + 237, 12 * b.mm());
    EXPECT_EQ(b.session->history().undoLabel(), "Move frame bulkhead");
    b.session->undo();
    EXPECT_NEAR(b.value(b.project().frames[0].station), was, 1e-9);
    b.rest();
    b.click(BoardView::side, at);
    b.key(Qt::Key_Delete);
    EXPECT_EQ(b.project().frames.size(), 2U);
    EXPECT_EQ(b.session->history().undoLabel(), "Delete frame bulkhead");
}

TEST(BoardParts, AStationKeepsItsFormulaAndIsTypedInTheStrip) {
    Project p = slab::test::crate();
    Rib rib;
    rib.name = "mid";
    rib.station = "long / 2";
    p.frames = {rib};
    PartBench b(p);
    const Vec2 at(1000, 640);
    b.drag(b.px(BoardView::side, at), b.px(BoardView::side, at + Vec2(-333, 0)), Qt::AltModifier);
    EXPECT_TRUE(b.project().frames[0].station.starts_with("long / 2 - ")) << b.project().frames[0].station;
    b.key(Qt::Key_Right);
    const double nudged = b.value(b.project().frames[0].station);
    b.key(Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_NEAR(b.value(b.project().frames[0].station) - nudged, 10, 1e-9);
    auto* strip = b.view->findChild<FieldStrip*>();
    ASSERT_EQ(strip->entries().size(), 3U);
    EXPECT_EQ(strip->entries()[0]->label(), "station");
    EXPECT_EQ(strip->entries()[0]->edit()->text().toStdString(), b.project().frames[0].station);
    b.key(Qt::Key_Return);
    strip->entries()[0]->edit()->setText("long / 4");
    QTest::keyClick(strip->entries()[0]->edit(), Qt::Key_Return);
    EXPECT_EQ(b.project().frames[0].station, "long / 4");
}

TEST(BoardParts, AnOpeningIsDraggedByItsOutline) {
    Project p = slab::test::crate();
    Opening o;
    o.name = "port light";
    o.shape = OpeningShape::circle;
    o.diameter = "200 mm";
    o.direction = "y";
    o.plates = {"crate/port"};
    o.x = "long / 4";
    o.y = "0";
    o.z = "700 mm";
    p.openings = {o};
    PartBench b(p);
    const Vec2 rim(600, 700);
    b.drag(b.px(BoardView::side, rim), b.px(BoardView::side, rim + Vec2(140, 65)), Qt::AltModifier);
    EXPECT_EQ(b.desk().chosenPart(), "/openings/0");
    EXPECT_TRUE(b.project().openings[0].x.starts_with("long / 4 + ")) << b.project().openings[0].x;
    EXPECT_NEAR(b.value(b.project().openings[0].x), 640, 4 * b.mm());
    EXPECT_NEAR(b.value(b.project().openings[0].z), 765, 4 * b.mm());
    EXPECT_EQ(b.project().openings[0].y, "0");
    b.rest();
    // Escape in the middle of a drag gives it up.
    const Project before = b.project();
    const QPoint from = b.px(BoardView::side, {640 + 100, 765});
    slab::test::dragOn(b.canvas(), from, from + QPoint(40, 0), {}, false);
    b.key(Qt::Key_Escape);
    QTest::mouseRelease(&b.canvas(), Qt::LeftButton, {}, from + QPoint(40, 0));
    EXPECT_EQ(b.project(), before);
}

TEST(BoardParts, AHousesFrontMovesAsAWholeSeenFromTheSide) {
    test::BoardBench b(slab::test::crate());
    const Vec2 front(2000, 700); // the corner line from base to top, two of them behind each other
    b.drag(b.px(BoardView::side, front), b.px(BoardView::side, front + Vec2(250, 0)), Qt::AltModifier);
    const auto& box = std::get<TaperShape>(b.project().forms[0].shape);
    for (const auto* list : {&box.base, &box.top}) {
        const auto x = [&](std::size_t i) {
            return evaluate((*list)[i].x, b.desk().scope(), Space::subject, Kind::length)->value;
        };
        EXPECT_NEAR(x(1), x(2), 1e-9);
        EXPECT_GT(x(1), 2200);
        EXPECT_EQ(x(0), 0);
    }
}

TEST(BoardParts, PointsOfSeveralFormsAreAllTheirFormsForTheClipboard) {
    test::BoardBench b([] {
        Project p = slab::test::crate();
        p.forms.push_back(p.forms[0]);
        p.forms[1].name = "second";
        p.forms[1].at.x = "3 m";
        return p;
    }());
    const auto points = b.desk().pointsOf(0, BoardView::side), more = b.desk().pointsOf(1, BoardView::side);
    b.desk().choose({BoardView::side, {points[0], more[0]}, {}, -1, -1});
    EXPECT_EQ(b.session->selection().forms, (QStringList{"crate", "second"}));
    b.desk().choose({BoardView::side, {points[0]}, {}, -1, -1});
    EXPECT_TRUE(b.session->selection().forms.isEmpty());
    EXPECT_EQ(b.session->selection().form, "crate");
}

} // namespace
} // namespace slab::ui
