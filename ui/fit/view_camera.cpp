#include "ui/fit/view_camera.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ui {

namespace {
constexpr double pi = std::numbers::pi;
constexpr double nearest = 60, farthest = 400000; // mm from the target
} // namespace

Vec3 ViewCamera::forward() const {
    return -Vec3(std::cos(pitch) * std::cos(yaw), std::cos(pitch) * std::sin(yaw), std::sin(pitch));
}
Vec3 ViewCamera::eye() const {
    return target - forward() * distance;
}
Vec3 ViewCamera::right() const {
    return {-std::sin(yaw), std::cos(yaw), 0};
}
Vec3 ViewCamera::up() const {
    return {-std::sin(pitch) * std::cos(yaw), -std::sin(pitch) * std::sin(yaw), std::cos(pitch)};
}
double ViewCamera::mmPerPixel() const {
    return 2 * distance * std::tan(fieldOfView / 2) / std::max(1.0, height);
}
// A parallel view has no near edge: what lies behind the eye is seen too.
double ViewCamera::nearPlane() const {
    return parallel ? -distance * 4 : std::max(distance * 0.02, 2.0);
}
double ViewCamera::farPlane() const {
    return distance * 6 + 20000;
}

Vec3 ViewCamera::toScreen(const Vec3& point) const {
    const Vec3 d = point - eye();
    const double depth = d.dot(forward());
    const double scale = parallel
                             ? 1 / mmPerPixel()
                             : height / (2 * std::tan(fieldOfView / 2) * std::max(std::abs(depth), 1e-6));
    return {width / 2 + d.dot(right()) * scale, height / 2 - d.dot(up()) * scale, depth};
}

ViewCamera::Ray ViewCamera::ray(double x, double y) const {
    const double k = mmPerPixel();
    const Vec3 onTarget = target + right() * ((x - width / 2) * k) - up() * ((y - height / 2) * k);
    if (parallel) return {onTarget - forward() * (distance * 5), forward()};
    return {eye(), (onTarget - eye()).normalized()};
}

void ViewCamera::orbit(double dx, double dy) {
    yaw = std::remainder(yaw - dx * 0.008, 2 * pi);
    pitch = std::clamp(pitch + dy * 0.008, -pi / 2, pi / 2);
}

void ViewCamera::pan(double dx, double dy) {
    const double k = mmPerPixel();
    target += up() * (dy * k) - right() * (dx * k);
}

void ViewCamera::zoomAt(double x, double y, double factor) {
    const double wanted = std::clamp(distance * factor, nearest, farthest);
    const double k = mmPerPixel();
    const Vec3 under = target + right() * ((x - width / 2) * k) - up() * ((y - height / 2) * k);
    target += (under - target) * (1 - wanted / distance);
    distance = wanted;
}

void ViewCamera::look(Direction direction) {
    switch (direction) {
    case Direction::side:
        yaw = -pi / 2, pitch = 0;
        break;
    case Direction::plan:
        yaw = -pi / 2, pitch = pi / 2;
        break;
    case Direction::end:
        yaw = 0, pitch = 0;
        break;
    case Direction::threeQuarter:
        yaw = -0.96, pitch = 0.42;
        break;
    }
}

void ViewCamera::frame(const Box3& box, double margin) {
    const double across = std::tan(fieldOfView / 2) * width / std::max(1.0, height);
    const double along = std::tan(fieldOfView / 2);
    Vec3 middle = (box.min + box.max) / 2;
    double need = nearest;
    // Perspective makes the near half larger, so the middle on screen is found in a few rounds.
    for (int round = 0; round < 6; ++round) {
        need = nearest;
        double left = 1e300, rightmost = -1e300, low = 1e300, high = -1e300;
        for (int corner = 0; corner < 8; ++corner) {
            const Vec3 p((corner & 1 ? box.max : box.min).x(), (corner & 2 ? box.max : box.min).y(),
                         (corner & 4 ? box.max : box.min).z());
            const Vec3 d = p - middle;
            const double x = d.dot(right()), y = d.dot(up()), z = parallel ? 0 : d.dot(forward());
            need = std::max({need, std::abs(x) * margin / across - z, std::abs(y) * margin / along - z});
        }
        for (int corner = 0; corner < 8 && !parallel; ++corner) {
            const Vec3 p((corner & 1 ? box.max : box.min).x(), (corner & 2 ? box.max : box.min).y(),
                         (corner & 4 ? box.max : box.min).z());
            const Vec3 d = p - middle;
            const double k = need / std::max(need + d.dot(forward()), 1e-6);
            left = std::min(left, d.dot(right()) * k), rightmost = std::max(rightmost, d.dot(right()) * k);
            low = std::min(low, d.dot(up()) * k), high = std::max(high, d.dot(up()) * k);
        }
        if (!parallel) middle += right() * ((left + rightmost) / 2) + up() * ((low + high) / 2);
    }
    target = middle;
    distance = std::clamp(need, nearest, farthest);
}

bool ViewCamera::sees(const Box3& box) const {
    for (int corner = 0; corner < 8; ++corner) {
        const Vec3 at = toScreen({(corner & 1 ? box.max : box.min).x(), (corner & 2 ? box.max : box.min).y(),
                                  (corner & 4 ? box.max : box.min).z()});
        const bool inside = at.x() >= 0 && at.x() <= width && at.y() >= 0 && at.y() <= height;
        if (!inside || at.z() <= nearPlane()) return false;
    }
    return true;
}

ViewCamera between(const ViewCamera& from, const ViewCamera& to, double share) {
    const double s = share * share * (3 - 2 * share);
    ViewCamera out = to;
    out.target = from.target + (to.target - from.target) * s;
    out.yaw = from.yaw + std::remainder(to.yaw - from.yaw, 2 * pi) * s;
    out.pitch = from.pitch + (to.pitch - from.pitch) * s;
    out.distance = from.distance * std::pow(to.distance / from.distance, s);
    return out;
}

} // namespace slab::ui
