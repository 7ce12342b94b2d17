#include "ui/chosen/mechanism_menu.h"
#include "ui/chosen/kind_menu.h"

namespace slab::ui {

QMenu* mechanismsMenu(QWidget* parent, const std::function<void(const MechanismWords&)>& taken) {
    auto* menu = new QMenu(parent);
    menu->setAccessibleName("Mechanisms");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->setToolTipsVisible(true);
    for (const MechanismWords& kind : mechanismWords())
        QObject::connect(kindEntry(kind, menu), &QAction::triggered, parent, [taken, &kind] { taken(kind); });
    return menu;
}

void fillMechanisms(QToolButton* button, const std::function<void(const MechanismWords*)>& taken) {
    fillKinds<MechanismWords>(button, mechanismWords(), taken);
}

void markMechanism(QToolButton* button, const MechanismWords* kind) {
    markKind(button, kind);
}

const MechanismWords* mechanismNamed(const std::string& key) {
    for (const MechanismWords& kind : mechanismWords())
        if (kind.key == key) return &kind;
    return nullptr;
}

} // namespace slab::ui
