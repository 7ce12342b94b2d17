// What helps the hand on the board: prompts, what is shown, labels, mirroring, figures of new forms.
#include "core/lines/lines.h"
#include "tests/geometry/seed.h"
#include "tests/ui_board/board_bench.h"
#include "ui/board/board_bar.h"
#include "ui/board/board_deeds.h"
#include "ui/board/board_menus.h"
#include "ui/board/board_paint.h"
#include "ui/board/label_boxes.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QImage>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QToolButton>
#include <QWheelEvent>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;
using test::hull;

TEST(BoardPrompts, EveryToolSaysWhatItWaitsForAndCounts) {
    BoardBench b(hull());
    EXPECT_TRUE(b.canvas().tool().prompt().words.isEmpty()) << "choosing waits for nothing";
    for (const char letter : {'P', 'T', 'L', 'O', 'A', 'D', 'M'}) {
        b.key(letter);
        const BoardPrompt prompt = b.canvas().tool().prompt();
        EXPECT_FALSE(prompt.words.isEmpty()) << letter;
        EXPECT_EQ(prompt.step, 1) << letter;
        b.key(Qt::Key_Escape);
        EXPECT_TRUE(b.canvas().tool().prompt().words.isEmpty()) << "Esc leaves " << letter;
    }
    b.key('D');
    b.click(BoardView::side, {0, 0});
    EXPECT_EQ(b.canvas().tool().prompt().count(), "2 of 3");
}

TEST(BoardPrompts, AreLegibleInLightAndDarkAndOutOfTheHandsWay) {
    const bool was = Theme::dark();
    for (const bool dark : {false, true}) {
        Theme::setDark(dark);
        QImage image(900, 500, QImage::Format_RGB32);
        image.fill(Theme::colours().card);
        QPainter painter(&image);
        const QRectF paper(24, 24, 876, 476);
        const QRectF at =
            paintPrompt(painter, {paper, {}, {}, {}}, {"Click the other point", 2, 2}, {"Why not."});
        painter.end();
        EXPECT_LT(at.bottom(), paper.top() + 110) << "near the upper edge";
        EXPECT_TRUE(paper.contains(at));
        int lightest = 255, darkest = 0;
        for (int y = static_cast<int>(at.top()) + 4; y < at.bottom() - 4; ++y)
            for (int x = static_cast<int>(at.left()) + 4; x < at.right() - 4; ++x) {
                lightest = std::min(lightest, qGray(image.pixel(x, y)));
                darkest = std::max(darkest, qGray(image.pixel(x, y)));
            }
        EXPECT_GT(darkest - lightest, 140) << (dark ? "dark" : "light");
        painter.begin(&image);
        const QRectF away = paintPrompt(painter, {paper, at.center(), {}, {}}, {"Click", 1, 2}, {});
        EXPECT_FALSE(away.intersects(at)) << "what is under the pointer stays in sight";
        EXPECT_TRUE(paintPrompt(painter, {paper, {}, {}, {}}, {}, {}).isEmpty());
    }
    Theme::setDark(was);
}

/// Pixels of a colour in an image, to within what antialiasing leaves.
int pixelsOf(const QImage& image, const QColor& colour) {
    int count = 0;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            const QColor at = image.pixelColor(x, y);
            count += std::abs(at.red() - colour.red()) + std::abs(at.green() - colour.green()) +
                                 std::abs(at.blue() - colour.blue()) <
                             6
                         ? 1
                         : 0;
        }
    return count;
}

TEST(BoardPrompts, GoodNewsIsNoWarning) {
    const bool was = Theme::dark();
    for (const bool dark : {false, true}) {
        Theme::setDark(dark);
        const Palette& c = Theme::colours();
        for (const bool fine : {false, true}) {
            QImage image(900, 200, QImage::Format_RGB32);
            image.fill(c.card);
            QPainter painter(&image);
            paintPrompt(painter, {QRectF(0, 0, 900, 200), {}, {}, {}}, {}, {"It holds.", fine});
            painter.end();
            EXPECT_EQ(pixelsOf(image, c.tight) > 100, !fine) << pixelsOf(image, c.tight);
            EXPECT_EQ(pixelsOf(image, c.fits) > 100, fine) << pixelsOf(image, c.fits);
        }
    }
    Theme::setDark(was);
}

