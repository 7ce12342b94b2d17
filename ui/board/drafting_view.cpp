#include "ui/board/drafting_view.h"
#include "core/picture/edits.h"
#include "ui/board/board_bar.h"
#include "ui/board/board_canvas.h"
#include "ui/board/board_menus.h"
#include "ui/board/cut_tool.h"
#include "ui/board/dimension_strip.h"
#include "ui/board/draw_strip.h"
#include "ui/board/edge_strip.h"
#include "ui/board/frame_tool.h"
#include "ui/board/likeness_plot.h"
#include "ui/board/measure_tool.h"
#include "ui/board/mechanism_tool.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/board/reading_strip.h"
#include "ui/board/strip_room.h"
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/kind_menu.h"
#include "ui/chosen/mechanism_menu.h"
#include "ui/theme/card.h"
#include "ui/theme/theme.h"
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QMenu>
#include <QMimeData>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

std::unique_ptr<BoardTool> makeTool(const QString& name, BoardCanvas& canvas) {
    if (name == "measure") return std::make_unique<MeasureTool>(canvas);
    if (name == "frame") return std::make_unique<FrameTool>(canvas);
    if (name == "dimension") return std::make_unique<DimensionTool>(canvas);
    if (const auto* kind = mechanismNamed(name.toStdString()))
        return std::make_unique<MechanismTool>(canvas, *kind);
    for (const DrawKind& kind : drawKinds())
        if (name == kind.kind) return std::make_unique<DrawTool>(canvas, kind.kind);
    return nullptr; // choose
}

QString viewWord(BoardView view) {
    return view == BoardView::side ? "Side" : view == BoardView::front ? "Front" : "Plan";
}

} // namespace

DraftingView::DraftingView(Session* session, QWidget* parent)
    : QWidget(parent), m_session(session), m_desk(new BoardDesk(session, this)) {
    setAccessibleName(tr("Drawing board"));
    setAccessibleDescription(
        tr("Side, front and plan of the body on one drafting sheet, drawn and changed by hand"));
    setAcceptDrops(true);
    build();
    fillMenus();
    connect(m_bar, &BoardBar::toolWanted, this, &DraftingView::take);
    connect(m_bar, &BoardBar::pictureWanted, this, &DraftingView::pictureWanted);
    connect(m_bar, &BoardBar::gridWanted, m_canvas, &BoardCanvas::setGridOn);
    connect(m_bar, &BoardBar::fitWanted, m_canvas, &BoardCanvas::fit);
    connect(m_canvas, &BoardCanvas::pointed, this, [this] {
        m_bar->setGrid(m_canvas->gridOn());
        refresh();
    });
    connect(m_bar, &BoardBar::likenessWanted, this, &DraftingView::showLikeness);
    connect(m_likeness, &LikenessCard::closed, this, [this] { showLikeness(false); });
    connect(m_canvas, &BoardCanvas::toolDone, this, [this] { take("choose"); });
    connect(m_canvas, &BoardCanvas::keyWanted, this, [this](const QString& letter) {
        const QString tool = BoardBar::toolFor(letter);
        if (tool == "picture")
            Q_EMIT pictureWanted();
        else if (tool == "mechanism")
            popUp(
                mechanismsMenu(
                    m_canvas, [this](const MechanismWords& kind) { take(QString::fromStdString(kind.key)); }),
                m_canvas->mapToGlobal(QPoint(24, 24)));
        else if (tool == "likeness")
            showLikeness(!m_likeness->isVisible());
        else if (!tool.isEmpty())
            take(tool);
    });
    connect(m_canvas, &BoardCanvas::entryWanted, this, &DraftingView::enter);
    m_canvas->setTakesFigures([this] { return takesFigures(); });
    connect(m_fields, &FieldStrip::done, this, &DraftingView::done);
    connect(m_edge, &EdgeStrip::done, this, &DraftingView::done);
    connect(m_dimension, &DimensionStrip::done, this, &DraftingView::done);
    connect(m_draw, &DrawStrip::done, this, &DraftingView::done);
    connect(m_picture, &PictureStrip::done, this, &DraftingView::done);
    connect(m_picture, &PictureStrip::fileWanted, this, &DraftingView::pictureFileWanted);
    connect(m_cut, &CutStrip::done, this, &DraftingView::done);
    connect(m_reading, &ReadingStrip::done, this, &DraftingView::done);
    connect(&m_canvas->pictures(), &PictureLayer::filesRead, this,
            [this] { m_session->setPictureFiles(m_canvas->pictures().files()); });
    connect(m_room, &StripRoom::covers, m_canvas, &BoardCanvas::setCovered);
    connect(m_desk, &BoardDesk::told, this, &DraftingView::tell);
    connect(m_canvas, &BoardCanvas::handled, this, [this] { m_told = {}; });
    const auto moved = [this] {
        // Words stay until something is done; a result that comes in is no deed.
        if (m_toldAt != m_session->sequence() || !(m_toldChoice == m_desk->choice())) m_told = {};
        refresh();
    };
    connect(m_desk, &BoardDesk::choiceChanged, this, moved);
    connect(m_desk, &BoardDesk::sceneChanged, this, moved);
    connect(m_welcome, &WelcomeCard::startWanted, this, &DraftingView::startWanted);
    connect(m_welcome, &WelcomeCard::pictureWanted, this, &DraftingView::pictureWanted);
    connect(m_welcome, &WelcomeCard::profileWanted, this, [this] { take("profile"); });
    refresh();
}

