#include "core/body/flatten.h"
#include <Eigen/Eigenvalues>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <cmath>

namespace slab {

namespace {

/// A corner's coordinate as sign × unknown; unknown -1 = it stays.
struct Slot {
    int unknown = -1;
    double sign = 1;
};

/// A face's plane: normal · (x − around) = offset.
struct Leaf {
    std::vector<int> loop;
    Vec3 around = Vec3::Zero(), normal = Vec3::UnitZ();
    double offset = 0;
    [[nodiscard]] double off(const Vec3& x) const { return normal.dot(x - around) - offset; }
};

Leaf fittedLeaf(const std::vector<Vec3>& corners, const std::vector<int>& loop) {
    Leaf leaf{loop};
    const auto count = static_cast<Eigen::Index>(loop.size());
    Eigen::Matrix3Xd points(3, count);
    for (Eigen::Index i = 0; i < count; ++i)
        points.col(i) = corners[static_cast<std::size_t>(loop[static_cast<std::size_t>(i)])];
    leaf.around = points.rowwise().mean();
    points.colwise() -= leaf.around;
    leaf.normal =
        Eigen::SelfAdjointEigenSolver<Mat3>(Mat3(points * points.transpose())).eigenvectors().col(0);
    return leaf;
}

/// The unknowns of the problem in sizes of the whole, and one round of the search.
class Search {
public:
    Search(std::vector<Vec3> corners, const std::vector<std::vector<int>>& faces, const FlattenWish& wish,
           const std::vector<int>& twins)
        : m_given(corners), m_now(std::move(corners)), m_slots(m_now.size()) {
        for (std::size_t i = 0; i < m_now.size(); ++i) addUnknowns(i, wish, twins);
        m_pull.assign(static_cast<std::size_t>(m_unknowns), 0);
        double sum = 0;
        for (std::size_t i = 0; i < m_now.size(); ++i) sum += weightOf(wish, i);
        for (std::size_t i = 0; i < m_now.size(); ++i)
            for (const Slot& slot : m_slots[i])
                if (slot.unknown >= 0)
                    m_pull[static_cast<std::size_t>(slot.unknown)] +=
                        weightOf(wish, i) * static_cast<double>(m_now.size()) / sum;
        for (std::size_t f = 0; f < faces.size(); ++f)
            if (faces[f].size() > 3 && !addLeaf(faces[f])) m_held.push_back(static_cast<int>(f));
        m_force = Eigen::VectorXd::Zero(m_rows);
    }

    /// Faces of more than three corners none of which may move.
    [[nodiscard]] const std::vector<int>& held() const { return m_held; }
    [[nodiscard]] bool idle() const { return m_leaves.empty(); }
    [[nodiscard]] const std::vector<Vec3>& corners() const { return m_now; }

    /// One round. @return its largest step; negative when the system could not be solved
    double round() {
        const int planes = 3 * static_cast<int>(m_leaves.size()), all = m_unknowns + planes + m_rows;
        std::vector<Eigen::Triplet<double>> entries;
        Eigen::VectorXd right = Eigen::VectorXd::Zero(all);
        for (int u = 0; u < m_unknowns; ++u) entries.emplace_back(u, u, m_pull[static_cast<std::size_t>(u)]);
        pullBack(right);
        for (int q = 0; q < planes; ++q) entries.emplace_back(m_unknowns + q, m_unknowns + q, hold);
        int row = m_unknowns + planes;
        for (std::size_t f = 0; f < m_leaves.size(); ++f) constrain(f, row, entries, right);
        for (int r = 0; r < m_rows; ++r) {
            const int at = m_unknowns + planes + r;
            entries.emplace_back(at, at, -give);
            right[at] -= give * m_force[r];
        }
        Eigen::SparseMatrix<double> system(all, all);
        system.setFromTriplets(entries.begin(), entries.end());
        const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower> solver(system);
        if (solver.info() != Eigen::Success) return -1;
        Eigen::VectorXd step = solver.solve(right);
        step += solver.solve(right - system.selfadjointView<Eigen::Lower>() * step);
        if (!step.allFinite()) return -1;
        m_force = step.tail(m_rows);
        return take(step);
    }

    [[nodiscard]] double worst() const {
        double off = 0;
        for (const Leaf& leaf : m_leaves)
            for (const int v : leaf.loop)
                off = std::max(off, std::abs(leaf.off(m_now[static_cast<std::size_t>(v)])));
        return off;
    }

private:
    /// Planes are held a little where they are, and constraints give a little, so that neither a plane that
    /// nothing decides nor a constraint that says the same twice spoils the system. Neither moves the result.
    static constexpr double hold = 1e-7, give = 1e-9;

