#include "ui/panels/panel_view.h"
#include "ui/chosen/chosen_menu.h"
#include "ui/panels/blank_edges.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/joint_edits.h"
#include "ui/panels/list_choice.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_hands.h"
#include "ui/panels/panel_list.h"
#include "ui/panels/panel_rows.h"
#include "ui/panels/tick_box.h"
#include "ui/session/follow.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QBoxLayout>
#include <QCheckBox>
#include <QEvent>
#include <QLabel>
#include <QMenu>
#include <QStackedLayout>
#include <QToolButton>
#include <algorithm>

namespace slab::ui {

namespace {

constexpr int roomForThumbs = 300; // px: a narrower view shows the drawing alone
constexpr int roomForRow = 620;    // px: the facts and the tools side by side
constexpr int roomForAll = 420;    // px of height for the drawing, its tools and the joint's choices together
constexpr int between = 7;         // px from the drawing to what stands under it
QString text(const std::string& s) {
    return QString::fromStdString(s);
}

} // namespace

struct PanelView::Private {
    struct PlateEdge {
        QString plate;
        int edge = -1;
    };
    PanelView* q;
    Session* session;
    QStackedLayout* stack = nullptr;
    QWidget *page = nullptr, *tools = nullptr;
    EmptyState *empty = nullptr, *noSheet = nullptr;
    PanelList* list = nullptr;
    PanelCanvas* canvas = nullptr;
    PanelHands* hands = nullptr;
    JointBar* bar = nullptr;
    QLabel* facts = nullptr;
    QBoxLayout* factsAndTools = nullptr;
    QCheckBox* cut = nullptr;
    QToolButton *leave = nullptr, *fit = nullptr;
    QString shown; ///< plate that is drawn; kept when the selection moves to something that is no plate
    PanelRows rows;

