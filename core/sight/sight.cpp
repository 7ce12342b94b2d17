#include "core/sight/sight.h"
#include "core/sight/ranges.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace slab::sight {

namespace {

constexpr double pi = std::numbers::pi, endless = std::numeric_limits<double>::infinity();

/// Normal and offset of an opening's plane; Newell's sum over its corners.
Plane planeOf(const std::vector<Vec3>& outline) {
    Vec3 normal = Vec3::Zero(), middle = Vec3::Zero();
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec3 &a = outline[i], &b = outline[(i + 1) % outline.size()];
        normal += (a - outline[0]).cross(b - outline[0]);
        middle += a / static_cast<double>(outline.size());
    }
    const double length = normal.norm();
    if (length > 0) normal /= length;
    return {normal, normal.dot(middle)};
}

Expected<void> checkOpening(const SightOpening& opening) {
    const auto bad = [](const char* what) {
        return fail("sight-opening", what, {}, "Give a flat convex outline of three corners or more.");
    };
    const std::size_t n = opening.outline.size();
    if (n < 3 || !(opening.depth >= 0) || !std::isfinite(opening.depth))
        return bad("A sight opening has no outline.");
    const Plane plane = planeOf(opening.outline);
    if (!(plane.normal.norm() > 0.5)) return bad("A sight opening has no area.");
    for (std::size_t i = 0; i < n; ++i) {
        const Vec3 &a = opening.outline[i], &b = opening.outline[(i + 1) % n],
                   &c = opening.outline[(i + 2) % n];
        if (!(std::abs(plane.distance(a)) <= opening.depth + 0.01))
            return bad("A sight opening is not flat.");
        if ((b - a).cross(c - b).dot(plane.normal) < -1e-9 * (b - a).norm() * (c - b).norm())
            return bad("A sight opening is not convex.");
    }
    return {};
}

/// Elevations that a convex outline takes up in the half plane {eye + r·along + z·up, r ≥ 0}: between the two
/// places where its border crosses that plane.
std::optional<Range> cutBy(const Vec3* corners, std::size_t count, const Vec3& eye, const Vec3& along,
                           const Vec3& up) {
    const Vec3 side = along.cross(up);
    std::array<Vec2, 4> on;
    std::size_t found = 0;
    const auto meet = [&](const Vec3& p) {
        if (found < on.size()) on[found++] = Vec2((p - eye).dot(along), (p - eye).dot(up));
    };
    for (std::size_t i = 0; i < count; ++i) {
        const Vec3 &a = corners[i], &b = corners[(i + 1) % count];
        const double da = (a - eye).dot(side), db = (b - eye).dot(side);
        if ((da < 0) != (db < 0)) meet(a + da / (da - db) * (b - a));
    }
    if (found < 2) return std::nullopt;
    Vec2 p = on[0], q = on[1];
    if (p.x() < 0 && q.x() < 0) return std::nullopt;
    if ((p.x() < 0) != (q.x() < 0)) { // passes above or below the eye: ends straight over or under it
        Vec2& behind = p.x() < 0 ? p : q;
        behind = p + p.x() / (p.x() - q.x()) * (q - p);
        behind.x() = 0;
    }
    const double first = std::atan2(p.y(), p.x()), second = std::atan2(q.y(), q.x());
    return Range{std::min(first, second), std::max(first, second)};
}

/// Does the segment from `eye` to `point` pass through the convex outline? @return where, as a share of the
/// segment
std::optional<double> passes(const std::vector<Vec3>& outline, const Vec3& eye, const Vec3& point) {
    const Plane plane = planeOf(outline);
    const double a = plane.distance(eye), b = plane.distance(point);
    if ((a < 0) == (b < 0)) return std::nullopt;
    const double share = a / (a - b);
    const Vec3 at = eye + share * (point - eye);
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec3 &from = outline[i], &to = outline[(i + 1) % outline.size()];
        if ((to - from).cross(at - from).dot(plane.normal) < 0) return std::nullopt;
    }
    return share;
}

} // namespace

