// A body whose document names no sheet to cut it from: what the views say and show.
#include "core/evaluate/evaluate.h"
#include "tests/ui_views/hand_body.h"
#include "ui/fit/fit_view.h"
#include "ui/fit/scene.h"
#include "ui/panels/panel_list.h"
#include "ui/panels/panel_rows.h"
#include "ui/panels/panel_view.h"
#include "ui/theme/empty_state.h"
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>
#include <QWheelEvent>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

constexpr const char* boxForm = R"({"name": "tub", "kind": "taper", "base_z": "0", "top_z": "0.8 m",
  "base": [{"name": "starboard", "x": "-0.5 m", "y": "-0.5 m"}, {"name": "front", "x": "0.5 m", "y": "-0.5 m"},
           {"name": "port", "x": "0.5 m", "y": "0.5 m"}, {"name": "aft", "x": "-0.5 m", "y": "0.5 m"}],
  "top": [{"name": "starboard", "x": "-0.4 m", "y": "-0.4 m"}, {"name": "front", "x": "0.4 m", "y": "-0.4 m"},
          {"name": "port", "x": "0.4 m", "y": "0.4 m"}, {"name": "aft", "x": "-0.4 m", "y": "0.4 m"}]})";
constexpr const char* foam =
    R"({"name": "foam", "kind": "foam", "size": ["4 ft", "8 ft"], "thickness": "12 mm"})";

Project withForm(const Project& project, int at) {
    auto with = insertValue("/forms", at, boxForm).apply(project);
    EXPECT_TRUE(with.has_value());
    return with.value_or(project);
}

TEST(NoSheet, TheSkinStandsInForThePlatesUntilTheyAreThere) {
    Project project = withForm({}, 0);
    project.rider.table = "none";
    Evaluator evaluator;
    SceneBuilder builder;
    const Evaluation bare = evaluator.evaluate(project, Effort::full);
    ASSERT_TRUE(onlySkin(bare));
    const Scene shape = builder.build(bare, {});
    ASSERT_EQ(shape.items.size(), 1U);
    EXPECT_EQ(shape.items[0].id, "tub");
    EXPECT_FALSE(shape.items[0].mesh->triangles.empty());
    EXPECT_NEAR(shape.bounds.size().x(), 1000, 1e-6);
    EXPECT_NEAR(shape.bounds.size().z(), 800, 1e-6);
    EXPECT_NEAR(shape.shell.size().z(), 800, 1e-6);

    project = insertValue("/stock/sheets", 0, foam).apply(project).value();
    project.materials.fallback = "foam";
    const Evaluation cut = evaluator.evaluate(project, Effort::full);
    EXPECT_FALSE(onlySkin(cut));
    const Scene plates = builder.build(cut, {});
    EXPECT_EQ(plates.items.size(), 6U) << "the plates alone";
    for (const SceneItem& item : plates.items) EXPECT_EQ(item.kind, ItemKind::plate) << item.id;
}

TEST(NoSheet, ThePanelsViewAsksForASheetAndNotToBringBack) {
    Session session;
    session.replace(withForm({}, 0));
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    PanelView view(&session);
    view.resize(760, 460);
    view.show();
    QApplication::processEvents();
    const QSignalSpy wanted(&view, &PanelView::stockWanted);
    QPushButton* visible = nullptr;
    for (auto* button : view.findChildren<QPushButton*>())
        if (button->isVisible()) visible = button;
    ASSERT_TRUE(visible) << "an empty view has its button";
    EXPECT_EQ(visible->text(), "Add a sheet");
    visible->click();
    EXPECT_EQ(wanted.count(), 1);
    ASSERT_TRUE(session.apply(insertValue("/stock/sheets", 0, foam)));
    test::rest(session);
    // Now there is a sheet, but nothing says that plates are cut from it.
    QToolButton* leave = nullptr;
    for (auto* button : view.findChildren<QToolButton*>())
        if (button->text().startsWith("Cut from")) leave = button;
    ASSERT_TRUE(leave);
    EXPECT_TRUE(leave->isVisible());
    leave->click();
    test::rest(session);
    ASSERT_TRUE(session.evaluation().panels);
    EXPECT_FALSE(session.evaluation().panels->empty());
    session.undo();
    session.undo();
    EXPECT_EQ(session.project(), withForm({}, 0));
}

TEST(NoSheet, SaysWhyAPlateHasNoPanel) {
    Project p;
    EXPECT_EQ(whyNoPanel(p, "tub/port"), NoPanel::noSheet);
    p.materials.fallback = "foam";
    EXPECT_EQ(whyNoPanel(p, "tub/port"), NoPanel::unknownSheet);
    p = insertValue("/stock/sheets", 0, foam).apply(p).value();
    EXPECT_EQ(whyNoPanel(p, "tub/port"), NoPanel::notMade);
    p.materials.plates.push_back({"tub/*", ""});
    EXPECT_EQ(whyNoPanel(p, "tub/port"), NoPanel::leftOut);
}

double shareOfWidth(const FitView& view) {
    // What is not background, from the first column to the last.
    const QImage picture = view.picture({300, 200});
    const QRgb ground = picture.pixel(0, 0);
    int first = picture.width(), last = -1;
    for (int x = 0; x < picture.width(); ++x)
        for (int y = 0; y < picture.height(); ++y)
            if (picture.pixel(x, y) != ground) first = std::min(first, x), last = std::max(last, x);
    return last < 0 ? 0 : (last - first) / 300.0;
}

TEST(FitViewRefit, TheFirstFormAndWhatGrowsStayInTheView) {
    Session session;
    session.replace(Project{});
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    FitView view(&session);
    view.resize(640, 480);
    view.show();
    QApplication::processEvents();
    ASSERT_TRUE(session.apply(insertValue("/forms", 0, boxForm)));
    test::rest(session);
    const double alone = shareOfWidth(view);
    EXPECT_GT(alone, 0.2);
    EXPECT_TRUE(view.showsAll());
    // Beside the board it is narrow; wide again it is as large as it was.
    for (const QSize& size : {QSize(220, 480), QSize(640, 480)}) {
        view.resize(size);
        QApplication::processEvents();
        EXPECT_TRUE(view.showsAll()) << size.width() << " wide";
    }
    EXPECT_NEAR(shareOfWidth(view), alone, 0.02);
    for (const char* scale : {"0.1", "2", "9"}) {
        ASSERT_TRUE(session.apply(setScale(scale, "drag")));
        test::rest(session);
        EXPECT_TRUE(view.showsAll()) << "at scale " << scale;
    }
    session.settle();
    // By hand the builder looks where he likes; a form that is added is brought into the view all the same.
    QWheelEvent wheel({320, 240}, view.mapToGlobal(QPointF(320, 240)), {}, {0, 2400}, Qt::NoButton,
                      Qt::NoModifier, Qt::NoScrollPhase, false);
    QApplication::sendEvent(view.surface(), &wheel);
    EXPECT_FALSE(view.showsAll());
    ASSERT_TRUE(session.apply(setScale("8", "drag")));
    test::rest(session);
    EXPECT_FALSE(view.showsAll()) << "the hand's view is kept";
    ASSERT_TRUE(session.apply({"Add", {}, [](const Project& before) -> Expected<Project> {
                                   Project with = before;
                                   with.forms.push_back(before.forms.front());
                                   with.forms.back().name = "box";
                                   with.forms.back().at.x = "3 m";
                                   return with;
                               }}));
    test::rest(session);
    EXPECT_TRUE(view.showsAll());
}

} // namespace
} // namespace slab::ui
