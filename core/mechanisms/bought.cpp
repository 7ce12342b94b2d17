// Parts that are bought or found: their room, and how they stand as shown.
#include "core/mechanisms/bought.h"
#include "core/mechanisms/shown.h"
#include <cmath>
#include <numbers>

namespace slab {

namespace {

constexpr int rimFacets = 64;

void addRim(std::vector<Vec3>& out, const Vec3& middle, const Vec3& axis, double radius) {
    if (!(radius > 0)) {
        out.push_back(middle);
        return;
    }
    const Vec3 u = axis.unitOrthogonal(), v = axis.cross(u);
    const double outside = radius / std::cos(std::numbers::pi / rimFacets);
    for (int i = 0; i < rimFacets; ++i) {
        const double a = 2 * std::numbers::pi * i / rimFacets;
        out.push_back(middle + outside * (std::cos(a) * u + std::sin(a) * v));
    }
}

} // namespace

ConvexSolid shapeOf(const RoundPart& round) {
    if (std::abs(round.radius - round.topRadius) <= 1e-9)
        return makeCylinder(round.base, round.top, round.radius);
    const Vec3 axis = (round.top - round.base).stableNormalized();
    ConvexSolid solid;
    addRim(solid.points, round.base, axis, round.radius);
    addRim(solid.points, round.top, axis, round.topRadius);
    return solid;
}

BoughtPart boughtCylinder(const std::string& owner, const std::string& part, const ConvexSolid& cylinder) {
    BoughtPart out;
    out.owner = owner;
    out.name = owner + "/" + part;
    out.pieces = {cylinder};
    const Box3 box = bounds(cylinder);
    out.centre = (box.min + box.max) / 2;
    return out;
}

Box3 bounds(const BoughtPart& part) {
    Box3 box;
    for (std::size_t i = 0; i < part.pieces.size(); ++i)
        box = i == 0 ? bounds(part.pieces[i]) : united(box, bounds(part.pieces[i]));
    return box;
}

std::vector<Vec3> cornersRound(const BoughtPart& part) {
    std::vector<Vec3> out;
    for (const ConvexSolid& piece : part.pieces) {
        if (piece.kind == ConvexSolid::Kind::hull) {
            out.insert(out.end(), piece.points.begin(), piece.points.end());
            continue;
        }
        const Vec3 axis = (piece.points[1] - piece.points[0]).stableNormalized();
        for (const Vec3& middle : piece.points) addRim(out, middle, axis, piece.radius);
    }
    return out;
}

std::vector<BoughtPart> boughtParts(const MechanismSet& set, const Body& body) {
    std::vector<BoughtPart> out = set.bought;
    for (BoughtPart& part : out) {
        if (part.motion < 0) continue;
        const Pose pose = shownPose(set.motions[static_cast<std::size_t>(part.motion)]);
        part.centre = pose(part.centre);
        for (ConvexSolid& piece : part.pieces) piece = placedBy(pose, std::move(piece));
    }
    for (const RoundPart& round : shownRounds(set, body.rounds)) {
        if (round.top == round.base) continue;
        out.push_back(boughtCylinder(round.name, "round", shapeOf(round)));
        out.back().name = round.name;
        if (const CarriedPlates* c = carriedWith(set, round.name)) {
            out.back().on = c->mechanism;
            out.back().motion = c->motion;
        }
    }
    return out;
}

} // namespace slab
