#include "ui/panels/panel_view.h"
#include "core/drawing/panel_facts.h"
#include "ui/panels/blank_edges.h"
#include "ui/panels/joint_bar.h"
#include "ui/panels/joint_edits.h"
#include "ui/panels/panel_canvas.h"
#include "ui/panels/panel_list.h"
#include "ui/panels/tick_box.h"
#include "ui/session/follow.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QBoxLayout>
#include <QCheckBox>
#include <QEvent>
#include <QStackedLayout>
#include <QToolButton>
#include <algorithm>
#include <map>

namespace slab::ui {

namespace {

constexpr int roomForList = 600;   // px: a narrower view shows thumbnails only …
constexpr int roomForThumbs = 300; // … and a very narrow one the drawing alone
constexpr int roomForAll = 420;    // px of height for the drawing, its tools and the joint's choices together

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
    EmptyState* empty = nullptr;
    PanelList* list = nullptr;
    PanelCanvas* canvas = nullptr;
    JointBar* bar = nullptr;
    ElidedLabel* facts = nullptr;
    QCheckBox* cut = nullptr;
    QToolButton* leave = nullptr;
    QString shown; ///< plate that is drawn; kept when the selection moves to something that is no plate
    std::map<std::string, std::pair<std::string, PanelRow>>
        rows; ///< by panel: fingerprint it was made from, row

    void build();
    QWidget* makeTools();
    void connectAll();
    void refresh();
    void refreshList();
    void showForm(const std::string& form);
    void refreshPanel();
    void refreshEdge();
    void makeRoom();
    void applyJoint(const Edit& edit);
    [[nodiscard]] PanelRow rowFor(const Panel& panel);
    [[nodiscard]] const std::vector<Panel>& panels() const;
    [[nodiscard]] int panelOf(const std::string& plate) const;
    [[nodiscard]] const std::vector<PanelEdge>* edges() const;
    /// Edges of the drawing (of a blank: its outline's, then its fold lines) as edges of a plate, and back.
    [[nodiscard]] PlateEdge ownEdge(int drawn) const;
    [[nodiscard]] int canvasEdge(int own) const;
    [[nodiscard]] QString sizeWords(const Panel& panel) const;
    [[nodiscard]] const Plate* plate(const std::string& name) const {
        return findPlate(session->evaluation(), name);
    }
    [[nodiscard]] std::optional<EdgeStory> story(int edge) const {
        const auto* all = edges();
        return all ? edgeStory(session->evaluation(), session->project(), shown.toStdString(), *all, edge)
                   : std::nullopt;
    }
};

PanelView::PanelView(Session* session, QWidget* parent) : QWidget(parent), m(std::make_unique<Private>()) {
    m->q = this;
    m->session = session;
    m->build();
    m->connectAll();
    m->refresh();
}

PanelView::~PanelView() = default;

void PanelView::Private::build() {
    q->setAccessibleName(tr("Panels view"));
    q->setAccessibleDescription(tr("All panels to cut, and the drawing of the chosen one"));
    stack = new QStackedLayout(q);
    page = new QWidget;
    auto* split = new QHBoxLayout(page);
    split->setContentsMargins(0, 0, 0, 0);
    split->setSpacing(10);
    list = new PanelList;
    split->addWidget(list);
    auto* right = new QVBoxLayout;
    right->setSpacing(7);
    canvas = new PanelCanvas;
    right->addWidget(canvas, 1);
    facts = new ElidedLabel;
    facts->setQuiet(true);
    facts->setFont(Theme::words(12));
    right->addWidget(facts);
    tools = makeTools();
    right->addWidget(tools);
    bar = new JointBar;
    bar->hide();
    right->addWidget(bar);
    split->addLayout(right, 1);
    stack->addWidget(page);
    empty = new EmptyState(
        tr("Every plate of the body becomes a panel to cut, drawn here with its sizes and bevels."),
        tr("Add a form"));
    QObject::connect(empty, &EmptyState::clicked, q, &PanelView::formWanted);
    stack->addWidget(empty);
    page->installEventFilter(q);
}

QWidget* PanelView::Private::makeTools() {
    auto* holder = new QWidget;
    auto* row = new QHBoxLayout(holder);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(9);
    cut = new TickBox(tr("cut"));
    explain(cut, tr("cut"), tr("Tick when this panel is cut: a later change to it is put on the punch list"));
    row->addWidget(cut);
    row->addStretch(1);
    leave = new QToolButton;
    row->addWidget(leave);
    auto* fit = new QToolButton;
    fit->setText(tr("Fit"));
    explain(fit, tr("Fit"), tr("Show the whole panel (key F)"));
    QObject::connect(fit, &QToolButton::clicked, q, [this] { canvas->fit(); });
    row->addWidget(fit);
    return holder;
}

void PanelView::Private::connectAll() {
    QObject::connect(session, &Session::evaluationChanged, q, [this] { refresh(); });
    QObject::connect(session, &Session::projectChanged, q, [this] { refresh(); });
    QObject::connect(session, &Session::selectionChanged, q, [this] { refresh(); });
    QObject::connect(list, &PanelList::chosen, q, [this](const QString& name) {
        shown = name;
        session->selectPlate(name);
        refresh();
    });
    QObject::connect(canvas, &PanelCanvas::edgeClicked, q, [this](int edge) {
        const PlateEdge own = ownEdge(edge);
        session->selectPlate(own.plate, own.edge);
    });
    QObject::connect(canvas, &PanelCanvas::emptyClicked, q, [this] { session->selectPlate(shown); });
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
        const std::string name = shown.toStdString();
        session->apply(plate(name) ? leaveOut(name) : bringBack(name));
        session->settle();
    });
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
    return -1;
}

