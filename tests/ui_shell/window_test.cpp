#include "core/drawing/sheets.h"
#include "tests/ui_shell/fakes.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/findings/findings_card.h"
#include "ui/findings/findings_model.h"
#include "ui/ride/ride_view.h"
#include "ui/ruler/rule_strip.h"
#include "ui/ruler/scale_ruler.h"
#include "ui/theme/theme.h"
#include "ui/totals/totals_card.h"
#include "ui/window/document_file.h"
#include "ui/window/main_window.h"
#include "ui/window/measure_prompt.h"
#include "ui/window/notice.h"
#include "ui/window/print_dialog.h"
#include "ui/window/top_bar.h"
#include "ui/window/view_frame.h"
#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QListView>
#include <QMenu>
#include <QMenuBar>
#include <QScrollBar>
#include <QSplitter>
#include <QTabBar>
#include <QTemporaryDir>
#include <QTest>
#include <gtest/gtest.h>

namespace slab::ui {
namespace {

std::unique_ptr<Session> quick() {
    return std::make_unique<Session>(test::quickEngine());
}

struct WindowBench {
    MainWindow window{quick()};
    explicit WindowBench(const char* name = "moon-crawler") {
        window.file()->take(test::sample(name), {}, true);
        EXPECT_TRUE(window.session()->waitUntilAtRest(20000));
        window.show();
        QCoreApplication::processEvents();
    }
};

bool isControl(const QWidget* w) {
    return qobject_cast<const QAbstractButton*>(w) || qobject_cast<const QAbstractItemView*>(w) ||
           qobject_cast<const QLineEdit*>(w) || qobject_cast<const QComboBox*>(w) ||
           qobject_cast<const QAbstractSpinBox*>(w) || qobject_cast<const QAbstractSlider*>(w) ||
           qobject_cast<const RuleStrip*>(w) || qobject_cast<const QMenuBar*>(w);
}

/// Parts that Qt makes inside a control and that the control speaks for.
bool isInner(const QWidget* w) {
    if (qobject_cast<const QScrollBar*>(w)) return true;
    const QString name = w->objectName();
    if (name.startsWith("qt_")) return true;
    for (const QWidget* up = w->parentWidget(); up; up = up->parentWidget())
        if (qobject_cast<const QAbstractSpinBox*>(up) || qobject_cast<const QComboBox*>(up) ||
            qobject_cast<const QAbstractItemView*>(up) || qobject_cast<const QMenuBar*>(up) ||
            qobject_cast<const QLineEdit*>(up))
            return true;
    return false;
}

void expectExplained(const QWidget& top) {
    int controls = 0;
    for (const QWidget* w : top.findChildren<QWidget*>()) {
        if (!isControl(w) || isInner(w)) continue;
        ++controls;
        const std::string which =
            std::string(w->metaObject()->className()) + " \"" + w->accessibleName().toStdString() + "\" in " +
            (w->parentWidget() ? w->parentWidget()->metaObject()->className() : "nothing");
        EXPECT_FALSE(w->accessibleName().isEmpty()) << which << " has no accessible name";
        EXPECT_FALSE(w->toolTip().isEmpty()) << which << " has no tooltip";
    }
    EXPECT_GT(controls, 3);
}

TEST(Window, EveryControlHasANameAndATooltip) {
    WindowBench b;
    expectExplained(b.window);
    const PrintDialog print(b.window.session());
    expectExplained(print);
    const MeasureDialog measure(b.window.session());
    expectExplained(measure);
}

TEST(Window, EveryMenuEntryHasATip) {
    WindowBench b;
    int entries = 0;
    for (const QMenu* menu : b.window.findChild<TopBar*>()->menus()->findChildren<QMenu*>())
        for (const QAction* action : menu->actions()) {
            if (action->isSeparator() || action->menu()) continue;
            ++entries;
            EXPECT_NE(action->toolTip(), "") << action->text().toStdString();
        }
    EXPECT_GT(entries, 20);
}

TEST(Window, FitsASmallScreen) {
    WindowBench b;
    b.window.resize(1366, 768);
    QCoreApplication::processEvents();
    EXPECT_LE(b.window.minimumSizeHint().width(), 1366);
    EXPECT_LE(b.window.minimumSizeHint().height(), 768);
    EXPECT_EQ(b.window.size(), QSize(1366, 768));
    for (const QWidget* w : b.window.findChildren<QWidget*>()) {
        if (!w->isVisibleTo(&b.window) || !isControl(w) || isInner(w)) continue;
        bool scrolled = false;
        for (const QWidget* up = w->parentWidget(); up; up = up->parentWidget())
            scrolled = scrolled || qobject_cast<const QAbstractScrollArea*>(up);
        if (scrolled) continue;
        const QRect place(w->mapTo(&b.window, QPoint()), w->size());
        EXPECT_TRUE(b.window.rect().contains(place)) << w->accessibleName().toStdString() << " is cut off at "
                                                     << place.right() << "," << place.bottom();
    }
}

TEST(Window, AGapStaysWhereTheBuilderHasDraggedIt) {
    WindowBench b;
    b.window.resize(1500, 900);
    QCoreApplication::processEvents();
    QSplitter* columns = nullptr;
    for (auto* splitter : b.window.findChildren<QSplitter*>())
        if (splitter->accessibleName() == "Columns") columns = splitter;
    ASSERT_TRUE(columns);
    const int before = columns->sizes().at(0);
    b.window.resize(1900, 900);
    QCoreApplication::processEvents();
    EXPECT_GT(columns->sizes().at(0), before) << "until then the columns share the room";
    const QPoint grip = columns->handle(1)->rect().center();
    QTest::mousePress(columns->handle(1), Qt::LeftButton, {}, grip);
    QTest::mouseMove(columns->handle(1), grip + QPoint(60, 0));
    QTest::mouseRelease(columns->handle(1), Qt::LeftButton, {}, grip);
    const int dragged = columns->sizes().at(0);
    EXPECT_GT(dragged, before + 40);
    b.window.resize(1700, 900);
    QCoreApplication::processEvents();
    EXPECT_EQ(columns->sizes().at(0), dragged);
}

QStringList shownIn(const MainWindow& window) {
    QStringList shown;
    for (const ViewFrame* frame : window.findChildren<ViewFrame*>())
        if (frame->isVisible()) shown << frame->name();
    shown.sort();
    return shown;
}

TEST(Window, AViewFillsTheWindowAndComesBack) {
    WindowBench b;
    const QStringList three{"Fit", "Panels", "Sheets"};
    ASSERT_EQ(shownIn(b.window), three);
    for (int i = 0; i < 3; ++i) {
        b.window.fill(i);
        EXPECT_EQ(shownIn(b.window), QStringList{three[i]});
        EXPECT_FALSE(b.window.ruler()->isVisible());
        b.window.fill(i);
        EXPECT_EQ(shownIn(b.window), three);
        EXPECT_TRUE(b.window.ruler()->isVisible());
    }
    b.window.fill(1);
    QTest::keyClick(&b.window, Qt::Key_Escape);
    EXPECT_EQ(b.window.filled(), -1);
}

TEST(Window, TheBoardComesWithTheBodyBesideItOrAlone) {
    WindowBench b;
    b.window.fill(3);
    EXPECT_EQ(shownIn(b.window), (QStringList{"Drawing board", "Fit"}));
    EXPECT_TRUE(b.window.ruler()->isVisible()) << "the scale moves while drawing too";
    b.window.fill(4);
    EXPECT_EQ(shownIn(b.window), QStringList{"Drawing board"});
    b.window.fill(3);
    b.window.fill(3);
    EXPECT_EQ(shownIn(b.window), (QStringList{"Fit", "Panels", "Sheets"}));
}

TEST(Window, RideComesWithTheBodyBesideItOrAlone) {
    WindowBench b;
    b.window.fill(5);
    EXPECT_EQ(shownIn(b.window), (QStringList{"Fit", "Ride"}));
    EXPECT_TRUE(b.window.ruler()->isVisible()) << "what it passes changes with the scale";
    EXPECT_TRUE(b.window.ride()->isVisible());
    b.window.resize(1366, 768);
    EXPECT_TRUE(b.window.ruler()->rule()->isVisible()) << "it can be dragged in a low window too";
    EXPECT_LT(b.window.ruler()->rule()->sizeHint().height(), 80);
    b.window.resize(1700, 1000);
    EXPECT_GT(b.window.ruler()->rule()->sizeHint().height(), 80);
    b.window.fill(3);
    EXPECT_EQ(shownIn(b.window), (QStringList{"Drawing board", "Fit"}));
    b.window.fill(6);
    EXPECT_EQ(shownIn(b.window), QStringList{"Ride"});
    b.window.fill(6);
    EXPECT_EQ(shownIn(b.window), (QStringList{"Fit", "Panels", "Sheets"}));
}

TEST(Window, DraggingTheRuleIsShownInTheBarAndUndone) {
    WindowBench b;
    RuleStrip* rule = b.window.ruler()->rule();
    const auto at = [&](double s) { return QPoint(static_cast<int>(rule->xOf(s)), 45); };
    QTest::mousePress(rule, Qt::LeftButton, {}, at(0.5));
    QTest::mouseMove(rule, at(0.6));
    QTest::mouseRelease(rule, Qt::LeftButton, {}, at(0.6));
    EXPECT_FALSE(b.window.session()->history().isSaved());
    EXPECT_TRUE(b.window.isWindowModified());
    b.window.session()->undo();
    EXPECT_TRUE(b.window.session()->history().isSaved());
    EXPECT_FALSE(b.window.isWindowModified());
}

TEST(Window, SavesAndOpensAgain) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("boat.slabside.json");
    WindowBench b;
    b.window.session()->apply(setValue("/title", "\"Rowing tub\""));
    ASSERT_TRUE(b.window.file()->saveTo(path).has_value());
    EXPECT_TRUE(b.window.session()->history().isSaved());
    EXPECT_TRUE(b.window.file()->stateWords().startsWith("saved"));
    EXPECT_EQ(DocumentFile::recent().value(0), path);
    const Project saved = b.window.session()->project();
    ASSERT_TRUE(b.window.file()->newFromSample(QString(SLABSIDE_SOURCE_DIR) +
                                               "/samples/harbour-fire-boat.slabside.json"));
    EXPECT_NE(b.window.session()->project(), saved);
    ASSERT_TRUE(b.window.file()->open(path));
    EXPECT_EQ(b.window.session()->project(), saved);
}

TEST(Window, ANewDocumentFromASampleFindsItsPictures) {
    WindowBench b;
    const QString samples = QString(SLABSIDE_SOURCE_DIR) + "/samples";
    const auto allThere = [&](const char* when) {
        const PictureFiles& files = b.window.board()->canvas()->pictures().files();
        EXPECT_EQ(files.size(), 1u) << when << ": one drawing in three elevations";
        for (const PictureFile& file : files)
            EXPECT_EQ(file.state, PictureFile::State::present) << when << ": " << file.name;
    };
    ASSERT_TRUE(b.window.file()->newFromSample(samples + "/harbour-tram.slabside.json"));
    EXPECT_TRUE(b.window.file()->path().isEmpty()) << "it is a new document";
    allThere("new");
    // Saved elsewhere its pictures stay where they are, and are still found.
    const QTemporaryDir folder;
    const QString path = folder.filePath("tram.slabside.json");
    ASSERT_TRUE(b.window.file()->saveTo(path).has_value());
    allThere("saved");
    ASSERT_TRUE(b.window.file()->open(path));
    allThere("opened again");
}

TEST(Window, AFindingOfAPictureLeadsToItsStripOnTheBoard) {
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        e.findings =
            placePictures(p, *e.scope, {{"harbour-tram.svg", PictureFile::State::missing, {}, {}, {}, 0, 0}})
                .findings;
        return e;
    };
    MainWindow window(std::make_unique<Session>(engine));
    window.file()->take(test::sample("harbour-tram"), {}, true);
    ASSERT_TRUE(window.session()->waitUntilAtRest(20000));
    window.show();
    QCoreApplication::processEvents();
    auto* card = window.findChild<FindingsCard*>();
    const auto* model = static_cast<const FindingsModel*>(card->list()->model());
    ASSERT_EQ(model->rowCount(), 1) << "three pictures, one file, one finding";
    EXPECT_EQ(model->at(0).code, "picture-missing");
    const auto* board = window.findChild<DraftingView*>();
    card->list()->setCurrentIndex(model->index(0));
    EXPECT_FALSE(board->isVisible()) << "going through the list leaves the views alone";
    Q_EMIT card->list()->clicked(model->index(0));
    QCoreApplication::processEvents();
    EXPECT_TRUE(board->isVisible());
    EXPECT_EQ(board->desk()->choice().picture, 0);
    EXPECT_TRUE(board->pictureStrip()->isVisible());
    bool offered = false;
    for (const auto* button : board->pictureStrip()->findChildren<QAbstractButton*>())
        offered = offered || (button->text() == "Choose the file…" && button->isVisible());
    EXPECT_TRUE(offered);
}

