#include "core/picture/camera.h"
#include <Eigen/Dense>
#include <cmath>

namespace slab {

namespace {

constexpr double shortLens = 0.5, longLens = 3; ///< usual lenses, in longer sides: as doubt.cpp
constexpr double axisOff = 0.02;      ///< of a lens' axis from the middle, longer sides (common practice)
constexpr double leastTold = 1.0 / 3; ///< of the distance: a greater error tells nothing

using Mat2 = Eigen::Matrix2d;

/// What is known: the four corners in longer sides from the middle, then where the axis goes through.
using Facts = Eigen::Matrix<double, 10, 1>;

/// Columns of the map from mm of the rectangle to the picture.
struct Columns {
    Vec3 across, down, corner;
};

Columns columnsOf(const Facts& facts, const Vec2& sides) {
    std::array<Vec2, 4> q;
    for (int i = 0; i < 4; ++i) q[static_cast<std::size_t>(i)] = facts.segment<2>(2 * i) - facts.tail<2>();
    const UnitSides unit = unitSides(q);
    return {unit.across / sides.x(), unit.down / sides.y(), q[0].homogeneous()};
}

/// Both constraints are a · s + b = 0, where s is one over the square of the focal length.
struct Constraints {
    Vec2 a, b;
};
Constraints constraintsOf(const Columns& c) {
    const auto flat = [](const Vec3& v) { return Vec2(v.head<2>()); };
    return {{flat(c.across).dot(flat(c.down)), flat(c.across).squaredNorm() - flat(c.down).squaredNorm()},
            {c.across.z() * c.down.z(), c.across.z() * c.across.z() - c.down.z() * c.down.z()}};
}

class Finder {
public:
    explicit Finder(const MarkedRectangle& r) : m_sides(r.width, r.height) {
        m_side = r.picture.maxCoeff();
        for (int i = 0; i < 4; ++i) {
            const auto at = static_cast<std::size_t>(i);
            m_facts.segment<2>(2 * i) = (r.corners[at] - r.picture / 2) / m_side;
            m_errors.segment<2>(2 * i).setConstant((r.own[at] > 0 ? r.own[at] : r.click) / m_side);
        }
        m_facts.tail<2>().setZero();
        m_errors.tail<2>().setConstant(axisOff);
    }

    std::optional<PictureCamera> find(double click) {
        if (!weigh()) return {};
        const auto away = distanceAt(m_facts);
        if (!away) return {};
        PictureCamera camera{PictureCamera::Source::corners, *away, {}, 0};
        constexpr double step = 1e-6; // longer sides
        for (int k = 0; k < 10; ++k) {
            Facts more = m_facts, less = m_facts;
            more[k] += step;
            less[k] -= step;
            const auto up = distanceAt(more), down = distanceAt(less);
            if (!up || !down) return {};
            const double owed = (*up - *down) / (2 * step) * m_errors[k];
            if (k < 8)
                camera.slopes.push_back(owed / click);
            else
                camera.own += owed * owed;
        }
        if (!(camera.error(click) < leastTold * *away)) return {};
        return camera;
    }

private:
    Vec2 m_sides;
    double m_side = 1;
    Facts m_facts, m_errors;
    Mat2 m_weights = Mat2::Identity();

    /// Covariance of the two constraints at s, by differences.
    [[nodiscard]] Mat2 covariance(double s) const {
        Mat2 c = Mat2::Zero();
        constexpr double step = 1e-6;
        const auto at = [&](const Facts& facts) {
            const Constraints k = constraintsOf(columnsOf(facts, m_sides));
            return Vec2(k.a * s + k.b);
        };
        for (int k = 0; k < 10; ++k) {
            Facts more = m_facts, less = m_facts;
            more[k] += step;
            less[k] -= step;
            const Vec2 owed = (at(more) - at(less)) / (2 * step) * m_errors[k];
            c += owed * owed.transpose();
        }
        return c;
    }

    /// The weights of least variance; they hang on s, and s on them.
    [[nodiscard]] bool weigh() {
        double s = 1 / (shortLens * longLens);
        for (int round = 0; round < 12; ++round) {
            const Mat2 c = covariance(s);
            if (!(c.determinant() > 1e-12 * c(0, 0) * c(1, 1))) return false;
            m_weights = c.inverse();
            const double next = focalTerm(m_facts);
            if (!std::isfinite(next) || !(next > 0)) return false;
            if (std::abs(next - s) < 1e-13 * s) return true;
            s = next;
        }
        return true;
    }

    [[nodiscard]] double focalTerm(const Facts& facts) const {
        const Constraints k = constraintsOf(columnsOf(facts, m_sides));
        return -k.a.dot(m_weights * k.b) / k.a.dot(m_weights * k.a);
    }

    [[nodiscard]] std::optional<double> distanceAt(const Facts& facts) const {
        const double s = focalTerm(facts);
        if (!(s > 0) || !std::isfinite(s)) return {};
        const Columns c = columnsOf(facts, m_sides);
        const double by = std::sqrt(s);
        const auto behind = [&](const Vec3& v) { return Vec3(v.x() * by, v.y() * by, v.z()); };
        const Vec3 a = behind(c.across), b = behind(c.down);
        return std::abs(a.cross(b).normalized().dot(behind(c.corner))) / std::sqrt(a.norm() * b.norm());
    }
};

} // namespace

double PictureCamera::error(double click) const {
    double variance = own;
    for (double v : slopes) variance += click * click * v * v;
    return std::sqrt(variance);
}

std::optional<PictureCamera> cameraOf(const MarkedRectangle& r) {
    if (!(r.picture.minCoeff() > 0) || !(r.width > 0) || !(r.height > 0) || !(r.click > 0)) return {};
    return Finder(r).find(r.click);
}

PictureCamera usualCamera(const Vec2& picture, double mmPerPixel) {
    const double focal = std::sqrt(shortLens * longLens) * picture.maxCoeff(), away = focal * mmPerPixel;
    const double spread = std::log(longLens / shortLens) / std::sqrt(12.0); // of an even spread
    return {PictureCamera::Source::lens, away, {}, std::pow(away * spread, 2)};
}

LengthSlopes atDepth(LengthSlopes slopes, const PictureCamera& camera, const PictureDepth& depth,
                     double click) {
    double byCamera = 0, byDepth = 0;
    const double z = depth.before.value, away = camera.distance;
    if (depth.matters() && away > 0) {
        const double left = 1 - z / away, bySlope = slopes.value * z / (away * away);
        for (std::size_t k = 0; k < slopes.shared.size(); ++k)
            slopes.shared[k] =
                left * slopes.shared[k] + (k < camera.slopes.size() ? bySlope * camera.slopes[k] : 0);
        slopes.own *= left * left;
        byCamera = bySlope * std::sqrt(camera.own);
        byDepth = slopes.value / away * depth.before.error;
        slopes.value *= left;
    }
    slopes.shared.push_back(byCamera / click);
    slopes.shared.push_back(depth.shared ? byDepth / click : 0);
    if (!depth.shared) slopes.own += byDepth * byDepth;
    return slopes;
}

Measured measuredOf(const LengthSlopes& slopes, double click) {
    double variance = slopes.own;
    for (double v : slopes.shared) variance += click * click * v * v;
    return {slopes.value, std::sqrt(variance)};
}

} // namespace slab