QString PanelView::Private::sizeWords(const Panel& panel) const {
    if (panel.boundary.outer.empty()) return {};
    const Vec2 size = bounds(panel.boundary.outer).size();
    const UnitStyle units = session->unitStyle();
    return text(printLength(size.x(), units) + " × " + printLength(size.y(), units));
}

PanelRow PanelView::Private::rowFor(const Panel& panel) {
    auto& kept = rows[panel.name];
    const std::string source = panel.fingerprint + panel.stock;
    if (kept.first != source || kept.second.shape.outer.empty()) {
        kept.second = {};
        kept.second.shape.outer = panel.boundary.outer;
        for (const auto& hole : panel.holes) kept.second.shape.holes.push_back(hole.outer);
        kept.first = source;
    }
    PanelRow row = kept.second;
    row.name = text(panel.name);
    for (const auto& p : panel.plates) row.plates << text(p);
    row.copies = static_cast<qsizetype>(panel.copyCount());
    row.size = sizeWords(panel);
    row.stock = text(panel.stock);
    row.hand = panel.mirrorOf.empty() ? QString() : tr("handed");
    if (const auto& stock = session->evaluation().stock) {
        if (const Sheet* sheet = stock->find(panel.stock)) row.kind = text(sheet->kind);
    }
    if (const auto was = cutFingerprint(session->project(), panel.plates.front())) {
        row.cut = true;
        row.changed = *was != panel.fingerprint;
    }
    return row;
}

void PanelView::Private::refreshList() {
    std::vector<PanelRow> out;
    for (const auto& panel : panels()) out.push_back(rowFor(panel));
    const Evaluation& evaluation = session->evaluation();
    if (evaluation.body && evaluation.plates) {
        for (const auto& name : leftOutPlates(*evaluation.body, *evaluation.plates)) {
            PanelRow row;
            row.name = text(name);
            row.plates << row.name;
            row.leftOut = true;
            out.push_back(std::move(row));
        }
    }
    list->show(std::move(out));
}

