#pragma once
#include "ui/theme/theme.h"

namespace slab::ui {

/// The application's style sheet for a palette: 8 px corners, one hairline, visible focus.
[[nodiscard]] QString styleSheet(const Palette& colours);

} // namespace slab::ui
