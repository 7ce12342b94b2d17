// A corner on an edge of a facet form.
#include "core/board/outline_edits.h"
#include "core/board/outline_parts.h"
#include "core/document/sides.h"
#include "core/lines/handles.h"
#include <algorithm>

namespace slab {

namespace {

/// Puts a name between two neighbours of a face's loop. @return false if they are no neighbours there
bool putBetween(FacetFace& face, const std::string& a, const std::string& b, const std::string& name) {
    for (std::size_t i = 0; i < face.corners.size(); ++i) {
        const std::string &one = face.corners[i], &next = face.corners[(i + 1) % face.corners.size()];
        if (!((one == a && next == b) || (one == b && next == a))) continue;
        face.corners.insert(face.corners.begin() + static_cast<std::ptrdiff_t>(i) + 1, name);
        return true;
    }
    return false;
}

/// Where the line between two places is nearest to one, as a share; not in a corner that is there already.
double shareNearest(const Vec2& a, const Vec2& b, const Vec2& at) {
    const Vec2 way = b - a;
    const double length = way.squaredNorm();
    return length > 0 ? std::clamp((at - a).dot(way) / length, 0.02, 0.98) : 0.5;
}

} // namespace

Expected<Edit> insertCorner(const Project& project, const Scope& scope, BoardView view,
                            const std::array<PointRef, 2>& ends, const Vec2& at) {
    const auto first = detail::placeIn(ends[0].pointer), second = detail::placeIn(ends[1].pointer);
    const auto none = fail("no-edge", "There is no edge of a facet form there.", ends[0].pointer,
                           "Choose two corners that a face joins.");
    if (!first || !second || first->form != second->form || first->form < 0 ||
        first->form >= static_cast<int>(project.forms.size()))
        return none;
    const Form& form = project.forms[static_cast<std::size_t>(first->form)];
    const auto* shape = std::get_if<FacetShape>(&form.shape);
    const auto i = static_cast<std::size_t>(std::max(first->index, 0)),
               j = static_cast<std::size_t>(std::max(second->index, 0));
    if (!shape || first->index < 0 || second->index < 0 || i == j || i >= shape->corners.size() ||
        j >= shape->corners.size())
        return none;
    const auto a = detail::handleAt(project, ends[0], scope, view),
               b = detail::handleAt(project, ends[1], scope, view);
    if (!a || !b) return none;
    const double share = shareNearest(a->at, b->at, at);
    const OutlinePoint &from = shape->corners[i], &to = shape->corners[j];
    // What both ends say alike the new corner says too, so that it follows them. Nothing is rounded to the
    // zoom: it stays on the edge, and the faces stay flat.
    const auto between = [&](const Text& p, const Text& q) -> Text {
        if (p == q) return p;
        const double low = detail::lengthOf(p, scope).value_or(0),
                     high = detail::lengthOf(q, scope).value_or(0);
        return detail::subjectText(low + (high - low) * share, scope);
    };
    OutlinePoint corner;
    corner.name = detail::freshPointName(shape->corners, detail::pointName(shape->corners, i));
    corner.x = between(from.x, to.x);
    corner.y = between(from.y, to.y);
    corner.z = between(from.z, to.z);
    const std::string one = detail::pointName(shape->corners, i),
                      other = detail::pointName(shape->corners, j);
    const bool joined = std::any_of(shape->faces.begin(), shape->faces.end(), [&](FacetFace face) {
        return putBetween(face, one, other, corner.name);
    });
    if (!joined) return none;
    return detail::formEdit(
        project, "Insert corner " + corner.name,
        [index = first->form, corner, one, other](const Project& p) -> Expected<Project> {
            auto* facets = index < static_cast<int>(p.forms.size())
                               ? std::get_if<FacetShape>(&p.forms[static_cast<std::size_t>(index)].shape)
                               : nullptr;
            if (!facets) return fail("no-edge", "That form is gone.");
            Project next = p;
            auto& changed = std::get<FacetShape>(next.forms[static_cast<std::size_t>(index)].shape);
            changed.corners.push_back(corner); // last, so that the others keep their positions
            for (FacetFace& face : changed.faces) putBetween(face, one, other, corner.name);
            return next;
        });
}

} // namespace slab
