#include "core/route/hung.h"
#include "core/route/sweep.h"

namespace slab::route {

namespace {

constexpr double steepestHung = 60 * 3.14159265358979323846 / 180;

Expected<void> checkHung(const Linked& linked, double from, double to) {
    if (const auto sound = checkSideView(linked.donor); !sound) return Unexpected(sound.error());
    if (linked.body.axles.size() != 1)
        return fail("axles-few", "A body that hangs on a pin rolls on one axle.", {}, "Give one axle.");
    const Axle& axle = linked.body.axles.front();
    bool finite = std::isfinite(from) && std::isfinite(to) && from != to && linked.link.allFinite() &&
                  std::isfinite(axle.x) && axle.radius >= 0 && axle.radius < 1e6;
    for (const Ring& chain : linked.body.undersides)
        for (const Vec2& p : chain) finite = finite && p.allFinite();
    if (!finite)
        return fail("out-of-range", "A figure of the body or of its way is not in its range.", {},
                    "Check its axle, pin, undersides and both ends of the way.");
    if (std::abs(axle.x - linked.link.x()) < 10)
        return fail("axle-under-link", "The wheels stand under the pin, and hold nothing up.", {},
                    "Move the wheels along from the pin.");
    return {};
}

struct Hanging {
    const GroundProfile& ground;
    const Linked& linked;
    double nearDonor = 0, nearBody = 0;
    double donorPitch = 0;

    /// The body where the donor's origin is over x.
    Expected<SidePose> at(double x) {
        const auto donor = standAt(ground, linked.donor, x, nearDonor);
        if (!donor) return Unexpected(donor.error());
        nearDonor = donorPitch = donor->pitch;
        auto body = hangAt(ground, linked, donor->place(linked.link), nearBody);
        if (body) nearBody = body->pitch;
        return body;
    }
    [[nodiscard]] double lever() const { return std::abs(linked.body.axles.front().x - linked.link.x()); }
};

void meet(HungTravel& out, double pitch, const GroundGap& gap, double x) {
    if (pitch < out.noseDown.value) out.noseDown = {pitch, x};
    if (pitch > out.noseUp.value) out.noseUp = {pitch, x};
    if (gap.height < out.clearance.height) {
        out.clearance = gap;
        out.clearance.x = x;
    }
}

} // namespace

Expected<SidePose> hangAt(const GroundProfile& ground, const Linked& linked, const Vec2& pin, double near) {
    const Axle& axle = linked.body.axles.front();
    const Vec2 arm(axle.x - linked.link.x(), axle.radius - linked.link.y());
    const double ahead = arm.x() > 0 ? 1 : -1; // with its nose up a wheel ahead of the pin rises
    const auto over = [&](double pitch) {
        const Vec2 centre = pin + Eigen::Rotation2Dd(pitch) * arm;
        return ahead * (centre.y() - wheelHeightOn(ground, axle.radius, centre.x()));
    };
    double low = near, high = near;
    for (double wide = 1e-3; over(low) > 0; wide *= 2) {
        if (low <= -steepestHung) return fail("no-stance", "The wheels of the body find no ground.");
        low = std::max(near - wide, -steepestHung);
    }
    for (double wide = 1e-3; over(high) < 0; wide *= 2) {
        if (high >= steepestHung) return fail("no-stance", "The wheels of the body find no ground.");
        high = std::min(near + wide, steepestHung);
    }
    for (int i = 0; i < 60 && high - low > 1e-13; ++i) {
        const double middle = (low + high) / 2;
        (over(middle) > 0 ? high : low) = middle;
    }
    SidePose out;
    out.pitch = (low + high) / 2;
    out.at = pin - out.turned() * linked.link;
    out.gaps = {0};
    return out;
}

Expected<HungTravel> driveHung(const GroundProfile& ground, const Linked& linked, double from, double to,
                               double tolerance) {
    if (const auto sound = checkHung(linked, from, to); !sound) return Unexpected(sound.error());
    if (const auto sound = checkProfile(ground); !sound) return Unexpected(sound.error());
    Hanging hanging{ground, linked};
    HungTravel out;
    const auto figures = [&](double x) -> Expected<std::vector<double>> {
        const auto body = hanging.at(x);
        if (!body) return Unexpected(body.error());
        const double pitch = body->pitch - hanging.donorPitch;
        const GroundGap gap = gapUnder(ground, linked.body, *body);
        meet(out, pitch, gap, x);
        std::vector<double> now{pitch * hanging.lever(), -pitch * hanging.lever()};
        if (!linked.body.undersides.empty()) now.push_back(gap.height);
        return now;
    };
    const auto least = sweptLeast(figures, from, to, tolerance);
    if (!least) return Unexpected(least.error());
    out.steps = least->steps;
    out.change = least->change;
    constexpr int shown = 64;
    for (int i = 0; i <= shown; ++i)
        if (auto body = hanging.at(from + (to - from) * i / shown)) out.poses.push_back(std::move(*body));
    return out;
}

Expected<HungTravel> quickHung(const GroundProfile& ground, const Linked& linked, double from, double to,
                               int steps) {
    if (const auto sound = checkHung(linked, from, to); !sound) return Unexpected(sound.error());
    if (steps < 1) return fail("out-of-range", "No step is no drive.", {}, "Give 1 or more.");
    Hanging hanging{ground, linked};
    HungTravel out;
    out.steps = steps;
    for (int i = 0; i <= steps; ++i) {
        const double x = from + (to - from) * i / steps;
        const auto body = hanging.at(x);
        if (!body) return Unexpected(body.error());
        meet(out, body->pitch - hanging.donorPitch, gapUnder(ground, linked.body, *body), x);
    }
    return out;
}

} // namespace slab::route
