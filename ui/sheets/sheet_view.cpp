#include "ui/sheets/sheet_view.h"
#include "ui/sheets/sheet_board.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QStackedLayout>
#include <QToolButton>
#include <cmath>

namespace slab::ui {

struct SheetView::Private {
    SheetView* q;
    Session* session;
    QStackedLayout* stack = nullptr;
    QWidget* page = nullptr;
    SheetBoard* board = nullptr;
    QLabel* unplaced = nullptr;
    EmptyState *noStock = nullptr, *noPanels = nullptr;

    void build();
    void refresh();
    void showChosen();
    void showUnplaced();
};

SheetView::SheetView(Session* session, QWidget* parent) : QWidget(parent), m(std::make_unique<Private>()) {
    m->q = this;
    m->session = session;
    m->build();
    m->refresh();
}

SheetView::~SheetView() = default;

void SheetView::Private::build() {
    q->setAccessibleName(tr("Sheets view"));
    q->setAccessibleDescription(tr("How the panels lie on the sheets, what is in the shed first"));
    stack = new QStackedLayout(q);
    page = new QWidget;
    auto* all = new QVBoxLayout(page);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(6);
    board = new SheetBoard;
    q->setFocusProxy(board);
    all->addWidget(board, 1);
    auto* row = new QHBoxLayout;
    unplaced = new QLabel;
    unplaced->setWordWrap(true);
    unplaced->setProperty("role", "error");
    unplaced->setFont(Theme::words(12));
    unplaced->setAccessibleName(tr("panels that fit on no sheet"));
    row->addWidget(unplaced, 1);
    all->addLayout(row);
    // Over the board, and only while there is something to come back from.
    auto* fit = new QToolButton(board);
    fit->setText(tr("All sheets"));
    explain(fit, tr("All sheets"), tr("Show every sheet (key F)"));
    auto* corner = new QVBoxLayout(board);
    corner->setContentsMargins(6, 6, 6, 6);
    corner->addStretch(1);
    corner->addWidget(fit, 0, Qt::AlignRight);
    fit->hide();
    QObject::connect(board, &SheetBoard::wholeChanged, fit, [fit](bool whole) { fit->setVisible(!whole); });
    stack->addWidget(page);
    noStock = new EmptyState(
        tr("Say which sheets you can get, and what lies in the shed: the panels are laid out on them here."),
        tr("Add stock"));
    noPanels = new EmptyState(tr("As soon as the body has plates, they are laid out here, sheet by sheet."));
    stack->addWidget(noStock);
    stack->addWidget(noPanels);
    QObject::connect(fit, &QToolButton::clicked, board, &SheetBoard::fit);
    QObject::connect(noStock, &EmptyState::clicked, q, &SheetView::stockWanted);
    QObject::connect(board, &SheetBoard::plateClicked, q,
                     [this](const QString& plate) { session->selectPlate(plate); });
    QObject::connect(unplaced, &QLabel::linkActivated, q,
                     [this](const QString& plate) { session->selectPlate(plate); });
    QObject::connect(session, &Session::evaluationChanged, q, [this] { refresh(); });
    QObject::connect(session, &Session::selectionChanged, q, [this] { showChosen(); });
}

void SheetView::Private::refresh() {
    const Evaluation& evaluation = session->evaluation();
    board->show(laidSheets(evaluation));
    showChosen();
    showUnplaced();
    const bool stocked = !session->project().stock.sheets.empty();
    const bool any = !board->sheets().empty() || !unplaced->text().isEmpty();
    stack->setCurrentWidget(any ? page : stocked ? static_cast<QWidget*>(noPanels) : noStock);
}

void SheetView::Private::showChosen() {
    const Selection& now = session->selection();
    board->setChosen(now.plate.toStdString(), now.form.toStdString());
}

void SheetView::Private::showUnplaced() {
    const Evaluation& evaluation = session->evaluation();
    QStringList names;
    if (evaluation.sheets && evaluation.nestProblem && evaluation.panels) {
        for (const auto& [part, copy] : evaluation.sheets->unplaced) {
            const auto index = static_cast<std::size_t>(part);
            if (index >= evaluation.nestProblem->parts.size()) continue;
            QString plate = QString::fromStdString(evaluation.nestProblem->parts[index].id);
            for (const auto& panel : *evaluation.panels) {
                const auto at = static_cast<std::size_t>(copy) * std::max<std::size_t>(panel.parts.size(), 1);
                if (panel.name == plate.toStdString() && at < panel.plates.size())
                    plate = QString::fromStdString(panel.plates[at]);
            }
            names << QStringLiteral("<a style='color:%2' href='%1'>%1</a>")
                         .arg(plate.toHtmlEscaped(), Theme::colours().chosen.name());
        }
    }
    constexpr qsizetype most = 6;
    const qsizetype more = names.size() - most;
    if (more > 0) names = names.mid(0, most) << tr("%1 more").arg(more);
    unplaced->setText(names.isEmpty()
                          ? QString()
                          : tr("Fits on no sheet: %1. → Use a larger sheet or a smaller scale, or "
                               "give the form more break points, so that its plates are smaller.")
                                .arg(names.join(QStringLiteral(", "))));
    unplaced->setVisible(!names.isEmpty());
}

void SheetView::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange && m->board) m->refresh();
    QWidget::changeEvent(event);
}

} // namespace slab::ui
