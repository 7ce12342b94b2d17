#include "core/mechanisms/rounds.h"
#include "core/mechanisms/mechanisms.h"
#include <algorithm>
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr const char* roundForm = "round/"; ///< Plate::form begins with it, as no form of the document does
constexpr int staveCount = 48;

/// Corners of the tube's rims. Outside they lie on facets round the true circle, inside on the bore itself,
/// so that no clearance is told too large.
struct Rims {
    std::vector<Vec3> corners; ///< four at each angle: base outside and inside, top outside and inside

    explicit Rims(const RoundPart& tube) {
        const Vec3 axis = (tube.top - tube.base).stableNormalized();
        const Vec3 u = axis.unitOrthogonal(), v = axis.cross(u);
        const double outside = 1 / std::cos(std::numbers::pi / staveCount);
        for (int i = 0; i < staveCount; ++i) {
            const double a = 2 * std::numbers::pi * i / staveCount;
            const Vec3 out = std::cos(a) * u + std::sin(a) * v;
            corners.push_back(tube.base + tube.radius * outside * out);
            corners.push_back(tube.base + (tube.radius - tube.wall) * out);
            corners.push_back(tube.top + tube.topRadius * outside * out);
            corners.push_back(tube.top + (tube.topRadius - tube.wall) * out);
        }
    }
};

bool isOpen(const RoundPart& round, double leastBore) {
    return round.wall > 0 && std::min(round.radius, round.topRadius) - round.wall >= std::max(leastBore, 0.1);
}

void makeStaves(const RoundPart& tube, Plate& plate) {
    const std::vector<Vec3> corners = Rims(tube).corners;
    plate.solid.vertices = corners;
    const auto loop = [](int k) { // outward: base outside, base inside, top outside, top inside
        std::vector<int> all;
        for (int i = 0; i < staveCount; ++i) all.push_back(4 * i + k);
        return all;
    };
    const auto turned = [](std::vector<int> all) { return std::vector<int>(all.rbegin(), all.rend()); };
    const Vec3 axis = (tube.top - tube.base).stableNormalized();
    const auto add = [&](std::vector<std::vector<int>> loops, const Vec3& normal) {
        const Vec3& on = corners[static_cast<std::size_t>(loops.front().front())];
        plate.solid.faces.push_back({{normal, normal.dot(on)}, std::move(loops), {}});
    };
    add({turned(loop(0)), loop(1)}, -axis);
    add({loop(2), turned(loop(3))}, axis);
    for (int i = 0; i < staveCount; ++i) {
        const int a = 4 * i, b = 4 * ((i + 1) % staveCount);
        const auto at = [&](int k) { return corners[static_cast<std::size_t>(k)]; };
        add({{a, b, b + 2, a + 2}}, (at(b) - at(a)).cross(at(a + 2) - at(a)).stableNormalized());
        add({{b + 1, a + 1, a + 3, b + 3}},
            (at(a + 1) - at(b + 1)).cross(at(a + 3) - at(a + 1)).stableNormalized());
        ConvexSolid stave;
        for (const int k : {a, b})
            for (int j = 0; j < 4; ++j) stave.points.push_back(at(k + j));
        plate.cells.push_back(std::move(stave));
    }
}

/// Between two rims of as many corners each, both the same way round; a point for a rim is left to the hull.
Polyhedron between(const std::vector<Vec3>& corners, const Vec3& axis) {
    Polyhedron out;
    const int n = static_cast<int>(corners.size() / 2);
    out.vertices = corners;
    std::vector<int> base, top;
    for (int i = 0; i < n; ++i) {
        base.push_back(n - 1 - i);
        top.push_back(n + i);
    }
    const auto at = [&](int k) { return corners[static_cast<std::size_t>(k)]; };
    out.faces.push_back({{-axis, -axis.dot(at(0))}, {std::move(base)}, {}});
    out.faces.push_back({{axis, axis.dot(at(n))}, {std::move(top)}, {}});
    for (int i = 0; i < n; ++i) {
        const int a = i, b = (i + 1) % n;
        const Vec3 normal = (at(b) - at(a)).cross(at(a + n) - at(a)).stableNormalized();
        out.faces.push_back({{normal, normal.dot(at(a))}, {{a, b, b + n, a + n}}, {}});
    }
    return out;
}

Polyhedron solidOf(const RoundPart& round, const ConvexSolid& shape) {
    const bool frustum = shape.kind == ConvexSolid::Kind::hull && round.radius > 0 && round.topRadius > 0;
    if (!frustum) return toPolyhedron(shape, 64); // for its box; distances go by the cell
    return between(shape.points, (round.top - round.base).stableNormalized());
}

} // namespace

PlateSet withRounds(const PlateSet& made, const std::vector<RoundPart>& rounds, double leastBore) {
    PlateSet plates;
    plates.plates = made.plates;
    for (const RoundPart& round : rounds) {
        if (round.top == round.base) continue;
        Plate plate;
        plate.name = round.name;
        plate.form = roundForm + round.name;
        if (isOpen(round, leastBore)) {
            makeStaves(round, plate);
        } else {
            plate.cells = {shapeOf(round)};
            plate.solid = solidOf(round, plate.cells.front());
        }
        plates.plates.push_back(std::move(plate));
    }
    return plates;
}

const RoundPart* formAt(const std::vector<RoundPart>& rounds, const ConvexSolid& cylinder, double off) {
    constexpr double same = 1; // mm
    const Vec3 &from = cylinder.points.front(), axis = (cylinder.points.back() - from).stableNormalized();
    const auto at = std::find_if(rounds.begin(), rounds.end(), [&](const RoundPart& round) {
        const auto beside = [&](const Vec3& p) { return (p - from).cross(axis).norm(); };
        return beside(round.base) < same + off && beside(round.top) < same + off &&
               std::abs(std::max(round.radius, round.topRadius) - cylinder.radius) < same / 2;
    });
    return at == rounds.end() ? nullptr : &*at;
}

bool standsForRound(const Plate& plate) {
    return plate.face < 0 && plate.form.starts_with(roundForm);
}

std::string subjectOf(const Plate& plate) {
    return (standsForRound(plate) ? "form:" : "plate:") + plate.name;
}

} // namespace slab
