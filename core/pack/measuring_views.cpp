#include "core/geometry/polygon.h"
#include "core/pack/measuring_sheet.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double pitch = 4.4;                      ///< mm between two dimension lines
constexpr double badge = 1.75, letterHeight = 2.3; ///< mm
constexpr double least = 7.5;                      ///< shortest line with its letter on it, mm
constexpr double clear = 5;                        ///< mm from the drawing to the first line

/// What is kept free for somebody or something that moves: drawn in dots.
bool isRoom(const FitSolid& s) {
    const auto has = [&](const char* word) { return s.name.find(word) != std::string::npos; };
    return has("room") || has("sweep") || has("circle") || has("hand on") || has("ing hand") ||
           has("joystick hand") || has("and hands") || has("and feet");
}

/// A line of the view: along it (`across` = false) or up it.
struct Line {
    const Measure* measure = nullptr;
    bool upright = false;
    Vec2 from = Vec2::Zero(), to = Vec2::Zero(); ///< donor axes as seen, mm of the donor
    int lane = 0;
    bool after = false; ///< upright: on the right of the drawing
    [[nodiscard]] double low() const {
        return upright ? std::min(from.y(), to.y()) : std::min(from.x(), to.x());
    }
    [[nodiscard]] double high() const {
        return upright ? std::max(from.y(), to.y()) : std::max(from.x(), to.x());
    }
};

class ViewDrawer {
public:
    ViewDrawer(const Pen& pen, const Area& area, const MeasuringView& view)
        : m_pen(pen), m_area(area), m_view(view) {}

    int draw() {
        bound();
        collect();
        if (m_bounds.size().minCoeff() <= 0) return 0;
        // Lanes by a scale that leaves room for many, then the drawing as large as these lanes allow.
        m_scale = scaleFor(5, 12);
        share();
        m_scale = scaleFor(std::max(lanes(true, false), lanes(true, true)), lanes(false, false));
        place();
        drawSolids();
        for (const Line& line : m_lines) drawLine(line);
        return static_cast<int>(m_lines.size());
    }

private:
    [[nodiscard]] Vec2 seen(const Vec3& p) const {
        return m_view.plan ? Vec2(p.x(), p.y()) : Vec2(p.x(), p.z());
    }
    [[nodiscard]] Vec2 onPaper(const Vec2& p) const { return m_origin + p * m_scale; }
    [[nodiscard]] Vec3 spot(const Mark& mark) const {
        return {valueOf(mark.at[0], m_view.sizes), valueOf(mark.at[1], m_view.sizes),
                valueOf(mark.at[2], m_view.sizes)};
    }

    void bound() {
        std::vector<Vec2> all;
        for (const FitSolid& s : m_view.solids) {
            if (s.name.find("room") != std::string::npos) continue; // people may be cut off
            const Box3 b = bounds(s.shape);
            all.push_back(seen(b.min));
            all.push_back(seen(b.max));
        }
        m_bounds = all.empty() ? Box2{} : bounds(all);
        if (!m_view.plan) m_bounds.min.y() = std::min(m_bounds.min.y(), 0.0);
    }

    void collect() {
        const double middle = (m_bounds.min.x() + m_bounds.max.x()) / 2;
        for (const Measure& m : m_view.measures) {
            const bool here = m_view.plan ? m.axis == 1 : m.axis == 0 || m.axis == 2;
            if (!here) continue;
            Line line{&m, m.axis != 0, seen(spot(m.from)), seen(spot(m.to)), 0, false};
            line.after = (line.from.x() + line.to.x()) / 2 > middle;
            m_lines.push_back(line);
        }
    }

    [[nodiscard]] double scaleFor(int columns, int rows) const {
        const double across = m_area.width - 2 * (clear + columns * pitch + badge);
        const double up = m_area.height - (clear + rows * pitch + badge) - 2;
        return std::max(std::min(across / m_bounds.size().x(), up / m_bounds.size().y()), 1e-3);
    }

    /// Long lines outside, short ones near the drawing, as many in one lane as find room.
    void share() {
        std::stable_sort(m_lines.begin(), m_lines.end(), [](const Line& a, const Line& b) {
            return a.high() - a.low() < b.high() - b.low();
        });
        struct Taken {
            bool upright, after;
            int lane;
            double low, high;
        };
        std::vector<Taken> taken;
        for (Line& line : m_lines) {
            const double middle = (line.low() + line.high()) / 2;
            const double half = std::max((line.high() - line.low()) / 2, least / 2 / m_scale) + 1.5 / m_scale;
            const auto meets = [&](const Taken& t) {
                return t.upright == line.upright && (!line.upright || t.after == line.after) &&
                       t.lane == line.lane && t.low < middle + half && middle - half < t.high;
            };
            while (std::any_of(taken.begin(), taken.end(), meets)) ++line.lane;
            taken.push_back({line.upright, line.after, line.lane, middle - half, middle + half});
        }
    }

    [[nodiscard]] int lanes(bool upright, bool after) const {
        int most = 0;
        for (const Line& line : m_lines)
            if (line.upright == upright && (!upright || line.after == after))
                most = std::max(most, line.lane + 1);
        return most;
    }

