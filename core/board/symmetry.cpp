// Halves of outlines reflected, points mirrored.
#include "core/board/formula_text.h"
#include "core/board/moves.h"
#include "core/board/outline_edits.h"
#include "core/board/outline_parts.h"
#include "core/lines/lines.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double onLine = 1e-6; ///< mm

/// "port" for "starboard" and the other way round, anywhere in a name.
std::string otherHand(std::string name) {
    if (const auto at = name.find("starboard"); at != std::string::npos) return name.replace(at, 9, "port");
    if (const auto at = name.find("port"); at != std::string::npos) return name.replace(at, 4, "starboard");
    return name;
}

/// How a ring of points crosses the line: the kept run, and the points on the line before and behind it.
struct Halves {
    std::vector<std::size_t> kept, other; ///< in the outline's order
    std::optional<std::size_t> before, behind;
};

std::optional<Halves> halvesOf(const Ring& ring, double hand) {
    const std::size_t n = ring.size();
    const auto side = [&](std::size_t i) {
        const double y = ring[i % n].y() * hand;
        return y > onLine ? 1 : y < -onLine ? -1 : 0;
    };
    std::size_t start = n;
    int starts = 0;
    for (std::size_t i = 0; i < n; ++i)
        if (side(i) == 1 && side(i + n - 1) != 1) {
            start = i;
            ++starts;
        }
    if (starts != 1) return {};
    Halves h;
    std::size_t i = start;
    for (; side(i) == 1; ++i) h.kept.push_back(i % n);
    if (side(i) == 0) h.behind = i++ % n;
    for (; side(i) == -1; ++i) h.other.push_back(i % n);
    if (side(i) == 0 && i % n != start) h.before = i++ % n;
    if (i % n != start) return {}; // more points on the line, or it is crossed again
    return h;
}

OutlinePoint reflected(OutlinePoint p) {
    p.y = detail::negated(p.y);
    return p;
}

/// The outline with the other half made of the kept one. Names of the other half stay where it has as many
/// points.
std::vector<OutlinePoint> rebuilt(const std::vector<OutlinePoint>& points, const Halves& h,
                                  std::vector<std::pair<std::string, std::string>>& twins) {
    std::vector<OutlinePoint> out;
    const auto add = [&](std::size_t i) {
        out.push_back(points[i]);
        if (out.back().name.empty()) out.back().name = detail::pointName(points, i);
    };
    if (h.before) add(*h.before);
    for (const std::size_t i : h.kept) add(i);
    if (h.behind) add(*h.behind);
    const bool paired = h.other.size() == h.kept.size();
    for (std::size_t k = 0; k < h.kept.size(); ++k) {
        const std::size_t twin = h.kept[h.kept.size() - 1 - k];
        OutlinePoint p = reflected(points[twin]);
        const std::string own = detail::pointName(points, twin);
        if (paired) {
            p.name = detail::pointName(points, h.other[k]);
            p.side = points[h.other[k]].side;
        } else {
            p.name = otherHand(own);
            const auto taken = [&](const std::string& name) {
                return std::any_of(out.begin(), out.end(),
                                   [&](const OutlinePoint& o) { return o.name == name; }) ||
                       std::any_of(h.kept.begin(), h.kept.end(),
                                   [&](std::size_t i) { return detail::pointName(points, i) == name; });
            };
            if (taken(p.name)) p.name = detail::freshPointName(points, own);
            while (taken(p.name)) p.name += " 2";
            // Its edge is the twin of the edge that comes before `twin`.
            const std::size_t n = points.size(), last = (twin + n - 1) % n;
            const bool inKept = k + 1 < h.kept.size() || h.before.has_value();
            p.side = inKept ? otherHand(detail::sideName(points, last)) : "";
            if (p.side == p.name) p.side.clear();
        }
        twins.emplace_back(own, p.name);
        out.push_back(std::move(p));
    }
    return out;
}

/// Curves of the kept half and their reflections.
std::vector<Curve> rebuiltCurves(const std::vector<Curve>& curves, const std::vector<OutlinePoint>& points,
                                 const Halves& h,
                                 const std::vector<std::pair<std::string, std::string>>& twins) {
    const auto twin = [&](const std::string& name) -> std::optional<std::string> {
        for (const auto& [own, other] : twins)
            if (own == name) return other;
        for (const auto& on : {h.before, h.behind})
            if (on && detail::pointName(points, *on) == name) return name;
        return {};
    };
    std::vector<Curve> out;
    for (const Curve& c : curves) {
        const auto from = twin(c.from), to = twin(c.to);
        if (!from || !to || (*from == c.from && *to == c.to)) continue;
        Curve r = c;
        r.from = *to;
        r.to = *from;
        r.y = detail::negated(r.y);
        std::reverse(r.through.begin(), r.through.end());
        for (OutlinePoint& p : r.through) p = reflected(p);
        out.push_back(c);
        out.push_back(std::move(r));
    }
    return out;
}

