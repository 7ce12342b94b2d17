#include "core/evaluate/cutting.h"
#include "core/plates/margins.h"

namespace slab {

Cutting cutPanels(const CuttingKey& key) {
    Cutting out;
    out.findings = marginFindings(*key.plates, *key.stock, key.rounds, key.units);
    const auto take = [&](const std::vector<Finding>& more) {
        out.findings.insert(out.findings.end(), more.begin(), more.end());
    };
    PlateSet all = *key.plates;
    LidSet lids = makeLids(all, *key.stock, key.uses, key.units);
    take(lids.findings);
    std::move(lids.plates.begin(), lids.plates.end(), std::back_inserter(all.plates));
    SplitPanels split = splitPanels(makePanels(all), all, *key.stock, key.seams, key.units);
    take(split.findings);
    const bool more = all.plates.size() > key.plates->plates.size() || !split.strips.empty();
    std::move(split.strips.begin(), split.strips.end(), std::back_inserter(all.plates));
    out.plates = more ? std::make_shared<const PlateSet>(std::move(all)) : key.plates;
    out.panels = std::make_shared<const std::vector<Panel>>(std::move(split.panels));
    out.seams = std::make_shared<const std::vector<SeamCut>>(std::move(split.seams));
    return out;
}

} // namespace slab
