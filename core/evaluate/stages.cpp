#include "core/evaluate/stages.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace slab {

UnitStyle unitStyleOf(const std::string& units) {
    UnitStyle style;
    const auto unit = parseUnit(units);
    style.unit = unit ? *unit : Unit::mm;
    return style;
}

Expected<double> readScale(const Text& text) {
    auto scale = parseRatio(text);
    if (!scale) {
        Error e = scale.error();
        e.where = "/scale";
        e.message = "The scale \"" + text + "\" cannot be read: " + e.message;
        return Unexpected(std::move(e));
    }
    if (!std::isfinite(*scale) || *scale < 1e-3 || *scale > 1e3)
        return fail("scale-range", "The scale \"" + text + "\" is not between 1/1000 and 1000.", "/scale",
                    "Write build size over subject size, for example 2/5 or 0.4.");
    return scale;
}

Scope resolveScope(const Project& project, double scale, std::vector<Finding>& findings) {
    std::vector<NamedFormula> named;
    named.reserve(project.dimensions.size());
    for (const Dimension& d : project.dimensions) named.push_back({d.name, d.value, d.space});
    const auto unit = parseUnit(project.units);
    ScopeResult result = evaluateAll(named, scale, unit ? *unit : Unit::mm);
    for (const auto& [name, error] : result.errors) {
        const auto at = std::find_if(project.dimensions.begin(), project.dimensions.end(),
                                     [&](const Dimension& d) { return d.name == name; });
        const std::string place =
            "/dimensions/" + std::to_string(std::distance(project.dimensions.begin(), at)) + "/value";
        Finding f = findingOf(error, Severity::stop, {"dimension:" + name, "document:" + place});
        f.message = "Dimension " + name + ": " + error.message;
        if (!error.where.empty()) f.message += " (" + error.where + ")";
        findings.push_back(std::move(f));
    }
    return std::move(result.scope);
}

std::vector<Finding> nestFindings(const NestProblem& problem, const NestResult& result) {
    std::vector<Finding> findings;
    std::map<int, int> copies;
    for (const auto& [part, copy] : result.unplaced) ++copies[part];
    for (const auto& [index, count] : copies) {
        const NestPart& part = problem.parts[static_cast<std::size_t>(index)];
        Finding f{Severity::stop, "panel-unplaced", {}, {"panel:" + part.id, "plate:" + part.id}, {}, {}};
        f.message = "Panel " + part.id + " finds no place on any sheet of " + part.stock;
        if (count > 1) f.message += " (" + std::to_string(count) + " copies)";
        f.message += ".";
        f.remedy = "Add a larger sheet of that stock, or lower the scale.";
        findings.push_back(std::move(f));
    }
    return findings;
}

std::vector<Finding> namedTwice(const PlateSet& plates) {
    std::vector<Finding> findings;
    std::set<std::string> seen, told;
    for (const Plate& p : plates.plates)
        if (!seen.insert(p.name).second && told.insert(p.name).second)
            findings.push_back({Severity::stop,
                                "plate-name-twice",
                                "Two plates are called " + p.name +
                                    ": joints, sheets and moves that name it cannot tell them apart.",
                                {"plate:" + p.name},
                                "Rename the form or its side, or the mechanism or frame of that name.",
                                {}});
    return findings;
}

std::vector<Finding> cutFindings(const Project& project, const std::vector<Panel>& panels) {
    std::vector<Finding> findings;
    for (const CutPanel& cut : project.cut) {
        // By any of its plates: which one names the panel changes when copies come and go.
        const auto panel =
            std::find_if(panels.begin(), panels.end(), [&](const Panel& p) { return p.isOf(cut.panel); });
        if (panel == panels.end()) {
            findings.push_back({Severity::look,
                                "cut-panel-gone",
                                "Panel " + cut.panel + " is ticked as cut but is no longer part of the body.",
                                {"panel:" + cut.panel},
                                "Undo the change, or take the tick away.",
                                {}});
        } else if (panel->fingerprint != cut.fingerprint) {
            findings.push_back({Severity::stop,
                                "cut-panel-changed",
                                "Panel " + cut.panel + " is already cut, and its outline has changed since.",
                                {"panel:" + cut.panel, "plate:" + cut.panel},
                                "Undo the change, or take the tick away and cut it again.",
                                {}});
        }
    }
    return findings;
}

namespace {

/// Everything that waits for one broken dimension is one entry: the first is told, the others are counted.
std::vector<Finding> waitingTogether(std::vector<Finding> all) {
    std::vector<Finding> out;
    std::map<std::string, std::pair<std::size_t, int>> first; // by remedy: place in `out`, how many more
    for (Finding& f : all) {
        if (f.code == "depends-on-error") {
            const auto [it, fresh] = first.try_emplace(f.remedy, out.size(), 0);
            if (!fresh) {
                ++it->second.second;
                auto& about = out[it->second.first].about;
                for (std::string& a : f.about)
                    if (std::find(about.begin(), about.end(), a) == about.end())
                        about.push_back(std::move(a));
                continue;
            }
        }
        out.push_back(std::move(f));
    }
    for (const auto& [remedy, place] : first)
        if (place.second > 0)
            out[place.first].message += " Waiting too: " + std::to_string(place.second) +
                                        (place.second == 1 ? " more entry." : " more entries.");
    return out;
}

/// Without any sheet nothing is cut; that openings, modules and the like then find no plate is no news.
void dropWhatFollows(std::vector<Finding>& all) {
    if (std::none_of(all.begin(), all.end(), [](const Finding& f) {
            return f.code == "no-material" && f.severity == Severity::stop; // else some sides have one
        }))
        return;
    static const std::set<std::string> follows = {"opening-misses", "module-empty",
                                                  "cleat-misses",   "turntable-no-deck",
                                                  "seam-misses",    "joint-matches-no-edge"};
    std::erase_if(all, [](const Finding& f) { return follows.contains(f.code); });
}

} // namespace

std::vector<Finding> sortedFindings(std::vector<Finding> all) {
    all = waitingTogether(std::move(all));
    dropWhatFollows(all);
    std::vector<Finding> sorted;
    sorted.reserve(all.size());
    for (Severity s : {Severity::stop, Severity::look, Severity::note})
        for (Finding& f : all)
            if (f.severity == s && std::find(sorted.begin(), sorted.end(), f) == sorted.end())
                sorted.push_back(f);
    return sorted;
}

} // namespace slab
