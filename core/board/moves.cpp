#include "core/board/moves.h"
#include "core/board/formula_text.h"
#include "core/board/moved_text.h"
#include "core/lines/handles.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab {

namespace {

constexpr double nothing = 1e-12; ///< mm

double stepFor(double step, double factor, Unit unit) {
    return step > 0 ? roundStep(step / factor, unit) : 0;
}
double rounded(double value, double step) {
    return step > 0 ? std::round(value / step) * step : value;
}

/// Field by field: how far its value is to change at build size.
using Changes = std::map<std::string, detail::Change>;

class Mover {
public:
    Mover(const Project& project, const Scope& scope, BoardView view, const MoveOptions& options)
        : m_project(project), m_scope(scope), m_view(view), m_options(options) {}

    Expected<void> add(const PointRef& ref, const Vec2& delta) {
        const auto handle = detail::handleAt(m_project, ref, m_scope, m_view);
        if (!handle) return noPoint(ref);
        const auto steps = detail::stepsFor(handle->knobs, m_view, delta);
        if (steps.empty()) return {};
        m_any = true;
        if (m_name.empty()) m_name = handle->name;
        for (const detail::KnobStep& s : steps) {
            const Vec2 way = seen(s.knob->along, m_view);
            const bool exact = (m_options.exactRight && std::abs(way.x()) > 1e-9) ||
                               (m_options.exactUp && std::abs(way.y()) > 1e-9);
            if (std::abs(s.step) > nothing)
                m_changes.try_emplace(s.knob->pointer, detail::Change{s.step, exact});
        }
        ++m_count;
        return {};
    }

    Expected<Edit> edit() {
        if (!m_any)
            return fail("not-movable", "Nothing moves these points in this elevation.", {},
                        "Move them in another elevation, or type their values.");
        std::vector<std::pair<std::string, Text>> texts;
        for (const auto& [pointer, change] : m_changes) {
            auto one = detail::movedText(m_project, m_scope, pointer, change, m_options);
            if (!one) return Unexpected(one.error());
            if (std::none_of(texts.begin(), texts.end(),
                             [&](const auto& t) { return t.first == one->first; }))
                texts.push_back(std::move(*one));
        }
        Edit edit;
        edit.label = m_count == 1 ? "Move " + m_name : "Move " + std::to_string(m_count) + " points";
        edit.merge = m_options.gesture;
        edit.apply = detail::texting(std::move(texts));
        return edit;
    }

private:
    const Project& m_project;
    const Scope& m_scope;
    BoardView m_view;
    const MoveOptions& m_options;
    Changes m_changes;
    bool m_any = false;
    int m_count = 0;
    std::string m_name;

    static Unexpected noPoint(const PointRef& ref) {
        return fail("no-such-point",
                    "There is no point at " + ref.pointer + ", or one of its formulas has no value.",
                    ref.pointer, "Correct the formula, or choose the point again.");
    }
};

} // namespace

namespace detail {

namespace {

/// The field's formula; a cone's top that follows its base begins from the base's.
Text textNow(const Project& project, const std::string& pointer) {
    Project& p = const_cast<Project&>(project); // only looked at
    Text text = *textAt(p, pointer);
    constexpr std::string_view top = "/top_diameter";
    if (text.empty() && pointer.ends_with(top))
        text = *textAt(p, pointer.substr(0, pointer.size() - top.size()) + "/diameter");
    return text;
}

} // namespace

Expected<std::pair<std::string, Text>> movedText(const Project& project, const Scope& scope,
                                                 const std::string& pointer, const Change& change,
                                                 const MoveOptions& options) {
    std::string at = pointer;
    Text text = textNow(project, at);
    Space space = change.space;
    for (int deep = 0; options.drive && deep < 32; ++deep) {
        const std::string name = trimmed(text);
        const auto d = std::find_if(project.dimensions.begin(), project.dimensions.end(),
                                    [&](const Dimension& o) { return o.name == name; });
        if (d == project.dimensions.end()) break;
        at = "/dimensions/" + std::to_string(d - project.dimensions.begin()) + "/value";
        text = d->value;
        space = d->space;
    }
    const double step = change.exact && options.step > 0 ? readable : options.step;
    auto moved = options.mirror ? mirroredLength(text, change.by, scope, space, std::min(step, 0.0))
                                : shiftedLength(text, change.by, scope, space, step);
    if (!moved) {
        Error e = moved.error();
        e.where = at;
        return Unexpected(std::move(e));
    }
    return std::pair{at, std::move(*moved)};
}

std::function<Expected<Project>(const Project&)> texting(std::vector<std::pair<std::string, Text>> texts) {
    return [texts = std::move(texts)](const Project& p) -> Expected<Project> {
        Project next = p;
        for (const auto& [pointer, text] : texts) {
            Text* field = textAt(next, pointer);
            if (!field)
                return fail("no-such-place", "There is nothing at " + pointer + " any more.", pointer);
            *field = text;
        }
        return next;
    };
}

} // namespace detail

