#include "core/board/mechanism_moves.h"
#include "core/board/mechanism_grips.h"
#include "core/board/moved_text.h"
#include "core/board/outline_parts.h"
#include "core/board/turn_edits.h"
#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <numbers>

namespace slab {

namespace {

constexpr double stopDegree = std::numbers::pi / 180;
using GripTexts = std::vector<std::pair<std::string, Text>>;

Unexpected notThere(const std::string& pointer) {
    return fail("no-such-place",
                "There is nothing of a mechanism at " + pointer +
                    " that could be dragged, or one of its formulas has no value.",
                pointer, "Correct the formula, or choose it again.");
}

/// The angle on an arc that is seen nearest to a place, not further than half a turn from where it stands.
double nearestOn(const detail::GripArc& arc, BoardView view, const Vec2& to) {
    const auto off = [&](double a) { return (seen(arc.at(a), view) - to).norm(); };
    const double low = std::max(arc.least, arc.now - std::numbers::pi),
                 high = std::min(arc.most, arc.now + std::numbers::pi);
    double best = std::clamp(arc.now, low, std::max(low, high)), step = 0.5 * stopDegree;
    for (double a = low; a <= high; a += step)
        if (off(a) < off(best)) best = a;
    for (; step > 1e-6 * stopDegree; step /= 2)
        for (const double a : {best - step, best + step})
            if (a >= low && a <= high && off(a) < off(best)) best = a;
    return best;
}

Expected<Edit> turnStop(const Project& project, const Scope& scope, BoardView view, const detail::Grip& grip,
                        const Vec2& delta, const MoveOptions& options) {
    const detail::GripArc& arc = *grip.arc;
    const double to = nearestOn(arc, view, seen(grip.place, view) + delta), sign = arc.down ? -1 : 1;
    Project& looked = const_cast<Project&>(project); // only looked at
    const Text* field = detail::textAt(looked, arc.field);
    if (!field) return notThere(arc.field);
    const double least = std::min(sign * arc.least, sign * arc.most),
                 most = std::max(sign * arc.least, sign * arc.most);
    auto text =
        shiftedAngle(*field, sign * (to - arc.now), scope, options.step > 0 ? stopDegree : stopDegree / 10);
    if (!text) return Unexpected(text.error());
    if (const auto value = evaluate(*text, scope, Space::build, Kind::angle);
        value && (value->value < least - 1e-9 || value->value > most + 1e-9))
        text = shiftedAngle(*field, sign * (to - arc.now), scope, 0); // rounding would pass the other stop
    if (!text) return Unexpected(text.error());
    return Edit{"Change " + grip.name, options.gesture, detail::texting({{arc.field, std::move(*text)}})};
}

using GripChanges = std::map<std::string, detail::Change>;

void changesBy(const detail::Grip& grip, BoardView view, const Vec2& delta, const MoveOptions& options,
               GripChanges& out) {
    std::vector<Knob> knobs;
    for (const detail::GripKnob& k : grip.knobs) knobs.push_back({k.field, k.along});
    for (const detail::KnobStep& s : detail::stepsFor(knobs, view, delta)) {
        const Vec2 way = seen(s.knob->along, view);
        const bool exact =
            !detail::isSlanted(grip, view) && ((options.exactRight && std::abs(way.x()) > 1e-9) ||
                                               (options.exactUp && std::abs(way.y()) > 1e-9));
        const auto space = grip.knobs[static_cast<std::size_t>(s.knob - knobs.data())].space;
        if (std::abs(s.step) > 1e-12) out.try_emplace(s.knob->pointer, detail::Change{s.step, exact, space});
    }
}

/// Below "/mechanisms/LIST/": the entry, and the wheel of a belt where the pointer goes on to one.
struct MechanismEntry {
    std::string list;
    std::size_t index = 0;
    int wheel = -1;
};
std::optional<MechanismEntry> entryIn(const Project& project, const std::string& pointer) {
    const auto countOf = [&](const std::string& list) {
        const Mechanisms& m = project.mechanisms;
        return list == "turntables"  ? m.turntables.size()
               : list == "trunnions" ? m.trunnions.size()
               : list == "linkages"  ? m.linkages.size()
               : list == "belts"     ? m.belts.size()
                                     : 0;
    };
    constexpr std::string_view head = "/mechanisms/";
    if (!pointer.starts_with(head)) return {};
    const std::size_t slash = pointer.find('/', head.size());
    if (slash == std::string::npos) return {};
    MechanismEntry e;
    e.list = pointer.substr(head.size(), slash - head.size());
    const char *from = pointer.data() + slash + 1, *end = pointer.data() + pointer.size();
    const auto [stop, error] = std::from_chars(from, end, e.index);
    if (error != std::errc() || e.index >= countOf(e.list)) return {};
    const std::string rest(stop, end);
    constexpr std::string_view wheels = "/wheels/";
    if (e.list == "belts" && rest.starts_with(wheels)) {
        std::size_t wheel = 0;
        const auto read = std::from_chars(rest.data() + wheels.size(), rest.data() + rest.size(), wheel);
        if (read.ec == std::errc() && wheel < project.mechanisms.belts[e.index].wheels.size())
            e.wheel = static_cast<int>(wheel);
    }
    return e;
}

Expected<Edit> deleteWheel(const Project& project, const MechanismEntry& e) {
    const Belt& belt = project.mechanisms.belts[e.index];
    const std::string wheel = belt.wheels[static_cast<std::size_t>(e.wheel)].name;
    if (belt.wheels.size() <= 2)
        return fail("two-wheels", "Belt " + belt.name + " runs round two wheels at least.", belt.name,
                    "Choose the belt itself by its edge or by the cross in its middle to delete it.");
    return detail::formEdit(
        project, "Delete wheel " + wheel + " of " + belt.name,
        [e, wheel, name = belt.name](const Project& p) -> Expected<Project> {
            Project next = p;
            if (e.index >= next.mechanisms.belts.size() || next.mechanisms.belts[e.index].name != name)
                return notThere("/mechanisms/belts/" + std::to_string(e.index));
            Belt& own = next.mechanisms.belts[e.index];
            std::erase_if(own.wheels, [&](const BeltWheel& w) { return w.name == wheel; });
            if (own.moves == wheel) own.moves.clear();
            return next;
        });
}

template <class List>
bool eraseNamed(List& list, const std::string& name) {
    return std::erase_if(list, [&](const auto& one) { return one.name == name; }) > 0;
}

} // namespace

Expected<Edit> moveGrip(const Project& project, const Scope& scope, const MechanismSet* set, BoardView view,
                        const GripRef& ref, const Vec2& delta, const MoveOptions& options) {
    const auto all = detail::standingMechanisms(project, scope, set);
    const detail::Grip* grip = nullptr;
    const detail::Standing* of = nullptr;
    for (const detail::Standing& s : all)
        for (const detail::Grip& g : s.grips)
            if (g.ref == ref) grip = &g, of = &s;
    if (!grip) return notThere(ref.pointer);
    if (!detail::isSeen(*grip, view))
        return fail("not-movable", "The way of " + grip->name + " is seen end on here.", ref.pointer,
                    "Drag it in another elevation, or type its figure.");
    if (grip->arc) return turnStop(project, scope, view, *grip, delta, options);
    GripChanges changes;
    changesBy(*grip, view, delta, options, changes);
    if (ref.pointer.starts_with("/mechanisms/turntables/") && ref.key == "at")
        for (const detail::Standing& s : all) {
            const auto on = standingOn(project, of->name);
            if (!s.pointer.starts_with("/mechanisms/trunnions/") ||
                std::find(on.begin(), on.end(), s.name) == on.end())
                continue;
            // It is told as it stands before the turntable turns it.
            detail::Grip plain = s.grips.front();
            for (std::size_t i = 0; i < 3; ++i) plain.knobs[i].along = Vec3::Unit(static_cast<int>(i));
            changesBy(plain, view, delta, options, changes);
        }
    GripTexts texts;
    for (const auto& [pointer, change] : changes) {
        auto one = detail::movedText(project, scope, pointer, change, options);
        if (!one) return Unexpected(one.error());
        if (std::none_of(texts.begin(), texts.end(), [&](const auto& t) { return t.first == one->first; }))
            texts.push_back(std::move(*one));
    }
    return Edit{(ref.key == "at" ? "Move " : "Change ") + grip->name, options.gesture,
                detail::texting(std::move(texts))};
}

std::string mechanismAt(const Project& project, const std::string& name) {
    std::string found;
    const auto look = [&](const auto& list, const char* words) {
        for (std::size_t i = 0; i < list.size(); ++i)
            if (list[i].name == name && found.empty())
                found = std::string("/mechanisms/") + words + "/" + std::to_string(i);
    };
    look(project.mechanisms.turntables, "turntables");
    look(project.mechanisms.trunnions, "trunnions");
    look(project.mechanisms.linkages, "linkages");
    look(project.mechanisms.belts, "belts");
    return found;
}

std::string mechanismIn(const Project& project, const std::string& pointer) {
    const auto e = entryIn(project, pointer);
    return e ? "/mechanisms/" + e->list + "/" + std::to_string(e->index) : std::string();
}

std::string mechanismOrWheel(const Project& project, const std::string& pointer) {
    const auto e = entryIn(project, pointer);
    const std::string own = mechanismIn(project, pointer);
    return e && e->wheel >= 0 ? own + "/wheels/" + std::to_string(e->wheel) : own;
}

std::string mechanismName(const Project& project, const std::string& pointer) {
    const auto e = entryIn(project, pointer);
    if (!e) return {};
    const Mechanisms& m = project.mechanisms;
    return e->list == "turntables"  ? m.turntables[e->index].name
           : e->list == "trunnions" ? m.trunnions[e->index].name
           : e->list == "linkages"  ? m.linkages[e->index].name
                                    : m.belts[e->index].name;
}

std::vector<std::string> standingOn(const Project& project, const std::string& turntable) {
    std::vector<std::string> names;
    for (const Trunnion& t : project.mechanisms.trunnions)
        if (t.on == turntable && !turntable.empty()) names.push_back(t.name);
    return names;
}

Expected<Edit> deleteMechanism(const Project& project, const std::string& pointer) {
    const auto e = entryIn(project, pointer);
    if (!e) return notThere(pointer);
    if (e->wheel >= 0) return deleteWheel(project, *e);
    const std::string name = mechanismName(project, pointer);
    return detail::formEdit(project, "Delete " + name,
                            [list = e->list, name](const Project& p) -> Expected<Project> {
                                Project next = p;
                                Mechanisms& m = next.mechanisms;
                                const bool done = list == "turntables"  ? eraseNamed(m.turntables, name)
                                                  : list == "trunnions" ? eraseNamed(m.trunnions, name)
                                                  : list == "linkages"  ? eraseNamed(m.linkages, name)
                                                                        : eraseNamed(m.belts, name);
                                if (!done) return notThere("/mechanisms/" + list);
                                if (list == "turntables")
                                    for (Trunnion& t : m.trunnions)
                                        if (t.on == name) t.on.clear();
                                return next;
                            });
}

} // namespace slab
