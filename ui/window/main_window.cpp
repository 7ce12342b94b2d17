#include "ui/window/main_window.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_deeds.h"
#include "ui/board/drafting_view.h"
#include "ui/board/picture_layer.h"
#include "ui/findings/finding_delegate.h"
#include "ui/findings/findings_card.h"
#include "ui/findings/findings_model.h"
#include "ui/outlines/outline_dialog.h"
#include "ui/ruler/margin_plot.h"
#include "ui/ruler/rule_strip.h"
#include "ui/ruler/scale_ruler.h"
#include "ui/theme/theme.h"
#include "ui/totals/totals_card.h"
#include "ui/window/document_file.h"
#include "ui/window/drawing_dialog.h"
#include "ui/window/exporter.h"
#include "ui/window/left_column.h"
#include "ui/window/measure_prompt.h"
#include "ui/window/menus.h"
#include "ui/window/notice.h"
#include "ui/window/print_dialog.h"
#include "ui/window/side_column.h"
#include "ui/window/start_dialog.h"
#include "ui/window/titles.h"
#include "ui/window/top_bar.h"
#include "ui/window/view_frame.h"
#include <QCloseEvent>
#include <QDragEnterEvent>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QKeyEvent>
#include <QListView>
#include <QMessageBox>
#include <QMimeData>
#include <QPainter>
#include <QPushButton>
#include <QScreen>
#include <QSettings>
#include <QSplitter>
#include <QStandardPaths>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

QIcon shapeOf(Severity severity, double pixelRatio) {
    QPixmap picture(QSize(14, 14) * pixelRatio);
    picture.setDevicePixelRatio(pixelRatio);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    paintSeverity(painter, QRectF(1, 1, 12, 12), severity);
    painter.end();
    return picture;
}

} // namespace

MainWindow::MainWindow(QWidget* parent) : MainWindow(std::make_unique<Session>(), parent) {}

MainWindow::MainWindow(std::unique_ptr<Session> session, QWidget* parent)
    : QMainWindow(parent), m_session(std::move(session)) {
    m_file = new DocumentFile(m_session.get(), this);
    setAcceptDrops(true);
    setMinimumSize(1024, 640);
    build();
    MenuDeeds deeds{m_session.get(), m_file, m_exporter, this};
    fillMenus(m_top->menus(), deeds);
    wire();
    restoreState();
    arrange();
    refreshTitles();
}

MainWindow::~MainWindow() {
    // Views look at the session until they are gone.
    delete takeCentralWidget();
}

void MainWindow::build() {
    auto* bench = new QWidget;
    bench->setObjectName("bench");
    auto* all = new QVBoxLayout(bench);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    m_top = new TopBar(m_session.get(), m_file);
    all->addWidget(m_top);
    auto* rest = new QVBoxLayout;
    rest->setContentsMargins(space::between, space::between - 2, space::between, space::between);
    rest->setSpacing(space::between);
    all->addLayout(rest, 1);
    m_notice = new Notice;
    rest->addWidget(m_notice);
    m_exporter = new Exporter(m_session.get(), m_notice, this);
    m_exporter->setTitle([this] { return m_file->shownTitle(); });
    m_columns = gaps(Qt::Horizontal, "Columns");
    m_left = new LeftColumn(m_session.get());
    m_columns->addWidget(m_left);
    buildViews();
    m_right = new SideColumn("Totals and punch list", 2, false);
    m_totals = new TotalsCard(m_session.get());
    m_findings = new FindingsCard(m_session.get());
    m_right->add("Totals", m_totals);
    m_right->add("Punch list", m_findings, 1);
    m_columns->addWidget(m_right);
    m_columns->setStretchFactor(0, 0);
    m_columns->setStretchFactor(1, 1);
    m_columns->setStretchFactor(2, 0);
    m_left->setMinimumWidth(270);
    m_right->setMinimumWidth(212);
    rest->addWidget(m_columns, 1);
    m_ruler = new ScaleRuler(m_session.get());
    rest->addWidget(m_ruler);
    connect(m_ruler, &ScaleRuler::roomWanted, this, [this] { fill(-1); });
    setCentralWidget(bench);
}

