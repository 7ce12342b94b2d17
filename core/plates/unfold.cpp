// A tree of folds laid flat.
#include "core/base/index.h"
#include "core/plates/congruence.h"
#include "core/plates/folds.h"
#include <cmath>
#include <limits>
#include <numbers>

namespace slab::plates {

namespace {

constexpr double room = 0.01; ///< mm: outlines of two plates nearer than this leave no room for a cut
constexpr double slit = 0.01; ///< radians: nor do edges that open by less than this from their corner

Vec2 turned(double angle, const Vec2& p) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {c * p.x() - s * p.y(), s * p.x() + c * p.y()};
}

Vec2 unplaced(const PanelPart& part, const Vec2& point) {
    return turned(-part.turn, point - part.shift);
}

double angleOf(const Plate& plate, const Vec3& along) {
    return std::atan2(along.dot(plate.frame.axes.col(1)), along.dot(plate.frame.axes.col(0)));
}

int partOf(const FoldTree& tree, int plate) {
    return static_cast<int>(std::find(tree.plates.begin(), tree.plates.end(), plate) - tree.plates.begin());
}

/// Places every plate beside the one that it is folded to, from the first part on. @return by part: the line
/// that it hangs on, -1 for the first
std::vector<int> placeParts(const PlateSet& set, const FoldTree& tree, Panel& panel) {
    std::vector<int> hangsOn(tree.plates.size(), -1);
    std::vector<char> done(tree.plates.size(), 0);
    done[0] = 1;
    for (std::size_t round = 1; round < tree.plates.size(); ++round)
        for (std::size_t l = 0; l < tree.lines.size(); ++l) {
            const FoldLine& line = tree.lines[l];
            int near = partOf(tree, line.a), far = partOf(tree, line.b);
            if (done[at(near)] == done[at(far)]) continue;
            if (done[at(far)]) std::swap(near, far);
            const Plate& from = set.plates[at(tree.plates[at(near)])];
            const Plate& to = set.plates[at(tree.plates[at(far)])];
            const JointInfo& joint = set.joints[at(line.joint)];
            const Vec3 along = joint.to - joint.from;
            const PanelPart& base = panel.parts[at(near)];
            PanelPart& part = panel.parts[at(far)];
            part.turn =
                std::remainder(base.turn + angleOf(from, along) - angleOf(to, along), 2 * std::numbers::pi);
            part.shift =
                placed(base, from.frame.toPlane(line.from)) - turned(part.turn, to.frame.toPlane(line.from));
            hangsOn[at(far)] = static_cast<int>(l);
            done[at(far)] = 1;
        }
    return hangsOn;
}

/// The two ends of an edge on the grooved face, panel coordinates; empty if nothing of it is left there.
Ring border(const PanelLoop& loop, int edge, bool valley, const PanelPart& part) {
    const Ring& ring = valley ? loop.outer : loop.inner;
    const int k = valley ? edge : loop.edges[at(edge)].inner;
    if (k < 0 || ring.empty()) return {};
    return {placed(part, ring[at(k)]), placed(part, ring[(at(k) + 1) % ring.size()])};
}

PanelFold foldOf(const PlateSet& set, const FoldTree& tree, const FoldLine& line, const Panel& panel,
                 const std::vector<int>& depth) {
    PanelFold fold;
    const JointInfo& joint = set.joints[at(line.joint)];
    FoldLine turnedLine = line;
    fold.a = partOf(tree, line.a);
    fold.b = partOf(tree, line.b);
    if (depth[at(fold.a)] > depth[at(fold.b)]) {
        std::swap(fold.a, fold.b);
        std::swap(turnedLine.a, turnedLine.b);
        std::swap(turnedLine.loopA, turnedLine.loopB);
        std::swap(turnedLine.edgeA, turnedLine.edgeB);
        std::swap(turnedLine.from, turnedLine.to);
    }
    const Plate& a = set.plates[at(turnedLine.a)];
    const Plate& b = set.plates[at(turnedLine.b)];
    const PanelPart& partA = panel.parts[at(fold.a)];
    fold.from = placed(partA, a.frame.toPlane(turnedLine.from));
    fold.to = placed(partA, a.frame.toPlane(turnedLine.to));
    fold.valley = line.valley;
    fold.dihedral = joint.dihedral;
    fold.angle = std::abs(std::numbers::pi - joint.dihedral);
    const PanelLoop& loopA = loopOf(a, turnedLine.loopA);
    const PanelLoop& loopB = loopOf(b, turnedLine.loopB);
    const double tiltA = loopA.edges[at(turnedLine.edgeA)].bevel;
    const double tiltB = loopB.edges[at(turnedLine.edgeB)].bevel;
    fold.width = a.thickness * (std::abs(std::tan(tiltA)) + std::abs(std::tan(tiltB)));
    const Ring borderA = border(loopA, turnedLine.edgeA, line.valley, partA);
    const Ring borderB = border(loopB, turnedLine.edgeB, line.valley, panel.parts[at(fold.b)]);
    if (!borderA.empty() && !borderB.empty()) fold.mouth = {borderA[1], borderA[0], borderB[1], borderB[0]};
    fold.mark = joint.mark;
    fold.edgeA = turnedLine.loopA == 0 ? turnedLine.edgeA : -1;
    fold.edgeB = turnedLine.loopB == 0 ? turnedLine.edgeB : -1;
    return fold;
}

Polygon faceOf(const Plate& plate, const PanelPart& part, bool outside) {
    Polygon out;
    const auto ring = [&](const PanelLoop& loop) {
        Ring r = outside ? loop.outer : loop.inner;
        for (Vec2& p : r) p = placed(part, p);
        return r;
    };
    out.outer = ring(plate.boundary);
    for (const PanelLoop& hole : plate.holes)
        if (Ring r = ring(hole); !r.empty()) out.holes.push_back(std::move(r));
    return out;
}

/// Common area of two parts on one face; a strip along a common line that is thinner than `room` is none.
std::optional<Vec2> overlapOf(const Polygon& a, const Polygon& b) {
    if (a.outer.size() < 3 || b.outer.size() < 3) return {};
    const Box2 boxA = slab::bounds(a.outer), boxB = slab::bounds(b.outer);
    if ((boxA.max - boxB.min).minCoeff() < room || (boxB.max - boxA.min).minCoeff() < room) return {};
    for (const Polygon& both : intersect({a}, {b}))
        if (area(both) > room * lengthRound(both.outer) / 2) return centroid(both);
    return {};
}

/// A fold on the way from part `a` to part `b`.
int foldBetween(const FoldTree& tree, const std::vector<int>& hangsOn, int a, int b) {
    int i = a;
    while (i != b && hangsOn[at(i)] >= 0) {
        const FoldLine& line = tree.lines[at(hangsOn[at(i)])];
        const int first = partOf(tree, line.a);
        i = first == i ? partOf(tree, line.b) : first;
    }
    return i == b ? hangsOn[at(a)] : hangsOn[at(b)];
}

bool partsClash(const PlateSet& set, const FoldTree& tree, const Panel& panel,
                const std::vector<int>& hangsOn, FoldClash& clash) {
    for (const bool outside : {true, false}) {
        std::vector<Polygon> faces;
        for (std::size_t i = 0; i < tree.plates.size(); ++i)
            faces.push_back(faceOf(set.plates[at(tree.plates[i])], panel.parts[i], outside));
        for (std::size_t i = 0; i < faces.size(); ++i)
            for (std::size_t k = i + 1; k < faces.size(); ++k)
                if (const auto where = overlapOf(faces[i], faces[k])) {
                    const Vec2 p = unplaced(panel.parts[k], *where);
                    clash = {static_cast<int>(i), static_cast<int>(k),
                             set.plates[at(tree.plates[k])].frame.toBody(p), 0};
                    clash.line = foldBetween(tree, hangsOn, clash.a, clash.b);
                    return true;
                }
    }
    return false;
}

double distance(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 ab = b - a;
    const double s = ab.squaredNorm() > 0 ? std::clamp((p - a).dot(ab) / ab.squaredNorm(), 0.0, 1.0) : 0.0;
    return (p - a - s * ab).norm();
}

/// An edge of an outline of the blank.
struct LeafSide {
    Vec2 from, to;
    int part = 0;
    std::size_t loop = 0, place = 0, count = 0; ///< where it stands in its loop of `count` edges
};

std::vector<LeafSide> sidesOf(const Panel& panel) {
    std::vector<LeafSide> sides;
    for (std::size_t l = 0; l <= panel.holes.size(); ++l) {
        const PanelLoop& loop = l == 0 ? panel.boundary : panel.holes[l - 1];
        const std::size_t n = loop.outer.size();
        for (std::size_t i = 0; i < n; ++i)
            sides.push_back({loop.outer[i], loop.outer[(i + 1) % n], loop.edges[i].part, l, i, n});
    }
    return sides;
}

/// Do two edges cross, touch, or run along each other? Neighbours may share their corner, at an angle.
bool close(const LeafSide& s, const LeafSide& t) {
    const bool next =
        s.loop == t.loop && ((s.place + 1) % s.count == t.place || (t.place + 1) % s.count == s.place);
    if (next) {
        const Vec2 one = (s.to - s.from).normalized(), other = (t.to - t.from).normalized();
        return one.dot(other) < 0 && std::abs(cross2(one, other)) < slit;
    }
    return std::min({distance(s.from, t.from, t.to), distance(s.to, t.from, t.to),
                     distance(t.from, s.from, s.to), distance(t.to, s.from, s.to)}) < room;
}

/// Do outlines of different plates run along or through each other where no fold joins them?
bool outlineClash(const PlateSet& set, const FoldTree& tree, const Panel& panel,
                  const std::vector<int>& hangsOn, FoldClash& clash) {
    const std::vector<LeafSide> sides = sidesOf(panel);
    for (std::size_t i = 0; i < sides.size(); ++i)
        for (std::size_t k = i + 1; k < sides.size(); ++k) {
            const LeafSide &s = sides[i], &t = sides[k];
            if (s.part == t.part || !close(s, t)) continue;
            const Vec2 p = unplaced(panel.parts[at(t.part)], (t.from + t.to) / 2);
            clash = {s.part, t.part, set.plates[at(tree.plates[at(t.part)])].frame.toBody(p), 0};
            clash.line = foldBetween(tree, hangsOn, s.part, t.part);
            return true;
        }
    return false;
}

void moveAll(Panel& panel, const Vec2& by) {
    const auto move = [&](Ring& ring) {
        for (Vec2& p : ring) p += by;
    };
    const auto moveLoop = [&](PanelLoop& loop) {
        move(loop.outer);
        move(loop.inner);
    };
    moveLoop(panel.boundary);
    for (PanelLoop& hole : panel.holes) moveLoop(hole);
    for (PanelPart& part : panel.parts) {
        part.shift += by;
        move(part.outer);
        move(part.inner);
    }
    for (PanelFold& fold : panel.folds) {
        fold.from += by;
        fold.to += by;
        move(fold.mouth);
    }
}

void startParts(const PlateSet& set, const FoldTree& tree, Panel& panel) {
    const Plate& first = set.plates[at(tree.plates.front())];
    panel.stock = first.stock;
    panel.thickness = first.thickness;
    for (const int p : tree.plates) {
        panel.plates.push_back(set.plates[at(p)].name);
        PanelPart part;
        part.plate = set.plates[at(p)].name;
        panel.parts.push_back(std::move(part));
    }
}

} // namespace

