// Choosing and dragging on the sheet by real mouse and keyboard events.
#include "core/evaluate/stages.h"
#include "tests/ui_board/board_bench.h"
#include "ui/board/board_bar.h"
#include "ui/board/board_deeds.h"
#include "ui/board/field_strip.h"
#include "ui/theme/theme.h"
#include <QLabel>
#include <QVBoxLayout>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

const OutlinePoint& pointOf(const Project& project, std::size_t index) {
    return std::get<ProfileShape>(project.forms.at(0).shape).outline.at(index);
}

double lengthOf(const Project& project, const Text& text) {
    std::vector<Finding> findings;
    const Scope scope = resolveScope(project, readScale(project.scale).value(), findings);
    return evaluate(text, scope, Space::subject, Kind::length).value().value;
}

TEST(Choose, AClickChoosesAPointAndShiftAddsAnother) {
    BoardBench b(test::hull());
    b.click(BoardView::side, b.at(BoardView::side, "hull/stem"));
    ASSERT_EQ(b.desk().choice().points.size(), 1U);
    EXPECT_EQ(b.desk().choice().points.front().pointer, "/forms/0/outline/2");
    EXPECT_EQ(b.session->selection().form, "hull");
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"), Qt::ShiftModifier);
    EXPECT_EQ(b.desk().choice().points.size(), 2U);
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"), Qt::ShiftModifier);
    EXPECT_EQ(b.desk().choice().points.size(), 1U) << "shift on a chosen one lets it go";
    b.key(Qt::Key_Escape);
    EXPECT_TRUE(b.desk().choice().empty());
}

TEST(Choose, ABoxChoosesWhatLiesInIt) {
    BoardBench b(test::hull());
    const QPoint from = b.px(BoardView::side, {-120, 1120}), to = b.px(BoardView::side, {1250, 850});
    b.drag(from, to);
    ASSERT_EQ(b.desk().choice().points.size(), 2U) << "deck and stern";
    EXPECT_FALSE(b.session->history().canUndo()) << "choosing changes nothing";
}

TEST(Choose, ADragIsOneStepAndKeepsTheFormulas) {
    BoardBench b(test::hull());
    const Project before = b.project();
    const Vec2 deck = b.at(BoardView::side, "hull/deck");
    b.drag(b.px(BoardView::side, deck), b.px(BoardView::side, deck + Vec2(313, 217)), Qt::AltModifier);
    const Vec2 moved = b.at(BoardView::side, "hull/deck");
    const double px = 1 / b.canvas().view().scale;
    EXPECT_NEAR(moved.x(), deck.x() + 313, 2 * px + b.canvas().step());
    EXPECT_NEAR(moved.y(), deck.y() + 217, 2 * px + b.canvas().step());
    EXPECT_EQ(pointOf(b.project(), 2).x, "length") << "what was not dragged stays a formula";
    ASSERT_TRUE(b.session->history().canUndo());
    b.session->undo();
    EXPECT_EQ(b.project(), before) << "one gesture, one step";
    EXPECT_FALSE(b.session->history().canUndo());
    b.session->redo();
    EXPECT_EQ(b.at(BoardView::side, "hull/deck"), moved);
}

TEST(Choose, AMovingPartUnderThePointerIsNamedAndChosen) {
    BoardBench b(test::hull());
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        auto set = std::make_shared<MechanismSet>();
        set->solids.push_back({"monitor", "monitor/tube", makeCylinder({900, 0, 500}, {1900, 0, 500}, 150)});
        e.mechanisms = set;
        return e;
    };
    b.view.reset();
    b.session = std::make_unique<Session>(engine);
    b.session->replace(test::hull());
    b.view = std::make_unique<DraftingView>(b.session.get());
    b.view->resize(1200, 800);
    b.view->show();
    ASSERT_TRUE(QTest::qWaitFor([&] { return b.session->evaluation().mechanisms != nullptr; }, 20000));
    b.canvas().fit();
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, {1400, 560}));
    QCoreApplication::processEvents();
    EXPECT_EQ(b.canvas().tool().under(), "monitor/tube");
    EXPECT_TRUE(b.view->placeWords().endsWith("monitor/tube")) << b.view->placeWords().toStdString();
    b.click(BoardView::side, {1400, 560});
    EXPECT_EQ(b.session->selection().solid, "monitor/tube");
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, {1400, 860}));
    QCoreApplication::processEvents();
    EXPECT_EQ(b.canvas().tool().under(), "");
}

