// In which order slotted boards go together.
#include "core/frames/half_lap.h"
#include <algorithm>
#include <set>

namespace slab::frames {

namespace {

using UnitId = std::pair<std::size_t, std::size_t>;

constexpr double parallelWithin = 1e-4; ///< sine: 0.05 mm over a lap of 500 mm

/// Units in order, lower before upper, the first of the list first; those in a ring are left out.
std::vector<UnitId> sorted(const std::vector<LapPair>& laps) {
    std::set<UnitId> waiting;
    for (const LapPair& lap : laps) waiting.insert({lap.lower, lap.upper});
    std::vector<UnitId> order;
    for (bool found = true; found;) {
        found = false;
        for (const UnitId& unit : waiting) {
            const bool free = std::none_of(laps.begin(), laps.end(), [&](const LapPair& lap) {
                return lap.upper == unit && waiting.contains(lap.lower);
            });
            if (!free) continue;
            order.push_back(unit);
            waiting.erase(unit);
            found = true;
            break;
        }
    }
    return order;
}

} // namespace

std::optional<std::size_t> stuckBoard(const std::vector<LapPair>& laps) {
    for (const LapPair& a : laps)
        for (const LapPair& b : laps)
            if (a.upper == b.upper && a.along.cross(b.along).norm() > parallelWithin) return a.upper.first;
    const std::vector<UnitId> order = sorted(laps);
    for (const LapPair& lap : laps)
        if (std::find(order.begin(), order.end(), lap.upper) == order.end()) return lap.upper.first;
    return {};
}

std::vector<std::size_t> buildOrder(const std::vector<LapPair>& laps, std::size_t boards) {
    std::vector<std::size_t> order;
    const auto add = [&](std::size_t board) {
        if (std::find(order.begin(), order.end(), board) == order.end()) order.push_back(board);
    };
    for (const UnitId& unit : sorted(laps)) add(unit.first);
    for (std::size_t i = 0; i < boards; ++i) add(i);
    return order;
}

} // namespace slab::frames
