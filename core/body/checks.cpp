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

std::vector<LowPart> lowestOf(const Body& body) {
    std::vector<LowPart> out;
    const auto offer = [](LowPart& part, const Vec3& at) {
        if (at.z() < part.at.z()) part.at = at;
    };
    const auto nowhere = Vec3::Constant(std::numeric_limits<double>::infinity());
    for (const SkinFace& face : body.skin.faces) {
        LowPart part{face.name, "plate:" + face.name, face.form, "form:" + face.form,
                     nowhere,   face.plane.normal.z()};
        for (const auto& loop : face.loops)
            for (int v : loop) offer(part, body.skin.vertices[static_cast<std::size_t>(v)]);
        out.push_back(std::move(part));
    }
    for (const FreePlate& plate : body.plates) {
        LowPart part{plate.name, "plate:" + plate.name,      plate.form, "form:" + plate.form,
                     nowhere,    plate.frame.axes.col(2).z()};
        for (const Vec2& p : plate.outline.outer) offer(part, plate.frame.toBody(p));
        out.push_back(std::move(part));
    }
    for (const RoundPart& part : body.rounds)
        out.push_back({part.name, "form:" + part.name, part.name, "form:" + part.name,
                       lowestOfRims(part.base, part.radius, part.top, part.topRadius)});
    return out;
}

Vec3 lowestOfRims(const Vec3& base, double radius, const Vec3& top, double topRadius) {
    const Vec3 axis = (top - base).stableNormalized();
    const Vec3 down = -(Vec3::UnitZ() - axis.z() * axis); // along a rim's plane
    const Vec3 way = down.norm() < 1e-12 ? Vec3::Zero() : Vec3(down.normalized());
    const Vec3 a = base + radius * way, b = top + topRadius * way;
    return a.z() < b.z() ? a : b;
}

std::vector<Finding> groundFindings(std::vector<LowPart> parts, const UnitStyle& units) {
    constexpr double rounding = 0.5; // mm
    constexpr std::size_t told = 3;
    std::erase_if(parts, [](const LowPart& p) { return !(p.at.z() <= -rounding); });
    if (parts.empty()) return {};
    const auto level = [](const LowPart& p) { return std::llround(p.at.z() * 1e6); };
    std::stable_sort(parts.begin(), parts.end(), [&](const LowPart& a, const LowPart& b) {
        return level(a) != level(b) ? level(a) < level(b) : a.facing < b.facing;
    });
    std::vector<std::pair<const LowPart*, std::size_t>> groups; // the lowest of each owner, and how many more
    for (const LowPart& p : parts) {
        const auto at = std::find_if(groups.begin(), groups.end(),
                                     [&](const auto& g) { return g.first->ownerAbout == p.ownerAbout; });
        if (at == groups.end())
            groups.emplace_back(&p, 0);
        else
            ++at->second;
    }
    Finding f{Severity::look, "below-ground", {}, {}, {}, placeOf(parts.front().at)};
    std::size_t others = 0;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        const auto& [part, more] = groups[i];
        if (i >= told) {
            others += 1 + more;
            continue;
        }
        f.message += (i == 0 ? "" : "; ") + part->name;
        if (more > 0) f.message += " and " + std::to_string(more) + " more of " + part->owner;
        if (!part->when.empty()) f.message += ", " + part->when + ",";
        f.message += (more > 0 ? " reach " : " reaches ") + printLength(-part->at.z(), units) +
                     (i == 0 ? " under the ground (z = 0), where the donor stands" : " under it");
        f.remedy += (i == 0 ? "Lift " : i + 1 < std::min(told, groups.size()) ? ", " : " and ") + part->owner;
    }
    if (others > 0)
        f.message += "; and " + std::to_string(others) + (others == 1 ? " more part" : " more parts");
    f.message += ".";
    f.remedy += ", or " + std::string(groups.size() > 1 ? "their" : "its") +
                " lowest points, to z = 0 or above, and leave room to roll.";
    if (std::any_of(groups.begin(), groups.end(), [](const auto& g) { return !g.first->when.empty(); }))
        f.remedy += " Or leave out the positions in which it reaches so low.";
    const auto add = [&](const std::string& about) {
        if (std::find(f.about.begin(), f.about.end(), about) == f.about.end()) f.about.push_back(about);
    };
    for (const LowPart& p : parts) {
        add(p.about);
        add(p.ownerAbout);
    }
    return {f};
}

std::vector<Finding> groundFindings(const Body& body, const UnitStyle& units) {
    return groundFindings(lowestOf(body), units);
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
