#pragma once
#include "core/plates/plate.h"
#include "core/stock/stock.h"

namespace slab {

/// Of what is built, kg: by the density of its sheet, or its own where it is cut from none; 0 if neither is
/// known.
[[nodiscard]] inline double massOf(const Plate& plate, const StockSet& stock) {
    constexpr double cubicMetre = 1e9; // mm³
    const Sheet* sheet = stock.find(plate.stock);
    return plate.volume * (sheet ? sheet->density : plate.density) / cubicMetre;
}

} // namespace slab