double roundStep(double mmPerPixel, Unit unit) {
    if (unit == Unit::in || unit == Unit::ft) {
        for (const double inches : {1.0 / 16, 1.0 / 8, 0.25, 0.5, 1.0, 3.0, 6.0, 12.0, 36.0})
            if (inches * 25.4 >= mmPerPixel - 1e-9) return inches * 25.4;
        double feet = 10;
        while (feet * 304.8 < mmPerPixel) feet *= 10;
        return feet * 304.8;
    }
    double decade = 0.1;
    while (decade * 5 < mmPerPixel - 1e-9) decade *= 10;
    for (const double times : {1.0, 2.0, 5.0})
        if (decade * times >= mmPerPixel - 1e-9) return decade * times;
    return decade * 5;
}

Expected<Text> shiftedLength(const Text& text, double change, const Scope& scope, Space space, double step) {
    const std::string was = detail::trimmed(text);
    double now = 0;
    if (!was.empty()) {
        const auto value = evaluate(was, scope, space, Kind::length);
        if (!value) return Unexpected(value.error());
        now = value->value;
    }
    if (std::abs(change) <= nothing) return text;
    const double factor = space == Space::subject ? scope.scale : 1, within = detail::slackOf(step, factor);
    const Unit unit = unitFactor(scope.unit) > 0 && scope.unit != Unit::none ? scope.unit : Unit::mm;
    std::vector<Text> choices;
    if (was.empty() || parseLength(was, unit)) {
        choices.push_back(detail::writtenWithin(rounded((now + change) / factor, stepFor(step, factor, unit)),
                                                unit, within));
    } else if (const auto tail = detail::tailOf(was)) {
        const double wanted = rounded(tail->value + change / factor, stepFor(step, factor, tail->unit));
        choices.push_back(
            detail::sumOf(tail->head, std::abs(wanted) < 1e-10 ? 0 : wanted, tail->unit, within));
    } else {
        const double wanted = rounded(change / factor, stepFor(step, factor, unit));
        if (std::abs(wanted) <= within) return text;
        choices.push_back(detail::sumOf(was, wanted, unit, within));
        // A formula of bare numbers takes bare numbers only.
        choices.push_back(was + (wanted < 0 ? " - " : " + ") +
                          printExact(std::abs(wanted) / unitFactor(unit), Unit::none));
    }
    if (namesIn(was).empty())
        choices.push_back(detail::writtenWithin(rounded((now + change) / factor, stepFor(step, factor, unit)),
                                                unit, within));
    // Half a step may be lost twice: by the rounding and by the step's own being the next larger round
    // figure.
    const double slack =
        step > 0 ? 10 * step + 25.4 * factor : within * factor + 1e-9 + 1e-12 * std::abs(now + change);
    for (const Text& choice : choices) {
        const auto value = evaluate(choice, scope, space, Kind::length);
        if (value && std::abs(value->value - now - change) <= slack) return choice;
    }
    return fail("broken-formula", "No length can be added to \"" + was + "\".", {}, "Type a length there.");
}

