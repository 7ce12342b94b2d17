#include "core/board/mechanism_shapes.h"
#include "core/board/mechanism_grips.h"
#include "core/board/mechanism_moves.h"
#include "core/board/silhouette.h"
#include "core/mechanisms/shown.h"
#include <algorithm>
#include <cmath>

namespace slab::detail {

namespace {

std::vector<Ring> ringsOf(const std::vector<Polygon>& regions) {
    std::vector<Ring> rings;
    for (const Polygon& region : regions) {
        rings.push_back(region.outer);
        rings.insert(rings.end(), region.holes.begin(), region.holes.end());
    }
    return rings;
}

Vec3 eyeOf(BoardView view) {
    return view == BoardView::side ? Vec3::UnitY() : view == BoardView::front ? Vec3::UnitX() : Vec3::UnitZ();
}

Ring counterClockwise(Ring ring) {
    return signedArea(ring) < 0 ? reversed(std::move(ring)) : ring;
}

/// Is it bent, as the strip of a belt is, so that its flat outline is not where it stands?
bool isBent(const Plate& plate) {
    constexpr double slack = 0.01; // mm
    return std::any_of(plate.solid.vertices.begin(), plate.solid.vertices.end(), [&](const Vec3& p) {
        const double w = plate.frame.toLocal(p).z();
        return w > slack || w < -plate.thickness - slack;
    });
}

/// What all convex pieces of a plate cover.
std::vector<Ring> seenPieces(const Plate& plate, BoardView view) {
    std::vector<Polygon> pieces;
    for (const ConvexSolid& cell : plate.cells) {
        Ring ring = counterClockwise(silhouette(cell, view));
        if (ring.size() >= 3) pieces.push_back({std::move(ring), {}});
    }
    return ringsOf(unite(pieces));
}

/// Seen flat a plate is its outline with its holes; at a slant or along its edge the hull of its two faces,
/// which is exact for outlines without notches.
std::vector<Ring> seenPlate(const Plate& plate, BoardView view) {
    if (isBent(plate)) return seenPieces(plate, view);
    constexpr double flat = 1 - 1e-6; // cosine
    if (std::abs(plate.frame.axes.col(2).dot(eyeOf(view))) > flat) {
        Polygon region;
        for (const Vec2& p : plate.boundary.outer) region.outer.push_back(seen(plate.frame.toBody(p), view));
        for (const PanelLoop& hole : plate.holes) {
            Ring& ring = region.holes.emplace_back();
            for (const Vec2& p : hole.outer) ring.push_back(seen(plate.frame.toBody(p), view));
        }
        return ringsOf({region});
    }
    std::vector<Vec2> points;
    for (const Vec3& p : plate.solid.vertices) points.push_back(seen(p, view));
    return {convexHull(std::move(points))};
}

void addShapes(BoardElevation& out, const Project& project, const Evaluation& evaluation) {
    struct Solid {
        std::string name, pointer;
        bool mirrored = false;
        std::vector<Polygon> pieces;
    };
    const MechanismSet& set = *evaluation.mechanisms;
    std::vector<Solid> solids; // by name, in the order of the set
    for (const MovingSolid& s : set.solids) {
        if (!s.drawn) continue;
        Ring ring = counterClockwise(silhouette(shownShape(set, s), out.view));
        if (ring.size() < 3) continue;
        auto same =
            std::find_if(solids.begin(), solids.end(), [&](const Solid& o) { return o.name == s.name; });
        if (same == solids.end()) {
            solids.push_back({s.name, mechanismAt(project, s.mechanism), s.role.starboard, {}});
            same = solids.end() - 1;
        }
        same->pieces.push_back({std::move(ring), {}});
    }
    for (Solid& s : solids)
        out.shapes.push_back({s.name, "mechanism", ringsOf(s.pieces.size() == 1 ? s.pieces : unite(s.pieces)),
                              s.pointer, s.mirrored});
    if (!evaluation.plates) return;
    for (std::size_t i = 0; i < set.parts.size(); ++i) {
        const Plate& part = set.parts[i];
        const auto& plates = evaluation.plates->plates;
        const auto shown =
            std::find_if(plates.begin(), plates.end(), [&](const Plate& p) { return p.name == part.name; });
        if (shown != plates.end())
            out.shapes.push_back({part.name, "mechanism plate", seenPlate(*shown, out.view),
                                  mechanismAt(project, part.form),
                                  i < set.roles.size() && set.roles[i].starboard});
    }
}

} // namespace

void addMechanisms(BoardElevation& out, const Project& project, const Scope& scope,
                   const Evaluation& evaluation) {
    if (evaluation.mechanisms) addShapes(out, project, evaluation);
    for (const Standing& s : standingMechanisms(project, scope, evaluation.mechanisms.get())) {
        const bool made = std::any_of(out.shapes.begin(), out.shapes.end(),
                                      [&](const BoardShape& shape) { return shape.pointer == s.pointer; });
        for (BoardMark& mark : seenMarks(s, out.view, !made)) out.marks.push_back(std::move(mark));
        for (const Grip& g : s.grips)
            if (isSeen(g, out.view))
                out.grips.push_back(
                    {g.ref, g.name, g.kind, g.place, seen(g.place, out.view), isSlanted(g, out.view)});
    }
}

} // namespace slab::detail
