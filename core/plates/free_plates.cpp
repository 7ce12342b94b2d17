#include "core/plates/free_plates.h"
#include "core/geometry/triangulate.h"
#include "core/plates/cuts.h"
#include "core/plates/outline.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

constexpr double contact = 0.5; ///< mm: an edge this near a face rests on it

std::vector<Ring> convexParts(const Polygon& outline) {
    const Ring hull = convexHull(outline.outer);
    if (outline.holes.empty() &&
        std::abs(signedArea(hull) - signedArea(outline.outer)) < 1e-9 * signedArea(hull))
        return {hull};
    std::vector<Vec2> points = outline.outer;
    for (const Ring& hole : outline.holes) points.insert(points.end(), hole.begin(), hole.end());
    std::vector<Ring> parts;
    for (const auto& triangle : triangulate(outline)) {
        Ring ring;
        for (const int i : triangle) ring.push_back(points[static_cast<std::size_t>(i)]);
        parts.push_back(std::move(ring));
    }
    return parts;
}

Cells prisms(PlaneTable& planes, const FreePlate& form, double thickness, Half& outer, Half& inner) {
    const Vec3 w = form.frame.axes.col(2);
    outer = planes.add({w, w.dot(form.frame.origin)});
    inner = planes.add({-w, -w.dot(form.frame.origin) + thickness});
    Cells cells;
    for (const Ring& ring : convexParts(form.outline)) {
        Cell cell;
        const int n = static_cast<int>(ring.size());
        for (const double level : {0.0, -thickness})
            for (const Vec2& p : ring) cell.vertices.push_back(form.frame.toBody(Vec3(p.x(), p.y(), level)));
        cell.facets.push_back({outer, 0, n});
        for (int i = 0; i < n; ++i) cell.corners.push_back(i);
        cell.facets.push_back({inner, n, n});
        for (int i = n; i-- > 0;) cell.corners.push_back(n + i);
        for (int i = 0; i < n; ++i) {
            const int k = (i + 1) % n;
            const Vec3& a = cell.vertices[static_cast<std::size_t>(i)];
            const Vec3 out = (cell.vertices[static_cast<std::size_t>(k)] - a).cross(w).normalized();
            cell.facets.push_back({planes.add({out, out.dot(a)}), static_cast<int>(cell.corners.size()), 4});
            for (const int v : {i, i + n, k + n, k}) cell.corners.push_back(v);
        }
        setBox(cell);
        cells.push_back(std::move(cell));
    }
    return cells;
}

/// The plate whose outer face the segment lies on, or null.
const Plate* under(const PlateSet& set, const Plate& self, const Vec3& a, const Vec3& b) {
    for (const Plate& other : set.plates) {
        if (other.name == self.name || other.boundary.outer.size() < 3) continue;
        const Vec3 la = other.frame.toLocal(a), lb = other.frame.toLocal(b);
        if (std::abs(la.z()) > contact || std::abs(lb.z()) > contact) continue;
        if (contains(other.boundary.outer, Vec2((la.head<2>() + lb.head<2>()) / 2), contact)) return &other;
    }
    return nullptr;
}

/// Outside faces that the plate lies flat on.
std::vector<FaceRest> restsOf(const PlateSet& set, const Plate& plate) {
    constexpr double parallel = 0.9998; // cos 1°
    constexpr double least = 1;         // mm²: more than a touch
    std::vector<FaceRest> rests;
    for (const Plate& other : set.plates) {
        if (other.name == plate.name || other.boundary.outer.size() < 3) continue;
        const double turn = other.frame.axes.col(2).dot(plate.frame.axes.col(2));
        if (std::abs(turn) < parallel) continue;
        // Outward normals alike: the inside face lies on the other's outside face.
        const bool outside = turn < 0;
        const double level = outside ? 0 : -plate.thickness;
        Ring shadow;
        bool near = true;
        for (const Vec2& p : outside ? plate.boundary.outer : plate.boundary.inner) {
            const Vec3 there = other.frame.toLocal(plate.frame.toBody(Vec3(p.x(), p.y(), level)));
            near = near && std::abs(there.z()) <= contact;
            shadow.push_back(there.head<2>());
        }
        if (!near || shadow.size() < 3) continue;
        if (signedArea(shadow) < 0) std::reverse(shadow.begin(), shadow.end());
        double common = 0;
        for (const Polygon& part : intersect({{shadow, {}}}, {{other.boundary.outer, {}}}))
            common += area(part);
        if (common > least) rests.push_back({other.name, outside});
    }
    return rests;
}

