// Starts of what runs under and beside the body: floating linkages and belts.
#include "core/board/formula_text.h"
#include "core/board/mechanism_figures.h"
#include "core/board/outline_parts.h"
#include "core/fit/floating.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::detail {

namespace {

constexpr double degree = std::numbers::pi / 180;

double readBuild(const StartFigures& f, const Text& text, Kind kind) {
    const auto value = evaluate(text.empty() ? "0" : text, f.scope, Space::build, kind);
    return value ? value->value : 0;
}

/// The linkages that are there, as figures.
std::vector<FloatJoint> jointsOf(const StartFigures& f) {
    std::vector<FloatJoint> out;
    for (const Linkage& l : f.project.mechanisms.linkages) {
        if (l.off) continue;
        FloatJoint j;
        j.name = l.name;
        j.hinge = l.joint != "pin_slot";
        j.at = {readBuild(f, l.at.x, Kind::length), readBuild(f, l.at.y, Kind::length),
                readBuild(f, l.at.z, Kind::length)};
        j.up = j.hinge ? 0 : readBuild(f, l.up, Kind::length);
        j.down = j.hinge ? 0 : readBuild(f, l.down, Kind::length);
        if (j.hinge || !l.pitch_up.empty() || !l.pitch_down.empty()) {
            j.noseUp = readBuild(f, l.pitch_up, Kind::angle);
            j.noseDown = readBuild(f, l.pitch_down, Kind::angle);
        }
        out.push_back(std::move(j));
    }
    return out;
}

double lowestIn(const Evaluation& e, const Pose& pose) {
    double low = 1e300;
    for (const Plate& plate : e.plates->plates)
        for (const Vec3& p : plate.solid.vertices) low = std::min(low, pose(p).z());
    return low;
}

/// Nothing comes nearer to donor, rider and ground than is wanted, or than it is at rest.
bool floatsFreely(const StartFigures& f, const std::vector<FloatJoint>& joints) {
    const FloatRange range = floatRange(joints);
    const double ground = std::min(0.0, lowestIn(f.e, Pose{}));
    for (const FloatPose& pose : range.poses)
        if (lowestIn(f.e, pose.shell) < ground - 0.1) return false;
    if (!f.e.fit || !f.e.donor || f.e.donor->solids.empty()) return true;
    const FloatFit afloat =
        floatFit(*f.e.fit, f.e.donor->solids, *f.e.plates, range.poses, {joints.back().name}, f.e.units);
    return afloat.leastMargin >= std::min(0.0, f.e.fit->leastMargin) - 1e-6;
}

Text degrees(double angle) {
    return printExact(angle, Unit::none) + " deg";
}

/// Sheets bend round wheels of so many thicknesses (as belts are checked; from memory).
double leastDiameter(const std::string& kind, double thickness) {
    return 2 * thickness * (kind == "plywood" || kind == "hardboard" ? 50 : kind == "foam" ? 15 : 0);
}

/// A sheet that bends round the smallest wheel: a card first; empty = none.
std::string bendable(const StartFigures& f, double diameter) {
    std::string found;
    for (const SheetStock& sheet : f.project.stock.sheets) {
        const Sheet* figures = f.e.stock ? f.e.stock->find(sheet.name) : nullptr;
        if (!figures) continue;
        if (sheet.kind == "card") return sheet.name;
        if (found.empty() && leastDiameter(sheet.kind, figures->thickness) < diameter) found = sheet.name;
    }
    return found;
}

SheetStock cardSheet(const Project& project) {
    const auto& ideas = sheetIdeas();
    const auto idea =
        std::find_if(ideas.begin(), ideas.end(), [](const SheetIdea& i) { return i.kind == "card"; });
    SheetStock sheet;
    sheet.name = freshIn(project.stock.sheets, idea->name);
    sheet.kind = idea->kind;
    sheet.width = idea->width;
    sheet.length = idea->length;
    sheet.thickness = idea->thickness;
    sheet.density = idea->density;
    return sheet;
}

const RoundPart* roundNamed(const Body& body, const std::string& name) {
    for (const RoundPart& part : body.rounds)
        if (part.name == name || part.name == name + " port") return &part;
    return nullptr;
}

/// Round forms as wheels, by their own formulas, so that the belt follows them.
Expected<Belt> roundWheels(const StartFigures& f, double& least) {
    Belt belt;
    belt.mirror = true;
    double low = -1e300, high = 1e300;
    least = 1e300;
    for (const Form& form : f.project.forms) {
        const auto chosen = [&](const std::string& name) {
            return name == form.name || name == form.name + " port" || name == form.name + " starboard";
        };
        if (std::none_of(f.start.wheels.begin(), f.start.wheels.end(), chosen)) continue;
        const auto* shape = std::get_if<RoundShape>(&form.shape);
        const RoundPart* part = shape ? roundNamed(*f.e.body, form.name) : nullptr;
        if (!part || std::abs((part->top - part->base).normalized().y()) < 0.9999)
            return fail("not-a-wheel", form.name + " is no round form that lies across.", form.name,
                        "Choose round forms whose axles lie across the body.");
        const auto zero = [](const Text& text) { return text.empty() ? Text("0") : text; };
        belt.wheels.push_back({form.name, zero(form.at.x), zero(form.at.z), shape->diameter, {}});
        low = std::max(low, std::min(part->base.y(), part->top.y()));
        high = std::min(high, std::max(part->base.y(), part->top.y()));
        least = std::min(least, 2 * part->radius);
        belt.mirror = belt.mirror && form.mirror;
    }
    if (belt.wheels.size() < 2)
        return fail("one-wheel", "A belt runs round two wheels at least.", {},
                    "Choose the other wheels too, with Shift; or none, for two at the ends of the body.");
    if (high - low < 1)
        return fail("not-a-wheel", "The wheels stand beside each other, not in one line.",
                    belt.wheels.front().name, "Choose wheels on one side of the body.");
    belt.at.y = subjectText((low + high) / 2, f.scope);
    belt.width = subjectText(high - low, f.scope);
    return belt;
}

/// Two wheels on the ground at the ends of the body, beside the side that was pointed at.
Belt alongSide(const StartFigures& f, double& least) {
    Box3 box = f.e.body->bounds;
    for (const Plate& plate : f.e.plates->plates)
        for (const Vec3& p : plate.solid.vertices) box = united(box, {p, p});
    const double side = f.start.spot.at.y() < -1 ? -1 : 1;
    const double width = std::clamp(0.15 * box.size().y(), 40.0, 250.0), beside = 20, under = 20;
    const double diameter = std::clamp(0.35 * box.max.z(), 60.0, 0.45 * box.size().x());
    Belt belt;
    belt.width = f.length(width);
    const double half = std::max(box.max.y(), -box.min.y());
    belt.at.y = subjectText(side * (half + beside + width / 2), f.scope, 1);
    const double height = f.rounded(diameter / f.scope.scale) * f.scope.scale; // as it is written
    least = height;
    const Text z = subjectText(height / 2 + under, f.scope, 1);
    for (const auto& [name, x] : {std::pair("front wheel", box.max.x() - diameter / 2),
                                  std::pair("rear wheel", box.min.x() + diameter / 2)})
        belt.wheels.push_back({name, subjectText(x, f.scope, 1), z, f.length(diameter), {}});
    belt.pitch = f.length(std::max(40.0, diameter / 4));
    belt.moves = "rear wheel";
    return belt;
}

} // namespace

