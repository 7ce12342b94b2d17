#include "core/plates/groups.h"
#include "core/base/index.h"
#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

namespace slab::plates {

namespace {

const Vec3& corner(const Cell& c, const Cell::Facet& f, int i) {
    return c.vertices[at(c.corners[at(f.begin + i % f.count)])];
}

/// An edge of facet f of c has all of facet g of d on its far side.
bool parted(const Cell& c, const Cell::Facet& f, const Cell& d, const Cell::Facet& g, const Vec3& normal,
            double tolerance) {
    for (int i = 0; i < f.count; ++i) {
        const Vec3& a = corner(c, f, i);
        const Vec3 along = corner(c, f, i + 1) - a;
        const double length = along.norm();
        if (length < tolerance) continue;
        const Vec3 out = along.cross(normal) / length;
        bool all = true;
        for (int k = 0; k < g.count && all; ++k) all = out.dot(corner(d, g, k) - a) > -tolerance;
        if (all) return true;
    }
    return false;
}

/// One facet of one cell.
struct FacetOfCell {
    int plane = 0;
    bool flip = false;
    int cell = 0, facet = 0;
};

/// Sides by plane, and on each plane those that are not flipped first.
std::vector<FacetOfCell> sidesOf(const Cells& cells) {
    std::vector<FacetOfCell> sides;
    for (std::size_t c = 0; c < cells.size(); ++c)
        for (std::size_t f = 0; f < cells[c].facets.size(); ++f) {
            const Half& half = cells[c].facets[f].half;
            sides.push_back({half.plane, half.flip, static_cast<int>(c), static_cast<int>(f)});
        }
    std::sort(sides.begin(), sides.end(), [](const FacetOfCell& a, const FacetOfCell& b) {
        return std::tie(a.plane, a.flip, a.cell, a.facet) < std::tie(b.plane, b.flip, b.cell, b.facet);
    });
    return sides;
}

int rootOf(std::vector<int>& parent, int i) {
    while (parent[at(i)] != i) i = parent[at(i)] = parent[at(parent[at(i)])];
    return i;
}

} // namespace

std::vector<Cells> connectedGroups(const PlaneTable& planes, const Cells& cells, double tolerance) {
    if (cells.size() == 1) return {cells};
    std::vector<int> parent(cells.size());
    std::iota(parent.begin(), parent.end(), 0);
    const std::vector<FacetOfCell> sides = sidesOf(cells);
    for (auto begin = sides.begin(); begin != sides.end();) {
        const auto end =
            std::find_if(begin, sides.end(), [&](const FacetOfCell& s) { return s.plane != begin->plane; });
        const auto flipped = std::find_if(begin, end, [](const FacetOfCell& s) { return s.flip; });
        const Vec3 n = planes[begin->plane].normal;
        for (auto s = begin; s != flipped; ++s)
            for (auto t = flipped; t != end; ++t) {
                const int a = rootOf(parent, s->cell), b = rootOf(parent, t->cell);
                const Cell &c = cells[at(s->cell)], &d = cells[at(t->cell)];
                if (a == b || !boxesMeet(bounds(c), bounds(d), tolerance)) continue;
                const auto &f = c.facets[at(s->facet)], &g = d.facets[at(t->facet)];
                if (!parted(c, f, d, g, n, tolerance) && !parted(d, g, c, f, -n, tolerance))
                    parent[at(std::max(a, b))] = std::min(a, b);
            }
        begin = end;
    }
    std::map<int, Cells> groups;
    for (std::size_t i = 0; i < cells.size(); ++i)
        groups[rootOf(parent, static_cast<int>(i))].push_back(cells[i]);
    std::vector<Cells> out;
    for (auto& [root, group] : groups) out.push_back(std::move(group));
    return out;
}

} // namespace slab::plates
