#include "core/body/curve_path.h"
#include "core/geometry/segment.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

Vec2 pointOf(const PathPiece& p, double s) {
    if (p.turn == 0) return p.k[0] + s * (p.k[1] + s * (p.k[2] + s * p.k[3]));
    const double a = p.from + s * p.turn;
    return p.k[0] + p.k[1] * std::cos(a) + p.k[2] * std::sin(a);
}

std::vector<double> knotsOf(const std::vector<Vec2>& points) {
    std::vector<double> knots{0};
    for (std::size_t i = 1; i < points.size(); ++i)
        knots.push_back(knots.back() + std::sqrt((points[i] - points[i - 1]).norm()));
    return knots;
}

/// Second derivatives of the natural cubic spline at its knots: a tridiagonal system (Thomas).
template <class T>
std::vector<T> secondOf(const std::vector<double>& x, const std::vector<T>& y, const T& zero) {
    const std::size_t n = y.size();
    std::vector<T> m(n, zero), d(n, zero);
    std::vector<double> c(n, 0);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double h0 = x[i] - x[i - 1], h1 = x[i + 1] - x[i];
        const T rhs = ((y[i + 1] - y[i]) / h1 - (y[i] - y[i - 1]) / h0) * 6;
        const double pivot = 2 * (h0 + h1) - h0 * c[i - 1];
        c[i] = h1 / pivot;
        d[i] = (rhs - d[i - 1] * h0) / pivot;
    }
    for (std::size_t i = n > 1 ? n - 2 : 0; i > 0; --i) m[i] = d[i] - m[i + 1] * c[i];
    return m;
}

/// Parameters in a piece where its tangent is square to `n`; up to three.
int extremes(const PathPiece& p, const Vec2& n, std::array<double, 3>& at) {
    int count = 0;
    if (p.turn != 0) {
        const double angle = std::atan2(p.k[2].dot(n), p.k[1].dot(n)), pi = std::numbers::pi;
        const double low = std::min(p.from, p.from + p.turn), high = std::max(p.from, p.from + p.turn);
        for (double a = angle + pi * std::ceil((low - angle) / pi); a <= high && count < 3; a += pi)
            at[static_cast<std::size_t>(count++)] = (a - p.from) / p.turn;
        return count;
    }
    const double c = n.dot(p.k[1]), b = 2 * n.dot(p.k[2]), a = 3 * n.dot(p.k[3]);
    const double root = b * b - 4 * a * c;
    if (root < 0) return 0;
    const double q = -0.5 * (b + std::copysign(std::sqrt(root), b));
    for (const auto& [top, under] : {std::pair(q, a), std::pair(c, q)})
        if (under != 0) at[static_cast<std::size_t>(count++)] = top / under;
    return count;
}

/// Greatest distance from a chord over a stretch that turns back along it: looked for closely, as beyond the
/// chord's ends it is that from a corner, which has no closed form.
double turnedBack(const CurvePath& path, double low, double high, const std::array<Vec2, 2>& chord) {
    constexpr int fine = 48, thirds = 60;
    const double step = (high - low) / fine;
    const auto off = [&](double t) { return toSegment(pointAt(path, t), chord[0], chord[1]); };
    std::array<double, fine + 1> seen{};
    for (int k = 0; k <= fine; ++k) seen[static_cast<std::size_t>(k)] = off(low + k * step);
    double worst = *std::max_element(seen.begin(), seen.end());
    const double near = 0.9 * worst; // a lower summit seen may be the higher one
    for (int k = 0; k <= fine; ++k) {
        const auto i = static_cast<std::size_t>(k);
        if (seen[i] < near || (k > 0 && seen[i - 1] > seen[i]) || (k < fine && seen[i + 1] > seen[i]))
            continue;
        double a = std::max(low, low + (k - 1) * step), b = std::min(high, low + (k + 1) * step);
        for (int n = 0; n < thirds; ++n) {
            const double third = (b - a) / 3;
            if (off(a + third) < off(b - third))
                a += third;
            else
                b -= third;
        }
        worst = std::max(worst, off((a + b) / 2));
    }
    return worst;
}

} // namespace

Vec2 pointAt(const CurvePath& path, double t) {
    const auto last = path.size() - 1;
    const auto i = std::min(last, static_cast<std::size_t>(std::max(0.0, std::floor(t))));
    return pointOf(path[i], t - static_cast<double>(i));
}

CurvePath arcPath(const Vec2& from, const Vec2& to, const Vec2& outward, double bulge) {
    const Vec2 chord = to - from;
    const double length = chord.norm(), s = std::abs(bulge);
    PathPiece piece;
    if (length == 0 || s == 0) {
        piece.k = {from, chord, Vec2::Zero(), Vec2::Zero()};
        return {piece};
    }
    const double radius = length * length / (8 * s) + s / 2, angle = 4 * std::atan(2 * s / length);
    const Vec2 along = chord / length, out = bulge > 0 ? outward : Vec2(-outward);
    piece.k[0] = (from + to) / 2 + out * (s - radius);
    piece.k[1] = out * radius;
    piece.k[2] = along * radius;
    piece.from = -angle / 2;
    piece.turn = angle;
    return {piece};
}

