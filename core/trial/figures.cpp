#include "core/trial/figures.h"
#include "core/trial/reading.h"
#include "core/trial/words.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::trial {

namespace {

constexpr double kmh = 1e6 / 3600; ///< mm/s
constexpr double landing = 1500;   ///< mm of level ground behind a ramp, unless told

/// Words before a finding: "Ramp to the shed".
std::string wordsOf(const RoutePart& part) {
    std::string kind = part.kind;
    std::replace(kind.begin(), kind.end(), '_', ' ');
    if (!kind.empty())
        kind.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(kind.front())));
    return kind + " " + part.name;
}

struct Slopes {
    double slope = 0, counter = 0, rise = 0, upright = 0;
};

Expected<route::GroundProfile> groundOf(const RoutePart& part, const RouteFigure& f, const Slopes& s,
                                        Reading& read) {
    if (part.kind == "ramp")
        return route::profileOf({{s.rise / s.slope, s.rise}, {f.length > 0 ? f.length : landing, 0}});
    if (part.kind == "kerb_ramp") return route::kerbRamp(s.counter, s.slope, s.rise);
    if (part.kind == "threshold")
        return route::threshold(s.rise, std::min(s.upright, s.rise), s.slope > 0 ? s.slope : 0.5,
                                f.length > 0 ? f.length : 100);
    if (part.kind == "step") return route::profileOf({{0, s.rise}, {landing, 0}});
    if (part.kind == "hump") return route::hump(f.length, s.rise, 1);
    std::vector<route::Stretch> stretches;
    for (std::size_t i = 0; i < part.stretches.size(); ++i) {
        const GroundStretch& stretch = part.stretches[i];
        const std::string field = "stretches/" + std::to_string(i);
        stretches.push_back({read.length((field + "/run").c_str(), stretch.run, "run"),
                             read.place((field + "/rise").c_str(), stretch.rise, "rise")});
    }
    return route::profileOf(stretches);
}

double steepest(const route::GroundProfile& ground) {
    double slope = 0;
    for (std::size_t i = 1; i < ground.points.size(); ++i) {
        const Vec2 way = ground.points[i] - ground.points[i - 1];
        if (way.x() > 1) slope = std::max(slope, std::abs(way.y()) / way.x());
    }
    return slope;
}

/// @return whether all that its kind needs is there
bool hasAll(const RoutePart& part, const std::string& place, std::vector<Finding>& findings) {
    std::vector<std::string> missing;
    for (const std::string& field : neededSizes(part.kind)) {
        const Text& text = field == "width"      ? part.width
                           : field == "height"   ? part.height
                           : field == "length"   ? part.length
                           : field == "diameter" ? part.diameter
                           : field == "slope"    ? part.slope
                                                 : part.rise;
        if (text.empty()) missing.push_back(field);
    }
    if (part.kind == "ground" && part.stretches.empty()) missing.push_back("stretches");
    if (missing.empty()) return true;
    std::string list;
    for (const std::string& field : missing) list += (list.empty() ? "" : " and ") + field;
    findings.push_back({Severity::look,
                        "route-size",
                        wordsOf(part) + " has no " + list + ".",
                        {"document:" + place + "/" + missing.front()},
                        "Measure it and type it in, or leave this part out.",
                        {}});
    return false;
}

bool zeroSize(const RouteFigure& f, const Slopes& s, const std::string& field) {
    return !((field == "width"      ? f.width
              : field == "height"   ? f.height
              : field == "length"   ? f.length
              : field == "diameter" ? f.diameter
              : field == "slope"    ? s.slope
                                    : s.rise) > 0);
}

bool readPart(const RoutePart& part, std::size_t index, const Scope& scope, std::vector<Finding>& findings,
              RouteFigure& f) {
    const std::string place = "/route/" + std::to_string(index);
    if (!hasAll(part, place, findings)) return false;
    Reading read(scope, place, wordsOf(part), findings);
    f.width = read.length("width", part.width, "width");
    f.height = read.length("height", part.height, "height");
    f.length = read.length("length", part.length, "length");
    f.thickness = read.length("thickness", part.thickness, "wall");
    f.diameter = read.length("diameter", part.diameter, "diameter");
    f.wayOut = read.length("way_out", part.way_out, "width behind", f.width);
    f.skew = read.value("skew", part.skew, Kind::angle, 0, -80 * degree, 80 * degree, "skew");
    f.turn = read.value("turn", part.turn, Kind::angle, 90 * degree, -170 * degree, 170 * degree, "turn");
    f.load = read.number("load", part.load, 0, 0, 1e5, "what it bears");
    f.empty = part.empty;
    Slopes s;
    s.slope = read.slope("slope", part.slope, 0, 10, "slope");
    s.counter = read.slope("counter", part.counter, 0, 1, "counter slope");
    s.rise = read.length("rise", part.rise, "rise");
    s.upright = read.length("upright", part.upright, "upright", s.rise / 2);
    for (const std::string& field : neededSizes(part.kind))
        if (read.sound && zeroSize(f, s, field)) {
            read.sound = false;
            findings.push_back({Severity::look,
                                "route-size",
                                wordsOf(part) + ": its " + field + " is 0.",
                                {"document:" + place + "/" + field},
                                "Measure it and type it in, or leave this part out.",
                                {}});
        }
    if (!read.sound) return false;
    if (!isGround(part.kind)) return true;
    auto ground = groundOf(part, f, s, read);
    if (!read.sound) return false;
    if (!ground) {
        findings.push_back({Severity::look,
                            "route-ground",
                            wordsOf(part) + " makes no ground: " + ground.error().message,
                            {"document:" + place},
                            "Check its slopes, heights and stretches.",
                            {}});
        return false;
    }
    f.ground = std::move(*ground);
    f.slope = steepest(f.ground);
    return true;
}

