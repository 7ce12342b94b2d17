#include "ui/findings/findings_card.h"
#include "ui/findings/finding_delegate.h"
#include "ui/findings/findings_model.h"
#include "ui/session/session.h"
#include "ui/theme/empty_state.h"
#include <QListView>
#include <QScrollBar>
#include <QVBoxLayout>

namespace slab::ui {

FindingsCard::FindingsCard(Session* session, QWidget* parent)
    : Card("Punch list", parent), m_session(session), m_model(new FindingsModel(this)), m_list(new QListView),
      m_empty(new EmptyState("Nothing to look at. Drag the scale, or print the templates.")) {
    m_list->setModel(m_model);
    m_list->setItemDelegate(new FindingDelegate(m_list));
    m_list->setResizeMode(QListView::Adjust);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    m_list->setSelectionMode(QAbstractItemView::SingleSelection);
    m_list->setMinimumHeight(90);
    explain(m_list, "Punch list",
            "What still needs attention, worst first. Choose an entry to see its place in every view.");
    body()->addWidget(m_list, 1);
    body()->addWidget(m_empty, 1);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) { choose(now.row()); });
    connect(m_list, &QListView::clicked, this, [this](const QModelIndex& now) { choose(now.row()); });
    connect(session, &Session::evaluationChanged, this, &FindingsCard::refresh);
    connect(session, &Session::busyChanged, this, &FindingsCard::refresh);
    connect(session, &Session::projectChanged, this, &FindingsCard::refresh);
    connect(session, &Session::selectionChanged, this, &FindingsCard::showSelected);
    refresh();
}

void FindingsCard::refresh() {
    if (m_session->dragging() || m_session->busy()) {
        setNote("settles when you stop");
        // What was clear may be so no longer.
        m_empty->setVisible(false);
        m_list->setVisible(true);
        return;
    }
    const int scrolled = m_list->verticalScrollBar()->value();
    m_showing = true;
    m_model->set(m_session->evaluation().findings);
    m_showing = false;
    m_list->verticalScrollBar()->setValue(scrolled);
    showSelected();
    const int stops = m_model->count(Severity::stop), looks = m_model->count(Severity::look),
              notes = m_model->count(Severity::note);
    QStringList words;
    if (stops) words << QString("%1 %2").arg(stops).arg(stops == 1 ? "stops" : "stop");
    if (looks) words << QString("%1 look").arg(looks);
    if (notes) words << QString("%1 %2").arg(notes).arg(notes == 1 ? "note" : "notes");
    setNote(words.isEmpty() ? "all clear" : words.join(" · "));
    m_list->setVisible(m_model->rowCount() > 0);
    m_empty->setVisible(m_model->rowCount() == 0);
}

void FindingsCard::choose(int row) {
    if (m_showing || row < 0 || row >= m_model->rowCount()) return;
    const Finding& finding = m_model->at(row);
    m_session->select(placeOf(finding, m_session->evaluation()));
    for (const std::string& about : finding.about) Q_EMIT placeWanted(QString::fromStdString(about));
}

void FindingsCard::showSelected() {
    m_showing = true;
    int row = -1;
    const QString key = m_session->selection().finding;
    for (int i = 0; i < m_model->rowCount() && !key.isEmpty(); ++i)
        if (keyOf(m_model->at(i)) == key) row = i;
    if (row < 0)
        m_list->clearSelection();
    else if (row != m_list->currentIndex().row())
        m_list->setCurrentIndex(m_model->index(row));
    m_showing = false;
}

} // namespace slab::ui