Expected<void> checkScene(const SightScene& scene) {
    bool finite = scene.eye.allFinite();
    for (const Triangle& t : scene.opaque)
        finite = finite && t[0].allFinite() && t[1].allFinite() && t[2].allFinite();
    for (const SightOpening& opening : scene.openings)
        for (const Vec3& p : opening.outline) finite = finite && p.allFinite();
    if (!finite || !(scene.eye.z() > 0))
        return fail("out-of-range", "The eye must be above the ground, and all places known.", {},
                    "Check the eye's height.");
    for (const SightOpening& opening : scene.openings)
        if (auto sound = checkOpening(opening); !sound) return sound;
    return {};
}

Expected<Sight> Sight::of(const SightScene& scene) {
    if (const auto sound = checkScene(scene); !sound) return Unexpected(sound.error());
    return Sight(scene);
}

Sight::Sight(SightScene scene) : m_scene(std::move(scene)) {
    std::vector<Plane> planes;
    for (const SightOpening& opening : m_scene.openings) planes.push_back(planeOf(opening.outline));
    for (const Triangle& triangle : m_scene.opaque) {
        Part part{triangle, {}};
        for (std::size_t o = 0; o < planes.size(); ++o) {
            const double depth = m_scene.openings[o].depth + 1e-6;
            const bool near = std::all_of(triangle.begin(), triangle.end(), [&](const Vec3& p) {
                return std::abs(planes[o].distance(p)) <= depth;
            });
            if (near) part.openings.push_back(o);
        }
        m_parts.push_back(std::move(part));
    }
    constexpr std::size_t fewest = 32, most = 720;
    m_sectors.resize(std::clamp(m_parts.size() / 8, fewest, most));
    for (std::size_t i = 0; i < m_parts.size(); ++i) sortIn(i);
}

void Sight::sortIn(std::size_t part) {
    // Seen from above the eye lies outside a triangle if all of it is within half a turn about the eye.
    std::array<double, 3> at{};
    bool near = false;
    for (std::size_t k = 0; k < 3; ++k) {
        const Vec2 p = (m_parts[part].triangle[k] - m_scene.eye).head<2>();
        near = near || p.squaredNorm() < 1e-6; // mm²: over or under the eye
        at[k] = std::atan2(p.y(), p.x());
    }
    double low = 0, high = 0; // from the first corner's azimuth
    for (std::size_t k = 1; k < 3; ++k) {
        const double off = std::remainder(at[k] - at[0], 2 * pi);
        low = std::min(low, off);
        high = std::max(high, off);
    }
    const auto count = static_cast<double>(m_sectors.size());
    constexpr double play = 1e-6; // radians: roundings, and corners just beside the plane
    auto first = static_cast<long>(std::floor((at[0] + low - play) / (2 * pi) * count));
    auto last = static_cast<long>(std::floor((at[0] + high + play) / (2 * pi) * count));
    const auto whole = static_cast<long>(m_sectors.size());
    if (near || high - low > pi - play) first = 0, last = whole - 1; // all round it
    last = std::min(last, first + whole - 1);
    for (long s = first; s <= last; ++s)
        m_sectors[static_cast<std::size_t>(((s % whole) + whole) % whole)].push_back(
            static_cast<std::uint32_t>(part));
}

const std::vector<std::uint32_t>& Sight::partsTowards(double azimuth) const {
    const auto whole = static_cast<long>(m_sectors.size());
    const auto s = static_cast<long>(std::floor(azimuth / (2 * pi) * static_cast<double>(whole)));
    return m_sectors[static_cast<std::size_t>(((s % whole) + whole) % whole)];
}

