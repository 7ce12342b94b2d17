// Openings from the document as figures, and where they lie on a plate laid flat.
#include "core/plates/openings.h"
#include "core/geometry/segment.h"
#include "core/plates/cuts.h"
#include "core/plates/facets.h"
#include "core/plates/margins.h"
#include "core/plates/outline.h"
#include "core/units/units.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

/// One value of an opening; reports what cannot be read and gives `fallback`.
struct Reader {
    const Scope& scope;
    std::vector<Finding>& findings;
    const std::string& opening;
    bool failed = false;

    double operator()(const Text& text, Space space, Kind kind, double fallback) {
        if (text.empty()) return fallback;
        const auto value = evaluate(text, scope, space, kind);
        if (value) return value->value;
        failed = true;
        Finding f = findingOf(value.error(), Severity::stop, {"opening:" + opening});
        f.message = "Opening " + opening + ": " + f.message;
        findings.push_back(std::move(f));
        return fallback;
    }

    /// A corner's radius, from 0 to half of the smaller side.
    double radius(double value, double most) {
        if (value >= 0 && value <= most + 1e-9) return std::min(value, most);
        UnitStyle words;
        words.unit = scope.unit;
        const auto tell = [&](const char* code, const std::string& what, const std::string& remedy) {
            findings.push_back(
                {Severity::look,
                 code,
                 "Opening " + opening + ": its corner radius of " + printFine(value, words) + what,
                 {"opening:" + opening},
                 remedy,
                 {}});
        };
        if (value < 0)
            tell("size-below-zero", " is below zero; 0 is used", "Type 0 or the true radius.");
        else
            tell("corner-radius",
                 " is more than half of its smaller side; " + printFine(most, words) + " is used",
                 "Make the radius half of the smaller side or less, or make it a slot.");
        return std::clamp(value, 0.0, most);
    }
};

bool readDirection(const std::string& text, Vec3& direction) {
    if (text.empty() || text.size() > 2) return false;
    const bool minus = text.front() == '-';
    const char axis = text.back();
    if ((text.size() == 2 && !minus && text.front() != '+') || axis < 'x' || axis > 'z') return false;
    direction = Vec3::Zero();
    direction[axis - 'x'] = minus ? -1 : 1;
    return true;
}

Ring openingOutline(const Opening& o, Reader& read, double& circle) {
    const double none = 0;
    switch (o.shape) {
    case OpeningShape::circle:
        circle = read(o.diameter, Space::build, Kind::length, none);
        return circle > 0 ? plates::circleRing(circle / 2) : Ring{};
    case OpeningShape::polygon: {
        Ring ring;
        for (const auto& p : o.outline)
            ring.emplace_back(read(p.x, Space::build, Kind::length, none),
                              read(p.y, Space::build, Kind::length, none));
        if (ring.size() < 3 || !isSimple(ring)) return {};
        return signedArea(ring) < 0 ? reversed(std::move(ring)) : ring;
    }
    case OpeningShape::slot:
    case OpeningShape::rectangle: {
        const double w = read(o.width, Space::build, Kind::length, none);
        const double h = read(o.height, Space::build, Kind::length, none);
        double r = o.shape == OpeningShape::slot ? std::min(w, h) / 2
                                                 : read(o.corner_radius, Space::build, Kind::length, none);
        if (w > 0 && h > 0) r = read.radius(r, std::min(w, h) / 2);
        return w > 0 && h > 0 ? plates::roundedRing(w, h, r) : Ring{};
    }
    }
    return {};
}

} // namespace

bool readOpening(const Opening& o, const Scope& scope, std::vector<Finding>& findings, ResolvedOpening& out) {
    Reader read{scope, findings, o.name};
    out.name = o.name;
    out.plate = o.plate;
    out.plates = o.plates;
    out.parallelWalls = o.parallel_walls;
    out.at = {read(o.u, Space::subject, Kind::length, 0), read(o.v, Space::subject, Kind::length, 0)};
    out.origin = {read(o.x, Space::subject, Kind::length, 0), read(o.y, Space::subject, Kind::length, 0),
                  read(o.z, Space::subject, Kind::length, 0)};
    const auto refuse = [&](const char* code, const std::string& what, const char* remedy) {
        findings.push_back(
            {Severity::stop, code, "Opening " + o.name + " " + what, {"opening:" + o.name}, remedy, {}});
        return false;
    };
    if (o.plate.empty() && !readDirection(o.direction, out.direction))
        return refuse("opening-no-host", "has neither a plate nor a direction",
                      "Name the plate it is cut in, or give a direction such as \"x\" or \"-z\".");
    out.outline = openingOutline(o, read, out.circle);
    const double turn = read(o.turn, Space::build, Kind::angle, 0);
    if (read.failed) return false;
    if (out.outline.empty())
        return refuse("opening-no-size", "has no size: its outline is empty or crosses itself",
                      "Give it a width and height, a diameter, or a simple outline.");
    const double c = std::cos(turn), s = std::sin(turn);
    for (Vec2& p : out.outline) p = Vec2(c * p.x() - s * p.y(), s * p.x() + c * p.y());
    return true;
}

