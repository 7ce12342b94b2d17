#include "core/plates/outline.h"
#include "core/base/index.h"
#include <algorithm>
#include <cmath>
#include <map>

namespace slab::plates {

namespace {

/// One loop of the outer or inner face with the side face behind each edge.
struct Rim {
    Ring ring;
    std::vector<int> sides; ///< face index across edge i
    double area = 0;
};

using Across = std::map<std::pair<int, int>, int>; ///< directed edge -> face that has it

Across across(const Polyhedron& solid) {
    Across map;
    for (std::size_t f = 0; f < solid.faces.size(); ++f)
        for (const auto& l : solid.faces[f].loops)
            for (std::size_t i = 0; i < l.size(); ++i)
                map[{l[i], l[(i + 1) % l.size()]}] = static_cast<int>(f);
    return map;
}

Rim rimOf(const Polyhedron& solid, const std::vector<int>& loop, const Across& map, const Frame& frame,
          bool turn) {
    Rim rim;
    std::vector<int> l = loop;
    if (turn) std::reverse(l.begin(), l.end());
    for (std::size_t i = 0; i < l.size(); ++i) {
        const int a = l[i], b = l[(i + 1) % l.size()];
        rim.ring.push_back(frame.toPlane(solid.vertices[at(a)]));
        const auto found = map.find(turn ? std::pair(a, b) : std::pair(b, a));
        rim.sides.push_back(found == map.end() ? -1 : found->second);
    }
    rim.area = signedArea(rim.ring);
    return rim;
}

std::vector<Rim> rims(const Piece& piece, const Half& half, const Across& map, const Frame& frame,
                      bool turn) {
    std::vector<Rim> out;
    for (std::size_t f = 0; f < piece.halves.size(); ++f)
        if (piece.halves[f] == half)
            for (const auto& l : piece.solid.faces[f].loops)
                out.push_back(rimOf(piece.solid, l, map, frame, turn));
    std::stable_sort(out.begin(), out.end(),
                     [](const Rim& a, const Rim& b) { return a.area > b.area + 1e-9; });
    return out;
}

void startLow(Rim& rim) {
    const std::ptrdiff_t by = plates::startLow(rim.ring);
    std::rotate(rim.sides.begin(), rim.sides.begin() + by, rim.sides.end());
}

struct Reader {
    const Plate& plate;
    const Piece& piece;
    const PlaneTable& planes;
    const Labeller& label;

