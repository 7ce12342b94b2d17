#include "core/geometry/convex.h"
#include "core/geometry/convex_core.h"
#include <algorithm>
#include <cmath>

// Gilbert, Johnson & Keerthi 1988, "A fast procedure for computing the distance between complex objects", on
// the cores (hull of points, or cylinder); the radii are taken off afterwards. The point of a simplex nearest
// to the origin is found by its Voronoi regions (Ericson 2005, Real-Time Collision Detection, §5.1).

namespace slab {

namespace {

/// A corner of the Minkowski difference and where it comes from.
struct Corner {
    Vec3 w, a, b;
};

struct Simplex {
    std::array<Corner, 4> corners;
    std::array<double, 4> weight{};
    int size = 0;

    [[nodiscard]] bool has(const Vec3& w) const {
        return std::any_of(corners.begin(), corners.begin() + size,
                           [&](const Corner& c) { return c.w == w; });
    }
    [[nodiscard]] Vec3 combined(Vec3 Corner::*part) const {
        Vec3 sum = Vec3::Zero();
        for (std::size_t i = 0; i < static_cast<std::size_t>(size); ++i) sum += weight[i] * corners[i].*part;
        return sum;
    }
    void keep(std::initializer_list<std::pair<int, double>> kept) {
        std::array<Corner, 4> old = corners;
        size = 0;
        for (const auto& [i, w] : kept) {
            corners[static_cast<std::size_t>(size)] = old[static_cast<std::size_t>(i)];
            weight[static_cast<std::size_t>(size++)] = w;
        }
    }
};

/// Weights of the point nearest to the origin on a segment or triangle, by corner index; zeros are left out.
struct Nearby {
    std::array<int, 3> index{};
    std::array<double, 3> weight{};
    int size = 0;
    double squared = 0;
    void add(int i, double w) {
        index[static_cast<std::size_t>(size)] = i;
        weight[static_cast<std::size_t>(size++)] = w;
    }
};

Nearby onSegment(const Simplex& s, int i, int j) {
    const Vec3 &p = s.corners[static_cast<std::size_t>(i)].w, &q = s.corners[static_cast<std::size_t>(j)].w;
    const Vec3 d = q - p;
    const double along = -p.dot(d), length = d.squaredNorm();
    Nearby out;
    if (along <= 0 || length == 0) {
        out.add(i, 1);
        out.squared = p.squaredNorm();
    } else if (along >= length) {
        out.add(j, 1);
        out.squared = q.squaredNorm();
    } else {
        const double t = along / length;
        out.add(i, 1 - t);
        out.add(j, t);
        out.squared = (p + t * d).squaredNorm();
    }
    return out;
}

Nearby onTriangle(const Simplex& s, int i, int j, int k) {
    const Vec3 &a = s.corners[static_cast<std::size_t>(i)].w, &b = s.corners[static_cast<std::size_t>(j)].w,
               &c = s.corners[static_cast<std::size_t>(k)].w;
    const Vec3 ab = b - a, ac = c - a, n = ab.cross(ac);
    const double nn = n.squaredNorm();
    // Signed areas of the origin's foot against each side, all times nn.
    const double wa = n.dot(b.cross(c)), wb = n.dot(c.cross(a)), wc = n.dot(a.cross(b));
    if (nn > 0 && wa > 0 && wb > 0 && wc > 0) {
        const double sum = wa + wb + wc;
        Nearby out;
        out.add(i, wa / sum);
        out.add(j, wb / sum);
        out.add(k, wc / sum);
        const double off = n.dot(a);
        out.squared = off * off / nn;
        return out;
    }
    Nearby best = onSegment(s, i, j);
    for (const auto& [p, q] : {std::pair{j, k}, std::pair{i, k}}) {
        const Nearby other = onSegment(s, p, q);
        if (other.squared < best.squared) best = other;
    }
    return best;
}

/// Reduces the simplex to the part nearest to the origin. @return true if the origin lies inside a
/// tetrahedron
bool reduce(Simplex& s) {
    Nearby best;
    if (s.size == 1) {
        s.weight[0] = 1;
        return false;
    }
    if (s.size == 2) {
        best = onSegment(s, 0, 1);
    } else if (s.size == 3) {
        best = onTriangle(s, 0, 1, 2);
    } else {
        static constexpr std::array<std::array<int, 4>, 4> sides = {
            {{0, 1, 2, 3}, {0, 1, 3, 2}, {0, 2, 3, 1}, {1, 2, 3, 0}}};
        bool outside = false;
        std::array<double, 4> volume{};
        for (const auto& [i, j, k, l] : sides) {
            const Vec3& a = s.corners[static_cast<std::size_t>(i)].w;
            const Vec3 n = (s.corners[static_cast<std::size_t>(j)].w - a)
                               .cross(s.corners[static_cast<std::size_t>(k)].w - a);
            const Vec3 up = s.corners[static_cast<std::size_t>(l)].w - a;
            const double height = n.dot(up), origin = -n.dot(a);
            outside |= origin * height < 0 || std::abs(height) <= 1e-9 * n.norm() * up.norm();
            volume[static_cast<std::size_t>(l)] = height != 0 ? origin / height : 0;
        }
        if (!outside) {
            const double sum = volume[0] + volume[1] + volume[2] + volume[3];
            for (std::size_t i = 0; i < 4; ++i) s.weight[i] = volume[i] / sum;
            // The weights must give the origin: on a tetrahedron between near points of a rim the heights are
            // rounding, and all four may agree by chance.
            double size = 0;
            for (const Corner& c : s.corners) size = std::max(size, c.w.squaredNorm());
            if (s.combined(&Corner::w).squaredNorm() <= 1e-20 * size) return true;
        }
        // All sides, not only those the origin is seen from: on a thin tetrahedron that test is rounding.
        best = onTriangle(s, 0, 1, 2);
        for (const auto& [i, j, k, l] : {sides[1], sides[2], sides[3]}) {
            const Nearby other = onTriangle(s, i, j, k);
            if (other.squared < best.squared) best = other;
        }
    }
    if (best.size == 1)
        s.keep({{best.index[0], best.weight[0]}});
    else if (best.size == 2)
        s.keep({{best.index[0], best.weight[0]}, {best.index[1], best.weight[1]}});
    else
        s.keep({{best.index[0], best.weight[0]},
                {best.index[1], best.weight[1]},
                {best.index[2], best.weight[2]}});
    return false;
}

/// The simplex's point nearest to the origin. On a triangle it lies along the normal, which is known far
/// better than the weighted sum when the distance is small against the corners.
Vec3 towardsOrigin(const Simplex& s) {
    if (s.size != 3) return s.combined(&Corner::w);
    const Vec3& a = s.corners[0].w;
    const Vec3 p = s.corners[1].w - a, q = s.corners[2].w - a, n = p.cross(q);
    // Corners close together on a round rim have no normal to speak of.
    if (n.squaredNorm() < 1e-6 * p.squaredNorm() * q.squaredNorm()) return s.combined(&Corner::w);
    return n * (n.dot(a) / n.squaredNorm());
}

double extent(const Core& core) {
    return (core.solid.points.back() - core.solid.points.front()).norm() + core.radius;
}

} // namespace

CoreDistance coreDistance(const Core& a, const Core& b) {
    // Touching within 1e-12 of the size is meeting: closer than that, rounding decides.
    const double touch =
        1e-12 * (extent(a) + extent(b) + a.solid.points[0].norm() + b.solid.points[0].norm());
    const int most = a.isCylinder() || b.isCylinder() ? 400 : 100;
    Simplex s;
    Vec3 v = a.middle() - b.middle();
    if (v.squaredNorm() == 0) v = Vec3::UnitX();
    double squared = INFINITY;
    CoreDistance out;
    Simplex best;
    for (out.steps = 0; out.steps < most; ++out.steps) {
        Corner c;
        c.a = a.support(-v);
        c.b = b.support(v);
        c.w = c.a - c.b;
        out.gap = s.size ? squared - v.dot(c.w) : INFINITY;
        if (s.size && (out.gap <= 4e-16 * squared || s.has(c.w))) break;
        s.corners[static_cast<std::size_t>(s.size++)] = c;
        out.meets = reduce(s);
        if (out.meets) break;
        v = towardsOrigin(s);
        const double now = v.squaredNorm();
        if (now >= squared) break; // rounding: no better point is found any more
        squared = now;
        best = s;
        if (squared <= touch * touch) {
            out.meets = true;
            break;
        }
    }
    const Simplex& found = out.meets ? s : best;
    out.onA = found.combined(&Corner::a);
    out.onB = found.combined(&Corner::b);
    out.distance = out.meets ? 0 : std::sqrt(squared);
    if (out.meets) out.onA = out.onB = (out.onA + out.onB) / 2;
    return out;
}

Nearest nearest(const ConvexSolid& a, const ConvexSolid& b) {
    Prepared pa(a), pb(b);
    return nearest(pa, pb);
}

Nearest nearest(Prepared& a, Prepared& b, bool deep) {
    Nearest out;
    if (a.solid().points.empty() || b.solid().points.empty()) {
        out.distance = INFINITY;
        return out;
    }
    const Core &coreA = a.core(), &coreB = b.core();
    const CoreDistance core = coreDistance(coreA, coreB);
    const double ra = coreA.margin, rb = coreB.margin;
    if (core.meets) {
        out.meets = true;
        out.onA = out.onB = core.onA;
        if (deep) out.depth = coreDepth(coreA, a.directions(), coreB, b.directions()) + ra + rb;
        return out;
    }
    const Vec3 towards = (core.onB - core.onA) / core.distance;
    if (core.distance <= ra + rb) {
        out.meets = true;
        out.depth = ra + rb - core.distance;
        out.onA = out.onB = core.onA + towards * (core.distance * ra / (ra + rb));
        return out;
    }
    out.distance = core.distance - ra - rb;
    out.onA = core.onA + ra * towards;
    out.onB = core.onB - rb * towards;
    return out;
}

} // namespace slab
