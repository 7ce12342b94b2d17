#include "core/plates/groups.h"
#include "core/base/index.h"
#include <algorithm>
#include <map>
#include <numeric>

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

bool shareFacet(const PlaneTable& planes, const Cell& a, const Cell& b, double tolerance) {
    for (const auto& f : a.facets)
        for (const auto& g : b.facets) {
            if (!(g.half == f.half.other())) continue;
            const Vec3 n = planes.outward(f.half);
            if (!parted(a, f, b, g, n, tolerance) && !parted(b, g, a, f, -n, tolerance)) return true;
        }
    return false;
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
    std::vector<Box3> boxes;
    for (const Cell& c : cells) boxes.push_back(bounds(c));
    for (std::size_t i = 0; i < cells.size(); ++i)
        for (std::size_t j = i + 1; j < cells.size(); ++j) {
            const int a = rootOf(parent, static_cast<int>(i)), b = rootOf(parent, static_cast<int>(j));
            if (a == b || !boxesMeet(boxes[i], boxes[j], tolerance)) continue;
            if (shareFacet(planes, cells[i], cells[j], tolerance))
                parent[at(std::max(a, b))] = std::min(a, b);
        }
    std::map<int, Cells> groups;
    for (std::size_t i = 0; i < cells.size(); ++i)
        groups[rootOf(parent, static_cast<int>(i))].push_back(cells[i]);
    std::vector<Cells> out;
    for (auto& [root, group] : groups) out.push_back(std::move(group));
    return out;
}

} // namespace slab::plates
