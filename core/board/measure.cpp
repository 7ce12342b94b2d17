#include "core/board/measure.h"
#include "core/board/formula_text.h"
#include "core/board/moves.h"
#include "core/evaluate/stages.h"
#include "core/lines/handles.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab {

MeasuredWay measure(const Vec2& from, const Vec2& to) {
    const Vec2 way = to - from;
    MeasuredWay m{way.norm(), way.x(), way.y(), std::atan2(way.y(), way.x())};
    if (m.distance == 0) m.angle = 0;
    return m;
}

double angleAt(const Vec2& from, const Vec2& corner, const Vec2& to) {
    const Vec2 a = from - corner, b = to - corner;
    return std::abs(std::atan2(cross2(a, b), a.dot(b)));
}

std::string inWords(const MeasuredWay& m, double scale, const UnitStyle& units) {
    std::string text = printLength(m.distance, units) + " at " + printAngle(m.angle) + "; " +
                       printLength(std::abs(m.right), units) + " along, " +
                       printLength(std::abs(m.up), units) + (m.up < 0 ? " down" : " up");
    if (std::abs(scale - 1) > 1e-12) text += " (subject " + printLength(m.distance / scale, units) + ")";
    return text;
}

namespace {

Unexpected noLine() {
    return fail("no-such-place", "There is no such dimension line.", {}, "Choose the line again.");
}

const DimensionLine* lineAt(const Project& project, int line) {
    return line < 0 || line >= static_cast<int>(project.lines.size())
               ? nullptr
               : &project.lines[static_cast<std::size_t>(line)];
}

Scope scopeNow(const Project& project) {
    const auto scale = readScale(project.scale);
    return scopeOf(project, scale ? *scale : 1);
}

/// Shortest decimals of an angle (degrees) or number.
std::string plain(double value) {
    for (const double places : {1.0, 1e1, 1e2, 1e3, 1e4, 1e6, 1e8, 1e10, 1e12}) {
        const double round = std::round(value * places) / places;
        if (std::abs(round - value) <= 1e-13 * std::max(1.0, std::abs(value)))
            return printExact(round, Unit::none);
    }
    return printExact(value, Unit::none);
}

/// A driven dimension as a function: the distance when its value is so much greater.
class Driven {
public:
    Driven(const Project& project, const DimensionLine& line, std::size_t dimension)
        : m_project(project), m_line(line), m_index(dimension), m_scope(scopeNow(project)) {
        const auto value = m_scope.values.find(project.dimensions[dimension].name);
        if (value != m_scope.values.end())
            m_now = value->second;
        else
            m_broken = true;
    }

    [[nodiscard]] bool broken() const { return m_broken; }
    [[nodiscard]] const Scope& scope() const { return m_scope; }
    /// A small change of its kind to start from.
    [[nodiscard]] double nudge(double wanted) const {
        return m_now.kind == Kind::length  ? wanted
               : m_now.kind == Kind::angle ? 0.01
                                           : 0.01 * std::max(1.0, std::abs(m_now.value));
    }

    [[nodiscard]] Expected<Text> textFor(double change) const {
        const Dimension& d = m_project.dimensions[m_index];
        if (m_now.kind == Kind::length) return shiftedLength(d.value, change, m_scope, d.space);
        const bool angle = m_now.kind == Kind::angle;
        const double degrees = 180 / 3.14159265358979323846;
        const std::string unit = angle ? " deg" : "";
        const std::string was = detail::trimmed(d.value);
        if (angle ? parseAngle(was).has_value() : parseRatio(was).has_value())
            return plain((m_now.value + change) * (angle ? degrees : 1)) + unit;
        return was + (change < 0 ? " - " : " + ") + plain(std::abs(change) * (angle ? degrees : 1)) + unit;
    }

    [[nodiscard]] std::optional<double> distance(double change) const {
        const auto text = textFor(change);
        if (!text) return {};
        Project trial = m_project;
        trial.dimensions[m_index].value = *text;
        const auto value = lengthOf(trial, scopeOf(trial, m_scope.scale), m_line);
        if (!value || !std::isfinite(*value)) return {};
        return *value;
    }

private:
    const Project& m_project;
    const DimensionLine& m_line;
    std::size_t m_index;
    Scope m_scope;
    Quantity m_now;
    bool m_broken = false;
};

/// Where distance(change) = wanted. Secant steps first, which end at once where the distance is a sum; else
/// the nearest change of sign to either side, halved and cut by the secant in turn.
class Solver {
public:
    Solver(const Driven& driven, double wanted) : m_driven(driven), m_wanted(wanted) {}

    std::optional<double> run() {
        const auto now = off(0);
        if (!now) return {};
        if (secant(*now) || scan(*now)) return m_best;
        return {};
    }

private:
    static constexpr double enough = 1e-9, nice = 1e-12; ///< mm
    const Driven& m_driven;
    double m_wanted, m_best = 0, m_least = 1e300;