TEST(Choose, ADraggedPointSnapsToTheHeightOfAnother) {
    BoardBench b(test::hull());
    const Vec2 forefoot = b.at(BoardView::side, "hull/forefoot");
    b.drag(b.px(BoardView::side, forefoot), b.px(BoardView::side, {2100, 0}) + QPoint(0, -3));
    EXPECT_NEAR(b.at(BoardView::side, "hull/forefoot").y(), 0, 1e-9)
        << "three pixels off the ground it stays on it";
}

TEST(Choose, EscapeGivesADragUp) {
    BoardBench b(test::hull());
    const Project before = b.project();
    const QPoint from = b.px(BoardView::side, b.at(BoardView::side, "hull/deck")), to = from + QPoint(40, 25);
    QTest::mousePress(&b.canvas(), Qt::LeftButton, {}, from);
    QMouseEvent move(QEvent::MouseMove, to, b.canvas().mapToGlobal(to), Qt::NoButton, Qt::LeftButton, {});
    QApplication::sendEvent(&b.canvas(), &move);
    EXPECT_FALSE(b.project() == before);
    b.key(Qt::Key_Escape);
    EXPECT_EQ(b.project(), before);
    QTest::mouseRelease(&b.canvas(), Qt::LeftButton, {}, to);
    EXPECT_EQ(b.project(), before);
}

TEST(Choose, ADraggedEdgeTakesBothEndsAlong) {
    BoardBench b(test::hull());
    const Vec2 deck = b.at(BoardView::side, "hull/deck"), stern = b.at(BoardView::side, "hull/stern");
    const QPoint middle = b.px(BoardView::side, (deck + stern) / 2);
    b.drag(middle, middle + QPoint(0, -30), Qt::AltModifier);
    const Vec2 deck2 = b.at(BoardView::side, "hull/deck"), stern2 = b.at(BoardView::side, "hull/stern");
    EXPECT_GT(deck2.y(), deck.y() + 10);
    EXPECT_NEAR(deck2.y(), stern2.y(), 1e-9);
    EXPECT_NEAR(deck2.x(), deck.x(), 1e-9);
    b.session->undo();
    EXPECT_FALSE(b.session->history().canUndo());
}

TEST(Choose, ArrowKeysNudgeByMillimetresAndShiftByTen) {
    BoardBench b(test::hull());
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    const Vec2 before = b.at(BoardView::side, "hull/deck");
    b.key(Qt::Key_Right);
    b.key(Qt::Key_Up, Qt::ShiftModifier);
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").x(), before.x() + 1, 1e-9);
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").y(), before.y() + 10, 1e-9);
    b.session->undo();
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").y(), before.y(), 1e-9) << "each key is a step";
}

TEST(Choose, PageDownGoesFromPointToPoint) {
    BoardBench b(test::hull());
    std::set<std::string> seen;
    for (int i = 0; i < 5; ++i) {
        b.key(Qt::Key_PageDown);
        ASSERT_EQ(b.desk().choice().points.size(), 1U);
        seen.insert(b.desk().choice().points.front().pointer);
    }
    EXPECT_GE(seen.size(), 5U);
}

TEST(Choose, FiguresAreTypedAsFormulas) {
    BoardBench b(test::hull());
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    b.key(Qt::Key_Return);
    QWidget* focus = b.view->focusWidget();
    ASSERT_TRUE(qobject_cast<QLineEdit*>(focus)) << "return goes to the figures";
    QTest::keyClicks(focus, "length / 2");
    QTest::keyClick(focus, Qt::Key_Return);
    EXPECT_EQ(pointOf(b.project(), 3).x, "length / 2");
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").x(), 1500, 1e-9);
    focus = b.view->focusWidget();
    QTest::keyClicks(focus, "900");
    QTest::keyClick(focus, Qt::Key_Return);
    EXPECT_EQ(pointOf(b.project(), 3).z, "900 mm") << "a bare number takes the document's unit";
    QTest::keyClick(b.view->focusWidget(), Qt::Key_Return);
    EXPECT_EQ(b.view->focusWidget(), &b.canvas()) << "the last one gives the sheet the keys back";
}

