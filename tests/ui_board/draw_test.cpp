// Forms drawn on the sheet, curves, dimension lines and pictures, by real events.
#include "core/evaluate/stages.h"
#include "tests/ui_board/board_bench.h"
#include "ui/board/board_bar.h"
#include "ui/board/curve_edits.h"
#include "ui/board/dimension_strip.h"
#include "ui/board/draw_strip.h"
#include "ui/board/edge_strip.h"
#include "ui/board/measure_tool.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/board/picture_tool.h"
#include <QDir>
#include <QImage>
#include <QTemporaryDir>
#include <QToolButton>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

using test::BoardBench;

Project blank() {
    Project project;
    project.title = "blank";
    project.dimensions = {{"beam", "800 mm", Space::subject, {}, {}}};
    return project;
}

double figure(const Project& project, const Text& text) {
    std::vector<Finding> findings;
    const Scope scope = resolveScope(project, readScale(project.scale).value(), findings);
    return evaluate(text.empty() ? "0" : text, scope, Space::subject, Kind::length).value().value;
}

/// A sheet of three metres by two, zoomed so that its grid is coarse enough to hit by whole pixels.
void spread(BoardBench& b) {
    PaperView view;
    view.scale = 0.25;
    view.origin = {200, 400};
    b.canvas().setPaper(view);
}

TEST(Draw, ATaperOverTheSideViewIsRefusedInWords) {
    BoardBench b(test::hull());
    b.key(Qt::Key_T);
    const Vec2 stem = b.at(BoardView::side, "hull/stem"), keel = b.at(BoardView::side, "hull/keel");
    b.click(BoardView::side, stem);
    b.click(BoardView::side, keel);
    EXPECT_TRUE(b.view->helpWords().contains("plan view, not over the side"))
        << b.view->helpWords().toStdString();
    b.key(Qt::Key_Return);
    EXPECT_EQ(b.project().forms.size(), test::hull().forms.size());
    for (const Vec2& at : {Vec2(0, 0), Vec2(500, 0), Vec2(500, 300)}) b.click(BoardView::plan, at);
    b.key(Qt::Key_Return);
    EXPECT_EQ(b.project().forms.size(), test::hull().forms.size() + 1) << "in the plan it is drawn";
}

TEST(Draw, AProfileByClicks) {
    BoardBench b(blank());
    spread(b);
    b.key(Qt::Key_P);
    for (const Vec2& at : {Vec2(0, 0), Vec2(2000, 0), Vec2(2000, 800), Vec2(0, 800)})
        b.click(BoardView::side, at);
    b.key(Qt::Key_Return);
    ASSERT_EQ(b.project().forms.size(), 1U);
    const auto& outline = std::get<ProfileShape>(b.project().forms[0].shape).outline;
    ASSERT_EQ(outline.size(), 4U);
    EXPECT_NEAR(figure(b.project(), outline[2].x), 2000, 1e-6) << "clicks meet the grid";
    EXPECT_NEAR(figure(b.project(), outline[2].z), 800, 1e-6);
    b.session->undo();
    EXPECT_TRUE(b.project().forms.empty()) << "one step";
}

TEST(Draw, TypedCornersOfAStandingPlateStayFormulas) {
    for (const BoardView view : {BoardView::side, BoardView::front, BoardView::plan}) {
        BoardBench b(blank());
        spread(b);
        b.key(Qt::Key_L);
        QTest::mouseMove(&b.canvas(), b.px(view, {200, 200}));
        auto* strip = b.view->drawStrip();
        const auto edit = [&](const QString& name) -> QLineEdit* {
            for (auto* one : strip->findChildren<QLineEdit*>())
                if (one->accessibleName() == name) return one;
            return nullptr;
        };
        const auto typeInto = [&](const QString& name, const char* text) {
            QLineEdit* one = edit(name);
            ASSERT_TRUE(one) << name.toStdString();
            one->setFocus();
            QTest::keyClicks(one, text);
            QTest::keyClick(one, Qt::Key_Return);
        };
        const QString right = QString("next ") + axisOf(view, 0), up = QString("next ") + axisOf(view, 1);
        typeInto("stands at", "beam / 4");
        for (const auto& [x, y] :
             {std::pair{"0", "beam / 2"}, {"beam * 2", "beam / 2"}, {"beam * 2", "beam"}, {"0", "beam"}}) {
            typeInto(right, x);
            typeInto(up, y);
        }
        typeInto(right, "");
        ASSERT_EQ(b.project().forms.size(), 1U) << viewName(view);
        const Form& form = b.project().forms[0];
        const auto& plate = std::get<PlateShape>(form.shape);
        ASSERT_EQ(plate.outline.size(), 4U);
        EXPECT_EQ(plate.outline[1].x, "beam * 2") << viewName(view);
        EXPECT_EQ(plate.outline[1].y, "beam / 2") << viewName(view);
        EXPECT_EQ(plate.outline[3].y, "beam") << viewName(view);
        const Text& across = view == BoardView::side    ? form.at.y
                             : view == BoardView::front ? form.at.x
                                                        : form.at.z;
        EXPECT_EQ(across, "beam / 4") << viewName(view);
    }
}

