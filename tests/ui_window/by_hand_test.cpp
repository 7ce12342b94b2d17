// A body like the samples, made from an empty document in the window alone: by mouse and keyboard events and
// nothing else, file dialogs included. It equals the same body written as a file, document and evaluation.
#include "core/document/file.h"
#include "core/picture/files.h"
#include "tests/ui_window/by_hand.h"
#include "tests/ui_window/same_json.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/panel_canvas.h"
#include "ui/window/document_file.h"
#include <QApplication>
#include <QDir>
#include <QFile>
#include <QTest>

namespace slab::ui::test {
namespace {

const char* const written = SLABSIDE_SOURCE_DIR "/tests/ui_window/data/net-tender.slabside.json";
const char* const picture = SLABSIDE_SOURCE_DIR "/tests/ui_window/data/tender-side.png";

} // namespace

void ByHand::namesAndSizes() {
    hand().keys("Ctrl+N");
    EXPECT_TRUE(session().project().forms.empty());
    hand().set("Document", {"title"}, "Net tender");
    hand().set("Document", {"scale"}, "1/2");
    const QList<QStringList> sizes{{"length", "4 m"},
                                   {"beam", "1.6"},
                                   {"deck", "1.2 m"},
                                   {"house_top", "deck + 0.9 m"},
                                   {"exit_width", "600 mm"}};
    for (const QStringList& one : sizes) {
        hand().add("Dimensions", "Add to");
        hand().rename("Dimensions", {"size"}, one[0]);
        hand().set("Dimensions", {one[0]}, one[1]);
    }
    hand().set("Dimensions", {"beam"}, "1.6 m"); // a slip corrected
    hand().pick("Dimensions", {"exit_width", "space"}, "build");
    hand().set("Dimensions", {"length", "note"}, "stem to transom");
}

void ByHand::stock() {
    hand().add("Stock", "Plain sheet");
    hand().rename("Stock", {"sheets", "sheet"}, "foam_12");
    hand().set("Stock", {"sheets", "foam_12", "thickness"}, "12 mm");
    hand().set("Stock", {"sheets", "foam_12", "price"}, "11.50");
    hand().add("Stock", "hardboard_3");
    hand().set("Stock", {"sheets", "hardboard_3", "in the shed"}, "2");
    hand().add("Stock", "plywood_6");
    hand().tick("Stock", {"sheets", "plywood_6", "either face"});
    hand().add("Stock", "Plain sheet");
    hand().rename("Stock", {"sheets", "sheet"}, "card_3");
    hand().set("Stock", {"sheets", "card_3", "thickness"}, "3 mm");
    hand().pick("Stock", {"sheets", "card_3", "kind"}, "card");
    hand().set("Stock", {"kerf"}, "2 mm");
}

void ByHand::materialsAndJoints() {
    rest();
    hand().leaveOut("hull/keel");
    hand().leaveOut("house/base");
    hand().cutFrom("house/top", "hardboard_3");
    hand().cutFrom("fin/plate", "plywood_6");
    hand().rank("hull/deck", "1");
    rest();
    // The front of the house meets its starboard side in a mitre: chosen on the panel's drawing.
    choosePanel("house/p2");
    auto& canvas = part<PanelCanvas>();
    int edge = -1;
    for (const Plate& plate : shown().plates->plates)
        for (std::size_t i = 0; plate.name == "house/p2" && i < plate.boundary.edges.size(); ++i)
            if (plate.boundary.edges[i].neighbour == "house/p1") edge = static_cast<int>(i);
    ASSERT_GE(edge, 0);
    const QPolygonF outline = canvas.outlineOnScreen();
    const QPointF middle = (outline[edge] + outline[(edge + 1) % outline.size()]) / 2;
    QTest::mouseClick(&canvas, Qt::LeftButton, {}, middle.toPoint());
    hand().press("Mitre");
}

void ByHand::openings() {
    hand().add("Openings", "Add to");
    hand().rename("Openings", {"opening"}, "exit");
    hand().set("Openings", {"exit", "in plate"}, "house/p4");
    hand().set("Openings", {"exit", "width"}, "exit_width");
    hand().set("Openings", {"exit", "height"}, "300 mm");
    hand().set("Openings", {"exit", "corner radius"}, "30 mm");
    hand().pick("Openings", {"exit", "purpose"}, "exit");
    hand().tick("Openings", {"exit", "hatch"});
    hand().set("Openings", {"exit", "hatch gap"}, "2 mm");
    hand().set("Openings", {"exit", "lap strip"}, "25 mm");
    hand().add("Openings", "Add to");
    hand().rename("Openings", {"opening"}, "side light");
    hand().set("Openings", {"side light", "in plate"}, "");
    hand().pick("Openings", {"side light", "shape"}, "circle");
    hand().pick("Openings", {"side light", "direction"}, "y");
    hand().set("Openings", {"side light", "diameter"}, "150 mm");
    hand().set("Openings", {"side light", "x"}, "1.2 m");
    hand().set("Openings", {"side light", "z"}, "house_top - 0.4 m");
    hand().insert("Openings", {"side light", "only plates"});
    hand().set("Openings", {"side light", "only plates", "#1"}, "house/*");
}

void ByHand::woodwork() {
    hand().add("Frames and seams", "Add to frames");
    hand().rename("Frames and seams", {"frames", "frame"}, "mid frame");
    hand().set("Frames and seams", {"frames", "mid frame", "station"}, "length - 1.6 m");
    hand().set("Frames and seams", {"frames", "mid frame", "sheet"}, "plywood_6");
    hand().set("Frames and seams", {"frames", "mid frame", "gap"}, "1 mm");
    hand().add("Frames and seams", "Add to cleats");
    hand().rename("Frames and seams", {"cleats", "cleats"}, "deck cleats");
    hand().set("Frames and seams", {"cleats", "deck cleats", "between", "#1"}, "hull/deck");
    hand().add("Frames and seams", "Add to modules");
    hand().rename("Frames and seams", {"modules", "module"}, "wheelhouse");
    hand().set("Frames and seams", {"modules", "wheelhouse", "plates", "#1"}, "house/*");
    hand().insert("Frames and seams", {"modules", "wheelhouse", "plates", "#1"});
    hand().set("Frames and seams", {"modules", "wheelhouse", "plates", "#2"}, "lamp/*");
    hand().add("Frames and seams", "Add to passages");
    hand().rename("Frames and seams", {"passages", "door"}, "shed door");
    hand().set("Frames and seams", {"passages", "shed door", "width"}, "1.2 m");
}

void ByHand::winch() {
    hand().add("Mechanisms", "Add to turntables");
    hand().rename("Mechanisms", {"turntables", "turntable"}, "winch base");
    const QList<QStringList> base{{"drum diameter", "150 mm"},
                                  {"drum depth", "-40 mm"},
                                  {"wall", "2 mm"},
                                  {"lip", "12 mm"},
                                  {"lip thickness", "4 mm"},
                                  {"ring width", "40 mm"},
                                  {"ring sheet", "plywood_6"},
                                  {"turns from", "-90 deg"},
                                  {"turns to", "90 deg"}};
    for (const QStringList& one : base)
        hand().set("Mechanisms", {"turntables", "winch base", one[0]}, one[1]);
    hand().set("Mechanisms", {"turntables", "winch base", "place", "forward"}, "2.9 m");
    hand().set("Mechanisms", {"turntables", "winch base", "place", "up"}, "deck");
    hand().add("Mechanisms", "Add to trunnions");
    hand().rename("Mechanisms", {"trunnions", "trunnion"}, "net boom");
    const QList<QStringList> boom{{"tube diameter", "40 mm"}, {"front length", "0.7 m"},
                                  {"rear length", "0.1 m"},   {"lowest", "0 deg"},
                                  {"highest", "45 deg"},      {"turns with", "winch base"}};
    for (const QStringList& one : boom) hand().set("Mechanisms", {"trunnions", "net boom", one[0]}, one[1]);
    hand().set("Mechanisms", {"trunnions", "net boom", "place", "forward"}, "2.9 m");
    hand().set("Mechanisms", {"trunnions", "net boom", "place", "up"}, "deck + 0.3 m");
}

void ByHand::belt() {
    hand().add("Mechanisms", "Add to belts");
    hand().rename("Mechanisms", {"belts", "belt"}, "side belt");
    const QStringList front{"belts", "side belt", "wheels", "front wheel"};
    const QStringList rear{"belts", "side belt", "wheels", "rear wheel"};
    hand().set("Mechanisms", front + QStringList{"x"}, "length - 1.4 m");
    hand().set("Mechanisms", rear + QStringList{"x"}, "0");
    for (const QStringList& wheel : {front, rear}) {
        hand().set("Mechanisms", wheel + QStringList{"z"}, "0.25 m");
        hand().set("Mechanisms", wheel + QStringList{"diameter"}, "0.4 m");
    }
    hand().set("Mechanisms", {"belts", "side belt", "place", "to port"}, "beam / 2 + 0.15 m");
    hand().set("Mechanisms", {"belts", "side belt", "link pitch"}, "0.1 m");
}

/// The shell floats on its chassis: a hinge by a click on the board, its figures typed over.
void ByHand::linkage() {
    rest();
    onBoard();
    hand().offered([&] { hand().boardKey(Qt::Key_W); }, "Linkage");
    hand().click(BoardView::side, 700, 250);
    EXPECT_EQ(session().history().undoLabel(), "Add hinge");
    onTables();
    const QStringList hinge{"linkages", "hinge"};
    hand().set("Mechanisms", hinge + QStringList{"place", "forward"}, "0.7 m");
    hand().set("Mechanisms", hinge + QStringList{"place", "up"}, "0.25 m");
    hand().set("Mechanisms", hinge + QStringList{"nose up"}, "2 deg");
    hand().set("Mechanisms", hinge + QStringList{"nose down"}, "1.5 deg");
    hand().set("Mechanisms", hinge + QStringList{"pin diameter"}, "12 mm");
}

void ByHand::pictureUnderIt() {
    onBoard();
    hand().point(BoardView::side, 500, 500);
    hand().giveFile([&] { hand().boardKey(Qt::Key_R); }, here("tender-side.png"));
    ASSERT_EQ(session().project().pictures.size(), 1U);
    hand().type("distance", "3 m", false);
    hand().press("Two points");
    hand().click(BoardView::side, 300, 300);
    hand().click(BoardView::side, 600, 300);
    // Where the two points are to the pixel, and where the first of them stands, is typed.
    onTables();
    const QString table = "Pictures and dimension lines";
    const QStringList one{"pictures", "tender-side"};
    const QList<QStringList> places{
        {"from", "across", "50"},   {"from", "down", "160"}, {"to", "across", "350"}, {"to", "down", "160"},
        {"to the right", "-0.5 m"}, {"up", "0.3 m"},         {"marking error", ""}};
    for (const QStringList& place : places)
        hand().set(table, one + place.mid(0, place.size() - 1), place.last());
}

void ByHand::dimensionLine() {
    onBoard();
    hand().boardKey(Qt::Key_D);
    hand().click(BoardView::side, -250, 150);
    hand().click(BoardView::side, 1500, 150);
    hand().click(BoardView::side, 600, 60);
    hand().type("Driven dimension", "keel_run");
    hand().type("distance", "3.4 m"); // of the subject
    onTables();
    hand().rename("Pictures and dimension lines", {"dimension lines", "#1"}, "keel line");
    hand().set("Pictures and dimension lines", {"dimension lines", "keel line", "offset"}, "-0.2 m");
}

void ByHand::rider() {
    onTables();
    hand().pick("Donor and rider", {"donor", "chassis"}, "scooter, three wheels");
    hand().set("Donor and rider", {"donor", "place", "forward"}, "0.2 m");
    hand().set("Donor and rider", {"rider", "percentile"}, "75");
}

/// What was made last goes and comes back by keys.
void ByHand::changesOfMind() {
    const Project before = session().project();
    const int steps = 12;
    hand().keys("Ctrl+Z", steps);
    EXPECT_NE(session().project(), before);
    hand().keys("Ctrl+Shift+Z", steps);
    EXPECT_EQ(session().project(), before);
    EXPECT_FALSE(session().history().canRedo());
}

void ByHand::saveAndReopen() {
    const QString path = here("net-tender.slabside.json");
    hand().giveFile([&] { hand().keys("Ctrl+S"); }, path);
    ASSERT_TRUE(QFile::exists(path));
    const Project saved = session().project();
    hand().keys("Ctrl+N");
    EXPECT_TRUE(session().project().forms.empty());
    hand().giveFile([&] { hand().keys("Ctrl+O"); }, path);
    EXPECT_EQ(window().file()->path(), path);
    EXPECT_EQ(session().project().forms, saved.forms);
}

/// How sure a click is hangs on how large the picture was shown, and that on the window's size and fonts.
void ByHand::takeClickErrors(Project& file) {
    ASSERT_EQ(session().project().pictures.size(), file.pictures.size());
    for (std::size_t i = 0; i < file.pictures.size(); ++i) {
        const Picture& made = session().project().pictures[i];
        for (const auto& [mark, own] :
             {std::pair(&file.pictures[i].from, &made.from), std::pair(&file.pictures[i].to, &made.to)}) {
            EXPECT_NEAR(std::stod(own->click_error), std::stod(mark->click_error), 1.5) << "px";
            mark->click_error = own->click_error;
        }
    }
}

TEST_F(ByHand, ABodyLikeTheSamplesEqualsTheSameBodyWrittenAsAFile) {
    QFile::copy(picture, here("tender-side.png"));
    const auto step = [&](const char* what, void (ByHand::*deed)()) {
        if (HasFailure()) return;
        SCOPED_TRACE(what);
        try {
            (this->*deed)();
        } catch (const std::exception& why) {
            ADD_FAILURE() << why.what();
        }
    };
    step("names and sizes", &ByHand::namesAndSizes);
    step("stock", &ByHand::stock);
    step("hull", &ByHand::hull);
    step("house", &ByHand::house);
    step("changes of mind", &ByHand::changesOfMind);
    step("lamp and locker", &ByHand::lampAndLocker);
    step("fin and funnel", &ByHand::finAndFunnel);
    step("materials and joints", &ByHand::materialsAndJoints);
    step("openings", &ByHand::openings);
    step("woodwork", &ByHand::woodwork);
    step("winch", &ByHand::winch);
    step("belt", &ByHand::belt);
    step("linkage", &ByHand::linkage);
    step("changes of mind", &ByHand::changesOfMind);
    step("picture", &ByHand::pictureUnderIt);
    step("dimension line", &ByHand::dimensionLine);
    step("rider", &ByHand::rider);
    step("save and reopen", &ByHand::saveAndReopen);
    step("mast from elsewhere", &ByHand::mastFromElsewhere);
    ASSERT_FALSE(HasFailure());
    auto file = loadProject(written);
    ASSERT_TRUE(file) << file.error().message;
    takeClickErrors(*file);
    expectSame(Json::parse(writeProject(session().project())), Json::parse(writeProject(*file)), "document");
    EXPECT_EQ(session().project(), *file);
    rest();
    Evaluator evaluator;
    const Evaluation fresh =
        evaluator.evaluate(*file, Effort::full, 0, {}, readPictureFiles(*file, folder().toStdString()));
    const Json made = reportOf(session()), told = Json::parse(reportJson(*file, fresh));
    expectSame(made, told, "report");
}

} // namespace slab::ui::test
