// A known distance on a rectified picture: what was foretold, what it says, what holds now.
#include "core/picture/place.h"
#include "core/picture/typed.h"
#include <cmath>

namespace slab {

double PictureCheck::errors() const {
    const double off = std::abs(found.value - stated);
    return found.error > 0 ? off / found.error : off > 0 ? mostErrors + 1 : 0;
}

std::string checkWords(const PictureCheck& check, const UnitStyle& units) {
    const double off = check.found.value - check.stated;
    const std::string out = "known " + printFine(check.stated, units) + " comes out as " +
                            printFine(check.found.value, units) + ", foretold ± " +
                            printFine(check.found.error, units) + ": ";
    if (check.taken) {
        const std::string after = printFine(check.after, units);
        const bool surer = after != printFine(check.found.error, units);
        return out + "it agrees and is taken in; " +
               (surer ? "such a length is ± " + after + " from now on" : "what was foretold holds");
    }
    return out + printFine(std::abs(off), units) + (off > 0 ? " too long, " : " too short, ") +
           plainNumber(check.errors(), 1) + " times what was foretold, so it is not taken in and no ± holds";
}

} // namespace slab
