#include "core/evaluate/report_parts.h"
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

namespace slab {

namespace {

using Tree = nlohmann::ordered_json;

double clean(double value) {
    return std::abs(value) < 1e-9 ? 0.0 : value;
}
template <class Point>
Tree listOf(const Point& p) {
    Tree list = Tree::array();
    for (int i = 0; i < p.size(); ++i) list.push_back(clean(p[i]));
    return list;
}

std::string inWords(const Vec3& size, const UnitStyle& units) {
    return printLength(size.x(), units) + " x " + printLength(size.y(), units) + " x " +
           printLength(size.z(), units);
}

/// What its mass leaves out, since nobody knows it.
std::string unweighedWords(const ModuleInfo& module) {
    constexpr std::size_t told = 2;
    const auto& all = module.unweighed;
    std::string out;
    for (std::size_t i = 0; i < all.size() && i < told; ++i)
        out += (i == 0 ? " without " : i + 1 == all.size() ? " and " : ", ") + all[i];
    if (all.size() > told) out += " and " + std::to_string(all.size() - told) + " more";
    return all.empty() ? out
                       : out + (all.size() > 1 ? ", whose masses are" : ", whose mass is") + " not known";
}

} // namespace

Tree seamsReport(const Evaluation& e) {
    Tree list = Tree::array();
    if (!e.seams) return list;
    for (const SeamCut& seam : *e.seams) {
        Tree lines = Tree::array();
        for (const auto& [from, to] : seam.lines) lines.push_back({listOf(from), listOf(to)});
        list.push_back({{"panel", seam.panel},
                        {"plates", seam.plates},
                        {"found", seam.found},
                        {"at_mm", clean(seam.at)},
                        {"turn_deg", clean(seam.turn * 180 / std::numbers::pi)},
                        {"length_mm", seam.length},
                        {"clear_mm", clean(seam.clear)},
                        {"lines_mm", std::move(lines)},
                        {"strips", seam.strips}});
    }
    return list;
}

Tree modulesReport(const Evaluation& e) {
    Tree list = Tree::array();
    if (!e.modules) return list;
    for (const ModuleInfo& m : e.modules->modules) {
        Tree passages = Tree::array(), ties = Tree::array();
        for (const ModulePassing& p : m.passings)
            passages.push_back({{"passage", p.passage},
                                {"passes", p.passes()},
                                {"margin_mm", clean(p.way.margin)},
                                {"needs_mm", listOf(p.way.needs)},
                                {"way", listOf(p.way.way)},
                                {"across", listOf(p.way.across)}});
        for (const auto& [own, other] : m.ties) ties.push_back({own, other});
        list.push_back({{"name", m.name.empty() ? Tree(nullptr) : Tree(m.name)},
                        {"plates", m.plates},
                        {"bought", m.bought},
                        {"unweighed", m.unweighed},
                        {"bounds_mm", {listOf(m.bounds.min), listOf(m.bounds.max)}},
                        {"least_box_mm", listOf(m.box.size)},
                        {"mass_kg", m.mass},
                        {"centre_mm", listOf(m.centre)},
                        {"ties", std::move(ties)},
                        {"passages", std::move(passages)}});
    }
    return list;
}

std::string seamsText(const Evaluation& e) {
    if (!e.seams || e.seams->empty()) return {};
    const UnitStyle& units = e.units;
    std::string out = "\nSeams\n";
    for (const SeamCut& seam : *e.seams)
        out += "  " + seam.panel + ": " + printLength(std::abs(seam.at), units) +
               (seam.at < 0 ? " before" : " past") + " its middle, " + printLength(seam.length, units) +
               " long" + (seam.found ? ", found" : ", placed") +
               (seam.strips.empty() ? ", no strip behind\n" : "\n");
    return out;
}

std::string modulesText(const Evaluation& e) {
    if (!e.modules || e.modules->modules.empty()) return {};
    const auto& all = e.modules->modules;
    // The whole body alone is told with the totals, unless it has a door to pass.
    if (all.size() == 1 && all.front().name.empty() && all.front().passings.empty()) return {};
    const UnitStyle& units = e.units;
    std::string out = "\nModules\n";
    for (const ModuleInfo& m : all) {
        const std::string name = !m.name.empty() ? m.name : all.size() > 1 ? "(what is left)" : "(the body)";
        out += "  " + name + ": " + inWords(m.bounds.size(), units) + " as it stands, " +
               inWords(m.box.size, units) + " in its least box, " +
               (m.mass > 0 || m.unweighed.empty() ? printMass(m.mass, e.units)
                                                  : std::string("of no known mass")) +
               unweighedWords(m) + "\n";
        for (const ModulePassing& p : m.passings)
            out += "    " + std::string(p.passes() ? "passes " : "does not pass ") + p.passage + " by " +
                   printFine(std::abs(p.way.margin), units) + "\n";
    }
    return out;
}

} // namespace slab
