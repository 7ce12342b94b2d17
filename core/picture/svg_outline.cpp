#include "core/picture/svg_outline.h"
#include "core/body/curve_path.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double pi = std::numbers::pi;

Vec2 cubicAt(const Vec2& p, const SvgSegment& s, double t) {
    const double u = 1 - t;
    return u * u * u * p + 3 * u * u * t * s.c1 + 3 * u * t * t * s.c2 + t * t * t * s.to;
}

/// Its two halves. @source  de Casteljau's algorithm at 1/2
std::pair<SvgSegment, SvgSegment> halves(const Vec2& p, const SvgSegment& s) {
    const Vec2 a = (p + s.c1) / 2, m = (s.c1 + s.c2) / 2, d = (s.c2 + s.to) / 2;
    const Vec2 b = (a + m) / 2, c = (m + d) / 2;
    SvgSegment first = s, second = s;
    first.c1 = a, first.c2 = b, first.to = (b + c) / 2;
    second.c1 = c, second.c2 = d;
    return {first, second};
}

/// A cubic by the powers of its parameter.
CurvePath pathOf(const Vec2& p, const SvgSegment& s) {
    PathPiece piece;
    piece.k = {p, 3 * (s.c1 - p), 3 * (p - 2 * s.c1 + s.c2), s.to - p + 3 * (s.c1 - s.c2)};
    return {piece};
}

/// The circular arc that a cubic was drawn for: drawing programs write a quarter of a circle as one cubic,
/// which leaves the circle by up to 2.7e-4 of its radius.
/// @return sagitta, positive to the left of the way, or 0; how far the cubic leaves it
std::pair<double, double> arcBulge(const Vec2& p, const SvgSegment& s) {
    constexpr double programs = 4e-4;
    const Vec2 chord = s.to - p, middle = cubicAt(p, s, 0.5) - p;
    const double c = chord.norm();
    if (!(c > 0)) return {};
    const double sagitta = cross2(chord, middle) / c;
    if (std::abs(middle.dot(chord) / c - c / 2) > programs * c || std::abs(sagitta) < 1e-3 * c) return {};
    const double radius = c * c / (8 * std::abs(sagitta)) + std::abs(sagitta) / 2;
    const Vec2 left(-chord.y() / c, chord.x() / c);
    const Vec2 centre = p + chord / 2 + left * (sagitta - std::copysign(radius, sagitta));
    double off = 0;
    for (int i = 1; i < 32; ++i)
        off = std::max(off, std::abs((cubicAt(p, s, i / 32.0) - centre).norm() - radius));
    if (off > programs * radius) return {};
    return {sagitta, off};
}

constexpr int mostThrough = 12; ///< points of one spline; a curve that needs more becomes straight pieces

/// Greatest distance of a cubic from a spline between the same ends, looked at closely.
double splineError(const Vec2& p, const SvgSegment& s, const CurvePath& path) {
    Ring line;
    for (std::size_t i = 0; i <= path.size() * 16; ++i)
        line.push_back(pointAt(path, static_cast<double>(i) / 16));
    double worst = 0;
    for (int i = 1; i < 96; ++i) {
        const Vec2 q = cubicAt(p, s, i / 96.0);
        double best = (q - line[0]).norm();
        for (std::size_t k = 0; k + 1 < line.size(); ++k) {
            const Vec2 along = line[k + 1] - line[k];
            const double t = along.squaredNorm() > 0
                                 ? std::clamp((q - line[k]).dot(along) / along.squaredNorm(), 0.0, 1.0)
                                 : 0;
            best = std::min(best, (q - line[k] - t * along).norm());
        }
        worst = std::max(worst, best);
    }
    return worst;
}

class Drafter {
public:
    /// @param least  pieces of each free curve
    Drafter(const SvgScale& how, bool splines, int least)
        : m_tolerance(how.tolerance), m_flats(how.flats > 0 ? how.flats : how.tolerance), m_splines(splines),
          m_least(least) {}