TEST(Draw, ATypedCornerStaysAFormula) {
    BoardBench b(blank());
    b.key(Qt::Key_T);
    auto* strip = b.view->drawStrip();
    const auto typeInto = [&](const char* name, const char* text) {
        for (auto* edit : strip->findChildren<QLineEdit*>())
            if (edit->accessibleName() == name) {
                edit->setFocus();
                QTest::keyClicks(edit, text);
                QTest::keyClick(edit, Qt::Key_Return);
                return;
            }
        FAIL() << name;
    };
    typeInto("height", "beam");
    for (const auto& [x, y] :
         {std::pair{"0", "-beam / 2"}, {"1 m", "-beam / 2"}, {"1 m", "beam / 2"}, {"0", "beam / 2"}}) {
        typeInto("next x", x);
        typeInto("next y", y);
    }
    typeInto("next x", "");
    ASSERT_EQ(b.project().forms.size(), 1U);
    const auto& taper = std::get<TaperShape>(b.project().forms[0].shape);
    EXPECT_EQ(taper.base[0].y, "-beam / 2");
    EXPECT_EQ(taper.top[2].y, "beam / 2");
    EXPECT_EQ(taper.base[1].x, "1 m");
    EXPECT_EQ(taper.top_z, "beam");
}

TEST(Draw, ABoxAndACircleInOneDrag) {
    BoardBench b(blank());
    spread(b);
    b.key(Qt::Key_L);
    b.drag(b.px(BoardView::plan, {0, -200}), b.px(BoardView::plan, {1000, 200}));
    ASSERT_EQ(b.project().forms.size(), 1U);
    EXPECT_EQ(std::get<PlateShape>(b.project().forms[0].shape).outline.size(), 4U);
    b.key(Qt::Key_O);
    b.drag(b.px(BoardView::plan, {500, 0}), b.px(BoardView::plan, {700, 0}));
    ASSERT_EQ(b.project().forms.size(), 2U);
    const Form& pipe = b.project().forms[1];
    EXPECT_NEAR(figure(b.project(), std::get<RoundShape>(pipe.shape).diameter), 400, 1e-6);
    EXPECT_GT(figure(b.project(), std::get<RoundShape>(pipe.shape).length), 0);
    EXPECT_EQ(pipe.at.pitch, "") << "a circle in the plan stands upright";
    EXPECT_NEAR(figure(b.project(), pipe.at.x), 500, 1e-6);
}

TEST(Draw, TooFewCornersMakeNothingAndEscapeLeaves) {
    BoardBench b(blank());
    spread(b);
    b.key(Qt::Key_P);
    b.click(BoardView::side, {0, 0});
    b.click(BoardView::side, {1000, 0});
    b.key(Qt::Key_Escape);
    EXPECT_TRUE(b.view->bar()->button("profile")->isChecked()) << "first the corners go";
    b.key(Qt::Key_Escape);
    EXPECT_TRUE(b.view->bar()->button("choose")->isChecked()) << "then the tool";
    EXPECT_TRUE(b.project().forms.empty());
    EXPECT_FALSE(b.session->history().canUndo());
}

TEST(Curves, AnEdgeIsBentAndStraightened) {
    BoardBench b(test::hull());
    const Project before = b.project();
    const Vec2 middle = (b.at(BoardView::side, "hull/forefoot") + b.at(BoardView::side, "hull/stem")) / 2;
    b.click(BoardView::side, middle);
    ASSERT_TRUE(b.view->edgeStrip()->serves());
    const auto button = [&](const char* name) {
        for (auto* one : b.view->edgeStrip()->findChildren<QToolButton*>())
            if (one->accessibleName() == name) return one;
        return static_cast<QToolButton*>(nullptr);
    };
    for (const auto& [name, kind] : {std::pair{"Arc edge", CurveKind::arc},
                                     {"Ellipse edge", CurveKind::ellipse},
                                     {"Spline edge", CurveKind::spline}}) {
        QTest::mouseClick(button(name), Qt::LeftButton);
        EXPECT_EQ(curveKind(b.project(), "/forms/0/outline/1"), kind) << name;
        const auto edge = std::find_if(b.desk().scene().of(BoardView::side).edges.begin(),
                                       b.desk().scene().of(BoardView::side).edges.end(),
                                       [](const BoardEdge& e) { return e.pointer == "/forms/0/outline/1"; });
        ASSERT_NE(edge, b.desk().scene().of(BoardView::side).edges.end());
        EXPECT_GT(edge->facets.size(), 2U) << name;
        EXPECT_GT(deviationOf(*edge), 0) << name;
        // The bend goes outward: the outline's middle lies further from the body than the straight edge.
        const Vec2 inside(1200, 500);
        EXPECT_GT((edge->line[edge->line.size() / 2] - inside).norm(), (middle - inside).norm()) << name;
    }
    QTest::mouseClick(button("Straight edge"), Qt::LeftButton);
    EXPECT_EQ(b.project(), before);
}

