#include "core/frames/barred.h"
#include "core/frames/section.h"
#include "core/frames/way_words.h"
#include <algorithm>
#include <cmath>

namespace slab {

namespace {

constexpr double leastShare = 0.05;

/// How far inside a board is in the way, mm; 0 = nowhere.
double depthOf(const Opening& o) {
    if (o.purpose == "exit" || o.lid) return 400;
    if (o.purpose == "sight_slit") return 300;
    if (o.purpose == "hand_hole") return 120;
    return 0;
}

/// What boards of one frame take of an opening, and how near behind the plate they begin.
struct Barred {
    double share = 0, behind = 0;
    Vec3 at = Vec3::Zero();
};
/// Whether any of the board can lie behind the hole, by its box.
bool isBehind(const Plate& board, const BoardSlab& slab, const Ring& hole) {
    if (board.solid.vertices.empty()) return true;
    Vec3 low = Vec3::Constant(1e300), high = -low;
    for (const Vec3& v : board.solid.vertices) {
        const Vec3 p = slab.frame.toLocal(v);
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    const Box2 box = bounds(hole);
    return low.z() < slab.half && high.z() > -slab.half && (low.head<2>().array() < box.max.array()).all() &&
           (high.head<2>().array() > box.min.array()).all();
}
std::optional<Barred> barredBy(const FrameSet& frames, const std::string& frame, const Plate& plate,
                               const Ring& hole, double depth) {
    BoardSlab behind{plate.frame, depth / 2};
    behind.frame.origin -= (plate.thickness + depth / 2) * plate.frame.axes.col(2);
    const Polygon open{signedArea(hole) < 0 ? reversed(hole) : hole, {}};
    std::vector<Polygon> shadows;
    double near = depth;
    const std::string form = "frames/" + frame;
    for (const Plate& board : frames.parts) {
        if (board.form != form || !isBehind(board, behind, hole)) continue;
        for (const ConvexSolid& cell : board.cells)
            for (const Polygon& shadow : shadowOf(cell, behind, 0)) {
                if (intersect({shadow}, {open}).empty()) continue;
                shadows.push_back(shadow);
                for (const Vec3& p : cell.points)
                    near = std::min(near, std::max(0.0, depth / 2 - behind.frame.toLocal(p).z()));
            }
    }
    if (shadows.empty()) return {};
    double taken = 0;
    for (const Polygon& p : intersect(unite(shadows), {open})) taken += area(p);
    const double share = taken / area(open);
    if (share < leastShare) return {};
    const Vec2 middle = centroid(open);
    return Barred{share, near, plate.frame.toBody(Vec3(middle.x(), middle.y(), -plate.thickness))};
}

} // namespace

std::vector<Finding> barredFindings(const Project& project, const PlateList& plates, const FrameSet& frames,
                                    const UnitStyle& units) {
    std::vector<Finding> out;
    for (const Opening& o : project.openings) {
        const double depth = depthOf(o);
        if (!(depth > 0)) continue;
        for (const Plate& plate : plates) {
            if (plate.form.starts_with("frames/")) continue;
            for (const PanelLoop& hole : plate.holes) {
                if (hole.opening != o.name || hole.outer.size() < 3) continue;
                for (const FrameFact& f : frames.frames) {
                    const auto barred = barredBy(frames, f.name, plate, hole.outer, depth);
                    if (!barred) continue;
                    const std::string share =
                        std::to_string(static_cast<int>(std::round(100 * barred->share)));
                    out.push_back(
                        {Severity::look,
                         "opening-barred",
                         "Frame " + f.name + " stands behind opening " + o.name + " in " + plate.name + ", " +
                             printLength(barred->behind, units) + " inside, and takes " + share + " % of it.",
                         {"opening:" + o.name, "frame:" + f.name, "plate:" + plate.name},
                         "Move the frame or the opening, or cut an opening in the frame (plate \"frames/" +
                             f.name + "\").",
                         std::array<double, 3>{barred->at.x(), barred->at.y(), barred->at.z()}});
                }
            }
        }
    }
    return out;
}

} // namespace slab