    void build();
    QWidget* makeTools();
    void connectAll();
    void refresh();
    void showForm(const std::string& form);
    void refreshPanel();
    void showMissing();
    void refreshEdge();
    void makeRoom();
    void bringBackShown();
    void applyJoint(const Edit& edit);
    [[nodiscard]] const std::vector<Panel>& panels() const;
    [[nodiscard]] int panelOf(const std::string& plate) const;
    [[nodiscard]] const std::vector<PanelEdge>* edges() const;
    /// Edges of the drawing (of a blank: its outline's, then its fold lines) as edges of a plate, and back.
    [[nodiscard]] PlateEdge ownEdge(int drawn) const;
    [[nodiscard]] int canvasEdge(int own) const;
    /// Is it a side of a form or a plate form, which the builder may leave out?
    [[nodiscard]] bool isSide(const std::string& name) const {
        const auto& body = session->evaluation().body;
        const Plate* made = plate(name);
        if (!body || !made) return false;
        return made->face >= 0 || std::any_of(body->plates.begin(), body->plates.end(),
                                              [&](const FreePlate& p) { return p.name == name; });
    }
    [[nodiscard]] const Plate* plate(const std::string& name) const {
        return findPlate(session->evaluation(), name);
    }
    /// Of a piece between seams: the plate that it is part of; else the name itself.
    [[nodiscard]] std::string whole(const QString& name) const {
        const int index = panelOf(name.toStdString());
        return index < 0 ? name.toStdString()
                         : wholeOf(panels()[static_cast<std::size_t>(index)], name.toStdString());
    }
    [[nodiscard]] std::optional<EdgeStory> story(int edge) const {
        const std::string name = whole(shown);
        const bool piece = name != shown.toStdString();
        if (piece && session->selection().plate == shown) return std::nullopt; // its seam
        const auto* all = piece && plate(name) ? &plate(name)->boundary.edges : edges();
        return all ? edgeStory(session->evaluation(), session->project(), name, *all, edge) : std::nullopt;
    }
};

PanelView::PanelView(Session* session, QWidget* parent) : QWidget(parent), m(std::make_unique<Private>()) {
    m->q = this;
    m->session = session;
    m->build();
    m->connectAll();
    m->refresh();
}

PanelView::~PanelView() {
    m->canvas->setTool(nullptr); // children go in their own order
}

void PanelView::Private::build() {
    q->setAccessibleName(tr("Panels view"));
    q->setAccessibleDescription(tr("All panels to cut, and the drawing of the chosen one"));
    stack = new QStackedLayout(q);
    page = new QWidget;
    auto* all = new QVBoxLayout(page);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(between);
    auto* top = new QHBoxLayout;
    top->setSpacing(10);
    list = new PanelList;
    top->addWidget(list);
    canvas = new PanelCanvas;
    q->setFocusProxy(canvas);
    hands = new PanelHands(session, canvas, q);
    top->addWidget(canvas, 1);
    all->addLayout(top, 1);
    all->addWidget(tools = makeTools());
    bar = new JointBar;
    bar->hide();
    all->addWidget(bar);
    stack->addWidget(page);
    empty = new EmptyState(
        tr("Every plate of the body becomes a panel to cut, drawn here with its sizes and bevels."),
        tr("Add a form"));
    QObject::connect(empty, &EmptyState::clicked, q, &PanelView::formWanted);
    stack->addWidget(empty);
    noSheet = new EmptyState(tr("The body has its plates, but no sheet to cut them from yet. Add the sheets "
                                "that you can get: every plate then becomes a panel."),
                             tr("Add a sheet"));
    QObject::connect(noSheet, &EmptyState::clicked, q, &PanelView::stockWanted);
    stack->addWidget(noSheet);
    page->installEventFilter(q);
}

QWidget* PanelView::Private::makeTools() {
    auto* holder = new QWidget;
    holder->setStyleSheet(
        QStringLiteral("QToolButton { padding: 2px 4px; } QToolButton:focus { padding: 1px 3px; }"));
    factsAndTools = new QBoxLayout(QBoxLayout::LeftToRight, holder);
    factsAndTools->setContentsMargins(0, 0, 0, 0);
    factsAndTools->setSpacing(between);
    auto* row = new QHBoxLayout;
    row->setSpacing(9);
    facts = new QLabel;
    facts->setWordWrap(true);
    facts->setProperty("role", "quiet");
    facts->setFont(Theme::words(12));
    facts->setTextInteractionFlags(Qt::TextSelectableByMouse);
    factsAndTools->addWidget(facts, 1);
    factsAndTools->addLayout(row);
    row->addStretch(1);
    hands->addButtons(row);
    cut = new TickBox(tr("cut"));
    explain(cut, tr("cut"), tr("Tick when this panel is cut: a later change to it is put on the punch list"));
    row->addWidget(cut);
    leave = new QToolButton;
    explain(leave, tr("Leave out"), tr("Build without this plate; its neighbours end free there"));
    row->addWidget(leave);
    fit = new QToolButton;
    fit->setText(tr("Fit"));
    explain(fit, tr("Fit"), tr("Show the whole panel (key F)"));
    QObject::connect(fit, &QToolButton::clicked, q, [this] { canvas->fit(); });
    row->addWidget(fit);
    return holder;
}

void PanelView::Private::connectAll() {
    using S = Session;
    for (const auto news : {&S::evaluationChanged, &S::projectChanged, &S::selectionChanged})
        QObject::connect(session, news, q, [this] { refresh(); });
    QObject::connect(list, &PanelList::chosen, q, [this](const QString& name) {
        shown = name;
        session->selectPlate(name);
        refresh();
    });
    letChooseMore(list, session);
    QObject::connect(canvas, &PanelCanvas::edgeClicked, q, [this](int edge) {
        const PlateEdge own = ownEdge(edge);
        session->selectPlate(own.plate, own.edge);
    });
    QObject::connect(canvas, &PanelCanvas::emptyClicked, q, [this] { session->selectPlate(shown); });
    QObject::connect(canvas, &PanelCanvas::menuWanted, q, [this](int edge, const QPoint& at) {
        const PlateEdge own = ownEdge(edge);
        if (own.edge >= 0 || session->selection().plate != shown) session->selectPlate(own.plate, own.edge);
        chosenMenu(session, canvas)->popup(at);
    });
    QObject::connect(bar, &JointBar::choiceMade, q, [this](EdgeChoice choice) {
        const auto now = story(session->selection().edge);
        if (now && now->joint)
            applyJoint(chooseJoint(now->plate.toStdString(), now->neighbour.toStdString(), choice));
    });
    QObject::connect(bar, &JointBar::ruleWanted, q, [this] {
        const auto now = story(session->selection().edge);
        if (now) applyJoint(backToRule(now->plate.toStdString(), now->neighbour.toStdString()));
    });
    QObject::connect(cut, &QCheckBox::clicked, q, [this](bool on) {
        const int index = panelOf(shown.toStdString());
        if (index < 0) return;
        const Panel& panel = panels()[static_cast<std::size_t>(index)];
        session->apply(markCut(panel.plates.front(), panel.fingerprint, on));
        session->settle();
        refresh();
    });
    QObject::connect(leave, &QToolButton::clicked, q, [this] {
        if (!plate(shown.toStdString())) return bringBackShown();
        session->apply(leaveOut(shown.toStdString()));
        session->settle();
    });
}

/// What the button says for a plate that has no panel, see showMissing().
void PanelView::Private::bringBackShown() {
    const std::string name = shown.toStdString();
    const NoPanel why = whyNoPanel(session->project(), name);
    const auto& sheets = session->project().stock.sheets;
    if (why == NoPanel::unknownSheet || (why == NoPanel::noSheet && sheets.empty())) {
        Q_EMIT q->stockWanted();
        return;
    }
    session->apply(why == NoPanel::noSheet ? cutAllFrom(sheets.front().name) : bringBack(name));
    session->settle();
}

void PanelView::Private::applyJoint(const Edit& edit) {
    QString message, remedy;
    const auto caught = QObject::connect(session, &Session::refused, q, [&](const Error& e) {
        message = text(e.message);
        remedy = text(e.remedy);
    });
    const bool done = session->apply(edit);
    QObject::disconnect(caught);
    session->settle();
    refresh();
    if (!done) bar->refuse(message, remedy);
}

const std::vector<Panel>& PanelView::Private::panels() const {
    static const std::vector<Panel> none;
    const auto& all = session->evaluation().panels;
    return all ? *all : none;
}

int PanelView::Private::panelOf(const std::string& name) const {
    const auto& all = panels();
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (std::find(all[i].plates.begin(), all[i].plates.end(), name) != all[i].plates.end())
            return static_cast<int>(i);
    }
    for (std::size_t i = 0; i < all.size(); ++i) // a plate in pieces: its first
        if (all[i].isOf(name)) return static_cast<int>(i);
    return -1;
}

