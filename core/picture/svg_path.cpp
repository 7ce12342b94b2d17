#include "core/picture/svg_path.h"
#include "core/picture/svg_scan.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace slab {

Vec2 SvgArc::at(double t) const {
    return centre + a * std::cos(t) + b * std::sin(t);
}

SvgArc arcBetween(const Vec2& from, const Vec2& to, const SvgArcFlags& flags) {
    SvgArc arc;
    double rx = std::abs(flags.rx), ry = std::abs(flags.ry);
    arc.centre = (from + to) / 2;
    if (rx == 0 || ry == 0 || from == to) return arc;
    const Eigen::Rotation2Dd turn(flags.turn);
    const Vec2 p = turn.inverse() * Vec2((from - to) / 2); // F.6.5.1
    const double lambda = p.x() * p.x() / (rx * rx) + p.y() * p.y() / (ry * ry);
    if (lambda > 1) { // F.6.6.3
        rx *= std::sqrt(lambda);
        ry *= std::sqrt(lambda);
    }
    const double below = rx * rx * p.y() * p.y() + ry * ry * p.x() * p.x();
    const double root = lambda >= 1 ? 0 : std::sqrt(std::max(0.0, (rx * rx * ry * ry - below) / below));
    const Vec2 c =
        Vec2(rx * p.y() / ry, -ry * p.x() / rx) * (flags.large == flags.clockwise ? -root : root); // F.6.5.2
    arc.centre = turn * c + (from + to) / 2;                                                       // F.6.5.3
    arc.a = turn * Vec2(rx, 0);
    arc.b = turn * Vec2(0, ry);
    const Vec2 u((p.x() - c.x()) / rx, (p.y() - c.y()) / ry), v((-p.x() - c.x()) / rx, (-p.y() - c.y()) / ry);
    arc.start = std::atan2(u.y(), u.x());           // F.6.5.5
    arc.sweep = std::atan2(cross2(u, v), u.dot(v)); // F.6.5.6
    constexpr double whole = 2 * std::numbers::pi;
    if (flags.clockwise && arc.sweep < 0) arc.sweep += whole;
    if (!flags.clockwise && arc.sweep > 0) arc.sweep -= whole;
    return arc;
}

SvgSubpath moved(SvgSubpath path, const Mat3& by) {
    const auto point = [&](const Vec2& p) -> Vec2 { return (by * p.homogeneous()).head<2>(); };
    const auto direction = [&](const Vec2& p) -> Vec2 { return by.topLeftCorner<2, 2>() * p; };
    path.start = point(path.start);
    for (SvgSegment& s : path.segments) {
        s.to = point(s.to);
        s.c1 = point(s.c1);
        s.c2 = point(s.c2);
        s.arc.centre = point(s.arc.centre);
        s.arc.a = direction(s.arc.a);
        s.arc.b = direction(s.arc.b);
    }
    return path;
}

namespace {

class PathReader {
public:
    explicit PathReader(std::string_view d) : m_scan(d) {}

    Expected<std::vector<SvgSubpath>> read() {
        m_scan.skipBlanks();
        while (!m_scan.atEnd()) {
            const char command = m_scan.take();
            const char kind = upper(command);
            if (std::string_view("MLHVCSQTAZ").find(kind) == std::string_view::npos)
                return wrong("no command of a path begins here", 1);
            if (m_paths.empty() && kind != 'M') return wrong("a path begins with M", 1);
            m_relative = command != kind;
            if (kind == 'Z') {
                close();
                m_scan.skipBlanks();
                continue;
            }
            if (!arguments(kind)) return wrong("a number is missing or cannot be read", 0);
        }
        return std::move(m_paths);
    }

private:
    SvgScan m_scan;
    std::vector<SvgSubpath> m_paths;
    Vec2 m_at = Vec2::Zero(), m_control = Vec2::Zero();
    bool m_relative = false, m_ended = true;
    char m_last = ' '; ///< kind of the last curve, for S and T