TEST(BoardPrompts, CoverNoDrawingWhereThereIsRoomBesideIt) {
    for (const QSize& size : {QSize(1000, 640), QSize(820, 520), QSize(1366, 700), QSize(1600, 1000)}) {
        BoardBench b(hull());
        b.view->resize(size);
        QCoreApplication::processEvents();
        b.canvas().fit();
        const BoardInk ink{b.desk(), b.canvas().view(), b.canvas().paper(), 1, 0};
        const PromptRoom room = b.canvas().promptRoom(ink);
        QImage image(b.canvas().size(), QImage::Format_RGB32);
        QPainter painter(&image);
        for (const BoardTold& told : {BoardTold{}, BoardTold{"A dimension line runs from point to point."}}) {
            const QRectF at =
                paintPrompt(painter, room, {"Dimension: click the point that it starts from", 1, 3}, told);
            EXPECT_TRUE(room.paper.contains(at));
            for (const QRectF& drawn : room.drawn)
                EXPECT_FALSE(at.intersects(drawn))
                    << size.width() << " wide, at " << at.left() << ", " << at.top();
        }
    }
}

TEST(BoardTitles, LieUnderNoRuler) {
    BoardBench b(hull());
    const auto titles = [&] {
        return titleBoxes(BoardInk{b.desk(), b.canvas().view(), b.canvas().paper(), 1, 0});
    };
    const auto expectClear = [&](const char* when) {
        const QRectF paper = b.canvas().paper();
        const auto boxes = titles();
        for (const BoardView view : boardViews) {
            const auto i = static_cast<std::size_t>(view);
            const QRectF area = b.canvas().view().toScreen(b.desk().sheet().area[i]).intersected(paper);
            if (area.width() < boxes[i].width() || area.height() < 2 * boxes[i].height()) continue;
            EXPECT_GE(boxes[i].top(), paper.top()) << when << ", view " << i;
            EXPECT_GE(boxes[i].left(), paper.left()) << when << ", view " << i;
        }
    };
    expectClear("fitted");
    PaperView up = b.canvas().view();
    const QRectF side = up.toScreen(b.desk().sheet().area[0]);
    up.origin.ry() -= side.top() - b.canvas().paper().top() - 24; // its title would lie half under the ruler
    b.canvas().setPaper(up);
    expectClear("moved up");
    up.origin.ry() -= 40;
    up.origin.rx() -= side.left() - b.canvas().paper().left() + 30;
    b.canvas().setPaper(up);
    expectClear("moved up and left");
    b.canvas().fitView(BoardView::front);
    expectClear("the front alone");
}

TEST(BoardPrompts, CoverNoTitleAndAreSaidInOnePlace) {
    for (const QSize& size : {QSize(1000, 640), QSize(820, 420), QSize(1366, 560)}) {
        BoardBench b(hull());
        b.view->resize(size);
        QCoreApplication::processEvents();
        b.canvas().fit();
        for (const char letter : {'D', 'M', 'P'}) {
            b.key(letter);
            const BoardPrompt prompt = b.canvas().tool().prompt();
            ASSERT_FALSE(prompt.words.isEmpty());
            const BoardInk ink{b.desk(), b.canvas().view(), b.canvas().paper(), 1, 0};
            QImage image(b.canvas().size(), QImage::Format_RGB32);
            QPainter painter(&image);
            const QRectF at = paintPrompt(painter, b.canvas().promptRoom(ink), prompt, {});
            for (const QRectF& title : titleBoxes(ink))
                EXPECT_FALSE(at.intersects(title)) << letter << " at " << size.width() << " wide";
            // Under the board nothing says it again, and nothing asks for something else.
            for (const QLabel* label : b.view->findChildren<QLabel*>())
                if (label->isVisible()) {
                    EXPECT_FALSE(label->text().contains("Choose a point")) << letter;
                }
            for (const ElidedLabel* label : b.view->findChildren<ElidedLabel*>()) {
                EXPECT_FALSE(label->isVisible() && label->text().contains(prompt.words)) << letter;
            }
            EXPECT_FALSE(b.view->helpWords().isEmpty()) << "it can be read aloud";
            b.key(Qt::Key_Escape);
        }
    }
}