    OutlineDraft draft(const SvgSubpath& path) {
        m_at = path.start;
        for (const SvgSegment& s : path.segments) {
            if (s.kind == SvgSegment::Kind::line)
                add({}, s.to);
            else if (s.kind == SvgSegment::Kind::cubic)
                cubic(s);
            else
                arc(s.arc);
            m_at = s.to;
        }
        m_out.wasOpen = !path.closed && (m_at - path.start).norm() > 1e-6 * size();
        add({}, path.start);
        dropDoubles();
        return std::move(m_out);
    }

private:
    double m_tolerance, m_flats;
    bool m_splines;
    int m_least;
    Vec2 m_at = Vec2::Zero();
    OutlineDraft m_out;

    [[nodiscard]] double size() const {
        return m_out.points.empty() ? 0 : bounds(Ring(m_out.points)).size().norm();
    }

    void add(const OutlineEdge& edge, const Vec2& to) {
        m_out.points.push_back(m_at);
        m_out.edges.push_back(edge);
        m_at = to;
    }

    void arc(const SvgArc& arc) {
        const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(arc.sweep) / (pi / 2) - 1e-9)));
        const double step = arc.sweep / parts;
        const double big = std::max(arc.a.norm(), arc.b.norm());
        const bool round = std::abs(arc.a.norm() - arc.b.norm()) < 1e-6 * big &&
                           std::abs(arc.a.dot(arc.b)) < 1e-6 * big * big;
        for (int i = 0; i < parts; ++i) {
            const double from = arc.start + i * step, middle = from + step / 2;
            OutlineEdge edge;
            const Vec2 top = arc.at(middle) - arc.centre;
            const Vec2 to = arc.at(from + step), chord = to - arc.at(from);
            if (round) {
                edge.kind = OutlineEdge::Kind::arc;
                const double sagitta = big * (1 - std::cos(step / 2));
                edge.bulge = std::copysign(sagitta, cross2(chord, top));
            } else {
                edge.kind = OutlineEdge::Kind::ellipse;
                edge.meet = arc.centre + top / std::cos(step / 2);
                edge.sweep = std::abs(step);
            }
            add(edge, to);
        }
    }

    /// A curve stays a curve, however large its drawing is: halved until a spline follows each part.
    /// @param halvings  that are still allowed
    /// @param forced    that are made in any case
    bool splines(const Vec2& from, const SvgSegment& s, int halvings, int forced) {
        if (forced <= 0 && spline(from, s)) return true;
        if (halvings == 0) return false;
        const auto [first, second] = halves(from, s);
        const auto points = m_out.points.size();
        const double deviation = m_out.deviation;
        const int splined = m_out.splined;
        if (splines(from, first, halvings - 1, forced - 1) &&
            splines(first.to, second, halvings - 1, forced - 1))
            return true;
        m_out.points.resize(points);
        m_out.edges.resize(points);
        m_out.deviation = deviation;
        m_out.splined = splined;
        m_at = from;
        return false;
    }

    /// Fewest points that a spline follows the curve through.
    bool spline(const Vec2& from, const SvgSegment& s) {
        for (int count = 1; count <= mostThrough; ++count) {
            std::vector<Vec2> points{from};
            for (int i = 1; i <= count; ++i)
                points.push_back(cubicAt(from, s, static_cast<double>(i) / (count + 1)));
            points.push_back(s.to);
            const auto path = splinePath(points);
            if (!path) return false;
            const double error = splineError(from, s, *path);
            if (error > m_tolerance) continue;
            OutlineEdge edge;
            edge.kind = OutlineEdge::Kind::spline;
            edge.through.assign(points.begin() + 1, points.end() - 1);
            edge.off = error;
            m_out.deviation = std::max(m_out.deviation, error);
            ++m_out.splined;
            add(edge, s.to);
            return true;
        }
        return false;
    }

    void cubic(const SvgSegment& s) {
        const Vec2 from = m_at;
        if (const auto [bulge, off] = arcBulge(from, s); bulge != 0) {
            OutlineEdge edge;
            edge.kind = OutlineEdge::Kind::arc;
            edge.bulge = bulge;
            edge.off = off;
            return add(edge, s.to);
        }
        const CurvePath path = pathOf(from, s);
        const double whole = deviationOf(path, 0, 1);
        constexpr int halvings = 5;
        if (m_splines && whole > m_tolerance && splines(from, s, halvings, m_least - 1)) return;
        if (whole > 0) ++m_out.flattened;
        // Rounding of the text must not take the last piece over the edge.
        std::vector<double> breaks =
            breaksWithin(path, m_flats * (1 - 1e-9), static_cast<int>(mostOutlinePoints) + 1);
        if (breaks.empty())
            breaks = {0, 1}; // its deviation then tells that it cannot be
        else if (whole > 0 && static_cast<int>(breaks.size()) <= m_least)
            breaks = bestBreaks(path, m_least);
        for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
            OutlineEdge edge;
            edge.off = deviationOf(path, breaks[i], breaks[i + 1]);
            m_out.deviation = std::max(m_out.deviation, edge.off);
            add(edge, i + 2 == breaks.size() ? s.to : pointAt(path, breaks[i + 1]));
        }
    }

    /// Takes neighbouring points in one place together; of a straight and a curved side the curved one has a
    /// length.
    void dropDoubles() {
        const double least = 1e-6 * size();
        for (std::size_t i = 0; i < m_out.points.size() && m_out.points.size() > 1;) {
            const Vec2& next = m_out.points[(i + 1) % m_out.points.size()];
            if ((next - m_out.points[i]).norm() > least) {
                ++i;
                continue;
            }
            m_out.points.erase(m_out.points.begin() + static_cast<std::ptrdiff_t>(i));
            m_out.edges.erase(m_out.edges.begin() + static_cast<std::ptrdiff_t>(i));
        }
    }
};

