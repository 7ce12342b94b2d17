#include "core/plates/flat_part.h"
#include "core/plates/outline.h"
#include "core/plates/prisms.h"
#include "core/plates/solid.h"
#include <algorithm>

namespace slab {

namespace {

double distanceToRing(const Ring& ring, const Vec2& p) {
    double least = 1e300;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2 &a = ring[i], b = ring[(i + 1) % ring.size()] - a;
        const double t = std::clamp((p - a).dot(b) / std::max(b.squaredNorm(), 1e-300), 0.0, 1.0);
        least = std::min(least, (p - a - t * b).norm());
    }
    return least;
}

/// The hole whose edge a point lies on; -1 = the outline's own.
int holeAt(const FlatPart& part, const Vec2& point) {
    int hole = -1;
    double least = distanceToRing(part.outline.outer, point);
    for (std::size_t i = 0; i < part.outline.holes.size(); ++i)
        if (const double d = distanceToRing(part.outline.holes[i], point); d < least) {
            least = d;
            hole = static_cast<int>(i);
        }
    return hole;
}

bool sound(const FlatPart& part) {
    const auto ring = [](const Ring& r) { return r.size() >= 3 && isSimple(r); };
    return part.thickness > 0 && ring(part.outline.outer) && signedArea(part.outline.outer) > 1e-6 &&
           std::all_of(part.outline.holes.begin(), part.outline.holes.end(), ring) &&
           area(part.outline) > 1e-6;
}

} // namespace

Expected<Plate> flatPart(const FlatPart& part) {
    using namespace plates;
    if (!sound(part))
        return fail("part-outline", part.name + " has an outline that crosses itself or has no area", {},
                    "Change the sizes that it is made from.");
    PlaneTable planes(part.frame.origin, slab::bounds(part.outline.outer).size().norm() + part.thickness);
    Half outer, inner;
    const Cells cells = prisms(planes, part.frame, part.outline, part.thickness, outer, inner);
    const auto pieces = assemble(planes, cells);
    if (pieces.empty()) return fail("part-outline", "nothing is left of " + part.name);
    Plate plate;
    plate.name = part.name;
    plate.form = part.form;
    plate.stock = part.stock;
    plate.thickness = part.thickness;
    plate.volume = pieces.front().volume;
    const auto label = [&](const Half&, const Vec3& point) {
        SideLabel side;
        const int hole = holeAt(part, part.frame.toPlane(point));
        if (hole >= 0) {
            const auto k = static_cast<std::size_t>(hole);
            if (k < part.holes.size()) side.opening = part.holes[k];
        }
        return side;
    };
    if (!readOutlines(plate, pieces.front(), planes, outer, inner, label))
        return fail("part-outline", "nothing is left of the outside face of " + part.name);
    plate.solid = pieces.front().solid;
    for (const Cell& c : cells) plate.cells.push_back({ConvexSolid::Kind::hull, c.vertices, 0});
    return plate;
}

} // namespace slab
