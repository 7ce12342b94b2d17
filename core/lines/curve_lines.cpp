#include "core/lines/curve_lines.h"
#include "core/body/reader.h"
#include <cmath>

namespace slab::detail {

namespace {

constexpr int fine = 32; ///< pieces of a drawn stretch

class CurveDrawer {
public:
    CurveDrawer(const Form& form, const Scope& scope)
        : m_form(form), m_side(std::holds_alternative<ProfileShape>(form.shape)),
          m_list(std::holds_alternative<TaperShape>(form.shape) ? "base" : "outline"),
          m_reader(form, 0, scope, m_ignored), m_scope(scope) {
        if (const auto* points = pointsOf(form, m_list))
            m_corners = m_reader.outline(*points, m_list, plane());
    }

    [[nodiscard]] bool ok() const { return m_reader.ok() && m_corners.size() >= 2; }

    std::optional<CurvedEdge> draw(std::size_t k) {
        const Curve& c = (*curvesOf(m_form))[k];
        std::vector<Finding> ignored;
        FormReader reader(m_form, 0, m_scope, ignored); // its own, so that one wrong curve spoils no other
        const auto arcs = reader.arcs({c}, m_corners, plane());
        if (!reader.ok() || arcs.empty()) return {};
        m_arc = arcs.front();
        CurvedEdge e;
        e.edge = static_cast<int>(m_arc.edge);
        e.curve = static_cast<int>(k);
        const Vec2 a = m_corners[m_arc.edge].at, b = m_corners[(m_arc.edge + 1) % m_corners.size()].at;
        m_path = m_arc.path;
        if (c.kind == CurveKind::arc) {
            const double turn = signedArea(slab::ringOf(m_corners)) < 0 ? -1 : 1;
            const Vec2 chord = b - a;
            if (chord.norm() < 1e-9) return {};
            const Vec2 outward = turn * Vec2(chord.y(), -chord.x()).normalized();
            if (std::abs(m_arc.bulge) > 1e-9) m_path = arcPath(a, b, outward, m_arc.bulge);
            e.handle = (a + b) / 2 + outward * m_arc.bulge;
            e.handleAlong = outward;
            for (int i = 0; i <= m_arc.facets; ++i)
                m_arc.breaks.push_back(static_cast<double>(i) / m_arc.facets);
        } else if (c.kind == CurveKind::ellipse) {
            e.handle = {m_reader.length(c.x, ""), m_reader.length(m_side ? c.z : c.y, "")};
        } else {
            for (const OutlinePoint& p : c.through)
                e.through.emplace_back(m_reader.length(p.x, ""), m_reader.length(m_side ? p.z : p.y, ""));
        }
        trace(e, m_path, a, b);
        return e;
    }

    /// The same curve over the top's edge.
    [[nodiscard]] CurvedEdge onTop(const CurvedEdge& base, const Ring& top) const {
        CurvedEdge e;
        e.edge = base.edge;
        e.curve = base.curve;
        const Vec2 a = top[m_arc.edge], b = top[(m_arc.edge + 1) % top.size()];
        trace(e, m_path.empty() ? m_path : fitted(m_path, a, b), a, b);
        return e;
    }

private:
    const Form& m_form;
    bool m_side;
    std::string m_list;
    std::vector<Finding> m_ignored;
    FormReader m_reader;
    const Scope& m_scope;
    Corners m_corners;
    Arc m_arc;
    CurvePath m_path;

    [[nodiscard]] FormReader::Plane plane() const {
        return m_side ? FormReader::Plane::xz : FormReader::Plane::xy;
    }

    void trace(CurvedEdge& e, const CurvePath& path, const Vec2& a, const Vec2& b) const {
        if (path.empty()) {
            e.line = {a, b};
            return;
        }
        const int count = fine * static_cast<int>(path.size());
        for (int i = 0; i <= count; ++i) e.line.push_back(pointAt(path, static_cast<double>(i) / fine));
        e.line.front() = a;
        e.line.back() = b;
        for (const double t : m_arc.breaks) e.facets.push_back(pointAt(path, t));
    }
};

} // namespace

std::vector<CurvedEdge> curvedEdges(const Form& form, const std::string& list, const Scope& scope) {
    std::vector<CurvedEdge> found;
    const auto* curves = curvesOf(form);
    if (!curves || curves->empty()) return found;
    CurveDrawer drawer(form, scope);
    const auto top = list == "top" ? ringOf(form, list, scope) : std::optional<Ring>{};
    if (!drawer.ok() || (list == "top" && !top)) return found;
    for (std::size_t k = 0; k < curves->size(); ++k) {
        auto e = drawer.draw(k);
        if (!e || (top && static_cast<std::size_t>(e->edge) >= top->size())) continue;
        found.push_back(top ? drawer.onTop(*e, *top) : std::move(*e));
    }
    return found;
}

} // namespace slab::detail
