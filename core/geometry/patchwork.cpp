#include "core/geometry/patchwork.h"
#include "core/base/disjoint_sets.h"
#include <Eigen/SVD>
#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace slab {

namespace {

using Edge = std::pair<int, int>;
using Loop = std::vector<int>;

const Vec3& at(const std::vector<Vec3>& points, int i) {
    return points[static_cast<std::size_t>(i)];
}

/// Twice the signed area of a loop seen against `normal`.
double turned(const std::vector<Vec3>& points, const Loop& loop, const Vec3& normal) {
    Vec3 sum = Vec3::Zero();
    for (std::size_t i = 1; i + 1 < loop.size(); ++i)
        sum +=
            (at(points, loop[i]) - at(points, loop[0])).cross(at(points, loop[i + 1]) - at(points, loop[0]));
    return sum.dot(normal);
}

/// At a corner where the border meets itself, the sharpest left turn keeps to the same region.
std::size_t leftmost(const std::vector<Vec3>& points, const Vec3& normal, const Edge& in,
                     const std::vector<Edge>& edges, const std::vector<std::size_t>& out) {
    const Vec3 d = at(points, in.second) - at(points, in.first);
    std::size_t best = out.front();
    double bestTurn = -10;
    for (std::size_t e : out) {
        const Vec3 next = at(points, edges[e].second) - at(points, edges[e].first);
        const double turn = std::atan2(normal.dot(d.cross(next)), d.dot(next));
        if (turn <= bestTurn) continue;
        bestTurn = turn;
        best = e;
    }
    return best;
}

/// A loop that visits a corner twice is two loops.
void splitAtRepeats(const Loop& loop, std::vector<Loop>& simple) {
    Loop open;
    for (int v : loop) {
        const auto seen = std::find(open.begin(), open.end(), v);
        if (seen != open.end()) {
            simple.emplace_back(seen, open.end());
            open.erase(seen, open.end());
        }
        open.push_back(v);
    }
    if (!open.empty()) simple.push_back(std::move(open));
    std::erase_if(simple, [](const Loop& l) { return l.size() < 3; });
}

std::vector<Loop> traceLoops(const std::vector<Vec3>& points, const Vec3& normal,
                             const std::vector<Edge>& edges) {
    std::map<int, std::vector<std::size_t>> leaving;
    for (std::size_t e = 0; e < edges.size(); ++e) leaving[edges[e].first].push_back(e);
    std::vector<bool> used(edges.size(), false);
    std::vector<Loop> loops;
    for (std::size_t first = 0; first < edges.size(); ++first) {
        if (used[first]) continue;
        Loop loop;
        for (std::size_t e = first;;) {
            used[e] = true;
            loop.push_back(edges[e].first);
            std::vector<std::size_t> out;
            for (std::size_t next : leaving[edges[e].second])
                if (!used[next]) out.push_back(next);
            if (out.empty() || edges[e].second == edges[first].first) break;
            e = out.size() == 1 ? out.front() : leftmost(points, normal, edges[e], edges, out);
        }
        splitAtRepeats(loop, loops);
    }
    return loops;
}

/// Points of `loop` are inside `around`, both in the plane: the first point of the loop that is not a corner
/// of `around` decides.
bool isInside(const std::vector<Vec3>& points, const Loop& loop, const Loop& around, const Vec3& normal) {
    int w = 0;
    normal.cwiseAbs().maxCoeff(&w);
    const int u = (w + 1) % 3, v = (w + 2) % 3;
    for (int i : loop) {
        if (std::find(around.begin(), around.end(), i) != around.end()) continue;
        const Vec3& p = at(points, i);
        bool inside = false;
        for (std::size_t k = 0; k < around.size(); ++k) {
            const Vec3 &a = at(points, around[k]), &b = at(points, around[(k + 1) % around.size()]);
            if ((a[v] > p[v]) == (b[v] > p[v])) continue;
            if (p[u] < a[u] + (p[v] - a[v]) / (b[v] - a[v]) * (b[u] - a[u])) inside = !inside;
        }
        return inside;
    }
    return true;
}

/// Outer loops with their holes: one entry per face.
std::vector<std::vector<Loop>> nestLoops(const std::vector<Vec3>& points, std::vector<Loop> loops,
                                         const Vec3& normal) {
    std::vector<std::vector<Loop>> faces;
    std::vector<Loop> holes;
    for (Loop& loop : loops)
        if (turned(points, loop, normal) > 0)
            faces.push_back({std::move(loop)});
        else
            holes.push_back(std::move(loop));
    for (Loop& hole : holes) {
        std::vector<Loop>* home = nullptr;
        double homeArea = 0;
        for (auto& face : faces) {
            const double area = turned(points, face.front(), normal);
            if (!isInside(points, hole, face.front(), normal)) continue;
            if (home && area >= homeArea) continue;
            home = &face;
            homeArea = area;
        }
        if (home) home->push_back(std::move(hole));
    }
    return faces;
}

/// The border of a group of pieces: what is not shared by two of them.
std::vector<Edge> borderOf(const Patchwork& patchwork, const std::vector<std::size_t>& group) {
    std::map<Edge, int> count;
    for (std::size_t p : group)
        for (const Edge& e : patchwork.pieces[p].edges) {
            const auto back = count.find({e.second, e.first});
            if (back != count.end() && back->second > 0)
                --back->second;
            else
                ++count[e];
        }
    std::vector<Edge> border;
    for (const auto& [edge, times] : count)
        for (int i = 0; i < times; ++i) border.push_back(edge);
    return border;
}

/// Corners with two faces only, in the middle of a straight edge.
void dropStraightCorners(Polyhedron& solid) {
    struct Use {
        std::set<std::size_t> faces;
        std::set<int> others;
    };
    std::vector<Use> uses(solid.vertices.size());
    for (std::size_t f = 0; f < solid.faces.size(); ++f)
        for (const Loop& loop : solid.faces[f].loops)
            for (std::size_t i = 0; i < loop.size(); ++i) {
                Use& use = uses[static_cast<std::size_t>(loop[i])];
                use.faces.insert(f);
                use.others.insert(loop[(i + 1) % loop.size()]);
                use.others.insert(loop[(i + loop.size() - 1) % loop.size()]);
            }
    const auto straight = [&](int v) {
        const Use& use = uses[static_cast<std::size_t>(v)];
        return use.faces.size() == 2 && use.others.size() == 2;
    };
    for (PolyFace& face : solid.faces)
        for (Loop& loop : face.loops) {
            Loop kept;
            std::copy_if(loop.begin(), loop.end(), std::back_inserter(kept),
                         [&](int v) { return !straight(v); });
            if (kept.size() >= 3) loop = std::move(kept);
        }
}

void dropUnusedVertices(Polyhedron& solid) {
    std::vector<int> renumbered(solid.vertices.size(), -1);
    std::vector<Vec3> kept;
    for (PolyFace& face : solid.faces)
        for (Loop& loop : face.loops)
            for (int& v : loop) {
                int& to = renumbered[static_cast<std::size_t>(v)];
                if (to < 0) {
                    to = static_cast<int>(kept.size());
                    kept.push_back(at(solid.vertices, v));
                }
                v = to;
            }
    solid.vertices = std::move(kept);
}

DisjointSets groupPieces(const Patchwork& patchwork, const MayMergeFaces& mayMerge) {
    DisjointSets groups(patchwork.pieces.size());
    std::map<Edge, std::vector<std::size_t>> byEdge;
    for (std::size_t p = 0; p < patchwork.pieces.size(); ++p)
        for (const Edge& e : patchwork.pieces[p].edges)
            byEdge[{std::min(e.first, e.second), std::max(e.first, e.second)}].push_back(p);
    for (const auto& [edge, pieces] : byEdge) {
        if (pieces.size() != 2) continue;
        const FlatPiece &a = patchwork.pieces[pieces[0]], &b = patchwork.pieces[pieces[1]];
        if (a.planeId != b.planeId || a.solid != b.solid) continue;
        const int ownerA = a.inputs.front(), ownerB = b.inputs.front();
        if (ownerA == ownerB || !mayMerge || mayMerge(std::min(ownerA, ownerB), std::max(ownerA, ownerB)))
            groups.join(pieces[0], pieces[1]);
    }
    return groups;
}

/// x moved by the least step onto all planes, directions that they leave free untouched.
struct Fix {
    Vec3 step = Vec3::Zero();
    Mat3 free = Mat3::Identity(); ///< projector on the directions still free
    int rank = 0;
};
Fix stepOnto(const std::vector<Plane>& planes, const Vec3& x, const Mat3& free) {
    Fix fix;
    fix.free = free;
    if (planes.empty()) return fix;
    const auto rows = static_cast<Eigen::Index>(planes.size());
    Eigen::MatrixX3d a(rows, 3);
    Eigen::VectorXd b(rows);
    for (Eigen::Index i = 0; i < rows; ++i) {
        a.row(i) = planes[static_cast<std::size_t>(i)].normal.transpose() * free;
        b[i] = planes[static_cast<std::size_t>(i)].depth(x);
    }
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(a, Eigen::ComputeFullU | Eigen::ComputeFullV);
    for (Eigen::Index k = 0; k < svd.singularValues().size(); ++k) {
        const double s = svd.singularValues()[k];
        if (s < 1e-7) continue;
        const Vec3 v = svd.matrixV().col(k);
        fix.step += v * (svd.matrixU().col(k).dot(b) / s);
        fix.free -= v * v.transpose();
        ++fix.rank;
    }
    return fix;
}

} // namespace

