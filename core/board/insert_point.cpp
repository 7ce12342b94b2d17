// A point on an edge: the edge and its curve become two.
#include "core/board/formula_text.h"
#include "core/board/outline_edits.h"
#include "core/board/outline_parts.h"
#include "core/lines/curve_lines.h"
#include "core/lines/lines.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

/// Where an edge is split.
struct Split {
    double share = 0.5;     ///< of the straight edge, or of an arc's angle
    Vec2 at = Vec2::Zero(); ///< in the form's plane
    std::size_t piece = 0;  ///< of the curve's drawn line
};

/// Nearest place on a line of places as it is seen.
Split nearestAlong(const std::vector<Vec2>& shown, const std::vector<Vec2>& local, const Vec2& at) {
    Split best;
    double least = 1e300, length = 0, here = 0;
    for (std::size_t i = 0; i + 1 < shown.size(); ++i) length += (shown[i + 1] - shown[i]).norm();
    for (std::size_t i = 0; i + 1 < shown.size(); ++i) {
        const Vec2 d = shown[i + 1] - shown[i];
        const double t =
            d.squaredNorm() > 0 ? std::clamp((at - shown[i]).dot(d) / d.squaredNorm(), 0.0, 1.0) : 0.5;
        if (const double off = (shown[i] + d * t - at).norm(); off < least) {
            least = off;
            best = {length > 0 ? (here + t * d.norm()) / length : 0.5,
                    local[i] + (local[i + 1] - local[i]) * t, i};
        }
        here += d.norm();
    }
    // Not in a corner that is there already.
    best.share = std::clamp(best.share, 0.02, 0.98);
    return best;
}

class Inserter {
public:
    Inserter(const Form& form, const Scope& scope, double step)
        : m_form(form), m_scope(scope), m_step(step) {}

    /// Puts a point into a list behind position `i`, at `share` of its edge.
    void put(Form& next, const std::string& list, std::size_t i, const Split& split, bool curved) const {
        auto& points = *detail::pointsOf(next, list);
        const std::size_t j = (i + 1) % points.size();
        const OutlinePoint a = points[i], b = points[j];
        OutlinePoint p;
        p.name = m_name;
        p.side = detail::sideName(points, i);
        const bool side = std::holds_alternative<ProfileShape>(next.shape);
        p.x = between(a.x, b.x, split.share, curved ? std::optional(split.at.x()) : std::nullopt);
        Text& up = side ? p.z : p.y;
        up = between(side ? a.z : a.y, side ? b.z : b.y, split.share,
                     curved ? std::optional(split.at.y()) : std::nullopt);
        if (side) p.half_width = between(a.half_width, b.half_width, split.share, {});
        points.insert(points.begin() + static_cast<std::ptrdiff_t>(i) + 1, std::move(p));
    }
    void name(const std::string& fresh) { m_name = fresh; }

private:
    const Form& m_form;
    const Scope& m_scope;
    double m_step;
    std::string m_name;

    /// Where both ends say the same, so does the new point.
    [[nodiscard]] Text between(const Text& a, const Text& b, double share, std::optional<double> at) const {
        if (!at && detail::trimmed(a) == detail::trimmed(b)) return a;
        const double from = detail::lengthOf(a, m_scope).value_or(0),
                     to = detail::lengthOf(b, m_scope).value_or(0);
        return detail::subjectText(at ? *at : from + (to - from) * share, m_scope, m_step);
    }
};

/// Facets shared out by length; at least one each.
std::pair<Text, Text> sharedFacets(const Curve& c, const Scope& scope, double share) {
    const auto count = evaluate(c.facets, scope, Space::subject, Kind::number);
    if (!count || count->value < 1) return {c.facets, c.facets};
    const int n = static_cast<int>(std::lround(count->value));
    const int first = std::max(1, static_cast<int>(std::lround(n * share)));
    return {std::to_string(first), std::to_string(std::max(1, n - first))};
}

/// Place on an arc at a share of its angle.
Vec2 onArc(const detail::CurvedEdge& arc, double share) {
    const Vec2 a = arc.line.front(), b = arc.line.back(), middle = (a + b) / 2,
               rise = arc.line[arc.line.size() / 2] - middle;
    const double bulge = rise.norm(), chord = (b - a).norm();
    if (bulge < 1e-9) return a + (b - a) * share;
    const double radius = (chord * chord / 4 + bulge * bulge) / (2 * bulge),
                 angle = 4 * std::atan(2 * bulge / chord);
    const Vec2 centre = middle + rise / bulge * (bulge - radius);
    const auto turned = [&](double by) { return Vec2(centre + Eigen::Rotation2Dd(by) * (a - centre)); };
    const double hand =
        (turned(angle / 2) - middle - rise).norm() < (turned(-angle / 2) - middle - rise).norm() ? 1 : -1;
    return turned(hand * angle * share);
}