void readWheels(const Project& project, const Scope& scope, std::vector<Finding>& findings,
                RideFigures& out) {
    for (std::size_t i = 0; i < project.ride.wheels.size(); ++i) {
        const DonorWheel& w = project.ride.wheels[i];
        Reading read(scope, "/ride/shell_wheels/" + std::to_string(i), "Shell wheel " + w.name, findings);
        Wheel wheel;
        wheel.name = w.name;
        wheel.at = Vec3(read.place("x", w.x, "x"), read.place("y", w.y, "y"), 0);
        wheel.radius = read.length("diameter", w.diameter, "diameter") / 2;
        wheel.width = read.length("width", w.width, "width");
        wheel.trail = read.length("trail", w.trail, "trail");
        wheel.role = w.role == "caster" ? WheelRole::caster : WheelRole::fixed;
        if (read.sound && wheel.radius > 0)
            out.shellWheels.push_back(std::move(wheel));
        else if (read.sound)
            findings.push_back({Severity::look,
                                "wheel-size",
                                "Shell wheel " + w.name + " has no diameter.",
                                {"document:/ride/shell_wheels/" + std::to_string(i) + "/diameter"},
                                "Measure it and type it in.",
                                {}});
    }
}

} // namespace

bool isGround(const std::string& kind) {
    return kind == "ramp" || kind == "kerb_ramp" || kind == "threshold" || kind == "step" || kind == "hump" ||
           kind == "ground";
}

std::vector<std::string> neededSizes(const std::string& kind) {
    if (kind == "door" || kind == "gate" || kind == "path" || kind == "corner") return {"width"};
    if (kind == "hatch") return {"width", "height"};
    if (kind == "bed") return {"width", "length"};
    if (kind == "turning_circle") return {"diameter"};
    if (kind == "t_turn") return {"width", "length"};
    if (kind == "ramp" || kind == "kerb_ramp") return {"slope", "rise"};
    if (kind == "threshold" || kind == "step") return {"rise"};
    if (kind == "hump") return {"length", "rise"};
    return {};
}

RideFigures resolveRide(const Project& project, const Scope& scope, const Chassis& chassis,
                        std::vector<Finding>& findings) {
    const Ride& ride = project.ride;
    Reading read(scope, "/ride", "Ride", findings);
    RideFigures out;
    out.slope = read.slope("slope", ride.slope, 1.0 / 12, 1, "slope");
    out.crossSlope = read.slope("cross_slope", ride.cross_slope, 1.0 / 48, 1, "cross slope");
    out.speed = read.number("speed", ride.speed, chassis.speed / kmh, 0, 50, "speed, km/h") * kmh;
    out.radius = read.length("radius", ride.radius, "turn radius");
    out.wind = read.number("wind", ride.wind, usualWind, 0, 200, "wind, km/h") * kmh;
    out.friction = read.number("friction", ride.friction, out.friction, 0.01, 2, "friction");
    out.reaction = read.number("reaction", ride.reaction, 1, 0, 10, "reaction, s");
    out.braking = read.number("braking", ride.braking, 1, 0.05, 10, "braking, m/s²") * 1000;
    if (!ride.sees.empty()) out.sees = read.length("sees", ride.sees, "sees ground from");
    out.field =
        read.value("field", ride.field, Kind::angle, usualField * degree, 0, 180 * degree, "open view");
    out.loadShare = read.number("load_share", ride.load_share, out.loadShare, 0.01, 1, "load share");
    out.adhesive =
        read.number("adhesive", ride.adhesive, usualAdhesive, 0, 2000, "adhesive, g a metre") / 1000;
    for (std::size_t i = 0; i < ride.ballast.size(); ++i) {
        const Ballast& b = ride.ballast[i];
        Reading one(scope, "/ride/ballast/" + std::to_string(i), "Ballast " + b.name, findings);
        RideFigures::Weight w{
            b.name, one.number("mass", b.mass.empty() ? Text("0") : b.mass, 0, 0.001, 2000, "mass, kg"),
            Vec3(one.place("x", b.x, "x"), one.place("y", b.y, "y"), one.place("z", b.z, "z"))};
        if (one.sound && w.mass > 0) out.ballast.push_back(std::move(w));
    }
    readWheels(project, scope, findings, out);
    return out;
}

std::vector<RouteFigure> resolveRoute(const Project& project, const Scope& scope,
                                      std::vector<Finding>& findings) {
    std::vector<RouteFigure> out;
    for (std::size_t i = 0; i < project.route.size(); ++i) {
        const RoutePart& part = project.route[i];
        if (part.off) continue;
        RouteFigure f;
        f.name = part.name;
        f.kind = part.kind;
        f.index = i;
        if (readPart(part, i, scope, findings, f)) out.push_back(std::move(f));
    }
    return out;
}

} // namespace slab::trial
