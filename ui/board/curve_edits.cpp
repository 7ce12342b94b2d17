#include "ui/board/curve_edits.h"
#include "core/board/moves.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

/// An edge of an outline in its form's own plane.
struct Bend {
    std::size_t form = 0, index = 0;
    const std::vector<OutlinePoint>* outline = nullptr;
    bool profile = false;
    [[nodiscard]] const OutlinePoint& from() const { return (*outline)[index]; }
    [[nodiscard]] const OutlinePoint& to() const { return (*outline)[(index + 1) % outline->size()]; }
};

std::vector<Curve>* curvesOf(Shape& shape) {
    if (auto* s = std::get_if<ProfileShape>(&shape)) return &s->curves;
    if (auto* s = std::get_if<TaperShape>(&shape)) return &s->curves;
    if (auto* s = std::get_if<PlateShape>(&shape)) return &s->curves;
    return nullptr;
}

const std::vector<OutlinePoint>* outlineOf(const Shape& shape, const std::string& list) {
    if (const auto* s = std::get_if<ProfileShape>(&shape)) return &s->outline;
    if (const auto* s = std::get_if<TaperShape>(&shape)) return list == "top" ? &s->top : &s->base;
    if (const auto* s = std::get_if<PlateShape>(&shape)) return &s->outline;
    return nullptr;
}

std::optional<Bend> bendAt(const Project& project, const std::string& edge) {
    const int form = formOf(edge);
    const std::size_t last = edge.rfind('/');
    if (form < 0 || form >= static_cast<int>(project.forms.size()) || last == std::string::npos) return {};
    const std::size_t before = edge.rfind('/', last - 1);
    Bend bend;
    bend.form = static_cast<std::size_t>(form);
    const Shape& shape = project.forms[bend.form].shape;
    bend.outline = outlineOf(shape, edge.substr(before + 1, last - before - 1));
    bend.index = static_cast<std::size_t>(std::atoi(edge.c_str() + last + 1));
    bend.profile = std::holds_alternative<ProfileShape>(shape);
    if (!bend.outline || bend.index >= bend.outline->size()) return {};
    return bend;
}

int curveIndex(const Project& project, const Bend& bend) {
    Shape shape = project.forms[bend.form].shape;
    const std::vector<Curve>* curves = curvesOf(shape);
    for (std::size_t i = 0; curves && i < curves->size(); ++i) {
        const Curve& c = (*curves)[i];
        if ((c.from == bend.from().name && c.to == bend.to().name) ||
            (c.from == bend.to().name && c.to == bend.from().name))
            return static_cast<int>(i);
    }
    return -1;
}

Vec2 placeOf(const OutlinePoint& point, bool profile, const Scope& scope) {
    const auto value = [&](const Text& text) {
        const auto v = evaluate(text.empty() ? "0" : text, scope, Space::subject, Kind::length);
        return v ? v->value : 0.0;
    };
    return {value(point.x), value(profile ? point.z : point.y)};
}

/// Twice the area inside, positive when it runs counter-clockwise.
double turning(const Bend& bend, const Scope& scope) {
    double sum = 0;
    for (std::size_t i = 0; i < bend.outline->size(); ++i) {
        const Vec2 a = placeOf((*bend.outline)[i], bend.profile, scope);
        const Vec2 b = placeOf((*bend.outline)[(i + 1) % bend.outline->size()], bend.profile, scope);
        sum += a.x() * b.y() - a.y() * b.x();
    }
    return sum;
}

/// A round length in the document's unit.
Text lengthText(double mm, const Scope& scope) {
    const double step = roundStep(std::max(std::abs(mm) / 200, 0.05), scope.unit);
    const auto text = shiftedLength("0", mm, scope, Space::subject, step);
    return text ? *text : std::string("0");
}

