#include "core/plates/feet.h"
#include "core/base/index.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr double parallel = 0.02; ///< rise over run: an edge that climbs more does not lie on the face

/// The edge's foot on a plane that it rises from: where the two faces of the plate meet that plane.
std::vector<Vec3> stripOn(const EdgeLine& e, const Plane& plane, double rise) {
    std::vector<Vec3> strip;
    for (const Vec3& corner : {e.a, e.b, Vec3(e.b + e.down), Vec3(e.a + e.down)})
        strip.push_back(corner + e.out * (plane.distance(corner) / rise));
    return strip;
}

/// More than a touch, along the edge and across it.
double contactArea(const HostFace& face, const EdgeLine& e, const Plane& plane, double rise) {
    const auto strip = stripOn(e, plane, rise);
    const Vec3 across = (strip[3] - strip[0]) - e.along * e.along.dot(strip[3] - strip[0]);
    const double wide = across.norm();
    if (wide < 1e-9) return 0;
    double area = 0;
    for (const Polygon& part : commonWith(face, strip)) {
        Box2 box;
        for (std::size_t i = 0; i < part.outer.size(); ++i) {
            const Vec3 p = face.plate->frame.toBody(part.outer[i]);
            const Vec2 here(e.along.dot(p), across.dot(p) / wide);
            box.min = i == 0 ? here : Vec2(box.min.cwiseMin(here));
            box.max = i == 0 ? here : Vec2(box.max.cwiseMax(here));
        }
        if (box.size().x() < contactReach || box.size().y() < std::min(contactReach, wide / 2)) continue;
        area += slab::area(part);
    }
    return area;
}

/// Is one of the edge's two corner lines drawn on the plane?
bool drawnOn(const EdgeLine& e, const Plane& plane) {
    if (std::abs(plane.normal.dot(e.along)) > parallel) return false;
    for (const Vec3& down : {Vec3(Vec3::Zero()), e.down})
        if (std::abs(plane.distance(e.a + down)) <= contactReach &&
            std::abs(plane.distance(e.b + down)) <= contactReach)
            return true;
    return false;
}

/// Does the plate go on past the plane?
bool reachesPast(const Standing& s, const Plane& plane) {
    const auto past = [&](const Vec2& p) { return plane.distance(s.form->frame.toBody(p)) > contactReach; };
    return std::any_of(s.form->outline.outer.begin(), s.form->outline.outer.end(), past);
}

/// The best foot so far of one edge.
struct Best {
    Foot foot;
    double area = 0, off = 0;
    bool flat = false; ///< leans too little
};

class Finder {
public:
    Finder(std::vector<Standing>& forms, const PlateList& fixed, Stand kind) : m_forms(forms), m_kind(kind) {
        for (const Plate& plate : fixed) add(plate, -1);
        for (std::size_t i = 0; i < forms.size(); ++i) add(*forms[i].plate, static_cast<int>(i));
    }

    void run(std::vector<Finding>& tooFlat) {
        std::vector<std::size_t> order(m_forms.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = order.size() - 1 - i;
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t l, std::size_t r) { return m_forms[l].rank > m_forms[r].rank; });
        for (const std::size_t i : order)
            for (std::size_t ring = 0; ring <= m_forms[i].form->outline.holes.size(); ++ring)
                for (std::size_t edge = 0; edge < ringOf(*m_forms[i].form, ring).size(); ++edge)
                    find(i, ring, edge, tooFlat);
    }