std::vector<int> planeNumbers(const std::vector<Polyhedron>& solids) {
    std::vector<const Plane*> known;
    std::vector<int> numbers;
    double size = 0;
    for (const Polyhedron& s : solids)
        for (const Vec3& p : s.vertices) size = std::max(size, p.cwiseAbs().maxCoeff());
    for (const Polyhedron& s : solids)
        for (const PolyFace& face : s.faces) {
            const auto same = std::find_if(known.begin(), known.end(), [&](const Plane* k) {
                return (k->normal - face.plane.normal).norm() < 1e-9 &&
                       std::abs(k->offset - face.plane.offset) < 1e-7 + 1e-9 * size;
            });
            numbers.push_back(static_cast<int>(same - known.begin()));
            if (same == known.end()) known.push_back(&face.plane);
        }
    return numbers;
}

Patchwork patchworkOf(const std::vector<Polyhedron>& solids) {
    Patchwork patchwork;
    const std::vector<int> numbers = planeNumbers(solids);
    int flat = 0, index = 0;
    for (const Polyhedron& s : solids) {
        const int base = static_cast<int>(patchwork.points.size());
        patchwork.points.insert(patchwork.points.end(), s.vertices.begin(), s.vertices.end());
        for (const PolyFace& face : s.faces) {
            FlatPiece piece{face.plane, numbers[static_cast<std::size_t>(flat)], index, {flat}, {}};
            for (const Loop& loop : face.loops)
                for (std::size_t i = 0; i < loop.size(); ++i)
                    piece.edges.emplace_back(base + loop[i], base + loop[(i + 1) % loop.size()]);
            patchwork.pieces.push_back(std::move(piece));
            ++flat;
        }
        ++index;
    }
    return patchwork;
}