void labelContacts(PlateSet& set, std::size_t index) {
    Plate& plate = set.plates[index];
    plate.rests = restsOf(set, plate);
    if (!plate.rests.empty()) return; // flat on a face: no edge stands on anything
    const auto label = [&](PanelLoop& loop) {
        for (std::size_t i = 0; i < loop.edges.size(); ++i) {
            const Vec2& a = loop.outer[i];
            const Vec2& b = loop.outer[(i + 1) % loop.outer.size()];
            for (const double level : {0.0, -plate.thickness}) {
                const Plate* base = under(set, plate, plate.frame.toBody(Vec3(a.x(), a.y(), level)),
                                          plate.frame.toBody(Vec3(b.x(), b.y(), level)));
                if (!base) continue;
                loop.edges[i].neighbour = base->name;
                loop.edges[i].role = EdgeRole::rests;
                const double turn = base->frame.axes.col(2).dot(plate.frame.axes.col(2));
                loop.edges[i].dihedral = std::acos(std::clamp(turn, -1.0, 1.0));
                break;
            }
        }
    };
    label(plate.boundary);
    for (PanelLoop& hole : plate.holes) label(hole);
}

bool usable(const FreePlate& form, PlateSet& set) {
    if (form.outline.outer.size() >= 3 && signedArea(form.outline.outer) > 1e-6 &&
        isSimple(form.outline.outer))
        return true;
    set.findings.push_back({Severity::stop,
                            "plate-outline",
                            form.name + " has an outline that crosses itself or has no area",
                            {"form:" + form.form},
                            "Correct the outline's points.",
                            {}});
    return false;
}

} // namespace

void buildFreePlates(const Body& body, const PlateRules& rules, std::vector<PlaneTable>& tables,
                     std::vector<int>& hits, PlateSet& set, std::vector<Built>& built) {
    tables.reserve(body.plates.size());
    const std::size_t first = set.plates.size();
    for (std::size_t i = 0; i < body.plates.size() && i < rules.freePlates.size(); ++i) {
        const FreePlate& form = body.plates[i];
        const FaceChoice& choice = rules.freePlates[i];
        if (choice.stock.empty() || !(choice.thickness > 0) || !usable(form, set)) continue;
        const double size = slab::bounds(form.outline.outer).size().norm() + choice.thickness;
        PlaneTable& planes = tables.emplace_back(form.frame.origin, size);
        Half outer, inner;
        Cells cells = prisms(planes, form, choice.thickness, outer, inner);
        Walls walls;
        cutPlate({planes, cells, walls, form.name, outer, choice.thickness}, body, rules, hits, set.findings);
        const auto pieces = assemble(planes, cells);
        if (pieces.empty()) continue;
        Plate plate;
        plate.name = form.name;
        plate.form = form.form;
        plate.stock = choice.stock;
        plate.thickness = choice.thickness;
        plate.rank = choice.rank;
        plate.volume = pieces.front().volume;
        readOutlines(plate, pieces.front(), planes, outer, inner, [&](const Half& half, const Vec3& point) {
            SideLabel label;
            if (const std::string* opening = openingAt(walls, half.plane, point)) label.opening = *opening;
            return label;
        });
        plate.solid = pieces.front().solid;
        for (const Cell& c : cells) plate.cells.push_back({ConvexSolid::Kind::hull, c.vertices, 0});
        built.push_back({set.plates.size(), -1 - static_cast<int>(i), &planes, cells});
        set.plates.push_back(std::move(plate));
    }
    for (std::size_t i = first; i < set.plates.size(); ++i) labelContacts(set, i);
}

} // namespace slab::plates