    void place() {
        const Vec2 size = m_bounds.size() * m_scale;
        const double below = clear + lanes(false, false) * pitch + badge;
        const double leftover = m_area.height - below - size.y() - 2;
        const double left = clear + lanes(true, false) * pitch, right = clear + lanes(true, true) * pitch;
        const double x = m_area.x + (m_area.width - size.x() - left - right) / 2 + left;
        m_low = {x, m_area.y + below + leftover / 2};
        m_high = m_low + size;
        m_origin = m_low - m_bounds.min * m_scale;
    }

    void drawSolids() {
        std::vector<const FitSolid*> order;
        for (const FitSolid& s : m_view.solids) order.push_back(&s);
        // Nearest last: the starboard side in the side view, the top in the plan.
        std::stable_sort(order.begin(), order.end(), [&](const FitSolid* a, const FitSolid* b) {
            return m_view.plan ? bounds(a->shape).max.z() < bounds(b->shape).max.z()
                               : bounds(a->shape).min.y() > bounds(b->shape).min.y();
        });
        for (const bool rooms : {false, true})
            for (const FitSolid* s : order)
                if (isRoom(*s) == rooms) drawSolid(*s, rooms);
        for (const Wheel& w : m_view.wheels) drawWheel(w);
        if (!m_view.plan)
            m_pen.line({m_low.x() - 4, m_origin.y()}, {m_high.x() + 4, m_origin.y()}, {0.35, Ink::line});
    }

    void drawSolid(const FitSolid& s, bool room) {
        std::vector<Vec2> points;
        for (const Vec3& p : toPolyhedron(s.shape, 48).vertices) points.push_back(onPaper(seen(p)));
        Ring ring = convexHull(points);
        if (s.name.find("room") != std::string::npos)
            for (Vec2& p : ring)
                p = p.cwiseMax(m_low - Vec2(clear - 2, 0)).cwiseMin(m_high + Vec2(clear - 2, 0));
        if (!room) m_pen.fill(ring, Ink::pale);
        m_pen.path(ring, true, room ? LineStyle{0.15, Ink::quiet, Dash::dotted} : LineStyle{0.22, Ink::line});
    }

    void drawWheel(const Wheel& w) {
        if (m_view.plan) {
            const Vec2 at = onPaper(seen(w.at)), half = Vec2(w.radius, w.width / 2) * m_scale;
            m_pen.box({at.x() - half.x(), at.y() - half.y(), 2 * half.x(), 2 * half.y()}, {0.3, Ink::line});
            return;
        }
        const double behind = w.role == WheelRole::caster ? w.trail : 0;
        const Vec2 at = onPaper(seen(w.at - Vec3(behind, 0, -w.radius)));
        m_pen.circle(at, w.radius * m_scale, {0.3, Ink::line});
        m_pen.circle(at, 0.5, {0.2, Ink::line});
    }

    void drawLine(const Line& line) {
        const Vec2 a = onPaper(line.from), b = onPaper(line.to);
        const double off = clear + line.lane * pitch;
        Vec2 from, to;
        if (line.upright) {
            const double x = line.after ? m_high.x() + off : m_low.x() - off;
            from = {x, a.y()}, to = {x, b.y()};
        } else {
            const double y = m_low.y() - off;
            from = {a.x(), y}, to = {b.x(), y};
        }
        const LineStyle witness{0.1, Ink::quiet, Dash::dotted};
        m_pen.line(a, from, witness);
        m_pen.line(b, to, witness);
        for (const Vec2& p : {a, b}) m_pen.circle(p, 0.35, {0.3, Ink::line});
        const Vec2 way = to - from;
        const double length = way.norm();
        const LineStyle style{0.16, Ink::line};
        if (length > 4) {
            m_pen.arrow((from + to) / 2, from, 1.5, style);
            m_pen.arrow((from + to) / 2, to, 1.5, style);
        } else {
            m_pen.line(from, to, style);
        }
        letter(line, (from + to) / 2, length);
    }

    void letter(const Line& line, Vec2 at, double length) {
        const std::string& words = line.measure->letter;
        if (length < 2 * badge + 1.5) // beside a short line
            at += line.upright ? Vec2(0, length / 2 + badge + 0.4) : Vec2(length / 2 + badge + 0.4, 0);
        Ring round;
        for (int i = 0; i < 24; ++i)
            round.push_back(
                at + badge * Vec2(std::cos(i * std::numbers::pi / 12), std::sin(i * std::numbers::pi / 12)));
        m_pen.fill(round, Ink::paper);
        m_pen.circle(at, badge, {0.16, Ink::line});
        m_pen.wordsMiddle(at, words, {words.size() > 1 ? 1.8 : letterHeight, Align::centre, Ink::line, true});
    }

    const Pen& m_pen;
    Area m_area;
    const MeasuringView& m_view;
    Box2 m_bounds;
    std::vector<Line> m_lines;
    double m_scale = 1;
    Vec2 m_low = Vec2::Zero(), m_high = Vec2::Zero(), m_origin = Vec2::Zero();
};

} // namespace

int drawMeasuringView(const Pen& pen, const Area& area, const MeasuringView& view) {
    return ViewDrawer(pen, area, view).draw();
}

} // namespace slab