Merged merged(const Patchwork& patchwork, const MayMergeFaces& mayMerge) {
    DisjointSets groups = groupPieces(patchwork, mayMerge);
    std::map<std::size_t, std::vector<std::size_t>> members;
    for (std::size_t p = 0; p < patchwork.pieces.size(); ++p) members[groups.find(p)].push_back(p);
    Merged result;
    result.solid.vertices = patchwork.points;
    for (const auto& [first, group] : members) {
        std::set<int> inputs;
        for (std::size_t p : group)
            inputs.insert(patchwork.pieces[p].inputs.begin(), patchwork.pieces[p].inputs.end());
        const FlatPiece& piece = patchwork.pieces[first];
        auto loops = traceLoops(patchwork.points, piece.plane.normal, borderOf(patchwork, group));
        for (auto& face : nestLoops(patchwork.points, std::move(loops), piece.plane.normal)) {
            result.solid.faces.push_back({piece.plane, std::move(face), {}});
            result.faceInputs.emplace_back(inputs.begin(), inputs.end());
            result.faceSolid.push_back(piece.solid);
        }
    }
    dropStraightCorners(result.solid);
    dropUnusedVertices(result.solid);
    return result;
}

double settleVertices(Polyhedron& solid, const std::vector<Plane>& helpers, double reach) {
    std::vector<std::vector<Plane>> planes(solid.vertices.size());
    for (const PolyFace& face : solid.faces)
        for (const Loop& loop : face.loops)
            for (int v : loop) {
                auto& own = planes[static_cast<std::size_t>(v)];
                if (std::find(own.begin(), own.end(), face.plane) == own.end()) own.push_back(face.plane);
            }
    double worst = 0;
    for (std::size_t v = 0; v < solid.vertices.size(); ++v) {
        Vec3& x = solid.vertices[v];
        Mat3 free = Mat3::Identity();
        for (int round = 0; round < 2; ++round) { // the second takes off what rounding left of the first
            const Fix own = stepOnto(planes[v], x, Mat3::Identity());
            x += own.step;
            free = own.free;
            if (own.rank >= 3) continue;
            std::vector<Plane> near;
            for (const Plane& h : helpers)
                if (std::abs(h.distance(x)) < reach && (free * h.normal).norm() > 1e-3) near.push_back(h);
            x += stepOnto(near, x, free).step;
        }
        for (const Plane& p : planes[v]) worst = std::max(worst, std::abs(p.distance(x)));
    }
    return worst;
}

} // namespace slab