DraftingView::~DraftingView() {
    m_canvas->disconnect(this); // tools that go away must not speak to strips that are gone
}

void DraftingView::build() {
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(6);
    m_bar = new BoardBar;
    all->addWidget(m_bar);
    m_canvas = new BoardCanvas(m_desk);
    setFocusProxy(m_canvas);
    all->addWidget(m_canvas, 1);
    m_welcome = new WelcomeCard(m_canvas);
    m_likeness = new LikenessCard(m_session, m_canvas);
    m_likeness->hide();
    m_room = new StripRoom(this);
    m_nothing = new QWidget;
    auto* hintRow = new QHBoxLayout(m_nothing);
    hintRow->setContentsMargins(0, 0, 0, 0);
    m_hint = new QLabel("Choose a point or an edge to type its figures here.");
    m_hint->setProperty("role", "quiet");
    hintRow->addWidget(m_hint);
    m_fields = new FieldStrip(m_desk);
    m_edge = new EdgeStrip(m_desk);
    m_dimension = new DimensionStrip(m_desk);
    m_draw = new DrawStrip(m_canvas);
    m_picture = new PictureStrip(m_canvas);
    m_cut = new CutStrip(m_canvas);
    m_reading = new ReadingStrip(m_canvas);
    for (QWidget* strip : std::initializer_list<QWidget*>{m_nothing, m_fields, m_edge, m_dimension, m_draw,
                                                          m_picture, m_cut, m_reading})
        m_room->add(strip);
    all->addWidget(m_room);
    auto* status = new QHBoxLayout;
    status->setSpacing(16);
    m_place = new ElidedLabel;
    m_place->setFont(Theme::figures(12));
    m_help = new ElidedLabel;
    m_help->setFont(Theme::words(12));
    m_help->setQuiet(true);
    m_help->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_place->setObjectName("place");
    m_place->setAccessibleDescription(tr("where the pointer is"));
    m_help->setAccessibleDescription(tr("what to do next"));
    status->addWidget(m_place, 5);
    status->addWidget(m_help, 6);
    all->addLayout(status);
}

void DraftingView::fillMenus() {
    const auto back = [this] { m_canvas->setFocus(); };
    fillDeeds(m_bar->deeds(), m_desk, back);
    QAction* outlines = m_bar->deeds()->addAction("Outlines from a drawing…");
    outlines->setToolTip("Outlines of an SVG drawing become forms; which unit it is in is asked.");
    connect(outlines, &QAction::triggered, this, &DraftingView::outlinesWanted);
    fillShown(m_bar->shown(), m_desk);
}

void DraftingView::take(const QString& tool) {
    if (tool == "belt" && beltRoundChosen(*m_session)) return m_bar->mark("choose");
    if (tool != "choose") { // what is drawn or measured now has nothing to do with it
        m_desk->chooseNone();
        m_session->select({});
    }
    m_canvas->setTool(makeTool(tool, *m_canvas));
    m_bar->mark(tool);
    m_told = {};
    m_canvas->setFocus(Qt::OtherFocusReason);
    refresh();
}

