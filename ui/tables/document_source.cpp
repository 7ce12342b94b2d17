#include "ui/tables/document_source.h"
#include "ui/session/session.h"

namespace slab::ui {

namespace {

std::string solidNames(const Session& session) {
    std::string all;
    if (const auto& donor = session.evaluation().donor)
        for (const FitSolid& solid : donor->solids) all += solid.name + "\n";
    return all;
}

} // namespace

DocumentSource::DocumentSource(Session* session, QObject* parent) : QObject(parent), m_session(session) {
    m_shown = session->project();
    offer();
    connect(session, &Session::projectChanged, this, &DocumentSource::refresh);
    connect(session, &Session::evaluationChanged, this, [this] {
        if (!m_session->dragging() && solidNames(*m_session) != m_solids) {
            offer();
            Q_EMIT changed();
        }
        Q_EMIT valuesChanged();
    });
    connect(session, &Session::busyChanged, this, &DocumentSource::valuesChanged);
}

void DocumentSource::refresh() {
    // A drag of the scale touches one row only.
    Project now = m_session->project();
    if (now == m_shown) return;
    Project same = now;
    same.scale = m_shown.scale;
    if (same == m_shown) {
        if (Node* scale = nodeAt(*m_root, "/scale")) scale->value = now.scale;
        m_shown = std::move(now);
        Q_EMIT valuesChanged();
        return;
    }
    m_shown = std::move(now);
    offer();
    Q_EMIT changed();
}

void DocumentSource::offer() {
    m_root = treeOf(m_shown);
    m_solids = solidNames(*m_session);
    std::vector<Offer> offers;
    for (const DonorSize& size : donorSizes(m_shown.donor.kind))
        offers.push_back({"/donor/changes", size.name, size.label, size.value, Role::any});
    if (const auto& donor = m_session->evaluation().donor)
        for (const FitSolid& solid : donor->solids)
            offers.push_back({"/clearance/solids", solid.name, {}, solid.clearance, Role::length});
    addOffers(*m_root, offers);
}

} // namespace slab::ui
