#include "ui/tables/document_source.h"
#include "core/donor/measures.h"
#include "core/donor/sizes.h"
#include "ui/session/session.h"
#include <algorithm>

namespace slab::ui {

namespace {

std::string solidNames(const Session& session) {
    std::string all;
    if (const auto& donor = session.evaluation().donor)
        for (const FitSolid& solid : donor->solids) all += solid.name + "\n";
    return all;
}

/// The same figures of the same entries, whatever they say.
bool sameRows(const std::vector<PartFact>& a, const std::vector<PartFact>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const PartFact& x, const PartFact& y) {
        return x.pointer == y.pointer && x.name == y.name && x.key == y.key && x.words == y.words &&
               x.tip == y.tip;
    });
}

} // namespace

DocumentSource::DocumentSource(Session* session, QObject* parent) : QObject(parent), m_session(session) {
    m_shown = session->project();
    offer();
    connect(session, &Session::projectChanged, this, &DocumentSource::refresh);
    connect(session, &Session::evaluationChanged, this, [this] {
        // While a drag or a first answer is shown, the figures before stand.
        std::vector<PartFact> facts = m_session->evaluation().modules ? partFacts(*m_session) : m_facts;
        const bool scoped = m_session->evaluation().scope != nullptr;
        const bool rows =
            solidNames(*m_session) != m_solids || !sameRows(facts, m_facts) || scoped != m_scoped;
        if (!m_session->dragging() && rows) {
            offer();
            Q_EMIT changed();
        } else {
            m_facts = std::move(facts);
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

QString DocumentSource::factOf(const Node& row) const {
    const std::string entry = row.parent ? row.parent->pointer() : std::string();
    for (const PartFact& f : m_facts)
        if (f.pointer == entry && row.key == "fact " + f.key) return f.value;
    return {};
}

namespace {

Role roleOf(Kind kind) {
    return kind == Kind::number ? Role::number : kind == Kind::angle ? Role::angle : Role::any;
}

/// How a reading goes with the others; nothing where none checks it.
QString residualWords(const TypedMeasure& t, const UnitStyle& units) {
    if (t.measure.kind != Kind::length || t.check.redundancy < 1e-6) return {};
    if (t.check.leftOut)
        return QString("left out: the others make it %1")
            .arg(QString::fromStdString(printFine(t.check.expected, units)));
    return QString("off by %1").arg(QString::fromStdString(printFine(std::abs(t.check.residual), units)));
}

/// The figure beside it carries its unit.
std::string withoutUnit(const std::string& label) {
    for (const char* unit : {", kg", ", km/h"})
        if (label.ends_with(unit)) return label.substr(0, label.size() - std::string_view(unit).size());
    return label;
}

/// The donor's sizes, as its readings have them, and what there is to read.
void offerSizes(const Session& session, const Donor& donor, std::vector<Offer>& offers) {
    std::vector<DonorSize> sizes = donorSizes(donor.kind);
    std::vector<Finding> told; // in the punch list already
    Donor unchanged = donor;
    unchanged.changes.clear();
    const auto& scope = session.evaluation().scope;
    if (scope && !donor.measures.empty()) {
        Reading reading(*scope, told);
        const SizeValues values = readSizes(unchanged, donor.kind, reading);
        for (DonorSize& size : sizes) size.value = values.at(size.name);
    }
    for (const DonorSize& size : sizes)
        offers.push_back(
            {"/donor/changes", size.name, withoutUnit(size.label), size.value, roleOf(size.kind)});
    std::vector<TypedMeasure> typed;
    if (scope && !donor.measures.empty()) {
        Reading reading(*scope, told);
        typed = typedMeasures(donor, donor.kind, reading);
    }
    for (const Measure& m : measuringSheet(donor.kind)) {
        std::string check;
        for (const TypedMeasure& t : typed)
            if (t.measure.letter == m.letter) check = residualWords(t, session.unitStyle()).toStdString();
        const bool byLetter = std::any_of(donor.measures.begin(), donor.measures.end(),
                                          [&](const NamedText& typed) { return typed.name == m.letter; });
        offers.push_back({"/donor/measures", byLetter ? m.letter : m.name, m.letter + "  " + m.words,
                          valueOf(m.sum, sizes), roleOf(m.kind), check});
    }
}

} // namespace

void DocumentSource::offer() {
    m_scoped = m_session->evaluation().scope != nullptr;
    m_root = treeOf(m_shown);
    m_solids = solidNames(*m_session);
    std::vector<Offer> offers;
    offerSizes(*m_session, m_shown.donor, offers);
    if (const auto& donor = m_session->evaluation().donor)
        for (const FitSolid& solid : donor->solids)
            offers.push_back({"/clearance/solids", solid.name, {}, solid.clearance, Role::length});
    addOffers(*m_root, offers);
    if (m_session->evaluation().modules) m_facts = partFacts(*m_session);
    std::vector<FactRow> rows;
    for (const PartFact& f : m_facts)
        rows.push_back({f.pointer, f.name, f.key, f.words.toStdString(), f.tip.toStdString()});
    addFacts(*m_root, rows);
}

} // namespace slab::ui
