#include "core/frames/way_words.h"
#include "core/units/units.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

/// Word of the axis that a vector is longest along, and that part of it.
struct Side {
    const char* word = "";
    Vec3 part = Vec3::Zero();
};
Side sideOf(const Vec3& v) {
    static const char* const words[3][2] = {
        {"the front", "the back"}, {"port", "starboard"}, {"above", "below"}};
    int axis = 2; // of two alike, the one that gravity tells
    for (const int k : {0, 1})
        if (std::abs(v[k]) > std::abs(v[axis]) + 1e-9) axis = k;
    Side side{words[axis][v[axis] < 0 ? 1 : 0], Vec3::Zero()};
    side.part[axis] = v[axis];
    return side;
}

} // namespace

std::string sideWords(const Vec3& direction) {
    constexpr double straight = 0.5 * std::numbers::pi / 180;
    const Side main = sideOf(direction);
    const Vec3 rest = direction - main.part;
    const double lean = std::atan2(rest.norm(), main.part.norm());
    if (lean < straight) return main.word;
    const Side to = sideOf(rest);
    std::string words = std::string(main.word) + ", leaning " + printAngle(lean) + " to " + to.word;
    const Vec3 last = rest - to.part;
    if (std::atan2(last.norm(), main.part.norm()) >= straight)
        words += std::string(" and ") + sideOf(last).word;
    return words;
}

} // namespace slab
