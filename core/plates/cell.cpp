#include "core/plates/cell.h"
#include "core/base/index.h"
#include <algorithm>
#include <array>
#include <cmath>

namespace slab::plates {

namespace {

/// Working storage of a cut, kept from one to the next: most cells are small and there are thousands.
struct Cut {
    const Cell* from = nullptr;
    Cell to;                                   // with vertices that no facet uses
    std::vector<double> distance;              // per old vertex
    std::vector<int> side;                     // -1 inside, 0 on, 1 outside
    std::vector<int> renumber;                 // old -> new, -1 = gone
    std::vector<std::array<int, 3>> crossings; // old a < old b, new index
    std::vector<char> onPlane;                 // per new vertex
    std::vector<std::pair<int, int>> edges, open;

    void begin(const Cell& cell) {
        from = &cell;
        to.vertices.clear();
        to.facets.clear();
        to.corners.clear();
        distance.resize(cell.vertices.size());
        side.resize(cell.vertices.size());
        renumber.assign(cell.vertices.size(), -1);
        crossings.clear();
        onPlane.clear();
    }

    int crossing(int a, int b) {
        if (a > b) std::swap(a, b);
        for (const auto& c : crossings)
            if (c[0] == a && c[1] == b) return c[2];
        const double da = distance[at(a)], db = distance[at(b)];
        const Vec3& pa = from->vertices[at(a)];
        const Vec3& pb = from->vertices[at(b)];
        to.vertices.push_back(pa + (da / (da - db)) * (pb - pa));
        onPlane.push_back(1);
        const int index = static_cast<int>(to.vertices.size()) - 1;
        crossings.push_back({a, b, index});
        return index;
    }
};

void clipFacet(Cut& cut, const Cell::Facet& facet) {
    const int begin = static_cast<int>(cut.to.corners.size());
    bool inside = false;
    for (int i = 0; i < facet.count; ++i) {
        const int a = cut.from->corners[at(facet.begin + i)];
        const int b = cut.from->corners[at(facet.begin + (i + 1) % facet.count)];
        const int sa = cut.side[at(a)], sb = cut.side[at(b)];
        inside = inside || sa < 0;
        if (sa <= 0) cut.to.corners.push_back(cut.renumber[at(a)]);
        if (sa * sb < 0) cut.to.corners.push_back(cut.crossing(a, b));
    }
    const int count = static_cast<int>(cut.to.corners.size()) - begin;
    if (!inside || count < 3) {
        cut.to.corners.resize(at(begin));
        return;
    }
    cut.to.facets.push_back({facet.half, begin, count});
}

/// Closes the hole with a facet on the cutting plane: its edges are the reverse of those left open there.
bool cap(Cut& cut, const Half& half) {
    auto& edges = cut.edges;
    auto& open = cut.open;
    edges.clear();
    open.clear();
    for (const auto& f : cut.to.facets)
        for (int i = 0; i < f.count; ++i) {
            const int a = cut.to.corners[at(f.begin + i)];
            const int b = cut.to.corners[at(f.begin + (i + 1) % f.count)];
            if (cut.onPlane[at(a)] && cut.onPlane[at(b)]) edges.emplace_back(b, a);
        }
    for (const auto& e : edges)
        if (std::find(edges.begin(), edges.end(), std::pair(e.second, e.first)) == edges.end())
            open.push_back(e);
    if (open.size() < 3) return false;
    const int begin = static_cast<int>(cut.to.corners.size());
    const int first = open.front().first;
    int now = first;
    for (std::size_t n = 0; n < open.size(); ++n) {
        cut.to.corners.push_back(now);
        const auto next =
            std::find_if(open.begin(), open.end(), [&](const auto& e) { return e.first == now; });
        if (next == open.end()) return false;
        now = next->second;
        if (now == first) break;
    }
    const int count = static_cast<int>(cut.to.corners.size()) - begin;
    if (now != first || count < 3) return false;
    cut.to.facets.push_back({half, begin, count});
    return true;
}

/// Without vertices that no facet uses.
Cell compact(const Cell& cell, std::vector<int>& renumber) {
    Cell out;
    out.facets = cell.facets;
    out.corners = cell.corners;
    renumber.assign(cell.vertices.size(), -1);
    int used = 0;
    for (int& c : out.corners) {
        int& to = renumber[at(c)];
        if (to < 0) to = used++;
        c = to;
    }
    out.vertices.resize(at(used));
    for (std::size_t i = 0; i < renumber.size(); ++i)
        if (renumber[i] >= 0) out.vertices[at(renumber[i])] = cell.vertices[i];
    return out;
}

const Cell::Facet* facetOn(const Cell& cell, int plane) {
    for (const auto& f : cell.facets)
        if (f.half.plane == plane) return &f;
    return nullptr;
}

} // namespace

Cell boxCell(PlaneTable& planes, const Vec3& min, const Vec3& max) {
    Cell cell;
    for (int i = 0; i < 8; ++i)
        cell.vertices.emplace_back(i & 1 ? max.x() : min.x(), i & 2 ? max.y() : min.y(),
                                   i & 4 ? max.z() : min.z());
    static constexpr int loops[6][4] = {{0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4},
                                        {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}};
    for (int f = 0; f < 6; ++f) {
        Vec3 normal = Vec3::Zero();
        normal[f / 2] = f % 2 ? 1.0 : -1.0;
        const double offset = f % 2 ? max[f / 2] : -min[f / 2];
        cell.facets.push_back({planes.add({normal, offset}), f * 4, 4});
        for (const int v : loops[f]) cell.corners.push_back(v);
    }
    setBox(cell);
    return cell;
}

int sideOf(const PlaneTable& planes, const Cell& cell, const Half& half) {
    if (const auto* same = facetOn(cell, half.plane)) return same->half.flip == half.flip ? -1 : 1;
    const double eps = planes.eps();
    bool in = false, out = false;
    for (const Vec3& v : cell.vertices) {
        const double d = planes.outside(half, v);
        in = in || d < -eps;
        out = out || d > eps;
        if (in && out) return 0;
    }
    return out ? 1 : -1;
}

Cell clipped(const PlaneTable& planes, const Cell& cell, const Half& half) {
    if (cell.empty()) return {};
    const int where = sideOf(planes, cell, half);
    if (where < 0) return cell;
    if (where > 0) return {};
    static thread_local Cut cut;
    cut.begin(cell);
    const double eps = planes.eps();
    for (std::size_t i = 0; i < cell.vertices.size(); ++i) {
        const double d = planes.outside(half, cell.vertices[i]);
        cut.distance[i] = d;
        cut.side[i] = d > eps ? 1 : d < -eps ? -1 : 0;
        if (cut.side[i] > 0) continue;
        cut.renumber[i] = static_cast<int>(cut.to.vertices.size());
        cut.to.vertices.push_back(cell.vertices[i]);
        cut.onPlane.push_back(cut.side[i] == 0);
    }
    for (const auto& facet : cell.facets) clipFacet(cut, facet);
    if (cut.to.facets.size() < 3 || !cap(cut, half)) return {};
    Cell out = compact(cut.to, cut.renumber);
    setBox(out);
    return out;
}

Cell clipped(const PlaneTable& planes, const Cell& cell, const std::vector<Half>& halves) {
    Cell rest = cell;
    for (const Half& h : halves) {
        const int where = sideOf(planes, rest, h);
        if (where > 0) return {};
        if (where == 0) rest = clipped(planes, rest, h);
        if (rest.empty()) return {};
    }
    return rest;
}

double volume(const Cell& cell) {
    if (cell.empty()) return 0;
    const Vec3 base = cell.vertices.front();
    double six = 0;
    for (const auto& f : cell.facets) {
        const Vec3 a = cell.vertices[at(cell.corners[at(f.begin)])] - base;
        for (int i = 1; i + 1 < f.count; ++i) {
            const Vec3 b = cell.vertices[at(cell.corners[at(f.begin + i)])] - base;
            const Vec3 c = cell.vertices[at(cell.corners[at(f.begin + i + 1)])] - base;
            six += a.dot(b.cross(c));
        }
    }
    return six / 6;
}

Vec3 middle(const Cell& cell) {
    Vec3 sum = Vec3::Zero();
    for (const Vec3& v : cell.vertices) sum += v;
    return sum / std::max<double>(1, static_cast<double>(cell.vertices.size()));
}

Box3 bounds(const Cells& cells) {
    Box3 box = cells.front().box;
    for (const Cell& c : cells) box = united(box, c.box);
    return box;
}

void setBox(Cell& cell) {
    if (cell.vertices.empty()) return;
    cell.box.min = cell.box.max = cell.vertices.front();
    for (const Vec3& v : cell.vertices) {
        cell.box.min = cell.box.min.cwiseMin(v);
        cell.box.max = cell.box.max.cwiseMax(v);
    }
}

bool boxesMeet(const Box3& a, const Box3& b, double margin) {
    return ((a.min - b.max).array() <= margin).all() && ((b.min - a.max).array() <= margin).all();
}

std::vector<Half> halvesOf(const Cell& cell) {
    std::vector<Half> halves;
    halves.reserve(cell.facets.size());
    for (const auto& f : cell.facets) halves.push_back(f.half);
    return halves;
}

double subtract(const PlaneTable& planes, const Cell& cell, const std::vector<Half>& halves, Cells& out) {
    std::vector<std::pair<Half, Cell>> cuts; // and what is left before each
    Cell rest = cell;
    for (const Half& h : halves) {
        const int where = sideOf(planes, rest, h);
        if (where < 0) continue;
        if (where == 0) {
            Cell next = clipped(planes, rest, h);
            cuts.emplace_back(h, std::move(rest));
            rest = std::move(next);
        }
        if (where > 0 || rest.empty()) {
            out.push_back(cell);
            return 0;
        }
    }
    const double taken = volume(rest);
    if (taken < noiseVolume) {
        out.push_back(cell);
        return 0;
    }
    for (const auto& [h, before] : cuts) {
        Cell outer = clipped(planes, before, h.other());
        if (!outer.empty() && volume(outer) > noiseVolume) out.push_back(std::move(outer));
    }
    return taken;
}

} // namespace slab::plates
