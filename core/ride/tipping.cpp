#include "core/ride/tipping.h"
#include "core/geometry/polygon.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::ride {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

Unexpected badFigures() {
    return fail("out-of-range", "A figure is not in its range.", {},
                "Check angles, speeds, areas and masses.");
}

Side sideOf(const Vec2& outward) {
    if (std::abs(outward.x()) > std::abs(outward.y())) return outward.x() > 0 ? Side::front : Side::rear;
    return outward.y() > 0 ? Side::port : Side::starboard;
}

int wheelAt(const std::vector<Vec2>& wheels, const Vec2& point) {
    return static_cast<int>(std::find(wheels.begin(), wheels.end(), point) - wheels.begin());
}

/// The greatest turn that a line stands, as v² / R, mm/s².
double mostPull(const TipLine& line, double height, const Vec3& up, const Vec3& inward) {
    const Vec3 out(line.outward.x(), line.outward.y(), 0);
    const double room = gravity * (line.distance * up.z() + height * up.dot(out));
    const double each = -height * inward.dot(out) - line.distance * inward.z();
    if (room < 0) return 0;
    return each > 0 ? room / each : never;
}

} // namespace

Expected<std::vector<TipLine>> tipLines(const Stance& stance) {
    if (const auto sound = checkStance(stance); !sound) return Unexpected(sound.error());
    const Ring hull = convexHull(stance.wheels);
    std::vector<TipLine> out;
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2 a = hull[i], b = hull[(i + 1) % hull.size()], along = (b - a).normalized();
        TipLine line;
        line.from = wheelAt(stance.wheels, a);
        line.to = wheelAt(stance.wheels, b);
        line.outward = Vec2(along.y(), -along.x());
        line.distance = line.outward.dot(a - stance.centre.head<2>());
        line.angle = std::atan2(line.distance, stance.centre.z());
        line.side = sideOf(line.outward);
        out.push_back(line);
    }
    return out;
}

Expected<TipAngle> leastTipAngle(const Stance& stance) {
    return tipLines(stance).map([](const std::vector<TipLine>& lines) {
        const auto least = std::min_element(
            lines.begin(), lines.end(), [](const TipLine& a, const TipLine& b) { return a.angle < b.angle; });
        return TipAngle{least->angle, *least};
    });
}

Expected<TipAngle> tipAngleTowards(const Stance& stance, double downhill) {
    if (!std::isfinite(downhill)) return badFigures();
    const auto lines = tipLines(stance);
    if (!lines) return Unexpected(lines.error());
    const Vec2 down(std::cos(downhill), std::sin(downhill));
    TipAngle least{never, {}};
    for (const TipLine& line : *lines) {
        const double share = line.outward.dot(down);
        if (!(share > 1e-12) && line.distance >= 0) continue;
        const double angle = std::atan2(line.distance, stance.centre.z() * std::max(share, 1e-12));
        if (angle < least.angle) least = {angle, line};
    }
    return least;
}

Expected<Lean> leanUnder(const Stance& stance, const Vec3& pull) {
    if (!pull.allFinite() || !(pull.z() < 0)) return badFigures();
    return tipLines(stance).map([&](const std::vector<TipLine>& lines) {
        Lean nearest;
        nearest.margin = never;
        for (const TipLine& line : lines) {
            const double lean = std::atan2(line.outward.dot(pull.head<2>()), -pull.z());
            if (line.angle - lean < nearest.margin) nearest = {lean, line.angle - lean, line};
        }
        return nearest;
    });
}

Expected<TurnLimits> turnLimits(const Stance& stance, double radius, const Slope& slope, double ahead) {
    if (!(radius > 0) || !std::isfinite(radius) || !std::isfinite(ahead)) return badFigures();
    if (const auto pull = pullOn(slope); !pull) return Unexpected(pull.error());
    const auto lines = tipLines(stance);
    if (!lines) return Unexpected(lines.error());
    const Vec3 up = upOn(slope), aside(-std::sin(ahead), std::cos(ahead), 0);
    const Vec3 port = (aside - up.dot(aside) * up).normalized();
    TurnLimits out;
    for (double sign : {1.0, -1.0}) {
        TurnLimit& limit = sign > 0 ? out.port : out.starboard;
        limit.speed = never;
        for (const TipLine& line : *lines) {
            const double speed = std::sqrt(mostPull(line, stance.centre.z(), up, sign * port) * radius);
            if (speed < limit.speed) limit = {speed, line};
        }
    }
    return out;
}

