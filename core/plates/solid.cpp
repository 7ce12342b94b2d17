#include "core/plates/solid.h"
#include "core/base/index.h"
#include "core/plates/groups.h"
#include "core/plates/outer_facets.h"
#include "core/plates/pinch.h"
#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace slab::plates {

namespace {

struct FlatFace {
    Half half;
    std::vector<std::vector<int>> loops;
};

/// Point in a flat loop by crossing count, in the plane's larger two axes.
bool inside(const std::vector<int>& loop, const std::vector<Vec3>& points, const Vec3& normal,
            const Vec3& p) {
    int drop = 0;
    normal.cwiseAbs().maxCoeff(&drop);
    const int u = (drop + 1) % 3, v = (drop + 2) % 3;
    bool in = false;
    for (std::size_t i = 0, j = loop.size() - 1; i < loop.size(); j = i++) {
        const Vec3& a = points[at(loop[i])];
        const Vec3& b = points[at(loop[j])];
        if ((a[v] > p[v]) == (b[v] > p[v])) continue;
        if (p[u] < (b[u] - a[u]) * (p[v] - a[v]) / (b[v] - a[v]) + a[u]) in = !in;
    }
    return in;
}

/// A point just inside what a loop encloses, beside the middle of its longest edge: loops may share edges, so
/// a point of the loop itself tells nothing. `area` is signed against `normal`.
Vec3 probe(const std::vector<int>& loop, const std::vector<Vec3>& points, const Vec3& normal, double area) {
    Vec3 best = points[at(loop.front())];
    double longest = -1;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Vec3& a = points[at(loop[i])];
        const Vec3& b = points[at(loop[(i + 1) % loop.size()])];
        if ((a - b).squaredNorm() <= longest) continue;
        longest = (a - b).squaredNorm();
        const double step = (area > 0 ? 1e-4 : -1e-4) * std::min(1.0, std::abs(area) / longest);
        best = (a + b) / 2 + step * normal.cross(b - a);
    }
    return best;
}

/// Sorts the loops of one plane into faces: outers with their holes, on either side of the plane.
void makeFaces(std::vector<std::vector<int>> loops, const std::vector<Vec3>& points, int plane,
               const Vec3& normal, std::vector<FlatFace>& out) {
    double total = 0;
    std::vector<double> areas;
    for (const auto& l : loops) {
        areas.push_back(loopArea(l, points, normal));
        total += areas.back();
    }
    const double side = total >= 0 ? 1 : -1;
    std::vector<std::size_t> order(loops.size());
    std::iota(order.begin(), order.end(), 0U);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return std::abs(areas[a]) > std::abs(areas[b]); });
    std::vector<std::size_t> outers;
    std::vector<int> faceOf(loops.size(), -1);
    for (const std::size_t i : order) {
        const bool main = areas[i] * side > 0;
        int home = -1;
        if (!main)
            for (const std::size_t o : outers)
                if (areas[o] * side > 0 &&
                    inside(loops[o], points, normal, probe(loops[i], points, normal, areas[i])))
                    home = faceOf[o]; // outers come largest first: the last hit is the smallest
        if (home >= 0) {
            out[at(home)].loops.push_back(std::move(loops[i]));
            continue;
        }
        faceOf[i] = static_cast<int>(out.size());
        outers.push_back(i);
        out.push_back({{plane, areas[i] < 0}, {loops[i]}});
    }
}