    static char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

    [[nodiscard]] Unexpected wrong(const std::string& what, std::size_t back) const {
        return fail("svg-path", "The path cannot be read: " + what + ".",
                    "letter " + std::to_string(m_scan.at() - back + 1),
                    "Save the drawing again with plain paths.");
    }

    bool number(double& value) { return m_scan.number(value) && (m_scan.skipComma(), true); }
    bool point(Vec2& p) {
        if (!number(p.x()) || !number(p.y())) return false;
        if (m_relative) p += m_at;
        return true;
    }

    void close() {
        m_paths.back().closed = true;
        m_at = m_paths.back().start;
        m_ended = true;
        m_last = ' ';
    }
    void begin(const Vec2& at) {
        m_paths.push_back({at, {}, false});
        m_at = at;
        m_ended = false;
        m_last = ' ';
    }
    void add(SvgSegment s, char kind) {
        if (m_ended) begin(m_at); // what follows Z without M begins where the path before began
        m_at = s.to;
        m_last = kind;
        m_paths.back().segments.push_back(std::move(s));
    }

    /// One or more sets of arguments of a command.
    bool arguments(char kind) {
        m_scan.skipBlanks();
        do {
            if (!one(kind)) return false;
            if (kind == 'M') kind = 'L';
        } while (m_scan.beginsNumber());
        return true;
    }
    bool one(char kind) {
        switch (kind) {
        case 'M': {
            Vec2 p;
            if (!point(p)) return false;
            begin(p);
            return true;
        }
        case 'L':
        case 'H':
        case 'V':
            return line(kind);
        case 'A':
            return arc();
        default:
            return curve(kind);
        }
    }
    bool line(char kind) {
        SvgSegment s;
        s.to = m_at;
        if (kind == 'L') {
            if (!point(s.to)) return false;
        } else {
            double& c = kind == 'H' ? s.to.x() : s.to.y();
            const double from = c;
            if (!number(c)) return false;
            if (m_relative) c += from;
        }
        add(std::move(s), kind);
        return true;
    }
    bool curve(char kind) {
        SvgSegment s;
        s.kind = SvgSegment::Kind::cubic;
        const bool cubic = kind == 'C' || kind == 'S';
        const bool follows = cubic ? m_last == 'C' || m_last == 'S' : m_last == 'Q' || m_last == 'T';
        const Vec2 mirrored = follows ? Vec2(2 * m_at - m_control) : m_at;
        const Vec2 from = m_at;
        Vec2 q = mirrored;
        s.c1 = mirrored;
        if (kind == 'C' && !point(s.c1)) return false;
        if (cubic && !point(s.c2)) return false;
        if (kind == 'Q' && !point(q)) return false;
        if (!point(s.to)) return false;
        if (!cubic) { // the same curve one degree higher
            s.c1 = from + 2.0 / 3 * (q - from);
            s.c2 = s.to + 2.0 / 3 * (q - s.to);
        }
        m_control = cubic ? s.c2 : q;
        add(std::move(s), kind);
        return true;
    }
    bool arc() {
        SvgArcFlags f;
        SvgSegment s;
        double degrees = 0;
        if (!number(f.rx) || !number(f.ry) || !number(degrees) || !flag(f.large) || !flag(f.clockwise) ||
            !point(s.to))
            return false;
        f.turn = degrees * std::numbers::pi / 180;
        if (s.to == m_at) return true; // F.6.2: left out
        s.arc = arcBetween(m_at, s.to, f);
        if (s.arc.a != Vec2::Zero()) s.kind = SvgSegment::Kind::arc;
        add(std::move(s), 'A');
        return true;
    }
    bool flag(bool& value) { return m_scan.flag(value) && (m_scan.skipComma(), true); }
};

} // namespace

Expected<std::vector<SvgSubpath>> readSvgPath(std::string_view d) {
    return PathReader(d).read();
}

} // namespace slab