namespace {

/// Within 10° of the plate a square prism does not show there as a hole of its own.
constexpr double grazing = 0.17;

bool isMeant(const std::string& pattern, const Plate& plate, const Body& body) {
    if (matches(pattern, plate.name)) return true;
    if (plate.face < 0 || plate.face >= static_cast<int>(body.skin.faces.size())) return false;
    const auto& aliases = body.skin.faces[static_cast<std::size_t>(plate.face)].aliases;
    return std::any_of(aliases.begin(), aliases.end(),
                       [&](const std::string& alias) { return matches(pattern, alias); });
}

/// Where a line through a point crosses the outer face; nothing if it runs along the plate.
std::optional<Vec2> crossing(const Vec3& point, const Vec3& direction, const Plate& plate) {
    const Vec3 w = plate.frame.axes.col(2);
    const double slope = w.dot(direction);
    if (std::abs(slope) < grazing) return std::nullopt;
    const double along = w.dot(plate.frame.origin - point) / slope;
    return plate.frame.toPlane(point + direction * along);
}

std::optional<FlatOpening> flatOf(const ResolvedOpening& o, const Plate& plate, const Body& body) {
    FlatOpening out;
    out.name = o.name;
    if (!o.plate.empty()) {
        if (!isMeant(o.plate, plate, body)) return std::nullopt;
        out.hosted = true;
        out.at = plateMiddle(plate) + o.at;
        for (const Vec2& p : o.outline) out.outline.push_back(out.at + p);
        return out;
    }
    if (!o.plates.empty() && std::none_of(o.plates.begin(), o.plates.end(), [&](const std::string& pattern) {
            return isMeant(pattern, plate, body);
        }))
        return std::nullopt;
    const auto at = crossing(o.origin, o.direction, plate);
    if (!at) return std::nullopt;
    out.at = *at;
    const Frame view = plates::panelFrame(o.direction, {});
    for (const Vec2& p : o.outline)
        out.outline.push_back(
            *crossing(o.origin + view.axes.col(0) * p.x() + view.axes.col(1) * p.y(), o.direction, plate));
    if (signedArea(out.outline) < 0) std::reverse(out.outline.begin(), out.outline.end());
    return out;
}

constexpr double slack = 0.05; ///< mm, between an opening's border and the outline that it notches

bool apart(const Box2& a, const Box2& b) {
    return (a.min.array() > b.max.array() + slack).any() || (b.min.array() > a.max.array() + slack).any();
}

/// An opening over the plate's edge is no hole: its border is a part of the outline, with nothing of the
/// plate left in it.
bool isNotchedBy(const Ring& outline, const Ring& opening) {
    constexpr double shortest = 1; // mm
    const auto borders = [&](const Vec2& p) {
        for (std::size_t i = 0; i < opening.size(); ++i)
            if (toSegment(p, opening[i], opening[(i + 1) % opening.size()]) < slack) return true;
        return false;
    };
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec2 &a = outline[i], &b = outline[(i + 1) % outline.size()];
        if ((b - a).norm() > shortest && borders(a) && borders(b) && borders((a + b) / 2)) return true;
    }
    return false;
}

} // namespace

bool takesOpenings(const Plate& plate, const Body& body) {
    return plate.face >= 0 || std::any_of(body.plates.begin(), body.plates.end(),
                                          [&](const FreePlate& p) { return p.name == plate.name; });
}

Vec2 plateMiddle(const Plate& plate) {
    const Box2 box = bounds(plate.boundary.outer);
    return (box.min + box.max) / 2;
}

std::vector<NumberedOpening> readOpenings(const Project& project, const Scope& scope) {
    std::vector<NumberedOpening> out;
    std::vector<Finding> told; // by the pipeline
    for (std::size_t i = 0; i < project.openings.size(); ++i) {
        ResolvedOpening figures;
        if (readOpening(project.openings[i], scope, told, figures))
            out.push_back({static_cast<int>(i), std::move(figures)});
    }
    return out;
}

std::vector<FlatOpening> openingsOn(const Plate& plate, const Body& body,
                                    const std::vector<NumberedOpening>& openings) {
    std::vector<FlatOpening> out;
    const Ring& outline = plate.boundary.outer;
    if (outline.size() < 3 || !takesOpenings(plate, body)) return out;
    const Box2 whole = bounds(outline);
    for (const auto& [index, figures] : openings) {
        auto flat = flatOf(figures, plate, body);
        if (!flat || apart(whole, bounds(flat->outline))) continue;
        if (intersect({{flat->outline, {}}}, {{outline, {}}}).empty() && !isNotchedBy(outline, flat->outline))
            continue;
        flat->index = index;
        out.push_back(std::move(*flat));
    }
    return out;
}

std::vector<FlatOpening> openingsOn(const Plate& plate, const Body& body, const Project& project,
                                    const Scope& scope) {
    return openingsOn(plate, body, readOpenings(project, scope));
}

EdgeRoom edgeRoom(const Plate& plate, const Sheet* sheet, const Ring& outline, const std::string& opening) {
    EdgeRoom room;
    room.wanted = leastWeb(sheet, plate.thickness, leastWidth(outline));
    const Ring& edge = plate.boundary.outer;
    if (edge.size() < 3 || outline.size() < 3) return room;
    room.through = !subtract({{outline, {}}}, {{edge, {}}}).empty();
    room.left = room.through ? 0 : plates::ringDistance(outline, edge);
    for (const PanelLoop& hole : plate.holes) {
        if (hole.opening.empty() || hole.opening == opening || hole.outer.size() < 3) continue;
        const double there = plates::ringDistance(outline, hole.outer);
        if (there >= room.left && !room.through) continue;
        if (room.through && there >= room.wanted) continue;
        room.left = there;
        room.other = hole.opening;
    }
    return room;
}

} // namespace slab
