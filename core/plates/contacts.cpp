#include "core/plates/contacts.h"
#include <algorithm>
#include <cmath>

namespace slab::plates {

namespace {

using Faces = std::vector<std::vector<HostFace>>; ///< by plate

double areaOf(const std::vector<Polygon>& parts) {
    double sum = 0;
    for (const Polygon& p : parts) sum += area(p);
    return sum;
}

std::vector<Polygon> regionOf(const HostFace& host, const std::vector<std::vector<Vec3>>& loops) {
    std::vector<Polygon> solid, gaps;
    double greatest = 0;
    std::vector<Ring> rings;
    for (const auto& loop : loops) {
        Ring ring;
        for (const Vec3& p : loop) ring.push_back(host.plate->frame.toPlane(p));
        if (std::abs(signedArea(ring)) > std::abs(greatest)) greatest = signedArea(ring);
        rings.push_back(std::move(ring));
    }
    for (Ring& ring : rings) {
        const bool solidSide = (signedArea(ring) > 0) == (greatest > 0);
        if (signedArea(ring) < 0) std::reverse(ring.begin(), ring.end());
        (solidSide ? solid : gaps).push_back({std::move(ring), {}});
    }
    if (!gaps.empty()) solid = subtract(solid, gaps);
    return intersect(solid, host.area());
}

/// What loops in `plane` have in common with faces that look the same way (normals alike) within reach.
struct Common {
    std::size_t plate = 0;
    const HostFace* face = nullptr;
    std::vector<Polygon> parts;
    double area = 0;
};

std::vector<Common> commons(const Faces& faces, std::size_t self, const Plane& plane,
                            const std::vector<std::vector<Vec3>>& loops) {
    constexpr double alike = 0.9998; // cos 1°
    std::vector<Common> out;
    for (std::size_t p = 0; p < faces.size(); ++p)
        for (const HostFace& face : faces[p]) {
            if (p == self || face.plane.normal.dot(plane.normal) < alike) continue;
            const bool near = std::all_of(loops.begin(), loops.end(), [&](const auto& loop) {
                return std::all_of(loop.begin(), loop.end(), [&](const Vec3& v) {
                    return std::abs(face.plane.distance(v)) <= contactReach;
                });
            });
            if (!near) continue;
            Common c{p, &face, regionOf(face, loops), 0};
            c.area = areaOf(c.parts);
            if (c.area > leastContact) out.push_back(std::move(c));
        }
    std::stable_sort(out.begin(), out.end(),
                     [](const Common& a, const Common& b) { return a.area > b.area * (1 + 1e-9); });
    return out;
}

void addContact(PlateSet& set, const Common& common, std::size_t plate, int mark, bool flat) {
    Contact contact;
    contact.on = set.plates[common.plate].name;
    contact.plate = set.plates[plate].name;
    contact.mark = mark;
    contact.inside = common.face->inside;
    contact.flat = flat;
    for (const Polygon& part : common.parts) {
        contact.rings.push_back(part.outer);
        contact.rings.insert(contact.rings.end(), part.holes.begin(), part.holes.end());
    }
    set.plates.own(common.plate).contacts.push_back(std::move(contact));
}

template <class Change>
void forEdges(Plate& plate, const Change& change) {
    const auto all = [&](PanelLoop& loop) {
        for (auto* edges : {&loop.edges, &loop.extraInner})
            for (PanelEdge& e : *edges) change(e);
    };
    all(plate.boundary);
    for (PanelLoop& hole : plate.holes) all(hole);
}

void describeFoot(PlateSet& set, const Faces& faces, const FootFace& foot, int& next) {
    const auto all = commons(faces, foot.plate, foot.plane, foot.loops);
    const int mark = all.empty() ? 0 : next++;
    for (std::size_t i = 0; i < all.size(); ++i)
        addContact(set, all[i], foot.plate, i == 0 ? mark : 0, false);
    const std::string host = all.empty() ? "" : set.plates[all.front().plate].name;
    forEdges(set.plates.own(foot.plate), [&](PanelEdge& e) {
        if (e.mark != -foot.foot) return;
        e.mark = mark;
        e.neighbour = host;
        if (host.empty()) e.role = EdgeRole::cut;
    });
}

/// Both faces of a plate form, looked at from the plate that it lies on.
void describeFaces(PlateSet& set, const Faces& faces, std::size_t index, std::size_t first, int& next) {
    const Plate& plate = set.plates[index];
    for (const HostFace& own : faces[index]) {
        std::vector<std::vector<Vec3>> loops;
        for (const Polygon& part : own.area()) {
            std::vector<Ring> rings{part.outer};
            rings.insert(rings.end(), part.holes.begin(), part.holes.end());
            for (const Ring& ring : rings) {
                auto& loop = loops.emplace_back();
                for (const Vec2& p : ring)
                    loop.push_back(plate.frame.toBody(Vec3(p.x(), p.y(), own.inside ? -plate.thickness : 0)));
            }
        }
        for (const Common& common : commons(faces, index, {-own.plane.normal, -own.plane.offset}, loops)) {
            if (common.plate >= first) { // another plate form
                const double here = area({plate.boundary.outer, {}});
                const double there = area({set.plates[common.plate].boundary.outer, {}});
                const bool alike = std::abs(here - there) <= 1e-6 * (here + there);
                if (alike ? index < common.plate : here > there) continue;
            }
            addContact(set, common, index, next, true);
            set.plates.own(index).rests.push_back(
                {set.plates[common.plate].name, !own.inside, common.face->inside, next});
            ++next;
        }
    }
}

} // namespace

void describeContacts(PlateSet& set, std::size_t first, const std::vector<FootFace>& feet, int& next) {
    if (first >= set.plates.size()) return;
    Faces faces;
    for (const Plate& plate : set.plates) faces.push_back(facesOf(plate));
    for (const FootFace& foot : feet) describeFoot(set, faces, foot, next);
    for (std::size_t i = first; i < set.plates.size(); ++i) {
        describeFaces(set, faces, i, first, next);
        forEdges(set.plates.own(i), [](PanelEdge& e) { // nothing of that foot is left
            if (e.mark >= 0) return;
            e.mark = 0;
            e.role = EdgeRole::cut;
        });
    }
}

} // namespace slab::plates
