#pragma once
// What both ways of improving share.
#include "core/nesting/improve.h"

namespace slab::nesting {

inline constexpr int patience = 60; ///< passes without a gain of 2 % before a strike
inline constexpr int strikes = 3;

/// Passes until parted (true) or out of patience or budget (false); then the separator holds the best found.
[[nodiscard]] bool part(Separator& separator, Budget& budget, int patient, int strikesLeft);

/// Greatest x of any body.
[[nodiscard]] double reachOf(const Task& task, const std::vector<Body>& bodies);
[[nodiscard]] std::vector<Body> bodiesOf(const Build& build);
/// The bodies as a build on the same sheets.
[[nodiscard]] Build buildOf(const Task& task, const Build& like, const std::vector<Body>& bodies);

} // namespace slab::nesting
