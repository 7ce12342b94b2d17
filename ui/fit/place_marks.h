#pragma once
// Where the chosen result of the ride, or the chosen finding, is in the 3D view.
#include "ui/fit/ride_marks.h"
#include "ui/session/session.h"

namespace slab::ui {

/// None where nothing of the kind is chosen, or its place is not known.
[[nodiscard]] std::vector<SceneMark> placeMarks(const Evaluation& evaluation, const Selection& chosen);

} // namespace slab::ui
