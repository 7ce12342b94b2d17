#pragma once
// From plates to what is cut: lids and lap strips added, panels made, and those too large for a sheet split.
#include "core/plates/lids.h"
#include "core/plates/seams.h"
#include <memory>

namespace slab {

/// All that the step reads.
struct CuttingKey {
    std::shared_ptr<const PlateSet> plates;
    std::shared_ptr<const StockSet> stock;
    std::vector<SeamChoice> seams;
    std::vector<OpeningUse> uses;
    std::vector<RoundPart> rounds;
    UnitStyle units = {};
    bool operator==(const CuttingKey&) const = default;
};
struct Cutting {
    std::shared_ptr<const PlateSet> plates; ///< with lids, lap strips and butt strips
    std::shared_ptr<const std::vector<Panel>> panels;
    std::shared_ptr<const std::vector<SeamCut>> seams;
    std::vector<Finding> findings;
};
[[nodiscard]] Cutting cutPanels(const CuttingKey& key);

} // namespace slab
