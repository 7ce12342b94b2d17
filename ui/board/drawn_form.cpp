// The edit behind a drawn form: formulas that were typed for a corner stay formulas.
#include "ui/board/draw_tool.h"
#include "ui/tables/table_edits.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab::ui {

namespace {

constexpr double sameCorner = 0.02; // mm
/// mm at full size: a new form's lengths are written in the steps of its unit, 1/16 in at the most.
constexpr double writtenTo = 1;

std::vector<std::vector<OutlinePoint>*> outlinesOf(Shape& shape) {
    if (auto* s = std::get_if<ProfileShape>(&shape)) return {&s->outline};
    if (auto* s = std::get_if<TaperShape>(&shape)) return {&s->base, &s->top};
    if (auto* s = std::get_if<PlateShape>(&shape)) return {&s->outline};
    if (auto* s = std::get_if<FacetShape>(&shape)) return {&s->corners};
    return {};
}

bool plain(const Text& text) {
    return text.empty() || text == "0";
}

/// Where a form is placed by itself its corners are not those of the view.
bool standsAtZero(const Form& form) {
    const Placement& at = form.at;
    return plain(at.x) && plain(at.y) && plain(at.z) && plain(at.roll) && plain(at.pitch) && plain(at.yaw);
}

Text* fieldOf(OutlinePoint& point, const std::string& axis) {
    return axis == "x" ? &point.x : axis == "y" ? &point.y : &point.z;
}

/// How far a written length is from where it was drawn, mm; infinite if it cannot be read.
double offBy(const Text& text, double mm, const Scope& scope) {
    const auto value = evaluate(text, scope, Space::subject, Kind::length);
    return value ? std::abs(value->value - mm) : std::numeric_limits<double>::infinity();
}
bool isAt(const Text& text, double mm, const Scope& scope) {
    return offBy(text, mm, scope) < writtenTo * std::max(1.0, scope.scale);
}

/// The texts of the corner that a point was drawn as, where any were typed.
void restore(OutlinePoint& point, const std::vector<DrawnPlace>& places, BoardView view, const Scope& scope) {
    Text* right = fieldOf(point, axisOf(view, 0));
    Text* up = fieldOf(point, axisOf(view, 1));
    const auto off = [&](const DrawnPlace& p) {
        return std::hypot(offBy(*right, p.at.x(), scope), offBy(*up, p.at.y(), scope));
    };
    const auto nearest =
        std::min_element(places.begin(), places.end(),
                         [&](const DrawnPlace& a, const DrawnPlace& b) { return off(a) < off(b); });
    if (nearest == places.end()) return;
    const DrawnPlace& place = *nearest;
    if (!isAt(*right, place.at.x(), scope) || !isAt(*up, place.at.y(), scope)) return;
    if (!place.right.isEmpty()) *right = withUnit(place.right.toStdString(), scope.unit);
    if (!place.up.isEmpty()) *up = withUnit(place.up.toStdString(), scope.unit);
}

/// A plate's outline lies in its own plane, which stands in the view: its x is right there, its y is up.
void restorePlate(PlateShape& plate, const std::vector<DrawnPlace>& places, const Scope& scope) {
    for (std::size_t i = 0; i < std::min(plate.outline.size(), places.size()); ++i) {
        OutlinePoint& point = plate.outline[i];
        const DrawnPlace& place = places[i];
        if (!isAt(point.x, place.at.x(), scope) || !isAt(point.y, place.at.y(), scope)) continue;
        if (!place.right.isEmpty()) point.x = withUnit(place.right.toStdString(), scope.unit);
        if (!place.up.isEmpty()) point.y = withUnit(place.up.toStdString(), scope.unit);
    }
}

/// Where a plate or a round form stands across the view, and a round form's base, as they were typed.
void restorePlace(Form& form, const NewForm& wanted, const std::vector<DrawnPlace>& places,
                  const DrawFigures& figures, const Scope& scope) {
    Placement& at = form.at;
    const auto typed = [&](const QString& text) {
        return withUnit(text.trimmed().toStdString(), scope.unit);
    };
    const auto field = [&](const std::string& axis) {
        return axis == "x" ? &at.x : axis == "y" ? &at.y : &at.z;
    };
    const bool round = std::holds_alternative<RoundShape>(form.shape);
    if (!round && !std::holds_alternative<PlateShape>(form.shape)) return;
    const char* across = wanted.view == BoardView::side ? "y" : wanted.view == BoardView::front ? "x" : "z";
    if (const Text from = typed(figures.from); !from.empty()) *field(across) = from;
    if (!round || places.empty()) return;
    const DrawnPlace& base = places.front();
    if (!base.right.isEmpty()) *field(axisOf(wanted.view, 0)) = typed(base.right);
    if (!base.up.isEmpty()) *field(axisOf(wanted.view, 1)) = typed(base.up);
}

/// Sizes that were typed for the whole form.
void restoreSizes(Form& form, const DrawFigures& figures, const Scope& scope) {
    const auto typed = [&](const QString& text) {
        return withUnit(text.trimmed().toStdString(), scope.unit);
    };
    const Text size = typed(figures.size), from = typed(figures.from);
    if (auto* s = std::get_if<ProfileShape>(&form.shape)) {
        for (OutlinePoint& p : s->outline)
            if (!size.empty()) p.half_width = size;
    }
    if (auto* s = std::get_if<TaperShape>(&form.shape)) {
        if (!from.empty()) s->base_z = from;
        if (!size.empty()) s->top_z = from.empty() ? size : from + " + " + size;
    }
    if (auto* s = std::get_if<RoundShape>(&form.shape); s && !size.empty())
        s->diameter = "2 * (" + size + ")";
}

/// Along the line of sight, away from the eye's side of the body.
void standUp(Form& form, BoardView view) {
    auto* s = std::get_if<RoundShape>(&form.shape);
    if (!s) return;
    form.at.roll = view == BoardView::side ? "-90 deg" : "";
    form.at.pitch = view == BoardView::front ? "90 deg" : "";
    form.at.yaw.clear();
    s->length = s->diameter;
}

bool isCircle(const NewForm& wanted) {
    return wanted.kind == "round" && wanted.places.size() >= 2 &&
           (wanted.places.front() - wanted.places.back()).norm() < sameCorner;
}

} // namespace

Expected<Edit> drawnForm(const Project& project, const Scope& scope, const NewForm& wanted,
                         const std::vector<DrawnPlace>& places, const DrawFigures& figures) {
    auto made = addForm(project, scope, wanted);
    if (!made) return made;
    Edit texts;
    texts.apply = [wanted, places, figures, scope](const Project& before) -> Expected<Project> {
        Project after = before;
        if (after.forms.empty()) return after;
        Form& form = after.forms.back();
        restoreSizes(form, figures, scope);
        if (isCircle(wanted)) standUp(form, wanted.view);
        restorePlace(form, wanted, places, figures, scope);
        if (auto* plate = std::get_if<PlateShape>(&form.shape)) {
            restorePlate(*plate, places, scope);
            return after;
        }
        if (!standsAtZero(form)) return after;
        for (std::vector<OutlinePoint>* outline : outlinesOf(form.shape))
            for (OutlinePoint& point : *outline) restore(point, places, wanted.view, scope);
        return after;
    };
    const std::string label = made->label;
    return chained(label, {std::move(*made), std::move(texts)});
}

} // namespace slab::ui
