// How the views share the window.
#include "core/board/mechanism_edits.h"
#include "ui/board/drafting_view.h"
#include "ui/findings/findings_card.h"
#include "ui/findings/findings_model.h"
#include "ui/fit/fit_view.h"
#include "ui/panels/panel_view.h"
#include "ui/ride/ride_view.h"
#include "ui/ruler/scale_ruler.h"
#include "ui/sheets/sheet_view.h"
#include "ui/theme/card.h"
#include "ui/window/document_file.h"
#include "ui/window/drawing_dialog.h"
#include "ui/window/left_column.h"
#include "ui/window/main_window.h"
#include "ui/window/side_column.h"
#include "ui/window/top_bar.h"
#include "ui/window/view_frame.h"
#include <QMenu>
#include <QSplitter>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace slab::ui {

namespace {

constexpr int foldBelowWidth = 1440, foldBelowHeight = 860, rowFromWidth = 2300;

/// Two parts of a length, the first one's share being per cent.
QList<int> shared(int length, int percent) {
    return {length * percent / 100, length - length * percent / 100};
}

constexpr const char* gapWords = "Drag the gaps to give one side more room.";

} // namespace

/// A tip of the gaps alone: one of the splitter would show over all that lies in it.
void MainWindow::explainGaps() {
    for (QSplitter* gaps : {m_columns, m_views, m_flat})
        for (int i = 1; i < gaps->count(); ++i) gaps->handle(i)->setToolTip(gapWords);
}

QSplitter* MainWindow::gaps(Qt::Orientation orientation, const QString& name) {
    auto* s = new QSplitter(orientation);
    s->setHandleWidth(space::between);
    s->setChildrenCollapsible(false);
    s->setAccessibleName(name);
    s->setAccessibleDescription(gapWords);
    return s;
}

void MainWindow::buildViews() {
    m_views = gaps(Qt::Horizontal, "Views");
    m_flat = gaps(Qt::Vertical, "Panels and sheets");
    auto* sheets = new SheetView(m_session.get());
    connect(sheets, &SheetView::stockWanted, this, [this] { m_left->offer("/stock/sheets"); });
    m_fit = new FitView(m_session.get());
    auto* panels = new PanelView(m_session.get());
    connect(m_fit, &FitView::formWanted, this, [this] { m_left->offer("/forms"); });
    connect(panels, &PanelView::formWanted, this, [this] { m_left->offer("/forms"); });
    connect(panels, &PanelView::stockWanted, this, [this] { m_left->offer("/stock/sheets"); });
    m_board = new DraftingView(m_session.get());
    connect(m_board, &DraftingView::startWanted, this, &MainWindow::newFromStart);
    connect(m_board, &DraftingView::pictureWanted, this, &MainWindow::addPicture);
    connect(m_board, &DraftingView::pictureFileWanted, this, &MainWindow::choosePictureFile);
    connect(m_board, &DraftingView::outlinesWanted, this, &MainWindow::importOutlines);
    m_ride = new RideView(m_session.get());
    connect(m_ride, &RideView::openingWanted, this, [this] {
        fill(-1);
        m_left->offer("/openings");
    });
    buildFrames(panels, sheets);
}

