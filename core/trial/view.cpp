// What the rider sees past the plates as they are cut.
#include "core/geometry/convex.h"
#include "core/trial/outline.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace slab::trial {

namespace {

constexpr double aheadHalf = 10 * degree; ///< to either side of the way (from memory)
constexpr double aheadStep = 1 * degree;
constexpr double eyesApart = 63; ///< mm, between the pupils of a grown-up (from memory)
constexpr double aheadStrip =
    500; ///< mm: a shorter strip of ground, under a skirt, shows nothing (from memory)
constexpr double mapReach = 5000, mapMost = 15000; ///< mm round the eye
constexpr int mapDirections = 180, mapRings = 50;

void addTriangles(const std::vector<Vec3>& corners, std::vector<sight::Triangle>& out) {
    for (std::size_t i = 0; i + 2 < corners.size(); i += 3)
        out.push_back({corners[i], corners[i + 1], corners[i + 2]});
}

/// Faces that hide something: of a closed solid those that look at the eyes, since what is seen enters by
/// one of them; all of one that the eyes are in.
class Opaque {
public:
    Opaque(const Stuff& stuff, const Vec3& eye)
        : m_way(wayOf(stuff)), m_eye(eye), m_body(m_way.toBody(eye)), m_all(stuff.depth == Depth::full) {}

    void add(const Polyhedron& solid) {
        const Box3 box = bounds(solid);
        const bool within = (m_body - box.min).minCoeff() > -eyesApart && //
                            (box.max - m_body).minCoeff() > -eyesApart;
        for (const PolyFace& face : solid.faces)
            if ((within || face.plane.distance(m_body) > -eyesApart) && (m_all || hidesAhead(solid, face)))
                addTriangles(triangulateFace(solid, face), triangles);
    }
    std::vector<sight::Triangle> triangles; ///< in the body's axes

private:
    /// May it hide the horizon, or ground ahead within aheadHalf to either side?
    [[nodiscard]] bool hidesAhead(const Polyhedron& solid, const PolyFace& face) const {
        constexpr double far = 1e18;
        Box3 box{Vec3::Constant(far), Vec3::Constant(-far)};
        for (const int v : face.loops.front()) {
            const Vec3 at = m_way.toLocal(solid.vertices[static_cast<std::size_t>(v)]) - m_eye;
            box = united(box, {at, at});
        }
        if (box.min.z() <= 0 && box.max.z() >= 0) return true;
        const double wide = box.max.x() * std::tan(aheadHalf) + eyesApart;
        return box.max.x() > 0 && box.min.y() <= wide && box.max.y() >= -wide;
    }
    Frame m_way;
    Vec3 m_eye, m_body;
    bool m_all;
};

/// Plates, bought parts and the donor, in the axes of the way; people do not hide the way from themselves.
/// While scales are surveyed only what counts straight ahead and at the horizon.
std::vector<sight::Triangle> opaqueOf(const Stuff& stuff, const Vec3& eye) {
    Opaque opaque(stuff, eye);
    for (const Plate& plate : stuff.plates.plates) opaque.add(plate.solid);
    for (const BoughtPart& part : stuff.bought)
        for (const ConvexSolid& piece : part.pieces)
            if (piece.points.size() > 1) opaque.add(toPolyhedron(piece, 16));
    for (const FitSolid& s : stuff.donor.solids)
        if (s.group == "donor" && !s.moving) opaque.add(toPolyhedron(s.shape, 16));
    std::vector<sight::Triangle> out = std::move(opaque.triangles);
    const Frame towards = wayOf(stuff);
    std::erase_if(out, [](const sight::Triangle& t) { // below the ground nothing hides it
        return std::max({t[0].z(), t[1].z(), t[2].z()}) <= 0;
    });
    for (sight::Triangle& t : out)
        for (Vec3& p : t) {
            p = towards.toLocal(p);
            p.z() = std::max(p.z(), 0.0);
        }
    return out;
}

/// The hole filled: its outline on the outside face, fanned.
void addCover(const Plate& plate, const PlateOpening& opening, const Frame& way,
              std::vector<sight::Triangle>& out) {
    const Ring& ring = opening.flat.outline;
    const auto at = [&](std::size_t i) { return way.toLocal(plate.frame.toBody(ring[i])); };
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) out.push_back({at(0), at(i), at(i + 1)});
}