void shape(Curve& curve, const Bend& bend, const Scope& scope) {
    const Vec2 a = placeOf(bend.from(), bend.profile, scope), b = placeOf(bend.to(), bend.profile, scope);
    const Vec2 along = b - a;
    const double length = along.norm();
    const Vec2 out = (turning(bend, scope) > 0 ? Vec2(along.y(), -along.x()) : Vec2(-along.y(), along.x())) /
                     std::max(length, 1e-9);
    const auto put = [&](const Vec2& at, Text& x, Text& across) {
        x = lengthText(at.x(), scope);
        across = lengthText(at.y(), scope);
    };
    if (curve.kind == CurveKind::arc) {
        curve.bulge = lengthText(length / 7, scope);
    } else if (curve.kind == CurveKind::ellipse) {
        // The corner of the two through which level and plumb lines of the ends run; the outer one.
        Vec2 meet(a.x(), b.y());
        if ((meet - a).dot(out) < (Vec2(b.x(), a.y()) - a).dot(out)) meet = {b.x(), a.y()};
        if ((meet - a).dot(out) < length * 0.05) meet = (a + b) / 2 + out * length * 0.35;
        put(meet, curve.x, bend.profile ? curve.z : curve.y);
    } else {
        OutlinePoint through;
        through.name = "through";
        put((a + b) / 2 + out * length / 7, through.x, bend.profile ? through.z : through.y);
        curve.through = {through};
    }
}

} // namespace

std::string curvePointer(const Project& project, const std::string& edge) {
    const auto bend = bendAt(project, edge);
    const int index = bend ? curveIndex(project, *bend) : -1;
    if (index < 0) return {};
    return "/forms/" + std::to_string(bend->form) + "/curves/" + std::to_string(index);
}

std::optional<CurveKind> curveKind(const Project& project, const std::string& edge) {
    const auto bend = bendAt(project, edge);
    const int index = bend ? curveIndex(project, *bend) : -1;
    if (index < 0) return {};
    Shape shape = project.forms[bend->form].shape;
    return (*curvesOf(shape))[static_cast<std::size_t>(index)].kind;
}

Expected<Edit> bendEdge(const Project& project, const Scope& scope, const std::string& edge,
                        std::optional<CurveKind> kind) {
    const auto bend = bendAt(project, edge);
    if (!bend)
        return fail("no-edge", "That edge cannot be bent.", {},
                    "Choose an edge of a profile, taper or plate form.");
    const int index = curveIndex(project, *bend);
    Curve curve;
    if (kind) {
        curve.kind = *kind;
        curve.from = bend->from().name;
        curve.to = bend->to().name;
        curve.facets = "4";
        shape(curve, *bend, scope);
    }
    Edit edit;
    edit.label = kind ? "Bend " + bend->from().name : "Straighten " + bend->from().name;
    edit.apply = [form = bend->form, index, curve, kind](const Project& before) -> Expected<Project> {
        Project after = before;
        std::vector<Curve>* curves = form < after.forms.size() ? curvesOf(after.forms[form].shape) : nullptr;
        if (!curves) return fail("no-edge", "That edge is gone.");
        const bool there = index >= 0 && index < static_cast<int>(curves->size());
        if (!kind && there) curves->erase(curves->begin() + index);
        if (!kind) return after;
        if (!there) {
            curves->push_back(curve);
            return after;
        }
        Curve& old = (*curves)[static_cast<std::size_t>(index)];
        Curve fresh = curve;
        fresh.facets = old.facets;
        fresh.tolerance = old.tolerance;
        old = std::move(fresh);
        return after;
    };
    return edit;
}

double deviationOf(const BoardEdge& edge) {
    double most = 0;
    if (edge.facets.size() < 2) return 0;
    for (const Vec2& p : edge.line) {
        double least = 1e300;
        for (std::size_t i = 0; i + 1 < edge.facets.size(); ++i) {
            const Vec2 &a = edge.facets[i], &b = edge.facets[i + 1];
            const Vec2 ab = b - a;
            const double t =
                ab.squaredNorm() > 0 ? std::clamp((p - a).dot(ab) / ab.squaredNorm(), 0.0, 1.0) : 0.0;
            least = std::min(least, (p - a - ab * t).norm());
        }
        most = std::max(most, least);
    }
    return most;
}

} // namespace slab::ui