/// Places along a spline edge.
Ring splinePoints(const OutlineDraft& draft, std::size_t edge) {
    std::vector<Vec2> points{draft.points[edge]};
    points.insert(points.end(), draft.edges[edge].through.begin(), draft.edges[edge].through.end());
    points.push_back(draft.points[(edge + 1) % draft.points.size()]);
    Ring along;
    if (const auto path = splinePath(points))
        for (std::size_t i = 0; i <= path->size() * 16; ++i)
            along.push_back(pointAt(*path, static_cast<double>(i) / 16));
    return along;
}

void take(Box2& box, const Vec2& p, bool& first) {
    box = first ? Box2{p, p} : united(box, {p, p});
    first = false;
}

} // namespace

Expected<OutlineDraft> draftOutline(const SvgSubpath& path, const SvgScale& scale) {
    if (!(scale.tolerance > 0) || !(scale.mmX > 0) || !(scale.mmY > 0))
        return fail("svg-tolerance", "The unit and the chord error must be above zero.", {},
                    "Type a length above zero.");
    Mat3 up = Mat3::Identity();
    up(0, 0) = scale.mmX;
    up(1, 1) = -scale.mmY;
    OutlineDraft draft = Drafter(scale, scale.splines, 1).draft(moved(path, up));
    // An outline has three points at least: curves are cut up as far as that takes, into curves if they may
    // be.
    for (int least = 2; scale.splines && draft.points.size() < 3 && draft.splined > 0 && least <= 3; ++least)
        draft = Drafter(scale, true, least).draft(moved(path, up));
    for (int least = 1; draft.points.size() < 3 && draft.splined + draft.flattened > 0 && least <= 3; ++least)
        draft = Drafter(scale, false, least).draft(moved(path, up));
    if (draft.points.size() < 3)
        return fail("svg-outline", "This outline has fewer than three points.", {},
                    "Choose a closed outline.");
    if (draft.points.size() > mostOutlinePoints ||
        draft.deviation > std::max(scale.tolerance, scale.flats) * (1 + 1e-9))
        return fail("svg-outline", "This outline needs more than the 200 points that a form may have.", {},
                    "Allow a larger chord error, or simplify the drawing.");
    return draft;
}

OutlineDraft moved(OutlineDraft draft, const Vec2& by) {
    for (Vec2& p : draft.points) p += by;
    for (OutlineEdge& e : draft.edges) {
        e.meet += by;
        for (Vec2& p : e.through) p += by;
    }
    return draft;
}