Expected<Text> mirroredLength(const Text& text, double change, const Scope& scope, Space space, double step) {
    const std::string was = detail::trimmed(text);
    const Unit unit = unitFactor(scope.unit) > 0 && scope.unit != Unit::none ? scope.unit : Unit::mm;
    if (namesIn(was).empty()) return shiftedLength(text, change, scope, space, step);
    const auto value = evaluate(was, scope, space, Kind::length);
    if (!value) return Unexpected(value.error());
    const double factor = space == Space::subject ? scope.scale : 1, within = detail::slackOf(step, factor);
    const auto tail = detail::tailOf(was);
    const std::string head = tail ? detail::trimmed(tail->head) : was;
    // F + t becomes (2 F + t + t + change) - t - F: the sum of both places stays what it is.
    const double sum = (2 * value->value + change) / factor - (tail ? tail->value : 0);
    const Unit own = tail ? tail->unit : unit;
    const std::string taken = detail::isTerm(head) ? head : "(" + head + ")";
    for (const Text& choice :
         {std::abs(sum) < 1e-10 ? detail::negated(head)
                                : detail::writtenWithin(sum, own, within) + " - " + taken,
          printExact(sum / unitFactor(unit), Unit::none) + " - " + taken}) {
        const auto mirrored = evaluate(choice, scope, space, Kind::length);
        if (mirrored && std::abs(mirrored->value - value->value - change) <=
                            within * factor + 1e-9 + 1e-12 * std::abs(value->value))
            return choice;
    }
    return shiftedLength(text, change, scope, space, step);
}

Expected<Edit> movePoints(const Project& project, const Scope& scope, BoardView view,
                          const std::vector<PointRef>& refs, const Vec2& delta, const MoveOptions& options) {
    Mover mover(project, scope, view, options);
    for (const PointRef& ref : refs) {
        // A form that is moved as a whole takes its points along.
        const auto place = detail::placeIn(ref.pointer);
        const bool carried =
            place && ref.handle != Handle::place &&
            std::any_of(refs.begin(), refs.end(), [&](const PointRef& o) {
                return o.handle == Handle::place && o.pointer == "/forms/" + std::to_string(place->form);
            });
        if (carried) continue;
        if (const auto done = mover.add(ref, delta); !done) return Unexpected(done.error());
    }
    return mover.edit();
}

Expected<Edit> movePoint(const Project& project, const Scope& scope, BoardView view, const PointRef& ref,
                         const Vec2& to, const MoveOptions& options) {
    const auto handle = detail::handleAt(project, ref, scope, view);
    if (!handle)
        return fail("no-such-point", "There is no point at " + ref.pointer + ".", ref.pointer,
                    "Choose the point again.");
    return movePoints(project, scope, view, {ref}, to - handle->at, options);
}

Expected<Edit> moveEdge(const Project& project, const Scope& scope, BoardView view,
                        const std::array<PointRef, 2>& ends, Vec2 delta, bool square,
                        const MoveOptions& options) {
    if (square) {
        const auto a = detail::handleAt(project, ends[0], scope, view),
                   b = detail::handleAt(project, ends[1], scope, view);
        if (a && b && (b->at - a->at).norm() > 1e-9) {
            const Vec2 along = (b->at - a->at).normalized(), out(-along.y(), along.x());
            delta = out * delta.dot(out);
        }
    }
    return movePoints(project, scope, view, {ends[0], ends[1]}, delta, options);
}

Expected<Edit> moveEdge(const Project& project, const Scope& scope, BoardView view,
                        const std::string& pointer, Vec2 delta, bool square, const MoveOptions& options) {
    const auto place = detail::placeIn(pointer);
    const auto none =
        fail("no-such-point", "There is no edge at " + pointer + ".", pointer, "Choose the edge again.");
    if (!place || place->form >= static_cast<int>(project.forms.size()) || place->index < 0) return none;
    const Form& form = project.forms[static_cast<std::size_t>(place->form)];
    const auto* points = detail::pointsOf(form, place->list);
    const auto stands = detail::placeOf(form, scope);
    if (!points || !stands || place->index >= static_cast<int>(points->size())) return none;
    const Handle handle = detail::showsSide(form, *stands, view) ? Handle::corner : Handle::halfWidth;
    const auto next = static_cast<std::size_t>(place->index + 1) % points->size();
    const std::string list = "/forms/" + std::to_string(place->form) + "/" + place->list + "/";
    return moveEdge(project, scope, view,
                    std::array{PointRef{pointer, handle}, PointRef{list + std::to_string(next), handle}},
                    delta, square, options);
}

Expected<Edit> moveForm(const Project& project, const Scope& scope, BoardView view, int form,
                        const Vec2& delta, const MoveOptions& options) {
    return movePoints(project, scope, view, {{"/forms/" + std::to_string(form), Handle::place}}, delta,
                      options);
}

} // namespace slab
