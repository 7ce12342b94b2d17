#include "core/board/snap.h"
#include <algorithm>
#include <cmath>
#include <limits>

namespace slab {

namespace {

constexpr double alike = 1e-6; ///< mm

/// A level (direction 1) or plumb (direction 0) line that a point may stand on.
struct Ruler {
    double at = 0;
    std::string words;
    Vec2 from = Vec2::Zero(); ///< where its guide begins
    std::optional<std::pair<BoardView, Vec2>>
        elsewhere; ///< the point of another elevation that it comes from
    int grade = 0; ///< lower goes first among lines that are about as near
};

class Snapper {
public:
    Snapper(const BoardScene& scene, BoardView view, const Vec2& at, double reach, const SnapOptions& options)
        : m_scene(scene), m_view(view), m_at(at), m_reach(reach), m_options(options) {}

    Snap run() {
        if (const auto point = onPoint()) return *point;
        const auto plumb = best(0), level = best(1);
        if (plumb && level) return crossing(*plumb, *level);
        if (m_options.edges)
            if (const auto edge = onEdge()) return *edge;
        if (plumb) return along(*plumb, 0);
        if (level) return along(*level, 1);
        return onGrid();
    }

private:
    const BoardScene& m_scene;
    BoardView m_view;
    Vec2 m_at;
    double m_reach;
    const SnapOptions& m_options;

    [[nodiscard]] bool moving(const BoardPoint& p) const {
        return std::any_of(m_options.moving.begin(), m_options.moving.end(), [&](const PointRef& r) {
            if (r == p.ref) return true;
            // What a corner is wide in another view is where the corner is.
            if (r.handle == Handle::corner && r.pointer == p.ref.pointer) return true;
            // A form that moves takes its points along.
            return r.handle == Handle::place && (p.ref.pointer + "/").starts_with(r.pointer + "/");
        });
    }

    [[nodiscard]] bool moving(const BoardFeature& f) const {
        return !m_options.carried.empty() && f.name.starts_with(m_options.carried);
    }

    [[nodiscard]] std::optional<Snap> onPoint() const {
        std::optional<Snap> found;
        double least = m_reach;
        const auto offer = [&](const Vec2& at, const std::string& name) {
            const double d = (at - m_at).norm();
            if (d > least) return;
            least = std::max(0.0, d - alike); // of two in one place the first
            found = Snap{at, true, true, name, {}};
        };
        const BoardElevation& e = m_scene.of(m_view);
        if (m_options.features)
            for (const BoardFeature& f : e.features)
                if (!moving(f)) offer(f.at, f.name);
        if (m_options.points)
            for (const BoardPoint& p : e.points)
                if (!moving(p) && p.ref.handle != Handle::curve) offer(p.at, p.name);
        return found;
    }

    void consider(std::optional<Ruler>& best, Ruler ruler, int direction) const {
        const auto cost = [&](const Ruler& r) {
            return std::abs(r.at - m_at[direction]) + r.grade * 0.1 * m_reach;
        };
        if (std::abs(ruler.at - m_at[direction]) > m_reach) return;
        if (!best || cost(ruler) < cost(*best) - alike) best = std::move(ruler);
    }

    /// A short drag is meant too: the way that it went further along does not lead back to where it began.
    [[nodiscard]] bool anchored(int direction) const {
        if (!m_options.alignment || !m_options.anchor) return false;
        const Vec2 gone = (m_at - *m_options.anchor).cwiseAbs();
        if (m_options.off <= 0 || gone.norm() < m_options.off) return true;
        return direction == 0 ? gone.x() < gone.y() : gone.y() <= gone.x();
    }

    [[nodiscard]] std::optional<Ruler> best(int direction) const {
        std::optional<Ruler> found;
        const char* axis = axisOf(m_view, direction);
        if (anchored(direction))
            consider(found,
                     {(*m_options.anchor)[direction],
                      direction == 0 ? "plumb" : "level",
                      *m_options.anchor,
                      {},
                      0},
                     direction);
        if (m_options.axes && *axis != 'x')
            consider(found, {0, *axis == 'z' ? "on the ground" : "on the middle line", Vec2::Zero(), {}, 1},
                     direction);
        if (m_options.alignment) {
            for (const BoardPoint& p : m_scene.of(m_view).points)
                if (!moving(p) && p.ref.handle != Handle::curve)
                    consider(found,
                             {p.at[direction],
                              (direction == 0 ? "in line with " : "level with ") + p.name,
                              p.at,
                              {},
                              2},
                             direction);
            for (const BoardFeature& f : m_scene.of(m_view).features)
                if (!moving(f))
                    consider(found,
                             {f.at[direction],
                              (direction == 0 ? "in line with " : "level with ") + f.name,
                              f.at,
                              {},
                              2},
                             direction);
        }
        if (m_options.projection) projected(found, direction, axis);
        return found;
    }