TEST(BoardShown, DonorAndRiderAreHiddenOneByOneAndComeBack) {
    Project project = hull();
    project.donor.kind = "powered_chair";
    project.rider.table = "adult";
    BoardBench b(project);
    // The quick engine leaves the donor out.
    Engine engine = test::quickEngine();
    engine.evaluate = [plain = engine.evaluate](const Project& p, Effort effort, std::uint64_t revision,
                                                const Job& job) {
        Evaluation e = plain(p, effort, revision, job);
        e.donor = std::make_shared<DonorSet>(resolveDonor(p, *e.scope));
        return e;
    };
    b.view.reset();
    b.session = std::make_unique<Session>(std::move(engine));
    b.session->replace(project);
    ASSERT_TRUE(b.session->waitUntilAtRest(20000));
    b.view = std::make_unique<DraftingView>(b.session.get());
    const auto count = [&](const std::string& kind) {
        int n = 0;
        for (const BoardElevation& e : b.desk().scene().views)
            for (const BoardShape& s : e.shapes) n += s.kind == kind ? 1 : 0;
        return n;
    };
    const int donor = count("donor"), rider = count("rider");
    ASSERT_GT(donor, 0);
    ASSERT_GT(rider, 0);
    QMenu* menu = b.view->bar()->shown();
    const auto trigger = [&](const char* words) {
        for (QAction* action : menu->actions())
            if (action->text() == words) return action->trigger();
        ADD_FAILURE() << words;
    };
    trigger("Donor");
    EXPECT_EQ(count("donor"), 0);
    EXPECT_EQ(count("rider"), rider);
    trigger("Rider");
    EXPECT_EQ(count("rider"), 0);
    trigger("Donor");
    trigger("Rider");
    EXPECT_EQ(count("donor"), donor);
    EXPECT_EQ(count("rider"), rider);
}

TEST(LabelBoxes, AreClearOfEachOther) {
    auto random = seeded(5);
    const QFont font = Theme::figures(12);
    for (int round = 0; round < 40; ++round) {
        std::vector<QLineF> lines;
        QStringList words;
        for (int i = 0; i < 6; ++i) {
            const QPointF from(uniform(random, 200, 900), uniform(random, 200, 600));
            lines.emplace_back(from, from + QPointF(uniform(random, -220, 220), uniform(random, -220, 220)));
            words << QString("line %1: 1234 mm ± 12 mm").arg(i + 1);
        }
        const auto boxes = labelBoxes(lines, words, font);
        ASSERT_EQ(boxes.size(), lines.size());
        for (std::size_t i = 0; i < boxes.size(); ++i)
            for (std::size_t k = 0; k < i; ++k)
                EXPECT_FALSE(boxes[i].intersects(boxes[k])) << "round " << round << ": " << i << ", " << k;
    }
    // Lines that lie on each other, as a size measured twice: their labels do not.
    const QLineF one(100, 100, 300, 100);
    const auto boxes = labelBoxes({one, one, one}, {"rail: 2 m", "rail 2: 2 m", "rail 3: 2 m"}, font);
    EXPECT_FALSE(boxes[0].intersects(boxes[1]) || boxes[0].intersects(boxes[2]) ||
                 boxes[1].intersects(boxes[2]));
}

TEST(BoardMirror, AChosenEdgeMirrorsTheWholeOutline) {
    Project project = hull();
    auto& shape = std::get<ProfileShape>(project.forms[0].shape);
    Curve arc;
    arc.from = "forefoot";
    arc.to = "stem";
    arc.bulge = "100 mm";
    arc.facets = "3";
    shape.curves.push_back(arc);
    BoardBench b(project);
    const BoardElevation before = b.desk().scene().of(BoardView::side);
    BoardChoice choice;
    choice.edges = {"/forms/0/outline/0"};
    b.desk().choose(choice);
    ASSERT_TRUE(mirrorChosen(b.desk(), 0));
    // Every corner lies on the other side of the middle, 1.5 m from the stern.
    for (const BoardPoint& p : before.points) {
        if (p.ref.handle != Handle::corner || p.mirrored) continue;
        const BoardPoint* now = find(b.desk().scene(), BoardView::side, p.ref);
        ASSERT_TRUE(now);
        EXPECT_NEAR(now->at.x(), 3000 - p.at.x(), 1e-6) << p.name;
        EXPECT_NEAR(now->at.y(), p.at.y(), 1e-6) << p.name;
    }
    // The arc swells to the outside as it did: its middle is the reflection of what it was.
    const PointRef middle{"/forms/0/curves/0", Handle::curve};
    const BoardPoint* was = nullptr;
    for (const BoardPoint& p : before.points)
        if (p.ref == middle && !p.mirrored) was = &p;
    const BoardPoint* is = find(b.desk().scene(), BoardView::side, middle);
    ASSERT_TRUE(was && is);
    EXPECT_NEAR(is->at.x(), 3000 - was->at.x(), 1e-6);
    EXPECT_TRUE(b.desk().crossings().empty());
    b.session->undo();
    EXPECT_EQ(b.project(), project) << "one step";
}

