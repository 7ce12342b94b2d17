#include "core/board/mechanism_grips.h"
#include "core/board/mechanism_moves.h"
#include "core/board/silhouette.h"
#include "core/mechanisms/belt_path.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab::detail {

namespace {

using std::numbers::pi;
using GripKind = BoardGrip::Kind;

/// Reads one kind of mechanisms after the other.
class Standings {
public:
    Standings(const Project& project, const Scope& scope, const MechanismSet* set)
        : m_project(project), m_scope(scope), m_set(set) {}

    std::vector<Standing> all() {
        const Mechanisms& m = m_project.mechanisms;
        each(m.turntables, "turntables");
        each(m.trunnions, "trunnions");
        each(m.linkages, "linkages");
        each(m.belts, "belts");
        return std::move(m_all);
    }

private:
    const Project& m_project;
    const Scope& m_scope;
    const MechanismSet* m_set;
    std::vector<Standing> m_all;

    template <class List>
    void each(const List& list, const char* name) {
        for (std::size_t i = 0; i < list.size(); ++i) {
            if (list[i].off) continue;
            constexpr bool build = std::is_same_v<typename List::value_type, Linkage>;
            const auto at = placeOf(list[i].at, m_scope, build ? Space::build : Space::subject);
            if (!at) continue;
            Standing s;
            s.pointer = std::string("/mechanisms/") + name + "/" + std::to_string(i);
            s.name = list[i].name;
            s.at = *at;
            carry(s, list[i]);
            Grip& place =
                s.grips.emplace_back(Grip{{s.pointer, "at"}, s.name, GripKind::place, s.at.translation});
            for (int axis = 0; axis < 3; ++axis)
                place.knobs.push_back({s.pointer + "/at/" + "xyz"[axis], s.turned * Vec3::Unit(axis),
                                       build ? Space::build : Space::subject});
            fill(s, list[i]);
            m_all.push_back(std::move(s));
        }
    }

    [[nodiscard]] std::optional<double> angle(const Text& text) const {
        if (text.empty()) return {};
        const auto value = evaluate(text, m_scope, Space::build, Kind::angle);
        return value ? std::optional(value->value) : std::nullopt;
    }
    [[nodiscard]] std::optional<double> fact(const std::string& name, const char* key) const {
        if (m_set)
            for (const MechanismFact& f : m_set->facts)
                if (f.mechanism == name && f.key == key) return f.value;
        return {};
    }

    void size(Standing& s, const std::string& key, const char* words, const Vec3& place, const Vec3& along,
              Space space) {
        Grip g{{s.pointer, key}, s.name + "/" + words, GripKind::size, place};
        g.knobs.push_back({s.pointer + "/" + key, along, space});
        s.grips.push_back(std::move(g));
    }

    /// Two stops of one arc. @param lowDown  the lower one is told as a size of its own, downwards
    void stops(Standing& s, GripArc arc, const std::array<std::pair<const char*, const char*>, 2>& words,
               std::array<double, 2> a, double reach, bool lowDown = false) {
        GripLine fan{BoardMark::Kind::range, {arc.pivot}};
        const int steps = std::max(1, static_cast<int>(std::ceil((a[1] - a[0]) / (2 * pi / 90))));
        for (int i = 0; i <= steps; ++i) fan.points.push_back(arc.at(a[0] + (a[1] - a[0]) * i / steps));
        fan.points.push_back(arc.pivot);
        s.lines.push_back(std::move(fan));
        for (const std::size_t i : {0U, 1U}) {
            GripArc own = arc;
            own.field = s.pointer + "/" + words[i].first;
            own.now = a[i];
            own.down = lowDown && i == 0;
            own.least = i == 0 ? own.least : std::max(a[0], lowDown ? 0.0 : a[0]);
            own.most = i == 1 ? own.most : std::min(a[1], lowDown ? 0.0 : a[1]);
            // The lower one nearer to the middle, so that both are free where they stand close together.
            own.level *= i == 0 ? 0.8 * reach : reach;
            own.up *= i == 0 ? 0.8 * reach : reach;
            s.grips.push_back(Grip{{s.pointer, words[i].first},
                                   s.name + "/" + words[i].second,
                                   GripKind::stop,
                                   own.at(a[i]),
                                   {},
                                   own});
        }
    }