private:
    struct Host {
        std::vector<HostFace> faces;
        int form = -1; ///< index, or -1 of a fixed plate
    };

    void add(const Plate& plate, int form) {
        Host host{facesOf(plate), form};
        if (!host.faces.empty()) m_hosts.push_back(std::move(host));
    }
    /// Is `host` cut to that form already, or, run through, does it outrank it?
    [[nodiscard]] bool mayYieldTo(std::size_t form, const Host& host) const {
        if (host.form < 0) return true;
        const Standing& other = m_forms[at(host.form)];
        const auto stands = [&](const Foot& f) { return f.host == m_forms[form].form->name; };
        if (std::any_of(other.feet.begin(), other.feet.end(), stands)) return false;
        if (m_kind == Stand::on) return true;
        return other.rank != m_forms[form].rank ? other.rank < m_forms[form].rank : at(host.form) < form;
    }

    void consider(const Standing& s, const EdgeLine& e, const HostFace& drawn, const HostFace& target,
                  Best& best) const {
        if (!drawnOn(e, drawn.plane)) return;
        const double rise = -e.out.dot(target.plane.normal);
        if (rise < flatRise) return;
        const bool flat = rise < leastRise;
        if (flat && m_kind == Stand::through) return;
        if (m_kind == Stand::through && !reachesPast(s, target.plane)) return;
        const double area = contactArea(target, e, target.plane, rise);
        const double off = std::abs(target.plane.distance(e.a)) + std::abs(target.plane.distance(e.b));
        if (area < leastContact) return;
        const bool better = best.area == 0 || (best.flat && !flat) ||
                            (best.flat == flat && (area > best.area * (1 + 1e-6) ||
                                                   (area > best.area * (1 - 1e-6) && off < best.off - 1e-9)));
        if (!better) return;
        best = {{best.foot.ring, best.foot.edge, target.plate->name, target.plane, {}}, area, off, flat};
    }

    void find(std::size_t form, std::size_t ring, std::size_t edge, std::vector<Finding>& tooFlat) {
        Standing& s = m_forms[form];
        const auto same = [&](const Foot& f) { return f.ring == ring && f.edge == edge; };
        if (std::any_of(s.feet.begin(), s.feet.end(), same)) return;
        const EdgeLine e = edgeLine(*s.form, s.thickness, ring, edge);
        if (e.length < 1e-6) return;
        Best best;
        best.foot.ring = ring;
        best.foot.edge = edge;
        for (const Host& host : m_hosts) {
            if (host.form == static_cast<int>(form) || !mayYieldTo(form, host)) continue;
            for (std::size_t f = 0; f < host.faces.size(); ++f) {
                if (m_kind == Stand::on)
                    consider(s, e, host.faces[f], host.faces[f], best);
                else if (host.faces.size() == 2)
                    consider(s, e, host.faces[f], host.faces[1 - f], best);
            }
        }
        if (best.area == 0) return;
        if (!best.flat) {
            s.feet.push_back(std::move(best.foot));
            return;
        }
        const double lean = std::asin(-e.out.dot(best.foot.face.normal));
        const Vec3 p = (e.a + e.b) / 2;
        tooFlat.push_back({Severity::look,
                           "foot-too-flat",
                           s.form->name + " leans only " + printAngle(lean, 1) + " from " + best.foot.host +
                               ", on which its edge stands: no saw cuts that foot, so it stays square",
                           {"plate:" + s.form->name, "plate:" + best.foot.host},
                           "Stand it up by 15° or more, or lay it flat on the face.",
                           std::array<double, 3>{p.x(), p.y(), p.z()}});
    }

    std::vector<Standing>& m_forms;
    Stand m_kind;
    std::vector<Host> m_hosts;
};

} // namespace

std::vector<HostFace> facesOf(const Plate& plate) {
    std::vector<HostFace> faces;
    const Vec3 w = plate.frame.axes.col(2);
    const double level = w.dot(plate.frame.origin);
    for (const bool inside : {false, true}) {
        const Ring& outline = inside ? plate.boundary.inner : plate.boundary.outer;
        if (outline.size() < 3) continue;
        HostFace& face = faces.emplace_back();
        face.plate = &plate;
        face.inside = inside;
        face.plane = inside ? Plane{-w, plate.thickness - level} : Plane{w, level};
    }
    return faces;
}

const std::vector<Polygon>& HostFace::area() const {
    if (!m_area.empty()) return m_area;
    std::vector<Polygon> holes;
    for (const PanelLoop& hole : plate->holes) {
        const Ring& ring = inside ? hole.inner : hole.outer;
        if (ring.size() >= 3) holes.push_back({reversed(ring), {}});
    }
    m_area = {{inside ? plate->boundary.inner : plate->boundary.outer, {}}};
    if (!holes.empty()) m_area = subtract(m_area, holes);
    return m_area;
}

std::vector<Polygon> commonWith(const HostFace& face, const std::vector<Vec3>& corners) {
    Ring ring;
    for (const Vec3& p : corners) ring.push_back(face.plate->frame.toPlane(p));
    if (ring.size() < 3) return {};
    if (signedArea(ring) < 0) std::reverse(ring.begin(), ring.end());
    return intersect({{ring, {}}}, face.area());
}

const Ring& ringOf(const FreePlate& form, std::size_t ring) {
    return ring == 0 ? form.outline.outer : form.outline.holes.at(ring - 1);
}

EdgeLine edgeLine(const FreePlate& form, double thickness, std::size_t ring, std::size_t edge) {
    const Ring& points = ringOf(form, ring);
    const Vec3 w = form.frame.axes.col(2);
    EdgeLine e;
    e.a = form.frame.toBody(points[edge]);
    e.b = form.frame.toBody(points[(edge + 1) % points.size()]);
    e.down = -thickness * w;
    e.length = (e.b - e.a).norm();
    e.along = e.length > 0 ? Vec3((e.b - e.a) / e.length) : Vec3(form.frame.axes.col(0));
    e.out = e.along.cross(w);
    return e;
}

void findFeet(std::vector<Standing>& forms, const PlateList& fixed, Stand kind,
              std::vector<Finding>& tooFlat) {
    Finder(forms, fixed, kind).run(tooFlat);
}

} // namespace slab::plates
