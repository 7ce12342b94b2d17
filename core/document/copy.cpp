#include "core/document/copy.h"
#include "core/document/clip.h"
#include "core/document/file.h"
#include "core/document/json.h"
#include "core/document/reach.h"
#include "core/document/texts.h"
#include <algorithm>
#include <cmath>
#include <set>

namespace slab {
namespace {

using detail::FormPlates;
using detail::isOf;
using detail::Json;
using detail::reaches;
using detail::Role;

constexpr const char* kMark = "slabside_forms";

bool ofAny(const std::string& plate, const std::vector<FormPlates>& own) {
    return std::any_of(own.begin(), own.end(), [&](const FormPlates& p) { return isOf(plate, p.form); });
}

/// Values of one formula under both spaces, at two scales; nothing where it has none.
std::vector<std::optional<Quantity>> readings(const std::string& text, const Project& project, Unit unit) {
    std::vector<std::optional<Quantity>> all;
    for (const double scale : {1.0, 0.375}) {
        const Scope scope = detail::scopeOf(project, scale, unit);
        for (const Space space : {Space::subject, Space::build}) {
            const auto value = evaluate(text, scope, space, Kind::length);
            all.push_back(value ? std::optional(*value) : std::nullopt);
        }
    }
    return all;
}

bool alike(const std::vector<std::optional<Quantity>>& a, const std::vector<std::optional<Quantity>>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), [](const auto& x, const auto& y) {
        return x.has_value() == y.has_value() && (!x || detail::sameQuantity(*x, *y));
    });
}

/// A length that takes the document's unit gets it written behind it; any other text comes back as it was.
std::string explicitUnit(const std::string& text, const Project& project) {
    const auto unit = parseUnit(project.units);
    if (!unit || text.empty()) return text;
    const Unit other = *unit == Unit::mm ? Unit::in : Unit::mm;
    const auto meant = readings(text, project, *unit);
    if (alike(meant, readings(text, project, other))) return text;
    const std::string name(unitName(*unit));
    for (const std::string& tried :
         {withUnit(text, *unit), "(" + text + ") * 1 " + name, "(" + text + ") * build(1 " + name + ")",
          "(" + text + ") * subject(1 " + name + ")"})
        if (alike(meant, readings(tried, project, other))) return tried;
    return text;
}

/// Openings in the plates of these forms.
void copyOpenings(const Project& from, const std::vector<FormPlates>& own, Project& clip) {
    for (const Opening& o : from.openings) {
        const bool limited = !o.plates.empty() && std::all_of(o.plates.begin(), o.plates.end(),
                                                              [&](const auto& p) { return ofAny(p, own); });
        if (o.plate.empty() ? limited : ofAny(o.plate, own)) clip.openings.push_back(o);
    }
}

/// Materials, ranks and joints that apply to these forms, as they are written.
void copyRules(const Project& from, const std::vector<FormPlates>& own, Project& clip) {
    clip.materials.fallback = from.materials.fallback;
    for (const PlateMaterial& m : from.materials.plates)
        if (reaches(m.plates, own)) clip.materials.plates.push_back(m);
    clip.joints.fallback = from.joints.fallback;
    for (const std::string& pattern : from.joints.order)
        if (reaches(pattern, own)) clip.joints.order.push_back(pattern);
    for (const EdgeJoint& e : from.joints.edges)
        if (reaches(e.a, own) && reaches(e.b, own)) clip.joints.edges.push_back(e);
    for (const PieceKey& key : from.pieces)
        if (ofAny(key.name, own)) clip.pieces.push_back(key);
}

/// Sheets that the plates of these forms are cut from.
void copySheets(const Project& from, Project& clip) {
    std::set<std::string> used;
    detail::eachText(clip, [&](Role role, std::string& text) {
        if (role == Role::stock) used.insert(text);
    });
    for (const SheetStock& sheet : from.stock.sheets)
        if (used.contains(sheet.name)) clip.stock.sheets.push_back(sheet);
    // A sheet that is missing in the document cannot be brought along: its entry would be refused.
    const auto missing = [&](const std::string& name) {
        return !name.empty() && std::none_of(clip.stock.sheets.begin(), clip.stock.sheets.end(),
                                             [&](const SheetStock& s) { return s.name == name; });
    };
    std::erase_if(clip.materials.plates, [&](const PlateMaterial& m) { return missing(m.stock); });
    if (missing(clip.materials.fallback)) clip.materials.fallback.clear();
}