Expected<Project> madeSymmetric(const Project& project, const Scope& scope, int index, bool keepPort) {
    if (index < 0 || index >= static_cast<int>(project.forms.size()))
        return fail("no-such-point", "There is no such form.", {}, "Choose the form again.");
    Project next = project;
    Form& form = next.forms[static_cast<std::size_t>(index)];
    const std::string pointer = "/forms/" + std::to_string(index);
    const auto place = detail::placeOf(form, scope);
    const bool plan =
        std::holds_alternative<TaperShape>(form.shape) || std::holds_alternative<PlateShape>(form.shape);
    if (!plan || !place || (place->rotation - Mat3::Identity()).norm() > 1e-9 ||
        std::abs(place->translation.y()) > onLine)
        return fail("not-a-plan-outline",
                    "Form " + form.name + " is not drawn in the plan about the middle line.", pointer,
                    "A form that stands to one side is made a pair by its mirror mark.");
    std::optional<Halves> first;
    std::vector<std::pair<std::string, std::string>> twins;
    std::vector<Curve> curves;
    for (const std::string& list : detail::listsOf(form)) {
        const auto ring = detail::ringOf(form, list, scope);
        const auto halves = ring ? halvesOf(*ring, keepPort ? 1 : -1) : std::nullopt;
        if (!halves || (first && (halves->kept != first->kept || halves->before != first->before ||
                                  halves->behind != first->behind)))
            return fail("nothing-to-mirror",
                        "The outline of " + form.name + " does not cross the middle line exactly twice.",
                        pointer, "Bring the other points across the line first.");
        auto& points = *detail::pointsOf(form, list);
        const auto before = points;
        twins.clear();
        points = rebuilt(before, *halves, twins);
        if (!first)
            if (const auto* own = detail::curvesOf(form))
                curves = rebuiltCurves(*own, before, *halves, twins);
        if (!first) first = halves;
    }
    *detail::curvesOf(form) = curves;
    return next;
}

} // namespace

namespace {

/// A facet form that is mirrored as a whole would be inside out: its faces run the other way round then.
void turnFaces(Project& project, const std::vector<PointRef>& refs) {
    for (std::size_t i = 0; i < project.forms.size(); ++i) {
        auto* facets = std::get_if<FacetShape>(&project.forms[i].shape);
        if (!facets) continue;
        const std::string corner = "/forms/" + std::to_string(i) + "/corners/";
        for (std::size_t k = 0; k < facets->corners.size(); ++k) {
            const PointRef ref{corner + std::to_string(k), Handle::corner};
            if (std::find(refs.begin(), refs.end(), ref) == refs.end()) facets = nullptr;
            if (!facets) break;
        }
        if (!facets) continue;
        for (auto& face : facets->faces) std::reverse(face.corners.begin(), face.corners.end());
    }
}

} // namespace

Expected<Edit> makeSymmetric(const Project& project, const Scope& scope, int form, bool keepPort) {
    return detail::formEdit(project, "Make symmetric", [=, scale = scope.scale](const Project& p) {
        return madeSymmetric(p, scopeOf(p, scale), form, keepPort);
    });
}

Expected<Edit> mirrorPoints(const Project& project, const Scope& scope, BoardView view,
                            const std::vector<PointRef>& refs, int direction, double about) {
    std::vector<Edit> edits;
    for (const PointRef& ref : refs) {
        const auto handle = detail::handleAt(project, ref, scope, view);
        if (!handle)
            return fail("no-such-point", "There is no point at " + ref.pointer + ".", ref.pointer,
                        "Choose the point again.");
        Vec2 to = handle->at;
        to[direction] = 2 * about - to[direction];
        MoveOptions options;
        options.mirror = true;
        auto edit = movePoint(project, scope, view, ref, to, options);
        if (!edit) return edit;
        edits.push_back(std::move(*edit));
    }
    return detail::formEdit(project, "Mirror points", [edits, refs](const Project& p) -> Expected<Project> {
        Expected<Project> next = p;
        for (const Edit& e : edits)
            if (next) next = e.apply(*next);
        if (next) turnFaces(*next, refs);
        return next;
    });
}

} // namespace slab
