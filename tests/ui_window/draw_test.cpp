// A body drawn in the window alone, by mouse and keyboard, equals the same body written as a file.
#include "core/document/file.h"
#include "tests/ui_window/bench.h"
#include "tests/ui_window/same_json.h"
#include "ui/board/board_bar.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include "ui/board/draw_strip.h"
#include "ui/fit/fit_view.h"
#include "ui/tables/table_section.h"
#include "ui/tables/table_tree.h"
#include "ui/window/document_file.h"
#include "ui/window/left_column.h"
#include <QApplication>
#include <QLineEdit>
#include <QMenu>
#include <QMouseEvent>
#include <QTest>
#include <QToolButton>

namespace slab::ui::test {
namespace {

class Drawing : public WindowTest {
protected:
    void SetUp() override {
        open(crawler); // millimetres
        session().markSaved();
        ASSERT_TRUE(window().file()->newEmpty());
        rest();
        if (window().filled() != 3) trigger("Drawing board");
        QCoreApplication::processEvents();
        board().canvas()->fit();
    }
    void TearDown() override {
        if (window().filled() >= 0) window().fill(-1);
        session().markSaved();
    }
    static DraftingView& board() { return *window().board(); }
    static BoardCanvas& canvas() { return *board().canvas(); }
    static QPoint px(BoardView view, double right, double up) {
        return canvas().pixelOf(view, {right, up}).toPoint();
    }
    static void moveTo(const QPoint& at, Qt::MouseButtons held = Qt::NoButton) {
        QMouseEvent event(QEvent::MouseMove, at, canvas().mapToGlobal(at), Qt::NoButton, held, {});
        QApplication::sendEvent(&canvas(), &event);
    }
    static void click(BoardView view, double right, double up) {
        moveTo(px(view, right, up));
        QTest::mouseClick(&canvas(), Qt::LeftButton, {}, px(view, right, up));
    }
    static void drag(const QPoint& from, const QPoint& to) {
        moveTo(from);
        QTest::mousePress(&canvas(), Qt::LeftButton, {}, from);
        for (int i = 1; i <= 6; ++i) moveTo(from + (to - from) * i / 6, Qt::LeftButton);
        QTest::mouseRelease(&canvas(), Qt::LeftButton, {}, to);
    }
    static void key(Qt::Key key, Qt::KeyboardModifiers keys = {}) { QTest::keyClick(&canvas(), key, keys); }
    /// Types into an entry of the board by its name.
    static void type(const QString& entry, const QString& text, bool enter = true) {
        for (auto* edit : board().findChildren<QLineEdit*>())
            if (edit->accessibleName() == entry && edit->isVisible()) {
                QTest::mouseClick(edit, Qt::LeftButton);
                QTest::keyClick(edit, Qt::Key_A, Qt::ControlModifier);
                QTest::keyClicks(edit, text);
                if (enter) QTest::keyClick(edit, Qt::Key_Return);
                return;
            }
        FAIL() << "no entry " << entry.toStdString();
    }
    static TableSection& table(const std::string& root) {
        for (TableSection* section : window().tables()->sections())
            for (const std::string& own : section->spec().roots)
                if (own == root) return *section;
        throw std::runtime_error("no table " + root);
    }
    /// Opens the menu of a table's "+" and clicks the entry that begins with these words.
    static void add(const std::string& root, const QString& words) {
        window().tables()->reveal("document:" + QString::fromStdString(root));
        TableSection& section = table(root);
        for (auto* button : section.findChildren<QToolButton*>()) {
            if (button->text() != "+" || !button->menu()) continue;
            QMenu* menu = button->menu();
            QTimer::singleShot(0, menu, [menu, words] {
                for (QAction* action : menu->actions())
                    if (action->text().startsWith(words)) {
                        QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
                        return;
                    }
                ADD_FAILURE() << "not offered: " << words.toStdString();
                menu->close();
            });
            QTest::mouseClick(button, Qt::LeftButton);
            return;
        }
        FAIL() << "no + at " << root;
    }
    /// Double clicks the cell of a place in a table and types over it.
    static void typeIn(const std::string& root, const std::string& pointer, const QString& text) {
        TableSection& section = table(root);
        ASSERT_TRUE(section.reveal(pointer)) << pointer;
        QCoreApplication::processEvents();
        TableTree* tree = section.tree();
        const QModelIndex cell = section.model()->find(pointer, DocumentModel::typed);
        const QPoint at = tree->visualRect(cell).center();
        QTest::mouseClick(tree->viewport(), Qt::LeftButton, {}, at);
        QTest::mouseDClick(tree->viewport(), Qt::LeftButton, {}, at);
        auto* edit = tree->viewport()->findChild<QLineEdit*>();
        ASSERT_TRUE(edit) << pointer << " has no editor";
        QTest::keyClick(edit, Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(edit, text);
        QTest::keyClick(edit, Qt::Key_Return);
    }
};

TEST_F(Drawing, ABodyDrawnByHandEqualsTheOneThatWasWritten) {
    ASSERT_TRUE(board().isVisible());
    EXPECT_TRUE(part<FitView>().isVisible()) << "the body stands beside the sheet while it is drawn";
    ASSERT_LE(canvas().grid(), 100) << "corners in whole hundreds lie on the grid";
    // The hull: corners clicked in the side view, its half width typed.
    key(Qt::Key_P);
    type("name", "hull");
    type("half width", "350 mm");
    click(BoardView::side, -400, 100);
    click(BoardView::side, 1600, 100);
    click(BoardView::side, 2000, 600);
    click(BoardView::side, -400, 600);
    key(Qt::Key_Return);
    ASSERT_EQ(session().project().forms.size(), 1U);
    canvas().fit();
    ASSERT_LE(canvas().grid(), 100);
    // The wheelhouse: a box in the plan, then its upper front edge drawn back by keys.
    key(Qt::Key_T);
    type("name", "wheelhouse");
    type("height", "500 mm");
    type("base at", "600 mm");
    drag(px(BoardView::plan, 0, -200), px(BoardView::plan, 700, 200));
    ASSERT_EQ(session().project().forms.size(), 2U);
    canvas().fit();
    drag(px(BoardView::side, 620, 1180), px(BoardView::side, 800, 1040));
    ASSERT_EQ(board().desk()->choice().points.size(), 2U) << "both upper front corners lie in the box";
    for (int i = 0; i < 10; ++i) key(Qt::Key_Left, Qt::ShiftModifier);
    // A loose plate, all of it typed.
    key(Qt::Key_L);
    moveTo(px(BoardView::plan, -200, 0));
    type("name", "table");
    type("stands at", "700 mm");
    for (const auto& [x, y] :
         {std::pair{"-300", "-300"}, {"-100", "-300"}, {"-100", "300"}, {"-300", "300"}}) {
        type("next x", x);
        type("next y", y);
    }
    press("Make the form");
    ASSERT_EQ(session().project().forms.size(), 3U);
    // A pipe: its axis clicked, its radius typed.
    canvas().fit();
    key(Qt::Key_O);
    moveTo(px(BoardView::side, 1200, 500));
    type("name", "funnel");
    type("radius", "60 mm");
    click(BoardView::side, 1200, 500);
    click(BoardView::side, 1200, 1000);
    key(Qt::Key_Return);
    ASSERT_EQ(session().project().forms.size(), 4U);
    // Back to the other views: a sheet to cut it from, and an opening in the stem.
    trigger("Drawing board");
    ASSERT_EQ(window().filled(), -1);
    add("/stock/sheets", "Plain sheet");
    rest();
    choosePanel("hull/p2");
    add("/openings", "Add to");
    typeIn("/openings", "/openings/0/width", "260");
    rest();
    const auto written = loadProject(SLABSIDE_SOURCE_DIR "/tests/ui_window/data/drawn-boat.slabside.json");
    ASSERT_TRUE(written) << written.error().message;
    const Json drawn = freshReport(session().project()), file = freshReport(*written);
    ASSERT_GT(drawn.at("panels").size(), 8U);
    expectSame(drawn.at("panels"), file.at("panels"), "panels");
    expectSame(drawn.at("sheets"), file.at("sheets"), "sheets");
    // And all of it can be taken back, gesture by gesture.
    int steps = 0;
    for (; session().history().canUndo() && steps < 100; ++steps) session().undo();
    EXPECT_TRUE(session().project().forms.empty());
    EXPECT_LE(steps, 4 + 10 + 3) << "one step for each form, key, table entry and typed value";
}

TEST_F(Drawing, ADragOnTheSheetIsOneStepAndMovesTheBody) {
    key(Qt::Key_P);
    for (const auto& [x, z] : {std::pair{-400, 100}, {1600, 100}, {1600, 700}, {-400, 700}})
        click(BoardView::side, x, z);
    key(Qt::Key_Return);
    ASSERT_EQ(session().project().forms.size(), 1U);
    canvas().fit();
    rest();
    const Project before = session().project();
    const double length = shown().body->bounds.size().x();
    drag(px(BoardView::side, 1600, 700), px(BoardView::side, 1900, 700));
    rest();
    EXPECT_NEAR(shown().body->bounds.size().x(), length + 300, 1) << "the body follows the hand";
    trigger("Undo: " + QString::fromStdString(session().history().undoLabel()));
    EXPECT_EQ(session().project(), before);
}

} // namespace
} // namespace slab::ui::test