TEST(Choose, AMinusBeginsAFigureOfWhatIsChosenAndElseZooms) {
    BoardBench b(test::hull());
    const double scale = b.canvas().view().scale;
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    QTest::keyClick(&b.canvas(), Qt::Key_Minus, {});
    EXPECT_EQ(b.canvas().view().scale, scale);
    auto* edit = qobject_cast<QLineEdit*>(b.view->focusWidget());
    ASSERT_TRUE(edit) << "the figure takes the keys";
    QTest::keyClicks(edit, "5 in");
    QTest::keyClick(edit, Qt::Key_Return);
    EXPECT_EQ(pointOf(b.project(), 3).x, "-5 in");
    b.canvas().setFocus();
    QTest::keyClick(&b.canvas(), Qt::Key_Period, {});
    edit = qobject_cast<QLineEdit*>(b.view->focusWidget());
    ASSERT_TRUE(edit);
    EXPECT_EQ(edit->text(), ".");
    QTest::keyClick(edit, Qt::Key_Escape);
    b.key(Qt::Key_Escape);
    ASSERT_TRUE(b.desk().choice().empty());
    b.key(Qt::Key_Minus);
    EXPECT_LT(b.canvas().view().scale, scale);
}

TEST(Choose, AShortDragIsOneToo) {
    BoardBench b(test::hull());
    b.canvas().setGridOn(false);
    const Vec2 deck = b.at(BoardView::side, "hull/deck");
    const QPoint from = b.px(BoardView::side, deck);
    const double mm = 1 / b.canvas().view().scale;
    b.drag(from, from + QPoint(-2, 0));
    EXPECT_EQ(b.at(BoardView::side, "hull/deck"), deck) << "a click of an unsteady hand";
    b.drag(from, from + QPoint(-5, 1));
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").x(), deck.x() - 5 * mm, mm + b.canvas().step());
    EXPECT_EQ(b.at(BoardView::side, "hull/deck").y(), deck.y()) << "and still level";
}

TEST(Choose, DelTellsWhyAnEdgeStays) {
    BoardBench b(test::hull());
    const Project before = b.project();
    b.click(BoardView::side, (b.at(BoardView::side, "hull/deck") + b.at(BoardView::side, "hull/stern")) / 2);
    ASSERT_EQ(b.desk().choice().edges.size(), 1U);
    b.key(Qt::Key_Delete);
    EXPECT_EQ(b.project(), before);
    EXPECT_TRUE(b.view->helpWords().contains("edge cannot be deleted")) << b.view->helpWords().toStdString();
    EXPECT_TRUE(b.view->helpWords().contains("Choose a point")) << b.view->helpWords().toStdString();
}

TEST(Choose, WhatSnapsInFeetIsWrittenInAFewFigures) {
    Project project = test::hull();
    project.units = "ft";
    project.scale = "2/5";
    auto& outline = std::get<ProfileShape>(project.forms[0].shape).outline;
    outline[2].z = "1.2345678 m"; // the stem: no round height in feet
    BoardBench b(project);
    const Vec2 deck = b.at(BoardView::side, "hull/deck"), stem = b.at(BoardView::side, "hull/stem");
    b.drag(b.px(BoardView::side, deck), b.px(BoardView::side, {deck.x(), stem.y()}));
    const Text& z = std::get<ProfileShape>(b.project().forms[0].shape).outline[3].z;
    EXPECT_LE(z.size(), 10U) << z;
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").y(), stem.y(), 0.005) << z;
}