// All corners of an outline chosen: its splines go with them, moved or mirrored.
TEST(BoardMirror, AWholeOutlineTakesItsSplinesAlong) {
    Project project = hull();
    auto& shape = std::get<ProfileShape>(project.forms[0].shape);
    Curve spline;
    spline.kind = CurveKind::spline;
    spline.from = "forefoot";
    spline.to = "stem";
    OutlinePoint through;
    through.x = "2.9 m";
    through.z = "500 mm";
    spline.through = {through};
    spline.facets = "4";
    shape.curves.push_back(spline);
    BoardBench b(project);
    const auto place = [&]() -> Vec2 {
        for (const BoardPoint& p : b.desk().scene().of(BoardView::side).points)
            if (p.ref.handle == Handle::curve && !p.mirrored) return p.at;
        ADD_FAILURE() << "no point of the spline";
        return Vec2::Zero();
    };
    const Vec2 before = place();
    b.desk().choose({BoardView::side, {{"/forms/0/outline/0", Handle::corner}}, {}, -1, -1});
    chooseAll(b.desk());
    const std::size_t corners = b.desk().choice().points.size();
    EXPECT_GT(b.desk().chosenPoints().size(), corners);
    ASSERT_TRUE(nudgeChosen(b.desk(), {0, 100}, "up"));
    EXPECT_LT((place() - before - Vec2(0, 100)).norm(), 1e-6);
    b.session->undo();
    ASSERT_TRUE(mirrorChosen(b.desk(), 0));
    EXPECT_NEAR(place().x(), 3000 - before.x(), 1e-6);
    EXPECT_TRUE(b.desk().crossings().empty());
}

TEST(BoardMirror, WhatCannotBeMirroredSaysWhy) {
    Project project = hull();
    Form pipe;
    pipe.name = "funnel";
    RoundShape round;
    round.diameter = "200 mm";
    round.length = "400 mm";
    pipe.shape = round;
    project.forms.push_back(pipe);
    BoardBench b(project);
    QString told;
    QObject::connect(&b.desk(), &BoardDesk::told, [&](const QString& words) { told = words; });
    EXPECT_FALSE(mirrorChosen(b.desk(), 0));
    EXPECT_TRUE(told.contains("nothing to mirror")) << told.toStdString();
    b.desk().choose({BoardView::side, {{"/forms/1", Handle::place}}, {}, -1, -1});
    EXPECT_FALSE(mirrorChosen(b.desk(), 0));
    EXPECT_TRUE(told.contains("round")) << told.toStdString();
    b.desk().choose({BoardView::front, {{"/forms/0", Handle::place}}, {}, -1, -1});
    EXPECT_FALSE(mirrorChosen(b.desk(), 0));
    EXPECT_TRUE(told.contains("side view")) << told.toStdString();
    EXPECT_EQ(b.project(), project);
}

TEST(BoardPlace, IsToldAnewWhenTheSheetMovesUnderThePointer) {
    BoardBench b(hull());
    const QPoint at = b.px(BoardView::side, {500, 300});
    QTest::mouseMove(&b.canvas(), at);
    const QString before = b.view->placeWords();
    QWheelEvent wheel(at, b.canvas().mapToGlobal(at), {}, {0, 480}, Qt::NoButton, Qt::NoModifier,
                      Qt::NoScrollPhase, false);
    QApplication::sendEvent(&b.canvas(), &wheel);
    for (int i = 0; i < 3; ++i) { // the arrows move the sheet when nothing is chosen
        b.key(Qt::Key_Right);
        const BoardPointer& told = b.canvas().pointer();
        EXPECT_NEAR((b.canvas().pointerAt(told.px).at - told.at).norm(), 0, 1e-9);
    }
    EXPECT_NE(b.view->placeWords(), before);
}

