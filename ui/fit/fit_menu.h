#pragma once
// The menu at the pointer in the 3D view.
#include "ui/fit/fit_hand.h"

class QMenu;

namespace slab::ui {

/// What can be made of what is chosen, and the mechanisms that can be put in at the place. It goes when it is
/// shut. @param spot  nothing = beside the body
[[nodiscard]] QMenu* fitMenu(Session* session, FitHand* hand, QWidget* parent,
                             const std::optional<MechanismSpot>& spot, double step);

} // namespace slab::ui
