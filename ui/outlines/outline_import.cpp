#include "ui/outlines/outline_import.h"
#include "ui/tables/table_edits.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

bool isPlate(OutlineUse use) {
    return use == OutlineUse::platePlan || use == OutlineUse::plateSide || use == OutlineUse::plateFront;
}

/// Stands the form that was added last in its elevation; the plan is where it is already.
Edit stoodUp(OutlineUse use) {
    Edit edit;
    edit.apply = [use](const Project& before) -> Expected<Project> {
        Project after = before;
        if (after.forms.empty()) return after;
        Placement& at = after.forms.back().at;
        if (use == OutlineUse::plateSide || use == OutlineUse::plateFront) at.roll = "90 deg";
        if (use == OutlineUse::plateFront) at.yaw = "90 deg";
        return after;
    };
    return edit;
}

Expected<double> lengthAbove(const Text& text, const Scope& scope, Space space, const char* what) {
    const auto value = evaluate(text, scope, space, Kind::length);
    if (!value) return Unexpected(value.error());
    if (!(value->value > 0))
        return fail("svg-size", std::string("The ") + what + " must be more than nothing.", text,
                    "Type a length, for example 500 mm.");
    return value->value;
}

/// The outline that replaceOutline() would take the place of; empty = none.
std::vector<OutlinePoint> outlineOf(const Form& form) {
    if (const auto* profile = std::get_if<ProfileShape>(&form.shape)) return profile->outline;
    if (const auto* taper = std::get_if<TaperShape>(&form.shape)) return taper->base;
    if (const auto* plate = std::get_if<PlateShape>(&form.shape)) return plate->outline;
    return {};
}

/// Where a form's outline begins, mm of the drawing: the least of both its coordinates.
Vec2 cornerOf(const Form& form, const Scope& scope, Space space) {
    const bool profile = std::holds_alternative<ProfileShape>(form.shape);
    const double shrunk = space == Space::subject ? scope.scale : 1;
    std::optional<Vec2> least;
    for (const OutlinePoint& p : outlineOf(form)) {
        const auto x = evaluate(p.x, scope, Space::subject, Kind::length);
        const auto y = evaluate(profile ? p.z : p.y, scope, Space::subject, Kind::length);
        if (!x || !y) continue;
        const Vec2 at = Vec2(x->value, y->value) / shrunk;
        least = least ? Vec2(least->cwiseMin(at)) : at;
    }
    return least.value_or(Vec2::Zero());
}

Expected<Edit> replacing(const Project& project, const Scope& scope, const SvgChoice& outline,
                         const OutlineWish& wish) {
    auto draft = draftFor(outline, wish, scope);
    if (!draft) return Unexpected(draft.error());
    OutlineImport how;
    how.space = wish.space;
    how.tolerance = withUnit(wish.tolerance, scope.unit);
    const auto form = static_cast<std::size_t>(wish.replaces);
    if (wish.onAxes && form < project.forms.size())
        *draft =
            moved(std::move(*draft), cornerOf(project.forms[form], scope, wish.space) - bounds(*draft).min);
    Edit edit = replaceOutline(wish.replaces, std::move(*draft), how);
    if (const auto fine = edit.apply(project); !fine) return Unexpected(fine.error());
    return edit;
}

} // namespace

Expected<double> unitBetween(const Vec2& a, const Vec2& b, double distance) {
    const double apart = (b - a).norm();
    if (!(apart > 1e-9))
        return fail("svg-points-same", "The two points are one.", {}, "Click two places that lie apart.");
    if (!(distance > 0) || !std::isfinite(distance))
        return fail("svg-distance", "The distance between the points must be more than nothing.", {},
                    "Type what lies between them, for example 2.4 m.");
    return distance / apart;
}

Expected<double> flatsTolerance(const OutlineWish& wish, const Scope& scope) {
    const auto tolerance = lengthAbove(wish.tolerance, scope, wish.space, "deviation of the flats");
    if (!tolerance) return Unexpected(tolerance.error());
    return wish.space == Space::subject ? *tolerance / scope.scale : *tolerance;
}

Expected<OutlineDraft> draftFor(const SvgChoice& outline, const OutlineWish& wish, const Scope& scope) {
    const auto tolerance = flatsTolerance(wish, scope);
    if (!tolerance) return Unexpected(tolerance.error());
    SvgScale scale;
    scale.mmX = wish.mmX;
    scale.mmY = wish.mmY;
    scale.tolerance = std::min(0.5, *tolerance / 10); // mm: what a pencil line hides
    scale.flats = *tolerance;
    auto draft = draftOutline(outline.path, scale);
    if (!draft) draft.error().message = outline.name + ": " + draft.error().message;
    return draft;
}

std::vector<int> replaceable(const Project& project) {
    std::vector<int> forms;
    for (std::size_t i = 0; i < project.forms.size(); ++i)
        if (!outlineOf(project.forms[i]).empty()) forms.push_back(static_cast<int>(i));
    return forms;
}

Expected<Edit> importOutlines(const Project& project, const Scope& scope,
                              const std::vector<SvgChoice>& outlines, const OutlineWish& wish) {
    if (outlines.empty())
        return fail("svg-nothing", "No outline is chosen.", {},
                    "Tick the outlines that are to become forms.");
    if (wish.replaces >= 0 && outlines.size() > 1)
        return fail("svg-several", "Several outlines are chosen to replace one.", {}, "Tick one of them.");
    if (wish.replaces >= 0) return replacing(project, scope, outlines.front(), wish);
    const auto tolerance = flatsTolerance(wish, scope);
    if (!tolerance) return Unexpected(tolerance.error());
    if (!isPlate(wish.use)) {
        const auto size = lengthAbove(wish.size, scope, wish.space,
                                      wish.use == OutlineUse::profile ? "half width" : "height");
        if (!size) return Unexpected(size.error());
    }
    std::vector<OutlineDraft> drafts;
    std::optional<Box2> all;
    for (const SvgChoice& one : outlines) {
        auto draft = draftFor(one, wish, scope);
        if (!draft) return Unexpected(draft.error());
        const Box2 own = bounds(*draft);
        all = all ? united(*all, own) : own;
        drafts.push_back(std::move(*draft));
    }
    Vec2 by = -all->min;
    if (wish.use == OutlineUse::taper || wish.use == OutlineUse::platePlan)
        by.y() = -(all->min.y() + all->max.y()) / 2;
    if (wish.use == OutlineUse::plateFront) by.x() = -(all->min.x() + all->max.x()) / 2;
    if (!wish.onAxes) by = Vec2::Zero();
    std::vector<Edit> edits;
    for (std::size_t i = 0; i < drafts.size(); ++i) {
        OutlineImport how;
        how.as = isPlate(wish.use)                 ? OutlineImport::As::plate
                 : wish.use == OutlineUse::profile ? OutlineImport::As::profile
                                                   : OutlineImport::As::taper;
        how.name = outlines[i].name;
        how.space = wish.space;
        const Unit unit = scope.unit;
        how.half_width = how.height = withUnit(wish.size, unit);
        how.tolerance = withUnit(wish.tolerance, unit);
        edits.push_back(addOutline(moved(std::move(drafts[i]), by), how));
        edits.push_back(stoodUp(wish.use));
    }
    Edit edit = chained(outlines.size() == 1 ? "Import outline" : "Import outlines", std::move(edits));
    if (const auto fine = edit.apply(project); !fine) return Unexpected(fine.error());
    return edit;
}

} // namespace slab::ui
