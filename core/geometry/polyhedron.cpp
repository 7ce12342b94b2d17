#include "core/geometry/polyhedron.h"
#include "core/geometry/triangulate.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

const Vec3& vertex(const Polyhedron& solid, int i) {
    return solid.vertices[static_cast<std::size_t>(i)];
}

Vec3 vectorArea(const Polyhedron& solid, const PolyFace& face, const Vec3& origin) {
    Vec3 twice = Vec3::Zero();
    for (const auto& loop : face.loops)
        for (std::size_t i = 0, n = loop.size(); i < n; ++i)
            twice += (vertex(solid, loop[i]) - origin).cross(vertex(solid, loop[(i + 1) % n]) - origin);
    return twice / 2;
}

/// Drops the axis along which the plane leans most, keeping the turning direction.
struct Flattening {
    int u = 0, v = 1;
    explicit Flattening(const Vec3& normal) {
        int w = 0;
        normal.cwiseAbs().maxCoeff(&w);
        u = (w + 1) % 3;
        v = (w + 2) % 3;
        if (normal[w] < 0) std::swap(u, v);
    }
    [[nodiscard]] Vec2 operator()(const Vec3& p) const { return {p[u], p[v]}; }
};

Polygon flat(const Polyhedron& solid, const PolyFace& face) {
    const Flattening flatten(face.plane.normal);
    Polygon polygon;
    for (std::size_t l = 0; l < face.loops.size(); ++l) {
        Ring& ring = l == 0 ? polygon.outer : polygon.holes.emplace_back();
        for (int i : face.loops[l]) ring.push_back(flatten(vertex(solid, i)));
    }
    return polygon;
}

double borderDistance(const Ring& ring, const Vec2& p) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Vec2 a = ring[i], d = ring[(i + 1) % n] - a;
        const double l2 = d.squaredNorm();
        const double t = l2 > 0 ? std::clamp((p - a).dot(d) / l2, 0.0, 1.0) : 0;
        least = std::min(least, (a + t * d - p).norm());
    }
    return least;
}

enum class Hit { miss, hit, unclear };

/// A ray through an edge would be counted twice or not at all: such a hit is unclear and another ray is
/// tried.
Hit rayHits(const Polyhedron& solid, const PolyFace& face, const Vec3& from, const Vec3& direction,
            double eps) {
    const double lean = face.plane.normal.dot(direction), depth = face.plane.depth(from);
    if (std::abs(lean) < 1e-9) return std::abs(depth) < eps ? Hit::unclear : Hit::miss;
    const double t = depth / lean;
    if (t < 0) return Hit::miss;
    const Flattening flatten(face.plane.normal);
    const Vec2 at = flatten(from + t * direction);
    const Polygon polygon = flat(solid, face);
    double border = borderDistance(polygon.outer, at);
    for (const Ring& hole : polygon.holes) border = std::min(border, borderDistance(hole, at));
    if (border < eps) return Hit::unclear;
    return contains(polygon, at) ? Hit::hit : Hit::miss;
}

} // namespace

double volume(const Polyhedron& solid) {
    if (solid.vertices.empty()) return 0;
    const Vec3 origin = solid.vertices.front();
    double sum = 0;
    for (const PolyFace& face : solid.faces) {
        if (face.loops.empty() || face.loops.front().empty()) continue;
        const Vec3 corner = vertex(solid, face.loops.front().front());
        sum += (corner - origin).dot(vectorArea(solid, face, corner)) / 3;
    }
    return sum;
}

double faceArea(const Polyhedron& solid, const PolyFace& face) {
    if (face.loops.empty() || face.loops.front().empty()) return 0;
    return vectorArea(solid, face, vertex(solid, face.loops.front().front())).dot(face.plane.normal);
}

double surfaceArea(const Polyhedron& solid) {
    double sum = 0;
    for (const PolyFace& face : solid.faces) sum += faceArea(solid, face);
    return sum;
}

Box3 bounds(const Polyhedron& solid) {
    Box3 box;
    if (solid.vertices.empty()) return box;
    box.min = box.max = solid.vertices.front();
    for (const Vec3& p : solid.vertices) {
        box.min = box.min.cwiseMin(p);
        box.max = box.max.cwiseMax(p);
    }
    return box;
}

Polyhedron scaled(Polyhedron solid, double factor) {
    for (Vec3& p : solid.vertices) p *= factor;
    for (PolyFace& face : solid.faces) face.plane.offset *= factor;
    return solid;
}

