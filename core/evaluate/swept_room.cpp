#include "core/evaluate/swept_room.h"
#include "core/geometry/polyhedron.h"
#include "core/mechanisms/sweep_things.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr double turnStep = 5 * std::numbers::pi / 180, slideStep = 50; ///< radians, mm
constexpr std::size_t mostCells = 400;
constexpr int facets = 12; ///< round what is round

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

/// Corners of a solid; what is round and flat-ended is drawn round in facets.
ConvexSolid cornered(const ConvexSolid& solid) {
    if (solid.kind != ConvexSolid::Kind::cylinder) return solid;
    ConvexSolid round = solid;
    round.radius /= std::cos(std::numbers::pi / facets);
    return {ConvexSolid::Kind::hull, toPolyhedron(round, facets).vertices, 0};
}

/// Cells of the grid from `first` up to but without `last`, of each move.
struct Block {
    std::vector<std::size_t> first, last;
};

class Sweeper {
public:
    /// Whether the hull of points grown by a radius reaches where it is asked for.
    using Reaches = std::function<bool(const std::vector<Vec3>& points, double radius, double wanted)>;

    Sweeper(const MovingSolid& solid, const Motion& motion, const Reaches& reaches)
        : m_solid(solid), m_motion(motion), m_reaches(reaches), m_shape(cornered(solid.shape)),
          m_grid(gridOf(motion)), m_bulge(bulgeOf()) {}

    void add(std::vector<FitSolid>& room) {
        Block all{std::vector<std::size_t>(m_grid.size(), 0), {}};
        for (const Grid& g : m_grid) all.last.push_back(std::max<std::size_t>(g.cells, 1));
        add(all, room);
    }

private:
    /// What of a block reaches where it is asked for: halves of what may, until single cells are left.
    void add(const Block& block, std::vector<FitSolid>& room) {
        if (!reaches(block)) return;
        std::size_t widest = 0, most = 1;
        for (std::size_t k = 0; k < block.first.size(); ++k)
            if (const std::size_t cells = block.last[k] - block.first[k]; cells > most) {
                most = cells;
                widest = k;
            }
        if (most == 1) {
            room.push_back(
                {m_solid.name, m_solid.mechanism, hullOf(block.first), m_solid.wanted, true, {}, m_bulge});
            return;
        }
        Block low = block, high = block;
        low.last[widest] = high.first[widest] = block.first[widest] + most / 2;
        add(low, room);
        add(high, room);
    }
    /// Whether what holds all of a block's poses does: the middle one, grown by how far any point moves from
    /// it.
    [[nodiscard]] bool reaches(const Block& block) const {
        if (!m_reaches) return true;
        std::vector<double> values, half;
        for (std::size_t k = 0; k < m_grid.size(); ++k) {
            const double from = m_grid[k].from + m_grid[k].step * static_cast<double>(block.first[k]);
            const double to = m_grid[k].from + m_grid[k].step * static_cast<double>(block.last[k]);
            values.push_back((from + to) / 2);
            half.push_back((to - from) / 2);
        }
        double moved = 0; // by the moves so far, from where they stand in the middle
        std::vector<Vec3> points = m_solid.shape.points;
        const double radius = m_solid.shape.radius / std::cos(std::numbers::pi / facets);
        for (std::size_t k = 0; k < m_grid.size(); ++k) {
            const Move& m = m_motion.moves[k];
            double far = 0;
            for (const Vec3& p : points) far = std::max(far, m.axis.cross(p - m.at).norm());
            far += radius + moved;
            moved += m.slides ? half[k] : 2 * far * std::sin(std::min(half[k], std::numbers::pi) / 2);
            const Pose middle = poseAt({{}, {m}}, {values[k]});
            for (Vec3& p : points) p = middle(p);
        }
        return m_reaches(points, radius + moved + m_bulge, m_solid.wanted);
    }
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
    const Reaches& m_reaches;
    ConvexSolid m_shape;
    std::vector<Grid> m_grid;
    double m_bulge = 0;
};

/// @param moved  of each solid; those that nothing moves stand as they are
struct Moved {
    const MovingSolid* solid = nullptr;
    Motion motion;
};
std::vector<FitSolid> roomWhere(const std::vector<Moved>& moved, const Sweeper::Reaches& reaches) {
    std::vector<FitSolid> room;
    for (const auto& [s, motion] : moved) {
        if (motion.moves.empty())
            room.push_back({s->name, s->mechanism, s->shape, s->wanted, true, {}});
        else
            Sweeper(*s, motion, reaches).add(room);
    }
    return room;
}

