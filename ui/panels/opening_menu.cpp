#include "ui/panels/opening_menu.h"
#include "ui/chosen/kind_menu.h"

namespace slab::ui {

void fillOpenings(QToolButton* button, const std::function<void(const OpeningKind*)>& taken) {
    fillKinds<OpeningKind>(button, openingKinds(), taken);
}

void markOpening(QToolButton* button, const OpeningKind* kind) {
    markKind(button, kind);
}

} // namespace slab::ui