Polyhedron moved(Polyhedron solid, const Mat3& rotation, const Vec3& translation, bool mirrorY) {
    Mat3 turn = rotation;
    if (mirrorY) turn.col(1) = -turn.col(1);
    for (Vec3& p : solid.vertices) p = turn * p + translation;
    for (PolyFace& face : solid.faces) {
        face.plane.normal = turn * face.plane.normal;
        face.plane.offset += face.plane.normal.dot(translation);
        if (mirrorY)
            for (auto& loop : face.loops) std::reverse(loop.begin(), loop.end());
    }
    return solid;
}

Expected<void> checkClosed(const Polyhedron& solid, double tolerance) {
    std::map<std::pair<int, int>, int> used;
    const int count = static_cast<int>(solid.vertices.size());
    if (solid.faces.empty()) return fail("not-closed", "The solid has no faces.");
    for (const PolyFace& face : solid.faces) {
        if (face.loops.empty()) return fail("not-closed", "A face has no outline.", face.name);
        for (const auto& loop : face.loops) {
            if (loop.size() < 3) return fail("not-closed", "A face has fewer than three corners.", face.name);
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const int a = loop[i], b = loop[(i + 1) % loop.size()];
                if (a < 0 || a >= count || a == b)
                    return fail("not-closed", "A face names a wrong corner.", face.name);
                if (!(std::abs(face.plane.distance(vertex(solid, a))) <= tolerance))
                    return fail("not-planar", "A corner does not lie in the plane of its face.", face.name);
                ++used[{a, b}];
            }
        }
    }
    for (const auto& [edge, times] : used) {
        const auto back = used.find({edge.second, edge.first});
        const std::string where = "edge " + std::to_string(edge.first) + "-" + std::to_string(edge.second);
        if (times > 1) return fail("edge-contact", "An edge has more than two faces.", where);
        if (back == used.end()) return fail("not-closed", "An edge has only one face.", where);
    }
    return {};
}

std::vector<Vec3> triangulateFace(const Polyhedron& solid, const PolyFace& face) {
    std::vector<int> corners;
    for (const auto& loop : face.loops) corners.insert(corners.end(), loop.begin(), loop.end());
    std::vector<Vec3> soup;
    for (const auto& triangle : triangulate(flat(solid, face)))
        for (int i : triangle) soup.push_back(vertex(solid, corners[static_cast<std::size_t>(i)]));
    return soup;
}

std::vector<Vec3> triangulate(const Polyhedron& solid) {
    std::vector<Vec3> soup;
    for (const PolyFace& face : solid.faces) {
        const auto part = triangulateFace(solid, face);
        soup.insert(soup.end(), part.begin(), part.end());
    }
    return soup;
}

bool faceContains(const Polyhedron& solid, const PolyFace& face, const Vec3& point, double eps) {
    return contains(flat(solid, face), Flattening(face.plane.normal)(point), eps);
}

bool contains(const Polyhedron& solid, const Vec3& point) {
    const Box3 box = bounds(solid);
    if ((point.array() < box.min.array()).any() || (point.array() > box.max.array()).any()) return false;
    const double eps = 1e-9 * (1 + box.size().norm());
    Vec3 direction = Vec3(0.5377, 0.2963, 0.7894).normalized();
    const Mat3 next =
        Eigen::AngleAxisd(2.3999632, Vec3(0.2673, 0.8018, 0.5345).normalized()).toRotationMatrix();
    bool inside = false;
    for (int attempt = 0; attempt < 16; ++attempt, direction = next * direction) {
        inside = false;
        bool clear = true;
        for (const PolyFace& face : solid.faces) {
            const Hit hit = rayHits(solid, face, point, direction, eps);
            if (hit == Hit::hit) inside = !inside;
            if (hit == Hit::unclear) clear = false;
        }
        if (clear) break;
    }
    return inside;
}

Polyhedron makeBox(const Vec3& min, const Vec3& max) {
    Polyhedron box;
    for (int i = 0; i < 8; ++i)
        box.vertices.emplace_back(i & 1 ? max.x() : min.x(), i & 2 ? max.y() : min.y(),
                                  i & 4 ? max.z() : min.z());
    const auto face = [&](const char* name, const Vec3& normal, double offset, std::vector<int> loop) {
        box.faces.push_back({{normal, offset}, {std::move(loop)}, name});
    };
    face("front", Vec3::UnitX(), max.x(), {1, 3, 7, 5});
    face("back", -Vec3::UnitX(), -min.x(), {0, 4, 6, 2});
    face("port", Vec3::UnitY(), max.y(), {2, 6, 7, 3});
    face("starboard", -Vec3::UnitY(), -min.y(), {0, 1, 5, 4});
    face("top", Vec3::UnitZ(), max.z(), {4, 5, 7, 6});
    face("bottom", -Vec3::UnitZ(), -min.z(), {0, 2, 3, 1});
    return box;
}

} // namespace slab
