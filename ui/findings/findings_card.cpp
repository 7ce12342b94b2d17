#include "ui/findings/findings_card.h"
#include "ui/findings/finding_delegate.h"
#include "ui/findings/findings_model.h"
#include "ui/session/session.h"
#include "ui/theme/empty_state.h"
#include <QListView>
#include <QScrollBar>
#include <QVBoxLayout>

namespace slab::ui {

namespace {

/// Nothing on the list is not yet a body.
QString clearWords(const Project& project) {
    if (project.forms.empty())
        return "No body yet. Add a form in the table of forms: its flat sides become plates.";
    if (project.stock.sheets.empty())
        return "No sheets yet. Add the sheets that you can get in the table of stock: the plates are cut "
               "from "
               "them.";
    return "Nothing to look at. Drag the scale, or print the templates.";
}

/// Entries wrap at its width and are as high as their words: another width lays all of them out anew. Left to
/// itself the list keeps their places, and gaps open between them.
class WrappedList : public QListView {
protected:
    void resizeEvent(QResizeEvent* event) override {
        QListView::resizeEvent(event);
        if (width() == m_laidOutFor) return;
        m_laidOutFor = width(); // a scroll bar that comes or goes changes no height
        doItemsLayout();
    }

private:
    int m_laidOutFor = -1;
};

} // namespace

FindingsCard::FindingsCard(Session* session, QWidget* parent)
    : Card("Punch list", parent), m_session(session), m_model(new FindingsModel(this)),
      m_list(new WrappedList), m_empty(new EmptyState(clearWords(session->project()))) {
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
    for (const auto opened : {&QListView::clicked, &QListView::activated})
        connect(m_list, opened, this, [this](const QModelIndex& now) { open(now.row()); });
    connect(session, &Session::evaluationChanged, this, &FindingsCard::refresh);
    connect(session, &Session::busyChanged, this, &FindingsCard::refresh);
    connect(session, &Session::projectChanged, this, &FindingsCard::refresh);
    connect(session, &Session::selectionChanged, this, &FindingsCard::showSelected);
    refresh();
}

void FindingsCard::refresh() {
    if (m_session->openDocument() != m_session->shownDocument() && m_model->rowCount() > 0) {
        m_model->set({}); // they are of the document before
        Q_EMIT counted();
    }
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
    QStringList words;
    for (const Severity severity : {Severity::stop, Severity::look, Severity::note})
        if (const int n = count(severity); n > 0) words << countWords(severity, n);
    setNote(words.isEmpty() ? "all clear" : words.join(" · "));
    m_list->setVisible(m_model->rowCount() > 0);
    m_empty->setWords(clearWords(m_session->project()));
    m_empty->setVisible(m_model->rowCount() == 0);
    Q_EMIT counted();
}

int FindingsCard::count(Severity severity) const {
    return m_model->count(severity);
}

void FindingsCard::choose(int row) {
    if (m_showing || row < 0 || row >= m_model->rowCount()) return;
    const Finding& finding = m_model->at(row);
    m_session->select(placeOf(finding, m_session->evaluation()));
    for (const std::string& about : finding.about) Q_EMIT placeWanted(QString::fromStdString(about));
}

void FindingsCard::open(int row) {
    if (m_showing || row < 0 || row >= m_model->rowCount() || m_model->at(row).about.empty()) return;
    Q_EMIT openWanted(QString::fromStdString(m_model->at(row).about.front()));
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
