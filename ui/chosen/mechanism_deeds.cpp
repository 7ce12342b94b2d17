#include "ui/chosen/mechanism_deeds.h"
#include "core/board/mechanism_moves.h"

namespace slab::ui {

std::string chosenMechanism(const Session& session) {
    const Selection& now = session.selection();
    const std::string part = now.part.toStdString();
    if (const std::string own = mechanismOrWheel(session.project(), part); !own.empty()) return own;
    const auto& set = session.evaluation().mechanisms;
    if (!part.empty() || !set || now.plates.size() > 1 || session.shownDocument() != session.openDocument())
        return {};
    for (const MovingSolid& solid : set->solids)
        if (!now.solid.isEmpty() && now.solid.toStdString() == solid.name)
            return mechanismAt(session.project(), solid.mechanism);
    for (const Plate& plate : set->parts)
        if (!now.plate.isEmpty() && now.plate.toStdString() == plate.name)
            return mechanismAt(session.project(), plate.form);
    return {};
}

std::string chosenMechanismName(const Session& session) {
    return mechanismName(session.project(), chosenMechanism(session));
}

Selection mechanismSelection(const Session& session, const std::string& pointer, const std::string& kind,
                             const std::string& part) {
    Selection selection;
    selection.part = QString::fromStdString(pointer);
    if (kind == "mechanism") selection.solid = QString::fromStdString(part);
    if (kind == "mechanism plate") selection.plate = QString::fromStdString(part);
    const auto& set = session.evaluation().mechanisms;
    if (!kind.empty() || !set) return selection;
    const std::string name = mechanismName(session.project(), pointer);
    for (const MovingSolid& solid : set->solids)
        if (solid.drawn && solid.mechanism == name && selection.solid.isEmpty())
            selection.solid = QString::fromStdString(solid.name);
    return selection;
}

bool deleteChosenMechanism(Session& session, QString* told) {
    const std::string pointer = chosenMechanism(session), name = chosenMechanismName(session);
    const bool table = pointer.starts_with("/mechanisms/turntables/");
    const auto standing = standingOn(session.project(), table ? name : std::string());
    const auto edit = deleteMechanism(session.project(), pointer);
    if (!edit) {
        Q_EMIT session.refused(edit.error());
        return false;
    }
    if (!session.apply(*edit)) return false;
    session.settle();
    session.select({});
    if (!told) return true;
    for (const std::string& one : standing)
        *told += (told->isEmpty() ? "" : ", ") + QString::fromStdString(one);
    if (!told->isEmpty())
        *told += " stood on it and stands still now: give it another footing, or delete it too.";
    return true;
}

} // namespace slab::ui
