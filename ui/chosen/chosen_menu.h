#pragma once
// The menu of what can be made of what is chosen: in the menu bar, and at the pointer in every view.
#include "ui/session/session.h"

class QMenu;

namespace slab::ui {

/// Adds the entries. In the menu bar they have keys; what cannot be done now is greyed.
void fillChosen(QMenu* menu, Session* session, bool keys);
/// A menu of its own at the pointer, that goes when it is shut.
QMenu* chosenMenu(Session* session, QWidget* parent);

} // namespace slab::ui