    std::vector<Vec3> m_given, m_now;
    std::vector<std::array<Slot, 3>> m_slots;
    std::vector<double> m_pull; ///< weight of each unknown
    std::vector<Leaf> m_leaves;
    std::vector<int> m_held;
    Eigen::VectorXd m_force; ///< multipliers of the constraints
    int m_unknowns = 0, m_rows = 0;

    static double weightOf(const FlattenWish& wish, std::size_t i) {
        return wish.weights.empty() ? 1 : wish.weights[i];
    }

    void addUnknowns(std::size_t i, const FlattenWish& wish, const std::vector<int>& twins) {
        const auto pinned = [&](std::size_t c) { return !wish.pinned.empty() && wish.pinned[c]; };
        const auto twin = static_cast<std::size_t>(std::max(twins[i], 0));
        if (pinned(i) || (twins[i] >= 0 && pinned(twin))) return;
        for (std::size_t k = 0; k < 3; ++k) {
            if (twins[i] >= 0 && twin < i)
                m_slots[i][k] = {m_slots[twin][k].unknown, k == 1 ? -1.0 : 1.0};
            else if (twins[i] < 0 || twin != i || k != 1) // one that is its own twin stays on y = 0
                m_slots[i][k] = {m_unknowns++, 1};
        }
    }

    /// @return false if none of its corners may move
    bool addLeaf(const std::vector<int>& loop) {
        const bool free = std::any_of(loop.begin(), loop.end(), [&](int v) {
            const auto& slots = m_slots[static_cast<std::size_t>(v)];
            return std::any_of(slots.begin(), slots.end(), [](const Slot& s) { return s.unknown >= 0; });
        });
        if (!free) return false;
        m_leaves.push_back(fittedLeaf(m_now, loop));
        m_rows += static_cast<int>(loop.size());
        return true;
    }

    void pullBack(Eigen::VectorXd& right) const {
        std::vector<bool> done(static_cast<std::size_t>(m_unknowns), false);
        for (std::size_t i = 0; i < m_now.size(); ++i)
            for (std::size_t k = 0; k < 3; ++k) {
                const int u = m_slots[i][k].unknown;
                if (u < 0 || done[static_cast<std::size_t>(u)]) continue;
                done[static_cast<std::size_t>(u)] = true;
                const auto axis = static_cast<Eigen::Index>(k);
                right[u] = m_pull[static_cast<std::size_t>(u)] * (m_given[i][axis] - m_now[i][axis]);
            }
    }

    void constrain(std::size_t f, int& row, std::vector<Eigen::Triplet<double>>& entries,
                   Eigen::VectorXd& right) const {
        const Leaf& leaf = m_leaves[f];
        const Vec3 u = leaf.normal.unitOrthogonal(), v = leaf.normal.cross(u);
        const int plane = m_unknowns + 3 * static_cast<int>(f);
        for (const int corner : leaf.loop) {
            const Vec3 arm = m_now[static_cast<std::size_t>(corner)] - leaf.around;
            for (std::size_t k = 0; k < 3; ++k) {
                const Slot& slot = m_slots[static_cast<std::size_t>(corner)][k];
                if (slot.unknown >= 0)
                    entries.emplace_back(row, slot.unknown,
                                         slot.sign * leaf.normal[static_cast<Eigen::Index>(k)]);
            }
            entries.emplace_back(row, plane, u.dot(arm));
            entries.emplace_back(row, plane + 1, v.dot(arm));
            entries.emplace_back(row, plane + 2, -1.0);
            right[row] = -leaf.off(m_now[static_cast<std::size_t>(corner)]);
            ++row;
        }
    }