/// What sweeps as it says itself, or nothing.
Motion ownMotion(const MechanismSet& mechanisms, const MovingSolid& s) {
    const auto motion = static_cast<std::size_t>(std::max(s.motion, 0));
    if (s.motion < 0 || motion >= mechanisms.motions.size() || !s.swept || s.meets != MovingSolid::Meets::all)
        return {};
    return mechanisms.motions[motion];
}
std::vector<Moved> ownMoved(const MechanismSet& mechanisms) {
    std::vector<Moved> moved;
    for (const MovingSolid& s : mechanisms.solids) moved.push_back({&s, ownMotion(mechanisms, s)});
    return moved;
}

/// Where a board can be: about its plane, within the box of the shell's edges there.
struct BoardRoom {
    const FrameChoice& choice;
    Box3 box{Vec3::Constant(1e300), Vec3::Constant(-1e300)};

    [[nodiscard]] bool reachedBy(const std::vector<Vec3>& points, double reach) const {
        Box3 theirs{points.front(), points.front()};
        double low = 1e300, high = -1e300; // over the board's middle
        for (const Vec3& p : points) {
            theirs.min = theirs.min.cwiseMin(p);
            theirs.max = theirs.max.cwiseMax(p);
            const double over = choice.place.toLocal(p).z();
            low = std::min(low, over);
            high = std::max(high, over);
        }
        const double half = choice.thickness / 2 + reach;
        return low <= half && high >= -half && (theirs.min - box.max).maxCoeff() <= reach &&
               (box.min - theirs.max).maxCoeff() <= reach;
    }
};
BoardRoom roomOf(const FrameChoice& choice, const Skin& shell) {
    BoardRoom room{choice};
    std::vector<double> over;
    for (const Vec3& p : shell.vertices) over.push_back(choice.place.toLocal(p).z());
    const double half = choice.thickness / 2;
    for (const SkinEdge& e : shell.edges) {
        const auto a = static_cast<std::size_t>(e.a), b = static_cast<std::size_t>(e.b);
        if (std::min(over[a], over[b]) > half || std::max(over[a], over[b]) < -half) continue;
        const double rise = over[b] - over[a];
        for (const double level : {-half, half}) { // from where it comes into the board to where it leaves it
            const double at = rise != 0 ? std::clamp((level - over[a]) / rise, 0.0, 1.0) : level < 0 ? 0 : 1;
            const Vec3 p = shell.vertices[a] + at * (shell.vertices[b] - shell.vertices[a]);
            room.box.min = room.box.min.cwiseMin(p);
            room.box.max = room.box.max.cwiseMax(p);
        }
    }
    return room;
}

/// What reaches one of the boards.
Sweeper::Reaches reachesOf(const std::vector<BoardRoom>& rooms) {
    return [&rooms](const std::vector<Vec3>& points, double radius, double wanted) {
        return std::any_of(rooms.begin(), rooms.end(), [&](const BoardRoom& room) {
            return room.reachedBy(points, radius + room.choice.clearance.value_or(wanted));
        });
    };
}
std::vector<BoardRoom> roomsOf(const std::vector<FrameChoice>& boards, const Skin& shell) {
    std::vector<BoardRoom> rooms;
    for (const FrameChoice& c : boards) {
        const BoardRoom room = roomOf(c, shell);
        if (room.box.min.x() <= room.box.max.x()) rooms.push_back(room);
    }
    return rooms;
}

} // namespace

std::vector<FitSolid> sweptRoom(const MechanismSet& mechanisms) {
    return roomWhere(ownMoved(mechanisms), {});
}

std::vector<FitSolid> sweptRoom(const MechanismSet& mechanisms, const std::vector<FrameChoice>& boards,
                                const Skin& shell) {
    const auto rooms = roomsOf(boards, shell);
    if (rooms.empty()) return {};
    return roomWhere(ownMoved(mechanisms), reachesOf(rooms));
}

std::vector<FitSolid> sweptRoomSeenFrom(int carrier, const MechanismSet& mechanisms,
                                        const std::vector<FitSolid>& still,
                                        const std::vector<FrameChoice>& boards, const Skin& shell) {
    const auto rooms = roomsOf(boards, shell);
    if (rooms.empty()) return {};
    const Motion& own = mechanisms.motions[static_cast<std::size_t>(carrier)];
    std::vector<MovingSolid> standing;
    standing.reserve(still.size());
    for (const FitSolid& s : still) {
        MovingSolid solid{s.group, s.name, s.shape};
        solid.wanted = s.clearance;
        standing.push_back(solid);
    }
    std::vector<Moved> moved;
    for (const MovingSolid& s : standing) moved.push_back({&s, mechanisms::relativeMotion({}, own)});
    for (Moved& m : ownMoved(mechanisms)) {
        // A drum that is round, and whatever else of the same mechanism does not move by itself, goes along.
        const bool along = m.motion.moves.empty() && m.solid->mechanism == own.mechanism;
        if (!along) m.motion = mechanisms::relativeMotion(m.motion, own);
        moved.push_back(std::move(m));
    }
    return roomWhere(moved, reachesOf(rooms));
}

} // namespace slab
