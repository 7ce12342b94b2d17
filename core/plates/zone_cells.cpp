// Convex pieces of the zone of a face of a skin that is not convex: space is split along the zone's own sides
// until no side runs through a piece; a piece then is in or out as a whole.
#include "core/plates/moving_outline.h"
#include "core/plates/skin_clip.h"
#include "core/plates/zones.h"
#include <algorithm>
#include <optional>

namespace slab::plates {

namespace {

/// What of one side is still inside a piece: a convex polygon on its plane; no points = all of the plane.
struct Wall {
    int plane = -1;
    std::vector<Vec3> polygon;
};
using Walls = std::vector<Wall>;

class Splitter {
public:
    Splitter(Shell& shell, const MovingOutline& outline) : m_shell(shell), m_outline(outline) {
        m_regular = isRegular(outline);
    }

    Cells run(const Cell& slab) {
        split(slab, walls());
        return std::move(m_in);
    }

private:
    [[nodiscard]] Walls walls() const {
        Walls out;
        const double t = m_outline.thickness;
        for (const auto& loop : m_outline.loops) {
            const auto outer = cornersAt(loop, 0), inner = cornersAt(loop, t);
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const std::size_t k = (i + 1) % loop.size();
                const auto body = [&](const Vec2& p, double w) {
                    return m_outline.frame.toBody(Vec3(p.x(), p.y(), w));
                };
                Wall wall{loop[i].half.plane, {}};
                if (m_regular)
                    wall.polygon = {body(outer[i], 0), body(outer[k], 0), body(inner[k], -t),
                                    body(inner[i], -t)};
                out.push_back(std::move(wall));
            }
        }
        return out;
    }

    [[nodiscard]] bool isIn(const Cell& cell) const {
        const Vec3 p = m_outline.frame.toLocal(middle(cell));
        std::vector<Ring> loops;
        if (m_regular)
            for (const auto& loop : m_outline.loops) loops.push_back(cornersAt(loop, -p.z()));
        else
            loops = loopsAt(m_outline, -p.z());
        return windingAt(loops, p.head<2>()) > 0;
    }

    /// -1 inside, 1 outside, 0 crossed; 2 lies in the plane.
    [[nodiscard]] int sideOfWall(const Wall& wall, int plane) const {
        if (wall.plane == plane) return 2;
        if (wall.polygon.empty()) return 0;
        const double eps = m_shell.planes.eps() * 10;
        bool in = false, out = false;
        for (const Vec3& p : wall.polygon) {
            const double d = m_shell.planes[plane].distance(p);
            in = in || d < -eps;
            out = out || d > eps;
        }
        return in && out ? 0 : out ? 1 : in ? -1 : 2;
    }

    [[nodiscard]] std::size_t bestWall(const Walls& walls) const {
        std::size_t best = 0, fewest = walls.size() + 1;
        for (std::size_t i = 0; i < walls.size(); ++i) {
            std::size_t crossed = 0;
            for (const Wall& other : walls) crossed += sideOfWall(other, walls[i].plane) == 0;
            if (crossed >= fewest) continue;
            fewest = crossed;
            best = i;
            if (crossed == 0) break;
        }
        return best;
    }

    void halve(const Wall& wall, int plane, Walls& inside, Walls& outside) const {
        const int where = sideOfWall(wall, plane);
        if (where == 2) return;
        if (where < 0 || wall.polygon.empty()) inside.push_back(wall);
        if (where > 0 || wall.polygon.empty()) outside.push_back(wall);
        if (where != 0 || wall.polygon.empty()) return;
        Wall in{wall.plane, {}}, out{wall.plane, {}};
        for (std::size_t i = 0; i < wall.polygon.size(); ++i) {
            const Vec3& a = wall.polygon[i];
            const Vec3& b = wall.polygon[(i + 1) % wall.polygon.size()];
            const double da = m_shell.planes[plane].distance(a), db = m_shell.planes[plane].distance(b);
            if (da <= 0) in.polygon.push_back(a);
            if (da >= 0) out.polygon.push_back(a);
            if (da * db < 0) {
                in.polygon.emplace_back(a + da / (da - db) * (b - a));
                out.polygon.push_back(in.polygon.back());
            }
        }
        if (in.polygon.size() >= 3) inside.push_back(std::move(in));
        if (out.polygon.size() >= 3) outside.push_back(std::move(out));
    }

    void split(const Cell& cell, Walls walls) {
        if (cell.empty()) return;
        while (!walls.empty()) {
            const std::size_t i = bestWall(walls);
            const int plane = walls[i].plane;
            const Half half{plane, false};
            if (sideOf(m_shell.planes, cell, half) != 0) {
                walls.erase(walls.begin() + static_cast<std::ptrdiff_t>(i));
                continue;
            }
            Walls inside, outside;
            for (const Wall& w : walls) halve(w, plane, inside, outside);
            split(clipped(m_shell.planes, cell, half.other()), std::move(outside));
            split(clipped(m_shell.planes, cell, half), std::move(inside));
            return;
        }
        if (volume(cell) > noiseVolume && isIn(cell)) m_in.push_back(cell);
    }

    Shell& m_shell;
    const MovingOutline& m_outline;
    bool m_regular = true;
    Cells m_in;
};

} // namespace

Cells outlineZone(Shell& shell, int face, bool full) {
    const MovingOutline outline = movingOutline(shell, face, full);
    Cell slab = clipped(shell.planes, shell.whole, shell.skin[at(face)]);
    slab = clipped(shell.planes, slab, shell.inner[at(face)].other());
    Splitter splitter(shell, outline);
    return insideSkin(shell, splitter.run(slab), face);
}

} // namespace slab::plates