void PanelView::Private::refresh() {
    list->show(rows.make(*session));
    const auto& model = list->model();
    const QString& wanted = session->selection().plate;
    const bool hereToo = !wanted.isEmpty() && text(whole(shown)) == wanted; // in a piece
    if (!wanted.isEmpty() && !hereToo && model.find(wanted) >= 0)
        shown = model.row(model.find(wanted)).plates.contains(wanted)
                    ? wanted
                    : model.row(model.find(wanted)).plates.first();
    if (wanted.isEmpty()) showForm(session->selection().form.toStdString());
    if (model.find(shown) < 0) shown = model.rowCount() > 0 ? model.row(0).plates.first() : QString();
    const bool sheetless = panels().empty() && session->project().stock.sheets.empty();
    stack->setCurrentWidget(shown.isEmpty() ? static_cast<QWidget*>(empty) : sheetless ? noSheet : page);
    list->choose(shown);
    refreshPanel();
    refreshEdge();
}

/// A form is chosen, and no plate: one of its plates is shown, the one that is there already if it can.
void PanelView::Private::showForm(const std::string& form) {
    if (form.empty() || !session->evaluation().plates) return;
    if (const Plate* now = plate(shown.toStdString()); now && isOfForm(now->form, form)) return;
    for (const Plate& p : session->evaluation().plates->plates) {
        if (!isOfForm(p.form, form)) continue;
        shown = text(p.name);
        return;
    }
}