TEST(BoardTold, GoesWhenSomethingElseIsDone) {
    BoardBench b(hull());
    b.key(Qt::Key_Insert);
    ASSERT_TRUE(b.view->helpWords().contains("no edge")) << b.view->helpWords().toStdString();
    b.click(BoardView::side, {-700, 1400});
    EXPECT_FALSE(b.view->helpWords().contains("no edge"));
}

TEST(BoardKeys, EveryLetterTakesItsToolAndEveryKeyIsHeard) {
    BoardBench b(hull());
    for (const KeyLine& line : boardKeys()) {
        b.desk().choose({BoardView::side, {{"/forms/0/outline/1", Handle::corner}}, {}, -1, -1});
        const QKeySequence sequence(line.keys);
        ASSERT_EQ(sequence.count(), 1) << line.keys.toStdString();
        const QKeyCombination key = sequence[0];
        const QString text = line.keys.size() == 1 ? line.keys.toLower() : QString();
        QKeyEvent event(QEvent::KeyPress, key.key(), key.keyboardModifiers(), text);
        QApplication::sendEvent(&b.canvas(), &event);
        EXPECT_TRUE(event.isAccepted()) << line.keys.toStdString();
        const QString tool = line.keys.size() == 1 ? BoardBar::toolFor(line.keys) : QString();
        QToolButton* button = b.view->bar()->button(tool);
        if (tool == "mechanism") { // which of them is asked first
            QWidget* menu = QApplication::activePopupWidget();
            ASSERT_TRUE(menu);
            menu->close();
        } else if (button && tool != "picture") {
            EXPECT_TRUE(button->isChecked()) << line.keys.toStdString();
        }
        b.view->take("choose");
    }
    // A key that is not listed is left to the window.
    QKeyEvent other(QEvent::KeyPress, Qt::Key_F12, Qt::NoModifier);
    QApplication::sendEvent(&b.canvas(), &other);
    EXPECT_FALSE(other.isAccepted());
}

TEST(NewForms, AProfileRoundDonorAndRiderIsWideEnoughForThem) {
    Project project;
    project.scale = "1/2";
    project.donor.kind = "powered_chair";
    project.materials.fallback = "foam";
    SheetStock foam;
    foam.name = "foam";
    foam.thickness = "25 mm";
    project.stock.sheets.push_back(foam);
    const Scope scope = scopeOf(project, 0.5);
    NewForm wanted;
    wanted.places = {{-1000, 0}, {1500, 0}, {1500, 1700}, {-1000, 1700}};
    const auto half = [&](const NewForm& form) {
        const auto edit = addForm(project, scope, form);
        EXPECT_TRUE(edit);
        const Project after = edit->apply(project).value();
        const Text& text = std::get<ProfileShape>(after.forms.back().shape).outline.front().half_width;
        return evaluate(text, scope, Space::subject, Kind::length).value().value;
    };
    double widest = 0;
    for (const FitSolid& s : resolveDonor(project, scope).solids) {
        const Box3 box = bounds(s.shape);
        widest = std::max({widest, -box.min.y() + s.clearance, box.max.y() + s.clearance});
    }
    const double needed = widest + 25;
    ASSERT_GT(widest, 100);
    EXPECT_GE(half(wanted), needed - 1e-6);
    EXPECT_LE(half(wanted), needed + 10) << "to 10 mm of the subject";
    NewForm beside = wanted; // a box in front of all of it
    beside.places = {{3000, 0}, {4000, 0}, {4000, 500}, {3000, 500}};
    EXPECT_NEAR(half(beside), 200, 1) << "a fifth of its length, as ever";
    wanted.size = 123;
    EXPECT_NEAR(half(wanted), 123, 1e-6) << "what is typed is what it is";
}

} // namespace
} // namespace slab::ui
