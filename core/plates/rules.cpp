// Ranks, materials, overrides and openings from the document, as figures for one body.
#include "core/plates/openings.h"
#include "core/stock/stock.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace slab {

namespace {

using Findings = std::vector<Finding>;

/// A plate to be: its names (first its own, then aliases).
struct Target {
    std::vector<std::string> names;
    [[nodiscard]] bool is(const std::string& pattern) const {
        return std::any_of(names.begin(), names.end(), [&](const auto& n) { return matches(pattern, n); });
    }
};

/// JSON pointer of a material entry.
std::string placeOf(const std::string& pattern) {
    std::string place = "/materials/plates/";
    for (const char c : pattern) place += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    return place;
}

/// Gives every plate its rank and its sheet.
class Chooser {
public:
    Chooser(const Project& project, const StockSet& stock) : m_project(project), m_stock(stock) {}

    FaceChoice choose(const Target& target) {
        FaceChoice choice;
        const auto& order = m_project.joints.order;
        choice.rank = static_cast<int>(order.size());
        for (std::size_t i = 0; i < order.size(); ++i)
            if (target.is(order[i])) {
                choice.rank = static_cast<int>(i);
                break;
            }
        const PlateMaterial* entry = nullptr;
        for (const PlateMaterial& m : m_project.materials.plates)
            if (!entry && target.is(m.plates)) entry = &m;
        const std::string& wanted = entry ? entry->stock : m_project.materials.fallback;
        if (wanted.empty()) return choice;
        const Sheet* sheet = m_stock.find(wanted);
        if (!sheet) {
            m_missing[{wanted, entry ? placeOf(entry->plates) : "/materials/default"}].push_back(
                target.names.front());
            sheet = standIn();
        }
        if (!sheet) return choice;
        choice.stock = sheet->name;
        choice.thickness = sheet->thickness;
        return choice;
    }

    /// One finding for each entry that names a sheet which cannot be used.
    void report(Findings& findings) const {
        const Sheet* sheet = standIn();
        for (const auto& [use, plates] : m_missing) {
            Finding f{Severity::stop, "unknown-stock", {}, {}, {}, {}};
            f.message = plates.front();
            if (plates.size() > 1) f.message += " and " + std::to_string(plates.size() - 1) + " more";
            f.message += plates.size() > 1 ? " are" : " is";
            f.message += " to be cut from \"" + use.first + "\", which is not a usable sheet in the stock; ";
            f.message +=
                sheet ? "drawn in " + sheet->name + " until then." : "there is no other sheet to draw it in.";
            f.about = {"document:" + use.second, "stock:" + use.first};
            for (const std::string& plate : plates) f.about.push_back("plate:" + plate);
            f.remedy = "Add that sheet to the stock, or choose another material for the plate.";
            findings.push_back(std::move(f));
        }
    }

private:
    const Project& m_project;
    const StockSet& m_stock;
    std::map<std::pair<std::string, std::string>, std::vector<std::string>>
        m_missing; ///< sheet and place in the document -> plates

