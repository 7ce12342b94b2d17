#include "core/lines/lines.h"
#include "core/lines/handles.h"
#include <algorithm>
#include <charconv>
#include <cmath>

namespace slab {

namespace {

Unexpected noPoint(const std::string& name) {
    return fail("no-such-point", "There is no point \"" + name + "\".", {},
                "Name a form and one of its points, for example hull/stem head.");
}

std::optional<std::size_t> positionIn(const std::vector<OutlinePoint>& points, const std::string& word) {
    for (std::size_t i = 0; i < points.size(); ++i)
        if (detail::pointName(points, i) == word) return i;
    return {};
}

std::optional<std::size_t> numberIn(const std::vector<OutlinePoint>& points, const std::string& word) {
    std::size_t i = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), i);
    if (error != std::errc() || end != word.data() + word.size() || i >= points.size()) return {};
    return i;
}

/// What follows the form's name.
std::optional<PointRef> refIn(const Form& form, const std::string& base, std::string rest) {
    Handle handle = Handle::corner;
    constexpr std::string_view half = "/half_width";
    if (rest.ends_with(half) && std::holds_alternative<ProfileShape>(form.shape)) {
        rest.resize(rest.size() - half.size());
        handle = Handle::halfWidth;
    }
    if (std::holds_alternative<RoundShape>(form.shape)) {
        if (rest == "end") return PointRef{base, Handle::roundEnd};
        if (rest == "radius") return PointRef{base, Handle::radius};
        if (rest == "end radius") return PointRef{base, Handle::topRadius};
    }
    for (const std::string& list : detail::listsOf(form)) {
        const auto& points = *detail::pointsOf(form, list);
        auto at = positionIn(points, rest);
        if (!at && rest.starts_with(list + "/")) {
            const std::string word = rest.substr(list.size() + 1);
            at = positionIn(points, word);
            if (!at) at = numberIn(points, word);
        }
        if (at) return PointRef{base + "/" + list + "/" + std::to_string(*at), handle};
    }
    return {};
}

} // namespace

Expected<PointRef> refNamed(const Project& project, const std::string& name) {
    const std::size_t slash = name.find('/');
    const std::string form = name.substr(0, slash);
    for (std::size_t i = 0; i < project.forms.size(); ++i) {
        if (project.forms[i].name != form) continue;
        const std::string base = "/forms/" + std::to_string(i);
        if (slash == std::string::npos) return PointRef{base, Handle::place};
        if (const auto ref = refIn(project.forms[i], base, name.substr(slash + 1))) return *ref;
    }
    return noPoint(name);
}

std::string lineName(const Project& project, const PointRef& ref) {
    const auto place = detail::placeIn(ref.pointer);
    if (!place || place->form >= static_cast<int>(project.forms.size())) return {};
    const Form& form = project.forms[static_cast<std::size_t>(place->form)];
    if (ref.handle == Handle::roundEnd) return form.name + "/end";
    if (ref.handle == Handle::radius) return form.name + "/radius";
    if (ref.handle == Handle::topRadius) return form.name + "/end radius";
    const auto* points = detail::pointsOf(form, place->list);
    const auto i = static_cast<std::size_t>(place->index);
    if (!points || place->index < 0 || i >= points->size()) return form.name;
    std::string name = form.name + "/" + detail::pointName(*points, i);
    if (ref.handle == Handle::halfWidth) name += "/half_width";
    // A top corner of a taper form, and a point whose name another one has: by position.
    if (const auto same = refNamed(project, name); !same || !(*same == ref)) {
        name = form.name + "/" + place->list + "/" + std::to_string(i);
        if (ref.handle == Handle::halfWidth) name += "/half_width";
    }
    return name;
}

Expected<Vec3> pointNamed(const Project& project, const Scope& scope, const std::string& name) {
    const auto ref = refNamed(project, name);
    if (!ref) return Unexpected(ref.error());
    const auto handle = detail::handleAt(project, *ref, scope, BoardView::side);
    if (!handle)
        return fail("broken-formula",
                    "The point \"" + name + "\" has no place: one of its formulas has no value.", {},
                    "Correct the formula.");
    return handle->place;
}