Expected<double> leastTurnRadius(const Stance& stance, double speed, const Slope& slope) {
    if (!(speed >= 0) || !std::isfinite(speed)) return badFigures();
    const auto limits = turnLimits(stance, 1, slope);
    if (!limits) return Unexpected(limits.error());
    const double most = limits->least();
    if (!(most > 0))
        return fail("tips", "It tips over at rest on this slope.", {},
                    "Lower the centre of mass or widen the wheels.");
    return speed * speed / (most * most);
}

Expected<double> windForce(const WindFace& face, double speed) {
    if (!(face.area >= 0) || !(face.drag > 0) || !(speed >= 0) || !face.centre.allFinite() ||
        !std::isfinite(face.area * face.drag * speed))
        return badFigures();
    constexpr double air = 1.225;
    return air / 2 * face.drag * (face.area * 1e-6) * (speed * speed * 1e-6);
}

Expected<WindLimits> windLimits(const Stance& stance, const WindFace& face, double towards, double friction) {
    const auto unit = windForce(face, 1000);
    if (!unit) return Unexpected(unit.error());
    if (!std::isfinite(towards) || !(friction > 0) || !std::isfinite(friction) || !(face.centre.z() >= 0))
        return badFigures();
    const auto lines = tipLines(stance);
    if (!lines) return Unexpected(lines.error());
    const double weight = stance.mass * gravity / 1000;
    const Vec2 along(std::cos(towards), std::sin(towards));
    WindLimits out{never, 1000 * std::sqrt(friction * weight / *unit), {}};
    for (const TipLine& line : *lines) {
        const double arm = line.outward.dot(along) * face.centre.z();
        if (!(arm > 0) && line.distance >= 0) continue;
        const double tips =
            1000 * std::sqrt(std::max(line.distance, 0.0) * weight / (*unit * std::max(arm, 0.0)));
        const double speed = line.distance < 0 ? 0 : tips;
        if (speed < out.tips) out.tips = speed, out.line = line;
    }
    return out;
}

Expected<Stance> withBallast(const Stance& stance, double mass, const Vec3& at) {
    if (const auto sound = checkStance(stance); !sound) return Unexpected(sound.error());
    const auto part = pointMass(mass, at);
    if (!part) return Unexpected(part.error());
    Stance out = stance;
    out.mass += mass;
    out.centre = (stance.mass * stance.centre + mass * at) / out.mass;
    return out;
}

Expected<Stance> withDonorMoved(const Stance& stance, const MassProperties& donor, const Vec2& by) {
    if (const auto sound = checkStance(stance); !sound) return Unexpected(sound.error());
    if (!(donor.mass >= 0 && donor.mass <= stance.mass) || !by.allFinite()) return badFigures();
    Stance out = stance;
    for (Vec2& wheel : out.wheels) wheel += by;
    out.centre.head<2>() += donor.mass / stance.mass * by;
    return out;
}

Expected<std::vector<TipChange>> tipChanges(const Stance& before, const Stance& after) {
    if (before.wheels.size() != after.wheels.size()) return badFigures();
    const auto old = tipLines(before), now = tipLines(after);
    if (!old) return Unexpected(old.error());
    if (!now) return Unexpected(now.error());
    std::vector<TipChange> out;
    for (const TipLine& a : *old)
        for (const TipLine& b : *now)
            if (a.from == b.from && a.to == b.to) out.push_back({a, b});
    return out;
}

Expected<double> ballastFor(const Stance& stance, const Vec3& at, double angle) {
    if (!(angle >= 0 && angle < std::numbers::pi / 2) || !at.allFinite()) return badFigures();
    const auto lines = tipLines(stance);
    if (!lines) return Unexpected(lines.error());
    const double t = std::tan(angle);
    double least = 0, most = never;
    for (const TipLine& line : *lines) {
        // room(m) = M (d - h t) + m (d_b - h_b t) must not fall below 0
        const double own = stance.mass * (line.distance - stance.centre.z() * t);
        const double each =
            line.distance - line.outward.dot(at.head<2>() - stance.centre.head<2>()) - at.z() * t;
        if (own < 0 && !(each > 0))
            most = -1;
        else if (own < 0)
            least = std::max(least, -own / each);
        else if (each < 0)
            most = std::min(most, -own / each);
    }
    if (least > most)
        return fail("ballast-in-vain", "No ballast at this place steadies every side enough.", {},
                    "Place it lower and nearer to the middle, or widen the wheels.");
    return least;
}

} // namespace slab::ride
