#include "core/evaluate/swept_room.h"
#include "core/geometry/polyhedron.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double turnStep = 5 * std::numbers::pi / 180, slideStep = 50; ///< radians, mm
constexpr std::size_t mostCells = 400;

struct Grid {
    double from = 0, step = 0;
    std::size_t cells = 0; ///< 0 = does not move
};

/// Of each move, so that there are not too many cells together.
std::vector<Grid> gridOf(const Motion& motion) {
    for (double coarser = 1;; coarser *= 1.5) {
        std::vector<Grid> grid;
        std::size_t all = 1;
        for (const Move& m : motion.moves) {
            const double from = m.endless ? 0 : m.from, to = m.endless ? 2 * std::numbers::pi : m.to;
            const double most = coarser * (m.slides ? slideStep : turnStep);
            const auto cells = static_cast<std::size_t>(std::ceil((to - from) / most - 1e-9));
            grid.push_back({from, cells > 0 ? (to - from) / static_cast<double>(cells) : 0, cells});
            all *= std::max<std::size_t>(cells, 1);
        }
        if (all <= mostCells) return grid;
    }
}

/// Corners of a solid; what is round and flat-ended is drawn round in twelve facets.
ConvexSolid cornered(const ConvexSolid& solid) {
    if (solid.kind != ConvexSolid::Kind::cylinder) return solid;
    constexpr int facets = 12;
    ConvexSolid round = solid;
    round.radius /= std::cos(std::numbers::pi / facets);
    return {ConvexSolid::Kind::hull, toPolyhedron(round, facets).vertices, 0};
}

class Sweeper {
public:
    Sweeper(const MovingSolid& solid, const Motion& motion)
        : m_solid(solid), m_motion(motion), m_shape(cornered(solid.shape)), m_grid(gridOf(motion)) {}

    void add(std::vector<FitSolid>& room) {
        std::vector<std::size_t> cell(m_grid.size(), 0);
        const double bulge = bulgeOf();
        for (;;) {
            room.push_back({m_solid.name, m_solid.mechanism, hullOf(cell), m_solid.wanted + bulge, true, {}});
            std::size_t k = 0;
            while (k < cell.size() && ++cell[k] >= std::max<std::size_t>(m_grid[k].cells, 1)) cell[k++] = 0;
            if (k == cell.size()) return;
        }
    }

private:
    /// Of all poses at the corners of a cell of the grid.
    [[nodiscard]] ConvexSolid hullOf(const std::vector<std::size_t>& cell) const {
        ConvexSolid hull = m_shape;
        hull.points.clear();
        const std::size_t corners = std::size_t(1) << cell.size();
        for (std::size_t corner = 0; corner < corners; ++corner) {
            std::vector<double> values;
            bool twice = false; // a move that stands still has one end
            for (std::size_t k = 0; k < cell.size(); ++k) {
                const bool far = (corner >> k & 1U) != 0;
                twice = twice || (far && m_grid[k].cells == 0);
                values.push_back(m_grid[k].from +
                                 m_grid[k].step * static_cast<double>(cell[k] + (far ? 1U : 0U)));
            }
            if (twice) continue;
            const Pose pose = poseAt(m_motion, values);
            for (const Vec3& p : m_shape.points) hull.points.push_back(pose(p));
        }
        return hull;
    }
    /// How far arcs stand out of the chords between neighbouring poses, at most, mm.
    [[nodiscard]] double bulgeOf() const {
        double sum = 0, reached = 0; // by earlier moves: from where a point starts
        for (std::size_t k = 0; k < m_grid.size(); ++k) {
            const Move& m = m_motion.moves[k];
            if (m.slides) {
                reached += std::abs(m.to - m.from) + std::abs(m.from);
                continue;
            }
            double radius = 0;
            for (const Vec3& p : m_shape.points) radius = std::max(radius, m.axis.cross(p - m.at).norm());
            radius += m_shape.radius + reached;
            sum += radius * (1 - std::cos(m_grid[k].step / 2));
            if (m_grid[k].cells > 0) reached += 2 * radius;
        }
        return sum;
    }

    const MovingSolid& m_solid;
    const Motion& m_motion;
    ConvexSolid m_shape;
    std::vector<Grid> m_grid;
};

} // namespace

std::vector<FitSolid> sweptRoom(const MechanismSet& mechanisms) {
    std::vector<FitSolid> room;
    for (const MovingSolid& s : mechanisms.solids) {
        const auto motion = static_cast<std::size_t>(std::max(s.motion, 0));
        if (s.motion < 0 || motion >= mechanisms.motions.size() || !s.swept ||
            s.meets != MovingSolid::Meets::all)
            room.push_back({s.name, s.mechanism, s.shape, s.wanted, true, {}});
        else
            Sweeper(s, mechanisms.motions[motion]).add(room);
    }
    return room;
}

} // namespace slab
