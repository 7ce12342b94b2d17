// Branch and bound over the values of a motion.
#include "core/mechanisms/sweep.h"
#include "core/geometry/convex_core.h"
#include "core/mechanisms/long_pieces.h"
#include <algorithm>
#include <cmath>
#include <numbers>
#include <queue>

namespace slab {

namespace {

double fromAxis(const Vec3& p, const Vec3& at, const Vec3& axis) {
    return axis.cross(p - at).norm();
}

SweepBall ballOf(const ConvexSolid& s) {
    SweepBall ball;
    const Box3 box = bounds(s);
    ball.centre = (box.min + box.max) / 2;
    for (const Vec3& p : s.points) ball.radius = std::max(ball.radius, (p - ball.centre).norm());
    ball.radius += s.radius;
    return ball;
}
/// Where a move takes a ball.
void moveBall(SweepBall& ball, const Move& m) {
    if (m.slides) {
        ball.centre += (m.from + m.to) / 2 * m.axis;
        ball.radius += (m.to - m.from) / 2;
        return;
    }
    const Vec3 foot = m.at + m.axis.dot(ball.centre - m.at) * m.axis;
    ball.radius += (ball.centre - foot).norm();
    ball.centre = foot;
}

/// For each move the greatest distance of any point of the solid from its axis; 1 for a slide.
std::vector<double> reaches(const Motion& motion, const ConvexSolid& s) {
    std::vector<double> out;
    SweepBall ball = ballOf(s);
    for (std::size_t i = 0; i < motion.moves.size(); ++i) {
        const Move& m = motion.moves[i];
        double reach = 1;
        if (!m.slides && i == 0) {
            reach = 0;
            for (const Vec3& p : s.points) reach = std::max(reach, fromAxis(p, m.at, m.axis));
            reach += s.radius;
        } else if (!m.slides) {
            reach = fromAxis(ball.centre, m.at, m.axis) + ball.radius;
        }
        out.push_back(reach);
        moveBall(ball, m);
    }
    return out;
}

struct SweepNode {
    double lower = 0;
    int moving = 0, fixed = 0;
    std::vector<double> low, high;
    std::size_t order = 0; ///< of making, so that equals come in a fixed order
};
struct Later {
    bool operator()(const SweepNode& a, const SweepNode& b) const {
        return a.lower != b.lower ? a.lower > b.lower : a.order > b.order;
    }
};

class SweepSearch {
public:
    SweepSearch(const Motion& motion, const std::vector<ConvexSolid>& moving,
                const std::vector<ConvexSolid>& fixed, const SweepOptions& options)
        : m_motion(motion), m_moving(moving), m_fixed(fixed), m_options(options) {
        for (const ConvexSolid& s : moving) {
            m_reach.push_back(reaches(motion, s));
            m_home.emplace_back(s);
        }
        for (const ConvexSolid& s : fixed) m_still.emplace_back(s);
        m_best.clearance = std::numeric_limits<double>::infinity();
    }

    SweepResult run() {
        begin();
        while (!m_queue.empty() && m_queue.top().lower < goal() && !spent()) {
            const SweepNode node = m_queue.top();
            m_queue.pop();
            split(node);
        }
        if (!m_queue.empty()) m_left = std::min(m_left, m_queue.top().lower);
        m_best.bound = std::min(m_best.clearance, m_left);
        m_best.above = m_best.bound >= m_options.enough;
        return m_best;
    }

    /// Signed distance of one pair in one pose; remembers the least.
    Nearest look(int moving, int fixed, const std::vector<double>& values) {
        ++m_best.steps;
        m_placed = m_moving[at(moving)];
        const Pose pose = poseAt(m_motion, values);
        for (Vec3& p : m_placed.points) p = pose(p);
        Prepared placed(m_placed);
        placed.turnedFrom(m_home[at(moving)], pose.turn);
        const bool deep = !(m_options.stop >= 0);
        const Nearest n = nearest(placed, m_still[at(fixed)], deep);
        const double signedDistance = n.meets ? (deep ? -n.depth : -1.0) : n.distance;
        if (n.meets && m_met < 0) m_met = m_best.steps;
        if (signedDistance < m_best.clearance) {
            m_best.clearance = signedDistance;
            m_best.at = values;
            m_best.onMoving = n.onA;
            m_best.onFixed = n.onB;
        }
        return n;
    }
    /// Least that the pair's distance can be in a box of values about the pose just looked at.
    [[nodiscard]] double lowerBound(const SweepNode& node, const Nearest& n) const {
        const std::vector<double>& reach = m_reach[at(node.moving)];
        double way = 0;
        for (std::size_t i = 0; i < reach.size(); ++i) way += reach[i] * (node.high[i] - node.low[i]) / 2;
        const double first = (n.meets ? -n.depth : n.distance) - way;
        if (n.meets || !(n.distance > 1e-9)) return first;
        return std::max(first, planeBound(node, (n.onA - n.onB) / n.distance));
    }

private:
    static std::size_t at(int i) { return static_cast<std::size_t>(i); }

    [[nodiscard]] bool spent() const {
        return m_best.steps >= m_options.steps ||
               (m_met >= 0 && m_best.steps - m_met >= m_options.stepsOnceMet) ||
               m_best.clearance < m_options.stop;
    }
    /// What a node must lie below to be worth splitting.
    [[nodiscard]] double goal() const {
        const double slack = m_best.clearance < 0 ? std::max(m_options.tolerance, 0.02 * -m_best.clearance)
                                                  : m_options.tolerance;
        return std::min(m_best.clearance - slack, m_options.enough);
    }