Expected<double> lengthOf(const Project& project, const Scope& scope, const DimensionLine& line) {
    const auto view = parseView(line.view);
    if (!view) return Unexpected(view.error());
    const auto from = pointNamed(project, scope, line.from);
    if (!from) return Unexpected(from.error());
    const auto to = pointNamed(project, scope, line.to);
    if (!to) return Unexpected(to.error());
    const Vec3 way = *to - *from;
    if (line.along.empty()) return seen(way, *view).norm();
    for (int axis = 0; axis < 3; ++axis)
        if (line.along == std::string(1, "xyz"[axis])) return std::abs(way[axis]);
    return fail("unknown-word", "\"" + line.along + "\" is no direction.", {},
                "Use x, y or z, or leave it empty.");
}

Scope scopeOf(const Project& project, double scale) {
    std::vector<NamedFormula> named;
    for (const Dimension& d : project.dimensions) named.push_back({d.name, d.value, d.space});
    const auto unit = parseUnit(project.units);
    return evaluateAll(named, scale, unit ? *unit : Unit::mm).scope;
}

namespace {

/// Another value of the dimension gives another distance.
bool reaches(const Project& project, const Scope& scope, const DimensionLine& line, std::size_t dimension) {
    const auto before = lengthOf(project, scope, line);
    if (!before) return true; // told already
    Project trial = project;
    Text& value = trial.dimensions[dimension].value;
    const auto kind = scope.values.find(project.dimensions[dimension].name);
    if (kind == scope.values.end()) return true; // the dimension's own finding tells it
    value = "(" + value + ") " +
            (kind->second.kind == Kind::length  ? "+ 1 mm"
             : kind->second.kind == Kind::angle ? "+ 0.5 deg"
                                                : "* 1.01 + 0.001");
    const auto after = lengthOf(trial, scopeOf(trial, scope.scale), line);
    return !after || std::abs(*after - *before) > 1e-9;
}

Finding about(const DimensionLine& line, std::size_t index, Severity severity, std::string code) {
    Finding f{severity, std::move(code), "Dimension line " + line.name + ": ", {}, {}, {}};
    f.about.push_back("document:/dimension_lines/" + std::to_string(index));
    return f;
}

} // namespace

std::vector<Finding> lineFindings(const Project& project, const Scope& scope) {
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < project.lines.size(); ++i) {
        const DimensionLine& line = project.lines[i];
        const auto length = lengthOf(project, scope, line);
        if (!length && length.error().code != "broken-formula") { // the formula has a finding of its own
            Finding f = about(line, i, Severity::look, "line-point");
            f.message += length.error().message;
            f.remedy = "Choose its points again, or delete the line.";
            findings.push_back(std::move(f));
            continue;
        }
        if (line.drives.empty()) continue;
        const auto d = std::find_if(project.dimensions.begin(), project.dimensions.end(),
                                    [&](const Dimension& o) { return o.name == line.drives; });
        if (d == project.dimensions.end()) {
            Finding f = about(line, i, Severity::look, "line-drives");
            f.message += "it drives \"" + line.drives + "\", and there is no dimension of that name.";
            f.remedy = "Choose another dimension, or let the line only tell the distance.";
            findings.push_back(std::move(f));
        } else if (!reaches(project, scope, line, static_cast<std::size_t>(d - project.dimensions.begin()))) {
            Finding f = about(line, i, Severity::note, "line-reach");
            f.message +=
                line.drives + " does not change what it measures, so typing a distance here does nothing.";
            f.about.push_back("dimension:" + line.drives);
            f.remedy = "Use " + line.drives + " in one of its points, or choose another dimension.";
            findings.push_back(std::move(f));
        }
    }
    return findings;
}

} // namespace slab
