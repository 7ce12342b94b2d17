#include "core/picture/homography.h"
#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>

namespace slab {

namespace {

using Rows = Eigen::Matrix<double, Eigen::Dynamic, 9>;
using Nine = Eigen::Matrix<double, 9, 1>;

/// How thin a triangle of marked points may be: its height over the size of them all.
constexpr double thinnest = 1e-3;

/// Moves points to their centroid and scales them to a mean distance of √2 (algorithm 4.2, step i).
Mat3 normalisation(std::span<const PointPair> pairs, Vec2 PointPair::*which) {
    Vec2 middle = Vec2::Zero();
    for (const PointPair& p : pairs) middle += p.*which;
    middle /= static_cast<double>(pairs.size());
    double mean = 0;
    for (const PointPair& p : pairs) mean += (p.*which - middle).norm();
    const double s = std::sqrt(2.0) * static_cast<double>(pairs.size()) / mean;
    Mat3 t;
    t << s, 0, -s * middle.x(), 0, s, -s * middle.y(), 0, 0, 1;
    return t;
}

Mat3 asMatrix(const Nine& h) {
    Mat3 m;
    m << h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], h[8];
    return m;
}

struct Normal {
    std::vector<Vec3> plane; ///< homogeneous, normalised
    std::vector<Vec2> pixel;
};

/// Rows of A in A h = 0 for plane to pixel.
Rows dltRows(const Normal& n) {
    Rows a = Rows::Zero(2 * static_cast<Eigen::Index>(n.pixel.size()), 9);
    for (std::size_t i = 0; i < n.pixel.size(); ++i) {
        const Eigen::RowVector3d x = n.plane[i].transpose();
        const auto r = static_cast<Eigen::Index>(2 * i);
        a.row(r) << x, Eigen::RowVector3d::Zero(), -n.pixel[i].x() * x;
        a.row(r + 1) << Eigen::RowVector3d::Zero(), x, -n.pixel[i].y() * x;
    }
    return a;
}

/// d pixel / d h of every point, and the residuals (marked minus given).
void linearise(const Normal& n, const Nine& h, Rows& slopes, Eigen::VectorXd& residual) {
    const Mat3 g = asMatrix(h);
    slopes.setZero(2 * static_cast<Eigen::Index>(n.pixel.size()), 9);
    residual.resize(slopes.rows());
    for (std::size_t i = 0; i < n.pixel.size(); ++i) {
        const Vec3 y = g * n.plane[i];
        const Vec2 p = y.head<2>() / y.z();
        const Eigen::RowVector3d x = n.plane[i].transpose() / y.z();
        const auto r = static_cast<Eigen::Index>(2 * i);
        slopes.row(r) << x, Eigen::RowVector3d::Zero(), -p.x() * x;
        slopes.row(r + 1) << Eigen::RowVector3d::Zero(), x, -p.y() * x;
        residual.segment<2>(r) = n.pixel[i] - p;
    }
}

/// The map's scale has no meaning, so the slopes have one direction too few: the pseudo-inverse leaves it
/// out.
Eigen::MatrixXd pseudoInverse(const Rows& j) {
    Eigen::JacobiSVD<Eigen::MatrixXd> svd(j, Eigen::ComputeThinU | Eigen::ComputeThinV);
    Eigen::VectorXd inverse = Eigen::VectorXd::Zero(svd.singularValues().size());
    for (Eigen::Index i = 0; i < std::min<Eigen::Index>(8, inverse.size()); ++i)
        inverse[i] = 1 / svd.singularValues()[i];
    return svd.matrixV() * inverse.asDiagonal() * svd.matrixU().transpose();
}

void refine(const Normal& n, Nine& h) {
    Rows j;
    Eigen::VectorXd r;
    for (int round = 0; round < 30; ++round) {
        linearise(n, h, j, r);
        const Nine step = pseudoInverse(j) * r;
        h = (h + step).normalized();
        if (step.norm() < 1e-14) break;
    }
}

double height(const Vec2& a, const Vec2& b, const Vec2& c) {
    const double longest = std::max({(a - b).norm(), (b - c).norm(), (c - a).norm()});
    return longest > 0 ? std::abs(cross2(b - a, c - a)) / longest : 0;
}

bool crossing(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    const auto side = [](const Vec2& p, const Vec2& q, const Vec2& r) { return cross2(q - p, r - p) > 0; };
    return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b);
}

