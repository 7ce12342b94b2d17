#include "core/body/curve_trouble.h"
#include "core/geometry/crossing.h"
#include <algorithm>

namespace slab {

namespace {

/// A curve of the outline.
struct Bent {
    const Arc* arc;
    const Curve* curve;
    std::size_t index;
};

class Curves {
public:
    Curves(const Corners& plain, const std::vector<Arc>& arcs, const std::vector<Curve>& curves)
        : m_plain(plain), m_arcs(arcs), m_curves(curves) {}

    /// The curve that a facet or a corner of the full outline belongs to.
    [[nodiscard]] std::optional<Bent> of(const std::string& side) const {
        const std::string whole = side.substr(0, side.rfind('~'));
        for (std::size_t k = 0; k < m_arcs.size() && k < m_curves.size(); ++k)
            if (whole != side && m_plain[m_arcs[k].edge].side == whole)
                return Bent{&m_arcs[k], &m_curves[k], k};
        return {};
    }
    /// The point that a spline runs through nearest to a place, in the curve's own order.
    [[nodiscard]] std::size_t nearest(const Bent& bent, const Vec2& at) const {
        const std::size_t count = bent.curve->through.size();
        std::size_t best = 0;
        double least = -1;
        for (std::size_t k = 0; k < count; ++k) {
            const double away = (pointAt(bent.arc->path, static_cast<double>(k + 1)) - at).norm();
            if (least >= 0 && away >= least) continue;
            least = away;
            best = k;
        }
        const bool along = m_plain[bent.arc->edge].name == bent.curve->from;
        return along || count == 0 ? best : count - 1 - best;
    }
    [[nodiscard]] const std::string& sideOf(const Bent& bent) const { return m_plain[bent.arc->edge].side; }

private:
    const Corners& m_plain;
    const std::vector<Arc>& m_arcs;
    const std::vector<Curve>& m_curves;
};

std::string fieldOf(const Bent& bent) {
    return "curves/" + std::to_string(bent.index);
}
std::string endsOf(const Curve& curve) {
    return curve.from + " to " + curve.to;
}
/// "its point 2", or by its name.
std::string pointWords(const Curve& curve, std::size_t k) {
    const std::string& name = curve.through[k].name;
    return "point " + (name.empty() ? std::to_string(k + 1) : name);
}

Vec2 crossingOf(const Ring& ring, const std::pair<std::size_t, std::size_t>& edges) {
    const std::size_t n = ring.size();
    const Vec2 &a = ring[edges.first], &c = ring[edges.second];
    const Vec2 ab = ring[(edges.first + 1) % n] - a, cd = ring[(edges.second + 1) % n] - c;
    const double turn = cross2(ab, cd);
    const double t = turn != 0 ? std::clamp(cross2(c - a, cd) / turn, 0.0, 1.0) : 0.5;
    return a + t * ab;
}

/// One curve against itself or against another side.
CurveTrouble told(const Curves& curves, const Bent& bent, const std::string& code, const std::string& what,
                  const Vec2& at) {
    CurveTrouble out{code, what, {}, fieldOf(bent)};
    if (bent.curve->kind == CurveKind::spline && !bent.curve->through.empty()) {
        const std::size_t point = curves.nearest(bent, at);
        out.field += "/through/" + std::to_string(point);
        out.remedy = "Move " + pointWords(*bent.curve, point) + " of the spline from " + endsOf(*bent.curve) +
                     ", or take it out; its points must follow each other from one end to the other.";
    } else if (bent.curve->kind == CurveKind::ellipse) {
        out.remedy = "Move the place where its two ends' directions meet, or make it turn less.";
    } else {
        out.remedy = "Lessen the bulge.";
    }
    return out;
}

} // namespace

CurveTrouble curveTroubleOf(const Corners& full, const Corners& plain, const std::vector<Arc>& arcs,
                            const std::vector<Curve>& all) {
    const OutlineTrouble trouble = troubleOf(full);
    if (trouble.code.empty()) return {};
    const Curves curves(plain, arcs, all);
    const Ring ring = ringOf(full);
    const auto edges = firstCrossing(ring);
    if (trouble.code != "outline-crosses" || !edges) {
        const auto bent = curves.of(full[trouble.corner].side);
        if (!bent) return {trouble.code, "with its curves, " + trouble.message, trouble.remedy, "curves"};
        return told(curves, *bent, trouble.code, "with its curves, " + trouble.message,
                    full[trouble.corner].at);
    }
    const Vec2 at = crossingOf(ring, *edges);
    const auto first = curves.of(full[edges->first].side), second = curves.of(full[edges->second].side);
    if (first && second && first->index == second->index)
        return told(curves, *first, trouble.code, "the curve crosses or touches itself", at);
    const auto name = [&](const std::optional<Bent>& bent, std::size_t edge) {
        return bent ? "the curve of side " + curves.sideOf(*bent) : "side " + full[edge].side;
    };
    const auto& blamed = first ? first : second;
    const std::string what =
        name(first, edges->first) + " and " + name(second, edges->second) + " cross or touch";
    if (!blamed) return {trouble.code, what, trouble.remedy, "curves"};
    return told(curves, *blamed, trouble.code, what, at);
}

CurveTrouble halfTroubleOf(const Corners& full, const Corners& plain, const std::vector<Arc>& arcs,
                           const std::vector<Curve>& all) {
    const auto below = std::find_if(full.begin(), full.end(), [](const Corner& c) { return c.half < 0; });
    if (below == full.end()) return {};
    const Curves curves(plain, arcs, all);
    const auto bent = curves.of(below->side);
    const std::string what = "the curve makes the half width less than zero";
    if (!bent) return {"half-width-negative", what, "Lessen the bulge.", "curves"};
    CurveTrouble out = told(curves, *bent, "half-width-negative", what, below->at);
    if (bent->curve->kind == CurveKind::spline && !bent->curve->through.empty())
        out.remedy = "Give " + pointWords(*bent->curve, curves.nearest(*bent, below->at)) +
                     " of the spline from " + endsOf(*bent->curve) + " a larger half width, or move it.";
    return out;
}

} // namespace slab