    void begin() {
        std::vector<double> low, high;
        for (const Move& m : m_motion.moves) {
            low.push_back(m.endless ? -std::numbers::pi : m.from);
            high.push_back(m.endless ? std::numbers::pi : m.to);
        }
        for (int i = 0; i < static_cast<int>(m_moving.size()); ++i)
            for (int j = 0; j < static_cast<int>(m_fixed.size()); ++j) {
                add({0, i, j, low, high, m_made++}, -1e300);
                if (!(m_best.clearance < m_options.stop)) continue;
                m_left = -std::numeric_limits<double>::infinity(); // the others were not looked at
                return;
            }
    }

    void add(SweepNode node, double parent) {
        std::vector<double> middle(node.low.size());
        for (std::size_t i = 0; i < middle.size(); ++i) middle[i] = (node.low[i] + node.high[i]) / 2;
        const Nearest n = look(node.moving, node.fixed, middle);
        node.lower = std::max(parent, lowerBound(node, n));
        if (node.lower < goal())
            m_queue.push(std::move(node));
        else
            m_left = std::min(m_left, node.lower);
    }

    void split(const SweepNode& node) {
        std::size_t widest = 0;
        double way = -1;
        for (std::size_t i = 0; i < node.low.size(); ++i) {
            const double w = m_reach[at(node.moving)][i] * (node.high[i] - node.low[i]);
            if (w > way) {
                way = w;
                widest = i;
            }
        }
        if (!(way > 0)) return;
        const double middle = (node.low[widest] + node.high[widest]) / 2;
        for (const bool upper : {false, true}) {
            SweepNode half = node;
            (upper ? half.low : half.high)[widest] = middle;
            half.order = m_made++;
            add(std::move(half), node.lower);
        }
    }

    /// Second-order bound: the gap along the fixed direction `n`, from the fixed solid to the moving one.
    [[nodiscard]] double planeBound(const SweepNode& node, const Vec3& n) const {
        const std::size_t count = m_motion.moves.size();
        std::vector<Vec3> slope(count, Vec3::Zero());
        std::vector<double> constant(count, 0), half(count);
        std::vector<double> middle(count);
        for (std::size_t i = 0; i < count; ++i) {
            half[i] = (node.high[i] - node.low[i]) / 2;
            middle[i] = (node.high[i] + node.low[i]) / 2;
        }
        Pose after; // the moves that carry this one
        for (std::size_t i = count; i-- > 0;) {
            const Move& m = m_motion.moves[i];
            const Vec3 axis = after.turn * m.axis;
            if (m.slides) {
                constant[i] = n.dot(axis);
            } else {
                slope[i] = n.cross(axis);
                constant[i] = -slope[i].dot(after(m.at));
            }
            const Pose own = poseAt({{}, {m}}, {middle[i]});
            after.shift = after.turn * own.shift + after.shift;
            after.turn = after.turn * own.turn;
        }
        const Core moving(m_placed), fixed(m_fixed[at(node.fixed)]);
        double least = std::numeric_limits<double>::infinity();
        for (unsigned signs = 0; signs < (1U << count); ++signs) {
            Vec3 q = n;
            double shift = 0;
            for (std::size_t i = 0; i < count; ++i) {
                const double s = (signs >> i) & 1U ? half[i] : -half[i];
                q += s * slope[i];
                shift += s * constant[i];
            }
            least = std::min(least, -moving.reach(-q) - moving.margin * q.norm() + shift);
        }
        return least - fixed.reach(n) - fixed.margin - remainder(m_reach[at(node.moving)], half);
    }

    [[nodiscard]] double remainder(const std::vector<double>& reach, const std::vector<double>& half) const {
        double sum = 0;
        for (std::size_t i = 0; i < half.size(); ++i)
            for (std::size_t j = i; j < half.size(); ++j) {
                // Move i lies within move j: turning a displacement by j bends it, sliding does not.
                if (m_motion.moves[j].slides) continue;
                sum += reach[i] * half[i] * half[j] * (i == j ? 0.5 : 1);
            }
        return sum;
    }

    const Motion& m_motion;
    const std::vector<ConvexSolid>&m_moving, &m_fixed;
    SweepOptions m_options;
    std::vector<std::vector<double>> m_reach;
    std::vector<Prepared> m_home, m_still; ///< of m_moving and m_fixed
    std::priority_queue<SweepNode, std::vector<SweepNode>, Later> m_queue;
    ConvexSolid m_placed; ///< the moving piece as last looked at
    SweepResult m_best;
    double m_left = std::numeric_limits<double>::infinity(); ///< least bound among the boxes laid aside
    std::size_t m_made = 0;
    int m_met = -1; ///< distances worked out when they were first known to meet
};

} // namespace

SweepBall sweptBall(const Motion& motion, const ConvexSolid& solid) {
    SweepBall ball = ballOf(solid);
    for (const Move& move : motion.moves) moveBall(ball, move);
    return ball;
}

SweepResult leastOver(const Motion& motion, const std::vector<ConvexSolid>& moving,
                      const std::vector<ConvexSolid>& fixed, const SweepOptions& options) {
    const std::vector<ConvexSolid> lengths = inShortLengths(motion, moving);
    if (lengths.size() > moving.size()) {
        // A length has its own small reach. How deep the whole meets something, they do not tell.
        SweepOptions apart = options;
        apart.stop = std::max(options.stop, 0.0);
        SweepResult r = SweepSearch(motion, lengths, fixed, apart).run();
        if (!(r.clearance < apart.stop) || options.stop >= 0) return r;
    }
    return SweepSearch(motion, moving, fixed, options).run();
}

} // namespace slab