void MainWindow::wire() {
    Session* s = m_session.get();
    connect(m_top, &TopBar::packWanted, m_exporter, &Exporter::askPack);
    connect(m_top, &TopBar::printWanted, this, &MainWindow::print);
    connect(m_top, &TopBar::darkWanted, this, &MainWindow::setDark);
    // The hand is at the place already; a pointer into the file would only be in the way.
    connect(s, &Session::refused, this, [this](const Error& error) {
        // On the board it is told on the sheet: a line more above it would move it under the hand.
        if (m_board->isVisible())
            return m_board->tell(errorWords({error.code, error.message, {}, error.remedy}));
        showError({error.code, error.message, {}, error.remedy});
        m_toldAt = m_session->sequence();
    });
    connect(s, &Session::made, this, [this](const QString& words) {
        if (m_board->isVisible()) return m_board->tell(words, true);
        m_notice->tell(Notice::Kind::good, m_toldWords = words);
        m_toldAt = m_session->sequence();
    });
    // What was refused is no longer of interest when something else has been done.
    const auto outdated = [this] {
        if (m_toldAt && *m_toldAt != m_session->sequence() && m_notice->words() == m_toldWords)
            m_notice->hide();
    };
    connect(s, &Session::projectChanged, this, outdated);
    connect(m_file, &DocumentFile::failed, this, &MainWindow::showError);
    connect(m_file, &DocumentFile::failed, this, [this] { m_toldAt = m_session->sequence(); });
    connect(m_file, &DocumentFile::changed, this, &MainWindow::refreshTitles);
    connect(s, &Session::evaluationChanged, this, &MainWindow::refreshTitles);
    connect(s, &Session::selectionChanged, this, &MainWindow::refreshTitles);
    connect(s, &Session::busyChanged, this, &MainWindow::refreshTitles);
    connect(m_findings, &FindingsCard::placeWanted, m_left, &LeftColumn::reveal);
    connect(m_findings, &FindingsCard::openWanted, this, &MainWindow::openPlace);
    connect(m_findings, &FindingsCard::counted, this, &MainWindow::markStops);
    connect(m_right, &SideColumn::chosen, this, [this] { m_partByHand = true; });
    explainGaps();
    for (QSplitter* gaps : {m_columns, m_views, m_flat})
        connect(gaps, &QSplitter::splitterMoved, this, [this] {
            if (besideFit())
                (rideShown() ? m_rideSpread : m_boardSpread) = m_views->sizes().mid(0, 2);
            else if (m_filled < 0)
                m_ownSpread = true;
        });
}

void MainWindow::setDark(bool dark) {
    Theme::setDark(dark);
    QSettings().setValue("dark", dark);
    markStops();
}

void MainWindow::markStops() {
    const int stops = m_findings->count(Severity::stop), looks = m_findings->count(Severity::look);
    const Severity worst = stops > 0 ? Severity::stop : Severity::look;
    const bool any = stops + looks > 0;
    m_right->mark(m_findings, any ? countWords(worst, stops > 0 ? stops : looks) : QString(),
                  any ? shapeOf(worst, devicePixelRatioF()) : QIcon());
    // On the board the punch list is out of sight.
    m_stops->setVisible(any);
    m_stops->setText(any ? countWords(worst, stops > 0 ? stops : looks) : QString());
    m_stops->setIcon(any ? shapeOf(worst, devicePixelRatioF()) : QIcon());
    m_stops->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    if (m_session->shownDocument() != m_markedDocument) {
        m_markedDocument = m_session->shownDocument();
        m_partByHand = m_hadStops = false;
        if (stops == 0) m_right->reveal(m_totals);
    }
    if (stops > 0 && !m_hadStops && !m_partByHand) m_right->reveal(m_findings);
    m_hadStops = stops > 0;
}

