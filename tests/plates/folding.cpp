#include "folding.h"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace slab::test {

namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// From the blank's (x, y, w) to body axes.
struct Place {
    Mat3 turn = Mat3::Identity();
    Vec3 shift = Vec3::Zero();
    Vec3 operator()(const Vec3& p) const { return turn * p + shift; }
};

Place placeOf(const Plate& plate, const PanelPart& part) {
    const Mat3 back = Eigen::AngleAxisd(-part.turn, Vec3::UnitZ()).toRotationMatrix();
    Place place;
    place.turn = plate.frame.axes * back;
    place.shift = plate.frame.origin - place.turn * Vec3(part.shift.x(), part.shift.y(), 0);
    return place;
}

/// The part on the right of the line turned away from the face that stays whole.
Place foldedAbout(const Place& base, const PanelFold& fold, double thickness) {
    const double w = fold.valley ? -thickness : 0;
    const Vec3 from(fold.from.x(), fold.from.y(), w), to(fold.to.x(), fold.to.y(), w);
    const Mat3 turn = Eigen::AngleAxisd(fold.valley ? -fold.angle : fold.angle, (to - from).normalized())
                          .toRotationMatrix();
    Place place;
    place.turn = base.turn * turn;
    place.shift = base.turn * (from - turn * from) + base.shift;
    return place;
}

} // namespace

Polyhedron prism(const Ring& outline, double height) {
    Polyhedron solid;
    const int n = static_cast<int>(outline.size());
    for (const double z : {0.0, height})
        for (const Vec2& p : outline) solid.vertices.emplace_back(p.x(), p.y(), z);
    PolyFace top{{Vec3::UnitZ(), height}, {{}}, "top"}, bottom{{-Vec3::UnitZ(), 0}, {{}}, "bottom"};
    for (int i = 0; i < n; ++i) {
        top.loops[0].push_back(n + i);
        bottom.loops[0].push_back(n - 1 - i);
        const Vec2 along = (outline[at((i + 1) % n)] - outline[at(i)]).normalized();
        const Vec3 out(along.y(), -along.x(), 0);
        const int k = (i + 1) % n;
        solid.faces.push_back(
            {{out, out.dot(solid.vertices[at(i)])}, {{i, k, n + k, n + i}}, "s" + std::to_string(i)});
    }
    solid.faces.push_back(top);
    solid.faces.push_back(bottom);
    return solid;
}

Body randomFoldable(Random& random) {
    const auto r = [&](double from, double to) { return uniform(random, from, to); };
    if (pick(random, 0, 1) == 0) {
        std::vector<Vec3> points;
        for (int i = pick(random, 5, 10); i > 0; --i)
            points.push_back(Vec3(r(-1, 1), r(-1, 1), r(-1, 1)).normalized() * r(200, 300));
        return bodyOf(hullOf(points));
    }
    const double a = r(80, 150), b = r(180, 260), c = r(300, 420), d = r(60, 120), e = r(200, 300);
    const double height = r(60, 400);
    switch (pick(random, 0, 2)) {
    case 0:
        return bodyOf(
            prism({{0, 0}, {c, 0}, {c, d}, {a, d + r(0, 40)}, {a + r(-20, 20), e}, {0, e}}, height));
    case 1:
        return bodyOf(
            prism({{0, 0}, {c, 0}, {c, e}, {b, e}, {b + r(-10, 10), d}, {a, d}, {a, e}, {0, e}}, height));
    default:
        return bodyOf(
            prism({{a, 0}, {b, 0}, {b, d}, {c, d}, {c, e}, {0, e}, {0, d}, {a + r(-10, 10), d}}, height));
    }
}

namespace {

/// Faces that hang together.
struct Groups {
    std::vector<int> parent;
    explicit Groups(const Body& body) : parent(body.skin.faces.size()) {
        std::iota(parent.begin(), parent.end(), 0);
    }
    int root(int i) const {
        while (parent[at(i)] != i) i = parent[at(i)];
        return i;
    }
    bool join(int a, int b) {
        if (root(a) == root(b)) return false;
        parent[at(root(b))] = root(a);
        return true;
    }
};

EdgeJoint foldAt(const Body& body, const SkinEdge& e) {
    return {body.skin.faces[at(e.left)].name, body.skin.faces[at(e.right)].name, JointKind::fold, {}};
}

} // namespace

std::vector<EdgeJoint> foldTree(const Body& body, int start, int count) {
    Groups groups(body);
    // Around one face first, then around those reached: nets that spread rather than wind.
    std::vector<EdgeJoint> out;
    std::vector<int> reached{start};
    for (std::size_t i = 0; i < reached.size(); ++i)
        for (const SkinEdge& e : body.skin.edges) {
            if ((e.left != reached[i] && e.right != reached[i]) || static_cast<int>(out.size()) == count)
                continue;
            const int other = e.left == reached[i] ? e.right : e.left;
            if (!groups.join(reached[i], other)) continue;
            reached.push_back(other);
            out.push_back(foldAt(body, e));
        }
    return out;
}

std::vector<EdgeJoint> randomFolds(const Body& body, Random& random, int count) {
    Groups groups(body);
    std::vector<EdgeJoint> out;
    for (int tries = 0; tries < 50 && static_cast<int>(out.size()) < count; ++tries) {
        const auto& edges = body.skin.edges;
        const SkinEdge& e = edges[at(pick(random, 0, static_cast<int>(edges.size()) - 1))];
        if (groups.join(e.left, e.right)) out.push_back(foldAt(body, e));
    }
    return out;
}

const Panel* panelOf(const std::vector<Panel>& panels, const std::string& plate) {
    for (const Panel& p : panels)
        if (std::find(p.plates.begin(), p.plates.end(), plate) != p.plates.end()) return &p;
    return nullptr;
}

Vec2 laid(const PanelPart& part, const Vec2& p) {
    const double c = std::cos(part.turn), s = std::sin(part.turn);
    return Vec2(c * p.x() - s * p.y(), s * p.x() + c * p.y()) + part.shift;
}

double refoldError(const PlateSet& set, const Panel& blank) {
    std::vector<Place> places(blank.parts.size());
    std::vector<char> known(blank.parts.size(), 0);
    places[0] = placeOf(*findPlate(set, blank.parts[0].plate), blank.parts[0]);
    known[0] = 1;
    for (std::size_t round = 0; round < blank.parts.size(); ++round)
        for (const PanelFold& fold : blank.folds) {
            if (!known[at(fold.a)] || known[at(fold.b)]) continue;
            places[at(fold.b)] = foldedAbout(places[at(fold.a)], fold, blank.thickness);
            known[at(fold.b)] = 1;
        }
    double worst = 0;
    for (std::size_t i = 0; i < blank.parts.size(); ++i) {
        const Plate& plate = *findPlate(set, blank.parts[i].plate);
        if (!known[i]) return 1e9;
        for (const bool outside : {true, false}) {
            const Ring& own = outside ? plate.boundary.outer : plate.boundary.inner;
            const Ring& flat = outside ? blank.parts[i].outer : blank.parts[i].inner;
            if (own.size() != flat.size()) return 1e9;
            const double w = outside ? 0 : -plate.thickness;
            for (std::size_t k = 0; k < own.size(); ++k)
                worst = std::max(worst, (places[i](Vec3(flat[k].x(), flat[k].y(), w)) -
                                         plate.frame.toBody(Vec3(own[k].x(), own[k].y(), w)))
                                            .norm());
        }
    }
    return worst;
}

} // namespace slab::test