TEST(Choose, AFormulaThatCannotBeReadStaysInItsField) {
    BoardBench b(test::hull());
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    const Project before = b.project();
    b.key(Qt::Key_Return);
    auto* edit = qobject_cast<QLineEdit*>(b.view->focusWidget());
    ASSERT_TRUE(edit);
    QTest::keyClicks(edit, "length +");
    QTest::keyClick(edit, Qt::Key_Return);
    EXPECT_EQ(b.project(), before);
    EXPECT_TRUE(edit->property("wrong").toBool());
    EXPECT_EQ(b.view->focusWidget(), edit);
    for (const StripEntry* entry : b.view->fields()->entries()) {
        if (entry->edit() != edit) continue;
        EXPECT_GT(entry->built()->text().size(), 8) << "the reason stands beside it";
        EXPECT_EQ(entry->built()->toolTip().left(8), entry->built()->text().left(8));
    }
    const int narrow = edit->width();
    QTest::keyClicks(edit, " 1200 mm * 3 / 4 - 12 mm");
    EXPECT_GT(edit->width(), narrow) << "a formula is seen whole";
    EXPECT_LE(edit->fontMetrics().horizontalAdvance(edit->text()), edit->width());
    QTest::keyClick(edit, Qt::Key_Escape);
    EXPECT_EQ(edit->text(), "1 m");
}

