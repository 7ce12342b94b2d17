// Seams and what openings are for, from the document, as figures.
#include "core/plates/lids.h"
#include "core/plates/margins.h"
#include "core/plates/seams.h"
#include <algorithm>

namespace slab {

namespace {

/// Reads values of one entry; what cannot be read becomes a finding and takes its fallback.
struct EntryReader {
    const Scope& scope;
    std::vector<Finding>& findings;
    std::string who, place;

    double operator()(const char* field, const Text& text, Space space, Kind kind, double fallback) {
        if (text.empty()) return fallback;
        const auto value = evaluate(text, scope, space, kind);
        if (value) return value->value;
        Finding f = findingOf(value.error(), Severity::look, {"document:" + place + "/" + field});
        f.message = who + ": " + f.message;
        findings.push_back(std::move(f));
        return fallback;
    }
    /// The same, not below zero.
    double size(const char* field, const Text& text, double fallback) {
        const double value = (*this)(field, text, Space::build, Kind::length, fallback);
        if (value >= 0) return value;
        findings.push_back({Severity::look,
                            "size-below-zero",
                            who + ": " + field + " is below zero; 0 is used",
                            {"document:" + place + "/" + field},
                            "Type 0 or the true size.",
                            {}});
        return 0;
    }
};

} // namespace

std::vector<SeamChoice> resolveSeams(const Project& project, const Scope& scope,
                                     std::vector<Finding>& findings) {
    std::vector<SeamChoice> out;
    for (std::size_t i = 0; i < project.seams.size(); ++i) {
        const Seam& seam = project.seams[i];
        SeamChoice choice;
        choice.plate = seam.plate;
        choice.entry = "/seams/" + std::to_string(i);
        EntryReader read{scope, findings, "Seam of " + seam.plate, choice.entry};
        choice.at = read("at", seam.at, Space::subject, Kind::length, 0);
        choice.turn = read("turn", seam.turn, Space::build, Kind::angle, 0);
        choice.strip = read.size("strip", seam.strip, usualStrip);
        choice.stripStock = seam.strip_stock;
        out.push_back(std::move(choice));
    }
    return out;
}

std::vector<OpeningUse> resolveUses(const Project& project, const Scope& scope, const PlateRules& rules,
                                    std::vector<Finding>& findings) {
    std::vector<OpeningUse> out;
    for (std::size_t i = 0; i < project.openings.size(); ++i) {
        const Opening& opening = project.openings[i];
        const auto shape = std::find_if(rules.openings.begin(), rules.openings.end(),
                                        [&](const ResolvedOpening& o) { return o.name == opening.name; });
        if (shape == rules.openings.end()) continue; // told already
        OpeningUse use;
        use.opening = opening.name;
        use.purpose = opening.purpose;
        use.lid = opening.lid && !isForFrames(*shape);
        use.lapStock = opening.lap_stock;
        use.least = leastWidth(shape->outline);
        EntryReader read{scope, findings, "Opening " + opening.name, "/openings/" + std::to_string(i)};
        if (opening.lid) {
            use.gap = read.size("lid_gap", opening.lid_gap, use.gap);
            use.lap = read.size("lap", opening.lap, 0);
        }
        out.push_back(std::move(use));
    }
    return out;
}

} // namespace slab
