#include "core/board/opening_edits.h"
#include "core/board/formula_text.h"
#include "core/board/outline_parts.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

bool hasInches(const Project& project) {
    return project.units == "in" || project.units == "ft";
}

Text sizeText(double mm, const Project& project, const Scope& scope) {
    return detail::written(mm,
                           scope.unit == Unit::none ? hasInches(project) ? Unit::in : Unit::mm : scope.unit);
}

/// The body axis nearest to a plate's outside: "x", "-y".
std::string axisAlong(const Vec3& normal, int& axis) {
    normal.cwiseAbs().maxCoeff(&axis);
    return std::string(normal[axis] < 0 ? "-" : "") + "xyz"[axis];
}

/// The fields that say where an opening is, and how far each goes.
std::vector<std::pair<Text Opening::*, double>> wayOf(const Opening& o, const Plate& plate, const Vec3& by) {
    if (!o.plate.empty())
        return {{&Opening::u, plate.frame.axes.col(0).dot(by)},
                {&Opening::v, plate.frame.axes.col(1).dot(by)}};
    std::vector<std::pair<Text Opening::*, double>> out;
    const std::array<Text Opening::*, 3> fields{&Opening::x, &Opening::y, &Opening::z};
    // Along its direction it may stand anywhere.
    const char along = o.direction.empty() ? ' ' : o.direction.back();
    for (int i = 0; i < 3; ++i)
        if ("xyz"[i] != along) out.emplace_back(fields[static_cast<std::size_t>(i)], by[i]);
    return out;
}

} // namespace

const std::vector<OpeningKind>& openingKinds() {
    // Sizes as common practice: a person needs about 600 mm, a hand 120 by 40.
    static const std::vector<OpeningKind> kinds{
        {"hatch",
         "A way out: what is cut out lifts off as a hatch, a lap strip behind its edge carries it.",
         "exit",
         OpeningShape::rectangle,
         {600, 600},
         {24, 24},
         50,
         true},
        {"slit", "To look through.", "sight_slit", OpeningShape::rectangle, {400, 120}, {16, 5}, 25, false},
        {"hand hole",
         "To lift and carry by.",
         "hand_hole",
         OpeningShape::slot,
         {120, 40},
         {5, 1.5},
         0,
         false},
        {"wheel arch",
         "Round a wheel; over the plate's edge it opens downwards.",
         "wheel_arch",
         OpeningShape::circle,
         {400, 400},
         {16, 16},
         0,
         false},
        {"light", "For a lamp.", "light", OpeningShape::circle, {100, 100}, {4, 4}, 0, false}};
    return kinds;
}

Vec2 openingSize(const Project& project, const OpeningKind& kind, const Plate& plate) {
    const bool inches = hasInches(project);
    const double unit = inches ? 25.4 : 1, round = inches ? 25.4 / 4 : 5;
    Vec2 size = Vec2(kind.metric[0], kind.metric[1]);
    if (inches) size = Vec2(kind.inches[0], kind.inches[1]) * unit;
    constexpr double most = 0.7; // of the plate's room in that direction
    const Vec2 room = bounds(plate.boundary.outer).size() * most;
    const auto fitted = [&](double wanted, double there) {
        return wanted <= there ? wanted : std::max(round, std::floor(there / round) * round);
    };
    if (kind.shape == OpeningShape::circle && kind.purpose != "wheel_arch")
        return Vec2::Constant(fitted(size.x(), room.minCoeff()));
    if (kind.shape == OpeningShape::circle) return Vec2::Constant(fitted(size.x(), room.maxCoeff()));
    return {fitted(size.x(), room.x()), fitted(size.y(), room.y())};
}

std::string openingName(const Project& project, const OpeningKind& kind) {
    const auto taken = [&](const std::string& name) {
        return std::any_of(project.openings.begin(), project.openings.end(),
                           [&](const Opening& o) { return o.name == name; });
    };
    std::string name = kind.key;
    for (int n = 2; taken(name); ++n) name = kind.key + " " + std::to_string(n);
    return name;
}

Expected<Edit> addOpening(const Project& project, const Scope& scope, const OpeningKind& kind,
                          const Plate& plate, const Vec2& at, OpeningPlace place, double step) {
    if (plate.boundary.outer.size() < 3)
        return fail("not-cuttable", "Nothing is cut from a sheet for " + plate.name + ".", plate.name,
                    "Choose a plate of the body.");
    Opening o;
    o.name = openingName(project, kind);
    o.shape = kind.shape;
    o.purpose = kind.purpose;
    const Vec2 size = openingSize(project, kind, plate);
    if (kind.shape == OpeningShape::circle)
        o.diameter = sizeText(size.x(), project, scope);
    else {
        o.width = sizeText(size.x(), project, scope);
        o.height = sizeText(size.y(), project, scope);
    }
    const double inch = hasInches(project) ? 25.4 / 25 : 1;
    if (kind.radius > 0)
        o.corner_radius = sizeText(std::min(kind.radius * inch, size.minCoeff() / 4), project, scope);
    if (kind.lid) {
        o.lid = true;
        o.lid_gap = sizeText(hasInches(project) ? 25.4 / 16 : 2, project, scope);
        o.lap = sizeText(hasInches(project) ? 63.5 : 60, project, scope);
    }
    if (place == OpeningPlace::flat) {
        const Vec2 from = at - plateMiddle(plate);
        o.plate = plate.name;
        o.u = detail::subjectText(from.x(), scope, step);
        o.v = detail::subjectText(from.y(), scope, step);
    } else {
        const Vec3 point = plate.frame.toBody(at);
        int axis = 0;
        o.direction = axisAlong(plate.frame.axes.col(2), axis);
        o.plates = {plate.name};
        const std::array<Text Opening::*, 3> fields{&Opening::x, &Opening::y, &Opening::z};
        for (int i = 0; i < 3; ++i)
            o.*fields[static_cast<std::size_t>(i)] = detail::subjectText(point[i], scope, step);
    }
    return Edit{"Add " + o.name + " in " + plate.name, {}, [o](const Project& p) -> Expected<Project> {
                    Project next = p;
                    next.openings.push_back(o);
                    return next;
                }};
}

Expected<Edit> moveOpening(const Project& project, const Scope& scope, int index, const Plate& plate,
                           const Vec3& by, const MoveOptions& options) {
    const auto none = fail("no-such-place", "That opening is not in the document any more.",
                           "/openings/" + std::to_string(index), "Choose it again.");
    if (index < 0 || index >= static_cast<int>(project.openings.size())) return none;
    const Opening& o = project.openings[static_cast<std::size_t>(index)];
    std::vector<std::pair<Text Opening::*, Text>> texts;
    for (const auto& [field, change] : wayOf(o, plate, by)) {
        auto text = shiftedLength(o.*field, std::abs(change) < 1e-9 ? 0 : change, scope, Space::subject,
                                  options.step);
        if (!text) return Unexpected(text.error());
        texts.emplace_back(field, std::move(*text));
    }
    return Edit{"Move opening " + o.name, options.gesture,
                [texts, name = o.name](const Project& p) -> Expected<Project> {
                    Project next = p;
                    const auto at = std::find_if(next.openings.begin(), next.openings.end(),
                                                 [&](const Opening& one) { return one.name == name; });
                    if (at == next.openings.end())
                        return fail("no-such-place", "There is no opening " + name + " any more.", name,
                                    "Choose it again.");
                    for (const auto& [field, text] : texts) *at.*field = text;
                    return next;
                }};
}

} // namespace slab
