#include "core/route/crossing.h"
#include "core/route/sweep.h"
#include <set>

namespace slab::route {

namespace {

Expected<void> checkWay(double from, double to, double tolerance) {
    if (std::isfinite(from) && std::isfinite(to) && from != to && tolerance > 0) return {};
    return fail("out-of-range", "The way must lead from one place to another.", {},
                "Give both ends and a tolerance.");
}

/// Pitch as a length: at the end of the longest distance between axles.
double leverOf(const SideView& vehicle) {
    double low = vehicle.axles.front().x, high = low;
    for (const Axle& a : vehicle.axles) low = std::min(low, a.x), high = std::max(high, a.x);
    return high - low;
}

/// What is swept: pitch both ways as lengths, gaps under the axles, heights under the chains.
std::vector<double> figuresOf(const GroundProfile& ground, const SideView& vehicle, const SidePose& pose,
                              bool eachChain) {
    const double lever = leverOf(vehicle);
    std::vector<double> now{pose.pitch * lever, -pose.pitch * lever};
    for (double gap : pose.gaps) now.push_back(-gap);
    if (!eachChain) {
        now.push_back(gapUnder(ground, vehicle, pose).height);
        return now;
    }
    for (const GroundGap& gap : gapsUnder(ground, vehicle, pose)) now.push_back(gap.height);
    return now;
}

/// Extremes of those figures, with their places.
void tell(Crossing& out, const GroundProfile& ground, const SideView& vehicle, const SweptLeast& least,
          bool eachChain) {
    const double lever = leverOf(vehicle);
    out.noseDown = {least.value[0] / lever, least.at[0]};
    out.noseUp = {-least.value[1] / lever, least.at[1]};
    std::size_t k = 2;
    for (std::size_t i = 0; i < vehicle.axles.size(); ++i, ++k)
        out.lifts.push_back({-least.value[k], least.at[k]});
    if (!eachChain)
        if (const auto pose = standAt(ground, vehicle, least.at[k])) {
            out.clearance = gapUnder(ground, vehicle, *pose);
            out.clearance.x = least.at[k];
        }
    for (std::size_t c = 0; eachChain && c < vehicle.undersides.size(); ++c, ++k) {
        const auto pose = standAt(ground, vehicle, least.at[k]);
        out.under.push_back(pose ? gapsUnder(ground, vehicle, *pose)[c] : GroundGap{});
        if (out.under.back().height < out.clearance.height) out.clearance = out.under.back();
    }
    out.steps = least.steps;
    out.change = least.change;
}

/// The body with its link over a place.
Expected<SidePose> bodyAt(const GroundProfile& ground, const Linked& linked, double linkX, double near) {
    double x = linkX - linked.link.x();
    Expected<SidePose> pose = standAt(ground, linked.body, x, near);
    for (int k = 0; k < 60 && pose; ++k) {
        const double off = linkX - pose->place(linked.link).x();
        if (std::abs(off) < 1e-10) break;
        x += off; // the link moves nearly as the origin does
        pose = standAt(ground, linked.body, x, pose->pitch);
    }
    return pose;
}

struct PaperPose {
    double link, pitch; ///< height at the link, slope as an angle
};
PaperPose onPaper(const GroundProfile& ground, const SideView& vehicle, double link, double x) {
    const double a = vehicle.axles[0].x, b = vehicle.axles[1].x;
    const double atA = groundAt(ground, x + a), slope = (groundAt(ground, x + b) - atA) / (b - a);
    return {atA + slope * (link - a), std::atan(slope)};
}

} // namespace

namespace {

Expected<void> addClimbs(Crossing& out, const GroundProfile& ground, const SideView& vehicle, double from,
                         double to) {
    for (const Axle& a : vehicle.axles) {
        const auto climb = a.radius > 0 ? hardestClimb(to > from ? ground : turnedRound(ground), a.radius)
                                        : Expected<Climb>(Climb{});
        if (!climb) return Unexpected(climb.error());
        out.climbs.push_back(*climb);
    }
    return {};
}

} // namespace

Expected<Crossing> quickDrive(const GroundProfile& ground, const SideView& vehicle, double from, double to,
                              int steps) {
    if (const auto sound = checkWay(from, to, 1); !sound) return Unexpected(sound.error());
    if (const auto sound = checkSideView(vehicle); !sound) return Unexpected(sound.error());
    if (steps < 1) return fail("out-of-range", "No step is no drive.", {}, "Give 1 or more.");
    Crossing out;
    out.steps = steps;
    out.lifts.resize(vehicle.axles.size());
    double near = 0;
    Expected<void> sound;
    const auto meet = [&](double x) {
        const auto pose = standAt(ground, vehicle, x, near);
        if (!pose) {
            sound = Unexpected(pose.error());
            return 0.0;
        }
        near = pose->pitch;
        out.tips = out.tips || pose->tips;
        if (pose->pitch < out.noseDown.value) out.noseDown = {pose->pitch, x};
        if (pose->pitch > out.noseUp.value) out.noseUp = {pose->pitch, x};
        for (std::size_t a = 0; a < out.lifts.size(); ++a)
            if (pose->gaps[a] > out.lifts[a].value) out.lifts[a] = {pose->gaps[a], x};
        GroundGap gap = gapUnder(ground, vehicle, *pose);
        gap.x = x;
        if (gap.height < out.clearance.height) out.clearance = gap;
        return gap.height;
    };
    for (int i = 0; i <= steps && sound; ++i) (void)meet(from + (to - from) * i / steps);
    const double wide = std::abs(to - from) / steps, at = out.clearance.x;
    if (sound && std::isfinite(out.clearance.height)) (void)leastBetween(meet, at - wide, at + wide, 0.1);
    if (!sound) return Unexpected(sound.error());
    if (const auto climbed = addClimbs(out, ground, vehicle, from, to); !climbed)
        return Unexpected(climbed.error());
    return out;
}

Expected<Crossing> drive(const GroundProfile& ground, const SideView& vehicle, double from, double to,
                         double tolerance, bool eachChain) {
    if (const auto sound = checkWay(from, to, tolerance); !sound) return Unexpected(sound.error());
    if (const auto sound = checkSideView(vehicle); !sound) return Unexpected(sound.error());
    Crossing out;
    double near = 0;
    const auto figures = [&](double x) -> Expected<std::vector<double>> {
        const auto pose = standAt(ground, vehicle, x, near);
        if (!pose) return Unexpected(pose.error());
        near = pose->pitch;
        out.tips = out.tips || pose->tips;
        return figuresOf(ground, vehicle, *pose, eachChain);
    };
    const auto least = sweptLeast(figures, from, to, tolerance);
    if (!least) return Unexpected(least.error());
    tell(out, ground, vehicle, *least, eachChain);
    if (const auto climbed = addClimbs(out, ground, vehicle, from, to); !climbed)
        return Unexpected(climbed.error());
    constexpr int shown = 64;
    for (int i = 0; i <= shown; ++i)
        if (auto pose = standAt(ground, vehicle, from + (to - from) * i / shown))
            out.poses.push_back(std::move(*pose));
    return out;
}

namespace {

/// Donor and body, one place after the other.
struct Coupled {
    const GroundProfile& ground;
    const Linked& linked;
    double nearDonor = 0, nearBody = 0;

