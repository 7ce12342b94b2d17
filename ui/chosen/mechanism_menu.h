#pragma once
// The kinds of mechanisms that a click can put in, as a menu.
#include "core/board/mechanism_edits.h"
#include <functional>

class QMenu;
class QToolButton;
class QWidget;

namespace slab::ui {

/// @param taken  the kind in hand now; null = none
void fillMechanisms(QToolButton* button, const std::function<void(const MechanismWords*)>& taken);
/// A menu of its own, that goes when it is shut.
[[nodiscard]] QMenu* mechanismsMenu(QWidget* parent, const std::function<void(const MechanismWords&)>& taken);
/// Marks what is in hand; null = nothing.
void markMechanism(QToolButton* button, const MechanismWords* kind);
/// By its key; null = there is none.
[[nodiscard]] const MechanismWords* mechanismNamed(const std::string& key);

} // namespace slab::ui