    /// Points of the other elevations that share this axis.
    void projected(std::optional<Ruler>& found, int direction, const char* axis) const {
        for (const BoardView other : boardViews) {
            if (other == m_view) continue;
            for (int d = 0; d < 2; ++d) {
                if (*axisOf(other, d) != *axis) continue;
                for (const BoardPoint& p : m_scene.of(other).points)
                    if (!moving(p) && p.ref.handle != Handle::curve)
                        consider(found, ruler(p.at, p.name, other, d), direction);
                for (const BoardFeature& f : m_scene.of(other).features)
                    if (!moving(f)) consider(found, ruler(f.at, f.name, other, d), direction);
            }
        }
    }
    static Ruler ruler(const Vec2& at, const std::string& name, BoardView view, int direction) {
        return {at[direction],
                "projected from " + name + " (" + viewName(view) + ")",
                {},
                std::pair(view, at),
                3};
    }

    void show(Snap& snap, const Ruler& r, int direction) const {
        if (r.elsewhere) {
            Vec2 from = snap.at;
            const Box2& box = m_scene.of(m_view).bounds;
            from[1 - direction] = snap.at[1 - direction] > box.min[1 - direction] ? box.min[1 - direction]
                                                                                  : box.max[1 - direction];
            snap.guides.push_back({m_view, from, snap.at});
            snap.guides.push_back({r.elsewhere->first, r.elsewhere->second, r.elsewhere->second});
        } else {
            Vec2 from = r.from;
            from[direction] = r.at;
            snap.guides.push_back({m_view, from, snap.at});
        }
        if (!snap.words.empty()) snap.words += ", ";
        snap.words += r.words;
        (direction == 0 ? snap.exactRight : snap.exactUp) = true;
    }

    [[nodiscard]] Snap crossing(const Ruler& plumb, const Ruler& level) const {
        Snap snap;
        snap.at = {plumb.at, level.at};
        show(snap, plumb, 0);
        if (plumb.words == level.words) snap.words.clear();
        show(snap, level, 1);
        return snap;
    }

    [[nodiscard]] double gridded(double value) const {
        if (m_options.grid <= 0) return value;
        const double on = std::round(value / m_options.grid) * m_options.grid;
        return std::abs(on - value) <= m_reach ? on : value;
    }

    [[nodiscard]] Snap along(const Ruler& r, int direction) const {
        Snap snap;
        const double other = gridded(m_at[1 - direction]);
        snap.at[direction] = r.at;
        snap.at[1 - direction] = other;
        show(snap, r, direction);
        return snap;
    }

    [[nodiscard]] Snap onGrid() const {
        Snap snap;
        snap.at = {gridded(m_at.x()), gridded(m_at.y())};
        // Nothing's place: what is written is rounded all the same, so that no formula gets a long tail.
        if (m_options.grid > 0 && snap.at != m_at) snap.words = "grid";
        return snap;
    }

    [[nodiscard]] bool touches(const BoardEdge& e) const {
        const auto& points = m_scene.of(m_view).points;
        return (e.from >= 0 && moving(points[static_cast<std::size_t>(e.from)])) ||
               (e.to >= 0 && moving(points[static_cast<std::size_t>(e.to)]));
    }

    [[nodiscard]] std::optional<Snap> onEdge() const {
        std::optional<Snap> found;
        double least = m_reach;
        for (const BoardEdge& e : m_scene.of(m_view).edges) {
            if (touches(e)) continue;
            for (std::size_t i = 0; i + 1 < e.line.size(); ++i) {
                const Vec2 a = e.line[i], d = e.line[i + 1] - a;
                if (d.norm() < alike) continue;
                const Vec2 on = a + d * std::clamp((m_at - a).dot(d) / d.squaredNorm(), 0.0, 1.0);
                if ((on - m_at).norm() > least) continue;
                least = std::max(0.0, (on - m_at).norm() - alike);
                found = Snap{on, true, true, "on " + e.name, {{m_view, e.line[i], e.line[i + 1]}}};
            }
        }
        return found;
    }
};

} // namespace

Snap snap(const BoardScene& scene, BoardView view, const Vec2& at, double reach, const SnapOptions& options) {
    return Snapper(scene, view, at, reach, options).run();
}

} // namespace slab
