// Marking, levelling, placing and mending pictures by real mouse and keyboard events.
#include "tests/ui_board/sheet_bench.h"
#include "ui/board/field_strip.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/board/reading_strip.h"
#include <QFile>

namespace slab::ui {
namespace {

using test::BoardBench;
using test::buttonOf;

class MarkedSheet : public test::SheetOfViews {
protected:
    std::unique_ptr<BoardBench> bench(const Project& project, bool chosen = true) const {
        auto b = std::make_unique<BoardBench>(project);
        b->canvas().pictures().setFolder(folder.path());
        b->canvas().fit();
        if (chosen) b->desk().choose({BoardView::side, {}, {}, -1, 0, -1});
        return b;
    }
    static StripEntry* entry(const BoardBench& b, const QString& label) {
        for (auto* one : b.view->pictureStrip()->findChildren<StripEntry*>())
            if (one->label() == label) {
                test::unfold(b.view->pictureStrip(), one);
                return one;
            }
        ADD_FAILURE() << "no field " << label.toStdString();
        return nullptr;
    }
    static void press(const BoardBench& b, const QString& words) {
        QToolButton* button = buttonOf(b.view->pictureStrip(), words);
        ASSERT_TRUE(button) << words.toStdString();
        QTest::mouseClick(button, Qt::LeftButton);
    }
    static void type(StripEntry* entry, const QString& text) {
        entry->edit()->setFocus();
        entry->edit()->selectAll();
        QTest::keyClicks(entry->edit(), text);
        QTest::keyClick(entry->edit(), Qt::Key_Return);
    }
    /// Where a pixel of the picture lies now.
    static Vec2 now(const BoardBench& b, const Vec2& pixel) {
        return toPlane(b.canvas().pictures().at(0)->fix, pixel);
    }
    static double far(const BoardBench& b) { return 1.5 / (5 * b.canvas().view().scale) + 0.01; } // px
};

TEST_F(MarkedSheet, AMarkSetAgainFromNearIsSurerAndWorsensNoOther) {
    const auto b = bench(sheet());
    press(*b, "Mark");
    b->click(BoardView::side, place(400, 300));
    b->key(Qt::Key_Escape);
    press(*b, "Two points");
    b->click(BoardView::side, place(100, 500));
    b->click(BoardView::side, place(700, 500));
    const Picture& coarse = b->project().pictures[0];
    ASSERT_FALSE(coarse.from.click_error.empty()) << "the sheet is seen from afar";
    EXPECT_FALSE(coarse.features[0].click_error.empty());
    EXPECT_EQ(coarse.click_error, "") << "no other mark gets worse";
    const double before = b->canvas().pictures().at(0)->features[0].error.major;
    // From near, both points once more.
    QTest::mouseMove(&b->canvas(), b->px(BoardView::side, now(*b, {300, 400})));
    for (int i = 0; i < 14; ++i) b->key(Qt::Key_Plus);
    b->desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    press(*b, "Two points");
    b->click(BoardView::side, now(*b, {270, 420}));
    b->click(BoardView::side, now(*b, {330, 420}));
    EXPECT_EQ(b->project().pictures[0].from.click_error, "");
    EXPECT_EQ(b->project().pictures[0].to.click_error, "");
    std::printf("mark ± %.1f mm before, scale from afar %s px\n", before, coarse.from.click_error.c_str());
}

TEST_F(MarkedSheet, ADistanceTypedForTwoNewPointsIsNotThatOfTheOldOnes) {
    const auto b = bench(sheet());
    const Project before = b->project();
    const Vec2 one = now(*b, {200, 400}), other = now(*b, {600, 400});
    entry(*b, "distance")->edit()->setFocus();
    entry(*b, "distance")->edit()->selectAll();
    QTest::keyClicks(entry(*b, "distance")->edit(), "1 m");
    press(*b, "Two points");
    EXPECT_EQ(b->project(), before) << "until the points are clicked nothing changes";
    b->click(BoardView::side, one);
    EXPECT_EQ(b->project(), before);
    b->click(BoardView::side, other);
    EXPECT_EQ(b->project().pictures[0].distance, "1 m");
    EXPECT_NEAR((now(*b, {600, 400}) - now(*b, {200, 400})).norm(), 1000, 5000 * far(*b) / 400);
    EXPECT_LT((now(*b, {200, 400}) - one).norm(), 10 * far(*b)) << "it shrinks about the first of them";
    b->session->undo();
    EXPECT_EQ(b->project(), before) << "one step";
    // Tab to the button and the space bar are no other way.
    entry(*b, "distance")->edit()->setFocus();
    entry(*b, "distance")->edit()->selectAll();
    QTest::keyClicks(entry(*b, "distance")->edit(), "2 m");
    buttonOf(b->view->pictureStrip(), "Two points")->setFocus(Qt::TabFocusReason);
    EXPECT_EQ(b->project(), before);
    // Return corrects the distance of the points that are there.
    type(entry(*b, "distance"), "8 m");
    EXPECT_EQ(b->project().pictures[0].distance, "8 m");
}

TEST_F(MarkedSheet, WhatIsClickedBesideThePictureIsRefusedInWords) {
    Project project = sheet();
    Picture& p = project.pictures[0];
    p.crop_x = "0", p.crop_y = "0", p.crop_width = "400", p.crop_height = "600";
    const auto b = bench(project);
    press(*b, "Two points");
    b->click(BoardView::side, place(600, 300));
    EXPECT_TRUE(b->view->helpWords().contains("cropped away")) << b->view->helpWords().toStdString();
    b->click(BoardView::side, place(-60, 300));
    EXPECT_TRUE(b->view->helpWords().contains("beside")) << b->view->helpWords().toStdString();
    EXPECT_EQ(b->canvas().tool().prompt().step, 1) << "nothing is marked yet";
    b->click(BoardView::side, place(100, 300));
    b->click(BoardView::side, place(900, 300));
    EXPECT_EQ(b->project(), project);
    b->click(BoardView::side, place(399, 300));
    EXPECT_NEAR(std::stod(b->project().pictures[0].to.x), 399, 2 * far(*b));
}

TEST_F(MarkedSheet, ALevelLineOfItsOwnTurnsItAndKeepsTheDistance) {
    const auto b = bench(sheet());
    const Picture before = b->project().pictures[0];
    press(*b, "Level");
    EXPECT_TRUE(b->canvas().tool().prompt().words.contains("level in truth"));
    bool fine = false;
    QObject::connect(&b->desk(), &BoardDesk::told, [&](const QString&, bool good) { fine = good; });
    b->click(BoardView::side, now(*b, {700, 300}));
    b->click(BoardView::side, now(*b, {100, 350}));
    const Picture& after = b->project().pictures[0];
    EXPECT_EQ(after.from, before.from);
    EXPECT_EQ(after.to, before.to);
    EXPECT_EQ(after.distance, before.distance);
    EXPECT_TRUE(b->view->helpWords().contains("level now")) << b->view->helpWords().toStdString();
    EXPECT_TRUE(fine) << "no warning";
    EXPECT_NEAR(now(*b, {700, 300}).y(), now(*b, {100, 350}).y(), 25 * far(*b));
    EXPECT_GT(now(*b, {700, 300}).x(), now(*b, {100, 350}).x()) << "it is not stood on its head";
    EXPECT_NEAR((now(*b, {0, 600}) - now(*b, {800, 600})).norm(), 4000, 1e-9);
    // The field tells by how much; typed, the same figure leaves it where it is.
    const Vec2 level = now(*b, {800, 600}) - now(*b, {0, 600});
    const QString turned = entry(*b, "turned")->edit()->text();
    const double told = parseAngle(turned.toStdString()).value_or(99);
    EXPECT_NEAR(told, std::atan2(level.y(), level.x()), 1e-4) << turned.toStdString();
    EXPECT_GT(std::abs(told), 0.05) << "it has been turned";
    const Project levelled = b->project();
    type(entry(*b, "turned"), turned + " ");
    const Vec2 typed = now(*b, {800, 600}) - now(*b, {0, 600});
    EXPECT_NEAR(std::atan2(typed.y(), typed.x()), told, 1e-4) << b->project().pictures[0].rotation;
    EXPECT_EQ(b->project().pictures[0].level_from, PicturePoint{});
    b->session->undo();
    ASSERT_EQ(b->project(), levelled);
    // Two other points of a distance leave the level line alone.
    press(*b, "Two points");
    b->click(BoardView::side, now(*b, {200, 200}));
    b->click(BoardView::side, now(*b, {600, 450}));
    EXPECT_EQ(b->project().pictures[0].level_from, after.level_from);
    EXPECT_NEAR(now(*b, {700, 300}).y(), now(*b, {100, 350}).y(), 25 * far(*b));
    // A typed angle takes its place.
    type(entry(*b, "turned"), "5 deg");
    EXPECT_EQ(b->project().pictures[0].turn, "");
    EXPECT_EQ(b->project().pictures[0].level_from, PicturePoint{});
    const Vec2 way = now(*b, {800, 600}) - now(*b, {0, 600});
    EXPECT_NEAR(std::atan2(way.y(), way.x()), 5 * 3.14159265358979 / 180, 1e-9)
        << b->project().pictures[0].rotation;
    press(*b, "Plumb");
    b->click(BoardView::side, now(*b, {400, 100}));
    b->click(BoardView::side, now(*b, {420, 500}));
    EXPECT_NEAR(now(*b, {400, 100}).x(), now(*b, {420, 500}).x(), 25 * far(*b));
    EXPECT_GT(now(*b, {400, 100}).y(), now(*b, {420, 500}).y());
}

TEST_F(MarkedSheet, IsPlacedExactlyByArrowsFiguresAndItsMarks) {
    Project project = sheet();
    project.pictures[0].x = "100 mm + 1 m";
    project.pictures[0].features = {{"bow", "700", "480", {}}};
    const auto b = bench(project);
    EXPECT_TRUE(b->view->helpWords().contains("Arrows move")) << b->view->helpWords().toStdString();
    const PaperView paper = b->canvas().view();
    b->key(Qt::Key_Right);
    b->key(Qt::Key_Up, Qt::ShiftModifier);
    EXPECT_EQ(b->canvas().view().origin, paper.origin) << "the sheet stays";
    EXPECT_LT((b->canvas().pictures().at(0)->at - Vec2(1101, 10)).norm(), 1e-9);
    EXPECT_TRUE(b->project().pictures[0].x.starts_with("100 mm + ")) << "a formula stays one";
    type(entry(*b, "x"), "1 m / 2");
    type(entry(*b, "z"), "-250 mm");
    EXPECT_EQ(b->project().pictures[0].x, "1 m / 2");
    EXPECT_LT((b->canvas().pictures().at(0)->at - Vec2(500, -250)).norm(), 1e-9);
    // The bow, taken beside it, meets the ground, whatever lies under the pointer.
    b->canvas().fit();
    const Vec2 bow = now(*b, {700, 480}), grab = bow + Vec2(-150, 120);
    b->drag(b->px(BoardView::side, grab), b->px(BoardView::side, grab + Vec2(30, -bow.y() + 4)));
    EXPECT_NEAR(now(*b, {700, 480}).y(), 0, 1e-3) << "on the ground";
    const PictureStrip* strip = b->view->pictureStrip();
    ASSERT_TRUE(strip);
    Project front = b->project();
    front.pictures[0].view = "front";
    b->session->replace(front);
    b->desk().choose({BoardView::front, {}, {}, -1, 0, -1});
    EXPECT_TRUE(entry(*b, "y")) << "the front's own axes";
}

TEST_F(MarkedSheet, WhatIsTracedOverItIsNotPulledToTheGrid) {
    const auto b = bench(sheet(), false);
    b->view->take("measure");
    // Three pixels beside a crossing of the grid that nothing else is near.
    const auto pointBesideGrid = [&] {
        const double grid = b->canvas().grid();
        EXPECT_GT(grid, 0);
        const Vec2 node(std::round(2000 / grid) * grid, std::round(1300 / grid) * grid);
        const QPoint at = b->px(BoardView::side, node) + QPoint(3, 3);
        QTest::mouseMove(&b->canvas(), at + QPoint(20, 20));
        QTest::mouseMove(&b->canvas(), at);
    };
    pointBesideGrid();
    EXPECT_NE(b->canvas().tool().snap().words, "grid") << "over the picture";
    Project hidden = b->project();
    hidden.pictures[0].hidden = true;
    b->session->replace(hidden);
    ASSERT_TRUE(b->session->waitUntilAtRest(20000));
    b->view->take("choose");
    b->view->take("measure");
    pointBesideGrid();
    EXPECT_EQ(b->canvas().tool().snap().words, "grid") << "beside it, " << b->canvas().grid() << " ";
}

TEST_F(MarkedSheet, ChangedAndMissingFilesHaveTheirButtons) {
    Project project = sheet();
    project.pictures[0].hash = std::string(64, '0');
    project.pictures.push_back(project.pictures[0]);
    project.pictures[1].name = "of the same file";
    const auto b = bench(project);
    ASSERT_EQ(b->canvas().pictures().at(0)->state, PlacedPicture::State::changed);
    EXPECT_TRUE(b->canvas().pictures().words(0).contains("Accept the changed file"));
    press(*b, "Accept the changed file");
    EXPECT_EQ(b->canvas().pictures().at(0)->state, PlacedPicture::State::present);
    EXPECT_EQ(b->canvas().pictures().at(1)->state, PlacedPicture::State::present);
    EXPECT_TRUE(buttonOf(b->view->pictureStrip(), "Accept the changed file")->isHidden()) << "it is done";
    ASSERT_TRUE(QFile::rename(folder.filePath("tram.png"), folder.filePath("moved.png")));
    b->canvas().pictures().readFiles();
    ASSERT_EQ(b->canvas().pictures().at(0)->state, PlacedPicture::State::missing);
    EXPECT_TRUE(b->canvas().pictures().words(0).contains("Choose the file…"));
    int asked = 0;
    QObject::connect(b->view.get(), &DraftingView::pictureFileWanted, [&] { ++asked; });
    press(*b, "Choose the file…");
    EXPECT_EQ(asked, 1);
    EXPECT_TRUE(b->view->takePictureFile(folder.filePath("moved.png")));
    for (int i : {0, 1}) {
        EXPECT_EQ(b->project().pictures[static_cast<std::size_t>(i)].file, "moved.png");
        EXPECT_EQ(b->canvas().pictures().at(i)->state, PlacedPicture::State::present);
    }
    EXPECT_FALSE(b->view->takePictureFile(folder.filePath("nothing.png")));
    EXPECT_EQ(b->project().pictures[0].file, "moved.png");
    b->desk().chooseNone();
    EXPECT_TRUE(b->view->choosePicture("of the same file"));
    EXPECT_EQ(b->desk().choice().picture, 1);
    EXPECT_TRUE(b->view->pictureStrip()->isVisible());
    EXPECT_FALSE(b->view->choosePicture("nobody"));
}

TEST_F(MarkedSheet, OnTheEmptySheetAPictureGoesUnderTheSide) {
    (void)sheet(); // writes the file
    BoardBench b;
    b.canvas().pictures().setFolder(folder.path());
    for (const QPoint& at : {QPoint(60, 60), QPoint(1100, 60), QPoint(1100, 500), QPoint(60, 500)}) {
        QTest::mouseMove(&b.canvas(), at);
        ASSERT_TRUE(b.view->addPictureFile(folder.filePath("tram.png")));
        EXPECT_EQ(b.project().pictures[0].view, "side");
        b.session->undo();
    }
}

TEST_F(MarkedSheet, WhatLiesOverItIsFaintWhileItIsMarked) {
    Project project = test::hull();
    project.pictures = sheet().pictures;
    project.pictures[0].opacity = "0.05";
    const auto b = bench(project);
    // An edge of the hull, away from its points: the darkest of a few pixels across it.
    const auto darkness = [&] {
        const QImage seen = b->canvas().grab().toImage();
        const QPoint on = b->px(BoardView::side, {1900, 1000}) * seen.devicePixelRatio();
        int least = 255;
        for (int y = -4; y <= 4; ++y) least = std::min(least, qGray(seen.pixel(on + QPoint(0, y))));
        return 255 - least;
    };
    const int plain = darkness();
    press(*b, "Measure on it");
    QTest::mouseMove(&b->canvas(), b->px(BoardView::side, {2500, 2500}));
    const int faint = darkness();
    EXPECT_GT(plain, 80);
    EXPECT_LT(faint, plain / 2) << plain;
}

TEST_F(MarkedSheet, DonorAndRiderDoNotHideWhatIsDrawnOver) {
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        auto donor = std::make_shared<DonorSet>();
        FitSolid seat;
        seat.name = "donor/seat";
        seat.group = "donor";
        seat.shape = makeCylinder({900, 0, 500}, {1900, 0, 500}, 300);
        donor->solids.push_back(seat);
        e.donor = donor;
        return e;
    };
    BoardBench b(sheet(), engine);
    ASSERT_TRUE(QTest::qWaitFor([&] { return b.session->evaluation().donor != nullptr; }, 20000));
    b.canvas().pictures().setFolder(folder.path());
    b.canvas().fit();
    const auto seen = [&] {
        const QImage image = b.canvas().grab().toImage();
        return qGray(image.pixel(b.px(BoardView::side, {1437, 513}) * image.devicePixelRatio()));
    };
    const int hidden = seen();
    b.view->take("profile");
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, {2900, 2900}));
    EXPECT_GT(seen(), hidden) << "the white of the picture";
    b.view->take("choose");
    EXPECT_EQ(seen(), hidden);
}

