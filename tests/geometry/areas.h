#pragma once
#include "core/geometry/polygon.h"

namespace slab {

/// Areas of all polygons together, mm².
inline double sumOf(const std::vector<Polygon>& polygons) {
    double sum = 0;
    for (const Polygon& p : polygons) sum += area(p);
    return sum;
}

} // namespace slab