Expected<Project> clipOf(const Project& project, const std::vector<std::string>& names) {
    Project clip;
    clip.units = project.units;
    clip.scale = project.scale;
    for (const std::string& name : names)
        if (std::none_of(project.forms.begin(), project.forms.end(),
                         [&](const Form& f) { return f.name == name; }))
            return fail("no-such-form", "There is no form named " + name + ".", {}, "Choose a form to copy.");
    for (const Form& form : project.forms)
        if (std::find(names.begin(), names.end(), form.name) != names.end()) clip.forms.push_back(form);
    if (clip.forms.empty()) return fail("no-such-form", "No form is chosen.", {}, "Choose a form to copy.");
    const auto own = detail::platesOf(clip.forms);
    copyOpenings(project, own, clip);
    copyRules(project, own, clip);
    copySheets(project, clip);
    clip.dimensions = project.dimensions;
    detail::dropUnusedDimensions(clip);
    Project worded = clip;
    detail::eachText(worded, [&](Role role, std::string& text) {
        if (role == Role::length) text = explicitUnit(text, clip);
    });
    return worded;
}

} // namespace

Expected<std::string> copyForms(const Project& project, const std::vector<std::string>& names) {
    const auto clip = clipOf(project, names);
    if (!clip) return tl::make_unexpected(clip.error());
    const auto document = detail::parseDocument(writeProject(*clip));
    if (!document) return tl::make_unexpected(document.error());
    return Json{{kMark, 1}, {"document", *document}}.dump(2) + "\n";
}

namespace detail {

Expected<Project> readClip(const std::string& text) {
    const auto refused = [] {
        return fail("not-forms", "This text holds no copied forms.", {}, "Copy a form first.");
    };
    const auto all = parseDocument(text);
    if (!all || !all->is_object() || !all->contains(kMark) || !all->contains("document")) return refused();
    if ((*all)[kMark] != 1)
        return fail("newer-version", "These forms were copied by a newer version.", {},
                    "Copy them again in this version.");
    auto clip = readProject((*all)["document"].dump());
    if (!clip) return clip;
    if (clip->forms.empty()) return refused();
    return clip;
}

Scope scopeOf(const Project& project, double scale, std::optional<Unit> unit) {
    std::vector<NamedFormula> named;
    for (const Dimension& d : project.dimensions) named.push_back({d.name, d.value, d.space});
    const auto own = parseUnit(project.units);
    return evaluateAll(named, scale, unit ? *unit : own ? *own : Unit::mm).scope;
}

bool sameQuantity(const Quantity& a, const Quantity& b) {
    return a.kind == b.kind && a.usesScale == b.usesScale && a.usesBuild == b.usesBuild &&
           std::abs(a.value - b.value) <= 1e-12 * std::max({std::abs(a.value), std::abs(b.value), 1e-3});
}

void dropUnusedDimensions(Project& project) {
    Project rest = project;
    rest.dimensions.clear();
    std::set<std::string> needed;
    std::vector<std::string> open;
    const auto need = [&](const std::string& formula) {
        for (std::string& name : namesIn(formula))
            if (needed.insert(name).second) open.push_back(std::move(name));
    };
    eachText(rest, [&](Role role, std::string& text) {
        if (role == Role::length || role == Role::angle || role == Role::number || role == Role::any)
            need(text);
    });
    while (!open.empty()) {
        const std::string name = std::move(open.back());
        open.pop_back();
        for (const Dimension& d : project.dimensions)
            if (d.name == name) need(d.value);
    }
    std::erase_if(project.dimensions, [&](const Dimension& d) { return !needed.contains(d.name); });
}

} // namespace detail

std::vector<std::string> formsInText(const std::string& text) {
    std::vector<std::string> names;
    if (const auto clip = detail::readClip(text))
        for (const Form& form : clip->forms) names.push_back(form.name);
    return names;
}

} // namespace slab