    using Mark = BoardMark::Kind;
    static void line(Standing& s, Mark kind, std::vector<Vec3> points) {
        s.lines.push_back({kind, std::move(points)});
    }

    void carry(Standing&, const auto&) const {}
    /// A turntable has turned what stands on it.
    void carry(Standing& s, const Trunnion& t) const {
        for (const Turntable& table : m_project.mechanisms.turntables) {
            if (t.on.empty() || table.name != t.on || table.off) continue;
            const auto stands = placeOf(table.at, m_scope);
            if (!stands) continue;
            double turn = angle(table.angle).value_or(0);
            const auto from = angle(table.from), to = angle(table.to);
            if (from && to && *from <= *to) turn = std::clamp(turn, *from, *to);
            s.turned = Eigen::AngleAxisd(turn, Vec3(stands->rotation.col(2))).toRotationMatrix();
            s.at.translation = stands->translation + s.turned * (s.at.translation - stands->translation);
            s.at.rotation = s.turned * s.at.rotation;
        }
    }

    void fill(Standing& s, const Turntable& t) {
        const auto diameter = lengthOf(t.diameter, m_scope, Space::build);
        const auto depth = lengthOf(t.depth, m_scope, Space::build);
        const Vec3 axis = s.at.rotation.col(2), out = s.at.rotation.col(0);
        if (!diameter || !depth || !(*diameter > 0)) return;
        // Above the rings' seat: where its lip lies.
        const double lip = fact(s.name, "lip_top").value_or(0);
        const double thick = *depth < 0 ? 0 : lengthOf(t.lip_thickness, m_scope, Space::build).value_or(0);
        const double end = lip - thick - *depth;
        size(s, "diameter", "drum's diameter", s.at.translation + end / 2 * axis + *diameter / 2 * out,
             out / 2, Space::build);
        const double over = *diameter * 0.15 + 20; // mm
        line(s, Mark::axis,
             {s.at.translation + (std::min(0.0, end) - over) * axis,
              s.at.translation + (std::max(0.0, end) + over) * axis});
        for (const int i : {0, 1}) {
            const Vec3 way = (*diameter / 2 + over) * s.at.rotation.col(i);
            line(s, Mark::axis, {s.at.translation - way, s.at.translation + way});
        }
        s.solids.push_back(
            makeCylinder(s.at.translation, s.at.translation + (end == 0 ? 1 : end) * axis, *diameter / 2));
        if (*depth != 0) size(s, "depth", "drum's end", s.at.translation + end * axis, -axis, Space::build);
        const auto from = angle(t.from), to = angle(t.to);
        if (!from || !to || *from > *to) return;
        const double reach = fact(s.name, "ring_outside").value_or(*diameter * 1.4) / 2;
        stops(s,
              {{},
               s.at.translation,
               out * reach,
               s.at.rotation.col(1) * reach,
               0,
               *to - 2 * pi,
               *from + 2 * pi},
              {{{"from", "first stop"}, {"to", "last stop"}}}, {*from, *to}, 1);
    }

    void fill(Standing& s, const Trunnion& t) {
        const auto front = lengthOf(t.front, m_scope), rear = lengthOf(t.rear, m_scope);
        const auto low = angle(t.lowest.empty() ? "0 deg" : t.lowest),
                   high = angle(t.highest.empty() ? "0 deg" : t.highest);
        if (!front || !rear || !low || !high || *low > *high) return;
        const double shown = std::clamp(angle(t.angle).value_or(0), *low, *high);
        const GripArc arc{
            {},    s.at.translation, s.at.rotation.col(0) * *front, s.at.rotation.col(2) * *front, 0, -pi / 2,
            pi / 2};
        const Vec3 ahead = (arc.at(shown) - arc.pivot).normalized();
        size(s, "front", "front end", arc.at(shown), ahead, Space::subject);
        size(s, "rear", "rear end", s.at.translation - ahead * *rear, -ahead, Space::subject);
        line(s, Mark::pivot, {arc.pivot});
        if (const auto d = lengthOf(t.diameter, m_scope, Space::build); d && *d > 0) {
            const Vec3 way = (*d + 20) * s.at.rotation.col(1);
            line(s, Mark::axis, {arc.pivot - way, arc.pivot + way});
            s.solids.push_back(makeCylinder(arc.pivot - ahead * *rear, arc.at(shown), *d / 2));
        }
        constexpr double inside = 0.7; // clear of the tube's end, which may stand at a stop
        stops(s, arc, {{{"lowest", "lowest"}, {"highest", "highest"}}}, {*low, *high}, inside);
    }

