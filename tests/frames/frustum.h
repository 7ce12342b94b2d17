#pragma once
#include "tests/body/make.h"

namespace slab {

/// Frustum of reference-values 7.4: a square of side 600 below, 400 above, 400 high; form "tower", sides a to
/// d.
inline Body frustumBody() {
    TaperShape s;
    for (const auto& [name, x, y] : {std::tuple{"a", -1, -1}, {"b", 1, -1}, {"c", 1, 1}, {"d", -1, 1}}) {
        s.base.push_back(planPoint(name, 300 * x, 300 * y));
        s.top.push_back(planPoint(name, 200 * x, 200 * y));
    }
    s.base_z = "0";
    s.top_z = "400 mm";
    return bodyOf(projectOf({named("tower", s)}));
}

} // namespace slab