TEST(Window, ADamagedFileIsToldAndChangesNothing) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("broken.slabside.json");
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("{\"slabside\": 1, \"forms\": [");
    file.close();
    WindowBench b;
    const Project before = b.window.session()->project();
    EXPECT_FALSE(b.window.file()->open(path));
    EXPECT_EQ(b.window.session()->project(), before);
    EXPECT_TRUE(b.window.notice()->isVisible());
    EXPECT_TRUE(b.window.notice()->words().contains("broken.slabside.json"));
}

TEST(Window, ThePunchListSettlesWhenTheHandStops) {
    Engine engine = test::quickEngine();
    engine.evaluate = [](const Project& p, Effort, std::uint64_t revision, const Job&) {
        Evaluation e = test::scopeOnly(p, revision);
        e.findings.push_back(
            {Severity::look, "too-near", "At " + p.scale, {"plate:tub/port"}, "Make it bigger.", {}});
        return e;
    };
    Session session(engine);
    session.replace(test::sample("moon-crawler"));
    FindingsCard card(&session);
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    const auto* model = static_cast<const FindingsModel*>(card.list()->model());
    ASSERT_EQ(model->rowCount(), 1);
    EXPECT_EQ(model->at(0).message, "At 1/2");
    for (int i = 0; i < 20; ++i) {
        session.apply(setScale("0." + std::to_string(40 + i), "drag"));
        QTest::qWait(2);
        EXPECT_EQ(model->at(0).message, "At 1/2") << "holds still";
    }
    session.settle();
    ASSERT_TRUE(session.waitUntilAtRest(20000));
    EXPECT_EQ(model->at(0).message, "At 0.59");
    card.list()->setCurrentIndex(model->index(0));
    EXPECT_EQ(session.selection().plate, "tub/port");
    EXPECT_EQ(session.selection().finding, "too-near|plate:tub/port");
}