Box2 bounds(const OutlineDraft& draft) {
    Box2 box;
    bool first = true;
    for (std::size_t i = 0; i < draft.points.size(); ++i) {
        const Vec2 &a = draft.points[i], &b = draft.points[(i + 1) % draft.points.size()];
        const OutlineEdge& e = draft.edges[i];
        take(box, a, first);
        if (e.kind == OutlineEdge::Kind::line) continue;
        if (e.kind == OutlineEdge::Kind::spline) {
            for (const Vec2& p : splinePoints(draft, i)) take(box, p, first);
            continue;
        }
        for (int k = 1; k < 64; ++k) {
            const double t = k / 64.0;
            if (e.kind == OutlineEdge::Kind::arc) {
                const double half = 2 * std::atan(2 * e.bulge / (b - a).norm()); // signed half angle
                const Vec2 chord = b - a, left(-chord.y(), chord.x());
                const double turn = half * (2 * t - 1);
                const double along = 0.5 + std::sin(turn) / (2 * std::sin(half));
                const double off = (std::cos(turn) - std::cos(half)) / (2 * std::sin(half));
                take(box, a + along * chord + off * left, first);
            } else {
                const double w = std::cos(e.sweep / 2), u = 1 - t;
                const double below = u * u + 2 * w * u * t + t * t;
                take(box, (u * u * a + 2 * w * u * t * e.meet + t * t * b) / below, first);
            }
        }
    }
    return box;
}

Box2 bounds(const std::vector<SvgShape>& shapes) {
    Box2 box;
    bool first = true;
    for (const SvgShape& shape : shapes)
        for (const SvgSubpath& path : shape.paths) {
            Vec2 at = path.start;
            take(box, at, first);
            for (const SvgSegment& s : path.segments) {
                for (int k = 1; k < 64 && s.kind != SvgSegment::Kind::line; ++k)
                    take(box,
                         s.kind == SvgSegment::Kind::cubic ? cubicAt(at, s, k / 64.0)
                                                           : s.arc.at(s.arc.start + s.arc.sweep * k / 64.0),
                         first);
                take(box, s.to, first);
                at = s.to;
            }
        }
    return box;
}

std::vector<SvgChoice> outlinesOf(const SvgFile& file) {
    std::vector<SvgChoice> all;
    for (std::size_t i = 0; i < file.shapes.size(); ++i) {
        const SvgShape& shape = file.shapes[i];
        for (std::size_t k = 0; k < shape.paths.size(); ++k) {
            SvgChoice choice;
            choice.name = shape.id.empty() ? shape.element + " " + std::to_string(i + 1) : shape.id;
            if (k > 0) choice.name += " (" + std::to_string(k + 1) + ")";
            choice.path = shape.paths[k];
            Ring ring{choice.path.start};
            for (const SvgSegment& s : choice.path.segments) {
                const Vec2 from = ring.back();
                for (int t = 1; t < 16 && s.kind != SvgSegment::Kind::line; ++t)
                    ring.push_back(s.kind == SvgSegment::Kind::cubic
                                       ? cubicAt(from, s, t / 16.0)
                                       : s.arc.at(s.arc.start + s.arc.sweep * t / 16.0));
                ring.push_back(s.to);
            }
            choice.area = std::abs(signedArea(ring));
            all.push_back(std::move(choice));
        }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const SvgChoice& a, const SvgChoice& b) { return a.area > b.area; });
    return all;
}

std::vector<SvgUnit> unitChoices(const SvgFile& file) {
    const Vec2 size = bounds(file.shapes).size();
    std::vector<SvgUnit> choices;
    const auto offer = [&](const std::string& name, double x, double y) {
        choices.push_back({name, x, y, size.x() * x, size.y() * y});
    };
    if (file.size.real) offer("as written: " + file.size.written, file.size.unitX, file.size.unitY);
    const std::pair<const char*, double> units[] = {{"millimetres", 1},
                                                    {"centimetres", 10},
                                                    {"metres", 1000},
                                                    {"inches", 25.4},
                                                    {"feet", 304.8},
                                                    {"points of 1/72 in", 25.4 / 72},
                                                    {"picas of 1/6 in", 25.4 / 6},
                                                    {"pixels of 1/96 in", 25.4 / 96}};
    for (const auto& [name, mm] : units) offer(name, mm, mm);
    return choices;
}

} // namespace slab
