#include "core/document/file.h"
#include "core/plates/placements.h"
#include "core/survey/survey.h"
#include "tests/ui_views/hand_body.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/joint_edits.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_list.h"
#include "ui/panels/panel_view.h"
#include <QCheckBox>
#include <QContextMenuEvent>
#include <QListView>
#include <QMenu>
#include <QTest>
#include <QToolButton>
#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <numbers>
#include <set>

namespace slab::ui {
namespace {

class PanelViewTest : public testing::Test {
protected:
    PanelViewTest() : session(test::handEngine()) {
        session.replace(test::handProject());
        test::rest(session);
        view = std::make_unique<PanelView>(&session);
        view->resize(760, 460);
        view->show();
        QApplication::processEvents();
        canvas = view->findChild<PanelCanvas*>();
        bar = view->findChild<JointBar*>();
    }
    const Plate& plate(const std::string& name) const {
        for (const auto& p : session.evaluation().plates->plates) {
            if (p.name == name) return p;
        }
        throw std::runtime_error("no plate " + name);
    }
    int edgeTo(const std::string& name, const std::string& neighbour) const {
        const auto& edges = plate(name).boundary.edges;
        for (std::size_t i = 0; i < edges.size(); ++i) {
            if (edges[i].neighbour == neighbour) return static_cast<int>(i);
        }
        return -1;
    }
    QPoint middleOf(int edge) const {
        const QPolygonF outline = canvas->outlineOnScreen();
        return ((outline[edge] + outline[(edge + 1) % outline.size()]) / 2).toPoint();
    }
    Session session;
    std::unique_ptr<PanelView> view;
    PanelCanvas* canvas = nullptr;
    JointBar* bar = nullptr;
};

TEST_F(PanelViewTest, OutlineOnScreenIsThePanelPointByPoint) {
    session.selectPlate("hull/port");
    const Panel* panel = nullptr;
    for (const auto& p : *session.evaluation().panels) {
        if (p.name == "hull/port") panel = &p;
    }
    ASSERT_NE(panel, nullptr);
    for (const double zoom : {1.0, 3.7}) {
        QWheelEvent wheel({200, 150}, view->mapToGlobal(QPointF(200, 150)), {}, {0, zoom > 1 ? 900 : 0},
                          Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
        QApplication::sendEvent(canvas, &wheel);
        const QPolygonF outline = canvas->outlineOnScreen();
        ASSERT_EQ(static_cast<std::size_t>(outline.size()), panel->boundary.outer.size());
        for (std::size_t i = 0; i < panel->boundary.outer.size(); ++i) {
            const Vec2 back = canvas->view().toPaper(outline[static_cast<qsizetype>(i)]);
            EXPECT_LT((back - panel->boundary.outer[i]).norm(), 1e-9);
        }
    }
}

TEST_F(PanelViewTest, ClickOnAnEdgeThenMitreThenUndo) {
    session.selectPlate("hull/port");
    const int edge = edgeTo("hull/port", "hull/front");
    ASSERT_GE(edge, 0);
    EXPECT_EQ(plate("hull/port").boundary.edges[static_cast<std::size_t>(edge)].role, EdgeRole::covers);
    EXPECT_FALSE(bar->isVisible());
    QTest::mouseClick(canvas, Qt::LeftButton, {}, middleOf(edge));
    EXPECT_EQ(session.selection().edge, edge);
    EXPECT_TRUE(bar->isVisible());
    EXPECT_TRUE(bar->button(EdgeChoice::thisCovers)->isChecked());
    EXPECT_FALSE(bar->ruleButton()->isEnabled());
    test::shot(*view, "panel_edge");

    bar->button(EdgeChoice::mitre)->click();
    test::rest(session);
    const int now = edgeTo("hull/port", "hull/front");
    EXPECT_EQ(plate("hull/port").boundary.edges[static_cast<std::size_t>(now)].role, EdgeRole::mitre);
    EXPECT_EQ(session.history().undoLabel(), "Mitre hull/port and hull/front");
    EXPECT_TRUE(bar->button(EdgeChoice::mitre)->isChecked());
    EXPECT_TRUE(bar->ruleButton()->isEnabled());
    test::shot(*view, "panel_mitre");
    session.undo();
    test::rest(session);
    EXPECT_EQ(session.project(), test::handProject());
    EXPECT_EQ(plate("hull/port").boundary.edges[static_cast<std::size_t>(edge)].role, EdgeRole::covers);
}

TEST_F(PanelViewTest, WordsAndFiguresKeepClearOfEachOtherAtEverySize) {
    int words = 0;
    for (const QSize& size : {QSize(760, 460), QSize(420, 240), QSize(330, 190), QSize(260, 150),
                              QSize(700, 130), QSize(180, 420), QSize(1400, 900)}) {
        canvas->setFixedSize(size);
        for (const Panel& panel : *session.evaluation().panels)
            for (int edge = -1; edge < static_cast<int>(panel.boundary.edges.size()); ++edge) {
                session.selectPlate(QString::fromStdString(panel.name), edge);
                QCoreApplication::processEvents();
                const auto boxes = canvas->wordsOnScreen();
                words += static_cast<int>(boxes.size());
                for (std::size_t i = 0; i < boxes.size(); ++i)
                    for (std::size_t k = i + 1; k < boxes.size(); ++k)
                        EXPECT_FALSE(boxes[i].adjusted(1, 1, -1, -1).intersects(boxes[k]))
                            << panel.name << ", edge " << edge << ", " << size.width() << " x "
                            << size.height() << ": " << i << " over " << k;
            }
    }
    EXPECT_GT(words, 500) << "there is something to overlap";
}

TEST_F(PanelViewTest, BackToTheRuleTakesTheChoiceAway) {
    session.selectPlate("hull/port", edgeTo("hull/port", "hull/front"));
    bar->button(EdgeChoice::neighbourCovers)->click();
    test::rest(session);
    ASSERT_EQ(session.project().joints.edges.size(), 1U);
    EXPECT_EQ(session.project().joints.edges[0].a, "hull/front");
    bar->ruleButton()->click();
    test::rest(session);
    EXPECT_TRUE(session.project().joints.edges.empty());
}

TEST_F(PanelViewTest, TickedPanelIsRememberedWithItsShape) {
    session.selectPlate("hull/top");
    auto* cut = view->findChild<QCheckBox*>();
    cut->click();
    ASSERT_EQ(session.project().cut.size(), 1U);
    EXPECT_EQ(session.project().cut[0].panel, "hull/top");
    EXPECT_FALSE(session.project().cut[0].fingerprint.empty());
    cut->click();
    EXPECT_TRUE(session.project().cut.empty());
    session.undo();
    EXPECT_TRUE(cut->isChecked());
}

TEST_F(PanelViewTest, LeftOutPlateStaysInTheListAndComesBack) {
    session.selectPlate("hull/bottom");
    QToolButton* leave = nullptr;
    for (auto* b : view->findChildren<QToolButton*>()) {
        if (b->text() == "Leave out") leave = b;
    }
    ASSERT_NE(leave, nullptr);
    leave->click();
    test::rest(session);
    EXPECT_EQ(session.evaluation().plates->plates.size(), 5U);
    EXPECT_EQ(leave->text(), "Bring back");
    EXPECT_TRUE(view->findChild<PanelList*>()
                    ->model()
                    .row(view->findChild<PanelList*>()->model().find("hull/bottom"))
                    .leftOut);
    leave->click();
    test::rest(session);
    EXPECT_EQ(session.evaluation().plates->plates.size(), 6U);
}

TEST_F(PanelViewTest, ListAndSelectionFollowEachOther) {
    auto* list = view->findChild<PanelList*>();
    session.selectPlate("hull/starboard");
    EXPECT_TRUE(list->list()->currentIndex().data().toString().contains("hull"));
    list->list()->setFocus();
    list->list()->setCurrentIndex(list->list()->model()->index(0, 0));
    EXPECT_EQ(session.selection().plate, list->model().row(0).name);
}

TEST_F(PanelViewTest, ShiftAndTheRightButtonInTheListDoWhatTheyDoElsewhere) {
    QListView* list = view->findChild<PanelList*>()->list();
    const PanelListModel& model = view->findChild<PanelList*>()->model();
    ASSERT_GE(model.rowCount(), 3);
    const auto at = [&](int row) { return list->visualRect(list->model()->index(row, 0)).center(); };
    const QString first = model.row(0).name, second = model.row(1).name, third = model.row(2).name;
    QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, at(0));
    QTest::mouseClick(list->viewport(), Qt::LeftButton, Qt::ShiftModifier, at(1));
    EXPECT_EQ(session.selection().plates, (QStringList{first, second}));
    const auto menuAt = [&](int row) -> QMenu* {
        QTest::mouseClick(list->viewport(), Qt::RightButton, {}, at(row));
        QContextMenuEvent event(QContextMenuEvent::Mouse, at(row), list->viewport()->mapToGlobal(at(row)));
        QApplication::sendEvent(list->viewport(), &event);
        for (auto* menu : view->findChildren<QMenu*>())
            if (menu->isVisible()) return menu;
        return nullptr;
    };
    QMenu* menu = menuAt(0);
    ASSERT_TRUE(menu);
    EXPECT_EQ(session.selection().plates.size(), 2) << "what is chosen stays so";
    menu->close();
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    menu = menuAt(2);
    ASSERT_TRUE(menu);
    EXPECT_EQ(session.selection().plate, third);
    EXPECT_TRUE(session.selection().plates.isEmpty());
    menu->close();
    QTest::mouseClick(list->viewport(), Qt::LeftButton, Qt::ShiftModifier, at(1));
    QTest::mouseClick(list->viewport(), Qt::LeftButton, Qt::ShiftModifier, at(1));
    EXPECT_EQ(session.selection().plates.size(), 0) << "and taken off again";
}

TEST_F(PanelViewTest, ArrowKeysGoFromEdgeToEdge) {
    session.selectPlate("hull/port");
    QTest::keyClick(canvas, Qt::Key_Right);
    EXPECT_EQ(session.selection().edge, 0);
    QTest::keyClick(canvas, Qt::Key_Left);
    EXPECT_EQ(session.selection().edge, 3);
    QTest::keyClick(canvas, Qt::Key_Escape);
    EXPECT_EQ(session.selection().edge, -1);
}

TEST(PanelArrow, PointsWhereTheChosenCopyIsTurned) {
    const auto read = loadProject(std::string(SLABSIDE_SOURCE_DIR) + "/samples/harbour-tram.slabside.json");
    ASSERT_TRUE(read);
    auto evaluator = std::make_shared<Evaluator>();
    Session session({[evaluator](const Project& p, Effort, std::uint64_t revision, const Job& job) {
                         return evaluator->evaluate(p, Effort::live, revision, job);
                     },
                     [](const Project&, double, double, const Job&) { return ScaleSurvey{}; }});
    session.replace(*read);
    session.settle();
    ASSERT_TRUE(session.waitUntilAtRest(120000));
    PanelView view(&session);
    view.resize(760, 460);
    view.show();
    QApplication::processEvents();
    const auto* canvas = view.findChild<PanelCanvas*>();
    const auto placed = panelPlacements(*session.evaluation().plates, *session.evaluation().panels);
    int turned = 0;
    for (const Panel& panel : *session.evaluation().panels) {
        if (panel.copyCount() < 2 || !panel.parts.empty() || !panel.cutFrom.empty()) continue;
        std::set<std::string> words;
        for (const std::string& copy : panel.plates) {
            session.selectPlate(QString::fromStdString(copy));
            const std::string word = canvas->arrowWord().toStdString();
            words.insert(word);
            const Vec3 way = placed.at(copy).axes.leftCols<2>() * panel.up;
            const std::map<std::string, Vec3> along{
                {"up", Vec3::UnitZ()},    {"down", -Vec3::UnitZ()},   {"forward", Vec3::UnitX()},
                {"back", -Vec3::UnitX()}, {"to port", Vec3::UnitY()}, {"to starboard", -Vec3::UnitY()}};
            if (const auto at = along.find(word); at != along.end()) {
                EXPECT_GT(at->second.dot(way), 0.4) << copy << " is said to point " << word;
            }
        }
        turned += words.size() > 1;
    }
    EXPECT_GE(turned, 3) << "copies that lie differently are told differently";
}

TEST(JointEdits, AChoiceReplacesWhatWasSaidAboutThePair) {
    Project p = test::handProject();
    p = *chooseJoint("hull/port", "hull/front", EdgeChoice::mitre).apply(p);
    p = *chooseJoint("hull/front", "hull/port", EdgeChoice::thisCovers).apply(p);
    ASSERT_EQ(p.joints.edges.size(), 1U);
    EXPECT_EQ(p.joints.edges[0].a, "hull/front");
    EXPECT_EQ(p.joints.edges[0].joint, JointKind::cover);
    EXPECT_EQ(backToRule("hull/a", "hull/b").apply(p).error().code, "no-such-place");
}

TEST(JointEdits, BringBackGoesPastAWiderPattern) {
    Project p = test::handProject();
    p.materials.plates.push_back({"*/bottom", ""});
    p = *bringBack("hull/bottom").apply(p);
    EXPECT_EQ(p.materials.plates.front(), (PlateMaterial{"hull/bottom", "xps_13"}));
    p.materials.fallback.clear();
    p.materials.plates = {{"*/bottom", ""}};
    EXPECT_EQ(bringBack("hull/bottom").apply(p).error().code, "no-material");
}

// The quads of a joint drawn from a and b must close: with a cover the butting end lies on the covering
// plate's inner face.
TEST(JointSketch, PlatesMeetWithoutGapOrOverlap) {
    for (const double degrees : {60.0, 90.0, 120.0, 250.0}) {
        const double theta = degrees * std::numbers::pi / 180, t = 12, u = 20;
        // Covering plate: a = 0, b = t cot; butting plate: a = t / sin, b = (t + u cos) / sin. (Offsets of a
        // covered edge.)
        const JointSide f{"f", t, 0, t / std::tan(theta), {}};
        const JointSide g{"g", u, t / std::sin(theta), (t + u * std::cos(theta)) / std::sin(theta), {}};
        const auto quads = jointQuads(theta, f, g, 100);
        // Both end corners of g lie on f's inner face line.
        const Vec2 a = quads[0][2], b = quads[0][3];
        const Vec2 along = (b - a).normalized();
        EXPECT_NEAR(cross2(along, Vec2(quads[1][1] - a)), 0, 1e-9) << degrees;
        EXPECT_NEAR(cross2(along, Vec2(quads[1][2] - a)), 0, 1e-9) << degrees;
    }
}

} // namespace
} // namespace slab::ui