void DraftingView::showLikeness(bool on) {
    m_likeness->setVisible(on);
    m_likeness->raise();
    m_bar->setLikeness(on);
    m_canvas->makeRoom();
    if (!on) m_canvas->setFocus(Qt::OtherFocusReason);
}

void DraftingView::enter(const QString& typed) {
    refresh();
    const QWidget* strip = m_room->shown();
    if (strip == m_fields) m_fields->begin(typed);
    if (strip == m_edge) m_edge->begin(typed);
    if (strip == m_dimension) m_dimension->begin(typed);
    if (strip == m_draw) m_draw->begin(typed);
    if (strip == m_picture) m_picture->begin(typed);
}

bool DraftingView::takesFigures() const {
    const QWidget* strip = m_room->shown();
    return strip == m_fields || strip == m_dimension || strip == m_draw || strip == m_picture ||
           (strip == m_edge && m_edge->takesFigures());
}

/// Escape in a strip goes back to the sheet, whatever has it there; on the sheet it is the window's.
bool DraftingView::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape && !m_canvas->hasFocus()) {
        event->accept();
        return true;
    }
    return QWidget::event(event);
}

void DraftingView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && !m_canvas->hasFocus()) {
        done();
        refresh();
        return;
    }
    QWidget::keyPressEvent(event);
}

void DraftingView::done() {
    m_canvas->setFocus(Qt::OtherFocusReason);
}

void DraftingView::tell(const QString& words, bool fine) {
    m_told = {words, fine};
    m_toldAt = m_session->sequence();
    m_toldChoice = m_desk->choice();
    refresh();
}

QString DraftingView::placeWords() const {
    if (!m_canvas->isPointedAt()) return {};
    const BoardPointer& pointer = m_canvas->pointer();
    const Snap& snap = m_canvas->tool().snap();
    const Vec2 at = snap.words.empty() ? pointer.at : snap.at;
    const BoardScene& scene = m_desk->scene();
    const auto figure = [&](double mm) { return QString::fromStdString(printLength(mm, scene.units)); };
    QString words = QString("%1 · %2 %3 · %4 %5")
                        .arg(viewWord(pointer.view), axisOf(pointer.view, 0), figure(at.x()),
                             axisOf(pointer.view, 1), figure(at.y()));
    if (std::abs(scene.scale - 1) > 1e-9 && scene.scale > 0)
        words += QString(" · subject %1, %2").arg(figure(at.x() / scene.scale), figure(at.y() / scene.scale));
    const std::string met = snap.words.empty() ? m_canvas->tool().under() : snap.words;
    if (!met.empty()) words += " · " + QString::fromStdString(met);
    const QString sure =
        m_canvas->pictures().uncertaintyAt(m_desk->choice().picture, pointer.view, pointer.at);
    if (!sure.isEmpty()) words += " · " + sure;
    return words;
}

QString DraftingView::helpWords() const {
    if (!m_told.words.isEmpty()) return m_told.words;
    if (m_desk->crossings().empty()) return m_canvas->tool().words();
    const BoardCrossing& one = m_desk->crossings().front();
    return QString("%1 crosses %2: put the points in order around the outline")
        .arg(QString::fromStdString(one.first), QString::fromStdString(one.second));
}

void DraftingView::refresh() {
    m_draw->refresh();
    m_cut->refresh();
    QWidget* strip = m_draw->serves()        ? static_cast<QWidget*>(m_draw)
                     : m_cut->serves()       ? m_cut
                     : m_dimension->serves() ? m_dimension
                     : m_edge->serves()      ? m_edge
                     : m_reading->serves()   ? static_cast<QWidget*>(m_reading)
                     : m_picture->serves()   ? static_cast<QWidget*>(m_picture)
                     : m_fields->hasFields() ? static_cast<QWidget*>(m_fields)
                                             : m_nothing;
    m_room->show(strip);
    m_place->setText(placeWords());
    m_canvas->setTold(m_told);
    // What stands on the board itself is not said again under it.
    const bool asked = !m_canvas->tool().prompt().words.isEmpty();
    m_help->setText(asked || !m_told.words.isEmpty() ? QString() : helpWords());
    m_help->setAccessibleName(helpWords());
    m_help->setQuiet(m_desk->crossings().empty());
    m_hint->setText(asked ? QString() : "Choose a point or an edge to type its figures here.");
    m_welcome->setVisible(!m_desk->hasAnything() && !m_draw->serves());
}

