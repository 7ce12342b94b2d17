#include "core/frames/way_words.h"
#include "core/units/units.h"
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

namespace slab {

namespace {

/// What a vector is longest along: axis · 2, + 1 if against it; and that part of it.
struct Side {
    std::size_t index = 0;
    Vec3 part = Vec3::Zero();
};
Side sideOf(const Vec3& v) {
    int axis = 2; // of two alike, the one that gravity tells
    for (const int k : {0, 1})
        if (std::abs(v[k]) > std::abs(v[axis]) + 1e-9) axis = k;
    Side side{static_cast<std::size_t>(axis) * 2 + (v[axis] < 0 ? 1U : 0U), Vec3::Zero()};
    side.part[axis] = v[axis];
    return side;
}

using Words = std::array<const char*, 6>;
constexpr Words origins{"the front", "the back", "port", "starboard", "above", "below"};
constexpr Words looks{"to the front", "to the back", "to port", "to starboard", "up", "down"};
constexpr Words leans{"to the front", "to the back", "to port", "to starboard", "upward", "downward"};

std::string wordsFor(const Vec3& direction, const Words& mains) {
    constexpr double straight = 0.5 * std::numbers::pi / 180;
    const Side main = sideOf(direction);
    const Vec3 rest = direction - main.part;
    const double lean = std::atan2(rest.norm(), main.part.norm());
    if (lean < straight) return mains[main.index];
    const Side to = sideOf(rest);
    const bool level = std::abs(direction.z()) < std::sin(straight) * direction.norm(); // of an upright board
    std::string words = std::string(mains[main.index]) + (level ? " (turned " : " (leaning ") +
                        printAngle(lean) + " " + leans[to.index];
    const Vec3 last = rest - to.part;
    if (std::atan2(last.norm(), main.part.norm()) >= straight)
        words += std::string(" and ") + leans[sideOf(last).index];
    return words + ")";
}

} // namespace

std::string sideWords(const Vec3& direction) {
    return wordsFor(direction, origins);
}

std::string shortBoard(const std::string& board) {
    constexpr std::string_view common = "frames/";
    return board.starts_with(common) ? board.substr(common.size()) : board;
}

std::string facingWords(const Vec3& direction) {
    return wordsFor(direction, looks);
}

} // namespace slab
