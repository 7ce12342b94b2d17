#include "core/route/profile.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::route {

namespace {

constexpr double apron = 1000; // level ground at both ends, mm

Unexpected profileFigures() {
    return fail("out-of-range", "A figure of the ground is not in its range.", {},
                "Check lengths, heights and slopes.");
}

/// Height of the line through a and b over x.
double lineAt(const Vec2& a, const Vec2& b, double x) {
    return a.y() + (x - a.x()) / (b.x() - a.x()) * (b.y() - a.y());
}

struct Envelope {
    double radius, x;
    double height = -std::numeric_limits<double>::infinity();
    Vec2 contact = Vec2::Zero();

    void stand(const Vec2& on, double at) {
        if (!(at > height)) return;
        height = at;
        contact = on;
    }
    [[nodiscard]] WheelTouch touch() const {
        if (height == -std::numeric_limits<double>::infinity()) return {height, {}, 0};
        return {height, contact, std::atan2(contact.x() - x, height - contact.y())};
    }
    void corner(const Vec2& p) {
        const double off = x - p.x();
        if (std::abs(off) <= radius) stand(p, p.y() + std::sqrt(radius * radius - off * off));
    }
    /// The tangent's place, if it lies between `from` and `to` in x.
    void stretch(const Vec2& a, const Vec2& b, double from, double to) {
        if (!(b.x() > a.x())) return;
        const double slope = (b.y() - a.y()) / (b.x() - a.x()), long1 = std::sqrt(1 + slope * slope);
        const double foot = x + radius * slope / long1;
        if (foot < from || foot > to) return;
        const Vec2 on(foot, lineAt(a, b, foot));
        stand(on, on.y() + radius / long1);
    }
};

constexpr double endless = std::numeric_limits<double>::infinity();

/// The wheel on all that lies before point `count`, the stretch that leads to it included; all of it if there
/// is none.
Envelope wheelBefore(const GroundProfile& profile, std::size_t count, double radius, double x) {
    const auto& p = profile.points;
    Envelope envelope{radius, x};
    const auto first =
        std::lower_bound(p.begin(), p.end(), x - radius, [](const Vec2& q, double v) { return q.x() < v; });
    const auto start = std::min(static_cast<std::size_t>(first - p.begin()), p.size() - 1);
    for (std::size_t i = start; i < p.size() && i <= count; ++i) {
        const bool last = i + 1 == p.size() && count >= p.size();
        if (i < count) envelope.corner(p[i]);
        if (i == 0) continue;
        envelope.stretch(p[i - 1], p[i], i == 1 ? -endless : p[i - 1].x(), last ? endless : p[i].x());
        if (p[i - 1].x() > x + radius) break;
    }
    return envelope;
}

} // namespace

Expected<void> checkProfile(const GroundProfile& profile) {
    const auto& p = profile.points;
    for (const Vec2& point : p)
        if (!point.allFinite()) return profileFigures();
    if (p.size() < 2)
        return fail("profile-short", "The ground has fewer than two points.", {},
                    "Add points along the way.");
    for (std::size_t i = 0; i + 1 < p.size(); ++i) {
        const bool end = i == 0 || i + 2 == p.size();
        if (p[i + 1].x() < p[i].x() || p[i + 1] == p[i] || (end && p[i + 1].x() == p[i].x()))
            return fail("profile-order", "The ground runs back, stands still or ends upright.",
                        "point " + std::to_string(i + 2), "List points in the order of the way.");
    }
    return {};
}

Expected<GroundProfile> profileOf(const std::vector<Stretch>& stretches) {
    GroundProfile out{{{-apron, 0}, {0, 0}}};
    for (const Stretch& s : stretches) {
        if (!(s.run >= 0) || !std::isfinite(s.rise)) return profileFigures();
        out.points.push_back(out.points.back() + Vec2(s.run, s.rise));
    }
    out.points.push_back(out.points.back() + Vec2(apron, 0));
    if (const auto sound = checkProfile(out); !sound) return Unexpected(sound.error());
    return out;
}

Expected<GroundProfile> slopeBreak(double before, double behind) {
    if (!std::isfinite(before) || !std::isfinite(behind)) return profileFigures();
    return GroundProfile{{{-apron, -apron * before}, {0, 0}, {apron, apron * behind}}};
}

Expected<GroundProfile> kerbRamp(double counter, double slope, double rise) {
    if (!(counter >= 0) || !(slope > 0) || !(rise > 0) || !std::isfinite(counter + slope + rise))
        return profileFigures();
    const double run = rise / slope;
    return GroundProfile{{{-apron, apron * counter}, {0, 0}, {run, rise}, {run + apron, rise}}};
}

