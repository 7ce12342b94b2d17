#include "core/trial/examples.h"
#include "core/route/accessibility.h"
#include "core/units/units.h"
#include <algorithm>
#include <cctype>
#include <cmath>

namespace slab::trial {

namespace {

constexpr const char* measured = "Measure your own.";

double figure(const char* id) {
    const auto found = route::accessFigure(id);
    return found ? found->value : 0;
}

/// As the standard prints it.
std::string inches(const char* id) {
    return printExact(figure(id), Unit::in);
}
std::string millimetres(const char* id) {
    return printExact(figure(id), Unit::mm);
}
std::string slope(const char* id) {
    return "1/" + std::to_string(std::lround(1 / figure(id)));
}

RoutePart partOf(const char* name, const char* kind, const char* note) {
    RoutePart part;
    part.name = name;
    part.kind = kind;
    part.note = note;
    return part;
}

void addThrough(std::vector<RouteExample>& all) {
    RoutePart door = partOf("door", "door",
                            "Width: ADA 2010 404.2.3. Height 80 in and the wall's thickness: from memory.");
    door.width = inches("door-width");
    door.height = "80 in";
    door.thickness = "120 mm";
    all.push_back({"Door, 32 in clear", "ADA 2010 404.2.3", door});
    RoutePart path = partOf("path", "path", "ADA 2010 403.5.1");
    path.width = inches("route-width");
    all.push_back({"Path, 36 in wide", "ADA 2010 403.5.1", path});
    RoutePart circle = partOf("turning circle", "turning_circle", "ADA 2010 304.3.1");
    circle.diameter = inches("turning-circle");
    all.push_back({"Turning circle, 60 in", "ADA 2010 304.3.1", circle});
    RoutePart tee = partOf("T-turn", "t_turn", "ADA 2010 304.3.2");
    tee.width = inches("t-turn-width");
    tee.length = inches("t-turn-square");
    all.push_back({"T-turn, 36 in arms", "ADA 2010 304.3.2", tee});
    for (const bool scooter : {false, true}) {
        RoutePart corner = partOf("corridor corner", "corner",
                                  "AWM 2010 (University at Buffalo): 95 % of those measured get round.");
        corner.width = corner.way_out = millimetres(scooter ? "awm-corner-scooters" : "awm-corner-chairs");
        all.push_back({scooter ? "Corridor corner for scooters, 1100 mm" : "Corridor corner, 1000 mm",
                       "AWM 2010", corner});
    }
    RoutePart floor = partOf("clear floor", "bed", "ADA 2010 305.3");
    floor.width = inches("floor-width");
    floor.length = inches("floor-length");
    all.push_back({"Clear floor, 30 × 48 in", "ADA 2010 305.3", floor});
}

void addGround(std::vector<RouteExample>& all) {
    struct Ramp {
        const char *words, *section, *slope, *rise, *note;
    };
    for (const Ramp& r : {Ramp{"Ramp 1:12, up to 30 in", "ADA 2010 405.2, 405.6", "ramp-slope", "30 in",
                               "ADA 2010 405.2 (slope), 405.6 (rise of one run)"},
                          Ramp{"Ramp 1:10, up to 6 in", "ADA 2010 405.2", "ramp-slope-6in", "6 in",
                               "ADA 2010 405.2, existing sites"},
                          Ramp{"Ramp 1:8, up to 3 in", "ADA 2010 405.2", "ramp-slope-3in", "3 in",
                               "ADA 2010 405.2, existing sites"}}) {
        RoutePart ramp = partOf("ramp", "ramp", r.note);
        ramp.slope = slope(r.slope);
        ramp.rise = r.rise;
        all.push_back({r.words, r.section, ramp});
    }
    RoutePart kerb = partOf("kerb ramp", "kerb_ramp",
                            "ADA 2010 405.2 (slope), 406.2 (gutter 1:20); kerb of 6 in: common practice");
    kerb.slope = slope("ramp-slope");
    kerb.counter = slope("counter-slope");
    kerb.rise = "6 in";
    all.push_back({"Kerb ramp with gutter", "ADA 2010 406.2", kerb});
    RoutePart sill = partOf("threshold", "threshold", "ADA 2010 404.2.5 (height), 303.2 and 303.3 (bevel)");
    sill.rise = inches("threshold");
    sill.upright = inches("threshold-upright");
    sill.slope = slope("threshold-bevel");
    all.push_back({"Threshold, ½ in", "ADA 2010 404.2.5", sill});
    for (const bool third : {false, true}) {
        RoutePart step = partOf("step", "step", third ? "US CMS group 3" : "US CMS group 2");
        step.rise = millimetres(third ? "us3-obstacle" : "us2-obstacle");
        all.push_back({third ? "Step of 60 mm" : "Step of 40 mm", step.note, step});
    }
}

void addMeasured(std::vector<RouteExample>& all) {
    RoutePart gate = partOf("garden gate", "gate", measured);
    gate.width = "900 mm";
    RoutePart hatch = partOf("van hatch", "hatch", measured);
    hatch.width = "1150 mm";
    hatch.height = "1200 mm";
    RoutePart bed = partOf("trailer bed", "bed", measured);
    bed.width = "1200 mm";
    bed.length = "2400 mm";
    bed.empty = true;
    RoutePart hump = partOf("speed hump", "hump", measured);
    hump.length = "3.7 m";
    hump.rise = "75 mm";
    RoutePart apron = partOf("driveway", "ground", measured);
    apron.stretches = {{"gutter", "300 mm", "-15 mm", {}},
                       {"apron", "1200 mm", "120 mm", {}},
                       {"drive", "2 m", "60 mm", {}}};
    for (const RoutePart& part : {gate, hatch, bed, hump, apron}) {
        std::string words = part.name;
        words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
        all.push_back({words, "", part});
    }
}

} // namespace

const std::vector<RouteExample>& routeExamples() {
    static const std::vector<RouteExample> all = [] {
        std::vector<RouteExample> out;
        addThrough(out);
        addGround(out);
        addMeasured(out);
        return out;
    }();
    return all;
}

const RouteExample& firstExample() {
    return routeExamples().front();
}

Edit addToRoute(RoutePart part) {
    const std::string label = "Add " + part.name + " to the route";
    return {label, "", [part = std::move(part)](const Project& project) -> Expected<Project> {
                Project out = project;
                RoutePart fresh = part;
                const auto taken = [&](const std::string& name) {
                    return std::any_of(out.route.begin(), out.route.end(),
                                       [&](const RoutePart& p) { return p.name == name; });
                };
                for (int n = 2; taken(fresh.name); ++n) fresh.name = part.name + " " + std::to_string(n);
                out.route.push_back(std::move(fresh));
                return out;
            }};
}

std::string kindWords(const std::string& kind) {
    if (kind == "t_turn") return "T-turn";
    std::string words = kind;
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

} // namespace slab::trial
