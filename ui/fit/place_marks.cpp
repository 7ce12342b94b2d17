#include "ui/fit/place_marks.h"
#include "ui/findings/findings_model.h"
#include <algorithm>
#include <cmath>

namespace slab::ui {

namespace {

constexpr double overGrid = 2; ///< mm

/// Lines of one chosen place, mm, body axes.
class Places {
public:
    Places(const Evaluation& e, const Selection& chosen)
        : m_index(static_cast<std::size_t>(std::max(0, chosen.resultIndex))),
          m_forward(e.donor ? e.donor->chassis.forward : Vec3::UnitX()) {
        if (e.trial) addResult(*e.trial, chosen.result);
        if (!chosen.finding.isEmpty())
            for (const Finding& f : e.findings)
                if (f.at && keyOf(f) == chosen.finding) star({(*f.at)[0], (*f.at)[1], (*f.at)[2]});
    }
    SceneMark mark{MarkKind::place, {}};

private:
    void line(const Vec3& a, const Vec3& b) { mark.lines.insert(mark.lines.end(), {a, b}); }
    void ground(const Vec2& a, const Vec2& b) { line({a.x(), a.y(), overGrid}, {b.x(), b.y(), overGrid}); }

    /// An eight-faced diamond about it.
    void star(const Vec3& at) {
        constexpr double arm = 45; // mm
        for (int axis = 0; axis < 3; ++axis)
            for (const double one : {arm, -arm})
                for (const double other : {arm, -arm})
                    line(at + one * Vec3::Unit(axis), at + other * Vec3::Unit((axis + 1) % 3));
    }

    void circle(const Vec2& centre, double radius) { addGroundCircle(centre, radius, mark.lines); }

    void addResult(const trial::Trial& t, RideThing thing) {
        switch (thing) {
        case RideThing::line:
        case RideThing::wheel:
        case RideThing::turn:
        case RideThing::wind:
        case RideThing::load:
            if (t.balance) addStand(*t.balance, thing);
            return;
        case RideThing::part:
            if (m_index < t.route.size() && t.route[m_index].at) star(*t.route[m_index].at);
            return;
        case RideThing::circle:
            if (t.turning)
                for (const double r : {t.turning->path.outer, t.turning->path.inner})
                    if (r > 1) circle(t.turning->centre, r);
            return;
        case RideThing::ground:
        case RideThing::field:
        case RideThing::slit:
            if (!t.views.empty()) addSeen(t.views.front(), thing);
            return;
        case RideThing::way:
            if (m_index < t.waysOut.size()) addWay(t.waysOut[m_index]);
            return;
        case RideThing::gap:
            if (m_index < t.gaps.size()) star(t.gaps[m_index].at);
            return;
        default:
            return;
        }
    }

    void addStand(const trial::Balance& b, RideThing thing) {
        const auto& wheels = b.stance.wheels;
        if (thing == RideThing::wheel) {
            if (m_index < wheels.size()) circle(wheels[m_index], 60);
            return;
        }
        if (thing == RideThing::load) return star(b.load.all.centre);
        const ride::TipLine* over = &b.least.line;
        if (thing == RideThing::line && m_index < b.lines.size()) over = &b.lines[m_index];
        if (thing == RideThing::turn)
            over = b.turn.port.speed < b.turn.starboard.speed ? &b.turn.port.line : &b.turn.starboard.line;
        if (thing == RideThing::wind && m_index < b.winds.size()) over = &b.winds[m_index].limits.line;
        ground(wheels[static_cast<std::size_t>(over->from)], wheels[static_cast<std::size_t>(over->to)]);
        star(b.stance.centre);
    }

    void addSeen(const trial::View& view, RideThing thing) {
        if (thing == RideThing::slit) {
            if (m_index < view.openings.size()) star(view.openings[m_index].at);
            return;
        }
        const Vec2 foot = view.eye.head<2>(), ahead = m_forward.head<2>(), port(-ahead.y(), ahead.x());
        if (thing == RideThing::ground) {
            if (!std::isfinite(view.ahead.distance)) return star(view.eye);
            const Vec2 there = foot + view.ahead.distance * ahead;
            constexpr double half = 400; // mm
            ground(there - half * port, there + half * port);
            line(view.eye, {there.x(), there.y(), 0});
            return;
        }
        constexpr double reach = 1500; // mm
        for (const double angle : {view.field.port, -view.field.starboard}) {
            const Vec2 way = std::cos(angle) * ahead + std::sin(angle) * port;
            line(view.eye, view.eye + reach * Vec3(way.x(), way.y(), 0));
        }
    }

    void addWay(const trial::WayOut& way) {
        for (std::size_t i = 1; i < way.path.size(); ++i) line(way.path[i - 1], way.path[i]);
        star(way.at);
    }

    std::size_t m_index;
    Vec3 m_forward;
};

} // namespace

std::vector<SceneMark> placeMarks(const Evaluation& evaluation, const Selection& chosen) {
    Places places(evaluation, chosen);
    if (places.mark.lines.empty()) return {};
    return {std::move(places.mark)};
}

} // namespace slab::ui
