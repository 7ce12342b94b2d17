// How large all is that is built, and what is larger than a sheet.
#include "core/evaluate/evaluate.h"
#include <set>

namespace slab {

Box3 builtBounds(const Evaluation& e) {
    Box3 box;
    bool any = false;
    const auto grow = [&](const Box3& more) {
        box = any ? united(box, more) : more;
        any = true;
    };
    if (e.body && e.body->bounds.size().norm() > 0) grow(e.body->bounds);
    if (e.plates)
        for (const Plate& plate : e.plates->plates)
            if (!plate.solid.vertices.empty()) grow(bounds(plate.solid));
    if (e.mechanisms && e.body)
        for (const BoughtPart& part : boughtParts(*e.mechanisms, *e.body)) grow(bounds(part));
    return box;
}

int largerThanSheet(const std::vector<SeamCut>* seams, const NestResult* sheets) {
    std::set<std::string> split;
    std::set<int> unplaced;
    if (seams)
        for (const SeamCut& seam : *seams)
            if (seam.found) split.insert(seam.panel);
    if (sheets)
        for (const auto& [part, copy] : sheets->unplaced) unplaced.insert(part);
    return static_cast<int>(split.size() + unplaced.size());
}

} // namespace slab
