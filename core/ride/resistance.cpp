#include "core/ride/resistance.h"
#include "core/ride/mass.h"
#include <cmath>
#include <numbers>

namespace slab::ride {

namespace {

Expected<void> checkStep(double radius, double step) {
    if (!(radius > 0) || !(step >= 0) || !std::isfinite(radius) || !std::isfinite(step))
        return fail("out-of-range", "The wheel's radius must be above 0 and the step 0 or more.", {},
                    "Give both in range.");
    if (step >= radius)
        return fail("step-too-high",
                    "The step is as high as the wheel's axle: no push lifts the wheel over it.", {},
                    "Use a larger wheel, a lower step or a ramp.");
    return {};
}

} // namespace

Expected<double> stepPush(double radius, double step) {
    if (const auto sound = checkStep(radius, step); !sound) return Unexpected(sound.error());
    return std::sqrt(2 * radius * step - step * step) / (radius - step);
}

Expected<double> stepTorque(double radius, double step, double load) {
    if (const auto sound = checkStep(radius, step); !sound) return Unexpected(sound.error());
    if (!(load >= 0) || !std::isfinite(load))
        return fail("out-of-range", "The load on the wheel must be 0 or more.", {}, "Give it in N.");
    return load * std::sqrt(2 * radius * step - step * step) / 1000;
}

Expected<double> highestStep(double radius, double push) {
    if (!(radius > 0) || !(push >= 0) || !std::isfinite(radius) || !std::isfinite(push))
        return fail("out-of-range", "The wheel's radius must be above 0 and the push 0 or more.", {},
                    "Give both in range.");
    return radius * (1 - 1 / std::sqrt(1 + push * push)); // the push is the tangent of the contact's angle
}

Expected<double> gradeForce(double mass, double slope, double rolling) {
    if (!(mass >= 0) || !(rolling >= 0) || !(std::abs(slope) < std::numbers::pi / 2) ||
        !std::isfinite(mass * rolling))
        return fail("out-of-range", "Mass and rolling resistance must be 0 or more, the slope under 90°.", {},
                    "Give all in range.");
    return mass * gravity / 1000 * (std::sin(slope) + rolling * std::cos(slope));
}

} // namespace slab::ride