Expected<void> soundFour(const std::array<Vec2, 4>& q, double size, const char* where) {
    for (std::size_t skip = 0; skip < 4; ++skip)
        if (height(q[(skip + 1) % 4], q[(skip + 2) % 4], q[(skip + 3) % 4]) < thinnest * size)
            return fail("picture-corners-line", "Three of the four corners lie on one line.", where,
                        "Mark the four corners of a rectangle that is seen less from its edge.");
    if (crossing(q[0], q[1], q[2], q[3]) || crossing(q[1], q[2], q[3], q[0]))
        return fail("picture-corners-cross", "The sides between the four corners cross each other.", where,
                    "Mark the corners in their order round the rectangle.");
    for (std::size_t i = 0; i < 4; ++i)
        if ((cross2(q[1] - q[0], q[2] - q[1]) > 0) !=
            (cross2(q[(i + 1) % 4] - q[i], q[(i + 2) % 4] - q[(i + 1) % 4]) > 0))
            return fail("picture-corners-hollow", "One corner lies between the other three.", where,
                        "No rectangle looks like that: mark its four outer corners.");
    return {};
}

Expected<void> soundPairs(std::span<const PointPair> pairs) {
    if (pairs.size() < 4)
        return fail("picture-corners-few",
                    "Only " + std::to_string(pairs.size()) + " of four corners are marked.", "corners",
                    "Mark all four corners of the rectangle.");
    for (Vec2 PointPair::*which : {&PointPair::pixel, &PointPair::plane}) {
        double size = 0;
        for (const PointPair& p : pairs) {
            if (!(p.*which).allFinite())
                return fail("picture-corners-fit", "A corner has no place.", "corners", "Mark it again.");
            size = std::max(size, (p.*which - pairs[0].*which).norm());
        }
        for (std::size_t i = 0; i < pairs.size(); ++i)
            for (std::size_t k = 0; k < i; ++k)
                if ((pairs[i].*which - pairs[k].*which).norm() < thinnest * size || size == 0)
                    return fail("picture-corners-same",
                                "Corners " + std::to_string(k + 1) + " and " + std::to_string(i + 1) +
                                    " lie in one place.",
                                "corners", "Mark four different corners.");
        if (pairs.size() > 4) continue;
        const std::array<Vec2, 4> four{pairs[0].*which, pairs[1].*which, pairs[2].*which, pairs[3].*which};
        if (auto sound = soundFour(four, size, "corners"); !sound) return sound;
    }
    return {};
}

Unexpected contradiction() {
    return fail("picture-corners-fit", "The marked points do not belong to one flat plane.", "corners",
                "Mark them again, further apart.");
}

} // namespace

Expected<Homography> homographyOf(std::span<const PointPair> pairs, double click) {
    if (auto sound = soundPairs(pairs); !sound) return tl::make_unexpected(sound.error());
    const Mat3 tp = normalisation(pairs, &PointPair::pixel), tw = normalisation(pairs, &PointPair::plane);
    Normal n;
    for (const PointPair& p : pairs) {
        n.plane.push_back(tw * p.plane.homogeneous());
        n.pixel.push_back((tp * p.pixel.homogeneous()).head<2>());
    }
    const Rows a = dltRows(n);
    Eigen::JacobiSVD<Eigen::MatrixXd> svd(a, Eigen::ComputeFullV);
    if (svd.singularValues()[7] < 1e-9 * svd.singularValues()[0]) return contradiction();
    Nine h = svd.matrixV().col(8);
    if (pairs.size() > 4) refine(n, h);

    Rows j;
    Eigen::VectorXd r;
    linearise(n, h, j, r);
    const Eigen::MatrixXd owed = pseudoInverse(j); // d h / d marked coordinate, normalised
    const double scale = tp(0, 0);
    const Mat3 inverse = asMatrix(h).inverse();
    const Mat3 back = tw.inverse();

    Homography out;
    out.fix.click = click;
    out.fix.map = back * inverse * tp;
    const Vec2 middle = -tp.block<2, 1>(0, 2) / scale;
    const double w = out.fix.map.row(2).dot(middle.homogeneous());
    out.fix.map /= w;
    if (!out.fix.map.allFinite()) return contradiction();
    for (const PointPair& p : pairs)
        if (!(out.fix.map.row(2).dot(p.pixel.homogeneous()) > 0)) return contradiction();
    for (Eigen::Index k = 0; k < owed.cols(); ++k) {
        const double own = pairs[static_cast<std::size_t>(k / 2)].click, times = own > 0 ? own / click : 1;
        out.fix.slopes.push_back(-back * inverse * asMatrix(owed.col(k)) * inverse * tp *
                                 (scale / w * times));
    }
    for (std::size_t i = 0; i < pairs.size(); ++i)
        out.residuals.push_back(r.segment<2>(static_cast<Eigen::Index>(2 * i)).norm() / scale);
    out.rms = pairs.size() > 4 ? r.norm() / scale / std::sqrt(static_cast<double>(r.size())) : 0;
    return out;
}

} // namespace slab
