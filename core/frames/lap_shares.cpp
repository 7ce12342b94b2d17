#include "core/frames/lap_shares.h"
#include <algorithm>
#include <array>

namespace slab::frames {

namespace {

/// Do three boards whose planes are parallel to one line have a column in common?
bool haveColumn(const FrameChoice& a, const FrameChoice& b, const FrameChoice& c, const Vec3& along) {
    const Vec3 na = a.place.axes.col(2), nb = b.place.axes.col(2), nc = c.place.axes.col(2);
    Mat3 planes;
    planes << na.transpose(), nb.transpose(), along.transpose();
    const auto solver = planes.partialPivLu();
    double low = 1e300, high = -1e300;
    for (const double sa : {-0.5, 0.5})
        for (const double sb : {-0.5, 0.5}) { // corners of what the first two have in common
            const Vec3 at = solver.solve(Vec3(na.dot(a.place.origin) + sa * a.thickness,
                                              nb.dot(b.place.origin) + sb * b.thickness, 0));
            const double over = nc.dot(at - c.place.origin);
            low = std::min(low, over);
            high = std::max(high, over);
        }
    return low < c.thickness / 2 && high > -c.thickness / 2;
}

class Sharer {
public:
    Sharer(const std::vector<Piece>& pieces, const std::vector<LapChoice>& laps,
           const std::vector<Stretch>& stretches)
        : m_pieces(pieces), m_laps(laps), m_stretches(stretches), m_shares(laps.size()) {}

    std::vector<std::optional<LapShare>> share() {
        for (std::size_t i = 0; i < m_laps.size(); ++i) {
            if (m_shares[i]) continue;
            std::vector<std::size_t> group{m_laps[i].first, m_laps[i].second};
            for (std::size_t p = 0; p < m_pieces.size(); ++p)
                if (joins(p, group, m_laps[i].along)) group.push_back(p);
            if (group.size() > 2) split(std::move(group));
        }
        return std::move(m_shares);
    }

private:
    [[nodiscard]] std::optional<std::size_t> lapOf(std::size_t a, std::size_t b) const {
        for (std::size_t i = 0; i < m_laps.size(); ++i)
            if ((m_laps[i].first == a && m_laps[i].second == b) ||
                (m_laps[i].first == b && m_laps[i].second == a))
                return i;
        return {};
    }
    [[nodiscard]] bool joins(std::size_t piece, const std::vector<std::size_t>& group,
                             const Vec3& along) const {
        for (const std::size_t a : group) {
            const auto lap = a == piece ? std::nullopt : lapOf(a, piece);
            if (!lap || m_shares[*lap] || !oneWay(m_laps[*lap].along, along)) return false;
            for (const std::size_t b : group)
                if (b != a &&
                    !haveColumn(*m_pieces[a].choice, *m_pieces[b].choice, *m_pieces[piece].choice, along))
                    return false;
        }
        return true;
    }
    [[nodiscard]] bool isLower(std::size_t a, std::size_t b) const {
        const LapChoice& lap = m_laps[*lapOf(a, b)];
        return (lap.first == a) == lap.firstLower;
    }
    void split(std::vector<std::size_t> group) {
        const std::size_t n = group.size();
        std::vector<std::size_t> order(n, m_pieces.size()); // the lowest first
        Stretch common{-1e300, 1e300};
        for (const std::size_t p : group) {
            std::size_t under = 0;
            for (const std::size_t q : group)
                if (q != p) {
                    under += isLower(q, p) ? 1U : 0U;
                    const Stretch& s = m_stretches[*lapOf(p, q)];
                    common = {std::max(common.low, s.low), std::min(common.high, s.high)};
                }
            order[under] = p;
        }
        const bool ranked = std::find(order.begin(), order.end(), m_pieces.size()) == order.end();
        if (!ranked || common.high - common.low < 1) return;
        const auto level = [&](std::size_t k) {
            return common.low + (common.high - common.low) * static_cast<double>(k) / static_cast<double>(n);
        };
        for (std::size_t a = 0; a < n; ++a)
            for (std::size_t b = a + 1; b < n; ++b)
                m_shares[*lapOf(order[a], order[b])] = LapShare{order, common, level(a + 1), level(b)};
    }

    const std::vector<Piece>& m_pieces;
    const std::vector<LapChoice>& m_laps;
    const std::vector<Stretch>& m_stretches;
    std::vector<std::optional<LapShare>> m_shares;
};

} // namespace

std::vector<std::optional<LapShare>> sharedLaps(const std::vector<Piece>& pieces,
                                                const std::vector<LapChoice>& laps,
                                                const std::vector<Stretch>& stretches) {
    return Sharer(pieces, laps, stretches).share();
}

} // namespace slab::frames