    /// What plates are drawn in while their own sheet is missing: the default sheet, else the first.
    [[nodiscard]] const Sheet* standIn() const {
        if (const Sheet* sheet = m_stock.find(m_project.materials.fallback)) return sheet;
        return m_stock.sheets.empty() ? nullptr : &m_stock.sheets.front();
    }
};

/// Plates of a form of the document of which none is there: it is off, or could not be made, which is told by
/// itself. The name is right.
bool namesFormThatIsNotThere(const Project& project, const std::vector<Target>& targets,
                             const std::string& pattern) {
    const std::string form = pattern.substr(0, pattern.find('/'));
    const bool known = std::any_of(project.forms.begin(), project.forms.end(),
                                   [&](const auto& f) { return f.name == form; });
    return known &&
           std::none_of(targets.begin(), targets.end(), [&](const Target& t) { return t.is(form + "/*"); });
}

void noteUnused(const Project& project, const std::vector<Target>& targets, const Skin& skin,
                Findings& findings) {
    const auto used = [&](const std::string& pattern) {
        return std::any_of(targets.begin(), targets.end(), [&](const Target& t) { return t.is(pattern); });
    };
    const auto note = [&](const std::string& pattern, const std::string& where) {
        if (namesFormThatIsNotThere(project, targets, pattern)) return;
        findings.push_back({Severity::note,
                            "matches-no-plate",
                            where + " \"" + pattern + "\" matches no plate of a form",
                            {"plate:" + pattern},
                            "Correct the name, or take the entry out.",
                            {}});
    };
    for (const auto& p : project.joints.order)
        if (!used(p)) note(p, "Joint order entry");
    for (const auto& m : project.materials.plates)
        if (!used(m.plates)) note(m.plates, "Material entry");
    for (const auto& e : project.joints.edges) {
        const bool found = std::any_of(skin.edges.begin(), skin.edges.end(), [&](const SkinEdge& s) {
            const Target& l = targets[static_cast<std::size_t>(s.left)];
            const Target& r = targets[static_cast<std::size_t>(s.right)];
            return (l.is(e.a) && r.is(e.b)) || (l.is(e.b) && r.is(e.a));
        });
        if (!found && !namesFormThatIsNotThere(project, targets, e.a) &&
            !namesFormThatIsNotThere(project, targets, e.b))
            findings.push_back({Severity::note,
                                "joint-matches-no-edge",
                                "Joint between \"" + e.a + "\" and \"" + e.b + "\": no two such plates meet",
                                {"edge:" + e.a + "|" + e.b},
                                "Correct the names, or take the entry out.",
                                {}});
    }
}

/// Entry without *, so the builder meant this very side.
bool names(const std::string& pattern, const std::string& name) {
    return pattern.find('*') == std::string::npos && matches(pattern, name);
}

/// Sides that became one plate have one rank: a later entry that names another of them is not obeyed.
void checkRanks(const Project& project, const Target& target, Findings& findings) {
    const auto& order = project.joints.order;
    const auto first = std::find_if(order.begin(), order.end(), [&](const auto& p) { return target.is(p); });
    for (std::size_t n = 0; first != order.end() && n < target.names.size(); ++n) {
        const std::string& name = target.names[n];
        if (matches(*first, name)) continue;
        const auto own =
            std::find_if(order.begin(), order.end(), [&](const auto& p) { return matches(p, name); });
        if (own == order.end() || !names(*own, name)) continue;
        findings.push_back(
            {Severity::look,
             "merged-order",
             target.names.front() + " is one plate of several sides; the joint order names it by \"" +
                 *first + "\" and again by \"" + *own + "\". The first counts.",
             {"plate:" + target.names.front()},
             "Take one of the two out, or give the sides different materials to keep them apart.",
             {}});
    }
}

/// The entry names both plates by their own names.
bool ownNames(const Target& l, const Target& r, const EdgeJoint& e) {
    const auto &a = l.names.front(), &b = r.names.front();
    return (matches(e.a, a) && matches(e.b, b)) || (matches(e.a, b) && matches(e.b, a));
}

/// The same for the joint chosen at an edge.
void checkEdgeChoices(const Project& project, const Target& l, const Target& r, Findings& findings) {
    const EdgeJoint* chosen = nullptr;
    std::string reading;
    for (const bool own : {true, false})
        for (const EdgeJoint& e : project.joints.edges) {
            const auto at = [&](const Target& t, const std::string& pattern) {
                return own ? matches(pattern, t.names.front()) : t.is(pattern);
            };
            const bool along = at(l, e.a) && at(r, e.b), across = at(l, e.b) && at(r, e.a);
            if (!along && !across) continue;
            if (!own && ownNames(l, r, e)) continue;
            std::string here = std::to_string(static_cast<int>(e.joint));
            if (e.joint == JointKind::cover) here += across ? "across" : "along";
            if (!chosen) {
                chosen = &e;
                reading = here;
            }
            const bool meant = e.a.find('*') == std::string::npos && e.b.find('*') == std::string::npos;
            if (own || !meant || here == reading) continue;
            const std::string a = l.names.front(), b = r.names.front();
            findings.push_back({Severity::look,
                                "merged-joint",
                                "The edge between " + a + " and " + b + " is chosen twice, as \"" +
                                    chosen->a + "\" with \"" + chosen->b + "\" and as \"" + e.a +
                                    "\" with \"" + e.b +
                                    "\", and not alike: the sides are one plate. The first is built.",
                                {"edge:" + a + "|" + b, "plate:" + a, "plate:" + b},
                                "Take one of the two choices out, or make them alike.",
                                {}});
        }
}

void checkMerged(const Project& project, const std::vector<Target>& targets, const Skin& skin,
                 Findings& findings) {
    for (const Target& t : targets)
        if (t.names.size() > 1) checkRanks(project, t, findings);
    std::set<std::pair<int, int>> seen;
    for (const SkinEdge& e : skin.edges) {
        const Target& l = targets[static_cast<std::size_t>(e.left)];
        const Target& r = targets[static_cast<std::size_t>(e.right)];
        if (l.names.size() + r.names.size() < 3 || !seen.insert(std::minmax(e.left, e.right)).second)
            continue;
        checkEdgeChoices(project, l, r, findings);
    }
}

/// Sides that no entry names, where there is no default: they are left out by nobody's wish.
std::vector<std::string> unsaid(const Project& project, const std::vector<Target>& targets) {
    std::vector<std::string> out;
    if (!project.materials.fallback.empty()) return out;
    for (const Target& t : targets)
        if (std::none_of(project.materials.plates.begin(), project.materials.plates.end(),
                         [&](const PlateMaterial& m) { return t.is(m.plates); }))
            out.push_back(t.names.front());
    return out;
}

/// A body without any sheet: nothing is left out on purpose there, it is only not said yet.
void noteNoMaterial(const Project& project, const PlateRules& rules, const std::vector<Target>& targets,
                    Findings& findings) {
    if (const auto sides = unsaid(project, targets); !sides.empty() && sides.size() < targets.size()) {
        Finding f{Severity::look, "no-material", {}, {"document:/materials/default"}, {}, {}};
        f.message = "No sheet is chosen for " + sides.front();
        if (sides.size() > 1) f.message += " and " + std::to_string(sides.size() - 1) + " more";
        f.message += ": nothing is cut there.";
        for (const std::string& side : sides) f.about.push_back("plate:" + side);
        f.remedy = "Choose a default sheet under Plates and materials, or leave the plate out there.";
        findings.push_back(std::move(f));
        return;
    }
    const auto bare = [](const FaceChoice& c) { return c.stock.empty(); };
    const bool any = !rules.faces.empty() || !rules.freePlates.empty();
    if (!any || !project.materials.fallback.empty() || !project.materials.plates.empty() ||
        !std::all_of(rules.faces.begin(), rules.faces.end(), bare) ||
        !std::all_of(rules.freePlates.begin(), rules.freePlates.end(), bare))
        return;
    findings.push_back({Severity::stop,
                        "no-material",
                        "No sheet is chosen for any plate: nothing is cut.",
                        {"document:/materials/default"},
                        "Add a sheet to the stock, and choose it as the default under Plates and materials.",
                        {}});
}

} // namespace

PlateRules resolveRules(const Project& project, const Scope& scope, const Body& body, Findings& findings) {
    PlateRules rules;
    rules.units.unit = scope.unit;
    const StockSet stock = resolveStock(project, scope);
    Chooser chooser(project, stock);
    std::vector<Target> targets;
    for (const auto& face : body.skin.faces) {
        Target t{{face.name}};
        t.names.insert(t.names.end(), face.aliases.begin(), face.aliases.end());
        rules.faces.push_back(chooser.choose(t));
        targets.push_back(std::move(t));
    }
    for (const auto& plate : body.plates) {
        targets.push_back({{plate.name}});
        rules.freePlates.push_back(chooser.choose(targets.back()));
    }
    rules.fallback = project.joints.fallback;
    rules.edges = project.joints.edges;
    for (const auto& o : project.openings) {
        ResolvedOpening opening;
        if (readOpening(o, scope, findings, opening)) rules.openings.push_back(std::move(opening));
    }
    chooser.report(findings);
    noteNoMaterial(project, rules, targets, findings);
    noteUnused(project, targets, body.skin, findings);
    checkMerged(project, targets, body.skin, findings);
    return rules;
}

} // namespace slab
