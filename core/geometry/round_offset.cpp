#include "core/geometry/round_offset.h"
#include <algorithm>
#include <cmath>
#include <polyclipping/clipper.hpp>

namespace slab {

namespace {

constexpr double roundGrid = 1e-6;  // mm
constexpr double chordError = 0.05; // mm

ClipperLib::Path toGrid(const Ring& ring, bool counterClockwise) {
    ClipperLib::Path path;
    for (const Vec2& p : ring)
        path.emplace_back(std::llround(p.x() / roundGrid), std::llround(p.y() / roundGrid));
    if (ClipperLib::Orientation(path) != counterClockwise) std::reverse(path.begin(), path.end());
    return path;
}

Ring fromGrid(const ClipperLib::Path& path, bool counterClockwise) {
    Ring ring;
    for (const auto& q : path)
        ring.emplace_back(static_cast<double>(q.X) * roundGrid, static_cast<double>(q.Y) * roundGrid);
    return (signedArea(ring) > 0) == counterClockwise ? ring : reversed(ring);
}

} // namespace

std::vector<Polygon> roundOffset(const std::vector<Polygon>& regions, double distance) {
    ClipperLib::ClipperOffset tool(2, chordError / roundGrid);
    for (const Polygon& region : regions) {
        if (region.outer.size() < 3) continue;
        tool.AddPath(toGrid(region.outer, true), ClipperLib::jtRound, ClipperLib::etClosedPolygon);
        for (const Ring& hole : region.holes)
            if (hole.size() >= 3)
                tool.AddPath(toGrid(hole, false), ClipperLib::jtRound, ClipperLib::etClosedPolygon);
    }
    ClipperLib::PolyTree tree;
    tool.Execute(tree, distance / roundGrid);
    std::vector<Polygon> result;
    for (const ClipperLib::PolyNode* node = tree.GetFirst(); node; node = node->GetNext()) {
        if (node->IsHole() || node->Contour.size() < 3) continue;
        Polygon polygon{fromGrid(node->Contour, true), {}};
        for (const ClipperLib::PolyNode* hole : node->Childs)
            if (hole->Contour.size() >= 3) polygon.holes.push_back(fromGrid(hole->Contour, false));
        result.push_back(std::move(polygon));
    }
    return result;
}

} // namespace slab
