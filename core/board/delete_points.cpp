// Points taken out of outlines, with the curves, faces and holes that this leaves.
#include "core/board/outline_edits.h"
#include "core/board/outline_parts.h"
#include <algorithm>
#include <map>
#include <set>

namespace slab {

namespace {

using Positions = std::set<std::size_t>;

struct Chosen {
    std::map<std::string, Positions> points;  ///< list -> positions
    Positions curves;                         ///< whole curves
    std::map<std::size_t, Positions> through; ///< curve -> points that a spline runs through
};

void eraseAt(auto& list, const Positions& positions) {
    for (auto p = positions.rbegin(); p != positions.rend(); ++p)
        if (*p < list.size()) list.erase(list.begin() + static_cast<std::ptrdiff_t>(*p));
}

/// Border edges without a counterpart become one more face, so that the solid stays closed.
void closeHoles(FacetShape& shape) {
    std::map<std::string, std::string> open; // against the direction of the faces
    std::set<std::pair<std::string, std::string>> edges;
    for (const FacetFace& f : shape.faces)
        for (std::size_t i = 0; i < f.corners.size(); ++i)
            edges.insert({f.corners[i], f.corners[(i + 1) % f.corners.size()]});
    for (const auto& [a, b] : edges)
        if (!edges.contains({b, a})) open[b] = a;
    while (!open.empty()) {
        FacetFace face;
        for (std::string at = open.begin()->first; open.contains(at);) {
            face.corners.push_back(at);
            const std::string next = open[at];
            open.erase(at);
            at = next;
        }
        if (face.corners.size() < 3) continue;
        for (int n = 1;; ++n) {
            face.name = n == 1 ? "cut" : "cut " + std::to_string(n);
            if (std::none_of(shape.faces.begin(), shape.faces.end(),
                             [&](const FacetFace& f) { return f.name == face.name; }))
                break;
        }
        shape.faces.push_back(std::move(face));
    }
}

void deleteCorners(FacetShape& shape, const Positions& gone) {
    std::set<std::string> names;
    for (const std::size_t i : gone) names.insert(detail::pointName(shape.corners, i));
    for (FacetFace& f : shape.faces)
        std::erase_if(f.corners, [&](const std::string& c) { return names.contains(c); });
    std::erase_if(shape.faces, [](const FacetFace& f) { return f.corners.size() < 3; });
    std::erase_if(shape.pinned, [&](const std::string& c) { return names.contains(c); });
    std::erase_if(shape.weights, [&](const NamedText& w) { return names.contains(w.name); });
    eraseAt(shape.corners, gone);
    closeHoles(shape);
}

/// Points without a name are called by their position in curves and plates: such names must not pass to
/// others.
void keepNames(std::vector<OutlinePoint>& points, const Positions& gone) {
    for (std::size_t i = 0; i < points.size(); ++i)
        if (points[i].name.empty() && !gone.empty() && i > *gone.begin())
            points[i].name = detail::pointName(points, i);
}

Expected<void> deleteIn(Form& form, Chosen chosen) {
    if (std::holds_alternative<TaperShape>(form.shape)) {
        Positions both = chosen.points["base"];
        both.insert(chosen.points["top"].begin(), chosen.points["top"].end());
        chosen.points["base"] = chosen.points["top"] = both;
    }
    if (auto* curves = detail::curvesOf(form)) {
        for (const auto& [k, positions] : chosen.through)
            if (k < curves->size()) {
                eraseAt((*curves)[k].through, positions);
                if ((*curves)[k].through.empty()) chosen.curves.insert(k);
            }
        eraseAt(*curves, chosen.curves);
    }
    for (const auto& [list, gone] : chosen.points) {
        auto* points = detail::pointsOf(form, list);
        if (!points || gone.empty()) continue;
        auto* facets = std::get_if<FacetShape>(&form.shape);
        const std::size_t least = facets ? 4 : 3;
        if (points->size() < gone.size() + least)
            return fail("too-few-points",
                        "Form " + form.name + " would have fewer than " +
                            (facets ? "four corners." : "three points."),
                        {}, "Delete the whole form, or leave more points.");
        if (facets) {
            deleteCorners(*facets, gone);
            continue;
        }
        std::set<std::string> names;
        for (const std::size_t i : gone) names.insert(detail::pointName(*points, i));
        if (auto* curves = detail::curvesOf(form))
            std::erase_if(*curves,
                          [&](const Curve& c) { return names.contains(c.from) || names.contains(c.to); });
        keepNames(*points, gone);
        eraseAt(*points, gone);
    }
    return {};
}

Expected<Project> deleted(const Project& project, const std::vector<PointRef>& refs) {
    std::map<int, Chosen> chosen;
    for (const PointRef& ref : refs) {
        const auto where = detail::placeIn(ref.pointer);
        const auto none = fail("no-such-point", "There is no point at " + ref.pointer + ".", ref.pointer,
                               "Choose the point again.");
        if (!where || where->form >= static_cast<int>(project.forms.size()) || where->index < 0) return none;
        const Form& form = project.forms[static_cast<std::size_t>(where->form)];
        const auto i = static_cast<std::size_t>(where->index);
        Chosen& own = chosen[where->form];
        if (where->list == "curves") {
            const auto* curves = detail::curvesOf(form);
            if (!curves || i >= curves->size()) return none;
            if (where->rest.size() == 2)
                own.through[i].insert(static_cast<std::size_t>(std::atoi(where->rest[1].c_str())));
            else
                own.curves.insert(i);
            continue;
        }
        const auto* points = detail::pointsOf(form, where->list);
        if (!points || i >= points->size()) return none;
        own.points[where->list].insert(i);
    }
    Project next = project;
    for (const auto& [index, own] : chosen) {
        Form& form = next.forms[static_cast<std::size_t>(index)];
        if (auto done = deleteIn(form, own); !done) return Unexpected(done.error());
        for (const std::string& list : detail::listsOf(form)) {
            Positions gone;
            const bool taper = std::holds_alternative<TaperShape>(form.shape);
            for (const auto& [name, positions] : own.points)
                if (taper || name == list) gone.insert(positions.begin(), positions.end());
            detail::followPositions(next, form.name, list, [&](int was) {
                if (gone.contains(static_cast<std::size_t>(was))) return -1;
                return was - static_cast<int>(std::distance(gone.begin(),
                                                            gone.lower_bound(static_cast<std::size_t>(was))));
            });
        }
    }
    return next;
}

} // namespace

Expected<Edit> deletePoints(const Project& project, const std::vector<PointRef>& refs) {
    return detail::formEdit(
        project, refs.size() == 1 ? "Delete a point" : "Delete " + std::to_string(refs.size()) + " points",
        [refs](const Project& p) { return deleted(p, refs); });
}

} // namespace slab
