#pragma once
#include "core/nesting/nest.h"
#include <algorithm>

namespace slab {

/// Area of one sheet that the lesser of two straight cuts, square to one side, leaves to its panels, mm².
inline double takenOf(const NestProblem& problem, const NestLayout& layout) {
    const NestSheet& sheet = problem.sheets[static_cast<std::size_t>(layout.sheet)];
    Vec2 reach = Vec2::Zero();
    for (const NestPlace& place : layout.places)
        for (const Vec2& p : placed(problem.parts[static_cast<std::size_t>(place.part)], place).outer)
            reach = reach.cwiseMax(p);
    return std::min(reach.x() * sheet.width, reach.y() * sheet.length);
}

} // namespace slab
