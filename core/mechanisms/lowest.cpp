#include "core/mechanisms/lowest.h"
#include "core/body/checks.h"
#include "core/geometry/golden_section.h"
#include <cmath>
#include <limits>
#include <numbers>

namespace slab {

namespace {

Vec3 lowestOf(const std::vector<ConvexSolid>& pieces, const Pose& pose) {
    Vec3 low = Vec3::Constant(std::numeric_limits<double>::infinity());
    const auto offer = [&](const Vec3& p) {
        if (p.z() < low.z()) low = p;
    };
    for (const ConvexSolid& s : pieces) {
        if (s.kind == ConvexSolid::Kind::cylinder && s.points.size() == 2)
            offer(lowestOfRims(pose(s.points[0]), s.radius, pose(s.points[1]), s.radius));
        else
            for (const Vec3& p : s.points) offer(pose(p) - Vec3(0, 0, s.radius));
    }
    return low;
}

class LowestSearch {
public:
    LowestSearch(const Motion& motion, const std::vector<ConvexSolid>& pieces, const Pose& after)
        : m_motion(motion), m_pieces(pieces), m_after(after) {
        for (const Move& m : motion.moves) {
            m_best.push_back(m.shown);
            const bool level = !m.slides && std::abs((after.turn * m.axis).z()) > 1 - 1e-12;
            if (level) continue;
            m_free.push_back(m_best.size() - 1);
        }
        m_low = at(m_best).z();
    }
    LowestPlace run() {
        const int samples = m_free.size() == 1 ? 180 : m_free.size() == 2 ? 36 : 12;
        sample(m_best, 0, samples);
        constexpr int rounds = 3; // one move after the other
        for (int i = 0; i < (m_free.size() > 1 ? rounds : 1); ++i)
            for (const std::size_t k : m_free) refine(k, samples);
        return {at(m_best), m_best};
    }

private:
    [[nodiscard]] Vec3 at(const std::vector<double>& values) const {
        const Pose own = poseAt(m_motion, values);
        return lowestOf(m_pieces, {m_after.turn * own.turn, m_after(own.shift)});
    }
    [[nodiscard]] std::pair<double, double> ends(std::size_t k) const {
        const Move& m = m_motion.moves[k];
        return m.endless ? std::pair(-std::numbers::pi, std::numbers::pi) : std::pair(m.from, m.to);
    }
    bool take(const std::vector<double>& values) {
        const double z = at(values).z();
        if (!(z < m_low - 1e-9)) return false;
        m_low = z;
        m_best = values;
        return true;
    }
    void sample(std::vector<double> values, std::size_t i, int samples) {
        if (i == m_free.size()) {
            take(values);
            return;
        }
        const auto [from, to] = ends(m_free[i]);
        for (int s = 0; s <= samples; ++s) {
            values[m_free[i]] = from + (to - from) * s / samples;
            sample(values, i + 1, samples);
        }
    }
    void refine(std::size_t k, int samples) {
        const auto [from, to] = ends(k);
        const double step = (to - from) / samples;
        const double a = std::max(from, m_best[k] - step), b = std::min(to, m_best[k] + step);
        if (!(b > a)) return;
        std::vector<double> values = m_best;
        (void)leastBetween(
            [&](double v) {
                values[k] = v;
                take(values);
                return at(values).z();
            },
            a, b, 1e-7 * (to - from));
    }

    const Motion& m_motion;
    const std::vector<ConvexSolid>& m_pieces;
    Pose m_after;
    std::vector<std::size_t> m_free; ///< moves that lift or lower
    std::vector<double> m_best;
    double m_low = 0;
};

} // namespace

LowestPlace lowestOver(const Motion& motion, const std::vector<ConvexSolid>& pieces, const Pose& after) {
    return LowestSearch(motion, pieces, after).run();
}

} // namespace slab
