#include "core/evaluate/ground.h"
#include "core/evaluate/owners.h"
#include "core/mechanisms/lowest.h"
#include "core/mechanisms/shown.h"
#include <algorithm>

namespace slab {

namespace {

constexpr double lower = 0.5; ///< mm, as groundFindings() counts

bool bent(const Plate& plate, const PartOwner& owner) {
    return owner.kind == "belt" && std::all_of(plate.cells.begin(), plate.cells.end(),
                                               [](const ConvexSolid& c) { return c.points.size() == 8; });
}

/// Middles of the edges along a strip: facets stand on the outside of the true curve and touch it there.
/// @param piece  four corners at one station of the belt, then four at the next
ConvexSolid middlesAlong(const ConvexSolid& piece) {
    ConvexSolid out;
    const std::size_t half = piece.points.size() / 2;
    for (std::size_t i = 0; i < half; ++i)
        out.points.push_back((piece.points[i] + piece.points[i + half]) / 2);
    return out;
}

/// A part of a mechanism or frame as shown.
struct GroundPart {
    LowPart low;
    std::vector<ConvexSolid> pieces;
    int motion = -1; ///< index in MechanismSet::motions
};

std::vector<GroundPart> partsOf(const Evaluation& e, const PartOwners& owners) {
    std::vector<GroundPart> out;
    const auto add = [&](const std::string& name, const std::string& about, const PartOwner& owner,
                         std::vector<ConvexSolid> pieces, int motion) {
        if (pieces.empty()) return;
        const Vec3 at = lowestOver({}, pieces).at;
        out.push_back({{name, about, owner.words(), owner.about, at}, std::move(pieces), motion});
    };
    for (const Plate& plate : e.plates->plates) {
        const auto owner = owners.find(plate.form);
        if (owner == owners.end() || plate.face >= 0) continue; // a form may have a mechanism's name
        std::vector<ConvexSolid> pieces;
        if (bent(plate, owner->second))
            for (const ConvexSolid& piece : plate.cells) pieces.push_back(middlesAlong(piece));
        else if (!plate.solid.vertices.empty())
            pieces.push_back({ConvexSolid::Kind::hull, plate.solid.vertices, 0});
        const CarriedPlates* carried = carriedWith(*e.mechanisms, plate.name);
        add(plate.name, "plate:" + plate.name, owner->second, std::move(pieces),
            carried ? carried->motion : -1);
    }
    for (const BoughtPart& part : boughtParts(*e.mechanisms, *e.body))
        if (const auto owner = owners.find(part.owner);
            owner != owners.end()) // else a round form: the body's
            add(part.name, owner->second.about, owner->second, part.pieces, part.motion);
    return out;
}

const Motion& motionOf(const GroundPart& part, const MechanismSet& set) {
    static const Motion still;
    return part.motion < 0 ? still : set.motions[static_cast<std::size_t>(part.motion)];
}

/// Where its own range takes a part lowest.
LowestPlace lowestOf(const GroundPart& part, const MechanismSet& set, const Pose& after = {}) {
    const Motion& motion = motionOf(part, set);
    const Pose back = inverse(shownPose(motion));
    std::vector<ConvexSolid> home = part.pieces;
    for (ConvexSolid& s : home) s = placedBy(back, std::move(s));
    return lowestOver(motion, home, after);
}

void lowerByRange(GroundPart& part, const MechanismSet& set) {
    if (part.motion < 0) return;
    const LowestPlace low = lowestOf(part, set);
    if (low.at.z() > part.low.at.z() - lower) return;
    part.low.at = low.at;
    part.low.when = poseWords(motionOf(part, set), low.values);
}

Body posedBody(Body body, const Pose& pose) {
    for (Vec3& p : body.skin.vertices) p = pose(p);
    for (FreePlate& plate : body.plates) {
        plate.frame.origin = pose(plate.frame.origin);
        plate.frame.axes = pose.turn * plate.frame.axes;
    }
    for (RoundPart& part : body.rounds) {
        part.base = pose(part.base);
        part.top = pose(part.top);
    }
    return body;
}

/// The shell where it floats lowest.
void lowerByFloating(std::vector<LowPart>& low, const std::vector<GroundPart>& parts, const Evaluation& e) {
    for (const FloatPose& pose : e.mechanisms->floating.poses) {
        const std::string words = floatWords(pose, printLength(std::abs(pose.rise), e.units));
        std::vector<LowPart> there = lowestOf(posedBody(*e.body, pose.shell));
        for (LowPart& part : there) part.when = words;
        for (const GroundPart& part : parts) {
            const LowestPlace place = lowestOf(part, *e.mechanisms, pose.shell);
            there.push_back(part.low);
            there.back().at = place.at;
            there.back().when = words;
            if (part.motion >= 0)
                there.back().when += ", " + poseWords(motionOf(part, *e.mechanisms), place.values);
        }
        for (std::size_t i = 0; i < low.size() && i < there.size(); ++i)
            if (there[i].at.z() <= low[i].at.z() - lower) {
                low[i].at = there[i].at;
                low[i].when = there[i].when;
            }
    }
}

} // namespace

std::vector<Finding> groundFindings(const Project& project, const Evaluation& e) {
    std::vector<LowPart> low = lowestOf(*e.body);
    std::vector<GroundPart> parts = partsOf(e, partOwners(project));
    for (GroundPart& part : parts) {
        lowerByRange(part, *e.mechanisms);
        low.push_back(part.low);
    }
    lowerByFloating(low, parts, e);
    return groundFindings(std::move(low), e.units);
}

} // namespace slab
