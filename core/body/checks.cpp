#include "core/body/checks.h"
#include "core/body/pieces.h"
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace slab {

namespace {

constexpr double sliver = 1; ///< mm at build size

std::array<double, 3> placeOf(const Vec3& p) {
    return {p.x(), p.y(), p.z()};
}

/// Least width of the face's convex hull, or twice its area over its outline where the face itself is
/// thinner.
double widthOf(const Skin& skin, const SkinFace& face) {
    const Vec3 u = face.plane.normal.unitOrthogonal(), v = face.plane.normal.cross(u);
    Polygon polygon;
    double border = 0;
    for (std::size_t l = 0; l < face.loops.size(); ++l) {
        Ring& ring = l == 0 ? polygon.outer : polygon.holes.emplace_back();
        for (int i : face.loops[l]) {
            const Vec3& p = skin.vertices[static_cast<std::size_t>(i)];
            ring.emplace_back(u.dot(p), v.dot(p));
        }
        for (std::size_t i = 0; i < ring.size(); ++i)
            border += (ring[i] - ring[(i + 1) % ring.size()]).norm();
    }
    const Ring hull = convexHull(polygon.outer);
    double width = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 along = (hull[(i + 1) % hull.size()] - hull[i]).normalized();
        double across = 0;
        for (const Vec2& p : hull) across = std::max(across, cross2(along, p - hull[i]));
        width = std::min(width, across);
    }
    // A strip of width w has area/outline ≈ w/2, a triangle of height w ≈ w/4.
    const double thin = 4 * area(polygon) / border;
    return thin < sliver ? std::min(width, thin) : width;
}

} // namespace

std::vector<Finding> sliverFindings(const Skin& skin, const UnitStyle& units) {
    std::vector<Finding> findings;
    const auto at = [&](int i) { return skin.vertices[static_cast<std::size_t>(i)]; };
    const auto name = [&](int f) { return skin.faces[static_cast<std::size_t>(f)].name; };
    for (const SkinEdge& e : skin.edges) {
        const double length = (at(e.a) - at(e.b)).norm();
        if (length >= sliver) continue;
        const std::string a = name(e.left), b = name(e.right);
        findings.push_back(
            {Severity::look,
             "sliver-edge",
             "The edge between " + a + " and " + b + " is only " + printFine(length, units) + " long.",
             {"edge:" + a + "|" + b, "plate:" + a, "plate:" + b},
             "Move a corner so that the edge is at least " + printFine(sliver, units) +
                 " long, or so that it vanishes.",
             placeOf((at(e.a) + at(e.b)) / 2)});
    }
    for (const SkinFace& face : skin.faces) {
        const double width = widthOf(skin, face);
        if (width >= sliver) continue;
        findings.push_back({Severity::look,
                            "sliver-face",
                            face.name + " is only " + printFine(width, units) + " wide.",
                            {"plate:" + face.name},
                            "Move the form so that the strip is at least " + printFine(sliver, units) +
                                " wide, or so that it vanishes.",
                            placeOf(faceCentroid(skin, face))});
    }
    return findings;
}

std::vector<Finding> groundFindings(const Body& body, const UnitStyle& units) {
    constexpr double rounding = 0.5; // mm
    struct Lowest {
        Vec3 at = Vec3::Zero();
        std::string name, about, form;
        double facing = 2; // upward part of the normal
    } low;
    const auto offer = [&](const Vec3& at, double facing, const std::string& name, const std::string& about,
                           const std::string& form) {
        const bool lower = at.z() < low.at.z() - 1e-6;
        // Of the faces that share the lowest corner the one that looks down most is told.
        if (lower || (!low.name.empty() && at.z() < low.at.z() + 1e-6 && facing < low.facing))
            low = {at, name, about, form, facing};
    };
    for (const SkinFace& face : body.skin.faces)
        for (const auto& loop : face.loops)
            for (int v : loop)
                offer(body.skin.vertices[static_cast<std::size_t>(v)], face.plane.normal.z(), face.name,
                      "plate:" + face.name, face.form);
    for (const FreePlate& plate : body.plates)
        for (const Vec2& p : plate.outline.outer)
            offer(plate.frame.toBody(p), plate.frame.axes.col(2).z(), plate.name, "plate:" + plate.name,
                  plate.form);
    for (const RoundPart& part : body.rounds) {
        const Vec3 axis = (part.top - part.base).normalized();
        const double reach = std::sqrt(std::max(0.0, 1 - axis.z() * axis.z()));
        offer(part.base - Vec3::UnitZ() * part.radius * reach, 1, part.name, "form:" + part.name, part.name);
        offer(part.top - Vec3::UnitZ() * part.topRadius * reach, 1, part.name, "form:" + part.name,
              part.name);
    }
    if (low.at.z() > -rounding) return {};
    std::vector<std::string> about{low.about};
    if (low.about != "form:" + low.form) about.push_back("form:" + low.form);
    return {{Severity::look, "below-ground",
             low.name + " reaches " + printLength(-low.at.z(), units) +
                 " under the ground (z = 0), where the donor stands.",
             std::move(about),
             "Lift " + low.form + ", or its lowest points, to z = 0 or above, and leave room to roll.",
             placeOf(low.at)}};
}

Box3 boundsOf(const Body& body) {
    Polyhedron corners;
    corners.vertices = body.skin.vertices;
    for (const FreePlate& plate : body.plates)
        for (const Vec2& p : plate.outline.outer) corners.vertices.push_back(plate.frame.toBody(p));
    for (const RoundPart& part : body.rounds) {
        const Vec3 axis = (part.top - part.base).normalized();
        const Vec3 reach = (Vec3::Ones() - axis.cwiseAbs2()).cwiseMax(0).cwiseSqrt();
        for (double side : {-1.0, 1.0}) {
            corners.vertices.push_back(part.base + side * part.radius * reach);
            corners.vertices.push_back(part.top + side * part.topRadius * reach);
        }
    }
    return bounds(corners);
}

} // namespace slab
