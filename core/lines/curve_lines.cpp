#include "core/lines/curve_lines.h"
#include "core/body/outline.h"
#include <algorithm>
#include <cmath>

namespace slab::detail {

namespace {

constexpr int fine = 32; ///< pieces of a drawn curve

/// Conic from a to b with end tangents meeting in m: a circle arc of angle `sweep`, stretched.
/// @source  rational quadratic Bézier with middle weight cos(sweep / 2) (L. Piegl, W. Tiller, "The NURBS
/// Book", 7.3)
std::vector<Vec2> conic(const Vec2& a, const Vec2& m, const Vec2& b, double sweep) {
    std::vector<Vec2> line;
    const double w = std::cos(sweep / 2);
    for (int i = 0; i <= fine; ++i) {
        const double t = static_cast<double>(i) / fine, p = (1 - t) * (1 - t), q = 2 * t * (1 - t) * w,
                     r = t * t;
        line.push_back((p * a + q * m + r * b) / (p + q + r));
    }
    return line;
}

std::optional<Vec2> pointIn(const Text& x, const Text& up, const Scope& scope) {
    const auto u = lengthOf(x, scope), v = lengthOf(up, scope);
    if (!u || !v) return {};
    return Vec2(*u, *v);
}

std::vector<Vec2> arcLine(const Vec2& a, const Vec2& b, const Vec2& outward, double bulge) {
    std::vector<Vec2> line{a};
    if (std::abs(bulge) > 1e-9)
        for (const Vec2& p : arcPoints(a, b, outward, bulge, fine)) line.push_back(p);
    line.push_back(b);
    return line;
}

} // namespace

std::vector<CurvedEdge> curvedEdges(const Form& form, const std::string& list, const Scope& scope) {
    std::vector<CurvedEdge> found;
    const auto* curves = curvesOf(form);
    const auto* points = pointsOf(form, list);
    const auto ring = ringOf(form, list, scope);
    if (!curves || !points || !ring) return found;
    const bool side = std::holds_alternative<ProfileShape>(form.shape);
    const auto base = list == "top" ? ringOf(form, "base", scope) : std::optional<Ring>{};
    const double turn = signedArea(*ring) < 0 ? -1 : 1;
    for (std::size_t k = 0; k < curves->size(); ++k) {
        const Curve& c = (*curves)[k];
        CurvedEdge e;
        e.edge = edgeOf(c, list == "top" ? *pointsOf(form, "base") : *points);
        e.curve = static_cast<int>(k);
        if (e.edge < 0 || e.edge >= static_cast<int>(ring->size())) continue;
        const auto i = static_cast<std::size_t>(e.edge), next = (i + 1) % ring->size();
        const Vec2 a = (*ring)[i], b = (*ring)[next], chord = b - a;
        if (chord.norm() < 1e-9) continue;
        const Vec2 outward = turn * Vec2(chord.y(), -chord.x()).normalized();
        if (c.kind == CurveKind::arc) {
            const auto bulge = lengthOf(c.bulge, scope);
            if (!bulge) continue;
            double share = 1;
            if (base) {
                const double below = ((*base)[(i + 1) % base->size()] - (*base)[i]).norm();
                share = below > 1e-9 ? chord.norm() / below : 0;
            }
            e.line = arcLine(a, b, outward, *bulge * share);
            e.handle = (a + b) / 2 + outward * *bulge * share;
            e.handleAlong = outward * share;
        } else if (c.kind == CurveKind::ellipse) {
            const auto m = pointIn(c.x, side ? c.z : c.y, scope);
            double sweep = 1.5707963267948966;
            if (!c.sweep.empty())
                if (const auto angle = evaluate(c.sweep, scope, Space::subject, Kind::angle))
                    sweep = angle->value;
            if (!m || list == "top") continue;
            e.line = conic(a, *m, b, sweep);
            e.handle = *m;
        } else {
            if (list == "top") continue;
            e.line.push_back(a);
            for (const OutlinePoint& p : c.through)
                if (const auto at = pointIn(p.x, side ? p.z : p.y, scope)) e.through.push_back(*at);
            const bool forward = pointName(*points, i) == c.from;
            if (!forward) std::reverse(e.through.begin(), e.through.end());
            e.line.insert(e.line.end(), e.through.begin(), e.through.end());
            if (!forward) std::reverse(e.through.begin(), e.through.end());
            e.line.push_back(b);
        }
        found.push_back(std::move(e));
    }
    return found;
}

} // namespace slab::detail
