#include "core/board/turn_edits.h"
#include "core/board/formula_text.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double degree = std::numbers::pi / 180;

double stepped(double angle, double step) {
    return step > 0 ? std::round(angle / step) * step : angle;
}

Text degrees(double angle) {
    // Whole degrees stay whole: they come from a product with pi.
    const double value = angle / degree, whole = std::round(value * 1e6) / 1e6;
    const Text text = printExact(std::abs(value - whole) < 1e-9 ? whole : value, Unit::none);
    return (text == "-0" ? "0" : text) + " deg";
}

/// Where the document keeps the angle of a turntable or trunnion; null if there is none of that name.
/// @param P  a project, constant or not
template <class P>
auto angleOf(P& project, const std::string& mechanism) -> decltype(&project.mechanisms.turntables[0].angle) {
    for (auto& t : project.mechanisms.turntables)
        if (t.name == mechanism) return &t.angle;
    for (auto& t : project.mechanisms.trunnions)
        if (t.name == mechanism) return &t.angle;
    return nullptr;
}

/// "a + 20 deg" -> "a" and 20 degrees in radians; the whole and 0 when it ends in no plain angle.
std::pair<std::string, double> withoutTail(const std::string& text) {
    const auto sign = text.find_last_of("+-");
    if (sign == std::string::npos) return {text, 0};
    const std::string head = detail::trimmed(text.substr(0, sign)),
                      tail = detail::trimmed(text.substr(sign + 1));
    const auto end = tail.find_first_not_of("0123456789.");
    if (head.empty() || end == 0 || end == std::string::npos) return {text, 0};
    const std::string unit = detail::trimmed(tail.substr(end));
    if (unit != "deg" && unit != "°") return {text, 0};
    return {head, std::stod(tail) * degree * (text[sign] == '-' ? -1 : 1)};
}

} // namespace

Expected<Text> shiftedAngle(const Text& text, double change, const Scope& scope, double step) {
    const std::string was = detail::trimmed(text);
    double now = 0;
    if (!was.empty()) {
        const auto value = evaluate(was, scope, Space::build, Kind::angle);
        if (!value) return Unexpected(value.error());
        now = value->value;
    }
    if (was.empty() || parseAngle(was)) return degrees(stepped(now + change, step));
    auto [head, added] = withoutTail(was);
    const double wanted = stepped(added + change, step);
    if (std::abs(wanted) < 1e-12) return head;
    return head + (wanted < 0 ? " - " : " + ") + degrees(std::abs(wanted));
}

std::vector<TurnNow> turnsOf(const Project& project, const Motion& motion) {
    std::vector<std::string> names{motion.mechanism};
    for (const Trunnion& t : project.mechanisms.trunnions)
        if (t.name == motion.mechanism && !t.on.empty()) names.push_back(t.on);
    std::vector<TurnNow> out;
    for (std::size_t i = 0; i < motion.moves.size() && i < names.size(); ++i) {
        const Move& move = motion.moves[i];
        if (move.slides || move.inverse || !angleOf(project, names[i])) continue;
        // What carries it has turned its axis already.
        Motion above{motion.mechanism,
                     {motion.moves.begin() + static_cast<std::ptrdiff_t>(i) + 1, motion.moves.end()}};
        const Pose pose = shownPose(above);
        out.push_back({names[i], pose(move.at), pose.turn * move.axis, move.from, move.to, move.shown,
                       move.endless, move.words});
    }
    return out;
}

Expected<Edit> turnMechanism(const Project& project, const Scope& scope, const TurnNow& turn, double change,
                             double step, const std::string& gesture) {
    const Text* field = angleOf(project, turn.mechanism);
    if (!field)
        return fail("no-such-place", "There is no " + turn.mechanism + " that turns.", turn.mechanism,
                    "Choose the part again.");
    double by = change;
    bool stopped = false;
    if (!turn.endless) {
        const double wanted = std::clamp(turn.shown + change, turn.from, turn.to);
        stopped = wanted != turn.shown + change;
        by = wanted - turn.shown;
    }
    // An angle that is not given is shown as near to level as its stops let it.
    const Text now = field->empty() && turn.shown != 0 ? degrees(turn.shown) : *field;
    auto text = shiftedAngle(now, by, scope, stopped ? 0 : step);
    if (!text) return Unexpected(text.error());
    const auto value = evaluate(*text, scope, Space::build, Kind::angle);
    if (!turn.endless && value && (value->value < turn.from - 1e-9 || value->value > turn.to + 1e-9))
        text = shiftedAngle(now, by, scope, 0); // rounding would go past the stop
    if (!text) return Unexpected(text.error());
    return Edit{"Turn " + turn.mechanism, gesture,
                [name = turn.mechanism, text = *text](const Project& p) -> Expected<Project> {
                    Project next = p;
                    Text* angle = angleOf(next, name);
                    if (!angle)
                        return fail("no-such-place", "There is no " + name + " any more.", name,
                                    "Choose the part again.");
                    *angle = text;
                    return next;
                }};
}

} // namespace slab
