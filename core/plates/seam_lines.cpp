#include "core/plates/seam_lines.h"
#include "core/plates/margins.h"
#include <algorithm>
#include <limits>
#include <set>

namespace slab::plates {

namespace {

/// A panel's box: its middle, and the direction of its longer side.
struct Middle {
    Vec2 point, along;
};
Middle middleOf(const Panel& panel) {
    const Box2 box = bounds(panel.boundary.outer);
    const Vec2 size = box.size();
    return {(box.min + box.max) / 2, size.x() >= size.y() ? Vec2(Vec2::UnitX()) : Vec2(Vec2::UnitY())};
}

} // namespace

CutLine seamLine(const SeamChoice& seam, const Panel& panel) {
    const Middle middle = middleOf(panel);
    const double c = std::cos(seam.turn), s = std::sin(seam.turn);
    const Vec2& e = middle.along;
    CutLine line;
    line.normal = Vec2(c * e.x() - s * e.y(), s * e.x() + c * e.y());
    line.offset = line.normal.dot(middle.point) + seam.at;
    return line;
}

std::pair<double, double> seamPlace(const CutLine& line, const Panel& panel) {
    const Middle middle = middleOf(panel);
    double side = line.normal.dot(middle.along);
    if (std::abs(side) < 1e-9) side = cross2(middle.along, line.normal);
    const Vec2 normal = side < 0 ? Vec2(-line.normal) : line.normal;
    const double offset = side < 0 ? -line.offset : line.offset;
    return {offset - normal.dot(middle.point),
            std::atan2(cross2(middle.along, normal), middle.along.dot(normal))};
}

bool sameLine(const CutLine& a, const CutLine& b, const Panel& panel) {
    constexpr double same = 0.01; // mm
    const bool along = a.normal.dot(b.normal) > 0;
    const Ring& ring = panel.boundary.outer;
    return std::all_of(ring.begin(), ring.end(), [&](const Vec2& p) {
        return std::abs(a.beyond(p) - (along ? b.beyond(p) : -b.beyond(p))) < same;
    });
}

double leastBetweenSeams(const Splitting& split) {
    double least = std::numeric_limits<double>::infinity();
    for (const CutPiece& piece : split.pieces) {
        std::set<int> seams;
        for (const EdgeSource& source : piece.outer.outer.sources)
            if (source.loop < 0) seams.insert(source.edge);
        if (seams.size() > 1) least = std::min(least, leastWidth(piece.outer.outer.points));
    }
    return least;
}

} // namespace slab::plates
