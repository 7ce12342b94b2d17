// The hand in 3D: what a click chooses, the menu at the pointer, and mechanisms put in where it points.
#include "ui/chosen/chosen_deeds.h"
#include "ui/chosen/mechanism_deeds.h"
#include "ui/fit/fit_hand.h"
#include "ui/panels/panel_place.h"

namespace slab::ui {

/// The chosen plate's edge wins over what lies beside it, as edges are thin.
bool FitHand::clickEdge(const QPointF& at, const std::vector<Hit>& hits) {
    const Selection& now = m_session->selection();
    const Plate* chosen = plate(now.plate.toStdString());
    if (!chosen) return false;
    const bool inFront = hits.empty() || itemOf(hits.front()).id == chosen->name;
    const int edge = edgeNear(*chosen, shiftOf(chosen->name), camera, at.x(), at.y());
    if (edge < 0 || (!inFront && edge != now.edge)) return false;
    m_session->selectPlate(QString(now.plate), edge);
    return true;
}

void FitHand::chooseHit(const SceneItem* item, bool more) {
    if (!item) return more ? void() : m_session->select({});
    const QString name = QString::fromStdString(item->id);
    if (item->kind == ItemKind::plate)
        return more ? chooseMorePlates(*m_session, name) : m_session->selectPlate(name);
    const bool form = item->kind == ItemKind::round && !isMechanismSolid(m_session->evaluation(), item->id);
    if (more && form) return chooseMoreForms(*m_session, name);
    Selection selection;
    (form ? selection.form : selection.solid) = name;
    m_session->select(selection);
}

void FitHand::click(const QPointF& at, Qt::KeyboardModifiers keys) {
    if (m_controls->opening()) {
        if (const auto spot = spotAt(at)) placeOpening(*spot, stepHere());
        return;
    }
    if (const MechanismWords* kind = m_controls->mechanism()) {
        const auto spot = mechanismSpotAt(at);
        if (!spot || !placeMechanism(kind->kind, *spot, stepHere())) return;
        clearGhost();
        return m_controls->disarm(); // one is enough: its row is shown in its table
    }
    const auto hits = hitsAt(at);
    const bool behind = keys.testFlag(Qt::ControlModifier), more = keys.testFlag(Qt::ShiftModifier);
    if (!behind && !more && clickEdge(at, hits)) return;
    const std::size_t index = behind ? 1 : 0;
    chooseHit(hits.size() > index ? &itemOf(hits[index]) : nullptr, more);
}

/// What is chosen already stays so, with all that is chosen beside it.
void FitHand::openMenu(const QPointF& at) {
    const auto hits = hitsAt(at);
    const Selection& now = m_session->selection();
    const QString name = hits.empty() ? QString() : QString::fromStdString(itemOf(hits.front()).id);
    if (!now.plates.contains(name) && !now.forms.contains(name) && !clickEdge(at, hits))
        chooseHit(hits.empty() ? nullptr : &itemOf(hits.front()), false);
    Q_EMIT menuWanted(at, mechanismSpotAt(at), stepHere());
}

/// The first thing under the pointer, and the place on it as it stands when nothing is spread apart.
std::optional<MechanismSpot> FitHand::mechanismSpotAt(const QPointF& at) const {
    const auto hits = hitsAt(at);
    if (hits.empty()) return std::nullopt;
    const SceneItem& item = itemOf(hits.front());
    return MechanismSpot{hits.front().point - item.shift, item.id};
}

/// A mechanism is deleted here; forms and plates are not, as a click chooses them too easily.
bool FitHand::deleteMechanism() {
    if (chosenMechanism(*m_session).empty())
        Q_EMIT m_session->refused({"nothing-chosen",
                                   "No mechanism is chosen that could be deleted here.",
                                   {},
                                   "Click a part of one first; forms are deleted on the drawing board or in "
                                   "the menu Edit."});
    else
        deleteChosenMechanism(*m_session);
    Q_EMIT moved();
    return true;
}

void FitHand::takeMechanism(const MechanismWords* kind) {
    if (kind && kind->kind == MechanismKind::belt && beltRoundChosen(*m_session)) kind = nullptr;
    m_controls->arm(kind);
}

bool FitHand::placeMechanism(MechanismKind kind, const MechanismSpot& spot, double step) {
    MechanismStart start{kind, spot};
    start.step = step;
    return putMechanism(*m_session, start);
}

/// What a click would do here, in words. How far a linkage may pitch takes longer to find out.
void FitHand::showMechanism(const QPointF& at) {
    const MechanismWords& kind = *m_controls->mechanism();
    const auto spot = mechanismSpotAt(at);
    bool goes = spot.has_value();
    m_ghostWords = QString::fromStdString(kind.where);
    if (spot) {
        MechanismStart start{kind.kind, *spot};
        start.step = stepHere();
        start.quick = true;
        const auto edit =
            addMechanism(m_session->project(), scopeNow(*m_session), m_session->evaluation(), start);
        goes = edit.has_value();
        m_ghostWords = goes ? QString::fromStdString(kind.key + " · " + spot->on)
                            : QString::fromStdString(edit.error().message);
        m_ghostNear = !goes;
    }
    Q_EMIT moved();
    Q_EMIT cursorWanted(goes ? Qt::CrossCursor : Qt::ForbiddenCursor);
}

} // namespace slab::ui
