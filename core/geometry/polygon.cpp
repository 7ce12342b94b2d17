#include "core/geometry/polygon.h"
#include "core/geometry/crossing.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

double segmentDistance(const Vec2& a, const Vec2& b, const Vec2& p) {
    const Vec2 d = b - a;
    const double length2 = d.squaredNorm();
    if (length2 == 0) return (p - a).norm();
    const double t = std::clamp((p - a).dot(d) / length2, 0.0, 1.0);
    return (p - (a + t * d)).norm();
}

bool onBorder(const Ring& ring, const Vec2& p, double eps) {
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % n];
        if (eps > 0) {
            if (segmentDistance(a, b, p) <= eps) return true;
        } else if (cross2(b - a, p - a) == 0 && (p - a).dot(p - b) <= 0) {
            return true;
        }
    }
    return false;
}

bool crossesOddTimes(const Ring& ring, const Vec2& p) {
    bool inside = false;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % n];
        if ((a.y() > p.y()) == (b.y() > p.y())) continue;
        const double side = cross2(b - a, p - a);
        if ((b.y() > a.y()) == (side > 0)) inside = !inside;
    }
    return inside;
}

int turn(const Vec2& a, const Vec2& b, const Vec2& c) {
    const double t = cross2(b - a, c - a);
    return t > 0 ? 1 : t < 0 ? -1 : 0;
}

bool onSegment(const Vec2& a, const Vec2& b, const Vec2& p) {
    return (p - a).dot(p - b) <= 0;
}

bool segmentsMeet(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    if (std::max(a.x(), b.x()) < std::min(c.x(), d.x()) || std::max(c.x(), d.x()) < std::min(a.x(), b.x()) ||
        std::max(a.y(), b.y()) < std::min(c.y(), d.y()) || std::max(c.y(), d.y()) < std::min(a.y(), b.y()))
        return false;
    const int abc = turn(a, b, c), abd = turn(a, b, d), cda = turn(c, d, a), cdb = turn(c, d, b);
    if (abc * abd < 0 && cda * cdb < 0) return true;
    return (abc == 0 && onSegment(a, b, c)) || (abd == 0 && onSegment(a, b, d)) ||
           (cda == 0 && onSegment(c, d, a)) || (cdb == 0 && onSegment(c, d, b));
}

/// First moment of area about `origin` and the area itself.
struct Moment {
    Vec2 first = Vec2::Zero();
    double area = 0;
};
void addMoment(Moment& m, const Ring& ring, const Vec2& origin, double sign) {
    const double turned = signedArea(ring) < 0 ? -sign : sign;
    for (std::size_t i = 0, n = ring.size(); i < n; ++i) {
        const Vec2 a = ring[i] - origin, b = ring[(i + 1) % n] - origin;
        const double twice = turned * cross2(a, b);
        m.area += twice / 2;
        m.first += twice / 6 * (a + b);
    }
}

} // namespace

double signedArea(const Ring& ring) {
    double twice = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
        twice += cross2(ring[i] - ring[0], ring[i + 1] - ring[0]);
    return twice / 2;
}

double area(const Polygon& polygon) {
    double sum = std::abs(signedArea(polygon.outer));
    for (const Ring& hole : polygon.holes) sum -= std::abs(signedArea(hole));
    return sum;
}

Vec2 centroid(const Polygon& polygon) {
    if (polygon.outer.empty()) return Vec2::Zero();
    const Vec2 origin = polygon.outer.front();
    Moment m;
    addMoment(m, polygon.outer, origin, 1);
    for (const Ring& hole : polygon.holes) addMoment(m, hole, origin, -1);
    if (m.area != 0) return origin + m.first / m.area;
    Vec2 mean = Vec2::Zero();
    for (const Vec2& p : polygon.outer) mean += p;
    return mean / static_cast<double>(polygon.outer.size());
}

Box2 bounds(const Ring& ring) {
    Box2 box;
    if (ring.empty()) return box;
    box.min = box.max = ring.front();
    for (const Vec2& p : ring) {
        box.min = box.min.cwiseMin(p);
        box.max = box.max.cwiseMax(p);
    }
    return box;
}

Ring reversed(Ring ring) {
    std::reverse(ring.begin(), ring.end());
    return ring;
}

bool contains(const Ring& ring, const Vec2& point, double eps) {
    return onBorder(ring, point, eps) || crossesOddTimes(ring, point);
}

bool contains(const Polygon& polygon, const Vec2& point, double eps) {
    if (!contains(polygon.outer, point, eps)) return false;
    return std::none_of(polygon.holes.begin(), polygon.holes.end(), [&](const Ring& hole) {
        return crossesOddTimes(hole, point) && !onBorder(hole, point, eps);
    });
}

bool isSimple(const Ring& ring) {
    const std::size_t n = ring.size();
    if (n < 3) return false;
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 &a = ring[i], &b = ring[(i + 1) % n], &c = ring[(i + 2) % n];
        if (!a.allFinite() || a == b) return false;
        if (turn(a, b, c) == 0 && (a - b).dot(c - b) > 0) return false; // folds back onto itself
    }
    return !firstCrossing(ring);
}

std::optional<std::pair<std::size_t, std::size_t>> firstCrossing(const Ring& ring) {
    const std::size_t n = ring.size();
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = i + 2; j < n; ++j) {
            if (i == 0 && j == n - 1) continue;
            if (segmentsMeet(ring[i], ring[i + 1], ring[j], ring[(j + 1) % n])) return std::pair(i, j);
        }
    return {};
}

Ring convexHull(std::vector<Vec2> points) {
    const auto before = [](const Vec2& a, const Vec2& b) {
        return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y();
    };
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    Ring hull;
    const auto add = [&](const Vec2& p, std::size_t floor) {
        while (hull.size() >= floor + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 0) hull.pop_back();
        hull.push_back(p);
    };
    for (const Vec2& p : points) add(p, 0);
    const std::size_t lower = hull.size() - 1;
    for (auto p = points.rbegin() + 1; p != points.rend(); ++p) add(*p, lower);
    hull.pop_back();
    return hull;
}

} // namespace slab