Expected<GroundProfile> threshold(double height, double upright, double bevel, double depth) {
    if (!(height > 0) || !(upright >= 0 && upright <= height) || !(bevel > 0) || !(depth > 0) ||
        !std::isfinite(height + bevel + depth))
        return profileFigures();
    const double above = height - upright;
    std::vector<Stretch> way;
    if (upright > 0) way.push_back({0, upright});
    if (above > 0) way.push_back({above / bevel, above});
    way.push_back({depth, 0});
    if (above > 0) way.push_back({above / bevel, -above});
    if (upright > 0) way.push_back({0, -upright});
    return profileOf(way);
}

Expected<GroundProfile> hump(double length, double height, double tolerance) {
    if (!(length > 0) || !(height > 0) || !(height <= length / 2) || !(tolerance > 0) ||
        !std::isfinite(length))
        return profileFigures();
    const double radius = length * length / (8 * height) + height / 2;
    const double half = std::asin(std::min(1.0, length / 2 / radius));
    const double each = 2 * std::acos(std::max(0.0, 1 - tolerance / radius));
    const int count = std::clamp(static_cast<int>(std::ceil(2 * half / each)), 2, 2000);
    GroundProfile out{{{-apron, 0}, {0, 0}}};
    for (int i = 1; i < count; ++i) {
        const double at = -half + 2 * half * i / count;
        out.points.emplace_back(length / 2 + radius * std::sin(at), height - radius * (1 - std::cos(at)));
    }
    out.points.emplace_back(length, 0);
    out.points.emplace_back(length + apron, 0);
    return out;
}

GroundProfile turnedRound(const GroundProfile& profile) {
    GroundProfile out;
    for (const Vec2& p : profile.points) out.points.emplace_back(-p.x(), p.y());
    std::reverse(out.points.begin(), out.points.end());
    return out;
}

double groundAt(const GroundProfile& profile, double x) {
    const auto& p = profile.points;
    // upper of two points at one x: what rises counts by its end, what falls by its beginning
    const auto behind =
        std::upper_bound(p.begin(), p.end(), x, [](double v, const Vec2& q) { return v < q.x(); });
    const std::size_t i =
        std::clamp<std::size_t>(static_cast<std::size_t>(behind - p.begin()), 1, p.size() - 1);
    double height = lineAt(p[i - 1], p[i], x);
    for (std::size_t k = i; k-- > 0 && p[k].x() == x;) height = std::max(height, p[k].y());
    return height;
}

WheelTouch wheelOn(const GroundProfile& profile, double radius, double x) {
    return wheelBefore(profile, profile.points.size(), radius, x).touch();
}

double wheelHeightOn(const GroundProfile& profile, double radius, double x) {
    return wheelBefore(profile, profile.points.size(), radius, x).height;
}

Expected<Climb> hardestClimb(const GroundProfile& profile, double radius) {
    if (const auto sound = checkProfile(profile); !sound) return Unexpected(sound.error());
    if (!(radius > 0) || !std::isfinite(radius)) return profileFigures();
    const auto& p = profile.points;
    Climb hardest;
    const auto meet = [&](double lean, const Vec2& at) {
        if (lean > hardest.lean) hardest.lean = lean, hardest.at = at;
    };
    for (std::size_t i = 1; i < p.size(); ++i)
        if (p[i].x() > p[i - 1].x())
            meet(std::atan2(p[i].y() - p[i - 1].y(), p[i].x() - p[i - 1].x()), (p[i - 1] + p[i]) / 2);
    for (std::size_t i = 2; i < p.size(); ++i) { // the first two lie on one straight
        const Vec2 corner = p[i];
        const auto before = [&](double off) { // how far its arc rises over what lies before it
            return corner.y() + std::sqrt(std::max(0.0, radius * radius - off * off)) -
                   wheelBefore(profile, i, radius, corner.x() - off).height;
        };
        if (before(radius) >= 0) return Climb{std::numbers::pi / 2, corner, true};
        if (before(0) <= 0) continue;
        double near = 0, far = radius;
        for (int k = 0; k < 100 && near < far; ++k) {
            const double middle = (near + far) / 2;
            (before(middle) > 0 ? near : far) = middle;
        }
        meet(std::asin(std::min(1.0, near / radius)), corner);
    }
    return hardest;
}

} // namespace slab::route
