#include "core/body/closing.h"
#include "core/body/flank.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

/// How far corners stand off the plane that fits the flank best in the least-squares sense, mm.
double flankOff(const Corners& corners) {
    Eigen::MatrixX3d a(static_cast<Eigen::Index>(corners.size()), 3);
    Eigen::VectorXd b(a.rows());
    for (Eigen::Index i = 0; i < a.rows(); ++i) {
        const Corner& c = corners[static_cast<std::size_t>(i)];
        a.row(i) << 1, c.at.x(), c.at.y();
        b[i] = c.half;
    }
    const Vec3 fit = a.colPivHouseholderQr().solve(b);
    return (a * fit - b).cwiseAbs().maxCoeff();
}

} // namespace

Expected<Made> makeProfile(Corners corners) {
    corners = counterClockwise(std::move(corners));
    const double size = bounds(ringOf(corners)).size().norm();
    // Where the flanks meet in a knife edge the half-widths must stay exactly zero.
    const bool knife =
        std::any_of(corners.begin(), corners.end(), [](const Corner& c) { return c.half == 0; });
    FlankSplit split = splitFlank(corners, (knife ? 1e-11 : 1e-6) * size);
    for (std::size_t i = 0; i < corners.size(); ++i)
        if (corners[i].half == 0) split.half[i] = 0;
    if (split.pieces.empty())
        return fail("form-twisted", "its flanks cannot be split into flat pieces", {},
                    "Check the outline and the half widths.");
    const int n = static_cast<int>(corners.size());
    std::vector<Vec3> points;
    for (double hand : {1.0, -1.0})
        for (std::size_t i = 0; i < corners.size(); ++i)
            points.emplace_back(corners[i].at.x(), hand * split.half[i], corners[i].at.y());
    std::vector<RoughFace> faces;
    for (int i = 0; i < n; ++i) {
        const int j = (i + 1) % n;
        faces.push_back({corners[static_cast<std::size_t>(i)].side, {i, j, n + j, n + i}});
    }
    for (const auto& piece : split.pieces) {
        RoughFace port{"port", {piece.rbegin(), piece.rend()}}, starboard{"starboard", piece};
        for (int& v : starboard.loop) v += n;
        faces.push_back(std::move(port));
        faces.push_back(std::move(starboard));
    }
    auto made = closeUp(std::move(points), std::move(faces));
    if (made && split.pieces.size() > 1) {
        const int count = static_cast<int>(split.pieces.size());
        for (const char* side : {"port", "starboard"})
            made->splits.push_back({side, count, flankOff(corners)});
    }
    return made;
}

Expected<Made> makeTaper(const Corners& base, const Corners& top, double baseZ, double topZ) {
    const int n = static_cast<int>(base.size());
    std::vector<Vec3> points;
    for (const Corner& c : base) points.emplace_back(c.at.x(), c.at.y(), baseZ);
    for (const Corner& c : top) points.emplace_back(c.at.x(), c.at.y(), topZ);
    RoughFace floor{"base", {}}, roof{"top", {}};
    std::vector<RoughFace> faces;
    for (int i = 0; i < n; ++i) {
        const int j = (i + 1) % n;
        faces.push_back({base[static_cast<std::size_t>(i)].side, {i, j, n + j, n + i}});
        floor.loop.insert(floor.loop.begin(), i);
        roof.loop.push_back(n + i);
    }
    const double size = (bounds(ringOf(base)).size() + bounds(ringOf(top)).size()).norm();
    if (std::abs(signedArea(ringOf(base))) > 1e-9 * size * size) faces.push_back(std::move(floor));
    if (std::abs(signedArea(ringOf(top))) > 1e-9 * size * size) faces.push_back(std::move(roof));
    return closeUp(std::move(points), std::move(faces));
}

} // namespace slab
