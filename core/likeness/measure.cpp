#include "core/body/curved.h"
#include "core/geometry/golden_section.h"
#include "core/likeness/likeness.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab {

namespace {

/// Gauss-Legendre nodes and weights on [0, 1], seven points (Abramowitz and Stegun, table 25.4); its middle
/// one is where a circle is furthest from its chord.
struct Node {
    double at, weight;
};
std::array<Node, 7> gauss() {
    constexpr std::array<double, 4> x{0, 0.4058451513773971669066, 0.7415311855993944398639,
                                      0.9491079123427585245262};
    constexpr std::array<double, 4> w{0.4179591836734693877551, 0.3818300505051189449504,
                                      0.2797053914892766679015, 0.1294849661688696932706};
    std::array<Node, 7> nodes{};
    for (std::size_t i = 0; i < 7; ++i) {
        const std::size_t k = i < 3 ? 3 - i : i - 3;
        nodes[i] = {(1 + (i < 3 ? -x[k] : x[k])) / 2, w[k] / 2};
    }
    return nodes;
}

double toRuling(const Vec3& p, const Vec3& a, const Vec3& b) {
    const Vec3 along = b - a;
    const double t = std::clamp((p - a).dot(along) / std::max(along.squaredNorm(), 1e-300), 0.0, 1.0);
    return (p - a - t * along).norm();
}

/// Least of a function over [0, 1]: a coarse look, then golden sections about the best.
template <class F>
double leastOver(const F& f) {
    constexpr int coarse = 12;
    constexpr double width = 1e-8;
    int best = 0;
    double least = f(0.0);
    for (int i = 1; i <= coarse; ++i)
        if (const double d = f(static_cast<double>(i) / coarse); d < least) {
            least = d;
            best = i;
        }
    const double low = std::max(0, best - 1) / double(coarse),
                 high = std::min(coarse, best + 1) / double(coarse);
    return std::min(least, leastBetween(f, low, high, width));
}

/// Facet k of a side, and the stretch of the curved side that it stands for; s and v run over [0, 1].
struct Stretch {
    const CurvedSide& side;
    std::size_t k;

    [[nodiscard]] Vec3 curved(double s, double v) const {
        return side.at(side.breaks[k] + s * (side.breaks[k + 1] - side.breaks[k]), v);
    }
    [[nodiscard]] Vec3 flat(double s, double v) const {
        const Vec3 from = side.at(side.breaks[k], v), to = side.at(side.breaks[k + 1], v);
        return from + s * (to - from);
    }
    [[nodiscard]] Vec3 at(bool onCurve, double s, double v) const {
        return onCurve ? curved(s, v) : flat(s, v);
    }
    [[nodiscard]] double distance(bool onCurve, double s, double v) const {
        const Vec3 p = at(onCurve, s, v);
        return leastOver([&](double t) { return toRuling(p, at(!onCurve, t, 0), at(!onCurve, t, 1)); });
    }
    /// Area of the surface for each unit of s and v.
    [[nodiscard]] double density(bool onCurve, double s, double v) const {
        constexpr double h = 1e-5;
        const Vec3 ds = at(onCurve, s + h, v) - at(onCurve, s - h, v);
        const Vec3 dv = at(onCurve, s, 1) - at(onCurve, s, 0);
        return ds.cross(dv).norm() / (2 * h);
    }
};

/// What may hide a point: the other forms' solids.
class Others {
public:
    Others(const std::vector<FormSolid>& solids, const std::string& form) {
        for (const FormSolid& s : solids)
            if (s.form != form) m_solids.push_back({&s.solid, bounds(s.solid)});
    }
    [[nodiscard]] bool hide(const Vec3& p) const {
        return std::any_of(m_solids.begin(), m_solids.end(), [&](const auto& s) {
            return (p.array() > s.second.min.array()).all() && (p.array() < s.second.max.array()).all() &&
                   contains(*s.first, p);
        });
    }

private:
    std::vector<std::pair<const Polyhedron*, Box3>> m_solids;
};

struct Sum {
    double greatest = 0, distance = 0, area = 0;
};

void add(Sum& sum, const Stretch& stretch, const Others& others) {
    static const std::array<Node, 7> nodes = gauss();
    for (const bool onCurve : {true, false})
        for (const Node& s : nodes) {
            for (const Node& v : nodes) {
                if (others.hide(stretch.at(onCurve, s.at, v.at))) continue;
                const double d = stretch.distance(onCurve, s.at, v.at),
                             area = s.weight * v.weight * stretch.density(onCurve, s.at, v.at);
                sum.greatest = std::max(sum.greatest, d);
                sum.distance += d * area;
                sum.area += area;
            }
            for (const double end : {0.0, 1.0}) // a taper is furthest off at its wider end
                if (!others.hide(stretch.at(onCurve, s.at, end)))
                    sum.greatest = std::max(sum.greatest, stretch.distance(onCurve, s.at, end));
        }
}

} // namespace

Likeness likenessOf(const Project& project, const Scope& scope) {
    const ResolvedForms forms = resolveForms(project, scope);
    Likeness result;
    Sum sum;
    for (const CurvedSide& side : curvedSides(project, scope)) {
        if (std::none_of(forms.solids.begin(), forms.solids.end(),
                         [&](const FormSolid& s) { return s.form == side.form; }))
            continue;
        ++result.curves;
        const Others others(forms.solids, side.form);
        for (std::size_t k = 0; k + 1 < side.breaks.size(); ++k) add(sum, {side, k}, others);
    }
    result.greatest = sum.greatest;
    if (sum.area > 0) result.mean = sum.distance / sum.area;
    return result;
}

} // namespace slab