// Sagitta of a circle arc cut into n equal flats: the deviation of each is r (1 - cos(a / 2n)) (closed form).
TEST(Curves, TheDeviationShownIsTheSagittaOfTheFlats) {
    BoardBench b(test::hull());
    b.click(BoardView::side,
            (b.at(BoardView::side, "hull/keel") + b.at(BoardView::side, "hull/forefoot")) / 2);
    QTest::mouseClick(b.view->edgeStrip()->findChildren<QToolButton*>().at(1), Qt::LeftButton);
    ASSERT_EQ(curveKind(b.project(), "/forms/0/outline/0"), CurveKind::arc);
    const auto& curve = std::get<ProfileShape>(b.project().forms[0].shape).curves.at(0);
    const double chord = 2500, sagitta = figure(b.project(), curve.bulge);
    const double radius = chord * chord / (8 * sagitta) + sagitta / 2,
                 angle = 4 * std::atan(2 * sagitta / chord);
    for (const BoardEdge& e : b.desk().scene().of(BoardView::side).edges)
        if (e.pointer == "/forms/0/outline/0") {
            EXPECT_NEAR(deviationOf(e), radius * (1 - std::cos(angle / 8)),
                        0.02 * radius * (1 - std::cos(angle / 8)))
                << "four flats; the curve is drawn by fine pieces";
        }
}