Expected<Edit> newLinkage(const StartFigures& f) {
    const Unit unit = f.scope.unit == Unit::none ? Unit::mm : f.scope.unit;
    const auto at = [&](double mm) { return written(f.rounded(std::abs(mm)) * (mm < 0 ? -1 : 1), unit); };
    std::vector<FloatJoint> joints = jointsOf(f);
    const bool hinged =
        std::any_of(joints.begin(), joints.end(), [](const FloatJoint& j) { return j.hinge; });
    Linkage l;
    l.name = freshMechanism(f.project, hinged ? "pin" : "hinge");
    l.joint = hinged ? "pin_slot" : "hinge";
    l.at.x = at(f.start.spot.at.x());
    l.at.z = at(f.start.spot.at.z());
    l.pin = f.size(10);
    const Vec3 place(readBuild(f, l.at.x, Kind::length), 0, readBuild(f, l.at.z, Kind::length));
    if (hinged) { // as much travel as the hinge asks of it there
        double up = 0, down = 0;
        for (const FloatPose& pose : floatRange(joints).poses) {
            up = std::max(up, riseAt(pose, place));
            down = std::max(down, -riseAt(pose, place));
        }
        l.up = f.size(std::ceil(up) + 10);
        l.down = f.size(std::ceil(down) + 10);
    } else {
        double free = 0.5;
        for (const double pitch : {5.0, 4.0, 3.0, 2.0, 1.5, 1.0}) {
            if (f.start.quick) break;
            joints.push_back({l.name, true, place, 0, 0, pitch * degree, pitch * degree});
            const bool goes = floatsFreely(f, joints);
            joints.pop_back();
            if (!goes) continue;
            free = pitch;
            break;
        }
        l.pitch_up = l.pitch_down = degrees(free);
    }
    return f.put(l.name, [l](Project& p) { p.mechanisms.linkages.push_back(l); });
}

Expected<Edit> newBelt(const StartFigures& f) {
    double least = 0; // diameter of the smallest wheel, mm
    Belt belt;
    if (f.start.wheels.empty()) {
        belt = alongSide(f, least);
    } else {
        auto round = roundWheels(f, least);
        if (!round) return Unexpected(round.error());
        belt = std::move(*round);
    }
    belt.name = freshMechanism(f.project, "belt");
    belt.overlap = f.size(50);
    belt.stock = bendable(f, least);
    std::vector<SheetStock> more;
    if (belt.stock.empty()) {
        more.push_back(cardSheet(f.project));
        belt.stock = more.front().name;
    }
    return f.put(belt.name, [belt, more](Project& p) {
        p.stock.sheets.insert(p.stock.sheets.end(), more.begin(), more.end());
        p.mechanisms.belts.push_back(belt);
    });
}

} // namespace slab::detail
