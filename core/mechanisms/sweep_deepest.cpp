#include "core/mechanisms/sweep_deepest.h"
#include "core/geometry/convex_core.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

class DeepestPlace {
public:
    DeepestPlace(const Motion& motion, const std::vector<ConvexSolid>& moving,
                 const std::vector<ConvexSolid>& fixed, SweepResult seen, int looks)
        : m_motion(motion), m_moving(moving), m_best(std::move(seen)), m_looks(looks) {
        for (const ConvexSolid& s : moving) m_home.emplace_back(s);
        for (const ConvexSolid& s : fixed) {
            m_still.emplace_back(s);
            m_boxes.push_back(bounds(s));
        }
        for (const Move& m : motion.moves) {
            m_low.push_back(m.endless ? -std::numbers::pi : m.from);
            m_size.push_back(m.endless ? 2 * std::numbers::pi : m.to - m.from);
        }
    }

    SweepResult run() {
        std::vector<Start> starts{{-m_best.clearance, m_best.at}};
        const int most = m_looks / 2;
        for (std::size_t n = 0; n < poses() && m_used < most; ++n) {
            std::vector<double> values = poseOf(n);
            const double depth = depthAt(values);
            if (depth > 0) starts.push_back({depth, std::move(values)});
        }
        std::stable_sort(starts.begin(), starts.end(),
                         [](const Start& a, const Start& b) { return a.depth > b.depth; });
        std::vector<Start> taken;
        for (Start& s : starts) {
            if (taken.size() == startsAtMost) break;
            const bool apart =
                std::none_of(taken.begin(), taken.end(), [&](const Start& other) { return alike(s, other); });
            if (apart) taken.push_back(std::move(s));
        }
        for (Start& s : taken) climb(std::move(s));
        return m_best;
    }

private:
    static constexpr std::size_t startsAtMost = 8;
    static constexpr std::size_t perMove = 24; ///< poses along each move

    struct Start {
        double depth = 0; ///< mm
        std::vector<double> at;
    };

    [[nodiscard]] std::size_t poses() const {
        constexpr std::size_t most = 1000;
        std::size_t n = 2;
        for (std::size_t i = 0; i < m_low.size(); ++i) n *= perMove;
        return std::min(n, most);
    }
    /// Evenly spread over all moves, however many are looked at: the additive recurrence by powers of the
    /// root of x^(d+1) = x + 1 (Roberts' generalised golden ratio).
    [[nodiscard]] std::vector<double> poseOf(std::size_t n) const {
        double root = 1.5;
        const double power = 1 / (static_cast<double>(m_low.size()) + 1);
        for (int i = 0; i < 40; ++i) root = std::pow(1 + root, power);
        std::vector<double> values;
        double step = 1;
        for (std::size_t i = 0; i < m_low.size(); ++i) {
            step /= root;
            const double share = 0.5 + step * static_cast<double>(n);
            values.push_back(m_low[i] + m_size[i] * (share - std::floor(share)));
        }
        return values;
    }
    /// Two of which either may lead to the same place.
    [[nodiscard]] bool alike(const Start& a, const Start& b) const {
        for (std::size_t i = 0; i < m_low.size(); ++i)
            if (std::abs(a.at[i] - b.at[i]) > 1.5 * m_size[i] / static_cast<double>(perMove)) return false;
        return true;
    }

    /// Greatest depth of any two pieces in a pose, mm; 0 where none meet.
    double depthAt(const std::vector<double>& values) {
        const Pose pose = poseAt(m_motion, values);
        double most = 0;
        for (std::size_t i = 0; i < m_moving.size(); ++i) {
            ConvexSolid solid = m_moving[i];
            for (Vec3& p : solid.points) p = pose(p);
            const Box3 here = bounds(solid);
            Prepared placed(solid);
            placed.turnedFrom(m_home[i], pose.turn);
            for (std::size_t j = 0; j < m_still.size() && m_used < m_looks; ++j) {
                const Box3& there = m_boxes[j];
                // No deeper than the way out along an axis of the body.
                const double out =
                    std::min((here.max - there.min).minCoeff(), (there.max - here.min).minCoeff());
                if (!(out > most)) continue;
                ++m_used;
                const Nearest n = nearest(placed, m_still[j]);
                if (!n.meets) continue;
                most = std::max(most, n.depth);
                if (!(-n.depth < m_best.clearance)) continue;
                m_best.clearance = -n.depth;
                m_best.bound = std::min(m_best.bound, m_best.clearance);
                m_best.at = values;
                m_best.onMoving = n.onA;
                m_best.onFixed = n.onB;
            }
        }
        return most;
    }

    void climb(Start s) {
        constexpr double last = 1.0 / 256; // of the range
        for (double step = 0.5 / static_cast<double>(perMove); step >= last && m_used < m_looks;) {
            const double before = s.depth;
            for (std::size_t i = 0; i < m_low.size(); ++i)
                for (const double way : {-step, step}) {
                    std::vector<double> values = s.at;
                    values[i] = std::clamp(values[i] + way * m_size[i], m_low[i], m_low[i] + m_size[i]);
                    const double depth = depthAt(values);
                    if (depth > s.depth) s = {depth, std::move(values)};
                }
            if (!(s.depth > before)) step /= 2;
        }
    }

    const Motion& m_motion;
    const std::vector<ConvexSolid>& m_moving;
    std::vector<Prepared> m_home, m_still;
    std::vector<Box3> m_boxes;
    std::vector<double> m_low, m_size;
    SweepResult m_best;
    int m_looks = 0, m_used = 0;
};

} // namespace

SweepResult deepest(const Motion& motion, const std::vector<ConvexSolid>& moving,
                    const std::vector<ConvexSolid>& fixed, SweepResult seen, int looks) {
    if (!(seen.clearance < 0) || motion.moves.empty()) return seen;
    return DeepestPlace(motion, moving, fixed, std::move(seen), looks).run();
}

} // namespace slab
