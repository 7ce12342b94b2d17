// Mechanisms on the drawing board, by real mouse and keys.
#include "core/board/mechanism_moves.h"
#include "tests/board/crane.h"
#include "tests/ui_board/board_bench.h"
#include "tests/ui_views/live_engine.h"
#include "ui/board/field_strip.h"
#include "ui/board/mechanism_tool.h"
#include "ui/chosen/mechanism_deeds.h"

namespace slab::ui {
namespace {

/// The crane, held by a named place, and a hinge under it.
Project hingedCrane() {
    Project p = slab::test::crane("1.6 m");
    p.dimensions.push_back({"ahead", "1 m", Space::subject, "", {}});
    p.mechanisms.turntables.front().at.x = "ahead";
    Trunnion& boom = p.mechanisms.trunnions.front();
    boom.at.x = "ahead";
    boom.lowest = "0 deg";
    boom.highest = "40 deg";
    Linkage hinge;
    hinge.name = "hinge";
    hinge.at = {"300 mm", "0", "350 mm", {}, {}, {}, {}};
    hinge.pitch_up = hinge.pitch_down = "5 deg";
    p.mechanisms.linkages = {hinge};
    return p;
}

struct MechanismBench : test::BoardBench {
    explicit MechanismBench(Project project = hingedCrane())
        : BoardBench(std::move(project), slab::test::liveEngine()) {
        rest();
    }
    void rest() const {
        session->settle();
        EXPECT_TRUE(session->waitUntilAtRest(60000));
        QCoreApplication::processEvents();
        canvas().fit();
    }
    [[nodiscard]] double mm() const { return 1 / canvas().view().scale; }
    [[nodiscard]] Vec2 grip(BoardView in, const GripRef& ref) const {
        for (const BoardGrip& one : desk().scene().of(in).grips)
            if (one.ref == ref) return one.at;
        ADD_FAILURE() << "no grip " << ref.pointer << " " << ref.key;
        return Vec2::Zero();
    }
    void pull(BoardView in, const GripRef& ref, const Vec2& by, Qt::KeyboardModifiers keys = {}) const {
        const Vec2 at = grip(in, ref);
        drag(px(in, at), px(in, at + by), keys);
    }
    [[nodiscard]] const Mechanisms& all() const { return project().mechanisms; }
    [[nodiscard]] double value(const Text& text) const {
        return evaluate(text, desk().scope(), Space::subject, Kind::length)->value;
    }
    [[nodiscard]] QStringList labels() const {
        QStringList words;
        for (const StripEntry* entry : view->findChild<FieldStrip*>()->entries()) words << entry->label();
        return words;
    }
};

const GripRef pivot{"/mechanisms/trunnions/0", "at"}, front{"/mechanisms/trunnions/0", "front"},
    highest{"/mechanisms/trunnions/0", "highest"}, hinge{"/mechanisms/linkages/0", "at"};
const Vec2 onTube(1500, 1600);

TEST(BoardMechanisms, AClickChoosesOneInAllViewsAndShowsItsHandles) {
    MechanismBench b;
    EXPECT_FALSE(b.desk().isGripShown(front));
    b.click(BoardView::side, onTube);
    EXPECT_EQ(b.desk().chosenPart(), pivot.pointer);
    EXPECT_EQ(b.session->selection().part.toStdString(), pivot.pointer) << "its row in the tables";
    EXPECT_EQ(b.session->selection().solid, "boom/tube") << "what is lit in 3D";
    EXPECT_TRUE(b.desk().isGripShown(front));
    EXPECT_FALSE(b.desk().isGripShown(hinge));
    EXPECT_EQ(b.labels(), (QStringList{"x", "y", "z", "front", "rear", "lowest", "highest"}));
    // A sign alone is enough: of a hinge nothing is made.
    b.click(BoardView::side, b.grip(BoardView::side, hinge));
    EXPECT_EQ(b.desk().chosenPart(), hinge.pointer);
    EXPECT_EQ(b.labels(), (QStringList{"x", "y", "z", "nose up", "nose down"}));
    b.click(BoardView::plan, {1000, 190}); // on the drum
    EXPECT_EQ(b.desk().chosenPart(), "/mechanisms/turntables/0");
    // What is chosen in 3D is chosen here.
    Selection solid;
    solid.solid = "boom/tube";
    b.session->select(solid);
    EXPECT_EQ(b.desk().chosenPart(), pivot.pointer);
    b.key(Qt::Key_Escape);
    EXPECT_EQ(b.desk().chosenPart(), "");
    // Hidden ones are not in the way.
    b.desk().setShown("mechanism", false);
    b.desk().setShown("mechanism plate", false);
    for (const Vec2& at : {onTube, Vec2(1000, 1600)}) {
        b.click(BoardView::side, at);
        EXPECT_EQ(b.session->selection().part, "") << at.transpose();
    }
}

TEST(BoardMechanisms, ASignIsChosenThoughAnEdgePassesThroughIt) {
    Project project = hingedCrane();
    project.mechanisms.linkages[0].at.z = "200 mm"; // on the lower edge of the crate
    MechanismBench b(project);
    b.click(BoardView::side, {300, 200});
    EXPECT_EQ(b.desk().chosenPart(), hinge.pointer);
    b.key(Qt::Key_Escape);
    b.click(BoardView::side, Vec2(300 + 20 * b.mm(), 200));
    EXPECT_EQ(b.desk().chosenPart(), "") << "beside it the edge";
    EXPECT_FALSE(b.desk().choice().empty());
}

TEST(BoardMechanisms, ANameThatSaysWhatItIsIsSaidOnce) {
    Project project = hingedCrane();
    project.mechanisms.turntables[0].name = "turntable";
    project.mechanisms.trunnions[0].on = "turntable";
    MechanismBench b(project);
    Selection selection;
    const auto heading = [&](const char* part) {
        selection.part = part;
        b.session->select(selection);
        return stripContent(b.desk()).heading.toStdString();
    };
    EXPECT_EQ(heading("/mechanisms/turntables/0"), "turntable");
    EXPECT_EQ(heading("/mechanisms/trunnions/0"), "trunnion boom");
}

TEST(BoardMechanisms, HandlesMoveEndsAndStops) {
    MechanismBench b;
    b.click(BoardView::side, onTube);
    b.pull(BoardView::side, front, {-200, 90}, Qt::AltModifier);
    EXPECT_NEAR(b.value(b.all().trunnions[0].front), 600, 3 * b.mm());
    EXPECT_EQ(b.session->history().undoLabel(), "Change boom/front end");
    EXPECT_EQ(b.all().trunnions[0].at.x, "ahead");
    b.session->undo();
    EXPECT_EQ(b.all(), hingedCrane().mechanisms) << "one step";
    b.rest();
    const Vec2 middle = b.grip(BoardView::side, pivot), stop = b.grip(BoardView::side, highest);
    const double reach = (stop - middle).norm(), wanted = 60.0 / 180 * 3.14159265358979;
    b.pull(BoardView::side, highest, middle + reach * Vec2(std::cos(wanted), std::sin(wanted)) - stop);
    EXPECT_EQ(b.all().trunnions[0].highest, "60 deg");
}

TEST(BoardMechanisms, OnesOutlineMovesAllOfItAndItsFormulasStay) {
    MechanismBench b;
    b.drag(b.px(BoardView::side, {1500, 1640}), b.px(BoardView::side, {1500 + 130, 1640 + 55}),
           Qt::AltModifier);
    EXPECT_EQ(b.desk().chosenPart(), pivot.pointer);
    EXPECT_TRUE(b.all().trunnions[0].at.x.starts_with("ahead + ")) << b.all().trunnions[0].at.x;
    EXPECT_NEAR(b.value(b.all().trunnions[0].at.x), 1130, 3 * b.mm());
    EXPECT_NEAR(b.value(b.all().trunnions[0].at.z), 1655, 3 * b.mm());
    EXPECT_EQ(b.session->history().undoLabel(), "Move boom");
    b.session->undo();
    b.rest();
    // The drum takes what stands on it along, and with Ctrl the name changes instead of both.
    b.click(BoardView::plan, {1000, 190});
    b.pull(BoardView::plan, {"/mechanisms/turntables/0", "at"}, {110, 60}, Qt::AltModifier);
    EXPECT_EQ(b.all().trunnions[0].at.x, b.all().turntables[0].at.x);
    EXPECT_EQ(b.all().trunnions[0].at.y, b.all().turntables[0].at.y);
    EXPECT_NEAR(b.value(b.all().turntables[0].at.y), 60, 3 * b.mm());
    b.session->undo();
    b.rest();
    b.pull(BoardView::side, {"/mechanisms/turntables/0", "at"}, {110, 0},
           Qt::AltModifier | Qt::ControlModifier);
    EXPECT_EQ(b.all().turntables[0].at.x, "ahead");
    EXPECT_NEAR(b.value("ahead"), 1110, 3 * b.mm());
}

TEST(BoardMechanisms, ItMeetsWhatOtherDragsMeet) {
    MechanismBench b;
    b.click(BoardView::side, b.grip(BoardView::side, hinge));
    const Vec2 at = b.grip(BoardView::side, hinge), corner(0, 200); // of the crate
    b.drag(b.px(BoardView::side, at), b.px(BoardView::side, corner) + QPoint(4, -3));
    EXPECT_NEAR(b.value(b.all().linkages[0].at.x), 0, 1e-9) << "on the corner, not beside it";
    EXPECT_NEAR(b.value(b.all().linkages[0].at.z), 200, 1e-9);
    b.key(Qt::Key_Right);
    EXPECT_NEAR(b.value(b.all().linkages[0].at.x), 1, 1e-9);
    b.key(Qt::Key_Return);
    auto* entry = b.view->findChild<FieldStrip*>()->entries()[2];
    entry->edit()->setText("wide / 4");
    QTest::keyClick(entry->edit(), Qt::Key_Return);
    EXPECT_EQ(b.all().linkages[0].at.z, "wide / 4");
}

TEST(BoardMechanisms, EscapeGivesADragUp) {
    MechanismBench b;
    const Project before = b.project();
    b.click(BoardView::side, onTube);
    const QPoint from = b.px(BoardView::side, b.grip(BoardView::side, front));
    slab::test::dragOn(b.canvas(), from, from + QPoint(40, 0), {}, false);
    EXPECT_NE(b.project(), before);
    b.key(Qt::Key_Escape);
    QTest::mouseRelease(&b.canvas(), Qt::LeftButton, {}, from + QPoint(40, 0));
    EXPECT_EQ(b.project(), before);
}

TEST(BoardMechanisms, DelDeletesItAndUndoBringsItBack) {
    MechanismBench b;
    QString told;
    QObject::connect(&b.desk(), &BoardDesk::told, [&](const QString& words) { told = words; });
    b.click(BoardView::plan, {1000, 190});
    b.key(Qt::Key_Delete);
    EXPECT_TRUE(b.all().turntables.empty());
    EXPECT_EQ(b.all().trunnions[0].on, "");
    EXPECT_TRUE(told.startsWith("boom stood on it")) << told.toStdString();
    EXPECT_EQ(b.desk().chosenPart(), "");
    EXPECT_EQ(b.session->history().undoLabel(), "Delete table");
    b.session->undo();
    EXPECT_EQ(b.all(), hingedCrane().mechanisms);
    b.rest();
    b.click(BoardView::front, b.grip(BoardView::front, hinge));
    b.key(Qt::Key_Delete);
    EXPECT_TRUE(b.all().linkages.empty());
}

TEST(BoardMechanisms, ABeltsWheelIsChosenAndDraggedAlone) {
    Project p = slab::test::crate();
    Belt belt;
    belt.name = "belt";
    belt.at.y = "wide / 2 + 0.3 m";
    belt.wheels = {{"rear", "0.3 m", "0.2 m", "0.4 m", {}}, {"front", "long - 0.3 m", "0.2 m", "0.4 m", {}}};
    belt.width = "0.2 m";
    p.mechanisms.belts = {belt};
    MechanismBench b(p);
    b.click(BoardView::side, {1000, 0}); // its lower run
    ASSERT_EQ(b.desk().chosenPart(), "/mechanisms/belts/0");
    const GripRef wheel{"/mechanisms/belts/0/wheels/1", "at"};
    b.pull(BoardView::side, wheel, {-150, 120}, Qt::AltModifier);
    EXPECT_EQ(b.desk().chosenPart(), wheel.pointer);
    EXPECT_EQ(b.labels(), (QStringList{"x", "z", "diameter"}));
    EXPECT_TRUE(b.all().belts[0].wheels[1].x.starts_with("long - ")) << b.all().belts[0].wheels[1].x;
    EXPECT_NEAR(b.value(b.all().belts[0].wheels[1].x), 1550, 3 * b.mm());
    EXPECT_NEAR(b.value(b.all().belts[0].wheels[1].z), 320, 3 * b.mm());
    EXPECT_EQ(b.all().belts[0].wheels[0], belt.wheels[0]);
    b.rest();
    // Its mirrored half goes the other way across.
    b.key(Qt::Key_Escape);
    b.drag(b.px(BoardView::plan, {1000, -900}), b.px(BoardView::plan, {1000, -950}), Qt::AltModifier);
    EXPECT_NEAR(b.value(b.all().belts[0].at.y), 850, 3 * b.mm()) << b.all().belts[0].at.y;
}

TEST(BoardMechanisms, WhatAClickWouldPutInIsDrawnBefore) {
    MechanismBench b;
    double ahead = 400;
    for (const MechanismWords& kind : mechanismWords()) {
        b.canvas().setTool(std::make_unique<MechanismTool>(b.canvas(), kind));
        auto& tool = dynamic_cast<MechanismTool&>(b.canvas().tool());
        QTest::mouseMove(&b.canvas(), b.px(BoardView::side, {ahead += 50, 1150}));
        for (const BoardView view : boardViews)
            EXPECT_FALSE(tool.planned(view).empty()) << kind.key << " " << viewName(view);
    }
    // Where it cannot go, the board says why.
    b.canvas().setTool(std::make_unique<MechanismTool>(b.canvas(), mechanismWords()[1]));
    auto& tool = dynamic_cast<MechanismTool&>(b.canvas().tool());
    QTest::mouseMove(&b.canvas(), b.px(BoardView::plan, {-60, 0}));
    EXPECT_TRUE(tool.planned(BoardView::plan).empty());
    EXPECT_TRUE(tool.prompt().words.contains("could stand on")) << tool.prompt().words.toStdString();
}

} // namespace
} // namespace slab::ui