    [[nodiscard]] PanelEdge edge(int side, const Vec2& from, const Vec2& to, double depth,
                                 std::string& opening) const {
        PanelEdge e;
        if (side < 0) return e;
        const Half& half = piece.halves[at(side)];
        const double lean = std::clamp(planes.outward(half).dot(plate.frame.axes.col(2)), -1.0, 1.0);
        e.bevel = -std::asin(lean);
        const Vec2 mid = (from + to) / 2;
        const Vec3 point = plate.frame.toBody(Vec3(mid.x(), mid.y(), -depth));
        const SideLabel what = label(half, point);
        e.neighbour = what.neighbour;
        e.role = what.role;
        e.dihedral = what.dihedral;
        e.mark = what.mark;
        if (!what.opening.empty()) opening = what.opening;
        const double here = what.hasEdge ? what.inward.dot(point - what.onEdge) : 0;
        const double slope = std::tan(e.bevel);
        e.offsetOuter = what.hasEdge ? here - depth * slope : 0;
        e.offsetInner = e.offsetOuter + plate.thickness * slope;
        return e;
    }
};

PanelLoop readLoop(const Reader& reader, const Rim& outer, const Rim* inner) {
    PanelLoop loop;
    loop.outer = outer.ring;
    if (inner) loop.inner = inner->ring;
    std::vector<char> used(loop.inner.size(), 0);
    for (std::size_t i = 0; i < outer.ring.size(); ++i) {
        const Vec2& from = outer.ring[i];
        const Vec2& to = outer.ring[(i + 1) % outer.ring.size()];
        PanelEdge e = reader.edge(outer.sides[i], from, to, 0, loop.opening);
        e.length = (to - from).norm();
        double longest = -1;
        for (std::size_t k = 0; inner && k < inner->sides.size(); ++k) {
            if (inner->sides[k] != outer.sides[i] || used[k]) continue;
            const double length = (inner->ring[(k + 1) % inner->ring.size()] - inner->ring[k]).norm();
            if (length <= longest) continue;
            longest = length;
            e.inner = static_cast<int>(k);
        }
        if (e.inner >= 0) used[at(e.inner)] = 1;
        loop.edges.push_back(std::move(e));
    }
    for (std::size_t k = 0; k < used.size(); ++k) {
        if (used[k]) continue;
        PanelEdge e = reader.edge(inner->sides[k], inner->ring[k], inner->ring[(k + 1) % inner->ring.size()],
                                  reader.plate.thickness, loop.opening);
        e.inner = static_cast<int>(k);
        loop.extraInner.push_back(std::move(e));
    }
    return loop;
}

/// The inner loop that shares most side faces with an outer one.
const Rim* partner(const Rim& outer, const std::vector<Rim>& inners, bool hole) {
    const Rim* best = nullptr;
    std::ptrdiff_t most = 0;
    for (const Rim& inner : inners) {
        if ((inner.area < 0) != hole) continue;
        std::ptrdiff_t shared = 0;
        for (const int s : outer.sides) shared += std::count(inner.sides.begin(), inner.sides.end(), s);
        if (shared > most) {
            most = shared;
            best = &inner;
        }
    }
    return best;
}

} // namespace

bool isLevel(const Vec3& w) {
    return std::abs(w.z()) > 0.9396926;
} // cos 20°

// So that small moves of the frame do not renumber it.
std::ptrdiff_t startLow(Ring& ring) {
    std::size_t first = 0;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        const Vec2 d = ring[i] - ring[first];
        if (d.y() < -1e-6 || (std::abs(d.y()) <= 1e-6 && d.x() < 0)) first = i;
    }
    const auto by = static_cast<std::ptrdiff_t>(first);
    std::rotate(ring.begin(), ring.begin() + by, ring.end());
    return by;
}

Frame panelFrame(const Vec3& w, const std::vector<Vec3>& points) {
    Frame frame;
    Vec3 u, v;
    if (isLevel(w)) {
        u = (Vec3::UnitX() - w * w.x()).normalized();
        v = w.cross(u);
    } else {
        v = (Vec3::UnitZ() - w * w.z()).normalized();
        u = v.cross(w);
    }
    frame.axes.col(0) = u;
    frame.axes.col(1) = v;
    frame.axes.col(2) = w;
    if (points.empty()) return frame;
    double lowU = u.dot(points.front()), lowV = v.dot(points.front());
    for (const Vec3& p : points) {
        lowU = std::min(lowU, u.dot(p));
        lowV = std::min(lowV, v.dot(p));
    }
    frame.origin = u * lowU + v * lowV + w * w.dot(points.front());
    return frame;
}

bool readOutlines(Plate& plate, const Piece& piece, const PlaneTable& planes, const Half& outer,
                  const Half& inner, const Labeller& label) {
    const Across map = across(piece.solid);
    std::vector<Vec3> points;
    for (std::size_t f = 0; f < piece.halves.size(); ++f)
        if (piece.halves[f] == outer)
            for (const auto& l : piece.solid.faces[f].loops)
                for (const int v : l) points.push_back(piece.solid.vertices[at(v)]);
    const Vec3 w = planes.outward(outer);
    if (points.empty()) {
        plate.frame = panelFrame(w, piece.solid.vertices);
        return false;
    }
    plate.frame = panelFrame(w, points);
    auto outers = rims(piece, outer, map, plate.frame, false);
    auto inners = rims(piece, inner, map, plate.frame, true);
    for (Rim& r : outers) startLow(r);
    for (Rim& r : inners) startLow(r);
    const Reader reader{plate, piece, planes, label};
    plate.boundary = readLoop(reader, outers.front(), partner(outers.front(), inners, false));
    for (const Rim& r : outers)
        if (r.area < 0) plate.holes.push_back(readLoop(reader, r, partner(r, inners, true)));
    return true;
}

} // namespace slab::plates