/// Both eyes beside a point, looking along x.
std::vector<sight::Sight> eyesAt(const Vec3& between, const std::vector<sight::Triangle>& opaque) {
    std::vector<sight::Sight> out;
    for (const double side : {0.5, -0.5})
        if (auto eye = sight::Sight::of({between + Vec3(0, side * eyesApart, 0), opaque, {}}))
            out.push_back(std::move(*eye));
    return out;
}

/// The stretch of a line c + t·d within a ring; nothing if it passes by.
std::optional<std::pair<double, double>> stretchIn(const Ring& ring, const Vec2& c, const Vec2& d) {
    double low = 1e18, high = -1e18;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % ring.size()];
        const double sa = cross2(d, a - c), sb = cross2(d, b - c);
        if ((sa > 0) == (sb > 0)) continue;
        const double t = d.dot(a - c + sa / (sa - sb) * (b - a));
        low = std::min(low, t);
        high = std::max(high, t);
    }
    if (low > high) return std::nullopt;
    return std::pair(low, high);
}

/// Where a ray from the eye meets a plane of the plate, in its flat coordinates; nothing behind the eye.
/// @param depth  of that plane under the outside face, mm
std::optional<Vec2> crossing(const Plate& plate, const Vec3& eye, const Vec3& way, double depth) {
    const Vec3 normal = plate.frame.axes.col(2);
    const double along = normal.dot(way);
    if (std::abs(along) < 0.05) return std::nullopt;
    const double t = (normal.dot(plate.frame.origin - eye) - depth) / along;
    if (!(t > 0)) return std::nullopt;
    return plate.frame.toPlane(eye + t * way);
}

/// What an opening leaves clear above and below a ray, along `up` of the plate, through its whole thickness
/// with walls square to the plate, mm; its edges on the outside face where nothing is clear. Nothing if the
/// ray goes past it.
std::optional<std::pair<double, double>> clearOf(const Plate& plate, const PlateOpening& opening,
                                                 const Vec3& eye, const Vec3& ray, const Vec2& up) {
    const auto outside = crossing(plate, eye, ray, 0), inside = crossing(plate, eye, ray, plate.thickness);
    if (!outside || !inside) return std::nullopt;
    const auto a = stretchIn(opening.flat.outline, *outside, up),
               b = stretchIn(opening.flat.outline, *inside, up);
    if (!a) return std::nullopt;
    if (!b) return a;
    const std::pair both(std::max(a->first, b->first), std::min(a->second, b->second));
    return both.first < both.second ? both : *a;
}

/// Where it lies against level and ground that are looked for straight ahead.
void measure(const Plate& plate, const PlateOpening& opening, const View& view, const Vec3& forward,
             double nose, OpeningSeen& out) {
    const Vec3 upward = plate.frame.axes.transpose() * Vec3::UnitZ();
    const Vec2 up = upward.head<2>();
    if (up.norm() < 0.3) return; // a deck
    const auto level = clearOf(plate, opening, view.eye, forward, up.normalized());
    if (!level) return;
    out.ahead = true;
    // Along the plate; its tilt makes little of it. What is just grazed shows nothing yet.
    constexpr double open = 1; // mm
    out.raise = level->first >= 0 ? -level->first - open : level->second <= 0 ? open - level->second : 0;
    Vec3 ground = view.eye + (nose + view.wanted) * forward;
    ground.z() = 0;
    if (const auto hole =
            clearOf(plate, opening, view.eye, (ground - view.eye).normalized(), up.normalized()))
        out.lower = std::max(0.0, hole->first);
}

