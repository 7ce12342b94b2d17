#include "core/document/copy.h"
#include "core/document/clip.h"
#include "core/document/file.h"
#include "core/document/json.h"
#include "core/document/reach.h"
#include "core/document/texts.h"
#include <algorithm>
#include <array>
#include <charconv>
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
    for (const Seam& seam : from.seams)
        if (ofAny(seam.plate, own)) clip.seams.push_back(seam);
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
    for (Opening& o : clip.openings)
        if (missing(o.lap_stock)) o.lap_stock.clear();
    for (Seam& seam : clip.seams)
        if (missing(seam.strip_stock)) seam.strip_stock.clear();
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
    detail::writeUnits(clip);
    return clip;
}

} // namespace

Expected<std::string> copyForms(const Project& project, const std::vector<std::string>& names) {
    const auto clip = clipOf(project, names);
    if (!clip) return tl::make_unexpected(clip.error());
    const auto document = detail::parseDocument(writeProject(*clip));
    if (!document) return tl::make_unexpected(document.error());
    return Json{{kMark, 1}, {"document", *document}}.dump(2) + "\n";
}

namespace {

/// The fewest digits that read back as the same number.
std::string shortest(double value) {
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
    return {digits.data(), end};
}

} // namespace

Project donorAlone(const Project& project) {
    Project out;
    out.units = project.units;
    out.scale = "1";
    out.donor = project.donor;
    out.rider = project.rider;
    out.clearance = project.clearance;
    out.dimensions = project.dimensions;
    detail::dropUnusedDimensions(out);
    detail::writeUnits(out);
    const auto scale = parseRatio(project.scale);
    const Scope built = detail::scopeOf(project, scale && *scale > 0 ? *scale : 1);
    for (Dimension& d : out.dimensions) {
        const auto at = built.values.find(d.name);
        if (at == built.values.end() || at->second.kind != Kind::length || !at->second.usesScale) continue;
        d.value = shortest(at->second.value) + " mm";
        d.space = Space::build;
    }
    return out;
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

namespace {

/// Writes the document's unit behind lengths that take it.
class UnitWriter {
public:
    UnitWriter(const Project& project, Unit unit) : m_unit(unit) {
        const Unit other = unit == Unit::mm ? Unit::in : Unit::mm;
        for (const double scale : {1.0, 0.375}) {
            m_meant.push_back(scopeOf(project, scale, unit));
            m_other.push_back(scopeOf(project, scale, other));
        }
    }
    /// Any other text comes back as it was.
    [[nodiscard]] std::string written(const std::string& text) const {
        if (text.empty() || same(text, m_other, text)) return text;
        const std::string one = "1 " + std::string(unitName(m_unit)), in = "(" + text + ") * ";
        for (const std::string& tried :
             {withUnit(text, m_unit), in + one, in + "build(" + one + ")", in + "subject(" + one + ")"})
            if (same(text, m_other, tried)) return tried;
        return text;
    }

private:
    Unit m_unit;
    std::vector<Scope> m_meant, m_other;

    /// Does `tried` mean in the other scopes what `text` means in its own, whatever the space and scale?
    [[nodiscard]] bool same(const std::string& text, const std::vector<Scope>& scopes,
                            const std::string& tried) const {
        for (std::size_t i = 0; i < scopes.size(); ++i)
            for (const Space space : {Space::subject, Space::build}) {
                const auto a = evaluate(text, m_meant[i], space, Kind::length);
                const auto b = evaluate(tried, scopes[i], space, Kind::length);
                if (a.has_value() != b.has_value() || (a && !sameQuantity(*a, *b))) return false;
            }
        return true;
    }
};

} // namespace

void writeUnits(Project& project) {
    const auto unit = parseUnit(project.units);
    if (!unit) return;
    const UnitWriter writer(project, *unit);
    eachText(project, [&](Role role, std::string& text) {
        if (role == Role::length) text = writer.written(text);
    });
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