void PanelView::Private::refreshPanel() {
    const int index = panelOf(shown.toStdString());
    cut->setVisible(index >= 0);
    fit->setVisible(index >= 0);
    hands->setPanel(index < 0 ? nullptr : &panels()[static_cast<std::size_t>(index)], shown.toStdString());
    if (index < 0) return showMissing();
    leave->setText(tr("Leave out"));
    leave->setVisible(isSide(shown.toStdString())); // pieces, lids and strips go with their plate
    explain(leave, leave->text(), tr("Build without this plate; its neighbours end free there"));
    const Panel& panel = panels()[static_cast<std::size_t>(index)];
    PanelPicture picture{
        panel, {}, shown.toStdString(), {}, index + 1, session->shownDocument(), session->unitStyle()};
    if (const auto* own = edges()) picture.edges = *own;
    if (!panel.folds.empty()) picture.edges = blankEdges(panel, shown.toStdString());
    picture.stockKind = list->model().row(list->model().find(shown)).kind.toStdString();
    picture.others = otherPieces(panels(), panel);
    picture.arrow = arrowFor(*session, panel, picture.plate);
    canvas->show(std::move(picture));
    const auto was = cutFingerprint(session->project(), panel.plates.front());
    cut->setChecked(was.has_value());
    facts->setText(factsOf(*session, panel, was && *was != panel.fingerprint));
}

/// A plate of the body that no panel is cut for: why, and what to do about it.
void PanelView::Private::showMissing() {
    canvas->show(std::nullopt);
    if (shown.isEmpty()) return facts->setText({});
    const NoPanel why = whyNoPanel(session->project(), shown.toStdString());
    const auto& sheets = session->project().stock.sheets;
    facts->setText(sentence(why, shown));
    leave->setVisible(why != NoPanel::notMade);
    const MissingDeed deed = deedFor(why, sheets);
    leave->setText(deed.words);
    explain(leave, deed.words, deed.tip);
}

const std::vector<PanelEdge>* PanelView::Private::edges() const {
    const int index = panelOf(shown.toStdString());
    if (index < 0) return nullptr;
    return &edgesOf(panels()[static_cast<std::size_t>(index)], plate(shown.toStdString()));
}

PanelView::Private::PlateEdge PanelView::Private::ownEdge(int drawn) const {
    const int index = panelOf(shown.toStdString());
    if (index < 0 || drawn < 0) return {shown, drawn};
    const auto own = plateEdge(panels()[static_cast<std::size_t>(index)], *session->evaluation().plates,
                               shown.toStdString(), drawn);
    return {text(own.first), own.second};
}

int PanelView::Private::canvasEdge(int own) const {
    const int index = panelOf(shown.toStdString());
    if (index < 0 || own < 0) return own;
    const Panel& panel = panels()[static_cast<std::size_t>(index)];
    if (!panel.cutFrom.empty() && session->selection().plate != shown)
        return drawnPieceEdge(panel, *session->evaluation().plates, shown.toStdString(), own);
    return panel.folds.empty() ? own
                               : drawnEdge(panel, *session->evaluation().plates, shown.toStdString(), own);
}

void PanelView::Private::refreshEdge() {
    const Selection& chosen = session->selection();
    const bool here = chosen.plate == shown || chosen.plate == text(whole(shown));
    const int edge = here ? chosen.edge : -1;
    canvas->setChosenEdge(canvasEdge(edge));
    const auto now = story(edge);
    if (now) bar->show(*now);
    bar->setVisible(now.has_value());
    makeRoom();
}

void PanelView::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange && m->canvas) m->refresh();
    QWidget::changeEvent(event);
}

/// In a low view the drawing keeps its room while an edge is worked on: the joint's choices take the place of
/// the facts and say less, but they are all there.
void PanelView::Private::makeRoom() {
    const int width = page->width(), height = page->height();
    list->setRoom(width);
    list->setVisible(width >= roomForThumbs);
    factsAndTools->setDirection(width >= roomForRow ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
    tools->setVisible(bar->isHidden() || height >= roomForAll);
    if (bar->isHidden()) return;
    int left = height - between;
    if (height >= roomForAll) left -= tools->heightForWidth(width) + between;
    using Room = JointBar::Room;
    for (const auto& [room, drawing] :
         {std::pair(Room::all, 170), std::pair(Room::words, 130), std::pair(Room::choices, 0)}) {
        bar->setRoom(room);
        const int wanted = bar->heightForWidth(width);
        bar->setFixedHeight(wanted);
        if (left - wanted >= drawing) break;
    }
}

bool PanelView::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m->page && event->type() == QEvent::Resize) m->makeRoom();
    return QWidget::eventFilter(watched, event);
}

} // namespace slab::ui