void MainWindow::buildFrames(QWidget* panels, QWidget* sheets) {
    m_frames = {new ViewFrame("Fit", "F5", m_fit), new ViewFrame("Panels", "F6", panels),
                new ViewFrame("Sheets", "F7", sheets), new ViewFrame("Drawing board", "F8", m_board),
                new ViewFrame("Ride", "F9", m_ride)};
    m_frames[0]->addButton("Draw", "Drawing board", "Draw the body by hand, with this view beside it (F8).",
                           [this] { fill(3); });
    m_frames[0]->addButton("Ride", "Ride",
                           "How it stands, what it passes, what is seen from it and how one gets out, with "
                           "this view beside it (F9).",
                           [this] { fill(5); });
    m_frames[3]->addButton("All views", "All views", "Brings the other views back (F8).",
                           [this] { fill(-1); });
    m_frames[4]->addButton("All views", "All views", "Brings the other views back (F9).",
                           [this] { fill(-1); });
    m_stops =
        m_frames[3]->addButton({}, "What stops", "What still needs attention; choose one to see its place.",
                               [this] { listStops(); });
    m_slot = new QWidget;
    auto* place = new QVBoxLayout(m_slot);
    place->setContentsMargins(0, 0, 0, 0);
    for (const std::size_t i : {3, 4}) {
        place->addWidget(m_frames[i]);
        m_frames[i]->hide();
    }
    m_slot->hide();
    m_views->addWidget(m_slot);
    m_views->addWidget(m_frames[0]);
    m_flat->addWidget(m_frames[1]);
    m_flat->addWidget(m_frames[2]);
    m_views->addWidget(m_flat);
    m_columns->addWidget(m_views);
    for (int i = 0; i < 3; ++i)
        connect(m_frames[static_cast<std::size_t>(i)], &ViewFrame::fillWanted, this, [this, i] { fill(i); });
    connect(m_frames[3], &ViewFrame::fillWanted, this, [this] { fill(m_filled == 4 ? 3 : 4); });
    connect(m_frames[4], &ViewFrame::fillWanted, this, [this] { fill(m_filled == 6 ? 5 : 6); });
}

/// A picture is mended on the board, by its strip.
void MainWindow::openPlace(const QString& about) {
    if (!about.startsWith("picture:")) return;
    if (!boardShown()) fill(3);
    m_board->choosePicture(about.section(':', 1).toStdString());
}

void MainWindow::takeMechanism(const MechanismWords& kind) {
    if (boardShown()) return m_board->take(QString::fromStdString(kind.key));
    if (m_filled > 0 && m_filled != 5) fill(-1); // Fit is out of sight
    m_fit->takeMechanism(&kind);
}

void MainWindow::choosePictureFile() {
    const QString path = askDrawing(this, "Choose the picture's file", m_file->path(), pictureKinds);
    if (!path.isEmpty()) m_board->takePictureFile(path);
}

/// On the board the punch list is out of sight: its worst entries as a menu.
void MainWindow::listStops() {
    QMenu menu;
    menu.setToolTipsVisible(true);
    constexpr int most = 12;
    const FindingsModel& all = m_findings->model();
    for (int row = 0; row < std::min(all.rowCount(), most); ++row) {
        const Finding& finding = all.at(row);
        if (finding.severity == Severity::note) continue;
        const QFontMetrics metrics(menu.font());
        const QString words = wordOf(finding.severity) + ": " + QString::fromStdString(finding.message);
        QAction* action = menu.addAction(metrics.elidedText(words, Qt::ElideRight, 560).replace('&', "&&"));
        action->setToolTip(QString::fromStdString(finding.remedy));
        connect(action, &QAction::triggered, this, [this, row] {
            const std::vector<std::string> about = m_findings->model().at(row).about;
            m_findings->choose(row);
            if (!about.empty()) openPlace(QString::fromStdString(about.front()));
        });
    }
    menu.addSeparator();
    connect(menu.addAction("Punch list"), &QAction::triggered, this, [this] {
        fill(-1);
        m_right->reveal(m_findings);
    });
    menu.exec(m_stops->mapToGlobal(QPoint(0, m_stops->height())));
}

void MainWindow::arrange() {
    const bool folded = width() < foldBelowWidth || height() < foldBelowHeight;
    if (rideShown()) showColumns();
    m_left->setFolded(folded);
    m_right->setFolded(folded);
    m_top->setNarrow(width() < 1240);
    foldRuler();
    // Side by side where the window is wide and low, else the two flat views share a column: panels and
    // sheets are wider than high.
    m_flat->setOrientation(width() >= rowFromWidth && 2 * width() > 5 * height() ? Qt::Horizontal
                                                                                 : Qt::Vertical);
    spread();
    QTimer::singleShot(0, this, &MainWindow::spread); // again, when folding has changed what the parts need
}

