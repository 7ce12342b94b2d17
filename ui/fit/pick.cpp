#include "ui/fit/pick.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

/// Moller-Trumbore for a front face; distance along the ray, or nothing.
std::optional<double> meet(const ViewCamera::Ray& ray, const Vec3& a, const Vec3& b, const Vec3& c) {
    const Vec3 e1 = b - a, e2 = c - a, p = ray.direction.cross(e2);
    const double det = e1.dot(p);
    if (det <= 0) return std::nullopt;
    const Vec3 s = ray.origin - a;
    const double u = s.dot(p);
    if (u < 0 || u > det) return std::nullopt;
    const Vec3 q = s.cross(e1);
    const double v = ray.direction.dot(q);
    if (v < 0 || u + v > det) return std::nullopt;
    const double t = e2.dot(q) / det;
    return t > 0 ? std::optional(t) : std::nullopt;
}

double toSegment(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 ab = b - a;
    const double n = ab.squaredNorm();
    const double t = n > 0 ? std::clamp((p - a).dot(ab) / n, 0.0, 1.0) : 0.0;
    return (p - a - ab * t).norm();
}

} // namespace

std::vector<Hit> hitsAlong(const Scene& scene, const ViewCamera::Ray& ray) {
    std::vector<Hit> hits;
    for (std::size_t i = 0; i < scene.items.size(); ++i) {
        const auto& item = scene.items[i];
        const ViewCamera::Ray local{ray.origin - item.shift, ray.direction};
        std::optional<double> best;
        const auto& t = item.mesh->triangles;
        for (std::size_t k = 0; k + 2 < t.size(); k += 3) {
            const auto d = meet(local, t[k], t[k + 1], t[k + 2]);
            if (d && (!best || *d < *best)) best = d;
        }
        if (best) hits.push_back({static_cast<int>(i), *best, ray.origin + ray.direction * *best});
    }
    std::stable_sort(hits.begin(), hits.end(),
                     [](const Hit& a, const Hit& b) { return a.distance < b.distance; });
    return hits;
}

int edgeNear(const Plate& plate, const Vec3& shift, const ViewCamera& camera, double x, double y,
             double reach) {
    int best = -1;
    double least = reach;
    const Ring& outer = plate.boundary.outer;
    for (std::size_t i = 0; i < outer.size(); ++i) {
        const Vec3 a = camera.toScreen(plate.frame.toBody(outer[i]) + shift);
        const Vec3 b = camera.toScreen(plate.frame.toBody(outer[(i + 1) % outer.size()]) + shift);
        if (!camera.parallel && (a.z() <= 0 || b.z() <= 0)) continue;
        const double d = toSegment({x, y}, a.head<2>(), b.head<2>());
        if (d < least) least = d, best = static_cast<int>(i);
    }
    return best;
}

namespace {

bool seesAt(const Scene& scene, const ViewCamera& camera, double x, double y, const std::string& id) {
    const auto hits = hitsAlong(scene, camera.ray(x, y));
    return !hits.empty() && scene.items[static_cast<std::size_t>(hits.front().item)].id == id;
}
/// With some room round it, so that no edge is near.
bool seesAround(const Scene& scene, const ViewCamera& camera, double x, double y, const std::string& id) {
    constexpr double room = 6; // px
    return seesAt(scene, camera, x - room, y, id) && seesAt(scene, camera, x + room, y, id) &&
           seesAt(scene, camera, x, y - room, id) && seesAt(scene, camera, x, y + room, id);
}

} // namespace

std::optional<Vec2> visiblePixel(const Scene& scene, const ViewCamera& camera, const std::string& id) {
    std::optional<Vec2> narrow; // between other things
    for (const auto& item : scene.items) {
        if (item.id != id) continue;
        const auto& t = item.mesh->triangles;
        for (std::size_t k = 0; k + 2 < t.size(); k += 3) {
            for (int step = 0; step < 16; ++step) {
                // A few points inside the triangle, the middle first.
                const double u = step == 0 ? 1.0 / 3 : 0.1 + 0.2 * (step % 4),
                             v = step == 0 ? 1.0 / 3 : (0.9 - u) * (step / 4 + 0.5) / 4;
                const Vec3 p = t[k] + (t[k + 1] - t[k]) * u + (t[k + 2] - t[k]) * v + item.shift;
                const Vec3 s = camera.toScreen(p);
                const double x = std::floor(s.x()) + 0.5, y = std::floor(s.y()) + 0.5;
                if (s.z() <= 0 || x < 4 || y < 4 || x > camera.width - 4 || y > camera.height - 4) continue;
                if (!seesAt(scene, camera, x, y, id)) continue;
                if (seesAround(scene, camera, x, y, id)) return Vec2(x, y);
                if (!narrow) narrow = Vec2(x, y);
            }
        }
    }
    return narrow;
}

} // namespace slab::ui