    std::optional<double> off(double change) {
        const auto d = m_driven.distance(change);
        if (!d) return {};
        if (std::abs(*d - m_wanted) < m_least) {
            m_least = std::abs(*d - m_wanted);
            m_best = change;
        }
        return *d - m_wanted;
    }
    [[nodiscard]] bool found() const { return m_least <= enough; }

    bool secant(double fa) {
        double a = 0, b = m_driven.nudge(-fa);
        for (int round = 0; round < 8 && m_least > nice; ++round) {
            const auto fb = off(b);
            if (!fb || std::abs(*fb) > std::abs(fa) || std::abs(*fb - fa) < 1e-300) break;
            const double next = b - *fb * (b - a) / (*fb - fa);
            a = b;
            fa = *fb;
            b = next;
        }
        return found();
    }

    bool scan(double now) {
        const double first = std::abs(m_driven.nudge(1));
        std::array<std::pair<double, double>, 2> last{std::pair(0.0, now), std::pair(0.0, now)};
        double way = first;
        for (int round = 0; round < 64; ++round, way *= 1.3)
            for (const std::size_t side : {0U, 1U}) {
                const double c = side == 0 ? way : -way;
                const auto f = off(c);
                if (!f) continue;
                if ((*f < 0) != (last[side].second < 0) && bisect(last[side], {c, *f})) return true;
                last[side] = {c, *f};
            }
        return found();
    }

    bool bisect(std::pair<double, double> a, std::pair<double, double> b) {
        for (int round = 0; round < 200 && m_least > nice; ++round) {
            const double cut = b.first - b.second * (b.first - a.first) / (b.second - a.second);
            const double c = round % 3 == 2 || !std::isfinite(cut) ? (a.first + b.first) / 2 : cut;
            const auto f = off(c);
            if (!f) break;
            ((*f < 0) == (a.second < 0) ? a : b) = {c, *f};
            if (std::abs(b.first - a.first) < 1e-15 * std::max(1.0, std::abs(a.first))) break;
        }
        return found(); // a jump from one sign to the other is no answer
    }
};

} // namespace

Expected<Edit> driveLine(const Project& project, int index, const Text& typed) {
    const DimensionLine* line = lineAt(project, index);
    if (!line) return noLine();
    const auto d = std::find_if(project.dimensions.begin(), project.dimensions.end(),
                                [&](const Dimension& o) { return o.name == line->drives; });
    if (d == project.dimensions.end())
        return fail("not-driven",
                    "The line " + line->name + " drives no dimension; it only tells the distance.", {},
                    "Choose a dimension for it to drive.");
    const auto at = static_cast<std::size_t>(d - project.dimensions.begin());
    const Driven driven(project, *line, at);
    const auto wanted = evaluate(typed, driven.scope(), Space::subject, Kind::length);
    if (!wanted) return Unexpected(wanted.error());
    const auto now = lengthOf(project, driven.scope(), *line);
    if (!now) return Unexpected(now.error());
    const auto change =
        driven.broken() || wanted->value < 0 ? std::nullopt : Solver(driven, wanted->value).run();
    const auto text = change ? driven.textFor(*change) : Expected<Text>(Unexpected(Error{}));
    if (!text) {
        UnitStyle style = unitStyleOf(project.units);
        return fail("does-not-reach",
                    "No value of " + d->name + " makes this distance " +
                        printLength(wanted->value / driven.scope().scale, style) + ".",
                    {}, "Type another distance, or let the line drive a dimension that its points use.");
    }
    const std::string pointer = "/dimensions/" + std::to_string(at) + "/value";
    const std::string name = d->name;
    Edit edit;
    edit.label = "Change " + name;
    edit.apply = [pointer, text = *text, name](const Project& p) -> Expected<Project> {
        Project next = p;
        Text* field = detail::textAt(next, pointer);
        if (!field) return fail("no-such-place", "There is no dimension " + name + " any more.", pointer);
        *field = text;
        return next;
    };
    return edit;
}

namespace {

/// One coordinate of a handle as formulas: its form's place and its own field.
struct Coordinate {
    std::string pointer; ///< of the field
    Text own, place;     ///< value = place + sign * own
    double sign = 1;
    [[nodiscard]] Text whole() const { return detail::added(place, own, sign < 0); }
};

std::optional<Coordinate> coordinateOf(const Project& project, const Scope& scope, const PointRef& ref,
                                       int axis) {
    const auto where = detail::placeIn(ref.pointer);
    // Any elevation that shows the axis; the plan does not show heights.
    const auto handle = detail::handleAt(project, ref, scope, axis == 1 ? BoardView::front : BoardView::side);
    if (!where || !handle) return {};
    Project& p = const_cast<Project&>(project); // only looked at
    Placement& at = p.forms[static_cast<std::size_t>(where->form)].at;
    const Text& place = axis == 0 ? at.x : axis == 1 ? at.y : at.z;
    for (const Knob& k : handle->knobs) {
        const double way = k.along[axis];
        if (std::abs(std::abs(way) - 1) > 1e-12) continue;
        Coordinate c{k.pointer, *detail::textAt(p, k.pointer), ref.handle == Handle::place ? Text{} : place,
                     way > 0 ? 1.0 : -1.0};
        const auto value = detail::lengthOf(c.whole(), scope);
        if (value && std::abs(*value - handle->place[axis]) < 1e-9) return c;
    }
    return {};
}

Expected<void> freeDimension(const Project& project, const std::string& name) {
    if (!isValidName(name))
        return fail("bad-name", "\"" + name + "\" cannot be a dimension's name.", {},
                    "Use letters, digits and underscores.");
    for (const Dimension& d : project.dimensions)
        if (d.name == name)
            return fail("duplicate-name", "There is already a dimension " + name + ".", {},
                        "Choose another name.");
    return {};
}

/// The axis that a line measures along; of one that tells the true distance the axis that it runs along.
std::string axisAlong(const DimensionLine& line, const Vec3& between, BoardView view) {
    const Vec2 way = seen(between, view);
    if (!line.along.empty()) return line.along;
    if (std::abs(way.y()) < 1e-9) return axisOf(view, 0);
    return std::abs(way.x()) < 1e-9 ? axisOf(view, 1) : std::string();
}

} // namespace

