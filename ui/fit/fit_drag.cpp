#include "ui/fit/fit_drag.h"
#include <cmath>
#include <cstdio>
#include <regex>

namespace slab::ui {

Vec2 moveOnScreen(const ViewCamera& camera, const Vec3& grabbed, double dx, double dy) {
    constexpr double step = 1; // mm
    const Vec3 at = camera.toScreen(grabbed);
    const Vec2 x = (camera.toScreen(grabbed + Vec3(step, 0, 0)) - at).head<2>();
    const Vec2 z = (camera.toScreen(grabbed + Vec3(0, 0, step)) - at).head<2>();
    const Vec2 wanted(dx, dy);
    const double det = cross2(x, z);
    const double size = std::max(x.squaredNorm(), z.squaredNorm());
    if (size <= 0) return Vec2::Zero();
    // Where the two axes nearly coincide on screen only the longer one can be followed.
    if (std::abs(det) < 0.12 * size) {
        const bool alongX = x.squaredNorm() >= z.squaredNorm();
        const Vec2& axis = alongX ? x : z;
        const double by = axis.dot(wanted) / axis.squaredNorm();
        return alongX ? Vec2(by, 0) : Vec2(0, by);
    }
    return {cross2(wanted, z) / det, cross2(x, wanted) / det};
}

namespace {

std::string lengthText(double mm, bool inches) {
    char out[48];
    if (inches)
        std::snprintf(out, sizeof out, "%.10g in", std::round(mm / 25.4 * 16) / 16);
    else
        std::snprintf(out, sizeof out, "%.10g mm", std::round(mm));
    return out[0] == '-' && (out[1] == '0' && out[2] == ' ') ? std::string(out + 1) : std::string(out);
}

} // namespace

Text movedText(const Text& typed, double by, const Scope& scope, bool inches) {
    if (typed.empty()) return lengthText(by, inches);
    if (namesIn(typed).empty()) {
        if (const auto value = evaluate(typed, scope, Space::build, Kind::length))
            return lengthText(value->value + by, inches);
    }
    static const std::regex tail(R"(^(.*\S) ([+-]) ([0-9.]+) (mm|in)$)");
    std::smatch match;
    std::string base = typed;
    double offset = by;
    if (std::regex_match(typed, match, tail)) {
        const double was = std::stod(match[3]) * (match[4] == "in" ? 25.4 : 1) * (match[2] == "-" ? -1 : 1);
        base = match[1];
        offset += was;
    }
    const std::string words = lengthText(std::abs(offset), inches);
    if (words.starts_with("0 ")) return base;
    return base + (offset < 0 ? " - " : " + ") + words;
}

Edit moveEdit(Movable what, const Project& before, const Scope& scope, const Vec2& by,
              const std::string& gesture) {
    const bool inches = before.units == "in" || before.units == "ft";
    const bool donor = what == Movable::donor;
    const Text& x = donor ? before.donor.at.x : before.rider.shift_x;
    const Text& z = donor ? before.donor.at.z : before.rider.shift_z;
    const Text newX = std::abs(by.x()) > 1e-9 ? movedText(x, by.x(), scope, inches) : x;
    const Text newZ = std::abs(by.y()) > 1e-9 ? movedText(z, by.y(), scope, inches) : z;
    return {donor ? "Move donor" : "Move rider", gesture, [=](const Project& project) -> Expected<Project> {
                Project out = project;
                (donor ? out.donor.at.x : out.rider.shift_x) = newX;
                (donor ? out.donor.at.z : out.rider.shift_z) = newZ;
                // A place chosen by hand is not searched for any more.
                if (donor) out.donor.best_place = false;
                return out;
            }};
}

} // namespace slab::ui