TEST_F(MarkedSheet, APictureThatIsNotToScaleOpensWithItsScale) {
    Project project = sheet();
    project.pictures[0].from = project.pictures[0].to = {};
    project.pictures[0].distance.clear();
    const auto b = bench(project);
    b->view->resize(760, 700);
    QCoreApplication::processEvents();
    const auto open = [&] {
        for (const QToolButton* section : b->view->pictureStrip()->sectionButtons())
            if (section->isChecked()) return section->text().toStdString();
        return std::string();
    };
    b->desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    EXPECT_EQ(open(), "Scale");
    b->view->pictureStrip()->sectionButtons()[3]->click();
    EXPECT_EQ(open(), "Use it");
    b->key(Qt::Key_Delete);
    ASSERT_TRUE(b->project().pictures.empty());
    ASSERT_TRUE(b->view->addPictureFile(folder.filePath("tram.png")));
    EXPECT_EQ(open(), "Scale");
}

TEST_F(MarkedSheet, APlaceInInchesIsReadAsOtherLengthsAre) {
    Project project = sheet();
    project.units = "ft";
    project.pictures[0].x = "0.91117 ft";
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        e.units = styleFor(p.units);
        return e;
    };
    BoardBench b(project, engine);
    ASSERT_TRUE(QTest::qWaitFor([&] { return isInch(b.desk().scene().units); }, 20000));
    b.desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    EXPECT_EQ(entry(b, "x")->edit()->text(), "0.91117 ft");
    EXPECT_EQ(entry(b, "x")->built()->text(), "10-15/16″");
}

