// Do plates of different bodies fill the same space?
#include "core/plates/free_plates.h"
#include "core/units/units.h"
#include <cmath>
#include <map>

namespace slab::plates {

namespace {

/// Common volume of two cells from different tables; `middle` is weighted by it.
double common(const PlaneTable& planes, const Cell& a, const PlaneTable& others, const Cell& b,
              Vec3& weighted) {
    PlaneTable table = planes;
    Cell rest = a;
    for (const auto& f : b.facets) {
        const Plane& p = others[f.half.plane];
        const double sign = f.half.flip ? -1 : 1;
        rest = clipped(table, rest, table.add({sign * p.normal, sign * p.offset}));
        if (rest.empty()) return 0;
    }
    const double v = volume(rest);
    weighted += v * middle(rest);
    return v;
}

/// Plate forms are never joined; of two that cross the one that ranks lower gets the opening.
std::string remedyFor(const PlateSet& set, const Built& a, const Built& b) {
    const auto isForm = [](const Built& one) { return one.group < 0; };
    if (!isForm(a) && !isForm(b)) return "Move one of them clear by the overlap, or join the two forms.";
    const bool second = isForm(b) && (!isForm(a) || set.plates[a.plate].rank <= set.plates[b.plate].rank);
    const std::string& moved = set.plates[second ? b.plate : a.plate].name;
    const std::string& other = set.plates[second ? a.plate : b.plate].name;
    const bool both = isForm(a) && isForm(b);
    return "Move " + moved + " clear of " + other +
           ", change its angle, or cut an opening where they cross, in " + (both ? moved : other) + ".";
}

} // namespace

void checkOverlaps(const std::vector<Built>& built, PlateSet& set, const Job& job) {
    std::vector<Box3> wholes;
    for (const Built& b : built) wholes.push_back(b.cells.empty() ? Box3{} : bounds(b.cells));
    for (std::size_t i = 0; i < built.size() && !job.stopped(); ++i)
        for (std::size_t j = i + 1; j < built.size(); ++j) {
            if (built[i].group == built[j].group || !boxesMeet(wholes[i], wholes[j], -1e-6)) continue;
            Misfit overlap;
            Vec3 weighted = Vec3::Zero();
            for (const Cell& a : built[i].cells) {
                if (!boxesMeet(bounds(a), wholes[j], -1e-6)) continue;
                for (const Cell& b : built[j].cells)
                    if (boxesMeet(bounds(a), bounds(b), -1e-6))
                        overlap.volume += common(*built[i].planes, a, *built[j].planes, b, weighted);
            }
            if (overlap.volume < 1e-3) continue; // mm³: contact with rounding
            overlap.at = weighted / overlap.volume;
            overlap.plates = {set.plates[built[i].plate].name, set.plates[built[j].plate].name};
            char text[40];
            std::snprintf(text, sizeof text, "%.3g cm³", overlap.volume / 1000);
            set.findings.push_back(
                {Severity::stop,
                 "plates-overlap",
                 overlap.plates[0] + " and " + overlap.plates[1] + " fill the same space (" + text + ")",
                 {"plate:" + overlap.plates[0], "plate:" + overlap.plates[1]},
                 remedyFor(set, built[i], built[j]),
                 std::array<double, 3>{overlap.at.x(), overlap.at.y(), overlap.at.z()}});
            set.overlaps.push_back(std::move(overlap));
        }
}

} // namespace slab::plates
