#include "ui/findings/findings_model.h"
#include "core/mechanisms/mechanisms.h"
#include <algorithm>

namespace slab::ui {

int FindingsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_findings.size());
}

QVariant FindingsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const Finding& f = at(index.row());
    const QString message = QString::fromStdString(f.message), remedy = QString::fromStdString(f.remedy);
    switch (role) {
    case Qt::DisplayRole:
        return titleOf(f);
    case Qt::ToolTipRole:
        return remedy.isEmpty() ? message : message + "\n→ " + remedy;
    case Qt::AccessibleTextRole:
        return wordOf(f.severity) + ": " + titleOf(f) + ". " + message + ". " + remedy;
    default:
        return {};
    }
}

void FindingsModel::set(std::vector<Finding> findings) {
    if (findings == m_findings) return;
    beginResetModel();
    m_findings = std::move(findings);
    endResetModel();
}

int FindingsModel::count(Severity severity) const {
    return static_cast<int>(std::count_if(m_findings.begin(), m_findings.end(),
                                          [&](const Finding& f) { return f.severity == severity; }));
}

QString titleOf(const Finding& finding) {
    QString title = QString::fromStdString(finding.code).replace('-', ' ');
    if (!title.isEmpty()) title[0] = title[0].toUpper();
    return title;
}

QString wordOf(Severity severity) {
    return severity == Severity::stop ? "stops" : severity == Severity::look ? "look" : "note";
}

QString countWords(Severity severity, int count) {
    const QString one = severity == Severity::stop ? "stop" : severity == Severity::look ? "look" : "note";
    return QString::number(count) + ' ' + (count == 1 ? one : one + 's');
}

QString keyOf(const Finding& finding) {
    return QString::fromStdString(finding.code + "|" + (finding.about.empty() ? "" : finding.about.front()));
}

namespace {

/// What is drawn of a mechanism, or of the one that has this solid: the solid itself where it is drawn, else
/// the first that is, else the round form that stands for it, else the first of its plates.
void chooseOfMechanism(Selection& s, const MechanismSet& set, const std::string& mechanism,
                       const std::string& solid) {
    const auto& all = set.solids;
    const auto own = std::find_if(all.begin(), all.end(),
                                  [&](const MovingSolid& m) { return m.drawn && m.name == solid; });
    const auto first = std::find_if(
        all.begin(), all.end(), [&](const MovingSolid& m) { return m.drawn && m.mechanism == mechanism; });
    if (const auto shown = own != all.end() ? own : first; shown != all.end()) {
        s.solid = QString::fromStdString(shown->name);
        return;
    }
    for (const auto& [owner, form] : set.ownForms)
        if (owner == mechanism && s.form.isEmpty()) s.form = QString::fromStdString(form);
    if (!s.form.isEmpty()) return;
    for (const Plate& part : set.parts)
        if (s.plate.isEmpty() && part.name.starts_with(mechanism + "/"))
            s.plate = QString::fromStdString(part.name);
}

/// A solid of a mechanism is chosen where it is drawn; a finding that names nothing but a mechanism chooses
/// what is seen of it.
void showMechanism(Selection& s, const Finding& finding, const Evaluation& evaluation) {
    if (!evaluation.mechanisms) return;
    const MechanismSet& set = *evaluation.mechanisms;
    for (const MovingSolid& m : set.solids)
        if (QString::fromStdString(m.name) == s.solid) return chooseOfMechanism(s, set, m.mechanism, m.name);
    if (!s.plate.isEmpty() || !s.solid.isEmpty() || !s.form.isEmpty()) return;
    for (const std::string& about : finding.about)
        if (about.starts_with("mechanism:") && s.solid.isEmpty() && s.plate.isEmpty())
            chooseOfMechanism(s, set, about.substr(std::string_view("mechanism:").size()), {});
}

} // namespace

Selection placeOf(const Finding& finding, const Evaluation& evaluation) {
    Selection s;
    s.finding = keyOf(finding);
    const auto plateNamed = [&](const QString& name) -> const Plate* {
        if (!evaluation.plates) return nullptr;
        for (const Plate& p : evaluation.plates->plates)
            if (p.name == name.toStdString()) return &p;
        return nullptr;
    };
    for (const std::string& about : finding.about) {
        const QString text = QString::fromStdString(about);
        const QString kind = text.section(':', 0, 0), name = text.section(':', 1);
        if ((kind == "plate" || kind == "panel") && s.plate.isEmpty())
            s.plate = name;
        else if (kind == "edge" && s.plate.isEmpty()) {
            s.plate = name.section('|', 0, 0);
            if (const Plate* plate = plateNamed(s.plate))
                for (std::size_t i = 0; i < plate->boundary.edges.size(); ++i)
                    if (plate->boundary.edges[i].neighbour == name.section('|', 1).toStdString())
                        s.edge = static_cast<int>(i);
        } else if (kind == "solid" && s.solid.isEmpty())
            s.solid = name;
        else if (kind == "form" && s.form.isEmpty())
            s.form = name;
    }
    showMechanism(s, finding, evaluation);
    if (const Plate* plate = plateNamed(s.plate); plate && s.form.isEmpty())
        s.form = QString::fromStdString(plate->form);
    return s;
}

} // namespace slab::ui