/// A hand hole that happens to lie ahead is not to be moved to the eyes.
bool looksOut(const std::string& purpose) {
    return purpose.empty() || purpose == "sight_slit";
}
/// Nor is what lies so far from them that it is there for something else.
constexpr double forEyes = 600; ///< mm (from memory)

double totalField(const std::vector<sight::Triangle>& opaque, const Vec3& eye) {
    return sight::horizontalField(eyesAt(eye, opaque)).total;
}

void addOpenings(const Stuff& stuff, const std::vector<sight::Triangle>& opaque, const Vec3& forward,
                 double nose, View& view) {
    const Frame way = wayOf(stuff);
    std::map<std::string, std::vector<const PlateOpening*>> byName;
    for (const PlateOpening& o : stuff.openings) byName[o.flat.name].push_back(&o);
    for (const auto& [name, all] : byName) {
        OpeningSeen seen;
        seen.opening = name;
        std::vector<sight::Triangle> covered;
        for (const PlateOpening* o : all) {
            const Plate& plate = stuff.plates.plates[o->plate];
            OpeningSeen one;
            if (looksOut(o->purpose)) measure(plate, *o, view, forward, nose, one);
            if (o->purpose.empty() && std::abs(one.raise) > forEyes) one = {};
            if (seen.plate.empty() || (one.ahead && !seen.ahead)) {
                one.opening = name;
                one.plate = plate.name;
                one.at = plate.frame.toBody(o->flat.at);
                seen = one;
            }
            addCover(plate, *o, way, covered);
        }
        covered.insert(covered.end(), opaque.begin(), opaque.end());
        seen.field = std::max(0.0, view.field.total - totalField(covered, way.toLocal(view.eye)));
        view.openings.push_back(std::move(seen));
    }
}

} // namespace

std::vector<View> viewsOf(const Stuff& stuff) {
    std::vector<View> out;
    if (stuff.donor.people.empty()) return out;
    const Person& who = stuff.donor.people.front();
    const Frame way = wayOf(stuff);
    const Vec3 eye = way.toLocal(who.eye);
    const std::vector<sight::Triangle> opaque = opaqueOf(stuff, eye);
    const std::vector<sight::Sight> eyes = eyesAt(eye, opaque);
    if (eyes.empty()) return out;
    View view;
    view.who = who.name;
    view.eye = who.eye;
    double nose = 0;
    for (const Bulk& bulk : stuff.bulks)
        for (const Vec3& p : bulk.points) nose = std::max(nose, p.x() - eye.x());
    if (const auto ahead = sight::nearestSeenAhead(eyes, 0, aheadHalf, aheadStep, nose, aheadStrip)) {
        view.ahead = *ahead;
        view.beyondNose = ahead->distance - nose;
    }
    view.stops =
        sight::stoppingDistance(stuff.ride.speed, stuff.ride.reaction, stuff.ride.braking).value_or(0);
    view.wanted = stuff.ride.sees.value_or(view.stops);
    view.wantedField = stuff.ride.field;
    view.field = sight::horizontalField(eyes);
    if (stuff.depth < Depth::full) return {std::move(view)};
    addOpenings(stuff, opaque, stuff.donor.chassis.forward, nose, view);
    // As far as the ground that is seen ahead, so that the map tells it.
    double reach = mapReach;
    if (std::isfinite(view.beyondNose)) reach = std::clamp(nose + view.beyondNose + 2000, mapReach, mapMost);
    const int rings = static_cast<int>(std::lround(mapRings * reach / mapReach));
    const auto middle = sight::Sight::of({eye, opaque, {}});
    if (!middle) return {std::move(view)};
    if (auto map = sight::blindMap(*middle, reach, mapDirections, rings)) view.map = std::move(*map);
    out.push_back(std::move(view));
    return out;
}

} // namespace slab::trial
