// Mechanisms as they are shown.
#include "core/mechanisms/shown.h"
#include <algorithm>

namespace slab {

namespace {

void placePlate(Plate& plate, const Pose& pose) {
    plate.frame.origin = pose(plate.frame.origin);
    plate.frame.axes = pose.turn * plate.frame.axes;
    plate.solid = moved(plate.solid, pose.turn, pose.shift);
    for (ConvexSolid& cell : plate.cells) cell = placedBy(pose, std::move(cell));
}

} // namespace

PlateSet posed(PlateSet plates, const MechanismSet& set) {
    for (std::size_t i = 0; i < plates.plates.size(); ++i)
        if (const CarriedPlates* c = carriedWith(set, plates.plates[i].name); c && c->motion >= 0) {
            const Pose pose = shownPose(set.motions[static_cast<std::size_t>(c->motion)]);
            if (pose != Pose{}) placePlate(plates.plates.own(i), pose);
        }
    return plates;
}

Pose inverse(const Pose& pose) {
    return {pose.turn.transpose(), -(pose.turn.transpose() * pose.shift)};
}

const CarriedPlates* carriedWith(const MechanismSet& set, const std::string& plate) {
    for (const CarriedPlates& c : set.carried)
        for (const std::string& pattern : c.patterns)
            if (matches(pattern, plate)) return &c;
    return nullptr;
}

ConvexSolid placedBy(const Pose& pose, ConvexSolid solid) {
    for (Vec3& p : solid.points) p = pose(p);
    return solid;
}

std::vector<RoundPart> shownRounds(const MechanismSet& set, std::vector<RoundPart> rounds) {
    for (RoundPart& round : rounds)
        if (const CarriedPlates* c = carriedWith(set, round.name); c && c->motion >= 0) {
            const Pose pose = shownPose(set.motions[static_cast<std::size_t>(c->motion)]);
            round.base = pose(round.base);
            round.top = pose(round.top);
        }
    return rounds;
}

ConvexSolid shownShape(const MechanismSet& set, const MovingSolid& solid) {
    if (solid.motion < 0) return solid.shape;
    return placedBy(shownPose(set.motions[static_cast<std::size_t>(solid.motion)]), solid.shape);
}

std::vector<ShownSolid> shownSolids(const MechanismSet& set) {
    std::vector<ShownSolid> out;
    for (const MovingSolid& s : set.solids) {
        if (!s.drawn) continue;
        const ConvexSolid placed = shownShape(set, s);
        const auto same =
            std::find_if(out.begin(), out.end(), [&](const ShownSolid& o) { return o.name == s.name; });
        if (same == out.end()) {
            out.push_back({s.mechanism, s.name, toPolyhedron(placed, 32)});
            continue;
        }
        const Polyhedron piece = toPolyhedron(placed, 32);
        const int first = static_cast<int>(same->solid.vertices.size());
        same->solid.vertices.insert(same->solid.vertices.end(), piece.vertices.begin(), piece.vertices.end());
        for (PolyFace face : piece.faces) {
            for (auto& loop : face.loops)
                for (int& v : loop) v += first;
            same->solid.faces.push_back(std::move(face));
        }
    }
    return out;
}

} // namespace slab