void MainWindow::newFromStart() {
    StartDialog dialog(m_session->project(), this);
    if (dialog.exec() != QDialog::Accepted) return;
    auto project = dialog.project();
    if (!project) return showError(project.error());
    m_file->newFrom(std::move(*project));
}

void MainWindow::addPicture() {
    const QString path = askDrawing(this, "Add a picture", m_file->path(), pictureKinds);
    if (!path.isEmpty()) m_board->addPictureFile(path);
}

void MainWindow::importOutlines() {
    const QString path = askDrawing(this, "Outlines from a drawing", m_file->path(), "Drawings (*.svg)");
    if (!path.isEmpty()) importOutlinesFrom(path);
}

bool MainWindow::importOutlinesFrom(const QString& path) {
    const QString name = QFileInfo(path).fileName();
    QFile file(path);
    const auto refuse = [&](const Error& why) {
        showError({why.code, name.toStdString() + ": " + why.message, {}, why.remedy});
        return false;
    };
    if (!file.open(QIODevice::ReadOnly))
        return refuse({"cannot-read", "the drawing cannot be read.", {}, "Check the file's permissions."});
    auto drawing = readSvg(file.readAll().toStdString());
    if (!drawing) return refuse(drawing.error());
    if (outlinesOf(*drawing).empty())
        return refuse({"svg-nothing",
                       "there is no outline in it.",
                       {},
                       "Choose an SVG drawing with paths; letters and photos have none."});
    const std::size_t before = m_session->project().forms.size();
    OutlineDialog dialog(m_session.get(), std::move(*drawing), name, this);
    if (dialog.exec() != QDialog::Accepted) return true;
    if (!boardShown()) fill(3);
    if (const int form = dialog.replaced(); form >= 0)
        chooseForm(*m_board->desk(), form, BoardView::side);
    else if (m_session->project().forms.size() > before)
        chooseForm(*m_board->desk(), static_cast<int>(before), BoardView::side);
    m_board->canvas()->fit();
    return true;
}

void MainWindow::showLikeness() {
    if (!boardShown()) fill(3);
    m_board->showLikeness(true);
}

void MainWindow::changeEvent(QEvent* event) {
    QMainWindow::changeEvent(event);
    // Pictures may have been changed by another program while the window was behind it.
    if (event->type() == QEvent::ActivationChange && isActiveWindow() &&
        !m_session->project().pictures.empty())
        m_board->canvas()->pictures().readFiles();
}

void MainWindow::refreshTitles() {
    const Titles titles = titlesOf(*m_session);
    for (std::size_t i = 0; i < titles.title.size(); ++i) {
        m_frames[i]->setTitle(titles.title[i]);
        m_frames[i]->setNote(titles.note[i]);
    }
    const bool saved = m_session->history().isSaved();
    setWindowTitle(m_file->shownTitle() + "[*]");
    setWindowModified(!saved);
    setWindowFilePath(m_file->path());
    m_board->canvas()->pictures().setFolder(m_file->pictureFolder());
}

void MainWindow::showError(const Error& error) {
    m_toldWords = errorWords(error);
    m_toldAt.reset();
    m_notice->tell(Notice::Kind::bad, m_toldWords);
}

void MainWindow::start(const QString& fileOrEmpty) {
    if (!fileOrEmpty.isEmpty()) {
        if (!m_file->open(fileOrEmpty)) m_file->newEmpty();
    } else if (const auto samples = DocumentFile::samples(); !samples.empty()) {
        m_file->newFromSample(samples.front().second);
    }
    offerRecovery();
    auto* prompt = new MeasurePrompt(m_session.get(), m_notice, this);
    prompt->offer();
}

