#include "core/evaluate/cutting.h"
#include "core/base/parallel.h"
#include "core/plates/margins.h"

namespace slab {

Cutting cutPanels(const CuttingKey& key) {
    Cutting out;
    out.plates = key.plates;
    const auto take = [&](const std::vector<Finding>& more) {
        out.findings.insert(out.findings.end(), more.begin(), more.end());
    };
    std::shared_ptr<PlateSet> own; // few bodies need a set of their own
    const auto mine = [&]() -> PlateSet& {
        if (!own) own = std::make_shared<PlateSet>(*key.plates);
        return *own;
    };
    const auto join = [&](const PlateList& more) {
        if (more.empty()) return;
        mine().plates.append(more);
        out.plates = own;
    };
    std::vector<Finding> margins;
    SplitPanels split;
    const auto lookAtMargins = [&] {
        margins = marginFindings(*key.plates, *key.stock, key.rounds, key.units);
    };
    const auto layFlat = [&] {
        if (!key.uses.empty()) {
            LidSet lids = makeLids(mine(), *key.stock, key.uses, key.units);
            take(lids.findings);
            join(lids.plates);
        }
        split = splitPanels(makePanels(*out.plates), *out.plates, *key.stock, key.seams, key.units);
    };
    shareOut(2, [&](std::size_t i) { i == 0 ? layFlat() : lookAtMargins(); });
    out.findings.insert(out.findings.begin(), margins.begin(), margins.end());
    take(split.findings);
    join(split.strips);
    out.panels = std::make_shared<const std::vector<Panel>>(std::move(split.panels));
    out.seams = std::make_shared<const std::vector<SeamCut>>(std::move(split.seams));
    return out;
}

} // namespace slab