Vec2 placed(const PanelPart& part, const Vec2& point) {
    return turned(part.turn, point) + part.shift;
}

std::optional<Panel> unfold(const PlateSet& set, const FoldTree& tree, FoldClash& clash) {
    Panel panel;
    startParts(set, tree, panel);
    const std::vector<int> hangsOn = placeParts(set, tree, panel);
    std::vector<int> depth(tree.plates.size(), 0);
    for (std::size_t round = 1; round < tree.plates.size(); ++round)
        for (std::size_t i = 0; i < tree.plates.size(); ++i)
            if (hangsOn[i] >= 0) {
                const FoldLine& line = tree.lines[at(hangsOn[i])];
                const int a = partOf(tree, line.a), b = partOf(tree, line.b);
                depth[i] = depth[at(a == static_cast<int>(i) ? b : a)] + 1;
            }
    for (const FoldLine& line : tree.lines) panel.folds.push_back(foldOf(set, tree, line, panel, depth));
    for (std::size_t i = 0; i < tree.plates.size(); ++i) {
        panel.parts[i].outer = faceOf(set.plates[at(tree.plates[i])], panel.parts[i], true).outer;
        panel.parts[i].inner = faceOf(set.plates[at(tree.plates[i])], panel.parts[i], false).outer;
    }
    if (partsClash(set, tree, panel, hangsOn, clash)) return {};
    bool lies = false;
    for (const bool byCorners : {false, true}) {
        if (lies) break;
        clash = {0, static_cast<int>(tree.plates.size()) - 1, tree.lines.front().from, 0};
        lies = joinLoops(set, tree, panel, byCorners) && !outlineClash(set, tree, panel, hangsOn, clash);
    }
    if (!lies) return {};
    moveAll(panel, -slab::bounds(panel.boundary.outer).min);
    return panel;
}

} // namespace slab::plates