void PanelView::Private::refresh() {
    refreshList();
    const auto& model = list->model();
    const QString& wanted = session->selection().plate;
    if (!wanted.isEmpty() && model.find(wanted) >= 0) shown = wanted;
    if (wanted.isEmpty()) showForm(session->selection().form.toStdString());
    if (model.find(shown) < 0) shown = model.rowCount() > 0 ? model.row(0).plates.first() : QString();
    stack->setCurrentWidget(shown.isEmpty() ? static_cast<QWidget*>(empty) : page);
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
    const bool there = index >= 0;
    cut->setVisible(there);
    leave->setText(there ? tr("Leave out") : tr("Bring back"));
    explain(leave, leave->text(),
            there ? tr("Build without this plate; its neighbours end free there")
                  : tr("Make this plate again, from its material or the default stock"));
    leave->setEnabled(!shown.isEmpty());
    if (!there) {
        canvas->show(std::nullopt);
        facts->setText(shown.isEmpty() ? QString()
                                       : tr("%1 is left out: no panel is cut for it.").arg(shown));
        return;
    }
    const Panel& panel = panels()[static_cast<std::size_t>(index)];
    PanelPicture picture{panel, {}, shown.toStdString(), {}, index + 1, session->unitStyle()};
    if (const auto* own = edges()) picture.edges = *own;
    if (!panel.folds.empty()) picture.edges = blankEdges(panel, shown.toStdString());
    picture.stockKind = list->model().row(list->model().find(shown)).kind.toStdString();
    canvas->show(std::move(picture));
    const auto was = cutFingerprint(session->project(), panel.plates.front());
    cut->setChecked(was.has_value());
    QStringList words;
    for (const auto& [a, b] : checkDiagonals(panel.boundary.outer)) {
        const Ring& ring = panel.boundary.outer;
        words << text(
            printLength((ring[static_cast<std::size_t>(a)] - ring[static_cast<std::size_t>(b)]).norm(),
                        session->unitStyle()));
    }
    QString line = words.isEmpty() ? QString() : tr("diagonals %1 · ").arg(words.join(tr(" and ")));
    line += tr("%1 · %2").arg(text(printArea(area({panel.boundary.outer, {}}), session->unitStyle())),
                              text(panel.stock));
    if (was && *was != panel.fingerprint) line = tr("⚠ changed since it was cut · ") + line;
    facts->setText(line);
}

const std::vector<PanelEdge>* PanelView::Private::edges() const {
    const int index = panelOf(shown.toStdString());
    if (index < 0) return nullptr;
    const Panel& panel = panels()[static_cast<std::size_t>(index)];
    const Plate* copy = plate(shown.toStdString());
    if (copy && !panel.folds.empty()) return &copy->boundary.edges; // of a blank: the chosen plate's own
    // Copies are cut alike but meet other neighbours.
    if (copy && copy->boundary.edges.size() == panel.boundary.edges.size()) return &copy->boundary.edges;
    return &panel.boundary.edges;
}

PanelView::Private::PlateEdge PanelView::Private::ownEdge(int drawn) const {
    const int index = panelOf(shown.toStdString());
    if (index < 0 || drawn < 0) return {shown, drawn};
    const Panel& panel = panels()[static_cast<std::size_t>(index)];
    if (panel.folds.empty()) return {shown, drawn};
    const auto found = blankEdge(panel, *session->evaluation().plates, shown.toStdString(), drawn);
    return {text(found.first), found.second};
}

int PanelView::Private::canvasEdge(int own) const {
    const int index = panelOf(shown.toStdString());
    if (index < 0 || own < 0) return own;
    const Panel& panel = panels()[static_cast<std::size_t>(index)];
    return panel.folds.empty() ? own
                               : drawnEdge(panel, *session->evaluation().plates, shown.toStdString(), own);
}

void PanelView::Private::refreshEdge() {
    const Selection& chosen = session->selection();
    const int edge = chosen.plate == shown ? chosen.edge : -1;
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

void PanelView::Private::makeRoom() {
    list->setStrip(page->width() < roomForList);
    list->setVisible(page->width() >= roomForThumbs);
    // In a low view the drawing keeps its room while an edge is worked on.
    const bool roomy = bar->isHidden() || page->height() >= roomForAll;
    tools->setVisible(roomy);
    facts->setVisible(roomy);
}

bool PanelView::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m->page && event->type() == QEvent::Resize) m->makeRoom();
    return QWidget::eventFilter(watched, event);
}

} // namespace slab::ui
