// Joining solids: OpenCASCADE finds what meets what; planes and corners are then taken from the exact input.
#include "core/geometry/occt.h"
#include "core/geometry/occt_shape.h"
#include "core/geometry/patchwork.h"
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRep_Tool.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_DataMapOfShapeListOfInteger.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>
#include <algorithm>
#include <map>
#include <set>

namespace slab::occt {

namespace {

using Sources = std::vector<int>; ///< flat input face indices

struct Input {
    const std::vector<Polyhedron>& solids;
    std::vector<const PolyFace*> faces; ///< flat
    std::vector<int> planeNumbers;
    double size = 0;

    explicit Input(const std::vector<Polyhedron>& all) : solids(all), planeNumbers(slab::planeNumbers(all)) {
        for (const Polyhedron& s : all) {
            for (const PolyFace& f : s.faces) faces.push_back(&f);
            for (const Vec3& p : s.vertices) size = std::max(size, p.cwiseAbs().maxCoeff());
        }
    }
    [[nodiscard]] const Plane& plane(int flat) const { return faces[static_cast<std::size_t>(flat)]->plane; }
};

struct Joined {
    TopoDS_Shape shape;
    TopTools_IndexedMapOfShape faces; ///< of the result
    std::vector<Sources> sources;     ///< by index in `faces` − 1
};

Expected<Joined> join(const std::vector<BuiltSolid>& built, const Job& job) {
    TopTools_ListOfShape arguments, tools;
    for (std::size_t i = 0; i < built.size(); ++i) (i == 0 ? arguments : tools).Append(built[i].solid);
    BRepAlgoAPI_Fuse fuse;
    fuse.SetArguments(arguments);
    fuse.SetTools(tools);
    fuse.SetNonDestructive(true);
    fuse.SetRunParallel(false);
    Handle(JobIndicator) indicator = new JobIndicator(job);
    fuse.Build(indicator->Start());
    if (job.stopped()) return fail("stopped", "Joining was stopped.");
    if (fuse.HasErrors() || fuse.Shape().IsNull())
        return fail("join-failed", "The forms could not be joined.");
    Joined result;
    result.shape = fuse.Shape();
    TopExp::MapShapes(result.shape, TopAbs_FACE, result.faces);
    result.sources.resize(static_cast<std::size_t>(result.faces.Extent()));
    const auto note = [&](const TopoDS_Shape& face, int flat) {
        const int at = result.faces.FindIndex(face);
        if (at > 0) result.sources[static_cast<std::size_t>(at) - 1].push_back(flat);
    };
    int flat = 0;
    for (const BuiltSolid& b : built)
        for (const TopoDS_Face& face : b.faces) {
            const TopTools_ListOfShape& became = fuse.Modified(face);
            if (became.IsEmpty()) note(face, flat);
            for (const TopoDS_Shape& piece : became) note(piece, flat);
            ++flat;
        }
    return result;
}

/// Directed border edges of a face, its region on the left seen from outside.
std::vector<std::pair<int, int>> edgesOf(const TopoDS_Shape& face, const TopTools_IndexedMapOfShape& vertices,
                                         int base) {
    std::vector<std::pair<int, int>> edges;
    for (TopExp_Explorer e(face, TopAbs_EDGE); e.More(); e.Next()) {
        const TopoDS_Edge& edge = TopoDS::Edge(e.Current());
        if (edge.Orientation() != TopAbs_FORWARD && edge.Orientation() != TopAbs_REVERSED) continue;
        const int a = base + vertices.FindIndex(TopExp::FirstVertex(edge, true)) - 1;
        const int b = base + vertices.FindIndex(TopExp::LastVertex(edge, true)) - 1;
        if (a == b) continue;
        // Corners that were taken together leave strips without width, which run there and back.
        const auto twin = std::find(edges.begin(), edges.end(), std::pair(b, a));
        if (twin != edges.end())
            edges.erase(twin);
        else
            edges.emplace_back(a, b);
    }
    return edges;
}

Vec3 areaVector(const std::vector<Vec3>& points, const std::vector<std::pair<int, int>>& edges) {
    if (edges.empty()) return Vec3::Zero();
    const Vec3 o = points[static_cast<std::size_t>(edges.front().first)];
    Vec3 sum = Vec3::Zero();
    for (const auto& [a, b] : edges)
        sum += (points[static_cast<std::size_t>(a)] - o).cross(points[static_cast<std::size_t>(b)] - o);
    return sum;
}

Expected<Patchwork> patchworkOf(const Joined& joined, const Input& input, int& solids) {
    Patchwork patchwork;
    for (TopExp_Explorer s(joined.shape, TopAbs_SOLID); s.More(); s.Next(), ++solids) {
        TopTools_IndexedMapOfShape vertices;
        TopExp::MapShapes(s.Current(), TopAbs_VERTEX, vertices);
        const int base = static_cast<int>(patchwork.points.size());
        for (int i = 1; i <= vertices.Extent(); ++i)
            patchwork.points.push_back(vecOf(BRep_Tool::Pnt(TopoDS::Vertex(vertices(i)))));
        for (TopExp_Explorer f(s.Current(), TopAbs_FACE); f.More(); f.Next()) {
            FlatPiece piece;
            piece.solid = solids;
            piece.edges = edgesOf(f.Current(), vertices, base);
            if (piece.edges.empty()) continue;
            const Vec3 outward = areaVector(patchwork.points, piece.edges);
            for (int flat : joined.sources[static_cast<std::size_t>(joined.faces.FindIndex(f.Current())) - 1])
                if (input.plane(flat).normal.dot(outward) > 0) piece.inputs.push_back(flat);
            if (piece.inputs.empty()) return fail("join-failed", "A joined face has lost its origin.");
            std::sort(piece.inputs.begin(), piece.inputs.end());
            piece.plane = input.plane(piece.inputs.front());
            piece.planeId = input.planeNumbers[static_cast<std::size_t>(piece.inputs.front())];
            patchwork.pieces.push_back(std::move(piece));
        }
    }
    return patchwork;
}

/// Places where an edge has more than two faces, or a corner belongs to more than one solid.
std::vector<Vec3> contactsOf(const Joined& joined, const Patchwork& patchwork) {
    std::vector<Vec3> places;
    std::map<std::pair<int, int>, int> uses;
    for (const FlatPiece& p : patchwork.pieces)
        for (const auto& e : p.edges) ++uses[{std::min(e.first, e.second), std::max(e.first, e.second)}];
    const auto at = [&](int i) { return patchwork.points[static_cast<std::size_t>(i)]; };
    for (const auto& [edge, count] : uses)
        if (count > 2) places.push_back((at(edge.first) + at(edge.second)) / 2);
    TopTools_DataMapOfShapeListOfInteger owners;
    int solid = 0;
    for (TopExp_Explorer s(joined.shape, TopAbs_SOLID); s.More(); s.Next(), ++solid) {
        TopTools_IndexedMapOfShape vertices;
        TopExp::MapShapes(s.Current(), TopAbs_VERTEX, vertices);
        for (int i = 1; i <= vertices.Extent(); ++i) {
            if (owners.IsBound(vertices(i)))
                places.push_back(vecOf(BRep_Tool::Pnt(TopoDS::Vertex(vertices(i)))));
            else
                owners.Bind(vertices(i), {});
        }
    }
    return places;
}

/// Untouched input corners get their exact coordinates back; the rest is met from the exact planes.
Expected<void> settleOn(Polyhedron& solid, const Input& input) {
    std::vector<Plane> helpers;
    std::set<int> seen;
    for (std::size_t f = 0; f < input.faces.size(); ++f)
        if (seen.insert(input.planeNumbers[f]).second) helpers.push_back(input.faces[f]->plane);
    for (Vec3& v : solid.vertices)
        for (const Polyhedron& s : input.solids)
            for (const Vec3& p : s.vertices)
                if ((p - v).squaredNorm() < 1e-14) v = p;
    const double left = settleVertices(solid, helpers, 1e-6 + 1e-9 * input.size);
    if (left > 1e-6 + 1e-10 * input.size)
        return fail("join-failed", "The joined faces do not meet in their corners.", {},
                    "Move one of the forms a little.");
    return {};
}

/// The union is no smaller than its largest part and no larger than all parts together, and fills the same
/// box.
Expected<void> checkPlausible(const Polyhedron& solid, const Input& input) {
    double largest = 0, sum = 0;
    Box3 box = bounds(input.solids.front());
    for (const Polyhedron& s : input.solids) {
        const double v = slab::volume(s);
        largest = std::max(largest, v);
        sum += v;
        const Box3 b = bounds(s);
        box.min = box.min.cwiseMin(b.min);
        box.max = box.max.cwiseMax(b.max);
    }
    const double v = slab::volume(solid), slack = 1e-9 * sum;
    const Box3 got = bounds(solid);
    const double boxOff =
        std::max((got.min - box.min).cwiseAbs().maxCoeff(), (got.max - box.max).cwiseAbs().maxCoeff());
    if (v < largest - slack || v > sum + slack || boxOff > 1e-5 + 1e-9 * input.size)
        return fail("join-failed", "The joined body does not fill the space of its forms.", {},
                    "Move one of the forms a little.");
    return {};
}

Expected<void> settleAndCheck(Polyhedron& solid, const Input& input) {
    if (auto settled = settleOn(solid, input); !settled) return settled;
    return checkPlausible(solid, input);
}

} // namespace

Expected<void> settle(Polyhedron& joined, const std::vector<Polyhedron>& solids) {
    return settleAndCheck(joined, Input(solids));
}

Expected<Fused> fuse(const std::vector<Polyhedron>& solids, const std::function<bool(int, int)>& mayMerge,
                     const Job& job) {
    if (solids.empty()) return fail("join-failed", "There is nothing to join.");
    const Input input(solids);
    std::vector<BuiltSolid> built;
    for (const Polyhedron& s : solids) {
        auto one = build(s);
        if (!one) return Unexpected(one.error());
        built.push_back(std::move(*one));
    }
    Fused result;
    Patchwork patchwork;
    if (solids.size() == 1) {
        patchwork = slab::patchworkOf(solids);
        result.solids = 1;
    } else {
        auto pieces = guarded("join-failed", [&]() -> Expected<Patchwork> {
            const auto joined = join(built, job);
            if (!joined) return Unexpected(joined.error());
            auto found = patchworkOf(*joined, input, result.solids);
            if (found) result.contacts = contactsOf(*joined, *found);
            return found;
        });
        if (!pieces) return Unexpected(pieces.error());
        patchwork = std::move(*pieces);
    }
    Merged whole = merged(patchwork, mayMerge);
    result.solid = std::move(whole.solid);
    result.faceInputs = std::move(whole.faceInputs);
    result.faceSolid = std::move(whole.faceSolid);
    if (auto settled = settleAndCheck(result.solid, input); !settled) return Unexpected(settled.error());
    return result;
}

} // namespace slab::occt
