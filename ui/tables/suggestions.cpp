#include "ui/tables/suggestions.h"
#include "core/drawing/sheets.h"
#include "ui/tables/built_value.h"

namespace slab::ui {

namespace {

void addPlates(QStringList& all, const Session& session) {
    if (const auto& plates = session.evaluation().plates)
        for (const Plate& plate : plates->plates)
            if (!plate.stock.empty()) all << QString::fromStdString(plate.name); // no sticks of timber
}

void addPoints(QStringList& all, const Node& node) {
    const Node* form = &node;
    while (form->parent && !(form->entry && form->owner == "form")) form = form->parent;
    for (const char* key : {"outline", "base", "corners"})
        if (const Node* list = form->child(key))
            for (const auto& point : list->children) all << QString::fromStdString(point->name());
}

} // namespace

QStringList suggestionsFor(const Session& session, const Node& node) {
    QStringList all;
    switch (node.role) {
    case Role::plate:
        addPlates(all, session);
        break;
    case Role::panel:
        if (const auto& panels = session.evaluation().panels)
            for (const Panel& panel : *panels) all << QString::fromStdString(panel.plates.front());
        break;
    case Role::stock:
        for (const SheetStock& sheet : session.project().stock.sheets)
            all << QString::fromStdString(sheet.name);
        break;
    case Role::point:
        if (node.key != "name") addPoints(all, node);
        break;
    case Role::solid:
        if (const auto& donor = session.evaluation().donor)
            for (const FitSolid& solid : donor->solids) all << QString::fromStdString(solid.name);
        break;
    default:
        if (node.key == "paper")
            for (const std::string& name : paperNames()) all << QString::fromStdString(name);
        else if (isFormula(node.role))
            for (const Dimension& d : session.project().dimensions) all << QString::fromStdString(d.name);
    }
    return all;
}

} // namespace slab::ui
