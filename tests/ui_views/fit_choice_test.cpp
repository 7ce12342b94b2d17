// The hand in 3D: several chosen with Shift, the menu at the pointer, modules, cleats and mechanisms put in.
#include "core/board/module_edits.h"
#include "tests/board/crate.h"
#include "tests/ui_views/fit_bench.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/chosen_menu.h"
#include "ui/panels/joint_edits.h"
#include "ui/tables/plates_model.h"
#include "ui/tables/plates_table.h"
#include <QMenu>
#include <QTest>

namespace slab::ui {
namespace {

class FitChoice : public slab::test::FitBench {
protected:
    QPointF at(const QString& id) const {
        const auto pixel = view->pixelOf(id);
        EXPECT_TRUE(pixel) << id.toStdString();
        return pixel.value_or(QPointF());
    }
    /// The menu that a right click opens.
    QMenu* menuAt(const QPointF& place) const {
        click(place, {}, Qt::RightButton);
        QCoreApplication::processEvents();
        return qobject_cast<QMenu*>(QApplication::activePopupWidget());
    }
    static QAction* entry(QMenu* menu, const QString& words) {
        if (menu)
            for (QAction* action : menu->actions())
                if (action->text() == words) return action;
        ADD_FAILURE() << "no entry " << words.toStdString();
        return nullptr;
    }
    /// Clicks an entry of an open menu.
    static void take(QMenu* menu, const QString& words) {
        QAction* action = entry(menu, words);
        ASSERT_TRUE(action && action->isEnabled()) << words.toStdString();
        QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
        QCoreApplication::processEvents();
    }
};

TEST_F(FitChoice, ShiftChoosesOneMoreAndOneLess) {
    open(slab::test::crate());
    click(at("crate/top"));
    EXPECT_EQ(session.selection().plate, "crate/top");
    EXPECT_TRUE(session.selection().plates.isEmpty());
    click(at("crate/front"), Qt::ShiftModifier);
    EXPECT_EQ(session.selection().plate, "crate/front");
    EXPECT_EQ(session.selection().plates, (QStringList{"crate/top", "crate/front"}));
    EXPECT_EQ(chosenPlates(session), (std::vector<std::string>{"crate/top", "crate/front"}));
    slab::test::shot(view->picture({400, 300}), "fit_two_chosen");
    click(at("crate/top"), Qt::ShiftModifier);
    EXPECT_EQ(session.selection().plate, "crate/front");
    EXPECT_TRUE(session.selection().plates.isEmpty());
    click(at("crate/top"));
    EXPECT_EQ(chosenPlates(session), std::vector<std::string>{"crate/top"}) << "alone again";
}

TEST_F(FitChoice, AModuleIsMadeByTheMenuAtThePointer) {
    open(slab::test::crate());
    const Project before = session.project();
    click(at("crate/top"));
    click(at("crate/front"), Qt::ShiftModifier);
    take(menuAt(at("crate/front")), "Module of the chosen plates");
    ASSERT_EQ(session.project().modules.size(), 1U);
    EXPECT_EQ(session.project().modules[0].plates, (std::vector<std::string>{"crate/top", "crate/front"}));
    EXPECT_EQ(session.selection().part, "/modules/0") << "its row is shown";
    slab::test::rest(session);
    // One more by the list of modules; and out again.
    QMenu* menu = menuAt(at("crate/starboard"));
    QMenu* modules = entry(menu, "Comes off with")->menu();
    ASSERT_TRUE(modules->isEnabled());
    Q_EMIT modules->aboutToShow();
    entry(modules, "crate")->trigger();
    menu->close();
    EXPECT_EQ(moduleOf(session.project(), "crate/starboard"), 0);
    slab::test::rest(session);
    take(menuAt(at("crate/starboard")), "Take out of its module");
    EXPECT_EQ(moduleOf(session.project(), "crate/starboard"), -1);
    EXPECT_EQ(session.history().undoLabel(), "Take crate/starboard out of its module");
    for (int i = 0; i < 3; ++i) session.undo();
    EXPECT_EQ(session.project(), before);
}

TEST_F(FitChoice, CleatsStandAlongTheChosenEdge) {
    open(slab::test::crate());
    const Plate& top = slab::test::plateOf(session.evaluation(), "crate/top");
    int edge = -1;
    for (std::size_t i = 0; i < top.boundary.edges.size(); ++i)
        if (top.boundary.edges[i].neighbour == "crate/starboard") edge = static_cast<int>(i);
    ASSERT_GE(edge, 0);
    const auto i = static_cast<std::size_t>(edge);
    const Vec2 between =
        (top.boundary.outer[i] + top.boundary.outer[(i + 1) % top.boundary.outer.size()]) / 2;
    const Vec3 middle = top.frame.toBody(between);
    click(at("crate/top"));
    take(menuAt(view->pixelAt(middle) + QPointF(0, -2)), "Cleats along the joint");
    ASSERT_EQ(session.project().cleats.size(), 1U);
    EXPECT_EQ(session.project().cleats[0].a, "crate/top");
    EXPECT_EQ(session.project().cleats[0].b, "crate/starboard");
    slab::test::rest(session);
    EXPECT_EQ(session.evaluation().cleats->parts.size(), 1U);
    EXPECT_EQ(session.selection().part, "/cleats/0");
    EXPECT_EQ(session.selection().edge, edge) << "the joint stays chosen";
    EXPECT_TRUE(takeCleatsAway(session));
    EXPECT_TRUE(session.project().cleats.empty());
    // Where the neighbour is left out there is no joint.
    EXPECT_TRUE(chosenJoint(session));
    session.apply(leaveOut("crate/starboard"));
    slab::test::rest(session);
    session.selectPlate("crate/top", edge);
    EXPECT_FALSE(chosenJoint(session));
}

TEST_F(FitChoice, AMechanismStandsWhereItWasClicked) {
    open(slab::test::crate());
    const Project before = session.project();
    for (QAction* action : button("Mechanism")->menu()->actions())
        if (action->text() == "Turntable") action->trigger();
    ASSERT_NE(controls->mechanism(), nullptr);
    const QPointF place = at("crate/top");
    mouse(QEvent::MouseMove, place, Qt::NoButton, Qt::NoButton);
    slab::test::shot(*view, "fit_turntable_ghost");
    click(place);
    ASSERT_EQ(session.project().mechanisms.turntables.size(), 1U);
    EXPECT_EQ(controls->mechanism(), nullptr) << "one is enough";
    EXPECT_EQ(session.selection().part, "/mechanisms/turntables/0");
    slab::test::rest(session);
    const Motion& turn = session.evaluation().mechanisms->motions.at(0);
    const QPointF axis = view->pixelAt(turn.moves[0].at);
    EXPECT_LE(std::hypot(axis.x() - place.x(), axis.y() - place.y()), 3) << "its axis is under the pointer";
    slab::test::shot(view->picture({400, 300}), "fit_turntable");
    // A trunnion on it, by the menu.
    take(menuAt(at("turntable/drum")), "Trunnion here");
    ASSERT_EQ(session.project().mechanisms.trunnions.size(), 1U);
    EXPECT_EQ(session.project().mechanisms.trunnions[0].on, "turntable");
    session.undo();
    session.undo();
    EXPECT_EQ(session.project(), before);
}

TEST_F(FitChoice, WhatCannotStandThereIsToldBesideTheHand) {
    open(slab::test::crate());
    std::string told;
    QObject::connect(&session, &Session::refused, [&](const Error& error) { told = error.code; });
    key(Qt::Key_W);
    auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
    ASSERT_TRUE(menu) << "W offers them";
    take(menu, "Turntable");
    click(at("crate/front"));
    EXPECT_EQ(told, "not-level");
    EXPECT_NE(controls->mechanism(), nullptr) << "it stays in hand";
    key(Qt::Key_Escape);
    EXPECT_EQ(controls->mechanism(), nullptr);
    EXPECT_TRUE(session.project().mechanisms.turntables.empty());
}

TEST_F(FitChoice, SeveralPlatesOfTheListAreChosenEverywhere) {
    open(slab::test::crate());
    PlatesTable table(&session);
    table.resize(400, 300);
    table.show();
    QCoreApplication::processEvents();
    const auto row = [&](const char* name) {
        const QModelIndex cell = table.plates()->index(table.plates()->rowOf(name), PlatesModel::sheet);
        return table.visualRect(cell).center();
    };
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, row("crate/top"));
    EXPECT_EQ(chosenPlates(session), std::vector<std::string>{"crate/top"});
    QTest::mouseClick(table.viewport(), Qt::LeftButton, Qt::ControlModifier, row("crate/port"));
    auto chosen = chosenPlates(session);
    std::sort(chosen.begin(), chosen.end());
    EXPECT_EQ(chosen, (std::vector<std::string>{"crate/port", "crate/top"}));
    // What is chosen in 3D is chosen in the list, alone or with others.
    click(at("crate/front"));
    EXPECT_EQ(table.selectionModel()->selectedRows().size(), 1);
    click(at("crate/top"), Qt::ShiftModifier);
    EXPECT_EQ(table.selectionModel()->selectedRows().size(), 2);
    EXPECT_TRUE(makeModule(session));
    EXPECT_EQ(session.project().modules.size(), 1U);
}

} // namespace
} // namespace slab::ui