void MainWindow::offerRecovery() {
    const auto found = Autosave::leftBehind();
    if (found.empty()) return;
    const Recovered newest = found.front();
    m_notice->tell(
        Notice::Kind::bad,
        QString("“%1” was not saved when the window last went away (%2).").arg(newest.title, newest.time),
        "Bring it back", [this, newest] {
            if (!m_file->mayGo()) return;
            auto project = Autosave::read(newest);
            if (!project) return showError(project.error());
            m_file->take(std::move(*project), newest.original, false, newest.folder);
            // The old recovery file goes when the new one is there.
            if (!m_session->history().isSaved()) m_file->autosave()->flush();
            Autosave::remove(newest);
        });
}

void MainWindow::print() {
    PrintDialog dialog(m_session.get(), this);
    if (dialog.exec() != QDialog::Accepted) return;
    const PrintChoice choice = dialog.choice();
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    const QString name = choice.panels.isEmpty() ? "calibration.pdf" : "templates-" + choice.paper + ".pdf";
    const QString pdf =
        QFileDialog::getSaveFileName(this, "Save templates", folder + "/" + name, "PDF (*.pdf)");
    if (!pdf.isEmpty()) m_exporter->templates(pdf, choice);
}

void MainWindow::showToSpare() {
    if (m_filled >= 0) fill(-1);
    m_ruler->showPlot(!m_ruler->showsPlot());
    if (m_ruler->showsPlot()) m_ruler->plot()->setFocus(Qt::ShortcutFocusReason);
}

void MainWindow::focusArea(Area area) {
    if (m_filled >= 0) fill(-1);
    if (area == Area::rule) m_ruler->rule()->setFocus(Qt::ShortcutFocusReason);
    if (area == Area::tables) m_left->focusTable();
    if (area == Area::findings) {
        m_right->reveal(m_findings);
        m_findings->list()->setFocus(Qt::ShortcutFocusReason);
    }
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!m_file->mayGo()) {
        event->ignore();
        return;
    }
    m_file->autosave()->discard();
    QSettings settings;
    settings.setValue("window", saveGeometry());
    if (m_filled >= 0) fill(-1); // what is kept is how the views share the window
    if (m_ownSpread) {
        settings.setValue("columns", m_columns->saveState());
        settings.setValue("views with board", m_views->saveState());
        settings.setValue("flat", m_flat->saveState());
    }
    event->accept();
}

void MainWindow::restoreState() {
    QSettings settings;
    if (!restoreGeometry(settings.value("window").toByteArray())) {
        // The frame's title bar needs room too: where this size does not fit with one, the whole screen is
        // used. A large screen is used for the most part.
        constexpr QSize least(1600, 1000), frame(16, 48);
        const QSize there = screen()->availableSize();
        const QSize wanted = least.expandedTo(there * 0.8);
        resize(wanted.boundedTo(there - frame));
        if (there.width() < wanted.width() + frame.width() ||
            there.height() < wanted.height() + frame.height())
            setWindowState(windowState() | Qt::WindowMaximized);
    }
    m_ownSpread = m_columns->restoreState(settings.value("columns").toByteArray()) &&
                  m_views->restoreState(settings.value("views with board").toByteArray()) &&
                  m_flat->restoreState(settings.value("flat").toByteArray());
}

void MainWindow::showEvent(QShowEvent* event) {
    QMainWindow::showEvent(event);
    QTimer::singleShot(0, this, &MainWindow::spread); // when the layouts have their sizes
}

void MainWindow::resizeEvent(QResizeEvent* event) {
    QMainWindow::resizeEvent(event);
    arrange();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (event->mimeData()->hasUrls() && event->mimeData()->urls().front().isLocalFile())
        event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QString path = event->mimeData()->urls().front().toLocalFile();
    event->acceptProposedAction();
    m_file->open(path);
}

void MainWindow::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && m_filled >= 0) return fill(-1);
    QMainWindow::keyPressEvent(event);
}

} // namespace slab::ui