    struct Here {
        double travel = 0, pitch = 0; ///< of the body over the donor at the link; against the donor
    };
    Expected<Here> at(double x) {
        const auto donor = standAt(ground, linked.donor, x, nearDonor);
        if (!donor) return Unexpected(donor.error());
        const Vec2 link = donor->place(linked.link);
        const auto body = bodyAt(ground, linked, link.x(), nearBody);
        if (!body) return Unexpected(body.error());
        nearDonor = donor->pitch, nearBody = body->pitch;
        return Here{body->place(linked.link).y() - link.y(), body->pitch - donor->pitch};
    }
};

Expected<void> checkLinked(const Linked& linked, double from, double to, double tolerance) {
    if (const auto sound = checkWay(from, to, tolerance); !sound) return sound;
    if (const auto sound = checkSideView(linked.donor); !sound) return sound;
    return checkSideView(linked.body);
}

} // namespace

Expected<LinkTravel> linkTravel(const GroundProfile& ground, const Linked& linked, double from, double to,
                                double tolerance) {
    if (const auto sound = checkLinked(linked, from, to, tolerance); !sound) return Unexpected(sound.error());
    const double lever = leverOf(linked.body);
    Coupled coupled{ground, linked};
    const auto figures = [&](double x) -> Expected<std::vector<double>> {
        const auto here = coupled.at(x);
        if (!here) return Unexpected(here.error());
        const double pitch = here->pitch * lever;
        return std::vector<double>{here->travel, -here->travel, pitch, -pitch};
    };
    const auto least = sweptLeast(figures, from, to, tolerance);
    if (!least) return Unexpected(least.error());
    return LinkTravel{{least->value[0], least->at[0]},
                      {-least->value[1], least->at[1]},
                      {least->value[2] / lever, least->at[2]},
                      {-least->value[3] / lever, least->at[3]},
                      least->steps,
                      least->change};
}

Expected<LinkTravel> quickLinkTravel(const GroundProfile& ground, const Linked& linked, double from,
                                     double to, int steps) {
    if (const auto sound = checkLinked(linked, from, to, 1); !sound) return Unexpected(sound.error());
    if (steps < 1) return fail("out-of-range", "No step is no drive.", {}, "Give 1 or more.");
    Coupled coupled{ground, linked};
    LinkTravel out;
    out.steps = steps;
    for (int i = 0; i <= steps; ++i) {
        const double x = from + (to - from) * i / steps;
        const auto here = coupled.at(x);
        if (!here) return Unexpected(here.error());
        const auto [travel, pitch] = *here;
        if (i == 0) out.down = out.up = {travel, x}, out.noseDown = out.noseUp = {pitch, x};
        if (travel < out.down.value) out.down = {travel, x};
        if (travel > out.up.value) out.up = {travel, x};
        if (pitch < out.noseDown.value) out.noseDown = {pitch, x};
        if (pitch > out.noseUp.value) out.noseUp = {pitch, x};
    }
    return out;
}

Expected<LinkTravel> linkTravelOnPaper(const GroundProfile& ground, const Linked& linked, double from,
                                       double to) {
    if (const auto sound = checkWay(from, to, 1); !sound) return Unexpected(sound.error());
    if (const auto sound = checkProfile(ground); !sound) return Unexpected(sound.error());
    std::set<double> places{from, to};
    for (const SideView* vehicle : {&linked.donor, &linked.body}) {
        if (const auto sound = checkSideView(*vehicle); !sound) return Unexpected(sound.error());
        if (vehicle->axles.size() != 2)
            return fail("axles-few", "On paper both stand on two axles.", {}, "Give two axles each.");
        for (const Axle& a : vehicle->axles)
            for (const Vec2& p : ground.points)
                if (const double x = p.x() - a.x; x > std::min(from, to) && x < std::max(from, to))
                    places.insert(x);
    }
    for (std::size_t i = 0; i + 1 < ground.points.size(); ++i)
        if (ground.points[i].x() == ground.points[i + 1].x())
            return fail("profile-order", "On paper the ground has no upright steps.", {},
                        "Use wheels of a radius.");
    LinkTravel out;
    out.down.value = out.noseDown.value = std::numeric_limits<double>::infinity();
    out.up.value = out.noseUp.value = -std::numeric_limits<double>::infinity();
    const auto meet = [&](double x) {
        const PaperPose donor = onPaper(ground, linked.donor, linked.link.x(), x);
        const PaperPose body = onPaper(ground, linked.body, linked.link.x(), x);
        const double travel = body.link - donor.link, pitch = body.pitch - donor.pitch;
        if (travel < out.down.value) out.down = {travel, x};
        if (travel > out.up.value) out.up = {travel, x};
        if (pitch < out.noseDown.value) out.noseDown = {pitch, x};
        if (pitch > out.noseUp.value) out.noseUp = {pitch, x};
        return pitch;
    };
    for (auto at = places.begin(); at != places.end(); ++at) {
        meet(*at);
        ++out.steps;
        if (std::next(at) == places.end()) break;
        // between them slopes are straight, but not the difference of their angles
        (void)leastBetween([&](double x) { return meet(x); }, *at, *std::next(at), 1e-6);
        (void)leastBetween([&](double x) { return -meet(x); }, *at, *std::next(at), 1e-6);
    }
    return out;
}

} // namespace slab::route