Expected<CurvePath> ellipsePath(const Vec2& from, const Vec2& to, const Vec2& meet, double sweep) {
    if (!(sweep > 0 && sweep < std::numbers::pi))
        return fail("curve-ellipse", "the sweep of the ellipse is not between 0 and 180 degrees", {},
                    "Type an angle such as 90 deg.");
    const Vec2 chord = to - from, middle = (from + to) / 2;
    if (std::abs(cross2(chord, meet - from)) <= 1e-9 * chord.norm() * (meet - from).norm() ||
        chord.norm() == 0)
        return fail("curve-ellipse", "the tangents of the ellipse meet on the line between its ends", {},
                    "Move the point where they meet off that line.");
    const double half = sweep / 2, sine = std::sin(half), cosine = std::cos(half);
    PathPiece piece;
    piece.k[2] = chord / (2 * sine);
    piece.k[1] = (meet - middle) * (cosine / (sine * sine));
    piece.k[0] = middle - piece.k[1] * cosine;
    piece.from = -half;
    piece.turn = sweep;
    return CurvePath{piece};
}

Expected<CurvePath> splinePath(const std::vector<Vec2>& points) {
    const std::vector<double> x = knotsOf(points);
    for (std::size_t i = 1; i < x.size(); ++i)
        if (x[i] - x[i - 1] <= 1e-9 * x.back() || points.size() < 2)
            return fail("curve-spline", "two points of the spline lie in one place", {},
                        "Move or delete one of them.");
    const std::vector<Vec2> m = secondOf<Vec2>(x, points, Vec2::Zero());
    CurvePath path;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const double h = x[i + 1] - x[i];
        PathPiece piece;
        piece.k[0] = points[i];
        piece.k[1] = points[i + 1] - points[i] - h * h * (2 * m[i] + m[i + 1]) / 6;
        piece.k[2] = h * h * m[i] / 2;
        piece.k[3] = h * h * (m[i + 1] - m[i]) / 6;
        path.push_back(piece);
    }
    return path;
}

double splineValue(const std::vector<Vec2>& points, const std::vector<double>& values, double t) {
    const std::vector<double> x = knotsOf(points), m = secondOf<double>(x, values, 0.0);
    const auto i = std::min(values.size() - 2, static_cast<std::size_t>(std::max(0.0, std::floor(t))));
    const double s = t - static_cast<double>(i), h = x[i + 1] - x[i];
    return values[i] + s * (values[i + 1] - values[i] - h * h * (2 * m[i] + m[i + 1]) / 6 +
                            s * h * h * (m[i] / 2 + s * (m[i + 1] - m[i]) / 6));
}

CurvePath fitted(const CurvePath& path, const Vec2& from, const Vec2& to) {
    const Vec2 a = pointAt(path, 0), old = pointAt(path, endOf(path)) - a, now = to - from;
    const double size = old.squaredNorm();
    Eigen::Matrix2d turn = Eigen::Matrix2d::Zero();
    if (size > 0) {
        const double c = old.dot(now) / size, s = cross2(old, now) / size;
        turn << c, -s, s, c;
    }
    CurvePath result = path;
    for (PathPiece& piece : result) {
        piece.k[0] = from + turn * (piece.k[0] - a);
        for (std::size_t i = 1; i < 4; ++i) piece.k[i] = turn * piece.k[i];
    }
    return result;
}

double deviationOf(const CurvePath& path, double from, double to) {
    constexpr int samples = 4; // for stretches whose ends fall together
    const Vec2 a = pointAt(path, from), b = pointAt(path, to), n(a.y() - b.y(), b.x() - a.x());
    double worst = 0;
    const auto look = [&](double t) { worst = std::max(worst, toSegment(pointAt(path, t), a, b)); };
    std::array<double, 3> at{};
    for (auto i = static_cast<std::size_t>(std::max(0.0, std::floor(from))); i < path.size(); ++i) {
        const double base = static_cast<double>(i);
        if (base >= to) break;
        const double low = std::max(from, base), high = std::min(to, base + 1);
        const int count = extremes(path[i], n, at);
        for (int k = 0; k < count; ++k) {
            const double t = base + at[static_cast<std::size_t>(k)];
            if (t > low && t < high) look(t);
        }
        for (int k = 1; k < samples; ++k) look(low + (high - low) * k / samples);
        if (high < to) look(high);
        const int turns = extremes(path[i], b - a, at);
        for (int k = 0; k < turns; ++k) {
            const double t = base + at[static_cast<std::size_t>(k)];
            if (t <= low || t >= high) continue;
            worst = std::max(worst, turnedBack(path, low, high, {a, b}));
            break;
        }
    }
    return worst;
}

} // namespace slab
