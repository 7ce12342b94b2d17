#include "core/board/part_edits.h"
#include "core/board/formula_text.h"
#include "core/board/opening_edits.h"
#include "core/board/outline_parts.h"
#include <algorithm>
#include <charconv>
#include <cmath>

namespace slab {

namespace {

/// A way in a view as one in the body, square to the line of sight.
Vec3 inBody(BoardView view, const Vec2& v) {
    return view == BoardView::side    ? Vec3(v.x(), 0, v.y())
           : view == BoardView::front ? Vec3(0, v.x(), v.y())
                                      : Vec3(v.x(), v.y(), 0);
}

int axisIndex(const Rib& rib) {
    return rib.axis == "y" ? 1 : rib.axis == "z" ? 2 : 0;
}

Vec3 normalOf(const Rib& rib, const Scope& scope) {
    const auto angle = [&](const Text& text) {
        const auto value = evaluate(text.empty() ? "0" : text, scope, Space::subject, Kind::angle);
        return value ? value->value : 0;
    };
    return Eigen::AngleAxisd(angle(rib.yaw), Vec3::UnitZ()) *
           (Eigen::AngleAxisd(angle(rib.pitch), Vec3::UnitY()) * Vec3::Unit(axisIndex(rib)));
}

int indexIn(const std::string& pointer, std::string_view list) {
    int index = -1;
    if (pointer.starts_with(list))
        std::from_chars(pointer.data() + list.size(), pointer.data() + pointer.size(), index);
    return index;
}

Unexpected noSuch(const std::string& pointer) {
    return fail("no-such-place", "There is nothing at " + pointer + " any more.", pointer,
                "Choose it again.");
}

Expected<Edit> moveFrame(const Project& project, const Scope& scope, int index, const Vec3& by,
                         const MoveOptions& options) {
    const Rib& rib = project.frames[static_cast<std::size_t>(index)];
    const Vec3 normal = normalOf(rib, scope);
    const double share = normal[axisIndex(rib)];
    constexpr double least = 0.05; // its plane nearly holds the axis that the station is told along
    if (std::abs(share) < least)
        return fail("not-movable", "Frame " + rib.name + " is turned along its own axis.", rib.name,
                    "Type its station and its angles.");
    auto station =
        shiftedLength(rib.station, normal.dot(by) / share, scope, Space::subject,
                      (options.exactRight || options.exactUp) && options.step > 0 ? readable : options.step);
    if (!station) return Unexpected(station.error());
    return Edit{"Move frame " + rib.name, options.gesture,
                [index, name = rib.name, text = *station](const Project& p) -> Expected<Project> {
                    const auto at = static_cast<std::size_t>(index);
                    if (at >= p.frames.size() || p.frames[at].name != name)
                        return noSuch("/frames/" + std::to_string(index));
                    Project next = p;
                    next.frames[at].station = text;
                    return next;
                }};
}

/// The plate that an opening is measured on: the first that it names.
const Plate* hostOf(const Opening& opening, const PlateSet* plates) {
    if (!plates) return nullptr;
    const auto at = std::find_if(plates->plates.begin(), plates->plates.end(),
                                 [&](const Plate& p) { return matches(opening.plate, p.name); });
    return at == plates->plates.end() ? nullptr : &*at;
}

Expected<Edit> moveOpeningSeen(const Project& project, const Scope& scope, BoardView view, int index,
                               const Vec2& delta, const PlateSet* plates, const MoveOptions& options) {
    const Opening& opening = project.openings[static_cast<std::size_t>(index)];
    if (opening.plate.empty())
        return moveOpening(project, scope, index, Plate{}, inBody(view, delta), options);
    const Plate* host = hostOf(opening, plates);
    const auto stuck = fail("not-movable",
                            "Opening " + opening.name +
                                " is measured on its plate, which is "
                                "seen edge on here.",
                            opening.name, "Move it in another elevation, or on its panel.");
    if (!host) return stuck;
    // The way in the plate that looks like this one from here.
    Eigen::Matrix2d seenAxes;
    seenAxes << seen(host->frame.axes.col(0), view), seen(host->frame.axes.col(1), view);
    constexpr double edgeOn = 0.1;
    if (std::abs(seenAxes.determinant()) < edgeOn) return stuck;
    const Vec2 flat = seenAxes.inverse() * delta;
    return moveOpening(project, scope, index, *host,
                       host->frame.axes.col(0) * flat.x() + host->frame.axes.col(1) * flat.y(), options);
}

} // namespace

std::string frameAxis(BoardView view, const Vec2& stretch) {
    const bool usual = stretch.norm() < 1e-9;
    const bool level = usual ? view == BoardView::plan : std::abs(stretch.x()) > std::abs(stretch.y());
    return axisOf(view, level ? 1 : 0);
}

Expected<Edit> addFrame(const Project& project, const Scope& scope, BoardView view, const std::string& axis,
                        const Vec2& at, double step) {
    Rib rib;
    const std::string stem = axis == "z" ? "shelf" : axis == "y" ? "rib" : "bulkhead";
    const auto taken = [&](const std::string& name) {
        return std::any_of(project.frames.begin(), project.frames.end(),
                           [&](const Rib& other) { return other.name == name; });
    };
    rib.name = stem;
    for (int n = 2; taken(rib.name); ++n) rib.name = stem + " " + std::to_string(n);
    rib.axis = axis;
    rib.station = detail::subjectText(inBody(view, at)[axisIndex(rib)], scope, step);
    const Unit unit = scope.unit == Unit::none ? Unit::mm : scope.unit;
    const bool inches = unit == Unit::in || unit == Unit::ft;
    rib.web = detail::written(inches ? 2.5 * 25.4 : 60, unit);
    rib.gap = detail::written(inches ? 25.4 / 16 : 1, unit);
    return Edit{"Add frame " + rib.name, {}, [rib](const Project& p) -> Expected<Project> {
                    Project next = p;
                    next.frames.push_back(rib);
                    return next;
                }};
}

Expected<Edit> movePart(const Project& project, const Scope& scope, BoardView view,
                        const std::string& pointer, const Vec2& delta, const PlateSet* plates,
                        const MoveOptions& options) {
    const int frame = indexIn(pointer, "/frames/"), opening = indexIn(pointer, "/openings/");
    if (frame >= 0 && frame < static_cast<int>(project.frames.size())) {
        const Rib& rib = project.frames[static_cast<std::size_t>(frame)];
        if (frameWay(rib, scope, view).isZero())
            return fail("not-movable", "Frame " + rib.name + " is seen flat here.", rib.name,
                        "Move it in another elevation.");
        return moveFrame(project, scope, frame, inBody(view, delta), options);
    }
    if (opening >= 0 && opening < static_cast<int>(project.openings.size()))
        return moveOpeningSeen(project, scope, view, opening, delta, plates, options);
    return noSuch(pointer);
}

Vec2 frameWay(const Rib& rib, const Scope& scope, BoardView view) {
    const Vec2 way = seen(normalOf(rib, scope), view);
    return way.norm() < 0.5 ? Vec2(Vec2::Zero()) : Vec2(way.normalized());
}

} // namespace slab