TEST(Window, MeasuredSheetsAreOneStep) {
    const Project before = test::sample("harbour-fire-boat");
    const auto after = measureSheets({{"xps_13", "12.4 mm", "1218 mm", "2440 mm", true},
                                      {"hardboard_3", "3.1 mm", "4 ft", "8 ft", true}})
                           .apply(before);
    ASSERT_TRUE(after.has_value());
    EXPECT_EQ(after->stock.sheets[0].thickness, "12.4 mm");
    EXPECT_EQ(after->stock.sheets[0].width, "1218 mm");
    EXPECT_TRUE(after->stock.sheets[0].measured);
    EXPECT_TRUE(after->stock.sheets[1].measured);
}

/// WCAG 2.1 relative luminance and contrast ratio; text needs 4.5:1 (success criterion 1.4.3).
double contrast(const QColor& a, const QColor& b) {
    const auto luminance = [](const QColor& c) {
        const auto channel = [](double v) {
            return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
        };
        return 0.2126 * channel(c.redF()) + 0.7152 * channel(c.greenF()) + 0.0722 * channel(c.blueF());
    };
    const double x = luminance(a), y = luminance(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

TEST(Theme, TextHasEnoughContrastInLightAndDark) {
    for (const bool dark : {false, true}) {
        Theme::setDark(dark);
        const Palette& c = Theme::colours();
        for (const QColor& ground : {c.card, c.paper, c.chosenFill}) EXPECT_GE(contrast(c.ink, ground), 4.5);
        for (const QColor& ground : {c.card, c.paper}) {
            EXPECT_GE(contrast(c.quiet, ground), 4.5) << dark << " quiet on " << ground.name().toStdString();
            EXPECT_GE(contrast(c.chosen, ground), 4.5)
                << dark << " chosen on " << ground.name().toStdString();
        }
        EXPECT_GE(contrast(c.hits, c.card), 4.5) << dark;
    }
    Theme::setDark(false);
    EXPECT_NEAR(contrast(Qt::black, Qt::white), 21, 1e-9);
}

} // namespace
} // namespace slab::ui