/// Board and ride need the height of a low window; what is to spare, flags and sheet counts go.
void MainWindow::foldRuler() {
    m_ruler->setFolded(besideFit() && height() < foldBelowHeight);
}

void MainWindow::spread() {
    if (besideFit()) return spreadBoard();
    if (m_ownSpread || m_filled >= 0) return;
    const int all = m_columns->width();
    const bool small = all < foldBelowWidth, tiny = all < 1200;
    const int left = tiny ? 270 : small ? 310 : std::clamp(all / 5, 330, 430);
    const int right = tiny ? 212 : small ? 226 : std::clamp(all / 6, 240, 340);
    m_columns->setSizes({left, all - left - right - 2 * space::between, right});
    const bool row = m_flat->orientation() == Qt::Horizontal;
    // The panel's drawing with its words is what needs the room most.
    const QList<int> views = shared(m_views->width() - space::between, row ? 38 : small ? 46 : 50);
    m_views->setSizes(QList<int>{0} + views);
    const int panels = row ? 54 : tiny ? 75 : height() < foldBelowHeight ? 62 : 55;
    m_flat->setSizes(shared(row ? views.last() : m_flat->height(), panels));
}

void MainWindow::fill(int index) {
    const bool drew = m_filled >= 3;
    if (m_filled < 0 && m_ownSpread) m_threeSpread = m_views->sizes();
    m_filled = index == m_filled ? -1 : index;
    const bool all = m_filled < 0;
    showColumns();
    m_ruler->setVisible(all || besideFit());
    foldRuler();
    m_slot->setVisible(boardShown() || rideShown());
    for (int i = 0; i < 5; ++i) {
        auto* frame = m_frames[static_cast<std::size_t>(i)];
        const bool beside = i == 0 && besideFit();
        frame->setVisible(i == 3 ? boardShown() : i == 4 ? rideShown() : all || i == m_filled || beside);
        if (i == 0 && all) frame->view()->setFocus(Qt::ShortcutFocusReason); // not what comes next by chance
        frame->setFilling(i == 3 ? m_filled == 4 : i == 4 ? m_filled == 6 : i == m_filled);
    }
    m_flat->setVisible(all || m_filled == 1 || m_filled == 2);
    if (besideFit()) QTimer::singleShot(0, this, &MainWindow::spreadBoard);
    if (!all) // letters are tools of the view that is worked in
        m_frames[static_cast<std::size_t>(rideShown() ? 4 : std::min(m_filled, 3))]->view()->setFocus(
            Qt::ShortcutFocusReason);
    if (!all) return;
    if (drew && m_ownSpread && !m_threeSpread.isEmpty()) m_views->setSizes(m_threeSpread);
    QTimer::singleShot(0, this, &MainWindow::spread);
}

/// Beside Ride the tables stay where there is room: route and ride are typed there.
void MainWindow::showColumns() {
    const bool all = m_filled < 0, tables = m_filled == 5 && width() >= foldBelowWidth;
    m_left->setVisible(all || tables);
    m_right->setVisible(all);
}

void MainWindow::spreadBoard() {
    if (!besideFit()) return;
    // The sheet is what is worked on; the body beside it only has to be seen.
    const QList<int>& own = rideShown() ? m_rideSpread : m_boardSpread;
    if (rideShown() && m_left->isVisible() && !m_ownSpread) {
        const int whole = m_columns->width(), left = std::clamp(whole / 5, 330, 430);
        m_columns->setSizes({left, whole - left - space::between, 0});
    }
    const int all = m_views->width() - space::between;
    const QList<int> sizes = own.size() == 2 ? own : shared(all, all < 1400 ? 68 : 72);
    m_views->setSizes(sizes + QList<int>{0});
}

} // namespace slab::ui
