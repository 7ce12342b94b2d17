#pragma once
// Ready parts for the route: published figures with their sections, and frames for what is measured at home.
#include "core/document/edit.h"
#include <vector>

namespace slab::trial {

struct RouteExample {
    std::string words;   ///< "Door, 32″ clear"
    std::string section; ///< document and clause; empty: to be measured
    RoutePart part;      ///< its note says where each figure comes from
};
/// Published ones first. Local rules govern; what is really there is measured.
[[nodiscard]] const std::vector<RouteExample>& routeExamples();
/// The first to try where the route is empty: a door.
[[nodiscard]] const RouteExample& firstExample();

/// Edit that adds a part behind the others; a name that is taken gets a number.
[[nodiscard]] Edit addToRoute(RoutePart part);
/// Name of a kind for people: "turning circle".
[[nodiscard]] std::string kindWords(const std::string& kind);

} // namespace slab::trial