TEST_F(MarkedSheet, ALineBeforeTheSheetIsToldAtItsTrueLength) {
    Project project = sheet();
    project.pictures[0].space = Space::build;
    project.pictures[0].lines = {{"rail", "100", "100", "500", "100", "", "", {}}};
    const auto b = bench(project);
    b->desk().choose({BoardView::side, {}, {}, -1, 0, 0});
    ReadingStrip* strip = b->view->readingStrip();
    ASSERT_TRUE(strip->serves());
    EXPECT_TRUE(b->canvas().pictures().depthWords(0, 0).contains("looks"))
        << b->canvas().pictures().depthWords(0, 0).toStdString();
    const double flat = b->canvas().pictures().at(0)->lines[0].length.error;
    b->desk().choose({BoardView::side, {}, {}, -1, 0, -1});
    EXPECT_TRUE(b->canvas().pictures().cameraWords(0).contains("guess"));
    type(entry(*b, "camera"), "3 m");
    b->desk().choose({BoardView::side, {}, {}, -1, 0, 0});
    type(strip->depth(), "300 mm");
    const PlacedLine& line = b->canvas().pictures().at(0)->lines[0];
    EXPECT_EQ(b->project().pictures[0].lines[0].depth, "300 mm");
    EXPECT_NEAR(line.length.value, 2000 * 0.9, 1e-6);
    EXPECT_GT(line.length.error, flat);
    EXPECT_TRUE(strip->words().startsWith("1800 mm ±") || strip->words().startsWith("1805 mm"))
        << strip->words().toStdString();
    EXPECT_TRUE(b->canvas().pictures().depthWords(0, 0).contains("2000 mm"))
        << b->canvas().pictures().depthWords(0, 0).toStdString();
    type(strip->depthError(), "5 mm");
    EXPECT_EQ(b->project().pictures[0].lines[0].depth_error, "5 mm");
}

} // namespace
} // namespace slab::ui