std::vector<FlatFace> mergedFaces(const PlaneTable& planes, const Cells& cells, Welded& welded,
                                  double tolerance) {
    const OuterFacets outer = outerFacets(cells, welded);
    addCrossings(planes, outer, tolerance, welded);
    std::vector<FlatFace> faces;
    std::vector<int> candidates(welded.points.size());
    std::iota(candidates.begin(), candidates.end(), 0);
    const SortedPoints all(welded, candidates);
    EdgeChain chain;
    for (const auto& [plane, facets] : outer.planes) {
        chain.clear();
        candidates.clear();
        const Box3 box = outer.boxOf(facets, welded.points);
        all.between(box.min, box.max, 2 * tolerance, [&](int k) {
            if (std::abs(planes[plane].distance(welded.points[at(k)])) <= tolerance) candidates.push_back(k);
        });
        std::sort(candidates.begin(), candidates.end());
        const SortedPoints onPlane(welded, candidates);
        for (const auto& f : facets) addLoop(chain, outer.loop(f));
        cancelOpposite(chain); // most edges go here, before any is looked at for points on it
        chain = cutAtPoints(chain, welded, onPlane, tolerance);
        cancelOpposite(chain);
        auto loops = traceLoops(chain, welded.points, planes[plane].normal);
        std::erase_if(loops, [&](const auto& l) {
            double round = 0;
            for (std::size_t i = 0; i < l.size(); ++i)
                round += (welded.points[at(l[i])] - welded.points[at(l[(i + 1) % l.size()])]).norm();
            return std::abs(loopArea(l, welded.points, planes[plane].normal)) < tolerance * round / 4;
        });
        makeFaces(std::move(loops), welded.points, plane, planes[plane].normal, faces);
    }
    return faces;
}

/// Leaves out points where just two edges meet in a straight line, in every face alike.
void dropStraight(std::vector<FlatFace>& faces, const std::vector<Vec3>& points, double tolerance) {
    struct Around {
        int low = -1, high = -1; ///< the points it has edges to
        bool more = false;       ///< than two
    };
    std::vector<Around> around(points.size());
    const auto join = [&](int from, int to) {
        Around& a = around[at(from)];
        if (to == a.low || to == a.high) return;
        a.more = a.high >= 0;
        if (a.more) return;
        (a.low < 0 ? a.low : a.high) = to;
        if (a.high >= 0 && a.high < a.low) std::swap(a.low, a.high);
    };
    for (const auto& f : faces)
        for (const auto& l : f.loops)
            for (std::size_t i = 0; i < l.size(); ++i) {
                join(l[i], l[(i + 1) % l.size()]);
                join(l[(i + 1) % l.size()], l[i]);
            }
    std::vector<char> straight(points.size(), 0);
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (around[i].high < 0 || around[i].more) continue;
        const Vec3 a = points[at(around[i].low)] - points[i];
        const Vec3 b = points[at(around[i].high)] - points[i];
        straight[i] = a.cross(b).norm() <= tolerance * (a - b).norm() && a.dot(b) < 0;
    }
    for (auto& f : faces) {
        for (auto& l : f.loops) std::erase_if(l, [&](int v) { return straight[at(v)] != 0; });
        std::erase_if(f.loops, [](const auto& l) { return l.size() < 3; });
    }
    std::erase_if(faces, [](const FlatFace& f) { return f.loops.empty(); });
}

/// One connected group of cells as a solid.
Piece makePiece(const PlaneTable& planes, Cells cells, double tolerance) {
    Welded welded = weld(cells, tolerance);
    auto faces = mergedFaces(planes, cells, welded, tolerance);
    dropStraight(faces, welded.points, tolerance);
    Piece piece;
    std::vector<int> renumber(welded.points.size(), -1);
    for (const FlatFace& flat : faces) {
        PolyFace face;
        face.plane.normal = planes.outward(flat.half);
        face.plane.offset = flat.half.flip ? -planes[flat.half.plane].offset : planes[flat.half.plane].offset;
        for (const auto& l : flat.loops) {
            auto& loop = face.loops.emplace_back();
            for (const int v : l) {
                int& number = renumber[at(v)];
                if (number < 0) {
                    number = static_cast<int>(piece.solid.vertices.size());
                    piece.solid.vertices.push_back(welded.points[at(v)]);
                }
                loop.push_back(number);
            }
        }
        piece.solid.faces.push_back(std::move(face));
        piece.halves.push_back(flat.half);
    }
    partPinches(piece.solid);
    for (const Cell& c : cells) piece.volume += volume(c);
    piece.cells = std::move(cells);
    return piece;
}

} // namespace

std::vector<Piece> assemble(const PlaneTable& planes, const Cells& cells) {
    if (cells.empty()) return {};
    const double tolerance = planes.eps() * 50;
    std::vector<Piece> pieces;
    for (Cells& group : connectedGroups(planes, cells, tolerance))
        pieces.push_back(makePiece(planes, std::move(group), tolerance));
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Piece& a, const Piece& b) { return a.volume > b.volume + 1e-6; });
    return pieces;
}

} // namespace slab::plates