bool DraftingView::addPictureFile(const QString& path) {
    PictureLayer& pictures = m_canvas->pictures();
    const std::string folder = pictures.folder().toStdString();
    const PictureFile file = readPictureFile(pictureName(path.toStdString(), folder), folder);
    const auto index = static_cast<int>(m_session->project().pictures.size());
    // From the card on the empty sheet the pointer lies wherever that card is.
    const BoardView view = m_desk->hasAnything() ? m_canvas->pointer().view : BoardView::side;
    // A refusal is told beside the sheet, where the builder looks.
    if (!m_session->apply(slab::addPicture(file, viewName(view)))) return false;
    m_desk->choose({view, {}, {}, -1, index});
    m_canvas->fit();
    return true;
}

bool DraftingView::takePictureFile(const QString& path) {
    if (!m_picture->serves()) return false;
    PictureLayer& pictures = m_canvas->pictures();
    const std::string folder = pictures.folder().toStdString();
    const PictureFile file = readPictureFile(pictureName(path.toStdString(), folder), folder);
    const PlacedPicture* placed = pictures.at(m_desk->choice().picture);
    const bool other = placed && placed->width > 0 &&
                       (placed->width != file.header.width || placed->height != file.header.height);
    if (!m_desk->apply(acceptPicture(m_desk->choice().picture, file))) return false;
    if (other)
        tell("The new file has other pixels across or down: check that the marks still sit where they "
             "should.");
    return true;
}

bool DraftingView::choosePicture(const std::string& name) {
    const auto& all = m_session->project().pictures;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].name != name) continue;
        take("choose");
        m_desk->choose(
            {parseView(all[i].view).value_or(BoardView::side), {}, {}, -1, static_cast<int>(i), -1});
        return true;
    }
    return false;
}

void DraftingView::dragEnterEvent(QDragEnterEvent* event) {
    if (!event->mimeData()->hasUrls() || !event->mimeData()->urls().front().isLocalFile()) return;
    const QString kind = QFileInfo(event->mimeData()->urls().front().toLocalFile()).suffix().toLower();
    if (QStringList{"png", "jpg", "jpeg", "svg"}.contains(kind)) event->acceptProposedAction();
}

void DraftingView::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    addPictureFile(event->mimeData()->urls().front().toLocalFile());
}

void DraftingView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    m_room->giveRows(event->size());
    m_likeness->place();
    const QSize size = m_welcome->sizeHint().boundedTo(m_canvas->size());
    m_welcome->setGeometry(QRect(
        QPoint((m_canvas->width() - size.width()) / 2, (m_canvas->height() - size.height()) / 3), size));
}

void DraftingView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_canvas->setFocus(Qt::OtherFocusReason);
}

WelcomeCard::WelcomeCard(QWidget* parent) : QWidget(parent) {
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(24, 20, 24, 22);
    all->setSpacing(10);
    auto* title = new QLabel("The sheet is empty");
    title->setFont(Theme::words(16, true));
    all->addWidget(title);
    auto* words = new QLabel(
        "Begin with a ready body that you change, draw the side of yours corner by corner, or lay a "
        "picture of it under the sheet and draw over it.");
    words->setWordWrap(true);
    words->setProperty("role", "quiet");
    words->setMinimumWidth(380);
    all->addWidget(words);
    auto* row = new QHBoxLayout;
    const auto add = [&](const QString& label, const QString& tip, auto signal) {
        auto* button = new QPushButton(label);
        explain(button, label, tip);
        connect(button, &QPushButton::clicked, this, signal);
        row->addWidget(button);
        return button;
    };
    add("New from a start…", "A box, boat, cab, tower or capsule of named dimensions.",
        &WelcomeCard::startWanted)
        ->setObjectName("primary");
    add("Draw a profile", "Click the corners of the side outline (P).", &WelcomeCard::profileWanted);
    add("Add a picture…", "A photo or drawing to draw over (R).", &WelcomeCard::pictureWanted);
    row->addStretch(1);
    all->addLayout(row);
}

void WelcomeCard::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    paintSheet(painter, *this);
}

} // namespace slab::ui
