#include "core/document/stock_for.h"

namespace slab {

std::string stockFor(const Materials& materials, const std::string& plate) {
    for (const PlateMaterial& choice : materials.plates)
        if (matches(choice.plates, plate)) return choice.stock;
    return materials.fallback;
}

} // namespace slab
