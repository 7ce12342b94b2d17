// Forms by hand: drawn on the board, their figures typed, one from another document.
#include "tests/ui_window/by_hand.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include "ui/window/document_file.h"
#include <QFile>
#include <stdexcept>

namespace slab::ui::test {

namespace {

const char* const mast = SLABSIDE_SOURCE_DIR "/tests/ui_window/data/signal-mast.slabside.json";

} // namespace

void ByHand::hull() {
    onBoard();
    begin(Qt::Key_P, BoardView::side, {{"name", "hull"}, {"half width", "beam / 2"}});
    hand().corners({"next x", "next z"}, {{"-0.5 m", "0.3 m"}, {"length - 1 m", "0.3 m"}});
    hand().corners({"next x", "next z"}, {{"length - 0.5 m", "deck"}, {"-0.5 m", "deck"}});
    hand().boardKey(Qt::Key_Return);
    hand().boardKey(Qt::Key_F);
    // The stem between the second corner and the third becomes an arc in three flats.
    hand().click(BoardView::side, 1625, 375);
    hand().press("Arc edge");
    hand().type("bulge", "0.12 m");
    hand().type("flats", "3");
    onTables();
    const char* const sides[] = {"keel", "stem", "deck", "transom"};
    for (int i = 0; i < 4; ++i)
        hand().rename("Forms", {"hull", "outline", QString("p%1").arg(i + 1)}, sides[i]);
}

void ByHand::house() {
    onBoard();
    begin(Qt::Key_T, BoardView::plan, {{"name", "house"}, {"height", "0.9 m"}, {"base at", "deck"}});
    hand().corners({"next x", "next y"}, {{"0.4 m", "-0.6 m"}, {"2 m", "-0.6 m"}});
    hand().corners({"next x", "next y"}, {{"2 m", "0.6 m"}, {"0.4 m", "0.6 m"}});
    hand().press("Make the form");
    hand().boardKey(Qt::Key_F);
    // A box round both upper front corners, and ten times ten millimetres aft as built.
    hand().drag(BoardView::side, {940, 1120}, {1060, 990});
    for (int i = 0; i < 10; ++i) hand().boardKey(Qt::Key_Left, Qt::ShiftModifier);
    onTables();
    hand().tick("Forms", {"house", "standing"});
    hand().set("Forms", {"house", "top height"}, "house_top");
}

void ByHand::lampAndLocker() {
    onBoard();
    begin(Qt::Key_A, BoardView::side, {{"name", "lamp"}, {"depth", "0.5 m"}});
    hand().corners({"next x", "next z"}, {{"0.6 m", "house_top"}, {"1 m", "house_top"}});
    hand().corners({"next x", "next z"}, {{"1.1 m", "house_top + 0.3 m"}, {"0.7 m", "house_top + 0.2 m"}});
    hand().boardKey(Qt::Key_Return);
    onTables();
    hand().tick("Forms", {"lamp", "standing"});
    // The locker is one of the ready forms, all its figures typed over.
    hand().add("Forms", "taper form");
    hand().rename("Forms", {"box"}, "locker");
    const QStringList x{"-0.4 m", "0.2 m", "0.2 m", "-0.4 m"}, y{"0.3 m", "0.3 m", "0.7 m", "0.7 m"};
    const QStringList corners{"starboard", "front", "port", "aft"};
    for (const QString outline : {"base outline", "top outline"})
        for (int i = 0; i < 4; ++i) {
            hand().set("Forms", {"locker", outline, corners[i], "x"}, x[i]);
            hand().set("Forms", {"locker", outline, corners[i], "y"}, y[i]);
        }
    for (const QString along : {"forward", "to port", "up"})
        hand().set("Forms", {"locker", "place", along}, along == "up" ? "deck" : "");
    hand().set("Forms", {"locker", "top height"}, "0.3 m");
    hand().tick("Forms", {"locker", "standing"});
    hand().tick("Forms", {"locker", "mirrored"});
}

void ByHand::finAndFunnel() {
    onBoard();
    begin(Qt::Key_L, BoardView::side, {{"name", "fin"}});
    hand().corners({"next x", "next z"}, {{"-0.4 m", "deck"}, {"0.1 m", "deck"}, {"-0.3 m", "deck + 0.5 m"}});
    hand().boardKey(Qt::Key_Return);
    finsCurve();
    begin(Qt::Key_O, BoardView::side, {{"name", "funnel"}, {"radius", "0.1 m"}});
    hand().corners({"next x", "next z"}, {{"1.5 m", "house_top - 0.1 m"}, {"1.5 m", "house_top + 0.6 m"}});
    hand().boardKey(Qt::Key_Return);
    onTables();
    hand().set("Forms", {"funnel", "wall"}, "2 mm");
}

Vec2 ByHand::handleOf(const std::string& form) const {
    const auto& forms = session().project().forms;
    for (const BoardPoint& point : window().board()->desk()->scene().of(BoardView::side).points)
        if (point.ref.handle == Handle::curve && forms[static_cast<std::size_t>(point.form)].name == form)
            return point.at;
    throw std::runtime_error("no handle of a curve of " + form);
}

/// The fin's leading edge becomes a spline: its round handle is dragged, and where it runs through is typed.
void ByHand::finsCurve() {
    hand().boardKey(Qt::Key_F);
    hand().click(BoardView::side, -110, 800);
    hand().press("Spline edge");
    hand().type("flats", "5");
    hand().drag(BoardView::side, handleOf("fin"), {30, 790});
    EXPECT_NE(session().history().undoLabel().find("Move"), std::string::npos)
        << session().history().undoLabel();
    onTables();
    const QStringList through{"fin", "curves", "#1", "through", "#1"};
    hand().set("Forms", through + QStringList{"x"}, "0.05 m");
    hand().set("Forms", through + QStringList{"y"}, "deck + 0.38 m");
    onBoard();
}

/// A mast of another document, copied there and pasted here, with what it needs.
void ByHand::mastFromElsewhere() {
    const QString own = window().file()->path();
    QFile::copy(mast, here("signal-mast.slabside.json"));
    hand().giveFile([&] { hand().keys("Ctrl+O"); }, here("signal-mast.slabside.json"));
    ASSERT_EQ(session().project().title, "Signal mast");
    onBoard();
    hand().click(BoardView::side, 50, 0); // its foot
    hand().keys("Ctrl+C");
    hand().giveFile([&] { hand().keys("Ctrl+O"); }, own);
    ASSERT_EQ(session().project().title, "Net tender");
    hand().keys("Ctrl+V");
    onTables();
    hand().set("Forms", {"mast", "place", "forward"}, "2.2 m");
    hand().set("Forms", {"mast", "place", "up"}, "deck");
    hand().keys("Ctrl+S");
}

} // namespace slab::ui::test
