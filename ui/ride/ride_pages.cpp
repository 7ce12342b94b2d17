#include "ui/ride/ride_pages.h"
#include "ui/ride/ride_canvas.h"
#include "ui/ride/ride_list.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <algorithm>

namespace slab::ui {

StandsPage::StandsPage(Session* session, QWidget* parent)
    : RidePage(session, tr("Stands"),
               tr("How it stands: wheel loads, the slope at which it tips to each side, turns and wind"),
               parent),
      m_standing(new QComboBox) {
    auto* label = new QLabel(tr("standing"));
    label->setProperty("role", "quiet");
    label->setFont(Theme::words(12));
    strip()->addWidget(label);
    explain(m_standing, tr("standing"),
            tr("On level ground, or on the slopes of the table Ride: the wheels' loads are of that"));
    strip()->addWidget(m_standing);
    strip()->addStretch(1);
    connect(m_standing, &QComboBox::activated, this, [this] { refreshRows(); });
    m_noStance =
        addEmpty(tr("It needs three wheels that do not stand in one line, and a mass: choose a donor, or "
                    "give its own wheels in the table of the donor."),
                 {}, {});
}

EmptyState* StandsPage::lacking() const {
    if (EmptyState* empty = RidePage::lacking()) return empty;
    return evaluation().trial->balance ? nullptr : m_noStance;
}

void StandsPage::refreshControls() {
    const auto& trial = evaluation().trial;
    QStringList words;
    if (trial && trial->balance)
        for (const trial::Standing& s : trial->balance->standings)
            words << QString::fromStdString(s.words) + (s.stands ? "" : tr(" (tips over)"));
    QStringList now;
    for (int i = 0; i < m_standing->count(); ++i) now << m_standing->itemText(i);
    if (words == now) return;
    const int was = m_standing->currentIndex();
    m_standing->clear();
    m_standing->addItems(words);
    m_standing->setCurrentIndex(std::clamp(was, 0, std::max(0, static_cast<int>(words.size()) - 1)));
}

RideRows StandsPage::rows() const {
    return standRows(session()->project(), evaluation(), std::max(0, m_standing->currentIndex()));
}

void StandsPage::draw(const RideDraw& draw) const {
    if (evaluation().trial->balance)
        paintStands(draw, *evaluation().trial->balance, std::max(0, m_standing->currentIndex()));
}

SightPage::SightPage(Session* session, QWidget* parent)
    : RidePage(session, tr("Sight"),
               tr("What the rider sees: ground that is hidden, nearest ground ahead, horizon"), parent) {
    m_nobody = addEmpty(tr("Nobody sits in it: with a rider this shows what is seen from inside."),
                        tr("Seat a grown-up"),
                        [this] { take(setValue("/rider/table", "\"adult\"", "Seat a grown-up")); });
    m_working = addEmpty(tr("What is seen from inside is being worked out…"), {}, {});
    m_unseen = addEmpty(tr("What is seen from inside cannot be worked out; see the punch list."), {}, {});
}

/// Somebody sits in it, and what they see comes with the verdict.
bool SightPage::isWaiting() const {
    const Session& s = *session();
    return s.project().rider.table != "none" && (s.busy() || s.dragging()) && s.evaluation().trial &&
           s.evaluation().trial->views.empty();
}

const Evaluation& SightPage::evaluation() const {
    return isWaiting() && session()->seen() ? *session()->seen() : session()->evaluation();
}

QString SightPage::outdated() const {
    return isWaiting() && session()->seen() ? tr("Being worked out…") : QString();
}

EmptyState* SightPage::lacking() const {
    if (EmptyState* empty = RidePage::lacking()) return empty;
    if (!evaluation().trial->views.empty()) return nullptr;
    return session()->project().rider.table == "none" ? m_nobody : isWaiting() ? m_working : m_unseen;
}

RideRows SightPage::rows() const {
    return sightRows(session()->project(), evaluation());
}

void SightPage::draw(const RideDraw& draw) const {
    if (!evaluation().trial->views.empty()) paintSight(draw, evaluation().trial->views.front());
}

LeavingPage::LeavingPage(Session* session, QWidget* parent)
    : RidePage(session, tr("Getting out"),
               tr("Ways out against whoever must pass them, gaps that catch, air"), parent),
      m_add(new QToolButton) {
    m_add->setText(tr("Add an exit…"));
    explain(m_add, tr("Add an exit"), tr("Opens the table of openings, to put a hatch into a plate"));
    strip()->addWidget(m_add);
    strip()->addStretch(1);
    auto* rules = new QLabel(tr("Local rules govern."));
    rules->setProperty("role", "quiet");
    rules->setFont(Theme::words(12));
    strip()->addWidget(rules);
    connect(m_add, &QToolButton::clicked, this, &LeavingPage::openingWanted);
}

void LeavingPage::refreshControls() {
    m_add->setVisible(!evaluation().trial || evaluation().trial->waysOut.empty());
}

RideRows LeavingPage::rows() const {
    return leavingRows(session()->project(), evaluation());
}

int LeavingPage::favourite(const RideRows& rows) const {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].thing == RideThing::way) return static_cast<int>(i);
    return -1;
}

void LeavingPage::draw(const RideDraw& draw) const {
    const RideRow* row = chosen();
    paintLeaving(draw, row && row->thing == RideThing::way ? row->index : -1);
}

} // namespace slab::ui