/// An arc's two parts lie on its circle.
std::vector<Curve> splitArc(const Curve& c, const Scope& scope, const Ring& ring, std::size_t edge,
                            double share) {
    const double chord = (ring[(edge + 1) % ring.size()] - ring[edge]).norm();
    const double bulge = detail::lengthOf(c.bulge, scope).value_or(0);
    if (std::abs(bulge) < 1e-9) return {};
    const double radius = (chord * chord / 4 + bulge * bulge) / (2 * std::abs(bulge));
    const double angle = 4 * std::atan(2 * std::abs(bulge) / chord); // of the whole arc
    Curve a = c, b = c;
    const auto sagitta = [&](double part) {
        return std::copysign(radius * (1 - std::cos(angle * part / 2)), bulge);
    };
    a.bulge = detail::subjectText(sagitta(share), scope);
    b.bulge = detail::subjectText(sagitta(1 - share), scope);
    if (!c.facets.empty()) std::tie(a.facets, b.facets) = sharedFacets(c, scope, share);
    return {a, b};
}

/// Splines keep their points; an ellipse arc becomes splines through points of its line.
std::vector<Curve> splitThrough(const Curve& c, const detail::CurvedEdge& drawn, const Scope& scope,
                                const Split& split, bool side) {
    Curve a = c, b = c;
    a.through.clear();
    b.through.clear();
    const auto point = [&](const Vec2& p) {
        OutlinePoint o;
        o.x = detail::subjectText(p.x(), scope);
        (side ? o.z : o.y) = detail::subjectText(p.y(), scope);
        return o;
    };
    if (c.kind == CurveKind::ellipse) {
        a.kind = b.kind = CurveKind::spline;
        for (Curve* half : {&a, &b}) half->x = half->y = half->z = half->sweep = "";
        const std::size_t n = drawn.line.size() - 1, cut = split.piece;
        for (const std::size_t k : {cut / 4, cut / 2, 3 * cut / 4})
            if (k > 0 && k < cut) a.through.push_back(point(drawn.line[k]));
        for (const std::size_t k : {cut + (n - cut) / 4, cut + (n - cut) / 2, cut + 3 * (n - cut) / 4})
            if (k > cut + 1 && k < n) b.through.push_back(point(drawn.line[k]));
    } else {
        std::size_t cut = 0; // through points before the split, in the outline's direction
        for (const Vec2& p : drawn.through) {
            const auto at = std::find_if(drawn.line.begin(), drawn.line.end(),
                                         [&](const Vec2& q) { return (p - q).norm() < 1e-6; });
            cut +=
                at != drawn.line.end() && at - drawn.line.begin() <= static_cast<std::ptrdiff_t>(split.piece)
                    ? 1U
                    : 0U;
        }
        cut = std::min(cut, c.through.size());
        a.through.assign(c.through.begin(), c.through.begin() + static_cast<std::ptrdiff_t>(cut));
        b.through.assign(c.through.begin() + static_cast<std::ptrdiff_t>(cut), c.through.end());
    }
    if (!c.facets.empty()) std::tie(a.facets, b.facets) = sharedFacets(c, scope, split.share);
    return {a, b};
}

/// Where the edge is split, seen in the view.
std::optional<Split> splitAt(const Form& form, const std::string& list, std::size_t i, const Scope& scope,
                             const std::pair<BoardView, Vec2>& wanted, const detail::CurvedEdge* curve) {
    const auto place = detail::placeOf(form, scope);
    const auto ring = detail::ringOf(form, list, scope);
    if (!place || !ring) return {};
    const detail::Local local = detail::localOf(form);
    const std::size_t j = (i + 1) % ring->size();
    double lift = 0;
    if (const auto* t = std::get_if<TaperShape>(&form.shape))
        lift = detail::lengthOf(list == "top" ? t->top_z : t->base_z, scope).value_or(0);
    std::vector<Vec2> flat = curve ? curve->line : std::vector<Vec2>{(*ring)[i], (*ring)[j]}, shown;
    std::vector<double> half(flat.size(), 0);
    if (const auto* p = std::get_if<ProfileShape>(&form.shape);
        p && !detail::showsSide(form, *place, wanted.first))
        for (std::size_t k = 0; k < flat.size(); ++k) {
            const double t = static_cast<double>(k) / static_cast<double>(flat.size() - 1);
            half[k] = (1 - t) * detail::lengthOf(p->outline[i].half_width, scope).value_or(0) +
                      t * detail::lengthOf(p->outline[j].half_width, scope).value_or(0);
        }
    for (std::size_t k = 0; k < flat.size(); ++k)
        shown.push_back(
            seen(place->toBody(local.at(flat[k]) + (half[k] != 0 ? Vec3(0, half[k], 0) : Vec3(0, 0, lift))),
                 wanted.first));
    return nearestAlong(shown, flat, wanted.second);
}

