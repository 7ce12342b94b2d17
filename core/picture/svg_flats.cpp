#include "core/body/curve_path.h"
#include "core/body/outline.h"
#include "core/picture/svg_outline.h"
#include <algorithm>

namespace slab {

OutlineFlats flatsOf(const OutlineDraft& draft, double tolerance) {
    constexpr int most = 200; // as in the document
    OutlineFlats flats;
    for (std::size_t i = 0; i < draft.points.size(); ++i) {
        const Vec2 &a = draft.points[i], &b = draft.points[(i + 1) % draft.points.size()];
        const OutlineEdge& edge = draft.edges[i];
        int count = 1;
        double off = 0;
        if (edge.kind == OutlineEdge::Kind::arc) {
            const double chord = (b - a).norm();
            count = facetsFor(chord, edge.bulge, tolerance);
            off = deviationOf(chord, edge.bulge, count);
        } else if (edge.kind != OutlineEdge::Kind::line) {
            std::vector<Vec2> points{a};
            points.insert(points.end(), edge.through.begin(), edge.through.end());
            points.push_back(b);
            const auto path = edge.kind == OutlineEdge::Kind::spline
                                  ? splinePath(points)
                                  : ellipsePath(a, b, edge.meet, edge.sweep);
            if (path) {
                const std::vector<double> breaks = breaksWithin(*path, tolerance, most);
                count = breaks.empty() ? most + 1 : static_cast<int>(breaks.size()) - 1;
                off = breaks.empty() ? 0 : deviationOf(*path, breaks);
            }
        }
        flats.count += count;
        flats.deviation = std::max(flats.deviation, off + edge.off);
    }
    return flats;
}

} // namespace slab