TEST(Choose, SeveralPointsTakeOneTypedValueInOneStep) {
    BoardBench b(test::hull());
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    b.click(BoardView::side, b.at(BoardView::side, "hull/stern"), Qt::ShiftModifier);
    auto* strip = b.view->fields();
    ASSERT_EQ(strip->entries().size(), 3U);
    QLineEdit* half = strip->entries()[2]->edit();
    half->setFocus();
    QTest::keyClick(half, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClicks(half, "0.6 m");
    QTest::keyClick(half, Qt::Key_Return);
    EXPECT_EQ(pointOf(b.project(), 3).half_width, "0.6 m");
    EXPECT_EQ(pointOf(b.project(), 4).half_width, "0.6 m");
    b.session->undo();
    EXPECT_FALSE(b.session->history().canUndo());
}

// As after a paste: Delete must not take what was chosen on the board before.
TEST(Choose, AFormThatIsChosenElsewhereTakesThePlaceOfPoints) {
    BoardBench b(test::hull());
    Project two = b.project();
    two.forms.push_back(two.forms[0]);
    two.forms[1].name = "second";
    b.session->replace(two);
    b.desk().choose({BoardView::side, {{"/forms/0/outline/0", Handle::corner}}, {}, -1, -1});
    ASSERT_EQ(b.desk().choice().points.size(), 1U);
    Selection selection;
    selection.form = QString::fromStdString(two.forms[0].name);
    b.session->select(selection);
    EXPECT_EQ(b.desk().choice().points.size(), 1U) << "its own form";
    selection.form = "second";
    b.session->select(selection);
    EXPECT_TRUE(b.desk().choice().empty());
    EXPECT_EQ(b.desk().chosenForm(), 1);
}

TEST(Choose, InsertByDoubleClickAndDelete) {
    BoardBench b(test::hull());
    const Vec2 a = b.at(BoardView::side, "hull/keel"), c = b.at(BoardView::side, "hull/forefoot");
    const QPoint middle = b.px(BoardView::side, (a + c) / 2);
    QTest::mouseMove(&b.canvas(), middle);
    QTest::mouseClick(&b.canvas(), Qt::LeftButton, {}, middle);
    QTest::mouseDClick(&b.canvas(), Qt::LeftButton, {}, middle);
    ASSERT_EQ(std::get<ProfileShape>(b.project().forms[0].shape).outline.size(), 6U);
    ASSERT_EQ(b.desk().choice().points.size(), 1U) << "the new point is chosen";
    EXPECT_EQ(b.desk().choice().points.front().pointer, "/forms/0/outline/1");
    EXPECT_NEAR(lengthOf(b.project(), pointOf(b.project(), 1).z), 0, 1e-9);
    b.key(Qt::Key_Delete);
    EXPECT_EQ(std::get<ProfileShape>(b.project().forms[0].shape).outline.size(), 5U);
    b.session->undo();
    b.session->undo();
    EXPECT_FALSE(b.session->history().canUndo());
}

TEST(Choose, ACrossedOutlineIsToldWhereItCrosses) {
    Project project = test::hull();
    auto& outline = std::get<ProfileShape>(project.forms[0].shape).outline;
    EXPECT_TRUE(BoardBench(project).desk().crossings().empty());
    std::swap(outline[2], outline[3]);
    std::swap(outline[1], outline[2]);
    BoardBench b(project);
    ASSERT_FALSE(b.desk().crossings().empty());
    EXPECT_TRUE(b.view->helpWords().contains(" crosses hull/")) << b.view->helpWords().toStdString();
    const QPointF at = b.px(BoardView::side, b.desk().crossings().front().at);
    const QImage seen = b.canvas().grab().toImage();
    int ring = 0; // px of its colour about the crossing
    for (int x = -14; x <= 14; ++x)
        for (int y = -14; y <= 14; ++y) {
            const QColor c = seen.pixelColor(at.toPoint() + QPoint(x, y));
            const QColor want = Theme::colours().hits;
            ring += std::abs(c.red() - want.red()) + std::abs(c.green() - want.green()) +
                                std::abs(c.blue() - want.blue()) <
                            40
                        ? 1
                        : 0;
        }
    EXPECT_GT(ring, 30);
}

TEST(Choose, TheSheetStandsStillWhenANoticeOverTheBoardGoes) {
    Session session(test::quickEngine());
    session.replace(test::hull());
    QWidget window;
    auto* all = new QVBoxLayout(&window);
    auto* notice = new QLabel("told");
    notice->setFixedHeight(44);
    auto* view = new DraftingView(&session);
    all->addWidget(notice);
    all->addWidget(view, 1);
    window.resize(1200, 800);
    window.show();
    QCoreApplication::processEvents();
    BoardCanvas& canvas = *view->canvas();
    canvas.fit();
    const auto onScreen = [&] {
        return canvas.mapTo(&window, canvas.pixelOf(BoardView::side, {0, 1000}).toPoint());
    };
    const QPoint before = onScreen();
    const int top = view->y();
    notice->hide();
    QCoreApplication::processEvents();
    ASSERT_LE(view->y(), top - 40);
    EXPECT_LE((onScreen() - before).manhattanLength(), 1);
    notice->show();
    QCoreApplication::processEvents();
    EXPECT_LE((onScreen() - before).manhattanLength(), 1);
}

TEST(Choose, TheSheetStandsStillWhereTheBarAboveGrows) {
    BoardBench b(test::hull());
    const Vec2 place = b.at(BoardView::side, "hull/stem");
    const auto onScreen = [&] { return b.canvas().mapToGlobal(b.px(BoardView::side, place)); };
    const QPoint before = onScreen();
    const int top = b.canvas().y();
    auto* bar = b.view->findChild<BoardBar*>();
    ASSERT_TRUE(bar);
    bar->setFixedHeight(bar->height() + 34); // a second row of tools
    QCoreApplication::processEvents();
    ASSERT_GE(b.canvas().y(), top + 30);
    EXPECT_LE((onScreen() - before).manhattanLength(), 1);
    bar->setFixedHeight(bar->height() - 34);
    QCoreApplication::processEvents();
    EXPECT_LE((onScreen() - before).manhattanLength(), 1);
}

TEST(Choose, TheSheetStandsStillUnderTheHand) {
    BoardBench b(test::hull());
    const BoardSheet before = b.desk().sheet();
    const QPoint from = b.px(BoardView::side, b.at(BoardView::side, "hull/stem"));
    QTest::mousePress(&b.canvas(), Qt::LeftButton, {}, from);
    const QPoint to = from + QPoint(120, -60);
    QMouseEvent move(QEvent::MouseMove, to, b.canvas().mapToGlobal(to), Qt::NoButton, Qt::LeftButton,
                     Qt::AltModifier);
    QApplication::sendEvent(&b.canvas(), &move);
    EXPECT_EQ(b.desk().sheet().origin, before.origin);
    QTest::mouseRelease(&b.canvas(), Qt::LeftButton, {}, to);
}

} // namespace
} // namespace slab::ui