Expected<Project> inserted(const Project& project, const Scope& scope, const std::string& pointer,
                           const std::pair<BoardView, Vec2>& wanted, double step) {
    const auto where = detail::placeIn(pointer);
    const auto none =
        fail("no-such-point", "There is no edge at " + pointer + ".", pointer, "Choose the edge again.");
    if (!where || where->form >= static_cast<int>(project.forms.size()) || where->index < 0) return none;
    const auto f = static_cast<std::size_t>(where->form);
    const Form& form = project.forms[f];
    const auto* points = detail::pointsOf(form, where->list);
    const auto i = static_cast<std::size_t>(where->index);
    if (!points || i >= points->size()) return none;
    if (std::holds_alternative<FacetShape>(form.shape))
        return fail("no-edge", "Edges of a facet form are made of its faces' corners.", pointer,
                    "Choose the two corners that the edge joins.");
    const auto drawn = detail::curvedEdges(form, where->list, scope);
    const auto curve = std::find_if(drawn.begin(), drawn.end(),
                                    [&](const detail::CurvedEdge& c) { return c.edge == where->index; });
    auto split = splitAt(form, where->list, i, scope, wanted, curve == drawn.end() ? nullptr : &*curve);
    if (!split) return none;
    const auto isArc = [&](const detail::CurvedEdge& c) {
        return (*detail::curvesOf(form))[static_cast<std::size_t>(c.curve)].kind == CurveKind::arc;
    };
    if (curve != drawn.end() && isArc(*curve)) split->at = onArc(*curve, split->share);
    Project next = project;
    Form& changed = next.forms[f];
    Inserter insert(form, scope, step);
    const std::string from = detail::pointName(*points, i),
                      to = detail::pointName(*points, (i + 1) % points->size());
    const std::string fresh = detail::freshPointName(*points, from);
    insert.name(fresh);
    if (std::holds_alternative<TaperShape>(form.shape))
        for (const std::string list : {"base", "top"}) {
            Split own = *split;
            const auto curves = detail::curvedEdges(form, list, scope);
            const auto here = std::find_if(curves.begin(), curves.end(), [&](const detail::CurvedEdge& c) {
                return c.edge == where->index;
            });
            if (list != where->list && here != curves.end())
                own.at = isArc(*here) ? onArc(*here, split->share)
                                      : here->line[static_cast<std::size_t>(std::lround(
                                            split->share * static_cast<double>(here->line.size() - 1)))];
            insert.put(changed, list, i, own, here != curves.end());
        }
    else
        insert.put(changed, where->list, i, *split, curve != drawn.end());
    if (curve != drawn.end()) {
        auto& curves = *detail::curvesOf(changed);
        const auto k = static_cast<std::size_t>(curve->curve);
        const Curve old = curves[k];
        const bool forward = old.from == from;
        const bool side = std::holds_alternative<ProfileShape>(form.shape);
        const auto halves =
            old.kind == CurveKind::arc
                ? splitArc(old, scope,
                           *detail::ringOf(form, where->list == "top" ? "base" : where->list, scope), i,
                           forward ? split->share : 1 - split->share)
                : splitThrough(old, *curve, scope, *split, side);
        curves.erase(curves.begin() + static_cast<std::ptrdiff_t>(k));
        for (std::size_t h = 0; h < halves.size(); ++h) {
            Curve half = halves[h];
            (h == 0 ? half.from : half.to) = h == 0 ? old.from : old.to;
            (h == 0 ? half.to : half.from) = fresh;
            if (half.kind == CurveKind::spline && half.through.empty()) continue; // too short to be curved
            curves.insert(curves.begin() + static_cast<std::ptrdiff_t>(std::min(k + h, curves.size())), half);
        }
    }
    for (const std::string& list : detail::listsOf(form))
        detail::followPositions(next, form.name, list,
                                [&](int was) { return was > where->index ? was + 1 : was; });
    return next;
}

} // namespace

Expected<Edit> insertPoint(const Project& project, const Scope& scope, BoardView view,
                           const std::string& pointer, const Vec2& at, double step) {
    return detail::formEdit(project, "Insert a point", [=, scale = scope.scale](const Project& p) {
        return inserted(p, scopeOf(p, scale), pointer, {view, at}, step);
    });
}

} // namespace slab