    void fill(Standing& s, const Linkage& l) {
        const Vec3 at = s.at.translation;
        if (l.joint == "pin_slot") {
            const auto up = lengthOf(l.up, m_scope, Space::build),
                       down = lengthOf(l.down, m_scope, Space::build);
            line(s, Mark::pin, {at});
            if (!up || !down) return;
            line(s, Mark::travel, {at - *down * Vec3::UnitZ(), at + *up * Vec3::UnitZ()});
            size(s, "up", "way up", at + *up * Vec3::UnitZ(), Vec3::UnitZ(), Space::build);
            size(s, "down", "way down", at - *down * Vec3::UnitZ(), -Vec3::UnitZ(), Space::build);
            return;
        }
        line(s, Mark::hinge, {at});
        constexpr double half = 250; // mm of the hinge line to each side
        line(s, Mark::axis, {at - half * Vec3::UnitY(), at + half * Vec3::UnitY()});
        constexpr double arm = 300; // mm: a fan that shows how far it pitches
        const double up = angle(l.pitch_up).value_or(0), down = angle(l.pitch_down).value_or(0);
        if (up < 0 || down < 0) return;
        stops(s, {{}, at, arm * Vec3::UnitX(), arm * Vec3::UnitZ(), 0, -pi / 4, pi / 4},
              {{{"pitch_down", "nose down"}, {"pitch_up", "nose up"}}}, {-down, up}, 1, true);
    }

    /// Of a belt on its upper run, where the next wheels are furthest: its own place may lie far from it.
    static Vec3 heldAt(const Standing& s, std::vector<BeltCircle> circles) {
        std::sort(circles.begin(), circles.end(),
                  [](const BeltCircle& a, const BeltCircle& b) { return a.centre.x() < b.centre.x(); });
        double top = -1e300, widest = -1, x = circles.front().centre.x();
        for (std::size_t i = 0; i < circles.size(); ++i) {
            top = std::max(top, circles[i].centre.y() + circles[i].radius);
            if (i == 0) continue;
            const double from = circles[i - 1].centre.x(), to = circles[i].centre.x();
            if (to - from > widest + 1e-6) widest = to - from, x = (from + to) / 2;
        }
        return s.at.toBody({x, 0, top});
    }

    void fill(Standing& s, const Belt& belt) {
        const Vec3 right = s.at.rotation.col(0), up = s.at.rotation.col(2), across = s.at.rotation.col(1);
        std::vector<Grip> wheels;
        std::vector<BeltCircle> circles;
        const auto width = lengthOf(belt.width, m_scope);
        const Vec3 aside = width.value_or(0) / 2 * across;
        for (std::size_t i = 0; i < belt.wheels.size(); ++i) {
            const BeltWheel& w = belt.wheels[i];
            const auto x = lengthOf(w.x, m_scope), z = lengthOf(w.z, m_scope),
                       d = lengthOf(w.diameter, m_scope);
            if (!x || !z || !d) continue;
            const std::string pointer = s.pointer + "/wheels/" + std::to_string(i);
            const std::string name = s.name + "/wheel " + w.name;
            const Vec3 at = s.at.toBody({*x, 0, *z});
            circles.push_back({Vec2(*x, *z), *d / 2, false});
            if (*d > 0 && !aside.isZero()) s.solids.push_back(makeCylinder(at - aside, at + aside, *d / 2));
            wheels.push_back({{pointer, "at"},
                              name,
                              GripKind::place,
                              at,
                              {{pointer + "/x", right}, {pointer + "/z", up}}});
            const Vec3 out = (right + up).normalized();
            wheels.push_back({{pointer, "diameter"},
                              name + ", diameter",
                              GripKind::size,
                              at + *d / 2 * out,
                              {{pointer + "/diameter", out / 2}}});
        }
        if (wheels.empty()) return;
        const Vec3 held = heldAt(s, circles);
        s.grips.front().place = held;
        const double side = s.at.translation.y() < 0 ? -1 : 1;
        if (width)
            size(s, "width", "edge", held + side * *width / 2 * across, side / 2 * across, Space::subject);
        for (Grip& g : wheels) s.grips.push_back(std::move(g));
        const auto path = beltPath(circles);
        if (!path) return;
        for (const double hand : {-1.0, 1.0}) {
            std::vector<Vec3>& outline = s.outlines.emplace_back();
            for (const Vec2& p : beltLine(*path, pi / 24))
                outline.push_back(s.at.toBody({p.x(), 0, p.y()}) + hand * aside);
        }
    }
};

} // namespace