std::vector<Range> Sight::hidden(double azimuth) const {
    const Vec3 along(std::cos(azimuth), std::sin(azimuth), 0);
    std::vector<std::optional<Range>> holes;
    for (const SightOpening& o : m_scene.openings)
        holes.push_back(cutBy(o.outline.data(), o.outline.size(), m_scene.eye, along, Vec3::UnitZ()));
    std::vector<Range> out;
    for (const std::uint32_t i : partsTowards(azimuth)) {
        const Part& part = m_parts[i];
        const auto range = cutBy(part.triangle.data(), 3, m_scene.eye, along, Vec3::UnitZ());
        if (!range) continue;
        std::vector<Range> left{*range};
        for (std::size_t o : part.openings)
            if (holes[o]) left = without(left, *holes[o]);
        out.insert(out.end(), left.begin(), left.end());
    }
    return joined(std::move(out));
}

std::vector<Range> Sight::blindGround(double azimuth) const {
    const double height = m_scene.eye.z();
    std::vector<Range> out;
    for (const Range& range : hidden(azimuth)) {
        if (range.from >= 0) continue;
        // an elevation of −π/2 is the ground right below, one of 0 and more is endless
        const auto distance = [&](double elevation) {
            if (elevation >= 0) return endless;
            return elevation <= -pi / 2 + 1e-12 ? 0.0 : height / std::tan(-elevation);
        };
        out.push_back({distance(range.from), distance(range.to)});
    }
    return out;
}

double Sight::nearestSeen(double azimuth, double beyond, double shortest) const {
    constexpr double near = 1e-6; // of what stands just there, mm
    double at = beyond;
    for (const Range& range : blindGround(azimuth))
        if (range.from <= at + std::max(near, shortest) && at <= range.to) at = range.to;
    return at;
}

bool Sight::hides(const Vec3& point) const {
    for (const Part& part : m_parts) {
        const std::vector<Vec3> corners(part.triangle.begin(), part.triangle.end());
        if (!passes(corners, m_scene.eye, point)) continue;
        const bool through = std::any_of(part.openings.begin(), part.openings.end(), [&](std::size_t o) {
            return passes(m_scene.openings[o].outline, m_scene.eye, point).has_value();
        });
        if (!through) return true;
    }
    return false;
}

std::vector<Range> Sight::openHorizon() const {
    std::vector<Range> closed;
    const auto add = [&](double from, double to, std::vector<Range>& into) {
        // the shorter way round, in [0, 2π)
        double size = std::remainder(to - from, 2 * pi);
        if (size < 0) from = to, size = -size;
        from = std::fmod(from + 4 * pi, 2 * pi);
        into.push_back({from, std::min(from + size, 2 * pi)});
        if (from + size > 2 * pi) into.push_back({0, from + size - 2 * pi});
    };
    const auto across = [&](const Vec3* corners, std::size_t count, std::vector<Range>& into) {
        std::vector<double> at;
        for (std::size_t i = 0; i < count; ++i) {
            const Vec3 a = corners[i] - m_scene.eye, b = corners[(i + 1) % count] - m_scene.eye;
            if ((a.z() < 0) == (b.z() < 0)) continue;
            const Vec3 p = a + a.z() / (a.z() - b.z()) * (b - a);
            at.push_back(std::atan2(p.y(), p.x()));
        }
        if (at.size() >= 2) add(at[0], at[1], into);
    };
    for (const Part& part : m_parts) {
        std::vector<Range> left;
        across(part.triangle.data(), 3, left);
        for (std::size_t o : part.openings) {
            std::vector<Range> hole;
            across(m_scene.openings[o].outline.data(), m_scene.openings[o].outline.size(), hole);
            for (const Range& range : hole) left = without(left, range);
        }
        closed.insert(closed.end(), left.begin(), left.end());
    }
    std::vector<Range> open{{0, 2 * pi}};
    for (const Range& range : joined(std::move(closed))) open = without(open, range);
    return open;
}

} // namespace slab::sight