    double take(const Eigen::VectorXd& step) {
        double largest = 0;
        for (std::size_t i = 0; i < m_now.size(); ++i)
            for (std::size_t k = 0; k < 3; ++k) {
                const Slot& slot = m_slots[i][k];
                if (slot.unknown < 0) continue;
                m_now[i][static_cast<Eigen::Index>(k)] += slot.sign * step[slot.unknown];
                largest = std::max(largest, std::abs(step[slot.unknown]));
            }
        for (std::size_t f = 0; f < m_leaves.size(); ++f) {
            Leaf& leaf = m_leaves[f];
            const auto q = step.segment<3>(m_unknowns + 3 * static_cast<Eigen::Index>(f));
            const Vec3 u = leaf.normal.unitOrthogonal(), v = leaf.normal.cross(u);
            const Vec3 turned = leaf.normal + q[0] * u + q[1] * v;
            leaf.offset = (leaf.offset + q[2]) / turned.norm();
            leaf.normal = turned.normalized();
        }
        return largest;
    }
};

/// For each corner the one that mirrors it in y = 0, itself on y = 0, or -1.
std::vector<int> twinsOf(const std::vector<Vec3>& corners, bool symmetric, double near) {
    std::vector<int> twins(corners.size(), -1);
    if (!symmetric) return twins;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        if (twins[i] >= 0) continue;
        const Vec3 image(corners[i].x(), -corners[i].y(), corners[i].z());
        for (std::size_t j = i; j < corners.size() && twins[i] < 0; ++j)
            if (twins[j] < 0 && (corners[j] - image).norm() <= near) {
                twins[i] = static_cast<int>(j);
                twins[j] = static_cast<int>(i);
            }
    }
    return twins;
}

/// Figures around the middle in sizes of the whole; y keeps its zero.
struct Measure {
    Vec3 middle = Vec3::Zero();
    double size = 0;
};
Measure measureOf(const std::vector<Vec3>& corners) {
    Vec3 low = corners.front(), high = corners.front();
    for (const Vec3& c : corners) {
        low = low.cwiseMin(c);
        high = high.cwiseMax(c);
    }
    Measure m{(low + high) / 2, (high - low).norm()};
    m.middle.y() = 0;
    return m;
}

Flattened placed(const std::vector<Vec3>& corners, const std::vector<Vec3>& moved, const Measure& m,
                 const std::vector<int>& twins, const FlattenWish& wish) {
    Flattened result{corners};
    const auto pinned = [&](std::size_t i) { return !wish.pinned.empty() && wish.pinned[i]; };
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto twin = static_cast<std::size_t>(std::max(twins[i], 0));
        if (pinned(i) || (twins[i] >= 0 && pinned(twin))) continue;
        Vec3& c = result.corners[i];
        c = m.middle + moved[i] * m.size;
        if (twins[i] >= 0 && twin < i) c = result.corners[twin].cwiseProduct(Vec3(1, -1, 1));
        if (twins[i] >= 0 && twin == i) c.y() = corners[i].y();
        const double move = (c - corners[i]).norm();
        if (move <= result.move) continue;
        result.move = move;
        result.corner = static_cast<int>(i);
    }
    return result;
}

} // namespace

double offPlane(const std::vector<Vec3>& corners, const std::vector<int>& face) {
    const Leaf leaf = fittedLeaf(corners, face);
    double off = 0;
    for (const int v : face) off = std::max(off, std::abs(leaf.off(corners[static_cast<std::size_t>(v)])));
    return off;
}

Expected<Flattened> flattened(const std::vector<Vec3>& corners, const std::vector<std::vector<int>>& faces,
                              const FlattenWish& wish) {
    constexpr int rounds = 80;
    constexpr double flat = 1e-11, still = 1e-10, alike = 1e-6;
    for (const double w : wish.weights)
        if (!(w > 0 && w <= 1e6))
            return fail("flatten-weight", "a corner's weight is not between 0 and 1,000,000", {},
                        "Type a number such as 10; pin the corner to hold it where it is.");
    const Measure m = corners.empty() ? Measure{} : measureOf(corners);
    if (m.size <= 0) return Flattened{corners, 0, -1};
    const std::vector<int> twins = twinsOf(corners, wish.symmetric, alike * m.size);
    std::vector<Vec3> unit;
    for (const Vec3& c : corners) unit.emplace_back((c - m.middle) / m.size);
    Search search(unit, faces, wish, twins);
    if (search.idle() || search.worst() <= 1e-14) return Flattened{corners, 0, -1, search.held()};
    double step = 1;
    for (int round = 0; round < rounds && (step > still || search.worst() > flat); ++round) {
        step = search.round();
        if (step < 0 || step > 1) break;
    }
    if (step < 0 || step > still || search.worst() > flat)
        return fail("flatten-failed", "no near corners make all of its faces flat", {},
                    "Unpin a corner, or name three corners for a face that is to bend.");
    Flattened result = placed(corners, search.corners(), m, twins, wish);
    result.held = search.held();
    if (result.move > wish.most * m.size)
        return fail("flatten-far", "making its faces flat would move a corner too far", {},
                    "Move the corners nearer to their planes, or split a face.");
    return result;
}

} // namespace slab