Expected<Edit> makeDriving(const Project& project, const Scope& scope, int index, const std::string& name) {
    const DimensionLine* line = lineAt(project, index);
    if (!line) return noLine();
    if (const auto fine = freeDimension(project, name); !fine) return Unexpected(fine.error());
    const auto from = refNamed(project, line->from), to = refNamed(project, line->to);
    if (!from) return Unexpected(from.error());
    if (!to) return Unexpected(to.error());
    const auto a = pointNamed(project, scope, line->from), b = pointNamed(project, scope, line->to);
    const auto view = parseView(line->view);
    if (!a) return Unexpected(a.error());
    if (!b) return Unexpected(b.error());
    if (!view) return Unexpected(view.error());
    const std::string along = axisAlong(*line, *b - *a, *view);
    if (along != "x" && along != "y" && along != "z")
        return fail("needs-axis", "A slanting line cannot become a dimension of its own.", {},
                    "Measure along one axis, or let the line drive a dimension that its points use.");
    const int axis = along[0] - 'x';
    const auto first = coordinateOf(project, scope, *from, axis),
               second = coordinateOf(project, scope, *to, axis);
    if (!first || !second || first->pointer == second->pointer)
        return fail("not-movable", "The second point has no coordinate of its own along " + along + ".", {},
                    "Choose a point of a form that is not turned.");
    const double distance = (*b)[axis] - (*a)[axis];
    const auto unit = parseUnit(project.units);
    Dimension d;
    d.name = name;
    d.value = detail::written(std::abs(distance) / scope.scale, unit ? *unit : Unit::mm);
    if (distance == 0) d.value = "0 " + std::string(unitName(unit ? *unit : Unit::mm));
    d.space = Space::subject;
    const bool sameForm = detail::placeIn(from->pointer)->form == detail::placeIn(to->pointer)->form &&
                          first->place == second->place && first->sign == second->sign;
    const bool minus = (distance < 0) != (sameForm && first->sign < 0);
    Text text = detail::added(sameForm ? first->own : first->whole(), name, minus);
    if (!sameForm) {
        text = detail::added(text, second->place, true);
        if (second->sign < 0) text = detail::negated(text);
    }
    Edit edit;
    edit.label = "Make " + name + " a dimension";
    edit.apply = [d, text, pointer = second->pointer, index](const Project& p) -> Expected<Project> {
        Project next = p;
        Text* field = detail::textAt(next, pointer);
        if (!field || index >= static_cast<int>(next.lines.size()))
            return fail("no-such-place", "There is nothing at " + pointer + " any more.", pointer);
        *field = text;
        next.dimensions.push_back(d);
        next.lines[static_cast<std::size_t>(index)].drives = d.name;
        return next;
    };
    const auto trial = edit.apply(project);
    const auto moved = trial ? pointNamed(*trial, scopeOf(*trial, scope.scale), line->to)
                             : Expected<Vec3>(Unexpected(trial.error()));
    if (!moved || (*moved - *b).norm() > 1e-9)
        return fail("not-movable", "The second point would not stay where it is.", {},
                    "Type its formula by hand.");
    return edit;
}

Edit addLine(const Project& project, BoardView view, const PointRef& from, const PointRef& to,
             const std::string& along) {
    DimensionLine line;
    line.view = viewName(view);
    line.from = lineName(project, from);
    line.to = lineName(project, to);
    line.along = along;
    Edit edit;
    edit.label = "Add dimension line";
    edit.apply = [line](const Project& p) -> Expected<Project> {
        Project next = p;
        DimensionLine added = line;
        for (int n = 1;; ++n) {
            added.name = "line " + std::to_string(n);
            if (std::none_of(p.lines.begin(), p.lines.end(),
                             [&](const DimensionLine& l) { return l.name == added.name; }))
                break;
        }
        next.lines.push_back(std::move(added));
        return next;
    };
    return edit;
}

} // namespace slab
