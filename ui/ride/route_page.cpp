#include "core/trial/examples.h"
#include "ui/ride/ride_canvas.h"
#include "ui/ride/ride_list.h"
#include "ui/ride/ride_pages.h"
#include "ui/theme/card.h"
#include "ui/theme/empty_state.h"
#include "ui/theme/theme.h"
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QSlider>
#include <QToolButton>
#include <algorithm>

namespace slab::ui {

using trial::Outcome;
using trial::RouteResult;

RoutePage::RoutePage(Session* session, QWidget* parent)
    : RidePage(session, tr("Route"),
               tr("What it passes on its way, with what is to spare and what comes nearest"), parent),
      m_add(new QToolButton), m_closest(new QToolButton), m_examples(new QMenu(this)),
      m_along(new QSlider(Qt::Horizontal)), m_alongWords(new QLabel(tr("along the way"))) {
    m_add->setText(tr("Add to route"));
    explain(m_add, tr("Add to route"),
            tr("Doors, ramps, kerbs, turning circles … as published, or to be measured (key A)"));
    m_add->setPopupMode(QToolButton::InstantPopup);
    m_add->setMenu(m_examples);
    m_examples->setAccessibleName(tr("Add to route"));
    strip()->addWidget(m_add);
    m_alongWords->setProperty("role", "quiet");
    m_alongWords->setFont(Theme::words(12));
    strip()->addWidget(m_alongWords);
    explain(m_along, tr("along the way"), tr("Drives the body along the ground (left and right arrows)"));
    strip()->addWidget(m_along, 1);
    m_closest->setText(tr("Closest"));
    explain(m_closest, tr("Closest"), tr("Where it comes nearest to the ground (key C)"));
    strip()->addWidget(m_closest);
    strip()->addStretch(0);
    connect(m_along, &QSlider::valueChanged, this, [this] { canvas()->update(); });
    connect(m_closest, &QToolButton::clicked, this, [this] {
        if (const RouteResult* r = shown()) m_along->setValue(std::max(0, r->worst));
    });
    m_noRoute =
        addEmpty(tr("What must it pass on its way: doors, ramps, kerbs, corners, a van's hatch? Each is "
                    "tried, and says what is to spare."),
                 tr("Add a door"), [this] { add(trial::firstExample().part); });
    auto* others = new QToolButton;
    others->setText(tr("Or something else"));
    others->setPopupMode(QToolButton::InstantPopup);
    others->setMenu(m_examples);
    explain(others, tr("Or something else"), tr("Ramps, kerbs, corners, turning circles … (key A)"));
    auto* column = qobject_cast<QBoxLayout*>(m_noRoute->layout());
    column->insertWidget(column->count() - 1, others, 0, Qt::AlignHCenter);
}

void RoutePage::add(const RoutePart& part) {
    take(trial::addToRoute(part));
    Selection now;
    now.part = QStringLiteral("/route/%1").arg(session()->project().route.size() - 1);
    session()->select(now);
}

void RoutePage::refreshExamples() {
    const UnitStyle units = session()->unitStyle();
    if (std::exchange(m_examplesIn, units.unit) == units.unit) return;
    m_examples->clear();
    fillExamples(m_examples, units, [this](const RoutePart& part) { add(part); });
    m_noRoute->setButton(tr("Add a door, 32 in clear") + sizeBeside(trial::firstExample().part, units));
}

EmptyState* RoutePage::lacking() const {
    if (EmptyState* empty = RidePage::lacking()) return empty;
    return session()->project().route.empty() ? m_noRoute : nullptr;
}

RideRows RoutePage::rows() const {
    return routeRows(session()->project(), evaluation());
}

/// The first of those that the punch list tells the worst of, else the first that is tried.
int RoutePage::favourite(const RideRows& rows) const {
    int best = -1;
    const auto rank = [&](int i) {
        const auto told = rows[static_cast<std::size_t>(i)].severity();
        return told ? static_cast<int>(*told) : -1;
    };
    for (int i = 0; i < static_cast<int>(rows.size()); ++i)
        if (rows[static_cast<std::size_t>(i)].thing == RideThing::part && (best < 0 || rank(i) > rank(best)))
            best = i;
    return best;
}

const RouteResult* RoutePage::shown() const {
    const auto& trial = evaluation().trial;
    if (!trial || trial->route.empty()) return nullptr;
    const RideRow* row = chosen();
    if (!row || row->thing != RideThing::part || row->index >= static_cast<int>(trial->route.size()))
        return nullptr;
    return &trial->route[static_cast<std::size_t>(row->index)];
}

void RoutePage::refreshControls() {
    refreshExamples();
    const RouteResult* r = shown();
    const bool posed = r && !r->poses.empty();
    for (QWidget* part : {static_cast<QWidget*>(m_along), static_cast<QWidget*>(m_closest),
                          static_cast<QWidget*>(m_alongWords)})
        part->setVisible(posed);
    if (!posed) {
        m_posed.clear();
        return;
    }
    const int last = static_cast<int>(r->poses.size()) - 1;
    const bool held = m_posed == r->name && m_along->maximum() == last;
    m_along->setRange(0, last);
    m_along->setPageStep(std::max(1, last / 10));
    if (!held) m_along->setValue(std::clamp(r->worst, 0, last));
    m_posed = r->name;
}

void RoutePage::step(int by) {
    if (by == 0)
        m_closest->click();
    else if (!m_along->isHidden())
        m_along->setValue(m_along->value() + by);
}

void RoutePage::offer() {
    m_examples->popup(m_add->isVisible() ? m_add->mapToGlobal(QPoint(0, m_add->height()))
                                         : mapToGlobal(rect().center()));
    for (QAction* action : m_examples->actions())
        if (!action->isSeparator() && action->isEnabled()) return m_examples->setActiveAction(action);
}

void RoutePage::discard() {
    const RideRow* row = chosen();
    if (!row || !row->place.part.startsWith("/route/")) return;
    const std::string place = row->place.part.toStdString();
    session()->select({});
    take(removeValue(place, "Take " + row->title.toStdString() + " off the route"));
}

void RoutePage::draw(const RideDraw& draw) const {
    const trial::Trial& t = *evaluation().trial;
    const RouteResult* r = shown();
    if (r && r->ground.points.size() > 1)
        return paintGround(draw, *r, r->poses.empty() ? -1 : m_along->value());
    if (r && (r->kind != "turning_circle" || !t.turning)) return paintPassage(draw, *r);
    // The circle that there is: what it sweeps and what is to spare.
    if (t.turning) paintTurning(draw, *t.turning, r ? t.turning->path.diameter() + r->margin : 0);
}

} // namespace slab::ui
