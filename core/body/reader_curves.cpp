// Curved edges of a form, read with their facets.
#include "core/body/reader.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr int mostFacets = 200;

bool blank(const Text& text) {
    return text.find_first_not_of(" \t\r\n") == std::string::npos;
}

} // namespace

FormReader::Fineness FormReader::fineness(const Curve& curve, const std::string& field) {
    Fineness fine;
    if (!curve.facets.empty()) {
        const double facets = number(curve.facets, field + "/facets");
        if (ok() && !(facets >= 1 && facets <= mostFacets && std::abs(facets - std::round(facets)) < 1e-9))
            report(Severity::stop, "curve-facets", "the number of facets is not a whole number from 1 to 200",
                   field + "/facets", "Type a whole number, for example 3.");
        fine.facets = std::clamp(static_cast<int>(std::lround(facets)), 1, mostFacets);
        return fine;
    }
    fine.tolerance = length(curve.tolerance, field + "/tolerance");
    if (ok() && !(fine.tolerance > 0))
        report(Severity::stop, "curve-tolerance", "the curve has neither a number of facets nor a tolerance",
               field, "Give a number of facets, or the greatest chord error.");
    return fine;
}

void FormReader::circle(Arc& arc, const Curve& curve, const Corners& corners, const std::string& field) {
    arc.bulge = length(curve.bulge, field + "/bulge");
    const Fineness fine = fineness(curve, field);
    if (!ok()) return;
    const double chord = (corners[arc.edge].at - corners[(arc.edge + 1) % corners.size()].at).norm();
    arc.facets =
        fine.facets > 0 ? fine.facets : facetsFor(chord, arc.bulge, std::max(fine.tolerance, 1e-6 * chord));
    if (arc.facets > mostFacets) {
        report(Severity::stop, "curve-facets", "the tolerance would need more than 200 facets",
               field + "/tolerance", "Allow a larger chord error.");
        arc.facets = 1;
    }
    m_fits.push_back(
        {m_form.name, corners[arc.edge].side, arc.facets, deviationOf(chord, arc.bulge, arc.facets)});
}

Expected<CurvePath> FormReader::spline(Arc& arc, const Curve& curve, const Corners& corners, Plane plane,
                                       const std::string& field) {
    const Corner &a = corners[arc.edge], &b = corners[(arc.edge + 1) % corners.size()];
    if (curve.through.empty() || curve.through.size() > 50)
        return fail("curve-spline", "a spline runs through 1 to 50 points between its ends", "through",
                    "Add points under \"through\", or delete some.");
    std::vector<Vec2> points;
    std::vector<double> halves;
    bool wide = false;
    for (std::size_t k = 0; k < curve.through.size(); ++k) {
        const OutlinePoint& p = curve.through[k];
        const std::string at = field + "/through/" + std::to_string(k) + "/";
        points.emplace_back(length(p.x, at + "x"),
                            plane == Plane::xy ? length(p.y, at + "y") : length(p.z, at + "z"));
        const bool given = plane == Plane::xz && !blank(p.half_width);
        wide = wide || given;
        const Vec2 chord = b.at - a.at;
        const double t =
            chord.squaredNorm() > 0 ? (points.back() - a.at).dot(chord) / chord.squaredNorm() : 0;
        halves.push_back(given ? length(p.half_width, at + "half_width") : a.half + t * (b.half - a.half));
    }
    if (curve.from != a.name) { // given against the outline's direction
        std::reverse(points.begin(), points.end());
        std::reverse(halves.begin(), halves.end());
    }
    points.insert(points.begin(), a.at);
    points.push_back(b.at);
    halves.insert(halves.begin(), a.half);
    halves.push_back(b.half);
    auto path = splinePath(points);
    if (!path || !wide) return path;
    arc.halves = std::move(halves); // at the knots; bend() takes those at the breaks
    return path;
}

void FormReader::bend(Arc& arc, const Curve& curve, const Corners& corners, Plane plane,
                      const std::string& field) {
    const Corner &a = corners[arc.edge], &b = corners[(arc.edge + 1) % corners.size()];
    Expected<CurvePath> path;
    if (curve.kind == CurveKind::spline) {
        path = spline(arc, curve, corners, plane, field);
    } else {
        const double sweep = blank(curve.sweep) ? std::numbers::pi / 2 : angle(curve.sweep, field + "/sweep");
        const Vec2 meet(length(curve.x, field + "/x"),
                        plane == Plane::xy ? length(curve.y, field + "/y") : length(curve.z, field + "/z"));
        path = ellipsePath(a.at, b.at, meet, sweep);
    }
    const Fineness fine = fineness(curve, field);
    if (!ok()) return;
    if (!path) {
        report(path.error(), field + (path.error().where.empty() ? "" : "/" + path.error().where));
        return;
    }
    arc.path = std::move(*path);
    arc.breaks = fine.facets > 0 ? bestBreaks(arc.path, fine.facets)
                                 : breaksWithin(arc.path, fine.tolerance, mostFacets);
    if (arc.breaks.empty()) {
        report(Severity::stop, "curve-facets", "the tolerance would need more than 200 facets",
               field + "/tolerance", "Allow a larger chord error.");
        return;
    }
    arc.facets = static_cast<int>(arc.breaks.size()) - 1;
    if (!arc.halves.empty()) {
        std::vector<Vec2> knots;
        for (std::size_t k = 0; k <= arc.path.size(); ++k)
            knots.push_back(pointAt(arc.path, static_cast<double>(k)));
        std::vector<double> atBreaks;
        for (std::size_t k = 1; k + 1 < arc.breaks.size(); ++k)
            atBreaks.push_back(splineValue(knots, arc.halves, arc.breaks[k]));
        arc.halves = std::move(atBreaks);
    }
    m_fits.push_back({m_form.name, a.side, arc.facets, deviationOf(arc.path, arc.breaks)});
}

Arc FormReader::arc(const Curve& curve, const Corners& corners, Plane plane, const std::string& field) {
    const auto find = [&](const std::string& name) {
        return static_cast<std::size_t>(
            std::find_if(corners.begin(), corners.end(), [&](const Corner& c) { return c.name == name; }) -
            corners.begin());
    };
    const std::size_t n = corners.size(), from = find(curve.from), to = find(curve.to);
    Arc arc;
    if (from >= n || to >= n || ((from + 1) % n != to && (to + 1) % n != from)) {
        report(Severity::stop, "curve-ends",
               "the curve from \"" + curve.from + "\" to \"" + curve.to +
                   "\" does not join two neighbouring points",
               field, "Name two points that follow each other in the outline.");
        return arc;
    }
    arc.edge = (from + 1) % n == to ? from : to;
    if (std::find(m_bent.begin(), m_bent.end(), arc.edge) != m_bent.end()) {
        report(Severity::look, "curve-twice",
               "another curve bends the edge between " + curve.from + " and " + curve.to +
                   " already, and this one is left out",
               field, "Delete one of the two.");
        return arc;
    }
    m_bent.push_back(arc.edge);
    if (curve.kind == CurveKind::arc)
        circle(arc, curve, corners, field);
    else
        bend(arc, curve, corners, plane, field);
    return arc;
}

std::vector<Arc> FormReader::arcs(const std::vector<Curve>& curves, const Corners& corners, Plane plane) {
    std::vector<Arc> result;
    m_bent.clear();
    for (std::size_t k = 0; k < curves.size() && ok(); ++k)
        result.push_back(arc(curves[k], corners, plane, "curves/" + std::to_string(k)));
    return result;
}

} // namespace slab
