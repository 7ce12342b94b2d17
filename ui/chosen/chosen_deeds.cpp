#include "ui/chosen/chosen_deeds.h"
#include "core/board/module_edits.h"
#include "ui/panels/blank_edges.h"
#include "ui/panels/panel_place.h"
#include "ui/session/follow.h"
#include <algorithm>

namespace slab::ui {

namespace {

bool apply(Session& session, const Expected<Edit>& edit) {
    if (!edit) {
        Q_EMIT session.refused(edit.error());
        return false;
    }
    if (!session.apply(*edit)) return false;
    session.settle();
    return true;
}

const Plate* plateNamed(const Session& session, const std::string& name) {
    if (const auto& plates = session.evaluation().plates)
        for (const Plate& plate : plates->plates)
            if (plate.name == name) return &plate;
    return nullptr;
}

/// Of a piece between seams the plate that it is part of.
std::string wholePlate(const Session& session, const std::string& name) {
    if (const auto& panels = session.evaluation().panels; panels && !plateNamed(session, name))
        for (const Panel& panel : *panels)
            if (panel.isOf(name)) return wholeOf(panel, name);
    return name;
}

/// Keeps the choice, and shows an entry of the document in its table.
void show(Session& session, const QString& part) {
    Selection now = session.selection();
    now.part = part;
    session.select(now);
}

/// One more or one less; the one that was chosen alone is the first.
QStringList toggled(QStringList all, const QString& alone, const QString& name) {
    if (all.isEmpty() && !alone.isEmpty()) all = {alone};
    if (!all.removeOne(name)) all << name;
    return all;
}

} // namespace

std::vector<std::string> chosenPlates(const Session& session) {
    std::vector<std::string> out;
    const Selection& now = session.selection();
    const auto add = [&](const std::string& name) {
        if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
    };
    for (const QString& name : now.plates) add(wholePlate(session, name.toStdString()));
    if (out.empty() && !now.plate.isEmpty()) add(wholePlate(session, now.plate.toStdString()));
    if (!out.empty() || !session.evaluation().plates) return out;
    QStringList forms = now.forms;
    if (forms.isEmpty() && !now.form.isEmpty()) forms = {now.form};
    for (const Plate& plate : session.evaluation().plates->plates)
        for (const QString& form : forms)
            if (isOfForm(plate.form, form.toStdString())) add(plate.name);
    return out;
}

void chooseMorePlates(Session& session, const QString& plate) {
    Selection next;
    const QStringList all = toggled(session.selection().plates, session.selection().plate, plate);
    if (!all.isEmpty()) next.plate = all.last();
    if (all.size() > 1) next.plates = all;
    session.select(next);
}

void chooseMoreForms(Session& session, const QString& form) {
    Selection next;
    const QStringList all = toggled(session.selection().forms, session.selection().form, form);
    if (all.size() == 1) next.form = all.last();
    if (all.size() > 1) next.forms = all;
    session.select(next);
}

std::optional<std::pair<std::string, std::string>> chosenJoint(const Session& session) {
    const Selection& now = session.selection();
    const std::string name = wholePlate(session, now.plate.toStdString());
    const Plate* plate = plateNamed(session, name);
    const auto edge = static_cast<std::size_t>(now.edge);
    if (!plate || now.edge < 0 || edge >= plate->boundary.edges.size()) return {};
    const std::string& other = plate->boundary.edges[edge].neighbour;
    // Nothing is glued where the joint is open, or the neighbour left out.
    if (plate->boundary.edges[edge].role == EdgeRole::open || !plateNamed(session, other)) return {};
    return std::pair(name, other);
}

std::vector<std::string> chosenWheels(const Session& session) {
    const Selection& now = session.selection();
    QStringList names = now.forms;
    if (names.isEmpty() && !now.form.isEmpty()) names = {now.form};
    std::vector<std::string> out;
    for (const Form& form : session.project().forms)
        if (std::holds_alternative<RoundShape>(form.shape) &&
            std::any_of(names.begin(), names.end(),
                        [&](const QString& name) { return isOfForm(name.toStdString(), form.name); }))
            out.push_back(form.name);
    return out;
}

bool makeModule(Session& session) {
    if (!apply(session, slab::makeModule(session.project(), session.evaluation(), chosenPlates(session))))
        return false;
    show(session, QStringLiteral("/modules/%1").arg(session.project().modules.size() - 1));
    Q_EMIT session.made(QStringLiteral("Module %1 is made: what it takes is in the table of modules.")
                            .arg(QString::fromStdString(session.project().modules.back().name)));
    return true;
}

bool addToModule(Session& session, int module) {
    const auto& modules = session.project().modules;
    if (module < 0 || module >= static_cast<int>(modules.size())) return false;
    const std::string name = modules[static_cast<std::size_t>(module)].name;
    if (!apply(session,
               slab::addToModule(session.project(), session.evaluation(), module, chosenPlates(session))))
        return false;
    for (std::size_t i = 0; i < session.project().modules.size(); ++i)
        if (session.project().modules[i].name == name) show(session, QStringLiteral("/modules/%1").arg(i));
    return true;
}

bool takeFromModules(Session& session) {
    return apply(session,
                 slab::takeFromModules(session.project(), session.evaluation(), chosenPlates(session)));
}

bool putCleats(Session& session, CleatKind kind) {
    const auto joint = chosenJoint(session).value_or(std::pair<std::string, std::string>());
    if (!apply(session, addCleats(session.project(), scopeNow(session), joint.first, joint.second, kind)))
        return false;
    show(session, QStringLiteral("/cleats/%1").arg(cleatsOf(session.project(), joint.first, joint.second)));
    Q_EMIT session.made(
        QStringLiteral("%1 are put between %2 and %3: their sizes are in the table of frames and seams.")
            .arg(kind == CleatKind::block ? "Corner blocks" : "Cleats", QString::fromStdString(joint.first),
                 QString::fromStdString(joint.second)));
    return true;
}

bool takeCleatsAway(Session& session) {
    const auto joint = chosenJoint(session).value_or(std::pair<std::string, std::string>());
    return apply(session, slab::takeCleatsAway(session.project(), joint.first, joint.second));
}

bool putMechanism(Session& session, const MechanismStart& start) {
    if (!apply(session, addMechanism(session.project(), scopeNow(session), session.evaluation(), start)))
        return false;
    Selection selection;
    selection.part = QString::fromStdString(newestMechanism(session.project(), start.kind));
    session.select(selection);
    return true;
}

bool beltRoundChosen(Session& session) {
    MechanismStart start{MechanismKind::belt, {}, chosenWheels(session)};
    if (start.wheels.size() < 2) return false;
    putMechanism(session, start);
    return true;
}

} // namespace slab::ui
