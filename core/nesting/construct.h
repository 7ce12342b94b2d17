#pragma once
// One constructive pass: parts in a given order, each to its best corner.
#include "core/nesting/region.h"

namespace slab::nesting {

/// One copy of a part.
struct Item {
    int part = 0, copy = 0;
    bool operator==(const Item&) const = default;
};
struct Placed {
    int item = 0;     ///< index in Task::items
    int oriented = 0; ///< index in Library::oriented
    Pt at;
};

/// What the passes of one call share.
struct Task {
    const NestProblem& problem;
    const Library& library;
    NoFitCache& cache;
    std::vector<Item> items;
    std::vector<double> area; ///< of each part, mm²
};
[[nodiscard]] Task makeTask(const NestProblem& problem, const Library& library, NoFitCache& cache);

/// How a choice between turns of a part is made.
enum class Taste {
    edge,   ///< least far edge along the pull
    corner, ///< least position along the pull
    middle  ///< least middle of the bounding box along the pull
};

/// Everything that a pass may vary.
struct Recipe {
    std::vector<int> order; ///< item indices
    std::vector<int> turn;  ///< per item: index in byPart of its part, or -1 = the best by taste
    Taste taste = Taste::edge;
    bool across = false; ///< pull along y first, then x
    double tilt = 0;     ///< how much of the other direction is mixed into the pull
};

/// One sheet (or the strip) being filled.
struct Filled {
    int sheet = 0;
    bool onHand = false;
    std::vector<Placed> placed;
    double used = 0;           ///< area of parts, mm²
    double reach = 0;          ///< greatest x of any part, mm
    std::vector<double> bound; ///< per oriented part: key that no spot can beat any more
};
struct Build {
    std::vector<Filled> sheets;
    std::vector<int> unplaced; ///< item indices
    double reach = 0;          ///< strip: greatest x of any part
};

[[nodiscard]] Filled emptySheet(const Task& task, int sheet, bool onHand);

/// @return places in the order of the recipe; stops early when the job is stopped (the rest is unplaced)
[[nodiscard]] Build construct(const Task& task, const Recipe& recipe, const Job& job);

/// Puts one item on a sheet by the recipe's rules. @return false if it does not fit
[[nodiscard]] bool putOn(const Task& task, const Recipe& recipe, Filled& filled, int item,
                         RegionScratch& scratch);

} // namespace slab::nesting