std::vector<Standing> standingMechanisms(const Project& project, const Scope& scope,
                                         const MechanismSet* set) {
    return Standings(project, scope, set).all();
}

std::vector<BoardMark> seenMarks(const Standing& s, BoardView view, bool bare) {
    std::vector<BoardMark> marks;
    const auto add = [&](BoardMark::Kind kind, std::vector<Vec2> line) {
        marks.push_back({kind, s.pointer, s.name, std::move(line)});
    };
    for (const GripLine& line : s.lines) {
        std::vector<Vec2> points;
        for (const Vec3& p : line.points) points.push_back(seen(p, view));
        double length = 0;
        for (std::size_t i = 0; i + 1 < line.points.size(); ++i)
            length += (line.points[i + 1] - line.points[i]).norm();
        const bool fan = line.kind == BoardMark::Kind::range;
        // A fan that is seen end on is a line over something else.
        const bool gone = fan ? std::abs(signedArea(points)) < 1e-3 * length * length
                              : points.size() == 2 && (points[1] - points[0]).norm() < 0.3 * length;
        if (!gone) add(line.kind, std::move(points));
    }
    if (!bare) return marks;
    const auto close = [](Ring ring) {
        if (!ring.empty()) ring.push_back(ring.front());
        return ring;
    };
    for (const ConvexSolid& solid : s.solids) add(BoardMark::Kind::outline, close(silhouette(solid, view)));
    for (const std::vector<Vec3>& outline : s.outlines) {
        Ring ring;
        for (const Vec3& p : outline) ring.push_back(seen(p, view));
        add(BoardMark::Kind::outline, close(std::move(ring)));
    }
    return marks;
}

bool isSeen(const Grip& grip, BoardView view) {
    constexpr double edgeOn = 0.3; // of a way's length, or of an arc's
    if (grip.arc) {
        const Vec2 level = seen(grip.arc->level, view), up = seen(grip.arc->up, view);
        const double whole = grip.arc->level.norm() * grip.arc->up.norm();
        return whole > 0 && std::abs(level.x() * up.y() - level.y() * up.x()) > edgeOn * whole;
    }
    return std::any_of(grip.knobs.begin(), grip.knobs.end(), [&](const GripKnob& k) {
        return seen(k.along, view).norm() > edgeOn * k.along.norm();
    });
}

bool isSlanted(const Grip& grip, BoardView view) {
    if (grip.knobs.size() != 1) return false;
    const Vec2 way = seen(grip.knobs.front().along, view);
    return way.cwiseAbs().minCoeff() > 1e-6 * way.norm();
}

} // namespace slab::detail

namespace slab {

std::vector<BoardMark> plannedMarks(const Project& project, const Scope& scope, BoardView view,
                                    const std::string& pointer) {
    for (const detail::Standing& s : detail::standingMechanisms(project, scope, nullptr))
        if (s.pointer == pointer) return detail::seenMarks(s, view, true);
    return {};
}

} // namespace slab