TEST(Dimensions, ALineIsDrawnAndDrivesWhatItMeasures) {
    BoardBench b(test::hull());
    b.key(Qt::Key_D);
    b.click(BoardView::side, b.at(BoardView::side, "hull/stern"));
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    b.click(BoardView::side, {500, 1300});
    ASSERT_EQ(b.project().lines.size(), 1U);
    EXPECT_EQ(b.project().lines[0].along, "x");
    ASSERT_TRUE(b.view->dimensionStrip()->serves());
    QLineEdit* edit = b.view->dimensionStrip()->distance()->edit();
    edit->setFocus();
    QTest::keyClick(edit, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClicks(edit, "1250 mm");
    QTest::keyClick(edit, Qt::Key_Return);
    ASSERT_TRUE(b.session->waitUntilAtRest(20000)); // the new dimension has been read
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").x() - b.at(BoardView::side, "hull/stern").x(), 1250, 1e-6);
    EXPECT_NE(b.project().lines[0].drives, "") << "it has made a dimension of its own";
    b.session->undo();
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").x() - b.at(BoardView::side, "hull/stern").x(), 1000, 1e-6);
    b.session->undo();
    EXPECT_TRUE(b.project().lines.empty());
}

TEST(Dimensions, ADistanceIsTypedAtTheSubjectsSizeAsOtherFiguresAre) {
    Project project = test::hull();
    project.scale = "1/2";
    BoardBench b(project);
    b.key(Qt::Key_D);
    b.click(BoardView::side, b.at(BoardView::side, "hull/stern"));
    b.click(BoardView::side, b.at(BoardView::side, "hull/deck"));
    b.click(BoardView::side, {250, 650});
    ASSERT_TRUE(b.view->dimensionStrip()->serves());
    StripEntry* distance = b.view->dimensionStrip()->distance();
    EXPECT_EQ(distance->edit()->text(), "1000 mm") << "as the point's own x";
    EXPECT_EQ(distance->built()->text(), "500 mm") << "and what is built";
    distance->edit()->setFocus();
    distance->edit()->selectAll();
    QTest::keyClicks(distance->edit(), "1200 mm");
    EXPECT_EQ(distance->built()->text(), "600 mm") << "told while it is typed";
    QTest::keyClick(distance->edit(), Qt::Key_Return);
    ASSERT_TRUE(b.session->waitUntilAtRest(20000));
    EXPECT_NEAR(b.at(BoardView::side, "hull/deck").x() - b.at(BoardView::side, "hull/stern").x(), 600, 1e-6);
    EXPECT_EQ(b.project().dimensions.back().value, "1200 mm");
    EXPECT_EQ(distance->edit()->text(), "1200 mm");
    EXPECT_EQ(distance->built()->text(), "600 mm");
}

TEST(Dimensions, WhereTheLineLiesSaysWhatItMeasures) {
    const Vec2 a(0, 0), c(1000, 500);
    EXPECT_EQ(DimensionTool::alongFor(BoardView::side, a, c, {500, 900}), "x");
    EXPECT_EQ(DimensionTool::alongFor(BoardView::side, a, c, {1400, 250}), "z");
    EXPECT_EQ(DimensionTool::alongFor(BoardView::front, a, c, {500, -100}), "y");
    EXPECT_EQ(DimensionTool::alongFor(BoardView::side, a, c, {500, 250}), "");
    EXPECT_EQ(DimensionTool::alongFor(BoardView::plan, a, {1000, 0}, {500, 0}), "x")
        << "level: there is only one";
}

TEST(Measure, TellsADistanceAndChangesNothing) {
    BoardBench b(test::hull());
    const Project before = b.project();
    b.key(Qt::Key_M);
    b.click(BoardView::side, b.at(BoardView::side, "hull/keel"));
    b.click(BoardView::side, b.at(BoardView::side, "hull/stern"));
    const auto* tool = dynamic_cast<MeasureTool*>(&b.canvas().tool());
    ASSERT_TRUE(tool);
    EXPECT_TRUE(tool->reading().contains(QString::fromStdString(printLength(1000, styleFor("mm")))))
        << tool->reading().toStdString();
    EXPECT_EQ(b.view->helpWords(), tool->reading());
    EXPECT_EQ(b.project(), before);
}

class Pictures : public testing::Test {
protected:
    QTemporaryDir folder;
    QString file() {
        QImage image(400, 200, QImage::Format_RGB32);
        image.fill(Qt::white);
        for (int x = 100; x < 300; ++x) image.setPixelColor(x, 150, Qt::black);
        const QString path = folder.filePath("side.png");
        EXPECT_TRUE(image.save(path));
        return path;
    }
};

TEST_F(Pictures, ARulerInThePictureBringsItToScale) {
    BoardBench b(test::hull());
    b.canvas().pictures().setFolder(folder.path());
    QTest::mouseMove(&b.canvas(), b.px(BoardView::side, {500, 500}));
    ASSERT_TRUE(b.view->addPictureFile(file()));
    ASSERT_EQ(b.project().pictures.size(), 1U);
    EXPECT_EQ(b.project().pictures[0].file, "side.png") << "relative to the document";
    const PlacedPicture* placed = b.canvas().pictures().at(0);
    ASSERT_TRUE(placed);
    EXPECT_EQ(placed->state, PlacedPicture::State::present);
    auto tool = std::make_unique<PictureTool>(b.canvas(), 0, PictureTool::Deed::distance);
    tool->setFigures("2 m", {});
    b.canvas().setTool(std::move(tool));
    for (const Vec2& pixel : {Vec2(100, 150), Vec2(300, 150)})
        b.click(BoardView::side, toPlane(placed->fix, pixel));
    placed = b.canvas().pictures().at(0);
    ASSERT_EQ(placed->scale, PlacedPicture::Scale::distance);
    const double px = 3000.0 / 400; // one screen pixel is about this many mm here: clicks are whole pixels
    EXPECT_NEAR((toPlane(placed->fix, {300, 150}) - toPlane(placed->fix, {100, 150})).norm(), 2000, 8 * px);
    b.session->undo();
    EXPECT_EQ(b.canvas().pictures().at(0)->scale, PlacedPicture::Scale::none);
}

TEST_F(Pictures, AMissingFileIsToldAndBreaksNothing) {
    BoardBench b(test::hull());
    b.canvas().pictures().setFolder(folder.path());
    ASSERT_TRUE(b.view->addPictureFile(file()));
    QFile::remove(folder.filePath("side.png"));
    b.canvas().pictures().readFiles();
    EXPECT_TRUE(b.canvas().pictures().words(0).contains("missing"));
    QImage image(b.canvas().size(), QImage::Format_RGB32);
    b.canvas().render(&image);
    b.click(BoardView::side, b.at(BoardView::side, "hull/stem"));
    EXPECT_EQ(b.desk().choice().points.size(), 1U);
}

} // namespace
} // namespace slab::ui
